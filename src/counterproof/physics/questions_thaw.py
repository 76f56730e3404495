"""The question of thawing: in the fridge, in cold water, by microwave, and why not on the counter."""

from __future__ import annotations

from typing import Any, Final, Literal

import numpy as np

from counterproof.physics import food_properties, microwave
from counterproof.physics.answer import Answer, Curve, Verdict, credited
from counterproof.physics.cautions import DEFER
from counterproof.physics.cold_answers import (
    SOLVED_BY,
    SWING,
    around,
    core_curve,
    remarks,
    shocks,
)
from counterproof.physics.cold_scene import USUAL, Filling, Vessel, mass_of
from counterproof.physics.flags import Flag, unique
from counterproof.physics.freezing import Task, passage
from counterproof.physics.questions_freeze import JAR
from counterproof.physics.spread import spoken
from counterproof.physics.surroundings import FLOW
from counterproof.physics.thawing import (
    DEFROST,
    ICE_TAKES,
    WATER_CHANGED,
    microwave_thaw,
    thawing_heat,
)
from counterproof.physics.values import ZERO_CELSIUS, Draws, Take, middle, printed_ends

Where = Literal["fridge", "water", "microwave", "counter"]

COUNTER: Final = (
    "Thawing on the counter is not planned here: the outside is warm for hours while the middle is "
    f"still ice. Use fridge, cold water or microwave. {DEFER}"
)
COOK_AT_ONCE: Final = (
    f"What is thawed in water or by microwave is cooked or used at once, not frozen again. {DEFER}"
)
TIGHT: Final = (
    f"In water only in a tight, unbroken vessel; water no warmer than from the cold tap. {DEFER}"
)
NO_METAL: Final = (
    "No metal lid in a microwave oven, and no glass that is not meant for it: ease the ice out into "
    f"a bowl, stir often, stop while some ice is left. {DEFER}"
)


def thaw(
    filling: Filling,
    vessel: Vessel,
    *,
    where: Where = "fridge",
    start: float = USUAL["freezer"],
    ambient: float | None = None,
    output: float | None = None,
    available: float | None = None,
    take: Take = middle,
) -> Answer:
    """How long a frozen vessel takes until the last ice has gone.

    Parameters
    ----------
    filling : Filling
        What is in it.
    vessel : Vessel
        Jar, bottle, tray or pot.
    where : Where
        fridge, water, microwave; counter is told and never planned.
    start : float
        Temperature of the frozen contents. [K]
    ambient : float or None
        Temperature of the place; None for the usual one. [K]
    output : float or None
        Rated output of the microwave oven; None for a common one. [W]
    available : float or None
        Time there is: then the answer says whether it is enough. [s]
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `time_s`; `start_before_s`, the time to allow; heat it takes.

    Raises
    ------
    OutOfRange
        If it is not frozen, or the place is too cold to thaw it.
    """
    begins = filling.freezing_point
    line = vessel.line(filling, USUAL["fridge"], start)
    volume = vessel.filled or (line.line if line else vessel.volume)
    body = vessel.body(volume)
    mass = mass_of(filling, volume, ZERO_CELSIUS + 4.0)
    heat = thawing_heat(filling.makeup, begins, start) * mass
    result: dict[str, Any] = {"time_s": 0.0, "planned": where != "counter", "heat_j": heat,
                              "contents_kg": mass, "freezing_celsius": begins - ZERO_CELSIUS}  # fmt: skip
    curve: Curve | None = None
    flags: tuple[Flag, ...] = ()
    verdicts: tuple[Verdict, ...] = ()
    inputs: dict[str, Any] = {"food": filling.name, **vessel.inputs(), "where": where,
                              "from_celsius": start - ZERO_CELSIUS, "filled_ml": 1e6 * volume,
                              "available_s": available}  # fmt: skip
    if where == "microwave":
        oven = microwave.Microwave(
            take("microwave|output", microwave.OUTPUT) if output is None else output
        )
        quick = microwave_thaw(
            heat, mass, oven, take("microwave|defrost", DEFROST), take("microwave|ice", ICE_TAKES)
        )
        result |= {"time_s": quick.time, "input_j": quick.bought}
        inputs["power_w"] = output
        flags = microwave.remarks(mass)
        constants = (microwave.OUTPUT, microwave.EFFICIENCY, DEFROST, ICE_TAKES, *filling.constants)
        cautions: tuple[str, ...] = (NO_METAL, COOK_AT_ONCE)
    else:
        warm = USUAL[where] if ambient is None else ambient
        inputs["ambient_celsius"] = warm - ZERO_CELSIUS
        task = Task(body, filling.makeup, begins, start, begins, filling.mixing)
        about = around(where, warm, body, filling, glass=vessel.glass is not None, take=take)
        done = passage(task, about.ambient, about.coefficient, about.conducting)
        result |= {"time_s": done.time, "interpolant_error_share": done.error,
                   "solver_runs": done.runs}  # fmt: skip
        if where == "water":
            result["water_changes"] = np.ceil(np.asarray(done.time) / WATER_CHANGED.value)
        curve = core_curve(done.middle)
        flags = (*filling.flags, *remarks(task, start, done))
        verdicts = shocks(vessel, start, warm, f"from the freezer into the {where}")
        constants = (
            FLOW,
            SWING[where],
            *filling.constants,
            *vessel.constants,
            food_properties.CONDUCTIVITY_SPREAD,
        )
        cautions = {"fridge": (), "water": (TIGHT, COOK_AT_ONCE), "counter": (COUNTER,)}[where]
    latest = printed_ends(result["time_s"])[1]
    result["start_before_s"] = latest if where != "counter" else None
    if available is not None:
        if where != "counter":
            verdicts = (*verdicts, _enough(result["time_s"], available))
        result["share_in_time"] = float(np.mean(np.asarray(result["time_s"]) <= available))
    solved = () if where == "microwave" else SOLVED_BY
    sources, assumed = credited(*solved, "usda-thawing", *constants)
    return Answer(
        process="thaw",
        inputs=inputs,
        result=result,
        verdicts=verdicts,
        curve=curve,
        cautions=((JAR,) if vessel.glass else ()) + cautions,
        sources=sources,
        assumed=assumed,
        flags=unique(flags),
    )


def _enough(time: float | Draws, available: float) -> Verdict:
    low, high = printed_ends(time)
    if high <= available:
        return Verdict("time to thaw", "within", f"It takes up to {spoken(high)}; there is time.",
                       "common practice")  # fmt: skip
    if low > available:
        return Verdict("time to thaw", "over", f"It takes at least {spoken(low)}: start sooner, or "
                       "choose cold water or a microwave oven.", "common practice")  # fmt: skip
    return Verdict("time to thaw", "too close", f"It takes {spoken(low)} to {spoken(high)}: start "
                   "sooner.", "common practice")  # fmt: skip
