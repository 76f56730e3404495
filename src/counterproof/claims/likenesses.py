"""Quantities turned into things people can see, each with its conditions and its source."""

from __future__ import annotations

from collections.abc import Sequence
from math import log, pi
from typing import Final

from counterproof import numerals
from counterproof.claims.figure import Figure
from counterproof.claims.seen import Seen, Shape, Surroundings, counted
from counterproof.draws import Range
from counterproof.footprint.activities import energy_factor
from counterproof.physics import carbon_dioxide
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place, Ring
from counterproof.physics.questions_heat import heat
from counterproof.physics.questions_plugged import boil_kettle
from counterproof.physics.values import STANDARD_PRESSURE, ZERO_CELSIUS
from counterproof.rows import Likeness

BEST: Final = 12.0
"""The count that is pictured most easily; likenesses near it come first. [1] A house choice."""

WARMS: Final = (
    "the carbon dioxide that would warm as much over 100 years; much of it is really methane and "
    "nitrous oxide"
)
GAS: Final = "carbon dioxide gas"
JOULES_PER_KWH: Final = 3.6e6  # exact


def gas_volume(kilograms: float, temperature: float, pressure: float = STANDARD_PRESSURE) -> float:
    """Volume of carbon dioxide gas.

    Parameters
    ----------
    kilograms : float
        Its mass, ≥ 0. [kg]
    temperature : float
        Its temperature, 233 to 423. [K]
    pressure : float
        Its pressure. [Pa]

    Returns
    -------
    float
        By the real-gas equation of `physics.carbon_dioxide`. [m³]
    """
    return kilograms / float(carbon_dioxide.density(temperature, pressure))


def sphere_volume(diameter: float) -> float:
    """Volume of a ball.

    Parameters
    ----------
    diameter : float
        Across. [m]

    Returns
    -------
    float
        π d³ / 6. [m³]
    """
    return pi * diameter**3 / 6.0


def _source(row: Likeness) -> str:
    said = row.provenance
    return said.source or f"assumed: {said.note}"


def _gas_row(kind: str, figure: Figure, around: Surroundings) -> Seen | None:
    row = around.row(kind)
    if row is None:
        return None
    volume, name, names, width, height = row.value, row.name, row.names, row.width, row.height
    if kind == "stockpot":
        pots = [one for one in around.kitchen.vessels if one.litres and one.litres >= 4]
        if pots:
            pot = max(pots, key=lambda one: one.litres or 0.0)
            volume = (pot.litres or 0.0) / 1000
            name, names = f"{volume * 1000:g}-litre pot", f"pots of {volume * 1000:g} litres"
            width = pot.diameter_m or (4 * volume / pi) ** (1 / 3)
            height = volume / (pi * width**2 / 4)
    each = float(carbon_dioxide.density(around.temperature, around.pressure)) * volume
    count = figure.range.scaled(1.0 / each)
    celsius = around.temperature - ZERO_CELSIUS
    conditions = (
        f"{celsius:.0f} °C and {around.pressure / 101_325:.3g} atm, by a real-gas equation",
        f"one {name} holds {1000 * volume:.3g} litres, {1000 * each:.3g} g",
        f"at 0 °C a gas takes {100 * (1 - ZERO_CELSIUS / around.temperature):.0f} % less room"
        if celsius > 1
        else "at 20 °C a gas takes 7 % more room",
    )
    warning = WARMS if figure.unit == "kg CO2e" else ""
    told = "would warm as much as" if figure.unit == "kg CO2e" else "is"
    sentence = f"It {told} {counted(count, name, names)} of {GAS}"
    sentence += " over 100 years." if warning else "."
    shape: Shape = row.shape
    return Seen(kind, count, name, names, sentence, conditions, _source(row), warning, shape, (width, height))  # fmt: skip


def _car(figure: Figure, around: Surroundings, region: str) -> Seen | None:
    rows = [row for row in around.tables.likenesses.get("car", ()) if row.region == region]
    if not rows:
        return None
    row = rows[0]
    count = figure.range.scaled(1.0 / row.value)
    return Seen(
        "car",
        count,
        row.name,
        row.names,
        f"It warms as much as driving {counted(count, row.name, row.names)} in an average car "
        f"({row.region.upper()}, {row.year}).",
        (f"{row.value:g} kg CO2e per {row.name}", row.conditions),
        _source(row),
        row.warning,
    )


def _boiled(kind: str, figure: Figure, around: Surroundings) -> Seen | None:
    """Litres of tap water brought to the boil, in a kettle or on the cook's own hob."""
    kitchen = around.kitchen
    place = Place(room=kitchen.room_celsius + ZERO_CELSIUS, altitude=kitchen.altitude_m)
    start = kitchen.tap_celsius + ZERO_CELSIUS
    if kind == "kettle":
        answer, carrier, name = boil_kettle(1.0, start, place=place), "electricity", "kettle"
        names, what = "kettles of a litre", "a litre boiled in an electric kettle"
    else:
        carrier = "gas" if kitchen.hob == "gas" else "electricity"
        ring = Ring(kitchen.hob, None if kitchen.hob == "gas" else kitchen.hob_watts)
        answer = heat(Contents(1.0), start, ring=ring, place=place)
        name, names = "litre of water", "litres of water"
        what = f"a litre boiled in a covered pot on the {kitchen.hob} hob"
    kwh = float(answer.result["input_j"]) / JOULES_PER_KWH
    of: tuple[str, ...] = ()
    factor = energy_factor(carrier, kitchen.region, around.tables)
    if figure.unit == "kWh":
        each = kwh
    elif factor is None:
        return None
    else:
        each = kwh * factor.kgco2e_per_kwh
        of = (f"{factor.kgco2e_per_kwh:.3g} kg CO2e per kWh of {carrier} in {factor.region}",)
    count = figure.range.scaled(1.0 / each)
    verb = "It takes as much energy as" if figure.unit == "kWh" else "It warms as much as"
    end = "" if kind == "kettle" else f" on the {kitchen.hob} hob"
    return Seen(
        kind,
        count,
        name,
        names,
        f"{verb} boiling {counted(count, name, names)}{end}.",
        (
            f"{what} from {kitchen.tap_celsius:g} °C takes {kwh:.3g} kWh",
            *of,
        ),
        factor.provenance.source if factor is not None and of else "choi-okos-1986",
    )


def _row_of(kind: str, figure: Figure, around: Surroundings, verb: str) -> Seen | None:
    row = around.row(kind)
    if row is None:
        return None
    count = figure.range.scaled(1.0 / row.value)
    return Seen(
        kind,
        count,
        row.name,
        row.names,
        f"{verb} {counted(count, row.name, row.names)}.",
        (row.conditions,),
        _source(row),
        row.warning,
        row.shape,
        (row.width, row.height),
    )


def _bottles(figure: Figure, around: Surroundings) -> Seen | None:
    one = _row_of("bottle", figure, around, "It fills")
    row = around.row("bottle")
    if one is None or row is None:
        return None
    length = numerals.plain(one.count.mean * row.height, 2)
    sentence = f"{one.sentence.rstrip('.')}, {length} metres end to end."
    return Seen(
        one.kind, one.count, one.name, one.names, sentence, one.conditions, one.source,
        one.warning, one.shape, one.size,
    )  # fmt: skip


def _habit(figure: Figure) -> Seen:
    year = figure.range.scaled(52.0)
    shown = numerals.mass(year)
    return Seen(
        "habit",
        Range(52.0, 52.0, 52.0, 52.0),
        "serving a week",
        "servings, one a week for a year",
        f"Once a week for a year it comes to {shown.middle} {shown.unit} CO₂e.",
        ("52 times", f"{shown.span} {shown.unit}"),
        "counting",
    )


def liken(figure: Figure, around: Surroundings) -> tuple[Seen, ...]:
    """A figure as all things that can picture it, the best first.

    Parameters
    ----------
    figure : Figure
        Greenhouse gases, carbon dioxide, energy, a volume or a mass of water.
    around : Surroundings
        Kitchen, tables, temperature of the gas.

    Returns
    -------
    tuple of Seen
        Those whose count lies between 1 and 300; empty where none can.
    """
    found = [seen for seen in _all(figure, around) if seen is not None and seen.pictured]
    return tuple(sorted(found, key=lambda seen: abs(log(seen.count.mean / BEST))))


def likened(figure: Figure, kind: str, around: Surroundings) -> Seen | None:
    """A figure as one kind of thing, whatever the count.

    Parameters
    ----------
    figure : Figure
        As for `liken`.
    kind : str
        What the things are.
    around : Surroundings
        Kitchen, tables, temperature of the gas.

    Returns
    -------
    Seen or None
        None where that kind cannot picture such a figure.
    """
    return next(
        (seen for seen in _all(figure, around) if seen is not None and seen.kind == kind), None
    )


def _all(figure: Figure, around: Surroundings) -> Sequence[Seen | None]:
    if not figure.mean > 0:
        return ()
    gases = [_gas_row(kind, figure, around) for kind in ("balloon", "stockpot", "bathtub", "room")] if figure.unit in {"kg CO2e", "kg CO2"} else []  # fmt: skip
    if figure.unit == "kg CO2":
        return gases
    if figure.unit == "kg CO2e":
        regions = [around.kitchen.region] if around.kitchen.region in {"uk", "us"} else ["uk", "us"]
        return [
            *gases,
            *(_car(figure, around, region) for region in regions),
            _boiled("kettle", figure, around),
            _boiled("hob", figure, around),
            _row_of("day of food", figure, around, "It is"),
            _habit(figure),
        ]
    if figure.unit == "kWh":
        return [_boiled("kettle", figure, around), _boiled("hob", figure, around)]
    if figure.unit == "L":
        return [
            _row_of("glass", figure, around, "It fills"),
            _bottles(figure, around),
            _row_of("bathtub full", figure, around, "It fills"),
        ]
    return []
