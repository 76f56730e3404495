"""Loose numbers: numbers typed or said that no expression of the script produced.

Each is read with its unit, set beside the nearest figure that was worked out, and marked where the
two contradict each other. What is only counted ("six pots", "the first evening") is no figure.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import floor, log, log10
from typing import Any, Final

from counterproof.claims.figure import Figure, Unit
from counterproof.claims.material import singular
from counterproof.claims.numbers_in_words import number_at
from counterproof.claims.saying import WORDS, said
from counterproof.claims.script import Script, guarded
from counterproof.draws import Range

APART: Final = 0.1
"""How far a number may lie from a figure's middle before it contradicts it. [1]

A house choice: rounding to one digit moves a number by up to a tenth, now and then by more; what
its own digits leave open is allowed for as well.
"""

LONGEST: Final = 400
"""Characters to either side of a number that may belong to its sentence. [1]"""

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
class Reference:
    """A figure that a loose number may be about.

    Parameters
    ----------
    called : str
        What it is, for people.
    value : Range
        Its range. [`unit`]
    unit : Unit
        What it is counted in.
    topic : frozenset of str
        Words, in the singular, of which all stand in a sentence that is about it.
    either : bool
        Whether it may also be told the other way round: one over it.
    """

    called: str
    value: Range
    unit: Unit
    topic: frozenset[str] = frozenset()
    either: bool = False


@dataclass(frozen=True, slots=True)
class Loose:
    """A loose number.

    Parameters
    ----------
    line : int or None
        The line it stands on, from 1.
    time : str or None
        When it was said, in captions.
    as_written : str
        The number with its unit.
    value : float
        Its value. [`unit`]
    unit : str
        What it is counted in; "" where it says none.
    nearest : str or None
        The nearest figure, with its value.
    contradicts : bool
        Whether the two cannot both stand.
    """

    line: int | None
    time: str | None
    as_written: str
    value: float
    unit: str
    nearest: str | None = None
    contradicts: bool = False

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "line": self.line,
            "time": self.time,
            "as_written": self.as_written,
            "value": self.value,
            "unit": self.unit or None,
            "nearest": self.nearest,
            "contradicts": self.contradicts,
        }


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


def blanked(script: Script) -> str:
    """The script's own words: expressions, directions, links, comments and code left blank.

    Parameters
    ----------
    script : Script
        The script.

    Returns
    -------
    str
        Of the same length, so that places stay.
    """
    text = script.text
    spans = [(one.start, one.end) for one in script.expressions]
    hidden = sorted([*spans, *guarded(text)])
    chars = list(text)
    for start, end in hidden:
        chars[start:end] = _blank(text[start:end])
    left = "".join(chars)
    directions = re.compile(
        r"\[[^\[\]]{0,2000}\](?:\([^()\s]{0,500}\))?|https?://\S+|^\[[^\]]+\]: .*$", re.MULTILINE
    )
    return directions.sub(lambda match: "".join(_blank(match[0])), left)


def _blank(text: str) -> list[str]:
    return ["\n" if sign == "\n" else " " for sign in text]


def loose_in_script(script: Script, references: Sequence[Reference]) -> tuple[Loose, ...]:
    """Every loose number of a script.

    Parameters
    ----------
    script : Script
        The script.
    references : sequence of Reference
        What numbers may be about.

    Returns
    -------
    tuple of Loose
        In the order they stand.
    """
    text = blanked(script)
    return tuple(
        _judged(text, one, references, line=script.line_of(one.start)) for one in numbers_in(text)
    )


def loose_in_captions(
    cues: Iterable[tuple[str, str]], references: Sequence[Reference]
) -> tuple[Loose, ...]:
    """Every number that was said, with its time.

    Parameters
    ----------
    cues : iterable of (str, str)
        Time code and words of each caption.
    references : sequence of Reference
        What numbers may be about.

    Returns
    -------
    tuple of Loose
        In the order they were said; a number that two captions share has the time of the first.
    """
    text, starts = "", []
    for time, words in cues:
        starts.append((len(text), time))
        text += " ".join(words.split()) + " "
    made = []
    for one in numbers_in(text):
        time = next(code for start, code in reversed(starts) if start <= one.start)
        made.append(_judged(text, one, references, time=time))
    return tuple(made)


def _judged(
    text: str,
    one: Found,
    references: Sequence[Reference],
    *,
    line: int | None = None,
    time: str | None = None,
) -> Loose:
    written = " ".join(text[one.start : one.end].split())
    plain = Loose(line, time, written, one.value, _unit_name(one.unit))
    sentence = _sentence(text, one.start)
    hits = [(ref, value) for ref in references for value in _values(one, ref, sentence)]
    if not hits or one.value <= 0:
        return plain
    here = {singular(word) for word in re.findall(r"[a-z]+", sentence.casefold())}
    about = [hit for hit in hits if hit[0].topic and hit[0].topic <= here]
    if about:
        most = max(len(ref.topic) for ref, _ in about)
        about = [hit for hit in about if len(hit[0].topic) == most]
    ref, value = min(about or hits, key=lambda hit: _distance(one.value, hit[1].mean))
    near = replace(plain, nearest=f"{ref.called}: {_told(ref, value)}")
    off = abs(one.value / value.mean - 1.0) if value.mean > 0 else 1.0
    allowed = max(APART, one.rounding)
    close = off <= allowed or (value.p05 == value.p95 and off <= one.rounding)
    return replace(near, contradicts=bool(about) and not close)


def _unit_name(unit: str) -> str:
    return {"mass?": "kg", "less": "share", "more": "share", "servings": "count"}.get(unit, unit)


def _values(  # noqa: PLR0911 - one return for each way a number can be meant
    one: Found, ref: Reference, sentence: str
) -> list[Range]:
    """The values of a reference that a number may be set against, in the number's own terms."""
    value = ref.value
    if one.unit == ref.unit or (one.unit == "servings" and ref.unit == "count"):
        return [value, *([_inverse(value)] if ref.either and value.p05 > 0 else [])]
    if one.unit == "mass?" and ref.unit in {"kg", "kg CO2e"}:
        return [value]
    if one.unit in {"less", "more"} and ref.unit == "ratio" and value.p05 > 0:
        turned = [value, *([_inverse(value)] if ref.either else [])]
        if one.unit == "less":
            return [_one_less(each) for each in turned if each.mean < 1]
        return [_one_more(each) for each in turned if each.mean > 1]
    if one.unit == "share" and ref.unit == "ratio" and value.mean < 1 and "share" not in sentence:
        return [value]
    if (
        one.unit == "share"
        and ref.unit == "ratio"
        and ref.either
        and value.p05 > 0
        and value.mean > 1
    ):
        return [_inverse(value)]
    return []


def _inverse(value: Range) -> Range:
    return Range(1 / value.mean, 1 / value.p95, 1 / value.p50, 1 / value.p05)


def _one_less(value: Range) -> Range:
    return Range(1 - value.mean, 1 - value.p95, 1 - value.p50, 1 - value.p05)


def _one_more(value: Range) -> Range:
    return Range(value.mean - 1, value.p05 - 1, value.p50 - 1, value.p95 - 1)


def _distance(value: float, middle: float) -> float:
    return abs(log(value / middle)) if value > 0 and middle > 0 else 1e9


def _sentence(text: str, at: int) -> str:
    """The sentence a number stands in, as far as it stands near."""
    start, stop = max(0, at - LONGEST), at + LONGEST
    before, after = text[start:at], text[at:stop]
    marks = (". ", "? ", "! ", "\n\n")
    begin = max(before.rfind(mark) for mark in marks) + 1
    ends = [end for mark in (*marks, ".\n") if (end := after.find(mark)) >= 0]
    return before[begin:] + after[: min(ends, default=len(after))]


def _told(ref: Reference, value: Range) -> str:
    if ref.unit == "ratio":
        digits = max(0, 1 - floor(log10(abs(value.mean)))) if value.mean else 0
        return f"{value.mean:.{digits}f}"
    import numpy as np  # noqa: PLC0415

    figure = Figure(np.array([value.p05, value.p50, value.p95]), value.mean, ref.unit)
    return said(figure).words
