"""What to settle next is said in a cook's words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from counterproof.draws import Lognormal, Parameter, Product, Streams, Uniform
from counterproof.footprint.assess import assess
from counterproof.footprint.held import Held, summed
from counterproof.footprint.items import Item, line_items
from counterproof.footprint.settling import meaning, settle_next
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


@pytest.fixture
def onion(tiny_tables: Tables, made_line: MadeLine) -> Item:
    items, _ = line_items(made_line("onion", 0.2), tiny_tables, Kitchen(), range_for="one-purchase")
    return items[0]


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("measure|onion|piece/large|2|1", "how big the onion"),
        ("measure|onion|clove|2|1", "how big the clove of onion"),
        ("measure|onion|cup|0.5|1", "how full the cup of onion"),
        ("measure|onion|g|200|1", "how exactly the onion is weighed"),
        ("measure|onion|handful|1|1", "how much a handful of onion is"),
        ("quantity|onion|piece|2–3|1", "how much onion goes in"),
        ("factor|global|Onions & Leeks|onion|home", "which onion"),
        ("link|onion", "which onion"),
    ],
)
def test_meaning_of_a_key(onion: Item, key: str, words: str) -> None:
    parameter = Parameter(key, Uniform(0.9, 1.1))
    assert meaning(parameter, onion, "one-purchase") == words


def test_under_the_average_it_is_what_a_food_costs(onion: Item) -> None:
    parameter = Parameter("factor|global|Onions & Leeks", Uniform(0.9, 1.1))
    assert meaning(parameter, onion, "the-average") == "what onion costs on average"


def test_energy_that_steps_share_is_said_once(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    hob = Parameter("appliance|hob", Lognormal.from_spread(1.0, 0.3))
    plan = Plan(
        energy=(
            EnergyUse("fry", "electricity", Product(1.0, (hob,)), 1),
            EnergyUse("simmer", "electricity", Product(2.0, (hob,)), 2),
        )
    )
    found = assess(made_reading(made_line("onion", 0.01)), tiny_tables, plan, streams=streams)
    words = [part.what for part in found.settle_next]
    assert words == ["how much energy the cooking takes", "which electricity or gas"]
    # Hob: relative variance 0.09; grid, exp(0.14²) − 1 = 0.020: 0.82 of the sum without products.
    assert found.settle_next[0].share_of_variance == pytest.approx(0.81, abs=0.02)


def test_what_to_do_and_what_it_wins(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # A piece varies by two fifths, the onion's factor by a few per cent: weighing takes nearly all.
    key = "measure|onion|piece|2 onions|1"
    amount = Product(0.4, (Parameter(key, Lognormal.from_spread(1.0, 0.4)),))
    line = replace(made_line("onion", 0.4), mass=amount, purchased=amount)
    found = assess(made_reading(line), tiny_tables, streams=streams)
    first = next(one for one in found.settle_next if one.what == "how big the onion")
    assert first.do == "Weigh the onion"
    # Settled, the rest of the variance stays and the width shrinks to its root, or further: what
    # comes only of both varying together goes with either, and is in neither first-order share.
    settled = replace(line, mass=Product(0.4), purchased=Product(0.4))
    narrowed = assess(made_reading(settled), tiny_tables, streams=streams)
    left = narrowed.draws.std() / found.draws.std()
    assert left - 0.01 < 1 - first.narrows_by < left + 0.1
    told = found.to_dict()["settle_next"]
    assert {"what", "share_of_variance", "do", "narrows_by"} <= told[0].keys()


def test_two_lines_of_one_food_are_settled_together(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    lines = [made_line("onion", 0.2), made_line("onion", 0.3)]
    twice = assess(made_reading(*lines), tiny_tables, streams=streams)
    once = assess(made_reading(made_line("onion", 0.5)), tiny_tables, streams=streams)
    assert twice.settle_next[0].what == once.settle_next[0].what == "which onion"
    # One purchase: its draw is shared, so that the spread does not shrink by splitting a line.
    assert twice.draws.std() == pytest.approx(once.draws.std(), rel=0.01)


def test_nothing_varies_nothing_to_settle(onion: Item, streams: Streams) -> None:
    fixed = replace(onion, amount=Product(0.0))
    nothing = summed([fixed], 1.0, streams, Held())
    assert settle_next(nothing, 1.0, streams, "one-purchase") == ()
