"""The pantry file: what is in the house already, so that it need not be bought."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import BeforeValidator

from counterproof.recipe.prices_file import Day, PackSize, pack_size
from counterproof.recipe.settings import Settings, settings_file
from counterproof.recipe.values import Words


@dataclass(frozen=True, slots=True)
class InPantry:
    """A food that is in the house.

    Parameters
    ----------
    food : str
        Its name, as a recipe would write it.
    amount : PackSize or None
        How much of it, as it was bought; None where there is enough of it.
    line : int or None
        Line of the file.
    """

    food: str
    amount: PackSize | None = None
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Pantry:
    """A pantry file."""

    foods: tuple[InPantry, ...] = ()
    file: str | None = None


class InPantrySettings(Settings):
    """One food of the pantry."""

    food: Words
    amount: Annotated[PackSize, BeforeValidator(pack_size)] | None = None
    date: Day | None = None


class PantrySettings(Settings):
    """Everything a pantry file may say."""

    pantry: tuple[InPantrySettings, ...] = ()


def read_pantry(yaml_text: str, file: str | None = None) -> Pantry:
    """Read a pantry file.

    Parameters
    ----------
    yaml_text : str
        The file's text.
    file : str or None
        Its name, for messages.

    Returns
    -------
    Pantry
        What is in the house.

    Raises
    ------
    BrokenSettings
        If it is no YAML, if a key is not known, or if a value cannot be used; all at once.
    """
    said, tree = settings_file(PantrySettings, yaml_text, file, "the pantry")
    return Pantry(
        tuple(
            InPantry(one.food, one.amount, tree.line(("pantry", at)))
            for at, one in enumerate(said.pantry)
        ),
        file,
    )
