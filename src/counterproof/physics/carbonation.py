"""Carbon dioxide dissolved in water at equilibrium with the gas above it.

Henry's law with the constant of Carroll, Slupsky & Mather (1991) and the fugacity of the real
gas. It is for pure water: sugar and alcohol hold less (`SUGARED`). What is lost in the glass
stands in `fizz_loss`, what a machine uses in `charging`.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import carbon_dioxide, water
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import (
    STANDARD_PRESSURE,
    ZERO_CELSIUS,
    Draws,
    Fit,
    largest,
    smallest,
)
from counterproof.sourced import Sourced

HENRY: Final = Fit(
    (-6.8346, 1.2817e4, -3.7668e6, 2.997e8),
    "MPa", 273.15, 433.15, 0.02, "carroll-1991", "equation of the abstract, in powers of 1/T",
    "the source states p < 1 MPa; measured values near 25 °C spread by about 2 %",
)  # fmt: skip
VALID_PRESSURE: Final = 1.0e6
"""Highest pressure of the source's equation. [Pa]"""
TABLED_PRESSURE: Final = 1.013e5
"""Highest partial pressure of the printed table it was held against here. [Pa]"""
VOLUME: Final = Sourced(
    1.9768, "kg/m³", 1e-4, "span-wagner-1996", "CO2 at 0 °C and 1 atm",
    "one volume: a litre of gas at 0 °C and 1 atm in a litre of drink",
)  # fmt: skip
VOLUME_IDEAL: Final = Sourced(
    1.9635, "kg/m³", 0.0, "exact", "44.0095 g/mol over 22.414 L/mol",
    "the trade's 1.96 g/L: the same volume as an ideal gas",
)  # fmt: skip
SIXTY_FAHRENHEIT: Final = ZERO_CELSIUS + 15.556
"""Temperature of the other definition of a volume. [K]"""
SUGARED: Final = Sourced(
    0.935, "1", 0.02, "assumed", "",
    "share of pure water's CO2 that a drink of 10 % sugar takes: 5 to 8 % less, no kitchen-pressure "
    "figures found; drinks other than water are affected",
)  # fmt: skip


def henry_constant(temperature: float | Draws) -> float | Draws:
    """Henry's constant of carbon dioxide in water.

    Parameters
    ----------
    temperature : float or (n,) array
        Water temperature, 273.15 to 433.15. [K]

    Returns
    -------
    float or (n,) array
        Fugacity over mole fraction. [Pa]

    Notes
    -----
    ln(H/MPa) = −6.8346 + 1.2817·10⁴/T − 3.7668·10⁶/T² + 2.997·10⁸/T³ (Carroll, Slupsky & Mather
    1991), 0 to 160 °C, below 1 MPa.
    """
    value: float | Draws = 1e6 * np.exp(HENRY.polynomial(1.0 / temperature))
    return value


def partial_pressure(
    temperature: float | Draws, total: float | Draws, foreign: float | Draws = 0.0
) -> float | Draws:
    """Pressure of the carbon dioxide in a head space.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature of water and head space. [K]
    total : float or (n,) array
        Absolute pressure. [Pa]
    foreign : float or (n,) array
        Pressure of the air left in it. [Pa]

    Returns
    -------
    float or (n,) array
        Total less water vapour less air. [Pa]

    Raises
    ------
    OutOfRange
        If vapour and air alone reach the total.
    """
    partial = total - water.saturation_pressure(temperature) - foreign
    if smallest(partial) <= 0.0:
        raise OutOfRange(
            "There is no room for carbon dioxide: vapour and air already make up the pressure.",
            remedy="Raise the pressure, cool the water, or let the air out first.",
        )
    return partial


def mole_fraction(temperature: float | Draws, partial: float | Draws) -> float | Draws:
    """Mole fraction of carbon dioxide in water.

    Parameters
    ----------
    temperature : float or (n,) array
        Water temperature, 273.15 to 433.15. [K]
    partial : float or (n,) array
        Pressure of the carbon dioxide, 0 to 1,000,000. [Pa]

    Returns
    -------
    float or (n,) array
        Moles of CO₂ per mole of water and CO₂. [1]

    Notes
    -----
    x = φ p / H. Against the printed table of the CRC Handbook within its last digit.
    """
    fugacity = partial * carbon_dioxide.fugacity_coefficient(temperature, partial)
    return fugacity / henry_constant(temperature)


def dissolved(temperature: float | Draws, partial: float | Draws) -> float | Draws:
    """Carbon dioxide that water holds at equilibrium.

    Parameters
    ----------
    temperature : float or (n,) array
        Water temperature, 273.15 to 433.15. [K]
    partial : float or (n,) array
        Pressure of the carbon dioxide, 0 to 1,000,000. [Pa]

    Returns
    -------
    float or (n,) array
        Mass per volume of water; the same number in g/L. [kg/m³]

    Notes
    -----
    c = x/(1 − x) · ρ_water/M_water · M_CO₂; the litre is one of water before the gas came in.
    """
    x = mole_fraction(temperature, partial)
    moles = x / (1.0 - x) * water.density(temperature) / water.MOLAR_MASS.value
    return moles * carbon_dioxide.MOLAR_MASS.value


def partial_pressure_for(temperature: float | Draws, concentration: float | Draws) -> float | Draws:
    """Pressure of carbon dioxide that keeps so much of it dissolved.

    Parameters
    ----------
    temperature : float or (n,) array
        Water temperature, 273.15 to 433.15. [K]
    concentration : float or (n,) array
        Carbon dioxide wanted, ≥ 0. [kg/m³]

    Returns
    -------
    float or (n,) array
        Partial pressure: `dissolved` turned round. [Pa]

    Raises
    ------
    OutOfRange
        If the concentration is negative, or needs so much pressure that the gas turns liquid.
    """
    if smallest(concentration) < 0.0:
        raise OutOfRange(
            "Water cannot hold less than no carbon dioxide.", remedy="Give 0 g/L or more."
        )
    moles = concentration / carbon_dioxide.MOLAR_MASS.value
    solvent = water.density(temperature) / water.MOLAR_MASS.value
    fugacity = moles / (moles + solvent) * henry_constant(temperature)
    pressure = fugacity
    for _ in range(40):
        pressure = fugacity / carbon_dioxide.fugacity_coefficient(temperature, pressure)
    return pressure


def temperature_for(partial: float, concentration: float) -> float:
    """Warmest water that holds so much carbon dioxide under a pressure.

    Parameters
    ----------
    partial : float
        Pressure of the carbon dioxide, 0 to 1,000,000. [Pa]
    concentration : float
        Carbon dioxide wanted, > 0. [kg/m³]

    Returns
    -------
    float
        Water temperature, 273.15 to 373.15. [K]

    Raises
    ------
    OutOfRange
        If even water at 0 °C holds less, or water at 100 °C more.

    Notes
    -----
    Halving: what water holds falls with temperature all the way.
    """
    low, high = ZERO_CELSIUS, ZERO_CELSIUS + 100.0
    most, least = float(dissolved(low, partial)), float(dissolved(high, partial))
    if not least <= concentration <= most:
        raise OutOfRange(
            f"Under {partial / 1e5:.3g} bar of carbon dioxide water holds {least:.3g} to "
            f"{most:.3g} g/L between 100 and 0 °C, never {concentration:.3g} g/L.",
            remedy="Raise the pressure, or ask for what lies between.",
        )
    for _ in range(60):
        half = 0.5 * (low + high)
        low, high = (half, high) if dissolved(half, partial) > concentration else (low, half)
    return 0.5 * (low + high)


def volumes(concentration: float | Draws) -> float | Draws:
    """Carbonation in volumes: litres of gas, at 0 °C and 1 atm, in a litre of drink.

    Parameters
    ----------
    concentration : float or (n,) array
        Dissolved carbon dioxide. [kg/m³]

    Returns
    -------
    float or (n,) array
        Volumes, of a real gas. [1]

    Notes
    -----
    One volume is 1.977 g/L; as an ideal gas, the trade's figure, it would be 1.963 g/L.
    """
    return concentration / VOLUME.value


def volumes_at_sixty(concentration: float | Draws) -> float | Draws:
    """Carbonation in volumes by the other definition.

    Parameters
    ----------
    concentration : float or (n,) array
        Dissolved carbon dioxide. [kg/m³]

    Returns
    -------
    float or (n,) array
        How often the gas is there that saturates water at 60 °F (15.56 °C) and 1 atm. [1]
    """
    return concentration / float(dissolved(SIXTY_FAHRENHEIT, STANDARD_PRESSURE))


def concentration_of(count: float | Draws) -> float | Draws:
    """Dissolved carbon dioxide of so many volumes.

    Parameters
    ----------
    count : float or (n,) array
        Volumes of a real gas at 0 °C and 1 atm. [1]

    Returns
    -------
    float or (n,) array
        Mass per volume. [kg/m³]
    """
    return count * VOLUME.value


def validity(temperature: float | Draws, partial: float | Draws) -> tuple[Flag, ...]:
    """Flags of a carbonation.

    Parameters
    ----------
    temperature : float or (n,) array
        Water temperature. [K]
    partial : float or (n,) array
        Pressure of the carbon dioxide. [Pa]

    Returns
    -------
    tuple of Flag
        A doubt outside the equation's own range; a note between the printed table (1 atm) and it,
        where every machine works.
    """
    flags = outside("water temperature", temperature, HENRY.low, HENRY.high, "°C")
    flags += outside("carbon dioxide (kPa)", partial / 1e3, 0.0, VALID_PRESSURE / 1e3, "kPa")
    if largest(partial) > TABLED_PRESSURE and not flags:
        flags += (
            Flag(
                "outside-table",
                f"{largest(partial) / 1e5:.3g} bar of carbon dioxide lies above the printed table "
                "this was held against (to 1.01 bar); the equation itself is stated to 10 bar.",
                "note",
            ),
        )
    return flags
