"""Amounts that lean on something else: a percentage of another line, water to cover."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from counterproof.draws import Lognormal, Parameter, Product, Uniform
from counterproof.marks import Mark
from counterproof.reading.by_eye import EYE_SPREAD
from counterproof.reading.spellings import words
from counterproof.ways import ASSUMED, Way

if TYPE_CHECKING:
    from collections.abc import Sequence

    from counterproof.reading.model import MarkedLine, Split

# Every stretch is bounded: on thousands of digits or words an open one would never end.
_PERCENT = re.compile(
    r"(?<!\d)(?P<low>\d{1,9}(?:[.,]\d{1,9})?)\s{0,9}(?:%|percent)?\s{0,9}(?:[-–—]|to)?\s{0,9}"
    r"(?P<high>\d{1,9}(?:[.,]\d{1,9})?)?\s{0,9}"
    r"(?:%|percent|per cent).{0,200}?\b(?:by|of)\s+(?:the\s+|its\s+)?(?P<base>[\w\s-]{0,80}?)\s*weight"
    r"(?:\s+of\s+(?:the\s+)?(?P<later>[\w\s-]+))?",
    re.IGNORECASE,
)
_AMOUNT = re.compile(r"^[\W\d]*(?:to\s*[\d.,]+\s*)?(?:%|percent|per cent)?\s*")
_COVER = re.compile(
    r"\bto\s+(?:just\s+|nearly\s+|almost\s+|barely\s+)?cover\b|\benough\s+to\s+cover\b",
    re.IGNORECASE,
)
_COVERING_KG = 1.0  # water that covers a family pot's solids: assumed


def is_share(text: str) -> bool:
    """Whether the line gives its amount as a percentage of another line's weight.

    Parameters
    ----------
    text : str
        The line.

    Returns
    -------
    bool
        True for "2% salt by cabbage weight".
    """
    said = text.lower()
    if "weight" not in said or "(weighed" in said:  # a scale has settled it
        return False
    return _PERCENT.search(text) is not None


def leant(split: Split) -> Split:
    """The split with the words of a percentage taken out of its name.

    Parameters
    ----------
    split : Split
        Any line's parts.

    Returns
    -------
    Split
        Unchanged unless `is_share` holds for its text.
    """
    if not is_share(split.text):
        return split
    name = re.split(r"\b(?:by|of)\b", _AMOUNT.sub("", split.text), maxsplit=1)[0].strip(" ,()")
    return replace(split, name=name, quantities=())


def share_of_line(line: MarkedLine, others: Sequence[MarkedLine]) -> MarkedLine:
    """The line weighed as its percentage of the line it names.

    Parameters
    ----------
    line : MarkedLine
        A line for which `is_share` holds, its food known.
    others : sequence of MarkedLine
        The other lines of the recipe, already weighed.

    Returns
    -------
    MarkedLine
        With its mass, or with a fault where the other line cannot be found or weighed.
    """
    found = _PERCENT.search(line.written.text)
    if found is None or line.food is None:
        return line
    base = words(found["base"] or found["later"] or "")
    low = float(found["low"].replace(",", "."))
    high = float((found["high"] or found["low"]).replace(",", "."))
    marks = tuple(m for m in line.marks if m.kind not in {"no-amount", "assumed-weight"})
    other = _named(base, others)
    if other is None or other.mass is None or other.food is None or not 0 < low <= high <= 100:
        said = f"“{' '.join(base)}”" if base else "the line it leans on"
        fault = Mark(
            "fault",
            "no-base",
            f"This is a share of the weight of {said}, which is not among the weighed lines. "
            "Give a weight.",
        )
        return replace(line, mass=None, purchased=None, marks=(*marks, fault), way=())
    middle = (low + high) / 2
    mass = other.mass.scaled(middle / 100)
    if high > low:
        key = f"quantity|{line.food.id}|percent of {other.food.id}|{low:g}-{high:g}|1"
        mass = mass.times(Parameter(key, Uniform(low / middle, high / middle)))
    note = Mark("note", "share-of", f"{middle:g} % of the weight of {other.food.name}.")
    way = (*other.way, Way("share of", middle / 100, "", other.food.name))
    return replace(line, mass=mass, purchased=mass, marks=(*marks, note), way=way)


def is_covering(text: str) -> bool:
    """Whether the line says "to cover" in place of an amount.

    Parameters
    ----------
    text : str
        The line.

    Returns
    -------
    bool
        True for "water to cover".
    """
    return "cover" in text.lower() and _COVER.search(text) is not None


def covering(line: MarkedLine, factor: float) -> MarkedLine:
    """The line with a wide guess for what covers the solids in the pot.

    Parameters
    ----------
    line : MarkedLine
        A line for which `is_covering` holds, its food known.
    factor : float
        Scaling of the recipe. [1]

    Returns
    -------
    MarkedLine
        With an assumed mass of 1 kg and a doubt that says so.
    """
    if line.food is None:
        return line
    marks = tuple(m for m in line.marks if m.kind not in {"no-amount", "assumed-weight"})
    spread = Lognormal.from_spread(1.0, EYE_SPREAD)
    mass = Product(_COVERING_KG, (Parameter(f"measure|{line.food.id}|to cover||1", spread),))
    doubt = Mark(
        "doubt",
        "to-cover",
        f"How much {line.food.name} covers the rest depends on the pot: taken as "
        f"{_COVERING_KG:g} kg, give or take half. Measure it once and write it in.",
        (f"1 l {line.food.name}", f"500 ml {line.food.name}", f"2 l {line.food.name}"),
    )
    way = (Way("to cover", _COVERING_KG, "kg", line.food.name, ASSUMED), Way("scale", factor))
    return replace(
        line,
        mass=mass.scaled(factor),
        purchased=mass.scaled(factor),
        marks=(*marks, doubt),
        way=way,
    )


def _named(base: tuple[str, ...], others: Sequence[MarkedLine]) -> MarkedLine | None:
    if not base:
        return None
    wanted = set(base)
    for other in sorted(others, key=lambda line: (line.written.text, line.written.section)):
        if other.food is not None and wanted <= {*words(other.split.name), *words(other.food.name)}:
            return other
    return None
