"""Heat and vapour that leave a surface: rising air, moving air, radiation, evaporation, iced water.

Every function returns a coefficient in W/(m² K) on the difference between surface and
surroundings, or a flux of vapour. Properties are taken at the film temperature, the mean of the
two. Correlations are good to 10–20 % on plates; on real vessels that touch, crowd and lean, to
about 30 %, which is what `cooling` draws.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.physics import air, water
from counterproof.physics.flags import Flag, outside, unique
from counterproof.physics.values import (
    GAS_CONSTANT,
    GRAVITY,
    STANDARD_PRESSURE,
    STEFAN_BOLTZMANN,
    Draws,
)
from counterproof.sourced import Sourced

VERTICAL: Final = Sourced(
    0.387, "1", 0.1, "churchill-chu-1975", "eq. 9, all Rayleigh numbers to 10¹²",
    "isothermal vertical plate; cylinders wider than 35 H/Gr^¼ count as plates",
)  # fmt: skip
FACING_UP: Final = Sourced(
    0.54, "1", 0.15, "mcadams-1954", "horizontal plates, laminar, Ra 10⁴–10⁷", "length: area/rim"
)
FACING_UP_TURBULENT: Final = Sourced(
    0.15, "1", 0.15, "mcadams-1954", "horizontal plates, turbulent, Ra 10⁷–10¹¹", "length: area/rim"
)
FACING_DOWN: Final = Sourced(
    0.27, "1", 0.2, "mcadams-1954", "hot plates facing down, Ra 10⁵–10¹⁰", "length: area/rim"
)
ACROSS: Final = Sourced(
    0.62, "1", 0.15, "churchill-bernstein-1977", "eq. 4, Re Pr > 0.2", "cylinder across the stream"
)
ALONG: Final = Sourced(
    0.664, "1", 0.1, "pohlhausen-1921", "laminar flow along a flat plate, Re < 5·10⁵", ""
)
_TURN: Final = 1e7  # Rayleigh number at which an upward face turns turbulent (McAdams)


def vertical_nusselt(rayleigh: float | Draws, prandtl: float | Draws) -> float | Draws:
    """Nusselt number of a vertical face in a still fluid.

    Parameters
    ----------
    rayleigh : float or (n,) array
        Rayleigh number on the height, 0 to 10¹². [1]
    prandtl : float or (n,) array
        Prandtl number, > 0. [1]

    Returns
    -------
    float or (n,) array
        {0.825 + 0.387 Ra^(1/6) / [1 + (0.492/Pr)^(9/16)]^(8/27)}². [1]

    References
    ----------
    Churchill S. W., Chu H. H. S. (1975), Int. J. Heat Mass Transfer 18:1323–1329, eq. 9.
    """
    damping = (1.0 + (0.492 / prandtl) ** (9.0 / 16.0)) ** (8.0 / 27.0)
    root = 0.825 + VERTICAL.value * np.abs(rayleigh) ** (1.0 / 6.0) / damping
    nusselt: float | Draws = root * root
    return nusselt


def level_nusselt(rayleigh: float | Draws) -> float | Draws:
    """Nusselt number of a level face whose heated fluid can rise away freely.

    Parameters
    ----------
    rayleigh : float or (n,) array
        Rayleigh number on area over rim, 10⁴ to 10¹¹. [1]

    Returns
    -------
    float or (n,) array
        0.54 Ra^¼ up to 10⁷, 0.15 Ra^⅓ above, which starts 6 % higher, as published. [1]

    References
    ----------
    McAdams W. H. (1954), Heat Transmission, 3rd ed., ch. 7; on the length of Goldstein R. J.,
    Sparrow E. M., Jones D. C. (1973), Int. J. Heat Mass Transfer 16:1025–1035.
    """
    laminar = FACING_UP.value * rayleigh**0.25
    nusselt: float | Draws = np.where(
        np.asarray(rayleigh) > _TURN, FACING_UP_TURBULENT.value * np.cbrt(rayleigh), laminar
    )[()]
    return nusselt


def _rayleigh_in_air(
    length: float | Draws, surface: float | Draws, around: float | Draws
) -> tuple[float | Draws, float | Draws]:
    film = 0.5 * (surface + around)
    ratio = np.abs(surface - around) / film
    viscous = air.kinematic_viscosity(film) * air.diffusivity(film)
    return GRAVITY * ratio * length**3 / viscous, film


def from_wall(
    height: float | Draws, surface: float | Draws, around: float | Draws
) -> float | Draws:
    """Convection from an upright wall to still air.

    Parameters
    ----------
    height : float or (n,) array
        Height of the wall, > 0. [m]
    surface, around : float or (n,) array
        Temperatures of wall and air, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Coefficient. [W/(m² K)]

    Notes
    -----
    `vertical_nusselt`, expansion 1/T of an ideal gas at the film temperature.
    """
    rayleigh, film = _rayleigh_in_air(length=height, surface=surface, around=around)
    return vertical_nusselt(rayleigh, air.prandtl(film)) * air.conductivity(film) / height


def from_top(length: float | Draws, surface: float | Draws, around: float | Draws) -> float | Draws:
    """Convection from a level face that looks up, to still air.

    Parameters
    ----------
    length : float or (n,) array
        Area over rim, a quarter of the diameter of a disc. [m]
    surface, around : float or (n,) array
        Temperatures of face and air, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Coefficient; a face colder than the air is stifled like a hot one facing down.
        [W/(m² K)]
    """
    return _level(length, surface, around, freely=np.asarray(surface) >= np.asarray(around))


def from_bottom(
    length: float | Draws, surface: float | Draws, around: float | Draws
) -> float | Draws:
    """Convection from a level face that looks down, to still air, as on a wire shelf.

    Parameters
    ----------
    length : float or (n,) array
        Area over rim, a quarter of the diameter of a disc. [m]
    surface, around : float or (n,) array
        Temperatures of face and air, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Coefficient, from 0.27 Ra^¼ where the face is warmer than the air. [W/(m² K)]
    """
    return _level(length, surface, around, freely=np.asarray(surface) < np.asarray(around))


def _level(
    length: float | Draws,
    surface: float | Draws,
    around: float | Draws,
    *,
    freely: np.ndarray[tuple[int, ...], np.dtype[np.bool_]],
) -> float | Draws:
    rayleigh, film = _rayleigh_in_air(length, surface, around)
    nusselt = np.where(freely, level_nusselt(rayleigh), FACING_DOWN.value * rayleigh**0.25)
    coefficient: float | Draws = (nusselt * air.conductivity(film) / length)[()]
    return coefficient


def across_stream(
    diameter: float | Draws, speed: float | Draws, surface: float | Draws, around: float | Draws
) -> float | Draws:
    """Convection from an upright round vessel to moving air.

    Parameters
    ----------
    diameter : float or (n,) array
        Outer diameter. [m]
    speed : float or (n,) array
        Speed of the air, > 0; Re Pr above 0.2. [m/s]
    surface, around : float or (n,) array
        Temperatures of wall and air, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Coefficient averaged round the vessel. [W/(m² K)]

    References
    ----------
    Churchill S. W., Bernstein M. (1977), J. Heat Transfer 99:300–306, eq. 4.
    """
    film = 0.5 * (surface + around)
    reynolds = speed * diameter / air.kinematic_viscosity(film)
    prandtl = air.prandtl(film)
    damping = (1.0 + (0.4 / prandtl) ** (2.0 / 3.0)) ** 0.25
    laminar = ACROSS.value * reynolds**0.5 * prandtl ** (1.0 / 3.0) / damping
    nusselt = 0.3 + laminar * (1.0 + (reynolds / 282000.0) ** 0.625) ** 0.8
    return nusselt * air.conductivity(film) / diameter


def along_stream(
    length: float | Draws, speed: float | Draws, surface: float | Draws, around: float | Draws
) -> float | Draws:
    """Convection from a level face to air that moves along it.

    Parameters
    ----------
    length : float or (n,) array
        Length along the stream. [m]
    speed : float or (n,) array
        Speed of the air, > 0; Re below 5·10⁵. [m/s]
    surface, around : float or (n,) array
        Temperatures of face and air, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        0.664 Re^½ Pr^⅓ k/L (Pohlhausen). [W/(m² K)]
    """
    film = 0.5 * (surface + around)
    reynolds = speed * length / air.kinematic_viscosity(film)
    nusselt = ALONG.value * reynolds**0.5 * air.prandtl(film) ** (1.0 / 3.0)
    return nusselt * air.conductivity(film) / length


def joined_streams(still: float | Draws, moving: float | Draws) -> float | Draws:
    """Convection where air both rises by itself and is moved.

    Parameters
    ----------
    still, moving : float or (n,) array
        Coefficients of either alone, ≥ 0. [W/(m² K)]

    Returns
    -------
    float or (n,) array
        Cube root of the sum of cubes, the customary blend (Churchill 1977). [W/(m² K)]
    """
    blend: float | Draws = np.cbrt(still**3 + moving**3)
    return blend


def by_radiation(
    surface: float | Draws, around: float | Draws, emissivity: float | Draws
) -> float | Draws:
    """Radiation to surroundings that enclose the surface.

    Parameters
    ----------
    surface, around : float or (n,) array
        Temperatures of surface and walls, > 0. [K]
    emissivity : float or (n,) array
        Of the surface, 0 to 1. [1]

    Returns
    -------
    float or (n,) array
        ε σ (Tₛ² + Tₐ²)(Tₛ + Tₐ). [W/(m² K)]
    """
    return emissivity * STEFAN_BOLTZMANN * (surface**2 + around**2) * (surface + around)


def evaporation(
    coefficient: float | Draws,
    surface: float | Draws,
    around: float | Draws,
    humidity: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Vapour that leaves an open wet surface below its boiling point.

    Parameters
    ----------
    coefficient : float or (n,) array
        Convection from that surface. [W/(m² K)]
    surface, around : float or (n,) array
        Temperatures of surface and air, 274 to below the boiling point. [K]
    humidity : float or (n,) array
        Relative humidity of the air, 0 to 1. [1]
    pressure : float or (n,) array
        Absolute pressure; above the vapour pressure of the surface. [Pa]

    Returns
    -------
    float or (n,) array
        Mass flux, negative where vapour condenses on it; infinite at the boiling point.
        [kg/(m² s)]

    Notes
    -----
    Analogy of Chilton & Colburn: β = h/(ρ cp) (D/α)^(2/3), properties of dry air at the film
    temperature; flux (β M/(R T)) p ln[(p − pᵥₐ)/(p − pᵥₛ)], whose logarithm is Stefan's correction
    for the stream of vapour itself. A published rule for cooler pools of water gives 1.4 times
    less at 60 °C and three times less at 95 °C; no measured kitchen pan was found.
    """
    film = 0.5 * (surface + around)
    near = water.saturation_pressure(surface)
    far = air.vapour_pressure(around, humidity)
    speed = coefficient / (air.density(film, pressure) * air.heat_capacity(film))
    speed = speed * air.lewis_factor(film, pressure)
    with np.errstate(divide="ignore"):
        drive = np.log((pressure - far) / (pressure - near))
    flux: float | Draws = speed * pressure * water.MOLAR_MASS.value / (GAS_CONSTANT * film) * drive
    return flux


def in_water(height: float | Draws, wall: float | Draws, bath: float | Draws) -> float | Draws:
    """Convection between an upright wall and still water.

    Parameters
    ----------
    height : float or (n,) array
        Height of the wetted wall. [m]
    wall, bath : float or (n,) array
        Temperatures of wall and water, 273.15 to 373. [K]

    Returns
    -------
    float or (n,) array
        Coefficient. [W/(m² K)]

    Notes
    -----
    `vertical_nusselt` on Ra = g H³ |Δρ|/ρ /(ν α). The difference of densities takes the place of
    β ΔT, since water is densest at 4 °C: between about 0 and 8 °C the drive vanishes, and the
    coefficient falls to the 0.68 k/H of pure conduction.
    """
    film = 0.5 * (wall + bath)
    mass = water.density(film)
    lift = np.abs(water.density(wall) - water.density(bath)) / mass
    k = water.conductivity(film)
    diffusivity = k / (mass * water.heat_capacity(film))
    kinematic = water.viscosity(film) / mass
    rayleigh = GRAVITY * lift * height**3 / (kinematic * diffusivity)
    return vertical_nusselt(rayleigh, kinematic / diffusivity) * k / height


def validity(
    height: float, length: float, surface: float | Draws, around: float | Draws
) -> tuple[Flag, ...]:
    """Flags of convection to still air from a vessel.

    Parameters
    ----------
    height : float
        Height of its wall. [m]
    length : float
        Area over rim of its top. [m]
    surface, around : float or (n,) array
        Temperatures. [K]

    Returns
    -------
    tuple of Flag
        Where a Rayleigh number or an air temperature leaves its range.
    """
    on_wall = _rayleigh_in_air(height, surface, around)[0]
    on_top = _rayleigh_in_air(length, surface, around)[0]
    film = 0.5 * (surface + around)
    return unique(
        (
            *outside("size of the vessel's wall, as a Rayleigh number", on_wall, 0.0, 1e12, ""),
            *outside("size of the vessel's top, as a Rayleigh number", on_top, 1e4, 1e11, ""),
            *outside("mean temperature of food and air", film, 233.15, 423.15, "°C"),
        )
    )
