"""The strongest wording of a claim that would hold."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor, log10
from typing import Final

import numpy as np

from counterproof.claims.figure import Figure
from counterproof.claims.likelihood import ShareTrue
from counterproof.claims.material import singular
from counterproof.claims.operations import (
    Asked,
    Lines,
    Literally,
    Phase,
    Portion,
    Quantity,
    Ratio,
    Scaled,
    Sum,
)
from counterproof.claims.saying import said
from counterproof.draws import Draws

MULTIPLES: Final[tuple[tuple[float, str], ...]] = (
    (0.1, "a tenth of"),
    (0.2, "a fifth of"),
    (0.25, "a quarter of"),
    (1 / 3, "a third of"),
    (0.5, "half of"),
    (2 / 3, "two thirds of"),
    (0.75, "three quarters of"),
    (0.9, "nine tenths of"),
    (1.0, ""),
    (1.1, "1.1 times"),
    (1.25, "one and a quarter times"),
    (1.5, "one and a half times"),
    (2.0, "twice"),
    (2.5, "two and a half times"),
    (3.0, "three times"),
    (4.0, "four times"),
    (5.0, "five times"),
    (6.0, "six times"),
    (7.0, "seven times"),
    (8.0, "eight times"),
    (10.0, "ten times"),
    (12.0, "twelve times"),
    (15.0, "fifteen times"),
    (20.0, "twenty times"),
    (30.0, "thirty times"),
    (50.0, "fifty times"),
    (100.0, "a hundred times"),
)
"""Multiples that people say. [1]"""


def strongest_wording(
    asked: Asked, grounds: Sequence[Sequence[Figure]], level: float
) -> str | None:
    """The strongest wording that holds.

    Parameters
    ----------
    asked : Asked
        The claim.
    grounds : sequence of sequence of Figure
        Its sides on the stated basis first, then on every other fair one.
    level : float
        Share of draws, less two standard errors, that is asked for. [1]

    Returns
    -------
    str or None
        On all bases if there is one, else on the stated one and said so; None where nothing of
        the kind holds.
    """
    factor, base = _unscaled(asked.right)
    lower = asked.relation in {"<", "<="}
    if isinstance(base, Literally):
        return _bound(asked, [sides[0] for sides in grounds], level, lower=lower)
    pairs = [(sides[0].draws, sides[1].draws / factor) for sides in grounds]
    everywhere, alone = (_best(some, level, lower=lower) for some in (pairs, pairs[:1]))
    if alone is None:
        return None
    if everywhere is not None and (
        _same_side(everywhere[0], lower=lower) or not _same_side(alone[0], lower=lower)
    ):
        return _sentence(asked, base, everywhere, lower=lower)
    return f"{_sentence(asked, base, alone, lower=lower)}, on the stated basis"


def _same_side(multiple: float, *, lower: bool) -> bool:
    """Whether a multiple still says lower, or higher."""
    return multiple <= 1.0 if lower else multiple >= 1.0


def _best(
    pairs: Sequence[tuple[Draws, Draws]], level: float, *, lower: bool
) -> tuple[float, str] | None:
    """The tightest multiple that holds for all pairs."""

    def fits(at: int) -> bool:
        return all(
            _kept(left, MULTIPLES[at][0] * right, level, lower=lower) for left, right in pairs
        )

    # The looser a multiple, the more draws it holds in: the tightest is found by halving.
    order = range(len(MULTIPLES)) if lower else range(len(MULTIPLES) - 1, -1, -1)
    low, high = 0, len(order)
    while low < high:
        middle = (low + high) // 2
        if fits(order[middle]):
            high = middle
        else:
            low = middle + 1
    return MULTIPLES[order[low]] if low < len(order) else None


def _sentence(asked: Asked, base: Quantity, best: tuple[float, str], *, lower: bool) -> str:
    multiple, words = best
    name, other = called(asked.left), called(base)
    verb = _verb(asked.left)
    if multiple == 1.0:
        return f"{name} {verb} {'lower' if lower else 'higher'} than {other}"
    if not lower:
        return f"{name} {verb} at least {words} {other}"
    return f"{name} {verb} {'less' if multiple < 1 else 'no more'} than {words} {other}"


def _verb(quantity: Quantity) -> str:
    several = isinstance(quantity, Lines) and (
        len(quantity.names) > 1 or singular(quantity.names[0]) != quantity.names[0]
    )
    return "are" if several else "is"


def _unscaled(quantity: Quantity) -> tuple[float, Quantity]:
    if isinstance(quantity, Scaled) and quantity.factor > 0:
        inner, base = _unscaled(quantity.of)
        return quantity.factor * inner, base
    return 1.0, quantity


def _kept(left: Draws, right: Draws, level: float, *, lower: bool) -> bool:
    held = left < right if lower else left >= right
    return ShareTrue(float(held.mean()), held.size).kept(level)


def _bound(asked: Asked, lefts: Sequence[Figure], level: float, *, lower: bool) -> str | None:
    """A number with two digits that the left side stays under, or over."""
    edge = [
        float(np.quantile(one.draws, min(level + 0.01, 1.0) if lower else max(0.99 - level, 0.0)))
        for one in lefts
    ]
    value = max(edge) if lower else min(edge)
    if value <= 0:
        return None
    step = 10.0 ** (floor(log10(value)) - 1)
    rounded = (floor(value / step) + (1 if lower else 0)) * step
    told = said(Figure(np.full(1, rounded), rounded, lefts[0].unit)).words
    return f"{called(asked.left)} {_verb(asked.left)} {'less' if lower else 'more'} than {told}"


def called(quantity: Quantity) -> str:  # noqa: PLR0911 - one return for each operation
    """Return what a quantity is called in a sentence.

    Parameters
    ----------
    quantity : Quantity
        Any operation.

    Returns
    -------
    str
        In the script's own words where it had any.
    """
    if isinstance(quantity, Portion):
        words = quantity.of.words
        if words.startswith("with "):
            words = f"this recipe {words}"
        elif not words.startswith(("this", "it")):
            words = f"the {words}"
        head = "the whole batch of " if quantity.whole else ""
        told = {"footprint": "", "kcal": "the calories of ", "gas": "the gas in "}
        return f"{told.get(quantity.taken, f'the {quantity.taken} of ')}{head}{words}"
    if isinstance(quantity, Lines):
        head = f"the {quantity.of.taken} of " if quantity.of.taken != "footprint" else ""
        return head + " and ".join(f"the {name}" for name in quantity.names)
    if isinstance(quantity, Phase):
        place = f" in the {quantity.place}" if quantity.place else ""
        return f"the {quantity.stage}{place}"
    if isinstance(quantity, Scaled):
        return f"{quantity.factor:g} times {called(quantity.of)}"
    if isinstance(quantity, Sum):
        sign = "plus" if quantity.sign > 0 else "minus"
        return f"{called(quantity.left)} {sign} {called(quantity.right)}"
    if isinstance(quantity, Ratio):
        return f"{called(quantity.left)} against {called(quantity.right)}"
    if isinstance(quantity, Literally):
        return f"{quantity.value:g}"
    return "the time" if not hasattr(quantity, "of") else called(quantity.of)
