"""Gas used by a machine, gas lost in the glass, gas in a room: mass is conserved throughout."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics import carbonation, charging, fizz_loss, room_air
from counterproof.physics.charging import Bottle
from counterproof.physics.serving import Serving
from counterproof.physics.values import middle

_BOTTLE = Bottle(1.0e-3, 0.84e-3)


@pytest.mark.property
def test_each_purge_leaves_the_same_share_of_air() -> None:
    left = [float(charging.air_left(101325.0, 4e5, n)) for n in range(4)]
    assert left[0] == 101325.0
    assert np.diff(np.log(left)) == pytest.approx(np.log(101325.0 / 4e5))


@pytest.mark.property
@given(st.floats(0.05, 0.95), st.integers(0, 12))
def test_pulses_come_ever_nearer_to_equilibrium(pulse: float, count: int) -> None:
    now, more = charging.taken_up(8.0, count, pulse), charging.taken_up(8.0, count + 1, pulse)
    assert 0.0 <= now < more < 8.0 or more == pytest.approx(8.0)
    assert 8.0 - more == pytest.approx((8.0 - now) * (1.0 - pulse))


@pytest.mark.property
@given(st.integers(0, 3), st.floats(0.0, 0.6), st.floats(0.5, 9.0))
def test_all_gas_is_somewhere(purges: int, relief: float, held: float) -> None:
    went = charging.charge(_BOTTLE, 277.15, 3e5, held, purges=purges, relief=relief)
    parts = went.dissolved + went.head + went.purged + went.passed
    assert went.used == pytest.approx(parts, rel=1e-12)
    assert went.passed == pytest.approx(relief * went.used, rel=1e-9, abs=1e-15)
    assert went.dissolved == pytest.approx(held * _BOTTLE.water)
    assert 0.0 < went.efficiency < 1.0


@pytest.mark.property
def test_sixty_litres_from_a_cylinder_leave_seven_grams_each() -> None:
    # Common practice, no source: 425 g of gas sold as up to 60 L, which leaves 7.1 g for each.
    assert charging.litres_per_cylinder(0.425, 7.083, 1.0) == pytest.approx(60.0, rel=1e-3)


@pytest.mark.property
def test_a_small_charger_gives_four_volumes_at_most() -> None:
    # Common practice: 8 g chargers for one litre; all of it dissolved would be 4.05 volumes.
    assert carbonation.volumes(8.0) == pytest.approx(4.05, abs=0.01)


@pytest.mark.property
def test_losses_multiply_and_dilution_conserves_mass() -> None:
    both = fizz_loss.kept(poured=0.1, stirred=0.2, warmed=4.0, stood=600.0)
    apart = (
        fizz_loss.kept(poured=0.1) * fizz_loss.kept(stirred=0.2)
        * fizz_loss.kept(warmed=4.0) * fizz_loss.kept(stood=600.0)
    )  # fmt: skip
    assert both == pytest.approx(apart, rel=1e-12)
    mixed = fizz_loss.diluted(7.0, 0.3e-3, 0.1e-3)
    assert mixed * 0.4e-3 == pytest.approx(7.0 * 0.3e-3, rel=1e-12)


@pytest.mark.property
@given(st.floats(0.5, 9.0), st.floats(0.0, 0.5))
def test_what_is_needed_before_gives_what_is_wanted_after(wanted: float, flat: float) -> None:
    serving = Serving(stirred=True, warmed=3.0, stood=120.0, flat=flat)
    kept = serving.kept(middle)
    needed = fizz_loss.needed_before(wanted, kept, serving.fizzy_share)
    assert fizz_loss.diluted(needed * kept, 1.0, flat) == pytest.approx(wanted, rel=1e-12)


@pytest.mark.published
def test_a_cylinder_leaks_into_a_kitchen() -> None:
    # Arithmetic with the density of Span & Wagner 1996, 1.8393 kg/m³ at 20 °C: 425 g add 7702 ppm
    # to 30 m³, and need 46.2 m³ to stay 5000 ppm above the background.
    assert 1e6 * room_air.added_fraction(0.425, 30.0, 293.15) == pytest.approx(7702, rel=1e-3)
    assert room_air.largest_mass(0.005, 46.2, 293.15) == pytest.approx(0.425, rel=1e-3)


@pytest.mark.published
@pytest.mark.parametrize(
    ("fraction", "rulings"),
    # OSHA 5000 ppm (8 h), NIOSH 30,000 ppm (15 min) and 40,000 ppm (at once).
    [
        (1e-3, ["within", "within", "within"]),
        (4e-3, ["too close", "within", "within"]),
        (2e-2, ["over", "too close", "too close"]),
        (1.2e-1, ["over", "over", "over"]),
    ],
)
def test_limits_for_places_of_work(fraction: float, rulings: list[str]) -> None:
    assert [found.verdict for found in room_air.verdicts(fraction)] == rulings


@pytest.mark.property
def test_airing_lowers_the_mean_of_eight_hours_most() -> None:
    closed = room_air.mean_fraction(0.02, 0.0, 8 * 3600.0)
    aired = room_air.mean_fraction(0.02, 3.0 / 3600.0, 8 * 3600.0)
    assert closed == pytest.approx(0.02)
    assert aired == pytest.approx(0.02 / 24.0, rel=1e-6)


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(OutOfRange, match="room above"):
        Bottle(1e-3, 1e-3)
    with pytest.raises(OutOfRange, match="pressing gas in"):
        charging.air_left(101325.0, 9e4, 1)
    with pytest.raises(OutOfRange, match="pulse"):
        charging.taken_up(8.0, 2, 1.2)
    with pytest.raises(OutOfRange, match="none and all"):
        fizz_loss.kept(poured=1.5)
    with pytest.raises(OutOfRange, match="fill the room"):
        room_air.added_fraction(10.0, 1.0, 293.15)
    with pytest.raises(OutOfRange, match="room has a volume"):
        room_air.added_fraction(1.0, 0.0, 293.15)
