"""Which packs to take off the shelf: enough, for the least money, and as little over as can be."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final

MOST_SIZES: Final = 4
"""Sizes of a pack that are weighed against each other; a shelf has no more. [1]"""

NEAR: Final = 2
"""Packs of the largest size that are left open for smaller ones; the rest is surely large. [1]"""

_HAIR: Final = 1e-9
"""What floating point may leave of a need that is met. [kg]"""


@dataclass(frozen=True, slots=True)
class OnShelf:
    """A pack on the shelf.

    Parameters
    ----------
    kg : float
        What it holds, as it is bought. [kg]
    says : str
        For people: "400 g", "1 litre", "6 pieces".
    price : float or None
        What it costs. [currency]
    container : str
        Container.id it comes in, or "".
    sold_by : str
        "pack", "piece" or "weight".
    """

    kg: float
    says: str
    price: float | None = None
    container: str = ""
    sold_by: str = "pack"


def packs_for(need: float, sizes: Sequence[OnShelf]) -> tuple[tuple[OnShelf, int], ...]:
    """Packs that together hold what is needed.

    Parameters
    ----------
    need : float
        What is wanted, ≥ 0. [kg]
    sizes : sequence of OnShelf
        On the shelf; at least one.

    Returns
    -------
    tuple of (OnShelf, int)
        How many of each, largest first; never less than the need. Of all ways to meet it the
        cheapest where every size has a price, otherwise the one that leaves least; of equals the
        one with the fewest packs.

    Raises
    ------
    ValueError
        If there is nothing on the shelf.
    """
    if not sizes:
        raise ValueError("No pack is on the shelf.")
    if need <= _HAIR:
        return ()
    shelf = sorted(sizes, key=lambda one: one.kg, reverse=True)[:MOST_SIZES]
    priced = all(one.price is not None for one in shelf)

    def worth(counts: tuple[int, ...]) -> tuple[float, float, int]:
        held = sum(count * one.kg for count, one in zip(counts, shelf, strict=True))
        cost = sum(count * (one.price or 0.0) for count, one in zip(counts, shelf, strict=True))
        return (cost if priced else 0.0, held, sum(counts))

    sure = max(0, int(need // shelf[0].kg) - NEAR) if len(shelf) > 1 and not priced else 0
    best = min(_ways(need, [one.kg for one in shelf], sure), key=worth)
    return tuple((one, count) for one, count in zip(shelf, best, strict=True) if count)


def _ways(need: float, sizes: Sequence[float], sure: int = 0) -> Iterator[tuple[int, ...]]:
    """Every way to meet a need in which no pack could be put back."""
    first, *rest = sizes
    most = max(0, ceil((need - _HAIR) / first))
    if not rest:
        yield (most,)
        return
    for count in range(sure, most + 1):
        for others in _ways(need - count * first, rest):
            yield (count, *others)
