"""Keeping hot, reheating, standing out, and using what was thawed: rules with their clocks."""

from __future__ import annotations

from typing import Final

from counterproof.physics.answer import Ruling, Verdict
from counterproof.physics.cautions import DEFER
from counterproof.physics.core_temperatures import PROBE
from counterproof.physics.spread import spoken
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.sourced import Sourced

_FSIS: Final = "usda-two-hours"
_UK: Final = "uk-temperature-control"
OUT: Final = Sourced(7200.0, "s", 0.0, _FSIS, "two-hour rule", "perishable food out of the cold")
OUT_IN_HEAT: Final = Sourced(3600.0, "s", 0.0, _FSIS, "two-hour rule", "above 90 °F (32 °C)")
HEAT: Final = Sourced(ZERO_CELSIUS + 32.0, "K", 0.0, _FSIS, "two-hour rule", "90 °F")
HOT_UK: Final = Sourced(ZERO_CELSIUS + 63.0, "K", 0.0, _UK, "hot holding", "")
HOT_UK_BELOW: Final = Sourced(7200.0, "s", 0.0, _UK, "hot holding", "once, below 63 °C")
HOT_US: Final = Sourced(
    ZERO_CELSIUS + 57.0, "K", 0.0, "fda-food-code", "135 °F; danger zone 41–135 °F", ""
)
REHEAT_US: Final = Sourced(
    ZERO_CELSIUS + 165.0 / 1.8 - 32.0 / 1.8, "K", 0.0, "unl-soup", "reheat leftovers", "165 °F"
)
THAWED: Final = Sourced(
    86400.0, "s", 0.0, "uk-core-temperature", "thawed food", "cook within 24 h of thawing"
)
CHILLED_US: Final = Sourced(
    ZERO_CELSIUS + 4.4, "K", 0.0, "us-cold-storage", "refrigerator", "40 °F or below"
)
CHILLED_UK: Final = Sourced(
    ZERO_CELSIUS + 8.0, "K", 0.0, _UK, "chilled limit", "legal limit; 5 °C is recommended"
)
_CLOSE: Final = 0.9  # of a limit that a clock in a kitchen can be trusted to


def _clocked(name: str, time: float, limit: Sourced, what: str, after: str) -> Verdict:
    decided: Ruling = "over" if time > limit.value else "within"
    if _CLOSE * limit.value < time <= limit.value:
        decided = "too close"
    advice = {
        "within": f"{spoken(limit.value - time)} are left.",
        "too close": "The time is all but up.",
        "over": after,
    }[decided]
    said = f"{what} {spoken(time)}; the limit is {spoken(limit.value)}. {advice} {DEFER}"
    return Verdict(name, decided, said, limit.source)


def out_of_the_cold(time: float, room: float) -> Verdict:
    """What the two-hour rule says to food that stands out.

    Parameters
    ----------
    time : float
        All the time it has been out, together. [s]
    room : float
        Warmest temperature around it. [K]

    Returns
    -------
    Verdict
        Against 2 hours, 1 hour above 32 °C; within a tenth of the limit it is too close.
    """
    limit = OUT_IN_HEAT if room > HEAT.value else OUT
    return _clocked(
        "two-hour rule", time, limit, "Out of the cold for", "Throw it away; heating it again does "
        "not undo it.",
    )  # fmt: skip


def since_thawing(time: float) -> Verdict:
    """What the rule for thawed food says.

    Parameters
    ----------
    time : float
        Time since it was thawed through, in the fridge. [s]

    Returns
    -------
    Verdict
        Against 24 hours.
    """
    return _clocked(
        "use of thawed food", time, THAWED, "Thawed for", "Do not freeze it again; ask your food "
        "authority whether to keep it.",
    )  # fmt: skip


def kept_hot(temperature: float, below: float = 0.0, authority: str = "us") -> Verdict:
    """What the rule for keeping food hot says.

    Parameters
    ----------
    temperature : float
        Coldest temperature of the food. [K]
    below : float
        Time it has been below the limit. [s]
    authority : str
        us (57 °C) or uk (63 °C, once up to 2 hours below).

    Returns
    -------
    Verdict
        By temperature, and in the UK by the time below it.
    """
    limit = HOT_UK if authority == "uk" else HOT_US
    celsius = limit.value - ZERO_CELSIUS
    lead = f"Food kept hot stays at {celsius:.0f} °C or above; it is at "
    lead += f"{temperature - ZERO_CELSIUS:.0f} °C."
    margin = temperature - limit.value
    if margin >= PROBE.value:
        said = f"{lead} Keep measuring. {DEFER}"
        return Verdict("hot holding", "within", said, limit.source)
    if margin > -PROBE.value:
        said = f"{lead} That is within the probe's own error: turn it up. {DEFER}"
        return Verdict("hot holding", "too close", said, limit.source)
    if authority == "uk":
        return _clocked(
            "hot holding",
            below,
            HOT_UK_BELOW,
            f"{lead} Below it for",
            "Throw it away.",
        )
    said = f"{lead} Too cold: reheat it if it has not been below long, or cool it fast. {DEFER}"
    return Verdict("hot holding", "over", said, limit.source)


def reheated(temperature: float) -> Verdict:
    """What the rule for reheating says.

    Parameters
    ----------
    temperature : float
        Coldest temperature measured in the reheated food. [K]

    Returns
    -------
    Verdict
        Against 74 °C (165 °F).
    """
    margin = temperature - REHEAT_US.value
    decided: Ruling = "within" if margin >= PROBE.value else "too close"
    if margin < -PROBE.value:
        decided = "over"
    advice = {
        "within": "It is there, by this probe.",
        "too close": "That is within the probe's own error: heat it on.",
        "over": "It falls short: heat it on, stir, measure again.",
    }[decided]
    said = (
        f"Leftovers are reheated to {REHEAT_US.value - ZERO_CELSIUS:.0f} °C all through; "
        f"{temperature - ZERO_CELSIUS:.0f} °C was measured. {advice} {DEFER}"
    )
    return Verdict("reheating", decided, said, REHEAT_US.source)


def fridge_setting(temperature: float, authority: str = "us") -> Verdict:
    """What the rule for a fridge's temperature says.

    Parameters
    ----------
    temperature : float
        Warmest temperature measured in it. [K]
    authority : str
        us (4.4 °C, 40 °F) or uk (8 °C by law, 5 °C recommended).

    Returns
    -------
    Verdict
        Against the authority's limit.
    """
    limit = CHILLED_UK if authority == "uk" else CHILLED_US
    margin = limit.value - temperature
    decided: Ruling = "within" if margin >= PROBE.value else "too close"
    if margin < -PROBE.value:
        decided = "over"
    advice = {
        "within": "Keep measuring at its warmest place.",
        "too close": "Turn it down a little.",
        "over": "Turn it down and measure again before trusting it.",
    }[decided]
    said = (
        f"A fridge is kept at {limit.value - ZERO_CELSIUS:.0f} °C or below; "
        f"{temperature - ZERO_CELSIUS:.1f} °C was measured. {advice} {DEFER}"
    )
    return Verdict("fridge temperature", decided, said, limit.source)
