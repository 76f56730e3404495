"""Looking up foods and factors: what words find, and in which order."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.tables import load_tables
from counterproof.draws import Streams
from counterproof.looking_up import MOST, factors_found, foods_found, foods_in
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, Version, WrittenLine
from counterproof.use_cases import Order, Workbench

BENCH = Workbench.over(load_tables())
TABLES = BENCH.tables
STREAMS = Streams(n=10_000)


@pytest.mark.parametrize(
    ("said", "food"),
    [
        ("onions", "onion"),
        ("Onion", "onion"),
        ("zucchini", "courgette"),
        ("courgettes", "courgette"),
        ("olive oil", "oil-olive"),
        ("tins of tomatoes, canned", "tomatoes-canned"),
    ],
)
def test_what_words_mean_in_a_recipe_comes_first(said: str, food: str) -> None:
    assert foods_found(said, BENCH).rows[0].id == food


def test_names_that_hold_the_words_follow() -> None:
    found = foods_found("tomato", BENCH)
    assert found.exact
    slugs = [food.id for food in found.rows]
    assert {"tomato-paste", "tomatoes-canned", "tomato-juice"} <= set(slugs)
    assert len(slugs) == len(set(slugs)) <= MOST


def test_the_beginning_of_a_word_finds_it() -> None:
    assert "courgette" in [food.id for food in foods_found("courg", BENCH).rows]


def test_a_class_finds_its_foods() -> None:
    found = foods_found("pulses", BENCH)
    assert {"pulses"} <= {food.food_class for food in found.rows}


def test_nothing_found_offers_the_nearest() -> None:
    found = foods_found("courgeyte", BENCH)
    assert "courgette" in [food.name for food in found.rows] or "courgette" in found.nearest
    lost = foods_found("qqqqq", BENCH)
    assert (lost.rows, lost.exact) == ((), False)
    assert foods_found("!!!", BENCH).rows == ()


def test_without_words_everything_is_there() -> None:
    assert len(foods_found("", BENCH).rows) == len(TABLES.foods)
    found = factors_found(" ", TABLES)
    assert len(found.rows) + found.left_off == len(TABLES.factors)


@pytest.mark.property
@given(st.text(max_size=40))
def test_any_words_find_the_same_twice_and_never_fail(said: str) -> None:
    assert foods_found(said, BENCH) == foods_found(said, BENCH)
    assert factors_found(said, TABLES) == factors_found(said, TABLES)


@pytest.mark.property
@given(st.sampled_from(sorted(TABLES.foods)))
def test_every_food_is_found_by_its_own_name(food: str) -> None:
    rows = foods_found(TABLES.foods[food].name, BENCH).rows
    assert food in [found.id for found in rows]


def test_factors_found_by_a_set_or_a_beginning() -> None:
    assert {row.set for row in factors_found("literature", TABLES).rows} == {"literature"}
    assert any("Beef" in row.item for row in factors_found("bee", TABLES).rows)
    near = factors_found("tomatoex", TABLES)
    assert near.rows == ()
    assert near.nearest


def test_foods_of_a_recipe_and_its_versions() -> None:
    recipe = Recipe(
        "Stew",
        (WrittenLine(1, "200 g onions"), WrittenLine(2, "400 g white beans, canned")),
        (),
        serves=(2.0, 2.0),
        versions=(Version("beef", swap={"white beans": "300 g beef chuck"}),),
    )
    order = Order(recipe, Kitchen())
    names = [used.food.name for used in foods_in(order, BENCH)]
    assert names[:2] == ["onion", "white beans, canned"]
    assert any("beef" in name for name in names[2:])
    beef = foods_in(Order(recipe, Kitchen(), version="beef"), BENCH)
    assert not any("bean" in used.food.name for used in beef)
    assert beef[0].lines == ("200 g onions",)
