"""A bracket tells which of two foods a name means, and a preparation tells the form."""

from __future__ import annotations

import pytest

from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines
from counterproof.reading.model import MarkedLine
from counterproof.recipe.model import WrittenLine
from counterproof.rows import Tables


def _read(text: str, tables: Tables, matcher: Matcher) -> MarkedLine:
    (line,) = read_lines([WrittenLine(1, text)], tables, matcher)
    return line


@pytest.mark.parametrize(
    ("text", "food"),
    [
        ("3 drumsticks (moringa)", "drumstick"),
        ("3 drumsticks (chicken)", "chicken-drumstick"),
        ("3 drumsticks", "chicken-drumstick"),
        ("100 g oil (olive)", "oil-olive"),
        ("500 ml stock (chicken)", "stock-chicken"),
        ("100 g cheese (mozzarella)", "mozzarella"),
        ("4 kpanla (mackerel)", "mackerel"),
        ("1 zzlauk (aka okra), sliced", "okra"),
    ],
)
def test_a_bracket_tells_which_food_it_is(
    text: str, food: str, shipped: Tables, shipped_matcher: Matcher
) -> None:
    line = _read(text, shipped, shipped_matcher)
    assert line.food is not None
    assert line.food.id == food


@pytest.mark.parametrize(
    ("text", "food_class"),
    [
        ("300 ml soup (tomato)", "stocks"),  # no tomato
        ("2 onions (red are best)", "vegetables"),
        ("200 g rice (cooked)", "rice"),  # before or after is asked elsewhere
        ("1 tbsp butter (melted)", "butter & fats"),
    ],
)
def test_a_bracket_that_is_no_name_changes_no_class(
    text: str, food_class: str, shipped: Tables, shipped_matcher: Matcher
) -> None:
    line = _read(text, shipped, shipped_matcher)
    assert line.food is not None
    assert line.food.food_class == food_class


def test_what_the_bracket_said_is_told(shipped: Tables, shipped_matcher: Matcher) -> None:
    line = _read("3 drumsticks (moringa)", shipped, shipped_matcher)
    assert any("moringa" in mark.message for mark in line.marks)


def test_ground_after_the_comma_is_the_dry_form(shipped: Tables, shipped_matcher: Matcher) -> None:
    line = _read("1 cup coffee, finely ground", shipped, shipped_matcher)
    assert line.food is not None
    assert line.food.id == "coffee-ground"


@pytest.mark.parametrize(
    ("text", "food"),
    [
        ("a dash of Bayou-style hot sauce", "hot-sauce"),
        ("2 tbsp Greek-style yogurt", "yogurt-greek"),
        ("1 tsp harbour-type seasoning", "curry-powder"),
        ("4 maple-smoked bacon strips", "bacon"),
        ("500 g grass-fed beef mince", "beef-mince"),
    ],
)
def test_a_style_is_set_aside(
    text: str, food: str, shipped: Tables, shipped_matcher: Matcher
) -> None:
    line = _read(text, shipped, shipped_matcher)
    assert line.food is not None
    assert line.food.id == food


@pytest.mark.parametrize(
    ("name", "sure"),
    [("brocolli", True), ("mozarella", True), ("lengqua", False)],  # no slip: a word of its own
)
def test_only_a_slip_of_the_pen_is_taken_without_asking(
    name: str, *, sure: bool, shipped_matcher: Matcher
) -> None:
    match = shipped_matcher.match(name)
    assert match.food is not None
    assert (match.certainty >= 0.75) is sure


@pytest.mark.parametrize(
    ("text", "foods"),
    [
        ("150 g plant-based chorizo", ["plant-sausage"]),
        ("200 g vegan brie", ["plant-cheese"]),
        ("500 g topside mince", ["beef-mince"]),
        ("½ tsp crushed red pepper", ["chilli-flakes"]),
        ("800 g waxy potatoes in their skins", ["potato"]),
        ("1 tsp cinnamon and a pinch of allspice", ["cinnamon", "allspice"]),
        ("100 g cream and cheese", ["cream", "cheese"]),
        ("1 cup half and half", ["half-and-half"]),
        ("2 tbsp lemon and lime juice", ["lemon-juice", "lime-juice"]),
        ("200 g beef and pork mince", ["beef-mince", "pork-mince"]),
    ],
)
def test_words_around_a_name_make_the_food_they_say(
    text: str, foods: list[str], shipped: Tables, shipped_matcher: Matcher
) -> None:
    line = _read(text, shipped, shipped_matcher)
    assert [part.food.id for part in line.constituents] == foods
