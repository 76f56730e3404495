"""What a serving gives, and when that cannot be said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.tables import load_tables
from counterproof.draws import Product, Streams
from counterproof.footprint.assess import assess
from counterproof.nutrition import HOW, Function, serving_function, serving_nutrition
from counterproof.plan.model import Leaving, Plan
from counterproof.reading.model import Constituent, MarkedLine, Reading, Split
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Composition, Food, Provenance, Tables

TABLES = load_tables()
MADE_UP = Provenance("", "", "assumed", "a table for tests")
MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


def _function(reading: Reading, tables: Tables, plan: Plan | None = None) -> Function:
    return serving_function(reading, serving_nutrition(reading, tables, plan), plan)


def test_mass_energy_and_protein_of_the_ingredients(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    # Every food of the small pantry has 350 kcal and 20 g protein in 100 g.
    reading = made_reading(made_line("onion", 0.3), made_line("tomato", 0.5), serves=4)
    gives = _function(reading, tiny_tables)
    assert gives.to_dict() == pytest.approx({"kg": 0.2, "kcal": 700.0, "protein_g": 40.0})
    assert gives.litres is None


def test_what_is_served_comes_from_the_plan(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    reading = made_reading(made_line("onion", 0.8), serves=4)
    plan = Plan(serving_mass=(Product(0.2), Product(-0.05)), serving_litres=0.14)
    gives = _function(reading, tiny_tables, plan)
    assert gives.kg == pytest.approx(0.15)
    assert gives.litres == 0.14


def test_a_sum_that_lacks_much_is_not_given(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    composition = {k: v for k, v in tiny_tables.composition.items() if k != "tomato"}
    tables = replace(tiny_tables, composition=composition)
    most = made_reading(made_line("onion", 0.95), made_line("tomato", 0.05))
    assert _function(most, tables).kcal is not None
    half = made_reading(made_line("onion", 0.8), made_line("tomato", 0.2))
    assert _function(half, tables).kcal is None
    assert _function(half, tables).protein_g is None


def test_every_food_of_a_line_counts(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    line = made_line("onion", 0.2, spread=0.0)
    other = made_line("tomato", 0.1, spread=0.0)
    nothing = made_line("sea-bean", 0.1, spread=0.0)
    also = tuple(
        Constituent(part.food, None, part.mass, part.purchased)
        for part in (other, nothing)
        if part.food is not None
    )
    reading = made_reading(replace(line, also=also), serves=1)
    found = assess(reading, tiny_tables, streams=streams)
    part = found.of_line(1)
    assert part is not None
    assert part.kgco2e.mean == pytest.approx(0.2 * 0.5 + 0.1 * 2.09)
    assert part.share == pytest.approx(1.0)
    assert part.stages["packaging"] == pytest.approx(0.1 * 0.146)
    assert part.kgco2e == found.serving
    assert [(missing.food, missing.why) for missing in found.uncounted] == [
        ("sea bean", "no factor")
    ]
    (written,) = found.to_dict()["lines"]
    assert written["uncounted"] == [{"food": "sea bean", "why": "no factor"}]
    assert found.function.kg == pytest.approx(0.4)
    assert found.of_line(2) is None
    assert found.of_step(1) is None


def _eaten(tables: Tables, **contents: Composition) -> Tables:
    return replace(tables, composition={**tables.composition, **contents})


def _made_of(food: str, **contents: float) -> Composition:
    empty = dict.fromkeys(
        ("water_g", "protein_g", "fat_g", "carbohydrate_g", "fibre_g", "sugars_g", "ash_g",
         "alcohol_g", "citric_acid_g", "energy_kcal", "sodium_mg")
    )  # fmt: skip
    return Composition(food=food, **{**empty, **contents}, provenance=MADE_UP)


def test_a_dish_worked_by_hand(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    # 400 g butter and 100 g onion for two: USDA SR28, NDB 01001 (butter, salted: 717 kcal, fat
    # 81.11 g, sodium 643 mg in 100 g) and 11282 (onion: 40 kcal, fat 0.10 g, sodium 4 mg).
    tables = _eaten(
        tiny_tables,
        butter=_made_of("butter", energy_kcal=717.0, fat_g=81.11, sodium_mg=643.0),
        onion=_made_of("onion", energy_kcal=40.0, fat_g=0.10, sodium_mg=4.0, sugars_g=4.24),
    )
    reading = made_reading(made_line("butter", 0.4), made_line("onion", 0.1), serves=2)
    found = serving_nutrition(reading, tables)
    # Half of 4 × 717 + 40 kcal; half of 4 × 81.11 + 0.10 g fat; half of 2.576 g sodium × 2.5.
    assert found.amounts["energy_kcal"] == pytest.approx((4 * 717 + 40) / 2)
    assert found.amounts["fat_g"] == pytest.approx((4 * 81.11 + 0.10) / 2)
    assert found.amounts["salt_g"] == pytest.approx((4 * 0.643 + 0.004) * 2.5 / 2)
    # Sugars are known of the onion only, a fifth of the mass: no sum is given.
    assert found.amounts["sugars_g"] is None
    assert found.coverage["sugars_g"] == pytest.approx(0.2)
    told = found.to_dict()
    assert told["energy_kj"] == pytest.approx(told["energy_kcal"] * 4.184)
    assert told["how"] == list(HOW)


def test_what_is_strained_off_takes_its_share(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    reading = made_reading(made_line("onion", 0.4), made_line("tomato", 0.6), serves=1)
    strained = Leaving("strained onion", Product(0.1), 1, "strained", "food waste", "onion")
    steam = Leaving("steam", Product(0.2), 1, "boiled off", "air")
    found = serving_nutrition(reading, tiny_tables, Plan(leaving=(strained, steam)))
    # 350 kcal in 100 g of either; 0.3 kg of onion and 0.6 kg of tomato stay; steam takes nothing.
    assert found.amounts["energy_kcal"] == pytest.approx(3500 * (0.3 + 0.6))


def test_water_poured_off_takes_its_share_of_the_salt_put_in(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    foods = {
        **tiny_tables.foods,
        "salt": Food("salt", "salt", "salt", "powder", "", ""),
        "water": Food("water", "water", "water & ice", "liquid", "", ""),
    }
    tables = replace(
        _eaten(
            tiny_tables,
            salt=_made_of("salt", energy_kcal=0.0, sodium_mg=38758.0),
            water=_made_of("water", energy_kcal=0.0, sodium_mg=0.0),
            onion=_made_of("onion", energy_kcal=40.0, sodium_mg=4.0),
        ),
        foods=foods,
    )
    lines = [
        replace(made_line("onion", kg), food=foods[food])
        for food, kg in (("onion", 0.5), ("water", 2.0), ("salt", 0.02))
    ]
    reading = made_reading(*lines, serves=1)
    drained = Leaving("drained water", Product(1.5), 2, "drained", "sink")
    found = serving_nutrition(reading, tables, Plan(leaving=(drained,)))
    # A quarter of 20 g of salt (38.758 g sodium in 100 g × 2.5 = 96.9 g) and the onion's own.
    assert found.amounts["salt_g"] == pytest.approx(0.25 * 20 * 0.96895 + 0.05)
    assert found.amounts["energy_kcal"] == pytest.approx(200.0)


@pytest.mark.property
@given(st.floats(0.1, 10), st.floats(0.5, 20))
def test_nutrition_scales_with_mass_over_servings(scale: float, serves: float) -> None:
    one, other = (_pot(0.2 * factor, serves * factor) for factor in (1.0, scale))
    left, right = (serving_nutrition(pot, TABLES).amounts for pot in (one, other))
    assert left == pytest.approx(right)


def _pot(kg: float, serves: float) -> Reading:
    food = TABLES.foods["oil-olive"]
    written = WrittenLine(1, "oil")
    split = Split("oil", (), 1.0, "", "", "oil", (), "", "", "", frozenset())
    line = MarkedLine(written, split, None, food, "same", 1.0, (), Product(kg), Product(kg), ())
    return Reading(Recipe("Pot", (written,), ()), None, Kitchen(), (line,), (), serves, 1.0, ())


@pytest.mark.published
@pytest.mark.parametrize("food", ["oil-olive", "butter", "sugar", "rice-white", "lentils-dry"])
def test_energy_agrees_with_atwater_factors(food: str) -> None:
    # General Atwater factors 4, 9 and 4 kcal/g (Merrill & Watt 1973, USDA Handbook 74, table 13
    # gives the specific ones, within about 10 % for these foods), of 1 kg for one serving.
    line = replace(_pot(1.0, 1.0).lines[0], food=TABLES.foods[food])
    found = serving_nutrition(replace(_pot(1.0, 1.0), lines=(line,)), TABLES).amounts
    parts = [found["protein_g"], found["fat_g"], found["carbohydrate_g"]]
    energy = sum(k * (g or 0.0) for k, g in zip((4, 9, 4), parts, strict=True))
    assert found["energy_kcal"] == pytest.approx(energy, rel=0.1)
