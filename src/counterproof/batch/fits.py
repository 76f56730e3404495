"""What measured temperatures tell while cooking: how strong the ring is, how fast it cools, what next.

Heating fits the power that reaches the pot, cooling the pace of the modelled curve; both keep
the shape of the model and say how sure they are.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np

from counterproof.draws import Range
from counterproof.errors import OutOfRange
from counterproof.physics.answer import Answer, Ruling, Verdict
from counterproof.physics.cooling_lanes import ENDS, slow_lanes
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_rules import CoolingRule, rules_for
from counterproof.physics.cooling_scene import Dish, run
from counterproof.physics.fitting import READING, Fit, fitted
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place, Ring
from counterproof.physics.questions_cool import cool
from counterproof.physics.questions_heat import heat
from counterproof.physics.spread import spoken
from counterproof.physics.values import ZERO_CELSIUS, Draws
from counterproof.sourced import Sourced

PRIOR: Final = Sourced(
    1.0, "1", 0.3, "assumed", "",
    "power of the ring against what the kitchen file says, before anything is measured: what the "
    "dial was set to, and the hob's efficiency",
)  # fmt: skip
_POWERS: Final = np.exp(np.linspace(-1.4, 0.7, 211))
_CLOCK: Final = 30.0  # a time written to the minute [s]
_STEP: Final = 300.0  # how finely the latest time of a move is sought [s]
_LONGEST: Final = 4 * 3600.0
_NEAR_BOIL: Final = 0.5


@dataclass(frozen=True, slots=True)
class HeatingFit:
    """How strong a ring is, from measured temperatures.

    Parameters
    ----------
    power : Range
        Power it takes while heating. [W]
    boils : Range
        From the start of heating until the boil. [s]
    last : float
        Time of the last point, from the start. [s]
    misfit : float
        Mean square of the points' distance from the best curve, over that of a reading. [1]
    """

    power: Range
    boils: Range
    last: float
    misfit: float

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            "power_w": self.power.to_dict(),
            "boils_s": self.boils.to_dict(),
            "last_measured_s": self.last,
            "agrees": self.misfit < 9.0,
        }


@dataclass(frozen=True, slots=True)
class CoolingFit:
    """How fast a batch cools, from measured temperatures, and what the rules leave.

    Parameters
    ----------
    answer : Answer
        The question of cooling, with its forecast from measuring.
    begins : float
        Time of day of the first point. [s]
    latest_bath : float or None
        Last time of day at which it may go into iced water and keep every rule; None where it is
        not needed, or too late already. [s]
    needed : bool
        Whether something must be done, or had to be, for every rule to be kept.
    measured : tuple of Verdict
        What the readings themselves say to the rules, wherever the batch stood.
    moved : bool
        Whether it was moved on after the readings that were fitted.
    """

    answer: Answer
    begins: float
    latest_bath: float | None
    needed: bool
    measured: tuple[Verdict, ...] = ()
    moved: bool = False

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        result = self.answer.result
        return {
            "pace": result["pace"],
            "from_last_measured": result["from_last_measured"],
            "spans": result["spans"],
            "verdicts": [verdict.to_dict() for verdict in self.answer.verdicts],
            "measured": [verdict.to_dict() for verdict in self.measured],
            "moved": self.moved,
            "would_pass": result["would_pass"],
            "begins_s": self.begins,
            "into_iced_water_by_s": self.latest_bath,
            "needed": self.needed,
        }


def heating_fit(
    contents: Contents,
    start: float,
    points: Sequence[tuple[float, float]],
    ring: Ring,
    place: Place,
) -> HeatingFit:
    """How strong a ring is, from temperatures measured while it heats.

    Parameters
    ----------
    contents : Contents
        What is in the pot.
    start : float
        Its temperature when heating began. [K]
    points : sequence of (float, float)
        Time since then, > 0 [s], and temperature [K]; at most the boil.
    ring : Ring
        Hob and pot; its power is what the kitchen file says.
    place : Place
        The kitchen.

    Returns
    -------
    HeatingFit
        Power and time to the boil, with their ranges.

    Raises
    ------
    OutOfRange
        If no point lies after and above the start.

    Notes
    -----
    Bayes on a grid of powers: prior lognormal about what the kitchen file says; a reading's error
    in temperature is turned into one in time by the slope of the modelled curve.
    """
    boil = place.boil
    rising = [(time, level) for time, level in points if time > 0.0 and start + 2.0 < level]
    if not rising:
        raise OutOfRange(
            "A ring's power shows only in a temperature measured after heating began.",
            remedy="Give one with its time, well above the start.",
        )
    powers = _POWERS * float(np.mean(ring.power if ring.power is not None else 2000.0))
    several = replace(ring, power=powers)

    def times(level: float) -> Draws:
        found = heat(contents, start, min(level, boil - 0.01), ring=several, place=place)
        return np.asarray(found.result["time_s"], dtype=float)

    square = np.zeros(powers.size)
    for time, level in rising:
        modelled = times(level)
        slope = (
            (modelled - times(level - 3.0)) / 3.0
            if level - 3.0 > start
            else modelled / (level - start)
        )
        error = np.sqrt(_CLOCK**2 + (READING.value * slope) ** 2)
        with np.errstate(invalid="ignore"):
            distance = ((modelled - time) / error) ** 2
        square += np.where(np.isfinite(distance), distance, 1e6)
    prior = np.exp(-0.5 * (np.log(_POWERS) / PRIOR.spread) ** 2)
    likely = prior * np.exp(-0.5 * (square - square.min()))
    likely /= likely.sum()
    return HeatingFit(
        _weighted(powers, likely),
        _weighted(times(boil), likely),
        max(time for time, _ in rising),
        float(square.min()) / len(rising),
    )


def _weighted(values: Draws, weights: Draws) -> Range:
    order = np.argsort(values)
    heaped = np.cumsum(weights[order]) - 0.5 * weights[order]
    p05, p50, p95 = (float(np.interp(share, heaped, values[order])) for share in (0.05, 0.5, 0.95))
    known = np.isfinite(values)
    mean = float((values[known] * weights[known]).sum() / weights[known].sum())
    return Range(mean, p05, p50, p95)


def cooling_fit(
    asked: Cooling,
    standing: Sequence[tuple[float, float]],
    points: Sequence[tuple[float, float]] = (),
) -> CoolingFit | None:
    """How fast a batch cools, from measured temperatures, and when it must be moved to pass.

    Parameters
    ----------
    asked : Cooling
        The dish where it stands, from the first point's temperature.
    standing : sequence of (float, float)
        Time of day [s] and temperature [K] while it stood there, falling, the first of them the
        start.
    points : sequence of (float, float)
        All of its readings, wherever it stood; only those of `standing` where there are no
        others. [s, K]

    Returns
    -------
    CoolingFit or None
        None with fewer than two points, or where there is nothing to cool.
    """
    if len(standing) < 2:
        return None
    begins = standing[0][0]
    later = [(time - begins, level) for time, level in standing[1:] if time > begins]
    if not later:
        return None
    try:
        answer = cool(asked, measured=later)
    except OutOfRange:
        return None
    moved = any(time > standing[-1][0] for time, _ in points)
    measured = measured_verdicts(points or standing, _rules(asked))
    kept = {one.rule for one in measured if one.verdict == "within"}
    forecast = {one.rule: one.verdict for one in answer.verdicts if one.rule not in kept}
    needed = any(ruling in {"over", "too close"} for ruling in forecast.values())
    latest = _latest_bath(asked, later) if needed and not moved else None
    when = None if latest is None else begins + latest
    return CoolingFit(answer, begins, when, needed, measured, moved)


def _rules(asked: Cooling) -> tuple[CoolingRule, ...]:
    """The rules that bind: those whose text was read."""
    rules = rules_for(asked.authorities, asked.start, asked.spot.place.room)
    return tuple(rule for rule in rules if rule.known == "read")


def measured_verdicts(
    points: Sequence[tuple[float, float]], rules: Sequence[CoolingRule]
) -> tuple[Verdict, ...]:
    """What readings alone say to rules, without any model.

    Parameters
    ----------
    points : sequence of (float, float)
        Times [s] and temperatures [K].
    rules : sequence of CoolingRule
        The rules.

    Returns
    -------
    tuple of Verdict
        One for each rule whose goal was reached: the span lies between the readings next to the
        clock's start and the goal, so that it is known within two bounds.
    """
    found = []
    ordered = sorted(points)
    for rule in rules:
        clock = ordered[0][1] if rule.clock is None else min(ordered[0][1], rule.clock.value)
        done = next((time for time, level in ordered if level <= rule.goal.value), None)
        if done is None:
            continue
        begun = max(
            (time for time, level in ordered if level >= clock and time < done), default=None
        )
        if begun is None:
            continue
        after = min(time for time, _ in ordered if time > begun)
        before = max(time for time, _ in ordered if time < done)
        shortest, longest = max(before - after, 0.0), done - begun
        ruling: Ruling = "too close"
        if longest <= rule.limit.value:
            ruling = "within"
        elif shortest > rule.limit.value:
            ruling = "over"
        says = (
            f"{clock - ZERO_CELSIUS:.0f} to {rule.goal.value - ZERO_CELSIUS:.0f} °C took {spoken(longest)} "
            f"at most by the readings; the limit is {spoken(rule.limit.value)} ({rule.limit.locator})."
        )
        found.append(Verdict(rule.name, ruling, says, rule.source))
    return tuple(found)


def _latest_bath(asked: Cooling, points: Sequence[tuple[float, float]]) -> float | None:
    """Last time since the start at which iced water still keeps every rule. [s]"""
    rules = _rules(asked)
    goals = sorted({rule.goal.value for rule in rules})
    if not goals:
        return None
    cooled = run(asked.dish, asked.spot, asked.start, goals[0], ENDS)
    history = cooled.mixed.history
    if cooled.conducted is not None:
        floor = max(goals[0], float(history.temperatures[-1].min()))
        history = cooled.conducted.history(np.linspace(asked.start, floor, 41)[1:].tolist())
    fit = fitted(history, points)
    now = points[-1][0]
    times = np.arange(_STEP * np.ceil(now / _STEP), _LONGEST + 1.0, _STEP)
    warm = np.array([_warm_end(fit, history, float(time)) for time in times])
    bathed: Dish = replace(asked.dish, stirred=asked.dish.flow == "thin")
    bath = replace(asked.spot, where="ice-bath", fridge=None)
    keep = np.ones(times.size, dtype=bool)
    reached = run(bathed, bath, warm, goals[0], slow_lanes(times.size)).until_each(goals)
    ends = dict(zip(goals, reached, strict=True))
    for rule in rules:
        clock = asked.clock(rule)
        begun = 0.0
        if asked.start > clock:
            early = cooled.until_each((clock,))[0]
            begun = fit.between(np.zeros_like(early), early).p05
        done = np.where(warm <= rule.goal.value, times, times + ends[rule.goal.value])
        keep &= done - begun < rule.limit.value
    return float(times[keep][-1]) if keep.any() else None


def _warm_end(fit: Fit, history: Any, time: float) -> float:
    """What the food may still be at a time, at the warm end of nine in ten. [K]"""
    stretches = np.ravel(fit.stretches)
    levels = [
        np.interp(time / stretches, history.seconds[:, lane], history.temperatures[:, lane])
        for lane in range(history.seconds.shape[1])
    ]
    flat, weight = np.stack(levels, axis=-1).ravel(), fit.weights.ravel()
    order = np.argsort(flat)
    heaped = np.cumsum(weight[order])
    return float(flat[order][min(int(np.searchsorted(heaped, 0.95)), flat.size - 1)])


def moment(seconds: float, *, clocked: bool) -> str:
    """A moment of a batch as a cook reads it.

    Parameters
    ----------
    seconds : float
        Since midnight, or since the first time was taken. [s]
    clocked : bool
        Whether it is a time of day.

    Returns
    -------
    str
        Such as "10:55", or "55 min on".
    """
    if not clocked:
        return f"{spoken(seconds)} on"
    minutes = int(seconds // 60) % 1440
    return f"{minutes // 60:02d}:{minutes % 60:02d}"
