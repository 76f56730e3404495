"""A curve on a page: a pencil line on a ruled scale, its range as a hatched band, limits across."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from counterproof import numerals
from counterproof.press.drawing import PAGE, Inks, framed, hairline, label, rounded, stroke, tag
from counterproof.press.intervals import round_step
from counterproof.press.kitchen_curves import Plot

WIDTH, HEIGHT = 720.0, 300.0
"""Size of a curve at which its type has its own size. [px]"""

_LEFT, _RIGHT, _HEAD, _FOOT = 52.0, 64.0, 26.0, 34.0
_TICKS: Final = 6
_APART: Final = 15.0  # between the words of two limits [px]
_HATCH: Final = 7.0  # between the strokes of a band [px]


def curve(plot: Plot, title: str, inks: Inks = PAGE) -> str:
    """Return a curve as a drawing that grows and shrinks with its place.

    Parameters
    ----------
    plot : Plot
        What is drawn.
    title : str
        What it is about, for screen readers.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    every = [*plot.up, *plot.rules, *(value for edge in plot.edges for value in edge)]
    along = _Ruler(plot.along[0], plot.along[-1], _LEFT, WIDTH - _RIGHT)
    up = _Ruler(min(every), max(every), HEIGHT - _FOOT, _HEAD)
    made = [*_ground(along, up, plot, inks)]
    made += _band(plot, along, up, inks)
    made += _limits(plot, along, up, inks)
    path = _path(plot.along, plot.up, along, up)
    made.append(stroke(path, inks.blue, 1.8))
    return framed(
        "".join(made),
        title=title,
        description=_in_words(plot),
        css_class="curve",
        view_box=f"0 0 {rounded(WIDTH)} {rounded(HEIGHT)}",
    )


class _Ruler:
    """Values on one scale, laid between two places."""

    def __init__(self, low: float, high: float, first: float, last: float) -> None:
        span = (high - low) or 1.0
        self.step = round_step(span / _TICKS)
        self.low = math.floor(low / self.step + 1e-9) * self.step
        self.high = math.ceil(high / self.step - 1e-9) * self.step
        self.first, self.last = first, last

    def at(self, value: float) -> float:
        share = (value - self.low) / (self.high - self.low)
        return self.first + share * (self.last - self.first)

    def ticks(self) -> Iterator[tuple[float, str]]:
        decimals = max(0, -math.floor(math.log10(self.step) + 1e-9))
        for n in range(round((self.high - self.low) / self.step) + 1):
            value = self.low + n * self.step
            yield value, numerals.number(value, decimals)


def _ground(along: _Ruler, up: _Ruler, plot: Plot, inks: Inks) -> Iterator[str]:
    left, right = rounded(_LEFT), rounded(WIDTH - _RIGHT)
    for value, told in up.ticks():
        y = up.at(value)
        yield hairline(left, rounded(y), right, rounded(y), inks.hair)
        yield label(told, rounded(_LEFT - 8), y + 4, colour=inks.grey, face=inks.face, anchor="end")
    base = up.at(up.low)
    for value, told in along.ticks():
        x = rounded(along.at(value))
        yield hairline(x, rounded(base), x, rounded(base + 5), inks.grey)
        yield label(told, x, base + 19, colour=inks.grey, face=inks.face)
    yield hairline(left, rounded(base), right, rounded(base), inks.ink)
    yield label(
        plot.up_unit, rounded(_LEFT - 8), _HEAD - 12, colour=inks.grey, face=inks.face, anchor="end"
    )
    yield label(
        plot.along_unit,
        rounded(WIDTH - _RIGHT + 14),
        base + 19,
        colour=inks.grey,
        face=inks.face,
        anchor="start",
    )


def _band(plot: Plot, along: _Ruler, up: _Ruler, inks: Inks) -> Iterator[str]:
    """Between the ends of a range: upright pencil strokes, so that it is seen in grey as well."""
    if len(plot.edges) != 2:
        return
    first, second = plot.edges
    strokes = []
    x = _LEFT + _HATCH
    while x < WIDTH - _RIGHT:
        value = along.low + (x - _LEFT) / (WIDTH - _RIGHT - _LEFT) * (along.high - along.low)
        if plot.along[0] <= value <= plot.along[-1]:
            ends = [up.at(_between(plot.along, edge, value)) for edge in (first, second)]
            strokes.append(f"M{rounded(x)} {rounded(ends[0])}V{rounded(ends[1])}")
        x += _HATCH
    yield stroke("".join(strokes), inks.hair, 1.2)
    for edge in (first, second):
        yield stroke(_path(plot.along, edge, along, up), inks.grey, 0.8)


def _limits(plot: Plot, along: _Ruler, up: _Ruler, inks: Inks) -> Iterator[str]:
    """Limits as broken rules, each with its value at the right, none printed over another."""
    last = -math.inf
    for value in plot.rules:
        y = up.at(value)
        yield tag(
            "line",
            x1=rounded(_LEFT),
            x2=rounded(WIDTH - _RIGHT),
            y1=rounded(y),
            y2=rounded(y),
            stroke=inks.ink,
            stroke_width=1.0,
            stroke_dasharray="6 4",
        )
        last = max(y + 4, last + _APART)
        told = f"{numerals.plain(value)}{numerals.SPACE}{plot.up_unit}"
        x = rounded(along.at(along.high) + 8)
        yield label(told, x, last, colour=inks.ink, face=inks.face, anchor="start")


def _path(xs: Sequence[float], ys: Sequence[float], along: _Ruler, up: _Ruler) -> str:
    points = [f"{rounded(along.at(x))} {rounded(up.at(y))}" for x, y in zip(xs, ys, strict=True)]
    return "M" + "L".join(points)


def _between(xs: Sequence[float], ys: Sequence[float], x: float) -> float:
    """A curve's height at a place, in a straight line between its points."""
    for at in range(1, len(xs)):
        if xs[at] >= x:
            share = (x - xs[at - 1]) / ((xs[at] - xs[at - 1]) or 1.0)
            return ys[at - 1] + share * (ys[at] - ys[at - 1])
    return ys[-1]


def _in_words(plot: Plot) -> str:
    first, last = plot.up[0], plot.up[-1]
    told = (
        f"{plot.caption}: from {numerals.plain(first)} to {numerals.plain(last)} {plot.up_unit} "
        f"over {numerals.plain(plot.along[-1] - plot.along[0])} {plot.along_unit}"
    )
    limits = ", ".join(f"{numerals.plain(value)} {plot.up_unit}" for value in plot.rules)
    return f"{told}; limits at {limits}." if limits else f"{told}."
