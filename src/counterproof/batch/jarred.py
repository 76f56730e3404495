"""Jars filled to the line that leaves room for ice, and what a recipe makes to fill them."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Any, Final

from counterproof.batch.planned import contents_made, density_of, makeup_made
from counterproof.physics.cold_scene import Filling
from counterproof.physics.headspace import Fill, Jar, expansion, fill
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.model import Plan
from counterproof.reading.model import Reading
from counterproof.rows import Tables
from counterproof.sourced import Sourced

SHAPE: Final = Sourced(
    0.6, "1", 0.2, "assumed", "", "a straight jar's diameter over its height, where no jar is named"
)


@dataclass(frozen=True, slots=True)
class Jars:
    """Jars to be filled, and how far.

    Parameters
    ----------
    count : int
        How many. [1]
    volume : float
        Brimful. [m³]
    filled : Fill
        To the freeze line.
    """

    count: int
    volume: float
    filled: Fill

    @property
    def litres(self) -> float:
        """All of them, filled. [L]"""
        return 1000.0 * self.count * self.filled.line

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            "count": self.count,
            "litres_brimful": 1000.0 * self.volume,
            "litres_each": 1000.0 * self.filled.line,
            "free_ml": 1e6 * self.filled.free,
            "free_depth_m": self.filled.depth,
            "rule": self.filled.rule,
            "litres": self.litres,
        }


def jars_of(
    count: int, volume: float, reading: Reading, plan: Plan, tables: Tables, *, sugar: float = 0.0
) -> Jars:
    """Jars filled to the line that leaves room for ice.

    Parameters
    ----------
    count : int
        How many, ≥ 1. [1]
    volume : float
        Of one, brimful, > 0. [m³]
    reading : Reading
        The recipe as understood.
    plan : Plan
        Its plan.
    tables : Tables
        Composition of the foods.
    sugar : float
        Share of sugar in what is filled in: it sets where ice begins. [1]

    Returns
    -------
    Jars
        With their freeze line.
    """
    kitchen = reading.kitchen
    named = [
        one
        for one in kitchen.vessels
        if one.litres
        and one.diameter_m
        and "jar" in one.name
        and abs(one.litres / 1000.0 - volume) < 0.05 * volume
    ]
    diameter = named[0].diameter_m if named else (4.0 * volume * SHAPE.value / pi) ** (1 / 3)
    makeup = makeup_made(contents_made(reading, plan, tables))
    start = ZERO_CELSIUS + kitchen.fridge_celsius
    end = ZERO_CELSIUS + kitchen.freezer_celsius
    freezes = Filling(makeup=makeup, sugar=sugar).freezing_point
    swelling = expansion(makeup, freezes, start, end)
    return Jars(count, volume, fill(Jar(volume, diameter or 0.08), swelling))


def litres_of(reading: Reading, plan: Plan, tables: Tables) -> float | None:
    """What the recipe makes, by its own plan.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan
        Its plan.
    tables : Tables
        Composition of the foods.

    Returns
    -------
    float or None
        None where nothing of it is weighed. [L]
    """
    contents = contents_made(reading, plan, tables)
    density = density_of(contents)
    return None if density is None else 1000.0 * float(contents.mass) / density
