"""A number fit to be said: its draws, its unit, the conditions it holds under, its sources.

Arithmetic keeps the pairing: draw by draw, so that a figure less itself is exactly nothing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from counterproof.draws import Draws, Range

Unit = Literal[
    "kg CO2e",
    "kg CO2",
    "kg",
    "L",
    "kWh",
    "s",
    "kcal",
    "K",
    "km",
    "ratio",
    "share",
    "count",
    "price",
]
"""What a figure is counted in. A ratio is said as times, a share as per cent."""

LEAST_DENOMINATORS = 0.005
"""Share of draws with a denominator ≤ 0 above which no ratio is given (method §7). [1]"""


@dataclass(frozen=True)
class Figure:
    """A number fit to be said.

    Parameters
    ----------
    draws : (n,) array
        One value a draw; draws of one evaluation are aligned with each other. [`unit`]
    mean : float
        Its middle, known better than by the draws. [`unit`]
    unit : Unit
        What it is counted in.
    conditions : tuple of str
        What it holds under, one phrase each.
    sources : tuple of str
        Source.id of each source.
    currency : str
        Of a price.
    """

    draws: Draws
    mean: float
    unit: Unit
    conditions: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    currency: str = field(default="", kw_only=True)

    @classmethod
    def exact(cls, value: float, unit: Unit, n: int, conditions: tuple[str, ...] = ()) -> Figure:
        """Return a number that is the same in every draw.

        Parameters
        ----------
        value : float
            The number. [`unit`]
        unit : Unit
            What it is counted in.
        n : int
            Number of draws, ≥ 1. [1]
        conditions : tuple of str
            What it holds under.

        Returns
        -------
        Figure
            Without any spread.
        """
        return cls(np.full(n, value), value, unit, conditions)

    @property
    def range(self) -> Range:
        """Mean and percentiles; of a ratio, the ratio of means and percentiles of the ratio."""
        return Range.of(self.draws, self.mean)

    def plus(self, other: Figure, sign: float = 1.0) -> Figure:
        """Return the sum, draw by draw.

        Parameters
        ----------
        other : Figure
            In the same unit.
        sign : float
            −1 for the difference. [1]

        Returns
        -------
        Figure
            In the same unit.

        Raises
        ------
        ValueError
            If the units differ.
        """
        if self.unit != other.unit:
            raise ValueError(f"{self.unit} and {other.unit} cannot be added")
        return replace(
            self,
            draws=self.draws + sign * other.draws,
            mean=self.mean + sign * other.mean,
            conditions=joined(self.conditions + other.conditions),
            sources=joined(self.sources + other.sources),
        )

    def minus(self, other: Figure) -> Figure:
        """Return the difference, draw by draw.

        Parameters
        ----------
        other : Figure
            In the same unit.

        Returns
        -------
        Figure
            In the same unit.
        """
        return self.plus(other, -1.0)

    def times(self, factor: float) -> Figure:
        """Return the figure times a plain number.

        Parameters
        ----------
        factor : float
            The number. [1]

        Returns
        -------
        Figure
            In the same unit.
        """
        return replace(self, draws=self.draws * factor, mean=self.mean * factor)

    def over(self, other: Figure, unit: Unit = "ratio") -> Figure | None:
        """Return the ratio, draw by draw.

        Parameters
        ----------
        other : Figure
            In the same unit.
        unit : Unit
            "ratio", or "share" where this is a part of the other.

        Returns
        -------
        Figure or None
            None where too many draws of the other are not above zero. Its mean is the ratio of
            the means.
        """
        if self.unit != other.unit:
            raise ValueError(f"a ratio needs one unit, not {self.unit} and {other.unit}")
        low = other.draws <= 0
        if other.mean <= 0 or float(low.mean()) > LEAST_DENOMINATORS:
            return None
        below = np.where(low, np.nan, other.draws)
        ratio = self.draws / below
        # The few left out lie at neither end: they take the middle of the others.
        ratio = np.where(low, np.nanmedian(ratio), ratio)
        return replace(
            self,
            draws=ratio,
            mean=self.mean / other.mean,
            unit=unit,
            conditions=joined(self.conditions + other.conditions),
            sources=joined(self.sources + other.sources),
        )


def joined(parts: Iterable[str]) -> tuple[str, ...]:
    """Return each text once, in the order of first mention.

    Parameters
    ----------
    parts : iterable of str
        Texts.

    Returns
    -------
    tuple of str
        Each once.
    """
    return tuple(dict.fromkeys(parts))
