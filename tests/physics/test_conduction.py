"""Bodies that cool by conduction: textbook problems, factors, laws."""

from __future__ import annotations

from math import exp, log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics.conduction import Body, brick, can

STEAK = Body((("slab", 0.01),), 0.45, 0.91e-7)


@pytest.mark.published
def test_a_steak_cools_as_the_textbook_says() -> None:
    # Cengel, problem 11-44: slab of 20 mm, surface from 25 to 2 °C in air at −11 °C, h = 9:
    # Bi = 0.200, λ₁ = 0.4328, A₁ = 1.0311, 5590 s. Issue asks for 2 %; the printed digits give 0.1 %.
    share = (2.0 + 11.0) / (25.0 + 11.0)
    assert STEAK.time_until(share, 9.0, "surface") == pytest.approx(5590.0, rel=0.002)
    (found,) = STEAK.modes(9.0, 1)
    assert found.roots[0] == pytest.approx(0.4328, abs=1e-4)
    assert found.centre[0] == pytest.approx(1.0311, abs=1e-4)


@pytest.mark.published
def test_factors_of_a_slab_are_those_of_lacroix_and_castaigne() -> None:
    # Lacroix & Castaigne (1987), in ASHRAE Refrigeration (2006), Cooling and freezing times of
    # foods, table 1, whose polynomial gives at Bi = 1: u = 0.8610, f α/L² = 3.106, j = 1.119.
    # The polynomial is a fit: half a per cent at Bi = 1, one elsewhere.
    slab = Body((("slab", 1.0),), 1.0, 1.0)
    assert slab.decade_time(1.0) == pytest.approx(3.1063, rel=0.005)
    assert slab.lag(1.0) == pytest.approx(1.1193, rel=0.005)
    # Near Bi = 60 the polynomial itself strays: 6 % in time against the exact root 1.5451.
    for biot in (0.15, 0.5, 2.0, 10.0):
        x = log(biot)
        u = 0.860972 + x * (
            0.312133 + x * (0.007986 + x * (-0.016192 + x * (-0.00119 + x * 0.000581)))
        )
        assert slab.decade_time(biot) == pytest.approx(log(10.0) / u**2, rel=0.01)


@pytest.mark.property
@pytest.mark.parametrize("biot", [0.01, 0.1, 1.0, 10.0, 100.0])
@pytest.mark.parametrize("shape", ["slab", "cylinder", "sphere"])
def test_lag_and_decade_time_are_within_one_per_cent_of_the_series(biot: float, shape: str) -> None:
    body = Body(((shape, 1.0),), 1.0, 1.0)  # type: ignore[arg-type]  # (a parameter is any text)
    decade, lag = float(body.decade_time(biot)), float(body.lag(biot))
    for share in (0.5, 0.2, 0.02):
        time = float(body.time_until(share, biot))
        if time > 0.2:  # where one term is claimed to be enough
            left = lag * 10.0 ** (-time / decade)
            assert left == pytest.approx(share, rel=0.01)


@pytest.mark.property
@given(
    coefficient=st.floats(0.5, 500.0),
    share=st.floats(0.005, 0.98),
    height=st.floats(0.01, 0.3),
    diameter=st.floats(0.02, 0.4),
)
def test_time_and_share_undo_each_other(
    coefficient: float, share: float, height: float, diameter: float
) -> None:
    body = can(diameter, height, 0.55, 1.4e-7)
    time = body.time_until(share, coefficient)
    assert float(body.left(time, coefficient)) == pytest.approx(share, rel=1e-6)


@pytest.mark.property
@given(coefficient=st.floats(1.0, 200.0), side=st.floats(0.02, 0.2), grown=st.floats(1.05, 3.0))
def test_a_bigger_body_cools_more_slowly_and_more_air_cools_faster(
    coefficient: float, side: float, grown: float
) -> None:
    small = brick((side, side, side), 0.5, 1.4e-7)
    large = brick((side, side, side * grown), 0.5, 1.4e-7)
    time = float(small.time_until(0.2, coefficient))
    assert float(large.time_until(0.2, coefficient)) > time
    assert float(small.time_until(0.2, 1.2 * coefficient)) < time


@pytest.mark.property
def test_a_body_that_conducts_without_limit_is_one_temperature() -> None:
    # Bi → 0: exp(−h A t/(ρ c V)), A/V = 4/D + 2/H.
    body = can(0.2, 0.1, 5e4, 5e4 / 4e6)
    rate = 10.0 * (4.0 / 0.2 + 2.0 / 0.1) / 4e6
    assert float(body.left(3000.0, 10.0)) == pytest.approx(exp(-rate * 3000.0), rel=1e-4)


@pytest.mark.property
def test_a_long_can_is_a_cylinder_and_a_flat_one_a_slab() -> None:
    cylinder = Body((("cylinder", 0.04),), 0.5, 1.4e-7)
    slab = Body((("slab", 0.02),), 0.5, 1.4e-7)
    assert can(0.08, 4.0, 0.5, 1.4e-7).time_until(0.3, 20.0) == pytest.approx(
        cylinder.time_until(0.3, 20.0), rel=1e-3
    )
    assert can(4.0, 0.04, 0.5, 1.4e-7).time_until(0.3, 20.0) == pytest.approx(
        slab.time_until(0.3, 20.0), rel=1e-3
    )


@pytest.mark.property
def test_heat_given_off_equals_heat_lost() -> None:
    # ∫ h θ(surface) dt over the two faces against ρ c (1 − mean), by Simpson's rule.
    times = np.linspace(600.0, 7800.0, 2001)
    surface = STEAK.left(times, np.full(times.shape, 9.0), "surface")
    step = times[1] - times[0]
    weights = np.ones(times.size)
    weights[1:-1:2], weights[2:-1:2] = 4.0, 2.0
    out = 9.0 * step / 3.0 * float((weights * surface).sum())
    lost = (
        0.01
        * 0.45
        / 0.91e-7
        * float(STEAK.left(600.0, 9.0, "mean") - STEAK.left(7800.0, 9.0, "mean"))
    )
    assert out == pytest.approx(lost, rel=1e-6)


def test_what_never_happens_is_refused() -> None:
    with pytest.raises(OutOfRange, match="never quite gets there"):
        STEAK.time_until(0.0, 9.0)
    with pytest.raises(OutOfRange, match="never quite gets there"):
        STEAK.time_until(1.01, 9.0)
    assert float(STEAK.time_until(1.0, 9.0)) == 0.0
    with pytest.raises(OutOfRange, match="almost at once"):
        STEAK.time_until(0.9, 20_000.0, "surface")
