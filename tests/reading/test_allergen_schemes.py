"""The allergens by the law of a place: what the nine name, and what they do not."""

from __future__ import annotations

import pytest

from counterproof.adapters.forms import ALLERGENS
from counterproof.adapters.tables import load_tables
from counterproof.reading.allergen_schemes import US_NAMES, name_under, under
from counterproof.reading.allergens import allergens_of_recipe
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_recipe
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import Allergen, Provenance

TABLES = load_tables()
MATCHER = Matcher(TABLES)


def _row(food: str, allergen: str) -> Allergen:
    return Allergen(food, allergen, "present", Provenance("", "", "assumed", "for tests"))


def _us(food: str) -> list[tuple[str, str]]:
    """The allergens of a food of the table, and their standing, as the nine name them."""
    told = [under("us", row) for row in TABLES.allergens[food]]
    return [(row.allergen, row.status) for row in told if row is not None]


@pytest.mark.published
def test_the_nine() -> None:
    # Food Allergen Labeling and Consumer Protection Act of 2004, section 203: milk, eggs, fish,
    # Crustacean shellfish, tree nuts, wheat, peanuts, soybeans; FASTER Act of 2021: sesame. From
    # memory.
    nine = {
        "milk", "eggs", "fish", "crustacean shellfish", "tree nuts", "wheat", "peanuts", "soybeans",
        "sesame",
    }  # fmt: skip
    assert set(US_NAMES.values()) == nine
    assert set(US_NAMES) <= set(ALLERGENS)
    assert set(ALLERGENS) - set(US_NAMES) == {
        "celery", "mustard", "sulphites", "lupin", "molluscs",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("food", "allergen", "named"),
    [
        ("butter", "milk", "milk"),
        ("prawns", "crustaceans", "crustacean shellfish"),
        ("mussels", "molluscs", None),
        ("celery", "celery", None),
        ("flour", "gluten", "wheat"),
    ],
)
def test_what_the_nine_call_it(food: str, allergen: str, named: str | None) -> None:
    row = _row(food, allergen)
    assert name_under("us", row) == named
    assert name_under("uk-eu", row) == allergen


def test_gluten_of_another_grain_sends_to_the_label() -> None:
    assert _us("barley") == [("wheat", "read the label")]
    assert ("wheat", "present") in _us("flour")


def test_pine_nuts_are_tree_nuts_in_the_us() -> None:
    assert ("tree nuts", "present") in _us("pine-nuts")


@pytest.mark.property
def test_no_present_allergen_of_the_nine_is_lost() -> None:
    for food, rows in TABLES.allergens.items():
        told = {allergen for allergen, _ in _us(food)}
        assert {US_NAMES[row.allergen] for row in rows if row.allergen in US_NAMES} == told


def test_a_recipe_under_both() -> None:
    lines = ("200 g flour", "50 g butter", "2 sticks celery", "200 g mussels")
    recipe = Recipe("Pie", tuple(WrittenLine(at, text) for at, text in enumerate(lines, 1)), ())
    reading = read_recipe(recipe, TABLES, MATCHER, Kitchen())
    ours = allergens_of_recipe(reading, TABLES)
    theirs = allergens_of_recipe(reading, TABLES, "us")
    assert {"gluten", "milk", "celery", "molluscs"} <= set(ours.present)
    assert {"wheat", "milk"} <= set(theirs.present)
    assert not {"celery", "molluscs"} & {*theirs.present, *theirs.read_the_label}
    assert ours.unknown == theirs.unknown
