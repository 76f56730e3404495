"""Rules as their texts have them, and verdicts on both sides of every limit."""

from __future__ import annotations

from itertools import product
from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics import two_points
from counterproof.physics.cooling_rules import (
    BOTH_STAGES,
    FIRST_STAGE,
    MADE_COLD,
    RULES,
    UK_COOLING,
    rules_for,
    ruling,
    verdict,
)
from counterproof.physics.spread import Spread, spoken
from counterproof.physics.values import ZERO_CELSIUS as ZERO

HOUR = 3600.0
ROOM = ZERO + 20.0


def _around(hours: float) -> Spread:
    return Spread(0.8 * hours * HOUR, hours * HOUR, 1.3 * hours * HOUR)


@pytest.mark.published
def test_the_food_codes_two_stages() -> None:
    # US FDA Food Code 3-501.14: (A) cooked food within 2 hours from 57 °C (135 °F) to 21 °C
    # (70 °F), and within a total of 6 hours from 57 °C to 5 °C (41 °F) or less; (B) within 4 hours
    # to 5 °C if made from ingredients at room temperature.
    assert FIRST_STAGE.clock is not None
    assert BOTH_STAGES.clock is not None
    assert FIRST_STAGE.clock.value - ZERO == pytest.approx(57.0)
    assert pytest.approx(57.0, abs=0.3) == (135.0 - 32.0) / 1.8
    assert FIRST_STAGE.goal.value - ZERO == pytest.approx(21.0)
    assert FIRST_STAGE.limit.value == 2 * HOUR
    assert BOTH_STAGES.clock.value == FIRST_STAGE.clock.value
    assert BOTH_STAGES.goal.value - ZERO == pytest.approx(5.0)
    assert BOTH_STAGES.limit.value == 6 * HOUR
    assert MADE_COLD.clock is None
    assert MADE_COLD.goal.value - ZERO == pytest.approx(5.0)
    assert MADE_COLD.limit.value == 4 * HOUR
    for rule in (FIRST_STAGE, BOTH_STAGES, MADE_COLD):
        assert rule.source == "fda-food-code"
        assert "3-501.14" in rule.limit.locator


@pytest.mark.published
def test_victorias_two_stages() -> None:
    # State of Victoria, "Cooling food safely": to 21 °C in 2 hours, below 5 °C in the next 4.
    first, then = RULES["victoria"]
    assert first.goal.value - ZERO == pytest.approx(21.0)
    assert first.limit.value == 2 * HOUR
    assert then.clock is not None
    assert then.clock.value == first.goal.value
    assert then.goal.value - ZERO == pytest.approx(5.0)
    assert then.limit.value == 4 * HOUR


@pytest.mark.property
@given(
    low=st.floats(10.0, 1e5), more=st.floats(1.0, 3.0), most=st.floats(1.0, 3.0),
    limit=st.floats(10.0, 3e5),
)  # fmt: skip
def test_within_and_over_need_the_whole_range_on_their_side(
    low: float, more: float, most: float, limit: float
) -> None:
    time = Spread(low, low * more, low * more * most)
    found = ruling(time, limit)
    assert (found == "within") == (time.p95 < limit)
    assert (found == "over") == (time.p05 > limit)


def test_verdicts_on_both_sides_of_the_limit() -> None:
    start = ZERO + 95.0
    for hours, expected in (
        (1.5, "within"),
        (1.55, "too close"),
        (2.4, "too close"),
        (2.6, "over"),
    ):
        found = verdict(FIRST_STAGE, _around(hours), start)
        assert found.verdict == expected
        assert "57 to 21 °C" in found.message
        assert "the limit is 2 h" in found.message
    # Exactly at the limit is not under it.
    assert ruling(Spread(HOUR, HOUR, 2 * HOUR), 2 * HOUR) == "too close"
    assert ruling(Spread(2 * HOUR, 3 * HOUR, inf), 2 * HOUR) == "too close"


def test_never_is_said_as_it_is() -> None:
    never = verdict(BOTH_STAGES, Spread(inf, inf, inf), ZERO + 90.0)
    assert never.verdict == "over"
    assert "does not get there" in never.message
    perhaps = verdict(BOTH_STAGES, Spread(5 * HOUR, 9 * HOUR, inf), ZERO + 90.0)
    assert perhaps.verdict == "too close"
    assert "may never get there" in perhaps.message
    hardly = verdict(BOTH_STAGES, Spread(5 * HOUR, inf, inf), ZERO + 90.0)
    assert "at best" in hardly.message


def test_time_before_the_start_counts() -> None:
    start = ZERO + 40.0
    fast = Spread(0.5 * HOUR, 0.8 * HOUR, 1.0 * HOUR)
    unknown = verdict(FIRST_STAGE, fast, start, already=None)
    assert unknown.verdict == "too close"
    assert "is not known" in unknown.message
    assert verdict(FIRST_STAGE, fast, start, already=0.9 * HOUR).verdict == "within"
    assert verdict(FIRST_STAGE, fast, start, already=1.1 * HOUR).verdict == "too close"
    assert verdict(FIRST_STAGE, fast, start, already=1.6 * HOUR).verdict == "over"
    assert "thrown away" in verdict(FIRST_STAGE, fast, start, already=2.0 * HOUR).message
    assert "thrown away" not in verdict(FIRST_STAGE, fast, start, already=1.9 * HOUR).message
    # Above the clock nothing has been counted yet.
    assert verdict(FIRST_STAGE, fast, ZERO + 80.0, already=9 * HOUR).verdict == "within"


def test_what_is_quoted_from_memory_says_so() -> None:
    assert "from memory" in verdict(UK_COOLING, _around(1.0), ZERO + 90.0).message
    assert "from memory" not in verdict(FIRST_STAGE, _around(1.0), ZERO + 90.0).message


def test_food_made_cold_has_its_own_rule() -> None:
    assert rules_for(("us",), ZERO + 95.0, ROOM) == (FIRST_STAGE, BOTH_STAGES)
    assert rules_for(("us",), ROOM, ROOM) == (MADE_COLD,)
    # A stew that has come down to the room is not food made cold.
    assert rules_for(("us",), ROOM, ROOM, was_hot=True) == (FIRST_STAGE, BOTH_STAGES)
    assert rules_for(("us",), ROOM + 0.1, ROOM) == (FIRST_STAGE, BOTH_STAGES)
    assert rules_for(("us", "uk"), ZERO + 95.0, ROOM)[-1] is UK_COOLING
    assert rules_for(("nowhere",), ZERO + 95.0, ROOM) == ()


def test_no_verdict_promises_safety() -> None:
    rules = [rule for rows in RULES.values() for rule in rows]
    for rule, hours in product((*rules, MADE_COLD), (0.1, 1.9, 90.0)):
        for already in (None, 0.0):
            said = verdict(rule, _around(hours), ZERO + 40.0, already=already).message.lower()
            assert "safe" not in said


@pytest.mark.frozen
@pytest.mark.parametrize(
    ("fridge", "first", "total"),
    [
        # The equation is Hedeen, Schaffner & Brown (2022), J. Environ. Health 84(9); the rates, per
        # hour from 135 to 70 °F in 2 h and 135 to 41 °F in 6 h, are computed in the reference.
        (35.0, 0.2280, 0.2036),
        (37.0, 0.2364, 0.2315),
        (40.0, 0.2503, 0.3296),
    ],
)
def test_two_points_tell_a_rate(fridge: float, first: float, total: float) -> None:
    hot, warm, cold, air = (ZERO + (f - 32.0) / 1.8 for f in (135.0, 70.0, 41.0, fridge))
    rate = two_points.rate_between(hot, warm, air, 2 * HOUR)
    assert rate * HOUR == pytest.approx(first, abs=5e-5)
    assert two_points.rate_between(hot, cold, air, 6 * HOUR) * HOUR == pytest.approx(
        total, abs=5e-5
    )


@pytest.mark.property
def test_a_rate_above_the_needed_one_is_in_time() -> None:
    air = ZERO + 3.0
    needed = two_points.rate_needed(BOTH_STAGES, air)
    # At that rate, 57 to 30 °C takes a time that, carried on, ends at 5 °C after 6 hours.
    half = 2.0 * HOUR
    level = air + (57.0 - 3.0) * 10.0 ** (-needed * half)
    assert two_points.rate_between(ZERO + 57.0, level, air, half) == pytest.approx(needed)
    assert two_points.rate_needed(BOTH_STAGES, ZERO + 4.0) > needed


def test_readings_that_tell_no_rate_are_refused() -> None:
    with pytest.raises(OutOfRange, match="later, lower"):
        two_points.rate_between(ZERO + 50.0, ZERO + 50.0, ZERO + 4.0, 600.0)
    with pytest.raises(OutOfRange, match="later, lower"):
        two_points.rate_between(ZERO + 50.0, ZERO + 3.0, ZERO + 4.0, 600.0)
    with pytest.raises(OutOfRange, match="clock runs"):
        two_points.rate_needed(MADE_COLD, ZERO + 4.0)


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (20.0, "20 s"),
        (59.0 * 60.0, "59 min"),
        (HOUR, "1 h"),
        (1.84 * HOUR, "1 h 50 min"),
        (5.03 * HOUR, "5 h"),
        (50 * HOUR, "more than 2 days"),
        (inf, "never"),
    ],
)
def test_times_are_said_as_a_cook_says_them(seconds: float, said: str) -> None:
    assert spoken(seconds) == said


def test_two_readings_on_both_sides_of_the_needed_rate() -> None:
    air, first, time = ZERO + 3.0, ZERO + 50.0, 1800.0
    needed = float(two_points.rate_needed(BOTH_STAGES, air))

    def found(factor: float, cold: float = air) -> str:
        second = cold + (first - cold) * 10.0 ** (-factor * needed * time)
        return two_points.two_point_verdict(BOTH_STAGES, first, second, cold, time).verdict

    assert [found(factor) for factor in (0.85, 0.95, 1.05, 1.15)] == [
        "over",
        "too close",
        "too close",
        "within",
    ]
    # A fridge at 6 °C brings nothing to 5 °C, however fast it begins.
    assert found(5.0, ZERO + 6.0) == "over"
