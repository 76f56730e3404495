"""Amounts and times read as a cook would say them."""

from __future__ import annotations

import pytest

from counterproof.in_words import (
    mass_in_words,
    minutes_in_words,
    process_in_words,
    quantity_in_words,
    seconds_in_words,
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


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (20, 40, "20–40 s"),
        (1200, 1200, "20 min"),
        (1201, 1499, "20–25 min"),
        (1190, 8000, "20 min to 2 h 15 min"),
        (28800, 43200, "8–12 h"),
        (93600, 183600, "26–51 h"),
        (5 * 86400, 7 * 86400, "5–7 days"),
    ],
)
def test_a_worked_out_time_is_rounded_to_what_it_deserves(
    low: float, high: float, said: str
) -> None:
    assert seconds_in_words(low, high) == said


@pytest.mark.parametrize(
    ("kilograms", "said"),
    [(0.0304, "30 g"), (0.684, "680 g"), (0.999, "1 kg"), (1.234, "1.2 kg"), (12.6, "13 kg")],
)
def test_a_worked_out_mass_has_two_digits(kilograms: float, said: str) -> None:
    assert mass_in_words(kilograms) == said


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
