"""What vetting finds: every figure with its words, every claim with its verdict, on all bases."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from counterproof.claims.figure import Figure
from counterproof.claims.likelihood import ShareTrue
from counterproof.claims.loose import Loose
from counterproof.claims.operations import Figured
from counterproof.claims.overclaims import Flagged
from counterproof.claims.saying import Said
from counterproof.claims.script import Expression, Script, resolved
from counterproof.claims.seen import Seen
from counterproof.draws import Range
from counterproof.marks import Mark

Verdict = Literal["holds", "holds on its basis", "does not hold", "cannot be judged"]


@dataclass(frozen=True)
class VettedFigure:
    """One `[= …]`, worked out, or the doubt it leaves."""

    expression: Expression
    asked: Figured | None
    figure: Figure | None
    said: Said | None
    seen: Seen | None = None
    marks: tuple[Mark, ...] = ()

    @property
    def shown(self) -> str:
        """What is said in its place; as written where it could not be worked out."""
        return self.expression.as_written if self.said is None else self.said.words

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        figure = self.figure
        return {
            "line": self.expression.line,
            "as_written": self.expression.as_written,
            "range": None if figure is None else figure.range.to_dict(),
            "unit": None if figure is None else figure.unit,
            "shown": None if self.said is None else self.said.words,
            "interval": None if self.said is None else self.said.span or None,
            "conditions": [] if figure is None else list(figure.conditions),
            "sources": [] if figure is None else list(figure.sources),
            "likeness": None if self.seen is None else self.seen.to_dict(),
            "marks": [mark.to_dict() for mark in self.marks],
        }


@dataclass(frozen=True, slots=True)
class OnBasis:
    """A claim on one other basis: its share true, or why it cannot be asked there."""

    basis: str
    share: ShareTrue | None
    holds: bool | None
    inapplicable: str = ""

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "basis": self.basis,
            "share_true": None if self.share is None else self.share.share,
            "holds": self.holds,
            "inapplicable": self.inapplicable or None,
        }


@dataclass(frozen=True)
class VettedClaim:
    """One `[? …]`, with its verdict and what that rests on."""

    expression: Expression
    sentence: str
    asks: str
    verdict: Verdict
    share: ShareTrue | None = None
    basis: str = ""
    other_bases: tuple[OnBasis, ...] = ()
    strongest: str | None = None
    ratio: Range | None = None
    reason: str = ""
    sources: tuple[str, ...] = ()
    words: str = ""  # what is said in its place
    contradicted: str = ""  # a number in those words that the comparison does not ask

    @property
    def kept(self) -> bool:
        """Whether the sentence may be said, if need be with its basis named."""
        return self.verdict in {"holds", "holds on its basis"}

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "line": self.expression.line,
            "as_written": self.expression.as_written,
            "sentence": self.sentence,
            "asks": self.asks,
            "share_true": None if self.share is None else self.share.share,
            "decided_on": None if self.share is None else self.share.decided_on,
            "likelihood": None if self.share is None else self.share.term,
            "verdict": self.verdict,
            "basis": self.basis,
            "reason": self.reason or None,
            "words_contradict": self.contradicted or None,
            "ratio": None if self.ratio is None else self.ratio.to_dict(),
            "other_bases": [one.to_dict() for one in self.other_bases],
            "strongest_that_holds": self.strongest,
            "sources": list(self.sources),
        }


@dataclass(frozen=True)
class Vetted:
    """A script, vetted."""

    script: Script
    figures: tuple[VettedFigure, ...]
    claims: tuple[VettedClaim, ...]
    loose: tuple[Loose, ...] = ()
    overclaims: tuple[Flagged, ...] = ()
    file: str | None = None
    basis: dict[str, Any] = field(default_factory=dict)

    @property
    def resolved(self) -> str:
        """The script as it will be said."""
        return resolved(self.script, spoken(self.figures, self.claims))

    @property
    def resolved_lines(self) -> tuple[str, ...]:
        """The lines of the script as written, each expression by what is said in its place.

        An expression that runs over several lines is said on its first, so that every line keeps
        its number.
        """
        shown = spoken(self.figures, self.claims)
        padded = {
            one.start: shown[one.start] + "\n" * self.script.text.count("\n", one.start, one.end)
            for one in self.script.expressions
            if one.start in shown
        }
        return tuple(resolved(self.script, padded).rstrip("\n").split("\n"))

    @property
    def attention(self) -> bool:
        """Whether a claim fails, a figure is missing, or a loose number contradicts one."""
        return (
            any(not claim.kept for claim in self.claims)
            or any(one.figure is None and one.said is None for one in self.figures)
            or any(one.contradicts for one in self.loose)
            or any(claim.contradicted for claim in self.claims)
        )

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        return {
            "figures": [one.to_dict() for one in self.figures],
            "claims": [one.to_dict() for one in self.claims],
            "loose_numbers": [one.to_dict() for one in self.loose],
            "overclaims": [one.to_dict() for one in self.overclaims],
            "resolved": self.resolved,
            "basis": self.basis,
        }


def spoken(figures: Sequence[VettedFigure], claims: Sequence[VettedClaim]) -> dict[int, str]:
    """What is said in the place of every expression.

    Parameters
    ----------
    figures : sequence of VettedFigure
        All figures.
    claims : sequence of VettedClaim
        All claims.

    Returns
    -------
    dict of int to str
        Start of the expression → words.
    """
    return {
        **{one.expression.start: one.shown for one in figures},
        **{one.expression.start: one.words for one in claims},
    }
