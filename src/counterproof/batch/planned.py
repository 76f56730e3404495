"""What the plan of a recipe expects of a batch, figure by figure, each with its range."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

import numpy as np

from counterproof.batch.ranges import mass_of_line, range_of, range_of_spread
from counterproof.draws import Draws, Product, Range, Streams
from counterproof.kitchen_physics import WATER
from counterproof.physics.heating import Contents
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.model import Plan
from counterproof.plan.pot import is_at_table
from counterproof.plan.scene import Scene
from counterproof.plan.timeline import NOTHING
from counterproof.plan.times import added
from counterproof.reading.model import Reading
from counterproof.rows import Tables

_ROOM: Final = ZERO_CELSIUS + 20.0
_KEPT_HOT: Final = frozenset({"simmer", "boil", "poach", "steam", "cook"})
_HEATED: Final = "bring to the boil"


def planned_lines(reading: Reading, streams: Streams) -> Mapping[int, Range]:
    """What each line is expected to weigh.

    Parameters
    ----------
    reading : Reading
        The recipe as understood, at the batch's servings.
    streams : Streams
        Seed and number of draws.

    Returns
    -------
    mapping of int to Range
        By number of the line. [kg]
    """
    found = ((line.written.number, mass_of_line(line, streams)) for line in reading.lines)
    return {number: mass for number, mass in found if mass is not None}


def planned_figures(
    reading: Reading, plan: Plan, tables: Tables, streams: Streams
) -> Mapping[str, Range]:
    """What a batch is expected to give.

    Parameters
    ----------
    reading : Reading
        The recipe as understood, at the batch's servings.
    plan : Plan
        Its plan.
    tables : Tables
        Composition of the foods.
    streams : Streams
        Seed and number of draws.

    Returns
    -------
    mapping of str to Range
        The names of `Made.figures`. [kg, m³, s, kWh or °Bx]
    """
    steam = [one.mass for one in plan.leaving if one.cause == "boiled off"]
    pulp = [one.mass for one in plan.leaving if one.cause == "strained"]
    gone = [one.mass for one in plan.leaving]
    put_in = _put_in(reading)
    found: dict[str, Range] = {}
    if steam:
        found["steam"] = range_of(steam, streams)
    if pulp:
        found["pulp"] = range_of(pulp, streams)
    if put_in:
        found["weighed_in"] = range_of(put_in, streams)
        made = range_of([*put_in, *(mass.scaled(-1.0) for mass in gone)], streams)
        found["made_kg"] = made
        density = density_of(contents_made(reading, plan, tables))
        if density is not None:
            found["made_m3"] = made.scaled(1.0 / density)
        brix = _brix(reading, plan, tables, streams)
        if brix is not None:
            found["brix"] = brix
    found |= _times(plan)
    kwh = [
        one.kwh for one in plan.energy if one.stage == "cooking" and one.carrier == "electricity"
    ]
    if kwh:
        found["energy_kwh"] = range_of(kwh, streams)
    return found


def contents_made(reading: Reading, plan: Plan, tables: Tables) -> Contents:
    """What is made, as the contents of a pot.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan
        Its plan.
    tables : Tables
        Composition of the foods.

    Returns
    -------
    Contents
        All that went in, at its mean, less what left. [kg]
    """
    left: dict[str, float] = {}
    for one in plan.leaving:
        left[one.food] = left.get(one.food, 0.0) + one.mass.mean
    steam = left.pop("", 0.0)
    held = [
        (part.food, max(part.mass.mean - left.get(part.food.id, 0.0), 0.0))
        for line in reading.lines
        if not is_at_table(line)
        for part in line.constituents
        if part.mass is not None
    ]
    held.sort(key=lambda pair: (pair[0].food_class != WATER, pair[0].kind != "liquid"))
    kept = []
    for food, kg in held:  # what boils off is water first
        off = min(steam, kg) if food.kind == "liquid" else 0.0
        steam -= off
        kept.append((food, kg - off))
    return Scene.of(reading, tables).mixed((food, kg) for food, kg in kept if kg > 0.0)


def makeup_made(contents: Contents) -> dict[str, float]:
    """What a pot's contents are made of, its water among the rest.

    Parameters
    ----------
    contents : Contents
        What is in it, more than nothing.

    Returns
    -------
    dict of str to float
        Fractions by mass that add up to 1. [1]
    """
    held = float(contents.food) / float(contents.mass)
    makeup = {name: float(share) * held for name, share in contents.makeup.items()}
    makeup["water"] = 1.0 - sum(share for name, share in makeup.items() if name != "water")
    return makeup


def density_of(contents: Contents) -> float | None:
    """Density of what is made, when it is cold.

    Parameters
    ----------
    contents : Contents
        What is made.

    Returns
    -------
    float or None
        None where there is nothing. [kg/m³]
    """
    volume = float(contents.volume(_ROOM)) if contents.mass else 0.0
    return float(contents.mass) / volume if volume > 0.0 else None


def _put_in(reading: Reading) -> list[Product]:
    return [
        part.mass
        for line in reading.lines
        if not is_at_table(line)
        for part in line.constituents
        if part.mass is not None
    ]


def _times(plan: Plan) -> dict[str, Range]:
    """Heating up and keeping hot, as the time line has them."""
    heats = next((task.lasts for task in plan.timeline.tasks if task.does == _HEATED), None)
    kept = NOTHING
    for task in plan.timeline.tasks:
        if task.does in _KEPT_HOT and not task.hands_on:
            kept = added(kept, task.lasts)
    found = {}
    if heats is not None:
        found["heating_s"] = range_of_spread(heats)
    if kept.p95 > 0.0:
        found["simmering_s"] = range_of_spread(kept)
    return found


def _brix(reading: Reading, plan: Plan, tables: Tables, streams: Streams) -> Range | None:
    """Sugar in what is made, for a hundred of it; None where there is hardly any."""
    sugar, whole = np.zeros(streams.n), np.zeros(streams.n)
    gone: dict[str, Draws] = {}
    for one in plan.leaving:
        gone[one.food] = gone.get(one.food, 0.0) + one.mass.draws(streams)
        whole -= one.mass.draws(streams)
    for line in reading.lines:
        if is_at_table(line):
            continue
        for part in line.constituents:
            if part.mass is None:
                continue
            mass = part.mass.draws(streams)
            whole += mass
            made_of = tables.composition.get(part.food.id)
            share = (made_of.sugars_g or 0.0) / 100.0 if made_of is not None else 0.0
            sugar += share * np.maximum(mass - gone.pop(part.food.id, 0.0), 0.0)
    if float(sugar.mean()) < 0.02 * float(whole.mean()):
        return None
    return Range.of(100.0 * sugar / np.maximum(whole, 1e-9))
