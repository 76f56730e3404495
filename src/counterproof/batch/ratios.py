"""Ratios that must hold whatever the amount: baker's percentages, brines, syrups."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

from counterproof.kitchen_physics import WATER
from counterproof.plan.pot import is_at_table
from counterproof.reading.model import MarkedLine, Reading

Kind = Literal["baker's percentages", "brine", "syrup"]

HOLDS: Final = 0.02
"""Share by which rounding may move a part of a ratio: assumed, what a baker's scale allows. [1]"""
_BREAD: Final = re.compile(
    r"\b(?:dough|bread|knead\w*|prove\w*|proof\w*|loaf|loaves|pizza|focaccia|brioche)\b",
    re.IGNORECASE,
)
_BRINE: Final = re.compile(
    r"\b(?:brine\w*|pickl\w*|ferment\w*|sauerkraut|kimchi|cure\w*|salt down)\b", re.IGNORECASE
)
_SUGARS: Final = "sugars & syrups"
_BAKED: Final = frozenset({"flour & starch", "grains", "breakfast cereals"})
_LEAST_LIQUID: Final = 0.3
"""Liquid against sugar below which nothing dissolves it: assumed, sugar takes half its weight of
cold water. [1]"""
_LEAST_SYRUP: Final = 0.15
"""Sugar against sugar and liquid from which it is a syrup: assumed, thicker than any drink. [1]"""


@dataclass(frozen=True, slots=True)
class Share:
    """One line's part of a ratio.

    Parameters
    ----------
    number : int
        Of the line.
    name : str
        What it is called.
    before, after : float
        Its share of the base as written, and as measured out. [1]
    """

    number: int
    name: str
    before: float
    after: float

    @property
    def holds(self) -> bool:
        """Whether rounding leaves it where it was."""
        return abs(self.after - self.before) <= HOLDS * self.before + 1e-9


@dataclass(frozen=True, slots=True)
class Ratio:
    """A ratio of lines.

    Parameters
    ----------
    kind : Kind
        What it is.
    base : str
        What the shares are of.
    shares : tuple of Share
        Its parts.
    """

    kind: Kind
    base: str
    shares: tuple[Share, ...]

    @property
    def holds(self) -> bool:
        """Whether every part holds."""
        return all(share.holds for share in self.shares)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "kind": self.kind,
            "of": self.base,
            "holds": self.holds,
            "parts": [
                {
                    "number": one.number,
                    "called": one.name,
                    "share_before": one.before,
                    "share_after": one.after,
                }
                for one in self.shares
            ],
        }


@dataclass(frozen=True, slots=True)
class Hangs:
    """Lines that hang together: those that make the base, and those whose share of it counts."""

    kind: Kind
    of: str
    base: tuple[int, ...]
    parts: tuple[int, ...]


def hanging_together(reading: Reading) -> tuple[Hangs, ...]:
    """The ratios a recipe hangs on.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    tuple of Hangs
        By numbers of lines; lines without a weight are in none.
    """
    lines = [line for line in reading.lines if line.mass is not None and not is_at_table(line)]
    said = " ".join((reading.recipe.title, *(step.written.text for step in reading.steps)))
    found = [_dough(lines, said), _brine(lines, said), _syrup(lines)]
    return tuple(one for one in found if one is not None)


def percentages(base: Sequence[float], parts: Sequence[float]) -> tuple[float, ...]:
    """Shares of parts in the sum of a base, as bakers give them.

    Parameters
    ----------
    base : sequence of float
        Masses of the base: all flours. [kg]
    parts : sequence of float
        Masses. [kg]

    Returns
    -------
    tuple of float
        Mass over that of the whole base. [1]
    """
    whole = sum(base)
    return tuple(part / whole for part in parts)


def ratio_of(hangs: Hangs, before: Reading, after: Reading) -> Ratio | None:
    """A ratio as written and as measured out.

    Parameters
    ----------
    hangs : Hangs
        Which lines hang together.
    before, after : Reading
        The recipe as written, and the one measured out, read anew.

    Returns
    -------
    Ratio or None
        None where a line of it lost its weight.
    """
    masses = [_masses(reading, (*hangs.base, *hangs.parts)) for reading in (before, after)]
    if any(mass is None for one in masses for mass in one.values()):
        return None
    shares = []
    names = {line.written.number: line.split.name for line in before.lines}
    were, are = (
        percentages([one[n] or 0.0 for n in hangs.base], [one[n] or 0.0 for n in hangs.parts])
        for one in masses
    )
    for number, was, now in zip(hangs.parts, were, are, strict=True):
        shares.append(Share(number, names.get(number, ""), was, now))
    return Ratio(hangs.kind, hangs.of, tuple(shares))


def _masses(reading: Reading, numbers: Sequence[int]) -> dict[int, float | None]:
    found: dict[int, float | None] = dict.fromkeys(numbers)
    for line in reading.lines:
        if line.written.number in found and line.mass is not None:
            found[line.written.number] = line.mass.mean
    return found


def _number(line: MarkedLine) -> int:
    return line.written.number


def _is_flour(line: MarkedLine) -> bool:
    return (
        line.food is not None
        and line.food.food_class == "flour & starch"
        and "flour" in line.food.name
    )


def _dough(lines: Sequence[MarkedLine], said: str) -> Hangs | None:
    flours = [line for line in lines if _is_flour(line)]
    rises = any(line.food is not None and line.food.food_class == "leavening" for line in lines)
    if not flours or not (rises or _BREAD.search(said)):
        return None
    parts = tuple(_number(line) for line in lines)
    return Hangs("baker's percentages", "flour", tuple(map(_number, flours)), parts)


def _brine(lines: Sequence[MarkedLine], said: str) -> Hangs | None:
    salts = [line for line in lines if line.food is not None and line.food.food_class == "salt"]
    held = [
        line
        for line in lines
        if line.food is not None and line.food.food_class in {WATER, "vegetables"}
    ]
    if not salts or not held or not _BRINE.search(said):
        return None
    return Hangs(
        "brine", "water and vegetables", tuple(map(_number, held)), tuple(map(_number, salts))
    )


def _syrup(lines: Sequence[MarkedLine]) -> Hangs | None:
    sugars = [line for line in lines if line.food is not None and line.food.food_class == _SUGARS]
    wet = [
        line
        for line in lines
        if line.food is not None and line.food.kind == "liquid" and line not in sugars
    ]
    sweet = sum(line.mass.mean for line in sugars if line.mass is not None)
    liquid = sum(line.mass.mean for line in wet if line.mass is not None)
    baked = any(line.food is not None and line.food.food_class in _BAKED for line in lines)
    if baked or not sugars or not wet:
        return None
    if sweet < _LEAST_SYRUP * (sweet + liquid) or liquid < _LEAST_LIQUID * sweet:
        return None
    base = tuple(_number(line) for line in lines if line in sugars or line in wet)
    return Hangs("syrup", "sugar and liquid", base, tuple(map(_number, sugars)))
