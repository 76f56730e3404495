"""A curve in a terminal: dots on a ruled scale, limits as rules with their value at the margin."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, floor, log10
from typing import Final

import numpy as np
from rich.text import Text

from counterproof import numerals
from counterproof.adapters.characters import BLUE, GREY, Page
from counterproof.press.intervals import round_step
from counterproof.press.kitchen_curves import Plot

_ROWS: Final = 13
_WIDEST: Final = 78
_TICKS: Final = 5
_LEFT: Final = 9
"""Columns for the numbers of the upright scale and its unit."""
_RIGHT: Final = 9
"""Columns for the values of the rules."""


def drawn(page: Page, plot: Plot) -> list[Text]:
    """The lines of a plot.

    Parameters
    ----------
    page : Page
        Where it is printed; it says how wide and in which characters.
    plot : Plot
        What is drawn.

    Returns
    -------
    list of Text
        The caption, lines of equal width, the scale along under them.
    """
    width = max(min(page.width - _LEFT - _RIGHT, _WIDEST), 24)
    low, high = _ends(plot)
    step = round_step((high - low) / _TICKS)
    low, high = step * floor(low / step + 1e-9), step * ceil(high / step - 1e-9)

    def row(value: float) -> int:
        return round((high - value) / (high - low) * (_ROWS - 1))

    cells = [[" "] * width for _ in range(_ROWS)]
    for rule in plot.rules:
        if low <= rule <= high:
            cells[row(rule)] = ["-" if place % 2 else " " for place in range(width)]
    places = np.linspace(plot.along[0], plot.along[-1], width)
    for edge in plot.edges:
        _dotted(cells, [row(v) for v in np.interp(places, plot.along, edge)], _edge(page))
    _dotted(cells, [row(v) for v in np.interp(places, plot.along, plot.up)], _dot(page))
    made = [
        Text.assemble(
            _left(page, number, low, step, plot, row),
            _inked(page, "".join(line)),
            _right(page, number, plot, row),
        )
        for number, line in enumerate(cells)
    ]
    caption = page.words(" " * _LEFT + plot.caption, "italic")
    return [caption, *made, *_foot(page, plot, width)]


def _ends(plot: Plot) -> tuple[float, float]:
    every = [*plot.up, *plot.rules, *(value for edge in plot.edges for value in edge)]
    low, high = min(every), max(every)
    return (low, high) if high - low > 1e-9 else (low - 1.0, high + 1.0)


def _dot(page: Page) -> str:
    return "o" if page.ascii else "•"


def _edge(page: Page) -> str:
    return "." if page.ascii else "·"


def _dotted(cells: list[list[str]], rows: Sequence[int], sign: str) -> None:
    """Set dots along a curve, without gaps where it is steep."""
    before = rows[0]
    for place, here in enumerate(rows):
        start, end = sorted((here, before + (here > before) - (here < before)))
        for at in range(start, end + 1) if here != before else (here,):
            cells[min(max(at, 0), _ROWS - 1)][place] = sign
        before = here


def _inked(page: Page, line: str) -> Text:
    text = Text()
    for sign in line:
        text.append(sign, BLUE if sign == _dot(page) else GREY)
    return text


def _left(
    page: Page, number: int, low: float, step: float, plot: Plot, row: Callable[[float], int]
) -> Text:
    decimals = max(0, -floor(log10(step) + 1e-9))
    tick, value = "", low
    for _ in range(40):
        if row(value) == number:
            unit = f" {plot.up_unit}" if number == 0 else ""
            tick = f"{numerals.number(value, decimals)}{unit}"
        value += step
    return page.words(f"{tick:>{_LEFT - 1}} ", GREY)


def _right(page: Page, number: int, plot: Plot, row: Callable[[float], int]) -> Text:
    named = [rule for rule in plot.rules if row(rule) == number]
    words = ", ".join(numerals.number(rule, 0) for rule in named)
    return page.words(f" {words} {plot.up_unit}" if named else "", GREY)


def _foot(page: Page, plot: Plot, width: int) -> list[Text]:
    """Ticks and numbers of the scale along."""
    start, end = plot.along[0], plot.along[-1]
    step = round_step((end - start) / min(_TICKS, max(width // 12, 2)))
    decimals = max(0, -floor(log10(step) + 1e-9))
    marks, numbers = [" "] * (width + _RIGHT), [" "] * (width + _RIGHT)
    value = step * ceil(start / step - 1e-9)
    free = 0
    while value <= end * (1 + 1e-9):
        place = round((value - start) / (end - start) * (width - 1))
        last = value + step > end * (1 + 1e-9)
        words = numerals.number(value, decimals) + (f" {plot.along_unit}" if last else "")
        at = max(place - (len(numerals.number(value, decimals)) - 1) // 2, 0)
        if at >= free:
            marks[place] = "'"
            numbers[at : at + len(words)] = words
            free = at + len(words) + 1
        value += step
    lead = " " * _LEFT
    return [page.words(lead + "".join(row).rstrip(), GREY) for row in (marks, numbers)]


def listed(plot: Plot, count: int = 7) -> str:
    """The curve in words, for where nothing can be drawn.

    Parameters
    ----------
    plot : Plot
        The curve.
    count : int
        How many points, ≥ 2. [1]

    Returns
    -------
    str
        Such as “0 min 95 °C, 30 min 71 °C”.
    """
    places = np.linspace(plot.along[0], plot.along[-1], count)
    values = np.interp(places, plot.along, plot.up)
    space = numerals.SPACE
    decimals = 0 if max(plot.up) - min(plot.up) >= 10.0 else 1
    return ", ".join(
        f"{numerals.plain(float(at))}{space}{plot.along_unit} "
        f"{numerals.number(float(value), decimals)}{space}{plot.up_unit}"
        for at, value in zip(places, values, strict=True)
    )
