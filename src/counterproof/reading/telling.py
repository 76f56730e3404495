"""Amounts in words: for people, and for the keys of draws."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterproof.marks import Mark
from counterproof.units import MEASURES

if TYPE_CHECKING:
    from counterproof.reading.model import Quantity, Split


# Measures whose id is no word of a cook's, and plurals that take more than an s.
_CALLED = {"recipe": "quantity", "cm-piece": "centimetre", "floz": "fl oz"}
_PLURALS = {
    "quantity": "quantities", "leaf": "leaves", "loaf": "loaves", "bunch": "bunches",
    "splash": "splashes", "glass": "glasses",
}  # fmt: skip
_IN_WORDS = frozenset({"count", "by eye"})


def figures(quantity: Quantity, split: Split) -> str:
    """The numbers of an amount as written, for a draw key.

    Parameters
    ----------
    quantity : Quantity
        One of the line's amounts.
    split : Split
        The line's parts.

    Returns
    -------
    str
        "2", "2-3" or "2x400".
    """
    packs = f"{split.packs:g}x" if split.packs != 1 else ""
    if quantity.high > quantity.low:
        return f"{packs}{quantity.low:g}-{quantity.high:g}"
    return f"{packs}{quantity.low:g}"


def grams(kg: float) -> str:
    """A mass for people.

    Parameters
    ----------
    kg : float
        Mass. [kg]

    Returns
    -------
    str
        "1.2 kg", "250 g", "3.5 g".
    """
    if kg >= 1:
        return f"{kg:.3g} kg"
    return f"{kg * 1000:.2g} g" if kg < 0.1 else f"{kg * 1000:.0f} g"


def said(quantity: Quantity) -> str:
    """An amount for people.

    Parameters
    ----------
    quantity : Quantity
        One of the line's amounts.

    Returns
    -------
    str
        "2–3", "250 g".
    """
    number = f"{quantity.low:.3g}"
    if quantity.high > quantity.low:
        number += f"–{quantity.high:.3g}"
    if quantity.measure == "piece":
        return number
    called = _CALLED.get(quantity.measure, quantity.measure)
    many = quantity.high > 1 and MEASURES.get(quantity.measure) in _IN_WORDS
    return f"{number} {_PLURALS.get(called, f'{called}s') if many else called}"


def assumed(message: str) -> Mark:
    """The note for a weight that no source gives.

    Parameters
    ----------
    message : str
        What was assumed.

    Returns
    -------
    Mark
        A note.
    """
    return Mark("note", "assumed-weight", message)
