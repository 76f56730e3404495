"""The words after a number: how large, how full, and which unit."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from counterproof.reading.words import FILLS, SIZES
from counterproof.units import MEASURES, PLURALS, measure_named

_UNIT_WORD: Final = re.compile(r'\s*-?\s*([A-Za-zÀ-ÿ]+(?:-[A-Za-z]+)*\.?|")')
_OUNCES: Final = re.compile(r"\.?\s*(?:oz|ounces?|ozs)\b\.?", re.IGNORECASE)
_JOINTS: Final = frozenset({"to", "or", "and"})
_INCH_NEXT: Final = frozenset({" piece", " thick", " knob ", " long,"})
_DIMENSION: Final = frozenset("thick long wide square tall deep diameter round length".split())
_WEAK: Final = frozenset(
    "fillet filet leaf bottle cube head stick bar ball block pod glass sheet strip ear nut pat lump"
    " cake pot cob basket container square log grind slug spoon mug carton box tub bag pack"
    " rib spear shot stem piece chunk fistful frond drop".split()
)
"""Unit words that also begin names: "4 fillet steaks", "2 bottle gourds"."""
_NEEDS_OF: Final = frozenset("nut pat lump basket cake shot drop pot".split())
"""Words that are a unit only in the plural or before "of": "a nut of butter"."""


@dataclass(frozen=True, slots=True)
class UnitWords:
    """What stands after a number: `measure` is None if no unit follows."""

    measure: str | None
    end: int
    size: str = ""
    fills: tuple[str, ...] = ()


def unit_at(line: str, at: int, number: float) -> UnitWords:
    """Return the size, the fill and the unit that follow a number.

    Parameters
    ----------
    line : str
        A tidied line.
    at : int
        Where the number ends.
    number : float
        The number, ≥ 0: above one, a unit that also begins names must be plural. [1]

    Returns
    -------
    UnitWords
        With `end` after the unit, or after the words of size if there is none.
    """
    size: list[str] = []
    fills: list[str] = []
    size_end = place = at
    for _ in range(4):
        match = _UNIT_WORD.match(line, place)
        if match is None:
            break
        word = match.group(1)
        lower = word.lower()
        if word == '"':
            return UnitWords("inch", match.end(), " ".join(size))
        if lower in {"fl", "fl.", "fluid", "liquid"}:
            ounces = _OUNCES.match(line, match.end())
            if ounces is not None:
                return UnitWords("floz", ounces.end(), " ".join(size), tuple(fills))
        measure = _measure_at(line, match, number)
        if measure is not None:
            return UnitWords(measure, match.end(), " ".join(size), tuple(fills))
        if lower in SIZES:
            if SIZES[lower] and not fills:
                size.append(SIZES[lower])
                size_end = match.end()
        elif lower in _JOINTS and size:
            size.append(lower)
        elif lower in FILLS:
            fills.append(lower)
        else:
            break
        place = match.end()
    while size and size[-1] in _JOINTS:
        size.pop()
    return UnitWords(None, size_end, " ".join(size))


def _measure_at(line: str, match: re.Match[str], number: float) -> str | None:
    word = match.group(1)
    start, end = match.span(1)
    glued = line[start - 1] in "0123456789-" if start else False
    if word in {"in", "in."}:
        return "inch" if glued or line[end : end + 6].lower() in _INCH_NEXT else None
    measure = measure_named(word)
    if measure is None:
        head, _, rest = word.partition("-")
        measure = measure_named(head) if rest.partition("-")[0] in _DIMENSION else None
        return measure if measure is not None and MEASURES[measure] == "length" else None
    lower = word.lower().rstrip(".")
    if glued or line[end : end + 4] == " of ":
        return measure
    if (lower in _NEEDS_OF and lower not in PLURALS) or (number > 1 and lower in _WEAK):
        return None
    return measure
