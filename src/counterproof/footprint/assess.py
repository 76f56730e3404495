"""The footprint of one serving, from a recipe as it was understood."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from counterproof.draws import Range, Streams
from counterproof.footprint.beyond import Beyond
from counterproof.footprint.factors import LINK_DEVIATION, SETS, RangeFor, Valued, best_link
from counterproof.footprint.fizz import fizz_report
from counterproof.footprint.held import Held, Summed, summed
from counterproof.footprint.items import Item, Preference, Uncounted
from counterproof.footprint.model import (
    Basis,
    Footprint,
    ItemFootprint,
    Opinion,
    Row,
    StageFootprint,
)
from counterproof.footprint.packaging import packaging_report
from counterproof.footprint.season import season_marks
from counterproof.footprint.settling import settle_next
from counterproof.footprint.valuing import Case, Charged, charged
from counterproof.marks import Mark
from counterproof.nutrition import serving_function, serving_nutrition
from counterproof.plan.model import Plan
from counterproof.reading.fits import FITS
from counterproof.reading.model import Reading
from counterproof.rows import STAGES, FactorSet, Link, Source, Tables

SHOWN = 0.9
"""Share of the mass a set must cover for its second opinion to be shown (method §3). [1]"""

LOWER_BOUND = (
    "Ranges say how well the averages are known; they are a lower bound, since the sets share "
    "sources and errors."
)

WORTH_SAYING = 0.01
"""Share of the total from which it is said that a factor is not divided by stage. [1]"""


def assess(
    reading: Reading,
    tables: Tables,
    plan: Plan | None = None,
    *,
    streams: Streams,
    range_for: RangeFor | None = None,
    factor_set: Preference = None,
    held: Held | None = None,
) -> Footprint:
    """Footprint of one serving.

    Parameters
    ----------
    reading : Reading
        The recipe as understood; masses are of the whole batch for `reading.serves` servings.
    tables : Tables
        All tables.
    plan : Plan or None
        Energy of the steps and the storage, what is served; None: ingredients only.
    streams : Streams
        Seed, number of draws, and the draws already made.
    range_for : RangeFor or None
        one-purchase or the-average; None: as the kitchen says.
    factor_set : Preference
        A set for all foods, a set for some by Food.id, or None: each food's own base.
    held : Held or None
        What was worked out for other valuations on the same tables and streams.

    Returns
    -------
    Footprint
        With n draws of the serving and of each item. [kg CO2e]

    Notes
    -----
    Every item is amount × worth. Stages after the farm stand inside a factor as constants at
    their published means; production absorbs the draw, negative totals included, so that a
    stage can later be replaced by something specific without adding what is not there.
    """
    case = Case(reading, tables, plan, range_for or reading.kitchen.range_for)
    known = held or Held()
    found = charged(case, factor_set, known)
    items, around = found.items, found.around
    serves = reading.serves_eaten
    whole = summed(items, serves, streams, known)
    mean = whole.mean
    rows = whole.of(items)

    def part(item: Item, row: Row) -> ItemFootprint:
        amount = item.amount.mean / serves
        within = zip(STAGES, item.worth.stages, strict=True)
        return ItemFootprint(
            item,
            row.range,
            {stage: value * amount for stage, value in within if value},
            row.mean / mean if mean else None,
        )

    nutrition = serving_nutrition(reading, tables, plan)
    made = Footprint(
        function=serving_function(reading, nutrition, plan),
        nutrition=nutrition,
        serves=serves,
        charged=tuple(items),
        rows=tuple(rows),
        static=mean,
        serving=whole.range,
        items=tuple(part(item, row) for item, row in zip(items, rows, strict=True)),
        uncounted=tuple(found.uncounted),
        stages=_stages(whole, serves),
        coverage_mass=_coverage(reading, items),
        coverage_by_fit=_by_fit(reading, items),
        second_opinion=second_opinion(case, items, known),
        settle_next=settle_next(whole, serves, streams, case.range_for),
        assumed=_all_assumed(case, found),
        sources=_sources(items, tables),
        basis=_basis(reading, tables, items, streams, case.range_for),
        marks=_marks(reading, tables, items, found.uncounted, around),
        as_written={line.written.number: line.written.text for line in reading.lines},
        draws=whole.total,
        packaging=packaging_report(around.packs, serves, around.tap, tables.life_cycle),
        fizz=fizz_report(reading.lines, reading.kitchen, serves, mean),
    )
    known.valuations.setdefault(case.name(factor_set, known), made)
    return made


def _stages(whole: Summed, serves: float) -> tuple[StageFootprint, ...]:
    """Every stage that has a value: ranges of what is computed here, means of what is not."""
    by_item = np.array([item.worth.stages for item in whole.ordered]).reshape(-1, len(STAGES))
    means = by_item.T @ np.array([item.amount.mean / serves for item in whole.ordered])
    computed = {item.stage for item in whole.ordered if item.kind != "line"} & {*STAGES[1:]}
    found: list[StageFootprint] = []
    for at, (stage, mean) in enumerate(zip(STAGES, means.tolist(), strict=True)):
        if stage == STAGES[0]:
            # Production takes the draw: what no later stage holds.
            drawn = whole.total - by_item[:, 1:].sum(axis=1) @ whole.amounts
            found.append(StageFootprint(stage, Range.of(drawn, mean), computed=True))
        elif stage in computed:
            drawn = by_item[:, at] @ whole.amounts
            found.append(StageFootprint(stage, Range.of(drawn, mean), computed=True))
        else:
            found.append(StageFootprint(stage, Range(mean, mean, mean, mean), computed=False))
    return tuple(part for part in found if part.kgco2e.mean or part.kgco2e.p95)


def _marks(
    reading: Reading,
    tables: Tables,
    items: Sequence[Item],
    uncounted: Sequence[Uncounted],
    around: Beyond,
) -> dict[int, tuple[Mark, ...]]:
    """Marks beside lines; those about the recipe as a whole stand under 0."""
    marks = dict(season_marks(reading, tables))
    for item in items:
        if item.kind == "line" and item.unit == "t·km" and item.number in marks:
            # A stated leg puts a figure to what the season tables could not.
            left = tuple(mark for mark in marks.pop(item.number) if mark.kind != "flown")
            marks |= {item.number: left} if left else {}
    for missing in uncounted:
        if missing.why == "no factor":
            marks[missing.number] = (*marks.get(missing.number, ()), _without_factor(missing))
    return marks | ({0: around.marks} if around.marks else {})


def _without_factor(missing: Uncounted) -> Mark:
    return Mark(
        "fault",
        "no-factor",
        f"No emission factor is linked to {missing.food or 'this food'}: it is weighed, but adds "
        "nothing to the total. Swap it for a food that has one, or give its own factor "
        "(own_factors in the kitchen file).",
    )


def _all_assumed(case: Case, found: Charged) -> tuple[str, ...]:
    bound = [LOWER_BOUND] if case.range_for == "the-average" else []
    return (*_assumed(found.items, case.tables), *bound, *found.said)


def _assumed(items: Sequence[Item], tables: Tables) -> list[str]:
    said: dict[str, None] = {}
    whole = sum(abs(item.mean) for item in items)
    for item in items:
        if not isinstance(item.worth, Valued):
            continue
        link, season = item.worth.link, item.worth.season
        if season is not None:
            said[season.sentence(item.name)] = None
        if season is not None and season.said.by_month:
            said["The total depends on the month: in another month it is another figure."] = None
        said |= dict.fromkeys(_own(item, link, tables))
        if link.fit != "same":
            said[
                f"{item.name}: valued as {link.item} ({link.fit}), give or take a factor of "
                f"{LINK_DEVIATION[link.fit]} (assumed)."
            ] = None
        if not item.worth.staged and abs(item.mean) >= WORTH_SAYING * whole:
            said[
                f"{item.name}: its source does not divide by stage; all of it stands under "
                "production."
            ] = None
        for part in item.worth.components:
            if part.factor.provenance.obtained == "assumed":
                said[f"{item.name}: factor assumed. {part.factor.provenance.note}"] = None
    return list(said)


def _own(item: Item, link: Link, tables: Tables) -> list[str]:
    """What is said of an item that the cook's own table brought, or gave another figure."""
    own = tables.own
    if own is None:
        return []
    if own.has("links", link.food, link.set) or own.has("factors", link.set, link.item):
        return [f"{item.name}: valued by the kitchen's own table, {own.file} ({link.item})."]
    told = ("foods", "composition", "edible")
    if any(own.has(table, item.food) for table in told):
        return [f"{item.name}: described by the kitchen's own table, {own.file}."]
    return []


def _whole_mass(reading: Reading) -> float:
    return sum(
        part.mass.mean
        for line in reading.lines
        for part in line.constituents
        if part.mass is not None
    )


def _coverage(reading: Reading, items: Sequence[Item]) -> float:
    whole = _whole_mass(reading)
    return sum(item.mass for item in items) / whole if whole else 0.0


def _by_fit(reading: Reading, items: Sequence[Item]) -> dict[str, float]:
    whole = _whole_mass(reading)
    shares = dict.fromkeys(FITS, 0.0)
    for item in items:
        if isinstance(item.worth, Valued):
            shares[item.worth.link.fit] += item.mass / whole if whole else 0.0
    return {fit: share for fit, share in shares.items() if share}


def _counted_in(items: Sequence[Item]) -> set[FactorSet]:
    return {item.worth.link.set for item in items if isinstance(item.worth, Valued)}


def second_opinion(
    case: Case, base: Sequence[Item], held: Held | None = None
) -> tuple[Opinion, ...]:
    """One serving valued in each single set that covers enough of it.

    Parameters
    ----------
    case : Case
        What is valued.
    base : sequence of Item
        The total's own items; a set that values all of them is no second opinion.
    held : Held or None
        What was worked out already.

    Returns
    -------
    tuple of Opinion
        Means over what each set covers, never to be ranked against each other. [kg CO2e]
    """
    reading = case.reading
    known, counted = held or Held(), _counted_in(base)
    opinions: list[Opinion] = []
    for name in SETS:
        if counted == {name} or _coverage_in(name, case) < SHOWN:
            continue
        items = charged(case, name, known).items
        factors = [
            part.factor
            for item in items
            if isinstance(item.worth, Valued)
            for part in item.worth.components
        ]
        opinions.append(
            Opinion(
                name,
                sum(item.mean for item in items) / reading.serves_eaten,
                _coverage(reading, items),
                tuple(sorted({factor.gwp for factor in factors})),
                tuple(sorted({factor.boundary for factor in factors})),
            )
        )
    return tuple(opinions)


def _coverage_in(factor_set: FactorSet, case: Case) -> float:
    """Share of the mass that one set has a factor for, told by the links alone."""
    whole = _whole_mass(case.reading)
    linked = sum(
        part.mass.mean
        for line in case.reading.lines
        for part in line.constituents
        if part.mass is not None and best_link(part.food.id, factor_set, case.tables) is not None
    )
    return linked / whole if whole else 0.0


def _sources(items: Sequence[Item], tables: Tables) -> tuple[Source, ...]:
    ids: dict[str, None] = {}
    for item in items:
        worth = item.worth
        if isinstance(worth, Valued):
            ids.update(dict.fromkeys(part.factor.provenance.source for part in worth.components))
            ids[worth.link.provenance.source] = None
            if worth.season is not None:
                ids[worth.season.row.provenance.source] = None
        else:
            ids[worth.source] = None
            ids[worth.also] = None
    return tuple(tables.sources[name] for name in sorted(ids) if name in tables.sources)


def _basis(
    reading: Reading,
    tables: Tables,
    items: Sequence[Item],
    streams: Streams,
    range_for: RangeFor,
) -> Basis:
    editions = {
        part.factor.gwp
        for item in items
        if isinstance(item.worth, Valued)
        for part in item.worth.components
    }
    return Basis(
        middle=reading.kitchen.middle,
        range_for=range_for,
        gwp=tuple(sorted(editions)),
        factor_sets=tuple(name for name in SETS if name in _counted_in(items)),
        seed=streams.seed,
        draws=streams.n,
        version=tables.version,
        data_sha256=tables.sha256,
        own_factors=None
        if tables.own is None
        else f"{tables.own.file}, SHA-256 {tables.own.sha256}",
    )
