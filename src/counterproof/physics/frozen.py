"""Food below its freezing point: how much of its water is ice, and what heat that holds.

The ice fraction is Chen's (1985) with the effective molar mass of the solids set by
Schwartzberg (1976), as in the ASHRAE Handbook, Refrigeration (2006), chapter 9, equations 3–5.
Enthalpy and apparent heat capacity follow from it and from the components' own heat, so that
one is exactly the integral of the other.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag, outside
from counterproof.physics.food_properties import COMPONENTS, Makeup, component_heat
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest
from counterproof.physics.water import HEAT_OF_FUSION
from counterproof.sourced import Sourced

BOUND_WATER: Final = Sourced(
    0.4, "1", 0.15, "ashrae-refrigeration-2006", "ch. 9, eq. 3 (after Schwartzberg 1976)",
    "water that never freezes, per mass of protein; from memory",
)  # fmt: skip
FREEZING_POINT: Final = Sourced(
    272.15, "K", 0.002, "assumed", "",
    "initial freezing point of moist unsalted food, −0.5 to −2 °C; syrups and brines lie far "
    "below and must be given",
)  # fmt: skip
_LOW: Final = ZERO_CELSIUS - 40.0


def ice_fraction(
    of: Makeup, temperature: float | Draws, freezing_point: float | Draws
) -> float | Draws:
    """Mass of ice in a kilogram of food.

    Parameters
    ----------
    of : Makeup
        What it is made of, unfrozen: its water counted as water.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    freezing_point : float or (n,) array
        Where the first ice forms, below 273.15. [K]

    Returns
    -------
    float or (n,) array
        Share, 0 above the freezing point. [1]

    Raises
    ------
    OutOfRange
        If the freezing point is not below that of water: a food with solids in it freezes lower.

    Notes
    -----
    (x_w − x_b)(1 − t_f/t), t in °C, x_b = 0.4 x_protein. Least sure within a degree of t_f.
    """
    if largest(freezing_point) >= ZERO_CELSIUS:
        raise OutOfRange(
            "A food begins to freeze below 0 °C.",
            remedy="Give an initial freezing point such as −1 °C (−0.01 °C for plain water).",
        )
    free = _freezable(of)
    depth = freezing_point - ZERO_CELSIUS
    celsius = np.minimum(temperature - ZERO_CELSIUS, depth)
    return free * (1.0 - depth / celsius)


def _freezable(of: Makeup) -> float | Draws:
    bound = BOUND_WATER.value * of.get("protein", 0.0)
    free: float | Draws = np.maximum(of.get("water", 0.0) - bound, 0.0)
    return free


def frozen_makeup(of: Makeup, temperature: float | Draws, freezing_point: float | Draws) -> Makeup:
    """The same food with part of its water counted as ice.

    Parameters
    ----------
    of : Makeup
        What it is made of, unfrozen.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    freezing_point : float or (n,) array
        Where the first ice forms, below 273.15. [K]

    Returns
    -------
    Makeup
        Fractions for `food_properties`; they add up as before.
    """
    ice = ice_fraction(of, temperature, freezing_point)
    return {**of, "water": of.get("water", 0.0) - ice, "ice": ice}


def enthalpy(
    of: Makeup, temperature: float | Draws, freezing_point: float | Draws
) -> float | Draws:
    """Heat in a kilogram of food, counted from the unfrozen food at 0 °C.

    Parameters
    ----------
    of : Makeup
        What it is made of, unfrozen.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    freezing_point : float or (n,) array
        Where the first ice forms, below 273.15. [K]

    Returns
    -------
    float or (n,) array
        Enthalpy, negative below 0 °C, rising with temperature. [J/kg]

    Notes
    -----
    Σ xᵢ hᵢ(T) with the water split into liquid and ice; ice is a heat of fusion (333.4 kJ/kg at
    0 °C) below water. Water below 0 °C keeps the equation it has above.
    """
    total: float | Draws = 0.0
    for name, share in frozen_makeup(of, temperature, freezing_point).items():
        heat = component_heat(name, temperature)
        total = total + share * (heat - HEAT_OF_FUSION.value if name == "ice" else heat)
    return total


def apparent_heat_capacity(
    of: Makeup, temperature: float | Draws, freezing_point: float | Draws
) -> float | Draws:
    """Heat that a kilogram of food takes up per degree, melting included.

    Parameters
    ----------
    of : Makeup
        What it is made of, unfrozen.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    freezing_point : float or (n,) array
        Where the first ice forms, below 273.15. [K]

    Returns
    -------
    float or (n,) array
        The exact derivative of `enthalpy`; it jumps at the freezing point. [J/(kg K)]
    """
    celsius = temperature - ZERO_CELSIUS
    depth = freezing_point - ZERO_CELSIUS
    total: float | Draws = 0.0
    for name, share in frozen_makeup(of, temperature, freezing_point).items():
        total = total + share * COMPONENTS[name].heat_capacity.polynomial(celsius)
    below = np.minimum(celsius, depth)
    # d(ice)/dT = free · t_f/t² (negative: t_f < 0), zero above the freezing point
    growth = np.where(celsius < depth, _freezable(of) * depth / below**2, 0.0)
    step = component_heat("ice", temperature) - HEAT_OF_FUSION.value
    result: float | Draws = total + growth * (step - component_heat("water", temperature))
    return result if np.ndim(result) else float(result)


def validity(temperature: float | Draws) -> tuple[Flag, ...]:
    """Flags of a frozen food's temperature.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature. [K]

    Returns
    -------
    tuple of Flag
        One below −40 °C, where the equations end.
    """
    return outside("frozen food temperature", temperature, _LOW, ZERO_CELSIUS + 150.0, "°C")
