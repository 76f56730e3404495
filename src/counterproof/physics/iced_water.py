"""An ice bath: heat from a vessel's contents, through its wall, into iced water."""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.physics import water
from counterproof.physics.values import GRAVITY, ZERO_CELSIUS, Draws
from counterproof.sourced import Sourced

BATH: Final = Sourced(
    ZERO_CELSIUS + 1.0, "K", 0.002, "assumed", "",
    "water with ice floating in it from first to last, 0–2 °C; without ice left it warms",
)  # fmt: skip
SWIRLED: Final = Sourced(
    350.0, "W/(m² K)", 0.5, "assumed", "",
    "contents and bath stirred by hand now and then; stirred vessels of industry reach 500–2000",
)  # fmt: skip


def coefficient(wall: float | Draws, fluid: float | Draws, height: float | Draws) -> float | Draws:
    """Coefficient between an upright wall and still water, warm or cold.

    Parameters
    ----------
    wall, fluid : float or (n,) array
        Temperatures of the wall and of the water away from it, 273.15 to 373. [K]
    height : float or (n,) array
        Wetted height, > 0. [m]

    Returns
    -------
    float or (n,) array
        Coefficient. [W/(m² K)]

    Notes
    -----
    Churchill & Chu (1975), eq. 9, on Ra = g H³ |Δρ|/ρ /(ν α). The difference of densities stands
    for β ΔT, since water is densest at 4 °C: between 0 and 8 °C the drive vanishes and 0.68 k/H
    is left.
    """
    film = 0.5 * (wall + fluid)
    mass = water.density(film)
    lift = np.abs(water.density(wall) - water.density(fluid)) / mass
    k = water.conductivity(film)
    kinematic = water.viscosity(film) / mass
    diffusivity = k / (mass * water.heat_capacity(film))
    rayleigh = GRAVITY * lift * height**3 / (kinematic * diffusivity)
    shape = (1.0 + (0.492 * diffusivity / kinematic) ** (9 / 16)) ** (8 / 27)
    nusselt: float | Draws = (0.825 + 0.387 * rayleigh ** (1 / 6) / shape) ** 2
    return nusselt * k / height


def through_wall(
    contents: Draws,
    bath: float | Draws,
    height: float | Draws,
    resistance: float | Draws,
    film: float | Draws | None = None,
) -> Draws:
    """Coefficient from the middle of the contents to the bath.

    Parameters
    ----------
    contents : (…) array
        Temperature of the contents. [K]
    bath : float or (n,) array
        Temperature of the bath. [K]
    height : float or (n,) array
        Wetted height, > 0. [m]
    resistance : float or (n,) array
        Of the wall, thickness over conductivity. [m² K/W]
    film : float or (n,) array or None
        Coefficient on both sides where contents and bath are stirred; None where both stand
        still. [W/(m² K)]

    Returns
    -------
    (…) array
        1/(1/h_inside + resistance + 1/h_outside). [W/(m² K)]

    Notes
    -----
    Still: both films by `coefficient`; the temperatures of the wall are found by halving, so
    that the same heat passes through films and wall.
    """
    if film is not None:
        return np.asarray(1.0 / (2.0 / film + resistance) + 0.0 * contents)
    # Outer face of the wall: too cold while more heat arrives than the bath takes.
    low = bath + 0.0 * contents
    high = contents + 0.0 * low
    for _ in range(30):
        outer = 0.5 * (low + high)
        taken = coefficient(outer, bath, height) * (outer - bath)
        inner = outer + taken * resistance
        given = coefficient(inner, contents, height) * (contents - inner)
        low = np.where(given > taken, outer, low)
        high = np.where(given > taken, high, outer)
    span = np.maximum(contents - bath, 1e-9)
    overall: Draws = np.maximum(taken, 0.0) / span
    return overall


def ice_needed(heat: float | Draws) -> float | Draws:
    """Ice that melts when a bath takes up heat and stays iced.

    Parameters
    ----------
    heat : float or (n,) array
        Heat from the food and its vessel, ≥ 0. [J]

    Returns
    -------
    float or (n,) array
        Mass of ice at 0 °C; as much water again is wanted to carry the heat. [kg]
    """
    return heat / water.HEAT_OF_FUSION.value
