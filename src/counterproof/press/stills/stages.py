"""Where one serving comes from: an upright strip of hatched stages, leaders to their names."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from counterproof.press import hatching, outlines
from counterproof.press.drawing import rounded
from counterproof.press.outlines import Box
from counterproof.press.stills.plate import Plate
from counterproof.press.stills.subject import Copy, Subject, numbered

COARSE = 3.0
"""How many times as coarse the hatching is as on a page. [1]"""


@dataclass(frozen=True, slots=True)
class Entry:
    """One field's words beside the strip."""

    name: str
    told: str
    number: str
    middle: float  # height of the middle of its field [px]
    below: str = ""  # in place of a number at the column's end: words under the name


def subject(copy: Copy) -> Subject | str:
    """Return the still of the stages.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    Subject or str
        The still, or why there is none.
    """
    edition, words = copy.edition, copy.words
    fields, _ = hatching.stage_fields(edition.stages, edition.middle)
    if not fields:
        return words("stills.no stages")
    told = "; ".join(
        f"{words.named('stages', stage)} {copy.value(value).middle}"
        for stage, value in edition.stages
    )
    largest = max(fields, key=lambda field: field.width).stage
    name = words.named("stages", largest)
    value = copy.amount(dict(edition.stages)[largest])
    return Subject(
        "stages",
        words("stills.stages"),
        words("stills.stages alt", dish=copy.title(), told=told),
        words("stills.stages spoken", dish=copy.title(), stage=name, value=value),
        tuple(f"stage:{stage}" for stage, _ in edition.stages),
        lambda plate, field: _draw(copy, plate, field),
    )


def _draw(copy: Copy, plate: Plate, field: Box) -> None:
    edition, cut = copy.edition, plate.cut
    unit = edition_unit(copy)
    plate.write(unit, field.right, field.top + 0.7 * cut.small, size=cut.small, colour=plate.inks.grey, anchor="end")  # fmt: skip
    top, bottom = field.top + 1.6 * cut.small, field.bottom
    strip = 190.0 if cut.upright else 330.0
    fields, zero = hatching.stage_fields(edition.stages, edition.middle)
    names = [one.stage for one in fields]
    plate.draw(hatching.patterns(plate.inks, names, COARSE), Box(field.left, top, field.left + strip, bottom).grown(24, 16))  # fmt: skip
    high = bottom - top
    places = {one.stage: one for one in fields}
    for one in fields:
        box = (field.left, top + one.start * high, strip, one.width * high)
        plate.draw(hatching.upright_field(one.stage, box, plate.inks, 2.5))
    if zero:
        y = rounded(top + zero * high)
        plate.line(f"M{rounded(field.left - 20)} {y} H{rounded(field.left + strip + 20)}")
    entries = [
        Entry(
            copy.words.named("stages", stage),
            copy.value(value).middle,
            copy.number(f"stage:{stage}"),
            top + (places[stage].start + places[stage].width / 2) * high,
        )
        for stage, value in edition.stages
        if stage in places
    ]
    led(plate, entries, Box(field.left + strip, top, field.right, bottom))


def edition_unit(copy: Copy) -> str:
    """Return the unit of a column of footprints.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    str
        Such as "kg CO₂e".
    """
    return copy.value(copy.edition.serving).unit


def led(plate: Plate, entries: Sequence[Entry], place: Box) -> None:
    """Put words beside an upright strip, a leader from each field to its words.

    Parameters
    ----------
    plate : Plate
        The plate.
    entries : sequence of Entry
        From top to bottom by the middles of their fields, or nearly.
    place : Box
        Between the strip's right edge and the column's end. [px]
    """
    cut = plate.cut
    ranked = sorted(entries, key=lambda entry: entry.middle)
    room = (place.bottom - place.top) / len(ranked)
    lines = 1.75 if any(entry.below for entry in ranked) else 1.0
    size = min(1.15 * cut.text, 0.62 * room / lines)
    pitch = min(room, 1.9 * lines * cut.text)
    heights = spread([entry.middle for entry in ranked], pitch, place.top, place.bottom)
    plate.draw("", Box(place.left, place.top - 16, place.right + 24, place.bottom + 16))
    bend, words_at = place.left + 0.45 * LEADER, place.left + LEADER
    hang = max(fraction(entry.told, size) for entry in ranked)
    for entry, y in zip(ranked, heights, strict=True):
        path = (
            f"M{rounded(place.left + 6)} {rounded(entry.middle)} "
            f"L{rounded(bend)} {rounded(y)} H{rounded(words_at - 16)}"
        )
        plate.line(path, plate.inks.blue, 2.5, paper=Box(place.left, min(y, entry.middle) - 6, words_at, max(y, entry.middle) + 6))  # fmt: skip
        base = y + 0.33 * size
        room = place.right - words_at
        if entry.below:
            _named(plate, entry.name, words_at, base, room, size)
            plate.paragraph(
                entry.below, words_at, base + 1.2 * cut.small, room=room, sizes=(cut.small,),
                most=1, style="sans semibold",
            )  # fmt: skip
            continue
        end = place.right - hang + fraction(entry.told, size)
        box = numbered(plate, entry.told, entry.number, end, base, size=size)
        name = _named(plate, entry.name, words_at, base, box.left - words_at - 16, size)
        dots(plate, name.right + 20, box.left - 20, base)


def _named(plate: Plate, name: str, x: float, y: float, room: float, size: float) -> Box:
    sizes = tuple(max(share * size, plate.cut.small) for share in (1.0, 0.9, 0.8, 0.7))
    plate.paragraph(name, x, y, room=room, sizes=sizes, most=1, style="serif")
    return plate.written[-1].box


def fraction(told: str, size: float) -> float:
    """Return how long a figure is behind its whole digits, so that a column aligns on them.

    Parameters
    ----------
    told : str
        A figure.
    size : float
        Of its type. [px]

    Returns
    -------
    float
        0 for a whole number without a unit. [px]
    """
    whole = re.match(r"[^.,\s\u00a0]*", told)
    rest = told[whole.end() :] if whole else told
    return outlines.width(rest, "sans semibold", size)


LEADER = 120.0
"""Length of a leader from strip to words. [px]"""


def dots(plate: Plate, start: float, end: float, y: float) -> None:
    """Put a row of dots between a name and its number, as a table of contents has them.

    Parameters
    ----------
    plate : Plate
        The plate.
    start, end : float
        Where it may begin and where it ends. [px]
    y : float
        The base line. [px]
    """
    if end - start < 30:
        return
    first = 24.0 * -(-start // 24.0)
    path = f"M{rounded(first)} {rounded(y - 2)} H{rounded(end)}"
    plate.draw(
        f'<path d="{path}" fill="none" stroke="{plate.inks.grey}" stroke-width="3.2" '
        'stroke-linecap="round" stroke-dasharray="0.1 24"/>',
        Box(start, y - 30, end, y + 10),
    )


def spread(wanted: Sequence[float], pitch: float, top: float, bottom: float) -> list[float]:
    """Return places near those wanted, none nearer to the next than `pitch`.

    Parameters
    ----------
    wanted : sequence of float
        Rising. [px]
    pitch : float
        Least distance, > 0; the places must find room. [px]
    top, bottom : float
        Between which they stand, half a pitch inside. [px]

    Returns
    -------
    list of float
        As many, rising. [px]
    """
    low = top + pitch / 2
    places: list[float] = []
    for at, want in enumerate(wanted):
        left = len(wanted) - 1 - at
        highest = bottom - pitch / 2 - left * pitch
        places.append(min(max(want, low), highest))
        low = places[-1] + pitch
    # What was pushed down may move half-way back up, so that leaders fan out on both sides.
    for at in range(len(places) - 1, -1, -1):
        above = places[at - 1] + pitch if at else top + pitch / 2
        below = places[at + 1] - pitch if at + 1 < len(places) else bottom - pitch / 2
        places[at] = min(max((places[at] + wanted[at]) / 2, above), below)
    return places
