"""Amounts in words: for people, and for the keys of draws."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterproof.marks import Mark

if TYPE_CHECKING:
    from counterproof.reading.model import Quantity, Split


# Measures that are signs, which have no plural, and those whose id is no word of a cook's.
_SIGNS = {
    **{
        sign: sign
        for sign in ("mg", "g", "kg", "oz", "lb", "ml", "cl", "dl", "tsp", "tbsp", "cm", "mm")
    },
    "l": "L",
    "floz": "fl oz",
}
_CALLED = {"recipe": "quantity", "cm-piece": "centimetre"}


def measure_in_words(measure: str, number: float) -> str:
    """A measure in the right number.

    Parameters
    ----------
    measure : str
        A measure id of `units`.
    number : float
        How many. [1]

    Returns
    -------
    str
        "cups", "leaves", "quantity", "L"; nothing for a bare count.
    """
    if measure == "piece":
        return ""
    if measure in _SIGNS:
        return _SIGNS[measure]
    name = _CALLED.get(measure, measure)
    if number <= 1:
        return name
    if name.endswith("ty"):
        return f"{name[:-1]}ies"
    if name.endswith("f"):
        return f"{name[:-1]}ves"
    return f"{name}es" if name.endswith(("ch", "sh", "ss", "x")) else f"{name}s"


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
    return f"{number} {measure_in_words(quantity.measure, quantity.high)}".rstrip()


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
