"""A claim of a script asked: on the basis it states, and on all other fair ones."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from counterproof.claims.bases import Ground, OtherBasis, ground, other_bases
from counterproof.claims.figure import Figure
from counterproof.claims.grammar import asked as read_claim
from counterproof.claims.likelihood import LEVEL, ShareTrue
from counterproof.claims.material import Material
from counterproof.claims.operations import Asked, Scaled
from counterproof.claims.script import Expression
from counterproof.claims.spoken_numbers import numbers_in
from counterproof.claims.strongest import strongest_wording
from counterproof.claims.verdicts import OnBasis, Verdict, VettedClaim
from counterproof.claims.working import settled, worked
from counterproof.draws import Draws
from counterproof.errors import CounterproofError, NotUnderstood

ABOUT: Final = 0.2
"""How far from "about N times" a ratio may lie. [1] A house choice, the same as for words."""


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
        stated = ground(material, material.basis, *asked.sides)
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


def _unjudged(expression: Expression, words: str, reason: str) -> VettedClaim:
    return VettedClaim(
        expression, "", expression.text, "cannot be judged", reason=reason, words=words
    )


def _worked_sides(asked: Asked, material: Material, on: Ground) -> tuple[Figure, ...]:
    sides = tuple(worked(side, material, on.basis) for side in asked.sides)
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
