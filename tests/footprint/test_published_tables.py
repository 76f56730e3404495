"""The shipped tables through the engine, held against the printed figures they come from."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.comparison.paired import Entry, compare, paired
from counterproof.draws import Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.factors import SETS, base_link, best_link, valued
from counterproof.reading.model import MarkedLine, Reading
from counterproof.rows import STAGES, Link, Provenance, Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


@pytest.fixture(scope="module")
def tables() -> Tables:
    return load_tables()


# Poore & Nemecek 2018, stages with losses per kg retail weight (per litre: L), as republished:
# processing, transport, packaging, retail; land-use change + feed + farm + losses; their sum.
PRINTED_STAGES = {
    "Apples": (0.004, 0.096, 0.045, 0.017, 0.268, 0.43),
    "Barley (Beer)": (0.128, 0.035, 0.497, 0.264, 0.256, 1.18),
    "Bovine Meat (beef herd)": (1.811, 0.494, 0.352, 0.234, 96.586, 99.48),
    "Cheese": (0.740, 0.139, 0.172, 0.333, 22.493, 23.88),
    "Eggs": (0.0, 0.084, 0.161, 0.036, 4.388, 4.67),
    "Lamb & Mutton": (1.540, 0.679, 0.348, 0.301, 36.855, 39.72),
    "Nuts": (0.051, 0.107, 0.124, 0.043, 0.109, 0.43),
    "Oatmeal": (0.058, 0.091, 0.090, 0.039, 2.202, 2.48),
    "Peas": (0.0, 0.095, 0.045, 0.039, 0.796, 0.98),
    "Pig Meat": (0.416, 0.501, 0.432, 0.278, 10.678, 12.31),
    "Potatoes": (0.0, 0.094, 0.045, 0.039, 0.282, 0.46),
    "Poultry Meat": (0.607, 0.381, 0.293, 0.244, 8.341, 9.87),
    "Tomatoes": (0.012, 0.177, 0.146, 0.017, 1.737, 2.09),
    "Wheat & Rye (Bread)": (0.210, 0.125, 0.087, 0.056, 1.095, 1.57),
    "Fish (farmed)": (0.045, 0.248, 0.138, 0.090, 13.112, 13.63),
    "Crustaceans (farmed)": (0.0, 0.331, 0.536, 0.352, 25.647, 26.87),
    "Milk": (0.154, 0.093, 0.100, 0.265, 2.539, 3.15),
    "Wine": (0.139, 0.093, 0.749, 0.039, 0.768, 1.79),
    "Coffee": (0.613, 0.135, 1.687, 0.052, 26.040, 28.53),
    "Soymilk": (0.163, 0.110, 0.098, 0.270, 0.334, 0.98),
}


@pytest.mark.published
@pytest.mark.parametrize("item", PRINTED_STAGES)
def test_stages_of_the_twenty_products(tables: Tables, item: str) -> None:
    link = Link("a food", "global", item, "same", 1.0, "", Provenance("", "", "derived", ""))
    worth = valued(link, tables, range_for="one-purchase")
    by_stage = dict(zip(STAGES, worth.stages, strict=True))
    processing, transport, packaging, retail, production, mean = PRINTED_STAGES[item]
    # Three decimals; production takes up the rounding of the printed mean (two decimals).
    found = [by_stage[stage] for stage in ("processing", "transport", "packaging", "retail")]
    assert found == pytest.approx([processing, transport, packaging, retail], abs=0.0006)
    assert by_stage["production"] == pytest.approx(production, abs=0.0075)
    assert sum(worth.stages) == pytest.approx(mean, abs=1e-9)


def test_every_linked_food_can_be_valued(tables: Tables) -> None:
    for food in tables.foods:
        for name in SETS:
            link = best_link(food, name, tables)
            if link is None:
                continue
            means = [
                valued(link, tables, range_for=asked).mean
                for asked in ("one-purchase", "the-average")
            ]
            assert means[0] == pytest.approx(means[1], rel=1e-9)
            worth = valued(link, tables, range_for="one-purchase")
            assert sum(worth.stages) == pytest.approx(worth.mean, rel=1e-9)
            assert min(worth.stages[1:]) >= 0.0


def _line(made: MadeLine, tables: Tables, food: str, kg: float, bought: float = 1.0) -> MarkedLine:
    return replace(made("onion", kg, spread=0.0, bought=bought), food=tables.foods[food])


@pytest.mark.published
def test_butter_against_olive_oil(
    tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # AGRIBALYSE 3.1.1, farm to retail: butter, 82 % fat 7.786; olive oil, extra virgin 0.983:
    # 7.9 times in one set. Across sets it would be 1.3 times (7.786 over 5.42 per litre).
    butter, oil = (
        Entry(food, made_reading(_line(made_line, tables, food, 0.1)))
        for food in ("butter", "oil-olive")
    )
    pair = paired(butter, oil, tables, streams=streams)
    assert pair.factor_set == "national"
    assert pair.ratio is not None
    assert pair.ratio.of_means == pytest.approx(7.9, abs=0.05)
    one, other = (
        found.static for _, found in compare([butter, oil], tables, streams=streams).items
    )
    assert one / other == pytest.approx(1.3, abs=0.05)


@pytest.mark.published
def test_a_whole_chicken_is_not_charged_for_its_bones_twice(
    tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # USDA SR28, NDB 05006: 32 % of a whole chicken is bone. Poore & Nemecek 2018 state poultry
    # per kg of edible meat, 9.87: a bird of 1.6 kg has 1.088 kg of it, 10.74 kg CO2e.
    bird = _line(made_line, tables, "chicken-whole", 1.6 * 0.68, bought=1 / 0.68)
    found = assess(made_reading(bird, serves=1), tables, streams=streams)
    assert bird.purchased is not None
    assert bird.purchased.mean == pytest.approx(1.6)
    assert found.items[0].kgco2e.mean == pytest.approx(1.088 * 9.87, rel=1e-6)
    assert found.items[1].item.name == "peel, bones and trimmings, thrown away"
    assert found.items[1].item.amount.mean == pytest.approx(0.512)


@pytest.mark.published
def test_peel_is_charged_where_the_factor_is_as_bought(
    tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    # Poore & Nemecek 2018: bananas 0.86 per kg as bought; USDA SR28, NDB 09040: 36 % is skin.
    peeled = _line(made_line, tables, "banana", 0.64, bought=1 / 0.64)
    found = assess(made_reading(peeled, serves=1), tables, streams=streams)
    assert found.items[0].kgco2e.mean == pytest.approx(0.86, rel=1e-6)


def test_foods_without_a_factor_are_few_and_known(tables: Tables) -> None:
    without = [food for food in tables.foods if base_link(food, tables) is None]
    assert len(without) < 0.05 * len(tables.foods)
