"""The season file: what all episodes of a season have in common."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from counterproof.errors import BrokenSettings
from counterproof.recipe.kitchen_file import Region
from counterproof.recipe.settings import Settings, Tree, checked, yaml_tree
from counterproof.recipe.values import Number, Words, between, one_of


@dataclass(frozen=True, slots=True)
class Season:
    """A season.

    Parameters
    ----------
    title : str
        What it is called.
    audience : tuple of str
        Regions the audience lives in, in which claims must hold.
    kitchen : str or None
        Path of the kitchen file, from the season's folder.
    middle : str or None
        mean or median, unless the kitchen says.
    range_for : str or None
        one-purchase or the-average, unless the kitchen says.
    draws, seed : int or None
        How many draws, and from which seed.
    file : str or None
        Where it was read.
    """

    title: str
    audience: tuple[str, ...] = ()
    kitchen: str | None = None
    middle: str | None = None
    range_for: str | None = None
    draws: int | None = None
    seed: int | None = None
    file: str | None = None


class Method(Settings):
    """How figures are worked out in every episode."""

    middle: Annotated[str, one_of("mean", "median")] | None = None
    range_for: Annotated[str, one_of("one-purchase", "the-average")] | None = None
    draws: Annotated[Number, between(100, 1_000_000, "draws")] | None = None
    seed: Annotated[Number, between(0, 2**63, "")] | None = None


class SeasonSettings(Settings):
    """Everything a season file may say."""

    title: Words
    audience: tuple[Region, ...] | None = None
    kitchen: Words | None = None
    method: Method | None = None


def read_season(yaml_text: str, file: str | None = None) -> Season:
    """Read a season file.

    Parameters
    ----------
    yaml_text : str
        The file's text.
    file : str or None
        Its name, for messages.

    Returns
    -------
    Season
        The season.

    Raises
    ------
    BrokenSettings
        If it is no YAML, if a key is not known, or if a value cannot be used; all at once.
    """
    text = yaml_text.removeprefix("\ufeff")
    tree = yaml_tree(text, error=BrokenSettings, file=file, first_line=1)
    if isinstance(tree.values.get("audience"), str):
        tree = Tree({**tree.values, "audience": [tree.values["audience"]]}, tree.lines)
    said, unknown = checked(
        SeasonSettings, tree, error=BrokenSettings, file=file, what="the season"
    )
    if unknown:
        raise BrokenSettings(
            " ".join(key.sentence() for key in unknown),
            remedy="Correct the key or leave it out.",
            file=file,
            line=min((key.line for key in unknown if key.line), default=None),
        )
    method = said.method or Method()
    return Season(
        title=said.title,
        audience=said.audience or (),
        kitchen=said.kitchen,
        middle=method.middle,
        range_for=method.range_for,
        draws=None if method.draws is None else int(method.draws),
        seed=None if method.seed is None else int(method.seed),
        file=file,
    )
