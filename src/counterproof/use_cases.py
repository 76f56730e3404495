"""What a person asks for, one function a command. Files, terminal and pages stand above."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from counterproof.comparison.paired import Comparison, Entry, Pair, compare, paired
from counterproof.costing import Cost, prices_by_food, serving_cost
from counterproof.draws import Streams
from counterproof.errors import BrokenFrontMatter, BrokenSettings
from counterproof.footprint.assess import assess
from counterproof.footprint.beyond import litres_kept
from counterproof.footprint.held import Held
from counterproof.footprint.model import Footprint
from counterproof.footprint.storage import stored
from counterproof.line_by_line import Sorts
from counterproof.marks import Mark
from counterproof.plan.cooling import Memo
from counterproof.plan.covering import covered
from counterproof.plan.model import Plan
from counterproof.plan.planning import plan_of
from counterproof.proof import Edition
from counterproof.reading.bought import BOUGHT, bought_reading
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_recipe
from counterproof.reading.model import Reading
from counterproof.reading.named_versions import bought_under, names_beside, version_named
from counterproof.reading.versions import version_applied
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.kitchen_file import with_changes
from counterproof.recipe.model import Bought, Recipe
from counterproof.recipe.prices_file import Prices
from counterproof.rows import Tables
from counterproof.typesetting import typeset


@dataclass(frozen=True)
class Workbench:
    """What every evaluation needs, made ready once: the tables and a matcher over their names."""

    tables: Tables
    matcher: Matcher
    coolings: Memo = field(default_factory=dict, compare=False)
    """Answers on cooling, each of which takes a tenth of a second when it is new."""

    @classmethod
    def over(cls, tables: Tables) -> Workbench:
        """Return a workbench over tables.

        Parameters
        ----------
        tables : Tables
            All tables.

        Returns
        -------
        Workbench
            With a matcher over their names.
        """
        return cls(tables, Matcher(tables))


@dataclass(frozen=True)
class Order:
    """A recipe to be evaluated, where it is cooked, and which version of it.

    `name` is what it is called beside others; `serves` scales it.
    """

    recipe: Recipe
    kitchen: Kitchen
    version: str | None = None
    serves: float | None = None
    name: str = ""
    prices: Prices | None = None

    @property
    def called(self) -> str:
        """The name it is shown under."""
        return self.name or "+".join(n for n in (self.recipe.title, self.version) if n)


@dataclass(frozen=True)
class Assessed:
    """One order worked out: how it was read, what the steps take, what a serving costs."""

    order: Order
    reading: Reading
    plan: Plan
    footprint: Footprint
    cost: Cost | None = None

    @property
    def marks(self) -> tuple[Mark, ...]:
        """Every mark beside an ingredient line, by whichever room it was made."""
        read = [mark for line in self.reading.lines for mark in line.marks]
        return (*read, *(mark for marks in self.footprint.marks.values() for mark in marks))

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        cost = None if self.cost is None else self.cost.to_dict()
        return {**self.footprint.to_dict(), "cost": cost, **self.plan.times_to_dict()}


def mark(order: Order, bench: Workbench) -> Reading:
    """How every line and step of an order is understood.

    Parameters
    ----------
    order : Order
        The recipe, its kitchen and version.
    bench : Workbench
        Tables and matcher.

    Returns
    -------
    Reading
        The marked recipe.

    Raises
    ------
    UnknownVersion
        If the recipe has no version of that name.
    SwapNotFound
        If one of its versions swaps a line that is not there.
    BrokenFrontMatter
        If the version names own foods and factors, which are read once for all versions.
    """
    bought = bought_under(order.recipe, order.version)
    if bought is not None:
        return _bought(order, bought, bench)
    version = version_named(order.recipe, order.version)
    if version is None:
        for other in order.recipe.versions:  # a version that cannot be made is told at once
            version_applied(order.recipe, other, bench.matcher)
    changes = version.kitchen if version is not None else None
    if changes and "own_factors" in changes:
        raise BrokenFrontMatter(
            f"A version, here “{order.version}”, cannot bring foods and factors of its own.",
            remedy="Name own_factors in the kitchen file: it counts for all versions alike.",
            file=order.recipe.file,
        )
    reading = read_recipe(
        order.recipe,
        bench.tables,
        bench.matcher,
        with_changes(order.kitchen, changes) if changes else order.kitchen,
        version=version,
        serves=order.serves,
    )
    return covered(reading, bench.tables)


def _bought(order: Order, bought: Bought, bench: Workbench) -> Reading:
    """What is bought instead of one serving: as much of it, by mass."""
    home = mark(replace(order, version=None), bench)
    given = plan_of(home, bench.tables).serving_mass
    kitchen = order.kitchen
    if bought.region is not None:
        kitchen = _in_region(kitchen, bought.region, order.recipe.file)
    kg = sum(part.mean for part in given)
    recipe = replace(order.recipe, bought=bought)
    return bought_reading(
        recipe, bench.tables, bench.matcher, kitchen, kg, name=order.version or BOUGHT
    )


def _in_region(kitchen: Kitchen, region: str, file: str | None) -> Kitchen:
    try:
        return with_changes(kitchen, {"region": region})
    except BrokenSettings as fault:
        raise BrokenFrontMatter(
            f"bought: {fault.message}", remedy=fault.remedy, file=file, line=fault.line
        ) from None


def assessed(
    order: Order,
    bench: Workbench,
    streams: Streams,
    *,
    verdicts: bool = True,
    held: Held | None = None,
) -> Assessed:
    """One order worked out to the footprint of a serving.

    Parameters
    ----------
    order : Order
        The recipe, its kitchen and version.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    verdicts : bool
        Whether rules are asked about what is cooled.
    held : Held or None
        What was worked out for other orders on the same tables and streams; it grows.

    Returns
    -------
    Assessed
        Reading, plan and footprint. [kg CO2e]
    """
    reading = mark(order, bench)
    plan = plan_of(reading, bench.tables, bench.coolings if verdicts else None)
    footprint = assess(reading, bench.tables, plan, streams=streams, held=held)
    return Assessed(order, reading, plan, footprint, _cost(order, reading, plan, bench, streams))


def compared(orders: Sequence[Order], bench: Workbench, streams: Streams) -> Comparison:
    """Several orders side by side on shared draws.

    Parameters
    ----------
    orders : sequence of Order
        Two or more.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.

    Returns
    -------
    Comparison
        Every pair, serving against serving. [kg CO2e]
    """
    entries = []
    for order in orders:
        reading = mark(order, bench)
        plan = plan_of(reading, bench.tables)
        cost = _cost(order, reading, plan, bench, streams)
        entries.append(Entry(order.called, reading, plan, cost))
    return compare(entries, bench.tables, streams=streams)


def proof(
    order: Order,
    bench: Workbench,
    streams: Streams,
    *,
    date: str | None = None,
    beside: bool = True,
) -> Edition:
    """The marked-up recipe with its versions beside it.

    Parameters
    ----------
    order : Order
        The recipe, its kitchen and version.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    date : str or None
        The day it is printed for, ISO 8601.
    beside : bool
        Whether its versions are worked out too; they take as long each as the recipe.

    Returns
    -------
    Edition
        Everything a surface may show.
    """
    held = Held()
    base = assessed(order, bench, streams, held=held)
    return proof_of(base, bench, streams, date=date, beside=beside, held=held)


def proof_of(
    base: Assessed,
    bench: Workbench,
    streams: Streams,
    *,
    date: str | None = None,
    beside: bool = True,
    held: Held | None = None,
    versions: Sequence[tuple[Footprint, Pair]] | None = None,
) -> Edition:
    """The marked-up recipe of an order that is worked out already.

    Parameters
    ----------
    base : Assessed
        The order worked out, with its verdicts.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    date : str or None
        The day it is printed for, ISO 8601.
    beside : bool
        Whether its versions are worked out too; they take as long each as the recipe.
    held : Held or None
        What was worked out already; it grows.
    versions : sequence of (Footprint, Pair) or None
        What stands beside it, where that is worked out already.

    Returns
    -------
    Edition
        Everything a surface may show.
    """
    held = held or Held()
    if versions is None and beside:
        versions = versions_beside(base, bench, streams, held)
    sorts = Sorts(bench.tables, streams, date, base.cost)
    return typeset(base.reading, base.plan, base.footprint, list(versions or ()), sorts)


def versions_beside(
    base: Assessed, bench: Workbench, streams: Streams, held: Held
) -> tuple[tuple[Footprint, Pair], ...]:
    """The versions of a recipe and what is bought instead, each paired with the recipe.

    Parameters
    ----------
    base : Assessed
        The recipe worked out.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    held : Held
        What was worked out already; it grows.

    Returns
    -------
    tuple of (Footprint, Pair)
        One each, for as many servings, by the name in the pair; none beside a version. [kg CO2e]
    """
    order = base.order
    entry = Entry("as written", base.reading, base.plan)
    made = []
    for name in names_beside(order.recipe) if order.version is None else ():
        changed = replace(order, version=name, name=name)
        other = assessed(changed, bench, streams, verdicts=False, held=held)
        stands = Entry(name, other.reading, other.plan)
        pair = paired(stands, entry, bench.tables, streams=streams, held=held)
        made.append((other.footprint, pair))
    return tuple(made)


def results(base: Assessed, edition: Edition) -> dict[str, Any]:
    """The results of an order in their JSON form, with the derivation of every number.

    Parameters
    ----------
    base : Assessed
        The order worked out.
    edition : Edition
        Its proof.

    Returns
    -------
    dict
        As contracts promise it.
    """
    derived = [derivation.to_dict() for derivation in edition.derivations]
    return {**base.to_dict(), "derivations": derived}


def _cost(
    order: Order, reading: Reading, plan: Plan, bench: Workbench, streams: Streams
) -> Cost | None:
    if order.prices is None:
        return None
    by_food = prices_by_food(order.prices, bench.tables, bench.matcher)
    stays = stored(reading, litres_kept(reading, plan, bench.tables))
    return serving_cost(reading, plan, order.prices, by_food, streams, stays)
