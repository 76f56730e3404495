"""Drinks: sugar solutions, spirits, sweetness, ice; against handbook tables and hand sums."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics import spirits, sucrose
from counterproof.physics.composing import composed, scaled
from counterproof.physics.ice import chilled, ice_for, ice_heat
from counterproof.physics.mixing import Part, apart, heat, mixed
from counterproof.physics.sweetness import RELATIVE, relative_sweetness, sweetness

# CRC Handbook (68th ed.), concentrative properties of aqueous solutions: sucrose, 20 °C: parts by
# mass, kg/m³, specific gravity 20/20.
CRC = [
    (0, 998.2, 1.0000), (2, 1006.0, 1.0078), (5, 1017.8, 1.0196), (8, 1029.9, 1.0318),
    (11, 1042.3, 1.0442), (15, 1059.2, 1.0611), (20, 1081.0, 1.0829), (28, 1117.5, 1.1195),
    (34, 1146.4, 1.1485), (40, 1176.5, 1.1786), (46, 1207.9, 1.2101), (50, 1229.5, 1.2317),
    (56, 1263.2, 1.2655), (62, 1298.3, 1.3006), (68, 1334.8, 1.3372), (74, 1372.6, 1.3751),
    (80, 1411.7, 1.4142), (82, 1425.0, 1.4276),
]  # fmt: skip
# CRC Handbook, solubility of sucrose in water: °C, parts by mass.
SOLUBLE = [(0, 64.18), (15, 66.53), (30, 68.80), (55, 73.20), (75, 77.27), (100, 82.97)]
# Perry's Chemical Engineers' Handbook, 7th ed., densities of mixtures of ethanol and water, 20 °C.
PERRY = [
    (1, 0.99636), (3, 0.99275), (5, 0.98938), (7, 0.98627), (9, 0.98331), (10, 0.98187),
    (12, 0.97910), (20, 0.96864), (40, 0.93518), (60, 0.89113), (90, 0.81797),
]  # fmt: skip

LIME = Part("lime juice", 0.0614, sugar=0.00104, acid=0.002752, sweetener="fruit sugars")
SYRUP = Part("syrup", 0.07377, sugar=0.036885)
SODA = Part("soda water", 0.2995, temperature=277.15, co2=0.0018)
WATER = Part("water", 0.3)


@pytest.mark.published
@pytest.mark.parametrize(("degrees", "density", "gravity"), CRC)
def test_density_by_brix(degrees: float, density: float, gravity: float) -> None:
    assert sucrose.density(degrees) == pytest.approx(density, abs=0.5)  # 0.0005 g/ml
    assert sucrose.specific_gravity(degrees) == pytest.approx(gravity, abs=5e-4)
    assert sucrose.brix(density) == pytest.approx(degrees, abs=0.05)


@pytest.mark.published
def test_brix_by_specific_gravity_against_two_printed_equations() -> None:
    # Brewing handbooks: 143.254 s³ − 648.670 s² + 1125.805 s − 620.389 (to 40 °Brix within 0.05)
    # and 182.4601 s³ − 775.6821 s² + 1262.7794 s − 669.5622 (to 50).
    degrees = np.array([5.0, 12.0, 20.0, 30.0, 40.0])
    s = sucrose.specific_gravity(degrees)
    first = 143.254 * s**3 - 648.670 * s**2 + 1125.805 * s - 620.389
    second = 182.4601 * s**3 - 775.6821 * s**2 + 1262.7794 * s - 669.5622
    assert first == pytest.approx(degrees, abs=0.06)
    assert second == pytest.approx(degrees, abs=0.06)


@pytest.mark.published
@pytest.mark.parametrize(("celsius", "printed"), SOLUBLE)
def test_sugar_that_dissolves(celsius: float, printed: float) -> None:
    assert sucrose.saturated(celsius + 273.15) == pytest.approx(printed, abs=0.2)


@pytest.mark.property
@given(st.floats(0.1, 82.0))
def test_brix_of_a_density_is_the_brix(degrees: float) -> None:
    assert sucrose.brix(sucrose.density(degrees)) == pytest.approx(degrees, abs=1e-9)


@pytest.mark.published
@pytest.mark.parametrize(("percent", "printed"), PERRY)
def test_density_of_spirits(percent: float, printed: float) -> None:
    volume = spirits.volume(1.0 - percent / 100, percent / 100)
    assert 1e-3 / volume == pytest.approx(printed, abs=3e-4)


@pytest.mark.published
def test_half_and_half_shrinks_by_a_twenty_fifth() -> None:
    # Textbook: 50 ml of ethanol and 50 ml of water give about 96.5 ml.
    whole = spirits.volume(0.0499, 0.0395)
    assert whole * 1e6 == pytest.approx(96.4, abs=0.3)
    assert spirits.by_volume(spirits.mass_in(1e-3, 0.4), 1e-3) == pytest.approx(0.4)


@pytest.mark.published
def test_simple_syrup_by_hand() -> None:
    # CRC: 50 parts is 1.2295 kg/L; 200 g of sugar and 200 g of water give 325 ml.
    syrup = mixed((Part("sugar", 0.2, sugar=0.2), Part("water", 0.2)))
    assert syrup.brix == pytest.approx(50.0)
    assert syrup.volume * 1e6 == pytest.approx(325.3, abs=0.5)
    assert apart((Part("sugar", 0.2, sugar=0.2), Part("water", 0.2))) > syrup.volume


@pytest.mark.published
def test_lime_soda_by_hand() -> None:
    # By hand from CRC, USDA and Penniston et al. 2008: 434.5 g, 8.73 % sugar, 6.55 g/L acid,
    # sugar to acid 13.8 (volumes added without contraction there).
    drink = mixed((LIME, SYRUP, SODA))
    assert drink.mass == pytest.approx(0.4345, abs=3e-4)
    assert 100 * drink.sugar / drink.mass == pytest.approx(8.73, abs=0.01)
    assert drink.acidity == pytest.approx(6.55, abs=0.03)
    assert drink.sugar / drink.acid == pytest.approx(13.8, abs=0.05)


@pytest.mark.property
@given(st.floats(0.05, 2.0), st.floats(0.0, 0.6), st.floats(0.0, 0.2), st.floats(275.0, 330.0))
def test_mass_and_heat_are_conserved(mass: float, sugar: float, spirit: float, at: float) -> None:
    one = Part("one", mass, sugar=sugar * mass, alcohol=spirit * mass, temperature=at)
    drink = mixed((one, SODA))
    assert drink.mass == pytest.approx(mass + SODA.mass, rel=1e-12)
    assert drink.sugar == pytest.approx(sugar * mass, rel=1e-12)
    before = heat(one, at) + heat(SODA, SODA.temperature)
    assert heat(drink, drink.temperature) == pytest.approx(before, rel=1e-9)
    assert min(at, 277.15) - 1e-6 <= drink.temperature <= max(at, 277.15) + 1e-6


@pytest.mark.published
def test_ice_by_hand() -> None:
    # m [2.05·18 + 333.6 + 4.186·4] = 300 · 4.186 · 16: 51.9 g at −18 °C, 57.4 g of wet ice.
    drink = mixed((Part("water", 0.3, temperature=293.15),))
    assert 1e3 * ice_for(drink, 277.15, 255.15) == pytest.approx(51.9, abs=0.4)
    assert ice_for(drink, 277.15, 273.15) * 1e3 == pytest.approx(57.4, abs=0.4)
    end = chilled(drink, ice_for(drink, 277.15, 255.15), 255.15)
    assert end.drink.temperature == pytest.approx(277.15, abs=1e-6)
    assert end.dilution == pytest.approx(0.173, abs=0.002)


@pytest.mark.published
def test_heat_of_fusion() -> None:
    # Handbooks: 333.5 to 334 kJ/kg (for instance CRC 333.6).
    assert -ice_heat(273.15) == pytest.approx(333.6e3, rel=2e-3)


@pytest.mark.property
@given(st.floats(0.0, 0.6), st.floats(-25.0, 0.0), st.floats(0.0, 0.15))
def test_ice_conserves_mass_and_heat(ice: float, cold: float, sugar: float) -> None:
    drink = mixed((Part("drink", 0.4, sugar=0.4 * sugar, temperature=295.15),))
    at = cold + 273.15
    end = chilled(drink, ice, at)
    assert end.melted + end.left == pytest.approx(ice, abs=1e-12)
    assert end.drink.mass == pytest.approx(drink.mass + end.melted, rel=1e-12)
    before = heat(drink, drink.temperature) + ice * ice_heat(at)
    after = heat(end.drink, end.drink.temperature) + end.left * ice_heat(end.drink.temperature)
    assert after == pytest.approx(before, abs=1e-6 * float(np.mean(heat(drink, 295.15))))
    if end.left > 1e-9:
        assert end.drink.temperature == pytest.approx(end.drink.begins_to_freeze, abs=1e-6)


@pytest.mark.property
def test_more_ice_is_colder_and_thins_until_some_is_left() -> None:
    drink = mixed((LIME, SYRUP, SODA))
    end = chilled(drink, np.linspace(0.0, 0.02, 9), 255.15)
    assert np.all(np.diff(end.drink.temperature) < 0)
    assert np.all(np.diff(end.drink.brix) < 0)
    assert np.all(np.asarray(end.left) == 0.0)
    assert chilled(drink, 0.2, 255.15).left > 0.1
    assert chilled(drink, 0.2, 255.15).drink.temperature < 273.15


@pytest.mark.published
def test_sweetness_against_sucrose() -> None:
    # Public Health Nutrition 26(5), 952 (2022), table 2: fructose 1.7, dextrose 0.8, honey 1.0,
    # lactose 0.2; A Dictionary of Food and Nutrition: fructose 1.73, glucose 0.74, lactose 0.16.
    for name, printed in (
        ("fructose", 1.7), ("fructose", 1.73), ("glucose", 0.8), ("glucose", 0.74),
        ("honey", 1.0), ("lactose", 0.2), ("lactose", 0.16), ("sucrose", 1.0),
    ):  # fmt: skip
        known = relative_sweetness(name)
        assert known.low <= printed <= known.high
    low, high = sweetness({"fructose": 0.05, "sucrose": 0.05}, 1e-3)
    assert low == pytest.approx(50 * 2.17)
    assert high == pytest.approx(50 * 2.73)
    assert all(entry.low <= entry.high for entry in RELATIVE.values())
    with pytest.raises(OutOfRange, match="is not known"):
        relative_sweetness("moonshine")


@pytest.mark.property
@given(st.floats(4.0, 14.0), st.floats(1.0, 8.0), st.floats(0.1e-3, 2e-3))
def test_a_drink_made_to_measure_measures_so(brix: float, acid: float, volume: float) -> None:
    found = composed(SYRUP, LIME, SODA, brix=brix, acid=acid, volume=volume)
    drink = mixed(found)
    assert drink.brix == pytest.approx(brix, abs=1e-6)
    assert drink.acidity == pytest.approx(acid, abs=1e-6)
    assert drink.volume == pytest.approx(volume, rel=1e-6)
    (sweet, plain) = composed(SYRUP, None, SODA, brix=brix, acid=None, volume=volume)
    assert mixed((sweet, plain)).brix == pytest.approx(brix, abs=1e-6)


@pytest.mark.property
def test_a_part_scales_whole() -> None:
    half = scaled(LIME, 0.0307)
    assert half.acid == pytest.approx(0.5 * float(np.mean(LIME.acid)))
    pulp = scaled(Part("pulp", 0.1, sugar=0.01, water=0.08), 0.2)
    assert pulp.water == pytest.approx(0.16)
    assert pulp.other == pytest.approx(0.02)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="more than there is"):
        Part("odd", 0.1, sugar=0.2)
    with pytest.raises(OutOfRange, match="more than there is"):
        Part("odd", 0.1, sugar=0.08, water=0.08)
    with pytest.raises(OutOfRange, match="nothing to mix"):
        mixed(())
    with pytest.raises(OutOfRange, match="not a solution"):
        sucrose.density(95.0)
    with pytest.raises(OutOfRange, match="lighter"):
        sucrose.brix(990.0)
    with pytest.raises(OutOfRange, match="cannot give"):
        composed(SYRUP, LIME, SODA, brix=2.0, acid=40.0, volume=330e-6)
    with pytest.raises(OutOfRange, match="cannot give"):
        composed(WATER, None, SODA, brix=8.0, acid=None, volume=330e-6)
    with pytest.raises(OutOfRange, match="or colder"):
        chilled(mixed((WATER,)), 0.1, 280.0)
    with pytest.raises(OutOfRange, match="freeze the drink"):
        chilled(mixed((Part("water", 0.1, temperature=273.2),)), 5.0, 240.0)
    with pytest.raises(OutOfRange, match="Ice takes a drink"):
        ice_for(mixed((WATER,)), 300.0, 255.15)


def test_flags_of_solutions_and_spirits() -> None:
    assert sucrose.validity(10.0, 293.15) == ()
    assert [f.name for f in sucrose.validity(75.0, 293.15)] == ["undissolved"]
    assert [f.name for f in sucrose.validity(10.0, 340.0)] == ["outside-validity"]
    assert spirits.validity(0.4) == ()
    assert [f.name for f in spirits.validity(1.2)] == ["outside-validity"]
