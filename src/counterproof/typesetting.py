"""Sets a reading, its plan, its footprint and its versions into an Edition.

Nothing is calculated here that a package below has not worked out: this is where results get
the words and the places in which every surface shows them.
"""

from __future__ import annotations

from collections.abc import Sequence

from counterproof.apart import activity_proofs, apart_proofs, fizz_proof, packaging_proof
from counterproof.comparison.paired import Pair
from counterproof.costing import Cost
from counterproof.deriving.derivations import Results, derivations
from counterproof.footprint.model import Footprint
from counterproof.footprint.packaging import PackagingReport
from counterproof.in_words import (
    bought_in_words,
    rounded_minutes,
    seconds_in_words,
    version_in_words,
)
from counterproof.line_by_line import Sorts, lines_set, steps_set
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
    SourceLine,
    TaskProof,
    TimeProof,
    VersionProof,
)
from counterproof.reading.allergens import allergens_of_recipe
from counterproof.reading.bought import BOUGHT
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import defaults_used
from counterproof.rows import Source, Tables


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
    lines = lines_set(reading, footprint, sorts)
    steps = steps_set(reading, plan, footprint, sorts.streams)
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
    found = allergens_of_recipe(reading, tables, "us")
    return AllergensUs(found.present, found.read_the_label)


def _cautions(reading: Reading) -> tuple[str, ...]:
    found = tuple(caution.printed for caution in cautions_of(reading))
    return (*found, DEFER) if found else ()


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
