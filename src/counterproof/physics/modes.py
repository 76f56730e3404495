"""Modes in which a slab, a cylinder or a sphere of one temperature cools through its surface.

What is left of the first difference is a sum of decaying modes, ``Σ Aᵢ exp(−βᵢ² Fo)``: roots and
amplitudes by our own solver. Properties and the coefficient at the surface are constant.
`conduction` makes bodies of them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, pi
from typing import Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.values import Draws, smallest

Shape = Literal["slab", "cylinder", "sphere"]
Place = Literal["centre", "surface", "mean"]

MODES: Final = 16
"""Modes summed: the last has died to 10⁻⁸ when the centre begins to notice. [1]"""

_UNNOTICED: Final = 0.008
"""Fourier number below which the centre has lost less than 10⁻¹⁴ of the difference. [1]"""

_Pair = tuple[Draws, Draws]


@dataclass(frozen=True, slots=True)
class Modes:
    """Modes of one direction of a body.

    Parameters
    ----------
    shape : Shape
        slab, cylinder or sphere.
    roots : (…, m) array
        βᵢ, rising. [1]
    centre, surface, mean : (…, m) array
        Amplitude of each mode at the centre, at the surface, on average. [1]
    """

    shape: Shape
    roots: Draws
    centre: Draws
    surface: Draws
    mean: Draws

    def left(self, fourier: Draws, place: Place) -> Draws:
        """What is left of the first difference of temperature.

        Parameters
        ----------
        fourier : (…) array
            Fourier number α t/R², ≥ 0; broadcast against the Biot numbers. [1]
        place : Place
            Where. Surface and mean hold from a Fourier number of 0.008, and at 0.

        Returns
        -------
        (…) array
            Share left, 1 at the start. [1]
        """
        decay = np.exp(-(self.roots**2) * np.asarray(fourier)[..., np.newaxis])
        amplitudes: Draws = getattr(self, place)
        left: Draws = (amplitudes * decay).sum(axis=-1)
        early = _UNNOTICED if place == "centre" else 0.0
        whole: Draws = np.where(np.asarray(fourier) <= early, 1.0, left)
        return whole

    def loss(self, fourier: Draws, place: Place) -> Draws:
        """How fast that share falls with the Fourier number.

        Parameters
        ----------
        fourier : (…) array
            Fourier number, above 0. [1]
        place : Place
            Where.

        Returns
        -------
        (…) array
            −d(share)/d(Fo), > 0. [1]
        """
        squares = self.roots**2
        decay = np.exp(-squares * np.asarray(fourier)[..., np.newaxis])
        amplitudes: Draws = getattr(self, place)
        loss: Draws = (amplitudes * squares * decay).sum(axis=-1)
        return loss


def bessel(x: Draws) -> _Pair:
    """Bessel functions J₀ and J₁.

    Parameters
    ----------
    x : (…) array
        Argument, 0 to about 200. [1]

    Returns
    -------
    tuple of (…) arrays
        J₀(x) and J₁(x), to about 10⁻¹³. [1]

    Notes
    -----
    Bessel's integrals, J₀ = (2/π)∫cos(x sin τ)dτ and J₁ = (2/π)∫sin(x sin τ) sin τ dτ over a
    quarter turn, by the midpoint rule, whose error on a periodic function dies faster than any
    power once there are more points than radians.
    """
    most = float(np.max(x, initial=1.0))
    points = ceil((most + 8.0 * most ** (1 / 3) + 14.0) / 4.0)
    sines = np.sin((np.arange(points) + 0.5) * (0.5 * pi / points))
    angle = x[..., np.newaxis] * sines
    zeroth: Draws = np.cos(angle).mean(axis=-1)
    first: Draws = (np.sin(angle) * sines).mean(axis=-1)
    return zeroth, first


def _solved(function: Callable[[Draws], _Pair], low: Draws, high: Draws, guess: Draws) -> Draws:
    """Roots by Newton's rule kept inside brackets; the function rises through each root.

    `function` returns value and slope, turned so that the value is below zero at `low`.
    """
    at = guess
    for _ in range(60):
        value, slope = function(at)
        below = value < 0.0
        low = np.where(below, at, low)
        high = np.where(below, high, at)
        with np.errstate(divide="ignore", invalid="ignore"):
            stepped = at - value / slope
        inside = (stepped >= low) & (stepped <= high)
        moved = np.where(inside, stepped, 0.5 * (low + high))
        done = bool(np.all(np.abs(moved - at) <= 1e-13 * (1.0 + at)))
        at = moved
        if done:
            break
    return at


def _bessel_zeros(count: int) -> _Pair:
    """Zeros of J₀, and of J₁ with its zero at the origin first."""
    at = (np.arange(1, count + 1) - 0.25) * pi
    of_zeroth = at + 1 / (8 * at)
    at = (np.arange(1, count) + 0.25) * pi
    of_first = at - 3 / (8 * at)
    for _ in range(6):
        zeroth, first = bessel(of_zeroth)
        of_zeroth = of_zeroth + zeroth / first
        zeroth, first = bessel(of_first)
        of_first = of_first - first / (zeroth - first / of_first)
    return of_zeroth, np.concatenate(([0.0], of_first))


def _roots(shape: Shape, biot: Draws, count: int) -> Draws:
    """Roots of β tan β = Bi, β J₁/J₀ = Bi, 1 − β cot β = Bi."""
    order: Draws = np.arange(count, dtype=np.float64)
    sign = np.where(order % 2 == 0, 1.0, -1.0)

    def slab(x: Draws) -> _Pair:
        sine, cosine = np.sin(x), np.cos(x)
        return (
            sign * (x * sine - biot * cosine),
            sign * ((1.0 + biot) * sine + x * cosine),
        )

    def cylinder(x: Draws) -> _Pair:
        zeroth, first = bessel(x)
        return sign * (x * first - biot * zeroth), sign * (x * zeroth + biot * first)

    def sphere(x: Draws) -> _Pair:
        sine, cosine = np.sin(x), np.cos(x)
        return (
            sign * ((1.0 - biot) * sine - x * cosine),
            sign * (x * sine - biot * cosine),
        )

    # Near Bi = 0 the first root is √(k Bi), k = 1, 2, 3; near infinity the upper end.
    function, dimensions = {"slab": (slab, 1.0), "cylinder": (cylinder, 2.0)}.get(
        shape, (sphere, 3.0)
    )
    if shape == "cylinder":
        ends, starts = _bessel_zeros(count)
    else:
        starts = order * pi
        ends = starts + (0.5 * pi if shape == "slab" else pi)
    low: Draws = starts + 0.0 * biot
    high: Draws = ends + 0.0 * biot
    first = np.sqrt(dimensions * biot / (1.0 + dimensions * biot / high[..., :1] ** 2))
    later = low + (high - low) * biot / (biot + 1.0 + low)
    guess = np.where(order == 0, first, later)
    return _solved(function, low, high, guess)


def modes(shape: Shape, biot: float | Draws, count: int = MODES) -> Modes:
    """Modes of a slab, an endless cylinder or a sphere.

    Parameters
    ----------
    shape : Shape
        slab (both faces), cylinder or sphere.
    biot : float or (…) array
        Biot number h R/k on the half thickness or radius, > 0; checked from 0.001 to 10,000. [1]
    count : int
        Number of modes. [1]

    Returns
    -------
    Modes
        Roots and amplitudes, shape (…, count).

    Raises
    ------
    OutOfRange
        If a Biot number is not above zero: nothing would ever cool.

    References
    ----------
    Carslaw H. S., Jaeger J. C. (1959), Conduction of Heat in Solids, 2nd ed., 3.11, 7.7, 9.4.
    """
    if not smallest(biot) > 0.0:
        raise OutOfRange(
            "Heat cannot leave a surface whose heat transfer is zero.",
            remedy="Give a coefficient above 0 W/(m² K).",
        )
    at = _roots(shape, np.asarray(biot, dtype=float)[..., np.newaxis], count)
    if shape == "cylinder":
        zeroth, first = bessel(at)
        centre = 2.0 * first / (at * (zeroth**2 + first**2))
        return Modes(shape, at, centre, centre * zeroth, 2.0 * centre * first / at)
    sine, cosine = np.sin(at), np.cos(at)
    if shape == "slab":
        centre = 2.0 * sine / (at + sine * cosine)
        return Modes(shape, at, centre, centre * cosine, centre * sine / at)
    centre = 2.0 * (sine - at * cosine) / (at - sine * cosine)
    mean = 3.0 * centre * (sine - at * cosine) / at**3
    return Modes(shape, at, centre, centre * sine / at, mean)
