"""The cook's kitchen and the food tables, as the physics knows them.

What a food is made of comes from its composition row; plans of recipes and single questions ask
here alike, so that both heat the same food.
"""

from __future__ import annotations

from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics.food_properties import Makeup, from_analysis
from counterproof.physics.places import Place
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.rows import Composition, Tables

WATER: Final = "water & ice"
"""The class of foods that are counted as water."""
LIKE_VEGETABLES: Final[Makeup] = {"water": 0.88, "carbohydrate": 0.12}
"""Makeup of a food whose composition is not known: assumed, most of what is cooked is near it."""
_PARTS: Final = ("water", "protein", "fat", "carbohydrate", "fibre", "ash", "alcohol")
_REPORTED: Final = 50.0  # [g] of 100: less than this does not say what a food is made of


def makeup_of(food: str, tables: Tables) -> Makeup:
    """What a food is made of.

    Parameters
    ----------
    food : str
        Id of a food.
    tables : Tables
        With compositions.

    Returns
    -------
    Makeup
        Fractions by mass, alcohol counted as water; `LIKE_VEGETABLES` where they are not known.
    """
    made_of = tables.composition.get(food)
    known = None if made_of is None else _fractions(made_of)
    return LIKE_VEGETABLES if known is None else known


def is_known(food: str, tables: Tables) -> bool:
    """Whether the tables say what a food is made of.

    Parameters
    ----------
    food : str
        Id of a food.
    tables : Tables
        With compositions.

    Returns
    -------
    bool
        False where `makeup_of` assumes.
    """
    made_of = tables.composition.get(food)
    return made_of is not None and _fractions(made_of) is not None


def _fractions(made_of: Composition) -> Makeup | None:
    """Fractions of what is reported; None where that does not say what the food is made of."""
    grams = {part: getattr(made_of, f"{part}_g") for part in _PARTS}
    if sum(value or 0.0 for part, value in grams.items() if part != "fibre") < _REPORTED:
        return None
    try:
        return from_analysis(grams)
    except OutOfRange:
        return None


def place_of(kitchen: Kitchen) -> Place:
    """Room and height above the sea.

    Parameters
    ----------
    kitchen : Kitchen
        The kitchen.

    Returns
    -------
    Place
        As questions of heat take it.
    """
    return Place(ZERO_CELSIUS + kitchen.room_celsius, kitchen.altitude_m)


def fitting_pot(kitchen: Kitchen, litres: float) -> Vessel | None:
    """The smallest of the cook's pots that holds so much.

    Parameters
    ----------
    kitchen : Kitchen
        With its vessels.
    litres : float
        What is to go in, ≥ 0. [L]

    Returns
    -------
    Vessel or None
        Flat things and jars are no pots; None where no pot with its sizes is named.
    """
    pots = [
        pot
        for pot in kitchen.vessels
        if pot.litres and pot.diameter_m and pot.litres >= litres
        if not any(word in pot.name for word in ("jar", "tray", "tin"))
    ]
    return min(pots, key=lambda pot: pot.litres or 0.0, default=None)
