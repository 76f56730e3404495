"""Dishes that cool: an exact case, heat balances, the reference's own runs, laws."""

from __future__ import annotations

from dataclasses import replace
from math import log

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics.air import Room
from counterproof.physics.containers import SHALLOW, Kind, container
from counterproof.physics.cooling import History, mixed
from counterproof.physics.cooling_lanes import ENDS, Lanes
from counterproof.physics.cooling_scene import Dish, Run, Spot, run
from counterproof.physics.exchange import Exchange, Surroundings, exchange
from counterproof.physics.fridge import fridge_of
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place
from counterproof.physics.values import ZERO_CELSIUS as ZERO
from counterproof.physics.vessels import Leaks, Pot

COLD = ZERO + 5.0
ONE = Lanes(np.array([1.0]))
KINDS: tuple[Kind, Kind] = ("pot", "jar")


def constant(per_degree: float, heat: float, *, start: float = 95.0, cold: float = 3.0) -> Exchange:
    """Surroundings that take the same heat per degree at every temperature."""
    table = np.empty((3, 1, 3))
    table[:] = (per_degree, 0.0, heat)
    around = np.array([ZERO + cold])
    return Exchange(around, np.array([start - cold]), table, np.array([0.1]))


@pytest.mark.property
def test_constant_heat_transfer_gives_the_exponential() -> None:
    # t = m c/(h A) ln[(T1 − Ta)/(T2 − Ta)], the exact solution of the balance.
    found = mixed(constant(1.5, 4000.0), ZERO + 95.0, COLD)
    for level in (57.0, 21.0, 5.0):
        exact = 4000.0 / 1.5 * log((95.0 - 3.0) / (level - 3.0))
        assert float(found.until(ZERO + level)[0]) == pytest.approx(exact, rel=3e-4)


@pytest.mark.property
def test_halving_the_stride_changes_hardly_anything() -> None:
    table = exchange(container("pot", 0.004), Contents(4.0), _room(3.0), ZERO + 95.0, Leaks())
    coarse = mixed(table, ZERO + 95.0, COLD).until(COLD)
    fine = mixed(table, ZERO + 95.0, COLD, stride=0.005).until(COLD)
    assert coarse == pytest.approx(fine, rel=1e-3)


def _room(celsius: float) -> Surroundings:
    return Surroundings("room", Room.of(ZERO + celsius, 0.5))


@pytest.mark.frozen
@pytest.mark.parametrize(
    ("diameter", "depth", "mass", "cold", "hours"),
    [
        # Runs of the same model with exact air and water (the kitchen reference, "computed here"):
        # hours to 60, 57, 21, 10 and 5 °C from 95 °C; vessel's mass left out, emissivity 0.9.
        (0.085, 0.10, 0.5, 3.0, (0.53, 0.60, 2.09, 3.64, 6.05)),
        (0.22, 0.11, 4.0, 3.0, (1.12, 1.26, 4.43, 7.70, 12.73)),
        (0.18, 0.04, 1.0, 3.0, (0.56, 0.63, 2.20, 3.81, 6.29)),
        (0.22, 0.11, 4.0, 20.0, (1.49, 1.69)),
    ],
)
def test_the_references_runs_come_out(
    diameter: float, depth: float, mass: float, cold: float, hours: tuple[float, ...]
) -> None:
    pot = Pot(diameter, depth, 0.0, "steel", covered=True, emissivity=0.9)
    table = exchange(pot, Contents(mass), _room(cold), ZERO + 95.0, Leaks(lid=0.0))
    found = mixed(table, ZERO + 95.0, COLD)
    for celsius, expected in zip((60, 57, 21, 10, 5), hours, strict=False):
        # The reference kept one heat capacity (half a per cent), and prints two decimals.
        until = float(found.until(ZERO + celsius)[0]) / 3600.0
        assert until == pytest.approx(expected, abs=0.005 * expected + 0.005)


@pytest.mark.property
@pytest.mark.parametrize("covered", [True, False])
def test_heat_given_off_is_heat_lost(covered: bool) -> None:
    pot = container("pot", 0.003, covered=covered)
    contents = Contents(3.0)
    table = exchange(pot, contents, _room(18.0), ZERO + 92.0, Leaks(lid=0.0))
    found = mixed(table, ZERO + 92.0, ZERO + 21.0)
    end = found.history.temperatures[-1]
    held = contents.heat(end, ZERO + 92.0) + pot.heat_capacity * (ZERO + 92.0 - end)
    assert found.dry + found.latent == pytest.approx(found.given_up, rel=1e-9)
    assert found.given_up == pytest.approx(held, rel=1e-6)
    assert (found.latent > 0.0).all() == (not covered)


@pytest.mark.property
def test_a_fridges_heat_adds_up() -> None:
    fridge = fridge_of(250.0, 150.0, ZERO + 20.0)
    table = exchange(container("pot", 0.004), Contents(4.0), _room(4.0), ZERO + 90.0, Leaks())
    found = mixed(table, ZERO + 90.0, COLD, fridge=fridge, portions=2.0)
    came = 2.0 * (found.dry + found.latent) + found.leaked_in
    assert found.moved_out + found.stored == pytest.approx(came, rel=1e-6)
    longest = float(found.history.seconds[-1][0])
    # The compressor cannot move out more than it can while running all the time.
    assert 0.0 < float(found.moved_out[0]) <= fridge.strength * longest
    assert float(found.peak[0]) > ZERO + 5.0
    calm = mixed(table, ZERO + 90.0, COLD)
    assert float(found.until(ZERO + 10.0)[0]) > float(calm.until(ZERO + 10.0)[0])


@pytest.mark.property
def test_a_cold_small_dish_leaves_the_fridge_as_it_is() -> None:
    fridge = fridge_of(250.0, 150.0, ZERO + 20.0)
    table = exchange(container("jar", 0.0002), Contents(0.2), _room(4.0), ZERO + 25.0, Leaks())
    found = mixed(table, ZERO + 25.0, COLD, fridge=fridge)
    assert found.peak == pytest.approx(ZERO + 4.0)
    assert found.stored == pytest.approx(0.0, abs=1e-6)


@pytest.mark.property
@settings(deadline=None, max_examples=25)
@given(
    litres=st.floats(0.2, 8.0),
    grown=st.floats(1.1, 3.0),
    kind=st.sampled_from(["pot", "jar", "bottle"]),
    flow=st.sampled_from(["thin", "thick"]),
)
def test_more_in_a_vessel_of_the_same_kind_takes_longer(
    litres: float, grown: float, kind: str, flow: str
) -> None:
    dish = Dish(litres / 1000.0, kind, flow=flow)  # type: ignore[arg-type]  # (drawn text)
    more = replace(dish, volume=dish.volume * grown)
    assert _hours(more) > _hours(dish)


@pytest.mark.property
@settings(deadline=None, max_examples=25)
@given(
    depth=st.floats(0.01, 0.15), grown=st.floats(1.1, 2.0), flow=st.sampled_from(["thin", "thick"])
)
def test_deeper_in_a_vessel_of_the_same_width_takes_longer(
    depth: float, grown: float, flow: str
) -> None:
    area = 0.05
    dish = Dish(area * depth, "tray", depth=depth, flow=flow)  # type: ignore[arg-type]  # (as above)
    deeper = replace(dish, volume=area * depth * grown, depth=depth * grown)
    assert _hours(deeper) > _hours(dish)


def _hours(dish: Dish, spot: Spot | None = None) -> float:
    spot = spot or Spot(temperature=ZERO + 3.0)
    return float(run(dish, spot, ZERO + 90.0, COLD, ONE).spans([(ZERO + 57.0, COLD)])[0, 0]) / 3600


@pytest.mark.property
@pytest.mark.parametrize("flow", ["thin", "thick"])
@pytest.mark.parametrize("stirred", [True, False])
def test_an_ice_bath_beats_the_fridge_and_the_fridge_the_room(flow: str, stirred: bool) -> None:
    dish = Dish(0.003, "pot", flow=flow, stirred=stirred)  # type: ignore[arg-type]  # (as above)
    pairs = [(ZERO + 57.0, ZERO + 25.0)]
    ice, fridge, room = (
        float(run(dish, spot, ZERO + 90.0, ZERO + 21.0, ONE).spans(pairs)[0, 0])
        for spot in (Spot("ice-bath"), Spot(temperature=ZERO + 4.0), Spot("room"))
    )
    assert ice < fridge < room


@pytest.mark.published
def test_a_tray_in_iced_water_gives_its_heat_to_the_bottom() -> None:
    """Carslaw & Jaeger (1959), 3.3: a slab cooled from one face alone, the other insulated.

    First term at the insulated face, 4/π exp(−π²/4 Fo): from (57 − 1)/56 to (21 − 1)/56 above a
    face held at 1 °C, Fo = 0.515; 5 cm of a food of 1.4·10⁻⁷ m²/s takes 2.55 h. A wall, its films
    and a tray that is no endless slab may move that by a half, not fourfold.
    """
    dish = Dish(0.0048, "tray", depth=0.05, flow="thick")
    pairs = [(ZERO + 57.0, ZERO + 21.0)]
    hours = float(run(dish, Spot("ice-bath"), ZERO + 57.0, ZERO + 5.0, ONE).spans(pairs)[0, 0])
    assert 2.55 * 0.7 < hours / 3600.0 < 2.55 * 1.5


@pytest.mark.property
def test_uncovered_moved_air_and_a_shelf_cool_faster() -> None:
    room = Spot("room", open_below=False)
    dish = Dish(0.003, "pot", stirred=True)
    pairs = [(ZERO + 57.0, ZERO + 25.0)]

    def minutes(of: Dish, at: Spot) -> float:
        return float(run(of, at, ZERO + 90.0, ZERO + 21.0, ONE).spans(pairs)[0, 0]) / 60.0

    plain = minutes(dish, room)
    assert minutes(replace(dish, covered=False), room) < plain
    assert minutes(dish, replace(room, speed=2.0)) < plain
    assert minutes(dish, replace(room, open_below=True)) < plain


@pytest.mark.property
def test_a_thick_food_is_never_faster_than_a_mixed_one() -> None:
    spot = Spot(temperature=ZERO + 3.0)
    for litres in (0.1, 0.5, 2.0, 8.0):
        thick = run(Dish(litres / 1000, "jar", flow="thick"), spot, ZERO + 90.0, COLD, ENDS)
        thin = run(Dish(litres / 1000, "jar", stirred=True), spot, ZERO + 90.0, COLD, ENDS)
        for level in (57.0, 21.0, 6.0):
            slow, fast = (each.until_each((ZERO + level,))[0] for each in (thick, thin))
            assert (slow >= fast).all()


@pytest.mark.property
def test_a_thin_thick_food_cools_like_a_mixed_one() -> None:
    # 2 mm of porridge: conduction is no limit.
    spot = Spot(temperature=ZERO + 3.0)
    thick = _hours(Dish(0.0001, "tray", depth=0.002, flow="thick"), spot)
    thin = _hours(Dish(0.0001, "tray", depth=0.002, stirred=True), spot)
    assert thick == pytest.approx(thin, rel=0.03)


@pytest.mark.property
def test_ends_are_in_order_and_a_thin_liquid_left_alone_spans_both_models() -> None:
    spot = Spot(temperature=ZERO + 3.0)
    pairs = [(ZERO + 57.0, ZERO + 21.0)]
    dishes = (
        Dish(0.004, "pot"),
        Dish(0.004, "pot", stirred=True),
        Dish(0.004, "pot", flow="thick"),
    )
    alone, stirred, thick = (
        run(dish, spot, ZERO + 95.0, COLD, ENDS).spreads(pairs)[0] for dish in dishes
    )
    for spread in (alone, stirred, thick):
        assert spread.p05 < spread.p50 < spread.p95
        assert spread.p05 < spread.mean < spread.p95
    assert alone.p05 == pytest.approx(stirred.p05)
    assert alone.p95 == pytest.approx(thick.p95)


@pytest.mark.property
def test_twice_the_heat_transfer_is_about_half_the_time() -> None:
    dish = Dish(0.002, "jar", stirred=True)
    lanes = Lanes(np.array([0.7, 1.4]))
    cooled = run(dish, Spot("room"), ZERO + 90.0, ZERO + 21.0, lanes)
    slow, fast = cooled.until_each((ZERO + 40.0,))[0]
    assert slow / fast == pytest.approx(2.0, rel=1e-3)


def test_a_goal_below_the_surroundings_is_never_reached() -> None:
    cooled = run(Dish(0.001, "jar"), Spot("room"), ZERO + 90.0, COLD, ENDS)
    assert isinstance(cooled, Run)
    assert np.isinf(cooled.until_each((COLD,))[0]).all()
    assert np.isfinite(cooled.until_each((ZERO + 21.0,))[0]).all()


def test_a_food_no_warmer_than_its_surroundings_is_refused() -> None:
    with pytest.raises(OutOfRange, match="no warmer"):
        run(Dish(0.001), Spot("room"), ZERO + 20.0, COLD, ENDS)


def test_sizes_that_contradict_each_other_are_refused() -> None:
    with pytest.raises(OutOfRange, match="that holds"):
        container("pot", 0.004, diameter=0.22, depth=0.2)
    assert container("pot", 0.004, diameter=0.22, depth=0.11).depth == pytest.approx(
        0.1052, abs=1e-4
    )
    with pytest.raises(OutOfRange, match="above zero"):
        container("jar", 0.0)
    with pytest.raises(OutOfRange, match="Materials are"):
        container("jar", 0.001, material="straw")


@pytest.mark.published
def test_a_shallow_pan_is_three_inches() -> None:
    # US CDC, EHS-Net plain-language summary: 3 inches or less.
    assert SHALLOW.value == pytest.approx(3 * 0.0254, abs=0.001)


def test_a_history_is_read_between_its_points() -> None:
    history = History(np.array([[0.0], [100.0], [300.0]]), np.array([[350.0], [320.0], [300.0]]))
    assert history.until(335.0) == pytest.approx(50.0)
    assert history.until(360.0) == pytest.approx(0.0)
    assert np.isinf(history.until(299.0)).all()
    assert history.at(200.0) == pytest.approx(310.0)


@pytest.mark.property
def test_height_above_the_sea_thins_the_air_and_slows_cooling() -> None:
    dish = Dish(0.003, "pot", stirred=True)
    sea = Spot("room", Place(ZERO + 20.0, 0.0))
    high = Spot("room", Place(ZERO + 20.0, 3000.0))
    pairs = [(ZERO + 57.0, ZERO + 25.0)]
    low_time, high_time = (
        float(run(dish, spot, ZERO + 85.0, ZERO + 21.0, ONE).spans(pairs)[0, 0])
        for spot in (sea, high)
    )
    assert high_time > low_time


@pytest.mark.property
def test_a_loose_lid_lets_some_steam_pass_and_a_screwed_one_none() -> None:
    spot = Spot("room")
    lanes = ENDS.lid("pot")
    assert lanes[0] > lanes[1] > lanes[2] == 0.0
    assert not ENDS.lid("jar").any()
    pot, jar = (
        run(Dish(0.001, kind, diameter=0.1), spot, ZERO + 95.0, ZERO + 21.0, ENDS).mixed.latent
        for kind in KINDS
    )
    assert pot[0] > pot[1] > pot[2] == 0.0
    assert not jar.any()


@pytest.mark.property
@settings(deadline=None, max_examples=20)
@given(
    celsius=st.floats(0.5, 15.0),
    warmer=st.floats(0.5, 3.0),
    factor=st.floats(0.5, 1.2),
    more=st.floats(1.05, 1.5),
)
def test_a_warmer_fridge_and_less_heat_transfer_take_longer(
    celsius: float, warmer: float, factor: float, more: float
) -> None:
    dish = Dish(0.001, "jar")
    pairs = [(ZERO + 57.0, ZERO + 21.0)]

    def time(cold: float, flow: float) -> float:
        spot = Spot(temperature=ZERO + cold, fridge=fridge_of(250.0, 150.0, ZERO + 20.0))
        cooled = run(dish, spot, ZERO + 90.0, ZERO + 21.0, Lanes(np.array([flow])))
        return float(cooled.spans(pairs)[0, 0])

    assert time(celsius + warmer, factor) > time(celsius, factor)
    assert time(celsius, factor) > time(celsius, factor * more)
