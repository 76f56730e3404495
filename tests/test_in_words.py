"""Amounts and times read as a cook would say them."""

from __future__ import annotations

import pytest

from counterproof.in_words import (
    minutes_in_words,
    process_in_words,
    quantity_in_words,
    version_in_words,
)
from counterproof.reading.model import Process, Quantity
from counterproof.recipe.model import Keep, Version


@pytest.mark.parametrize(
    ("quantity", "packs", "container", "said"),
    [
        (Quantity(400, 400, "g"), 2, "tin", "2 × 400 g tins"),
        (Quantity(2, 3, "clove"), 1, "", "2–3 cloves"),
        (Quantity(1, 1, "clove"), 1, "", "1 clove"),
        (Quantity(0.5, 0.5, "piece"), 1, "", "½"),
        (Quantity(1.5, 1.5, "l"), 1, "", "1½ L"),
        (Quantity(2, 2, "loaf"), 1, "", "2 loaves"),
        (Quantity(3, 3, "bunch"), 1, "", "3 bunches"),
        (Quantity(2, 2, "tin"), 1, "tin", "2 tins"),
        (None, 1, "", ""),
    ],
)
def test_a_quantity_in_words(
    quantity: Quantity | None, packs: float, container: str, said: str
) -> None:
    assert quantity_in_words(quantity, packs, container) == said


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (25, 30, "25–30 min"),
        (60, 60, "1 h"),
        (90, 90, "1.5 h"),
        (120, None, "at least 2 h"),
        (None, 4320, "up to 3 days"),
        (1440, 1440, "1 day"),
        (0.5, 0.5, "30 s"),
        (None, None, ""),
    ],
)
def test_a_time_in_words(low: float | None, high: float | None, said: str) -> None:
    assert minutes_in_words(low, high) == said


def test_a_process_in_words() -> None:
    process = Process("simmer", (25, 30), 95, covered=True, appliance="hob")
    assert process_in_words(process) == "simmer, 25–30 min, 95 °C, covered"


def test_a_version_in_words() -> None:
    version = Version("x", {"white beans": "600 g beef"}, keep=(Keep("fridge", 3),), serves=8)
    assert version_in_words(version) == (
        "600 g beef instead of white beans",
        "serves 8",
        "3 days in the fridge",
    )
