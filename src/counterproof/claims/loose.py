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
from counterproof.claims.saying import said
from counterproof.claims.script import Script, guarded
from counterproof.claims.spoken_numbers import Found, numbers_in
from counterproof.draws import Range

APART: Final = 0.1
"""How far a number may lie from a figure's middle before it contradicts it. [1]

A house choice: rounding to one digit moves a number by up to a tenth, now and then by more; what
its own digits leave open is allowed for as well.
"""

LONGEST: Final = 400
"""Characters to either side of a number that may belong to its sentence. [1]"""


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
