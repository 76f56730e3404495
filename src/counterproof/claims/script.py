"""A script: where its figures and claims stand, what is left alone, and its text once resolved.

`[= …]` is a figure and `[? …]` a claim. Everything else in square brackets is left alone: stage
directions, links, footnotes, task boxes; so are HTML comments, code and what a backslash guards.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

from counterproof.errors import NotUnderstood

MOST_CHARACTERS: Final = 400_000
"""Longest script that is read: some seven hours of talk. [1]"""

MOST_EXPRESSIONS: Final = 500
"""Most figures and claims in one script. [1]"""

_OPEN: Final = re.compile(r"\[(?P<sign>[=?])")
_GUARDED: Final = re.compile(r"<!--.*?(?:-->|\Z)|```.*?(?:```|\Z)|`[^`\n]{1,400}`", re.DOTALL)
_SENTENCE_END: Final = re.compile(r"(?<=[.!?…])[\"”’')\]]*\s+|\n\s*\n|\n(?=#)")


@dataclass(frozen=True, slots=True)
class Expression:
    """One figure or claim of a script.

    Parameters
    ----------
    kind : {"figure", "claim"}
        What its sign says.
    text : str
        What stands behind the sign, on one line.
    start, end : int
        Where it stands in the script's text, brackets included.
    line : int
        The line it begins on, from 1.
    """

    kind: Literal["figure", "claim"]
    text: str
    start: int
    end: int
    line: int

    @property
    def as_written(self) -> str:
        """The expression with its brackets, on one line."""
        return f"[{'=' if self.kind == 'figure' else '?'} {self.text}]"


@dataclass(frozen=True)
class Script:
    """A script as read.

    Parameters
    ----------
    text : str
        All of it.
    expressions : tuple of Expression
        In the order they stand.
    title : str
        Its first heading, or "".
    """

    text: str
    expressions: tuple[Expression, ...]
    title: str

    @cached_property
    def _newlines(self) -> list[int]:
        return [at for at, sign in enumerate(self.text) if sign == "\n"]

    @cached_property
    def _ends(self) -> list[tuple[int, int]]:
        """Where sentences end, outside all expressions."""
        starts = [one.start for one in self.expressions]
        found = []
        for match in _SENTENCE_END.finditer(self.text):
            at = bisect_left(starts, match.start()) - 1
            if at < 0 or match.start() >= self.expressions[at].end:
                found.append(match.span())
        return found

    def line_of(self, place: int) -> int:
        """Return the line a place stands on.

        Parameters
        ----------
        place : int
            Index into the text, from 0.

        Returns
        -------
        int
            From 1.
        """
        return bisect_left(self._newlines, place) + 1

    def sentence_of(self, expression: Expression, shown: Mapping[int, str]) -> str:
        """Return the sentence an expression stands in, as it will be said.

        Parameters
        ----------
        expression : Expression
            One of the script's.
        shown : mapping of int to str
            Start of an expression → what is said in its place.

        Returns
        -------
        str
            On one line.
        """
        start = max((end for _, end in self._ends if end <= expression.start), default=0)
        end = min(
            (begin for begin, _ in self._ends if begin >= expression.end), default=len(self.text)
        )
        return " ".join(resolved(self, shown, start, end).split())


def guarded(text: str) -> list[tuple[int, int]]:
    """Stretches of a text that nothing is read from: comments and code.

    Parameters
    ----------
    text : str
        Markdown.

    Returns
    -------
    list of (int, int)
        Start and end of each.
    """
    return [match.span() for match in _GUARDED.finditer(text)]


def read_script(text: str, file: str | None = None) -> Script:
    """A script, with the places of its figures and claims.

    Parameters
    ----------
    text : str
        Markdown.
    file : str or None
        Its name, for messages.

    Returns
    -------
    Script
        Nothing is worked out yet.

    Raises
    ------
    NotUnderstood
        If it is too long, holds too many expressions, or one is not closed.
    """
    if len(text) > MOST_CHARACTERS:
        raise NotUnderstood(
            f"The script has {len(text)} characters; {MOST_CHARACTERS} are read.",
            remedy="Divide it into episodes.",
            file=file,
        )
    text = text.removeprefix("\ufeff").replace("\r\n", "\n")
    hidden = guarded(text)
    found: list[Expression] = []
    at = 0
    while (opened := _OPEN.search(text, at)) is not None:
        start = opened.start()
        skip = next((end for begin, end in hidden if begin <= start < end), None)
        if skip is not None:
            at = skip
            continue
        if start and text[start - 1] == "\\":
            at = opened.end()
            continue
        end = _closed(text, opened.end(), file)
        inner = " ".join(text[opened.end() : end - 1].split())
        kind: Literal["figure", "claim"] = "figure" if opened["sign"] == "=" else "claim"
        found.append(Expression(kind, inner, start, end, text.count("\n", 0, start) + 1))
        if len(found) > MOST_EXPRESSIONS:
            raise NotUnderstood(
                f"The script has more than {MOST_EXPRESSIONS} figures and claims.",
                remedy="Divide it into episodes.",
                file=file,
                line=found[-1].line,
            )
        at = end
    heading = re.search(r"^#+ +(.+?) *#*$", text, re.MULTILINE)
    return Script(text, tuple(found), heading[1] if heading else "")


def _closed(text: str, start: int, file: str | None) -> int:
    """Where an expression ends: at its bracket, which must come before a blank line."""
    for at in range(start, min(len(text), start + 2000)):
        if text[at] == "]":
            return at + 1
        if text[at] == "[" or text.startswith("\n\n", at):
            break
    raise NotUnderstood(
        f"“{' '.join(text[start - 2 : start + 40].split())}” is not closed.",
        remedy="Close it with “]” before the paragraph ends.",
        file=file,
        line=text.count("\n", 0, start) + 1,
    )


def resolved(
    script: Script, shown: Mapping[int, str], start: int = 0, end: int | None = None
) -> str:
    """The script's text with every expression replaced by what is said in its place.

    Parameters
    ----------
    script : Script
        The script.
    shown : mapping of int to str
        Start of an expression → the words in its place; those without any stay as written.
    start : int
        Where to begin, from 0.
    end : int or None
        Where to end; None for the end.

    Returns
    -------
    str
        Markdown without expressions; stage directions stay.
    """
    stop = len(script.text) if end is None else end
    made, at = [], start
    for one in script.expressions:
        if one.start < start or one.end > stop:
            continue
        made.append(script.text[at : one.start])
        made.append(shown.get(one.start, one.as_written))
        at = one.end
    made.append(script.text[at:stop])
    return "".join(made)
