"""What was weighed, written into the recipe beside its by-eye words."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Final

from counterproof.batch.weighed import Weighed, WeighIn
from counterproof.batch.weights import grams
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.recipe.text import weighed, write_text

_OPEN: Final = frozenset({"poured-what", "together"})
"""Doubts that keep what was weighed out of the recipe until they are settled."""
_BULLET: Final = re.compile(r"\s*(?:[-*+•]\s+|\d+[.)]\s+)?")
_WEIGHED: Final = re.compile(r"\s*\(weighed\s[^()]*\)")


def weighed_words(kg: float, half: float, step: float) -> str:
    """A weight with its range, in words that reading understands.

    Parameters
    ----------
    kg, half : float
        The weight, and half the width of its range. [kg]
    step : float
        The scale's step. [kg]

    Returns
    -------
    str
        Such as "28 g, give or take 1 g".
    """
    finer = step if abs(half / step - round(half / step)) < 1e-6 else step / 2
    return f"{grams(kg, step)}, give or take {grams(half, finer)}"


def settled_lines(found: WeighIn) -> tuple[Weighed, ...]:
    """What can be written into the recipe: all but what is still to be told.

    Parameters
    ----------
    found : WeighIn
        The weigh-in.

    Returns
    -------
    tuple of Weighed
        In its order.
    """
    open_ = {at for at, mark in found.marks if mark.kind in _OPEN}
    return tuple(
        line
        for line in found.lines
        if line.number is not None or not any(one.at in open_ for one in line.differences)
    )


def with_weights(text: str, recipe: Recipe, found: WeighIn) -> str:
    """A recipe file's text with the weights beside its lines.

    Parameters
    ----------
    text : str
        The file's text, as `recipe` was read from it.
    recipe : Recipe
        The recipe.
    found : WeighIn
        What was weighed.

    Returns
    -------
    str
        Every line with its own words; "(weighed …)" behind those that were weighed, and a line
        of its own after the last ingredient for what the recipe did not list.
    """
    at = {line.number: line.at for line in recipe.lines}
    step = found.state.step
    unlisted = []
    for line in settled_lines(found):
        place = at.get(line.number or 0)
        words = weighed_words(line.kg, line.half, step)
        if place is not None:
            text = weighed(text, place, words)
        else:
            unlisted.append(f"{line.name} (weighed {words})")
    last = max((line.at for line in recipe.lines if line.at is not None), default=None)
    return _with_lines(text, last, unlisted) if unlisted and last is not None else text


def recipe_with_weights(recipe: Recipe, found: WeighIn) -> str:
    """The recipe written out anew with the weights, where its file is no plain text.

    Parameters
    ----------
    recipe : Recipe
        Read from a saved page or JSON-LD, or without any line yet.
    found : WeighIn
        What was weighed.

    Returns
    -------
    str
        A recipe.md.
    """
    step = found.state.step
    words = {
        line.number: f"(weighed {weighed_words(line.kg, line.half, step)})"
        for line in settled_lines(found)
        if line.number is not None
    }
    lines = [
        replace(line, text=f"{_WEIGHED.sub('', line.text)} {words[line.number]}")
        if line.number in words
        else line
        for line in recipe.lines
    ]
    for line in settled_lines(found):
        if line.number is None:
            text = f"{line.name} (weighed {weighed_words(line.kg, line.half, step)})"
            lines.append(WrittenLine(len(lines) + 1, text))
    return write_text(replace(recipe, lines=tuple(lines)))


def _with_lines(text: str, last: int, lines: list[str]) -> str:
    """A text with lines put after one, with its bullet; past what it runs on to."""
    pieces = text.splitlines(keepends=True)
    end = "\r\n" if pieces[last - 1].endswith("\r\n") else "\n"
    sign = _BULLET.match(pieces[last - 1])
    bullet = sign[0] if sign and re.search(r"[-*+•]", sign[0]) else ""
    place = last
    while place < len(pieces) and bullet and pieces[place][:1] in " \t" and pieces[place].strip():
        place += 1
    if not pieces[place - 1].endswith(("\n", "\r")):
        pieces[place - 1] += end
    return "".join((*pieces[:place], *(f"{bullet}{line}{end}" for line in lines), *pieces[place:]))
