"""Rules for cooling cooked food, as data, and what they say to a modelled time.

A verdict is *within* only if even the slow end of the model (95th percentile) is under the
limit, *over* only if even the fast end (5th) is above it, *too close* between, *no rule* where none
was found. No verdict promises anything: the rule may not fit the food, and the model is not a
thermometer.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import isfinite
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

from counterproof.physics.answer import Ruling, Verdict
from counterproof.physics.spread import Spread, spoken
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

Known = Literal["read", "from memory"]
ASK: Final = "keep it cold, use it soon, ask your food authority"
NO_RULE: Final = f"No rule was found for this: {ASK}."


@dataclass(frozen=True, slots=True)
class CoolingRule:
    """A limit on the time between two temperatures.

    Parameters
    ----------
    name : str
        What it is called here.
    clock : Sourced or None
        Temperature at which the clock starts; None for the start of cooling. [K]
    goal : Sourced
        Temperature to reach. [K]
    limit : Sourced
        Time allowed. [s]
    known : Known
        Whether the text was read, or is quoted from memory.
    """

    name: str
    clock: Sourced | None
    goal: Sourced
    limit: Sourced
    known: Known = "read"

    @property
    def source(self) -> str:
        """Id of the source."""
        return self.limit.source


def _at(celsius: float, source: str, locator: str, note: str = "") -> Sourced:
    return Sourced(ZERO_CELSIUS + celsius, "K", 0.0, source, locator, note)


def _within(hours: float, source: str, locator: str, note: str = "") -> Sourced:
    return Sourced(3600.0 * hours, "s", 0.0, source, locator, note)


_FDA: Final = "fda-food-code"
_STARTS: Final = _at(57.0, _FDA, "3-501.14(A)", "135 °F")
FIRST_STAGE: Final = CoolingRule(
    "two-stage cooling, first stage",
    _STARTS,
    _at(21.0, _FDA, "3-501.14(A)(1)", "70 °F"),
    _within(2.0, _FDA, "3-501.14(A)(1)"),
)
BOTH_STAGES: Final = CoolingRule(
    "two-stage cooling, in all",
    _STARTS,
    _at(5.0, _FDA, "3-501.14(A)(2)", "41 °F or less"),
    _within(6.0, _FDA, "3-501.14(A)(2)"),
)
MADE_COLD: Final = CoolingRule(
    "food made from room-temperature ingredients",
    None,
    _at(5.0, _FDA, "3-501.14(B)", "41 °F or less"),
    _within(4.0, _FDA, "3-501.14(B)"),
)
_VICTORIA: Final = "victoria-cooling"
_FROM_SIXTY: Final = _at(
    60.0, "assumed", "", "the page read names no start; 60 °C is the national standard's, from memory"
)  # fmt: skip
VICTORIA_FIRST: Final = CoolingRule(
    "Victoria, Australia: first two hours",
    _FROM_SIXTY,
    _at(21.0, _VICTORIA, "cooling food"),
    _within(2.0, _VICTORIA, "cooling food"),
)
VICTORIA_NEXT: Final = CoolingRule(
    "Victoria, Australia: next four hours",
    _at(21.0, _VICTORIA, "cooling food"),
    _at(5.0, _VICTORIA, "cooling food", "below 5 °C"),
    _within(4.0, _VICTORIA, "cooling food"),
)
UK_COOLING: Final = CoolingRule(
    "UK guidance: chilled within 90 minutes",
    None,
    _at(8.0, "uk-temperature-control", "chilled limit", "legal limit 8 °C; 5 °C is recommended"),
    _within(
        1.5, "uk-temperature-control", "cooling",
        "90 minutes is widely quoted, from memory; consumer advice read says 1–2 hours",
    ),
    "from memory",
)  # fmt: skip

RULES: Final[Mapping[str, tuple[CoolingRule, ...]]] = MappingProxyType(
    {
        "us": (FIRST_STAGE, BOTH_STAGES),
        "victoria": (VICTORIA_FIRST, VICTORIA_NEXT),
        "uk": (UK_COOLING,),
    }
)
"""Rules for cooked food by authority; which one binds is for the cook's own food authority."""

DANGER_ZONE: Final = (_STARTS, BOTH_STAGES.goal)
"""Between these the Food Code counts time: 57 to 5 °C (135 to 41 °F)."""


def rules_for(
    authorities: tuple[str, ...], start: float, room: float, *, was_hot: bool = False
) -> tuple[CoolingRule, ...]:
    """The rules that apply.

    Parameters
    ----------
    authorities : tuple of str
        Keys of `RULES`; an unknown one has no rules.
    start : float
        Temperature at the start. [K]
    room : float
        Temperature of the room. [K]
    was_hot : bool
        Whether it is known to have been hot before.

    Returns
    -------
    tuple of CoolingRule
        For food no warmer than the room that was never hot, the US rule for food made cold in
        place of the two-stage one; others say nothing about it.
    """
    if start <= room and not was_hot:
        return (MADE_COLD,) if "us" in authorities else ()
    return tuple(rule for authority in authorities for rule in RULES.get(authority, ()))


def ruling(time: Spread, limit: float) -> Ruling:
    """What a limit says to a modelled time.

    Parameters
    ----------
    time : Spread
        The modelled time. [s]
    limit : float
        The time allowed. [s]

    Returns
    -------
    Ruling
        within if the 95th percentile is under the limit, over if the 5th is above it, too close
        between.
    """
    if time.p95 < limit:
        return "within"
    return "over" if time.p05 > limit else "too close"


_ADVICE: Final[Mapping[Ruling, str]] = MappingProxyType(
    {
        "within": "Within the limit as modelled; a thermometer tells whether it is.",
        "too close": "Too close to call: measure it, or cool it faster.",
        "over": "Over the limit, even at the fast end of the model: cool it faster.",
    }
)


_USED_UP: Final = (
    "The time allowed is used up: what has stayed warm too long is thrown away, not reheated."
)


def verdict(
    rule: CoolingRule, time: Spread, start: float, *, already: float | None = 0.0
) -> Verdict:
    """What a rule says to a modelled cooling.

    Parameters
    ----------
    rule : CoolingRule
        The rule.
    time : Spread
        Modelled time from the rule's clock, or from `start` if that is lower, to its goal. [s]
    start : float
        Temperature at the start of the model. [K]
    already : float or None
        Time since the food passed the rule's clock, where the model starts below it; None if
        nobody knows. [s]

    Returns
    -------
    Verdict
        With the limit, the modelled time and what to do.
    """
    late = rule.clock is not None and start < rule.clock.value
    counted = time.shifted(already) if late and already is not None else time
    decided = ruling(counted, rule.limit.value)
    said = _said(rule, counted, start)
    if late and already is None:
        if decided == "within":
            decided = "too close"
        said += " The time before the start counts too, and is not known."
    used_up = late and already is not None and already >= rule.limit.value
    said = f"{said} {_USED_UP if used_up else _ADVICE[decided]}"
    if rule.known == "from memory":
        said += " The limit is quoted from memory: ask your food authority."
    return Verdict(rule.name, decided, said, rule.source)


def _said(rule: CoolingRule, time: Spread, start: float) -> str:
    begins = start if rule.clock is None else min(start, rule.clock.value)
    path = f"{begins - ZERO_CELSIUS:.0f} to {rule.goal.value - ZERO_CELSIUS:.0f} °C"
    limit = f"the limit is {spoken(rule.limit.value)} ({rule.limit.locator})"
    if not isfinite(time.p50):
        lead = f"{path}: as it stands it does not get there"
        if isfinite(time.p05):
            lead = f"{path}: {spoken(time.p05)} at best, and it may never get there"
    elif not isfinite(time.p95):
        lead = f"{path}: about {spoken(time.p50)}, and it may never get there"
    else:
        lead = f"{path}: {spoken(time.p05)} to {spoken(time.p95)}, about {spoken(time.p50)}"
    return f"{lead}; {limit}."
