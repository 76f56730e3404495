"""Where a filled vessel is frozen or thawed, and what every such answer says."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.physics import food_properties, frozen
from counterproof.physics import glass as glassware
from counterproof.physics.answer import Curve, Verdict
from counterproof.physics.cold_scene import Filling, Vessel
from counterproof.physics.enthalpy_method import History
from counterproof.physics.flags import Flag, outside
from counterproof.physics.freezing import Passage, Task
from counterproof.physics.surroundings import FLOW, Place, Round, coefficient
from counterproof.physics.values import ZERO_CELSIUS, Draws, Take
from counterproof.sourced import Sourced

_OFTEN: Final = 0.05
_CURVE_POINTS: Final = 60
_ROUGH: Final = 0.05  # an interpolant worse than this is said aloud
SOLVED_BY: Final = ("choi-okos-1986", "ashrae-refrigeration-2006", "churchill-chu-1975")
"""Sources behind every answer of the solver."""
SWING: Final[dict[Place, Sourced]] = {
    "freezer": Sourced(1.0, "1", 0.10, "assumed", "", "freezers stray by 2 °C from their setting"),
    "fridge": Sourced(1.0, "1", 0.25, "assumed", "", "fridges stray by 1 °C from their setting"),
    "counter": Sourced(1.0, "1", 0.07, "assumed", "", "a room strays by 1 to 2 °C over a day"),
    "water": Sourced(1.0, "1", 0.10, "assumed", "", "the water cools between its changes"),
}
"""Difference between the freezing point and the surroundings, real over stated."""


@dataclass(frozen=True, slots=True)
class Around:
    """Surroundings as the solver takes them.

    Parameters
    ----------
    ambient : float or (n,) array
        Temperature. [K]
    coefficient : float or (n,) array
        Heat transfer. [W/(m² K)]
    conducting : float or (n,) array
        Factor on the conductivity of the contents. [1]
    """

    ambient: float | Draws
    coefficient: float | Draws
    conducting: float | Draws


def around(
    place: Place, ambient: float, body: Round, filling: Filling, *, glass: bool, take: Take
) -> Around:
    """Surroundings with what is uncertain about them.

    Parameters
    ----------
    place : Place
        freezer, fridge, counter or water.
    ambient : float
        Its temperature. [K]
    body : Round
        Size of the contents.
    filling : Filling
        The contents.
    glass : bool
        Whether a wall of glass lies between.
    take : Take
        Where draws come from.

    Returns
    -------
    Around
        Temperature, heat transfer, conductivity.
    """
    begins = filling.freezing_point
    # The outside stays between the freezing point and the surroundings, nearer to the former.
    surface = begins + 0.25 * (ambient - begins)
    middle = coefficient(body, surface, ambient, place, glass=glass)
    gap = take(f"{place}|difference", SWING[place])
    flow = take(f"{place}|flow", FLOW)
    conducting = take("food conductivity", food_properties.CONDUCTIVITY_SPREAD)
    return Around(begins + gap * (ambient - begins), middle * flow, conducting)


def shocks(vessel: Vessel, glass: float, meets: float, what: str) -> tuple[Verdict, ...]:
    """What a sudden change of temperature says to a vessel.

    Parameters
    ----------
    vessel : Vessel
        The vessel.
    glass : float
        Its temperature. [K]
    meets : float
        Temperature it is put into. [K]
    what : str
        What happens, as a cook says it.

    Returns
    -------
    tuple of Verdict
        One if it is of glass.
    """
    if vessel.glass is None:
        return ()
    return (glassware.shock(vessel.glass, glass, meets, what),)


def core_curve(history: History) -> Curve:
    """The core's temperature over time, thinned out.

    Parameters
    ----------
    history : History
        A middle case.

    Returns
    -------
    Curve
        At most sixty points.
    """
    count = history.time.shape[0]
    at = np.unique(np.linspace(0, count - 1, min(count, _CURVE_POINTS)).astype(int))
    return Curve.of(history.time[at, 0], history.core[at, 0])


def remarks(task: Task, coldest: float, done: Passage) -> tuple[Flag, ...]:
    """Flags of a freezing or thawing.

    Parameters
    ----------
    task : Task
        What was frozen or thawed.
    coldest : float
        Coldest temperature in it. [K]
    done : Passage
        How it went.

    Returns
    -------
    tuple of Flag
        Ranges that were left; an interpolant worse than 5 %.
    """
    flags = frozen.validity(coldest) + outside(
        "start temperature", task.start, ZERO_CELSIUS - 40.0, ZERO_CELSIUS + 100.0, "°C"
    )
    if done.never > 0.0:
        flags += (
            Flag(
                "may-never",
                f"in {done.never:.1%} of the draws it never gets there; the range leaves them out.",
                "note" if done.never < _OFTEN else "doubt",
            ),
        )
    if done.error > _ROUGH:
        flags += (
            Flag(
                "interpolant",
                f"the surface that carries the draws is off by up to {done.error:.0%}.",
            ),
        )
    return flags
