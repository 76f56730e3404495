"""What each line, step and activity is charged: an amount, times what a unit of it is worth."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import isclose

import numpy as np

from counterproof.deriving.terms import (
    AGREES,
    SHARE,
    exactly,
    of_amount,
    of_product,
    range_of,
    told_by,
)
from counterproof.draws import Draws, Product, Range, Streams
from counterproof.footprint.activities import Rated
from counterproof.footprint.factors import Component, Valued
from counterproof.footprint.items import Item
from counterproof.footprint.model import ItemFootprint
from counterproof.numerals import CO2E, percent
from counterproof.proof import Derivation, Term
from counterproof.reading.model import Constituent, MarkedLine, Reading
from counterproof.rows import Tables


@dataclass(frozen=True, slots=True)
class Eaten:
    """The servings that bear a batch [servings], and the draws."""

    serves: float
    streams: Streams


def masses(line: MarkedLine, streams: Streams, mass: Range | None) -> Iterator[Derivation]:
    """How the mass of a line came about, of each of its foods and of all.

    Parameters
    ----------
    line : MarkedLine
        The line as understood.
    streams : Streams
        Seed, number of draws, and the draws already made.
    mass : Range or None
        Of the whole line, as the proof shows it. [kg]

    Yields
    ------
    Derivation
        Nothing where the line has no mass. [kg]
    """
    number = line.written.number
    parts = [(part, part.mass) for part in line.constituents if part.mass is not None]
    if not parts:
        return
    if mass is None:  # one of the line's foods has no weight; those that have one are charged
        drawn = np.sum([product.draws(streams) for _, product in parts], axis=0)
        mass = Range.of(drawn, sum(product.mean for _, product in parts))
    if len(parts) == 1:
        ((part, product),) = parts
        terms = of_amount(product, part.way, "kg")
        yield Derivation(f"mass:{number}", f"{part.food.name}: mass", mass, "kg", tuple(terms))
        return
    found = [
        Derivation(
            f"mass:{number}:{at}",
            f"{part.food.name}: mass",
            _drawn(product, streams),
            "kg",
            tuple(of_amount(product, part.way, "kg")),
        )
        for at, (part, product) in enumerate(parts, start=1)
    ]
    names = " and ".join(part.food.name for part, _ in parts)
    yield Derivation(f"mass:{number}", f"{names}: mass", mass, "kg", _added(found))
    yield from found


def energies(
    number: int, parts: Sequence[ItemFootprint], kwh: Range | None, streams: Streams
) -> Iterator[Derivation]:
    """How the energy of a step came about, of each of its uses and of all.

    Parameters
    ----------
    number : int
        The step's number.
    parts : sequence of ItemFootprint
        Its uses.
    kwh : Range or None
        Of the whole step, as the proof shows it. [kWh]
    streams : Streams
        Seed, number of draws, and the draws already made.

    Yields
    ------
    Derivation
        Nothing where the step takes no energy. [kWh]
    """
    if not parts or kwh is None:
        return
    if len(parts) == 1:
        item = parts[0].item
        terms = tuple(of_amount(item.amount, item.way, "kWh"))
        yield Derivation(f"kwh:{number}", f"step {number}, {item.name}: energy", kwh, "kWh", terms)
        return
    found = [
        Derivation(
            f"kwh:{number}:{at}",
            f"step {number}, {part.item.name}: energy",
            _drawn(part.item.amount, streams),
            "kWh",
            tuple(of_amount(part.item.amount, part.item.way, "kWh")),
        )
        for at, part in enumerate(parts, start=1)
    ]
    yield Derivation(f"kwh:{number}", f"step {number}: energy", kwh, "kWh", _added(found))
    yield from found


def charges(
    key: str,
    name: str,
    whole: Range,
    parts: Sequence[ItemFootprint],
    amounts: Sequence[Sequence[Term]],
    eaten: Eaten,
) -> Iterator[Derivation]:
    """How what a line, a step or an activity adds to one serving came about.

    Parameters
    ----------
    key : str
        Of the whole.
    name : str
        For people.
    whole : Range
        As the proof shows it. [kg CO2e]
    parts : sequence of ItemFootprint
        Its items.
    amounts : sequence of sequence of Term
        The working of each item's amount, whole batch.
    eaten : Eaten
        Servings that bear it, and the draws.

    Yields
    ------
    Derivation
        The whole first, then its items where there are several. [kg CO2e]
    """
    if len(parts) == 1:
        terms = _charged(parts[0].item, amounts[0], eaten)
        yield Derivation(key, name, whole, CO2E, terms)
        return
    found = [
        Derivation(
            f"{key}:{at}",
            part.item.name,
            part.kgco2e,
            CO2E,
            _charged(part.item, amount, eaten),
        )
        for at, (part, amount) in enumerate(zip(parts, amounts, strict=True), start=1)
    ]
    yield Derivation(key, name, whole, CO2E, _added(found))
    yield from found


def line_amounts(
    line: MarkedLine, parts: Sequence[ItemFootprint], known: Sequence[Derivation], tables: Tables
) -> list[list[Term]]:
    """The working of the amount of each item of a line.

    Parameters
    ----------
    line : MarkedLine
        The line as understood.
    parts : sequence of ItemFootprint
        Its items: its foods, and packs and legs that it tells of.
    known : sequence of Derivation
        The line's masses: the whole first.
    tables : Tables
        Edible shares.

    Returns
    -------
    list of list of Term
        One working an item. [kg]
    """
    weighed = [part for part in line.constituents if part.mass is not None]
    left = list(enumerate(weighed))
    found: list[list[Term]] = []
    for part in parts:
        item = part.item
        at = next((at for at, held in left if held.food.id == item.food), None)
        if at is None or not isinstance(item.worth, Valued):
            found.append(of_amount(item.amount, item.way, item.unit))
            continue
        left = [(place, held) for place, held in left if place != at]
        mass = known[0] if len(weighed) == 1 else known[at + 1]
        found.append(_bought(item, weighed[at], mass, tables))
    return found


def _bought(item: Item, part: Constituent, mass: Derivation, tables: Tables) -> list[Term]:
    """The mass that is charged: what is eaten, or what is bought for it."""
    terms = [Term(f"{part.food.name}, as it goes in", mass.value, "kg", does="+", opens=mass.key)]
    eaten = item.amount.scale / part.mass.scale if part.mass is not None else 1.0
    if isclose(eaten, 1.0, rel_tol=AGREES):
        return terms
    row = tables.edible.get(part.food.id)
    source, locator = told_by(row.provenance if row is not None else None)
    says = "share of what is bought that is eaten"
    return [*terms, Term(says, exactly(1 / eaten), SHARE, source, locator, "÷")]


def energy_amounts(parts: Sequence[ItemFootprint], known: Sequence[Derivation]) -> list[list[Term]]:
    """The working of the amount of each energy use of a step.

    Parameters
    ----------
    parts : sequence of ItemFootprint
        The uses.
    known : sequence of Derivation
        The step's energies: the whole first.

    Returns
    -------
    list of list of Term
        One working a use. [kWh]
    """
    each = known if len(parts) == 1 else known[1:]
    return [
        [Term(part.item.name, energy.value, "kWh", does="+", opens=energy.key)]
        for part, energy in zip(parts, each, strict=True)
    ]


def heading(line: MarkedLine | None, number: int, reading: Reading) -> str:
    """A line as its derivations are headed.

    Parameters
    ----------
    line : MarkedLine or None
        The line.
    number : int
        Its number.
    reading : Reading
        The recipe.

    Returns
    -------
    str
        Its food, else its place.
    """
    if line is None or line.food is None:
        return f"line {number} of {reading.recipe.title}"
    return " and ".join(part.food.name for part in line.constituents)


def _added(parts: Sequence[Derivation]) -> tuple[Term, ...]:
    return tuple(Term(part.name, part.value, part.unit, does="+", opens=part.key) for part in parts)


def _drawn(product: Product, streams: Streams) -> Range:
    found = of_product(product)
    return Range.of(product.draws(streams), product.mean) if found is None else found


def _charged(item: Item, amount: Sequence[Term], eaten: Eaten) -> tuple[Term, ...]:
    """An item's working: its amount, over the servings, times what a unit is worth."""
    shared = Term("servings eaten", exactly(eaten.serves), "", does="÷")
    worth = (
        _of_food(item, item.worth, eaten.streams)
        if isinstance(item.worth, Valued)
        else _rated(item.worth)
    )
    gone = [
        Term(
            f"{stage} inside the factor, replaced by what is said of it",
            exactly(out / eaten.serves),
            CO2E,
            does="−",
        )
        for stage, out in item.replaced.items()
        if out
    ]
    return (*amount, shared, *worth, *gone)


def _rated(worth: Rated) -> list[Term]:
    source, locator = told_by(worth.told)
    value = range_of(worth.parameter.distribution)
    said = source or worth.source or "assumed"
    return [Term(worth.name, value, f"{CO2E}/{worth.unit}", said, locator, "×")]


def _of_food(item: Item, worth: Valued, streams: Streams) -> Iterator[Term]:
    link, first = worth.link, worth.components[0].factor
    name = f"{link.item}, {link.set} set, per {first.unit} {first.basis}".strip()
    unit = f"{CO2E}/{first.unit}"
    source, locator = told_by(first.provenance)
    if len(worth.components) == 1:
        value = range_of(worth.components[0].parameter.distribution)
        yield Term(f"{name} (fit: {link.fit})", value, unit, source, locator, "×")
    else:
        yield Term(
            f"{name} (fit: {link.fit}), a mixture",
            _mixed(worth, streams),
            unit,
            source,
            locator,
            "×",
        )
        yield from (_part(part, unit) for part in worth.components)
    if link.per != 1.0:
        told, where = told_by(link.provenance)
        why = link.why or f"{first.unit} of the factor per kg of {item.name}"
        yield Term(why, exactly(link.per), f"{first.unit}/kg", told, where, "×")
    if worth.deviation is not None:
        says = f"how far {item.name} may lie from {link.item}"
        off = range_of(worth.deviation.distribution)
        yield Term(says, off, "", "assumed", f"by its fit: {link.fit}", "×")
    if worth.season is not None:
        row, said = worth.season.row, worth.season.said
        told, where = told_by(row.provenance)
        ratio = range_of(worth.season.parameter.distribution)
        yield Term(f"{row.condition}: {said.why}", ratio, "", told, where, "×")


def _mixed(worth: Valued, streams: Streams) -> Range:
    """Of a mixture: its parts do not rise with the probability, so only draws tell its ends."""
    drawn: Draws = sum(
        (weight * streams.values(parameter) for weight, parameter in worth.terms),
        np.zeros(streams.n),
    )
    mean = sum(part.share * part.parameter.distribution.mean for part in worth.components)
    return Range.of(drawn, mean)


def _part(part: Component, unit: str) -> Term:
    source, locator = told_by(part.factor.provenance)
    value = range_of(part.parameter.distribution)
    return Term(f"{percent(part.share)} {part.factor.item}", value, unit, source, locator)
