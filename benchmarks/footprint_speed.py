"""How long a serving's footprint and a comparison take, in process, at 10,000 draws.

Run from the project's folder: `.venv/bin/python benchmarks/footprint_speed.py`. Cold: tables
loaded, no streams held. Warm: the streams of the last assessment held, as while a cook types.
Typed: as warm, with one quantity changed each time, so that one stream is new. The comparison is
of four versions of 20 lines, of which one is swapped: every pair, break-evens, other sets and
trade-offs with it; nothing is held from one comparison to the next but the streams.
"""

from __future__ import annotations

import resource
from collections.abc import Callable
from dataclasses import replace
from statistics import median
from time import perf_counter, process_time

from counterproof.adapters.tables import load_tables
from counterproof.comparison.paired import Entry, compare
from counterproof.draws import Lognormal, Parameter, Product, Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.factors import base_link
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.model import MarkedLine, Reading, Split
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Food, Tables

LINES = 15


def made_reading(tables: Tables, grams: float = 100.0) -> Reading:
    """A reading of the first foods that have a factor, each counted as pieces of 100 g.

    Parameters
    ----------
    tables : Tables
        All tables.
    grams : float
        Mass of the first line. [g]

    Returns
    -------
    Reading
        Fifteen lines.
    """
    foods = [food for food in tables.foods.values() if base_link(food.id, tables)][:LINES]
    lines = tuple(
        _line(at, food, grams if at == 1 else 100.0) for at, food in enumerate(foods, start=1)
    )
    recipe = Recipe("A dish", tuple(line.written for line in lines), ())
    return Reading(recipe, None, Kitchen(), lines, (), 4.0, 1.0, ())


def _line(number: int, food: Food, grams: float) -> MarkedLine:
    key = f"measure|{food.id}|piece|{grams:g}|1"
    mass = Product(grams / 1000, (Parameter(key, Lognormal.from_spread(1.0, 0.2)),))
    split = Split("", (), 1.0, "", "", food.name, (), "", "", "", frozenset())
    written = WrittenLine(number, f"{grams:g} g {food.name}")
    return MarkedLine(written, split, None, food, None, 1.0, (), mass, mass, ())


SWAPPED = (19, 40, 60, 80)
"""Places, among the foods that have a factor, of what stands in the last of twenty lines."""


def made_entries(tables: Tables, plan: Plan) -> list[Entry]:
    """Four versions of a dish of twenty lines, of which the last is swapped.

    Parameters
    ----------
    tables : Tables
        All tables.
    plan : Plan
        Energy of each.

    Returns
    -------
    list of Entry
        Freshly made, as after reading.
    """
    foods = [food for food in tables.foods.values() if base_link(food.id, tables)]
    kept = [_line(at, food, 100.0) for at, food in enumerate(foods[:19], start=1)]
    entries = []
    for at in SWAPPED:
        lines = (*kept, _line(20, foods[at], 100.0))
        recipe = Recipe("A dish", tuple(line.written for line in lines), ())
        reading = Reading(recipe, None, Kitchen(), lines, (), 4.0, 1.0, ())
        entries.append(Entry(f"with {foods[at].name}", reading, plan))
    return entries


def comparison_times(tables: Tables, plan: Plan, streams: Streams) -> tuple[float, float]:
    """A comparison of four versions: median on the clock, least of processor time.

    Parameters
    ----------
    tables : Tables
        All tables.
    plan : Plan
        Energy of each version.
    streams : Streams
        Held from one comparison to the next.

    Returns
    -------
    tuple of float
        [ms]
    """
    compare(made_entries(tables, plan), tables, streams=streams)
    on_the_clock, processor = [], []
    for _ in range(30):
        entries = made_entries(tables, plan)
        clock, work = perf_counter(), process_time()
        compare(entries, tables, streams=streams)
        on_the_clock.append(1000 * (perf_counter() - clock))
        processor.append(1000 * (process_time() - work))
    return median(on_the_clock), min(processor)


def milliseconds(once: Callable[[int], object], times: int) -> float:
    """Median time of a call.

    Parameters
    ----------
    once : callable
        Takes the number of the call.
    times : int
        Number of calls.

    Returns
    -------
    float
        Median. [ms]
    """
    taken = []
    for at in range(times):
        start = perf_counter()
        once(at)
        taken.append(1000 * (perf_counter() - start))
    return median(taken)


def main() -> None:
    """Print the times."""
    tables = load_tables()
    reading = made_reading(tables)
    hob = Product(0.6, (Parameter("energy-use|simmer|30", Lognormal.from_spread(1.0, 0.2)),))
    plan = Plan(energy=(EnergyUse("simmer", "electricity", hob, 1),))
    held = Streams(seed=1)
    cold = milliseconds(lambda _: assess(reading, tables, plan, streams=Streams(seed=1)), 20)
    warm = milliseconds(lambda _: assess(reading, tables, plan, streams=held), 100)
    typed = milliseconds(
        lambda at: assess(made_reading(tables, 101.0 + at), tables, plan, streams=held), 100
    )
    average = replace(reading, kitchen=Kitchen(range_for="the-average"))
    assess(average, tables, plan, streams=held)
    mean_known = milliseconds(lambda _: assess(average, tables, plan, streams=held), 100)
    print(f"{len(reading.lines)} lines, {held.n} draws, one energy use")
    print(f"cold, no stream held:        {cold:6.1f} ms")
    print(f"warm, streams held:          {warm:6.1f} ms")
    print(f"one quantity typed anew:     {typed:6.1f} ms")
    print(f"warm, the-average:           {mean_known:6.1f} ms")
    clock, processor = comparison_times(tables, plan, held)
    print(f"four versions of 20 lines:   {clock:6.1f} ms, {processor:.1f} ms of processor time")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"streams held: {len(held)}; peak memory {peak:.0f} MB")


if __name__ == "__main__":
    main()
