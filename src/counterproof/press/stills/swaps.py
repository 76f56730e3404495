"""The recipe beside its versions and what is bought instead, on shared draws and one scale."""

from __future__ import annotations

from dataclasses import dataclass, replace

from counterproof import numerals
from counterproof.press import intervals, outlines
from counterproof.press.drawing import enlarged, rounded
from counterproof.press.figures import derived, lower_in
from counterproof.press.intervals import Scale
from counterproof.press.outlines import Box
from counterproof.press.side_by_side import totals_apart
from counterproof.press.stills.plate import Plate
from counterproof.press.stills.stages import edition_unit, fraction
from counterproof.press.stills.subject import NUMBER_ROOM, Copy, Subject, numbered
from counterproof.press.stills.total import draw_scale
from counterproof.proof import VersionProof

_AIRY, _AIRY_UPRIGHT = 94.0, 150.0
"""Height of a row from which its words stand below its interval, wide and upright. [px]"""

_TIMES = 4.0
_SECOND_LINE = 2.2  # room below a line of words from which a second one fits [type sizes]


@dataclass(frozen=True, slots=True)
class Row:
    """One version's words."""

    version: VersionProof
    name: str
    key: str
    value: str
    apart: bool
    phrases: tuple[str, ...]  # in full
    short: str
    why: str  # why it stands on no common scale, in one line; "" where it does
    why_short: str = ""
    hang: float = 0.0  # how far its digits reach behind the column's decimal sign [type sizes]


def subject(copy: Copy) -> Subject | str:
    """Return the still of the swaps.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    Subject or str
        The still, or why there is none.
    """
    words, dish = copy.words, copy.title()
    rows = [_row(copy, version) for version in copy.edition.versions]
    if not rows:
        return words("stills.no versions")
    only_bought = all(row.version.name in {"as written", "bought"} for row in rows)
    told = " ".join(
        words(
            "stills.compare row against",
            version=row.name,
            value=row.value,
            against=", ".join((*row.phrases, *([row.why] if row.why else ()))),
        )
        if row.phrases
        else words("stills.compare row", version=row.name, value=row.value)
        for row in rows
    )
    sets = dict.fromkeys(row.version.factor_set for row in rows if row.version.factor_set)
    keys = [key for row in rows for key in _keys(row)]
    return Subject(
        "swaps",
        words("stills.compare bought" if only_bought else "stills.compare"),
        " ".join(
            (words("stills.compare alt", dish=dish, told=told),
             *(words("stills.compare set", set=copy.letters(name)) for name in sets))
        ),
        _spoken(copy, rows),
        tuple(key for key in keys if copy.number(key)),
        lambda plate, field: _draw(copy, plate, field, rows),
    )  # fmt: skip


def _keys(row: Row) -> tuple[str, ...]:
    name = row.version.name
    return (row.key,) if row.key == "serving" else (row.key, f"ratio:{name}", f"share:{name}")


def _row(copy: Copy, version: VersionProof) -> Row:
    edition, words = copy.edition, copy.words
    own = version.difference is None and version.ratio is None and version.name == "as written"
    key = "serving" if own else f"serving:{version.name}"
    apart = version.difference is not None and bool(
        totals_apart(version.serving, edition.serving, version.difference)
    )
    phrases, short = [], []
    ratio = derived(edition, f"ratio:{version.name}")
    if ratio is not None:
        told = words.figure(numerals.plain(ratio.value.mean))
        phrases.append(words("stills.times", ratio=told))
        short.append(words("stills.times short", ratio=told))
    if version.share_lower is not None:
        phrases.append(lower_in(words, version.share_lower))
        short.append(words.told(numerals.percent(version.share_lower)))
    # On a common still a total of other factors would be read against the recipe's: none is shown.
    value = numerals.DASH if apart else copy.value(version.serving).middle
    return Row(
        version, copy.version(version.name), "" if apart else key, value, apart,
        tuple(phrases), " · ".join(short),
        words("stills.apart") if apart else "",
        words("stills.apart short") if apart else "",
    )  # fmt: skip


def _spoken(copy: Copy, rows: list[Row]) -> str:
    """Of the version that is furthest from the recipe, by its ratio."""
    told = [row for row in rows if row.version.share_lower is not None]
    if not told:
        return copy.words("stills.compare row", version=rows[0].name, value=rows[0].value)
    row = max(told, key=lambda one: abs((one.version.ratio or 1.0) - 1.0))
    share = lower_in(copy.words, row.version.share_lower or 0.0)
    if row.version.ratio is None:
        return copy.words(
            "stills.compare spoken share", dish=copy.title(), version=row.name, share=share
        )
    return copy.words(
        "stills.compare spoken",
        dish=copy.title(),
        version=row.name,
        ratio=row.phrases[0],
        share=share,
    )


def _draw(copy: Copy, plate: Plate, field: Box, rows: list[Row]) -> None:
    cut = plate.cut
    scale = intervals.common_scale(
        [row.version.serving for row in rows if not row.apart], 4 if cut.upright else 5
    )
    axis = (2.9 if cut.upright else 1.7) * cut.small
    room = field.bottom - field.top - axis
    airy = room / len(rows) >= (_AIRY_UPRIGHT if cut.upright else _AIRY)
    top = field.top + (0.0 if airy else 1.5 * cut.small)
    high = min((room - (top - field.top)) / len(rows), 290.0 if cut.upright else 205.0)
    bottom = top + high * len(rows)
    lay = _airy if airy else _tight_upright if cut.upright else _tight
    left, right = _scale_ends(plate, field, airy=airy)
    place = Box(left, top, right, bottom)
    draw_scale(copy, plate, scale, place, rules=False)
    if not airy:
        plate.write(
            copy.words("stills.heading"), field.right, field.top + 0.4 * cut.small, size=cut.small,
            colour=plate.inks.grey, anchor="end",
        )  # fmt: skip
    plate.write(edition_unit(copy), field.right, bottom + axis - 0.55 * cut.small, size=cut.small, colour=plate.inks.grey, anchor="end")  # fmt: skip
    plate.draw("", Box(field.left, field.top - 10, field.right + 24, bottom + axis))
    longest = max(fraction(row.value, 1.0) for row in rows)
    hung = [replace(row, hang=longest - fraction(row.value, 1.0)) for row in rows]
    for at, row in enumerate(hung):
        if at and (airy or cut.upright):
            y = rounded(top + at * high + 5)
            plate.line(f"M{rounded(field.left)} {y} H{rounded(field.right)}", plate.inks.hair, 1.5)
        lay(copy, plate, Box(field.left, top + at * high, field.right, top + (at + 1) * high), place, scale, row)  # fmt: skip


def _scale_ends(plate: Plate, field: Box, *, airy: bool) -> tuple[float, float]:
    """Where the common scale begins and ends."""
    wide = field.right - field.left
    if plate.cut.upright:
        return field.left, field.left + (0.94 if airy else 0.56) * wide
    return field.left + (0.27 if airy else 0.22) * wide, field.left + (
        0.83 if airy else 0.56
    ) * wide


def _interval(plate: Plate, row: Row, place: Box, y: float, scale: Scale, middle: str) -> None:
    if row.apart:
        size, room = plate.cut.small, place.right - place.left
        fits = outlines.width(row.why, "sans italic", size) <= room
        words = row.why if fits else row.why_short
        plate.paragraph(words, place.left, y + 0.3 * size, room=room, sizes=(size,), most=1,
                        style="sans italic", colour=plate.inks.grey)  # fmt: skip
        return
    drawn = intervals.dot(scale, row.version.serving, middle, "50%", plate.inks)
    wide = place.right - place.left
    plate.draw(enlarged(drawn, left=place.left, top=y - 20, width=wide, height=40, times=_TIMES))


def _name(plate: Plate, row: Row, x: float, y: float, room: float, size: float) -> None:
    sizes = (size, 0.9 * size, max(0.8 * size, 38.0))
    plate.paragraph(row.name, x, y, room=room, sizes=sizes, most=1, style="serif")


def _airy(copy: Copy, plate: Plate, own: Box, place: Box, scale: Scale, row: Row) -> None:
    """Name and value on one line, the interval between or below them, the words under it."""
    cut, middle = plate.cut, copy.edition.middle
    close = min((own.bottom - own.top) / (200.0 if cut.upright else 150.0), 1.0)
    size = max(1.1 * cut.text * close, cut.small)
    half = 30.0 * close
    y = own.top + size + (14.0 if close == 1.0 else 2.0)
    value = numbered(
        plate, row.value, copy.number(row.key), own.right - row.hang * size, y, size=size
    )
    room = (value.left if cut.upright else place.left) - 30 - own.left
    _name(plate, row, own.left, y, room, size)
    level = y + 62 * close if cut.upright else y - 0.3 * size
    _rules(copy, plate, row, _band(place, level, half), scale)
    _interval(plate, row, place, level, scale, middle)
    if row.phrases:
        _phrases(copy, plate, row, own, level + half + cut.small)


def _band(place: Box, y: float, half: float) -> Box:
    return Box(place.left, y - half, place.right, y + half)


def _rules(copy: Copy, plate: Plate, row: Row, band: Box, scale: Scale) -> None:
    """The rules of the common scale behind one interval."""
    if not row.apart:
        draw_scale(copy, plate, scale, band, labels=False)


def _phrases(copy: Copy, plate: Plate, row: Row, own: Box, y: float) -> None:
    """The words under an interval, with the short number of the ratio behind them."""
    cut = plate.cut
    number = copy.number(f"ratio:{row.version.name}") or copy.number(f"share:{row.version.name}")
    room = own.right - own.left - NUMBER_ROOM * cut.small
    most = 2 if own.bottom - y > _SECOND_LINE * cut.small else 1
    sizes = (0.92 * cut.text, cut.small) if own.bottom - y > cut.small else (cut.small,)
    words = ", ".join(row.phrases)
    if most == 1 and outlines.width(words, "sans", cut.small) > room:
        words = ", ".join((row.short.partition(" · ")[0], *row.phrases[1:]))
    size, lines = outlines.fitted(words, "sans", sizes, room, most)
    box = None
    for at, line in enumerate(lines):
        box = plate.write(line, own.left, y + at * 1.15 * size, size=size, colour=plate.inks.grey)
    if number and box is not None:
        last = y + (len(lines) - 1) * 1.15 * size
        plate.write(number, box.right + 0.2 * size, last - 0.3 * size, size=cut.small, colour=plate.inks.blue)  # fmt: skip


def _tight(copy: Copy, plate: Plate, own: Box, place: Box, scale: Scale, row: Row) -> None:
    """Everything on one line: name, interval, value, ratio and share."""
    size = plate.cut.small
    y = (own.top + own.bottom) / 2 + 0.34 * size
    _name(plate, row, own.left, y, place.left - own.left - 24, size)
    half = 0.36 * (own.bottom - own.top)
    _rules(copy, plate, row, _band(place, y - 0.32 * size, half), scale)
    _interval(plate, row, place, y - 0.32 * size, scale, copy.edition.middle)
    value_at = place.right + 0.38 * (own.right - place.right)
    numbered(plate, row.value, copy.number(row.key), value_at - row.hang * size, y, size=size)
    if row.short:
        _short(copy, plate, row, own.right, y)


def _tight_upright(copy: Copy, plate: Plate, own: Box, place: Box, scale: Scale, row: Row) -> None:
    """Two lines: name and value; interval, ratio and share."""
    size = plate.cut.small
    y = own.top + 0.95 * size
    value = numbered(
        plate, row.value, copy.number(row.key), own.right - row.hang * size, y, size=size
    )
    _name(plate, row, own.left, y, value.left - own.left - 24, size)
    lower = y + 1.05 * size
    _rules(copy, plate, row, _band(place, lower - 0.3 * size, 0.42 * size), scale)
    _interval(plate, row, place, lower - 0.3 * size, scale, copy.edition.middle)
    if row.short:
        _short(copy, plate, row, own.right, lower)


def _short(copy: Copy, plate: Plate, row: Row, x: float, y: float) -> None:
    size = plate.cut.small
    number = copy.number(f"ratio:{row.version.name}") or copy.number(f"share:{row.version.name}")
    room = NUMBER_ROOM * size if number else 0.0
    box = plate.write(row.short, x - room, y, size=size, colour=plate.inks.grey, anchor="end")
    if number:
        plate.write(number, box.right + 0.18 * size, y - 0.35 * size, size=size, colour=plate.inks.blue)  # fmt: skip
