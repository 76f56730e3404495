"""Free convection, evaporation and the boiling point."""

from __future__ import annotations

import numpy as np
import pytest

from counterproof.errors import OutOfRange
from counterproof.physics import boiling, convection, evaporation
from counterproof.physics.air import Room

KITCHEN = Room.of(293.15, 0.5)


@pytest.mark.published
@pytest.mark.parametrize(
    ("feet", "fahrenheit"), [(2000, 208.0), (5000, 203.0), (7500, 198.0), (10_000, 194.0)]
)
def test_boiling_point_by_altitude_is_that_of_the_cooks_table(
    feet: float, fahrenheit: float
) -> None:
    # The table of US kitchen leaflets, 208, 203, 198 and 194 °F at 2,000, 5,000, 7,500 and
    # 10,000 ft, read in secondary copies in 2026; printed in whole degrees, so ±0.5 °F.
    kelvin = boiling.boiling_point(0.3048 * feet)
    assert 1.8 * kelvin - 459.67 == pytest.approx(fahrenheit, abs=0.5)


@pytest.mark.published
def test_standard_atmosphere_is_as_printed() -> None:
    # ICAO standard atmosphere, geopotential heights: 1000 m 898.75 hPa, 2000 m 794.95, 5000 m
    # 540.20 (from memory, printed in every edition).
    heights = np.array([1000.0, 2000.0, 5000.0])
    assert boiling.pressure_at(heights) == pytest.approx([89875.0, 79495.0, 54020.0], rel=1e-4)


@pytest.mark.property
def test_a_pressure_cooker_boils_hotter_and_a_mountain_cooler() -> None:
    assert boiling.boiling_point_under(101325.0 + 80e3) - 273.15 == pytest.approx(117.2, abs=0.3)
    assert np.all(np.diff(boiling.boiling_point(np.linspace(-500.0, 9000.0, 20))) < 0)


def test_heights_without_an_answer_and_heights_with_a_flag() -> None:
    with pytest.raises(OutOfRange, match="9000"):
        boiling.pressure_at(12_000.0)
    assert boiling.validity(9000.0) == ()
    assert boiling.validity(9001.0)[0].name == "outside-validity"


@pytest.mark.frozen
def test_coefficients_are_those_of_the_reference_computation() -> None:
    # natural_convection_h of the reference: the same correlations, air by CoolProp.
    assert convection.wall(363.15, 293.15, 0.1) == pytest.approx(7.00, abs=0.01)
    assert convection.wall(333.15, 277.15, 0.2) == pytest.approx(6.16, abs=0.01)
    assert convection.top(363.15, 293.15, 0.2) == pytest.approx(8.33, abs=0.01)
    assert convection.bottom(333.15, 277.15, 0.09) == pytest.approx(4.92, abs=0.01)
    assert convection.radiation(363.15, 293.15, 0.9) == pytest.approx(7.30, abs=0.01)
    assert 3600 * evaporation.analogy_flux(343.15, 0.22, KITCHEN) == pytest.approx(6.56, rel=0.01)
    assert 3600 * evaporation.pool_flux(343.15, KITCHEN) == pytest.approx(4.18, rel=0.01)


@pytest.mark.property
def test_evaporation_lies_between_its_two_estimates_and_grows_with_heat() -> None:
    kelvin = np.linspace(303.15, 370.15, 40)
    low = evaporation.pool_flux(kelvin, KITCHEN)
    high = evaporation.analogy_flux(kelvin, 0.22, KITCHEN)
    middle = np.asarray(evaporation.open_flux(kelvin, 0.22, KITCHEN, 0.5))
    assert np.all(middle >= np.minimum(low, high))
    assert np.all(middle <= np.maximum(low, high))
    assert np.all(np.diff(middle) > 0)


@pytest.mark.property
def test_a_hotter_or_wider_face_loses_more_heat() -> None:
    hotter = np.linspace(300.0, 370.0, 30)
    for coefficient in (convection.wall, convection.top, convection.bottom):
        flow = np.asarray(coefficient(hotter, 293.15, 0.2)) * (hotter - 293.15)
        assert np.all(np.diff(flow) > 0)


def test_small_differences_of_temperature_are_noted() -> None:
    assert convection.validity(363.15, 293.15, height=0.1, diameter=0.2) == ()
    assert convection.validity(293.2, 293.15, diameter=0.05)[0].level == "note"
