"""The question of a drink: what it is once mixed, with ice, and how to make it to measure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import carbonation, fizz_loss, ice, spirits, sucrose
from counterproof.physics.answer import Answer, credited
from counterproof.physics.composing import composed
from counterproof.physics.fizz_scene import WATER_ONLY
from counterproof.physics.flags import Flag, unique
from counterproof.physics.freezing_point import CRYOSCOPIC, HELD_WATER
from counterproof.physics.freezing_point import validity as frost_validity
from counterproof.physics.mixing import Drink, Part, apart, mixed
from counterproof.physics.serving import Serving
from counterproof.physics.sweetness import relative_sweetness, sweetness
from counterproof.physics.values import (
    STANDARD_PRESSURE,
    ZERO_CELSIUS,
    Draws,
    Take,
    largest,
    middle,
    smallest,
    taken_share,
)
from counterproof.physics.water import HEAT_OF_FUSION

_SOURCES: Final = ("crc-68-sucrose", "perry-7", "choi-okos-1986", "coolprop-2014")
_SOUR: Final = 0.05  # [kg/m³]: less acid than this and a ratio to it means nothing


def mix(
    parts: Sequence[Part],
    *,
    ice_mass: float = 0.0,
    ice_temperature: float = ZERO_CELSIUS - 18.0,
    serving: Serving | None = None,
    take: Take = middle,
) -> Answer:
    """What a drink is once its parts are together.

    Parameters
    ----------
    parts : sequence of Part
        What goes in, in order.
    ice_mass : float
        Ice put in at the end. [kg]
    ice_temperature : float
        Of the ice, at most 273.15. [K]
    serving : Serving or None
        What happens to the fizz; None for one gentle pouring where there is any.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `brix`, `density_kg_per_l`, `acid_g_per_l`, `co2_g_per_l`, `celsius`, `alcohol_vol_share`,
        sweetness with its published range, contraction, ice, and what the order of mixing costs.

    Raises
    ------
    OutOfRange
        If there is nothing to mix, or the ice would freeze the drink.
    """
    fizzy = any(largest(part.co2) > 0.0 for part in parts)
    served = serving or Serving(poured=fizzy)
    kept = served.kept(take) if fizzy else 1.0
    plain = mixed(parts, kept)
    cold = ice.Chilled(plain, 0.0, 0.0)
    if ice_mass != 0.0:
        cold = ice.chilled(plain, ice_mass, ice_temperature)
    drink = cold.drink
    held = drink.co2 / drink.volume
    result: dict[str, Any] = {
        "brix": drink.brix,
        "density_kg_per_l": drink.density / 1000.0,
        "acid_g_per_l": drink.acidity,
        "co2_g_per_l": held,
        "celsius": drink.temperature - ZERO_CELSIUS,
        "alcohol_vol_share": drink.alcohol_share,
        "specific_gravity": drink.density / spirits.WATER_DENSITY.value,
        "mass_kg": drink.mass,
        "volume_ml": 1e6 * drink.volume,
        "sugar_g_per_l": drink.sugar / drink.volume,
        "sugar_acid_ratio": drink.sugar / drink.acid if smallest(drink.acidity) > _SOUR else None,
        "co2_volumes": carbonation.volumes(held),
        "contraction_share": 1.0 - plain.volume / apart(parts),
        "before_ice": {"celsius": plain.temperature - ZERO_CELSIUS, "brix": plain.brix},
        "ice_melted_g": 1e3 * cold.melted,
        "ice_left_g": 1e3 * cold.left,
        "dilution_share": cold.dilution,
        "freezing_celsius": _begins(drink),
        "sweetness": _sweet(parts, drink),
    }
    constants: list[Any] = []
    if fizzy:
        result |= _fizz(parts, drink, take)
        constants += [*served.constants, fizz_loss.STIRRED]
    if ice_mass > 0.0:
        constants += [HEAT_OF_FUSION, CRYOSCOPIC, HELD_WATER]
    if largest(drink.alcohol) > 0.0:
        constants.append(spirits.HEAT_CAPACITY)
    known = [s for part in parts if largest(part.sugar) > 0.0
             for s in relative_sweetness(part.sweetener).sources]  # fmt: skip
    sources, assumed = credited(*_SOURCES, *known, *constants)
    return Answer(
        process="mix",
        inputs={"parts": [part.name for part in parts], "ice_g": 1e3 * ice_mass,
                "ice_celsius": ice_temperature - ZERO_CELSIUS, **served.inputs()},
        result=result,
        cautions=(WATER_ONLY,) if fizzy else (),
        sources=sources,
        assumed=assumed,
        flags=unique(_flags(drink, fizzy=fizzy, iced=ice_mass > 0.0)),
    )  # fmt: skip


def mix_for(
    sweet: Part,
    sour: Part | None,
    plain: Part,
    *,
    brix: float,
    acid: float | None = None,
    volume: float = 330e-6,
    take: Take = middle,
) -> Answer:
    """How much of each part gives a °Brix and an acidity in a glass.

    Parameters
    ----------
    sweet, plain : Part
        What sweetens, and what fills up; single numbers.
    sour : Part or None
        What sours; None where only the °Brix is asked.
    brix : float
        Soluble solids wanted. [°Brix]
    acid : float or None
        Titratable acid wanted, as citric. [kg/m³]
    volume : float
        Of the drink at 20 °C. [m³]
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        As of `mix`, with `parts_g` and `parts_ml`.

    Raises
    ------
    OutOfRange
        If these parts cannot give it.
    """
    found = composed(sweet, sour, plain, brix=brix, acid=acid, volume=volume)
    answer = mix(found, take=take)
    amounts: dict[str, Any] = {
        "parts_g": {part.name: 1e3 * float(np.mean(part.mass)) for part in found},
        "parts_ml": {part.name: 1e6 * float(np.mean(apart((part,)))) for part in found},
    }
    wanted = {"wanted_brix": brix, "wanted_acid_g_per_l": acid, "wanted_ml": 1e6 * volume}
    return Answer(
        process="mix",
        inputs={**answer.inputs, **wanted},
        result={**answer.result, **amounts},
        cautions=answer.cautions,
        sources=answer.sources,
        assumed=answer.assumed,
        flags=answer.flags,
    )


def ice_to(drink_parts: Sequence[Part], wanted: float, ice_temperature: float) -> float:
    """Ice that brings a drink to a temperature, all of it melting.

    Parameters
    ----------
    drink_parts : sequence of Part
        What goes in; single numbers.
    wanted : float
        Temperature wanted. [K]
    ice_temperature : float
        Of the ice. [K]

    Returns
    -------
    float
        Ice. [kg]

    Raises
    ------
    OutOfRange
        If the drink is colder already, or it would take ice that stays.
    """
    if not drink_parts:
        raise OutOfRange("There is nothing to cool.", remedy="Name at least one part.")
    return ice.ice_for(mixed(drink_parts), wanted, ice_temperature)


def _begins(drink: Drink) -> float | Draws | None:
    """Return where it begins to freeze, None for what has too little water to."""
    if smallest(drink.moisture - 2.0 * HELD_WATER.value * drink.sugar) <= 0.0:
        return None
    return drink.begins_to_freeze - ZERO_CELSIUS


def _sweet(parts: Sequence[Part], drink: Drink) -> dict[str, Any]:
    masses: dict[str, float | Draws] = {}
    for part in parts:
        masses[part.sweetener] = masses.get(part.sweetener, 0.0) + part.sugar
    low, high = sweetness(masses, drink.volume)
    return {"low_sucrose_g_per_l": low, "high_sucrose_g_per_l": high}


def _fizz(parts: Sequence[Part], drink: Drink, take: Take) -> dict[str, Any]:
    """Return what the order of mixing costs: dissolve first and add the fizz last, or stir it in."""
    before: float | Draws = 0.0
    for part in parts:
        before = before + part.co2
    poured = taken_share(take, "fizz|poured", fizz_loss.POURED)
    stirred = taken_share(take, "fizz|stirred", fizz_loss.STIRRED)
    last = before * fizz_loss.kept(poured=poured) / drink.volume
    through = before * fizz_loss.kept(poured=poured, stirred=stirred) / drink.volume
    partial = STANDARD_PRESSURE
    open_glass = carbonation.dissolved(float(np.mean(drink.temperature)), partial)
    sweet = float(np.mean(drink.brix)) > 2.0
    return {
        "fizz_last_g_per_l": last,
        "stirred_after_g_per_l": through,
        "order_gain_share": last / through,
        "order": "Dissolve the sugar and stir first; add the carbonated part last, down the side.",
        "open_glass_holds_g_per_l": open_glass * (carbonation.SUGARED.value if sweet else 1.0),
    }


def _flags(drink: Drink, *, fizzy: bool, iced: bool) -> tuple[Flag, ...]:
    flags = sucrose.validity(drink.brix, drink.temperature)
    flags += spirits.validity(drink.alcohol_share)
    if fizzy:
        flags += tuple(
            Flag(flag.name, flag.message, "note")
            for flag in carbonation.validity(drink.temperature, STANDARD_PRESSURE)
        )
    if iced:
        parts = (drink.moisture, drink.sugar, drink.alcohol)
        flags += frost_validity(*(float(np.mean(part)) for part in parts))
    if largest(drink.alcohol) > 0.0 and largest(drink.sugar) > 0.0:
        flags += (
            Flag(
                "brix-of-spirits",
                "°Brix counts the dissolved solids; a refractometer reads alcohol as sugar too.",
                "note",
            ),
        )
    return flags
