"""What is laid on the scales and what they show: a food of a line, and one weighing of it.

A weighing holds nominal kilograms, the measure's spread, whether the mass is as bought, and what
had to be assumed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counterproof.reading.spellings import words

if TYPE_CHECKING:
    from collections.abc import Callable

    from counterproof.marks import Mark
    from counterproof.reading.model import Quantity, Split
    from counterproof.rows import Food, HouseholdWeight, Tables
    from counterproof.units import System
    from counterproof.ways import Way


class Scales(NamedTuple):
    """What weighing needs besides the line: tables, whose cups, and the plain factor."""

    tables: Tables
    system: System
    factor: float = 1.0
    words: Callable[[str], tuple[str, ...]] = words  # a matcher's, which holds what it has met


class Case(NamedTuple):
    """A food of a split line to be weighed; `fruit` is what is counted where juice is meant."""

    split: Split
    food: Food
    scales: Scales
    fruit: Food | None = None

    @property
    def rows(self) -> tuple[HouseholdWeight, ...]:
        """The food's household weights."""
        return self.scales.tables.household.get(self.food.id, ())


class Try(NamedTuple):
    """One written amount turned into kilograms: the middle of its interval, packs included."""

    quantity: Quantity | None
    kg: float
    spread: float
    as_bought: bool
    tail: str  # of the draw key
    marks: tuple[Mark, ...] = ()
    bought_so: bool = False  # bought without its refuse: as bought is what is eaten
    way: tuple[Way, ...] = ()  # what was multiplied; its product is `kg`
