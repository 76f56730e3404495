"""Numbers in a text that say how much of something: with their unit, and how they are rounded."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from counterproof.claims.numbers_in_words import number_at
from counterproof.claims.saying import WORDS

MOST: Final = 2000
"""Most loose numbers that are told; no script that is spoken has more. [1]"""

_BEFORE: Final = re.compile(r"(?:^|(?<=[\s(“\"'‘–—\-+±~≈£$€/]))(?=[\d.½¼¾⅓⅔⅕⅛⅒A-Za-z])")
_UNITS: Final = {
    **dict.fromkeys(("kg", "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes"), ("kg", 1.0)),
    **dict.fromkeys(("g", "gram", "grams", "gramme", "grammes"), ("kg", 1e-3)),
    **dict.fromkeys(("t", "tonne", "tonnes"), ("kg", 1000.0)),
    **dict.fromkeys(("lb", "lbs", "pound", "pounds"), ("kg", WORDS["lb"].size)),
    **dict.fromkeys(("oz", "ounce", "ounces"), ("kg", WORDS["oz"].size)),
    **dict.fromkeys(("l", "litre", "litres", "liter", "liters"), ("L", 1.0)),
    **dict.fromkeys(("ml", "millilitre", "millilitres", "milliliters"), ("L", 1e-3)),
    **dict.fromkeys(("second", "seconds", "s"), ("s", 1.0)),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), ("s", 60.0)),
    **dict.fromkeys(("h", "hour", "hours"), ("s", 3600.0)),
    **dict.fromkeys(("day", "days"), ("s", 86_400.0)),
    **dict.fromkeys(("kwh", "kilowatt-hour", "kilowatt-hours"), ("kWh", 1.0)),
    **dict.fromkeys(("kcal", "calorie", "calories"), ("kcal", 1.0)),
    **dict.fromkeys(("km", "kilometre", "kilometres", "kilometer", "kilometers"), ("km", 1.0)),
    **dict.fromkeys(("mile", "miles"), ("km", 1.609344)),
    **dict.fromkeys(("%", "percent"), ("share", 0.01)),
    **dict.fromkeys(("times", "fold", "x"), ("ratio", 1.0)),
    **dict.fromkeys(("degrees", "degree"), ("K", 1.0)),
    **dict.fromkeys(("balloon", "balloons", "kettle", "kettles", "bottle", "bottles", "bathtub", "bathtubs"), ("likeness", 1.0)),
}  # fmt: skip
_UNIT: Final = re.compile(r"[ \N{NO-BREAK SPACE}\-]?(%|per ?cent\b|°[CF]?|[A-Za-z]+(?:-hours?)?)")
_GAS: Final = re.compile(
    r"\W{1,3}(?:of |in )?(?:CO ?(?:2|₂)e?\b|carbon\b|greenhouse|emissions|warming)", re.IGNORECASE
)
_CHANGE: Final = re.compile(
    r"[ ,]{1,2}(?P<how>less|lower|smaller|fewer|more|higher|larger|bigger|extra)\b"
)
_PART_OF: Final = re.compile(r" (?:of |as much\b|the )")
_MULTIPLES: Final = {"twice": 2.0, "double": 2.0, "thrice": 3.0, "triple": 3.0, "treble": 3.0}
_FEEDS: Final = re.compile(r"\b(?:feeds?|serves?|enough for|for)\W+$", re.IGNORECASE)
_MORE: Final = re.compile(r"\b(?:over|more than|at least|above)\W+$", re.IGNORECASE)
_BARE: Final = re.compile(r"\d")
_ORDINARY: Final = re.compile(r"(?:19|20)\d\d$")


@dataclass(frozen=True, slots=True)
class Found:
    """A number in a text, before it is set beside anything."""

    start: int
    end: int
    value: float
    unit: str  # a Unit, "mass?" for a mass of who knows what, "less", "likeness", "servings", ""
    rounding: float  # half a unit of its last digit, relative [1]


def numbers_in(text: str) -> list[Found]:
    """Every number of a text that says how much of something.

    Parameters
    ----------
    text : str
        Plain text; what is to be left alone is blanked out already.

    Returns
    -------
    list of Found
        In the order they stand.
    """
    found: list[Found] = []
    at = 0
    for match in _BEFORE.finditer(text):
        start = match.start()
        if start < at:
            continue
        one = _number(text, start)
        if one is not None:
            found.append(one)
            at = one.end
            if len(found) == MOST:
                break
    return found


def _number(text: str, start: int) -> Found | None:
    word = re.compile(r"[A-Za-z]+").match(text, start)
    if word is not None and word[0].lower() in _MULTIPLES:
        return Found(start, word.end(), _MULTIPLES[word[0].lower()], "ratio", 0.1)
    read = number_at(text, start)
    if read is None:
        return None
    value, end = read
    spelled = text[start:end]
    rounding = _rounding(spelled, value)
    high = re.compile(r" ?(?:–|-|to|or) ?(?=[\d\w])").match(text, end)
    if high is not None:  # "four to seven times": the middle stands for both
        more = number_at(text, high.end())
        if more is not None and more[0] > value:
            rounding = max(rounding, (more[0] - value) / (more[0] + value))
            value, end = (value + more[0]) / 2, more[1]
    # "half a kilo": the article stands between the part and its unit.
    article = re.compile(r" an? ").match(text, end) if value < 1 else None
    unit = _UNIT.match(text, article.end() - 1 if article is not None else end)
    named = "" if unit is None else unit[1].casefold().replace(" ", "")
    if named.startswith("°"):
        return Found(start, unit.end() if unit else end, value, "K", rounding)
    lone_letter = len(named) == 1 and named.isalpha() and not _BARE.search(spelled)
    if unit is not None and named in _UNITS and not lone_letter:
        return _with_unit(text, start, unit.end(), value, _UNITS[named], rounding)
    return _part(text, start, end, value, rounding) or _counted(text, start, end, value, rounding)


def _part(text: str, start: int, end: int, value: float, rounding: float) -> Found | None:
    """“a third less”, “half the”, “a quarter of”; “half past” is none."""
    change = _CHANGE.match(text, end)
    if not 0 < value < 1:
        return None
    if change is not None:
        return Found(start, change.end(), value, _direction(change["how"]), rounding)
    if _BARE.search(text[start:end]) or not _PART_OF.match(text, end):
        return None
    return Found(start, end, value, "share", rounding)


def _counted(text: str, start: int, end: int, value: float, rounding: float) -> Found | None:
    """A number without a unit: servings, or figures that are no year, hour or list number."""
    before = text[max(0, start - 14) : start]
    if value == int(value) and value > 1 and _FEEDS.search(before) and not before.endswith("for "):
        return Found(start, end, value, "servings", rounding)
    spelled, after = text[start:end], text[end : end + 2]
    listed = after == ". " and text.rfind("\n", 0, start) == start - 1
    if not _BARE.search(spelled) or _ORDINARY.match(spelled) or after[:1] in {":", "/"} or listed:
        return None
    return Found(start, end, value, "", rounding)


def _direction(how: str) -> str:
    return "less" if how in {"less", "lower", "smaller", "fewer"} else "more"


def _with_unit(
    text: str, start: int, end: int, value: float, unit: tuple[str, float], rounding: float
) -> Found:
    name, size = unit
    value *= size
    change = _CHANGE.match(text, end)
    if name == "share" and change is not None:
        return Found(start, change.end(), value, _direction(change["how"]), rounding)
    if name == "kg":
        gas = _GAS.match(text, end)
        name = "kg CO2e" if gas is not None else "mass?"
        end = gas.end() if gas is not None else end
    return Found(start, end, value, name, rounding)


def _rounding(spelled: str, value: float) -> float:
    """Half a unit of the last digit that a number shows, relative to it."""
    if value <= 0:
        return 0.0
    figures = re.search(r"[\d,.]+", spelled)
    if figures is None:
        return 0.1  # words are said, not measured
    plain = figures[0].replace(",", "").rstrip(".")
    if "." in plain:
        step = 10.0 ** -len(plain.partition(".")[2])
    else:
        zeros = len(plain) - len(plain.rstrip("0"))
        step = 10.0**zeros
    return min(0.5, 0.5 * step / value)
