"""Why a batch differs from its plan: what its own measured time, lid and power account for."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from counterproof import numerals
from counterproof.batch.beside import Row
from counterproof.batch.fits import HeatingFit
from counterproof.physics.questions_heat import simmer
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.pot import KEPT_HOT
from counterproof.plan.scene import Scene
from counterproof.reading.model import Reading
from counterproof.rows import Tables


def steam_without_lid(reading: Reading, tables: Tables, seconds: float) -> float | None:
    """What would boil off in a time without a lid.

    Parameters
    ----------
    reading : Reading
        The recipe as it was made.
    tables : Tables
        Composition of the foods.
    seconds : float
        How long it was kept hot, > 0. [s]

    Returns
    -------
    float or None
        None where nothing is kept hot on the hob. [kg]
    """
    scene = Scene.of(reading, tables)
    for step in reading.steps:
        for process in step.processes:
            if process.appliance == "hob" and process.kind in KEPT_HOT | {"cook"}:
                contents = scene.contents(scene.in_pot(step))
                if not contents.mass:
                    return None
                litres = 1000.0 * float(contents.volume(ZERO_CELSIUS + 20.0))
                ring = scene.ring(litres, covered=False)
                done = simmer(contents, seconds, ring=ring, place=scene.place)
                loss = reading.kitchen.simmer_loss
                return loss * float(np.mean(done.result["evaporated_kg"]))
    return None


def reasons_of(
    rows: Sequence[Row], open_pot: float | None, heating: HeatingFit | None, watts: float
) -> tuple[str, ...]:
    """Sentences that trace the differences that matter to their causes.

    Parameters
    ----------
    rows : sequence of Row
        Plan beside fact.
    open_pot : float or None
        What the model gives without a lid for the measured time. [kg]
    heating : HeatingFit or None
        How strong the ring was.
    watts : float
        What the kitchen file says of it. [W]

    Returns
    -------
    tuple of str
        The weightiest first; empty where nothing matters.
    """
    by_name = {row.name: row for row in rows}
    said: list[str] = []
    steam, time = by_name.get("steam"), by_name.get("simmering_s")
    if steam is not None and steam.planned is not None and steam.ruling == "beyond the plan":
        said.append(_steam(steam, time, open_pot))
    made, brix = by_name.get("made_m3"), by_name.get("brix")
    if brix is not None and brix.planned is not None and brix.ruling == "beyond the plan":
        more = brix.measured.value > brix.planned.mean
        cause = "less water in it" if more else "more water in it, or less sugar"
        thus = (
            " That is why it made less."
            if more and made is not None and (made.ratio or 1.0) < 1.0
            else ""
        )
        said.append(f"The sugar stands {'higher' if more else 'lower'}: {cause}.{thus}")
    warm = by_name.get("heating_s")
    if warm is not None and warm.ruling == "beyond the plan" and heating is not None:
        slow = "longer" if (warm.ratio or 1.0) > 1.0 else "less long"
        power = numerals.shown(heating.power.scaled(0.001), "mean", "kW").text
        said.append(
            f"It took {slow} to the boil: the temperatures fit a ring at {power}; the kitchen file "
            f"says {watts / 1000:g} kW."
        )
    return tuple(said)


def _steam(steam: Row, time: Row | None, open_pot: float | None) -> str:
    planned = 0.0 if steam.planned is None else steam.planned.mean
    found = f"{numerals.plain_mass(steam.measured.value)} boiled off"
    if time is None or time.planned is None:
        return f"{found}, {numerals.plain_mass(planned)} were planned; write when it boiled and when it came off."
    longer = time.measured.value / time.planned.mean
    alone = planned * longer
    says = (
        f"{found}. The time it was kept hot, {time.measured.value / 60:.0f} min, accounts for "
        f"{numerals.plain_mass(alone)} with the lid on"
    )
    if open_pot is None:
        return f"{says}."
    return f"{says}; with the lid off the model gives {numerals.plain_mass(open_pot)}."
