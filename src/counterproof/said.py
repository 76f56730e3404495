"""Derivations of what a script says: the proof's own where a figure is one of its numbers."""

from __future__ import annotations

from math import isclose
from typing import Final, Literal

from counterproof.claims.figure import Figure, Unit
from counterproof.claims.material import Material
from counterproof.claims.operations import Liken, Quantity, Ratio, Scaled, Sum
from counterproof.claims.verdicts import VettedClaim, VettedFigure
from counterproof.claims.working import settled, worked
from counterproof.deriving.terms import exactly
from counterproof.draws import Range
from counterproof.errors import CounterproofError
from counterproof.numerals import CO2E
from counterproof.proof import Derivation, Edition, Term

_SAME: Final = 1e-6
"""Relative difference below which two ranges are one number: rounding of sums. [1]"""

_UNITS: Final[dict[Unit, str]] = {
    "kg CO2e": CO2E,
    "kg CO2": f"kg CO{chr(0x2082)}",
    "ratio": "",
    "count": "",
}

Sign = Literal["+", "−", "×", "÷"]


class Numbered:
    """The derivations of a proof, and behind them those that its script adds.

    Parameters
    ----------
    edition : Edition
        The proof.
    material : Material
        What the script was vetted beside.
    """

    def __init__(self, edition: Edition, material: Material) -> None:
        self.material = material
        self._derivations = [*edition.derivations]
        self._own = len(self._derivations)

    @property
    def added(self) -> tuple[Derivation, ...]:
        """What the script added."""
        return tuple(self._derivations[self._own :])

    def figure(self, one: VettedFigure) -> int | None:
        """Return the number of the derivation of a figure.

        Parameters
        ----------
        one : VettedFigure
            A figure of the script.

        Returns
        -------
        int or None
            Counted from 1; None where it could not be worked out.
        """
        figure, asked = one.figure, one.asked
        if figure is None or asked is None:
            return None
        if one.seen is not None and isinstance(asked.quantity, Liken):
            of = self._worked(asked.quantity.of) or figure
            each = of.mean / one.seen.count.mean if one.seen.count.mean else 0.0
            terms = (
                self._term("+", of),
                Term(f"one {one.seen.name}", exactly(each), _unit(of), one.seen.source, "", "÷"),
                *(Term(told) for told in one.seen.conditions),
            )
            return self._add(one.expression.text, one.seen.count, "", terms)
        found = self._found(figure.range, _unit(figure))
        if found is not None:
            return found + 1
        told = tuple(Term(condition) for condition in figure.conditions)
        terms = (*self._terms(asked.quantity, figure), *told)
        return self._add(one.expression.text, figure.range, _unit(figure), terms)

    def claim(self, one: VettedClaim) -> int | None:
        """Return the number of the derivation of a claim's share of draws.

        Parameters
        ----------
        one : VettedClaim
            A claim of the script.

        Returns
        -------
        int or None
            Counted from 1; None where it could not be judged.
        """
        if one.share is None:
            return None
        n = one.share.n
        terms = (
            Term(one.basis),
            Term("draws in which it is true", exactly(float(round(one.share.share * n))), does="+"),
            Term("all draws", exactly(float(n)), does="÷"),
            *(
                Term(f"{other.basis}: {'holds' if other.holds else 'does not hold'}")
                for other in one.other_bases
                if other.share is not None
            ),
        )
        value = exactly(one.share.share)
        return self._add(one.asks, value, "share", tuple(term for term in terms if term.says))

    def _add(self, name: str, value: Range, unit: str, terms: tuple[Term, ...]) -> int:
        for at, one in enumerate(self._derivations[self._own :], start=self._own):
            if (one.name, one.unit, one.terms) == (name, unit, terms):
                return at + 1
        key = f"said:{len(self._derivations) - self._own + 1}"
        self._derivations.append(Derivation(key, name, value, unit, terms))
        return len(self._derivations)

    def _found(self, value: Range, unit: str) -> int | None:
        for at, one in enumerate(self._derivations):
            if one.unit == unit and _same(one.value, value):
                return at
        return None

    def _worked(self, quantity: Quantity) -> Figure | None:
        """A part of what is asked, by itself; None where it cannot be told so."""
        material = self.material
        try:
            return worked(settled(quantity, material), material, material.basis)
        except CounterproofError:
            return None

    def _terms(self, quantity: Quantity, figure: Figure) -> tuple[Term, ...]:
        """What a quantity is worked out from, each side by its own derivation where it has one."""
        if isinstance(quantity, (Ratio, Sum)):
            left, right = self._worked(quantity.left), self._worked(quantity.right)
            if left is not None and right is not None:
                sign: Sign = "÷"
                if isinstance(quantity, Sum):
                    sign = "+" if quantity.sign > 0 else "−"
                return self._term("+", left), self._term(sign, right)
        if isinstance(quantity, Scaled) and (of := self._worked(quantity.of)) is not None:
            return self._term("+", of), Term("times", exactly(quantity.factor), does="×")
        return (self._alone(figure, "+"),)

    def _term(self, sign: Sign, figure: Figure) -> Term:
        at = self._found(figure.range, _unit(figure))
        if at is None:
            return self._alone(figure, sign)
        known = self._derivations[at]
        return Term(known.name, known.value, known.unit, does=sign, opens=known.key)

    def _alone(self, figure: Figure, sign: Sign) -> Term:
        source = figure.sources[0] if len(figure.sources) == 1 else ""
        says = "worked out on the draws of the proof"
        return Term(says, figure.range, _unit(figure), source, does=sign)


def _same(one: Range, other: Range) -> bool:
    pairs = zip(one.to_dict().values(), other.to_dict().values(), strict=True)
    return all(isclose(a, b, rel_tol=_SAME, abs_tol=1e-12) for a, b in pairs)


def _unit(figure: Figure) -> str:
    return figure.currency if figure.unit == "price" else _UNITS.get(figure.unit, figure.unit)
