"""Captions of a script, a skeleton by sentence: SubRip and WebVTT, times estimated by the words."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import Final

from counterproof.press.script_copy import Paragraph, Run, seconds_said

LINE: Final = 42
"""Characters of a caption's line. [1] Common practice in subtitling, no source."""

LINES: Final = 2
"""Lines of a caption. [1] Common practice in subtitling, no source."""

LEAST: Final = 1.0
"""How long a caption stands at least. [s] Common practice in subtitling, no source."""

_ENDS: Final = re.compile(r"[.!?…][\"”’')\]]*$")
_BLANKS: Final = re.compile(r"[ \t\n]+")  # a figure and its unit stay in one piece
_RESTS: Final = (";", ",", ":", "–", "—")
_GOES_ON: Final = re.compile(r"[\"“‘'(\[]*[a-z]")


_DRAWN: Final = 0.25
"""Share of a sentence by which a cut leaves its middle to come at a comma. [1] Assumed."""


@dataclass(frozen=True, slots=True)
class Cue:
    """A caption: when it stands, and its lines. [s]"""

    start: float
    end: float
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Word:
    """A word as it is shown, and how many are said for it."""

    text: str
    said: float


def cues(paragraphs: Sequence[Paragraph]) -> tuple[Cue, ...]:
    """Return the captions of a script.

    Parameters
    ----------
    paragraphs : sequence of Paragraph
        The script.

    Returns
    -------
    tuple of Cue
        A sentence each, or a part of a long one; one after the other from zero. Headings and
        directions have none.
    """
    made: list[Cue] = []
    at = 0.0
    for paragraph in paragraphs:
        if paragraph.of != "speech":
            continue
        for sentence in _sentences([*_words(paragraph.runs)]):
            for part in _parts(sentence):
                text = " ".join(word.text for word in part)
                lasts = max(LEAST, seconds_said(sum(word.said for word in part)))
                made.append(Cue(at, at + lasts, tuple(_lines(text))))
                at += lasts
    return tuple(made)


def _words(runs: Sequence[Run]) -> Iterator[_Word]:
    """Words as shown; what is said for a figure is shared among its words."""
    left = ""
    said = 0.0
    for run in runs:
        if run.kind == "direction":
            continue
        shown = _BLANKS.split(run.text.strip(" \t\n"))
        shown = shown if shown != [""] else []
        each = len(run.said.split()) / len(shown) if shown else 0.0
        if left and (run.text[:1].isspace() or not run.text):
            yield _Word(left, said)
            left, said = "", 0.0
        for place, word in enumerate(shown):
            if place or not left:
                if left:
                    yield _Word(left, said)
                left, said = word, each
            else:  # joined to the word before: a full stop behind a figure
                left += word
                said = max(said, each)
        if left and run.text[-1:].isspace():
            yield _Word(left, said)
            left, said = "", 0.0
    if left:
        yield _Word(left, said)


def _sentences(words: Sequence[_Word]) -> Iterator[list[_Word]]:
    sentence: list[_Word] = []
    for place, word in enumerate(words):
        sentence.append(word)
        after = words[place + 1].text if place + 1 < len(words) else ""
        if _ENDS.search(word.text) and not _GOES_ON.match(after):
            yield sentence
            sentence = []
    if sentence:
        yield sentence


def _parts(sentence: list[_Word]) -> Iterator[list[_Word]]:
    """A sentence in parts that fit the lines: cut at its middle, or at a rest near it."""
    text = " ".join(word.text for word in sentence)
    if len(sentence) < 2 or len(_lines(text)) <= LINES:
        yield sentence
        return
    before = [0, *accumulate(len(word.text) + 1 for word in sentence)]

    def off(at: int) -> float:
        rests = sentence[at - 1].text.endswith(_RESTS)
        return abs(before[at] / len(text) - 0.5) - (_DRAWN if rests else 0.0)

    at = min(range(1, len(sentence)), key=off)
    yield from _parts(sentence[:at])
    yield from _parts(sentence[at:])


def _lines(text: str) -> list[str]:
    if len(text) <= LINE:
        return [text]
    half = max(len(text) // 2 + 1, *(len(word) for word in text.split()))
    even = textwrap.wrap(text, min(LINE, half + 4), break_long_words=False, break_on_hyphens=False)
    if len(even) <= LINES:
        return even
    return textwrap.wrap(text, LINE, break_long_words=False, break_on_hyphens=False)


def as_subrip(found: Sequence[Cue]) -> bytes:
    """Return captions as SubRip.

    Parameters
    ----------
    found : sequence of Cue
        The captions.

    Returns
    -------
    bytes
        Number, time line, words; an arrow in the words is another sign, so that none looks like
        a time line.
    """
    blocks = [
        f"{number}\n{_time(cue.start, ',')} --> {_time(cue.end, ',')}\n"
        + "\n".join(line.replace("-->", "→") for line in cue.lines)
        for number, cue in enumerate(found, start=1)
    ]
    return ("\n\n".join(blocks) + "\n").encode() if blocks else b""


def as_webvtt(found: Sequence[Cue], note: str) -> bytes:
    """Return captions as WebVTT.

    Parameters
    ----------
    found : sequence of Cue
        The captions.
    note : str
        What must be known of them: how their times were estimated.

    Returns
    -------
    bytes
        As the W3C's WebVTT has it: a note, then the cues, their words escaped.
    """
    blocks = ["WEBVTT", f"NOTE {note.replace('-->', '→')}"]
    blocks += [
        f"{number}\n{_time(cue.start, '.')} --> {_time(cue.end, '.')}\n"
        + "\n".join(_escaped(line) for line in cue.lines)
        for number, cue in enumerate(found, start=1)
    ]
    return ("\n\n".join(blocks) + "\n").encode()


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _time(seconds: float, sign: str) -> str:
    whole = round(1000 * seconds)
    hours, rest = divmod(whole, 3_600_000)
    minutes, rest = divmod(rest, 60_000)
    return f"{hours:02d}:{minutes:02d}:{rest // 1000:02d}{sign}{rest % 1000:03d}"
