"""The cook's kitchen and the food tables, as the physics knows them.

What a food is made of comes from its composition row; plans of recipes and single questions ask
here alike, so that both heat the same food.
"""

from __future__ import annotations

from typing import Final

from counterproof.physics.food_properties import Makeup
from counterproof.physics.places import Place
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.rows import Composition, Tables

WATER: Final = "water & ice"
"""The class of foods that are counted as water."""
LIKE_VEGETABLES: Final[Makeup] = {"water": 0.88, "carbohydrate": 0.12}
"""Makeup of a food whose composition is not known: assumed, most of what is cooked is near it."""
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
    """Fractions of what is reported; None where too little is."""
    fibre = made_of.fibre_g or 0.0
    reported = {
        "water": (made_of.water_g or 0.0) + (made_of.alcohol_g or 0.0),
        "protein": made_of.protein_g or 0.0,
        "fat": made_of.fat_g or 0.0,
        "carbohydrate": max((made_of.carbohydrate_g or 0.0) - fibre, 0.0),
        "fibre": fibre,
        "ash": made_of.ash_g or 0.0,
    }
    total = sum(reported.values())
    if total < _REPORTED:
        return None
    return {name: share / total for name, share in reported.items() if share}


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
