"""What is summed or divided from what has a derivation already: serving, stages, versions, cost."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import isclose
from typing import Final

from counterproof.comparison.paired import Pair
from counterproof.costing import Cost
from counterproof.deriving.terms import AGREES, SHARE, exactly, told_by
from counterproof.draws import Range
from counterproof.footprint.model import Footprint, ItemFootprint
from counterproof.numerals import CO2E
from counterproof.nutrition import food_parts
from counterproof.plan.model import Plan
from counterproof.proof import Derivation, Term
from counterproof.reading.model import Reading
from counterproof.rows import Tables

_OF_ONE: Final = ("line", "step", "apart")
_PER: Final = {
    "kg": ("kg", "one serving's mass"),
    "litre": ("L", "one serving's volume"),
    "1000_kcal": ("1000 kcal", "one serving's energy"),
    "100_g_protein": ("100 g protein", "one serving's protein"),
}


def serving(reading: Reading, footprint: Footprint, parts: Sequence[Derivation]) -> Derivation:
    """How one serving is the sum of its lines, steps and activities.

    Parameters
    ----------
    reading : Reading
        The recipe, for lines that are not counted.
    footprint : Footprint
        Of one serving.
    parts : sequence of Derivation
        Among them each line's, step's and activity's own.

    Returns
    -------
    Derivation
        [kg CO2e]
    """
    added = [
        Term(part.name, part.value, CO2E, does="+", opens=part.key)
        for part in parts
        if _is_whole(part.key)
    ]
    counted = {part.key for part in parts}
    missing = [
        Term(f"“{line.written.text}” is not counted")
        for line in reading.lines
        if f"line:{line.written.number}" not in counted
    ]
    return Derivation("serving", "one serving", footprint.serving, CO2E, (*added, *missing))


def _is_whole(key: str) -> bool:
    """Whether a key is that of a whole line, step or group of activities, not of a part of one."""
    kind, _, rest = key.partition(":")
    return kind in _OF_ONE and ":" not in rest


def batch(footprint: Footprint) -> Derivation:
    """How the batch follows from one serving.

    Parameters
    ----------
    footprint : Footprint
        Of one serving.

    Returns
    -------
    Derivation
        [kg CO2e]
    """
    terms = (
        Term("one serving", footprint.serving, CO2E, does="+", opens="serving"),
        Term("servings eaten", exactly(footprint.serves), does="×"),
    )
    return Derivation("batch", "the whole batch", footprint.batch, CO2E, terms)


def stages(
    footprint: Footprint, placed: Iterable[tuple[str, ItemFootprint]]
) -> Iterator[Derivation]:
    """How each life-cycle stage is the sum of what lines, steps and activities bring to it.

    Parameters
    ----------
    footprint : Footprint
        Of one serving.
    placed : iterable of (str, ItemFootprint)
        Every item, by the key of what it belongs to.

    Yields
    ------
    Derivation
        One a stage. [kg CO2e]
    """
    held = [*placed]
    for stage in footprint.stages:
        terms = [
            Term(part.item.name, _at_stage(part, mean), CO2E, does="+", opens=key)
            for key, part in held
            if (mean := part.stages.get(stage.stage))
        ]
        name = f"{stage.stage} of one serving"
        yield Derivation(f"stage:{stage.stage}", name, stage.kgco2e, CO2E, tuple(terms))


def _at_stage(part: ItemFootprint, mean: float) -> Range:
    """An item's part in a stage: its own range where all of it stands there, else its mean."""
    return part.kgco2e if len(part.stages) == 1 else exactly(mean)


def comparison(
    footprint: Footprint, versions: Sequence[tuple[Footprint, Pair]]
) -> Iterator[Derivation]:
    """How each version's serving, difference, ratio and share came about.

    Parameters
    ----------
    footprint : Footprint
        Of the recipe as written.
    versions : sequence of (Footprint, Pair)
        Each version's own footprint, and the version against the recipe.

    Yields
    ------
    Derivation
        Its serving, then what could be judged of it. [kg CO2e; 1]
    """
    for found, pair in versions:
        parts = tuple(
            Term(part.item.name, part.kgco2e, CO2E, part.item.source, does="+")
            for part in found.items
        )
        yield Derivation(f"serving:{pair.a}", f"one serving, {pair.a}", found.serving, CO2E, parts)
        if pair.sides is None or pair.difference is None or pair.share_a_lower is None:
            continue
        theirs = _side(pair.sides[0], found.serving, f"serving:{pair.a}")
        ours = _side(pair.sides[1], footprint.serving, "serving")
        how = (
            Term(f"what differs is valued in one set: {pair.factor_set}")
            if pair.factor_set
            else Term("nothing differs that a factor set values")
        )
        a, b = f"one serving, {pair.a}", "one serving as written"
        name = f"{pair.a} against the recipe as written"
        yield Derivation(
            f"version:{pair.a}",
            f"{name}: the difference",
            pair.difference,
            CO2E,
            (
                how,
                Term(a, theirs[0], CO2E, does="+", opens=theirs[1]),
                Term(b, ours[0], CO2E, does="−", opens=ours[1]),
            ),
        )
        if pair.ratio is not None:
            ratio = Range(pair.ratio.of_means, pair.ratio.p05, pair.ratio.p50, pair.ratio.p95)
            yield Derivation(
                f"ratio:{pair.a}",
                f"{name}: the ratio of the means",
                ratio,
                "",
                (
                    how,
                    Term(a, theirs[0], CO2E, does="+", opens=theirs[1]),
                    Term(b, ours[0], CO2E, does="÷", opens=ours[1]),
                ),
            )
        draws = footprint.basis.draws
        yield Derivation(
            f"share:{pair.a}",
            f"{name}: share of draws in which it is the lower one",
            exactly(pair.share_a_lower),
            SHARE,
            (
                how,
                Term(
                    f"draws in which {pair.a} is the lower one",
                    exactly(float(round(pair.share_a_lower * draws))),
                    does="+",
                ),
                Term("all draws, the same for both", exactly(float(draws)), does="÷"),
            ),
        )


def _side(mean: float, serving: Range, key: str) -> tuple[Range, str]:
    """One side as it was compared: its own serving where no other set was needed for it."""
    if isclose(mean, serving.mean, rel_tol=AGREES):
        return serving, key
    return exactly(mean), ""


def per(footprint: Footprint) -> Iterator[Derivation]:
    """How the footprint per kg, litre, energy and protein follows from one serving.

    Parameters
    ----------
    footprint : Footprint
        Of one serving.

    Yields
    ------
    Derivation
        One for each that is known. [kg CO2e per unit]
    """
    for name, value in footprint.per.items():
        if value is None:
            continue
        unit, what = _PER[name]
        amount = footprint.static / value if value else 0.0
        if not amount:
            continue
        terms = (
            Term("one serving", footprint.serving, CO2E, does="+", opens="serving"),
            Term(what, exactly(amount), unit, does="÷"),
        )
        whole = footprint.serving.scaled(1 / amount)
        yield Derivation(f"per:{name}", f"footprint per {unit}", whole, f"{CO2E}/{unit}", terms)


def nutrition(
    reading: Reading, footprint: Footprint, tables: Tables, plan: Plan
) -> Iterator[Derivation]:
    """How each nutrient of one serving is the sum of what its foods bring.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    footprint : Footprint
        With the nutrition of one serving.
    tables : Tables
        Compositions.
    plan : Plan
        What leaves the pot.

    Yields
    ------
    Derivation
        One for each nutrient that is given. [kcal, g]
    """
    parts = food_parts(reading, tables, plan)
    for name, amount in footprint.nutrition.amounts.items():
        if amount is None:
            continue
        what, _, unit = name.rpartition("_")
        terms: list[Term] = []
        for part in parts:
            food = tables.foods[part.food].name
            if name not in part.brings:
                terms.append(Term(f"{food}: not known"))
                continue
            source, locator = told_by(tables.composition[part.food].provenance)
            brought = exactly(part.brings[name])
            terms.append(Term(food, brought, unit, source, locator, "+"))
        named = f"{what} of one serving"
        yield Derivation(f"nutrition:{name}", named, exactly(amount), unit, tuple(terms))


def cost(found: Cost | None) -> Iterator[Derivation]:
    """How the cost of one serving is the sum of what has a price.

    Parameters
    ----------
    found : Cost or None
        Of one serving.

    Yields
    ------
    Derivation
        Nothing without prices. [currency]
    """
    if found is None:
        return
    added = [Term(name, exactly(mean), found.currency, does="+") for name, mean in found.parts]
    missing = [Term(f"{name}: no price is known") for name in found.not_priced]
    yield Derivation(
        "cost", "cost of one serving", found.per_serving, found.currency, (*added, *missing)
    )
