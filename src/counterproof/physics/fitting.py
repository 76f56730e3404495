"""Measured temperatures against a modelled cooling: how fast this one really goes, and what follows.

The shape of a cooling curve is better known than its pace. So the modelled curves keep their
shape and are stretched in time; each measured point makes some stretches likelier than others.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.cooling import History, time_between
from counterproof.physics.spread import Spread
from counterproof.physics.values import Draws
from counterproof.sourced import Sourced

PRIOR: Final = Sourced(
    1.0, "1", 0.25, "assumed", "",
    "stretch of a modelled curve in time before anything is measured; with the fast and the slow "
    "curve beside the middle one it holds half to double",
)  # fmt: skip
READING: Final = Sourced(
    1.5, "K", 0.3, "assumed", "",
    "a kitchen thermometer (1 K), where it is held, and the shape of the curve (1 K)",
)  # fmt: skip
_STRETCHES: Final = np.exp(np.linspace(-1.2, 1.2, 161))
_CURVES: Final = np.array([0.185, 0.63, 0.185])
"""Weights of the fast, middle and slow curve (Keefer & Bodily 1983)."""


@dataclass(frozen=True, slots=True)
class Fit:
    """Stretches of the modelled curves, and how likely each is after measuring.

    Parameters
    ----------
    stretches : (m, 1) array
        Factor on all times of a curve. [1]
    weights : (m, 3) array
        Probability of each stretch of each curve; their sum is 1. [1]
    misfit : float
        Least mean square of the points' distance from a curve, over that of a reading. [1]
    last : float
        Time of the last point. [s]
    """

    stretches: Draws
    weights: Draws
    misfit: float
    last: float

    @property
    def agrees(self) -> bool:
        """Whether any stretch comes near all points: within three readings' deviations."""
        return self.misfit < 9.0

    @property
    def pace(self) -> Spread:
        """How long it takes against the model. [1]"""
        stretch = np.broadcast_to(self.stretches, self.weights.shape)
        return _percentiles(stretch, self.weights)

    def between(self, early: Draws, late: Draws) -> Spread:
        """Time between two temperatures.

        Parameters
        ----------
        early, late : (3,) array
            Modelled times until the first and until the second, by curve. [s]

        Returns
        -------
        Spread
            Percentiles after measuring. [s]
        """
        return _percentiles(self.stretches * time_between(early, late), self.weights)


def _percentiles(values: Draws, weights: Draws) -> Spread:
    flat, weight = values.ravel(), weights.ravel()
    order = np.argsort(flat)
    heaped = np.cumsum(weight[order]) - 0.5 * weight[order]
    rows = [int(np.searchsorted(heaped, share)) for share in (0.05, 0.5, 0.95)]
    sorted_values = flat[order]
    found = [float(sorted_values[min(row, flat.size - 1)]) for row in rows]
    return Spread(*found)


def fitted(history: History, points: Sequence[tuple[float, float]]) -> Fit:
    """How fast a cooling goes, from what was measured.

    Parameters
    ----------
    history : History
        Modelled temperatures: fast end, middle, slow end, one column each.
    points : sequence of (float, float)
        Times since the model's start, above 0 [s], and temperatures measured then [K].

    Returns
    -------
    Fit
        Likelihood of each stretch.

    Raises
    ------
    OutOfRange
        If there is no point after the start.

    Notes
    -----
    Bayes: prior lognormal in the stretch, weights of the three curves, and a normal error of
    each reading. Two readings a minute apart are not two independent ones; measure far apart.
    """
    later = [(time, level) for time, level in points if time > 0.0]
    if not later:
        raise OutOfRange(
            "A forecast from measuring needs a temperature measured after the start.",
            remedy="Give at least one, with the time since the start.",
        )
    square = np.zeros((_STRETCHES.size, history.seconds.shape[1]))
    for time, level in later:
        for lane in range(square.shape[1]):
            seconds, curve = history.seconds[:, lane], history.temperatures[:, lane]
            modelled = np.interp(time / _STRETCHES, seconds, curve)
            square[:, lane] += ((modelled - level) / READING.value) ** 2
    prior = np.exp(-0.5 * (np.log(_STRETCHES) / PRIOR.spread) ** 2)[:, np.newaxis] * _CURVES
    likely = prior * np.exp(-0.5 * (square - square.min()))
    return Fit(
        _STRETCHES[:, np.newaxis],
        likely / likely.sum(),
        float(square.min()) / len(later),
        max(time for time, _ in later),
    )
