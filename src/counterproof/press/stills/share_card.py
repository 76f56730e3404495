"""The picture that stands for the episode where a link to it is shared: Open Graph, 1200 × 630."""

from __future__ import annotations

from typing import Final

from counterproof.press import intervals
from counterproof.press.drawing import enlarged
from counterproof.press.outlines import Box
from counterproof.press.stills.plate import Cut, Plate
from counterproof.press.stills.subject import Copy
from counterproof.press.stills.total import draw_scale

WIDE: Final = 1200
HIGH: Final = 630
"""Size of the picture. [px] Common practice for og:image, 1.91 to 1; the Open Graph protocol
names no size."""

_CUT: Final = Cut(
    "wide", WIDE, HIGH, Box(72, 48, WIDE - 72, HIGH - 48),
    title=66, statement=44, text=34, small=28,
)  # fmt: skip


def plated(copy: Copy) -> Plate:
    """Return the picture on its plate.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    Plate
        Dish, total and interval.
    """
    plate = Plate(_CUT)
    cut, inks, edition = plate.cut, plate.inks, copy.edition
    left, right = cut.safe.left + 12, cut.safe.right - 12
    y = plate.paragraph(
        copy.title(),
        left,
        122,
        room=right - left,
        sizes=(72, 60, 50),
        most=2,
        style="serif",
    )
    what = copy.serving()
    y = plate.paragraph(
        what[0].upper() + what[1:], left, y + 58, room=right - left, sizes=(cut.text, 28),
        most=1, colour=inks.grey,
    )  # fmt: skip
    value = copy.value(edition.serving)
    y += 138
    digits = plate.write(value.middle, left - 4, y, size=150, style="serif")
    unit = plate.write(value.unit, digits.right + 20, y, size=52, style="serif")
    number = copy.number("serving")
    if number:
        plate.write(number, unit.right + 10, y - 26, size=30, colour=inks.blue)
    scale = intervals.common_scale([edition.serving], 5)
    top = y + 32
    place = {"left": left, "top": top, "width": right - left, "height": 60.0}
    draw_scale(copy, plate, scale, Box(left, top, right, top + 60))
    plate.draw(
        enlarged(
            intervals.mark(scale, edition.serving, edition.middle, "50%", inks), **place, times=2.6
        )
    )
    if not value.exact:
        words = copy.words("card.range", low=value.low, high=value.high)
        plate.paragraph(
            words, left, min(top + 148, cut.safe.bottom - 8), room=right - left,
            sizes=(cut.small,), most=1, colour=inks.grey,
        )  # fmt: skip
    return plate


def drawn(copy: Copy) -> str:
    """Return the picture.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    str
        SVG that needs nothing else.
    """
    return plated(copy).pulled(copy.title(), copy.serving())
