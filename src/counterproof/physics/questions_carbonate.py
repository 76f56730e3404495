"""The question of fizz: how much gas water takes at a temperature and pressure, and backwards."""

from __future__ import annotations

from typing import Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import carbonation, charging, fizz_loss, room_air, water
from counterproof.physics.answer import Answer, Verdict, credited
from counterproof.physics.boiling import pressure_at
from counterproof.physics.charging import Bottle
from counterproof.physics.cylinder import cylinder, full_of_liquid
from counterproof.physics.fizz_scene import (
    BAR,
    PRESSURE,
    STATED,
    UPRIGHT,
    WATER_ONLY,
    Machine,
    Pressure,
    marks,
    strength,
)
from counterproof.physics.flags import Flag, unique
from counterproof.physics.serving import Serving
from counterproof.physics.values import ZERO_CELSIUS, Draws, Take, middle, taken_share
from counterproof.sourced import Sourced

_CURVE: Final = np.arange(0.0, 31.0, 2.0)
MOST_BOTTLE: Final = Sourced(
    10e5, "Pa", 0.0, "assumed", "", "no bottle is asked to hold more here; read its label"
)


def carbonate(
    temperature: float,
    pressure: Pressure,
    *,
    machine: Machine | None = None,
    alkalinity: float | None = None,
    serving: Serving | None = None,
    warm: float = ZERO_CELSIUS + 20.0,
    take: Take = middle,
) -> Answer:
    """How much carbon dioxide water takes up.

    Parameters
    ----------
    temperature : float
        Of the water. [K]
    pressure : Pressure
        In the head space.
    machine : Machine or None
        Bottle, purges, pulses, cylinder; None for equilibrium without air.
    alkalinity : float or None
        Of the water; None for anything from 0 to 4. [mol/m³] (meq/L)
    serving : Serving or None
        What happens until it is drunk; None for one gentle pouring.
    warm : float
        Temperature of cylinder and room. [K]
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `co2_g_per_l`, `volumes`, `co2_mole_fraction`, `ph`; what reaches the glass; gas used; the
        curve over temperature under `by_temperature`.

    Raises
    ------
    OutOfRange
        If there is no room for the gas, or it would turn liquid.
    """
    machine, serving = machine or Machine(), serving or Serving()
    total = pressure.total(temperature)
    air = 0.0
    if machine.purges is not None and pressure.partial is None:
        air = float(charging.air_left(pressure.outside, total, machine.purges))
    partial = float(carbonation.partial_pressure(temperature, total, air))
    equilibrium = float(carbonation.dissolved(temperature, partial))
    held: float | Draws = equilibrium
    if machine.pulses is not None:
        pulse = taken_share(take, "carbonate|pulse", charging.PULSE)
        held = charging.taken_up(equilibrium, machine.pulses, pulse)
    kept = serving.kept(take)
    result = {
        **strength(held, temperature, alkalinity),
        "equilibrium_g_per_l": equilibrium,
        "partial_bar": partial / BAR,
        "absolute_bar": total / BAR,
        "gauge_bar": (total - pressure.outside) / BAR,
        "air_left_bar": air / BAR,
        "kept_share": kept,
        "in_glass_g_per_l": fizz_loss.diluted(held * kept, 1.0, serving.flat),
        "by_temperature": _by_temperature(pressure, air),
        "cold_over_room_share": _cold_gain(pressure, air),
    }
    constants: tuple[Sourced, ...] = serving.constants
    verdicts: tuple[Verdict, ...] = ()
    if machine.pulses is not None:
        constants += (charging.PULSE,)
    if machine.bottle is not None:
        used, more = _gas(machine, machine.bottle, temperature, (partial, held), take)
        result |= used
        constants += more
    limits: tuple[str, ...] = ()
    flags = marks(temperature, partial, alkalinity, pressure.altitude)
    if machine.contents is not None:
        told, verdicts, more_flags = _cylinder(machine, machine.contents, warm)
        result |= told
        flags += more_flags
        limits = ("span-wagner-1996", *(verdict.source for verdict in verdicts))
    sources, assumed = credited(*STATED, *limits, *constants)
    return Answer(
        process="carbonate",
        inputs={"celsius": temperature - ZERO_CELSIUS, **pressure.inputs(), **machine.inputs(),
                "alkalinity_meq_per_l": alkalinity, **serving.inputs()},
        result=result,
        verdicts=verdicts,
        cautions=(WATER_ONLY, PRESSURE, *((UPRIGHT,) if machine.contents else ())),
        sources=sources,
        assumed=assumed,
        flags=unique(flags),
    )  # fmt: skip


def carbonate_for(
    wanted: float,
    *,
    temperature: float | None = None,
    pressure: Pressure | None = None,
    altitude: float = 0.0,
    alkalinity: float | None = None,
    serving: Serving | None = None,
    take: Take = middle,
) -> Answer:
    """What pressure, or what temperature, gives so much carbon dioxide.

    Parameters
    ----------
    wanted : float
        Carbon dioxide wanted, > 0: in the glass if `serving` is given, else in the water. [kg/m³]
    temperature : float or None
        Of the water: then the pressure is the answer. [K]
    pressure : Pressure or None
        In the head space: then the temperature is the answer.
    altitude : float
        Height above the sea, for the gauge. [m]
    alkalinity : float or None
        Of the water; None for anything from 0 to 4. [mol/m³] (meq/L)
    serving : Serving or None
        What happens until it is drunk.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        As of `carbonate`; `gauge_bar` or `celsius` is what was asked.

    Raises
    ------
    OutOfRange
        If not exactly one of temperature and pressure is given, or nothing gives so much.
    """
    if (temperature is None) == (pressure is None):
        raise OutOfRange(
            "Either the temperature is known or the pressure.", remedy="Give one of the two."
        )
    if wanted <= 0.0:
        raise OutOfRange("Some carbon dioxide is wanted.", remedy="Give g/L or volumes above 0.")
    kept: float | Draws = 1.0
    needed: float | Draws = wanted
    constants: tuple[Sourced, ...] = ()
    if serving is not None:
        kept, constants = serving.kept(take), serving.constants
        needed = fizz_loss.needed_before(wanted, kept, serving.fizzy_share)
    if temperature is not None:
        partial = carbonation.partial_pressure_for(temperature, needed)
        celsius: float | Draws = temperature - ZERO_CELSIUS
        vapour = water.saturation_pressure(temperature)
        total = partial + vapour
    else:
        if pressure is None:  # never: one of the two is there
            raise OutOfRange("There is no pressure.", remedy="Give one.")
        celsius, partial, total = _temperatures(pressure, needed)
        altitude = pressure.altitude
    outside = float(pressure_at(altitude))
    at = celsius + ZERO_CELSIUS
    sources, assumed = credited(*STATED, *constants)
    gauge = total - outside
    flags = marks(at, partial, alkalinity, altitude)
    if float(np.min(gauge)) < 0.0:
        flags += (Flag("no-pressure-needed", "the air outside presses enough: water takes more "
                       "gas than that from an open bottle full of it.", "note"),)  # fmt: skip
    if float(np.max(total)) > MOST_BOTTLE.value:
        flags += (Flag("high-pressure", "more pressure than a bottle is made for: cool the water "
                       "instead."),)  # fmt: skip
    return Answer(
        process="carbonate",
        inputs={"wanted_g_per_l": wanted, "in_glass": serving is not None,
                "celsius": None if temperature is None else temperature - ZERO_CELSIUS,
                **({} if pressure is None else pressure.inputs()), "altitude_m": altitude,
                "alkalinity_meq_per_l": alkalinity},
        result={
            **strength(needed, at, alkalinity),
            "gauge_bar": gauge / BAR,
            "absolute_bar": total / BAR,
            "partial_bar": partial / BAR,
            "celsius": celsius,
            "kept_share": kept,
            "in_glass_g_per_l": wanted if serving is not None else None,
        },
        cautions=(WATER_ONLY, PRESSURE),
        sources=sources,
        assumed=assumed,
        flags=unique(flags),
    )  # fmt: skip


def _temperatures(
    pressure: Pressure, needed: float | Draws
) -> tuple[float | Draws, float | Draws, float]:
    """Return the warmest water that will do, in °C, and both pressures there."""

    def warmest(concentration: float) -> float:
        at = ZERO_CELSIUS + 10.0
        for _ in range(6):
            total = pressure.total(at)
            partial = float(carbonation.partial_pressure(at, total))
            at = carbonation.temperature_for(partial, concentration)
        return at

    if np.ndim(needed) == 0:
        found: float | Draws = warmest(float(needed))
    else:
        # A smooth curve of one variable: sixteen points carry the draws.
        low, high = float(np.min(needed)), float(np.max(needed))
        points = np.linspace(low, high, 16)
        found = np.interp(needed, points, [warmest(float(p)) for p in points])
    middle_at = float(np.mean(found))
    total = pressure.total(middle_at)
    partial = total - water.saturation_pressure(found)
    return found - ZERO_CELSIUS, partial, total


def _by_temperature(pressure: Pressure, air: float) -> dict[str, list[float]]:
    """Return what water holds from 0 to 30 °C at the same pressure: why cold water takes more."""
    amounts = []
    for celsius in _CURVE:
        at = ZERO_CELSIUS + float(celsius)
        partial = carbonation.partial_pressure(at, pressure.total(at), air)
        amounts.append(float(carbonation.dissolved(at, partial)))
    return {"celsius": [float(c) for c in _CURVE], "co2_g_per_l": amounts}


def _cold_gain(pressure: Pressure, air: float) -> float:
    def held(at: float) -> float:
        partial = carbonation.partial_pressure(at, pressure.total(at), air)
        return float(carbonation.dissolved(at, partial))

    return held(ZERO_CELSIUS + 4.0) / held(ZERO_CELSIUS + 20.0)


def _gas(
    machine: Machine,
    bottle: Bottle,
    temperature: float,
    state: tuple[float, float | Draws],
    take: Take,
) -> tuple[dict[str, Any], tuple[Sourced, ...]]:
    relief = taken_share(take, "carbonate|relief", charging.RELIEF)
    partial, held = state
    went = charging.charge(
        bottle, temperature, partial, held, purges=machine.purges or 0, relief=relief
    )
    told: dict[str, Any] = {
        "gas_used_g": 1e3 * went.used,
        "gas_dissolved_g": 1e3 * went.dissolved,
        "gas_head_g": 1e3 * went.head,
        "gas_purged_g": 1e3 * went.purged,
        "gas_passed_g": 1e3 * went.passed,
        "uptake_share": went.efficiency,
    }
    constants: tuple[Sourced, ...] = (charging.RELIEF,)
    if machine.contents is not None:
        drained = taken_share(take, "carbonate|drained", charging.DRAINED)
        per_litre = went.used / bottle.water
        told["litres_per_cylinder"] = charging.litres_per_cylinder(
            machine.contents, per_litre, drained
        )
        constants += (charging.DRAINED,)
    return told, constants


def _cylinder(
    machine: Machine, contents: float, warm: float
) -> tuple[dict[str, Any], tuple[Verdict, ...], tuple[Flag, ...]]:
    told: dict[str, Any] = {}
    verdicts: tuple[Verdict, ...] = ()
    flags: tuple[Flag, ...] = ()
    if machine.cylinder_volume is not None:
        inside = cylinder(warm, contents, machine.cylinder_volume)
        full = full_of_liquid(contents, machine.cylinder_volume)
        told |= {
            "cylinder_bar": inside.pressure / BAR,
            "cylinder_state": inside.state,
            "cylinder_liquid_share": inside.liquid_share,
            "cylinder_full_of_liquid_celsius": None if full is None else full - ZERO_CELSIUS,
        }
        flags = inside.flags
    if machine.room is not None:
        added = room_air.added_fraction(contents, machine.room, warm)
        spare = room_air.EIGHT_HOURS.value - room_air.BACKGROUND.value
        most = room_air.largest_mass(spare, machine.room, warm)
        told["room_added_ppm"] = 1e6 * added
        told["room_bears_g"] = 1e3 * most
        told["room_needed_m3"] = machine.room * contents / most
        verdicts = room_air.verdicts(added)
    return told, verdicts, flags
