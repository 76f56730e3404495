"""The names by which a recipe's versions, and what is bought instead of it, are asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterproof.errors import UnknownVersion
from counterproof.reading.bought import BOUGHT

if TYPE_CHECKING:
    from counterproof.recipe.model import Bought, Recipe, Version


def names_beside(recipe: Recipe) -> tuple[str, ...]:
    """Names of what stands beside a recipe: its versions, then what is bought instead.

    Parameters
    ----------
    recipe : Recipe
        The recipe.

    Returns
    -------
    tuple of str
        Each of which may be asked for.
    """
    names = tuple(version.name for version in recipe.versions)
    return names if recipe.bought is None or BOUGHT in names else (*names, BOUGHT)


def version_named(recipe: Recipe, name: str | None) -> Version | None:
    """The version of a recipe that is asked for.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    name : str or None
        Of the version; None for the recipe itself.

    Returns
    -------
    Version or None
        None for the recipe itself.

    Raises
    ------
    UnknownVersion
        If the recipe has no version of that name.
    """
    if name is None:
        return None
    for version in recipe.versions:
        if version.name == name:
            return version
    names = ", ".join(names_beside(recipe)) or "none"
    raise UnknownVersion(
        f"“{recipe.title}” has no version “{name}”; its versions are: {names}.",
        remedy="Ask for one of these, or add it under versions: in the recipe.",
        file=recipe.file,
    )


def bought_under(recipe: Recipe, name: str | None) -> Bought | None:
    """What is bought instead, where a name asks for that: a version's own, or the recipe's.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    name : str or None
        Of what stands beside it; None for the recipe itself.

    Returns
    -------
    Bought or None
        None where something is cooked.
    """
    for version in recipe.versions:
        if version.name == name:
            return version.bought
    return recipe.bought if name == BOUGHT else None
