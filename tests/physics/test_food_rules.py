"""Core temperatures, holding, keeping and advice: as their tables have them, on both sides."""

from __future__ import annotations

import pytest

from counterproof.physics import advice, core_temperatures, holding, keeping
from counterproof.physics.answer import Verdict
from counterproof.physics.values import ZERO_CELSIUS as ZERO

HOUR, DAY = 3600.0, 86400.0


@pytest.mark.published
@pytest.mark.parametrize(
    ("foods", "fahrenheit", "celsius", "rest"),
    [
        # US government chart of minimum internal temperatures (FoodSafety.gov), °F as printed.
        ("minced beef, pork, veal, lamb", 160, 71.1, 0),
        ("minced turkey, chicken", 165, 73.9, 0),
        ("beef, veal, lamb: steaks, roasts, chops", 145, 62.8, 180),
        ("chicken, turkey: whole and in pieces", 165, 73.9, 0),
        ("fresh pork", 145, 62.8, 180),
        ("cooked ham, reheated", 140, 60.0, 0),
        ("egg dishes", 160, 71.1, 0),
        ("leftovers, casseroles", 165, 73.9, 0),
        ("fish", 145, 62.8, 0),
    ],
)
def test_the_charts_temperatures(foods: str, fahrenheit: int, celsius: float, rest: int) -> None:
    row = core_temperatures.core_temperature(foods)
    assert row is not None
    assert row.temperature is not None
    assert row.temperature.value - ZERO == pytest.approx(celsius, abs=0.05)
    assert f"{fahrenheit} °F" in row.temperature.note
    assert (row.hold.value if row.hold else 0) == rest


def test_a_core_on_both_sides_of_the_chart() -> None:
    row = core_temperatures.core_temperature("minced turkey, chicken")
    assert row is not None
    assert row.temperature is not None
    line = row.temperature.value
    for off, expected in ((-1.2, "over"), (-0.8, "too close"), (0.8, "too close"), (1.2, "within")):
        assert core_temperatures.core_verdict(row, line + off).verdict == expected
    roast = core_temperatures.core_temperature("fresh pork")
    assert core_temperatures.core_verdict(roast, ZERO + 65.0, 60.0).verdict == "too close"
    assert core_temperatures.core_verdict(roast, ZERO + 65.0, 180.0).verdict == "within"
    assert core_temperatures.core_verdict(roast, None).verdict == "too close"


def test_a_food_without_a_temperature_has_no_rule_or_a_sign() -> None:
    shells = core_temperatures.core_temperature("clams, oysters, mussels")
    found = core_temperatures.core_verdict(shells, ZERO + 70.0)
    assert found.verdict == "no rule"
    assert "shells open" in found.message
    nothing = core_temperatures.core_verdict(core_temperatures.core_temperature("dragon"), None)
    assert nothing.verdict == "no rule"
    assert "ask your food authority" in nothing.message


@pytest.mark.published
def test_the_uks_core_is_two_minutes_at_seventy() -> None:
    # University of Nottingham, food hygiene: 70 °C for 2 minutes.
    row = core_temperatures.core_temperature("anything", "uk")
    assert row is not None
    assert core_temperatures.core_verdict(row, ZERO + 71.5, 119.0).verdict == "too close"
    assert core_temperatures.core_verdict(row, ZERO + 71.5, 120.0).verdict == "within"
    assert core_temperatures.core_verdict(row, ZERO + 68.5, 600.0).verdict == "over"


@pytest.mark.published
def test_the_two_hour_rule() -> None:
    # USDA FSIS: within 2 hours, 1 hour above 90 °F (32 °C).
    mild, hot = ZERO + 32.0, ZERO + 32.5
    assert holding.out_of_the_cold(1.7 * HOUR, mild).verdict == "within"
    assert holding.out_of_the_cold(1.9 * HOUR, mild).verdict == "too close"
    assert holding.out_of_the_cold(2.01 * HOUR, mild).verdict == "over"
    assert holding.out_of_the_cold(0.8 * HOUR, hot).verdict == "within"
    assert holding.out_of_the_cold(1.01 * HOUR, hot).verdict == "over"


@pytest.mark.published
def test_hot_holding_and_reheating() -> None:
    # UK: 63 °C or above, once up to 2 hours below. US Food Code: 57 °C (135 °F). USDA: 165 °F.
    assert holding.kept_hot(ZERO + 65.0, authority="uk").verdict == "within"
    assert holding.kept_hot(ZERO + 63.5, authority="uk").verdict == "too close"
    assert holding.kept_hot(ZERO + 50.0, 1.0 * HOUR, "uk").verdict == "within"
    assert holding.kept_hot(ZERO + 50.0, 2.1 * HOUR, "uk").verdict == "over"
    assert holding.kept_hot(ZERO + 58.5).verdict == "within"
    assert holding.kept_hot(ZERO + 55.0).verdict == "over"
    assert holding.REHEAT_US.value - ZERO == pytest.approx(73.9, abs=0.05)
    assert holding.reheated(ZERO + 75.5).verdict == "within"
    assert holding.reheated(ZERO + 74.0).verdict == "too close"
    assert holding.reheated(ZERO + 70.0).verdict == "over"


@pytest.mark.published
def test_fridges_and_thawed_food() -> None:
    # US chart: 40 °F (4 °C) or below; UK: 8 °C by law. Nottingham: thawed food within 24 hours.
    assert holding.fridge_setting(ZERO + 3.0).verdict == "within"
    assert holding.fridge_setting(ZERO + 5.0).verdict == "too close"
    assert holding.fridge_setting(ZERO + 6.0).verdict == "over"
    assert holding.fridge_setting(ZERO + 6.0, "uk").verdict == "within"
    assert holding.fridge_setting(ZERO + 9.5, "uk").verdict == "over"
    assert holding.since_thawing(20 * HOUR).verdict == "within"
    assert holding.since_thawing(25 * HOUR).verdict == "over"


@pytest.mark.published
@pytest.mark.parametrize(
    ("food", "store", "low", "high"),
    [
        # US cold food storage chart and USDA FoodKeeper; the shorter where two differ.
        ("soup or stew", "fridge", 3, 4),
        ("soup or stew", "freezer", 60, 90),
        ("stock or broth", "fridge", 1, 2),
        ("leftovers", "fridge", 3, 4),
        ("cooked rice", "fridge", 2, 2),
        ("cooked rice", "freezer", 30, 60),
        ("cooked fish", "fridge", 3, 4),
        ("opened tin, low acid", "fridge", 3, 4),
        ("opened tin, high acid", "fridge", 5, 7),
        ("poultry, raw, pieces", "fridge", 1, 2),
    ],
)
def test_the_tables_days(food: str, store: keeping.Store, low: int, high: int) -> None:
    row = keeping.keeping(food, store)
    assert row is not None
    assert (row.shortest.value / DAY, row.longest.value / DAY) == (low, high)


def test_keeping_on_both_sides() -> None:
    days = {3.0: "within", 3.1: "too close", 4.0: "too close", 4.1: "over"}
    for planned, expected in days.items():
        assert keeping.keeping_verdict("soup or stew", "fridge", planned * DAY).verdict == expected
    frozen = keeping.keeping_verdict("soup or stew", "freezer", 120 * DAY)
    assert "quality" in frozen.message
    none = keeping.keeping_verdict("home-made fruit syrup", "fridge", 1 * DAY)
    assert none.verdict == "no rule"
    assert "ask your food authority" in none.message


@pytest.mark.property
def test_the_shorter_of_two_tables_is_taken() -> None:
    for row in keeping.ROWS:
        taken = keeping.keeping(row.food, row.store)
        assert taken is not None
        assert taken.longest.value <= row.longest.value
        assert row.shortest.value <= row.longest.value


def test_advice_says_where_it_comes_from_or_that_nobody_says() -> None:
    for each in advice.ADVICE.values():
        assert each.source
        assert each.known != "from memory" or "from memory" in each.printed
    cordial = advice.advice_on("cordial-at-room-temperature")
    assert cordial.known == "no rule"
    assert "keep it cold, use it soon, ask your food authority" in cordial.says
    assert advice.advice_on("moon-cheese").known == "no rule"
    assert "12 months" in advice.advice_on("honey-for-infants").says


def test_infused_oil_on_both_sides() -> None:
    assert advice.infused_oil_verdict(DAY, in_fridge=False).verdict == "over"
    assert advice.infused_oil_verdict(3 * DAY, in_fridge=True).verdict == "within"
    assert advice.infused_oil_verdict(5 * DAY, in_fridge=True).verdict == "over"


def _every_verdict() -> list[Verdict]:
    found = [
        holding.out_of_the_cold(HOUR, ZERO + 20.0),
        holding.since_thawing(HOUR),
        holding.kept_hot(ZERO + 50.0),
        holding.kept_hot(ZERO + 70.0, authority="uk"),
        holding.reheated(ZERO + 60.0),
        holding.fridge_setting(ZERO + 2.0),
        advice.infused_oil_verdict(DAY, in_fridge=True),
    ]
    found += [core_temperatures.core_verdict(row, ZERO + 71.0) for row in core_temperatures.ROWS]
    found += [keeping.keeping_verdict(row.food, row.store, 3 * DAY) for row in keeping.ROWS]
    return found


def test_no_verdict_promises_safety_and_each_has_a_source() -> None:
    for found in _every_verdict():
        assert "safe" not in found.message.lower()
        assert found.source
    for each in advice.ADVICE.values():
        assert "safe" not in each.printed.lower()
