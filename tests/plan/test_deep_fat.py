"""Deep fat: some is eaten with the food, the rest is left and not served."""

from __future__ import annotations

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.nutrition import serving_nutrition
from counterproof.plan.model import Plan
from counterproof.plan.planning import plan_of
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_recipe
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Tables

FRIED = "Deep-fry the potatoes for 8 minutes."


@pytest.fixture(scope="module")
def tables() -> Tables:
    return load_tables()


@pytest.fixture(scope="module")
def matcher(tables: Tables) -> Matcher:
    return Matcher(tables)


def chips(tables: Tables, matcher: Matcher, fat: str, step: str = FRIED) -> tuple[Reading, Plan]:
    written = Recipe(
        title="Chips",
        lines=(WrittenLine(1, "800 g peeled potatoes"), WrittenLine(2, fat)),
        steps=(WrittenLine(1, step),),
        serves=(4, 4),
    )
    reading = read_recipe(written, tables, matcher, Kitchen())
    return reading, plan_of(reading, tables)


@pytest.mark.parametrize(
    ("fat", "step"),
    [
        ("1 litre sunflower oil for deep-frying", FRIED),
        ("1 litre sunflower oil, for frying", "Fry the potatoes for 8 minutes."),
        ("1 litre sunflower oil", FRIED),
        ("sunflower oil, for deep frying", "Fry the potatoes."),
    ],
)
def test_the_food_takes_up_a_tenth_of_its_mass(
    tables: Tables, matcher: Matcher, fat: str, step: str
) -> None:
    reading, plan = chips(tables, matcher, fat, step)
    (left,) = [gone for gone in plan.leaving if gone.cause == "left behind"]
    oil = reading.lines[1].mass
    assert oil is not None
    assert oil.mean - left.mass.mean == pytest.approx(0.08)
    (mark,) = [mark for _, mark in plan.marks if mark.kind == "fat-left"]
    assert mark.level == "note"
    assert "carried_over: [sunflower oil]" in mark.message


@pytest.mark.parametrize(
    ("fat", "step"),
    [
        ("3 tbsp sunflower oil for frying", "Fry the potatoes for 8 minutes."),
        ("1 litre sunflower oil", "Bake the potatoes for 40 minutes."),
        ("300 g butter", "Fry the potatoes for 8 minutes."),  # it may be stirred in
    ],
)
def test_a_film_of_oil_is_eaten(tables: Tables, matcher: Matcher, fat: str, step: str) -> None:
    _, plan = chips(tables, matcher, fat, step)
    assert [gone for gone in plan.leaving if gone.cause == "left behind"] == []


def test_what_is_left_gives_no_energy(tables: Tables, matcher: Matcher) -> None:
    reading, plan = chips(tables, matcher, "1 litre sunflower oil for deep-frying")
    with_bath = serving_nutrition(reading, tables).amounts["fat_g"]
    eaten = serving_nutrition(reading, tables, plan).amounts["fat_g"]
    assert with_bath is not None
    assert eaten is not None
    assert with_bath > 200
    assert eaten == pytest.approx(20, abs=1)  # 80 g of oil among four, and what potatoes hold


def test_little_fat_and_much_food_leave_something(tables: Tables, matcher: Matcher) -> None:
    reading, plan = chips(tables, matcher, "50 ml sunflower oil for deep-frying")
    (left,) = [gone for gone in plan.leaving if gone.cause == "left behind"]
    oil = reading.lines[1].mass
    assert oil is not None
    assert 0 < left.mass.mean < oil.mean
