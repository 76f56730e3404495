"""Dissolved carbon dioxide against the CRC Handbook's table, a trade table and other laws."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics import carbon_dioxide, carbonation
from counterproof.physics.values import GAS_CONSTANT, STANDARD_PRESSURE, ZERO_CELSIUS

# CRC Handbook of Chemistry and Physics, solubility of carbon dioxide in water at various
# temperatures and pressures (from Carroll, Slupsky & Mather 1991): °C, kPa of CO2, 1000 x.
CRC = [
    (0, 5, 0.067), (0, 20, 0.269), (0, 50, 0.671), (0, 100, 1.337),
    (10, 5, 0.048), (10, 20, 0.191), (10, 50, 0.477), (10, 100, 0.950),
    (20, 5, 0.035), (20, 20, 0.141), (20, 50, 0.353), (20, 100, 0.704),
    (30, 5, 0.027), (30, 20, 0.109), (30, 50, 0.271), (30, 100, 0.541),
    (40, 5, 0.022), (40, 20, 0.087), (40, 50, 0.216), (40, 100, 0.431),
    (50, 5, 0.018), (50, 20, 0.071), (50, 50, 0.178), (50, 100, 0.354),
]  # fmt: skip
# "Guideline for degrees of carbonation at various beer temperatures", table I, a brewing trade
# magazine, vol. 2 no. 1: °F, gauge psi, volumes in BEER.
BEER = [
    (32, 1, 1.75), (32, 8, 2.48), (32, 15, 3.21), (33, 8, 2.43), (33, 15, 3.15), (35, 8, 2.34),
    (35, 15, 3.02), (36, 7, 2.19), (36, 14, 2.86), (38, 6, 2.00), (38, 13, 2.66), (40, 5, 1.83),
    (40, 12, 2.47), (40, 19, 3.10), (42, 9, 2.12), (42, 16, 2.74), (43, 5, 1.72), (43, 12, 2.34),
    (43, 19, 2.95), (45, 8, 1.91), (45, 15, 2.51), (45, 22, 3.11), (46, 10, 2.04), (46, 24, 3.23),
]  # fmt: skip


@pytest.mark.published
@pytest.mark.parametrize(("celsius", "kilopascal", "printed"), CRC)
def test_solubility_is_the_handbooks(celsius: float, kilopascal: float, printed: float) -> None:
    ours = 1e3 * float(carbonation.mole_fraction(celsius + 273.15, 1e3 * kilopascal))
    # One per cent, and half a unit of the last printed digit.
    assert abs(ours - printed) < 0.01 * printed + 0.0005


@pytest.mark.published
def test_at_full_table_pressure_fugacity_takes_the_misfit_away() -> None:
    rows = np.array([row for row in CRC if row[1] == 100])
    kelvin, pascal = rows[:, 0] + 273.15, 1e3 * rows[:, 1]
    real = 1e3 * carbonation.mole_fraction(kelvin, pascal)
    ideal = 1e3 * pascal / carbonation.henry_constant(kelvin)
    assert np.max(np.abs(real / rows[:, 2] - 1)) < 0.002
    assert np.min(ideal / rows[:, 2] - 1) > 0.002


@pytest.mark.published
def test_henry_constant_at_25_celsius() -> None:
    # Sander, Atmos. Chem. Phys. 23, 10901 (2023): 3.3e-4 to 3.4e-4 mol/(m³ Pa) at 298.15 K.
    solvent = 997.05 / 0.018015268
    assert 3.3e-4 < solvent / carbonation.henry_constant(298.15) < 3.45e-4
    # IUPAC-NIST solubility database, Shedlovsky & MacInnes 1935: x = 6.089e-4 at 1 atm, 25 °C; the
    # sources spread by 2 %.
    assert carbonation.mole_fraction(298.15, 101325.0) == pytest.approx(6.089e-4, rel=0.025)


@pytest.mark.published
def test_water_holds_more_than_the_trade_table_says_of_beer() -> None:
    rows = np.array(BEER)
    kelvin = (rows[:, 0] - 32) / 1.8 + 273.15
    total = 101325.0 + 6894.757 * rows[:, 1]
    partial = carbonation.partial_pressure(kelvin, total)
    more = carbonation.volumes(carbonation.dissolved(kelvin, partial)) / rows[:, 2] - 1
    assert more.min() > 0.016
    assert more.max() < 0.053
    assert more.mean() == pytest.approx(0.040, abs=0.003)


@pytest.mark.published
def test_a_volume_by_three_definitions() -> None:
    # Real gas 44.0095/22.263 = 1.977 g/L, ideal gas 44.0095/22.414 = 1.963 g/L; the trade's
    # definition at 60 °F agrees within 1 to 2 %.
    assert carbonation.concentration_of(1.0) == pytest.approx(1.977, abs=5e-4)
    assert carbonation.VOLUME_IDEAL.value == pytest.approx(44.0095 / 22.414, rel=1e-4)
    assert carbonation.volumes_at_sixty(1.977) == pytest.approx(1.0, abs=0.02)


@pytest.mark.published
def test_molar_volume_of_the_gas_real_and_ideal() -> None:
    # Span & Wagner 1996: 22.263 L/mol at 0 °C and 1 atm; ideal gas 22.414 L/mol.
    moles = carbon_dioxide.molar_density(273.15, 101325.0)
    assert 1000.0 / moles == pytest.approx(22.263, abs=0.002)
    ideal = 1000.0 * GAS_CONSTANT * ZERO_CELSIUS / STANDARD_PRESSURE
    assert ideal == pytest.approx(22.414, abs=0.001)


@pytest.mark.published
def test_gas_of_a_bottle_fills_fourteen_balloons() -> None:
    # Common practice, no source: 410 g at 0 °C and 1 atm fill about 14 spheres of 12 inches.
    sphere = np.pi / 6 * (12 * 0.0254) ** 3
    assert 0.410 / carbon_dioxide.density(273.15) / sphere == pytest.approx(14.0, abs=0.1)


@pytest.mark.frozen
@pytest.mark.parametrize(
    ("celsius", "kilopascal", "grams"),
    # Computed once elsewhere from the same equation: g/L under a head space free of air.
    [(0, 101.3, 3.293), (2, 501.3, 14.921), (5, 301.3, 8.154), (15, 601.3, 11.637)],
)
def test_equilibrium_under_a_gauge(celsius: float, kilopascal: float, grams: float) -> None:
    partial = carbonation.partial_pressure(celsius + 273.15, 1e3 * kilopascal)
    assert carbonation.dissolved(celsius + 273.15, partial) == pytest.approx(grams, rel=1e-3)


@pytest.mark.property
@given(st.floats(273.15, 330.0), st.floats(1e3, 9e5))
def test_pressure_for_what_dissolves_is_the_pressure(kelvin: float, pascal: float) -> None:
    held = carbonation.dissolved(kelvin, pascal)
    assert carbonation.partial_pressure_for(kelvin, held) == pytest.approx(pascal, rel=1e-8)


@pytest.mark.property
@given(st.floats(274.0, 360.0), st.floats(1e4, 9e5))
def test_temperature_for_what_dissolves_is_the_temperature(kelvin: float, pascal: float) -> None:
    held = float(carbonation.dissolved(kelvin, pascal))
    assert carbonation.temperature_for(pascal, held) == pytest.approx(kelvin, abs=1e-6)


@pytest.mark.property
def test_colder_water_and_more_pressure_hold_more() -> None:
    kelvin = np.linspace(273.15, 373.15, 101)
    assert np.all(np.diff(carbonation.dissolved(kelvin, 3e5)) < 0)
    pascal = np.linspace(1e3, 1e6, 101)
    assert np.all(np.diff(carbonation.dissolved(277.15, pascal)) > 0)


def test_flags_tell_table_from_equation() -> None:
    assert carbonation.validity(283.15, 5e4) == ()
    (note,) = carbonation.validity(283.15, 4e5)
    assert (note.name, note.level) == ("outside-table", "note")
    (doubt,) = carbonation.validity(283.15, 2e6)
    assert (doubt.name, doubt.level) == ("outside-validity", "doubt")


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no room"):
        carbonation.partial_pressure(283.15, 1e5, 1e5)
    with pytest.raises(OutOfRange, match="less than no"):
        carbonation.partial_pressure_for(283.15, -1.0)
    with pytest.raises(OutOfRange, match="never"):
        carbonation.temperature_for(1e5, 50.0)
