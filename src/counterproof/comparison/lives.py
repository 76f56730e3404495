"""How long a thing must last, or how often be used, for the side that owns it to be no worse."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from counterproof.comparison.break_even import LEAST_SHARE, BreakEven, Side
from counterproof.draws import Draws, Range
from counterproof.footprint.items import Item

MACHINE: Final = "fizz|soda machine|"
"""How the keys of a soda machine's share begin."""


def life_break_evens(
    a: Side, b: Side, machine_litres: tuple[float, float]
) -> tuple[BreakEven, ...]:
    """Break-evens of a pair in litres of a soda machine's life and in uses of a pack.

    Parameters
    ----------
    a, b : (str, Valuation)
        The two sides, valued as they are compared.
    machine_litres : tuple of float
        Litres that each side's machine is taken to make in its life. [L]

    Returns
    -------
    tuple of BreakEven
        Of what only one side has, those of `a` first; the least that makes it equal to the other.
        [L or uses]

    Notes
    -----
    A share D of something that lasts n is c/n, so with R the rest of the side and T the other's
    total, they are equal at n = D n₀ / (T − R): closed form, draw by draw. Never where T ≤ R.
    """
    found: list[BreakEven] = []
    for own, other, litres in ((a, b, machine_litres[0]), (b, a, machine_litres[1])):
        name, side = own
        names = (a[0], b[0])
        told = f"litres in the life of the soda machine of {name}"
        found += _of(own, other, names, _keyed(MACHINE), litres, told)
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
) -> list[BreakEven]:
    side = own[1]
    places = [at for at, item in enumerate(side.charged) if is_share(item)]
    if not places or any(is_share(item) for item in other[1].charged):
        return []  # where both sides have it, it is not what they differ in
    share = np.sum([side.rows[place].drawn for place in places], axis=0)
    left: Draws = other[1].draws - (side.draws - share)
    at = np.full(len(left), -1.0)
    np.divide(share * now, left, out=at, where=left > 0)
    kept = at >= 0
    known = float(kept.mean())
    mean_share = sum(side.means[place] for place in places)
    rest = other[1].static - (side.static - mean_share)
    middle = mean_share * now / rest if rest > 0 else float(at[kept].mean()) if known else 0.0
    return [
        BreakEven(
            *names, per, Range.of(at[kept], middle) if known >= LEAST_SHARE else None, 1.0 - known
        )
    ]
