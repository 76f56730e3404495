"""The season file: what all episodes of a season have in common."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from counterproof.recipe.kitchen_file import Region
from counterproof.recipe.settings import Settings, settings_file
from counterproof.recipe.settings_tree import Tree
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


def _shaped(tree: Tree) -> Tree:
    """One region of the audience stands without a list."""
    said = tree.values.get("audience")
    return Tree({**tree.values, "audience": [said]}, tree.lines) if isinstance(said, str) else tree


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
    said, _ = settings_file(SeasonSettings, yaml_text, file, "the season", _shaped)
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
