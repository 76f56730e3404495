"""What only stills and handout show: likenesses, what cools, every place of two controls."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import isfinite
from typing import Final

from counterproof.claims.figure import Figure
from counterproof.claims.likenesses import liken, likened
from counterproof.claims.seen import Seen, Surroundings
from counterproof.comparison.paired import Pair
from counterproof.draws import Range, Streams
from counterproof.footprint.held import Held
from counterproof.footprint.model import Footprint
from counterproof.forme import Course, Deadline, Likened, Position
from counterproof.numerals import CO2E
from counterproof.physics.spread import ranged, spoken
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.cooled import CooledStep
from counterproof.press.side_by_side import totals_apart
from counterproof.proof import Derivation, Edition, Term
from counterproof.use_cases import Assessed, Workbench, assessed, versions_beside

Beside = Sequence[tuple[Footprint, Pair]]
"""What stands beside a recipe, as `use_cases.versions_beside` gives it."""

FEW: Final = (1.0, 4.0)
"""Servings cooked at once that a handout offers beside the recipe's own and twice as many. [1]
A house choice: the single plate and the small family."""


@dataclass(frozen=True, slots=True)
class Pictured:
    """What stills and handout show, and the derivations of it that the proof does not hold yet."""

    likened: tuple[Likened, ...]
    courses: tuple[Course, ...]
    positions: tuple[Position, ...]
    derivations: tuple[Derivation, ...]


def pictured(
    base: Assessed,
    edition: Edition,
    versions: Beside,
    bench: Workbench,
    streams: Streams,
    held: Held,
) -> Pictured:
    """What only stills and handout show of an episode.

    Parameters
    ----------
    base : Assessed
        Its recipe worked out, with its verdicts.
    edition : Edition
        Its proof.
    versions : sequence of (Footprint, Pair)
        What stands beside it.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    held : Held
        What was worked out for the proof; it grows.

    Returns
    -------
    Pictured
        Likenesses, courses, positions, and the derivations they add.
    """
    around = Surroundings(base.order.kitchen, bench.tables, streams)
    seen = tuple(_likened(edition, around))
    added = [_of_likeness(one, edition) for one in seen]
    courses = []
    for number, cooled in enumerate(base.plan.coolings, start=1):
        course, timed = _course(cooled, number)
        courses.append(course)
        added += timed
    added += _of_packs(edition)
    positions = tuple(_positions(base, edition, versions, bench, streams, held))
    return Pictured(seen, tuple(courses), positions, tuple(added))


def _figure(value: Range) -> Figure:
    """A range that is only likened: counts need its mean and its percentiles, not its draws."""
    return Figure.exact(value.mean, "kg CO2e", 1)


def _likened(edition: Edition, around: Surroundings) -> Iterator[Likened]:
    """The recipe by what pictures it best, beside the version furthest from it if that can be."""
    if not edition.serving.mean > 0:
        return
    drawn = [one for one in liken(_figure(edition.serving), around) if one.shape != "none"]
    if not drawn:
        return
    others = [
        one
        for one in edition.versions
        if one.difference is not None
        and not totals_apart(one.serving, edition.serving, one.difference)
    ]
    others.sort(key=lambda one: -abs(one.serving.mean - edition.serving.mean))
    celsius = around.temperature - ZERO_CELSIUS
    for other in others:
        for one in drawn:
            beside = likened(_figure(other.serving), one.kind, around)
            if beside is not None and beside.pictured:
                yield _as_drawn(one, edition.serving, "", celsius)
                yield _as_drawn(beside, other.serving, other.name, celsius)
                return
    yield _as_drawn(drawn[0], edition.serving, "", celsius)


def _as_drawn(seen: Seen, serving: Range, version: str, celsius: float) -> Likened:
    count = serving.scaled(seen.count.mean / serving.mean)
    key = f"likened:{version}" if version else "likened"
    return Likened(version, replace(seen, count=count), celsius, key)


def _of_likeness(one: Likened, edition: Edition) -> Derivation:
    """How a count came about: the serving over what one of them stands for."""
    opens = f"serving:{one.version}" if one.version else "serving"
    serving = next(
        (value.serving for value in edition.versions if value.name == one.version),
        edition.serving,
    )
    each = serving.mean / one.seen.count.mean
    source = one.seen.source.partition(":")[0]
    terms = (
        Term("one serving", serving, CO2E, does="+", opens=opens),
        Term(one.seen.conditions[1], _exactly(each), CO2E, source, does="÷"),
        Term(one.seen.conditions[0]),
    )
    of = f", {one.version}" if one.version else ""
    return Derivation(one.key, f"one serving{of} as {one.seen.names}", one.seen.count, "", terms)


def _exactly(value: float) -> Range:
    return Range(value, value, value, value)


def _course(cooled: CooledStep, number: int) -> tuple[Course, list[Derivation]]:
    """What cools and what the rules ask, with the derivations of its times."""
    found = cooled.found
    way = f"{cooled.litres:.2g} litres, {', then '.join(cooled.places)}"
    deadlines, added = [], []
    for at, (rule, time, said) in enumerate(
        zip(found.rules, found.times, found.verdicts, strict=True), start=1
    ):
        key = f"cooling:{number}:{at}" if isfinite(time.p95) else ""
        if key:
            value = Range(time.mean, time.p05, time.p50, time.p95)
            allowed = _exactly(rule.limit.value)
            terms = (
                Term(f"as modelled: {way}", value, "s", does="+"),
                Term(f"allowed: {said.message}", allowed, "s", rule.source, rule.limit.locator),
            )
            added.append(Derivation(key, f"step {cooled.step}: {rule.name}", value, "s", terms))
        deadlines.append(
            Deadline(
                None if rule.clock is None else rule.clock.value - ZERO_CELSIUS,
                rule.goal.value - ZERO_CELSIUS,
                rule.limit.value,
                spoken(rule.limit.value),
                ranged(time),
                said.verdict,
                rule.limit.locator,
                key,
            )
        )
    levels, times = zip(*found.course, strict=True)
    course = Course(
        cooled.step,
        cooled.litres,
        cooled.vessel,
        cooled.count,
        cooled.places,
        tuple(level - ZERO_CELSIUS for level in levels),
        tuple(time.p05 for time in times),
        tuple(time.p50 for time in times),
        tuple(time.p95 for time in times),
        tuple(deadlines),
    )
    return course, added


def _of_packs(edition: Edition) -> list[Derivation]:
    """What the packs of a serving weigh, ours and the bought ones', by where they go."""
    report = edition.packaging
    if report is None:
        return []
    made = []
    for key, name, side in (
        ("packs", "packs of one serving", report),
        ("packs:bought", "packs of what is bought instead", report.bought),
    ):
        whole = 0.0 if side is None else sum(side.by_fate.values())
        if side is not None and whole > 0:
            terms = tuple(
                Term(fate, _exactly(kg), "kg", does="+") for fate, kg in side.by_fate.items() if kg
            )
            made.append(Derivation(key, name, _exactly(whole), "kg", terms))
    return made


def _positions(
    base: Assessed,
    edition: Edition,
    versions: Beside,
    bench: Workbench,
    streams: Streams,
    held: Held,
) -> Iterator[Position]:
    """Every version with every number of servings; the recipe's own stand as the proof has them."""
    own = edition.serves
    changes = {one.name: one.changes for one in edition.versions}
    for serves in sorted({*FEW, own, 2 * own}):
        first, others = base, versions
        if serves != own:
            asked = replace(base.order, serves=serves)
            first = assessed(asked, bench, streams, verdicts=False, held=held)
            others = versions_beside(first, bench, streams, held)
        yield _position("", (), serves, first.footprint)
        for footprint, pair in others:
            yield replace(
                _position(pair.a, changes.get(pair.a, ()), serves, footprint),
                ratio=None if pair.ratio is None else pair.ratio.of_means,
                share_lower=pair.share_a_lower,
                factor_set=pair.factor_set,
                difference=pair.difference,
            )


def _position(
    version: str, changes: Sequence[str], serves: float, footprint: Footprint
) -> Position:
    stages = tuple((one.stage, one.kgco2e) for one in footprint.stages)
    return Position(
        version, tuple(changes), serves, footprint.serving, footprint.batch, stages,
        None, None, None, None,
    )  # fmt: skip
