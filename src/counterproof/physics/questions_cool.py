"""The question of cooling: how long a dish stays warm, what the rules say, what would pass."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Final

import numpy as np

from counterproof.physics import convection, cooling_rules, food_properties, fridge, moving_air
from counterproof.physics.answer import Answer, Curve, Verdict, credited
from counterproof.physics.cautions import DEFER
from counterproof.physics.containers import SHALLOW, constants
from counterproof.physics.cooling import History
from counterproof.physics.cooling_changes import (
    COLDER,
    STEAMED_OFF,
    TRAY_AREA,
    Change,
    Limit,
    changes,
)
from counterproof.physics.cooling_rules import DANGER_ZONE, CoolingRule, rules_for, verdict
from counterproof.physics.cooling_scene import BATH_SWING, ENDS, SLOW_END, Dish, Run, Spot, run
from counterproof.physics.fitting import PRIOR, READING, Fit, fitted
from counterproof.physics.flags import Flag, unique
from counterproof.physics.iced_water import BATH, SWIRLED, ice_needed
from counterproof.physics.spread import Spread, spoken
from counterproof.physics.two_points import two_point_verdict
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, smallest
from counterproof.sourced import Sourced

MEASURE: Final = (
    "This is a model, good to about a third. Measure the thickest part with a clean probe "
    f"thermometer; what has stayed warm too long is thrown away, not reheated. {DEFER}"
)
GLASS: Final = (
    "Hot glass bursts in cold water or on cold stone: about 40 °C of sudden difference is its "
    f"limit. Warm jars first, cool them in air. {DEFER}"
)
CROWDED: Final = (
    "A hot dish warms the fridge and what is in it: stand it apart, covered only loosely until it "
    f"is cold. {DEFER}"
)
_CURVE_POINTS: Final = 24
_CROWDS: Final = 2.0  # [K] by which a fridge warms before it is worth a caution
_GLASS_SHOCK: Final = Sourced(
    40.0, "K", 0.25, "assumed", "", "soda-lime glass, sudden difference; from memory"
)


@dataclass(frozen=True, slots=True)
class Cooling:
    """What is asked.

    Parameters
    ----------
    dish : Dish
        What cools, and in what.
    start : float
        Temperature of the food, the same all through. [K]
    spot : Spot
        Where it cools.
    food : str
        What it is called in the answer.
    authorities : tuple of str
        Whose rules are asked: keys of `cooling_rules.RULES`.
    already : float or None
        Time since the food passed 57 °C, where it starts below; None if nobody knows. [s]
    """

    dish: Dish
    start: float
    spot: Spot = field(default_factory=Spot)
    food: str = "water"
    authorities: tuple[str, ...] = ("us",)
    already: float | None = None


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
    pairs = [(_clock(rule, asked.start), rule.goal.value) for rule in rules]
    danger = (min(asked.start, DANGER_ZONE[0].value), DANGER_ZONE[1].value)
    *times, in_danger = _times(cooled, fit, [*pairs, danger])
    verdicts = [
        verdict(rule, time, asked.start, already=asked.already)
        for rule, time in zip(rules, times, strict=True)
    ]
    verdicts += _two_readings(asked, rules, measured)
    if not verdicts:
        verdicts = [Verdict("cooling", "no rule", cooling_rules.NO_RULE, "common practice")]
    passing = _changes(asked, fridge_spot, rules, verdicts)
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
    decides = _constants(asked, fit, passing)
    sources, assumed = credited(*decides)
    return Answer(
        "cool",
        _inputs(asked, measured),
        result,
        tuple(verdicts),
        Curve.of(history.seconds[:, 1], history.temperatures[:, 1]),
        _cautions(asked, cooled),
        tuple(dict.fromkeys((*sources, *(rule.source for rule in rules)))),
        assumed,
        _flags(asked, cooled, verdicts, fit, passing),
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


def _clock(rule: CoolingRule, start: float) -> float:
    return start if rule.clock is None else min(start, rule.clock.value)


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
                "seconds": fit.between(0.0 * row, row).shifted(-fit.last).to_dict(),
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
        # Latent heat near 60 °C, where most of it leaves.
        found["evaporated_kg"] = _ends(portions * as_one.latent / 2.36e6)
    return found


def _changes(
    asked: Cooling,
    fridge_spot: Spot | None,
    rules: Sequence[CoolingRule],
    verdicts: Sequence[Verdict],
) -> tuple[Change, ...]:
    if all(each.verdict in {"within", "no rule"} for each in verdicts):
        return ()
    spent = asked.already or 0.0
    # What is only quoted from memory gets a verdict, but does not decide what would pass.
    binding = [rule for rule in rules if rule.known == "read"]
    if not binding:
        return ()
    limits = [
        Limit(
            _clock(rule, asked.start),
            rule.goal.value,
            rule.limit.value - (spent if _late(rule, asked.start) else 0.0),
        )
        for rule in binding
    ]
    if fridge_spot is None:
        fridge_spot = asked.spot if asked.spot.where == "fridge" else Spot(place=asked.spot.place)
    return changes(asked.dish, replace(fridge_spot, speed=0.0), asked.start, limits)


def _late(rule: CoolingRule, start: float) -> bool:
    return rule.clock is not None and start < rule.clock.value


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


def _cautions(asked: Cooling, cooled: Run) -> tuple[str, ...]:
    said = [MEASURE]
    glass = asked.dish.vessel.material == "glass"
    if glass and asked.start - smallest(asked.spot.ambient) > _GLASS_SHOCK.value:
        said.append(GLASS)
    warms = float(cooled.mixed.peak[1]) - largest(asked.spot.ambient)
    if asked.spot.where == "fridge" and warms > _CROWDS:
        said.append(CROWDED)
    return tuple(said)


def _constants(
    asked: Cooling, fit: Fit | None, passing: Sequence[Change]
) -> tuple[Sourced | str, ...]:
    dish, spot = asked.dish, asked.spot
    sized = dish.diameter is not None or dish.depth is not None
    used: list[Sourced | str] = [SLOW_END, *constants(dish.kind, dish.vessel, sized=sized)]
    used += ["choi-okos-1986"] if dish.makeup.get("water", 0.0) < 1.0 else []
    if spot.where == "ice-bath":
        used += [BATH, BATH_SWING, "churchill-chu-1975"]
        used += [SWIRLED] if dish.stirred else []
    else:
        used += ["churchill-chu-1975", "mcadams-1954"]
    if spot.where == "fridge":
        used += list(fridge.CONSTANTS) if spot.fridge is not None else [fridge.SWING]
    if spot.speed > 0.0:
        used += [moving_air.ACROSS, moving_air.ALONG]
    if dish.flow == "thick" or not dish.stirred:
        used += [food_properties.CONDUCTIVITY_SPREAD, "carslaw-jaeger-1959"]
    used += [PRIOR, READING] if fit is not None else []
    used += [TRAY_AREA, COLDER, STEAMED_OFF] if passing else []
    return tuple(used)


def _flags(
    asked: Cooling,
    cooled: Run,
    verdicts: Sequence[Verdict],
    fit: Fit | None,
    passing: Sequence[Change],
) -> tuple[Flag, ...]:
    dish, spot, pot = asked.dish, asked.spot, asked.dish.vessel
    ambient = spot.ambient
    flags = list(food_properties.validity(asked.start, dish.makeup))
    if spot.where != "ice-bath":
        flags += convection.validity(asked.start, ambient, height=pot.depth, diameter=pot.diameter)
        flags += moving_air.validity(ambient, pot.diameter, spot.speed)
    if dish.kind == "tray" and largest(pot.depth) > SHALLOW.value:
        flags.append(
            Flag(
                "deep-tray",
                f"The tray is {100 * largest(pot.depth):.1f} cm deep; shallow pans are "
                f"{100 * SHALLOW.value:.1f} cm (3 inches) or less.",
            )
        )
    if cooled.conducted is not None and dish.flow == "thin":
        flags.append(
            Flag(
                "between-models",
                "A thin liquid left alone mixes itself in part: the fast end is that of a mixed "
                "liquid, middle and slow end are those of one that does not move. Stirring helps.",
                "note",
            )
        )
    if fit is not None and not fit.agrees:
        flags.append(
            Flag(
                "measured-disagrees",
                "What was measured fits no curve of this vessel and place: check sizes, where the "
                "probe stood and when the clock was started; trust the thermometer.",
            )
        )
    ruled = [each for each in verdicts if each.verdict in {"too close", "over"}]
    if ruled and not passing:
        flags.append(
            Flag(
                "nothing-passes",
                "No single change that was tried passes with its margin: combine smaller, "
                "shallower portions with an ice bath, and measure.",
            )
        )
    slowest = float(cooled.until_each((STEAMED_OFF.value,))[0, 2])
    if any(change.kind != "ice bath" for change in passing) and spot.where == "room":
        flags.append(
            Flag(
                "standing-first",
                f"Standing to 60 °C may take {spoken(slowest)} here; home advice is to have food "
                "in the fridge within 2 hours.",
                "note",
            )
        )
    return unique(flags)
