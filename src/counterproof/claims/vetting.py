"""Verdicts: every figure of a script worked out, every claim asked, on all fair bases."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any, Final, Literal

import numpy as np

from counterproof.claims.bases import Ground, OtherBasis, ground, other_bases
from counterproof.claims.figure import Figure
from counterproof.claims.grammar import asked as read_claim
from counterproof.claims.grammar import figured as read_figure
from counterproof.claims.likelihood import LEVEL, ShareTrue
from counterproof.claims.likenesses import Seen, Surroundings, likened
from counterproof.claims.loose import Loose, numbers_in
from counterproof.claims.material import Basis, Material
from counterproof.claims.operations import (
    Asked,
    Figured,
    Liken,
    Phase,
    Portion,
    Quantity,
    Scaled,
    parts,
)
from counterproof.claims.overclaims import Flagged
from counterproof.claims.saying import CO2E, DIMENSIONS, Said, System, said, shown_parts
from counterproof.claims.script import Expression, Script, resolved
from counterproof.claims.strongest import strongest_wording
from counterproof.claims.working import settled, stage_draws, subject_of, worked
from counterproof.draws import Draws, Range
from counterproof.errors import CounterproofError, NotUnderstood
from counterproof.marks import Mark
from counterproof.rows import STAGES

Verdict = Literal["holds", "holds on its basis", "does not hold", "cannot be judged"]

ABOUT: Final = 0.2
"""How far from "about N times" a ratio may lie. [1] A house choice, the same as for words."""


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


def vetted_figure(
    expression: Expression, material: Material, around: Surroundings, system: System = "metric"
) -> VettedFigure:
    """One figure of a script, worked out.

    Parameters
    ----------
    expression : Expression
        A `[= …]`.
    material : Material
        What may be spoken of.
    around : Surroundings
        For likenesses.
    system : System
        Whose units.

    Returns
    -------
    VettedFigure
        With a doubt where the words are not understood.
    """
    try:
        asked = read_figure(expression.text)
        quantity = settled(asked.quantity, material)
        asked = Figured(quantity, asked.unit, asked.by_stage)
        if asked.by_stage:
            return _by_stage(expression, asked, material)
        inner = quantity.of if isinstance(quantity, Liken) else quantity
        basis = _ground_for(inner, material)
        figure = worked(inner, material, basis)
        if isinstance(quantity, Liken):
            return _likened(expression, asked, figure, quantity.kind, around)
        told = _in_unit(figure, asked.unit, around)
        told_as = said(told, middle=material.middle, system=system, unit=asked.unit)
    except CounterproofError as doubt:
        mark = Mark("doubt", "not-understood", f"{doubt.message} {doubt.remedy}")
        return VettedFigure(expression, None, None, None, None, (mark,))
    return VettedFigure(expression, asked, told, told_as)


def _ground_for(quantity: Quantity, material: Material) -> Basis:
    """A ratio or difference between recipes is worked out in one covering set."""
    sides = [
        part for part in parts(quantity) if isinstance(part, Portion) and part.taken == "footprint"
    ]
    keys = {subject_of(one, material).key for one in sides}
    if len(keys) < 2:
        return material.basis
    found = ground(material, material.basis, quantity)
    if found.refused:
        raise NotUnderstood(found.refused, remedy="The two cannot be set against each other.")
    return found.basis


def _in_unit(figure: Figure, unit: str | None, around: Surroundings) -> Figure:
    if unit is None or figure.unit in DIMENSIONS[unit]:
        return figure
    if figure.unit == "kg CO2" and "L" in DIMENSIONS[unit]:
        each = 1000.0 / float(_density(around))
        told = f"gas at {around.temperature - 273.15:.0f} °C and 1 atm"
        return Figure(
            figure.draws * each, figure.mean * each, "L", (*figure.conditions, told), figure.sources
        )
    raise NotUnderstood(
        f"It is counted in {figure.unit}, not in {unit}.", remedy="Leave the unit out."
    )


def _density(around: Surroundings) -> float:
    from counterproof.physics import carbon_dioxide  # noqa: PLC0415

    return float(carbon_dioxide.density(around.temperature, around.pressure))


def _likened(
    expression: Expression, asked: Figured, figure: Figure, kind: str, around: Surroundings
) -> VettedFigure:
    seen = likened(figure, kind, around)
    if seen is None:
        raise NotUnderstood(
            f"{figure.unit} cannot be shown as {kind}.",
            remedy="Try balloons, kettles, car kilometres, glasses or bottles.",
        )
    words = seen.words
    if kind == "habit":
        words = seen.sentence.removeprefix("Once a week for a year it comes to ").rstrip(".")
    marks = (Mark("note", "likeness", f"Say with it: {seen.warning}."),) if seen.warning else ()
    return VettedFigure(expression, asked, figure, Said(words, ""), seen, marks)


def _by_stage(expression: Expression, asked: Figured, material: Material) -> VettedFigure:
    """The stages of a portion, rounded so that the parts shown add up to the total shown."""
    of = next((part for part in parts(asked.quantity) if isinstance(part, (Portion, Phase))), None)
    if not isinstance(of, Portion):
        raise NotUnderstood(
            "Only a portion divides by stage.", remedy="Say “one serving, by stage”."
        )
    found = material.footprint(subject_of(of, material), material.basis)
    scale = found.serves if of.whole else 1.0
    told = [
        (stage, mean * scale)
        for stage in STAGES
        for _, mean, counted in [stage_draws(stage, found, material)]
        if counted and mean
    ]
    size, sign = (1.0, "kg") if found.static * scale >= 0.995 else (1000.0, "g")
    decimals = 1 if size == 1.0 else 0
    shown = shown_parts([mean * size for _, mean in told], decimals)
    words = ", ".join(
        f"{stage} {value} {sign}" for (stage, _), value in zip(told, shown, strict=True)
    )
    figure = worked(of, material, material.basis)
    return VettedFigure(expression, asked, figure, Said(f"{words} {CO2E}", ""))


def vetted_claim(
    expression: Expression,
    material: Material,
    *,
    level: float = LEVEL,
) -> VettedClaim:
    """One claim of a script, asked on the stated basis and on all other fair ones.

    Parameters
    ----------
    expression : Expression
        A `[? …]`.
    material : Material
        What may be spoken of.
    level : float
        Share of draws, less two standard errors, from which a sentence is kept. [1]

    Returns
    -------
    VettedClaim
        Its sentence is filled in by `vetted`.
    """
    words = expression.text
    try:
        asked = read_claim(expression.text)
        words = asked.words or words
        asked = Asked(
            settled(asked.left, material),
            asked.relation,
            settled(asked.right, material),
            None if asked.high is None else settled(asked.high, material),
            asked.words,
        )
        stated = ground(material, material.basis, *_sides(asked))
        if stated.refused:
            return _unjudged(expression, words, f"{stated.refused} It cannot be judged.")
        pair = _worked_sides(asked, material, stated)
        others = other_bases(asked, material, stated, pair[0].unit)
    except CounterproofError as doubt:
        return _unjudged(expression, words, f"{doubt.message} {doubt.remedy}")
    share = share_true(asked, pair)
    asked_there = tuple(_ask(asked, material, one, level) for one in others)
    if not share.kept(level):
        verdict: Verdict = "does not hold"
    elif all(one.holds is not False for one in asked_there):
        verdict = "holds"
    else:
        verdict = "holds on its basis"
    ratio = pair[0].over(pair[1])
    grounds = [stated, *(one.ground for one in others if one.ground and one.middle is None)]
    return VettedClaim(
        expression,
        "",
        expression.text,
        verdict,
        share,
        _basis_in_words(material, stated),
        asked_there,
        strongest_wording(asked, [_worked_sides(asked, material, one) for one in grounds], level),
        None if ratio is None else ratio.range,
        _why(asked_there, verdict),
        tuple(dict.fromkeys(pair[0].sources + pair[1].sources)),
        words,
        _contradicted(asked),
    )


def _contradicted(asked: Asked) -> str:
    """A number in the words in quotation marks that is not the one the comparison asks."""
    if not asked.words:
        return ""
    factor = 1.0
    right = asked.right
    while isinstance(right, Scaled):
        factor, right = factor * right.factor, right.of
    fitting = {factor, 1 / factor if factor else factor, abs(1 - factor)}
    for number in numbers_in(asked.words):
        if number.unit not in {"ratio", "share", "less", "more"}:
            continue
        if not any(abs(number.value - one) <= 0.05 * one for one in fitting):
            said_there = asked.words[number.start : number.end]
            return f"The words say “{said_there}”; the comparison asks for {factor:.3g} times."
    return ""


def _sides(asked: Asked) -> tuple[Quantity, ...]:
    return (asked.left, asked.right, *((asked.high,) if asked.high is not None else ()))


def _unjudged(expression: Expression, words: str, reason: str) -> VettedClaim:
    return VettedClaim(
        expression, "", expression.text, "cannot be judged", reason=reason, words=words
    )


def _worked_sides(asked: Asked, material: Material, on: Ground) -> tuple[Figure, ...]:
    sides = tuple(worked(side, material, on.basis) for side in _sides(asked))
    units = {side.unit for side in sides}
    if units <= {"ratio", "share"}:
        return sides
    if len(units) > 1:
        raise NotUnderstood(
            f"One side is counted in {sides[0].unit}, the other in {sides[1].unit}.",
            remedy="Set like against like.",
        )
    return sides


def _true_where(asked: Asked, left: Draws, right: Draws, high: Draws | None) -> Draws:
    """1 where the comparison is true, 0 elsewhere."""
    tests = {
        "<": lambda: left < right,
        "<=": lambda: left <= right,
        ">": lambda: left > right,
        ">=": lambda: left >= right,
        "about": lambda: np.abs(left - right) <= ABOUT * np.abs(right),
    }
    held = tests[asked.relation]()
    if high is not None:
        held = held & (left <= high)
    return held.astype(float)


def share_true(asked: Asked, sides: Sequence[Figure]) -> ShareTrue:
    """Share of paired draws in which a comparison is true.

    Parameters
    ----------
    asked : Asked
        The comparison.
    sides : sequence of Figure
        Left, right and, for a "between", its upper end.

    Returns
    -------
    ShareTrue
        Counted in all draws.
    """
    left, right, *more = (side.draws for side in sides)
    held = _true_where(asked, left, right, more[0] if more else None)
    return ShareTrue(float(held.mean()), held.size)


def _ask(asked: Asked, material: Material, other: OtherBasis, level: float) -> OnBasis:
    if other.ground is None:
        return OnBasis(other.name, None, None, other.inapplicable)
    try:
        sides = _worked_sides(asked, material, other.ground)
    except CounterproofError as doubt:
        return OnBasis(other.name, None, None, doubt.message)
    if other.middle is not None:
        value = "mean" if other.middle == "mean" else "p50"
        points = [np.array([getattr(side.range, value)]) for side in sides]
        held = _true_where(asked, points[0], points[1], points[2] if len(points) > 2 else None)
        return OnBasis(other.name, None, bool(held[0]))
    share = share_true(asked, sides)
    return OnBasis(other.name, share, share.kept(level))


def _basis_in_words(material: Material, stated: Ground) -> str:
    basis = stated.basis
    return ", ".join(
        (
            f"per {basis.per}",
            f"{stated.set} set" if stated.set else "each food in its own set",
            f"range for {basis.range_for.replace('-', ' ')}",
            f"cooked in {basis.region or material.kitchen_region}",
        )
    )


def _why(others: Sequence[OnBasis], verdict: Verdict) -> str:
    if verdict != "holds on its basis":
        return ""
    failing = [one.basis for one in others if one.holds is False]
    return f"It is not kept {', '.join(failing)}: name the basis when you say it."


def vetted(
    script: Script,
    material: Material,
    around: Surroundings,
    *,
    level: float = LEVEL,
    system: System = "metric",
) -> Vetted:
    """All figures and claims of a script.

    Parameters
    ----------
    script : Script
        The script.
    material : Material
        What may be spoken of.
    around : Surroundings
        For likenesses.
    level : float
        Share of draws from which a sentence is kept. [1]
    system : System
        Whose units.

    Returns
    -------
    Vetted
        Loose numbers and words that overclaim are added by `loose` and `overclaims`.
    """
    figures = tuple(
        vetted_figure(one, material, around, system)
        for one in script.expressions
        if one.kind == "figure"
    )
    claims = [
        vetted_claim(one, material, level=level)
        for one in script.expressions
        if one.kind == "claim"
    ]
    shown = spoken(figures, claims)
    told = tuple(
        replace(claim, sentence=script.sentence_of(claim.expression, shown)) for claim in claims
    )
    return Vetted(script, figures, told)
