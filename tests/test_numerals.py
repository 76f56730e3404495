"""How many digits a value deserves."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof import numerals
from counterproof.draws import Range
from counterproof.numerals import MINUS, Shown, number, percent, places, shown

FINITE = st.floats(min_value=-1e6, max_value=1e6, allow_nan=False, allow_infinity=False)


@pytest.mark.published
def test_an_estimate_is_rounded_to_be_consistent_with_its_uncertainty() -> None:
    # JCGM 100:2008 (GUM), 7.2.6: y = 10,057 62 ohm with u(y) = 27 mohm becomes 10,058 ohm;
    # the guide sets no limit to the digits of y, so the house's own is lifted here.
    decimals = places(10.05762, 0.027, most=9)
    assert number(10.05762, decimals) == "10.058"


@pytest.mark.published
@pytest.mark.parametrize(
    ("value", "uncertainty", "printed"),
    [(0.827, 0.119, "0.83"), (0.827, 0.367, "0.8")],
)
def test_one_or_two_digits_of_the_uncertainty(
    value: float, uncertainty: float, printed: str
) -> None:
    # Particle Data Group, Review of Particle Physics, Introduction, 5.3 "Rounding": 0.827 ± 0.119
    # is printed 0.83 ± 0.12, and 0.827 ± 0.367 as 0.8 ± 0.4. (Example from memory.) Our rule then
    # keeps two digits of the value itself, where two digits of the uncertainty reach that far.
    decimals = numerals._places_of(uncertainty)
    assert decimals is not None
    assert number(value, decimals) == printed


@pytest.mark.parametrize(
    ("mean", "low", "high", "text"),
    [
        (0.412, 0.18, 0.93, "0.41 (0.18–0.93)"),
        (0.0866, 0.0391, 0.168, "0.087 (0.039–0.168)"),
        (6.9, 2.31, 16.9, "6.9 (2.3–16.9)"),
        (70.6, 22.0, 204.0, "71 (22–204)"),
        (1234.0, 700.0, 2000.0, "1200 (700–2000)"),
        (0.0029, -0.0213, 0.0348, "0.003 (−0.021 to 0.035)"),
        (0.5, 0.5, 0.5, "0.50"),
        (0.0, 0.0, 0.0, "0"),
        (0.00002, 0.00001, 0.00004, "<0.0001"),
        (0.0001, 0.00002, 0.0003, "0.0001 (<0.0001–0.0003)"),
        (9.996, 9.0, 11.0, "10.0 (9.0–11.0)"),
    ],
)
def test_a_range_is_shown_with_the_digits_it_deserves(
    mean: float, low: float, high: float, text: str
) -> None:
    told = shown(Range(mean, low, mean, high), unit="")
    assert told.text.replace(numerals.SPACE, " ") == text


@pytest.mark.property
@given(mean=FINITE, below=st.floats(0, 1e6), above=st.floats(0, 1e6))
def test_rounding_moves_no_part_by_more_than_half_its_place(
    mean: float, below: float, above: float
) -> None:
    value = Range(mean, mean - below, mean, mean + above)
    told = shown(value, finest=12)
    decimals = min(places(mean, numerals.standard_uncertainty(value)), 12)
    half_place = 0.5 * 10.0**-decimals
    for exact, text in ((mean, told.middle), (value.p05, told.low), (value.p95, told.high)):
        if text.startswith("<"):
            assert 0 < exact < half_place
        else:
            assert abs(float(text.replace(MINUS, "-")) - exact) <= half_place * (1 + 1e-6)


@pytest.mark.property
@given(value=FINITE, spread=st.floats(0, 1e6))
def test_a_value_never_has_more_than_three_digits(value: float, spread: float) -> None:
    middle = shown(Range(value, value - spread, value, value + spread)).middle
    digits = middle.lstrip(f"<{MINUS}").replace(".", "").lstrip("0").rstrip("0")
    assert len(digits) <= numerals.MOST_DIGITS


def test_the_median_is_printed_where_it_lies_apart_from_the_mean() -> None:
    assert shown(Range(1.0, 0.2, 0.79, 3.0)).median == "0.8"
    assert shown(Range(1.0, 0.2, 0.81, 3.0)).median is None
    assert shown(Range(1.0, 0.2, 0.5, 3.0), "median").middle == "0.50"
    assert shown(Range(1.0, 0.2, 0.5, 3.0), "median").median is None


@pytest.mark.parametrize(
    ("kg", "low", "high", "text"),
    [
        (0.4, 0.33, 0.47, "400 g (330–470)"),
        (0.06, 0.058, 0.062, "60 g (58–62)"),
        (0.0031, 0.0022, 0.0042, "3.1 g (2.2–4.2)"),
        (0.0005, 0.0002, 0.001, "0.50 g (0.20–1.00)"),
        (1.014, 0.95, 1.08, "1.01 kg (0.95–1.08)"),
    ],
)
def test_a_mass_is_read_as_cooks_read_it(kg: float, low: float, high: float, text: str) -> None:
    told = numerals.mass(Range(kg, low, kg, high))
    assert told.text.replace(numerals.SPACE, " ") == text


@pytest.mark.parametrize(
    ("share", "text"),
    [(0, "0 %"), (0.004, "under 1 %"), (0.37, "37 %"), (0.996, "over 99 %"), (1, "100 %")],
)
def test_nothing_and_all_are_kept_for_nothing_and_all(share: float, text: str) -> None:
    assert percent(share).replace(numerals.SPACE, " ") == text


def test_a_difference_carries_its_sign() -> None:
    assert numerals.signed(Shown("0.75", "0.31", "1.46", None, "kg")) == "+0.75"
    assert numerals.signed(Shown("−0.75", "−1.46", "−0.31", None, "kg")) == "−0.75"
    assert numerals.signed(Shown("0.00", "−0.31", "0.31", None, "kg")) == "0.00"


def test_servings_masses_and_volumes_without_a_range() -> None:
    assert numerals.count(6.0) == "6"
    assert numerals.count(2.5) == "2.50"
    assert numerals.plain_mass(0.4678).replace(numerals.SPACE, " ") == "468 g"
    assert numerals.plain_mass(1.25).replace(numerals.SPACE, " ") == "1.25 kg"
    assert numerals.plain_volume(0.05).replace(numerals.SPACE, " ") == "50 ml"
    assert numerals.plain_mass(0.0035).replace(numerals.SPACE, " ") == "3.5 g"
    assert numerals.plain_mass(0.0000366).replace(numerals.SPACE, " ") == "0.04 g"
    assert numerals.plain_volume(0.25).replace(numerals.SPACE, " ") == "250 ml"
    assert number(-0.0004, 2) == "0.00"
    assert number(float("nan"), 2) == "not finite"
