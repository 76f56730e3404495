"""How many it serves and what it makes, in the words cooks use."""

from __future__ import annotations

import pytest

from counterproof.recipe.servings import servings_said, shown_servings, statement


@pytest.mark.parametrize(
    ("text", "serves", "makes", "whole"),
    [
        ("Serves 4", (4, 4), None, True),
        ("Serves 4–6", (4, 6), None, True),
        ("serves 4 to 6 people", (4, 6), None, True),
        ("SERVES: 8", (8, 8), None, True),
        ("Serves four", (4, 4), None, True),
        ("(Serves 2)", (2, 2), None, True),
        ("👥 Serves 2", (2, 2), None, True),
        ("Feeds about 12", (12, 12), None, True),
        ("Servings: 4", (4, 4), None, True),
        ("6 servings", (6, 6), None, True),
        ("For 4 people", (4, 4), None, True),
        ("Enough for 10–12 people.", (10, 12), None, True),
        ("Yield: 4 servings", (4, 4), None, True),
        ("Yields 6 portions", (6, 6), None, True),
        ("Makes about 1.2 litres", None, "about 1.2 litres", True),
        ("Makes 12", None, "12", True),
        ("Makes a dozen buns", None, "a dozen buns", True),
        ("Yield: two loaves", None, "two loaves", True),
        ("Serves 24 (about 7 litres)", (24, 24), "about 7 litres", True),
        ("Serves 10, makes 4 litres", (10, 10), "4 litres", True),
        ("Makes 12 oatcakes, serves 6", (6, 6), "12 oatcakes", False),
        ("Serves 4 generously", (4, 4), None, False),
        ("Serves 4 | Prep 10 min", (4, 4), None, False),
    ],
)
def test_statement(
    text: str, serves: tuple[float, float] | None, makes: str | None, *, whole: bool
) -> None:
    said = statement(text)
    assert said is not None
    assert (said.serves, said.makes, said.whole) == (serves, makes, whole)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Serve hot.",
        "Serve with 2 slices of bread",
        "Serves 0",
        "Makes a lovely supper with bread",
        "For 20 minutes",
        "for 4",
        "Serving dish, 2 litres",
        "Servings 2 cups",
        "4 eggs",
        "2 portions of rice",
        "Makes the kitchen smell of Sunday. 2 hours later it is done.",
    ],
)
def test_other_lines_say_nothing_of_it(text: str) -> None:
    assert statement(text) is None


@pytest.mark.parametrize(
    ("text", "serves"),
    [
        ("4", (4, 4)),
        ("4-6", (4, 6)),
        ("6–4", (4, 6)),
        ("4 servings", (4, 4)),
        ("2½", (2.5, 2.5)),
        ("eight", (8, 8)),
        ("12 muffins", None),
        ("about 1 litre", None),
        ("0", None),
        ("", None),
    ],
)
def test_bare_yields(text: str, serves: tuple[float, float] | None) -> None:
    assert servings_said(text) == serves


@pytest.mark.parametrize("serves", [(4.0, 4.0), (4.0, 6.0), (2.5, 2.5), (12.0, 15.0)])
def test_servings_read_back(serves: tuple[float, float]) -> None:
    assert servings_said(shown_servings(serves)) == serves
