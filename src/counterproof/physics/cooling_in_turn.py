"""A dish that cools in one place after another: on the counter, then in the fridge.

Each stay is a question of its own (`cooling_scene.run`) that ends at a temperature; the times of
a rule's path are added up end by end, since what makes one stay slow makes the next slow too. A
dish is taken to be evenly warm when it is moved: ladling, filling and carrying stir it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterproof.physics.answer import Ruling, Verdict, printed
from counterproof.physics.cooling_changes import Change, Limit, changes
from counterproof.physics.cooling_lanes import ENDS
from counterproof.physics.cooling_rules import CoolingRule, ruling, verdict
from counterproof.physics.cooling_scene import Dish, Spot, run
from counterproof.physics.spread import Spread
from counterproof.physics.values import ZERO_CELSIUS

COURSE: Final = 24
"""Steps of temperature in which the way down is told. [1] A house choice."""

_WORST: Final[tuple[Ruling, ...]] = ("over", "too close", "within", "no rule")


@dataclass(frozen=True, slots=True)
class Stay:
    """One place in which a dish cools.

    Parameters
    ----------
    dish : Dish
        What cools, and in what.
    spot : Spot
        Where.
    until : float or None
        Temperature at which it is moved on; None for the last stay. [K]
    """

    dish: Dish
    spot: Spot
    until: float | None = None


@dataclass(frozen=True, slots=True)
class InTurn:
    """What the rules say to a dish that cools in one place after another.

    Parameters
    ----------
    rules : tuple of CoolingRule
        Those asked.
    times : tuple of Spread
        Of each rule's path. [s]
    verdicts : tuple of Verdict
        Of each rule.
    to_goal : Spread
        From the start to the lowest goal. [s]
    would_pass : tuple of Change
        What would keep every rule; empty where all are kept or nothing passes.
    course : tuple of (float, Spread)
        Temperatures on the way down, falling, and the time from the start to each. [K, s]
    """

    rules: tuple[CoolingRule, ...]
    times: tuple[Spread, ...]
    verdicts: tuple[Verdict, ...]
    to_goal: Spread
    would_pass: tuple[Change, ...]
    course: tuple[tuple[float, Spread], ...] = ()

    @property
    def worst(self) -> int:
        """Place of the rule that decides: the first one with the gravest verdict."""
        found = [each.verdict for each in self.verdicts]
        return found.index(min(found, key=_WORST.index))

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            "spans": [
                {
                    "rule": rule.name,
                    "verdict": said.verdict,
                    "message": said.message,
                    "source": said.source,
                    "to_celsius": rule.goal.value - ZERO_CELSIUS,
                    "limit_s": rule.limit.value,
                    "seconds": printed(time.to_dict()),
                }
                for rule, time, said in zip(self.rules, self.times, self.verdicts, strict=True)
            ],
            "would_pass": [change.to_dict() for change in self.would_pass],
        }


def in_turn(
    stays: Sequence[Stay], start: float, rules: Sequence[CoolingRule], fridge: Spot
) -> InTurn:
    """Times, verdicts and what would pass for a dish that is moved as it cools.

    Parameters
    ----------
    stays : sequence of Stay
        In order, at least one; a stay whose end is above what is reached already is left out.
    start : float
        Temperature of the dish, the same all through. [K]
    rules : sequence of CoolingRule
        At least one.
    fridge : Spot
        The fridge that changes are tried with.

    Returns
    -------
    InTurn
        One verdict a rule, each on all the stays together.

    Raises
    ------
    OutOfRange
        If the dish is no warmer than its surroundings.
    """
    floor = min(rule.goal.value for rule in rules)
    paths = [(_clock(rule, start), rule.goal.value) for rule in rules]
    levels = [start - (start - floor) * at / COURSE for at in range(1, COURSE)]
    times = _added(stays, start, [*paths, *((start, level) for level in (*levels, floor))])
    verdicts = tuple(verdict(rule, time, start) for rule, time in zip(rules, times, strict=False))
    kept = all(
        ruling(time, rule.limit.value) == "within" for rule, time in zip(rules, times, strict=False)
    )
    limits = [
        Limit(clock, goal, rule.limit.value)
        for rule, (clock, goal) in zip(rules, paths, strict=True)
        if rule.known == "read"
    ]
    passing = () if kept or not limits else changes(stays[0].dish, fridge, start, limits)
    asked, course = times[: len(rules)], times[len(rules) :]
    return InTurn(
        tuple(rules),
        tuple(asked),
        verdicts,
        course[-1],
        passing,
        ((start, Spread(0.0, 0.0, 0.0)), *zip((*levels, floor), course, strict=True)),
    )


def _clock(rule: CoolingRule, start: float) -> float:
    return start if rule.clock is None else min(start, rule.clock.value)


def _added(
    stays: Sequence[Stay], start: float, paths: Sequence[tuple[float, float]]
) -> list[Spread]:
    """Times of the paths, each cut into the parts that fall into one stay."""
    totals = [Spread(0.0, 0.0, 0.0)] * len(paths)
    lowest = min(goal for _, goal in paths)
    at = start
    for stay in stays:
        end = lowest if stay.until is None else max(stay.until, lowest)
        if end >= at:
            continue
        parts = [(min(clock, at), max(goal, end)) for clock, goal in paths]
        asked = [place for place, (high, low) in enumerate(parts) if high > low]
        if asked:
            cooled = run(stay.dish, stay.spot, at, end, ENDS)
            for place, time in zip(asked, cooled.spreads([parts[p] for p in asked]), strict=True):
                before = totals[place]
                totals[place] = Spread(
                    before.p05 + time.p05, before.p50 + time.p50, before.p95 + time.p95
                )
        at = end
    return totals
