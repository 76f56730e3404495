"""Times that kitchen physics gives to a script, in the cook's own kitchen."""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.claims.figure import Figure
from counterproof.claims.operations import Cooling
from counterproof.draws import Streams
from counterproof.errors import NotUnderstood
from counterproof.physics.cooling_lanes import ENDS
from counterproof.physics.cooling_scene import Dish, Spot, household_fridge, run
from counterproof.physics.places import Place
from counterproof.physics.values import ZERO_CELSIUS, largest
from counterproof.recipe.kitchen import Kitchen

TRAY_AREA: Final = 0.15
"""Area of a shallow tray. [m²] Assumed: 30 by 50 cm; the depth decides, the area hardly matters."""

_WORDS: Final = {
    "room": "left in the room",
    "fridge": "in the fridge",
    "ice-bath": "in an ice bath",
}


class Unworked(NotUnderstood):
    """The words are understood, but there is nothing to work it out from."""


def cooling_time(asked: Cooling, kitchen: Kitchen, streams: Streams) -> Figure:
    """The time a dish takes to cool.

    Parameters
    ----------
    asked : Cooling
        What cools, how much of it, from and to. [L, m, °C]
    kitchen : Kitchen
        Where.
    streams : Streams
        Seed and number of draws.

    Returns
    -------
    Figure
        Fast end, middle and slow end of the cooling model, spread over the draws. [s]

    Raises
    ------
    Unworked
        If it would never get there.
    """
    place = Place(room=kitchen.room_celsius + ZERO_CELSIUS, altitude=kitchen.altitude_m)
    spot = Spot(asked.where, place)
    if asked.where == "fridge":
        spot = household_fridge(
            kitchen.fridge_celsius + ZERO_CELSIUS,
            kitchen.fridge_litres,
            kitchen.fridge_kwh_per_year,
            place,
        )
    cold = largest(spot.ambient) - ZERO_CELSIUS
    if not cold < asked.end < asked.start:
        raise Unworked(
            f"From {asked.start:.0f} °C it never gets to {asked.end:.0f} °C where it is "
            f"{cold:.0f} °C.",
            remedy="Give an end between the two.",
        )
    if asked.litres is not None:
        dish, told = Dish(asked.litres / 1000, "pot", flow="thick"), f"{asked.litres:g} L in a pot"
    else:
        depth = asked.depth or 0.0
        dish = Dish(TRAY_AREA * depth, "tray", depth=depth, covered=False, flow="thick")
        told = f"{100 * depth:g} cm deep in an open tray"
    start, end = asked.start + ZERO_CELSIUS, asked.end + ZERO_CELSIUS
    (span,) = run(dish, spot, start, end, ENDS).spreads([(start, end)])
    if not np.isfinite([span.p05, span.p50, span.p95]).all():
        raise Unworked(
            "In the slow case it never gets that cold.", remedy="Give an end that is less cold."
        )
    uniforms = streams.uniforms("cooling|heat transfer")
    drawn = np.interp(uniforms, (0.05, 0.5, 0.95), (span.p05, span.p50, span.p95))
    return Figure(
        drawn,
        span.mean,
        "s",
        (
            f"{told}, {_WORDS[asked.where]} ({cold:.0f} °C), not stirred, cooling as water does",
            "a model, not a thermometer: measure with a probe and hold to your local rules",
        ),
        ("choi-okos-1986",),
    )
