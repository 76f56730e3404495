"""The words after a number: how large, how full, and which unit."""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final, NamedTuple

from counterproof.reading.words import FILLS, SIZES
from counterproof.units import MEASURES, PLURALS, UNIT_WORDS, measure_named

if TYPE_CHECKING:
    from collections.abc import Mapping

_UNIT_WORD: Final = re.compile(r'\s*-?\s*([A-Za-zÀ-ÿ]+(?:-[A-Za-z]+)*(?![^\W\d_])\.?|")')
_OUNCES: Final = re.compile(r"\.?\s*(?:oz|ounces?|ozs)\b\.?", re.IGNORECASE)
_JOINTS: Final = frozenset({"to", "or", "and"})
_FLUID: Final = frozenset({"fl", "fluid", "liquid"})
_INCH_NEXT: Final = frozenset({" piece", " thick", " knob ", " long,"})
_DIMENSION: Final = frozenset("thick long wide square tall deep diameter round length".split())
_WEAK: Final = frozenset(
    "fillet filet leaf bottle cube head stick bar ball block pod glass sheet strip ear nut lump"
    " cake pot cob basket container square log grind slug carton box tub bag pack"
    " rib spear stem piece chunk fistful frond drop".split()
)
"""Unit words that also begin names: "4 fillet steaks", "2 bottle gourds"."""
_NEEDS_OF: Final = frozenset("nut lump basket cake pot".split())
"""Words that are a unit only in the plural or before "of": "a nut of butter"."""


_FOODS: Final = frozenset(
    {
        ("bottle", "gourd"), ("bottle", "gourds"), ("cube", "steak"), ("pot", "roast"),
        ("leaf", "lettuce"), ("head", "cheese"),
    }
)  # fmt: skip
"""Unit words that the next word makes part of a name, whatever the number."""
_BEGIN_FOODS: Final = frozenset(first for first, _ in _FOODS)
_TABLEWARE: Final = {
    "serving": "scoop", "cooking": "scoop", "kitchen": "scoop", "bar": "tsp", "tea": "tsp",
    "coffee": "tsp", "table": "tbsp", "soup": "tbsp", "dessert": "dessertspoon", "wine": "glass",
    "shot": "shot",
}  # fmt: skip
"""What the spoon or the glass holds that is named by two words."""
_SPOON: Final = re.compile(r" (spoon(?:ful)?s?|glass(?:es)?)\b", re.IGNORECASE)
_NEXT_WORD: Final = re.compile(r" ([A-Za-z]{2,12})")

MAY_BEGIN: Final = frozenset(
    {*UNIT_WORDS, *SIZES, *FILLS, *_FLUID, *_TABLEWARE, "in", "size", "sized"}
)
"""The words that sizes, fills and units begin with; most words are not among them."""
PLAIN_UNITS: Final[Mapping[str, str]] = {
    word: measure
    for lower in UNIT_WORDS
    - _WEAK
    - _NEEDS_OF
    - _FLUID
    - _TABLEWARE.keys()
    - {"in", *SIZES, *FILLS}
    for word in (lower, lower.capitalize(), f"{lower}.")
    if (measure := measure_named(word)) is not None
} | {"fl oz": "floz", "fl oz.": "floz"}
"""The measures of the words that are units wherever they follow a number."""


class UnitWords(NamedTuple):
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
    match = _UNIT_WORD.match(line, at)
    if match is None:
        return UnitWords(None, at)
    word = match[1]
    measure = PLAIN_UNITS.get(word)
    if measure is not None:
        return UnitWords(measure, match.end())
    return _read(line, match, number) if _may_begin(word) else UnitWords(None, at)


def unit_may_follow(line: str, at: int) -> bool:
    """Return whether what follows is worth a look: most words begin no unit.

    Parameters
    ----------
    line : str
        A tidied line.
    at : int
        Where a word ends.

    Returns
    -------
    bool
        False where `unit_at` finds nothing.
    """
    word = line[at + 1 :].partition(" ")[0]
    return not word.isalpha() or word.lower() in MAY_BEGIN


def _read(line: str, first: re.Match[str], number: float) -> UnitWords:
    """Read up to four words of size, fill and unit."""
    size: list[str] = []
    fills: list[str] = []
    size_end = place = first.start()
    match: re.Match[str] | None = first
    for _ in range(4):
        if match is None:
            break
        word = match[1]
        lower = word.lower()
        if lower in SIZES:
            if SIZES[lower] and not fills:
                size.append(SIZES[lower])
                size_end = match.end()
            place = match.end()
            match = _UNIT_WORD.match(line, place)
            continue
        measure, end = _measure_at(line, match, number)
        if measure is not None:
            return UnitWords(measure, end, " ".join(size), tuple(fills))
        if lower in _JOINTS and size:
            size.append(lower)
        elif lower in {"size", "sized"} and size:
            size_end = match.end()
        elif lower in FILLS:
            fills.append(lower)
        else:
            break
        place = match.end()
        match = _UNIT_WORD.match(line, place)
    while size and size[-1] in _JOINTS:
        size.pop()
    return UnitWords(None, size_end, " ".join(size))


def _may_begin(word: str) -> bool:
    """Return whether a word is one that sizes, fills and units begin with; most words are not."""
    if word in MAY_BEGIN or "-" in word:
        return True
    return word == '"' or word.lower().rstrip(".") in MAY_BEGIN


def _begins_food(lower: str, line: str, end: int) -> bool:
    """Return whether a unit word and the next word are a food's name: "bottle gourd"."""
    following = _NEXT_WORD.match(line, end)
    return following is not None and (lower, following.group(1).lower()) in _FOODS


def _measure_at(line: str, match: re.Match[str], number: float) -> tuple[str | None, int]:
    """Return the measure of one word, or of two for fluid ounces, and where it ends."""
    word = match.group(1)
    start, end = match.span(1)
    glued = line[start - 1] in "0123456789-" if start else False
    lower = word.lower().rstrip(".")
    if word == '"':
        return "inch", end
    if lower == "in":
        return ("inch" if glued or line[end : end + 6].lower() in _INCH_NEXT else None), end
    if lower in _FLUID:
        ounces = _OUNCES.match(line, end)
        return ("floz", ounces.end()) if ounces is not None else (None, end)
    spoon = _SPOON.match(line, end) if lower in _TABLEWARE else None
    measure = measure_named(word)
    if spoon is not None:
        measure, end, lower = _TABLEWARE[lower], spoon.end(), "spoons"
    if measure is None:
        first, _, rest = word.partition("-")
        measure = measure_named(first) if rest.partition("-")[0] in _DIMENSION else None
        return (measure if measure and MEASURES[measure] == "length" else None), end
    needs_more = (lower in _NEEDS_OF and lower not in PLURALS) or (number > 1 and lower in _WEAK)
    if lower in _BEGIN_FOODS and _begins_food(lower, line, end):
        measure, needs_more = None, False
    if needs_more and not glued and line[end : end + 4] != " of " and line[end : end + 2] != " (":
        return None, end
    return measure, end
