"""Heat up, hold, boil off: conservation, an independent integration, printed lid and hob tests."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from counterproof.errors import OutOfRange
from counterproof.physics import boiling, food_properties, heating, simmering, vessels, water
from counterproof.physics.air import Room
from counterproof.physics.heating import Contents, Stove
from counterproof.physics.vessels import Leaks
from counterproof.sourced import Sourced

ROOM = Room.of(293.15, 0.5)
BOIL = float(boiling.boiling_point(0.0))
STEW = food_properties.makeup({"water": 0.8, "protein": 0.08, "fat": 0.04, "carbohydrate": 0.08})


def _stove(litres: float, *, covered: bool, diameter: float | None = None, **leaks: float) -> Stove:
    pot = vessels.pot_for(litres / 1000, diameter=diameter, covered=covered)
    return Stove(pot, ROOM, BOIL, Leaks(**leaks))


@pytest.mark.property
@pytest.mark.parametrize("covered", [True, False])
def test_power_times_time_is_heat_taken_up_plus_losses(*, covered: bool) -> None:
    rng = np.random.default_rng(5)
    draws = Leaks(rng.uniform(0.7, 1.3, 500), rng.random(500), rng.uniform(0.02, 0.3, 500))
    stove = replace(_stove(2.0, covered=covered), leaks=draws)
    warm = heating.heat_up(
        Contents(1.5, 0.5, STEW), stove, 285.15, BOIL, rng.uniform(1200, 2400, 500)
    )
    parts = warm.useful + warm.vessel + warm.dry + warm.latent
    assert np.max(np.abs(parts / warm.delivered - 1)) < 1e-6


@pytest.mark.property
@pytest.mark.parametrize(("covered", "power"), [(True, 600.0), (False, 900.0), (False, 1500.0)])
def test_time_agrees_with_small_steps_of_the_same_balance(*, covered: bool, power: float) -> None:
    # An independent integration: dT/dt = (P − losses)/C in explicit midpoint steps of 0.2 s.
    contents, stove = Contents(1.0, 0.4, STEW), _stove(1.4, covered=covered)

    def rate(temperature: float) -> float:
        dry, vapour = stove.losses(temperature)
        lost = dry + vapour * water.latent_heat(temperature)
        capacity = contents.heat_capacity(temperature) + stove.pot.heat_capacity
        return float((power - lost) / capacity)

    temperature, time, step = 288.15, 0.0, 0.2
    while temperature < 368.15:
        temperature += step * rate(temperature + 0.5 * step * rate(temperature))
        time += step
    warm = heating.heat_up(contents, stove, 288.15, 368.15, power)
    assert warm.time == pytest.approx(time, rel=1e-3)


@pytest.mark.property
def test_more_power_a_lid_and_less_food_are_faster() -> None:
    def time(power: float = 1500.0, litres: float = 1.5, *, covered: bool = True) -> float:
        stove = _stove(1.5, covered=covered)
        return float(heating.heat_up(Contents(litres), stove, 288.15, BOIL, power).time)

    assert time(2000.0) < time() < time(1000.0)
    assert time(litres=1.0) < time() < time(covered=False)


@pytest.mark.property
def test_power_for_a_wanted_time_brings_that_time() -> None:
    contents = Contents(2.0)
    for covered, seconds in ((True, 400.0), (True, 3600.0), (False, 700.0), (False, 20_000.0)):
        stove = _stove(2.0, covered=covered)
        power = heating.power_for(contents, stove, 288.15, BOIL, seconds)
        again = heating.heat_up(contents, stove, 288.15, BOIL, power)
        assert again.time == pytest.approx(seconds, rel=1e-6)


@pytest.mark.property
def test_a_frozen_start_takes_its_latent_heat_and_keeps_the_balance() -> None:
    # A kilogram of ice from −20 °C, by hand: ice to 0 °C 40.0 kJ (20 K at 2.0623 − 0.0608
    # kJ/(kg K)), melting 333.4 kJ, water to 50 °C 209.2 kJ.
    ice = Contents(1.0)
    assert ice.heat(253.15, 323.15) == pytest.approx(40.0e3 + 333.4e3 + 209.2e3, rel=1e-3)
    for contents in (ice, Contents(0.3, 0.8, STEW)):
        stove = _stove(1.0, covered=True)
        warm = heating.heat_up(contents, stove, 253.15, 350.0, 1500.0)
        parts = warm.useful + warm.vessel + warm.dry + warm.latent
        assert parts == pytest.approx(warm.delivered, rel=1e-9)
        power = heating.power_for(contents, stove, 253.15, 350.0, warm.time)
        assert power == pytest.approx(1500.0, rel=1e-6)
        thawed = heating.heat_up(contents, stove, 273.15, 350.0, 1500.0)
        assert warm.time > 1.5 * thawed.time
    with pytest.raises(OutOfRange, match="ends frozen"):
        heating.heat_up(ice, _stove(1.0, covered=True), 253.15, 263.15, 1500.0)


@pytest.mark.property
def test_draws_are_what_single_questions_answer_one_by_one() -> None:
    powers = np.array([900.0, 1500.0, 2500.0])
    stove = _stove(2.0, covered=False)
    together = np.asarray(heating.heat_up(Contents(2.0), stove, 288.15, 360.0, powers).time)
    for power, time in zip(powers, together, strict=True):
        alone = heating.heat_up(Contents(2.0), stove, 288.15, 360.0, float(power)).time
        assert alone == pytest.approx(time, rel=1e-12)


@pytest.mark.published
@pytest.mark.parametrize(
    ("litres", "diameters", "covered_s", "ratio"),
    [
        # Covered against uncovered, same burner. 2 and 8 US quarts: 10:30 to 13:20, 26:20 to
        # 34:42 (magazine kitchen test, 2012). 1 L on a strong flame: 4:49 to 5:05 (MacKay 2008,
        # How much is inside hot water?, part 5). Diameters are not printed: saucepans of 18–22,
        # stock pots of 26–30, small pans of 14–18 cm. The net power is what the covered time
        # asks for. The magazine's two sit near the high estimate, MacKay's in the middle.
        (1.89, (0.18, 0.22), 630.0, 800 / 630),
        (7.57, (0.26, 0.30), 1580.0, 2082 / 1580),
        (1.0, (0.14, 0.18), 289.0, 305 / 289),
    ],
)
def test_lid_tests_lie_between_the_two_estimates_of_evaporation(
    litres: float, diameters: tuple[float, float], covered_s: float, ratio: float
) -> None:
    found = []
    for between, diameter in zip((0.0, 1.0), diameters, strict=True):
        lidded = _stove(litres, covered=True, diameter=diameter, between=between)
        power = heating.power_for(Contents(litres), lidded, 288.15, BOIL, covered_s)
        bare = _stove(litres, covered=False, diameter=diameter, between=between)
        time = heating.heat_up(Contents(litres), bare, 288.15, BOIL, power).time
        found.append(float(time) / covered_s)
    assert found[0] < ratio < found[1]


@pytest.mark.published
def test_a_hundred_watts_boil_off_a_sixth_of_a_kilogram_an_hour() -> None:
    # 0.1595 kg/h per 100 W net, from h_fg = 2256.4 kJ/kg (IAPWS-95).
    stove = _stove(1.0, covered=False)
    dry = simmering.full_boil(stove, 0.0).dry
    boiled = simmering.full_boil(stove, 100.0 + dry)
    assert 3600 * boiled.evaporation == pytest.approx(0.1595, abs=1e-4)


@pytest.mark.published
def test_heat_of_a_label_test_load() -> None:
    # EN 60350-2 heats from 15 to 90 °C: 87 Wh per kg of water in theory (from memory), and
    # 356.0 kJ/kg from 15 to 100 °C by IAPWS-95.
    assert water.sensible_heat(288.15, 363.15) / 3600 == pytest.approx(87.0, abs=0.3)
    assert water.sensible_heat(288.15, 373.15) == pytest.approx(356.0e3, rel=5e-4)


@pytest.mark.property
def test_holding_power_is_what_leaves() -> None:
    stove = _stove(4.0, covered=True, diameter=0.22)
    kept = simmering.hold(stove, 368.15)
    latent = kept.evaporation * water.latent_heat(368.15)
    assert kept.power == pytest.approx(kept.dry + latent, rel=1e-12)
    uncovered = simmering.hold(_stove(4.0, covered=False, diameter=0.22), 368.15)
    assert uncovered.power > 2 * kept.power
    assert simmering.hold(stove, 358.15).power < kept.power


def test_questions_without_an_answer_say_what_would_help() -> None:
    stove = _stove(5.0, covered=False, diameter=0.3)
    with pytest.raises(OutOfRange, match="lid"):
        heating.heat_up(Contents(5.0), stove, 288.15, BOIL, 150.0)
    with pytest.raises(OutOfRange, match="warmer than it starts"):
        heating.heat_up(Contents(5.0), stove, 320.0, 310.0, 1500.0)
    with pytest.raises(OutOfRange, match=r"100\.0 °C"):
        heating.heat_up(Contents(5.0), stove, 288.15, 375.0, 1500.0)
    with pytest.raises(OutOfRange, match="room"):
        simmering.hold(stove, 290.0)
    with pytest.raises(OutOfRange, match="Materials"):
        vessels.pot_for(0.001, material="paper")
    with pytest.raises(OutOfRange, match="above zero"):
        vessels.pot_for(0.0)


def test_evaporation_next_to_the_boil_says_how_it_is_counted() -> None:
    stove = _stove(1.0, covered=False)
    limit = BOIL - vessels.NEAR_BOIL.value
    assert vessels.near_boil(limit, BOIL) == ()
    assert vessels.near_boil(limit + 0.1, BOIL)[0].level == "note"
    below, at_boil = (stove.losses(t)[1] for t in (limit, BOIL))
    assert at_boil == pytest.approx(below, rel=1e-12)


def test_a_pot_takes_the_size_of_what_is_in_it() -> None:
    pot = vessels.pot_for(0.004)
    assert 0.2 < pot.diameter < 0.28
    assert pot.mouth * pot.depth == pytest.approx(0.004)
    assert vessels.pot_for(0.004, mass=1.0).heat_capacity == pytest.approx(490.0)
    assert all(isinstance(heat, Sourced) for heat in vessels.MATERIAL_HEAT.values())
