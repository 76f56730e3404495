"""Water that evaporates from an open surface below the boil: two published estimates, kept apart.

They differ by 1.4 at 60 °C and by 3 near the boil, and no measured pan data were found. A
question takes a value between them, drawn over the whole width. At a full boil neither holds:
what evaporates there is the net power over the latent heat.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.physics import air, convection, water
from counterproof.physics.air import Room
from counterproof.physics.values import GAS_CONSTANT, Draws
from counterproof.sourced import Sourced

BETWEEN: Final = Sourced(
    0.5, "1", 1.1, "assumed", "",
    "where evaporation lies between the still-air pool equation (0) and the analogy of heat and "
    "mass (1): unknown, so nine cases in ten between 0.2 and 0.95",
)  # fmt: skip
POOL: Final = Sourced(
    0.089 / 2300e3, "kg/(m² s Pa)", 0.3, "assumed", "",
    "still-air pool equation, 0.089 W/(m² Pa) over 2300 kJ/kg, from memory; meant for cooler pools",
)  # fmt: skip
HUMIDITY: Final = Sourced(
    0.5, "1", 0.3, "assumed", "", "relative humidity of a kitchen; matters little for hot pots"
)


def pool_flux(surface: float | Draws, room: Room) -> float | Draws:
    """Evaporation by the still-air pool equation: the low estimate.

    Parameters
    ----------
    surface : float or (n,) array
        Temperature of the water, 283 to 371. [K]
    room : Room
        The air above it.

    Returns
    -------
    float or (n,) array
        Mass flux. [kg/(m² s)]

    Notes
    -----
    0.089 (p_w − p_a)/2300 kJ/kg, after Carrier; no effect of the lighter moist air in it.
    """
    return POOL.value * (water.saturation_pressure(surface) - room.vapour)


def analogy_flux(
    surface: float | Draws,
    diameter: float | Draws,
    room: Room,
) -> float | Draws:
    """Evaporation by the analogy of heat and mass transfer: the high estimate.

    Parameters
    ----------
    surface : float or (n,) array
        Temperature of the water, 283 to 371. [K]
    diameter : float or (n,) array
        Diameter of the open surface. [m]
    room : Room
        The air above it.

    Returns
    -------
    float or (n,) array
        Mass flux. [kg/(m² s)]

    Notes
    -----
    Free convection of a hot top (McAdams), Chilton & Colburn's factor, and Stefan flow:
    h_m (p M/R T_film) ln[(p − p_a)/(p − p_w)]. It grows without bound towards the boil.
    """
    film = 0.5 * (surface + room.temperature)
    pressure = room.pressure
    heat = convection.top(surface, room.temperature, diameter, pressure)
    volumetric = air.density(film, pressure) * air.heat_capacity(film)
    transfer = heat / volumetric * air.lewis_factor(film, pressure)
    wet = water.saturation_pressure(surface)
    drive = np.log((pressure - room.vapour) / (pressure - wet))
    concentration = pressure * water.MOLAR_MASS.value / (GAS_CONSTANT * film)
    value: float | Draws = transfer * concentration * drive
    return value


def open_flux(
    surface: float | Draws,
    diameter: float | Draws,
    room: Room,
    between: float | Draws,
) -> float | Draws:
    """Evaporation between the two estimates.

    Parameters
    ----------
    surface : float or (n,) array
        Temperature of the water, 283 to 371. [K]
    diameter : float or (n,) array
        Diameter of the open surface. [m]
    room : Room
        The air above it.
    between : float or (n,) array
        0 for the low estimate, 1 for the high one, geometric between. [1]

    Returns
    -------
    float or (n,) array
        Mass flux. [kg/(m² s)]
    """
    low = pool_flux(surface, room)
    high = analogy_flux(surface, diameter, room)
    # The same sign on both: negative where the room's moisture settles on colder water.
    with np.errstate(divide="ignore"):
        logarithm = (1.0 - between) * np.log(np.abs(low)) + between * np.log(np.abs(high))
    value: float | Draws = np.sign(low) * np.exp(logarithm)
    return value
