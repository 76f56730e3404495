"""Which recipe line a word at the stove means: "onions", "oil", "more sugar"."""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as fifty quoted strings)

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from rapidfuzz.distance import OSA

from counterproof.plan.pot import is_at_table
from counterproof.reading.model import MarkedLine
from counterproof.recipe.kitchen import Kitchen, Vessel

_WORD: Final = re.compile(r"[^\W\d_]{2,}")
_BRACKET: Final = re.compile(r"\([^()]*\)")
_EMPTY: Final = frozenset(
    "the an of and with in to for it some more rest last first half all whole bit little again "
    "extra another other my our your about good big small fresh cut up chopped sliced diced "
    "bottle jar bag packet tin tub bowl jug cup carton box can in then now pour poured from".split()
)
_SLIP: Final = ((8, 2), (4, 1))
"""From so many letters on, so many slips of the finger are forgiven: assumed. [1]"""
AT_TABLE: Final = 0.6
"""How little what stands under "for the glass" is meant at the stove, against other lines:
assumed, so that a lemon for the pot is not taken for the slice in the glass. [1]"""
_AND: Final = re.compile(r"\s*(?:,|&|\+|\band\b|\bwith\b)\s*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Found:
    """Lines a label may mean, best first; `sure` says that the first stands alone."""

    lines: tuple[MarkedLine, ...]
    sure: bool


def lines_meant(label: str, lines: Sequence[MarkedLine], weighed: frozenset[int]) -> Found:
    """The lines that a label may mean.

    Parameters
    ----------
    label : str
        As said at the scale.
    lines : sequence of MarkedLine
        The recipe's lines.
    weighed : frozenset of int
        Numbers of lines weighed already: where two lines fit as well, one not yet weighed is
        meant.

    Returns
    -------
    Found
        Empty where none fits.
    """
    said = _stems(label) - _EMPTY
    if not said:
        return Found((), sure=False)
    scored = [(score, line) for line in lines if (score := _score(said, line)) > 0.0]
    if not scored:
        return Found((), sure=False)
    scored.sort(key=lambda pair: -pair[0])
    best = scored[0][0]
    level = [line for score, line in scored if score > best - 0.05]
    if len(level) > 1:
        open_ = [line for line in level if line.written.number not in weighed]
        if len(open_) == 1:
            level = open_
    return Found(tuple(level), sure=len(level) == 1)


def parts_of(label: str) -> tuple[str, ...]:
    """The foods a label names together, as "carrots and celery".

    Parameters
    ----------
    label : str
        As said at the scale.

    Returns
    -------
    tuple of str
        One or more.
    """
    return tuple(part for part in _AND.split(label) if part.strip())


def vessel_named(label: str, kitchen: Kitchen) -> Vessel | None:
    """The vessel of the kitchen file that a label names.

    Parameters
    ----------
    label : str
        As said at the scale.
    kitchen : Kitchen
        With its vessels.

    Returns
    -------
    Vessel or None
        None where no vessel has this name.
    """
    said = label.casefold().strip().removeprefix("the ").removeprefix("my ")
    for vessel in kitchen.vessels:
        if vessel.name.casefold() == said:
            return vessel
    return None


def vessel_in(text: str, kitchen: Kitchen) -> Vessel | None:
    """The vessel of the kitchen file that a text names somewhere.

    Parameters
    ----------
    text : str
        Any text.
    kitchen : Kitchen
        With its vessels.

    Returns
    -------
    Vessel or None
        The one with the longest name.
    """
    said = text.casefold()
    there = [
        one
        for one in kitchen.vessels
        if re.search(rf"\b{re.escape(one.name.casefold())}s?\b", said)
    ]
    return max(there, key=lambda one: len(one.name), default=None)


def _score(said: frozenset[str], line: MarkedLine) -> float:
    """How well a label fits a line: 0 for not at all, above 1 where it is its very name."""
    name = _stems(line.split.name) - _EMPTY
    food = _stems(line.food.name if line.food else "")
    text = _stems(_BRACKET.sub(" ", line.written.text)) - _EMPTY
    hit = frozenset(word for word in said if _in(word, name | food | text))
    if not hit:
        return 0.0
    named = frozenset(word for word in hit if _in(word, name))
    by_name = 2.0 * len(named) / (len(said) + max(len(name), 1))
    table = AT_TABLE if is_at_table(line) else 1.0
    return table * (by_name + 0.5 * len(hit) / len(said))


def _in(word: str, words: frozenset[str]) -> bool:
    slips = next((slips for letters, slips in _SLIP if len(word) >= letters), 0)
    return word in words or any(OSA.distance(word, other) <= slips for other in words if slips)


def _stems(text: str) -> frozenset[str]:
    found = set()
    for word in _WORD.findall(text.casefold()):
        stem = word
        if word.endswith("ies") and len(word) > 4:
            stem = word[:-3] + "y"
        elif word.endswith("oes"):
            stem = word[:-2]
        elif word.endswith("s") and not word.endswith("ss") and len(word) > 3:
            stem = word[:-1]
        found.add(stem)
    return frozenset(found)
