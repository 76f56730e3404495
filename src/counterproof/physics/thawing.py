"""Thawing beside the enthalpy method: heat it takes, the microwave oven, what else may be done.

On the counter is never planned: the outside is warm for hours before the ice has gone. Its time
is told so that people see why.
"""

from __future__ import annotations

from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics import frozen
from counterproof.physics.food_properties import Makeup
from counterproof.physics.microwave import Microwave, Microwaved, microwaved
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, smallest
from counterproof.sourced import Sourced

DEFROST: Final = Sourced(
    0.3, "1", 0.25, "assumed", "", "defrost setting over the rated output: 0.2 to 0.4; ovens differ"
)
ICE_TAKES: Final = Sourced(
    0.6, "1", 0.25, "assumed", "",
    "what frozen food takes up over what the same wet food does: ice lets microwaves through; no "
    "measured source found",
)  # fmt: skip
WATER_CHANGED: Final = Sourced(
    1800.0, "s", 0.0, "usda-thawing", "cold-water thawing: change the water every 30 minutes", ""
)


def thawing_heat(
    of: Makeup, freezing_point: float, start: float, end: float | None = None
) -> float:
    """Heat that thaws a kilogram of food.

    Parameters
    ----------
    of : Makeup
        What it is made of, unfrozen.
    freezing_point : float
        Where the last ice goes. [K]
    start : float
        Temperature of the frozen food, below the freezing point. [K]
    end : float or None
        Temperature at the end; None for the freezing point. [K]

    Returns
    -------
    float
        Heat. [J/kg]

    Raises
    ------
    OutOfRange
        If it is not frozen at the start, or the end is below the freezing point.
    """
    last = freezing_point if end is None else end
    if not start < freezing_point <= last:
        raise OutOfRange(
            f"At {start - ZERO_CELSIUS:.3g} °C this is not frozen; it freezes at "
            f"{freezing_point - ZERO_CELSIUS:.3g} °C.",
            remedy="Give a temperature from the freezer.",
        )
    there = frozen.enthalpy(of, last, freezing_point)
    return float(there - frozen.enthalpy(of, start, freezing_point))


def microwave_thaw(
    heat: float | Draws,
    mass: float | Draws,
    oven: Microwave,
    defrost: float | Draws = DEFROST.value,
    takes: float | Draws = ICE_TAKES.value,
) -> Microwaved:
    """Thawing in a microwave oven.

    Parameters
    ----------
    heat : float or (n,) array
        Heat it takes, > 0. [J]
    mass : float or (n,) array
        The food, > 0. [kg]
    oven : Microwave
        The oven, its output that of full power. [W]
    defrost : float or (n,) array
        Output at the setting used over full power, above 0, at most 1. [1]
    takes : float or (n,) array
        What frozen food takes up over what wet food does. [1]

    Returns
    -------
    Microwaved
        Time and electricity; what ice lets through heats the oven.

    Raises
    ------
    OutOfRange
        If the oven is off, or its setting is more than all.
    """
    if smallest(oven.output, defrost, takes) <= 0.0 or largest(defrost) > 1.0:
        raise OutOfRange(
            "A microwave oven thaws with some of its power.",
            remedy="Give its rated output, and a setting above 0 and at most 1.",
        )
    weak = Microwave(oven.output * defrost * takes, oven.efficiency * takes, oven.dish, oven.small)
    return microwaved(heat, mass, weak)
