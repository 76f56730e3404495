"""What freezes: temperature and conductivity as tables over the heat it holds.

Heat is the variable because a freezing body may take or give it at one temperature. Volume is kept
at the unfrozen one: a jar's walls stay where they are, and what swells rises into the head space.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frozen
from counterproof.physics.food_properties import Makeup
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest

_POINTS: Final = 4001
COLDEST: Final = ZERO_CELSIUS - 45.0
WARMEST: Final = ZERO_CELSIUS + 105.0


@dataclass(frozen=True, slots=True)
class Substance:
    """Temperature and conductivity over heat per volume, evenly spaced.

    Parameters
    ----------
    lowest : float
        Heat at the first point. [J/m³]
    step : float
        Heat between points, > 0. [J/m³]
    temperature : (m,) array
        Never falling. [K]
    conductivity : (m,) array
        Above zero. [W/(m K)]
    freezing_point : float
        Where the first ice forms. [K]
    """

    lowest: float
    step: float
    temperature: Draws
    conductivity: Draws
    freezing_point: float

    def heat(self, temperature: float | Draws) -> Draws:
        """Heat at a temperature.

        Parameters
        ----------
        temperature : float or (n,) array
            Temperature; on the plateau of a sharp front the unfrozen end. [K]

        Returns
        -------
        (n,) array
            Heat per volume. [J/m³]
        """
        at = np.searchsorted(self.temperature, np.asarray(temperature), side="right") - 1
        at = np.clip(at, 0, self.temperature.size - 2)
        low = self.temperature[at]
        rise = self.temperature[at + 1] - low
        part = (np.asarray(temperature) - low) / np.where(rise > 0.0, rise, 1.0)
        found: Draws = self.lowest + self.step * (at + part)
        return found

    def read(self, heat: Draws) -> tuple[Draws, Draws, Draws]:
        """Temperature, its slope, and conductivity.

        Parameters
        ----------
        heat : (…) array
            Heat per volume. [J/m³]

        Returns
        -------
        tuple of (…) arrays
            Temperature [K], its slope [K m³/J], conductivity. [W/(m K)]
        """
        place = (heat - self.lowest) / self.step
        at = np.minimum(np.maximum(place, 0.0).astype(np.intp), self.temperature.size - 2)
        part = place - at
        low, first = self.temperature[at], self.conductivity[at]
        rise = self.temperature[at + 1] - low
        # Beyond the table only the temperature goes on.
        inside = np.minimum(np.maximum(part, 0.0), 1.0)
        conductivity = first + inside * (self.conductivity[at + 1] - first)
        return low + part * rise, rise / self.step, conductivity


def _evenly(heat: Draws, temperature: Draws, conductivity: Draws, freezing: float) -> Substance:
    even = np.linspace(heat[0], heat[-1], _POINTS)
    return Substance(
        float(even[0]),
        float(even[1] - even[0]),
        np.interp(even, heat, temperature),
        np.interp(even, heat, conductivity),
        freezing,
    )


def food(of: Makeup, freezing_point: float, *, mixing: float = 1.0) -> Substance:
    """A food or a drink, from what it is made of.

    Parameters
    ----------
    of : Makeup
        What it is made of, unfrozen; fractions add up to 1.
    freezing_point : float
        Where the first ice forms, below 273.15. [K]
    mixing : float
        How much more heat the unfrozen part carries than at rest, ≥ 1: melt moves. [1]

    Returns
    -------
    Substance
        −45 to 105 °C; the equations behind it end at −40 °C.

    Raises
    ------
    OutOfRange
        If `mixing` is below 1.

    Notes
    -----
    Choi & Okos properties with Chen's ice fraction; density that of the food at 0 °C.
    """
    if mixing < 1.0:
        raise OutOfRange(
            "A liquid that moves carries at least as much heat as one at rest.",
            remedy="Give 1 for a thick or solid food.",
        )
    depth = np.geomspace(1e-5, freezing_point - COLDEST, 3000)
    below = (freezing_point - depth)[::-1]
    above = np.linspace(freezing_point, WARMEST, 600)
    kelvin = np.concatenate((below, above))
    mass = food_properties.density(of, ZERO_CELSIUS)
    heat = mass * np.asarray(frozen.enthalpy(of, kelvin, freezing_point))
    iced = frozen.frozen_makeup(of, kelvin, freezing_point)
    conductivity = np.asarray(food_properties.conductivity(iced, kelvin).between)
    factor = np.where(kelvin >= freezing_point, mixing, 1.0)
    return _evenly(heat, kelvin, conductivity * factor, freezing_point)


def sharp(
    *,
    freezing_point: float,
    latent: float,
    capacities: tuple[float, float],
    conductivities: tuple[float, float],
) -> Substance:
    """A substance of constant properties that freezes at one temperature.

    Parameters
    ----------
    freezing_point : float
        Freezing temperature. [K]
    latent : float
        Heat of fusion per volume, > 0. [J/m³]
    capacities : tuple of float
        Heat capacity per volume, frozen and unfrozen. [J/(m³ K)]
    conductivities : tuple of float
        Conductivity, frozen and unfrozen. [W/(m K)]

    Returns
    -------
    Substance
        With a plateau; heat is 0 in the unfrozen substance at the freezing point.

    Raises
    ------
    OutOfRange
        If a property is not above zero.
    """
    if min(latent, *capacities, *conductivities) <= 0.0:
        raise OutOfRange("Properties lie above zero.", remedy="Give them in SI units.")
    # The plateau begins and ends on points of the table.
    step = latent / 1000.0
    cold = int(np.ceil(capacities[0] * (freezing_point - COLDEST) / step))
    warm = int(np.ceil(capacities[1] * (WARMEST - freezing_point) / step))
    heat = step * np.arange(-1000 - cold, warm + 1)
    kelvin = freezing_point + np.where(
        heat < 0.0, np.minimum(heat + latent, 0.0) / capacities[0], heat / capacities[1]
    )
    melted = np.clip(1.0 + heat / latent, 0.0, 1.0)
    conductivity = conductivities[0] + melted * (conductivities[1] - conductivities[0])
    return Substance(float(heat[0]), step, kelvin, conductivity, freezing_point)


def refuse_impossible(start: float, ambient: float | Draws, until: float) -> None:
    """Refuse a freezing or thawing that would never end.

    Parameters
    ----------
    start : float
        Temperature at the start. [K]
    ambient : float or (n,) array
        Temperature around. [K]
    until : float
        Temperature the core must reach. [K]

    Raises
    ------
    OutOfRange
        If the temperature wanted does not lie between start and surroundings.
    """
    cooling = start > until
    gap = (until - ambient) if cooling else (ambient - until)
    if start == until or largest(-gap) >= 0.0:
        raise OutOfRange(
            f"The core would never get from {start - ZERO_CELSIUS:.3g} to "
            f"{until - ZERO_CELSIUS:.3g} °C in surroundings of "
            f"{largest(ambient) - ZERO_CELSIUS:.3g} °C.",
            remedy="Give surroundings colder than the end when freezing, warmer when thawing.",
        )
