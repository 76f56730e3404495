"""Two or more recipes side by side on shared draws."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, zip_longest
from typing import Any

from counterproof.comparison.boundaries import unlike_boundaries
from counterproof.comparison.break_even import BreakEven, break_evens
from counterproof.comparison.covering import covering, differing_foods
from counterproof.comparison.lives import lasting, life_break_evens
from counterproof.comparison.remarks import (
    missing_lines,
    outside_the_set,
    refusal,
    turning_sets,
    unlike_servings,
)
from counterproof.comparison.trade_offs import NOTHING, TradeOffs, trade_off_marks, trade_offs
from counterproof.costing import Cost
from counterproof.draws import Draws, Range, Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.factors import SETS, RangeFor
from counterproof.footprint.held import Held
from counterproof.footprint.model import Footprint, Valuation
from counterproof.footprint.valuing import Case, valuation
from counterproof.marks import Mark
from counterproof.nutrition import Function
from counterproof.plan.model import Plan
from counterproof.reading.model import Reading
from counterproof.rows import FactorSet, Tables

LEAST_DENOMINATORS = 0.005
"""Share of draws with a denominator ≤ 0 above which no ratio is given (method §7). [1]"""


@dataclass(frozen=True)
class Entry:
    """One side of a comparison: a recipe or a version of it, by the name it is shown under."""

    name: str
    reading: Reading
    plan: Plan | None = None
    cost: Cost | None = None


@dataclass(frozen=True, slots=True)
class Ratio:
    """Ratio of the means, and percentiles of the paired ratio."""

    of_means: float
    p05: float
    p50: float
    p95: float

    def to_dict(self) -> dict[str, float]:
        """Return the JSON form."""
        return {"of_means": self.of_means, "p05": self.p05, "p50": self.p50, "p95": self.p95}


@dataclass(frozen=True, slots=True)
class Otherwise:
    """The same comparison inside another set that covers both sides."""

    set: FactorSet
    ratio_of_means: float | None
    share_a_lower: float

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "set": self.set,
            "ratio_of_means": self.ratio_of_means,
            "share_a_lower": self.share_a_lower,
        }


@dataclass(frozen=True)
class Pair:
    """One side against another, serving against serving, draw by draw.

    `difference` is a − b, None where the comparison cannot be judged; `reason` then says why.
    `draws` are those of the difference. [kg CO2e]
    """

    a: str
    b: str
    ratio: Ratio | None
    difference: Range | None
    share_a_lower: float | None
    factor_set: FactorSet | None
    function: tuple[Function, Function]
    shares_draws_of: tuple[str, ...]
    otherwise: tuple[Otherwise, ...]
    marks: tuple[Mark, ...]
    reason: str | None
    draws: Draws | None
    break_even: tuple[BreakEven, ...] = ()
    packaging_avoided: float | None = None  # mass of b's packs less that of a's, a serving [kg]
    traded: TradeOffs = NOTHING
    sides: tuple[float, float] | None = None  # a and b in the set compared in [kg CO2e]

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "a": self.a,
            "b": self.b,
            "ratio": None if self.ratio is None else self.ratio.to_dict(),
            "difference_kgco2e": None if self.difference is None else self.difference.to_dict(),
            "share_a_lower": self.share_a_lower,
            "factor_set": self.factor_set,
            "function": {"a": self.function[0].to_dict(), "b": self.function[1].to_dict()},
            "shares_draws_of": list(self.shares_draws_of),
            "packaging_avoided_kg": self.packaging_avoided,
            "second_opinion": [other.to_dict() for other in self.otherwise],
            "trade_offs": [one.to_dict() for one in self.traded.found],
            "trade_offs_not_covered": list(self.traded.not_covered),
            "cannot_be_judged": self.reason,
            "marks": [mark.to_dict() for mark in self.marks],
        }


@dataclass(frozen=True)
class Comparison:
    """Several recipes, each in its own base, and every pair of them in one covering set."""

    items: tuple[tuple[str, Footprint], ...]
    pairs: tuple[Pair, ...]
    costs: tuple[Cost | None, ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "items": [
                {
                    "name": name,
                    "serving": {"kgco2e": found.serving.to_dict()},
                    "nutrition": found.nutrition.to_dict(),
                    "packaging": None if found.packaging is None else found.packaging.to_dict(),
                    "fizz": None if found.fizz is None else found.fizz.to_dict(),
                    "cost": None if cost is None else cost.to_dict(),
                }
                for (name, found), cost in zip_longest(self.items, self.costs)
            ],
            "pairs": [pair.to_dict() for pair in self.pairs],
            "break_even": [even.to_dict() for pair in self.pairs for even in pair.break_even],
            "basis": self._basis(),
        }

    def _basis(self) -> dict[str, Any]:
        bases = [found.basis for _, found in self.items]
        if not bases:
            return {}
        joined = replace(
            bases[0],
            gwp=_joined(basis.gwp for basis in bases),
            factor_sets=_joined(basis.factor_sets for basis in bases),
        )
        return joined.to_dict()


def _joined(parts: Iterable[Sequence[str]]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for part in parts for name in part))


def _ratio(a: Valuation, b: Valuation) -> Ratio | None:
    low = b.draws <= 0
    if b.static <= 0 or low.mean() > LEAST_DENOMINATORS:
        return None
    kept = ~low
    paired_ratio = Range.of(a.draws[kept] / b.draws[kept], a.static / b.static)
    return Ratio(paired_ratio.mean, paired_ratio.p05, paired_ratio.p50, paired_ratio.p95)


def _shared(a: Valuation, b: Valuation) -> tuple[str, ...]:
    """Names of what both sides draw together."""
    left, right = (
        {
            parameter.key: item.name if item.kind == "line" else item.factor
            for item in side.charged
            for parameter in item.worth.parameters
        }
        for side in (a, b)
    )
    return tuple(sorted({left[key] for key in left.keys() & right.keys()}))


def _avoided(a: Valuation, b: Valuation) -> float | None:
    if a.packaging is None or b.packaging is None:
        return None
    return b.packaging.kg - a.packaging.kg


def _unjudged(
    a: tuple[str, Valuation], b: tuple[str, Valuation], marks: Sequence[Mark], reason: str
) -> Pair:
    return Pair(
        a=a[0],
        b=b[0],
        ratio=None,
        difference=None,
        share_a_lower=None,
        factor_set=None,
        function=(a[1].function, b[1].function),
        shares_draws_of=_shared(a[1], b[1]),
        otherwise=(),
        marks=tuple(marks),
        reason=reason,
        draws=None,
        packaging_avoided=_avoided(a[1], b[1]),
    )


def paired(
    a: Entry,
    b: Entry,
    tables: Tables,
    *,
    streams: Streams,
    range_for: RangeFor | None = None,
    factor_set: FactorSet | None = None,
    held: Held | None = None,
) -> Pair:
    """One serving of a against one of b, on shared draws.

    Parameters
    ----------
    a, b : Entry
        The two sides.
    tables : Tables
        All tables.
    streams : Streams
        Seed, number of draws, and the draws already made.
    range_for : RangeFor or None
        one-purchase or the-average; None: as the kitchen of `a` says, for both.
    factor_set : FactorSet or None
        The set to value the differing foods in; None: the best one that covers them all.
    held : Held or None
        What was worked out for other pairs on the same tables and streams.

    Returns
    -------
    Pair
        Foods in which the sides differ are valued in one set; what they share keeps its base.
    """
    asked = range_for or a.reading.kitchen.range_for
    known = held or Held()

    def sides(choice: Mapping[str, FactorSet]) -> tuple[Valuation, Valuation]:
        one, other = (
            valuation(Case(side.reading, tables, side.plan, asked), streams, choice, held=known)
            for side in (a, b)
        )
        return one, other

    base = sides({})
    foods = differing_foods(a.reading, b.reading)
    own = ((base[0], a.reading), (base[1], b.reading))
    found = covering(own, foods, tables, among=(factor_set,) if factor_set else SETS)
    function = (base[0].function, base[1].function)
    marks = [*unlike_servings(*function), *missing_lines(a.name, base[0], b.name, base[1])]
    if found.set is None:
        refused = refusal(found.missing, factor_set, tables)
        return _unjudged((a.name, base[0]), (b.name, base[1]), marks, refused)
    one, other = sides(dict.fromkeys(found.foods, found.set)) if foods else base
    unlike, reason = unlike_boundaries(one, other, tables)
    marks += unlike
    if reason is not None:
        return _unjudged((a.name, one), (b.name, other), marks, reason)
    difference = one.draws - other.draws
    otherwise: list[Otherwise] = []
    for name in SETS if foods else ():
        second = covering(own, foods, tables, among=(name,))
        if second.set is not None and name != found.set:
            first, last = sides(dict.fromkeys(second.foods, name))
            means = first.static / last.static if last.static > 0 else None
            otherwise.append(Otherwise(name, means, float((first.draws < last.draws).mean())))
    marks += outside_the_set(found.set, found.minor, tables)
    ratio = _ratio(one, other)
    share_a_lower = float((difference < 0).mean())
    left, right = (Case(side.reading, tables, side.plan, asked) for side in (a, b))
    traded = trade_offs(left, right, foods, share_a_lower, streams, known)
    marks += trade_off_marks(a.name, b.name, traded)
    turned = [(other_set.set, other_set.ratio_of_means) for other_set in otherwise]
    return Pair(
        a=a.name,
        b=b.name,
        ratio=ratio,
        difference=Range.of(difference, one.static - other.static),
        share_a_lower=share_a_lower,
        factor_set=found.set if foods else None,
        function=function,
        shares_draws_of=_shared(one, other),
        otherwise=tuple(otherwise),
        marks=(*marks, *turning_sets(None if ratio is None else ratio.of_means, turned)),
        reason=None,
        draws=difference,
        break_even=(
            *break_evens((a.name, one), (b.name, other), foods, streams),
            *life_break_evens(
                (a.name, one),
                (b.name, other),
                (lasting(a.reading), lasting(b.reading)),
            ),
        ),
        packaging_avoided=_avoided(one, other),
        traded=traded,
        sides=(one.static, other.static),
    )


def compare(
    entries: Sequence[Entry],
    tables: Tables,
    *,
    streams: Streams,
    range_for: RangeFor | None = None,
    factor_set: FactorSet | None = None,
) -> Comparison:
    """Several recipes side by side, every pair on shared draws.

    Parameters
    ----------
    entries : sequence of Entry
        Two or more.
    tables : Tables
        All tables.
    streams : Streams
        Seed, number of draws, and the draws already made.
    range_for : RangeFor or None
        one-purchase or the-average; None: as the first kitchen says, for all.
    factor_set : FactorSet or None
        The set to value differing foods in; None: the best covering one of each pair.

    Returns
    -------
    Comparison
        Pairs in the order of the entries: first with second, first with third, …
    """
    asked = range_for or (entries[0].reading.kitchen.range_for if entries else None)
    held = Held()
    items = tuple(
        (
            entry.name,
            assess(entry.reading, tables, entry.plan, streams=streams, range_for=asked, held=held),
        )
        for entry in entries
    )
    pairs = tuple(
        paired(a, b, tables, streams=streams, range_for=asked, factor_set=factor_set, held=held)
        for a, b in combinations(entries, 2)
    )
    return Comparison(items, pairs, tuple(entry.cost for entry in entries))
