"""Water over solids: the cylinder's sums, and published packings of balls."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics.packing import (
    FINGER,
    PACKING,
    bed_depth,
    usual_diameter,
    water_over,
)


@pytest.mark.published
def test_the_packing_agrees_with_measured_beds_of_balls() -> None:
    # Scott, G. D. (1960), Packing of spheres, Nature 188, 908-909: steel balls poured loosely
    # fill 0.60 of the space, shaken down 0.64 (both from memory). Pieces of food are no balls,
    # so the constant's range must hold both.
    low, high = PACKING.value * (1 - PACKING.spread), PACKING.value * (1 + PACKING.spread)
    assert low < 0.60
    assert high > 0.64


def test_a_simple_cubic_pile_of_balls_leaves_what_geometry_says() -> None:
    # Balls of 4 cm in a cubic pile: each fills pi/6 of its cube. 100 of them have 3.351 L of
    # their own... 100 * 4/3 pi (2 cm)^3 = 3351 cm³ in 6400 cm³: 3049 cm³ of gaps.
    solids = 100 * 4 / 3 * pi * 0.02**3
    gaps = water_over(solids, 0.25, packing=pi / 6)
    assert gaps == pytest.approx(6.4e-3 - solids, rel=1e-12)


def test_twice_the_depth_is_worked_out_by_hand() -> None:
    # 2 L of solids at 0.5 stand 4 L high; to twice that level 8 L, less the 2 L of solids.
    assert water_over(0.002, 0.2, times=2.0, packing=0.5) == pytest.approx(0.006)
    # Half way up: 2 L of bed, half of it gaps.
    assert water_over(0.002, 0.2, times=0.5, packing=0.5) == pytest.approx(0.001)
    assert bed_depth(0.002, 0.2, 0.5) == pytest.approx(0.004 / (pi * 0.01))


@pytest.mark.property
@given(
    st.floats(1e-4, 1e-2), st.floats(0.1, 0.5), st.floats(0.4, 0.7), st.floats(0.5, 3.0)
)  # fmt: skip
def test_more_solids_and_a_higher_level_take_more_water(
    solids: float, diameter: float, packing: float, times: float
) -> None:
    base = water_over(solids, diameter, times=times, packing=packing)
    assert water_over(1.1 * solids, diameter, times=times, packing=packing) > base > 0.0
    assert water_over(solids, diameter, times=times + 0.1, packing=packing) > base
    assert water_over(solids, diameter, times=times, packing=packing, over=0.01) > base


def test_a_wider_pot_needs_more_water_above_the_solids_and_no_more_between_them() -> None:
    wide, narrow = (water_over(0.002, d) for d in (0.3, 0.2))
    assert wide == pytest.approx(narrow)
    assert water_over(0.002, 0.3, over=FINGER.value) > water_over(0.002, 0.2, over=FINGER.value)


def test_the_usual_pot_stands_at_its_proportion() -> None:
    wide = usual_diameter(0.002, over=0.015, times=1.0)
    level = bed_depth(0.002, wide) + 0.015
    assert level / wide == pytest.approx(0.5, rel=1e-6)


def test_draws_go_through_in_one_pass() -> None:
    packing = np.array([0.5, 0.6])
    assert np.asarray(water_over(0.002, 0.2, packing=packing)) == pytest.approx(
        [0.002, 0.002 / 1.5]
    )


@pytest.mark.parametrize(("solids", "packing"), [(0.0, 0.6), (0.001, 0.0), (0.001, 1.0)])
def test_what_cannot_be_is_said(solids: float, packing: float) -> None:
    with pytest.raises(OutOfRange):
        water_over(solids, 0.2, packing=packing)
