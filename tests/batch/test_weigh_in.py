"""A weigh-in from its text: differences, corrections, bottles, and everything that is asked."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.batch.weigh_in import weigh_in
from counterproof.batch.weighed import WeighIn
from counterproof.batch.written_in import recipe_with_weights, with_weights
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark

SOUP = """# Soup

Serves 4

## Ingredients

- 3 onions, chopped
- a glug of olive oil
- a few carrots
- some celery
- water to cover, and as much again
- a splash of vinegar <!-- the red one -->
- brown sugar
- caster sugar

To serve:

- a slice of onion

## Method

1. Soften the onions in the oil for 8 minutes.
2. Add the rest and simmer for 25 minutes.
"""
KITCHEN = Kitchen(
    vessels=(Vessel("stew pot", 8.0, 0.26, 2.1), Vessel("roasting tin", 5.0)),
    tools=("kitchen scale to 1 g",),
)


@pytest.fixture(scope="module")
def reading(bench: Workbench) -> Reading:
    return mark(Order(read_text(SOUP), KITCHEN), bench)


@pytest.fixture(scope="module")
def told(reading: Reading) -> Callable[[str], WeighIn]:
    def weighed(text: str) -> WeighIn:
        return weigh_in(text, reading.lines, KITCHEN)

    return weighed


Told = Callable[[str], WeighIn]


def _grams(found: WeighIn) -> dict[int | str, float]:
    return {
        line.name if line.number is None else line.number: round(1000 * line.kg, 6)
        for line in found.lines
    }


def _kinds(found: WeighIn) -> list[str]:
    return [mark.kind for _, mark in found.marks]


def test_running_readings_become_differences_in_the_recipes_order(told: Told) -> None:
    found = told("1240 pot\n+oil 1268\n+onions 1683\n")
    assert _grams(found) == {1: 415.0, 2: 28.0}
    assert [line.number for line in found.lines] == [1, 2]
    assert found.lines[0].half == pytest.approx(0.001)
    assert found.unweighed == (3, 4, 5, 6, 7, 8, 9)
    assert found.lines[0].differences[0].says == "1683 − 1268 g"


def test_a_known_vessel_needs_no_reading(told: Told) -> None:
    assert _grams(told("stew pot\n+onions 2515\n")) == {1: 415.0}


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        ("1240 pot\n+onions 1655\nno, 1665\n+oil 1693", {1: 425.0, 2: 28.0}),
        ("1240 pot\n+onions 1655\n+oil 1683\nundo\n+carrots 1800", {1: 415.0, 3: 145.0}),
        ("1240 pot\n+onions 1655\ntare\n+carrots 145", {1: 415.0, 3: 145.0}),
        ("1.24 kg pot\n+onions 1.655\n+oil 1683 g", {1: 415.0, 2: 28.0}),
        ("2 lb 11 oz pot\n+onions 3 lb 10 oz", {1: round(15 * 28.349523125, 6)}),
        ("1240 pot\n+onions 1655\n-onions 1640", {1: 400.0}),
        ("1240 pot\n+onions 1655\n+more onions 1700", {1: 460.0}),
        ("oil bottle 812 → 784", {2: 28.0}),
        ("oil bottle 812 -> 784", {2: 28.0}),
        ("1240 pot\noil bottle 812 to 784\n+onions 1683", {1: 415.0, 2: 28.0}),
        ("1240 pot\n+oinons 1655", {1: 415.0}),
        ("1240 pot\n+onions 1655\n1655", {1: 415.0}),
        ("10:05 1240 pot\n10:06 +onions 1655", {1: 415.0}),
        ("1240 pot\n+onions 1655 +oil 1683", {1: 415.0, 2: 28.0}),
        ("1240 pot\n+nutmeg 1242", {"nutmeg": 2.0}),
    ],
)
def test_what_a_cook_says_at_the_scale(
    told: Told, text: str, grams: dict[int | str, float]
) -> None:
    found = told(text)
    assert _grams(found) == pytest.approx(grams)
    assert "fault" not in {mark.level for _, mark in found.marks}


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("1240 pot\n+onions 1200", "went-down"),
        ("1240 pot\n+onions 1655\n1600", "went-down"),
        ("1240 pot\n+onions 1655\n1700", "without-a-word"),
        ("1240 pot\n+1655", "without-a-word"),
        ("wok\n+onions 1655", "unknown-vessel"),
        ("roasting tin\n+onions 1655", "unknown-vessel"),
        ("+onions 1655", "no-vessel"),
        ("1655", "no-vessel"),
        ("1240 pot\nonions 415", "plus-missing"),
        ("1240 pot\n+onions 1655 1665", "two-readings"),
        ("1240 pot\n-onions 1300", "went-up"),
        ("oil bottle 640 → 812", "went-up"),
        ("in kg\n1240 pot", "too-heavy"),
        ("no, 1665", "nothing-to-correct"),
        ("stew pot\n+onions", "not-understood"),
    ],
)
def test_what_is_not_clear_is_asked_and_never_counted(told: Told, text: str, kind: str) -> None:
    found = told(text)
    assert kind in _kinds(found)
    mark = next(mark for _, mark in found.marks if mark.kind == kind)
    assert mark.level == "fault"
    assert mark.message.count(".") >= 1  # what was found, and what to do


def test_readings_after_one_that_was_not_counted_go_on_from_the_last_that_was(told: Told) -> None:
    found = told("1240 pot\n+onions 1655\n+oil 1600\n+carrots 1800")
    assert _grams(found) == {1: 415.0, 3: 145.0}


def test_another_weight_of_a_known_vessel_is_a_doubt(told: Told) -> None:
    found = told("2300 stew pot\n+onions 2715")
    assert _kinds(found) == ["vessel-weight"]
    assert _grams(found) == {1: 415.0}


def test_a_word_that_fits_two_lines_is_a_doubt_with_both(told: Told) -> None:
    found = told("1240 pot\n+sugar 1250")
    (doubt,) = [mark for _, mark in found.marks]
    assert (doubt.kind, doubt.choices) == ("which-line", ("brown sugar", "caster sugar"))
    later = told("1240 pot\n+brown sugar 1250\n+sugar 1260")
    assert _grams(later) == {7: 10.0, 8: 10.0}
    assert _kinds(later) == []


def test_foods_weighed_together_stay_together(told: Told) -> None:
    found = told("1240 pot\n+carrots and celery 1540")
    assert _kinds(found) == ["together"]
    assert _grams(found) == {"carrots and celery": 300.0}


def test_steam_is_told_apart_from_what_went_in(told: Told) -> None:
    found = told("1240 pot\n+onions 1655\n+water 2655\nafter simmering 2500\n+vinegar 2515")
    assert _grams(found) == {1: 415.0, 5: 1000.0, 6: 15.0}
    (gone,) = found.lost
    assert (gone.kg, gone.held) == pytest.approx((-0.155, 1.415))


def test_a_coarse_scale_gives_a_wide_range(told: Told) -> None:
    found = told("scale to 5 g\n1240 pot\n+onions 1655")
    assert found.lines[0].half == pytest.approx(0.005)


def test_weights_are_written_beside_the_by_eye_words_and_nothing_else_changes(
    told: Told, reading: Reading
) -> None:
    found = told("1240 pot\n+onions 1655\n+oil 1683\n+vinegar 1690\n+nutmeg 1692")
    text = with_weights(SOUP, reading.recipe, found)
    lines = text.splitlines()
    assert "- 3 onions, chopped (weighed 415 g, give or take 1 g)" in lines
    assert "- a splash of vinegar (weighed 7 g, give or take 1 g) <!-- the red one -->" in lines
    assert "- nutmeg (weighed 2 g, give or take 1 g)" in lines
    before = SOUP.splitlines()
    assert [line for line in lines if "(weighed" not in line] == [
        line for line in before if "onions, chopped" not in line and "glug" not in line
        and "splash" not in line
    ]  # fmt: skip
    again = with_weights(text, read_text(text), told("1240 pot\n+onions 1700"))
    assert "- 3 onions, chopped (weighed 460 g, give or take 1 g)" in again.splitlines()
    assert again.count("(weighed") == text.count("(weighed")


def test_what_is_still_to_be_told_is_not_written(told: Told, reading: Reading) -> None:
    found = told("1240 pot\n+carrots and celery 1540\nbottle 812 → 640")
    assert with_weights(SOUP, reading.recipe, found) == SOUP


@pytest.mark.property
@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.integers(1, 4000), min_size=1, max_size=4),
    st.sampled_from(["g", "kg", "lb"]),
)
def test_weighed_in_and_read_back_to_the_gram(
    reading: Reading, bench: Workbench, amounts: list[int], unit: str
) -> None:
    names = ["onions", "oil", "carrots", "celery"]
    shown, at = ["1240 g pot"], 1240
    for name, amount in zip(names, amounts, strict=False):
        at += amount
        said = f"{at} g" if unit == "g" else f"{at / 1000:.3f} kg" if unit == "kg" else f"{at} g"
        shown.append(f"+{name} {said}")
    found = weigh_in("\n".join(shown), reading.lines, KITCHEN)
    text = with_weights(SOUP, reading.recipe, found)
    other = recipe_with_weights(reading.recipe, found)
    for written in (text, other):
        again = mark(Order(read_text(written), KITCHEN), bench)
        for number, amount in enumerate(amounts, 1):
            mass = again.lines[number - 1].mass
            assert mass is not None
            assert 1000 * mass.mean == pytest.approx(amount, abs=1e-6)


@pytest.mark.property
@settings(max_examples=60, deadline=None)
@given(st.text(alphabet="+-0123456789 →.,onisplgtarekud\n", max_size=120))
def test_any_text_has_a_reading_and_no_line_is_lost(reading: Reading, text: str) -> None:
    found = weigh_in(text, reading.lines, KITCHEN)
    assert all(line.kg > 0 for line in found.lines)
    found.to_dict()


def test_a_kitchen_without_a_scale_is_told_what_is_assumed(reading: Reading) -> None:
    found = weigh_in("1240 pot\n+onions 1655", reading.lines, replace(KITCHEN, tools=()))
    assert _kinds(found) == ["scale-step"]
