"""The small language of a scale: one line of a weigh-in, and what it means.

`1240 pot` stands something on the scale; `+onions 1655` is a reading after something went in;
`-peel 1600` after something came out; `bottle 812 → 640` is poured from; `tare` sets the scale to
nothing; `undo` takes the last line back and `no, 1665` corrects its number.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final, Literal

from counterproof.batch.weights import WEIGHT, Weight, step_said, weight_of
from counterproof.units import measure_named

Does = Literal[
    "stand", "add", "take out", "lose", "pour", "check", "tare", "undo", "correct", "step",
    "unit", "remark", "unclear",
]  # fmt: skip

LONGEST: Final = 200
"""Characters of a line that are read: assumed, nobody says more at a scale at once."""
_CLOCK: Final = re.compile(
    r"\s*(?P<time>(?:[01]?\d|2[0-3]):[0-5]\d)\s*(?:h|am|pm)?[,;:]?\s+", re.IGNORECASE
)
_ARROW: Final = re.compile(r"\s*(?:→|->|=>|⇒|\bto\b|\bdown to\b)\s*", re.IGNORECASE)
_BRACKET: Final = re.compile(r"\s*\([^()]*\)\s*")
_TARE: Final = re.compile(
    r"(?:tare[d]?|zero(?:ed)?|reset|0 ?g?)\b[\s.!]*(?P<label>.*)", re.IGNORECASE
)
_UNDO: Final = re.compile(
    r"(?:undo|scratch that|take (?:that|it) back|strike (?:that|it))[\s.!]*", re.IGNORECASE
)
_CORRECTED: Final = re.compile(
    r"(?:no|sorry|oops|wrong|i mean|correction|should be|make that|rather)\b[\s,:;.!-]*"
    r"(?:(?:it|that)(?:'s| is| was)\s+)?(?P<rest>.*)",
    re.IGNORECASE,
)
_UNIT: Final = re.compile(
    r"(?:all )?in (?P<unit>grams?|g|kilos?|kilograms?|kg|ounces?|oz|pounds?|lbs?)[\s.]*",
    re.IGNORECASE,
)
_OUT: Final = re.compile(
    r"(?:[-−–]\s*|(?:took|taken|take|lifted|fished)\s+(?:out\s+)?(?:the\s+)?)(?P<label>.*)",
    re.IGNORECASE,
)
_LOST: Final = re.compile(
    r"\b(?:boil\w*|simmer\w*|steam\w*|evaporat\w*|reduc\w*|cooked down)\b", re.IGNORECASE
)
_ADDED: Final = re.compile(
    r"(?:\+\s*|(?:add(?:ed)?|plus|then|in goes?|in go)\s+(?:the\s+)?)(?P<label>.*)", re.IGNORECASE
)
_SEVERAL: Final = re.compile(r"(?<=\d)\s*(?=\+\s*[^\d\s])|(?<=[a-z])\s*;\s*(?=\+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Said:
    """One line of a weigh-in as it was understood.

    Parameters
    ----------
    at : int
        Its line in the text, from 1.
    text : str
        As written.
    does : Does
        What it does.
    label : str
        What it names: a vessel or a food.
    weight, then : Weight or None
        The reading; of what is poured from, before and after.
    also : tuple of Weight
        Further readings in the same line, where one was due.
    time : str
        Time of day, where the line begins with one.
    step : float
        Of a line about the scale: its step. [kg]
    """

    at: int
    text: str
    does: Does
    label: str = ""
    weight: Weight | None = None
    then: Weight | None = None
    also: tuple[Weight, ...] = ()
    time: str = ""
    step: float = 0.0


def scale_talk(text: str, *, unit: str = "g", first: int = 1) -> tuple[Said, ...]:
    """What the lines of a weigh-in say, one by one; headings and comments say nothing.

    Parameters
    ----------
    text : str
        The weigh-in, one reading a line.
    unit : str
        What a bare number is in, until a line says another.
    first : int
        Number of the text's first line, for messages.

    Returns
    -------
    tuple of Said
        In the order written. A bare number is in the unit said last.
    """
    said: list[Said] = []
    for at, line in enumerate(text.splitlines(), first):
        bare = line.strip().removeprefix("* ").strip()
        if not bare or bare.startswith(("#", "<!--", "---", "```")):
            continue
        if len(bare) > LONGEST:
            said.append(Said(at, f"{bare[:40]} …", "unclear"))
            continue
        clock = _CLOCK.match(bare)
        time = clock["time"] if clock else ""
        for piece in _SEVERAL.split(bare[clock.end() :] if clock else bare):
            one = replace(_understood(piece.strip(), at, unit), text=piece.strip(), time=time)
            said.append(one)
            weight = one.weight
            if one.does == "unit":
                unit = one.label
            elif weight is not None and weight.stated:
                unit = weight.unit
    return tuple(said)


def _understood(line: str, at: int, unit: str) -> Said:
    step = step_said(line)
    if step is not None:
        return Said(at, line, "step", step=step)
    named = _UNIT.fullmatch(line)
    if named is not None:
        return Said(at, line, "unit", measure_named(named["unit"]) or "g")
    if _UNDO.fullmatch(line):
        return Said(at, line, "undo")
    bare = _BRACKET.sub(" ", line).strip()
    tare = _TARE.fullmatch(bare)
    if tare is not None and not WEIGHT.search(tare["label"]):
        return Said(at, line, "tare", tare["label"].strip())
    right = _CORRECTED.fullmatch(bare)
    if right is not None:
        return _corrected(right["rest"], at, unit)
    return _reading(bare, at, unit)


def _corrected(rest: str, at: int, unit: str) -> Said:
    weights = [weight_of(found, unit) for found in WEIGHT.finditer(rest)]
    if not weights:
        return Said(at, rest, "unclear")
    label = _label(WEIGHT.sub(" ", rest))
    then = weights[1] if len(weights) == 2 and _ARROW.search(rest) else None
    return Said(at, rest, "correct", label, weights[0], then)


def _reading(bare: str, at: int, unit: str) -> Said:
    does: Does = "stand"
    if (added := _ADDED.fullmatch(bare)) is not None:
        does, bare = "add", added["label"]
    elif (out := _OUT.fullmatch(bare)) is not None and WEIGHT.search(out["label"]):
        does, bare = "take out", out["label"]
    founds = list(WEIGHT.finditer(bare))
    weights = [weight_of(found, unit) for found in founds]
    if len(founds) == 2 and _ARROW.fullmatch(bare[founds[0].end() : founds[1].start()]):
        label = _label(f"{bare[: founds[0].start()]} {bare[founds[1].end() :]}")
        then = weights[1]
        first = weights[0]
        if then.stated and not first.stated:
            first = weight_of(founds[0], then.unit)
        return Said(at, bare, "pour", label, first, then)
    label = _label(WEIGHT.sub(" ", bare))
    if not weights:
        if does == "add":
            return Said(at, bare, "unclear", label)
        return Said(at, bare, "stand" if label else "unclear", label)
    if does == "stand" and _LOST.search(label):
        does = "lose"
    if does == "stand" and not label:
        does = "check"
    return Said(at, bare, does, label, weights[0], also=tuple(weights[1:]))


def _label(text: str) -> str:
    words = re.sub(r"[\s,;:=+→]+", " ", text).strip(" .-–!")
    return re.sub(
        r"^(?:the|a|an|with|now|is|at)\s+|\s+(?:now|is|at|on|reads?|g)$",
        "",
        words,
        flags=re.IGNORECASE,
    ).strip()
