"""The question of a drink in the glass: what is mixed from its parts, or to measure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from counterproof.errors import InputError
from counterproof.kitchen_questions.around import Around, of_food
from counterproof.physics import questions_mix
from counterproof.physics.answer import Answer
from counterproof.physics.flags import Flag
from counterproof.physics.mixing import Part, mixed
from counterproof.physics.serving import Serving
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.reading.marking import read_lines
from counterproof.reading.model import MarkedLine
from counterproof.recipe.model import WrittenLine
from counterproof.sourced import Sourced

GLASSFUL: Final = Sourced(
    330e-6, "m³", 0.0, "assumed", "", "a drink made to measure: a can or glass"
)
_CARBONATED: Final = frozenset({"soft drinks"})
_SPARKLING: Final = "water-sparkling"
_SWEETENERS: Final = {
    "honey": "honey", "sugar-brown": "brown sugar", "corn-syrup": "glucose syrup",
    "treacle": "molasses", "fructose": "fructose", "agave-syrup": "fructose",
    "golden-syrup": "invert sugar",
}  # fmt: skip
_SUGARS_OF_CLASS: Final = {"fruit": "fruit sugars", "juices": "fruit sugars", "dairy": "lactose"}


@dataclass(frozen=True, slots=True)
class Glass:
    """A drink as a person describes it.

    Parameters
    ----------
    parts : tuple of str
        Recipe lines: "30 ml lime juice".
    temperatures : tuple of float
        One for all parts, or one a part; none for the room's. [K]
    fizz : float or None
        Carbon dioxide in what sparkles. [kg/m³]
    ice : float
        Ice put in at the end. [kg]
    ice_temperature : float or None
        Of the ice; None for that of the freezer. [K]
    """

    parts: tuple[str, ...]
    temperatures: tuple[float, ...] = ()
    fizz: float | None = None
    ice: float = 0.0
    ice_temperature: float | None = None


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a drink shall be.

    Parameters
    ----------
    brix : float or None
        Soluble solids. [°Brix]
    acid : float or None
        Titratable acid, as citric. [kg/m³]
    volume : float or None
        Of the drink; None for a glassful. [m³]
    temperature : float or None
        Reached by ice. [K]
    """

    brix: float | None = None
    acid: float | None = None
    volume: float | None = None
    temperature: float | None = None


def mix(glass: Glass, around: Around, wanted: Wanted, *, serving: Serving | None = None) -> Answer:
    """Mix a drink from its parts, or to measure.

    Parameters
    ----------
    glass : Glass
        Parts, temperatures, ice.
    around : Around
        Tables and kitchen.
    wanted : Wanted
        What it shall be.
    serving : Serving or None
        What happens to the fizz.

    Returns
    -------
    Answer
        What the drink is; amounts of the parts where they were asked.

    Raises
    ------
    InputError
        If a part is no food with an amount, or what is wanted cannot be told from the parts.
    """
    to_measure = wanted.brix is not None or wanted.acid is not None
    parts, flags, sources = _parts(glass, around, fixed=to_measure)
    cold = around.freezer if glass.ice_temperature is None else glass.ice_temperature
    if to_measure:
        answer = _to_measure(parts, wanted, around)
    else:
        ice = glass.ice
        if wanted.temperature is not None:
            fixed, *_ = _parts(glass, around, fixed=True)
            ice = questions_mix.ice_to(fixed, wanted.temperature, cold)
        answer = questions_mix.mix(
            parts, ice_mass=ice, ice_temperature=cold, serving=serving, take=around.take
        )
    return replace(
        answer,
        inputs={**answer.inputs, "wanted_celsius": _celsius(wanted.temperature)},
        sources=tuple(dict.fromkeys((*answer.sources, *sources))),
        flags=tuple(dict.fromkeys((*answer.flags, *flags))),
    )


def _celsius(temperature: float | None) -> float | None:
    return None if temperature is None else temperature - ZERO_CELSIUS


def _to_measure(parts: Sequence[Part], wanted: Wanted, around: Around) -> Answer:
    """The sweetest part sweetens, the sourest of the others sours, the thinnest fills up."""
    needed = 2 if wanted.acid is None else 3
    if wanted.brix is None or len(parts) != needed:
        raise InputError(
            "A drink is made to measure from a sweet part, a sour one where acid is asked, and "
            "one that fills up.",
            remedy="Give --want-brix 8 with two parts, or with --want-acid 4g/L three: "
            '"1 l ginger syrup" "1 l lime juice" "1 l water".',
        )

    def solids(part: Part) -> float:
        return float(np.mean((part.sugar + part.acid) / part.mass))

    plain, *rest = sorted(parts, key=solids)
    sour = max(rest, key=lambda part: float(np.mean(part.acid / part.mass)))
    sweet = next((part for part in rest if part is not sour), sour)
    volume = GLASSFUL.value if wanted.volume is None else wanted.volume
    return questions_mix.mix_for(
        sweet,
        None if wanted.acid is None else sour,
        plain,
        brix=wanted.brix,
        acid=wanted.acid,
        volume=volume,
        take=around.take,
    )


def _parts(
    glass: Glass, around: Around, *, fixed: bool
) -> tuple[tuple[Part, ...], tuple[Flag, ...], tuple[str, ...]]:
    """Parts as read, what must be said about them, and where their composition comes from."""
    written = [WrittenLine(number, text, "") for number, text in enumerate(glass.parts, start=1)]
    region = around.kitchen.region
    lines = read_lines(written, around.bench.tables, around.bench.matcher, region=region)
    temperatures = glass.temperatures or (around.place.room,)
    if len(temperatures) not in {1, len(lines)}:
        raise InputError(
            f"There are {len(lines)} parts and {len(temperatures)} temperatures.",
            remedy="Give --from once for all parts, or once for each, in their order.",
        )
    warm = temperatures * len(lines) if len(temperatures) == 1 else temperatures
    parts: list[Part] = []
    flags: list[Flag] = []
    sources: list[str] = []
    for line, temperature in zip(lines, warm, strict=True):
        part, said, cited = _part(line, temperature, glass.fizz, around, fixed=fixed)
        parts.append(part)
        flags.extend(said)
        sources.extend(cited)
    return tuple(parts), tuple(flags), tuple(sources)


def _part(
    line: MarkedLine, temperature: float, fizz: float | None, around: Around, *, fixed: bool
) -> tuple[Part, tuple[Flag, ...], tuple[str, ...]]:
    if line.food is None or line.mass is None:
        why = " ".join(mark.message for mark in line.marks if mark.level != "note")
        raise InputError(
            f"“{line.written.text}” cannot be mixed: {why or 'it has no amount.'}",
            remedy="Write an amount and a food, such as “30 ml lime juice”.",
        )
    food = line.food
    what = of_food(food, line.split.name, around.bench.tables)
    flags = what.flags + tuple(
        Flag(mark.kind, f"{line.written.text}: {mark.message}")
        for mark in line.marks
        if mark.level != "note"
    )
    mass = line.mass.mean if fixed else line.mass.draws(around.streams)
    made_of = around.bench.tables.composition.get(food.id)
    sugar = acid = alcohol = 0.0
    water = None
    if made_of is not None and not what.is_water:
        sweet = made_of.sugars_g
        if sweet is None:
            sweet = max((made_of.carbohydrate_g or 0.0) - (made_of.fibre_g or 0.0), 0.0)
        sugar, acid = sweet / 100.0, (made_of.citric_acid_g or 0.0) / 100.0
        alcohol = (made_of.alcohol_g or 0.0) / 100.0
        water = min((made_of.water_g or 0.0) / 100.0, 1.0 - sugar - acid - alcohol)
    part = Part(
        food.name,
        mass,
        sugar * mass,
        acid * mass,
        alcohol * mass,
        None if water is None else max(water, 0.0) * mass,
        temperature,
        sweetener=_SWEETENERS.get(food.id, _SUGARS_OF_CLASS.get(food.food_class, "sucrose")),
    )
    if food.id == _SPARKLING or food.food_class in _CARBONATED:
        if fizz is None:
            flags += (
                Flag(
                    "fizz-unknown",
                    f"the fizz of {food.name} is not counted: say how much, as in --fizz 6g/L.",
                    "note",
                ),
            )
        else:
            part = replace(part, co2=fizz * mixed((part,)).volume)
    return part, flags, what.sources
