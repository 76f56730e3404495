"""Heat that leaves a surface to air that is moved over it, and how the two kinds join."""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.physics import air
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import STANDARD_PRESSURE, Draws
from counterproof.sourced import Sourced

ACROSS: Final = Sourced(
    0.62, "1", 0.15, "churchill-bernstein-1977", "eq. 4", "cylinder across the stream, Re Pr > 0.2"
)
ALONG: Final = Sourced(
    0.664, "1", 0.1, "incropera-2007", "eq. 7.30", "laminar stream along a plate, Re < 5·10⁵"
)
TABLE_FAN: Final = Sourced(
    1.0, "m/s", 0.5, "assumed", "", "air that a table fan moves over a vessel an arm's length away"
)
_TURNS: Final = 5e5


def across(
    surface: float | Draws,
    ambient: float | Draws,
    diameter: float | Draws,
    speed: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Coefficient of an upright round wall in a level stream of air.

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the wall and of the air. [K]
    diameter : float or (n,) array
        Outer diameter, > 0. [m]
    speed : float or (n,) array
        Speed of the air, > 0. [m/s]
    pressure : float or (n,) array
        Air pressure. [Pa]

    Returns
    -------
    float or (n,) array
        Coefficient averaged round the wall. [W/(m² K)]

    Notes
    -----
    Nu = 0.3 + 0.62 Re^½ Pr^⅓ [1 + (0.4/Pr)^⅔]^(−¼) [1 + (Re/282000)^⅝]^⅘, Re Pr > 0.2.

    References
    ----------
    Churchill S. W., Bernstein M. (1977), J. Heat Transfer 99:300–306, eq. 4.
    """
    film = 0.5 * (surface + ambient)
    reynolds = speed * diameter / air.kinematic_viscosity(film, pressure)
    prandtl = air.prandtl(film)
    damping = (1.0 + (0.4 / prandtl) ** (2.0 / 3.0)) ** 0.25
    laminar = ACROSS.value * reynolds**0.5 * prandtl ** (1.0 / 3.0) / damping
    nusselt = 0.3 + laminar * (1.0 + (reynolds / 282000.0) ** 0.625) ** 0.8
    return nusselt * air.conductivity(film) / diameter


def along(
    surface: float | Draws,
    ambient: float | Draws,
    length: float | Draws,
    speed: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Coefficient of a level face with air streaming along it.

    Parameters
    ----------
    surface, ambient : float or (n,) array
        Temperatures of the face and of the air. [K]
    length : float or (n,) array
        Length along the stream, the diameter of a disc. [m]
    speed : float or (n,) array
        Speed of the air, > 0. [m/s]
    pressure : float or (n,) array
        Air pressure. [Pa]

    Returns
    -------
    float or (n,) array
        Coefficient. [W/(m² K)]

    Notes
    -----
    Nu = 0.664 Re^½ Pr^⅓, laminar, Re < 5·10⁵; kitchen air is less smooth, which helps.
    """
    film = 0.5 * (surface + ambient)
    reynolds = speed * length / air.kinematic_viscosity(film, pressure)
    nusselt = ALONG.value * reynolds**0.5 * air.prandtl(film) ** (1.0 / 3.0)
    return nusselt * air.conductivity(film) / length


def joined(still: float | Draws, moving: float | Draws) -> float | Draws:
    """Coefficient where air rises by itself and is moved as well.

    Parameters
    ----------
    still, moving : float or (n,) array
        Coefficients of either alone, ≥ 0. [W/(m² K)]

    Returns
    -------
    float or (n,) array
        Cube root of the sum of the cubes, the customary blend (Incropera 2007, eq. 9.64).
        [W/(m² K)]
    """
    blend: float | Draws = np.cbrt(still**3 + moving**3)
    return blend


def validity(ambient: float | Draws, diameter: float | Draws, speed: float) -> tuple[Flag, ...]:
    """Flags of the two correlations.

    Parameters
    ----------
    ambient : float or (n,) array
        Temperature of the air. [K]
    diameter : float or (n,) array
        Of the vessel. [m]
    speed : float
        Of the air. [m/s]

    Returns
    -------
    tuple of Flag
        One where the stream is too slow or too fast for them, none where the air stands still.
    """
    if speed == 0.0:
        return ()
    reynolds = speed * diameter / air.kinematic_viscosity(ambient)
    return outside("moving air (Reynolds number)", reynolds, 0.3, _TURNS, "")
