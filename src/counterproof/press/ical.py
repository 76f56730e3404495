"""The plan of a recipe as an iCalendar file (RFC 5545), written by ourselves."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final
from uuid import NAMESPACE_URL, uuid5

from counterproof.forme import Appointment, Forme
from counterproof.press import wording
from counterproof.press.fixed_words import Words

_FOLD: Final = 75
"""Octets of a line, its end not counted (RFC 5545, 3.1)."""


def as_icalendar(forme: Forme, words: Words) -> bytes:
    """Return what the plan asks of which day.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    bytes
        All-day events; the same for the same forme. Stamped with the day of pressing.
    """
    stamp = f"{_day(forme.date)}T000000Z"
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Counterproof//press//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
    ]
    for one in forme.appointments:
        lines += _event(one, forme, words, stamp)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines).encode()


def _event(one: Appointment, forme: Forme, words: Words, stamp: str) -> list[str]:
    title = wording.title(forme.edition)
    summary = words(f"calendar.{one.does}", what=title)
    told = [*(_times(forme, words) if one.does == "cook" else ()), *one.told]
    after = date.fromisoformat(one.day) + timedelta(days=1)
    lines = [
        "BEGIN:VEVENT",
        f"UID:{_identity(title, one)}",
        f"DTSTAMP:{stamp}",
        f"DTSTART;VALUE=DATE:{_day(one.day)}",
        f"DTEND;VALUE=DATE:{_day(after.isoformat())}",
        f"SUMMARY:{escaped(summary)}",
    ]
    if told:
        lines.append(f"DESCRIPTION:{escaped(chr(10).join(told))}")
    return [*lines, "TRANSP:TRANSPARENT", "END:VEVENT"]


def _times(forme: Forme, words: Words) -> tuple[str, ...]:
    time = forme.edition.timeline
    if time is None:
        return ()
    return (words.figure(words("card.times", total=time.total, hands=time.hands_on)),)


def _identity(title: str, one: Appointment) -> str:
    """The same event for the same recipe, kind and day, whenever it is written (RFC 7986, 5.3)."""
    return str(uuid5(NAMESPACE_URL, f"urn:counterproof:{one.does}:{one.day}:{title}"))


def _day(iso: str) -> str:
    return date.fromisoformat(iso).strftime("%Y%m%d")


def escaped(text: str) -> str:
    r"""Return words as a TEXT value.

    Parameters
    ----------
    text : str
        Any words.

    Returns
    -------
    str
        Backslash, semicolon and comma behind a backslash, line ends as \n, control signs left
        out (RFC 5545, 3.3.11).
    """
    for sign in ("\\", ";", ","):
        text = text.replace(sign, f"\\{sign}")
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    kept = ("".join(sign for sign in line if sign >= " " and sign != "\x7f") for line in lines)
    return "\\n".join(kept)


def folded(line: str) -> str:
    """Return a content line, folded so that no part of it is longer than 75 octets.

    Parameters
    ----------
    line : str
        Without line ends.

    Returns
    -------
    str
        Parts of at most 75 octets, never cut inside a character; each further one begins with a
        blank (RFC 5545, 3.1).
    """
    parts: list[str] = []
    now, size = "", 0
    for sign in line:
        wide = len(sign.encode())
        if size + wide > _FOLD:
            parts.append(now)
            now, size = " ", 1
        now += sign
        size += wide
    return "\r\n".join([*parts, now])
