"""Questions of moist heat: heat something up, keep it simmering or boiling.

Each takes SI quantities and a `Take`; with `middle` it answers in single numbers, with draws in
ranges. Keys of `result` carry their unit, as `physics X --json` prints them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import (
    heating,
    hob,
    simmering,
    vessels,
)
from counterproof.physics.answer import Answer, Curve, credited
from counterproof.physics.boiling import validity as altitude_validity
from counterproof.physics.cautions import SCALD
from counterproof.physics.flags import Flag, refuse_unless_positive, unique
from counterproof.physics.heating import Contents, Stove
from counterproof.physics.places import LAWS, LOSSES, Place, Ring, with_spread
from counterproof.physics.values import (
    ZERO_CELSIUS,
    Draws,
    Take,
    largest,
    middle,
    printed_ends,
    smallest,
)
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

SIMMER_BELOW: Final = Sourced(
    4.0, "K", 0.5, "assumed", "",
    "a simmer is kept this far below the boil; cooks mean 85 °C to just under boiling",
)  # fmt: skip
_CURVE_POINTS: Final = 25


def heat(
    contents: Contents,
    start: float | Draws,
    end: float | None = None,
    *,
    ring: Ring | None = None,
    place: Place | None = None,
    time: float | None = None,
    take: Take = middle,
    history: bool = True,
) -> Answer:
    """How long and how much energy it takes to heat something on a hob.

    Parameters
    ----------
    contents : Contents
        Water and food in the pot.
    start : float or (n,) array
        Temperature at the start. [K]
    end : float or None
        Temperature wanted; None for the boil. [K]
    ring : Ring or None
        Hob and pot; None for the defaults.
    place : Place or None
        The kitchen; None for the defaults.
    time : float or None
        Wanted time: then the power is the answer, and that of `ring` only held against it. [s]
    take : Take
        Where draws come from; the middle values if not said.
    history : bool
        Whether the curve of the warming is told; it takes as long again as the answer.

    Returns
    -------
    Answer
        `time_s`, `useful_j`, `input_j`, `evaporated_kg`, and where the rest goes.

    Raises
    ------
    OutOfRange
        If it never gets there, or the end lies below the start or above the boil.
    """
    ring, place = ring or Ring(), place or Place()
    _refuse_empty(contents)
    refuse_unless_positive("The power", ring.power)
    refuse_unless_positive("The time", time)
    contents = with_spread(contents, take)
    stove = ring.stove(contents, place, take)
    target = place.boil if end is None else end
    efficiency, full = ring.efficiency(take), ring.full(take)
    if time is None:
        power = full * efficiency
    else:
        power = heating.power_for(contents, stove, start, target, time)
    warm = heating.heat_up(contents, stove, start, target, power)
    bought = warm.delivered / efficiency
    flags = (
        *altitude_validity(place.altitude),
        *(hob.remarks(ring.kind, power / efficiency, full) if time is not None else ()),
        *vessels.near_boil(target, place.boil),
        *_of_food(contents),
        *heating.start_remarks(contents, start),
        *_dried(warm.evaporated, contents),
        *_some_never(warm.time),
    )
    sources, assumed = credited(*LAWS, *_pot(ring), hob.efficiency_of(ring.kind), *LOSSES)
    return Answer(
        process="heat",
        inputs={**_contents(contents), "from_celsius": start - ZERO_CELSIUS,
                "to_celsius": target - ZERO_CELSIUS, "wanted_time_s": time,
                **ring.inputs(stove.pot), **place.inputs()},
        result={
            "time_s": warm.time,
            "useful_j": warm.useful,
            "input_j": bought,
            "evaporated_kg": warm.evaporated,
            "power_w": power / efficiency,
            "into_pot_j": warm.delivered,
            "vessel_j": warm.vessel,
            "dry_loss_j": warm.dry,
            "latent_loss_j": warm.latent,
            "boil_celsius": place.boil - ZERO_CELSIUS,
        },
        curve=_warming(contents, ring, place, (_mean(start), target), _mean(power))
        if history
        else None,
        cautions=(SCALD,),
        sources=sources,
        assumed=assumed,
        flags=unique(flags),
    )  # fmt: skip


def simmer(
    contents: Contents,
    time: float | Draws | None = None,
    *,
    boil_off: float | Draws | None = None,
    temperature: float | None = None,
    hard: bool = False,
    ring: Ring | None = None,
    place: Place | None = None,
    take: Take = middle,
) -> Answer:
    """What it takes to keep a pot simmering, or boiling hard on a given power.

    Parameters
    ----------
    contents : Contents
        Water and food in the pot, hot already.
    time : float or (n,) array or None
        How long; None if `boil_off` is given. [s]
    boil_off : float or (n,) array or None
        Water that is to leave: then the time is the answer, as for a reduction. [kg]
    temperature : float or None
        Kept temperature; None for a simmer just below the boil. [K]
    hard : bool
        True to leave the ring at its power: what is not lost boils away.
    ring : Ring or None
        Hob and pot; None for the defaults.
    place : Place or None
        The kitchen; None for the defaults.
    take : Take
        Where draws come from; the middle values if not said.

    Returns
    -------
    Answer
        `useful_j` (heat into the pot, all of it lost or evaporated), `input_j`,
        `evaporated_kg`, `time_s`, the power needed and its share of the ring's.

    Raises
    ------
    OutOfRange
        If the temperature is not between room and boil, the pot would boil dry or never lose so
        much, or not exactly one of `time` and `boil_off` is given.
    """
    ring, place = ring or Ring(), place or Place()
    _refuse_empty(contents)
    refuse_unless_positive("The power", ring.power)
    refuse_unless_positive("The time", time, zero=True)
    if (time is None) == (boil_off is None):
        raise OutOfRange(
            "A simmer has a time, or an amount to boil off.", remedy="Give one of the two."
        )
    stove = ring.stove(contents, place, take)
    efficiency, full = ring.efficiency(take), ring.full(take)
    if hard:
        kept = simmering.full_boil(stove, full * efficiency)
        target: float | Draws = place.boil
    else:
        below = take("simmer|below the boil", SIMMER_BELOW)
        target = place.boil - below if temperature is None else temperature
        kept = simmering.hold(stove, target)
    asked = time
    if time is None:
        time = _time_to_lose(boil_off, kept.evaporation)
    evaporated = kept.evaporation * time
    _refuse_dry(evaporated, contents, time)
    flags = (
        *altitude_validity(place.altitude),
        *(() if hard else vessels.near_boil(target, place.boil)),
        *_dried(evaporated, contents),
        *(
            _too_little(kept.evaporation)
            if hard
            else hob.remarks(ring.kind, kept.power / efficiency, full)
        ),
    )
    chosen = (SIMMER_BELOW,) if temperature is None and not hard else ()
    sources, assumed = credited(*LAWS, *_pot(ring), hob.efficiency_of(ring.kind), *chosen, *LOSSES)
    return Answer(
        process="simmer",
        inputs={**_contents(contents), "time_s": asked, "boil_off_kg": boil_off, "hard": hard, **ring.inputs(stove.pot), **place.inputs()},
        result={
            "useful_j": kept.power * time,
            "input_j": kept.power / efficiency * time,
            "evaporated_kg": evaporated,
            "time_s": time,
            "power_w": kept.power / efficiency,
            "into_pot_w": kept.power,
            "dry_loss_w": kept.dry,
            "evaporation_kg_per_h": 3600.0 * kept.evaporation,
            "share_of_full_power": hob.dial(kept.power, efficiency, full),
            "celsius": target - ZERO_CELSIUS,
        },
        cautions=(SCALD,),
        sources=sources,
        assumed=assumed,
        flags=unique(flags),
    )  # fmt: skip


def _refuse_empty(contents: Contents) -> None:
    refuse_unless_positive("The water", contents.water, zero=True)
    refuse_unless_positive("The food", contents.food, zero=True)
    if smallest(contents.mass) <= 0.0:
        raise OutOfRange("There is nothing in the pot.", remedy="Give an amount of water or food.")


def _time_to_lose(wanted: float | Draws | None, rate: float | Draws) -> float | Draws:
    if wanted is None or smallest(wanted) <= 0.0 or printed_ends(rate)[1] <= 0.0:
        raise OutOfRange(
            "So much never boils off here.",
            remedy="Give an amount above zero, take the lid off, or more power.",
        )
    return wanted / np.maximum(rate, 1e-12)


def _refuse_dry(evaporated: float | Draws, contents: Contents, time: float | Draws) -> None:
    if smallest(contents.moisture) <= 0.0:
        raise OutOfRange(
            "There is no water in the pot: it cannot simmer.", remedy="Give an amount of water."
        )
    share = _mean(evaporated) / _mean(contents.moisture)
    if share >= 1.0:
        raise OutOfRange(
            f"The pot would boil dry after about {_mean(time) / share / 60.0:.0f} minutes.",
            remedy="Give a shorter time or more water, put the lid on, or turn the ring down.",
        )


def _dried(evaporated: float | Draws, contents: Contents) -> tuple[Flag, ...]:
    if smallest(contents.moisture) <= 0.0:
        return ()  # a pot of oil has no water to lose
    share = printed_ends(evaporated / contents.moisture)[1]
    if share <= 0.3:
        return ()
    return (
        Flag(
            "boils-down",
            f"up to {share:.0%} of the water leaves; mass and level are counted as they were at "
            "the start.",
        ),
    )


def _of_food(contents: Contents) -> tuple[Flag, ...]:
    if largest(contents.food) <= 0.0:
        return ()
    even = Flag(
        "one-temperature",
        "all that is in the pot is counted as equally warm; thick pieces lag behind, and what is "
        "not stirred may catch.",
        "note",
    )
    return (even,)


def _some_never(time: float | Draws) -> tuple[Flag, ...]:
    never = int(np.sum(~np.isfinite(time)))
    if never == 0:
        return ()
    share = never / np.size(time)
    return (
        Flag(
            "may-never",
            f"in {never} of {np.size(time)} draws this power does not get it there at all; the "
            "range leaves them out.",
            "note" if share < 0.05 else "doubt",
        ),
    )


def _too_little(evaporation_rate: float | Draws) -> tuple[Flag, ...]:
    if printed_ends(evaporation_rate)[0] >= 0.0:
        return ()
    return (Flag("no-boil", "this power may not keep the pot at a full boil."),)


def _pot(ring: Ring) -> tuple[Sourced, ...]:
    size = () if ring.diameter is not None else (vessels.SLENDERNESS, vessels.FILLING)
    mass = () if ring.pot_mass is not None else (vessels.POT_MASS,)
    power = () if ring.power is not None else (hob.POWER[ring.kind],)
    return (*size, *mass, *power)


def _contents(contents: Contents) -> Mapping[str, Any]:
    return {"water_kg": contents.water, "food_kg": contents.food}


def _mean(value: float | Draws) -> float:
    return float(value) if isinstance(value, float) else float(np.mean(value))


def _warming(
    contents: Contents, ring: Ring, place: Place, ends: tuple[float, float], power: float
) -> Curve | None:
    """Return the middle history of warming up, or None where the middle never gets there."""
    plain = Contents(_mean(contents.water), _mean(contents.food), contents.makeup)
    stove: Stove = ring.stove(plain, place, middle)
    steps = np.linspace(*ends, _CURVE_POINTS)
    try:
        warm = heating.heat_up(plain, stove, ends[0], steps[1:], power)
    except OutOfRange:
        return None
    seconds = np.concatenate(([0.0], np.asarray(warm.time)))
    reached = np.isfinite(seconds)
    return Curve.of(seconds[reached], steps[reached])
