"""Where two sides are equal: how much of a line that only one of them has would make them so."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from counterproof.draws import Draws, Range, Streams
from counterproof.footprint.items import Item
from counterproof.footprint.model import Valuation

SWAPPED_AT_MOST: Final = 2
"""Lines of a side that the other lacks, up to which they are taken for a swap. [1]

Assumption: a version swaps one line or two. Two recipes that share little have no line whose
mass would be the natural thing to change.
"""

LEAST_SHARE: Final = 0.005
"""Share of draws that must have a break-even for its range to be given. [1]"""

Side = tuple[str, Valuation]
"""A name and what is assessed under it."""


@dataclass(frozen=True, slots=True)
class BreakEven:
    """How much of one side's line makes both sides equal.

    Parameters
    ----------
    a, b : str
        The two sides.
    per : str
        What is varied, for people: "kg of beef chuck in a serving of beef".
    at : Range or None
        Where the sides are equal, over the draws that have such a place; its mean is the place at
        which they are equal with every parameter at its mean, or, where there is none, the mean
        of the draws. None where hardly any draw has one. [kg]
    share_never : float
        Share of draws in which no amount, not even none, makes them equal. [1]
    """

    a: str
    b: str
    per: str
    at: Range | None
    share_never: float

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "a": self.a,
            "b": self.b,
            "per": self.per,
            "at": None if self.at is None else self.at.to_dict(),
            "share_never": self.share_never,
        }


def break_evens(a: Side, b: Side, foods: frozenset[str], streams: Streams) -> tuple[BreakEven, ...]:
    """Break-evens of a pair, for the mass of each line that was swapped.

    Parameters
    ----------
    a, b : (str, Valuation)
        The two sides, valued as they are compared.
    foods : frozenset of str
        Food.id of what a serving of one takes more or less of than a serving of the other.
    streams : Streams
        Seed, number of draws, and the draws already made.

    Returns
    -------
    tuple of BreakEven
        Lines of `a` first; empty where the sides are not a swap of each other. [kg]

    Notes
    -----
    With T the totals of a serving, c what the line adds to its side, and w what a kilogram of it
    is worth, all of one draw, the sides are equal at m = (T_other − (T_own − c)) / w: linear, so
    solved in closed form. A draw has no break-even where m would be negative or w is not above
    zero.
    """
    found: list[BreakEven] = []
    for own, other in ((a, b), (b, a)):
        theirs = {item.food for item in other[1].charged}
        places = [
            at
            for at, item in enumerate(own[1].charged)
            if item.food in foods and item.food not in theirs
        ]
        if len(places) <= SWAPPED_AT_MOST:
            found += [_of_line(own, other, at, (a[0], b[0]), streams) for at in places]
    return tuple(found)


def _of_line(
    own: Side, other: Side, at: int, names: tuple[str, str], streams: Streams
) -> BreakEven:
    name, side = own
    item = side.charged[at]
    per_kg = _edible_worth(item, streams)
    rest = side.draws - side.rows[at].drawn
    mass = np.full(streams.n, -1.0)
    np.divide(other[1].draws - rest, per_kg, out=mass, where=per_kg > 0)
    kept = mass >= 0
    share = float(kept.mean())
    middle = _static(side, other[1], side.means[at], item)
    return BreakEven(
        *names,
        f"kg of {item.name} in a serving of {name}",
        _range(mass[kept], middle) if share >= LEAST_SHARE else None,
        1.0 - share,
    )


def _edible_worth(item: Item, streams: Streams) -> Draws:
    """What a kilogram of the line's edible mass is worth. [kg CO2e/kg]"""
    return item.worth.draws(streams) * (item.amount.mean / item.mass)


def _static(side: Valuation, other: Valuation, adds: float, item: Item) -> float:
    worth = item.worth.mean * item.amount.mean / item.mass
    return (other.static - (side.static - adds)) / worth if worth > 0 else -1.0


def _range(kept: Draws, middle: float) -> Range:
    return Range.of(kept, middle if middle >= 0 else float(kept.mean()))
