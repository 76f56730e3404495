"""The derivation of every number of a proof, in the order a reader meets them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from counterproof.comparison.paired import Pair
from counterproof.costing import Cost
from counterproof.deriving.charges import (
    Eaten,
    charges,
    energies,
    energy_amounts,
    heading,
    line_amounts,
    masses,
)
from counterproof.deriving.sums import batch, comparison, cost, nutrition, per, serving, stages
from counterproof.deriving.terms import of_amount
from counterproof.draws import Streams
from counterproof.footprint.model import Footprint, ItemFootprint
from counterproof.numerals import CO2E
from counterproof.plan.model import Plan
from counterproof.proof import Derivation, LineProof, StepProof, Term
from counterproof.reading.model import Reading
from counterproof.rows import Tables


@dataclass(frozen=True, slots=True)
class Results:
    """What a proof is set from, and its lines and steps as it shows them."""

    reading: Reading
    plan: Plan
    footprint: Footprint
    versions: Sequence[tuple[Footprint, Pair]]
    cost: Cost | None
    lines: Sequence[LineProof]
    steps: Sequence[StepProof]


def derivations(results: Results, tables: Tables, streams: Streams) -> tuple[Derivation, ...]:
    """How every number of a proof came about.

    Parameters
    ----------
    results : Results
        Reading, plan, footprint, versions, cost, and the ranges shown.
    tables : Tables
        Edible shares, compositions.
    streams : Streams
        Seed, number of draws, and the draws already made.

    Returns
    -------
    tuple of Derivation
        The serving first, then what it is made of, then what is worked out from it. A number's
        short name is its place.
    """
    footprint = results.footprint
    eaten = Eaten(footprint.serves, streams)
    lines = [*_lines(results, tables, eaten)]
    steps = [*_steps(results, eaten)]
    elsewhere = [*_elsewhere(footprint, eaten)]
    return (
        serving(results.reading, footprint, [*lines, *steps, *elsewhere]),
        batch(footprint),
        *stages(footprint, _placed(footprint)),
        *comparison(footprint, results.versions),
        *lines,
        *steps,
        *elsewhere,
        *per(footprint),
        *nutrition(results.reading, footprint, tables, results.plan),
        *cost(results.cost),
    )


def _lines(results: Results, tables: Tables, eaten: Eaten) -> Iterator[Derivation]:
    for line, shown in zip(results.reading.lines, results.lines, strict=True):
        number = shown.number
        known = [*masses(line, eaten.streams, shown.mass_kg)]
        parts = _parts(results.footprint, "line", number)
        if parts and shown.kgco2e is not None:
            amounts = line_amounts(line, parts, known, tables)
            name = heading(line, number, results.reading)
            yield from charges(f"line:{number}", name, shown.kgco2e, parts, amounts, eaten)
        yield from known


def _steps(results: Results, eaten: Eaten) -> Iterator[Derivation]:
    for shown in results.steps:
        number = shown.number
        parts = _parts(results.footprint, "energy", number)
        if not parts or shown.kgco2e is None:
            continue
        known = [*energies(number, parts, shown.kwh, eaten.streams)]
        name = f"step {number}: " + ", ".join(part.item.name for part in parts)
        amounts = energy_amounts(parts, known)
        yield from charges(f"step:{number}", name, shown.kgco2e, parts, amounts, eaten)
        yield from known


def _elsewhere(footprint: Footprint, eaten: Eaten) -> Iterator[Derivation]:
    """What stands apart, first as the groups that a reader meets, each with its activities."""
    named = [*_named(footprint.elsewhere)]
    for what, whole in footprint.apart.items():
        within = [(key, part) for key, part in named if part.item.apart == what]
        added = tuple(
            Term(part.item.name, part.kgco2e, CO2E, does="+", opens=key) for key, part in within
        )
        yield Derivation(f"apart:{what}", what, whole.kgco2e, CO2E, added)
        for key, part in within:
            item = part.item
            amounts = [of_amount(item.amount, item.way, item.unit)]
            yield from charges(key, item.name, part.kgco2e, [part], amounts, eaten)


def _named(parts: Iterable[ItemFootprint]) -> Iterator[tuple[str, ItemFootprint]]:
    """Activities by their keys; one that occurs again is counted."""
    seen: Counter[str] = Counter()
    for part in parts:
        seen[part.item.name] += 1
        again = f":{seen[part.item.name]}" if seen[part.item.name] > 1 else ""
        yield f"activity:{part.item.name}{again}", part


def _parts(footprint: Footprint, kind: str, number: int) -> list[ItemFootprint]:
    return [
        part for part in footprint.items if part.item.kind == kind and part.item.number == number
    ]


def _placed(footprint: Footprint) -> Iterator[tuple[str, ItemFootprint]]:
    """Every item by the key of the line, step or activity it belongs to."""
    for part in footprint.items:
        if part.item.number is not None:
            place = "line" if part.item.kind == "line" else "step"
            yield f"{place}:{part.item.number}", part
    yield from _named(footprint.elsewhere)
