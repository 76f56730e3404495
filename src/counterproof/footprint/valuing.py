"""What a batch is charged for, all of it, and the sum of its draws.

`assess` adds ranges, opinions and marks to this; a comparison needs no more than this, and works
out only what differs between its sides.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from counterproof.draws import Draws, Streams
from counterproof.footprint.beyond import Beyond, beyond
from counterproof.footprint.factors import RangeFor, Valued
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
from counterproof.footprint.waste import servings_eaten
from counterproof.nutrition import Function, serving_function, serving_nutrition
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


@dataclass(frozen=True)
class Held:
    """What valuations on the same tables, streams and range have in common, worked out once.

    By identity of readings and lines: whoever holds it holds them too.
    """

    around: dict[int, Beyond] = field(default_factory=dict)
    functions: dict[int, Function] = field(default_factory=dict)
    lines: dict[tuple[object, ...], tuple[list[Item], list[Uncounted], list[str]]] = field(
        default_factory=dict
    )
    rows: dict[tuple[object, ...], tuple[Draws, float]] = field(default_factory=dict)


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
    around = held.around.get(id(reading))
    if around is None:
        around = held.around[id(reading)] = beyond(reading, plan, tables)
    items: list[Item] = []
    uncounted: list[Uncounted] = []
    said: list[str] = []
    for line in reading.lines:
        chosen = factor_set
        if isinstance(factor_set, Mapping):
            foods = {part.food.id for part in line.constituents}
            chosen = {food: factor_set[food] for food in foods if food in factor_set}
        told = tuple(sorted(chosen.items())) if isinstance(chosen, Mapping) else chosen or ()
        name = (id(reading), id(line), told)
        found = held.lines.get(name)
        if found is None:
            found = held.lines[name] = _line(line, case, around, chosen)
        items += found[0]
        uncounted += found[1]
        said += found[2]
    uses = (*(plan.energy if plan is not None else ()), *around.energy)
    energy, of_energy = energy_items(uses, reading, tables)
    told_by_plan = plan.assumed if plan is not None else ("Cooking is not counted.",)
    said += [*told_by_plan, *of_energy, *around.assumed]
    return Charged([*items, *energy, *around.items], uncounted, said, around)


def _line(
    line: MarkedLine, case: Case, around: Beyond, factor_set: Preference
) -> tuple[list[Item], list[Uncounted], list[str]]:
    reading, tables = case.reading, case.tables
    counted, missing = line_items(
        line,
        tables,
        reading.kitchen,
        range_for=case.range_for,
        factor_set=factor_set,
        purchase=reading.recipe.purchase,
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


@dataclass(frozen=True)
class Summed:
    """Items in an order of their own, so that moving a line moves no digit of their sum.

    Parameters
    ----------
    ordered : list of Item
        The items.
    drawn : (m, n) array
        Draws of each, of one serving. [kg CO2e]
    total : (n,) array
        Their sum. [kg CO2e]
    means : (m,) array
        Mean of each, of one serving. [kg CO2e]
    mean : float
        Their sum. [kg CO2e]
    """

    ordered: list[Item]
    drawn: Draws
    total: Draws
    means: Draws
    mean: float

    def places(self, items: Sequence[Item]) -> list[int]:
        """Return where each of the items stands.

        Parameters
        ----------
        items : sequence of Item
            The same items, in any order.

        Returns
        -------
        list of int
            Counted from 0.
        """
        at = {id(item): place for place, item in enumerate(self.ordered)}
        return [at[id(item)] for item in items]


def summed(items: Sequence[Item], serves: float, streams: Streams, held: Held) -> Summed:
    """The draws of every item, of one serving, and their sum.

    Parameters
    ----------
    items : sequence of Item
        All that a batch is charged for.
    serves : float
        Servings eaten, > 0. [servings]
    streams : Streams
        Seed, number of draws, and the draws already made.
    held : Held
        What was worked out already; it grows.

    Returns
    -------
    Summed
        [kg CO2e]
    """
    ordered = sorted(items, key=lambda item: item.identity)
    rows = [_row(item, serves, streams, held) for item in ordered]
    drawn = np.array([row for row, _ in rows]) if rows else np.zeros((0, streams.n))
    means = np.array([mean for _, mean in rows])
    return Summed(ordered, drawn, drawn.sum(axis=0), means, float(means.sum()))


def _row(item: Item, serves: float, streams: Streams, held: Held) -> tuple[Draws, float]:
    """Draws and mean of one item, of one serving."""
    worth = item.worth
    keys = tuple(parameter.key for parameter in worth.parameters)
    told = (worth.season, worth.without, worth.link) if isinstance(worth, Valued) else ()
    name = (item.amount, serves, keys, told)
    found = held.rows.get(name)
    if found is None:
        row = item.amount.draws(streams)
        row /= serves
        row *= worth.draws(streams)
        found = held.rows[name] = (row, item.mean / serves)
    return found


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
        What was worked out for other valuations on the same tables, streams and range.

    Returns
    -------
    Valuation
        The same figures as `assess` gives. [kg CO2e]
    """
    known = held or Held()
    reading = case.reading
    found = charged(case, factor_set, known)
    function = known.functions.get(id(reading))
    if function is None:
        nutrition = serving_nutrition(reading, case.tables, case.plan)
        function = serving_function(reading, nutrition, case.plan)
        known.functions[id(reading)] = function
    serves = servings_eaten(reading)
    whole = summed(found.items, serves, streams, known)
    places = whole.places(found.items)
    around = found.around
    return Valuation(
        function=function,
        serves=serves,
        charged=tuple(found.items),
        means=tuple(whole.means[places].tolist()),
        static=whole.mean,
        uncounted=tuple(found.uncounted),
        draws=whole.total,
        item_draws=whole.drawn[places],
        packaging=packaging_report(around.packs, serves, around.tap, case.tables.life_cycle),
    )
