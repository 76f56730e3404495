"""Numbers as people say them: two and a half, a third, seven hundred, forty-five, 2.5, 1,200, ¾."""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from typing import Final

_ONES: Final = dict(
    zip(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
        "fifteen sixteen seventeen eighteen nineteen".split(),
        range(20),
        strict=True,
    )
)
_TENS: Final = dict(
    zip(
        "twenty thirty forty fifty sixty seventy eighty ninety".split(),
        range(20, 100, 10),
        strict=True,
    )
)
_SCALES: Final = {"hundred": 100, "thousand": 1000, "million": 1_000_000}
_PARTS: Final = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4,
    "fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8, "ninth": 9,
    "tenth": 10, "tenths": 10, "twelfth": 12, "twentieth": 20, "hundredth": 100,
}  # fmt: skip
_GLYPHS: Final = {
    "¼": 0.25, "½": 0.5, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅕": 0.2, "⅛": 0.125, "⅒": 0.1,
}  # fmt: skip
_FIGURES: Final = re.compile(
    r"(?:(\d{1,3}(?:[, \N{NARROW NO-BREAK SPACE}]\d{3})+(?![\d])(?:\.\d+)?)|(\d{1,9})/(\d{1,4})(?![\d/])"
    r"|(\d{1,12}(?:\.\d{1,9})?|\.\d{1,9}))([¼½¾⅓⅔⅕⅛⅒])?|([¼½¾⅓⅔⅕⅛⅒])"
)
_WORD: Final = re.compile(r"[A-Za-z]+")


def number_at(text: str, start: int = 0) -> tuple[float, int] | None:
    """The number that begins at a place of a text.

    Parameters
    ----------
    text : str
        Any text.
    start : int
        Where it must begin, from 0.

    Returns
    -------
    tuple of float and int, or None
        The number [1] and where it ends; None where no number begins there. "A" alone is none.
    """
    figures = _FIGURES.match(text, start)
    if figures is not None:
        return _in_figures(figures)
    return _in_words(text, start)


def _in_figures(match: re.Match[str]) -> tuple[float, int] | None:
    grouped, upper, lower, plain, behind, glyph = match.groups()
    if glyph is not None:
        return _GLYPHS[glyph], match.end()
    if upper is not None:
        if float(lower) == 0:
            return None
        return float(upper) / float(lower), match.end()
    value = float(re.sub(r"[^\d.]", "", grouped)) if grouped else float(plain)
    end = match.end()
    if behind:
        value += _GLYPHS[behind]
    scale = re.compile(r"[ -](hundred|thousand|million)\b", re.IGNORECASE).match(match.string, end)
    if scale is not None:
        return value * _SCALES[scale[1].lower()], scale.end()
    return value, end


def _words_from(text: str, start: int) -> list[tuple[str, int]]:
    """Words joined by single blanks or hyphens, each with where it ends; at most twelve."""
    found: list[tuple[str, int]] = []
    at = start
    while len(found) < 12:
        word = _WORD.match(text, at)
        if word is None:
            break
        found.append((word[0].lower(), word.end()))
        at = word.end()
        if at < len(text) and text[at] in " -\N{NO-BREAK SPACE}\n":
            at += 1
        else:
            break
    return found


def _in_words(text: str, start: int) -> tuple[float, int] | None:
    words = _words_from(text, start)
    whole = _whole(words)
    if whole is not None:
        value, used = whole
        more = _and_part(words, used)
        if more is not None:
            return value + more[0], words[more[1] - 1][1]
        part = _named_part(words, used)
        if part is not None and value >= 1:  # "two thirds"
            return value * part[0], words[part[1] - 1][1]
        return value, words[used - 1][1]
    lone = _lone_part(words)
    return None if lone is None else (lone[0], words[lone[1] - 1][1])


def _whole(words: list[tuple[str, int]]) -> tuple[float, int] | None:
    """A whole number in words, and how many words it takes."""
    total, group, used, at = 0.0, 0.0, 0, 0
    while at < len(words):
        word = words[at][0]
        if (
            word in _ONES
            and (group % 10 == 0 or group == 0)
            and not (group and group % 100 < 20 and group % 100)
        ):
            group += _ONES[word]
        elif word in _TENS and group % 100 == 0:
            group += _TENS[word]
        elif word == "a" and at == 0 and len(words) > 1 and words[1][0] in {*_SCALES, "dozen"}:
            group += 1
        elif word == "hundred" and 0 < group < 100:
            group *= 100
        elif word == "dozen" and 0 < group < 10:
            return group * 12, at + 1
        elif word in {"thousand", "million"} and group:
            total, group = total + group * _SCALES[word], 0.0
        elif word == "and" and used and words[used - 1][0] in _SCALES and _goes_on(words, at):
            at += 1
            continue
        else:
            break
        at += 1
        used = at
    return (total + group, used) if used else None


def _goes_on(words: list[tuple[str, int]], at: int) -> bool:
    return at + 1 < len(words) and words[at + 1][0] in {**_ONES, **_TENS}


def _named_part(words: list[tuple[str, int]], at: int) -> tuple[float, int] | None:
    if at < len(words) and words[at][0] in _PARTS:
        return 1.0 / _PARTS[words[at][0]], at + 1
    return None


def _and_part(words: list[tuple[str, int]], at: int) -> tuple[float, int] | None:
    """“and a half”, “and three quarters”."""
    if at >= len(words) or words[at][0] != "and":
        return None
    if at + 2 < len(words) and words[at + 1][0] in {"a", "one"}:
        return _named_part(words, at + 2)
    if at + 2 < len(words) and words[at + 1][0] in _ONES:
        part = _named_part(words, at + 2)
        return None if part is None else (_ONES[words[at + 1][0]] * part[0], part[1])
    return None


def _lone_part(words: list[tuple[str, int]]) -> tuple[float, int] | None:
    """“half”, “a third”, “one and a half” is not one."""
    if not words:
        return None
    if words[0][0] in {"a", "an"}:
        return _named_part(words, 1)
    if words[0][0] == "half":
        takes = 2 if len(words) > 1 and words[1][0] in {"a", "an"} else 1
        dozen = takes == 2 and len(words) > 2 and words[2][0] == "dozen"
        return (6.0, 3) if dozen else (0.5, 1)
    return None
