"""Carbon dioxide as a gas, and the pressure over its liquid.

A virial equation of two terms: within 2 in 1,000 to 40 bar between −40 and 150 °C as long as it
is all gas. Near the saturation line above 40 bar it is off by up to 6 in 1,000.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.values import (
    GAS_CONSTANT,
    STANDARD_PRESSURE,
    ZERO_CELSIUS,
    Draws,
    Fit,
    largest,
    smallest,
)
from counterproof.sourced import Sourced

MOLAR_MASS: Final = Sourced(
    0.0440095, "kg/mol", 1e-5, "span-wagner-1996", "molar mass; 44.0098 g/mol there", ""
)
CRITICAL_TEMPERATURE: Final = Sourced(304.1282, "K", 5e-5, "span-wagner-1996", "table 3", "")
CRITICAL_PRESSURE: Final = Sourced(7.3773e6, "Pa", 4e-4, "span-wagner-1996", "table 3", "")
TRIPLE_TEMPERATURE: Final = Sourced(216.592, "K", 1e-5, "span-wagner-1996", "table 3", "")
VALID_PRESSURE: Final = 5.0e6  # [Pa], to where the virial equation is held against CoolProp

_LOW: Final = 233.15
_HIGH: Final = 423.15
SECOND_VIRIAL: Final = Fit(
    (47.30225, -77.67632, -98.17969, 34.21569, -26.9356),
    "cm³/mol", _LOW, _HIGH, 2e-4, "coolprop-2014", "B(T), polynomial in 300 K/T",
    "fitted here to CoolProp 8.0.0 (Span & Wagner)",
)  # fmt: skip
THIRD_VIRIAL: Final = Fit(
    (3047.543, -11302.41, 32817.25, -39250.88, 28128.07, -8726.198),
    "cm⁶/mol²", _LOW, _HIGH, 2e-4, "coolprop-2014", "C(T), polynomial in 300 K/T",
    "fitted here to CoolProp 8.0.0 (Span & Wagner)",
)  # fmt: skip
SATURATION: Final = Fit(
    (-7.0602087, 1.9391218, -1.6463597, -3.2995634),
    "Pa", TRIPLE_TEMPERATURE.value, CRITICAL_TEMPERATURE.value, 1e-4, "span-wagner-1996",
    "eq. 3.13", "coefficients from memory, checked against CoolProp 8.0.0",
)  # fmt: skip
_POWERS: Final = (1.0, 1.5, 2.0, 4.0)


def _virials(temperature: float | Draws) -> tuple[float | Draws, float | Draws]:
    at = 300.0 / temperature
    return SECOND_VIRIAL.polynomial(at) * 1e-6, THIRD_VIRIAL.polynomial(at) * 1e-12


def molar_density(
    temperature: float | Draws, pressure: float | Draws = STANDARD_PRESSURE
) -> float | Draws:
    """Amount of carbon dioxide in a volume of gas.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    pressure : float or (n,) array
        Partial or total pressure of the gas, 0 to 5·10⁶, below the saturation line. [Pa]

    Returns
    -------
    float or (n,) array
        Molar density. [mol/m³]

    Raises
    ------
    OutOfRange
        If the gas would turn liquid at that temperature and pressure.

    Notes
    -----
    p = R T ρ (1 + Bρ + Cρ²), solved by Newton's rule from the ideal gas.
    """
    _refuse_liquid(temperature, pressure)
    second, third = _virials(temperature)
    heat = GAS_CONSTANT * temperature
    amount = pressure / heat
    for _ in range(12):
        off = amount * heat * (1.0 + second * amount + third * amount**2) - pressure
        slope = heat * (1.0 + 2.0 * second * amount + 3.0 * third * amount**2)
        amount = amount - off / slope
    return amount


def density(
    temperature: float | Draws, pressure: float | Draws = STANDARD_PRESSURE
) -> float | Draws:
    """Density of carbon dioxide gas.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    pressure : float or (n,) array
        Partial or total pressure of the gas, 0 to 5·10⁶, below the saturation line. [Pa]

    Returns
    -------
    float or (n,) array
        Density. [kg/m³]

    Notes
    -----
    `molar_density` times the molar mass: within 1 in 10,000 at 1 atm, 2 in 1,000 to 40 bar.
    """
    return MOLAR_MASS.value * molar_density(temperature, pressure)


def fugacity_coefficient(temperature: float | Draws, pressure: float | Draws) -> float | Draws:
    """Fugacity over pressure: how much less the gas pushes than an ideal one.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    pressure : float or (n,) array
        Pressure of the gas, 0 to 5·10⁶, below the saturation line. [Pa]

    Returns
    -------
    float or (n,) array
        Fugacity coefficient, 1 for an ideal gas. [1]

    Notes
    -----
    ln φ = 2Bρ + (3/2)Cρ² − ln Z for the virial equation of `molar_density`.
    """
    second, third = _virials(temperature)
    amount = molar_density(temperature, pressure)
    z = 1.0 + second * amount + third * amount**2
    value: float | Draws = np.exp(2.0 * second * amount + 1.5 * third * amount**2) / z
    return value


def saturation_pressure(temperature: float | Draws) -> float | Draws:
    """Pressure in a cylinder as long as there is liquid in it.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 216.6 to 304.13. [K]

    Returns
    -------
    float or (n,) array
        Vapour pressure. [Pa]

    Raises
    ------
    OutOfRange
        Above the critical temperature there is no liquid; below the triple point neither.

    Notes
    -----
    ln(p/pc) = (Tc/T) Σ aᵢ τ^eᵢ (Span & Wagner 1996), within 1 in 10,000 of CoolProp.
    """
    least, most = smallest(temperature), largest(temperature)
    if most > CRITICAL_TEMPERATURE.value or least < TRIPLE_TEMPERATURE.value:
        found = (most if most > CRITICAL_TEMPERATURE.value else least) - ZERO_CELSIUS
        raise OutOfRange(
            f"There is no liquid carbon dioxide at {found:.4g} °C.",
            remedy="Give a temperature between −56.6 and 30.98 °C; above it the pressure depends "
            "on how full the cylinder is.",
        )
    return _saturation(temperature)


def _saturation(temperature: float | Draws) -> float | Draws:
    tau = 1.0 - temperature / CRITICAL_TEMPERATURE.value
    total: float | Draws = 0.0 * tau
    for coefficient, power in zip(SATURATION.coefficients, _POWERS, strict=True):
        total = total + coefficient * tau**power
    scaled = CRITICAL_TEMPERATURE.value / temperature * total
    pressure: float | Draws = CRITICAL_PRESSURE.value * np.exp(scaled)
    return pressure


def _refuse_liquid(temperature: float | Draws, pressure: float | Draws) -> None:
    """Refuse what is liquid; above the critical point there is no line to cross."""
    critical = CRITICAL_TEMPERATURE.value
    below = np.asarray(temperature) < critical
    line = _saturation(np.minimum(temperature, critical))
    if np.any(below & (np.asarray(pressure) > line)):
        at = smallest(temperature)
        raise OutOfRange(
            f"At {at - ZERO_CELSIUS:.4g} °C carbon dioxide turns liquid below "
            f"{largest(pressure) / 1e5:.4g} bar.",
            remedy=f"Give a pressure below {smallest(line) / 1e5:.4g} bar.",
        )
