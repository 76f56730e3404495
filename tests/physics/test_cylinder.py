"""Cylinders of carbon dioxide against CoolProp 8.0.0 (Span & Wagner 1996)."""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from counterproof.errors import OutOfRange
from counterproof.physics import carbon_dioxide, cylinder


@pytest.mark.published
@pytest.mark.parametrize(
    # Span & Wagner 1996 as evaluated for the reference: bar at °C.
    ("celsius", "bar"),
    [(-10, 26.487), (0, 34.851), (10, 45.022), (20, 57.291), (30, 72.137)],
)
def test_pressure_over_the_liquid(celsius: float, bar: float) -> None:
    found = cylinder.cylinder(celsius + 273.15, 0.35, 0.7e-3)
    assert found.pressure / 1e5 == pytest.approx(bar, rel=2e-4)
    assert found.state == "gas and liquid"


@pytest.mark.published
def test_density_of_the_gas_at_one_atmosphere() -> None:
    for celsius, printed in ((0, 1.9768), (15, 1.8718), (20, 1.8393), (25, 1.8080)):
        assert carbon_dioxide.density(celsius + 273.15) == pytest.approx(printed, rel=2e-3)


@pytest.mark.published
def test_both_sides_of_the_dome() -> None:
    for kelvin in np.linspace(253.15, 302.0, 30):
        liquid, vapour = (PropsSI("D", "T", kelvin, "Q", q, "CO2") for q in (0, 1))
        assert cylinder.liquid_density(kelvin) == pytest.approx(liquid, rel=cylinder.LIQUID.error)
        assert cylinder.vapour_density(kelvin) == pytest.approx(vapour, rel=cylinder.VAPOUR.error)


@pytest.mark.published
def test_one_fluid_outside_it() -> None:
    for kelvin in np.linspace(268.15, 333.0, 14):
        for density in (30.0, 60.0, 300.0, 500.0, 700.0, 850.0):
            there = PropsSI("P", "T", kelvin, "D", density, "CO2")
            state = PropsSI("Phase", "T", kelvin, "D", density, "CO2")
            if state == 6.0 or there > 2.9e7:  # two phases
                continue
            ours = cylinder.single_phase_pressure(kelvin, density)
            assert ours == pytest.approx(there, rel=cylinder.SINGLE.error)


@pytest.mark.published
def test_no_liquid_above_the_critical_temperature() -> None:
    # 30.98 °C (Span & Wagner 1996).
    assert cylinder.cylinder(304.0, 0.28, 0.6e-3).state == "gas and liquid"
    warm = cylinder.cylinder(304.2, 0.28, 0.6e-3)
    assert (warm.state, warm.liquid_share) == ("above the critical point", 0.0)
    with pytest.raises(OutOfRange, match="no liquid"):
        carbon_dioxide.saturation_pressure(304.2)


@pytest.mark.property
def test_a_full_cylinder_climbs_once_its_liquid_fills_it() -> None:
    full = cylinder.full_of_liquid(0.425, 0.6e-3)
    assert full is not None
    before, at, after = (cylinder.cylinder(full + d, 0.425, 0.6e-3) for d in (-2.0, -0.1, 2.0))
    assert before.liquid_share < at.liquid_share < 1.0 == after.liquid_share
    assert after.pressure - at.pressure > 2.0 * (at.pressure - before.pressure)
    assert cylinder.full_of_liquid(0.2, 0.6e-3) is None


@pytest.mark.property
def test_mass_of_gas_and_liquid_is_the_filling() -> None:
    found = cylinder.cylinder(288.15, 0.3, 0.6e-3)
    liquid = found.liquid_share * 0.3 / cylinder.liquid_density(288.15)
    gas = (1 - found.liquid_share) * 0.3 / cylinder.vapour_density(288.15)
    assert liquid + gas == pytest.approx(0.6e-3, rel=1e-12)


def test_what_would_burst_is_refused_and_heat_is_flagged() -> None:
    with pytest.raises(OutOfRange, match="more than any cylinder"):
        cylinder.cylinder(293.15, 1.0, 0.6e-3)
    with pytest.raises(OutOfRange, match="some gas"):
        cylinder.cylinder(293.15, 0.0, 0.6e-3)
    assert cylinder.cylinder(343.15, 0.3, 0.6e-3).flags[0].name == "outside-validity"
