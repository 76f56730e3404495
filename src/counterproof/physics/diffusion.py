"""Diffusion out of a slice, a rod or a cube, in much or in little liquid, as a sum of exponentials."""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc
from typing import Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.modes import modes
from counterproof.physics.values import Draws

Shape = Literal["cube", "slice", "rod"]

_MODES: Final = 16
_FASTEST: Final = 2500.0  # rates whose exponential is nothing at _EARLY
_GRID: Final = 600
_INSIDE_ONLY: Final = 1e4  # Biot number: the surface is at once as the liquid is
_EARLY: Final = 0.01  # Fourier number below which the short-time law is used
_FAR: Final = 20.0


def _held_back(z: Draws) -> Draws:
    """1 − exp(z²) erfc(z), far out by its series."""
    flat = [
        1.0 - (np.exp(x * x) * erfc(x) if x < _FAR else (1.0 - 0.5 / x**2) / (x * np.sqrt(np.pi)))
        for x in z.reshape(-1)
    ]
    value: Draws = np.array(flat).reshape(z.shape)
    return value


def _single(shape: Shape) -> tuple[Draws, Draws]:
    """Roots squared and mean amplitudes of the piece's own direction."""
    found = modes("cylinder" if shape == "rod" else "slab", _INSIDE_ONLY, _MODES)
    return found.roots.reshape(-1) ** 2, found.mean.reshape(-1)


def _combined(shape: Shape) -> tuple[Draws, Draws]:
    """Rates and amplitudes of the whole piece, rising; what is cut off joins the fastest."""
    rates, amplitudes = _single(shape)
    if shape == "cube":
        total = rates[:, None, None] + rates[None, :, None] + rates[None, None, :]
        weight = amplitudes[:, None, None] * amplitudes[None, :, None] * amplitudes[None, None, :]
        order = np.argsort(total.reshape(-1), kind="stable")
        total, weight = total.reshape(-1)[order], weight.reshape(-1)[order]
        # Equal rates count once: they are permutations of one mode.
        first = np.concatenate(([True], np.diff(total) > 1e-9 * total[1:]))
        group = np.cumsum(first) - 1
        rates, amplitudes = total[first], np.bincount(group, weights=weight).astype(float)
    slow = rates < _FASTEST
    rates, amplitudes = rates[slow], amplitudes[slow].copy()
    amplitudes[-1] += 1.0 - amplitudes.sum()
    return rates, amplitudes


@dataclass(frozen=True, slots=True)
class Kernel:
    """How a form gives up what is in it, once and for all sizes and times.

    Parameters
    ----------
    shape : Shape
        cube, slice or rod.
    liquid : float or None
        Volume of liquid over that of the pieces; None for plenty. [1]
    rates, weights : (m,) array
        Exponentials of the share that is still to come. [1]
    """

    shape: Shape
    liquid: float | None
    rates: Draws
    weights: Draws

    @property
    def end(self) -> float:
        """Share that is drawn out in the end. [1]"""
        return 1.0 if self.liquid is None else self.liquid / (1.0 + self.liquid)

    def share(self, fourier: float | Draws) -> float | Draws:
        """Return the share drawn out.

        Parameters
        ----------
        fourier : float or (n,) array
            Diffusivity times time over half the size squared, ≥ 0. [1]

        Returns
        -------
        float or (n,) array
            Share of all that is in the pieces. [1]
        """
        at = np.asarray(fourier, dtype=float)
        if at.size > _GRID:
            # Draws read a fine grid in the square root of time, along which the share is smooth.
            grid = np.linspace(0.0, float(np.sqrt(at.max())), _GRID)
            table = self._exact(grid**2)
            read: Draws = np.interp(np.sqrt(at), grid, table)
            return read
        found = self._exact(at)
        return found if found.ndim else float(found)

    def _exact(self, fourier: Draws) -> Draws:
        late = self.end - (self.weights * np.exp(-self.rates * fourier[..., None])).sum(axis=-1)
        soon = np.minimum(fourier, _EARLY)
        root = np.sqrt(soon / np.pi)
        left = 1.0 - (4.0 * root - soon * (1.0 + root / 3.0) if self.shape == "rod" else 2.0 * root)
        begun = 1.0 - (left**3 if self.shape == "cube" else left)
        if self.liquid is not None:
            # What the liquid holds already slows the rest.
            begun = self.liquid * _held_back(0.5 * np.sqrt(np.pi) * begun / self.liquid)
        share: Draws = np.where(fourier < _EARLY, begun, late)
        return share


def kernel(shape: Shape, liquid: float | None = None) -> Kernel:
    """How a form gives up what is in it.

    Parameters
    ----------
    shape : Shape
        cube, slice or rod.
    liquid : float or None
        Volume of liquid over that of the pieces, > 0; None for plenty. [1]

    Returns
    -------
    Kernel
        To be asked for shares.

    Raises
    ------
    OutOfRange
        If there is no liquid.

    Notes
    -----
    Plenty: E = 1 − Σ Aₙ exp(−kₙ Fo) (Crank 1975: slab, cylinder; the cube is three slabs crossed).
    Little: the poles p of α + Σ Aₙ kₙ/(kₙ − p) = 0, one between each two kₙ, and their residues
    give the share for any form; for slab and cylinder that is Crank's series for a stirred
    solution of limited volume. Below Fo = 0.01 both follow the square root of time, in
    little liquid as 1 − exp(z²) erfc(z) (Crank 1975, 4.3.5): within 0.5 % as long as there is at
    least as much liquid as pieces.
    """
    rates, amplitudes = _combined(shape)
    if liquid is None:
        return Kernel(shape, None, rates, amplitudes)
    if liquid <= 0.0:
        raise OutOfRange(
            "Steeping needs a liquid to steep in.", remedy="Give an amount above zero."
        )
    low, high = rates.copy(), np.append(rates[1:], rates[-1] * (11.0 + 10.0 / liquid))
    for _ in range(60):
        half = 0.5 * (low + high)
        value = liquid + (amplitudes * rates / (rates - half[:, None])).sum(axis=1)
        low, high = np.where(value < 0.0, half, low), np.where(value < 0.0, high, half)
    pole = 0.5 * (low + high)
    slope = (amplitudes * rates / (rates - pole[:, None]) ** 2).sum(axis=1)
    return Kernel(shape, liquid, pole, liquid**2 / (pole * slope))
