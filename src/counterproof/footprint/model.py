"""What an assessment holds, and its JSON form."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import sqrt
from typing import Any

import numpy as np

from counterproof.draws import Draws, Range, Streams
from counterproof.footprint.factors import RangeFor
from counterproof.footprint.fizz import FizzReport
from counterproof.footprint.items import APART, Item, Uncounted
from counterproof.footprint.packaging import PackagingReport
from counterproof.marks import Mark
from counterproof.nutrition import Function, Nutrition
from counterproof.rows import Source, Stage


@dataclass(frozen=True, slots=True)
class StageFootprint:
    """One life-cycle stage of one serving.

    `computed`: something in it was worked out for this recipe, so its range is told; otherwise
    it stands inside the factors and only its mean is.
    """

    stage: Stage
    kgco2e: Range
    computed: bool


@dataclass(frozen=True, slots=True)
class ItemFootprint:
    """One item's part in one serving: a range, its mean by stage, its share of the total's mean."""

    item: Item
    kgco2e: Range
    stages: Mapping[str, float]
    share: float | None


@dataclass(frozen=True, slots=True)
class PartFootprint:
    """What one line or one step adds to one serving, all its items together."""

    items: tuple[Item, ...]
    kgco2e: Range
    stages: Mapping[str, float]
    share: float | None


@dataclass(frozen=True, slots=True)
class Opinion:
    """One serving valued in one factor set alone, and the share of the mass it covers."""

    set: str
    kgco2e: float
    coverage: float
    gwp: tuple[str, ...]
    boundary: tuple[str, ...]

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "set": self.set,
            "kgco2e": self.kgco2e,
            "coverage": self.coverage,
            "gwp": list(self.gwp),
            "boundary": list(self.boundary),
        }


@dataclass(frozen=True, slots=True)
class Settling:
    """Something that could be settled, and the share of the variance it would take away."""

    what: str
    share_of_variance: float
    do: str = ""  # what a cook does about it; "" where nothing can be done

    @property
    def narrows_by(self) -> float:
        """Share of the width of the range that settling it would take away. [1]

        Notes
        -----
        Width goes with the standard deviation: 1 − √(1 − share of the variance).
        """
        return 1.0 - sqrt(max(0.0, 1.0 - self.share_of_variance))


@dataclass(frozen=True, slots=True)
class Basis:
    """What a total rests on."""

    middle: str
    range_for: RangeFor
    gwp: tuple[str, ...]
    factor_sets: tuple[str, ...]
    seed: int
    draws: int
    version: str
    data_sha256: str
    own_factors: str | None = None

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "middle": self.middle,
            "range_for": self.range_for,
            "gwp": list(self.gwp),
            "factor_sets": list(self.factor_sets),
            "seed": self.seed,
            "draws": self.draws,
            "version": self.version,
            "data_sha256": self.data_sha256,
            **({} if self.own_factors is None else {"own_factors": self.own_factors}),
            "boundary": (
                "cradle to plate: production, processing, packaging, transport, retail, "
                "home storage, cooking, end of life"
            ),
            "review": ("no critical review; not a comparative assertion in the sense of ISO 14044"),
        }


@dataclass(frozen=True)
class Row:
    """One item of one serving: draws of its amount, draws and mean of what it adds. [kg CO2e]

    `name` is everything that the draws follow from; its range is looked up by it in `streams`.
    """

    amount: Draws
    drawn: Draws
    mean: float
    name: tuple[Hashable, ...]
    streams: Streams

    @cached_property
    def range(self) -> Range:
        """What it adds. [kg CO2e]"""
        name = ("range", self.mean, *self.name)
        return self.streams.once(name, lambda: Range.of(self.drawn, self.mean))


def stacked(rows: Sequence[Draws], n: int) -> Draws:
    """Rows of draws as one array.

    Parameters
    ----------
    rows : sequence of (n,) array
        Any number of them. [one unit each]
    n : int
        Number of draws. [1]

    Returns
    -------
    (m, n) array
        A new array. [the same units]
    """
    return np.array(rows) if rows else np.zeros((0, n))


@dataclass(frozen=True, kw_only=True)
class Valuation:
    """What a comparison needs of one side: one serving's items, their means and draws.

    `charged` are the items of the batch; `rows` are theirs, `static` and `draws`
    their sums, all of one serving, aligned by draw with every other valuation on the same
    streams. Every item is a product of independent parameters, so means are exact. [kg CO2e]
    `serves` counts the servings eaten: what is not eaten is charged to them.
    """

    function: Function
    serves: float
    charged: tuple[Item, ...]
    rows: tuple[Row, ...]
    static: float
    uncounted: tuple[Uncounted, ...]
    draws: Draws
    packaging: PackagingReport | None = None

    @cached_property
    def means(self) -> tuple[float, ...]:
        """Mean of each item. [kg CO2e]"""
        return tuple(row.mean for row in self.rows)

    @cached_property
    def item_draws(self) -> Draws:
        """Draws of each item. [kg CO2e]"""
        return stacked([row.drawn for row in self.rows], len(self.draws))


@dataclass(frozen=True, kw_only=True)
class Footprint(Valuation):
    """One serving's footprint, its parts with their ranges, and what it rests on. [kg CO2e]"""

    nutrition: Nutrition
    serving: Range
    items: tuple[ItemFootprint, ...]
    stages: tuple[StageFootprint, ...]
    coverage_mass: float
    coverage_by_fit: Mapping[str, float]
    second_opinion: tuple[Opinion, ...]
    settle_next: tuple[Settling, ...]
    assumed: tuple[str, ...]
    sources: tuple[Source, ...]
    basis: Basis
    marks: Mapping[int, tuple[Mark, ...]]  # by line number
    as_written: Mapping[int, str]
    fizz: FizzReport | None = None

    @property
    def batch(self) -> Range:
        """The whole batch. [kg CO2e]"""
        return self.serving.scaled(self.serves)

    @property
    def per(self) -> dict[str, float | None]:
        """Mean per kg, per litre, per 1000 kcal and per 100 g protein; None where unknown."""

        def over(amount: float | None) -> float | None:
            return self.static / amount if amount else None

        gives = self.function
        return {
            "kg": over(gives.kg),
            "litre": over(gives.litres),
            "1000_kcal": over(None if gives.kcal is None else gives.kcal / 1000),
            "100_g_protein": over(None if gives.protein_g is None else gives.protein_g / 100),
        }

    def of_line(self, number: int) -> PartFootprint | None:
        """Return what a line adds.

        Parameters
        ----------
        number : int
            The line's number.

        Returns
        -------
        PartFootprint or None
            Of one serving; None where nothing of the line is counted. [kg CO2e]
        """
        return self._part("line", number)

    def of_step(self, number: int) -> PartFootprint | None:
        """Return what a step adds.

        Parameters
        ----------
        number : int
            The step's number.

        Returns
        -------
        PartFootprint or None
            Of one serving; None where the step takes no energy. [kg CO2e]
        """
        return self._part("energy", number)

    @property
    def elsewhere(self) -> tuple[ItemFootprint, ...]:
        """What stands beside no line and no step: keeping, packs, carriage, fizz, waste."""
        return tuple(part for part in self.items if part.item.apart)

    @property
    def apart(self) -> dict[str, PartFootprint]:
        """What stands beside no line and no step, by what it belongs to. [kg CO2e]"""
        found = {
            what: self._together(
                [at for at, one in enumerate(self.items) if one.item.apart == what]
            )
            for what in APART
        }
        return {what: part for what, part in found.items() if part is not None}

    def _part(self, kind: str, number: int) -> PartFootprint | None:
        places = [
            at
            for at, part in enumerate(self.items)
            if part.item.kind == kind and part.item.number == number
        ]
        return self._together(places)

    def _together(self, places: Sequence[int]) -> PartFootprint | None:
        if not places:
            return None
        parts = [self.items[at] for at in places]
        if len(parts) == 1:
            (one,) = parts
            return PartFootprint((one.item,), one.kgco2e, one.stages, one.share)
        mean = sum(part.kgco2e.mean for part in parts)
        stages: dict[str, float] = {}
        for part in parts:
            for stage, value in part.stages.items():
                stages[stage] = stages.get(stage, 0.0) + value
        return PartFootprint(
            items=tuple(part.item for part in parts),
            kgco2e=Range.of(np.sum([self.rows[at].drawn for at in places], axis=0), mean),
            stages=stages,
            share=mean / self.static if self.static else None,
        )

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "functional_unit": {
                "name": "one serving",
                "mass_kg": self.function.kg,
                "litres": self.function.litres,
            },
            "serving": {"kgco2e": self.serving.to_dict()},
            "batch": {"kgco2e": self.batch.to_dict()},
            "per": self.per,
            "nutrition": self.nutrition.to_dict(),
            "stages": [
                {
                    "stage": part.stage,
                    "kgco2e": part.kgco2e.to_dict() if part.computed else part.kgco2e.mean,
                }
                for part in self.stages
            ],
            "lines": self._lines(),
            "activities": [_activity(part, self.serves) for part in self.items],
            "coverage": {"mass_share": self.coverage_mass, "by_fit": dict(self.coverage_by_fit)},
            "second_opinion": [opinion.to_dict() for opinion in self.second_opinion],
            "settle_next": [
                {
                    "what": part.what,
                    "share_of_variance": part.share_of_variance,
                    "do": part.do or None,
                    "narrows_by": part.narrows_by,
                }
                for part in self.settle_next
            ],
            "packaging": None if self.packaging is None else self.packaging.to_dict(),
            "fizz": None if self.fizz is None else self.fizz.to_dict(),
            "marks": [mark.to_dict() for mark in self.marks.get(0, ())],
            "assumed": list(self.assumed),
            "sources": [
                {
                    "id": source.id,
                    "citation": source.citation,
                    "address": source.address,
                    "licence": source.licence,
                    "credit": source.credit,
                }
                for source in self.sources
            ],
            "basis": self.basis.to_dict(),
            "audit": {
                "static_kgco2e": self.static,
                "mean_of_draws_kgco2e": float(np.mean(self.draws)),
            },
        }

    def _lines(self) -> list[dict[str, Any]]:
        lines = []
        for number in sorted(self.as_written):
            part = self.of_line(number)
            lines.append(
                {
                    "number": number,
                    "as_written": self.as_written[number],
                    "kgco2e": part.kgco2e.to_dict() if part else None,
                    "stages": dict(part.stages) if part else {},
                    "share": part.share if part else None,
                    "marks": [mark.to_dict() for mark in self.marks.get(number, ())],
                    "uncounted": [
                        {"food": missing.food or None, "why": missing.why}
                        for missing in self.uncounted
                        if missing.number == number
                    ],
                }
            )
        return lines


_PLACES = {"line": "line", "energy": "step"}


def _activity(part: ItemFootprint, serves: float) -> dict[str, Any]:
    item = part.item
    return {
        "name": item.name,
        "stage": item.stage,
        "amount": item.amount.mean / serves,
        "unit": item.unit,
        "kgco2e": part.kgco2e.to_dict(),
        "source": item.source,
        "factor": item.factor,
        "replaced": {stage: out / serves for stage, out in item.replaced.items()},
        **({"apart": item.apart} if item.apart else {}),
        **({} if item.kind == "activity" else {_PLACES[item.kind]: item.number}),
    }
