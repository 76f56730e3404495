"""Heat that leaves a surface to still air: free convection on walls, tops and bottoms, radiation.

Every coefficient is a mean over the surface. `flow` multiplies what the correlations give; it is
where a question puts the uncertainty of still air (draughts, neighbours, a shelf).
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.physics import air
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import (
    GRAVITY,
    STANDARD_PRESSURE,
    STEFAN_BOLTZMANN,
    Draws,
)
from counterproof.sourced import Sourced

EMISSIVITY: Final = Sourced(
    0.9, "1", 0.1, "assumed", "",
    "glass, enamel, food, water, painted or stained metal; polished steel is 0.1–0.3",
)  # fmt: skip
EMISSIVITY_BRIGHT: Final = Sourced(
    0.25, "1", 0.4, "assumed", "", "bare stainless steel or aluminium as it comes from the shelf"
)
FLOW: Final = Sourced(
    1.0, "1", 0.18, "assumed", "",
    "free convection in a real kitchen against the correlations: 0.7–1.3 holds nine cases in ten",
)  # fmt: skip
_WALL: Final = (1e-1, 1e12)
_UP: Final = (1e4, 1e11)


def rayleigh(
    surface: float | Draws,
    ambient: float | Draws,
    length: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Rayleigh number of air beside a surface.

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the surface and of the air far from it. [K]
    length : float or (n,) array
        Characteristic length, > 0. [m]
    pressure : float or (n,) array
        Air pressure. [Pa]

    Returns
    -------
    float or (n,) array
        g β |ΔT| L³ / (ν α), properties at the film temperature, β = 1/T_film. [1]
    """
    film = 0.5 * (surface + ambient)
    difference: float | Draws = np.abs(surface - ambient)
    drive = GRAVITY * difference * length**3 / film
    return drive / (air.kinematic_viscosity(film, pressure) * air.diffusivity(film, pressure))


def wall(
    surface: float | Draws,
    ambient: float | Draws,
    height: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Coefficient of a vertical wall.

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the wall and of the air. [K]
    height : float or (n,) array
        Height of the wall, > 0. [m]
    pressure : float or (n,) array
        Air pressure. [Pa]

    Returns
    -------
    float or (n,) array
        Heat-transfer coefficient. [W/(m² K)]

    Notes
    -----
    Nu = {0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27)}², Churchill & Chu (1975), 0.1 <
    Ra < 10¹². Slim bottles lose 5–10 % more than the plane wall it holds for.
    """
    film = 0.5 * (surface + ambient)
    number = rayleigh(surface, ambient, height, pressure)
    shape = (1.0 + (0.492 / air.prandtl(film)) ** (9 / 16)) ** (8 / 27)
    nusselt = (0.825 + 0.387 * number ** (1 / 6) / shape) ** 2
    return nusselt * air.conductivity(film) / height


def top(
    surface: float | Draws,
    ambient: float | Draws,
    diameter: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Coefficient of a round top hotter than the air (or a bottom colder than it).

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the surface and of the air. [K]
    diameter : float or (n,) array
        Diameter, > 0; for a rectangle four times its area over its rim. [m]
    pressure : float or (n,) array
        Air pressure. [Pa]

    Returns
    -------
    float or (n,) array
        Heat-transfer coefficient. [W/(m² K)]

    Notes
    -----
    McAdams: Nu = 0.54 Ra^¼ below Ra = 10⁷, 0.15 Ra^⅓ above, on L = area/rim = D/4.
    """
    film = 0.5 * (surface + ambient)
    length = diameter / 4.0
    number = rayleigh(surface, ambient, length, pressure)
    nusselt = np.where(number < 1e7, 0.54 * number**0.25, 0.15 * number ** (1 / 3))
    value: float | Draws = nusselt * air.conductivity(film) / length
    return value


def bottom(
    surface: float | Draws,
    ambient: float | Draws,
    diameter: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Coefficient of a round bottom hotter than the air, free below (or a top colder than it).

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the surface and of the air. [K]
    diameter : float or (n,) array
        Diameter, > 0; for a rectangle four times its area over its rim. [m]
    pressure : float or (n,) array
        Air pressure. [Pa]

    Returns
    -------
    float or (n,) array
        Heat-transfer coefficient. [W/(m² K)]

    Notes
    -----
    McAdams: Nu = 0.27 Ra^¼ on L = area/rim = D/4, meant for 10⁵ < Ra < 10¹⁰.
    """
    film = 0.5 * (surface + ambient)
    length = diameter / 4.0
    nusselt = 0.27 * rayleigh(surface, ambient, length, pressure) ** 0.25
    return nusselt * air.conductivity(film) / length


def radiation(
    surface: float | Draws, ambient: float | Draws, emissivity: float | Draws
) -> float | Draws:
    """Radiation as a coefficient, to surroundings that are much larger.

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the surface and of what it sees. [K]
    emissivity : float or (n,) array
        Emissivity of the surface, 0 to 1. [1]

    Returns
    -------
    float or (n,) array
        ε σ (T² + T_a²)(T + T_a). [W/(m² K)]
    """
    return emissivity * STEFAN_BOLTZMANN * (surface**2 + ambient**2) * (surface + ambient)


def validity(
    surface: float | Draws,
    ambient: float | Draws,
    *,
    height: float | Draws | None = None,
    diameter: float | Draws | None = None,
) -> tuple[Flag, ...]:
    """Flags of the correlations used on a vessel.

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the surface and of the air. [K]
    height : float or (n,) array or None
        Height of its wall. [m]
    diameter : float or (n,) array or None
        Diameter of its top and bottom. [m]

    Returns
    -------
    tuple of Flag
        One for each face that leaves its range, as a note: at small differences the heat is
        small too.
    """
    flags: tuple[Flag, ...] = ()
    if height is not None:
        flags += outside("wall (Rayleigh number)", rayleigh(surface, ambient, height), *_WALL, "")
    if diameter is not None:
        number = rayleigh(surface, ambient, diameter / 4.0)
        flags += outside("top (Rayleigh number)", number, *_UP, "")
    return tuple(Flag(flag.name, flag.message, "note") for flag in flags)
