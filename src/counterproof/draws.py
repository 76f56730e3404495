"""Keyed, stratified draws, and the uncertain numbers that use them.

A stub of shape only: the footprint engine's author fills it in.
"""

from __future__ import annotations

from collections.abc import Callable, MutableMapping
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

Draws = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Range:
    """Mean and 5th, 50th, 95th percentile of a result."""

    mean: float
    p05: float
    p50: float
    p95: float


class Distribution(Protocol):
    """What a parameter may be: it knows its mean and its quantiles."""

    @property
    def mean(self) -> float:
        """Expected value."""
        ...

    def quantile(self, u: Draws) -> Draws:
        """Values at the probabilities `u`, each strictly inside (0, 1)."""
        ...


@dataclass(frozen=True, slots=True)
class Lognormal:
    """Lognormal with its mean kept: μ = ln mean − σ²/2, so that vagueness does not inflate.

    `sigma` is the log standard deviation, `ln(1 + spread²)**0.5` for a relative standard
    deviation `spread`; see `from_spread`.
    """

    mean: float
    sigma: float

    def quantile(self, u: Draws) -> Draws:
        """Values at the probabilities `u`."""
        raise NotImplementedError


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
        """Values at the probabilities `u`."""
        return self.low + (self.high - self.low) * u


@dataclass(frozen=True, slots=True)
class Parameter:
    """An uncertain number with the key of its stream: a key says what it is, never where it stands."""

    key: str
    distribution: Distribution


@dataclass(frozen=True, slots=True)
class Product:
    """A plain number times independent parameters, each key at most once."""

    scale: float
    parameters: tuple[Parameter, ...] = ()


Streams = MutableMapping[str, Draws]
Quantile = Callable[[Draws], Draws]
