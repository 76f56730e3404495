"""Times and temperatures as instructions say them, with the place where they stand."""

from __future__ import annotations

import re
from dataclasses import dataclass

WORD_NUMBERS = {
    "a": 1.0, "an": 1.0, "one": 1.0, "two": 2.0, "three": 3.0, "four": 4.0, "five": 5.0,
    "six": 6.0, "seven": 7.0, "eight": 8.0, "nine": 9.0, "ten": 10.0, "eleven": 11.0,
    "twelve": 12.0, "fifteen": 15.0, "twenty": 20.0, "twenty-five": 25.0, "thirty": 30.0,
    "forty": 40.0, "forty-five": 45.0, "fifty": 50.0, "sixty": 60.0, "ninety": 90.0,
    "half": 0.5, "half a": 0.5, "half an": 0.5, "a half": 0.5, "a quarter of an": 0.25,
}  # fmt: skip
MINUTES = {
    "s": 1 / 60, "sec": 1 / 60, "second": 1 / 60, "m": 1.0, "min": 1.0, "minute": 1.0,
    "h": 60.0, "hr": 60.0, "hour": 60.0, "day": 1440.0, "week": 10080.0, "month": 43200.0,
}  # fmt: skip
FRACTIONS = {
    "½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125, "⅜": 0.375,
    "⅝": 0.625, "⅞": 0.875,
}  # fmt: skip
GAS_MARKS = {
    0.25: 110.0, 0.5: 120.0, 1: 140.0, 2: 150.0, 3: 160.0, 4: 180.0, 5: 190.0, 6: 200.0,
    7: 220.0, 8: 230.0, 9: 240.0,
}  # fmt: skip
"""Oven temperature by gas mark [°C]: the usual UK conversion, common practice with no source."""

_FRACTION = "[" + "".join(FRACTIONS) + "]"
_WORDS = "|".join(sorted((re.escape(w) for w in WORD_NUMBERS), key=len, reverse=True))
# No stretch is open: on thousands of digits or blanks an open one would be tried from every place.
_D = r"(?<!\d)\d{1,6}(?!\d)"
_B = r"\s{0,3}"
_NUMBER = (
    rf"(?:{_D}{_B}{_FRACTION}|{_FRACTION}|{_D}\s{{1,2}}{_D}/{_D}|{_D}/{_D}"
    rf"|{_D}(?:[.,]\d{{1,6}}(?!\d))?|\b(?:{_WORDS})\b)"
)
_UNIT = (
    r"(?:seconds?|secs?|minutes?|mins?|hours?|hrs?|days?|weeks?|months?"
    r"|(?<=\d)\s?[hms](?![a-z])|(?<=\d)\s?(?:h|m|s)\b)"
)
_DURATION = re.compile(
    rf"(?P<lead>at least|at the least|a minimum of|minimum(?: of)?|not less than|no less than|up to"
    rf"|no more than|at most|maximum(?: of)?|every|after|once every)?{_B}"
    rf"(?:(?:for|an?)\s{{1,3}})?(?:about|around|approximately|approx\.?|roughly|another|an additional"
    rf"|a further|the first|~)?{_B}"
    rf"(?P<low>{_NUMBER})"
    rf"(?:{_B}(?P<low_unit>{_UNIT})?{_B}(?:-|–|—|to|or|and){_B}(?P<high>{_NUMBER}))?"
    rf"(?:\s{{1,3}}(?:more|extra|further|additional|full|good|or so))?[\s-]{{0,4}}"
    rf"(?P<unit>{_UNIT})(?P<tail>\s{{1,3}}(?:and\s{{1,3}})?a half)?"
    rf"(?:{_B}(?:and{_B}|,{_B})?(?P<plus>{_NUMBER}){_B}(?P<plus_unit>seconds?|secs?|minutes?|mins?))?"
    r"(?P<or_two>\s{1,3}or\s{1,3}(?:two|three))?(?P<later>\s{1,3}later)?"
)
_DEGREES = re.compile(
    rf"(?<!\d)(?P<low>\d{{2,3}}){_B}(?:°|º|˚|degrees?|deg)?{_B}(?:[CF]\b)?{_B}"
    rf"(?:(?:-|–|to){_B}(?P<high>\d{{2,3}}))?{_B}(?:°|º|˚|degrees?|deg\.?)?{_B}"
    r"(?P<scale>C(?:elsius)?|F(?:ahrenheit)?)\b",
    re.IGNORECASE,
)
_GAS = re.compile(r"\bgas(?:\s{1,3}mark)?\s{1,3}(?P<mark>\d{1,3}|½|¼)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Duration:
    """A stated time: `low` or `high` is None where only the other bound is given. [min]"""

    low: float | None
    high: float | None
    start: int
    end: int
    role: str  # "for" (how long), "every" (an interval), "after" (time that has passed)


@dataclass(frozen=True, slots=True)
class Temperature:
    """A stated temperature; a range keeps its middle. [°C]"""

    celsius: float
    start: int
    end: int


def number(text: str) -> float:
    """Value of a number as written: digits, fractions, or a word.

    Parameters
    ----------
    text : str
        What `_NUMBER` matches.

    Returns
    -------
    float
        Its value.
    """
    text = text.strip().lower()
    if text in WORD_NUMBERS:
        return WORD_NUMBERS[text]
    total = 0.0
    for sign, value in FRACTIONS.items():
        if sign in text:
            total += value
            text = text.replace(sign, " ")
    for part in text.split():
        if "/" in part:
            over, under = part.split("/")
            total += float(over) / (float(under) or 1.0)
        else:
            total += float(part.replace(",", "."))
    return total


def durations(text: str) -> tuple[Duration, ...]:
    """Every stated time in a sentence, in order.

    Parameters
    ----------
    text : str
        A sentence, lower case.

    Returns
    -------
    tuple of Duration
        Times with a number; "overnight" and "a few minutes" have none and are left out.
    """
    found: list[Duration] = []
    for match in _DURATION.finditer(text):
        if match["low"] in {"a", "an"} and match["unit"].startswith(("sec", "min", "day")):
            continue  # "in a minute" says no time
        unit = MINUTES[match["unit"].strip().rstrip("s") or "s"]
        low_unit = match["low_unit"]
        low = number(match["low"]) * (
            MINUTES[low_unit.strip().rstrip("s") or "s"] if low_unit else unit
        )
        if match["low"] in {"half", "a half"} and match["unit"].startswith("h"):
            low = 30.0
        high = number(match["high"]) * unit if match["high"] else low
        if match["tail"]:
            low, high = low + unit / 2, high + unit / 2
        if match["plus"]:
            extra = number(match["plus"]) * MINUTES[match["plus_unit"].rstrip("s")]
            low, high = low + extra, high + extra
        if match["or_two"]:
            high = number(match["or_two"].split()[-1]) * unit
        role, bounds = _role(match, text, low, high)
        found.append(Duration(*bounds, match.start(), match.end(), role))
    return tuple(_joined(found, text))


def _role(
    match: re.Match[str], text: str, low: float, high: float
) -> tuple[str, tuple[float | None, float | None]]:
    lead = match["lead"] or ""
    before = text[: match.start()].rstrip()
    if lead.endswith("every") or before.endswith("every"):
        return "every", (low, high)
    if match["later"] or (lead == "after" and not before):
        return "after", (low, high)
    if lead in {"up to", "no more than", "at most"} or lead.startswith("maximum"):
        return "for", (None, high)
    if lead in {"after", ""}:
        return ("after" if lead else "for"), (low, high)
    return "for", (low, None)


def _joined(found: list[Duration], text: str) -> list[Duration]:
    """Join "at least one minute, up to three minutes" into one time."""
    joined: list[Duration] = []
    for duration in found:
        last = joined[-1] if joined else None
        if (
            last
            and last.high is None
            and duration.low is None
            and not re.search(r"[.;]", text[last.end : duration.start])
        ):
            joined[-1] = Duration(last.low, duration.high, last.start, duration.end, "for")
        else:
            joined.append(duration)
    return joined


def temperatures(text: str) -> tuple[Temperature, ...]:
    """Every stated temperature in a sentence; the Celsius one first where both scales are given.

    Parameters
    ----------
    text : str
        A sentence, in any case.

    Returns
    -------
    tuple of Temperature
        °F and gas marks converted; °F is rounded to 1 °C.
    """
    found: list[tuple[bool, Temperature]] = []
    for match in _DEGREES.finditer(text):
        values = [float(match["low"])] + ([float(match["high"])] if match["high"] else [])
        celsius = match["scale"][0] in "cC"
        value = sum(values) / len(values)
        if not celsius:
            value = float(round((value - 32) / 1.8))
        found.append((celsius, Temperature(value, match.start(), match.end())))
    for match in _GAS.finditer(text):
        mark = number(match["mark"])
        if mark in GAS_MARKS:
            found.append((False, Temperature(GAS_MARKS[mark], match.start(), match.end())))
    return tuple(temperature for _, temperature in sorted(found, key=lambda pair: not pair[0]))
