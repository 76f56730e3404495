"""The marked reading: every line kept, every mark from the closed list, no order, no traceback."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.draws import Streams
from counterproof.marks import Mark
from counterproof.reading import kinds
from counterproof.reading.allergens import allergens_of_line, allergens_of_recipe
from counterproof.reading.document import mark_document
from counterproof.reading.foods import Matcher
from counterproof.reading.kinds import KINDS
from counterproof.reading.marking import SERVES, read_lines, read_recipe
from counterproof.reading.model import MarkedLine, MarkedStep, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Tables

STEW = (
    "1 tbsp olive oil",
    "2 large onions, sliced",
    "3 cloves garlic",
    "1 small squash, peeled and cubed",
    "2 x 400 g tins white beans, drained",
    "1 tin chopped tomatoes",
    "500 ml vegetable stock",
    "a handful of kale",
    "1 onion",
    "1 onion",
    "salt and pepper to taste",
    "bread or toast, to serve",
    "2 cups frobnicated quux",
)


def no_steps(step: WrittenLine) -> MarkedStep:
    return MarkedStep(step, (), ())


def recipe(
    *texts: str, serves: tuple[float, float] | None = (4, 4), steps: tuple[str, ...] = ()
) -> Recipe:
    return Recipe(
        title="Stew",
        lines=tuple(WrittenLine(n, text) for n, text in enumerate(texts, 1)),
        steps=tuple(WrittenLine(n, text) for n, text in enumerate(steps, 1)),
        serves=serves,
    )


def read(written: Recipe, tables: Tables, matcher: Matcher, serves: float | None = None) -> Reading:
    return read_recipe(written, tables, matcher, Kitchen(), serves=serves, step_reader=no_steps)


def one(text: str, tables: Tables, matcher: Matcher) -> MarkedLine:
    (line,) = read_lines([WrittenLine(1, text)], tables, matcher)
    return line


def marks_of(reading: Reading) -> list[Mark]:
    return [*reading.marks, *(mark for line in reading.lines for mark in line.marks)]


def test_no_line_is_dropped_and_none_changes_place(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    reading = read(recipe(*STEW), shipped, shipped_matcher)
    assert tuple(line.written.text for line in reading.lines) == STEW
    assert [line.written.number for line in reading.lines] == list(range(1, len(STEW) + 1))
    assert sum(line.mass is None for line in reading.lines) == 1


def test_every_mark_is_from_the_closed_list_and_says_what_to_do(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    reading = read(
        recipe(
            *STEW, "onions", "250 g/2 lb flour", "water to cover", "200 g rice, cooked",
            "aluminium foil", "cashew cordial milk", "2% salt by cabbage weight", serves=None,
        ),
        shipped,
        shipped_matcher,
    )  # fmt: skip
    found = marks_of(reading)
    assert len({mark.kind for mark in found}) > 8
    for mark in found:
        level, _ = KINDS[mark.kind]
        assert mark.level == level or (mark.kind == "alternative" and mark.level == "doubt")
        assert mark.message[-1] in ".”"
        assert mark.message[0].isupper() or not mark.message[0].isalpha() or mark.kind


def test_no_kind_of_mark_is_listed_that_nothing_makes() -> None:
    folder = Path(kinds.__file__).parent
    told = "".join(
        path.read_text(encoding="utf-8") for path in folder.glob("*.py") if path.name != "kinds.py"
    )
    assert [kind for kind in KINDS if f'"{kind}"' not in told] == []


def test_the_measures_are_guessed_from_the_recipes_own_words_and_said(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    uk = read(recipe("2 courgettes", "100 g caster sugar", "1 tbsp oil"), shipped, shipped_matcher)
    us = read(recipe("2 zucchini", "1 cup milk", "1 stick butter"), shipped, shipped_matcher)
    none = read(recipe("2 onions", "300 g beef"), shipped, shipped_matcher)
    assert ["UK" in mark.message for mark in uk.marks] == [True]
    assert ["US" in mark.message for mark in us.marks] == [True]
    assert none.marks == ()


def test_servings_scale_and_their_absence_is_said(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    asked = read(recipe("300 g beef"), shipped, shipped_matcher, serves=6)
    assert (asked.serves, asked.scale) == (6, 1.5)
    silent = read(recipe("300 g beef", serves=None), shipped, shipped_matcher)
    assert silent.serves == SERVES
    assert [mark.kind for mark in silent.marks] == ["servings-assumed"]


@pytest.mark.property
@given(order=st.permutations(range(len(STEW))))
@settings(max_examples=25, deadline=None)
def test_the_order_of_lines_does_not_matter(
    shipped: Tables, shipped_matcher: Matcher, order: list[int]
) -> None:
    straight = read_lines(
        [WrittenLine(n, text) for n, text in enumerate(STEW, 1)], shipped, shipped_matcher
    )
    shuffled = read_lines(
        [WrittenLine(n, STEW[place]) for n, place in enumerate(order, 1)], shipped, shipped_matcher
    )

    def products(lines: tuple[MarkedLine, ...]) -> list[tuple[str, str]]:
        return sorted(
            (line.written.text, repr([(p.mass, p.purchased) for p in line.constituents]))
            for line in lines
        )

    assert products(shuffled) == products(straight)


@pytest.mark.property
@given(extra=st.sampled_from(["3 onions", "1 tin chopped tomatoes", "salt", "2 carrots"]))
@settings(max_examples=8, deadline=None)
def test_another_line_leaves_the_draws_of_the_others_alone(
    shipped: Tables, shipped_matcher: Matcher, extra: str
) -> None:
    texts = ("1 large onion, sliced", "2 onions", "500 ml vegetable stock")
    before = read_lines(
        [WrittenLine(n, text) for n, text in enumerate(texts, 1)], shipped, shipped_matcher
    )
    after = read_lines(
        [WrittenLine(n, text) for n, text in enumerate((extra, *texts), 1)],
        shipped,
        shipped_matcher,
    )
    assert [line.mass for line in after[1:]] == [line.mass for line in before]


@pytest.mark.property
@given(st.lists(st.text(max_size=80), max_size=4))
@settings(max_examples=150, deadline=None)
def test_any_text_gives_a_reading(
    larder: Tables, larder_matcher: Matcher, texts: list[str]
) -> None:
    reading = read(recipe(*texts), larder, larder_matcher)
    assert len(reading.lines) == len(texts)
    for line in reading.lines:
        assert line.mass is not None or any(mark.level == "fault" for mark in line.marks)
    json.dumps(mark_document(reading, larder, Streams(seed=1, n=8)))


@pytest.mark.parametrize(
    "text",
    [
        "🥕🥕 2 carrots",
        "2 саrrots",  # with a Cyrillic look-alike
        "200 g <b>onions</b>",
        "\u202e2 onions",
        "onion " * 2000,
        "12 34 56",
        "½",
        "()",
        "1 / 2 / 3",
        "and or and",
        "200 g of of of",
        "% % %",
        "/",
        "½ (meaning /",  # found by fuzzing
        "1000000000000000000000 onions",
    ],
)
def test_hostile_lines_are_read_or_marked(
    shipped: Tables, shipped_matcher: Matcher, text: str
) -> None:
    line = one(text, shipped, shipped_matcher)
    assert line.mass is not None or line.marks


def test_a_meaning_overrides_name_and_amount(shipped: Tables, shipped_matcher: Matcher) -> None:
    line = one("1 tin tomatoes (meaning chopped tomatoes, 400 g)", shipped, shipped_matcher)
    assert line.certainty == 1.0
    assert line.purchased is not None
    assert line.purchased.mean == pytest.approx(0.4)
    vague = one("a splash of the usual (meaning 2 tbsp soy sauce)", shipped, shipped_matcher)
    assert vague.food is not None
    assert vague.food.food_class == "condiments & sauces"


@pytest.mark.parametrize(
    "text",
    [
        "2 cups frobnicated onion quux",
        "1 cup cashew cordial milk",
        "200 g rice, cooked",
        "250 g/2 lb flour",
        "1 tbsp margerine",
    ],
)
def test_every_choice_settles_its_doubt_when_written_into_the_line(
    shipped: Tables, shipped_matcher: Matcher, text: str
) -> None:
    asking = [mark for mark in one(text, shipped, shipped_matcher).marks if mark.level != "note"]
    for mark in asking:
        assert mark.choices, mark
        for choice in mark.choices:
            settled = one(f"{text} (meaning {choice})", shipped, shipped_matcher)
            assert mark.kind not in {other.kind for other in settled.marks}, choice
            assert settled.certainty == 1.0, choice


def test_a_line_brings_the_allergens_of_all_it_may_be(
    larder: Tables, larder_matcher: Matcher
) -> None:
    def present(text: str) -> tuple[str, ...]:
        return allergens_of_line(one(text, larder, larder_matcher), larder).present

    assert present("100 g butter") == ("milk",)
    assert present("100 g margarine or peanut butter") == ("peanuts",)
    assert present("50 g cheese, optional") == ("milk",)
    assert present("100 g water") == ()
    label = allergens_of_line(one("margarine", larder, larder_matcher), larder)
    assert label.read_the_label == ("milk",)


def test_runners_up_count_until_the_cook_excludes_them(
    larder: Tables, larder_matcher: Matcher
) -> None:
    doubtful = one("1 cup cashew milk", larder, larder_matcher)
    assert doubtful.food is None
    found = allergens_of_line(doubtful, larder)
    assert found.present == ("milk",)
    assert found.unknown == ("1 cup cashew milk",)
    settled = one("1 cup cashew milk (meaning water)", larder, larder_matcher)
    assert allergens_of_line(settled, larder).present == ()


def test_one_unknown_line_makes_the_statement_incomplete(
    larder: Tables, larder_matcher: Matcher
) -> None:
    reading = read(
        recipe("100 g butter", "2 cups quux", "For the sauce:", "aluminium foil"),
        larder,
        larder_matcher,
    )
    statement = allergens_of_recipe(reading, larder)
    assert statement.to_dict() == {
        "present": ["milk"],
        "read_the_label": [],
        "unknown": ["2 cups quux"],
    }


def test_a_lines_mass_is_that_of_all_its_foods(larder: Tables, larder_matcher: Matcher) -> None:
    reading = read(
        recipe("200 g flour and rice", "2 cups milk + 1 cup water"), larder, larder_matcher
    )
    document = mark_document(reading, larder, Streams(seed=1, n=100))
    for line in document["lines"]:
        parts = [food["mass_kg"]["mean"] for food in line["foods"] if food["mass_kg"]]
        assert line["mass_kg"]["mean"] == pytest.approx(sum(parts))


def test_the_document_keeps_the_promised_keys(shipped: Tables, shipped_matcher: Matcher) -> None:
    reading = read_recipe(
        recipe("2 large onions, sliced", "quux", steps=("Simmer for 20 minutes.",)),
        shipped,
        shipped_matcher,
        Kitchen(),
    )
    document = mark_document(reading, shipped, Streams(seed=1, n=100))
    assert {"title", "serves", "lines", "steps", "allergens"} <= document.keys()
    known, unknown = document["lines"]
    assert {
        "number", "as_written", "quantity", "food", "certainty", "runners_up", "called",
        "prepared", "mass_kg", "purchased_kg", "allergens", "marks",
    } <= known.keys()  # fmt: skip
    assert known["quantity"] == {"low": 2.0, "high": 2.0, "measure": "piece"}
    assert known["food"].keys() == {"id", "name", "class", "fit"}
    assert known["mass_kg"].keys() == {"mean", "p05", "p50", "p95"}
    assert known["mass_kg"]["mean"] == pytest.approx(0.3)
    assert unknown["food"] is None
    assert unknown["mass_kg"] is None
    assert [food["id"] for food in known["foods"]] == ["onion"]
    assert unknown["foods"] == []
    (step,) = document["steps"]
    assert step.keys() == {"number", "as_written", "processes", "marks"}


@pytest.mark.parametrize("text", ["6 jars", "2 tins"])
def test_a_container_alone_asks_what_it_holds(
    text: str, shipped: Tables, shipped_matcher: Matcher
) -> None:
    (line,) = read_lines([WrittenLine(1, text)], shipped, shipped_matcher)
    (mark,) = line.marks
    assert (mark.level, mark.kind) == ("fault", "no-food")
    assert "holds" in mark.message


@pytest.mark.parametrize(
    ("text", "food"),
    [
        ("top up with soda water", "water-sparkling"),
        ("soda water, to top up", "water-sparkling"),
        ("garnish with a lime wheel", "lime"),
        ("finish with flaky salt", "salt-flakes"),
    ],
)
def test_a_line_that_begins_with_what_is_done_names_its_food(
    text: str, food: str, shipped: Tables, shipped_matcher: Matcher
) -> None:
    (line,) = read_lines([WrittenLine(1, text)], shipped, shipped_matcher)
    assert line.food is not None
    assert line.food.id == food
    assert line.mass is not None
