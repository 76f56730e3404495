"""Likenesses: gas volumes, counts, cars as printed, drawings to scale."""

from __future__ import annotations

import re
from math import pi

import numpy as np
import pytest
from CoolProp import CoolProp

from counterproof.claims.figure import Figure
from counterproof.claims.likenesses import gas_volume, liken, likened, sphere_volume
from counterproof.claims.seen import Surroundings
from counterproof.draws import Streams
from counterproof.press.likenesses import PERSON, to_scale
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Tables

TWELVE_INCHES = 0.3048


@pytest.fixture
def around(tables: Tables) -> Surroundings:
    return Surroundings(Kitchen(region="uk"), tables, Streams(seed=1, n=100))


def exact(value: float, unit: str) -> Figure:
    return Figure.exact(value, unit, 100)  # type: ignore[arg-type]


@pytest.mark.published
@pytest.mark.parametrize("celsius", [0.0, 20.0, 30.0])
def test_gas_volumes_follow_the_density_of_coolprop(celsius: float) -> None:
    # Span & Wagner (1996) as CoolProp computes it, at 1 atm.
    density = CoolProp.PropsSI("D", "T", 273.15 + celsius, "P", 101325, "CO2")
    assert 1 / gas_volume(1.0, 273.15 + celsius) == pytest.approx(density, rel=2e-4)


@pytest.mark.published
def test_a_kilogram_of_carbon_dioxide_at_room_temperature() -> None:
    # 1.8393 kg/m³ at 20 °C and 1 atm (Span & Wagner 1996, through CoolProp 8.0.0).
    assert 1 / gas_volume(1.0, 293.15) == pytest.approx(1.8393, abs=1e-4)


@pytest.mark.parametrize(
    ("kilograms", "celsius", "least", "most"),
    [
        # Facts of the trade, common practice with no source: 0.8 kg and 1.9 kg at 0 °C and 1 atm
        # fill about 27 to 28 and 65 twelve-inch balloons; 7.4 kg fill 252 by a real-gas equation.
        (0.8, 0.0, 27, 28),
        (1.9, 0.0, 64.5, 65.5),
        (7.4, 0.0, 251.5, 252.9),
        (0.8, 20.0, 29, 29.5),
    ],
)
def test_balloons(
    around: Surroundings, kilograms: float, celsius: float, least: float, most: float
) -> None:
    there = Surroundings(around.kitchen, around.tables, around.streams, 273.15 + celsius)
    seen = likened(exact(kilograms, "kg CO2"), "balloon", there)
    assert seen is not None
    assert least <= seen.count.mean <= most
    assert seen.conditions[0].startswith(f"{celsius:.0f} °C and 1 atm")


@pytest.mark.published
def test_an_ideal_gas_would_fill_more_balloons() -> None:
    # Common practice: about 254 for 7.4 kg at 0 °C by the ideal gas, p V = n R T.
    ideal = 7.4 / 0.0440095 * 8.314462618 * 273.15 / 101325
    assert ideal / sphere_volume(TWELVE_INCHES) == pytest.approx(254, abs=0.5)


def test_a_ball_is_a_ball() -> None:
    assert sphere_volume(2.0) == pytest.approx(4 / 3 * pi)


@pytest.mark.published
def test_car_distances_reproduce_the_printed_factors(tables: Tables) -> None:
    rows = {row.region: row for row in tables.likenesses["car"]}
    # UK government conversion factors 2024: average car, unknown fuel, 0.16691 kg CO2e/km, and
    # 0.04399 from well to tank.
    assert rows["uk"].value == pytest.approx(0.16691 + 0.04399, abs=5e-6)
    # US EPA Greenhouse Gas Equivalencies Calculator, vintage 2024: 0.393 kg CO2e/mile, which is
    # 4.29 t a year over 10,917 miles.
    assert rows["us"].value == 0.393
    assert pytest.approx(rows["us"].value, abs=5e-4) == 4290 / 10_917


def test_only_counts_that_can_be_pictured_are_offered(around: Surroundings) -> None:
    for kilograms in (0.0005, 0.05, 0.5, 7.5, 500.0):
        for seen in liken(exact(kilograms, "kg CO2e"), around):
            assert 1 <= seen.count.mean <= 300, seen.sentence


def test_a_gas_that_only_stands_for_others_says_so(around: Surroundings) -> None:
    worn = likened(exact(0.5, "kg CO2e"), "balloon", around)
    real = likened(exact(0.5, "kg CO2"), "balloon", around)
    assert worn is not None
    assert "warm as much over 100 years" in worn.warning
    assert real is not None
    assert not real.warning


def test_kettles_follow_the_kitchen(tables: Tables) -> None:
    streams = Streams(seed=1, n=100)
    cold, warm = (
        likened(
            exact(0.5, "kg CO2e"),
            "kettle",
            Surroundings(Kitchen(region="uk", tap_celsius=tap), tables, streams),
        )
        for tap in (5.0, 20.0)
    )
    assert cold is not None
    assert warm is not None
    assert cold.count.mean < warm.count.mean


def test_a_days_food_is_only_said_where_a_source_is(tables: Tables) -> None:
    streams = Streams(seed=1, n=100)
    here = {
        region: likened(
            exact(9.0, "kg CO2e"),
            "day of food",
            Surroundings(Kitchen(region=region), tables, streams),
        )
        for region in ("us", "uk")
    }
    assert here["uk"] is None
    assert here["us"] is not None
    assert here["us"].source == "hitaj-2019"


@pytest.mark.property
def test_twice_as_much_is_twice_as_many(around: Surroundings) -> None:
    one = likened(exact(1.0, "kg CO2"), "balloon", around)
    two = likened(exact(2.0, "kg CO2"), "balloon", around)
    assert one is not None
    assert two is not None
    assert two.count.mean == pytest.approx(2 * one.count.mean)


def test_a_drawing_is_to_scale_for_a_pair(around: Surroundings) -> None:
    balloons = likened(exact(0.5, "kg CO2e"), "balloon", around)
    more = likened(exact(7.5, "kg CO2e"), "balloon", around)
    assert balloons is not None
    assert more is not None
    drawn = to_scale([balloons, more], "A bowl, and a bowl with beef")
    radii = {float(radius) for radius in re.findall(r' rx="([\d.]+)"', drawn)}
    assert len(radii) == 1
    assert drawn.count("<ellipse") == round(balloons.count.mean) + round(more.count.mean)
    # The person's staff: 1.7 m against a balloon of 0.3048 m.
    ends = [float(y) for y in re.findall(r'y[12]="([\d.]+)" stroke="#2457b5"', drawn)]
    person = max(ends) - min(ends)
    assert person / (2 * radii.pop()) == pytest.approx(PERSON / TWELVE_INCHES, rel=0.01)


def test_what_has_no_shape_is_not_drawn(around: Surroundings) -> None:
    car = likened(exact(0.5, "kg CO2e"), "car", around)
    assert car is not None
    with pytest.raises(ValueError, match="no shape"):
        to_scale([car], "A drive")


def test_a_range_of_draws_gives_a_range_of_things(around: Surroundings) -> None:
    spread = Figure(np.linspace(0.2, 0.6, 100), 0.4, "kg CO2e")
    seen = likened(spread, "balloon", around)
    assert seen is not None
    assert seen.count.p05 < seen.count.mean < seen.count.p95
    assert isinstance(seen.to_dict()["count"], dict)
