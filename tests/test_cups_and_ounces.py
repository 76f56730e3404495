"""Pounds, ounces, cups and spoons against the handbook, and no measure far from its amount."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.cups_and_ounces import FAR_OFF, us_measure, us_weight

SIGNS = {"⅛": 0.125, "¼": 0.25, "⅓": 1 / 3, "½": 0.5, "⅔": 2 / 3, "¾": 0.75}

# NIST Handbook 44, Appendix C, units of liquid volume and of avoirdupois mass with their metric
# equivalents; the figures were written down from memory of it and agree with the definitions
# (gallon of 231 cubic inches, pound of 0.453 592 37 kg).
HANDBOOK_ML = {"tsp": 4.93, "tbsp": 14.79, "cup": 236.59, "cups": 236.59, "quarts": 946.35}
HANDBOOK_G = {"oz": 28.349523125, "lb": 453.59237}


def _amount(words: str, sizes: dict[str, float]) -> float:
    """A phrase read back by its printed numbers and the handbook's sizes."""
    total = 0.0
    for number, unit in re.findall(r"([\d⅛¼⅓½⅔¾]+) ([a-z]+)", words):
        digits = re.sub(r"\D", "", number.translate({ord(sign): " " for sign in SIGNS}))
        fraction = sum(SIGNS[sign] for sign in number if sign in SIGNS)
        total += (int(digits or 0) + fraction) * sizes[unit]
    return total


@pytest.mark.published
@pytest.mark.parametrize(
    ("ml", "told"),
    [(4.93, "1 tsp"), (14.79, "1 tbsp"), (59.15, "¼ cup"), (236.59, "1 cup"), (473.18, "2 cups")],
)
def test_a_handbook_volume_is_one_measure(ml: float, told: str) -> None:
    # NIST Handbook 44, Appendix C, to the digits printed there
    assert us_measure(ml) == told


@pytest.mark.published
@pytest.mark.parametrize(
    ("kg", "told"), [(0.02835, "1 oz"), (0.22680, "8 oz"), (0.45359, "1 lb"), (0.90718, "2 lb")]
)
def test_a_handbook_mass_is_whole(kg: float, told: str) -> None:
    # NIST Handbook 44, Appendix C: 1 ounce 28.349 523 g, 1 pound 453.592 37 g
    assert us_weight(kg) == told


@pytest.mark.property
@given(st.floats(1.0, 20_000.0))
def test_a_volume_read_back_is_near(ml: float) -> None:
    said = us_measure(ml)
    # a spoon below a tablespoon goes by quarters, so it may miss by half of one
    allowed = max(0.065 * ml, 0.6 if ml < 15 else 0.0)
    assert abs(_amount(said, HANDBOOK_ML) - ml) <= allowed, said


@pytest.mark.property
@given(st.floats(0.03, 20.0))
def test_a_weight_read_back_is_near(kg: float) -> None:
    assert _amount(us_weight(kg), HANDBOOK_G) == pytest.approx(1000 * kg, rel=0.07)


@pytest.mark.property
@given(st.floats(0.0, 0.028))
def test_under_an_ounce_a_weight_is_near_or_not_told(kg: float) -> None:
    said = us_weight(kg)
    assert not said or abs(_amount(said, HANDBOOK_G) - 1000 * kg) <= FAR_OFF * 1000 * kg + 0.01


def test_a_trace_is_left_to_the_fingers() -> None:
    assert us_measure(0.1) == ""
    assert us_weight(0.0) == ""


def test_a_fraction_of_two_measures_fills_the_larger_first() -> None:
    assert us_measure(200) == "¾ cup + 2 tbsp"
    assert us_measure(20) == "1 tbsp + 1 tsp"
