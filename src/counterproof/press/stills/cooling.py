"""How something hot cools, as modelled, and where the rules' deadlines stand."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from itertools import pairwise
from math import isfinite

from counterproof import numerals
from counterproof.forme import Course, Deadline
from counterproof.press import outlines
from counterproof.press.drawing import rounded, tag
from counterproof.press.intervals import round_step
from counterproof.press.outlines import Box
from counterproof.press.stills.plate import Plate
from counterproof.press.stills.subject import Copy, Subject

_HOUR = 3600.0
_UNIT = re.compile(r"(?<=\d) (?=[A-Za-z]+\b)")
_PARTS = re.compile(r"(?<=[h.]) (?=\d)")
_GRAVEST = ("over", "too close", "within", "no rule")
_SIDE = 0.34  # share of a wide still that the rules' words take [1]
_LONGEST = 1.25  # how far past the last deadline the hours go [1]


def subjects(copy: Copy) -> tuple[Subject, ...] | str:
    """Return the stills of what cools, one a cooling.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    tuple of Subject or str
        The stills, or why there is none.
    """
    courses = copy.forme.courses
    if not courses:
        return copy.words("stills.no cooling")
    return tuple(
        _subject(copy, course, "cooling" if len(courses) == 1 else f"cooling-{at}")
        for at, course in enumerate(courses, start=1)
    )


def _subject(copy: Copy, course: Course, kind: str) -> Subject:
    words, write = copy.words, copy.words.figure
    rules = [_rule(copy, one) for one in course.deadlines]
    worst = min(course.deadlines, key=lambda one: _GRAVEST.index(one.verdict))
    care = _care(copy, course)
    what = _what(copy, course)
    ends = (write(numerals.number(course.celsius[at], 0)) for at in (0, -1))
    start, end = ends
    return Subject(
        kind,
        words("stills.cooling", verdict=words.named("verdicts", worst.verdict)),
        words("stills.cooling alt", what=what, start=start, end=end, rules="; ".join(rules), care=care),
        words("stills.cooling spoken", what=what, rule=_rule(copy, worst)),
        tuple(one.key for one in course.deadlines if one.key),
        lambda plate, field: _draw(copy, plate, field, course),
        _table(course),
    )  # fmt: skip


def _what(copy: Copy, course: Course) -> str:
    words = copy.words
    many = course.vessel if course.vessels == 1 else f"{course.vessel}s"
    vessel = words(f"vessels.{many}", n=str(course.vessels))
    places = words("places.then").join(words.named("places", place) for place in course.places)
    size = words.told(f"{course.litres:.2g} litres")
    return words("stills.cooling what", size=size, vessel=vessel, places=places)


def _rule(copy: Copy, one: Deadline) -> str:
    words, write = copy.words, copy.words.figure
    told = {
        "to": write(numerals.number(one.goal, 0)),
        "takes": _kept(words.told(one.takes)),
        "limit": _kept(words.told(one.told)),
    }
    if one.clock is None:
        return words("stills.cooling from start", **told)
    return words("stills.cooling rule", **{"from": write(numerals.number(one.clock, 0))}, **told)


def _kept(told: str) -> str:
    """A time whose numbers and units stay on one line."""
    return _PARTS.sub(numerals.SPACE, _UNIT.sub(numerals.SPACE, told))


def _care(copy: Copy, course: Course) -> str:
    stem = dict.fromkeys(one.locator.rpartition("(")[0] or one.locator for one in course.deadlines)
    locators = ", ".join(stem)
    return copy.words("stills.cooling care", locators=locators)


def _table(course: Course) -> bytes:
    """The way down as CSV: each temperature with its three times; empty for never."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(("celsius", "fast_s", "middle_s", "slow_s"))
    for celsius, *times in zip(
        course.celsius, course.fast, course.middle, course.slow, strict=True
    ):
        told = [f"{time:.0f}" if isfinite(time) else "" for time in times]
        writer.writerow((f"{celsius:.1f}", *told))
    return text.getvalue().encode()


def _clock_time(course: Course, one: Deadline) -> float:
    """When the clock of a rule starts on the middle course. [s]"""
    if one.clock is None or course.celsius[0] <= one.clock:
        return 0.0
    return _time_at(course, one.clock)


def _time_at(course: Course, level: float) -> float:
    """When the middle course passes a temperature. [s]"""
    steps = list(zip(course.celsius, course.middle, strict=True))
    for (high, early), (low, late) in pairwise(steps):
        if low <= level <= high:
            return early + (late - early) * (high - level) / (high - low)
    return course.middle[-1]


def _draw(copy: Copy, plate: Plate, field: Box, course: Course) -> None:
    cut, inks = plate.cut, plate.inks
    small, wide = cut.small, field.right - field.left
    top = plate.paragraph(
        _what(copy, course), field.left, field.top + 0.4 * small, room=wide,
        sizes=(cut.text, 0.9 * cut.text, small), most=2 if cut.upright else 1, colour=inks.grey,
    )  # fmt: skip
    side = 0.0 if cut.upright else _SIDE * wide
    foot = (4.2 + 2 * len(course.deadlines)) * 1.26 * small if cut.upright else 1.3 * small
    place = Box(
        field.left + 2.4 * small, top + 2.6 * small,
        field.right - side - 0.5 * small, field.bottom - foot - 1.6 * small,
    )  # fmt: skip
    latest = max(_clock_time(course, one) + one.limit for one in course.deadlines)
    ended = max(time for time in course.middle if isfinite(time))
    hours = max(latest, min(ended, 2.0 * latest)) * _LONGEST / _HOUR
    scale = _Axes(place, hours, max(100.0, course.celsius[0]))
    plate.draw("", place.grown(1.5 * small, 0.7 * small))
    _axes(copy, plate, scale)
    _band(plate, scale, course)
    for one in course.deadlines:
        _deadline(copy, plate, scale, course, one)
    left = field.left if cut.upright else field.right - side + 1.6 * small
    y = place.bottom + 3.2 * small if cut.upright else place.top + 0.7 * small
    for one in course.deadlines:
        y = _rule_line(copy, plate, Box(left, y, field.right, field.bottom), one)
        y += 0.0 if cut.upright else 0.7 * small
    plate.paragraph(
        _care(copy, course), field.left, y if cut.upright else field.bottom,
        room=wide, sizes=(small,), most=3 if cut.upright else 1, colour=inks.grey,
    )  # fmt: skip


class _Axes:
    """Hours across, degrees up."""

    def __init__(self, place: Box, hours: float, hottest: float) -> None:
        self.place, self.hours, self.hottest = place, hours, hottest

    def x(self, seconds: float) -> float:
        wide = self.place.right - self.place.left
        return self.place.left + min(seconds / _HOUR / self.hours, 1.0) * wide

    def y(self, celsius: float) -> float:
        high = self.place.bottom - self.place.top
        return self.place.bottom - max(celsius, 0.0) / self.hottest * high


def _axes(copy: Copy, plate: Plate, scale: _Axes) -> None:
    inks, small = plate.inks, plate.cut.small
    place = scale.place
    step = 50.0 if place.bottom - place.top < 5.5 * 2 * small else 20.0
    degrees = [
        degree for degree in (0.0, 20.0, 40.0, 50.0, 60.0, 80.0, 100.0) if degree % step == 0
    ]
    for degree in degrees:
        y = scale.y(degree)
        colour = inks.hair if degree else inks.grey
        plate.line(f"M{rounded(place.left)} {rounded(y)} H{rounded(place.right)}", colour, 2.0)
        told = copy.words.figure(numerals.number(degree, 0))
        plate.write(told, place.left - 0.5 * small, y + 0.33 * small, size=small, colour=inks.grey, anchor="end")  # fmt: skip
    plate.write("°C", place.left - 0.5 * small, place.top - 0.75 * small, size=small, colour=inks.grey, anchor="end")  # fmt: skip
    step = round_step(scale.hours / 6)
    at = 0.0
    while at <= scale.hours * 0.985:
        x = scale.x(at * _HOUR)
        plate.line(f"M{rounded(x)} {rounded(place.bottom)} v12", inks.grey, 2.0)
        told = copy.words.figure(f"{at:g}")
        if at:
            told = f"{told}{numerals.SPACE}h" if at + step > scale.hours * 0.985 else told
        plate.write(told, x, place.bottom + 1.25 * small, size=small, colour=inks.grey, anchor="middle")  # fmt: skip
        at += step


def _band(plate: Plate, scale: _Axes, course: Course) -> None:
    """Between the fast and the slow end, lightly toned; the middle as a firm line."""
    fast = _path(scale, course.fast, course.celsius, to_the_end=True)
    slow = _path(scale, course.slow, course.celsius, to_the_end=True)
    edge = " L".join((*fast, *reversed(slow)))
    plate.draw(tag("path", d=f"M{edge} Z", fill=plate.inks.hair, fill_opacity=0.55))
    plate.line(f"M{' L'.join(_path(scale, course.middle, course.celsius))}", weight=5.0)


def _path(
    scale: _Axes, times: Sequence[float], levels: Sequence[float], *, to_the_end: bool = False
) -> list[str]:
    """The places of a course, up to the last hour shown; level from there on if asked."""
    last = scale.hours * _HOUR
    places: list[tuple[float, float]] = []
    for time, level in zip(times, levels, strict=True):
        if time > last:
            (early, high) = places[-1]
            if isfinite(time):
                places.append((last, high + (level - high) * (last - early) / (time - early)))
            break
        places.append((time, level))
    if to_the_end and places[-1][0] < last:
        places.append((last, places[-1][1]))
    return [f"{rounded(scale.x(time))} {rounded(scale.y(level))}" for time, level in places]


def _deadline(copy: Copy, plate: Plate, scale: _Axes, course: Course, one: Deadline) -> None:
    """A corner in blue: by this hour it has to be below this temperature."""
    inks, small = plate.inks, plate.cut.small
    begins = _clock_time(course, one)
    x, y = scale.x(begins + one.limit), scale.y(one.goal)
    start = scale.x(begins)
    clock = scale.y(one.clock if one.clock is not None else course.celsius[0])
    plate.line(f"M{rounded(start)} {rounded(clock - 26)} V{rounded(clock + 26)}", inks.blue, 3.0)
    plate.line(f"M{rounded(x)} {rounded(y - 120)} V{rounded(y)} H{rounded(x - 70)}", inks.blue, 4.5)
    words = copy.words("stills.cooling by", to=copy.words.figure(numerals.number(one.goal, 0)),
                       limit=copy.words.told(one.told))  # fmt: skip
    long = outlines.width(words, "sans semibold", small)
    box = Box(x + 6, y - 126, x + 26 + long, y - 78)
    plate.draw(tag("rect", x=box.left, y=box.top, width=box.right - box.left,
                   height=box.bottom - box.top, fill=inks.paper, fill_opacity=0.85))  # fmt: skip
    plate.write(words, x + 16, y - 90, size=small, style="sans semibold", colour=inks.blue)


def _rule_line(copy: Copy, plate: Plate, place: Box, one: Deadline) -> float:
    """What a rule says, from the place's top; the next base line after it."""
    small = plate.cut.small
    number = copy.number(one.key) if one.key else ""
    upright = plate.cut.upright
    size = small if upright else 1.1 * small
    last = plate.paragraph(
        _rule(copy, one), place.left, place.top, room=place.right - place.left - 2 * small,
        sizes=(size, small), most=2 if upright else 4, style="sans semibold",
    )  # fmt: skip
    if number:
        end = plate.written[-1].box.right
        plate.write(
            number, end + 0.2 * small, last - 0.35 * small, size=small, colour=plate.inks.blue
        )
    return last + 1.26 * size
