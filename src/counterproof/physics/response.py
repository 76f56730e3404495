"""A costly result carried over draws: a few design points, a smooth surface through them.

The logarithm of a positive result is fitted by a full quadratic in the logarithms of what drives
it. Its error is what each design point misses by when the surface is fitted without it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from itertools import product
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.values import Draws

_REACH: Final = 0.01  # design runs from this quantile of each driver to the opposite one
MOST_POINTS: Final = 30


@dataclass(frozen=True, slots=True)
class Surface:
    """A quadratic in logarithms.

    Parameters
    ----------
    centre, half : (d,) array
        Middle and half width of the design, of the logarithms. [1]
    coefficients : (m,) array
        Of 1, xᵢ, xᵢxⱼ. [1]
    error : float
        Largest relative error at a point left out. [1]
    points : int
        Design points. [1]
    """

    centre: Draws
    half: Draws
    coefficients: Draws
    error: float
    points: int

    def at(self, drivers: Draws) -> Draws:
        """Return the result.

        Parameters
        ----------
        drivers : (n, d) array
            Drivers, > 0. [any]

        Returns
        -------
        (n,) array
            Result. [its unit]
        """
        x = (np.log(drivers) - self.centre) / self.half
        value: Draws = np.exp(_terms(x) @ self.coefficients)
        return value


def _terms(x: Draws) -> Draws:
    count = x.shape[1]
    columns = [np.ones(x.shape[0]), *x.T]
    columns += [x[:, i] * x[:, j] for i in range(count) for j in range(i, count)]
    return np.stack(columns, axis=1)


def design(drivers: Draws) -> Draws:
    """Design points around draws: the middle, the faces and the corners of their box.

    Parameters
    ----------
    drivers : (n, d) array
        Draws of the drivers, > 0; one to three of them. [any]

    Returns
    -------
    (p, d) array
        Points, at most 30; two nested boxes, so that each can be left out. [any]

    Raises
    ------
    OutOfRange
        If there are more than three drivers, or one is not above zero.
    """
    if drivers.shape[1] > 3 or float(np.min(drivers)) <= 0.0:
        raise OutOfRange(
            "A surface is laid through one to three drivers above zero.",
            remedy="Hold the others at their middle.",
        )
    count = drivers.shape[1]
    corners = np.array(list(product((-1.0, 1.0), repeat=count)))
    faces = np.concatenate((np.eye(count), -np.eye(count)))
    unit = np.concatenate((np.zeros((1, count)), corners, faces, 0.55 * corners[::-1]))
    centre, half = _box(drivers)
    points: Draws = np.exp(centre + half * unit)
    return points


def _box(drivers: Draws) -> tuple[Draws, Draws]:
    low, high = np.quantile(np.log(drivers), (_REACH, 1.0 - _REACH), axis=0)
    return 0.5 * (low + high), np.maximum(0.5 * (high - low), 1e-6)


def surface(drivers: Draws, result: Callable[[Draws], Draws]) -> Surface:
    """A surface through a costly result.

    Parameters
    ----------
    drivers : (n, d) array
        Draws of the drivers, > 0. [any]
    result : callable
        Takes (p, d) points, returns (p,) results, > 0, finite.

    Returns
    -------
    Surface
        With its own error.

    Raises
    ------
    OutOfRange
        If a result is not a number above zero.
    """
    points = design(drivers)
    found = result(points)
    if not bool(np.all(np.isfinite(found) & (found > 0.0))):
        raise OutOfRange(
            "At one end of the range the process never ends.",
            remedy="Move the surroundings further from the temperature wanted.",
        )
    centre, half = _box(drivers)
    terms = _terms((np.log(points) - centre) / half)
    inverse = np.linalg.pinv(terms)
    logs = np.log(found)
    coefficients: Draws = np.asarray(inverse @ logs, dtype=float)
    # Left-out residuals of a linear fit: the residual over one less the leverage.
    leverage = np.sum(terms * inverse.T, axis=1)
    missed = (logs - terms @ coefficients) / np.maximum(1.0 - leverage, 1e-3)
    error = float(np.max(np.abs(np.expm1(missed))))
    return Surface(centre, half, coefficients, error, points.shape[0])
