"""What is held between valuations saves work and changes no digit."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from counterproof.comparison.paired import Entry, compare, paired
from counterproof.draws import Lognormal, Parameter, Product, Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.held import Held
from counterproof.footprint.valuing import Case, valuation
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]
HOB = Product(0.6, (Parameter("hob|simmer", Lognormal.from_spread(1.0, 0.2)),))
PLAN = Plan(energy=(EnergyUse("simmer", "electricity", HOB, 1),))


def _sides(made_line: MadeLine, made_reading: MadeReading) -> tuple[Reading, Reading, Reading]:
    first, third = ("onion", 0.3), ("white-beans-dried", 0.4)
    return (
        made_reading(made_line(*first), made_line("beef-chuck", 0.5), made_line(*third)),
        made_reading(made_line(*first), made_line("lentils-dried", 0.5), made_line(*third)),
        made_reading(made_line(*third), made_line("nuts", 0.1), made_line(*first)),
    )


def test_holding_changes_no_digit(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    sides = _sides(made_line, made_reading)
    held = Held()
    for reading in sides:
        alone = assess(reading, tiny_tables, PLAN, streams=Streams(seed=4, n=400))
        shared = assess(reading, tiny_tables, PLAN, streams=Streams(seed=4, n=400), held=held)
        assert shared.to_dict() == alone.to_dict()
    entries = [Entry(f"side {at}", reading, PLAN) for at, reading in enumerate(sides)]
    together = compare(entries, tiny_tables, streams=Streams(seed=4, n=400))
    for pair in together.pairs:
        a, b = (next(entry for entry in entries if entry.name == name) for name in (pair.a, pair.b))
        alone_pair = paired(a, b, tiny_tables, streams=Streams(seed=4, n=400))
        assert pair.to_dict() == alone_pair.to_dict()


def test_streams_of_another_recipe_change_no_digit(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    lines = (made_line("onion", 0.3), made_line("beef-chuck", 0.5), made_line("nuts", 0.1))
    streams = Streams(seed=4, n=400)
    for month in (1, 7):
        for region in ("uk", "us"):
            for range_for in ("one-purchase", "the-average"):
                kitchen = Kitchen(region=region, month=month, range_for=range_for)
                for serves in (4.0, 3.0):
                    reading = made_reading(*lines, serves=serves, kitchen=kitchen)
                    shared = assess(reading, tiny_tables, PLAN, streams=streams)
                    alone = assess(reading, tiny_tables, PLAN, streams=Streams(seed=4, n=400))
                    assert shared.to_dict() == alone.to_dict()


def test_a_version_costs_only_what_it_changes(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    written, version, _ = _sides(made_line, made_reading)
    held, streams = Held(), Streams(seed=4, n=400)
    assess(written, tiny_tables, PLAN, streams=streams, held=held)
    before = dict(held.rows)
    assess(version, tiny_tables, PLAN, streams=streams, held=held)
    new = held.rows.keys() - before.keys()
    (name,) = new
    assert "lentils-dried" in str(name)


def test_the_two_ranges_are_held_apart(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    reading, held, streams = made_reading(made_line("nuts", 0.1)), Held(), Streams(seed=4, n=400)
    purchase, average = (
        valuation(Case(reading, tiny_tables, None, asked), streams, held=held)
        for asked in ("one-purchase", "the-average")
    )
    assert purchase.draws.std() > 2 * average.draws.std()
    again = replace(reading, kitchen=Kitchen(range_for="the-average"))
    alone = assess(again, tiny_tables, streams=streams)
    assert alone.draws.tolist() == average.draws.tolist()


def test_a_set_that_is_the_base_anyway_is_no_other_valuation(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    reading, held, streams = made_reading(made_line("onion", 0.3)), Held(), Streams(seed=4, n=400)
    case = Case(reading, tiny_tables, None, "one-purchase")
    base = valuation(case, streams, held=held)
    assert valuation(case, streams, {"onion": "global"}, held=held) is base
    assert valuation(case, streams, {"not in it": "national"}, held=held) is base
