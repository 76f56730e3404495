"""pH of carbonated water against textbook values and its own balance."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics import acidity, carbonation

_GRAMS = 44.0095  # [g/mol]


@pytest.mark.published
def test_dissociation_constants_at_25_celsius() -> None:
    # Textbooks: pK1 6.35, pK2 10.33, pKw 13.995 at 25 °C, zero ionic strength.
    for fit, printed in ((acidity.FIRST, 6.35), (acidity.SECOND, 10.33), (acidity.WATER, 13.995)):
        assert -np.log10(acidity._constant(fit, 298.15)) == pytest.approx(printed, abs=0.006)


@pytest.mark.published
def test_pure_water_under_one_atmosphere_of_gas() -> None:
    # Textbook: pH 3.9 at 25 °C under 1 atm of CO2, from sqrt(K1 · 0.034).
    held = carbonation.dissolved(298.15, 101325.0)
    assert acidity.ph(298.15, held, 0.0) == pytest.approx(3.91, abs=0.02)


@pytest.mark.published
def test_rain_is_slightly_sour() -> None:
    # Textbook: water in contact with air (about 400 ppm) has a pH of 5.6.
    held = carbonation.dissolved(298.15, 400e-6 * 101325.0)
    assert acidity.ph(298.15, held, 0.0) == pytest.approx(5.6, abs=0.02)


@pytest.mark.published
def test_one_molecule_in_six_hundred_is_carbonic_acid() -> None:
    # [H2CO3]/[CO2] = 1.7e-3 at 25 °C in pure water (table of reactions, open literature).
    assert 1.0 / acidity.carbonic_acid(1.0) == pytest.approx(1 / 1.7e-3, rel=0.01)


@pytest.mark.frozen
@pytest.mark.parametrize(
    ("celsius", "grams", "hard", "printed"),
    # Computed once elsewhere with all inorganic carbon fixed, so that alkalinity takes its share.
    [
        (4, 7.91, 0, 3.63), (4, 7.91, 1, 4.29), (4, 7.91, 4, 4.88), (4, 1.98, 1, 4.89),
        (20, 5.93, 0, 3.62), (20, 5.93, 4, 4.87), (25, 0.99, 0, 4.00), (25, 0.99, 4, 5.69),
    ],
)  # fmt: skip
def test_alkalinity_lifts_the_ph(celsius: float, grams: float, hard: float, printed: float) -> None:
    free = grams - hard * 1e-3 * _GRAMS
    assert acidity.ph(celsius + 273.15, free, float(hard)) == pytest.approx(printed, abs=0.05)


@pytest.mark.property
@given(st.floats(273.2, 320.0), st.floats(1e-4, 15.0), st.floats(0.0, 10.0))
def test_charges_balance(kelvin: float, grams: float, hard: float) -> None:
    hydrogen = 10.0 ** -acidity.ph(kelvin, grams, hard)
    gas, charge = grams / _GRAMS, hard / 1000.0
    first = acidity._constant(acidity.FIRST, kelvin)
    # At the ionic strength of the solution itself.
    strength = charge
    for _ in range(10):
        one = acidity._activity(kelvin, strength)
        bicarbonate = first * gas / (hydrogen * one)
        carbonate = acidity._constant(acidity.SECOND, kelvin) * bicarbonate / (hydrogen * one**3)
        hydroxide = acidity._constant(acidity.WATER, kelvin) / (hydrogen * one)
        ions = hydrogen / one + bicarbonate + hydroxide + charge
        strength = float(0.5 * (ions + 4 * carbonate))
    off = hydrogen / one + charge - bicarbonate - 2 * carbonate - hydroxide
    assert abs(off) < 1e-4 * (hydrogen / one + bicarbonate + charge)


@pytest.mark.property
def test_more_gas_is_sourer_and_more_alkalinity_less() -> None:
    assert np.all(np.diff(acidity.ph(283.15, np.linspace(0.1, 10, 30), 2.0)) < 0)
    assert np.all(np.diff(acidity.ph(283.15, 6.0, np.linspace(0, 10, 30))) > 0)


def test_what_cannot_be_is_refused_and_what_is_far_is_flagged() -> None:
    with pytest.raises(OutOfRange, match="alkalinity"):
        acidity.ph(283.15, 5.0, -1.0)
    assert acidity.validity(283.15, 2.0) == ()
    assert acidity.validity(350.0, 20.0)[0].name == "outside-validity"
