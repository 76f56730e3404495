"""A line that is itself a recipe of the season: its foods, its energy, its allergens, its share."""

from __future__ import annotations

import pytest

from counterproof.errors import CircularRecipe
from counterproof.reading.allergens import allergens_of_recipe
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_recipe
from counterproof.reading.model import MarkedLine, Reading
from counterproof.reading.sub_recipes import may_name
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Tables


def recipe(
    title: str, *lines: str, step: str = "Bake for 40 minutes.", beside: tuple[Recipe, ...] = ()
) -> Recipe:
    return Recipe(
        title=title,
        lines=tuple(WrittenLine(n, text) for n, text in enumerate(lines, 1)),
        steps=(WrittenLine(1, step),),
        serves=(4, 4),
        beside=beside,
    )


PASTRY = recipe("Shortcrust pastry", "250 g plain flour", "125 g butter", "1 egg")
DRESSING = recipe("Walnut dressing", "3 tbsp walnut oil", "1 tbsp vinegar", "1 tsp mustard")


def read(
    tables: Tables, matcher: Matcher, *lines: str, beside: tuple[Recipe, ...] = (PASTRY, DRESSING)
) -> Reading:
    tart = recipe("Leek tart", *lines, beside=beside)
    return read_recipe(tart, tables, matcher, Kitchen())


def kg(line: MarkedLine) -> float:
    return sum(part.mass.mean for part in line.constituents if part.mass is not None)


def kinds(line: MarkedLine) -> set[str]:
    return {mark.kind for mark in line.marks}


@pytest.mark.parametrize(
    ("text", "title", "share"),
    [
        ("1 quantity shortcrust pastry (see page 12)", "Shortcrust pastry", 1),
        ("½ quantity shortcrust pastry", "Shortcrust pastry", 0.5),
        ("2 portions shortcrust pastry, recipe below", "Shortcrust pastry", 0.5),
        ("1 batch of the dressing", "Walnut dressing", 1),
        ("walnut dressing, see page 4", "Walnut dressing", 1),
    ],
)
def test_a_share_of_another_recipe_is_its_foods_scaled(
    shipped: Tables, shipped_matcher: Matcher, text: str, title: str, share: float
) -> None:
    (line,) = read(shipped, shipped_matcher, text).lines
    other = next(one for one in (PASTRY, DRESSING) if one.title == title)
    whole = read_recipe(other, shipped, shipped_matcher, Kitchen())
    assert line.taken is not None
    assert line.taken.share == share
    assert kg(line) == pytest.approx(share * sum(map(kg, whole.lines)))
    assert len(line.constituents) == len(other.lines)
    assert kinds(line) == {"taken-in"}


def test_a_weight_of_it_is_that_share_of_the_batch(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    (line,) = read(shipped, shipped_matcher, "200 g shortcrust pastry (see page 12)").lines
    assert kg(line) == pytest.approx(0.2)
    assert line.taken is not None
    assert line.taken.share < 0.5


def test_servings_scale_what_is_taken(shipped: Tables, shipped_matcher: Matcher) -> None:
    tart = recipe("Leek tart", "1 quantity shortcrust pastry", beside=(PASTRY,))
    once, twice = (
        read_recipe(tart, shipped, shipped_matcher, Kitchen(), serves=serves) for serves in (4, 8)
    )
    assert kg(twice.lines[0]) == pytest.approx(2 * kg(once.lines[0]))
    assert twice.lines[0].taken is not None
    assert twice.lines[0].taken.share == 2


def test_its_allergens_are_the_lines(shipped: Tables, shipped_matcher: Matcher) -> None:
    reading = read(shipped, shipped_matcher, "1 quantity shortcrust pastry", "2 leeks")
    assert {"gluten", "milk", "eggs"} <= set(allergens_of_recipe(reading, shipped).present)


def test_what_is_open_in_it_is_open_here(shipped: Tables, shipped_matcher: Matcher) -> None:
    odd = recipe("Odd pastry", "250 g plain flour", "3 tbsp frobnicated quux")
    reading = read(shipped, shipped_matcher, "1 quantity odd pastry", beside=(odd,))
    assert kinds(reading.lines[0]) == {"taken-in", "taken-in-open"}
    assert allergens_of_recipe(reading, shipped).unknown == ("3 tbsp frobnicated quux",)


def test_a_name_that_is_no_food_may_be_a_recipe(shipped: Tables, shipped_matcher: Matcher) -> None:
    (line,) = read(shipped, shipped_matcher, "50 ml walnut dressing").lines
    assert line.taken is not None


def test_a_food_stays_a_food(shipped: Tables, shipped_matcher: Matcher) -> None:
    (line,) = read(shipped, shipped_matcher, "200 g shortcrust pastry").lines
    assert line.taken is None
    assert "taken-in" not in kinds(line)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("1 quantity puff pastry (see page 9)", "recipe-elsewhere"),
        ("1 quantity of the dressing", "no-weight"),
    ],
)
def test_a_recipe_that_is_not_at_hand_is_said(
    shipped: Tables, shipped_matcher: Matcher, text: str, kind: str
) -> None:
    (line,) = read(shipped, shipped_matcher, text, beside=()).lines
    (mark,) = [mark for mark in line.marks if mark.kind == kind]
    assert mark.level != "note"
    assert "another recipe" in mark.message
    assert "season" in mark.message


def test_a_share_that_cannot_be_told_is_a_fault(shipped: Tables, shipped_matcher: Matcher) -> None:
    (line,) = read(shipped, shipped_matcher, "3 walnut dressings, see page 4").lines
    assert kinds(line) == {"no-share"}
    assert line.mass is None


def test_recipes_that_need_each_other_are_one_clear_error(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    stock = recipe("Leek stock", "1 quantity leek tart")
    with pytest.raises(CircularRecipe, match="“Leek tart” needs “Leek stock” needs “Leek tart”"):
        read(shipped, shipped_matcher, "1 quantity leek stock", beside=(stock,))


def test_a_recipe_in_a_recipe_in_a_recipe(shipped: Tables, shipped_matcher: Matcher) -> None:
    base = recipe("Tart base", "½ quantity shortcrust pastry", "10 g butter")
    (line,) = read(shipped, shipped_matcher, "2 quantities tart base", beside=(base, PASTRY)).lines
    whole = read_recipe(PASTRY, shipped, shipped_matcher, Kitchen())
    assert kg(line) == pytest.approx(sum(map(kg, whole.lines)) + 0.02)


def test_few_recipes_need_be_read() -> None:
    assert may_name("1 quantity of the dressing", "Walnut dressing")
    assert may_name("50 ml walnut dressing", "Walnut dressing")
    assert not may_name("50 ml dressing", "Walnut dressing")
    assert not may_name("1 quantity pastry", "Walnut dressing")
