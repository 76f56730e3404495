"""schema.org recipes: the shapes that are met in the wild, and ours, which loses nothing.

The shapes are those that schema.org documents for Recipe (https://schema.org/Recipe): text or
list for recipeIngredient and recipeYield; text, ItemList, HowToSection or HowToStep for
recipeInstructions.
"""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.errors import CounterproofError, NotARecipe
from counterproof.recipe.model import Bought, Keep, Pack, Recipe, Version, WrittenLine
from counterproof.recipe.schema_org import from_json_ld, read_json
from counterproof.recipe.schema_org_written import to_json_ld
from counterproof.recipe.text import read_text, same_words, write_text

BARE: dict[str, Any] = {"@type": "Recipe", "name": "Toast", "recipeIngredient": ["2 slices bread"]}


@pytest.mark.parametrize(
    "document",
    [
        BARE,
        [BARE],
        {"@graph": [{"@type": "WebSite"}, BARE]},
        {"@type": "WebPage", "mainEntity": BARE},
        {**BARE, "@type": ["Recipe", "NewsArticle"]},
        {**BARE, "@type": "http://schema.org/Recipe"},
        {**BARE, "@type": "schema:Recipe"},
        {**BARE, "@type": "recipe"},
        [[{"x": {"y": [BARE]}}]],
    ],
)
def test_a_recipe_is_found_wherever_it_lies(document: object) -> None:
    assert from_json_ld(document).title == "Toast"


@pytest.mark.published
@pytest.mark.parametrize(
    ("instructions", "steps"),
    [
        ("Toast it.", [("Toast it.", "")]),
        ("Slice.\nToast.", [("Slice.", ""), ("Toast.", "")]),
        ("1. Slice.\n2) Toast.", [("Slice.", ""), ("Toast.", "")]),
        ("<ol><li>Slice.</li><li>Toast.</li></ol>", [("Slice.", ""), ("Toast.", "")]),
        ("&lt;p&gt;Slice.&lt;/p&gt;&lt;p&gt;Toast.&lt;/p&gt;", [("Slice.", ""), ("Toast.", "")]),
        (["Slice.", "Toast."], [("Slice.", ""), ("Toast.", "")]),
        ([{"@type": "HowToStep", "text": "Slice."}, "Toast."], [("Slice.", ""), ("Toast.", "")]),
        ([{"@type": "HowToStep", "name": "Step 1", "text": "Slice."}], [("Slice.", "")]),
        (
            [{"@type": "HowToStep", "name": "Slice.", "text": "Slice. Then go."}],
            [("Slice. Then go.", "")],
        ),
        ([{"@type": "HowToStep", "name": "First", "text": "Slice."}], [("First: Slice.", "")]),
        ([{"@type": "HowToStep", "name": "Slice."}], [("Slice.", "")]),
        (
            {"@type": "ItemList", "itemListElement": [{"@type": "HowToStep", "text": "Slice."}]},
            [("Slice.", "")],
        ),
        (
            [
                {
                    "@type": "HowToSection",
                    "name": "Bread",
                    "itemListElement": [{"@type": "HowToStep", "text": "Slice."}],
                },
                {"@type": "HowToSection", "name": "Heat", "itemListElement": "Toast."},
            ],
            [("Slice.", "Bread"), ("Toast.", "Heat")],
        ),
        (
            {
                "@type": "HowToStep",
                "itemListElement": [
                    {"@type": "HowToDirection", "text": "Slice."},
                    {"@type": "HowToTip", "text": "Thickly."},
                ],
            },
            [("Slice. Thickly.", "")],
        ),
        (None, []),
    ],
)
def test_instructions(instructions: object, steps: list[tuple[str, str]]) -> None:
    recipe = from_json_ld({**BARE, "recipeInstructions": instructions})
    assert [(step.text, step.section) for step in recipe.steps] == steps


@pytest.mark.parametrize(
    ("value", "serves", "makes"),
    [
        (4, (4, 4), None),
        ("4", (4, 4), None),
        ("4 servings", (4, 4), None),
        ("Serves 4-6", (4, 6), None),
        (["4", "4 servings"], (4, 4), None),
        (["12", "12 muffins"], (12, 12), "12 muffins"),
        ("1 loaf", None, "1 loaf"),
        ({"@type": "QuantitativeValue", "value": 6}, (6, 6), None),
        (True, None, None),
        ("", None, None),
        (None, None, None),
    ],
)
def test_yields(value: object, serves: tuple[float, float] | None, makes: str | None) -> None:
    recipe = from_json_ld({**BARE, "recipeYield": value})
    assert (recipe.serves, recipe.makes) == (serves, makes)


def test_ingredients_of_any_shape() -> None:
    for value in (
        ["2 eggs", "salt &amp; pepper"],
        "2 eggs\nsalt &amp; pepper",
        "<ul><li>2 eggs</li><li>salt &amp;amp; pepper</li></ul>",
        [{"@type": "Thing", "name": "2 eggs"}, "<b>salt</b> &#38; pepper"],
        ["- 2 eggs", "", None, "▢ salt & pepper"],
    ):
        recipe = from_json_ld({**BARE, "recipeIngredient": value})
        assert [line.text for line in recipe.lines] == ["2 eggs", "salt & pepper"]


def test_the_older_key_for_ingredients() -> None:
    recipe = from_json_ld({"@type": "Recipe", "name": "Toast", "ingredients": ["bread"]})
    assert [line.text for line in recipe.lines] == ["bread"]


def test_references_are_followed() -> None:
    document = {
        "@graph": [
            {**BARE, "recipeInstructions": [{"@id": "#one"}]},
            {"@id": "#one", "@type": "HowToStep", "text": "Toast it."},
        ]
    }
    assert [step.text for step in from_json_ld(document).steps] == ["Toast it."]


def test_other_recipes_in_the_document_are_told() -> None:
    recipe = from_json_ld([{"@type": "Recipe", "name": "Empty"}, BARE, {**BARE, "name": "Rusks"}])
    assert recipe.title == "Toast"
    assert [mark.kind for mark in recipe.marks] == ["no-method", "several-recipes"]
    assert "Rusks" in recipe.marks[1].message


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("", 1, "not JSON"),
        ('{"@type": "Recipe",\n "name": }', 2, "not JSON"),
        ("[" * 100_000, None, "not JSON"),
        ("null", None, "no schema.org recipe"),
        ('{"@type": "Person"}', None, "no schema.org recipe"),
        ('{"@type": "Recipe", "name": "Air"}', None, "no ingredients"),
    ],
)
def test_not_a_recipe(text: str, line: int | None, words: str) -> None:
    with pytest.raises(NotARecipe, match=words) as caught:
        read_json(text, "page.json")
    assert caught.value.file == "page.json"
    assert caught.value.line == line
    assert caught.value.remedy


WORDS = (
    st.text(st.characters(exclude_categories=["Cs", "Cc", "Co"]), min_size=1, max_size=20)
    .map(lambda text: " ".join(text.split()))
    .filter(bool)
)
NUMBERS = st.floats(0.5, 500, allow_nan=False).map(lambda value: round(value, 2))
SPANS = st.tuples(st.integers(1, 40), st.integers(0, 9)).map(lambda x: (float(x[0]), float(sum(x))))
PACKS = st.lists(st.builds(Pack, WORDS, st.none() | WORDS, NUMBERS), max_size=2).map(tuple)
KEEPS = st.lists(
    st.builds(Keep, st.sampled_from(["fridge", "freezer", "cupboard"]), NUMBERS), max_size=2
).map(tuple)


@st.composite
def lines(draw: st.DrawFn, least: int) -> tuple[WrittenLine, ...]:
    words = draw(st.lists(st.tuples(WORDS, st.just("") | WORDS), min_size=least, max_size=4))
    return tuple(WrittenLine(n, text, section) for n, (text, section) in enumerate(words, 1))


VERSIONS = st.lists(
    st.builds(
        Version,
        name=WORDS,
        swap=st.dictionaries(WORDS, WORDS, max_size=2),
        pack=st.none() | PACKS,
        keep=st.none() | KEEPS,
        kitchen=st.none() | st.just({"hob": {"kind": "gas", "power": "3 kW"}, "region": "FRA"}),
        serves=st.none() | st.integers(1, 40).map(float),
    ),
    max_size=2,
    unique_by=lambda version: version.name,
).map(tuple)
RECIPES = st.builds(
    Recipe,
    title=WORDS,
    lines=lines(1),
    steps=lines(0),
    serves=st.none() | SPANS,
    makes=st.none() | WORDS,
    intro=st.lists(WORDS, max_size=2).map("\n".join),
    notes=st.lists(WORDS, max_size=2).map("\n".join),
    measures=st.none() | st.sampled_from(["us", "uk", "metric", "au"]),
    kitchen=st.none() | WORDS,
    pack=PACKS,
    keep=KEEPS,
    eaten=st.none() | st.sampled_from([0.5, 0.9, 1.0]),
    bought=st.none() | st.builds(Bought, WORDS, st.none() | WORDS, st.none() | WORDS),
    versions=VERSIONS,
)


@pytest.mark.property
@settings(max_examples=100, deadline=None)
@given(RECIPES)
def test_json_ld_reads_back_equal(recipe: Recipe) -> None:
    assert same_words(read_json(json.dumps(to_json_ld(recipe))), recipe)


@pytest.mark.property
@settings(max_examples=100, deadline=None)
@given(RECIPES)
def test_text_reads_back_equal(recipe: Recipe) -> None:
    assert same_words(read_text(write_text(recipe)), recipe)


KEYS = [
    *("@type", "@id", "@graph", "name", "text", "description", "itemListElement"),
    *("recipeIngredient", "recipeYield", "recipeInstructions"),
    *("counterproof:recipe", "settings", "sections", "versions", "notes"),
]
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=10),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.sampled_from(KEYS), inner, max_size=4)
    ),
    max_leaves=15,
)


@pytest.mark.property
@settings(max_examples=100, deadline=None)
@given(JSON)
def test_any_json_gives_a_recipe_or_one_error(document: Any) -> None:
    for value in (document, {**BARE, **document} if isinstance(document, dict) else None):
        try:
            recipe = from_json_ld(value)
        except CounterproofError as fault:
            told = fault.remedy
            assert told
        else:
            assert recipe.lines


def test_both_keys_for_ingredients_are_read_each_line_once() -> None:
    for new, old in (([], ["bread", "butter"]), (["bread"], ["bread", "butter"])):
        recipe = from_json_ld(
            {"@type": "Recipe", "name": "Toast", "recipeIngredient": new, "ingredients": old}
        )
        assert [line.text for line in recipe.lines] == ["bread", "butter"]
