"""A second food in a line is never passed over: weighed where it has an amount, else marked."""

from __future__ import annotations

import pytest

from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines
from counterproof.reading.model import MarkedLine
from counterproof.recipe.model import WrittenLine
from counterproof.rows import Tables


def read(tables: Tables, matcher: Matcher, *texts: str) -> tuple[MarkedLine, ...]:
    written = [WrittenLine(number, text) for number, text in enumerate(texts, 1)]
    return read_lines(written, tables, matcher)


@pytest.mark.parametrize(
    ("text", "food", "second"),
    [
        ("12 dates stuffed with cream cheese", "dates", "cream cheese"),
        ("4 salmon fillets wrapped in bacon", "salmon", "bacon"),
        ("8 figs, wrapped in parma ham and baked", "figs", "dry-cured ham"),
        ("2 slices toast spread with butter", "bread-white", "butter"),
        ("150 g almonds covered in chocolate", "almonds", "chocolate"),
        ("500 g beef, dusted with flour", "beef", "flour"),
        ("4 peppers, filled with rice", "pepper-red", "rice"),
    ],
)
def test_what_a_food_is_stuffed_or_wrapped_with_is_marked(
    shipped: Tables, shipped_matcher: Matcher, text: str, food: str, second: str
) -> None:
    (line,) = read(shipped, shipped_matcher, text)
    assert line.food is not None
    assert line.food.id == food
    (mark,) = [mark for mark in line.marks if mark.kind == "second-food"]
    assert mark.level == "doubt"
    assert second in mark.message
    assert "line of its own" in mark.message


def test_with_an_amount_it_is_weighed(shipped: Tables, shipped_matcher: Matcher) -> None:
    (line,) = read(shipped, shipped_matcher, "12 dates stuffed with 100 g cream cheese")
    assert [part.food.id for part in line.constituents] == ["dates", "cream-cheese"]
    mass = line.constituents[1].mass
    assert mass is not None
    assert mass.mean == pytest.approx(0.1)
    assert "second-food" not in [mark.kind for mark in line.marks]


def test_a_line_of_its_own_settles_it(shipped: Tables, shipped_matcher: Matcher) -> None:
    first, _ = read(
        shipped, shipped_matcher, "12 dates stuffed with cream cheese", "100 g cream cheese"
    )
    assert "second-food" not in [mark.kind for mark in first.marks]


@pytest.mark.parametrize(
    "text",
    [
        "1 tin sardines in tomato sauce",
        "200 g tuna in olive oil",
        "1 jar artichokes marinated in oil",  # the jar's weight is that of both
        "1 kg potatoes, covered in cold water",
        "4 trout wrapped in foil",
        "12 dates stuffed with cream cheese (meaning 12 dates)",
    ],
)
def test_what_is_counted_already_or_not_eaten_is_not_marked(
    shipped: Tables, shipped_matcher: Matcher, text: str
) -> None:
    (line,) = read(shipped, shipped_matcher, text)
    assert "second-food" not in [mark.kind for mark in line.marks]


@pytest.mark.parametrize(
    ("text", "food", "second"),
    [
        ("4 plums, 1 small cinnamon stick", "plum", "cinnamon"),
        ("Salt, to taste; pinch of asafoetida", "salt", "asafoetida"),
        ("2 cups flour, 1 egg", "flour", "egg"),
    ],
)
def test_an_ingredient_after_a_comma_is_marked(
    shipped: Tables, shipped_matcher: Matcher, text: str, food: str, second: str
) -> None:
    (line,) = read(shipped, shipped_matcher, text)
    assert line.food is not None
    assert line.food.id == food
    (mark,) = [mark for mark in line.marks if mark.kind == "second-food"]
    assert second in mark.message


@pytest.mark.parametrize(
    "text",
    [
        "6 eggs, 4 egg whites",  # of the same name: more of it, or a part of it
        "3 eggs, 1 beaten",
        "500 g potatoes, 2 cm dice",
        "butter, 1 stick",
        "1 tin tomatoes, 400 g",
        "200 g rice, 2 cups water",
        "1 juice of 1 lime",
    ],
)
def test_an_amount_after_a_comma_alone_is_no_second_food(
    shipped: Tables, shipped_matcher: Matcher, text: str
) -> None:
    (line,) = read(shipped, shipped_matcher, text)
    assert "second-food" not in [mark.kind for mark in line.marks]
