"""Whose recipe it was: kept from a saved page, written in front matter, never lost on the way."""

from __future__ import annotations

import json

import pytest

from counterproof.recipe.schema_org import from_json_ld
from counterproof.recipe.schema_org_written import to_json_ld
from counterproof.recipe.text import read_text

PAGE = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Plum pot",
    "author": {"@type": "Person", "name": "An Invented Cook"},
    "url": "https://example.org/plum-pot",
    "recipeIngredient": ["500 g plums"],
    "recipeInstructions": "Stew them.",
}


@pytest.mark.parametrize(
    ("changed", "lines"),
    [
        ({}, ("After a recipe by An Invented Cook, https://example.org/plum-pot",)),
        ({"author": ["A", {"name": "B"}], "url": None}, ("After a recipe by A, B",)),
        ({"author": None}, ("After https://example.org/plum-pot",)),
        (
            {"author": "A", "url": "javascript:alert(1)", "mainEntityOfPage": {"@id": "https://example.org/p"}},
            ("After a recipe by A, https://example.org/p",),
        ),
        ({"author": None, "url": None}, ()),
    ],
)  # fmt: skip
def test_a_saved_page_brings_its_author_and_address(
    changed: dict[str, object], lines: tuple[str, ...]
) -> None:
    assert from_json_ld({**PAGE, **changed}).credits == lines


@pytest.mark.parametrize("said", ["Photographs: a friend, 2026", ["One", "Another, too"]])
def test_front_matter_may_give_credit_in_one_line_or_several(said: str | list[str]) -> None:
    text = f"---\ncredits: {json.dumps(said)}\n---\n# Plum pot\n\n- 500 g plums\n\n1. Stew them.\n"
    recipe = read_text(text)
    assert recipe.credits == ((said,) if isinstance(said, str) else tuple(said))
    assert from_json_ld(to_json_ld(recipe)).credits == recipe.credits
