"""Two measured temperatures and the cold they cool towards: fast enough for the rule, or not.

After Hedeen, Schaffner & Brown (2022): the logarithm of the difference falls at one rate, so two
readings tell it. It needs no model of the vessel.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.answer import Ruling, Verdict
from counterproof.physics.cautions import DEFER
from counterproof.physics.cooling_rules import CoolingRule
from counterproof.physics.values import Draws, smallest
from counterproof.sourced import Sourced

SOURCE: Final = "hedeen-2022"
"""Id of the source of the check."""
MARGIN: Final = Sourced(
    0.1, "1", 0.5, "assumed", "",
    "readings of 1 K, half an hour apart, leave a rate uncertain by a tenth",
)  # fmt: skip


def rate_between(
    first: float | Draws, second: float | Draws, cold: float | Draws, time: float | Draws
) -> float | Draws:
    """Rate at which a food cools, from two readings.

    Parameters
    ----------
    first, second : float or (n,) array
        Temperatures, first > second > cold. [K]
    cold : float or (n,) array
        Temperature it cools towards: measured air of the fridge. [K]
    time : float or (n,) array
        Time between the readings, > 0. [s]

    Returns
    -------
    float or (n,) array
        log₁₀[(T₁ − T_c)/(T₂ − T_c)] over the time. [s⁻¹]

    Raises
    ------
    OutOfRange
        If the readings do not fall towards the cold, or no time lies between them.
    """
    falls = min(smallest(first - second), smallest(second - cold), smallest(time)) > 0.0
    if not falls:
        raise OutOfRange(
            "Two readings tell a rate only if the second is later, lower, and still above the air "
            "around.",
            remedy="Measure again after half an hour, in the middle of the food.",
        )
    rate: float | Draws = np.log10((first - cold) / (second - cold)) / time
    return rate


def rate_needed(rule: CoolingRule, cold: float | Draws) -> float | Draws:
    """Rate that just meets a rule.

    Parameters
    ----------
    rule : CoolingRule
        A rule with a clock.
    cold : float or (n,) array
        Temperature the food cools towards, below the rule's goal. [K]

    Returns
    -------
    float or (n,) array
        log₁₀[(clock − T_c)/(goal − T_c)] over the limit. [s⁻¹]

    Raises
    ------
    OutOfRange
        If the rule has no clock, or the cold is not below its goal.
    """
    if rule.clock is None:
        raise OutOfRange(
            f"“{rule.name}” does not say from which temperature its clock runs.",
            remedy="Ask for a rule with a clock, such as the two-stage rule.",
        )
    return rate_between(rule.clock.value, rule.goal.value, cold, rule.limit.value)


def two_point_verdict(
    rule: CoolingRule, first: float, second: float, cold: float, time: float
) -> Verdict:
    """What two readings say to a rule, if cooling goes on as between them.

    Parameters
    ----------
    rule : CoolingRule
        A rule with a clock above `cold`'s reach.
    first, second : float
        The two readings, first > second > cold. [K]
    cold : float
        Temperature the food cools towards. [K]
    time : float
        Time between the readings. [s]

    Returns
    -------
    Verdict
        within or over if the rate is above or below the needed one by more than a tenth.
    """
    rate, needed = float(rate_between(first, second, cold, time)), np.inf
    if cold < rule.goal.value:
        needed = float(rate_needed(rule, cold))
    decided: Ruling = "too close"
    if rate > needed * (1.0 + MARGIN.value):
        decided = "within"
    elif rate < needed * (1.0 - MARGIN.value):
        decided = "over"
    asked = f"{3600.0 * needed:.3f} are needed" if np.isfinite(needed) else "no rate is enough"
    said = (
        f"Between the last two readings the difference fell by {3600.0 * rate:.3f} decades an hour; "
        f"{asked} from the start of the rule's clock. Read again half an hour later. {DEFER}"
    )
    return Verdict(f"two readings: {rule.name}", decided, said, SOURCE)
