"""What a serving gives and costs, in words."""

from __future__ import annotations

import runpy
from dataclasses import replace
from pathlib import Path

from counterproof.draws import Range
from counterproof.numerals import SPACE
from counterproof.press.footing import allergen_phrases
from counterproof.press.giving import (
    break_even_phrase,
    cost_phrases,
    money,
    nutrition_phrases,
)
from counterproof.press.sheet import sheet
from counterproof.proof import AllergensUs, CostProof, Edition

BARE: Edition = runpy.run_path(str(Path(__file__).with_name("sample_edition.py")))["EDITION"]

FED = {
    "energy_kcal": 614.4, "protein_g": 23.6, "fat_g": 10.4, "carbohydrate_g": 111.8,
    "sugars_g": None, "fibre_g": 16.1, "salt_g": 2.87,
}  # fmt: skip


def _edition() -> Edition:
    return replace(
        BARE,
        nutrition=FED,
        nutrition_coverage=dict.fromkeys(FED, 0.95),
        cost=CostProof(
            Range(1.614, 1.51, 1.6, 1.742), "£", 0.826, "2026-10-01", "2026-11-14", ("<salt>",)
        ),
        allergens_us=AllergensUs(("wheat",), ("soybeans",)),
    )


def test_nutrients_with_the_mass_they_rest_on() -> None:
    told = " ".join(nutrition_phrases(_edition())).replace(SPACE, " ")
    assert told.startswith("Energy 610 kcal, protein 24 g")
    assert "salt 2.9 g" in told
    assert "at least 95 % of the mass" in told
    assert "Too little is known for: sugars." in told
    assert nutrition_phrases(BARE) == []


def test_cost_with_its_dates_and_what_has_no_price() -> None:
    first, second = (words.replace(SPACE, " ") for words in cost_phrases(_edition()))
    assert first.startswith("£ 1.61 (1.51–1.74), for 83 % of the mass")
    assert "2026-10-01 to 2026-11-14" in first
    assert second == "Without a price, so not counted: <salt>."
    assert cost_phrases(BARE) == []


def test_an_amount_without_a_range() -> None:
    assert money(Range(2, 2, 2, 2), "€", "mean").replace(SPACE, " ") == "€ 2.00"


def test_both_stand_on_the_sheet_and_nothing_in_them_is_markup() -> None:
    page = sheet(_edition())
    assert "A serving gives" in page
    assert "A serving costs" in page
    assert "&lt;salt&gt;" in page
    assert "<salt>" not in page
    assert "A serving costs" not in sheet(BARE)


def test_the_us_nine_stand_beside_the_fourteen() -> None:
    told = dict(allergen_phrases(_edition()))
    assert told["present, by the nine of the US"] == "wheat"
    assert told["read the label for, by the nine of the US"] == "soybeans"


def test_break_even_in_words() -> None:
    per = "kg of beef in a serving of stew"
    some = break_even_phrase(per, Range(0.05, 0.02, 0.04, 0.1), 0.1, "mean").replace(SPACE, " ")
    assert some.startswith("Equal at 50 g")
    assert "of beef in a serving of stew" in some
    assert some.endswith("never in 10 % of the draws.")
    assert break_even_phrase(per, None, 1.0, "mean").startswith("No amount of beef")
    days = break_even_phrase("days in the freezer of soup", Range(40, 20, 38, 70), 0.0, "mean")
    assert days.replace(SPACE, " ") == "Equal at 40 days (20–70) in the freezer of soup."
    uses = break_even_phrase("uses of each jar of jam", None, 1.0, "mean")
    assert uses == "No number of uses of each jar of jam makes both sides equal."
