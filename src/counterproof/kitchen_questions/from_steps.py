"""The question a step raises, its form filled in from the recipe: what is in the pot, how long."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from counterproof.footprint.containers import packed
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.model import Plan
from counterproof.reading.model import MarkedStep, Process, Reading
from counterproof.rows import Tables

_QUESTIONS: Final[Mapping[str, str]] = {
    "simmer": "simmer", "poach": "simmer", "boil": "simmer", "steam": "simmer",
    "heat": "heat", "melt": "heat",
    "fry": "fry", "toast": "fry",
    "bake": "bake", "preheat": "bake",
    "kettle": "kettle", "microwave": "microwave",
    "cool": "cool", "chill": "cool",
    "freeze": "freeze", "thaw": "thaw", "carbonate": "carbonate", "steep": "steep",
}  # fmt: skip
"""Kind of process → the question it raises."""


@dataclass(frozen=True, slots=True)
class Raised:
    """A question that a step raises.

    Parameters
    ----------
    step : int
        Number of the step.
    process : str
        The question.
    told : mapping of str to str
        Entry → what the recipe says of it; the rest stays as it begins.
    """

    step: int
    process: str
    told: Mapping[str, str]


def raised_by(reading: Reading, plan: Plan, tables: Tables) -> tuple[Raised, ...]:
    """Every question that the steps of a recipe raise.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan
        Its coolings.
    tables : Tables
        Packs.

    Returns
    -------
    tuple of Raised
        In the recipe's order, each question once a step.
    """
    found: dict[tuple[int, str], Raised] = {}
    for step in reading.steps:
        for process in step.processes:
            question = _QUESTIONS.get(process.kind)
            if process.appliance == "oven" and process.kind == "cook":
                question = "bake"
            if question is None:
                continue
            told = _told(question, process, step, reading, plan, tables)
            number = step.written.number
            held = found.get((number, question))
            if held is None or len(told) > len(held.told):
                found[number, question] = Raised(number, question, told)
    return tuple(found.values())


def _told(
    question: str,
    process: Process,
    step: MarkedStep,
    reading: Reading,
    plan: Plan,
    tables: Tables,
) -> dict[str, str]:
    told: dict[str, str] = {}
    if process.minutes is not None and question in {"simmer", "fry", "bake", "steep"}:
        ends = [minutes for minutes in process.minutes if minutes is not None]
        told["time"] = f"{sum(ends) / len(ends):g} min"
    if process.celsius is not None and question in {"bake", "simmer", "steep"}:
        told["temperature"] = f"{process.celsius:g} C"
    if question in {"simmer", "heat"}:
        told |= _pot(reading, water=True)
    if question in {"fry", "bake"}:
        told |= _pot(reading, water=False)
    if question == "simmer" and process.covered is not None:
        told["lid"] = "yes" if process.covered else ""
    if question == "cool":
        told |= _cooled(step.written.number, reading, plan)
    if question in {"freeze", "thaw"}:
        told |= _jarred(reading, tables)
    return told


def _masses(reading: Reading) -> dict[str, float]:
    """Food → what goes into the pot. [kg]"""
    found: dict[str, float] = {}
    for line in reading.lines:
        for part in line.constituents:
            if part.mass is not None:
                name = "" if part.food.food_class == "water & ice" else part.food.name
                found[name] = found.get(name, 0.0) + part.mass.mean
    return found


def _pot(reading: Reading, *, water: bool) -> dict[str, str]:
    """All of it, named after what there is most of."""
    masses = _masses(reading)
    wet = masses.pop("", 0.0)
    told = {"water": ""}
    if water and wet > 0:
        told["water"] = f"{wet:.3g} kg"
    if masses:
        told["food"] = max(masses, key=lambda name: masses[name])
        told["mass"] = f"{sum(masses.values()):.3g} kg"
    return told if water else {key: value for key, value in told.items() if key != "water"}


def _cooled(number: int, reading: Reading, plan: Plan) -> dict[str, str]:
    masses = _masses(reading)
    whole = sum(masses.values())
    masses.pop("", None)
    told = {"food": max(masses, key=lambda name: masses[name])} if masses else {}
    one = next((one for one in plan.coolings if one.step == number), None)
    if one is None:  # nothing hot: all of it, a litre a kilogram, for the cook to correct
        return {**told, "volume": f"{whole:.3g} L"} if whole > 0 else told
    where = {"counter": "room", "ice bath": "ice-bath"}.get(one.places[0], "fridge")
    return {
        **told,
        "volume": f"{one.litres / one.count:.3g} L",
        "portions": f"{one.count}",
        "vessel": one.vessel,
        "from": f"{one.start - ZERO_CELSIUS:.0f} C",
        "where": where,
    }


def _jarred(reading: Reading, tables: Tables) -> dict[str, str]:
    for pack in reading.recipe.pack or ():
        found = packed(pack.container, tables.life_cycle, reading.kitchen.vessels, pack.lid)
        if found is not None:
            return {"volume": f"{1000 * found.litres:.0f} ml"}
    return {}
