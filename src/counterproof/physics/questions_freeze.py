"""The question of freezing: how long, how full, by which stages, and what the old formulas say."""

from __future__ import annotations

from math import exp, log
from typing import Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frozen
from counterproof.physics import glass as glassware
from counterproof.physics.answer import Answer, Verdict, credited
from counterproof.physics.cautions import DEFER
from counterproof.physics.cold_answers import (
    SOLVED_BY,
    SWING,
    around,
    core_curve,
    remarks,
    shocks,
)
from counterproof.physics.cold_scene import USUAL, Filling, Vessel, Way, mass_of
from counterproof.physics.flags import Flag, unique
from counterproof.physics.freezing import Task, latent_heat, passage
from counterproof.physics.freezing_formulas import pham, plank, shape_dimension
from counterproof.physics.freezing_formulas import validity as pham_validity
from counterproof.physics.headspace import Fill, expansion
from counterproof.physics.staging import (
    INTO_THE_FREEZER,
    OFF_THE_COUNTER,
    ON_THE_COUNTER,
    Stage,
    before_freezing,
)
from counterproof.physics.surroundings import FLOW, Round
from counterproof.physics.values import ZERO_CELSIUS, Draws, Take, middle, printed_ends

_FORMULAS: Final = ("plank-1913", "pham-1986")
FROZEN_THROUGH: Final = ZERO_CELSIUS - 10.0
"""Core temperature at which a jar is called frozen through, unless another is asked. [K]"""
JAR: Final = (
    "Glass can break in the freezer: straight-sided jars meant for it, filled no higher than the "
    f"line, lid loose until frozen, and never moved from cold to hot. {DEFER}"
)
BESIDE: Final = Flag(
    "formulas-beside",
    "Plank's time counts fusion only; Pham's was fitted to moist foods and is about an eighth too "
    "long for plain water. They stand beside the answer and do not decide it.",
    "note",
)
STAGES: Final = f"Hot jars go by counter and fridge first, never straight into the freezer. {DEFER}"


def freeze(
    filling: Filling,
    vessel: Vessel,
    *,
    start: float = ZERO_CELSIUS + 7.0,
    freezer: float = USUAL["freezer"],
    until: float | None = None,
    way: Way | None = None,
    wanted_time: float | None = None,
    take: Take = middle,
) -> Answer:
    """How long a filled vessel takes to freeze through, and how full it may be.

    Parameters
    ----------
    filling : Filling
        What is in it.
    vessel : Vessel
        Jar, bottle, tray or pot.
    start : float
        Temperature when it goes into the freezer. [K]
    freezer : float
        Temperature of the freezer. [K]
    until : float or None
        Temperature the core shall reach; None for −10 °C. [K]
    way : Way or None
        Counter and fridge it passes, for the plan in stages; None for the usual ones.
    wanted_time : float or None
        Time it may take: then the largest vessel of the same form is part of the answer. [s]
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `time_s`, `expansion_share`, `headspace_ml`, the fill line, Plank and Pham beside it, the
        plan in stages and `start_before_s`, the time to allow for it.

    Raises
    ------
    OutOfRange
        If the core never gets there, or more is filled in than goes in.
    """
    end = FROZEN_THROUGH if until is None else until
    begins = filling.freezing_point
    # A jar filled hot shrinks first: what must find room is counted from the cold liquid.
    cold = min(start, USUAL["fridge"])
    swelling = expansion(filling.makeup, begins, cold, freezer)
    line = vessel.line(filling, cold, freezer)
    volume = vessel.filled or (line.line if line else vessel.volume)
    body = vessel.body(volume)
    task = Task(body, filling.makeup, begins, start, end, filling.mixing)
    about = around("freezer", freezer, body, filling, glass=vessel.glass is not None, take=take)
    done = passage(task, about.ambient, about.coefficient, about.conducting)
    heat = _heat_out(task) * volume
    stages = _staged(task, way or Way(), freezer, vessel, float(done.middle.reached[0]))
    result: dict[str, Any] = {
        "time_s": done.time,
        "expansion_share": swelling,
        "headspace_ml": 1e6 * line.free if line else 0.0,
        "headspace_mm": 1e3 * line.depth if line else 0.0,
        "headspace_rule": line.rule if line else "open vessel",
        "fill_to_ml": 1e6 * line.line if line else 1e6 * vessel.volume,
        "contents_kg": mass_of(filling, volume, start),
        "heat_removed_j": heat,
        "freezing_celsius": begins - ZERO_CELSIUS,
        "beside": _beside(task, freezer, float(np.mean(about.coefficient))),
        "plan": [stage.to_dict() for stage in stages],
        "start_before_s": _allowed(stages, done.time),
        "interpolant_error_share": done.error,
        "solver_runs": done.runs,
    }
    if wanted_time is not None:
        result["largest_ml"] = 1e6 * _largest(filling, vessel, (start, end, freezer), wanted_time)
    constants = (
        FLOW,
        SWING["freezer"],
        *filling.constants,
        *vessel.constants,
        food_properties.CONDUCTIVITY_SPREAD,
    )
    staged = (OFF_THE_COUNTER, ON_THE_COUNTER, INTO_THE_FREEZER) if len(stages) > 1 else ()
    glass_limit = () if vessel.glass is None else (glassware.LIMIT[vessel.glass],)
    table = ("nchfp-2006",) if line else ()
    sources, assumed = credited(*SOLVED_BY, *_FORMULAS, *table, *constants, *staged, *glass_limit)
    biot = float(np.mean(about.coefficient)) * 0.5 * min(body.diameter, body.height) / 2.2
    return Answer(
        process="freeze",
        inputs={"food": filling.name, **vessel.inputs(), "from_celsius": start - ZERO_CELSIUS,
                "freezer_celsius": freezer - ZERO_CELSIUS, "until_celsius": end - ZERO_CELSIUS,
                "filled_ml": 1e6 * volume, "wanted_time_s": wanted_time},
        result=result,
        verdicts=(*_poured_hot(vessel, start, (way or Way()).room),
                  *shocks(vessel, start, freezer, "straight into the freezer"),
                  *_filled(line, volume)),
        curve=core_curve(done.middle),
        cautions=((JAR,) if vessel.glass else ()) + ((STAGES,) if start > 303.15 else ()),
        sources=sources,
        assumed=assumed,
        flags=unique((BESIDE, *filling.flags, *remarks(task, freezer, done), *(line.flags if line else ()),
                      *_as_note(pham_validity(freezer, biot)))),
    )  # fmt: skip


def _heat_out(task: Task) -> float:
    there = frozen.enthalpy(task.makeup, task.start, task.freezing_point)
    end = frozen.enthalpy(task.makeup, task.until, task.freezing_point)
    return float(food_properties.density(task.makeup, ZERO_CELSIUS) * (there - end))


def _poured_hot(vessel: Vessel, start: float, room: float) -> tuple[Verdict, ...]:
    """What a jar from the shelf says to hot food, where the food is warmer than the room."""
    if start <= room:
        return ()
    return shocks(vessel, room, start, "hot food into a jar from the shelf")


def _allowed(stages: tuple[Stage, ...], time: float | Draws) -> float:
    """Return the time to allow until it is frozen: the stages before, and the slow end of the last.

    A hot jar is asked for straight into the freezer; its last stage is stretched by as much.
    """
    before = sum(float(np.mean(stage.time)) for stage in stages[:-1])
    slow = printed_ends(time)[1] / float(np.median(np.asarray(time)))
    return before + slow * float(np.mean(stages[-1].time))


def _filled(line: Fill | None, volume: float) -> tuple[Verdict, ...]:
    if line is None:
        return ()
    over = volume > 1.0001 * line.line
    message = (
        f"Fill to {1e6 * line.line:.0f} ml, {1e3 * line.depth:.0f} mm below the rim "
        f"({line.rule}); {1e6 * volume:.0f} ml are in it."
    )
    return (Verdict("headspace", "over" if over else "within", message, "nchfp-2006"),)


def _as_note(flags: tuple[Flag, ...]) -> tuple[Flag, ...]:
    return tuple(Flag(flag.name, flag.message, "note") for flag in flags)


def _beside(task: Task, freezer: float, coefficient: float) -> dict[str, float | None]:
    """Plank and Pham for the same vessel: the thinnest side as a slab, over its dimensions."""
    body = task.body
    short = min(body.diameter, body.height)
    dimension = shape_dimension(body.diameter / short, body.diameter / short)
    if body.height > short:
        dimension = shape_dimension(1.0, body.height / short)
    iced = frozen.frozen_makeup(task.makeup, task.until, task.freezing_point)
    conductivity = float(food_properties.conductivity(iced, task.until).between)
    mass = float(food_properties.density(task.makeup, ZERO_CELSIUS))
    capacities = (
        mass * float(food_properties.heat_capacity(task.makeup, ZERO_CELSIUS + 10.0)),
        mass * float(food_properties.heat_capacity(iced, task.until)),
    )
    # Plank's heat is that of fusion alone; Pham adds what is sensible himself.
    sensible = capacities[1] * max(task.freezing_point - task.until, 0.0)
    latent = max(latent_heat(task) - sensible, 1.0)
    simple = plank("slab", size=short, latent=latent, drop=task.freezing_point - freezer,
                   coefficient=coefficient, conductivity=conductivity)  # fmt: skip
    try:
        longer = float(
            pham("slab", size=short, start=task.start, ambient=freezer, until=task.until,
                 latent=latent, capacities=capacities, coefficient=coefficient,
                 conductivity=conductivity)
        ) / dimension  # fmt: skip
    except OutOfRange:
        longer = None
    return {"plank_s": float(simple) / dimension, "pham_s": longer}


def _staged(
    task: Task, way: Way, freezer: float, vessel: Vessel, straight: float
) -> tuple[Stage, ...]:
    """Counter, fridge, freezer, with middle times; straight in where it is cold already."""
    stages = before_freezing(task.body, task.makeup, task.start, way.room, way.fridge)
    if not stages:
        return (Stage("freezer", task.start, task.until, straight),)
    start = stages[-1].end
    last = Task(task.body, task.makeup, task.freezing_point, start, task.until, task.mixing)
    filling = Filling(makeup=task.makeup, begins=task.freezing_point)
    about = around(
        "freezer", freezer, task.body, filling, glass=vessel.glass is not None, take=middle
    )
    time = passage(last, about.ambient, about.coefficient, about.conducting).time
    return (*stages, Stage("freezer", start, task.until, time))


def _largest(
    filling: Filling, vessel: Vessel, ends: tuple[float, float, float], wanted: float
) -> float:
    """Volume that freezes in a time, its proportions kept: steps along log time over log volume."""
    start, end, freezer = ends

    def time(factor: float) -> float:
        form = vessel.resized(factor)
        body: Round = form.body(form.volume)
        about = around("freezer", freezer, body, filling, glass=form.glass is not None, take=middle)
        task = Task(body, filling.makeup, filling.freezing_point, start, end, filling.mixing)
        return float(np.mean(passage(task, about.ambient, about.coefficient).time))

    # Between time ~ size and time ~ size² the exponent of volume lies between 1/3 and 2/3.
    at, power = 0.0, 0.45
    found = log(time(1.0))
    for _ in range(3):
        step = (log(wanted) - found) / power
        new = log(time(exp(at + step)))
        power = max((new - found) / step, 0.2) if abs(step) > 1e-6 else power
        at, found = at + step, new
    return vessel.volume * exp(at + (log(wanted) - found) / power)
