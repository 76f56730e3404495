"""How an amount is spread over pots and rounds, none fuller than a pot may be that is to boil."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import Any, Final

from counterproof.kitchen_physics import fitting_pot
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.scene import Scene
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Vessel
from counterproof.rows import Tables
from counterproof.sourced import Sourced

FULL: Final = Sourced(
    0.75, "1", 0.1, "assumed", "", "how full a pot may be that is to boil: room to rise and to stir"
)
_SMALL: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Split:
    """How the amount is spread over pots and rounds.

    Parameters
    ----------
    pots : int
        How many pots are cooked in all. [1]
    at_once : int
        How many stand on the hobs at once. [1]
    vessel : Vessel or None
        What each is cooked in; None where the kitchen names none.
    litres : float
        What one pot holds at its fullest. [L]
    room : float or None
        What it holds brimful. [L]
    """

    pots: int
    at_once: int
    vessel: Vessel | None
    litres: float
    room: float | None

    @property
    def rounds(self) -> int:
        """How often the hobs are used one after the other. [1]"""
        return ceil(self.pots / self.at_once)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            "pots": self.pots,
            "at_once": self.at_once,
            "rounds": self.rounds,
            "vessel": None if self.vessel is None else self.vessel.name,
            "litres_each": self.litres,
            "holds_litres": self.room,
        }


def fullest(reading: Reading, tables: Tables) -> float:
    """What the pot holds at its fullest.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    tables : Tables
        Composition of the foods.

    Returns
    -------
    float
        0 where nothing is cooked on the hob. [L]
    """
    scene = Scene.of(reading, tables)
    most = 0.0
    for step in reading.steps:
        if any(process.appliance == "hob" for process in step.processes):
            contents = scene.contents(scene.in_pot(step))
            if contents.mass:
                most = max(most, 1000.0 * float(contents.volume(ZERO_CELSIUS + 20.0)))
    return most


def split_over(
    litres: float, reading: Reading, *, room: float | None, stations: int | None, hobs: int | None
) -> Split:
    """How so much is spread over pots and rounds.

    Parameters
    ----------
    litres : float
        All of it at its fullest. [L]
    reading : Reading
        With the kitchen's vessels.
    room : float or None
        What the pot asked for holds brimful; None for the kitchen's own. [L]
    stations : int or None
        How many cook it side by side; None for as few pots as will do.
    hobs : int or None
        How many rings there are; None for one a pot.

    Returns
    -------
    Split
        No pot fuller than it may be that is to boil.
    """
    kitchen = reading.kitchen
    asked = room
    if room is None:
        largest = max(
            (one for one in kitchen.vessels if fitting_pot(kitchen, one.litres or 0.0) is one),
            key=lambda one: one.litres or 0.0,
            default=None,
        )
        room = None if largest is None else largest.litres
    pots = stations or 1
    if room is not None and litres > 0.0:
        fits = ceil(litres / (FULL.value * room) - _SMALL)
        pots = max(pots * ceil(fits / pots - _SMALL), 1) if stations else max(fits, 1)
    each = litres / pots
    vessel = fitting_pot(kitchen, each / FULL.value) if asked is None else None
    at_once = min(pots, hobs or kitchen.rings or (pots if stations else 1))
    return Split(pots, max(at_once, 1), vessel, each, vessel.litres if vessel else room)
