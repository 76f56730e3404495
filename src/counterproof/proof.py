"""The marked-up recipe: one model behind every surface.

An `Edition` holds all that a terminal, a page or a press folder may show, already computed;
a surface only renders it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal

from counterproof.draws import Range
from counterproof.marks import Mark


@dataclass(frozen=True, slots=True)
class LineProof:
    """An ingredient line between its margins."""

    number: int
    as_written: str
    section: str
    quantity: str  # as understood, for people: "2 × 400 g tin", "about a handful"
    food: str | None
    food_id: str | None
    food_class: str | None
    fit: str | None
    certainty: float
    runners_up: tuple[tuple[str, float], ...]  # (name, certainty)
    mass_kg: Range | None
    marks: tuple[Mark, ...]
    allergens: tuple[str, ...]
    kgco2e: Range | None  # this line's share of one serving
    stages: Mapping[str, float]  # stage → mean of one serving
    share: float | None  # of the serving's mean
    factor: str | None  # the factor used, for people: "Other Pulses, global set, per kg dry"
    source: str | None  # Source.id


@dataclass(frozen=True, slots=True)
class StepProof:
    """A step between its margins."""

    number: int
    as_written: str
    section: str
    understood: str  # for people: "simmer, 25–30 min, covered"
    marks: tuple[Mark, ...]
    kwh: Range | None
    kgco2e: Range | None  # of one serving


@dataclass(frozen=True, slots=True)
class TaskProof:
    """One thing to do or to wait for, on the time line; each time is (low, middle, high). [s]"""

    step: int  # 0: before the first step
    does: str
    hands_on: bool
    begins: tuple[float, float, float]
    lasts: tuple[float, float, float]
    says: str  # how long, for people: "20–25 min"


@dataclass(frozen=True, slots=True)
class TimeProof:
    """A recipe's time, in words and as a line to draw."""

    tasks: tuple[TaskProof, ...]
    total: str  # "1 h 20 min to 2 h 15 min"
    hands_on: str
    waiting: str
    make_ahead: tuple[str, ...]
    keeps: tuple[str, ...]
    minutes: int = 0  # the middle of the whole, rounded as it is said; 0 where it is not known


@dataclass(frozen=True, slots=True)
class VersionProof:
    """A version beside the recipe, on shared draws."""

    name: str
    changes: tuple[str, ...]  # in plain words
    serving: Range
    difference: Range | None  # version − recipe, one serving; None for the recipe itself
    ratio: float | None  # of means
    share_lower: float | None  # share of draws in which the version is below the recipe
    factor_set: str | None
    remarks: tuple[str, ...] = ()  # what a reader of the comparison must know


@dataclass(frozen=True, slots=True)
class SourceLine:
    """A source as printed under the proof."""

    id: str
    citation: str
    address: str
    licence: str
    credit: str
    title: str = ""
    producer: str = ""
    published: str = ""  # year or day, as the publisher gives it
    accessed: str = ""  # ISO 8601


@dataclass(frozen=True, slots=True)
class CostProof:
    """What one serving costs, as far as the cook's own prices reach."""

    per_serving: Range  # in `currency`
    currency: str
    coverage: float  # share of the mass, without water, that has a price
    first: str  # days of the prices used, ISO 8601
    last: str
    not_priced: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class AllergensUs:
    """The allergens by the nine of the US, beside the fourteen that the Edition tells first."""

    present: tuple[str, ...]
    read_label: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ActivityProof:
    """What stands beside no line and no step: keeping, packs, carriage, fizz, waste."""

    name: str
    stage: str
    amount: float  # of one serving, in `unit`
    unit: str
    kgco2e: Range  # of one serving
    factor: str
    source: str
    belongs: str = ""  # "keeping", "packs", "carriage", "fizz", "waste", …


@dataclass(frozen=True, slots=True)
class ApartProof:
    """The activities that belong together, as one part of the serving. [kg CO2e]"""

    what: str  # `ActivityProof.belongs` of its activities
    kgco2e: Range
    share: float | None  # of the serving's mean


@dataclass(frozen=True, slots=True)
class PackagingProof:
    """The packs of one serving, beside those of what is bought instead. [kg]"""

    packs: tuple[tuple[str, float, float], ...]  # name, packs a serving, uses of each
    by_material: Mapping[str, float]
    by_fate: Mapping[str, float]
    not_transported: float  # tap water that nobody carried
    avoided: float | None  # against the bought alternative; None where there is none
    bought: PackagingProof | None = None  # the alternative's own


@dataclass(frozen=True, slots=True)
class FizzProof:
    """The gas of one serving [kg] and the serving with and without what escapes. [kg CO2e]"""

    charged: float
    dissolved: float
    vented: float
    left_in_cylinder: float
    origin: str
    counted: bool
    if_counted: float
    if_not: float


def unit_in_data(unit: str) -> str:
    """Return a unit as tables and JSON write it.

    Parameters
    ----------
    unit : str
        As people read it.

    Returns
    -------
    str
        In plain signs: "kg CO2e".
    """
    return unit.replace("\N{SUBSCRIPT TWO}", "2").replace("\N{NO-BREAK SPACE}", " ")


@dataclass(frozen=True, slots=True)
class Term:
    """One step on the way to a number, in the order of the working.

    `does` is what the step does to what has been worked out so far, from nothing: adds, takes
    away, multiplies, divides, or only tells.
    """

    says: str  # in words: "2 tins of 400 g", "what is left of the tin when it is drained"
    value: Range | None = None
    unit: str = ""
    source: str = ""  # Source.id, "assumed", or "" for arithmetic and the cook's own word
    locator: str = ""  # page, table, row
    does: Literal["", "+", "−", "×", "÷"] = ""
    opens: str = ""  # key of the derivation of this very value, where it has one

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form; what is empty is left out."""
        told = {
            "does": self.does,
            "says": self.says,
            "value": None if self.value is None else self.value.to_dict(),
            "unit": unit_in_data(self.unit),
            "source": self.source,
            "locator": self.locator,
            "opens": self.opens,
        }
        return {key: value for key, value in told.items() if value not in ("", None)}


@dataclass(frozen=True, slots=True)
class Derivation:
    """How a number came about: what a reader who does not believe it can follow.

    `key` says which number of the proof it is, the same for every surface: "serving", "batch",
    "stage:packaging", "mass:3", "line:3", "step:2", "kwh:2", "apart:thrown away",
    "activity:3 days in the fridge",
    "serving:beef", "version:beef" (the difference), "ratio:beef", "share:beef", "cost",
    "nutrition:protein_g", "per:kg". Where a line holds several foods or a step several uses, each
    has its own: "line:3:1", "mass:3:2".
    """

    key: str
    name: str  # "squash: 1.3 kg, a sixth of it", for people
    value: Range
    unit: str
    terms: tuple[Term, ...]

    @property
    def worked_out(self) -> float:
        """What the means of its terms come to; the mean of `value`."""
        so_far = 0.0
        for term in self.terms:
            if term.value is None:
                continue
            mean = term.value.mean
            if term.does == "+":
                so_far += mean
            elif term.does == "−":
                so_far -= mean
            elif term.does == "×":
                so_far *= mean
            elif term.does == "÷":
                so_far /= mean
        return so_far

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "key": self.key,
            "name": self.name,
            "value": self.value.to_dict(),
            "unit": unit_in_data(self.unit),
            "terms": [term.to_dict() for term in self.terms],
        }


@dataclass(frozen=True)
class Edition:
    """Everything one proof shows."""

    title: str
    version: str | None
    serves: float
    serving_name: str  # "one serving", "one glass"
    serving_mass_kg: float | None
    serving_litres: float | None
    lines: tuple[LineProof, ...]
    steps: tuple[StepProof, ...]
    marks: tuple[Mark, ...]  # about the recipe as a whole
    serving: Range
    batch: Range
    middle: str  # "mean" or "median"
    range_for: str  # "one-purchase" or "the-average"
    stages: tuple[tuple[str, Range], ...]  # one serving, in life-cycle order, zero stages left out
    coverage_mass: float  # share of the mass with a factor
    coverage_by_fit: Mapping[str, float]
    second_opinion: tuple[tuple[str, float, float], ...]  # (set, kg CO2e a serving, coverage)
    settle_next: tuple[tuple[str, float], ...]  # (what, share of variance)
    versions: tuple[VersionProof, ...]
    allergens_present: tuple[str, ...]
    allergens_read_label: tuple[str, ...]
    allergens_unknown: tuple[str, ...]  # lines that keep the statement incomplete
    assumed: tuple[str, ...]
    cautions: tuple[str, ...]
    sources: tuple[SourceLine, ...]
    basis: Mapping[str, str | int | float]
    per: Mapping[str, float | None]
    nutrition: Mapping[str, float | None] = field(default_factory=dict)  # of one serving
    nutrition_coverage: Mapping[str, float] = field(default_factory=dict)  # share of the mass
    cost: CostProof | None = None
    allergens_us: AllergensUs | None = None
    timeline: TimeProof | None = None
    activities: tuple[ActivityProof, ...] = ()  # with lines and steps they sum to the serving
    apart: tuple[ApartProof, ...] = ()  # the same, those that belong together as one
    packaging: PackagingProof | None = None
    fizz: FizzProof | None = None
    settle_how: tuple[tuple[str, float], ...] = ()  # what to do, the range's narrowing; as above
    derivations: tuple[Derivation, ...] = ()  # a number's short name is its place here, from 1

    def number_of(self, key: str) -> int | None:
        """Return the short number by which a reader finds a derivation.

        Parameters
        ----------
        key : str
            As in `Derivation.key`.

        Returns
        -------
        int or None
            Counted from 1; None where the proof holds no such number.
        """
        for number, derivation in enumerate(self.derivations, start=1):
            if derivation.key == key:
                return number
        return None
