"""The enthalpy method against Neumann's solution, Plank, Pham, and its own energy balance."""

from __future__ import annotations

from math import erf, exp, pi, sqrt
from typing import Literal

import numpy as np
import pytest

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties
from counterproof.physics.conduction import can
from counterproof.physics.enthalpy_method import Direction, History, history
from counterproof.physics.freezing import Task, passage, run
from counterproof.physics.freezing_formulas import pham, plank, shape_dimension, validity
from counterproof.physics.response import surface
from counterproof.physics.substance import food, sharp
from counterproof.physics.surroundings import Round

WATER = sharp(
    freezing_point=273.15, latent=333.6e6, capacities=(2050e3, 4186e3), conductivities=(2.2, 0.57)
)
PINT = Task(Round(0.075, 0.095), food_properties.WATER, 273.14, 293.15, 263.15)


def _neumann(cold: float, warm: float) -> float:
    """Heat through the wall of a half space over the square root of time (Carslaw & Jaeger 11.2).

    λ√π L = c_s ΔT_s exp(−λ²)/erf λ − (k_l/k_s)√(α_s/α_l) c_s ΔT_l exp(−λ²α_s/α_l)/erfc(λ√(α_s/α_l))
    """
    k_s, k_l, c_s, c_l, latent = 2.2, 0.57, 2050e3, 4186e3, 333.6e6
    slow, fast = k_s / c_s, k_l / c_l
    ratio = sqrt(slow / fast)

    def off(x: float) -> float:
        liquid = k_l / k_s * ratio * warm * exp(-((x * ratio) ** 2)) / (1 - erf(x * ratio))
        return x * sqrt(pi) * latent / c_s - cold * exp(-x * x) / erf(x) + liquid

    low, high = 1e-3, 2.0
    for _ in range(100):
        half = 0.5 * (low + high)
        low, high = (half, high) if off(half) < 0 else (low, half)
    return 2 * k_s * cold / (erf(low) * sqrt(pi * slow))


def _frozen_half_space(cells: int, steps: int) -> History:
    """A slab so thick that its middle does not notice, its face held at −18 °C for three hours."""
    return history(
        WATER, (Direction("slab", 0.08, cells),), start=278.15, ambient=np.array([255.15]),
        coefficient=np.array([1e8]), until=273.0, guess=np.array([10_800.0 / 4]), steps=steps // 4,
    )  # fmt: skip


@pytest.mark.published
def test_sharp_front_is_neumanns_and_converges_at_first_order() -> None:
    exact = _neumann(18.0, 5.0) * sqrt(10_800.0)
    errors = []
    for cells, steps in ((40, 60), (80, 120), (160, 240), (320, 240)):
        found = _frozen_half_space(cells, steps)
        assert found.time[-1, 0] == pytest.approx(10_800.0)
        errors.append(abs(float(found.lost[-1, 0]) * 0.08 / exact - 1))
    assert errors[-1] < 0.01
    # Halving the cells halves the error, as it should at a front that jumps from cell to cell.
    order = np.log2(np.array(errors[:-1]) / np.array(errors[1:]))
    assert np.mean(order) == pytest.approx(1.0, abs=0.3)


@pytest.mark.published
@pytest.mark.parametrize("coefficient", [5.0, 10.0, 30.0])
def test_plank_where_it_holds(coefficient: float) -> None:
    # Plank 1913: starts at the freezing point, nothing is sensible; slab 40 mm of water, −18 °C.
    by_hand = plank("slab", size=0.04, latent=333.6e6, drop=18.0, coefficient=coefficient,
                    conductivity=2.2)  # fmt: skip
    found = history(
        WATER, (Direction("slab", 0.02, 40),), start=273.15, ambient=np.array([255.15]),
        coefficient=np.array([coefficient]), until=273.14, guess=np.array([float(by_hand)]),
        steps=200,
    )  # fmt: skip
    assert found.reached[0] == pytest.approx(by_hand, rel=0.03)


@pytest.mark.published
@pytest.mark.parametrize("form", ["cylinder", "sphere"])
def test_plank_for_rods_and_balls(form: Literal["cylinder", "sphere"]) -> None:
    # In a mild freezer (−5 °C), where little heat is sensible: Plank's own assumption.
    by_hand = plank(form, size=0.06, latent=333.6e6, drop=5.0, coefficient=10.0, conductivity=2.2)
    found = history(
        WATER, (Direction(form, 0.03, 40),), start=273.15, ambient=np.array([268.15]),
        coefficient=np.array([10.0]), until=273.14, guess=np.array([float(by_hand)]),
    )  # fmt: skip
    assert found.reached[0] == pytest.approx(by_hand, rel=0.03)


@pytest.mark.published
def test_plank_worked_example() -> None:
    # Singh & Heldman, Introduction to Food Engineering, freezing chapter: sphere, 0.72 h (inputs
    # read, the coefficient and the answer from memory).
    found = plank("sphere", size=0.07, latent=250e6, drop=38.75, coefficient=50.0, conductivity=1.2)
    assert found / 3600 == pytest.approx(0.72, abs=0.005)


@pytest.mark.published
def test_bricks_when_the_surface_decides() -> None:
    # ASHRAE Refrigeration, cooling and freezing times of foods, eq. 20: 1 + 1/3 + 1/4.
    assert shape_dimension(3.0, 4.0) == pytest.approx(1.5833, abs=1e-4)


@pytest.mark.published
def test_pham_overstates_plain_water_by_an_eighth_and_says_so() -> None:
    # Known bias (Pham 1986 was fitted to moist foods): a 40 mm slab of water from 20 to −10 °C.
    by_pham = pham(
        "slab", size=0.04, start=293.15, ambient=255.15, until=263.15, latent=333.6e6,
        capacities=(4186e3, 2050e3), coefficient=10.0, conductivity=2.2,
    )  # fmt: skip
    found = history(
        WATER, (Direction("slab", 0.02, 40),), start=293.15, ambient=np.array([255.15]),
        coefficient=np.array([10.0]), until=263.15, guess=np.array([float(by_pham)]),
    )  # fmt: skip
    assert by_pham / 3600 == pytest.approx(15.32, abs=0.01)
    assert by_pham / found.reached[0] - 1 == pytest.approx(0.12, abs=0.02)
    assert "outside-validity" in [flag.name for flag in validity(265.15, 0.1)]


@pytest.mark.published
def test_unfrozen_cooling_is_that_of_the_series() -> None:
    # Carslaw & Jaeger: a can that cools without freezing, against the product of two series.
    plain = sharp(
        freezing_point=233.15, latent=3e8, capacities=(4e6, 4e6), conductivities=(0.5, 0.5)
    )
    found = history(
        plain, (Direction("cylinder", 0.04, 24), Direction("slab", 0.05, 24)), start=353.15,
        ambient=np.array([278.15]), coefficient=np.array([10.0]), until=294.15,
        guess=np.array([20_000.0]),
    )  # fmt: skip
    series = can(0.08, 0.10, 0.5, 0.5 / 4e6).time_until((294.15 - 278.15) / 75.0, 10.0)
    assert found.reached[0] == pytest.approx(float(series), rel=0.01)


@pytest.mark.property
def test_energy_is_conserved_in_one_and_two_directions() -> None:
    both = run(PINT, np.array([255.15, 250.15]), np.array([5.0, 20.0]))
    assert both.imbalance < 1e-6
    assert _frozen_half_space(40, 60).imbalance < 1e-6
    thawing = Task(PINT.body, PINT.makeup, 273.14, 255.15, 273.14)
    assert run(thawing, np.array([277.15]), np.array([8.0])).imbalance < 1e-6


@pytest.mark.property
def test_grid_hardly_matters_for_a_jar() -> None:
    body = food(food_properties.WATER, 273.14)
    times = []
    for cells, steps in ((12, 240), (30, 500)):
        ways = (Direction("cylinder", 0.0375, cells), Direction("slab", 0.05, cells))
        found = history(
            body, ways, start=293.15, ambient=np.array([255.15]), coefficient=np.array([9.0]),
            until=263.15, guess=np.array([40_000.0]), steps=steps,
        )  # fmt: skip
        times.append(float(found.reached[0]))
    assert times[0] == pytest.approx(times[1], rel=0.02)


@pytest.mark.property
def test_time_falls_with_cold_and_draught_and_rises_with_size() -> None:
    def time(freezer: float, coefficient: float, width: float) -> float:
        task = Task(Round(width, 0.095), PINT.makeup, 273.14, 293.15, 263.15)
        return float(np.mean(passage(task, freezer, coefficient).time))

    base = time(255.15, 9.0, 0.075)
    assert time(250.15, 9.0, 0.075) < base < time(258.15, 9.0, 0.075)
    assert time(255.15, 12.0, 0.075) < base < time(255.15, 6.0, 0.075)
    assert time(255.15, 9.0, 0.06) < base < time(255.15, 9.0, 0.09)


@pytest.mark.property
def test_surface_carries_draws_within_its_stated_error() -> None:
    rng = np.random.default_rng(7)
    cold = 255.15 + rng.normal(size=400)
    rate = 9.0 * np.exp(0.2 * rng.normal(size=400))
    carried = passage(PINT, cold, rate)
    assert carried.runs <= 30
    some = np.argsort(rate)[[4, 60, 200, 340, 395]]
    direct = run(PINT, cold[some], rate[some]).reached
    time = np.asarray(carried.time)[some]
    assert np.max(np.abs(time / direct - 1)) <= max(carried.error, 0.005)
    assert 0.0 < carried.error < 0.05


@pytest.mark.property
def test_a_quadratic_is_carried_exactly() -> None:
    rng = np.random.default_rng(3)
    drivers = np.exp(rng.normal(size=(500, 2)) * 0.3)

    def exact(
        points: np.ndarray[tuple[int, ...], np.dtype[np.float64]],
    ) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        logs = np.log(points)
        result: np.ndarray[tuple[int, ...], np.dtype[np.float64]] = np.exp(
            1 + logs[:, 0] - 0.5 * logs[:, 1] ** 2 + 0.3 * logs[:, 0] * logs[:, 1]
        )
        return result

    laid = surface(drivers, exact)
    assert laid.at(drivers) == pytest.approx(exact(drivers), rel=1e-9)
    assert laid.error < 1e-9


def test_what_never_ends_is_refused() -> None:
    with pytest.raises(OutOfRange, match="never get"):
        passage(PINT, 268.15, 9.0)
    with pytest.raises(OutOfRange, match="at least three cells"):
        Direction("slab", 0.0, 10)
    with pytest.raises(OutOfRange, match="below the freezing"):
        plank("slab", size=0.04, latent=3e8, drop=0.0, coefficient=10.0, conductivity=2.2)
    with pytest.raises(OutOfRange, match="colder than its end"):
        pham("slab", size=0.04, start=293.15, ambient=268.15, until=263.15, latent=3e8,
             capacities=(4e6, 2e6), coefficient=10.0, conductivity=2.2)  # fmt: skip
    with pytest.raises(OutOfRange, match="three drivers"):
        surface(np.ones((5, 4)), lambda points: points[:, 0])
    with pytest.raises(OutOfRange, match="above zero"):
        sharp(freezing_point=273.15, latent=0.0, capacities=(1.0, 1.0), conductivities=(1.0, 1.0))
    with pytest.raises(OutOfRange, match="at rest"):
        food(food_properties.WATER, 273.14, mixing=0.5)
