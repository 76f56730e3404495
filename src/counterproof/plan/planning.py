"""The plan of a recipe: energy, what leaves the pot, what there is to serve."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from counterproof.draws import Product
from counterproof.physics import parting
from counterproof.plan import constants as c
from counterproof.plan.cooking import Cooking
from counterproof.plan.cooling import Memo, coolings
from counterproof.plan.deep_fat import fat_left
from counterproof.plan.keeping import kept_of
from counterproof.plan.model import EnergyUse, Leaving, Plan
from counterproof.plan.parting import parted
from counterproof.plan.pot import way_of_straining
from counterproof.plan.scene import Scene
from counterproof.plan.step_verdicts import step_verdicts
from counterproof.plan.timeline import timeline_of
from counterproof.plan.times import Warming
from counterproof.reading.model import Reading
from counterproof.rows import Tables
from counterproof.ways import Way

_LITRES: Final = re.compile(r"(?P<number>\d+(?:[.,]\d+)?)\s*(?P<milli>m)?(?:l\b|litres?|liters?)")


def plan_of(reading: Reading, tables: Tables, verdicts: Memo | None = None) -> Plan:
    """Energy and leaving masses of every step of a reading.

    Parameters
    ----------
    reading : Reading
        A marked recipe; its kitchen gives hob, oven, tap and vessels.
    tables : Tables
        Composition of the foods, from which their heat follows.
    verdicts : Memo or None
        Answers on cooling already given, for whoever asks for verdicts: each costs a tenth of a
        second when it is new. None: no cooling is asked about.

    Returns
    -------
    Plan
        Energy by process [kWh] and what leaves the pot [kg], for the whole batch; times; where
        `verdicts` is given, a verdict and a mark beside every step that cools something hot.
    """
    scene = Scene.of(reading, tables)
    cooking = Cooking(scene)
    cooking.boiled_water()
    gone: list[Leaving] = []
    warming: dict[int, Warming] = {}
    for step in reading.steps:
        heated: Warming = {}
        for place, process in enumerate(step.processes):
            before = len(cooking.taken.warming)
            cooking.take(step, process)
            if len(cooking.taken.warming) > before:
                heated[place] = tuple(cooking.taken.warming[before:])
        warming[step.written.number] = heated
        # "strain through a sieve, let it drip" is one straining
        straining = next((one for one in step.processes if one.kind == "strain"), None)
        if straining is not None:
            gone += parted(scene, step, straining)
    inner, left = _taken_in(reading, tables)
    fat, told = fat_left(scene)
    leaving = [*cooking.taken.leaving, *gone, *left, *fat]
    served = mass_of_serving(reading, leaving)
    cooled = () if verdicts is None else coolings(scene, leaving, verdicts)
    said = step_verdicts(reading)
    keeps = kept_of(reading)
    shown = [(cold.step, cold.mark) for cold in cooled]
    shown += [(one.step, one.mark) for one in said]
    shown += [(0, kept.mark) for kept in keeps if kept.mark is not None]
    return Plan(
        energy=(*cooking.taken.energy, *inner),
        leaving=tuple(leaving),
        serving_mass=served,
        serving_litres=_serving_litres(reading, served),
        assumed=(*_assumed(reading, gone), *cooking.taken.told),
        marks=(*cooking.taken.marks, *shown, *told),
        timeline=timeline_of(reading, warming, cooled, keeps),
        coolings=cooled,
        verdicts=said,
    )


def _taken_in(reading: Reading, tables: Tables) -> tuple[list[EnergyUse], list[Leaving]]:
    """Energy and leaving masses of the recipes that lines are, by the share that is taken."""
    energy: list[EnergyUse] = []
    leaving: list[Leaving] = []
    for line in reading.lines:
        if line.taken is None:
            continue
        title, share = line.taken.reading.recipe.title, line.taken.share
        plan = plan_of(line.taken.reading, tables)
        part = () if share == 1.0 else (Way("given", share, "", f"taken of “{title}”"),)
        energy += [
            replace(
                use,
                name=f"{title}: {use.name}",
                kwh=use.kwh.scaled(share),
                step=None,
                way=(*use.way, *part) if use.way else (),
            )
            for use in plan.energy
        ]
        leaving += [replace(gone, mass=gone.mass.scaled(share), step=None) for gone in plan.leaving]
    return energy, leaving


def _assumed(reading: Reading, gone: Sequence[Leaving]) -> tuple[str, ...]:
    ways = {
        way_of_straining(step)
        for step in reading.steps
        if any(part.step == step.written.number and part.cause == "strained" for part in gone)
    }
    said = [
        f"What is strained off keeps {parting.STAYS[way].value:.0%} of its mass in cloth or sieve "
        "(weigh it to do better)."
        for way in sorted(ways)
    ]
    untimed = {
        process.kind
        for step in reading.steps
        for process in step.processes
        if process.kind in c.DEFAULT_MINUTES and process.appliance and process.minutes is None
    }
    said += [
        f"No time is stated for {kind.replace('_', ' ')}: {c.DEFAULT_MINUTES[kind].value:g} minutes, "
        "give or take half."
        for kind in sorted(untimed)
    ]
    return tuple(said)


def mass_of_serving(reading: Reading, leaving: Sequence[Leaving]) -> tuple[Product, ...]:
    """One serving as eaten: what went in less what left, over the servings.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    leaving : sequence of Leaving
        What left the pot.

    Returns
    -------
    tuple of Product
        Parts of a sum, those that left below zero. [kg]
    """
    parts = tuple(
        part.mass.scaled(1 / reading.serves)
        for line in reading.lines
        for part in line.constituents
        if part.mass is not None
    )
    return parts + tuple(part.mass.scaled(-1 / reading.serves) for part in leaving)


def _serving_litres(reading: Reading, serving_mass: Sequence[Product]) -> float | None:
    """Litres of one serving where the cook says what the recipe makes and the mass bears it out.

    "Makes 1.2 litres" of a cordial says nothing of the glass it is diluted in: then None.
    """
    batch = litres_made(reading)
    if batch is None:
        return None
    litres = batch / reading.serves
    mass = sum(part.mean for part in serving_mass)
    return litres if abs(litres - mass) < c.LITRE_APART * mass else None


def litres_made(reading: Reading) -> float | None:
    """Litres that the cook says a recipe makes, at the servings asked for.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    float or None
        None where no litres are said. [L]
    """
    match = _LITRES.search((reading.recipe.makes or "").lower())
    if match is None:
        return None
    written = float(match["number"].replace(",", ".")) / (1000.0 if match["milli"] else 1.0)
    return written * reading.scale
