"""A recipe as the cook wrote it, every line kept whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from counterproof.marks import Mark

Measures = Literal["us", "uk", "metric", "au"]
AlsoCount = Literal["shopping trip", "washing up", "appliances"]


@dataclass(frozen=True, slots=True)
class WrittenLine:
    """One ingredient line or one step.

    Parameters
    ----------
    number : int
        Its place among lines of its kind, from 1.
    text : str
        As written, without list sign or step number.
    section : str
        The sub-heading it stands under ("For the sauce"), or "".
    at : int or None
        Line in the file it was read from, from 1.
    """

    number: int
    text: str
    section: str = ""
    at: int | None = None


@dataclass(frozen=True, slots=True)
class Pack:
    """A container the result is kept or sold in."""

    container: str
    lid: str | None = None
    uses: float = 1.0


@dataclass(frozen=True, slots=True)
class Keep:
    """A stay in the fridge, the freezer or the cupboard."""

    where: Literal["fridge", "freezer", "cupboard"]
    days: float


@dataclass(frozen=True, slots=True)
class Bought:
    """The bought alternative."""

    what: str
    container: str | None = None
    region: str | None = None
    warmed: str | None = None  # how it is made hot: "in the microwave for 4 minutes"


@dataclass(frozen=True, slots=True)
class Version:
    """The same recipe with stated changes."""

    name: str
    swap: Mapping[str, str]  # words that find a line → the line that stands in its place
    pack: tuple[Pack, ...] | None = None
    keep: tuple[Keep, ...] | None = None
    kitchen: Mapping[str, object] | None = None
    serves: float | None = None
    at: int | None = None
    bought: Bought | None = None  # what is bought instead, and nothing of the recipe's own
    skips: tuple[int, ...] = ()  # steps that are left out


@dataclass(frozen=True)
class Recipe:
    """A recipe as written.

    `serves` is (low, high) servings, None where unsaid; `makes` is the cook's own yield text
    ("about 1.2 litres"). `marks` are doubts about the file itself, such as an unknown
    front-matter key. `carried_over` names what another recipe takes up, `oven_shared_by` how many
    dishes share the oven, `credits` whose recipe it was and whose photographs, `purchase` whose purchases the lines are: "home", or "bought:…". `beside` are the recipes of the same season
    that a line may be.
    """

    title: str
    lines: tuple[WrittenLine, ...]
    steps: tuple[WrittenLine, ...]
    serves: tuple[float, float] | None = None
    makes: str | None = None
    intro: str = ""
    notes: str = ""
    measures: Measures | None = None
    kitchen: str | None = None
    pack: tuple[Pack, ...] = ()
    keep: tuple[Keep, ...] = ()
    eaten: float | None = None
    bought: Bought | None = None
    carried_over: tuple[str, ...] = ()
    oven_shared_by: float = 1.0
    also_count: tuple[AlsoCount, ...] = ()
    trip: str | None = None  # to the shop, as `recipe.trip` reads it
    credits: tuple[str, ...] = ()
    versions: tuple[Version, ...] = ()
    marks: tuple[Mark, ...] = ()
    file: str | None = None
    purchase: str = "home"
    beside: tuple[Recipe, ...] = ()
