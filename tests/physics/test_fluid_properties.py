"""Water, air and carbon dioxide against CoolProp 8.0.0's equations of state.

CoolProp is the independent reference (Bell et al. 2014): IAPWS-95 for water, Lemmon et al. for
air, Span & Wagner for carbon dioxide. Each tolerance is the error stated beside the correlation.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from CoolProp.CoolProp import PT_INPUTS, AbstractState, PropsSI

from counterproof.errors import OutOfRange
from counterproof.physics import air, water
from counterproof.physics import carbon_dioxide as co2
from counterproof.physics.values import Draws, Fit

WARM = np.linspace(273.16, 423.15, 151)
ROOM = np.linspace(233.15, 423.15, 96)
Property = Callable[[Draws], float | Draws]


def _saturated(key: str, quality: int = 0, fluid: str = "Water") -> Draws:
    return np.array([PropsSI(key, "T", t, "Q", quality, fluid) for t in WARM])


@pytest.mark.published
@pytest.mark.parametrize(
    ("ours", "key", "quality", "fit"),
    [
        (water.saturation_pressure, "P", 0, water.SATURATION),
        (water.density, "D", 0, water.LIQUID_DENSITY),
        (water.vapour_density, "D", 1, water.VAPOUR_DENSITY),
        (water.heat_capacity, "C", 0, water.HEAT_CAPACITY),
        (water.conductivity, "L", 0, water.CONDUCTIVITY),
        (water.viscosity, "V", 0, water.VISCOSITY),
    ],
)
def test_water_is_within_its_stated_error(ours: Property, key: str, quality: int, fit: Fit) -> None:
    assert np.max(np.abs(ours(WARM) / _saturated(key, quality) - 1)) < fit.error


@pytest.mark.published
def test_latent_heat_follows_from_the_three_saturation_equations() -> None:
    there = _saturated("H", 1) - _saturated("H", 0)
    assert np.max(np.abs(water.latent_heat(WARM) / there - 1)) < 2e-4


@pytest.mark.published
def test_boiling_point_of_a_pressure_is_that_of_coolprop() -> None:
    pressures = np.array([700.0, 2_339.0, 61_640.0, 101_325.0, 200_000.0, 470_000.0])
    there = np.array([PropsSI("T", "P", p, "Q", 0, "Water") for p in pressures])
    assert np.max(np.abs(water.saturation_temperature(pressures) - there)) < 2e-3  # [K]


@pytest.mark.published
@pytest.mark.parametrize(
    ("ours", "key", "error"),
    [
        (air.density, "D", 1.4e-3),
        (air.heat_capacity, "C", air.HEAT_CAPACITY.error),
        (air.conductivity, "L", air.CONDUCTIVITY.error),
        (air.viscosity, "V", air.VISCOSITY.error),
        (air.prandtl, "PRANDTL", 2e-4),
    ],
)
def test_air_is_within_its_stated_error(ours: Property, key: str, error: float) -> None:
    there = np.array([PropsSI(key, "T", t, "P", 101325.0, "Air") for t in ROOM])
    assert np.max(np.abs(ours(ROOM) / there - 1)) < error


@pytest.mark.published
def test_vapour_diffusivity_is_the_handbook_value_at_room_temperature() -> None:
    # 0.25 cm²/s at 25 °C, 1 atm: heat-transfer textbooks, from memory; the source states 5 %.
    assert air.vapour_diffusivity(298.15) == pytest.approx(2.5e-5, rel=0.05)


@pytest.mark.published
@pytest.mark.parametrize(("bar", "error"), [(1.01325, 1e-4), (5, 2e-4), (20, 2e-3), (40, 2e-3)])
def test_carbon_dioxide_gas_is_within_its_stated_error(bar: float, error: float) -> None:
    kelvin = np.array([
        t for t in ROOM
        if t > 304.2 or PropsSI("P", "T", t, "Q", 1, "CO2") > 1.002e5 * bar
    ])  # fmt: skip
    there = np.array([PropsSI("D", "T", t, "P", 1e5 * bar, "CO2") for t in kelvin])
    assert np.max(np.abs(co2.density(kelvin, 1e5 * bar) / there - 1)) < error


@pytest.mark.published
def test_fugacity_of_carbon_dioxide_is_that_of_coolprop() -> None:
    state = AbstractState("HEOS", "CO2")
    for kelvin, pascal in ((277.15, 3e5), (293.15, 1e6), (313.15, 4e6)):
        state.update(PT_INPUTS, pascal, kelvin)
        there = state.fugacity_coefficient(0)
        assert co2.fugacity_coefficient(kelvin, pascal) == pytest.approx(there, rel=1e-3)


@pytest.mark.published
def test_a_cylinder_holds_the_pressure_of_its_liquid() -> None:
    kelvin = np.linspace(233.15, 304.0, 60)
    there = np.array([PropsSI("P", "T", t, "Q", 1, "CO2") for t in kelvin])
    assert np.max(np.abs(co2.saturation_pressure(kelvin) / there - 1)) < co2.SATURATION.error


@pytest.mark.property
def test_heat_taken_up_is_the_integral_of_heat_capacity() -> None:
    kelvin = np.linspace(280.0, 400.0, 20001)
    whole = np.trapezoid(water.heat_capacity(kelvin), kelvin)
    assert water.sensible_heat(280.0, 400.0) == pytest.approx(whole, rel=1e-9)


@pytest.mark.property
def test_boiling_point_and_boiling_pressure_undo_each_other() -> None:
    back = water.saturation_temperature(water.saturation_pressure(WARM))
    assert np.max(np.abs(back - WARM)) < 1e-8


def test_questions_without_an_answer_name_the_limit() -> None:
    with pytest.raises(OutOfRange, match=r"30\.98 °C"):
        co2.saturation_pressure(305.0)
    with pytest.raises(OutOfRange, match="liquid"):
        co2.density(293.15, 6.0e6)
    with pytest.raises(OutOfRange, match="22064"):
        water.saturation_temperature(23e6)
    # Both sides of the line: gas just below the saturation pressure, refused just above it.
    line = co2.saturation_pressure(293.15)
    assert co2.density(293.15, 0.999 * line) > 0
    with pytest.raises(OutOfRange):
        co2.density(293.15, 1.001 * line)
