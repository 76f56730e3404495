"""Measured temperatures fit a ring's power and a cooling's pace, and the latest time of an ice bath."""

from __future__ import annotations

import numpy as np
import pytest

from counterproof.batch.fits import cooling_fit, heating_fit, measured_verdicts, moment
from counterproof.errors import OutOfRange
from counterproof.physics.cooling_lanes import ENDS
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_rules import RULES
from counterproof.physics.cooling_scene import Dish, Spot, run
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place, Ring
from counterproof.physics.questions_heat import heat
from counterproof.physics.two_points import rate_between, rate_needed
from counterproof.physics.values import ZERO_CELSIUS as ZERO

WATER = Contents(2.5)
START = ZERO + 8.0


def _points(watts: float, celsius: list[float]) -> list[tuple[float, float]]:
    ring = Ring("induction", watts, covered=True, diameter=0.2)
    return [
        (float(np.mean(heat(WATER, START, ZERO + c, ring=ring).result["time_s"])), ZERO + c)
        for c in celsius
    ]


@pytest.mark.property
@pytest.mark.parametrize("watts", [900.0, 1300.0, 2000.0, 2600.0])
def test_the_power_that_made_the_points_is_found_again(watts: float) -> None:
    stated = Ring("induction", 2000.0, covered=True, diameter=0.2)
    found = heating_fit(WATER, START, _points(watts, [30.0, 60.0, 85.0]), stated, Place())
    assert found.power.p05 < watts < found.power.p95
    assert found.power.mean == pytest.approx(watts, rel=0.06)
    assert found.misfit < 1.0


@pytest.mark.property
def test_more_points_make_it_surer_and_the_forecast_later_ones_bear_out() -> None:
    stated = Ring("induction", 2000.0, covered=True, diameter=0.2)
    points = _points(1300.0, [30.0, 60.0, 85.0])
    one = heating_fit(WATER, START, points[:1], stated, Place())
    all_ = heating_fit(WATER, START, points, stated, Place())
    assert all_.power.p95 - all_.power.p05 < one.power.p95 - one.power.p05
    boils = _points(1300.0, [99.9])[0][0]
    assert one.boils.p05 < boils < one.boils.p95


def test_without_a_point_above_the_start_nothing_is_known() -> None:
    with pytest.raises(OutOfRange):
        heating_fit(WATER, START, [(0.0, START)], Ring(), Place())


def _cooling(points: list[tuple[float, float]]) -> Cooling:
    return Cooling(Dish(0.003, "pot", 0.2, stirred=False), points[0][1], Spot("room"))


def test_an_ice_bath_must_come_in_time_and_the_earlier_the_surer() -> None:
    points = [(36000.0, ZERO + 74.0), (37800.0, ZERO + 71.0), (39600.0, ZERO + 66.0)]
    found = cooling_fit(_cooling(points), points)
    assert found is not None
    assert found.needed
    assert found.latest_bath is not None
    assert found.latest_bath >= points[-1][0]
    # An hour later than that, two hours since 57 °C cannot be kept any more.
    allowed = RULES["us"][0].limit.value
    assert found.latest_bath < points[-1][0] + 3600.0 + allowed


@pytest.mark.parametrize(
    ("readings", "ruling"),
    [
        ([(0.0, 66.0), (2700.0, 15.0)], "within"),
        ([(0.0, 66.0), (1800.0, 58.0), (9300.0, 20.0)], "too close"),
        ([(0.0, 66.0), (1800.0, 56.0), (10800.0, 22.0), (11400.0, 20.0)], "over"),
        ([(0.0, 66.0), (3600.0, 30.0)], None),
    ],
)
def test_readings_alone_decide_within_what_lies_between_them(
    readings: list[tuple[float, float]], ruling: str | None
) -> None:
    points = [(time, ZERO + celsius) for time, celsius in readings]
    found = measured_verdicts(points, RULES["us"][:1])
    assert [one.verdict for one in found] == ([] if ruling is None else [ruling])


def test_one_temperature_tells_no_pace() -> None:
    points = [(36000.0, ZERO + 74.0)]
    assert cooling_fit(_cooling(points), points) is None


def test_the_pace_that_made_the_points_is_found_again() -> None:
    dish, spot, start = Dish(0.003, "pot", 0.2), Spot("room"), ZERO + 80.0
    history = run(dish, spot, start, ZERO + 25.0, ENDS).conducted
    assert history is not None
    curve = history.history(list(np.linspace(start, ZERO + 30.0, 30)[1:]))
    times = np.array([1.5, 3.0]) * 3600.0
    points = [(0.0, start)]
    points += [
        (0.7 * float(t), float(np.interp(t, curve.seconds[:, 1], curve.temperatures[:, 1])))
        for t in times
    ]
    found = cooling_fit(Cooling(dish, start, spot), points)
    assert found is not None
    pace = found.answer.result["pace"]
    assert pace["p05"] < 0.7 < pace["p95"]


@pytest.mark.published
@pytest.mark.parametrize(
    ("cold", "first", "both"),
    [(35.0, 0.2280, 0.2036), (37.0, 0.2364, 0.2315), (40.0, 0.2503, 0.3296)],
)
def test_the_two_point_estimator_gives_the_rates_that_were_worked_out(
    cold: float, first: float, both: float
) -> None:
    # Hedeen N., Schaffner D., Brown L. G. (2022), J. Environ. Health 84(9): rate = [log10(T1 −
    # Tdf) − log10(T2 − Tdf)]/Δt, °F and hours; 135 → 70 °F in 2 h and 135 → 41 °F in 6 h. The
    # rates to four digits were worked out from that equation, by hand, for three cooling units.
    def kelvin(fahrenheit: float) -> float:
        return (fahrenheit + 459.67) * 5.0 / 9.0

    def by_hand(end: float, hours: float) -> float:
        return float(np.log10((135.0 - cold) / (end - cold)) / hours)

    assert by_hand(70.0, 2.0) == pytest.approx(first, abs=5e-5)
    assert by_hand(41.0, 6.0) == pytest.approx(both, abs=5e-5)
    for end, hours, rate in ((70.0, 2.0, first), (41.0, 6.0, both)):
        ours = 3600.0 * float(
            rate_between(kelvin(135.0), kelvin(end), kelvin(cold), 3600.0 * hours)
        )
        assert ours == pytest.approx(rate, abs=5e-5)
    one, other = RULES["us"][:2]  # the rules themselves stand at 57, 21 and 5 °C: whole degrees
    assert 3600.0 * float(rate_needed(one, kelvin(cold))) == pytest.approx(first, rel=0.02)
    assert 3600.0 * float(rate_needed(other, kelvin(cold))) == pytest.approx(both, rel=0.02)


def test_a_moment_is_a_time_of_day_or_so_long_after_the_first() -> None:
    assert moment(10 * 3600 + 55 * 60, clocked=True) == "10:55"
    assert moment(25 * 3600, clocked=True) == "01:00"
    assert moment(55 * 60, clocked=False) == "55 min on"
