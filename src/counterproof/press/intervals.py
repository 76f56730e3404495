"""Intervals on a common scale: how every uncertain number is drawn.

A thin line runs from the 5th to the 95th percentile; an upright stroke whose ends are left open
stands at the middle value. Light upright rules at the same places behind every line make one
scale of the whole column, and zero is drawn as a rule of its own, so that a negative percentile
is seen to lie beyond it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from counterproof.draws import Range
from counterproof.numerals import middle_value, number
from counterproof.press.drawing import PAGE, Inks, framed, hairline, label, rounded, stroke, tag
from counterproof.proof import ApartProof, Edition, LineProof, StepProof

MOST_TICKS = 5
EDGE = 0.03
"""Share of the scale's width kept clear at either end, so that no mark is cut."""


@dataclass(frozen=True, slots=True)
class Scale:
    """A common scale with its ticks; places on it are per cent of its width."""

    low: float
    high: float
    ticks: tuple[float, ...]
    decimals: int

    def place(self, value: float) -> str:
        """Return where a value stands, clipped to the scale's ends.

        Parameters
        ----------
        value : float
            What is placed. [the scale's unit]

        Returns
        -------
        str
            Per cent of the width, such as `12.5%`.
        """
        return f"{rounded(100 * self.share(value))}%"

    def share(self, value: float) -> float:
        """Return where a value stands, as a share of the width from 0 to 1.

        Parameters
        ----------
        value : float
            What is placed. [the scale's unit]

        Returns
        -------
        float
            From 0 to 1, clipped to the ends.
        """
        return min(max((value - self.low) / (self.high - self.low), 0.0), 1.0)


def common_scale(values: Iterable[Range], most_ticks: int = MOST_TICKS) -> Scale:
    """Return the scale on which all of some ranges can be drawn.

    Parameters
    ----------
    values : iterable of Range
        What has to find room. [any one unit]
    most_ticks : int
        Ticks wanted at most, ≥ 2.

    Returns
    -------
    Scale
        From zero, or the least 5th percentile below it, to the greatest 95th percentile, with
        ticks at a round step of 1, 2 or 5 that include zero.
    """
    kept = list(values)
    low = min((min(value.p05, value.mean, value.p50) for value in kept), default=0.0)
    high = max((max(value.p95, value.mean, value.p50) for value in kept), default=0.0)
    low, high = min(low, 0.0), max(high, 0.0)
    if high - low <= 0:
        high = 1.0
    step = round_step((high - low) / most_ticks)
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    margin = EDGE * (high - low)
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    ticks = tuple(round(step * place, decimals) + 0.0 for place in range(first, last + 1))
    return Scale(low - margin, high + margin, ticks, decimals)


def line_scale(edition: Edition) -> Scale:
    """Return the one scale on which all that adds up to the serving is drawn.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    Scale
        The scale of the right margin.
    """
    holders: list[LineProof | StepProof | ApartProof] = [
        *edition.lines,
        *edition.steps,
        *edition.apart,
    ]
    return common_scale(holder.kgco2e for holder in holders if holder.kgco2e is not None)


def serving_scale(edition: Edition) -> Scale:
    """Return the one scale of whole servings: the total, its versions and other opinions.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    Scale
        The scale under the recipe.
    """
    versions = [version.serving for version in edition.versions]
    others = [Range(value, value, value, value) for _, value, _ in edition.second_opinion]
    return common_scale([edition.serving, *versions, *others])


def round_step(least: float) -> float:
    """Return the smallest of 1, 2 or 5 times a power of ten that is not below `least` > 0.

    Parameters
    ----------
    least : float
        What it must not fall below, > 0. [any unit]

    Returns
    -------
    float
        1, 2 or 5 times a power of ten.
    """
    power = 10.0 ** math.floor(math.log10(least))
    return next(power * lead for lead in (1, 2, 5, 10) if power * lead >= least * (1 - 1e-9))


def rules(scale: Scale, inks: Inks = PAGE) -> str:
    """Return the light upright rules at the ticks, as tall as their place, zero a little darker.

    Parameters
    ----------
    scale : Scale
        The common scale.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return "".join(
        hairline(
            scale.place(tick), "0", scale.place(tick), "100%", inks.hair if tick else inks.grey
        )
        for tick in scale.ticks
    )


def mark(scale: Scale, value: Range, middle: str, y: str, inks: Inks = PAGE) -> str:
    """Return one interval with its middle stroke at height `y`.

    Parameters
    ----------
    scale : Scale
        The common scale.
    value : Range
        What is drawn. [the scale's unit]
    middle : str
        "mean" or "median".
    y : str
        Height of the line in the drawing, with its unit unless that is px.
    inks : Inks
        Colours.

    Returns
    -------
    str
        SVG elements: the line, the open-ended stroke, and a dot at the median where the middle is
        a mean that lies apart from it.
    """
    line = hairline(scale.place(value.p05), y, scale.place(value.p95), y, inks.ink)
    return line + tag(
        "svg",
        open_stroke(inks),
        x=scale.place(middle_value(value, middle)),
        y=y,
        overflow="visible",
        aria_hidden="true",
    )


def open_stroke(inks: Inks = PAGE) -> str:
    """Return the middle value's sign: an upright stroke that opens at both ends.

    Parameters
    ----------
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return stroke("M-2.5 -7.5 L0 -5 L2.5 -7.5 M0 -5 L0 5 M-2.5 7.5 L0 5 L2.5 7.5", inks.blue, 1.3)


def open_dot(scale: Scale, value: float, y: str, inks: Inks = PAGE) -> str:
    """Return a value that comes without an interval: an open dot.

    Parameters
    ----------
    scale : Scale
        The common scale.
    value : float
        The value. [the scale's unit]
    y : str
        Height of the line in the drawing, with its unit unless that is px.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "circle",
        cx=scale.place(value),
        cy=y,
        r=3.5,
        fill=inks.paper,
        stroke=inks.ink,
        stroke_width=1,
    )


def dot(scale: Scale, value: Range, middle: str, y: str, inks: Inks = PAGE) -> str:
    """Return a version: a full dot on its interval.

    Parameters
    ----------
    scale : Scale
        The common scale.
    value : Range
        Mean and percentiles. [the unit it is shown in]
    middle : str
        "mean" or "median": which of them stands in the middle.
    y : str
        Height of the line in the drawing, with its unit unless that is px.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    line = hairline(scale.place(value.p05), y, scale.place(value.p95), y, inks.ink)
    place = scale.place(middle_value(value, middle))
    return line + tag("circle", cx=place, cy=y, r=3.5, fill=inks.blue)


def interval(
    scale: Scale,
    value: Range,
    middle: str,
    *,
    title: str,
    y: str,
    as_dot: bool = False,
    inks: Inks = PAGE,
) -> str:
    """Return one interval, or a version's dot on it, standing on the rules of the common scale.

    Parameters
    ----------
    scale : Scale
        The common scale.
    value : Range
        Mean and percentiles. [the unit it is shown in]
    middle : str
        "mean" or "median": which of them stands in the middle.
    title : str
        What it shows, in words.
    y : str
        Height of the line in the drawing, with its unit unless that is px.
    as_dot : bool
        A version's dot instead of the open-ended stroke.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    drawn = dot(scale, value, middle, y, inks) if as_dot else mark(scale, value, middle, y, inks)
    return framed(rules(scale, inks) + drawn, title=title, css_class="interval")


def lone_dot(scale: Scale, value: float, *, title: str, y: str, inks: Inks = PAGE) -> str:
    """Return a value that comes without an interval, standing on the rules of the common scale.

    Parameters
    ----------
    scale : Scale
        The common scale.
    value : float
        The value. [the scale's unit]
    title : str
        What it shows, in words.
    y : str
        Height of the line in the drawing, with its unit unless that is px.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return framed(
        rules(scale, inks) + open_dot(scale, value, y, inks), title=title, css_class="interval"
    )


def empty_interval(scale: Scale, inks: Inks = PAGE) -> str:
    """Return the common scale's rules where a line has nothing to draw.

    Parameters
    ----------
    scale : Scale
        The common scale.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "svg",
        rules(scale, inks),
        xmlns="http://www.w3.org/2000/svg",
        class_="interval",
        width="100%",
        height="100%",
        aria_hidden="true",
    )


def axis(scale: Scale, *, title: str, inks: Inks = PAGE, decimal_sign: str = ".") -> str:
    """Return the scale's ticks with their numbers, to stand above its rules.

    Parameters
    ----------
    scale : Scale
        The common scale.
    title : str
        What it shows, in words.
    inks : Inks
        Colours and face.
    decimal_sign : str
        What stands between units and tenths.

    Returns
    -------
    str
        SVG.
    """
    parts = [
        hairline(scale.place(tick), "17", scale.place(tick), "22", inks.hair if tick else inks.grey)
        + label(
            number(tick, scale.decimals if tick else 0).replace(".", decimal_sign),
            scale.place(tick),
            12,
            colour=inks.grey,
            face=inks.face,
        )
        for tick in scale.ticks
    ]
    return framed("".join(parts), title=title, height=22, css_class="axis")
