"""What a parameter may be: each knows its mean and its quantiles."""

from __future__ import annotations

from dataclasses import dataclass
from math import exp, log, log1p, sqrt
from typing import Protocol

import numpy as np

from counterproof.draws.quantiles import Draws, normal_quantile


class Distribution(Protocol):
    """What a parameter may be: it knows its mean and its quantiles; equal ones hash equal."""

    @property
    def mean(self) -> float:
        """Expected value."""
        ...

    def quantile(self, u: Draws) -> Draws:
        """Return the values at the given probabilities.

        Parameters
        ----------
        u : (n,) array
            Probabilities, strictly inside (0, 1). [1]

        Returns
        -------
        (n,) array
            A new array. [unit of the parameter]
        """
        ...


@dataclass(frozen=True, slots=True)
class Lognormal:
    """Lognormal with its mean kept: μ = ln mean − σ²/2, so that vagueness does not inflate.

    Parameters
    ----------
    mean : float
        Expected value, > 0. [unit of the parameter]
    sigma : float
        Log standard deviation, ≥ 0. [1]
    """

    mean: float
    sigma: float

    @classmethod
    def from_spread(cls, mean: float, spread: float) -> Lognormal:
        """Lognormal of this mean and relative standard deviation.

        Parameters
        ----------
        mean : float
            Expected value, > 0. [unit of the parameter]
        spread : float
            Relative standard deviation, ≥ 0. [1]

        Returns
        -------
        Lognormal
            With σ² = ln(1 + spread²). [unit of the parameter]
        """
        return cls(mean, sqrt(log1p(spread * spread)))

    @classmethod
    def from_median(cls, median: float, deviation: float) -> Lognormal:
        """Lognormal of this median and geometric standard deviation.

        Parameters
        ----------
        median : float
            Value that half of the draws lie below, > 0. [unit of the parameter]
        deviation : float
            Geometric standard deviation, ≥ 1. [1]

        Returns
        -------
        Lognormal
            With mean = median · exp(σ²/2), σ = ln deviation. [unit of the parameter]
        """
        sigma = log(deviation)
        return cls(median * exp(sigma * sigma / 2), sigma)

    def quantile(self, u: Draws) -> Draws:
        """Return the values at the given probabilities.

        Parameters
        ----------
        u : (n,) array
            Probabilities, strictly inside (0, 1). [1]

        Returns
        -------
        (n,) array
            A new array. [unit of the parameter]
        """
        values = normal_quantile(u)
        values *= self.sigma
        np.exp(values, out=values)
        values *= self.mean * exp(-self.sigma * self.sigma / 2)
        return values


@dataclass(frozen=True, slots=True)
class Normal:
    """Normal: for a quantity that may be negative, whose errors add instead of multiplying.

    Parameters
    ----------
    mean : float
        Expected value. [unit of the parameter]
    deviation : float
        Standard deviation, ≥ 0. [unit of the parameter]
    """

    mean: float
    deviation: float

    def quantile(self, u: Draws) -> Draws:
        """Return the values at the given probabilities.

        Parameters
        ----------
        u : (n,) array
            Probabilities, strictly inside (0, 1). [1]

        Returns
        -------
        (n,) array
            A new array. [unit of the parameter]
        """
        return self.mean + self.deviation * normal_quantile(u)


@dataclass(frozen=True, slots=True)
class Blend:
    """One of several distributions, each with its probability.

    One stream both chooses and draws, so that every part is stratified too; the values do not
    rise with the probability from one part to the next.

    Parameters
    ----------
    shares : tuple of float
        Probability of each part, > 0; their sum is 1. [1]
    parts : tuple of Distribution
        What each part may be. [unit of the parameter]
    """

    shares: tuple[float, ...]
    parts: tuple[Distribution, ...]

    @property
    def mean(self) -> float:
        """Expected value."""
        return sum(s * part.mean for s, part in zip(self.shares, self.parts, strict=True))

    def quantile(self, u: Draws) -> Draws:
        """Return the values at the given probabilities.

        Parameters
        ----------
        u : (n,) array
            Probabilities, strictly inside (0, 1). [1]

        Returns
        -------
        (n,) array
            A new array. [unit of the parameter]
        """
        ends = np.cumsum(self.shares)
        which = np.searchsorted(ends[:-1], u, side="right")
        drawn: Draws = np.empty_like(u)
        for at, (share, part) in enumerate(zip(self.shares, self.parts, strict=True)):
            here = which == at
            within = (u[here] - (ends[at] - share)) / share
            # Rounding at a part's edge must not reach 0 or 1.
            drawn[here] = part.quantile(np.clip(within, 1e-12, 1 - 1e-12))
        return drawn


@dataclass(frozen=True, slots=True)
class Uniform:
    """Anything between low and high, as in "2–3 onions"."""

    low: float
    high: float

    @property
    def mean(self) -> float:
        """Expected value."""
        return (self.low + self.high) / 2

    def quantile(self, u: Draws) -> Draws:
        """Return the values at the given probabilities.

        Parameters
        ----------
        u : (n,) array
            Probabilities, strictly inside (0, 1). [1]

        Returns
        -------
        (n,) array
            A new array. [unit of the parameter]
        """
        return self.low + (self.high - self.low) * u


@dataclass(frozen=True, slots=True)
class Parameter:
    """An uncertain number with the key of its stream: a key says what it is, never where it stands."""

    key: str
    distribution: Distribution
