"""The time line drawn: one ruled bar a task, solid where it needs hands, hatched where it waits.

A wait of hours would leave no room for the minutes. Where nothing begins or ends for longer than
an hour the line is cut, and a break in the bar says so.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from counterproof.press.drawing import PAGE, Inks, framed, rounded, stroke, tag
from counterproof.proof import TaskProof

BAR_HEIGHT: Final = 9.0
LONGEST_DRAWN: Final = 3600.0
"""A stretch without event longer than this is drawn as long as this. House rule. [s]"""
_PATTERN: Final = "hatching-waiting"
_LEAST: Final = 0.004


@dataclass(frozen=True, slots=True)
class Bar:
    """A task's place on the line, as shares of its length.

    Parameters
    ----------
    start, width : float
        Where it begins, how long it is. [share of the line]
    cuts : tuple of float
        Where the line is cut inside it. [share of the line]
    hands_on : bool
        Whether it needs hands.
    """

    start: float
    width: float
    cuts: tuple[float, ...]
    hands_on: bool


def bars(tasks: Sequence[TaskProof]) -> tuple[Bar, ...]:
    """Return the tasks on one line, long stretches without event cut short.

    Parameters
    ----------
    tasks : sequence of TaskProof
        With their middle times. [s]

    Returns
    -------
    tuple of Bar
        One a task, in the same order; none where nothing takes time.
    """
    ends = [(task.begins[1], task.begins[1] + task.lasts[1]) for task in tasks]
    events = sorted({time for pair in ends for time in pair})
    places: dict[float, float] = {}
    cuts: list[float] = []
    at = 0.0
    for place, time in enumerate(events):
        if place:
            gap = time - events[place - 1]
            drawn = min(gap, LONGEST_DRAWN)
            if gap > drawn:
                cuts.append(at + drawn / 2.0)
            at += drawn
        places[time] = at
    if at <= 0.0:
        return ()
    return tuple(
        Bar(
            places[start] / at,
            max((places[end] - places[start]) / at, _LEAST),
            tuple(cut / at for cut in cuts if places[start] < cut < places[end]),
            task.hands_on,
        )
        for task, (start, end) in zip(tasks, ends, strict=True)
    )


def pattern(inks: Inks = PAGE) -> str:
    """Return the hatching that stands for waiting, defined once a page.

    Parameters
    ----------
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    drawn = tag("path", d="M-1 6 L6 -1", fill="none", stroke=inks.ink, stroke_width=1)
    made = tag("pattern", drawn, id=_PATTERN, width=5, height=5, patternUnits="userSpaceOnUse")
    return tag("defs", made)


def bar(of: Bar, *, title: str, first: bool = False, inks: Inks = PAGE) -> str:
    """Return one task's bar on a line as wide as its place.

    Parameters
    ----------
    of : Bar
        Where it stands.
    title : str
        What it shows, in words.
    first : bool
        Whether it brings the hatching with it.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    field = tag(
        "rect",
        x=_share(of.start),
        y=0.5,
        width=_share(of.width),
        height=BAR_HEIGHT,
        fill=inks.ink if of.hands_on else f"url(#{_PATTERN})",
        stroke=inks.ink,
        stroke_width=1,
        class_="field",
    )
    return framed(
        (pattern(inks) if first else "") + field + "".join(_break(cut, inks) for cut in of.cuts),
        title=title,
        height=BAR_HEIGHT + 1,
        css_class="time",
    )


def swatch(*, hands_on: bool, inks: Inks = PAGE) -> str:
    """Return a small field for the key.

    Parameters
    ----------
    hands_on : bool
        Whether it stands for what needs hands.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    field = tag(
        "rect",
        x=0.5,
        y=0.5,
        width=23,
        height=BAR_HEIGHT,
        fill=inks.ink if hands_on else f"url(#{_PATTERN})",
        stroke=inks.ink,
        stroke_width=1,
    )
    return tag(
        "svg",
        field,
        xmlns="http://www.w3.org/2000/svg",
        class_="swatch",
        width=24,
        height=BAR_HEIGHT + 1,
        aria_hidden="true",
    )


def _break(cut: float, inks: Inks) -> str:
    """Two slanted strokes over a piece of blank paper: the line goes on, unseen."""
    path = "M-3 11 L1 -1 M1 11 L5 -1"
    blank = tag("path", d="M-3 11 L1 -1 L5 -1 L1 11 Z", fill=inks.paper)
    return tag("svg", blank + stroke(path, inks.ink), x=_share(cut), y=0, overflow="visible")


def _share(part: float) -> str:
    return f"{rounded(100 * part)}%"
