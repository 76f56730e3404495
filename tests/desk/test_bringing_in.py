"""What is pasted or dropped becomes the text of a recipe, or one clear error."""

from __future__ import annotations

import json

import pytest

from counterproof.adapters.files import demo_season
from counterproof.desk.bringing_in import brought_in
from counterproof.errors import InputError
from counterproof.recipe.text import read_text

LINKED = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Leek soup",
    "recipeIngredient": ["2 leeks", "1 litre stock"],
    "recipeInstructions": ["Simmer the leeks in the stock for 20 minutes."],
}
PAGE = (demo_season() / "saved" / "leek-and-potato-soup.html").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("file", "content"),
    [
        ("soup.json", json.dumps(LINKED)),
        ("", json.dumps(LINKED)),
        ("soup.html", PAGE),
        ("SAVED PAGE.HTM", PAGE),
        ("", PAGE),
    ],
)
def test_pages_and_linked_data_become_a_recipe(file: str, content: str) -> None:
    recipe = read_text(brought_in(file, content))
    assert len(recipe.lines) >= 2
    assert recipe.steps


def test_pasted_words_stay_as_they_are() -> None:
    words = "Leek soup\r\n2 leeks\r\n1 litre stock\r\nSimmer for 20 minutes.\r\n"
    assert brought_in("", words) == words.replace("\r\n", "\n")


@pytest.mark.parametrize(
    ("file", "content"),
    [
        ("", ""),
        ("x.json", "{"),
        ("x.json", "[" * 100_000),
        ("x.json", '{"a":' * 100_000 + "1" + "}" * 100_000),
        ("x.html", "<html><body>no recipe</body></html>"),
        ("x.html", '<script type="application/ld+json">' + "[" * 50_000 + "</script>"),
        ("x.md", "---\na: &a [*a]\n---\n- 1 leek\n"),
        ("x.md", "---\nb: [" + "[" * 3000 + "\n---\n- 1 leek\n"),
        ("x.md", "word " * 500_000),
        ("../../etc/passwd", ""),
    ],
)
def test_what_is_no_recipe_or_is_nested_or_aliased_to_death_is_one_error(
    file: str, content: str
) -> None:
    with pytest.raises(InputError) as fault:
        brought_in(file, content)
    assert fault.value.remedy
    assert ".." not in str(fault.value)
