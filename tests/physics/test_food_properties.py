"""Foods from their makeup: printed coefficients, worked densities, ice."""

from __future__ import annotations

import numpy as np
import pytest

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties as food
from counterproof.physics import frozen

# Choi & Okos (1986) as printed in the ASHRAE Handbook, Refrigeration (2006), ch. 9, tables 1–2,
# evaluated by hand at 20 °C: a0 + 20 a1 + 400 a2, to the printed digits of the coefficients.
AT_20 = {
    "water": (995.7399, 4129.272, 0.60365856),
    "protein": (1319.532, 2031.8528, 0.20163888),
    "fat": (917.2386, 2011.7457, 0.17511820),
    "carbohydrate": (1592.8908, 1585.6740, 0.22742552),
    "fibre": (1304.1822, 1880.6516, 0.20703668),
    "ash": (2418.1874, 1128.9193, 0.35647924),
    "ice": (914.2758, 2183.838, 2.135238),
}
MILK = {"water": 88.13, "protein": 3.15, "fat": 3.25, "ash": 0.67, "carbohydrate": 4.80}
BEEF = food.makeup({"water": 0.70, "protein": 0.22, "fat": 0.07, "ash": 0.01})
FREEZING = 271.4


@pytest.mark.published
@pytest.mark.parametrize("name", AT_20)
def test_components_are_as_printed(name: str) -> None:
    density, heat, conductivity = AT_20[name]
    pure = {name: 1.0}
    assert food.density(pure, 293.15) == pytest.approx(density, rel=1e-6)
    assert food.heat_capacity(pure, 293.15) == pytest.approx(heat, rel=1e-6)
    assert food.conductivity(pure, 293.15).parallel == pytest.approx(conductivity, rel=1e-6)


@pytest.mark.published
def test_worked_density_of_an_aqueous_mix() -> None:
    # Water 0.83, protein 0.12, carbohydrate 0.05 at 22 °C: 1.0458e+03 kg/m³, worked example of
    # a food-engineering course (ABE 557, function rhonew).
    mix = food.makeup({"water": 0.83, "protein": 0.12, "carbohydrate": 0.05})
    assert food.density(mix, 295.15) == pytest.approx(1045.8, abs=0.05)


@pytest.mark.published
@pytest.mark.parametrize(
    ("shares", "kelvin", "low", "high"),
    [
        # Heat capacities of unfrozen foods as handbooks print them, kJ/(kg K), ±0.1, from memory
        # (ASHRAE Refrigeration ch. 9 table 3): whole milk 3.89, lean beef 3.5, apple 3.8.
        (MILK, 278.15, 3790, 3990),
        ({"water": 0.70, "protein": 0.22, "fat": 0.07, "ash": 0.01}, 278.15, 3340, 3600),
        ({"water": 0.84, "protein": 0.003, "carbohydrate": 0.128, "fibre": 0.027, "ash": 0.002},
         278.15, 3700, 3900),
    ],
)  # fmt: skip
def test_heat_capacities_are_near_the_handbook(
    shares: food.Makeup, kelvin: float, low: float, high: float
) -> None:
    assert low < food.heat_capacity(food.makeup(shares), kelvin) < high


@pytest.mark.frozen
def test_milk_by_the_reference_computation() -> None:
    milk = food.makeup(MILK)
    assert food.density(milk, 293.15) == pytest.approx(1023.2, abs=0.1)
    assert food.heat_capacity(milk, 293.15) == pytest.approx(3852, abs=0.5)
    assert food.conductivity(milk, 293.15).parallel == pytest.approx(0.5660, abs=1e-4)
    assert food.conductivity(milk, 293.15).series == pytest.approx(0.5071, abs=1e-4)


@pytest.mark.property
def test_pores_make_food_lighter_and_a_worse_conductor() -> None:
    milk = food.makeup(MILK)
    dense, open_ = (food.conductivity(milk, 293.15, porosity) for porosity in (0.0, 0.6))
    assert food.density(milk, 293.15, 0.6) == pytest.approx(0.4 * food.density(milk, 293.15))
    assert open_.parallel < dense.parallel
    assert open_.series < open_.between < open_.parallel


@pytest.mark.property
def test_enthalpy_is_the_integral_of_the_apparent_heat_capacity() -> None:
    kelvin = np.linspace(235.0, FREEZING - 1e-6, 400_001)
    heat = np.asarray(frozen.enthalpy(BEEF, kelvin, FREEZING))
    capacity = frozen.apparent_heat_capacity(BEEF, kelvin, FREEZING)
    assert np.trapezoid(capacity, kelvin) == pytest.approx(heat[-1] - heat[0], rel=1e-6)
    assert np.all(np.diff(heat) > 0)


@pytest.mark.property
def test_ice_grows_from_nothing_and_never_exceeds_what_can_freeze() -> None:
    kelvin = np.linspace(233.15, 300.0, 500)
    ice = np.asarray(frozen.ice_fraction(BEEF, kelvin, FREEZING))
    assert np.all(ice[kelvin >= FREEZING] == 0)
    assert np.all(np.diff(ice) <= 0)
    assert ice.max() < 0.70 - 0.4 * 0.22
    split = frozen.frozen_makeup(BEEF, kelvin, FREEZING)
    assert np.allclose(sum(split.values()), 1.0)


@pytest.mark.published
def test_heat_of_freezing_beef_is_near_the_latent_heat_of_the_handbook() -> None:
    # Lean beef, latent heat 233–244 kJ/kg (ASHRAE Refrigeration ch. 9 table 3, from memory; the
    # reference's worked example uses 243.5). What freezes by −20 °C must lie below that.
    ice = frozen.ice_fraction(BEEF, 253.15, FREEZING)
    assert 175e3 < 333.4e3 * ice < 244e3


@pytest.mark.published
def test_ice_in_a_carcass_is_near_the_handbooks_worked_example() -> None:
    # ASHRAE Refrigeration (2006) ch. 9, example 1 (from memory): a 150 kg beef carcass of 58.21 %
    # water and 17.48 % protein, freezing point −1.7 °C, holds 78 kg of ice at −20 °C by Tchigeov's
    # equation. Chen's, used here, gives 70 kg: the two differ by a tenth, and so do we.
    carcass = {"water": 0.5821, "protein": 0.1748, "fat": 0.2405, "ash": 0.0026}
    ice = 150 * frozen.ice_fraction(carcass, 253.15, 271.45)
    assert ice == pytest.approx(78.0, rel=0.11)
    assert ice < 78.0


def test_a_nutrient_tables_line_becomes_a_makeup() -> None:
    # Per 100 g: fibre sits inside the carbohydrate, alcohol is counted as water.
    line = {"water": 80.0, "protein": 2.0, "fat": 1.0, "carbohydrate": 12.0, "fibre": 3.0,
            "ash": None, "alcohol": 5.0}  # fmt: skip
    found = food.from_analysis(line)
    assert found["water"] == pytest.approx(0.85)
    assert found["carbohydrate"] == pytest.approx(0.09)
    assert found["fibre"] == pytest.approx(0.03)
    assert sum(found.values()) == pytest.approx(1.0)
    # Salt cod: what the table's line leaves out is its salt.
    salted = food.from_analysis({"water": 16.0, "protein": 63.0, "fat": 2.4})
    assert salted["ash"] == pytest.approx(0.186)
    with pytest.raises(OutOfRange, match="add up"):
        food.from_analysis({"water": 20.0})


def test_impossible_makeups_are_refused() -> None:
    with pytest.raises(OutOfRange, match="alcohol"):
        food.makeup({"water": 0.6, "alcohol": 0.4})
    with pytest.raises(OutOfRange, match="add up"):
        food.makeup({"water": 0.6})
    with pytest.raises(OutOfRange, match="below 0 °C"):
        frozen.ice_fraction(BEEF, 260.0, 273.15)


def test_leaving_the_valid_range_raises_a_flag_and_keeps_the_value() -> None:
    assert food.validity(423.15, BEEF) == ()
    (flag,) = food.validity(423.2, BEEF)
    assert flag.name == "outside-validity"
    assert "150" in flag.message
    assert food.heat_capacity(BEEF, 430.0) > food.heat_capacity(BEEF, 420.0)
    assert [flag.name for flag in food.validity(263.15, BEEF)] == ["not-frozen"]
    assert frozen.validity(233.15) == ()
    assert frozen.validity(233.0)[0].name == "outside-validity"
