"""Moved air and iced water: a textbook's example, the densest water, and laws."""

from __future__ import annotations

import numpy as np
import pytest

from counterproof.physics import convection, iced_water, moving_air, water
from counterproof.physics.values import ZERO_CELSIUS as ZERO


@pytest.mark.published
def test_a_cylinder_across_a_stream_is_that_of_the_textbook() -> None:
    # Incropera and others (2007), example 7.4, by eq. 7.57: a rod of 12.7 mm at 128.4 °C in air
    # of 26.2 °C at 10 m/s: Re = 6071, Nu = 40.6, h = 96.0. From memory; three printed digits.
    found = moving_air.across(ZERO + 128.4, ZERO + 26.2, 0.0127, 10.0)
    assert found == pytest.approx(96.0, rel=0.01)


@pytest.mark.property
def test_moved_air_goes_with_its_speed_and_joins_still_air() -> None:
    slow = moving_air.along(ZERO + 60.0, ZERO + 20.0, 0.2, 1.0)
    assert moving_air.along(ZERO + 60.0, ZERO + 20.0, 0.2, 4.0) == pytest.approx(2.0 * slow)
    assert moving_air.across(ZERO + 60.0, ZERO + 20.0, 0.2, 2.0) > moving_air.across(
        ZERO + 60.0, ZERO + 20.0, 0.2, 1.0
    )
    assert moving_air.joined(5.0, 0.0) == pytest.approx(5.0)
    assert 7.0 < moving_air.joined(5.0, 7.0) < 12.0


def test_both_sides_of_the_range_of_moved_air() -> None:
    assert moving_air.validity(ZERO + 20.0, 0.2, 0.0) == ()
    assert moving_air.validity(ZERO + 20.0, 0.2, 2.0) == ()
    (flag,) = moving_air.validity(ZERO + 20.0, 0.2, 60.0)
    assert "Reynolds" in flag.message


@pytest.mark.property
def test_water_cools_a_wall_tens_of_times_better_than_air() -> None:
    in_water = float(iced_water.coefficient(ZERO + 60.0, ZERO + 1.0, 0.1))
    in_air = float(convection.wall(ZERO + 60.0, ZERO + 1.0, 0.1))
    assert 50.0 < in_water / in_air < 300.0


@pytest.mark.property
def test_still_water_stops_where_it_is_densest() -> None:
    # Water is as dense at 0.6 as near 7.4 °C: nothing rises, and 0.68 k/H is left.
    bath = ZERO + 0.6
    twin = ZERO + np.linspace(6.0, 9.0, 3001)
    gap = np.abs(water.density(twin) - water.density(bath))
    wall = float(twin[int(np.argmin(gap))])
    film = 0.5 * (wall + bath)
    least = 0.825**2 * float(water.conductivity(film)) / 0.1
    found = float(iced_water.coefficient(wall, bath, 0.1))
    # Ra enters by its sixth root: even a thousandth of a degree off the twin lifts a little.
    assert least <= found < 0.1 * float(iced_water.coefficient(ZERO + 20.0, bath, 0.1))


@pytest.mark.property
def test_the_same_heat_passes_through_films_and_wall() -> None:
    contents, bath, height = np.array([ZERO + 70.0]), ZERO + 1.0, 0.1
    still = iced_water.through_wall(contents, bath, height, 3e-3)
    flux = float(still[0]) * 69.0
    # Walk inwards from the bath with that flux and arrive at the contents.
    outer = _solve(lambda t: float(iced_water.coefficient(t, bath, height)) * (t - bath) - flux)
    inner = outer + flux * 3e-3
    arriving = float(iced_water.coefficient(inner, contents[0], height)) * (contents[0] - inner)
    assert arriving == pytest.approx(flux, rel=1e-4)


def _solve(function: object) -> float:
    low, high = ZERO + 1.0, ZERO + 70.0
    for _ in range(80):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if function(middle) > 0.0 else (middle, high)  # type: ignore[operator]  # (a lambda)
    return 0.5 * (low + high)


@pytest.mark.property
def test_stirring_helps_and_glass_hinders() -> None:
    contents = np.array([ZERO + 60.0, ZERO + 10.0])
    steel = iced_water.through_wall(contents, ZERO + 1.0, 0.1, 6e-5, 350.0)
    glass = iced_water.through_wall(contents, ZERO + 1.0, 0.1, 3e-3, 350.0)
    assert (glass < steel).all()


@pytest.mark.published
def test_ice_takes_the_heat_it_takes_to_melt() -> None:
    # 333.6 kJ melt a kilogram of ice (CRC Handbook, enthalpy of fusion of water).
    assert iced_water.ice_needed(333.6e3) == pytest.approx(1.0, rel=0.001)
