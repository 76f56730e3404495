"""Weights as they are read off a scale: units, thousands, pounds with ounces, the scale's step."""

from __future__ import annotations

import pytest

from counterproof.batch.weights import WEIGHT, finest_step, grams, step_said, weight_of
from counterproof.recipe.kitchen import Kitchen


def _kg(text: str, unit: str = "g") -> float:
    found = WEIGHT.search(text)
    assert found is not None
    return weight_of(found, unit).kg


@pytest.mark.published
@pytest.mark.parametrize(
    ("text", "kg"),
    [
        # NIST Special Publication 811 (2008), Appendix B.8: pound (avoirdupois) 4.535 924 E−01 kg,
        # ounce (avoirdupois) 2.834 952 E−02 kg; the printed digits.
        ("1 lb", 0.4535924),
        ("1 oz", 0.02834952),
        # NIST Handbook 44, Appendix C: 1 lb = 16 oz = 453.592 37 g exactly.
        ("16 oz", 0.45359237),
        ("2 lb 11 oz", 2 * 0.45359237 + 11 * 0.45359237 / 16),
    ],
)
def test_pounds_and_ounces_are_those_of_the_national_tables(text: str, kg: float) -> None:
    assert _kg(text) == pytest.approx(kg, rel=5e-7)


@pytest.mark.parametrize(
    ("text", "unit", "kg"),
    [
        ("1240", "g", 1.24),
        ("1,240", "g", 1.24),
        ("1.24 kg", "g", 1.24),
        ("1,24 kg", "g", 1.24),
        ("1,240 kg", "g", 1.24),
        ("12.5 g", "g", 0.0125),
        ("1.655", "kg", 1.655),
        ("340 mg", "g", 0.00034),
    ],
)
def test_numbers_are_read_in_the_unit_said_or_the_one_said_last(
    text: str, unit: str, kg: float
) -> None:
    assert _kg(text, unit) == pytest.approx(kg, rel=1e-12)


def test_the_finest_scale_of_a_kitchen_is_found_among_its_tools() -> None:
    kitchen = Kitchen(tools=("kitchen scale to 5 g", "jeweller's scale to 0.1 g", "probe"))
    assert finest_step(kitchen) == pytest.approx(1e-4)
    assert finest_step(Kitchen(tools=("scale",))) is None
    assert step_said("scale to 2 g") == pytest.approx(0.002)
    assert step_said("a scale in the corner") is None


@pytest.mark.parametrize(
    ("kg", "step", "shown"),
    [
        (1.483, 0.001, "1483 g"),
        (0.0004, 0.0001, "0.4 g"),
        (0.415, 0.005, "415 g"),
        (0.002, 0.0005, "2.0 g"),
    ],
)
def test_no_digit_of_the_scale_is_lost(kg: float, step: float, shown: str) -> None:
    assert grams(kg, step) == shown
