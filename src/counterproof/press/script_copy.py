"""The copy of a script: every word as it is printed and as it is read aloud, and how long it takes.

The cook's Markdown is read as far as a speaker needs it: stress, stage directions, the words of a
link. The rest of it is left as it stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal

from counterproof.press.aloud import aloud
from counterproof.press.plain_text import printable
from counterproof.script_proof import Passage, ScriptProof, Spoken

WORDS_A_MINUTE: Final = 150.0
"""Reading pace by which times are estimated. [1/min]

Assumed: a calm pace; no source. Affects every time that is told of a script. Time yourself.
"""

_INLINE: Final = re.compile(
    r"\\(?P<guarded>[\\`*_{}\[\]()#+.!<>-])"
    r"|\[\^[^\[\]]*\]"  # a footnote of the cook's own: not said
    r"|!?\[(?P<link>[^\[\]]*)\]\([^()\s]*(?:\s+\"[^\"]*\")?\)"
    r"|\[(?P<direction>[^\[\]]*)\]"
    r"|\*\*(?P<strong>[^*]+)\*\*|__(?P<strong_>[^_]+)__"
    r"|(?<!\w)\*(?P<stress>[^*\s](?:[^*]*[^*\s])?)\*(?!\w)"
    r"|(?<!\w)_(?P<stress_>[^_\s](?:[^_]*[^_\s])?)_(?!\w)"
)
_LEAD: Final = re.compile(r"^(?:[-*+>]|\d{1,3}[.)])\s+")

Kind = Literal["words", "stress", "direction", "figure", "claim"]


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of a passage.

    Parameters
    ----------
    kind : str
        Words, stressed words, a direction, a figure or a claim.
    text : str
        As printed.
    said : str
        As it is read aloud; "" for a direction.
    number : int or None
        Of a figure or claim, its number in the colophon.
    """

    kind: Kind
    text: str
    said: str
    number: int | None = None


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A passage made of runs; `of` is a heading, a direction or speech."""

    of: Literal["heading", "direction", "speech"]
    runs: tuple[Run, ...]

    @property
    def figures(self) -> tuple[Run, ...]:
        """Its figures, as they stand in the margin."""
        return tuple(run for run in self.runs if run.kind == "figure")


def paragraphs(script: ScriptProof) -> tuple[Paragraph, ...]:
    """Return the passages of a script, ready to be printed and read.

    Parameters
    ----------
    script : ScriptProof
        The script as it will be said.

    Returns
    -------
    tuple of Paragraph
        In order.
    """
    return tuple(Paragraph(one.kind, tuple(_runs(one))) for one in script.passages)


def _runs(passage: Passage) -> Iterator[Run]:
    for at, run in enumerate(passage.runs):
        if isinstance(run, Spoken):
            said = aloud(run.words) if run.kind == "figure" else run.words
            yield Run(run.kind, printable(run.words), printable(said), run.number)
            continue
        text = _LEAD.sub("", run.lstrip()) if at == 0 else run
        if passage.kind == "direction":
            yield Run("direction", printable(text), "")
        else:
            yield from _inline(text)


def _inline(text: str) -> Iterator[Run]:
    at = 0
    for match in _INLINE.finditer(text):
        yield from _plain(text[at : match.start()])
        at = match.end()
        stressed = next(
            (match[name] for name in ("strong", "strong_", "stress", "stress_") if match[name]), ""
        )
        if stressed:
            yield Run("stress", printable(stressed), printable(stressed))
        elif match["direction"]:
            yield Run("direction", printable(f"[{match['direction']}]"), "")
        else:
            yield from _plain(match["guarded"] or match["link"] or "")
    yield from _plain(text[at:])


def _plain(text: str) -> Iterator[Run]:
    """Words, with the blanks at their ends that keep them from their neighbours."""
    if not text:
        return
    words = printable(text)
    before = " " if text[0].isspace() else ""
    after = " " if text[-1].isspace() and words else ""
    shown = f"{before}{words}{after}"
    yield Run("words", shown, shown)


def words_said(runs: tuple[Run, ...]) -> int:
    """Return how many words are read aloud.

    Parameters
    ----------
    runs : tuple of Run
        Of a passage.

    Returns
    -------
    int
        Numbers count by the words they are said in.
    """
    return len("".join(run.said for run in runs).split())


def seconds_said(words: float) -> float:
    """Return how long words take to read.

    Parameters
    ----------
    words : float
        How many. [1]

    Returns
    -------
    float
        At the pace assumed. [s]
    """
    return 60.0 * words / WORDS_A_MINUTE
