"""Heat that has to travel through a food: slab, cylinder, sphere, and their products.

A body of one temperature is put into surroundings of another, with one coefficient at its
surface. A can is a cylinder times a slab, a brick three slabs crossed. Properties are constant; a
coefficient that changes is replaced by its mean (`cooling` says how).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.modes import MODES, Modes, Place, Shape, modes
from counterproof.physics.values import Draws, largest, smallest

_SETTLED: Final = 0.008
"""Fourier number from which the modes give surface and mean to 10⁻⁶. [1]"""


@dataclass(frozen=True, slots=True)
class Body:
    """A food of plain form, all of its faces cooled alike.

    Parameters
    ----------
    directions : tuple of (Shape, float or array)
        Each direction heat can take, with half thickness or radius. [m]
    conductivity : float or (n,) array
        Thermal conductivity, > 0. [W/(m K)]
    diffusivity : float or (n,) array
        Thermal diffusivity, > 0. [m²/s]
    """

    directions: tuple[tuple[Shape, float | Draws], ...]
    conductivity: float | Draws
    diffusivity: float | Draws

    def modes(self, coefficient: float | Draws, count: int = MODES) -> tuple[Modes, ...]:
        """Modes of each direction.

        Parameters
        ----------
        coefficient : float or (…) array
            Heat transfer at the surface, > 0. [W/(m² K)]
        count : int
            Number of modes. [1]

        Returns
        -------
        tuple of Modes
            One a direction.
        """
        return tuple(
            modes(shape, np.asarray(coefficient) * half / self.conductivity, count)
            for shape, half in self.directions
        )

    def left(
        self, time: float | Draws, coefficient: float | Draws, place: Place = "centre"
    ) -> Draws:
        """What is left of the first difference of temperature.

        Parameters
        ----------
        time : float or (…) array
            Time, ≥ 0; broadcast against the coefficients. [s]
        coefficient : float or (…) array
            Heat transfer at the surface, > 0. [W/(m² K)]
        place : Place
            Centre, mean, or the middle of a face of the first direction.

        Returns
        -------
        (…) array
            Share left, 1 at the start, 0 in the end. [1]
        """
        found = self.modes(coefficient)
        return self._left(np.asarray(time, dtype=float), found, place)

    def _left(self, time: Draws, found: tuple[Modes, ...], place: Place) -> Draws:
        left: Draws = np.ones(())
        for at, (direction, (_, half)) in enumerate(zip(found, self.directions, strict=True)):
            fourier = self.diffusivity * time / half**2
            left = left * direction.left(fourier, _place_along(place, at))
        return left

    def time_until(
        self, share: float | Draws, coefficient: float | Draws, place: Place = "centre"
    ) -> Draws:
        """Time until only a share of the first difference is left.

        Parameters
        ----------
        share : float or (…) array
            Share left, above 0, at most 1. [1]
        coefficient : float or (…) array
            Heat transfer at the surface, > 0. [W/(m² K)]
        place : Place
            As in `left`.

        Returns
        -------
        (…) array
            Time, 0 for a share of 1. [s]

        Raises
        ------
        OutOfRange
            If a share is not above 0 or is above 1, or if a surface or a mean gets there before
            the modes describe it (a Fourier number of 0.008).

        Notes
        -----
        Newton's rule on ln(share), which bends one way only: down at the centre, up at the
        surface and on average. So the start, where the slowest mode alone would give the share,
        lies on the side from which each step comes nearer without passing.
        """
        wanted = np.asarray(share, dtype=float)
        if smallest(wanted) <= 0.0 or float(np.max(wanted)) > 1.0:
            raise OutOfRange(
                "A food cools towards its surroundings, and never quite gets there.",
                remedy="Ask for a temperature between those of the food and its surroundings.",
            )
        found = self.modes(coefficient)
        slowest: Draws = np.zeros(())
        for direction, (_, half) in zip(found, self.directions, strict=True):
            slowest = slowest + direction.roots[..., 0] ** 2 * self.diffusivity / half**2
        lead: Draws = np.ones(())
        for at, direction in enumerate(found):
            amplitudes: Draws = getattr(direction, _place_along(place, at))
            lead = lead * amplitudes[..., 0]
        time = np.maximum(np.log(lead / wanted), 1e-6) / slowest
        for _ in range(40):
            left = self._left(time, found, place)
            fall: Draws = np.zeros(())
            for at, (direction, (_, half)) in enumerate(zip(found, self.directions, strict=True)):
                along = _place_along(place, at)
                fourier = self.diffusivity * time / half**2
                relative = direction.loss(fourier, along) / direction.left(fourier, along)
                fall = fall + relative * self.diffusivity / half**2
            step = np.log(left / wanted) / np.where(fall > 0.0, fall, slowest)
            time = np.maximum(time + step, 0.5 * time)
            if bool(np.all(np.abs(step) <= 1e-10 * time)):
                break
        longest = largest(*(half for _, half in self.directions))
        if place != "centre" and smallest(time) * self.diffusivity < _SETTLED * longest**2:
            raise OutOfRange(
                "The surface gets there almost at once, too soon to be computed this way.",
                remedy="Ask for a temperature farther from the start, or for the centre.",
            )
        reached: Draws = np.where(wanted == 1.0, 0.0, time)
        return reached

    def decade_time(self, coefficient: float | Draws) -> Draws:
        """Time in which the difference falls to a tenth, once the start is forgotten: f.

        Parameters
        ----------
        coefficient : float or (…) array
            Heat transfer at the surface, > 0. [W/(m² K)]

        Returns
        -------
        (…) array
            f = ln 10 / Σ (β₁² α/R²). [s]
        """
        rate: Draws = np.zeros(())
        for direction, (_, half) in zip(self.modes(coefficient, 1), self.directions, strict=True):
            rate = rate + direction.roots[..., 0] ** 2 * self.diffusivity / half**2
        decade: Draws = np.log(10.0) / rate
        return decade

    def lag(self, coefficient: float | Draws, place: Place = "centre") -> Draws:
        """How far the start delays a place: j.

        Parameters
        ----------
        coefficient : float or (…) array
            Heat transfer at the surface, > 0. [W/(m² K)]
        place : Place
            As in `left`.

        Returns
        -------
        (…) array
            j = Π A₁, above 1 at the centre; then time ≈ f log₁₀(j/share), good to 1 % where the
            Fourier number of the shortest direction is above 0.2. [1]
        """
        lag: Draws = np.ones(())
        for at, direction in enumerate(self.modes(coefficient, 1)):
            amplitudes: Draws = getattr(direction, _place_along(place, at))
            lag = lag * amplitudes[..., 0]
        return lag


def _place_along(place: Place, direction: int) -> Place:
    return "centre" if place == "surface" and direction else place


def can(
    diameter: float | Draws, height: float | Draws, conductivity: float, diffusivity: float
) -> Body:
    """A filled round vessel.

    Parameters
    ----------
    diameter, height : float or (n,) array
        Of the filling. [m]
    conductivity : float or (n,) array
        Of the food. [W/(m K)]
    diffusivity : float or (n,) array
        Of the food. [m²/s]

    Returns
    -------
    Body
        Cylinder times slab.
    """
    directions: tuple[tuple[Shape, float | Draws], ...] = (
        ("cylinder", diameter / 2),
        ("slab", height / 2),
    )
    return Body(directions, conductivity, diffusivity)


def brick(sides: tuple[float, float, float], conductivity: float, diffusivity: float) -> Body:
    """A filled tray or a cut of meat.

    Parameters
    ----------
    sides : tuple of float
        Three edges. [m]
    conductivity : float or (n,) array
        Of the food. [W/(m K)]
    diffusivity : float or (n,) array
        Of the food. [m²/s]

    Returns
    -------
    Body
        Three slabs crossed.
    """
    slabs: tuple[tuple[Shape, float | Draws], ...] = tuple(("slab", side / 2) for side in sides)
    return Body(slabs, conductivity, diffusivity)
