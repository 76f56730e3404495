"""A recipe written as schema.org data (JSON-LD), so that nothing is lost.

What schema.org has no word for (sub-headings of ingredients, packs, storage, versions) goes
under the key ``counterproof:recipe`` of the same document, declared in its ``@context``;
other readers pass over it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.recipe.schema_org_words import OURS, shown_words
from counterproof.recipe.servings import shown_servings
from counterproof.recipe.settings_written import settings_of

_NAMESPACE: Final = "urn:counterproof:recipe:"


def to_json_ld(recipe: Recipe) -> dict[str, Any]:
    """Return a recipe as a schema.org Recipe.

    Parameters
    ----------
    recipe : Recipe
        The recipe.

    Returns
    -------
    dict
        JSON-LD that `from_json_ld` reads back equal (but for line numbers, file and marks).
    """
    settings = settings_of(recipe)
    amounts: list[str] = []
    if recipe.serves is not None:
        settings["serves"] = shown_servings(recipe.serves)
        amounts.append(f"{shown_servings(recipe.serves)} servings")
    if recipe.makes is not None:
        settings["makes"] = recipe.makes
        amounts.append(recipe.makes)
    extra: dict[str, Any] = {"settings": settings}
    if any(line.section for line in recipe.lines):
        extra["sections"] = [shown_words(line.section) for line in recipe.lines]
    if recipe.notes:
        extra["notes"] = "\n".join(shown_words(line) for line in recipe.notes.split("\n"))
    said: dict[str, Any] = {
        "@context": ["https://schema.org", {"counterproof": _NAMESPACE}],
        "@type": "Recipe",
        "name": shown_words(recipe.title),
        "description": "\n".join(shown_words(line) for line in recipe.intro.split("\n")),
        "recipeYield": [shown_words(amount) for amount in amounts],
        "recipeIngredient": [shown_words(line.text) for line in recipe.lines],
        "recipeInstructions": _how_to(recipe.steps),
        OURS: extra,
    }
    return {key: value for key, value in said.items() if value not in ("", [])}


def _how_to(steps: Iterable[WrittenLine]) -> list[dict[str, Any]]:
    shown: list[dict[str, Any]] = []
    section = ""
    for step in steps:
        one = {"@type": "HowToStep", "text": shown_words(step.text)}
        if not step.section:
            shown.append(one)
        elif step.section == section:
            shown[-1]["itemListElement"].append(one)
        else:
            name = shown_words(step.section)
            shown.append({"@type": "HowToSection", "name": name, "itemListElement": [one]})
        section = step.section
    return shown
