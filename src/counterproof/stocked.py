"""Foods as price and pantry files name them: which food is meant, and what a pack of it weighs."""

from __future__ import annotations

from typing import Final

from counterproof.errors import BrokenSettings
from counterproof.reading.foods import Matcher
from counterproof.recipe.prices_file import PackSize
from counterproof.rows import Food, Tables

CERTAIN: Final = 0.9
"""Certainty from which a name in such a file is taken for a food. [1] Assumed, stricter than
for a recipe line, since nobody sees it marked up."""


def stocked_food(name: str, matcher: Matcher, file: str | None, line: int | None) -> Food:
    """The food that a name in a price or pantry file stands for.

    Parameters
    ----------
    name : str
        As written.
    matcher : Matcher
        Over the food table.
    file, line : str or None, int or None
        Where it stands, for messages.

    Returns
    -------
    Food
        Known for certain.

    Raises
    ------
    BrokenSettings
        If it is no food that is known for certain; it names the line and what is near.
    """
    match = matcher.match(name)
    if match.food is not None and match.certainty >= CERTAIN:
        return match.food
    near = [runner.food.name for runner in match.runners_up]
    near = ([match.food.name] if match.food else []) + near
    near += [food.name for food in matcher.nearest(name) if food.name not in near]
    raise BrokenSettings(
        f"“{name}” is no food that is known here for certain.",
        remedy=f"Write its name: {', '.join(near[:4])}."
        if near
        else "Look its name up with: counterproof foods WORDS.",
        file=file,
        line=line,
    )


def stocked_mass(
    food: Food, pack: PackSize, tables: Tables, file: str | None, line: int | None
) -> float:
    """Mass of a pack in a price or pantry file.

    Parameters
    ----------
    food : Food
        What is in it.
    pack : PackSize
        How much of it.
    tables : Tables
        Densities, household weights, edible shares.
    file, line : str or None, int or None
        Where it stands, for messages.

    Returns
    -------
    float
        As it is bought. [kg]

    Raises
    ------
    BrokenSettings
        If no weight is known for it; it names the line.
    """
    kg = mass_as_bought(food, pack, tables)
    if kg is None:
        raise BrokenSettings(
            f"No weight is known for this pack of {food.name}.",
            remedy="Write the pack's weight, such as 400 g, as it is printed on it.",
            file=file,
            line=line,
        )
    return kg


def mass_as_bought(food: Food, pack: PackSize, tables: Tables) -> float | None:
    """Mass of a pack as it is bought.

    Parameters
    ----------
    food : Food
        What is in it.
    pack : PackSize
        How much of it.
    tables : Tables
        Densities, household weights, edible shares.

    Returns
    -------
    float or None
        With peel, bones, the liquid of a tin; None where no weight is known. [kg]
    """
    if pack.kind == "mass":
        return pack.amount
    if pack.kind == "volume":
        density = next((row for row in tables.densities.get(food.id, ()) if not row.form), None)
        return None if density is None else pack.amount * 1000 * density.kg_per_litre
    weights = [
        row
        for row in tables.household.get(food.id, ())
        if row.measure == pack.measure and not row.form and row.size in {"", "medium"}
    ]
    if not weights:
        return None
    row = weights[0]
    edible = tables.edible.get(food.id)
    share = 1.0 if row.as_bought or edible is None else edible.share
    return pack.amount * row.kg / share
