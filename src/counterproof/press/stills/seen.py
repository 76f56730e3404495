"""One serving as things people can see, to one scale beside a person's height."""

from __future__ import annotations

import re

from counterproof import numerals
from counterproof.forme import Likened
from counterproof.press.drawing import rounded, tag
from counterproof.press.likenesses import PERSON, to_one_scale
from counterproof.press.outlines import Box
from counterproof.press.stills.plate import Plate
from counterproof.press.stills.subject import Copy, Subject

_TIMES = 3.0
_POTS = re.compile(r"pots of (?P<litres>[\d.]+) litres")
_NARROW, _BROAD = 390.0, 640.0  # least room for a pile's words, upright and wide [px]


def subject(copy: Copy) -> Subject | str:
    """Return the still of the likenesses.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    Subject or str
        The still, or why there is none.
    """
    words, likened = copy.words, copy.forme.likened
    if not likened:
        return words("stills.no likeness")
    dish = copy.title()
    told = "; ".join(
        words("stills.likened version", version=copy.version(one.version), count=_count(copy, one))
        if one.version
        else words("stills.likened one", dish=dish, count=_count(copy, one))
        for one in likened
    )
    note = words("stills.likened note", celsius=words.figure(f"{likened[0].celsius:.0f}"))
    person = words.figure(f"{PERSON}")
    return Subject(
        "likenesses",
        words("stills.likened"),
        words("stills.likened alt", person=person, told=told, gas=note),
        words("stills.likened spoken", dish=dish, count=_count(copy, likened[0])),
        tuple(one.key for one in likened),
        lambda plate, field: _draw(copy, plate, field, likened, note),
    )


def _count(copy: Copy, one: Likened) -> str:
    """Count and thing, in this language where it has the thing's name."""
    seen, words = one.seen, copy.words
    count = words.figure(numerals.shown(seen.count, copy.edition.middle, "").middle)
    pots = _POTS.fullmatch(seen.names)
    names = (
        words("likenesses.pots", litres=words.figure(pots["litres"]))
        if pots
        else words.named("likenesses", seen.names)
    )
    return words("stills.about", count=count, names=names)


def _draw(copy: Copy, plate: Plate, field: Box, likened: tuple[Likened, ...], note: str) -> None:
    cut, inks = plate.cut, plate.inks
    lines = 3 if cut.upright else 2
    words_high = (1.3 + 1.2 * lines) * cut.text
    note_lines = 3 if cut.upright else 1
    high = field.bottom - field.top - words_high - (note_lines + 0.8) * 1.2 * cut.small - cut.small
    wide = field.right - field.left
    least = min(_NARROW if cut.upright else _BROAD, 0.8 * wide / len(likened))
    scene = to_one_scale(
        [one.seen for one in likened], wide / _TIMES, high / _TIMES, least / _TIMES, inks
    )
    top = (
        field.top
        + cut.small
        + max(0.0, high - _TIMES * scene.ground) * (0.8 if cut.upright else 1.0)
    )
    ground = top + _TIMES * scene.ground
    moved = f"translate({rounded(field.left)} {rounded(top)}) scale({_TIMES:g})"
    plate.draw(
        tag("g", scene.drawn, transform=moved),
        Box(field.left, top, field.right, ground).grown(24, 20),
    )
    plate.line(f"M{rounded(field.left)} {rounded(ground)} H{rounded(field.right)}", weight=2.5)
    staff = field.left + _TIMES * scene.person
    plate.write(
        f"{copy.words.figure(f'{PERSON}')}{numerals.SPACE}m", staff,
        ground - _TIMES * PERSON * scene.metre - 0.45 * cut.small, size=cut.small, colour=inks.blue,
        anchor="middle",
    )  # fmt: skip
    starts = [field.left + _TIMES * start for start, _ in scene.piles]
    ends = [*(start - 30 for start in starts[1:]), field.right]
    for one, left, right in zip(likened, starts, ends, strict=True):
        y = ground + 1.5 * cut.text
        plate.paragraph(copy.version(one.version), left, y, room=right - left, sizes=(cut.text, 38.0),
                        most=1, style="serif")  # fmt: skip
        size = 0.95 * cut.text
        number = copy.number(one.key)
        last = plate.paragraph(_count(copy, one), left, y + 1.2 * cut.text,
                               room=right - left - 2 * cut.small, sizes=(size, 38.0), most=lines,
                               style="sans semibold")  # fmt: skip
        if number:
            end = plate.written[-1].box.right
            plate.write(number, end + 0.18 * cut.small, last - 0.35 * size, size=cut.small, colour=inks.blue)  # fmt: skip
    plate.paragraph(
        note, field.left, field.bottom - (note_lines - 1) * 1.22 * cut.small, room=wide,
        sizes=(cut.small,), most=note_lines, colour=inks.grey,
    )  # fmt: skip
