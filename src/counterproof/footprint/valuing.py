"""What a batch is charged for, all of it, and the sum of its draws.

`assess` adds ranges, opinions and marks to this; a comparison needs no more than this, and works
out only what differs between its sides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from counterproof.draws import Streams
from counterproof.footprint.beyond import Beyond, beyond
from counterproof.footprint.factors import RangeFor
from counterproof.footprint.held import Held, summed
from counterproof.footprint.items import (
    Item,
    Preference,
    Uncounted,
    energy_items,
    line_items,
)
from counterproof.footprint.model import Valuation
from counterproof.footprint.packaging import packaging_report
from counterproof.footprint.replacing import specified, without_stages
from counterproof.nutrition import serving_function, serving_nutrition
from counterproof.plan.model import Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.rows import Stage, Tables


@dataclass(frozen=True)
class Case:
    """What is valued, and by what: a reading, its plan, the tables, the range asked for."""

    reading: Reading
    tables: Tables
    plan: Plan | None
    range_for: RangeFor

    def name(self, choice: Preference, held: Held) -> tuple[object, ...]:
        """Return what a valuation of it goes by.

        Parameters
        ----------
        choice : Preference
            What it is valued in, as `Held.chosen` gives it.
        held : Held
            It keeps hold of the reading.

        Returns
        -------
        tuple
            Equal where the valuations are equal.
        """
        return (held.of_reading(self.reading), id(self.plan), self.range_for, _told(choice))


@dataclass(frozen=True)
class Charged:
    """Everything that a batch is charged for, what is not counted, and what was assumed."""

    items: list[Item]
    uncounted: list[Uncounted]
    said: list[str]
    around: Beyond


def charged(case: Case, factor_set: Preference, held: Held) -> Charged:
    """Everything that a batch is charged for.

    Parameters
    ----------
    case : Case
        What is valued.
    factor_set : Preference
        A set for all foods, a set for some by Food.id, or None: each food's own base.
    held : Held
        What was worked out already; it grows.

    Returns
    -------
    Charged
        Lines first, then energy, then what is beyond both.
    """
    reading, tables, plan = case.reading, case.tables, case.plan
    number = held.of_reading(reading)
    around = held.around.get(number)
    if around is None:
        around = held.around[number] = beyond(reading, plan, tables)
    items: list[Item] = []
    uncounted: list[Uncounted] = []
    said: list[str] = []
    for line in reading.lines:
        chosen = factor_set
        if isinstance(factor_set, Mapping):
            foods = {part.food.id for part in line.constituents}
            chosen = {food: factor_set[food] for food in foods if food in factor_set}
        name = (number, id(line), case.range_for, _told(chosen))
        found = held.lines.get(name)
        if found is None:
            found = held.lines[name] = _line(line, case, around, chosen, held)
        items += found[0]
        uncounted += found[1]
        said += found[2]
    uses = (*(plan.energy if plan is not None else ()), *around.energy)
    energy, of_energy = energy_items(uses, reading, tables)
    told_by_plan = plan.assumed if plan is not None else ("Cooking is not counted.",)
    said += [*told_by_plan, *of_energy, *around.assumed]
    return Charged([*items, *energy, *around.items], uncounted, said, around)


def _line(
    line: MarkedLine, case: Case, around: Beyond, factor_set: Preference, held: Held
) -> tuple[list[Item], list[Uncounted], list[str]]:
    reading, tables = case.reading, case.tables
    counted, missing = line_items(
        line,
        tables,
        reading.kitchen,
        range_for=case.range_for,
        factor_set=factor_set,
        purchase=reading.recipe.purchase,
        worths=held.worths,
    )
    told: list[str] = []
    said = around.lines.get(line.written.number)
    if said is not None:
        counted, told = specified(counted, said, line, reading.kitchen, tables)
    return list(_bought(counted, reading, around)), missing, told


def _bought(items: Sequence[Item], reading: Reading, around: Beyond) -> Iterator[Item]:
    """What is bought ready made: its own pack and way stand in place of its factor's."""
    if reading.recipe.purchase == "home":
        yield from items
        return
    stages: tuple[Stage, ...] = ("packaging", "transport") if around.packs else ("transport",)
    for item in items:
        yield without_stages(item, stages) or item


def valuation(
    case: Case, streams: Streams, factor_set: Preference = None, held: Held | None = None
) -> Valuation:
    """One serving's items and their sum, without ranges, opinions and marks.

    Parameters
    ----------
    case : Case
        What is valued.
    streams : Streams
        Seed, number of draws, and the draws already made.
    factor_set : Preference
        A set for all foods, a set for some by Food.id, or None: each food's own base.
    held : Held or None
        What was worked out for other valuations on the same tables and streams.

    Returns
    -------
    Valuation
        The same figures as `assess` gives. [kg CO2e]
    """
    known = held or Held()
    reading = case.reading
    foods = (part.food.id for line in reading.lines for part in line.constituents)
    choice = known.chosen(factor_set, foods, case.tables)
    name = case.name(choice, known)
    found = known.valuations.get(name)
    if found is None:
        found = known.valuations[name] = _valuation(case, streams, choice, known)
    return found


def _valuation(case: Case, streams: Streams, choice: Preference, known: Held) -> Valuation:
    reading = case.reading
    found = charged(case, choice, known)
    function = known.functions.get(id(reading))
    if function is None:
        nutrition = serving_nutrition(reading, case.tables, case.plan)
        function = serving_function(reading, nutrition, case.plan)
        known.functions[id(reading)] = function
    serves = reading.serves_eaten
    whole = summed(found.items, serves, streams, known)
    rows = whole.of(found.items)
    around = found.around
    return Valuation(
        function=function,
        serves=serves,
        charged=tuple(found.items),
        rows=tuple(rows),
        static=whole.mean,
        uncounted=tuple(found.uncounted),
        draws=whole.total,
        packaging=packaging_report(around.packs, serves, around.tap, case.tables.life_cycle),
    )


def _told(choice: Preference) -> tuple[object, ...]:
    """A preference as it names what was worked out by it."""
    if isinstance(choice, Mapping):
        return tuple(sorted(choice.items()))
    return () if choice is None else (choice,)
