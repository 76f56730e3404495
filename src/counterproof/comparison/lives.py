"""How long a thing must last, be used, or may be kept, for the side that has it to be no worse."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.comparison.break_even import LEAST_SHARE, BreakEven, Side
from counterproof.draws import Draws, Range
from counterproof.footprint.items import Item
from counterproof.reading.model import Reading

KEPT: Final = "storage|"
"""How the keys of a stay in fridge or freezer begin."""

MACHINE: Final = "fizz|soda machine|"
"""How the keys of a soda machine's share begin."""


@dataclass(frozen=True, slots=True)
class Lasting:
    """How long what a side owns is taken to last, and what it keeps is kept."""

    litres: float  # that its soda machine makes in its life
    days: Mapping[str, float]  # place → stay there


def lasting(reading: Reading) -> Lasting:
    """How long what a side owns lasts, and what it keeps is kept.

    Parameters
    ----------
    reading : Reading
        The side.

    Returns
    -------
    Lasting
        [L, days]
    """
    days: dict[str, float] = defaultdict(float)
    for keep in reading.recipe.keep:
        days[keep.where] += keep.days
    return Lasting(reading.kitchen.fizz_litres, days)


def life_break_evens(a: Side, b: Side, lasts: tuple[Lasting, Lasting]) -> tuple[BreakEven, ...]:
    """Break-evens of a pair in litres of a soda machine's life, uses of a pack, days of a stay.

    Parameters
    ----------
    a, b : (str, Valuation)
        The two sides, valued as they are compared.
    lasts : tuple of Lasting
        What each side's machine, and its stays in the cold, last.

    Returns
    -------
    tuple of BreakEven
        Of what only one side has, those of `a` first; the litres and uses from which it is no
        worse than the other, the days up to which it is. [L, uses or days]

    Notes
    -----
    A share D of something that lasts n is c/n, so with R the rest of the side and T the other's
    total, they are equal at n = D n₀ / (T − R): closed form, draw by draw. Never where T ≤ R. A
    stay D of n days grows with n, so they are equal at n = n₀ (T − R) / D.
    """
    found: list[BreakEven] = []
    for own, other, lasting_here in ((a, b, lasts[0]), (b, a, lasts[1])):
        name, side = own
        names = (a[0], b[0])
        told = f"litres in the life of the soda machine of {name}"
        found += _of(own, other, names, _keyed(MACHINE), lasting_here.litres, told)
        for where, days in lasting_here.days.items():
            told = f"days in the {where} of {name}"
            found += _of(own, other, names, _keyed(f"{KEPT}{where}|"), days, told, grows=True)
        for pack, _, uses in () if side.packaging is None else side.packaging.packs:
            if uses > 1:
                told = f"uses of each {pack} of {name}"
                found += _of(own, other, names, _named(f"{pack}, "), uses, told)
    return tuple(found)


def _keyed(start: str) -> Callable[[Item], bool]:
    return lambda item: any(one.key.startswith(start) for one in item.amount.parameters)


def _named(start: str) -> Callable[[Item], bool]:
    return lambda item: item.kind == "activity" and item.name.startswith(start)


def _of(
    own: Side,
    other: Side,
    names: tuple[str, str],
    is_share: Callable[[Item], bool],
    now: float,
    per: str,
    *,
    grows: bool = False,
) -> list[BreakEven]:
    side = own[1]
    places = [at for at, item in enumerate(side.charged) if is_share(item)]
    if not places or any(is_share(item) for item in other[1].charged):
        return []  # where both sides have it, it is not what they differ in
    share = np.sum([side.rows[place].drawn for place in places], axis=0)
    left: Draws = other[1].draws - (side.draws - share)
    over, under = (left, share) if grows else (share, left)
    at = np.full(len(left), -1.0)
    np.divide(over * now, under, out=at, where=under > 0)
    kept = at >= 0
    known = float(kept.mean())
    mean_share = sum(side.means[place] for place in places)
    rest = other[1].static - (side.static - mean_share)
    top, below = (rest, mean_share) if grows else (mean_share, rest)
    middle = top * now / below if below > 0 else -1.0
    if middle < 0:
        middle = float(at[kept].mean()) if known else 0.0
    return [
        BreakEven(
            *names, per, Range.of(at[kept], middle) if known >= LEAST_SHARE else None, 1.0 - known
        )
    ]
