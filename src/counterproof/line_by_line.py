"""The recipe's lines and steps as a proof shows them, each with what reading and physics know of it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from counterproof.costing import Cost
from counterproof.draws import Product, Range, Streams
from counterproof.footprint.items import Item
from counterproof.footprint.model import Footprint
from counterproof.in_words import mass_in_words, process_in_words, quantity_in_words
from counterproof.plan.model import Plan
from counterproof.proof import LineProof, StepProof
from counterproof.reading.allergens import allergens_of_line
from counterproof.reading.model import MarkedLine, MarkedStep, Process, Reading
from counterproof.rows import Tables

_SEEN: Final = 0.005
"""Mass that has to leave the pot before it is told beside the step. [kg]"""


@dataclass(frozen=True, slots=True)
class Sorts:
    """What the typesetter has at hand beside the results: tables, draws, the date, the cost."""

    tables: Tables
    streams: Streams
    date: str | None = None
    cost: Cost | None = None


def lines_set(reading: Reading, footprint: Footprint, sorts: Sorts) -> tuple[LineProof, ...]:
    """Every ingredient line of a recipe, with its part of the footprint.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    footprint : Footprint
        Of one serving.
    sorts : Sorts
        Tables and draws.

    Returns
    -------
    tuple of LineProof
        In the order of the recipe.
    """
    return tuple(_line(line, footprint, sorts) for line in reading.lines)


def line_read(line: MarkedLine, sorts: Sorts) -> LineProof:
    """An ingredient line with what reading alone knows of it, before anything is worked out.

    Parameters
    ----------
    line : MarkedLine
        The line as understood.
    sorts : Sorts
        Tables and draws.

    Returns
    -------
    LineProof
        Without footprint and factor.
    """
    return LineProof(
        number=line.written.number,
        as_written=line.written.text,
        section=line.written.section,
        quantity=quantity_in_words(line.quantity, line.split.packs, line.split.container),
        food=" and ".join(found.food.name for found in line.constituents) or None,
        food_id=line.food.id if line.food else None,
        food_class=line.food.food_class if line.food else None,
        fit=line.fit,
        certainty=line.certainty,
        runners_up=tuple((other.food.name, other.certainty) for other in line.runners_up),
        mass_kg=_summed([found.mass for found in line.constituents], sorts.streams),
        marks=line.marks,
        allergens=allergens_of_line(line, sorts.tables).present,
        kgco2e=None,
        stages={},
        share=None,
        factor=None,
        source=None,
    )


def _line(line: MarkedLine, footprint: Footprint, sorts: Sorts) -> LineProof:
    part = footprint.of_line(line.written.number)
    item = part.items[0] if part else None
    read = line_read(line, sorts)
    return replace(
        read,
        marks=(*read.marks, *footprint.marks.get(line.written.number, ())),
        kgco2e=part.kgco2e if part else None,
        stages=part.stages if part else {},
        share=part.share if part else None,
        factor=_factors(part.items) if part else None,
        source=item.source if item else None,
    )


def _factors(items: Sequence[Item]) -> str:
    """The factors a line's foods are valued by, and that more is charged with them."""
    foods = [item.factor for item in items if item.food]
    return "; ".join(foods) + ("; with its pack and its bin" if len(foods) < len(items) else "")


def _summed(products: Sequence[Product | None], streams: Streams) -> Range | None:
    """Range of a sum of keyed products; None where one of them has no value."""
    there = [product for product in products if product is not None]
    if not there or len(there) < len(products):
        return None
    draws = sum((product.draws(streams) for product in there[1:]), there[0].draws(streams))
    return Range.of(draws, sum(product.mean for product in there))


def steps_set(
    reading: Reading, plan: Plan, footprint: Footprint, streams: Streams
) -> tuple[StepProof, ...]:
    """Every step of a recipe, with its energy and its part of the footprint.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan
        Its energy and what leaves the pot.
    footprint : Footprint
        Of one serving.
    streams : Streams
        Seed and number of draws.

    Returns
    -------
    tuple of StepProof
        In the order of the recipe.
    """
    return tuple(_step(step, plan, footprint, streams) for step in reading.steps)


def step_read(step: MarkedStep) -> StepProof:
    """A step with what reading alone knows of it, before anything is worked out.

    Parameters
    ----------
    step : MarkedStep
        The step as understood.

    Returns
    -------
    StepProof
        Without energy and footprint.
    """
    return StepProof(
        number=step.written.number,
        as_written=step.written.text,
        section=step.written.section,
        understood=" · ".join(_processes(step)),
        marks=step.marks,
        kwh=None,
        kgco2e=None,
    )


def _step(step: MarkedStep, plan: Plan, footprint: Footprint, streams: Streams) -> StepProof:
    number = step.written.number
    part = footprint.of_step(number)
    return replace(
        step_read(step),
        understood=" · ".join((*_processes(step), *_leaving(plan, number))),
        marks=(*step.marks, *(mark for at, mark in plan.marks if at == number)),
        kwh=_summed([use.kwh for use in plan.energy if use.step == number], streams),
        kgco2e=part.kgco2e if part else None,
    )


def _processes(step: MarkedStep) -> tuple[str, ...]:
    words = dict.fromkeys(process_in_words(process) for process in _told(step.processes))
    told = "; ".join(words)
    return (told,) if told else ()


def _leaving(plan: Plan, number: int) -> tuple[str, ...]:
    """What physics takes out of the pot at a step: steam, what stays in the sieve, poured water."""
    gone: dict[str, float] = {}
    for part in plan.leaving:
        if part.step == number:
            gone[part.cause] = gone.get(part.cause, 0.0) + part.mass.mean
    words = {
        "boiled off": "boils off", "strained": "strained off", "drained": "drained off",
        "left behind": "fat left in the pan",
    }  # fmt: skip
    return tuple(
        f"{mass_in_words(mass)} {words[cause]}" for cause, mass in gone.items() if mass >= _SEEN
    )


def _told(processes: Sequence[Process]) -> list[Process]:
    """The processes worth a mark in the margin: those that take heat, cold, time or mass."""
    silent = {"add", "transfer", "prep", "serve", "mix", "unspecified"}
    told = [process for process in processes if process.kind not in silent or process.minutes]
    said_more = {process.kind for process in told if process.minutes or process.celsius}
    return list(dict.fromkeys(p for p in told if p.minutes or p.celsius or p.kind not in said_more))
