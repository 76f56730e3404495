"""Versions: a swap finds its line by food or words, and a miss says what lines there are."""

from __future__ import annotations

import pytest

from counterproof.errors import SwapNotFound
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_recipe
from counterproof.reading.model import MarkedStep
from counterproof.reading.versions import version_applied
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Keep, Pack, Recipe, Version, WrittenLine
from counterproof.rows import Tables

STEW = Recipe(
    title="Stew",
    lines=tuple(
        WrittenLine(number, text, at=number + 10)
        for number, text in enumerate(
            (
                "2 onions, sliced",
                "2 x 400 g tins white beans, drained",
                "1 tin chopped tomatoes",
                "4 large tomatoes",
                "1 butternut squash",
            ),
            start=1,
        )
    ),
    steps=(),
    serves=(4, 4),
    pack=(Pack("jar"),),
    file="stew.md",
)


def version(swap: dict[str, str], name: str = "other", **more: object) -> Version:
    return Version(name=name, swap=swap, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("words", "place"),
    [
        ("white beans", 1),
        ("White Beans", 1),
        ("tins white beans", 1),
        ("the beans", 1),
        ("onion", 0),
        ("tinned tomatoes", 2),
        ("chopped tomatoes", 2),
        ("butternut squash", 4),
        ("squash", 4),
    ],
)
def test_a_swap_finds_its_line(shipped_matcher: Matcher, words: str, place: int) -> None:
    changed, doubts = version_applied(STEW, version({words: "600 g beef chuck"}), shipped_matcher)
    assert doubts == ()
    assert [a.text for a, b in zip(changed.lines, STEW.lines, strict=True) if a != b] == [
        "600 g beef chuck"
    ]
    assert changed.lines[place].text == "600 g beef chuck"
    assert changed.lines[place].number == STEW.lines[place].number


def test_a_swap_that_fits_two_lines_takes_the_first_and_asks(shipped_matcher: Matcher) -> None:
    twice = Recipe(
        title="Twice", lines=(WrittenLine(1, "1 onion, sliced"), WrittenLine(2, "1 onion, diced")),
        steps=(),
    )  # fmt: skip
    changed, (doubt,) = version_applied(twice, version({"onion": "1 leek"}), shipped_matcher)
    assert [line.text for line in changed.lines] == ["1 leek", "1 onion, diced"]
    assert (doubt.level, doubt.kind) == ("doubt", "swap-unsure")
    assert doubt.choices == ("1 onion, sliced", "1 onion, diced")


def test_a_swap_of_what_is_not_there_says_what_is(shipped_matcher: Matcher) -> None:
    with pytest.raises(SwapNotFound) as caught:
        version_applied(STEW, version({"salmon": "tofu"}, "fishless", at=7), shipped_matcher)
    error = caught.value
    assert (error.file, error.line) == ("stew.md", 7)
    assert "fishless" in error.message
    assert "salmon" in error.message
    assert "butternut squash" in error.message
    assert error.remedy


def test_other_changes_are_made_too(shipped_matcher: Matcher) -> None:
    change = version({}, pack=(Pack("tin"),), keep=(Keep("fridge", 3),), serves=8.0)
    changed, _ = version_applied(STEW, change, shipped_matcher)
    assert (changed.pack, changed.keep, changed.serves) == (
        (Pack("tin"),),
        (Keep("fridge", 3),),
        (8.0, 8.0),
    )


def test_a_version_leaves_every_other_lines_draws_alone(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    def no_steps(step: WrittenLine) -> MarkedStep:
        return MarkedStep(step, (), ())

    base = read_recipe(STEW, shipped, shipped_matcher, Kitchen(), step_reader=no_steps)
    beef = read_recipe(
        STEW,
        shipped,
        shipped_matcher,
        Kitchen(),
        version=version({"white beans": "600 g beef chuck"}),
        step_reader=no_steps,
    )
    assert beef.lines[1].food is not None
    assert beef.lines[1].food.food_class == "beef"
    for place in (0, 2, 3, 4):
        assert beef.lines[place].mass == base.lines[place].mass
