"""What a reading of a recipe holds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal, NamedTuple

from counterproof.draws import Product
from counterproof.marks import Mark
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, Version, WrittenLine
from counterproof.rows import Fit, Food
from counterproof.ways import Way

if TYPE_CHECKING:
    from dataclasses import dataclass as _made_often
else:
    # Made for every line: mypy keeps these frozen, so that making one takes a fifth of the time.
    def _made_often(*, frozen: bool, slots: bool) -> type:
        return dataclass(slots=slots, unsafe_hash=frozen)


@_made_often(frozen=True, slots=True)
class Quantity:
    """How much the line says: low = high unless the cook wrote a range; measure is a units.py id."""

    low: float
    high: float
    measure: str

    def to_dict(self) -> dict[str, float | str]:
        """Return the JSON form."""
        return {"low": self.low, "high": self.high, "measure": self.measure}


@_made_often(frozen=True, slots=True)
class Part:
    """A stretch of the line and what it was taken for: "amount", "size", "name", …"""

    kind: str
    text: str


@_made_often(frozen=True, slots=True)
class Split:
    """A line split into its parts by the grammar, before any food is looked up.

    `quantities` are equivalent ways of saying the same amount ("250 g/9 oz") in the order
    written, sums already added ("1 cup plus 2 tbsp"); `packs` multiplies ("2 x 400 g tins" is
    packs 2, quantity 400 g, container "tin").
    """

    text: str
    quantities: tuple[Quantity, ...]
    packs: float
    container: str
    size: str
    name: str
    alternatives: tuple[str, ...]  # "butter or margarine": ("margarine",)
    preparation: str
    comment: str
    meaning: str  # the cook's own settlement, from "(meaning …)"
    flags: frozenset[str]  # "optional", "to taste", "for greasing", "divided", "juice of", …
    measured_as: str = ""  # preparation before the name: "200 g cooked rice", not "rice, cooked"
    parts: tuple[Part, ...] = ()  # the whole line, stretch by stretch, in the order written
    drained: Quantity | None = None  # "400 g tin (240 g drained)": what is eaten of each pack


class RunnerUp(NamedTuple):
    """What else the name could be."""

    food: Food
    certainty: float


class Constituent(NamedTuple):
    """One of the foods a line stands for, with its mass; most lines have exactly one."""

    food: Food
    fit: Fit | None
    mass: Product | None
    purchased: Product | None
    way: tuple[Way, ...] = ()  # to the mass


@_made_often(frozen=True, slots=True)
class MarkedLine:
    """One ingredient line as it was understood.

    `mass` is the edible mass that goes into the pot [kg]; `purchased` what had to be bought
    for it (bones, peel and can liquid included) [kg]. Both are products of keyed parameters,
    or None where no mass can be given; then a mark says why.

    `also` holds the further foods of a line that names several ("salt and pepper");
    `alternatives` what the cook would take instead, and `unread` alternatives that are no known
    food. Whoever adds masses up reads `constituents`.
    """

    written: WrittenLine
    split: Split
    quantity: Quantity | None
    food: Food | None
    fit: Fit | None
    certainty: float
    runners_up: tuple[RunnerUp, ...]
    mass: Product | None
    purchased: Product | None
    marks: tuple[Mark, ...]
    also: tuple[Constituent, ...] = ()
    alternatives: tuple[Food, ...] = ()
    unread: tuple[str, ...] = ()
    way: tuple[Way, ...] = ()  # to the mass: what it was worked out from
    taken: Taken | None = None  # the recipe that the line is, where it is one

    @property
    def constituents(self) -> tuple[Constituent, ...]:
        """Every food of the line with its mass; empty where the food is not known."""
        if self.food is None:
            return ()
        own = Constituent(self.food, self.fit, self.mass, self.purchased, self.way)
        return (own, *self.also)


@dataclass(frozen=True, slots=True)
class Process:
    """One thing a step does: kind from the closed list in `reading.steps`."""

    kind: str
    minutes: tuple[float | None, float | None] | None  # (low, high)
    celsius: float | None
    covered: bool | None
    appliance: str | None  # "hob", "oven", "grill", "microwave", "kettle", "fridge", "freezer"
    leaves: Literal["solids", "liquid"] | None = None  # what straining or draining takes away


@dataclass(frozen=True, slots=True)
class MarkedStep:
    """One step as it was understood; `sentences` are its own, each with its part of `processes`."""

    written: WrittenLine
    processes: tuple[Process, ...]
    marks: tuple[Mark, ...]
    sentences: tuple[tuple[str, tuple[Process, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class Taken:
    """Another recipe that a line is, and how much of its batch goes in, the outer scale included."""

    reading: Reading
    share: float


@dataclass(frozen=True)
class Reading:
    """A recipe, or a version of it, as it was understood.

    `scale` multiplies every line (servings asked over servings written); it enters masses as a
    plain number, never a draw key, so scaling is exact.
    """

    recipe: Recipe
    version: Version | None
    kitchen: Kitchen
    lines: tuple[MarkedLine, ...]
    steps: tuple[MarkedStep, ...]
    serves: float
    scale: float
    marks: tuple[Mark, ...]

    @property
    def serves_eaten(self) -> float:
        """Servings of the batch that are eaten: what is not, is charged to them. [servings]"""
        return self.serves * (self.recipe.eaten or 1.0)
