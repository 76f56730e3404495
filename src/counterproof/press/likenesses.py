"""Likenesses drawn to scale: balloons, pots or bottles beside the height of a person."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
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
_STAFF: Final = 0.9  # room for the person's height [m]
_SIGN: Final = 6.6  # mean width of a sign of the words below a pile [px]
_LEAST: Final = 4.0  # length of a metre below which nothing more is gained [px]
_FOOT: Final = 54.0  # room for words under the ground line [px]
_HEAD: Final = 30.0  # room over the highest thing [px]


@dataclass(frozen=True, slots=True)
class Scene:
    """Things on one ground, to one scale, without words.

    Parameters
    ----------
    drawn : str
        SVG.
    metre : float
        What a metre is. [px]
    ground : float
        Height of the ground line below the top. [px]
    person : float
        Where the person's staff stands. [px]
    piles : tuple of (float, float)
        Where each pile begins and ends. [px]
    """

    drawn: str
    metre: float
    ground: float
    person: float
    piles: tuple[tuple[float, float], ...]


def to_one_scale(
    seen: Sequence[Seen], width: float, height: float, least: float, inks: Inks = SHEET
) -> Scene:
    """Likenesses beside a person's height, as large as a place allows.

    Parameters
    ----------
    seen : sequence of Seen
        What is drawn, from left to right; each has a shape and a size.
    width, height : float
        Of the place, > 0. [px]
    least : float
        Room that the words under each pile need, at most `width` over their number. [px]
    inks : Inks
        Colours and face.

    Returns
    -------
    Scene
        In which a metre is the same length everywhere.

    Raises
    ------
    ValueError
        If something has no shape.
    """
    piles = [_pile(one) for one in seen]
    tallest = max(PERSON, *(rows * one.size[1] for one, (_, rows) in zip(seen, piles, strict=True)))
    metre = height / tallest
    while _STAFF * metre + sum(_rooms(seen, piles, metre, least)) > width:
        metre *= 0.98
    ground = tallest * metre
    made = [_staff(0.35 * metre, ground, metre, inks)]
    left = _STAFF * metre
    places = []
    rooms = _rooms(seen, piles, metre, least)
    for one, (columns, rows), room in zip(seen, piles, rooms, strict=True):
        for at in range(_number(one)):
            x = left + (at // rows) * one.size[0] * metre
            y = ground - (at % rows) * one.size[1] * metre
            made.append(_DRAWN[one.shape](x, y, one.size[0] * metre, one.size[1] * metre, inks))
        places.append((left, left + columns * one.size[0] * metre))
        left += room
    return Scene("".join(made), metre, ground, 0.35 * metre, tuple(places))


def _rooms(
    seen: Sequence[Seen], piles: Sequence[tuple[int, int]], metre: float, least: float
) -> list[float]:
    """From the beginning of each pile to the next; the last one to its own end."""
    wide = [columns * one.size[0] * metre for one, (columns, _) in zip(seen, piles, strict=True)]
    apart = [max(width + _GAP * metre, least) for width in wide[:-1]]
    return [*apart, max(wide[-1], least)]


def to_scale(
    seen: Sequence[Seen],
    title: str,
    inks: Inks = SHEET,
    *,
    names: Sequence[str] = (),
    fluid: bool = False,
) -> str:
    """One likeness, or a pair of them, drawn to one scale beside a person's height.

    Parameters
    ----------
    seen : sequence of Seen
        What is drawn, from left to right; each has a shape and a size.
    title : str
        What the drawing is about, for readers and screen readers.
    inks : Inks
        Colours and face.
    names : sequence of str
        What each of them stands for, where that has to be said.
    fluid : bool
        Whether it takes the width of its place instead of its own.

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
    tallest = max(PERSON, *(rows * one.size[1] for one, (_, rows) in zip(seen, piles, strict=True)))
    metre = 260.0
    while (
        metre > _LEAST and 20.0 + _STAFF * metre + sum(_places(seen, piles, metre)) > WIDTH - 20.0
    ):
        metre *= 0.97
    ground = _HEAD + tallest * metre
    foot = _FOOT + (18.0 if names else 0.0)
    made = [_person(ground, metre, inks)]
    left = 20.0 + _STAFF * metre
    said = ""
    things: dict[str, str] = {}
    for at, name in enumerate(names):
        x = left + sum(_places(seen, piles, metre)[:at])
        made.append(label(name, f"{x:.1f}", ground + 20, colour=inks.ink, face=inks.face, size=13, anchor="start"))  # fmt: skip
    lead = 18.0 if names else 0.0
    for one, (_, rows), place in zip(seen, piles, _places(seen, piles, metre), strict=True):
        wide, high = one.size[0] * metre, one.size[1] * metre
        spots = [
            (left + (at // rows) * wide, ground - (at % rows) * high) for at in range(_number(one))
        ]
        if fluid:  # drawn once and used again, since a page is to be light
            thing = f"{one.kind.replace(' ', '-')}-to-scale"
            things[thing] = tag("g", _DRAWN[one.shape](0.0, 0.0, wide, high, inks), id=thing)
            made += [tag("use", href=f"#{thing}", x=x, y=y) for x, y in spots]
        else:
            made += [_DRAWN[one.shape](x, y, wide, high, inks) for x, y in spots]
        made.append(
            label(
                one.words,
                f"{left:.1f}",
                ground + lead + 20,
                colour=inks.grey if names else inks.ink,
                face=inks.face,
                size=13,
                anchor="start",
            )
        )
        if one.conditions[0] != said:
            said = one.conditions[0]
            made.append(
                label(
                    said,
                    f"{left:.1f}",
                    ground + lead + 38,
                    colour=inks.grey,
                    face=inks.face,
                    anchor="start",
                )
            )
        left += place
    made.append(hairline("10", f"{ground:.1f}", f"{WIDTH - 10:.0f}", f"{ground:.1f}", inks.ink))
    once = tag("defs", "".join(things.values())) if things else ""
    return framed(
        once + "".join(made),
        title=title,
        description="; ".join(one.sentence for one in seen)
        + f" Drawn to scale beside a person of {PERSON} m.",
        width="100%" if fluid else WIDTH,
        height=ground + foot,
        view_box=f"0 0 {WIDTH:.0f} {ground + foot:.0f}" if fluid else None,
    )


def _places(seen: Sequence[Seen], piles: Sequence[tuple[int, int]], metre: float) -> list[float]:
    """Widths of the places that piles take, each wide enough for its words. [px]"""
    return [
        max((columns * one.size[0] + _GAP) * metre, _SIGN * len(one.words) + 18.0)
        for one, (columns, _) in zip(seen, piles, strict=True)
    ]


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
    """A height, not a portrait, with its words."""
    x = 20.0 + 0.35 * metre
    words = label(
        f"{PERSON} m", f"{x:.1f}", ground - PERSON * metre - 8, colour=inks.blue, face=inks.face,
        anchor="middle",
    )  # fmt: skip
    return _staff(x, ground, metre, inks) + words


def _staff(x: float, ground: float, metre: float, inks: Inks) -> str:
    """A staff with a mark at head and foot."""
    top = ground - PERSON * metre
    marks = "".join(
        hairline(f"{x - 8:.1f}", f"{y:.1f}", f"{x + 8:.1f}", f"{y:.1f}", inks.blue)
        for y in (top, ground)
    )
    return marks + hairline(f"{x:.1f}", f"{top:.1f}", f"{x:.1f}", f"{ground:.1f}", inks.blue)


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
