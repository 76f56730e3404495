"""Sets a reading, its plan, its footprint and its versions into an Edition.

Nothing is calculated here that a package below has not worked out: this is where results get
the words and the places in which every surface shows them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from counterproof.apart import activity_proofs, apart_proofs, fizz_proof, packaging_proof
from counterproof.comparison.paired import Pair
from counterproof.costing import Cost
from counterproof.deriving.derivations import Results, derivations
from counterproof.draws import Product, Range, Streams
from counterproof.footprint.items import Item
from counterproof.footprint.model import Footprint
from counterproof.footprint.packaging import PackagingReport
from counterproof.in_words import (
    bought_in_words,
    mass_in_words,
    process_in_words,
    quantity_in_words,
    rounded_minutes,
    seconds_in_words,
    version_in_words,
)
from counterproof.physics.cautions import DEFER
from counterproof.physics.spread import Spread
from counterproof.plan.cautions import cautions_of
from counterproof.plan.model import Plan
from counterproof.plan.timeline import Timeline
from counterproof.proof import (
    AllergensUs,
    CostProof,
    Derivation,
    Edition,
    LineProof,
    SourceLine,
    StepProof,
    TaskProof,
    TimeProof,
    VersionProof,
)
from counterproof.reading.allergen_schemes import under
from counterproof.reading.allergens import allergens_of_line, allergens_of_recipe
from counterproof.reading.bought import BOUGHT
from counterproof.reading.model import MarkedLine, MarkedStep, Process, Reading
from counterproof.recipe.kitchen import defaults_used
from counterproof.rows import Source, Tables

_SEEN: Final = 0.005
"""Mass that has to leave the pot before it is told beside the step. [kg]"""


@dataclass(frozen=True, slots=True)
class Sorts:
    """What the typesetter has at hand beside the results: tables, draws, the date, the cost."""

    tables: Tables
    streams: Streams
    date: str | None = None
    cost: Cost | None = None


def typeset(
    reading: Reading,
    plan: Plan,
    footprint: Footprint,
    versions: Sequence[tuple[Footprint, Pair]],
    sorts: Sorts,
) -> Edition:
    """Everything one proof shows.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan
        Its energy and what leaves the pot.
    footprint : Footprint
        Of one serving.
    versions : sequence of (Footprint, Pair)
        Each version's own footprint, and the version against the recipe.
    sorts : Sorts
        Tables and date.

    Returns
    -------
    Edition
        The proof, ready to be rendered.
    """
    tables = sorts.tables
    found = allergens_of_recipe(reading, tables)
    function = footprint.function
    basis = {
        key: ", ".join(value) if isinstance(value, list) else value
        for key, value in footprint.basis.to_dict().items()
    }
    if sorts.date is not None:
        basis["date"] = sorts.date
    lines = _lines(reading, footprint, sorts)
    steps = _steps(reading, plan, footprint, sorts.streams)
    shown = Results(
        reading=reading,
        plan=plan,
        footprint=footprint,
        versions=versions,
        cost=sorts.cost,
        lines=lines,
        steps=steps,
    )
    derived = derivations(shown, tables, sorts.streams)
    return Edition(
        title=reading.recipe.title,
        version=reading.version.name if reading.version else None,
        serves=reading.serves,
        serving_name="one serving",
        serving_mass_kg=function.kg,
        serving_litres=function.litres,
        lines=lines,
        steps=steps,
        marks=(
            *reading.marks,
            *(mark for at, mark in plan.marks if at == 0),
            *footprint.marks.get(0, ()),
        ),
        serving=footprint.serving,
        batch=footprint.batch,
        middle=footprint.basis.middle,
        range_for=footprint.basis.range_for,
        stages=tuple((part.stage, part.kgco2e) for part in footprint.stages),
        coverage_mass=footprint.coverage_mass,
        coverage_by_fit=footprint.coverage_by_fit,
        second_opinion=tuple(
            (opinion.set, opinion.kgco2e, opinion.coverage) for opinion in footprint.second_opinion
        ),
        settle_next=tuple((part.what, part.share_of_variance) for part in footprint.settle_next),
        settle_how=tuple((part.do, part.narrows_by) for part in footprint.settle_next),
        versions=_versions(reading, footprint, versions),
        allergens_present=found.present,
        allergens_read_label=found.read_the_label,
        allergens_unknown=found.unknown,
        assumed=(
            *footprint.assumed,
            *(default.sentence() for default in defaults_used(reading.kitchen)),
        ),
        cautions=_cautions(reading),
        sources=_sources(footprint, derived, tables),
        basis=basis,
        per=footprint.per,
        nutrition=footprint.nutrition.amounts,
        nutrition_coverage=footprint.nutrition.coverage,
        cost=_cost(sorts.cost),
        allergens_us=_allergens_us(reading, tables),
        timeline=_timeline(plan.timeline),
        activities=activity_proofs(footprint),
        apart=apart_proofs(footprint),
        packaging=packaging_proof(footprint.packaging, _bought_packs(versions)),
        fizz=fizz_proof(footprint.fizz),
        derivations=derived,
    )


def _sources(
    footprint: Footprint, derived: Sequence[Derivation], tables: Tables
) -> tuple[SourceLine, ...]:
    """The sources of the factors, and of whatever else a number of the proof was worked out by."""
    named = {term.source for one in derived for term in one.terms}
    named |= {source.id for source in footprint.sources}
    found = (tables.sources[name] for name in sorted(named) if name in tables.sources)
    return tuple(source_line(source) for source in found)


def source_line(source: Source) -> SourceLine:
    """A source as it is printed under the proof.

    Parameters
    ----------
    source : Source
        Its record.

    Returns
    -------
    SourceLine
        The same, without what only the tables need.
    """
    return SourceLine(
        source.id,
        source.citation,
        source.address,
        source.licence,
        source.credit,
        source.title,
        source.producer,
        source.published,
        source.accessed,
    )


def _bought_packs(versions: Sequence[tuple[Footprint, Pair]]) -> PackagingReport | None:
    return next((found.packaging for found, pair in versions if pair.a == BOUGHT), None)


def _cost(cost: Cost | None) -> CostProof | None:
    if cost is None:
        return None
    return CostProof(cost.per_serving, cost.currency, cost.coverage, *cost.dates, cost.not_priced)


def _allergens_us(reading: Reading, tables: Tables) -> AllergensUs:
    found = allergens_of_recipe(reading, under("us", tables))
    return AllergensUs(found.present, found.read_the_label)


def _cautions(reading: Reading) -> tuple[str, ...]:
    found = tuple(caution.printed for caution in cautions_of(reading))
    return (*found, DEFER) if found else ()


def _lines(reading: Reading, footprint: Footprint, sorts: Sorts) -> tuple[LineProof, ...]:
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


def _steps(
    reading: Reading, plan: Plan, footprint: Footprint, streams: Streams
) -> tuple[StepProof, ...]:
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


def _timeline(timeline: Timeline) -> TimeProof | None:
    if not timeline.tasks:
        return None
    return TimeProof(
        tasks=tuple(
            TaskProof(
                task.step,
                task.does,
                task.hands_on,
                _ends(task.begins),
                _ends(task.lasts),
                seconds_in_words(task.lasts.p05, task.lasts.p95),
            )
            for task in timeline.tasks
        ),
        total=seconds_in_words(timeline.total.p05, timeline.total.p95),
        hands_on=seconds_in_words(timeline.hands_on.p05, timeline.hands_on.p95),
        waiting=seconds_in_words(timeline.waiting.p05, timeline.waiting.p95),
        make_ahead=tuple(point.says for point in timeline.make_ahead),
        keeps=tuple(kept.says for kept in timeline.keeps),
        minutes=rounded_minutes(timeline.total.p50),
    )


def _ends(time: Spread) -> tuple[float, float, float]:
    return (time.p05, time.p50, time.p95)


def _told(processes: Sequence[Process]) -> list[Process]:
    """The processes worth a mark in the margin: those that take heat, cold, time or mass."""
    silent = {"add", "transfer", "prep", "serve", "mix", "unspecified"}
    told = [process for process in processes if process.kind not in silent or process.minutes]
    said_more = {process.kind for process in told if process.minutes or process.celsius}
    return list(dict.fromkeys(p for p in told if p.minutes or p.celsius or p.kind not in said_more))


def _versions(
    reading: Reading, footprint: Footprint, versions: Sequence[tuple[Footprint, Pair]]
) -> tuple[VersionProof, ...]:
    """The recipe and its versions, each against the recipe on shared draws."""
    if not versions:
        return ()
    changes = {version.name: version_in_words(version) for version in reading.recipe.versions}
    if reading.recipe.bought is not None:
        changes.setdefault(BOUGHT, bought_in_words(reading.recipe.bought))
    written = VersionProof("as written", (), footprint.serving, None, None, None, None)
    return (
        written,
        *(
            VersionProof(
                name=pair.a,
                changes=changes.get(pair.a, ()),
                serving=found.serving,
                difference=pair.difference,
                ratio=pair.ratio.of_means if pair.ratio else None,
                share_lower=pair.share_a_lower,
                factor_set=pair.factor_set,
                remarks=tuple(mark.message for mark in pair.marks),
            )
            for found, pair in versions
        ),
    )
