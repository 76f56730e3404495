"""Comparisons: shared draws, one set, and what cannot be judged."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from counterproof.comparison.covering import differing_foods
from counterproof.comparison.paired import Entry, compare, paired
from counterproof.draws import Product, Streams
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.rows import Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


def test_a_recipe_against_itself_differs_by_exactly_zero(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    lines = [made_line(food, 0.1) for food in ("beef-chuck", "onion", "nuts", "tomato", "butter")]
    # Written in another order, and evaluated on streams that forget nearly everything.
    pair = paired(
        Entry("as written", made_reading(*lines)),
        Entry("turned round", made_reading(*lines[::-1])),
        tiny_tables,
        streams=Streams(seed=1, most=2),
    )
    assert pair.draws is not None
    assert not pair.draws.any()
    assert pair.difference is not None
    assert pair.difference.to_dict() == {"mean": 0.0, "p05": 0.0, "p50": 0.0, "p95": 0.0}
    assert pair.ratio is not None
    assert set(pair.ratio.to_dict().values()) == {1.0}
    assert pair.share_a_lower == 0.0
    assert pair.factor_set is None


@pytest.mark.parametrize("range_for", ["one-purchase", "the-average"])
def test_two_foods_of_one_class_get_no_false_certainty(
    tiny_tables: Tables,
    made_line: MadeLine,
    made_reading: MadeReading,
    streams: Streams,
    range_for: str,
) -> None:
    # Lentils 200 g against beans 201 g, both valued as Other Pulses, weighed without error: on
    # the class alone the lentils are "lower" in every draw.
    pair = paired(
        Entry("lentils", made_reading(made_line("lentils-dried", 0.200, spread=0.0))),
        Entry("beans", made_reading(made_line("white-beans-dried", 0.201, spread=0.0))),
        tiny_tables,
        streams=streams,
        range_for=range_for,  # type: ignore[arg-type]
    )
    assert pair.share_a_lower == pytest.approx(0.5, abs=0.03)


def test_without_the_deviation_of_links_it_would_be_certain(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    links = {
        food: tuple(replace(link, fit="same") for link in of)
        for food, of in tiny_tables.links.items()
    }
    pair = paired(
        Entry("lentils", made_reading(made_line("lentils-dried", 0.200, spread=0.0))),
        Entry("beans", made_reading(made_line("white-beans-dried", 0.201, spread=0.0))),
        replace(tiny_tables, links=links),
        streams=streams,
        range_for="the-average",
    )
    assert pair.share_a_lower == 1.0


@pytest.mark.published
def test_butter_against_olive_oil_is_judged_in_one_set(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # AGRIBALYSE 3.1.1, farm to retail: butter 82 % fat 7.786, olive oil 0.983 kg CO2e per kg:
    # 7.9 times. Butter in that set over olive oil in Poore & Nemecek 2018 (5.42 per litre, 5.92
    # per kg) would be 1.3 times.
    pair = paired(
        Entry("butter", made_reading(made_line("butter", 0.1))),
        Entry("oil", made_reading(made_line("olive-oil", 0.1))),
        tiny_tables,
        streams=streams,
    )
    assert pair.factor_set == "national"
    assert pair.ratio is not None
    assert pair.ratio.of_means == pytest.approx(7.9, abs=0.05)
    sides = compare(
        [
            Entry("butter", made_reading(made_line("butter", 0.1))),
            Entry("oil", made_reading(made_line("olive-oil", 0.1))),
        ],
        tiny_tables,
        streams=streams,
    ).items
    mixed = sides[0][1].static / sides[1][1].static
    assert mixed == pytest.approx(1.3, abs=0.05)


def test_what_no_set_covers_cannot_be_judged(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    pair = paired(
        Entry("butter", made_reading(made_line("butter", 0.1), made_line("onion", 0.1))),
        Entry("tomato", made_reading(made_line("tomato", 0.1), made_line("onion", 0.1))),
        tiny_tables,
        streams=streams,
    )
    assert pair.reason == (
        "No factor set covers all that differs (the global set lacks butter): "
        "the comparison cannot be judged."
    )
    document = pair.to_dict()
    assert document["ratio"] is None
    assert document["difference_kgco2e"] is None
    assert document["share_a_lower"] is None


def test_a_trace_outside_the_set_does_not_keep_it_from_judging(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    beef = made_reading(made_line("beef-chuck", 0.5), made_line("butter", 0.01))
    beans = made_reading(made_line("white-beans-dried", 0.5), made_line("onion", 0.2))
    # 10 g of butter is 0.2 % of the beef stew, but nothing of the beans.
    pair = paired(Entry("beef", beef), Entry("beans", beans), tiny_tables, streams=streams)
    assert pair.factor_set == "global"
    assert pair.difference is not None
    assert pair.difference.mean == pytest.approx(
        (0.5 * 70.592 + 0.01 * 7.786 - 0.5 * 1.79 - 0.2 * 0.5) / 4, rel=1e-3
    )
    assert [mark.kind for mark in pair.marks if mark.kind == "outside-the-set"] == [
        "outside-the-set"
    ]
    richer = made_reading(made_line("white-beans-dried", 0.5), made_line("butter", 0.1))
    refused = paired(Entry("beef", beef), Entry("beans", richer), tiny_tables, streams=streams)
    assert refused.factor_set == "national"


def test_what_is_not_counted_on_one_side_is_marked(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    a = made_reading(made_line("onion", 0.5), made_line(None, None))
    b = made_reading(made_line("onion", 0.4))
    pair = paired(Entry("a", a), Entry("b", b), tiny_tables, streams=streams)
    assert [mark.message for mark in pair.marks if mark.kind == "not-counted"] == [
        "“None kg None” is not counted in a."
    ]
    # A food without any factor, and not a trace of it: nothing can be said.
    c = made_reading(made_line("onion", 0.4), made_line("sea-bean", 0.1))
    refused = paired(Entry("a", a), Entry("c", c), tiny_tables, streams=streams)
    assert refused.reason is not None


def test_a_set_can_be_asked_for(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    a = Entry("beans", made_reading(made_line("white-beans-dried", 0.1), made_line("nuts", 0.1)))
    b = Entry("beef", made_reading(made_line("beef-chuck", 0.1), made_line("nuts", 0.1)))
    pair = paired(a, b, tiny_tables, streams=streams, factor_set="national")
    assert pair.factor_set == "national"
    assert [other.set for other in pair.otherwise] == ["global"]
    # Nuts are the same on both sides and keep their base: they leave the difference alone.
    assert pair.difference is not None
    assert pair.difference.mean == pytest.approx((0.1 * 0.8 - 0.1 * 28.0) / 4)
    refused = paired(
        a, Entry("tomato", made_reading(made_line("tomato", 0.1))), tiny_tables,
        streams=streams, factor_set="national",
    )  # fmt: skip
    assert refused.reason is not None
    assert refused.reason.startswith(
        "The national set does not cover all that differs (it lacks nuts, tomato)"
    )


def test_what_is_shared_cancels_draw_by_draw(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    shared = [made_line("tomato", 1.0), made_line("nuts", 0.2)]
    with_beans = made_reading(made_line("white-beans-dried", 0.4), *shared)
    with_beef = made_reading(made_line("beef-chuck", 0.4), *shared)
    assert differing_foods(with_beans, with_beef) == {"white-beans-dried", "beef-chuck"}
    pair = paired(
        Entry("beans", with_beans), Entry("beef", with_beef), tiny_tables, streams=streams
    )
    alone = paired(
        Entry("beans", made_reading(made_line("white-beans-dried", 0.4))),
        Entry("beef", made_reading(made_line("beef-chuck", 0.4))),
        tiny_tables,
        streams=streams,
    )
    assert pair.draws is not None
    assert alone.draws is not None
    np.testing.assert_allclose(pair.draws, alone.draws, atol=1e-12)
    assert pair.shares_draws_of == ("nuts", "tomato")
    assert pair.share_a_lower == 1.0


def test_no_ratio_over_a_denominator_that_may_be_nothing(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    pair = paired(
        Entry("onion", made_reading(made_line("onion", 0.1))),
        Entry("nuts", made_reading(made_line("nuts", 0.1))),
        tiny_tables,
        streams=streams,
    )
    assert pair.ratio is None
    assert pair.difference is not None
    assert pair.share_a_lower is not None


def test_ratio_is_of_means_and_percentiles_are_paired(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    pair = paired(
        Entry("beef", made_reading(made_line("beef-chuck", 0.1))),
        Entry("beans", made_reading(made_line("white-beans-dried", 0.1))),
        tiny_tables,
        streams=streams,
    )
    assert pair.ratio is not None
    assert pair.ratio.of_means == pytest.approx((0.5635 * 99.48 + 0.4365 * 33.3) / 1.79)
    assert pair.ratio.p05 < pair.ratio.p50 < pair.ratio.p95


def test_unlike_servings_are_marked(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    pair = paired(
        Entry("a little", made_reading(made_line("onion", 0.1))),
        Entry("more", made_reading(made_line("onion", 0.12))),
        tiny_tables,
        streams=streams,
    )
    assert [mark.message for mark in pair.marks if mark.kind == "unlike-servings"] == [
        "The two servings differ in mass by 20 %.",
        "The two servings differ in energy by 20 %.",
        "The two servings differ in protein by 20 %.",
    ]


def test_sets_that_halve_or_reverse_are_marked(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Onion against olive oil: per kg 0.50 : 5.92 in the global set, 0.40 : 0.98 in the national.
    pair = paired(
        Entry("onion", made_reading(made_line("onion", 0.3))),
        Entry("oil", made_reading(made_line("olive-oil", 0.1))),
        tiny_tables,
        streams=streams,
    )
    (mark,) = [mark for mark in pair.marks if mark.kind == "sets-disagree"]
    assert mark.message == "The national set reverses this comparison: 0.82 times, not 3.9 times."
    halved = paired(
        Entry("onion", made_reading(made_line("onion", 0.2))),
        Entry("oil", made_reading(made_line("olive-oil", 0.1))),
        tiny_tables,
        streams=streams,
    )
    (mark,) = [mark for mark in halved.marks if mark.kind == "sets-disagree"]
    assert mark.message == "The national set halves this comparison: 1.2 times, not 5.9 times."


def test_only_the_energy_differs(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(made_line("tomato", 1.0))

    def boiled(kwh: float) -> Plan:
        return Plan(energy=(EnergyUse("boil", "electricity", Product(kwh), 1),))

    pair = paired(
        Entry("short", reading, boiled(0.4)),
        Entry("long", reading, boiled(0.8)),
        tiny_tables,
        streams=streams,
    )
    assert pair.difference is not None
    assert pair.difference.mean == pytest.approx(-0.4 * 0.5 / 4)
    assert pair.share_a_lower == 1.0
    assert "electricity, world, per kWh" in pair.shares_draws_of


def test_every_pair_of_several(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    entries = [
        Entry(food, made_reading(made_line(food, 0.1)))
        for food in ("white-beans-dried", "beef-chuck", "olive-oil")
    ]
    found = compare(entries, tiny_tables, streams=streams)
    names = [(pair.a, pair.b) for pair in found.pairs]
    assert names == [
        ("white-beans-dried", "beef-chuck"),
        ("white-beans-dried", "olive-oil"),
        ("beef-chuck", "olive-oil"),
    ]
    means = [side.static for _, side in found.items]
    assert all(one != other for one, other in pairwise(means))
    document = found.to_dict()
    assert document["basis"]["factor_sets"] == ["global"]
    assert document.keys() == {"items", "pairs", "break_even", "basis"}
    assert document["pairs"][0].keys() >= {
        "a", "b", "ratio", "difference_kgco2e", "share_a_lower", "factor_set", "function",
        "shares_draws_of",
    }  # fmt: skip
