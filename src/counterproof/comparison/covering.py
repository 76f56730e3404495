"""The one factor set in which two sides of a comparison are valued."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from counterproof.footprint.factors import SETS, best_link
from counterproof.footprint.model import Valuation
from counterproof.reading.model import Reading
from counterproof.rows import FactorSet, Tables

MINOR = 0.01
"""Share of the smaller side up to which foods may stay outside the common set. [1]

Assumption, after the cut-off of 1 % that is common practice in life-cycle assessment: a pinch of
a spice that one set lacks neither makes nor breaks a comparison. It keeps its own base.
"""

Taken = Mapping[str, Sequence[tuple[float, tuple[str, ...]]]]


@dataclass(frozen=True, slots=True)
class Covering:
    """What a comparison is valued in.

    Parameters
    ----------
    set : FactorSet or None
        The common set; None where the comparison cannot be judged.
    foods : frozenset of str
        Food.id of what differs and is valued in it.
    minor : frozenset of str
        Food.id of what differs, is not in the set and stays in its own base, or without one.
    missing : frozenset of str
        Food.id of what keeps the first set asked from covering; empty where a set was found.
    """

    set: FactorSet | None
    foods: frozenset[str]
    minor: frozenset[str]
    missing: frozenset[str]


def _served(reading: Reading) -> Taken:
    """What one serving takes of each food: plain numbers and keys of its masses."""
    taken: dict[str, list[tuple[float, tuple[str, ...]]]] = defaultdict(list)
    eaten = reading.serves_eaten
    for line in reading.lines:
        for part in line.constituents:
            if part.mass is not None:
                keys = tuple(parameter.key for parameter in part.mass.parameters)
                taken[part.food.id].append((part.mass.scale / eaten, keys))
    for parts in taken.values():
        parts.sort()
    return taken


def differing_foods(a: Reading, b: Reading) -> frozenset[str]:
    """Foods of which a serving of one takes another amount than a serving of the other.

    Parameters
    ----------
    a, b : Reading
        The two sides.

    Returns
    -------
    frozenset of str
        Food.id of each.
    """
    left, right = _served(a), _served(b)
    return frozenset(food for food in {*left, *right} if left.get(food) != right.get(food))


def _weights(found: Valuation, reading: Reading) -> dict[str, float]:
    """Share of a side that each food stands for: of its footprint, or of its mass if uncounted."""
    shares: dict[str, float] = defaultdict(float)
    whole = sum(map(abs, found.means))
    for item, mean in zip(found.charged, found.means, strict=True):
        if item.food and whole:
            shares[item.food] += abs(mean) / whole
    masses: dict[str, float] = defaultdict(float)
    for line in reading.lines:
        for constituent in line.constituents:
            if constituent.mass is not None:
                masses[constituent.food.id] += constituent.mass.mean
    heaviest = sum(masses.values())
    for food, kg in masses.items():
        if food not in shares and heaviest:
            shares[food] = kg / heaviest
    return shares


def covering(
    sides: Sequence[tuple[Valuation, Reading]],
    foods: frozenset[str],
    tables: Tables,
    *,
    among: tuple[FactorSet, ...] = SETS,
) -> Covering:
    """Set in which everything that differs is valued.

    Parameters
    ----------
    sides : sequence of (Valuation, Reading)
        The two sides, each in its own base.
    foods : frozenset of str
        Food.id of every food in which they differ.
    tables : Tables
        All tables.
    among : tuple of FactorSet
        The sets to choose from, in order of preference.

    Returns
    -------
    Covering
        In the first set that has a link for every food, at whatever fit: each link carries the
        deviation of its fit, and totals rest on the first set too. Foods that stand for less
        than 1 % of each side may be missing from it.
    """
    weights = [_weights(found, reading) for found, reading in sides]
    first_missing: frozenset[str] | None = None
    for name in among:
        missing = frozenset(food for food in foods if best_link(food, name, tables) is None)
        if all(sum(side.get(food, 0.0) for food in missing) <= MINOR for side in weights):
            return Covering(name, foods - missing, missing, frozenset())
        if first_missing is None:
            first_missing = missing
    return Covering(None, frozenset(), frozenset(), first_missing or foods)
