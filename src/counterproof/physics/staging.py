"""Cooling a jar in three stages before it freezes: counter, fridge, freezer.

Common practice, no source found: a jar that meets the freezer cold sets off no sudden stress, and
does not thaw its neighbours. The times here treat the contents as one temperature; the cooling
rules themselves are asked of `cool`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties
from counterproof.physics.food_properties import Makeup
from counterproof.physics.surroundings import Place, Round, coefficient
from counterproof.physics.values import ZERO_CELSIUS, Draws
from counterproof.sourced import Sourced

OFF_THE_COUNTER: Final = Sourced(
    ZERO_CELSIUS + 40.0, "K", 0.0, "assumed", "",
    "hand-warm: no fridge warms much by it and glass does not mind; common practice",
)  # fmt: skip
ON_THE_COUNTER: Final = Sourced(
    7200.0, "s", 0.0, "usda-two-hours", "refrigerate within 2 hours", "1 hour above 32 °C"
)
INTO_THE_FREEZER: Final = Sourced(
    3.0, "K", 0.0, "assumed", "", "above the fridge, where the last stage begins"
)
_NODES: Final = 32


@dataclass(frozen=True, slots=True)
class Stage:
    """One stage of cooling.

    Parameters
    ----------
    where : Place
        counter, fridge or freezer.
    start, end : float
        Temperature of the contents. [K]
    time : float or (n,) array
        How long. [s]
    """

    where: Place
    start: float
    end: float
    time: float | Draws

    def to_dict(self) -> dict[str, object]:
        """Return the JSON form."""
        return {
            "where": self.where,
            "from_celsius": self.start - ZERO_CELSIUS,
            "to_celsius": self.end - ZERO_CELSIUS,
            "time_s": self.time,
        }


def even_time(
    body: Round, of: Makeup, start: float, end: float, ambient: float, where: Place
) -> float:
    """Time in which evenly warm contents cool, unfrozen.

    Parameters
    ----------
    body : Round
        Size of the contents.
    of : Makeup
        What they are made of.
    start, end : float
        Temperatures, start > end > ambient. [K]
    ambient : float
        Temperature around. [K]
    where : Place
        What is around.

    Returns
    -------
    float
        Time, middle value; ±30 %. [s]

    Raises
    ------
    OutOfRange
        If the end does not lie between surroundings and start.

    Notes
    -----
    ∫ ρ c V/(h(T) A (T − T_a)) dT by Gauss–Legendre nodes in ln(T − T_a).
    """
    if not start >= end > ambient:
        raise OutOfRange(
            f"It never cools to {end - ZERO_CELSIUS:.3g} °C in {ambient - ZERO_CELSIUS:.3g} °C.",
            remedy="Ask for a temperature above that of its surroundings.",
        )
    nodes, weights = np.polynomial.legendre.leggauss(_NODES)
    low, high = np.log(end - ambient), np.log(start - ambient)
    at = 0.5 * (high + low) + 0.5 * (high - low) * nodes
    over = ambient + np.exp(at)
    mass = food_properties.density(of, over) * food_properties.heat_capacity(of, over)
    loss = np.array([coefficient(body, float(t), ambient, where) for t in over])
    # Volume over surface of an upright can.
    thickness = 1.0 / (4.0 / body.diameter + 2.0 / body.height)
    rate = float(0.5 * (high - low) * np.sum(weights * mass * thickness / loss))
    return max(rate, 0.0)


def before_freezing(
    body: Round, of: Makeup, start: float, room: float, fridge: float
) -> tuple[Stage, ...]:
    """Stages until a jar may go into the freezer.

    Parameters
    ----------
    body : Round
        Size of the contents.
    of : Makeup
        What they are made of.
    start : float
        Temperature when filled. [K]
    room, fridge : float
        Temperatures of counter and fridge. [K]

    Returns
    -------
    tuple of Stage
        Counter to 40 °C or for two hours, whichever is sooner; fridge to 3 °C above itself; each
        left out where there is nothing to do.
    """
    stages: list[Stage] = []
    at = start
    warm = max(OFF_THE_COUNTER.value, room + 1.0)
    if at > warm:
        time = even_time(body, of, at, warm, room, "counter")
        if time > ON_THE_COUNTER.value:
            warm = _reached(body, of, at, room)
            time = ON_THE_COUNTER.value
        stages.append(Stage("counter", at, warm, time))
        at = warm
    cold = fridge + INTO_THE_FREEZER.value
    if at > cold:
        stages.append(Stage("fridge", at, cold, even_time(body, of, at, cold, fridge, "fridge")))
    return tuple(stages)


def _reached(body: Round, of: Makeup, start: float, room: float) -> float:
    """Temperature after the longest time on the counter, by halving."""
    low, high = room + 0.05, start
    for _ in range(40):
        half = 0.5 * (low + high)
        late = even_time(body, of, start, half, room, "counter") > ON_THE_COUNTER.value
        low, high = (half, high) if late else (low, half)
    return 0.5 * (low + high)
