"""Printer's hatching: one pattern for each life-cycle stage or fate, told apart without colour.

Neighbours in the life cycle differ in direction as well as in tone, so that a strip still reads
when it is photocopied.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from counterproof.draws import Range
from counterproof.numerals import middle_value
from counterproof.press.drawing import PAGE, Inks, framed, hairline, rounded, tag
from counterproof.rows import STAGES

STRIP_HEIGHT = 26.0
PACK_HEIGHT = 18.0
"""Heights of a strip of stages and of one of packs, of which two stand together. [px]"""

_CELLS: dict[str, tuple[float, str]] = {
    # stage → side of the cell [px], strokes inside it
    # (where a stroke crosses the edge of its cell, the neighbour's end of it is drawn too)
    "production": (5, "M-1 6 L6 -1 M-1 1 L1 -1 M4 6 L6 4"),
    "processing": (6, "M-1 3 L7 3"),
    "packaging": (7, "M-1 -1 L8 8 M-1 8 L8 -1 M-1 6 L1 8 M6 -1 L8 1 M-1 1 L1 -1 M6 8 L8 6"),
    "transport": (4, "M2 -1 L2 5"),
    "retail": (6, "M1.5 1.5 h.01 M4.5 4.5 h.01"),
    "home storage": (8, "M-1 -1 L9 9 M-1 7 L1 9 M7 -1 L9 1"),
    "cooking": (5, "M-1 2.5 L6 2.5 M2.5 -1 L2.5 6"),
    "end of life": (9, "M4.5 2 a2.5 2.5 0 1 0 .01 0"),
    # fate of a pack → the same
    "recycled": (8, "M0 3 L4 7 L8 3"),
    "combusted": (6, "M1.5 0 L1.5 4 M4.5 2 L4.5 6"),
    "landfilled": (6, "M0 1.5 L4 1.5 M2 4.5 L6 4.5"),
    "composted": (8, "M2 4 L6 4 M4 2 L4 6"),
    "digested": (8, "M2 2 L6 2 L6 6 L2 6 Z"),
}
_WEIGHTS = {"production": 1.5, "retail": 1.7, "transport": 1.2}
_PRINTED = {
    # the same idea where a line of type is all there is
    "production": "/",
    "processing": "=",
    "packaging": "x",
    "transport": "|",
    "retail": ":",
    "home storage": "\\",
    "cooking": "#",
    "end of life": "o",
    "recycled": "v",
    "combusted": "!",
    "landfilled": "-",
    "composted": "+",
    "digested": "%",
}


def letter(stage: str) -> str:
    """Return the character that stands for a hatching in plain type.

    Parameters
    ----------
    stage : str
        A life-cycle stage of `rows.STAGES` or a fate of `life_cycle_rows.FATES`.

    Returns
    -------
    str
        One character.
    """
    return _PRINTED.get(stage, "?")


def pattern_name(stage: str) -> str:
    """Return the name under which a drawing refers to a stage's pattern.

    Parameters
    ----------
    stage : str
        A life-cycle stage of `rows.STAGES`.

    Returns
    -------
    str
        A name that is the same in every drawing.
    """
    return f"hatching-{stage.replace(' ', '-')}"


def patterns(inks: Inks = PAGE, names: Iterable[str] = STAGES, times: float = 1.0) -> str:
    """Return the definitions of every stage's pattern, once for a page or a drawing.

    Parameters
    ----------
    inks : Inks
        Colours and face.
    names : iterable of str
        Stages, or fates of packs.
    times : float
        How many times as coarse as on a page, > 0. [1]

    Returns
    -------
    str
        SVG.
    """
    made = []
    for stage in names:
        side, strokes = _CELLS[stage]
        drawn = tag(
            "path",
            d=strokes,
            fill="none",
            stroke=inks.ink,
            stroke_width=_WEIGHTS.get(stage, 1),
            stroke_linecap="round" if stage == "retail" else None,
        )
        made.append(
            tag(
                "pattern",
                drawn,
                id=pattern_name(stage),
                width=side,
                height=side,
                patternUnits="userSpaceOnUse",
                patternTransform=None if times == 1.0 else f"scale({times:g})",
            )
        )
    return tag("defs", "".join(made))


def swatch(stage: str, inks: Inks = PAGE) -> str:
    """Return a small hatched field for the key.

    Parameters
    ----------
    stage : str
        A life-cycle stage of `rows.STAGES` or a fate of `life_cycle_rows.FATES`.
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG.
    """
    return tag(
        "svg",
        _field("0.5", "23", stage, inks, height=13),
        xmlns="http://www.w3.org/2000/svg",
        class_="swatch",
        width=24,
        height=14,
        aria_hidden="true",
    )


@dataclass(frozen=True, slots=True)
class Field:
    """A stage's place on a strip, as shares of its length."""

    stage: str
    start: float
    width: float


def stage_fields(
    stages: tuple[tuple[str, Range], ...], middle: str
) -> tuple[tuple[Field, ...], float]:
    """Return the fields of a strip, each as wide as its stage's middle value, and where zero is.

    Parameters
    ----------
    stages : tuple of (str, Range)
        Stages in life-cycle order. [kg CO2e]
    middle : str
        "mean" or "median".

    Returns
    -------
    tuple
        Fields and the place of zero, as shares of the strip's length. Stages below zero stand
        left of it, the last of them outermost. No field where no stage has a value.
    """
    values = [(stage, middle_value(value, middle)) for stage, value in stages]
    below = -sum(value for _, value in values if value < 0)
    whole = below + sum(value for _, value in values if value > 0)
    if whole <= 0:
        return (), 0.0
    left = right = below
    fields = []
    for stage, value in values:
        if value < 0:
            left += value
        fields.append(Field(stage, (left if value < 0 else right) / whole, abs(value) / whole))
        right += max(value, 0.0)
    return tuple(fields), below / whole


def stage_strip(
    stages: tuple[tuple[str, Range], ...],
    middle: str,
    *,
    title: str,
    description: str,
    inks: Inks = PAGE,
    defined: bool = False,
) -> str:
    """Return one serving as a hatched strip, as wide as its place; nothing without a value.

    Parameters
    ----------
    stages : tuple of (str, Range)
        Stages in life-cycle order. [kg CO2e]
    middle : str
        "mean" or "median".
    title, description : str
        What it shows, in words.
    inks : Inks
        Colours.
    defined : bool
        Whether the page holds the patterns already, in another drawing.

    Returns
    -------
    str
        SVG, with the patterns that the key's swatches use as well. Where a stage lies below
        zero, zero is drawn as an upright rule across the strip.
    """
    fields, zero = stage_fields(stages, middle)
    if not fields:
        return ""
    drawn = "".join(
        _field(_share(field.start), _share(field.width), field.stage, inks) for field in fields
    )
    rule = hairline(_share(zero), "-5", _share(zero), "32", inks.ink) if zero else ""
    return framed(
        ("" if defined else patterns(inks)) + drawn + rule,
        title=title,
        description=description,
        height=STRIP_HEIGHT + 1,
        css_class="strip",
    )


def fate_strip(fates: Sequence[tuple[str, float]], inks: Inks = PAGE) -> str:
    """Return hatched fields end to end, for a strip that others are set against.

    Parameters
    ----------
    fates : sequence of (str, float)
        Fates of `life_cycle_rows.FATES` with the width of each. [share of the drawing]
    inks : Inks
        Colours and face.

    Returns
    -------
    str
        SVG elements with the patterns they need.
    """
    made = [patterns(inks, [name for name, _ in fates])]
    start = 0.0
    for name, width in fates:
        made.append(_field(_share(start), _share(width), name, inks, height=PACK_HEIGHT))
        start += width
    return "".join(made)


def upright_field(
    stage: str, box: tuple[float, float, float, float], inks: Inks, weight: float
) -> str:
    """Return a hatched field of an upright strip, on paper of its own.

    Parameters
    ----------
    stage : str
        A stage or fate, its pattern defined in the same drawing.
    box : tuple of float
        Left, top, width and height. [px]
    inks : Inks
        Colours.
    weight : float
        Of the line around it, > 0. [px]

    Returns
    -------
    str
        SVG.
    """
    left, top, width, height = box
    place = {"x": left, "y": top, "width": width, "height": height}
    return tag("rect", "", **place, fill=inks.paper) + tag(
        "rect",
        "",
        **place,
        fill=f"url(#{pattern_name(stage)})",
        stroke=inks.ink,
        stroke_width=weight,
    )


def _share(part: float) -> str:
    return f"{rounded(100 * part)}%"


def _field(x: str, width: str, stage: str, inks: Inks, height: float = STRIP_HEIGHT) -> str:
    return tag(
        "rect",
        x=x,
        y=0.5,
        width=width,
        height=height,
        fill=f"url(#{pattern_name(stage)})",
        stroke=inks.ink,
        stroke_width=1,
        class_="field",
    )
