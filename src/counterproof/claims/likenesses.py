"""Quantities turned into things people can see, each with its conditions and its source."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import log, pi
from typing import Any, Final, Literal

from counterproof import numerals
from counterproof.claims.figure import Figure
from counterproof.draws import Range, Streams
from counterproof.footprint.activities import energy_factor
from counterproof.physics import carbon_dioxide
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place, Ring
from counterproof.physics.questions_heat import heat
from counterproof.physics.questions_plugged import boil_kettle
from counterproof.physics.values import STANDARD_PRESSURE, ZERO_CELSIUS
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Likeness, Tables

FEWEST: Final = 1.0
MOST: Final = 300.0
"""Counts that can be pictured. [1] A house choice."""

BEST: Final = 12.0
"""The count that is pictured most easily; likenesses near it come first. [1] A house choice."""

WARMS: Final = (
    "the carbon dioxide that would warm as much over 100 years; much of it is really methane and "
    "nitrous oxide"
)
GAS: Final = "carbon dioxide gas"
JOULES_PER_KWH: Final = 3.6e6  # exact

Shape = Literal["sphere", "pot", "tub", "room", "glass", "bottle", "none"]


@dataclass(frozen=True)
class Seen:
    """A quantity as a number of things people can see.

    Parameters
    ----------
    kind : str
        What the things are: balloon, stockpot, car, …
    count : Range
        How many of them. [1; km or miles where the thing is a distance]
    name, names : str
        One of them, and several.
    sentence : str
        Count and thing in a sentence, with the warning that belongs to it.
    conditions : tuple of str
        Temperature, pressure, size, region, year.
    source : str
        Source.id, or why there is none.
    warning : str
        Where it misleads; "" where it does not.
    shape : Shape
        How it is drawn.
    size : tuple of float
        Width and height. [m]
    """

    kind: str
    count: Range
    name: str
    names: str
    sentence: str
    conditions: tuple[str, ...]
    source: str
    warning: str = ""
    shape: Shape = "none"
    size: tuple[float, float] = (0.0, 0.0)

    @property
    def pictured(self) -> bool:
        """Whether the count can be pictured."""
        return FEWEST <= self.count.mean <= MOST

    @property
    def words(self) -> str:
        """Count and thing."""
        return counted(self.count, self.name, self.names)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        exact = self.count.p05 == self.count.p95
        return {
            "kind": self.kind,
            "count": self.count.mean if exact else self.count.to_dict(),
            "sentence": self.sentence,
            "conditions": list(self.conditions),
            "source": self.source,
            "warning": self.warning or None,
        }


def counted(count: Range, name: str, names: str) -> str:
    """A count and what is counted, with the digits the count deserves.

    Parameters
    ----------
    count : Range
        How many. [1]
    name, names : str
        One of them, and several.

    Returns
    -------
    str
        Such as "about 27 twelve-inch balloons".
    """
    shown = numerals.shown(count, "mean", "")
    if count.mean < 1:
        return f"{shown.middle} of a {name}"
    if count.p05 == count.p95 and abs(count.mean - round(count.mean)) < _EVEN:
        return f"{count.mean:.0f} {name if round(count.mean) == 1 else names}"
    return f"about {shown.middle} {names}"


_EVEN: Final = 1e-9
"""How near a whole number a count may lie to be one. [1]"""


@dataclass(frozen=True)
class Surroundings:
    """What likenesses need to know: where it is cooked, at what temperature a gas is measured.

    Parameters
    ----------
    kitchen : Kitchen
        The cook's kitchen.
    tables : Tables
        All tables, the likenesses among them.
    streams : Streams
        Seed and number of draws.
    temperature : float
        Of the gas. [K]
    pressure : float
        Of the gas. [Pa]
    """

    kitchen: Kitchen
    tables: Tables
    streams: Streams
    temperature: float = ZERO_CELSIUS + 20.0
    pressure: float = STANDARD_PRESSURE

    def row(self, kind: str) -> Likeness | None:
        """Return the row of a kind that holds in the kitchen's region, or everywhere.

        Parameters
        ----------
        kind : str
            What the things are.

        Returns
        -------
        Likeness or None
            None where no row holds.
        """
        rows = self.tables.likenesses.get(kind, ())
        for region in (self.kitchen.region, ""):
            for row in rows:
                if row.region == region:
                    return row
        return None


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
