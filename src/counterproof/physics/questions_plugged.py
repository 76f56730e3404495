"""Questions of appliances with a plug: boil a kettle, heat in a microwave oven."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import kettle, microwave, vessels, water
from counterproof.physics.answer import Answer, credited
from counterproof.physics.boiling import validity as altitude_validity
from counterproof.physics.cautions import CORE, SCALD, SUPERHEATED
from counterproof.physics.flags import outside_fit, refuse_unless_positive, unique
from counterproof.physics.heating import Contents, Stove, start_remarks
from counterproof.physics.places import LAWS, Place, leaks, with_spread
from counterproof.physics.values import (
    ZERO_CELSIUS,
    Draws,
    Take,
    largest,
    middle,
    smallest,
    taken_share,
)


def boil_kettle(
    mass: float | Draws,
    start: float | Draws,
    end: float | None = None,
    *,
    power: float | Draws | None = None,
    place: Place | None = None,
    take: Take = middle,
) -> Answer:
    """What an electric kettle takes to heat water.

    Parameters
    ----------
    mass : float or (n,) array
        Water, > 0. [kg]
    start : float or (n,) array
        Temperature of the water. [K]
    end : float or None
        Temperature wanted, for a kettle with a setting; None for the boil. [K]
    power : float or (n,) array or None
        Power of the kettle; None for a common one. [W]
    place : Place or None
        The kitchen; None for the defaults.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `time_s`, `useful_j`, `input_j`, `evaporated_kg`, and where the rest goes.

    Raises
    ------
    OutOfRange
        If there is no water, or the end lies below the start or above the boil.
    """
    place = place or Place()
    refuse_unless_positive("The power", power)
    if not smallest(mass) > 0.0:
        raise OutOfRange(
            "An empty kettle must not be switched on.", remedy="Give an amount of water."
        )
    watts = take("kettle|power", kettle.POWER) if power is None else power
    body = kettle.body_mass(take("kettle|body", kettle.BODY))
    jug = replace(vessels.pot_for(float(np.mean(mass)) / 1000.0), mass=body)
    asked = kettle.Kettle(
        Stove(jug, place.air, place.boil, leaks(take)),
        watts,
        take("kettle|overrun", kettle.OVERRUN),
    )
    target = place.boil if end is None else end
    done = kettle.boiled(mass, start, target, asked)
    flags = (
        *altitude_validity(place.altitude),
        *outside_fit("water temperature", start, water.HEAT_CAPACITY),
        *kettle.remarks(mass),
    )
    own = () if power is not None else (kettle.POWER,)
    sources, assumed = credited(*LAWS, *own, kettle.BODY, kettle.OVERRUN)
    return Answer(
        process="kettle",
        inputs={"water_kg": mass, "from_celsius": start - ZERO_CELSIUS,
                "to_celsius": target - ZERO_CELSIUS, "power_w": kettle.POWER.value if power is None else power, **place.inputs()},
        result={
            "time_s": done.time,
            "useful_j": done.useful,
            "input_j": done.bought,
            "evaporated_kg": done.evaporated,
            "body_j": done.body,
            "loss_j": done.losses,
            "overrun_j": done.overrun,
            "efficiency_share": done.efficiency,
        },
        cautions=(SCALD,),
        sources=sources,
        assumed=assumed,
        flags=unique(flags),
    )  # fmt: skip


def microwave_food(
    contents: Contents,
    start: float | Draws,
    end: float | Draws,
    *,
    output: float | Draws | None = None,
    place: Place | None = None,
    take: Take = middle,
) -> Answer:
    """What a microwave oven takes to heat something.

    Parameters
    ----------
    contents : Contents
        Food and water.
    start, end : float or (n,) array
        Mean temperatures, start < end ≤ boiling point. [K]
    output : float or (n,) array or None
        Rated output at the setting used; None for a common one. [W]
    place : Place or None
        The kitchen; None for the defaults.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `time_s`, `useful_j`, `input_j`.

    Raises
    ------
    OutOfRange
        If there is nothing to heat, or the end is below the start or above the boil.
    """
    place = place or Place()
    refuse_unless_positive("The output", output)
    refuse_unless_positive("The water", contents.water, zero=True)
    refuse_unless_positive("The food", contents.food, zero=True)
    if largest(start - end) >= 0.0:
        raise OutOfRange(
            "Heating ends warmer than it starts.",
            remedy="Give an end temperature above the start.",
        )
    if largest(end) > place.boil + 1e-6:
        raise OutOfRange(
            f"Moist food does not get hotter than {place.boil - ZERO_CELSIUS:.1f} °C here.",
            remedy="Give an end temperature up to that.",
        )
    contents = with_spread(contents, take)
    asked = microwave.Microwave(
        output=take("microwave|output", microwave.OUTPUT) if output is None else output,
        efficiency=taken_share(take, "microwave|efficiency", microwave.EFFICIENCY),
        dish=take("microwave|dish", microwave.DISH),
        small=take("microwave|small load", microwave.SMALL_LOAD),
    )
    done = microwave.microwaved(contents.heat(start, end), contents.mass, asked)
    own = () if output is not None else (microwave.OUTPUT,)
    sources, assumed = credited(
        "coolprop-2014", "choi-okos-1986", *own, microwave.EFFICIENCY, microwave.DISH,
        microwave.SMALL_LOAD,
    )  # fmt: skip
    return Answer(
        process="microwave",
        inputs={
            "water_kg": contents.water,
            "food_kg": contents.food,
            "from_celsius": start - ZERO_CELSIUS,
            "to_celsius": end - ZERO_CELSIUS,
            "output_w": microwave.OUTPUT.value if output is None else output,
            **place.inputs(),
        },
        result={
            "time_s": done.time,
            "useful_j": done.useful,
            "input_j": done.bought,
            "dish_j": done.dish,
            "oven_loss_j": done.oven,
        },
        cautions=(SUPERHEATED, CORE),
        sources=sources,
        assumed=assumed,
        flags=(
            *microwave.remarks(contents.mass),
            *start_remarks(contents, start),
        ),
    )
