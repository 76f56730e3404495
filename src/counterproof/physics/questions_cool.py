"""The question of cooling: how long a dish stays warm, what the rules say, what would pass."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any, Final

import numpy as np

from counterproof.physics import cooling_rules, water
from counterproof.physics.answer import Answer, Curve, Verdict, credited
from counterproof.physics.cooling import History
from counterproof.physics.cooling_changes import Change, Limit, changes
from counterproof.physics.cooling_lanes import ENDS
from counterproof.physics.cooling_notes import cautions_of, constants_of, flags_of
from counterproof.physics.cooling_question import Cooling, limits_left
from counterproof.physics.cooling_rules import DANGER_ZONE, CoolingRule, rules_for, verdict
from counterproof.physics.cooling_scene import Run, Spot, run
from counterproof.physics.fitting import Fit, fitted
from counterproof.physics.iced_water import ice_needed
from counterproof.physics.spread import Spread
from counterproof.physics.two_points import two_point_verdict
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest

_STEAMING: Final = ZERO_CELSIUS + 60.0
_CURVE_POINTS: Final = 24


def cool(
    asked: Cooling,
    *,
    fridge_spot: Spot | None = None,
    measured: Sequence[tuple[float, float]] = (),
) -> Answer:
    """How long a dish takes to cool, what the rules say, and what would make it pass.

    Parameters
    ----------
    asked : Cooling
        The question.
    fridge_spot : Spot or None
        The fridge that changes are tried with; None for the place asked about if that is a
        fridge, or a fridge at 4 °C that does not warm.
    measured : sequence of (float, float)
        Temperatures measured since the start: time [s] and temperature [K]. With them the
        times are those forecast from measuring.

    Returns
    -------
    Answer
        `spans`, one for each rule; `danger_zone_s`, `heat_j`, `fridge_peak_celsius`,
        `ice_kg`, `evaporated_kg`, `band`, `would_pass`; with measuring `pace` and
        `from_last_measured`, below zero where the time has passed.

    Raises
    ------
    OutOfRange
        If sizes contradict each other, or the food is no warmer than its surroundings.
    """
    was_hot = asked.already is not None
    rules = rules_for(asked.authorities, asked.start, asked.spot.place.room, was_hot=was_hot)
    goals = [rule.goal.value for rule in rules]
    floor = min((*goals, DANGER_ZONE[1].value))
    cooled = run(asked.dish, asked.spot, asked.start, floor, ENDS)
    history = _history(cooled, asked.start, floor)
    fit = fitted(history, measured) if measured else None
    pairs = [(asked.clock(rule), rule.goal.value) for rule in rules]
    danger = (min(asked.start, DANGER_ZONE[0].value), DANGER_ZONE[1].value)
    *times, in_danger = _times(cooled, fit, [*pairs, danger])
    verdicts = [
        verdict(rule, time, asked.start, already=asked.already)
        for rule, time in zip(rules, times, strict=True)
    ]
    verdicts += _two_readings(asked, rules, measured)
    if not verdicts:
        verdicts = [Verdict("cooling", "no rule", cooling_rules.NO_RULE, "common practice")]
    limits = limits_left(asked, rules, cooled, fit, max(measured, default=None))
    if all(each.verdict in {"within", "no rule"} for each in verdicts):
        limits = ()
    passing = _changes(asked, fridge_spot, limits, max(measured, default=None))
    result = {
        "spans": [
            {
                "rule": rule.name,
                "from_celsius": clock - ZERO_CELSIUS,
                "to_celsius": goal - ZERO_CELSIUS,
                "seconds": time.to_dict(),
            }
            for rule, (clock, goal), time in zip(rules, pairs, times, strict=True)
        ],
        "danger_zone_s": in_danger.to_dict(),
        **_heat(asked, cooled),
        "band": _band(history),
        "would_pass": [change.to_dict() for change in passing],
        **({} if fit is None else _from_now(cooled, fit, goals)),
    }
    decides = constants_of(asked, fit, passing)
    sources, assumed = credited(*decides)
    return Answer(
        "cool",
        _inputs(asked, measured),
        result,
        tuple(verdicts),
        Curve.of(history.seconds[:, 1], history.temperatures[:, 1]),
        cautions_of(asked, cooled),
        tuple(dict.fromkeys((*sources, *(rule.source for rule in rules)))),
        assumed,
        flags_of(asked, cooled, fit, limits, passing),
    )


def _two_readings(
    asked: Cooling, rules: Sequence[CoolingRule], measured: Sequence[tuple[float, float]]
) -> list[Verdict]:
    """The check that needs no model, where the last two readings fall towards one cold place."""
    cold = largest(asked.spot.ambient)
    if len(measured) < 2 or asked.spot.where != "fridge":
        return []
    (then, first), (now, second) = sorted(measured)[-2:]
    if not (then < now and first > second > cold):
        return []
    clocked = [rule for rule in rules if rule.clock is not None and rule.known == "read"]
    return [two_point_verdict(rule, first, second, cold, now - then) for rule in clocked]


def _times(cooled: Run, fit: Fit | None, pairs: Sequence[tuple[float, float]]) -> list[Spread]:
    if fit is None:
        return cooled.spreads(pairs)
    ends = cooled.until_each([level for pair in pairs for level in pair])
    return [fit.between(*ends[2 * row : 2 * row + 2]) for row in range(len(pairs))]


def _from_now(cooled: Run, fit: Fit, goals: Sequence[float]) -> dict[str, Any]:
    """Time left from the last measurement, and how fast it goes against the model."""
    late = cooled.until_each(goals)
    return {
        "pace": fit.pace.to_dict(),
        "from_last_measured": [
            {
                "to_celsius": goal - ZERO_CELSIUS,
                "seconds": fit.between(np.zeros_like(row), row).shifted(-fit.last).to_dict(),
            }
            for goal, row in zip(goals, late, strict=True)
        ],
    }


def _history(cooled: Run, start: float, floor: float) -> History:
    """Temperatures of the slower model at a readable number of times."""
    if cooled.conducted is None:
        whole = cooled.mixed.history
        rows = np.unique(np.linspace(0, whole.seconds.shape[0] - 1, 2 * _CURVE_POINTS).astype(int))
        return History(whole.seconds[rows], whole.temperatures[rows])
    coldest = float(cooled.mixed.history.temperatures[-1].min())
    end = max(floor, coldest) - 1e-9
    drops = np.geomspace(1.0, 0.02, _CURVE_POINTS + 1)[1:]
    shares = (drops - drops[-1]) / (1.0 - drops[-1])
    return cooled.conducted.history((end + shares * (start - end)).tolist())


def _band(history: History) -> dict[str, list[float]]:
    """Fast and slow end at the times of the middle curve."""
    seconds = history.seconds[:, 1]
    fast, slow = (
        np.interp(seconds, history.seconds[:, lane], history.temperatures[:, lane])
        for lane in (0, 2)
    )
    return {
        "seconds": seconds.tolist(),
        "fast_celsius": (fast - ZERO_CELSIUS).tolist(),
        "slow_celsius": (slow - ZERO_CELSIUS).tolist(),
    }


def _ends(draws: Draws) -> dict[str, float]:
    """Range of a quantity known at the fast end, the middle and the slow end."""
    low, middle, high = sorted(float(value) for value in draws)
    return Spread(low, middle, high).to_dict()


def _heat(asked: Cooling, cooled: Run) -> dict[str, Any]:
    as_one, portions = cooled.mixed, asked.dish.portions
    found: dict[str, Any] = {"heat_j": _ends(portions * as_one.given_up)}
    if asked.spot.where == "ice-bath":
        found["ice_kg"] = _ends(np.asarray(ice_needed(portions * as_one.dry)))
    if asked.spot.fridge is not None and asked.spot.where == "fridge":
        found["fridge_peak_celsius"] = _ends(as_one.peak - ZERO_CELSIUS)
    if not asked.dish.covered and asked.spot.where != "ice-bath":
        # Most of it leaves near 60 °C; latent heat varies by 4 % between 30 and 90 °C.
        found["evaporated_kg"] = _ends(portions * as_one.latent / water.latent_heat(_STEAMING))
    return found


def _changes(
    asked: Cooling,
    fridge_spot: Spot | None,
    limits: Sequence[Limit],
    last: tuple[float, float] | None,
) -> tuple[Change, ...]:
    """Changes that keep what is left, from now on."""
    if not limits or any(limit.time <= 0.0 for limit in limits):
        return ()
    if fridge_spot is None:
        fridge_spot = asked.spot if asked.spot.where == "fridge" else Spot(place=asked.spot.place)
    now = asked.start if last is None else last[1]
    return changes(asked.dish, replace(fridge_spot, speed=0.0), now, limits)


def _inputs(asked: Cooling, measured: Sequence[tuple[float, float]]) -> Mapping[str, Any]:
    dish, spot, pot = asked.dish, asked.spot, asked.dish.vessel
    return {
        "food": asked.food,
        "litres": 1000.0 * largest(dish.volume),
        "vessel": dish.kind,
        "material": pot.material,
        "diameter_m": pot.diameter,
        "depth_m": pot.depth,
        "portions": largest(dish.portions),
        "covered": dish.covered,
        "flow": dish.flow,
        "stirred": dish.stirred,
        "from_celsius": asked.start - ZERO_CELSIUS,
        "where": spot.where,
        "ambient_celsius": spot.ambient - ZERO_CELSIUS,
        "room_celsius": spot.place.room - ZERO_CELSIUS,
        "air_m_per_s": spot.speed,
        "altitude_m": spot.place.altitude,
        "authorities": list(asked.authorities),
        "measured": [
            {"seconds": time, "celsius": level - ZERO_CELSIUS} for time, level in measured
        ],
    }
