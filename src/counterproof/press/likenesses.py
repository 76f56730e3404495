"""Likenesses drawn to scale: balloons, pots or bottles beside the height of a person."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import ceil, floor
from typing import Final

from counterproof.claims.seen import Seen
from counterproof.press.drawing import SHEET, Inks, framed, hairline, label, stroke, tag

PERSON: Final = 1.7
"""Height of the person's mark. [m] Assumed: between the mean heights of women and men; it is a
measure to see by, not a measurement."""

WIDTH: Final = 960.0
"""Width of a drawing. [px]"""

_HIGHEST: Final = 2.0  # how high equal things are piled [m]
_GAP: Final = 0.35  # between groups [m]
_FOOT: Final = 54.0  # room for words under the ground line [px]
_HEAD: Final = 30.0  # room over the highest thing [px]


def to_scale(seen: Sequence[Seen], title: str, inks: Inks = SHEET) -> str:
    """One likeness, or a pair of them, drawn to one scale beside a person's height.

    Parameters
    ----------
    seen : sequence of Seen
        What is drawn, from left to right; each has a shape and a size.
    title : str
        What the drawing is about, for readers and screen readers.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG, in which a metre is the same length everywhere.

    Raises
    ------
    ValueError
        If something has no shape.
    """
    piles = [_pile(one) for one in seen]
    across = 0.9 + sum(columns * one.size[0] + _GAP for one, (columns, _) in zip(seen, piles, strict=True))  # fmt: skip
    tallest = max(PERSON, *(rows * one.size[1] for one, (_, rows) in zip(seen, piles, strict=True)))
    metre = min((WIDTH - 40.0) / across, 260.0)
    ground = _HEAD + tallest * metre
    made = [_person(ground, metre, inks)]
    left = 20.0 + 0.9 * metre
    for one, (columns, rows) in zip(seen, piles, strict=True):
        number = _number(one)
        for at in range(number):
            x = left + (at // rows) * one.size[0] * metre
            y = ground - (at % rows) * one.size[1] * metre
            made.append(_DRAWN[one.shape](x, y, one.size[0] * metre, one.size[1] * metre, inks))
        made.append(
            label(
                one.words,
                f"{left:.1f}",
                ground + 20,
                colour=inks.ink,
                face=inks.face,
                size=13,
                anchor="start",
            )
        )
        made.append(
            label(
                one.conditions[0],
                f"{left:.1f}",
                ground + 38,
                colour=inks.grey,
                face=inks.face,
                anchor="start",
            )
        )
        left += (columns * one.size[0] + _GAP) * metre
    made.append(hairline("10", f"{ground:.1f}", f"{WIDTH - 10:.0f}", f"{ground:.1f}", inks.ink))
    return framed(
        "".join(made),
        title=title,
        description="; ".join(one.sentence for one in seen)
        + f" Drawn to scale beside a person of {PERSON} m.",
        width=WIDTH,
        height=ground + _FOOT,
    )


def _number(one: Seen) -> int:
    return max(1, round(one.count.mean))


def _pile(one: Seen) -> tuple[int, int]:
    """Columns and rows of a pile of equal things."""
    if one.shape not in _DRAWN or min(one.size) <= 0:
        raise ValueError(f"{one.kind} has no shape to be drawn")
    rows = max(1, floor(_HIGHEST / one.size[1]))
    rows = min(rows, _number(one))
    return ceil(_number(one) / rows), rows


def _person(ground: float, metre: float, inks: Inks) -> str:
    """A height, not a portrait: a staff with a mark at head and foot."""
    top = ground - PERSON * metre
    x = 20.0 + 0.35 * metre
    marks = "".join(
        hairline(f"{x - 8:.1f}", f"{y:.1f}", f"{x + 8:.1f}", f"{y:.1f}", inks.blue)
        for y in (top, ground)
    )
    staff = hairline(f"{x:.1f}", f"{top:.1f}", f"{x:.1f}", f"{ground:.1f}", inks.blue)
    words = label(
        f"{PERSON} m", f"{x:.1f}", top - 8, colour=inks.blue, face=inks.face, anchor="middle"
    )
    return marks + staff + words


def _ball(x: float, y: float, width: float, height: float, inks: Inks) -> str:
    return tag(
        "ellipse", cx=x + width / 2, cy=y - height / 2, rx=width / 2, ry=height / 2,
        fill="none", stroke=inks.ink, stroke_width=1,
    )  # fmt: skip


def _box(x: float, y: float, width: float, height: float, inks: Inks) -> str:
    return tag(
        "rect", x=x + 0.5, y=y - height, width=max(width - 1, 1), height=height,
        fill="none", stroke=inks.ink, stroke_width=1,
    )  # fmt: skip


def _pot(x: float, y: float, width: float, height: float, inks: Inks) -> str:
    ear = min(width * 0.08, 4.0)
    middle = y - height * 0.7
    ears = stroke(f"M{x:.1f} {middle:.1f} h{-ear / 2:.1f}", inks.ink)
    ears += stroke(f"M{x + width:.1f} {middle:.1f} h{ear / 2:.1f}", inks.ink)
    return _box(x, y, width, height, inks) + ears


def _tub(x: float, y: float, width: float, height: float, inks: Inks) -> str:
    path = (
        f"M{x:.1f} {y - height:.1f} H{x + width:.1f} "
        f"Q{x + width:.1f} {y:.1f} {x + width * 0.85:.1f} {y:.1f} "
        f"H{x + width * 0.15:.1f} Q{x:.1f} {y:.1f} {x:.1f} {y - height:.1f}"
    )
    return stroke(path, inks.ink)


def _glass(x: float, y: float, width: float, height: float, inks: Inks) -> str:
    path = (
        f"M{x + 0.05 * width:.1f} {y - height:.1f} L{x + 0.15 * width:.1f} {y:.1f} "
        f"H{x + 0.85 * width:.1f} L{x + 0.95 * width:.1f} {y - height:.1f}"
    )
    return stroke(path, inks.ink)


def _bottle(x: float, y: float, width: float, height: float, inks: Inks) -> str:
    neck, shoulder = 0.18 * width, y - 0.62 * height
    path = (
        f"M{x + width / 2 - neck:.1f} {y - height:.1f} V{y - 0.78 * height:.1f} "
        f"L{x + 0.06 * width:.1f} {shoulder:.1f} V{y:.1f} H{x + 0.94 * width:.1f} "
        f"V{shoulder:.1f} L{x + width / 2 + neck:.1f} {y - 0.78 * height:.1f} V{y - height:.1f} Z"
    )
    return stroke(path, inks.ink)


_DRAWN: Final[dict[str, Callable[[float, float, float, float, Inks], str]]] = {
    "sphere": _ball,
    "pot": _pot,
    "tub": _tub,
    "room": _box,
    "glass": _glass,
    "bottle": _bottle,
}
