"""The total of one serving: one number, and the interval it stands in."""

from __future__ import annotations

from counterproof import numerals
from counterproof.press import intervals, outlines
from counterproof.press.drawing import enlarged
from counterproof.press.intervals import Scale
from counterproof.press.outlines import Box
from counterproof.press.stills.plate import Plate
from counterproof.press.stills.subject import Copy, Subject

_TIMES = 4.0
"""How many times as thick lines are as on a page. [1]"""


def subject(copy: Copy) -> Subject:
    """Return the still of the total.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    Subject
        One serving.
    """
    words, value = copy.words, copy.value(copy.edition.serving)
    what = copy.serving()
    between = _between(copy)
    told = {"what": what, "dish": copy.title(), "value": copy.amount(copy.edition.serving)}
    return Subject(
        "total",
        words("stills.total", what=what[0].upper() + what[1:]),
        words("stills.total alt", **told, between=between),
        words("stills.total spoken", dish=copy.title(), value=value.middle, between=between),
        ("serving",),
        lambda plate, field: _draw(copy, plate, field),
    )


def _between(copy: Copy) -> str:
    value = copy.value(copy.edition.serving)
    if value.exact:
        return copy.words("card.no range")
    return copy.words("card.range", low=value.low, high=value.high)


def _draw(copy: Copy, plate: Plate, field: Box) -> None:
    edition, cut = copy.edition, plate.cut
    value = copy.value(edition.serving)
    wide, room = field.right - field.left, field.bottom - field.top
    size = 400.0 if cut.upright else 350.0
    size *= min(
        1.0, (wide if cut.upright else 0.62 * wide) / outlines.width(value.middle, "serif", size)
    )
    y = field.top + 0.66 * size + (0.06 * room if cut.upright else 0.0)
    digits = plate.write(value.middle, field.left - 0.03 * size, y, size=size, style="serif")
    unit_y = y + 190 if cut.upright else y
    unit = plate.write(
        value.unit,
        field.left if cut.upright else digits.right + 40,
        unit_y,
        size=100,
        style="serif",
    )
    number = copy.number("serving")
    if number:
        plate.write(number, unit.right + 16, unit_y - 50, size=54, colour=plate.inks.blue)
    scale = intervals.common_scale([edition.serving], 6)
    high = 130.0
    top = unit_y + (0.14 * room if cut.upright else 76)
    draw_scale(copy, plate, scale, Box(field.left, top, field.right, top + high))
    mark = intervals.mark(scale, edition.serving, edition.middle, "50%", plate.inks)
    plate.draw(enlarged(mark, left=field.left, top=top, width=wide, height=high, times=_TIMES))
    plate.paragraph(
        _between(copy), field.left, top + high + 3.5 * cut.small, room=wide, sizes=(cut.text,),
        most=3, colour=plate.inks.grey,
    )  # fmt: skip


def draw_scale(
    copy: Copy, plate: Plate, scale: Scale, place: Box, *, rules: bool = True, labels: bool = True
) -> None:
    """Put the upright rules of a scale on a plate, the numbers of its ticks below them.

    Parameters
    ----------
    copy : Copy
        For the language's figures.
    plate : Plate
        The plate.
    scale : Scale
        The scale.
    place : Box
        Where the rules stand. [px]
    rules : bool
        Whether the rules are drawn.
    labels : bool
        Whether the ticks have numbers.
    """
    wide = place.right - place.left
    if rules:
        drawn = enlarged(
            intervals.rules(scale, plate.inks), left=place.left, top=place.top, width=wide,
            height=place.bottom - place.top, times=2,
        )  # fmt: skip
        plate.draw(drawn, place.grown(24, 12))
    for tick in scale.ticks if labels else ():
        told = numerals.number(tick, scale.decimals if tick else 0)
        plate.write(
            copy.words.figure(told), place.left + scale.share(tick) * wide,
            place.bottom + 1.15 * plate.cut.small, size=plate.cut.small, colour=plate.inks.grey,
            anchor="middle",
        )  # fmt: skip
