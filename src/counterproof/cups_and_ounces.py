"""Masses and volumes as a US kitchen measures them: pounds and ounces, cups and spoons.

A weight is rounded to what a kitchen scale in ounces shows, a volume to a fraction of a cup or
spoon that is sold as a measure, or to two of them. The sizes are those of `units`: the
avoirdupois ounce and the US gallon, both exact by definition.
"""

from __future__ import annotations

from itertools import product
from typing import Final

from counterproof.units import OUNCE, US_GALLON

TEASPOON: Final = US_GALLON / 768  # [mL], exact: a third of half a US fluid ounce
_TABLESPOON: Final = 3.0  # [teaspoons]
_CUP: Final = 48.0  # [teaspoons]
_QUART: Final = 4 * _CUP  # [teaspoons]

NEAR_ENOUGH: Final = 0.04
"""House rule: share by which a measure may miss the amount; a levelled cup is no closer."""

FAR_OFF: Final = 0.1
"""House rule: share by which an amount under an ounce may be missed before it is left to spoons."""

_SIGNS: Final = {0.125: "⅛", 0.25: "¼", 1 / 3: "⅓", 0.5: "½", 2 / 3: "⅔", 0.75: "¾"}
_CUPS: Final = (0.0, 0.25, 1 / 3, 0.5, 2 / 3, 0.75)
_HALVES: Final = (0.0, 0.5)
_MOST_CUPS: Final = 8  # beyond, a US kitchen fills quarts
_LEAST: Final = 0.11  # [teaspoons]: below an eighth of a teaspoon nothing is measured


def us_weight(kg: float) -> str:
    """Return a mass in pounds and ounces.

    Parameters
    ----------
    kg : float
        A mass, ≥ 0. [kg]

    Returns
    -------
    str
        Such as "½ oz", "13 oz", "4 lb 1 oz"; "" for less than an ounce that no quarter of an
        ounce comes near.
    """
    ounces = kg / OUNCE
    step = next((by for by, below in ((0.25, 1.875), (0.5, 7.75)) if ounces < below), 1.0)
    rounded = step * int(ounces / step + 0.5)
    if rounded <= 0 or (ounces < 1 and _misses(rounded, ounces) > FAR_OFF):
        return ""
    if rounded < 16:
        return f"{_number(rounded)} oz"
    pounds, rest = divmod(rounded, 16)
    return f"{pounds:.0f} lb {rest:.0f} oz" if rest else f"{pounds:.0f} lb"


def us_measure(ml: float) -> str:
    """Return a volume in cups and spoons.

    Parameters
    ----------
    ml : float
        A volume, ≥ 0. [mL]

    Returns
    -------
    str
        Such as "¼ tsp", "1½ tbsp", "2⅓ cups", "¾ cup + 1 tbsp", "4¼ quarts"; "" below an
        eighth of a teaspoon.
    """
    spoons = ml / TEASPOON
    if spoons < _LEAST:
        return ""
    if spoons > _MOST_CUPS * _CUP:
        quarters = int(4 * spoons / _QUART + 0.5)
        return f"{_number(quarters / 4)} quarts"
    near = _near(_single(spoons), spoons)
    if near:
        return min(near, key=lambda one: (len(one[1]), _misses(one[0], spoons)))[1]
    double = _double(spoons)
    near = _near(double, spoons)
    if near:
        return min(near, key=lambda one: (-one[2], _misses(one[0], spoons)))[1]
    return min(double, key=lambda one: _misses(one[0], spoons))[1]


_Measure = tuple[float, str, float]  # size [teaspoons], in words, size of its larger part


def _near(measures: list[_Measure], spoons: float) -> list[_Measure]:
    return [one for one in measures if _misses(one[0], spoons) <= NEAR_ENOUGH]


def _misses(size: float, wanted: float) -> float:
    return abs(size - wanted) / wanted


def _single(spoons: float) -> list[_Measure]:
    """One kind of measure, filled any number of times that a cook would count."""
    quarters = (0.0, 0.25, 0.5, 0.75)
    tea = [0.125, *(n + part for n, part in product((0, 1, 2), quarters) if n + part)]
    table = [n + half for n, half in product((1, 2, 3), _HALVES)]
    most = int(spoons / _CUP) + 1
    cups = [n + part for n, part in product(range(most + 1), _CUPS) if n + part > 0]
    return [
        *((n, f"{_number(n)} tsp", n) for n in tea),
        *((_TABLESPOON * n, f"{_number(n)} tbsp", n) for n in table),
        *((_CUP * n, f"{_number(n)} {'cup' if n <= 1 else 'cups'}", n) for n in cups),
    ]


def _double(spoons: float) -> list[_Measure]:
    """Two kinds of measure, one after the other; the larger one never holds too much alone."""
    if spoons < _TABLESPOON:
        return _single(spoons)
    cups = [one for one in _single(spoons) if "cup" in one[1] and one[0] < spoons]
    tablespoons = [(_TABLESPOON * n, f"{n} tbsp", float(n)) for n in (1, 2, 3)]
    teaspoons = [(float(n), f"{n} tsp", float(n)) for n in (1, 2)]
    pairs = [*product(tablespoons, teaspoons), *product(cups, [*teaspoons, *tablespoons])]
    return [(one[0] + other[0], f"{one[1]} + {other[1]}", one[0]) for one, other in pairs]


def _number(value: float) -> str:
    """A number as cooks write it, its fraction as a sign."""
    whole, rest = int(value), value - int(value)
    sign = next((sign for part, sign in _SIGNS.items() if abs(rest - part) < 1e-6), "")
    return f"{whole or ''}{sign}" if whole or sign else "0"
