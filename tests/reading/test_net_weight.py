"""What a written weight holds: bones or none, peel or none."""

from __future__ import annotations

import pytest

from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines
from counterproof.reading.model import MarkedLine
from counterproof.recipe.model import WrittenLine
from counterproof.rows import Tables


def read(tables: Tables, matcher: Matcher, text: str) -> MarkedLine:
    (line,) = read_lines([WrittenLine(1, text)], tables, matcher)
    return line


def grams(line: MarkedLine) -> tuple[float, float]:
    assert line.mass is not None
    assert line.purchased is not None
    return round(1000 * line.mass.mean), round(1000 * line.purchased.mean)


# Common practice with no source: meat sold diced, in strips or minced has no bones in it.
@pytest.mark.parametrize(
    "text",
    [
        "500 g diced chicken",
        "500 g chicken, cut into strips",
        "500 g shredded pork",
        "500 g pork, cubed",
        "500 g lamb pieces",
        "500 g sliced lamb",
        "500 g chicken, cut into bite-size pieces",
        "500 g boneless chicken",
        "500 g diced lamb shoulder",
    ],
)
def test_meat_in_small_pieces_is_bought_without_bones(
    shipped: Tables, shipped_matcher: Matcher, text: str
) -> None:
    assert grams(read(shipped, shipped_matcher, text)) == (500, 500)


@pytest.mark.parametrize(
    "text",
    [
        "500 g chicken",
        "500 g chicken, cut into 8 pieces",
        "500 g chicken, cut in serving pieces",
        "500 g chicken on the bone, sliced",
        "500 g sliced lamb neck",
        "500 g lamb shoulder, shredded",
    ],
)
def test_a_joint_keeps_its_bones(shipped: Tables, shipped_matcher: Matcher, text: str) -> None:
    eaten, bought = grams(read(shipped, shipped_matcher, text))
    assert bought == 500
    assert eaten < 420


def test_chicken_pieces_may_be_either_and_that_is_said(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    line = read(shipped, shipped_matcher, "500 g chicken pieces")
    assert [mark.kind for mark in line.marks] == ["bone-or-not"]
    settled = read(shipped, shipped_matcher, f"500 g pieces (meaning {line.marks[0].choices[0]})")
    assert grams(settled) == (500, 500)


def test_peeled_before_the_name_is_what_is_eaten(shipped: Tables, shipped_matcher: Matcher) -> None:
    eaten, bought = grams(read(shipped, shipped_matcher, "700 g peeled potatoes"))
    assert eaten == 700
    assert bought > 900
    for text in (
        "700 g potatoes, peeled",
        "700 g unpeeled potatoes",
        "700 g potatoes (not peeled)",
    ):
        assert grams(read(shipped, shipped_matcher, text))[1] == 700


def test_the_meat_that_a_bird_gives_is_what_is_left_of_it_by_cooking(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    line = read(shipped, shipped_matcher, "1 chicken (about 600 g cooked meat)")
    assert line.food is not None
    cooked = shipped.yields[line.food.id][0].factor
    eaten, bought = grams(line)
    assert eaten == pytest.approx(600 / cooked, abs=1)
    assert bought == pytest.approx(eaten / shipped.edible[line.food.id].share, abs=2)


@pytest.mark.parametrize("text", ["350 g lamb neck fillet", "400 g veal escalopes"])
def test_a_fillet_has_no_bone_in_it(text: str, shipped: Tables, shipped_matcher: Matcher) -> None:
    (line,) = read_lines([WrittenLine(1, text)], shipped, shipped_matcher)
    assert line.mass is not None
    assert line.mass.mean > 0.34
