"""Liquid water from the melting point to 150 °C, at its saturation pressure.

At atmospheric pressure the same values hold: compression to 1 atm changes none by more than the
stated error. The functions extrapolate outside their fits; `outside_fit` says so for whoever asks.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.values import Draws, Fit, hundreds, largest, smallest
from counterproof.sourced import Sourced

MOLAR_MASS: Final = Sourced(0.018015268, "kg/mol", 1e-6, "iapws-sr1-86", "as used by IAPWS-95", "")
CRITICAL_TEMPERATURE: Final = Sourced(647.096, "K", 0.0, "iapws-sr1-86", "eq. 1", "")
CRITICAL_PRESSURE: Final = Sourced(22.064e6, "Pa", 0.0, "iapws-sr1-86", "eq. 1", "")
CRITICAL_DENSITY: Final = Sourced(322.0, "kg/m³", 0.0, "iapws-sr1-86", "eq. 2", "")
HEAT_OF_FUSION: Final = Sourced(
    333.4e3, "J/kg", 0.001, "assumed", "",
    "handbooks print 333.4 to 334 kJ/kg; from memory; matters wherever ice melts or forms",
)  # fmt: skip

_LOW: Final = 273.15
_HIGH: Final = 423.15
_FITTED: Final = "fitted here to CoolProp 8.0.0 along the saturation line, 0–150 °C"
_CHECKED: Final = "coefficients from memory, checked against CoolProp 8.0.0"

SATURATION: Final = Fit(
    (-7.85951783, 1.84408259, -11.7866497, 22.6807411, -15.9618719, 1.80122502),
    "Pa", _LOW, _HIGH, 1e-4, "iapws-sr1-86", "eq. 1", _CHECKED,
)  # fmt: skip
_SATURATION_POWERS: Final = (1.0, 1.5, 3.0, 3.5, 4.0, 7.5)
LIQUID_DENSITY: Final = Fit(
    (1.99274064, 1.09965342, -0.510839303, -1.75493479, -45.5170352, -6.74694450e5),
    "kg/m³", _LOW, _HIGH, 1e-5, "iapws-sr1-86", "eq. 2", _CHECKED,
)  # fmt: skip
_LIQUID_POWERS: Final = (1 / 3, 2 / 3, 5 / 3, 16 / 3, 43 / 3, 110 / 3)
VAPOUR_DENSITY: Final = Fit(
    (-2.03150240, -2.68302940, -5.38626492, -17.2991605, -44.7586581, -63.9201063),
    "kg/m³", _LOW, _HIGH, 2e-4, "iapws-sr1-86", "eq. 3", _CHECKED,
)  # fmt: skip
_VAPOUR_POWERS: Final = (1 / 3, 2 / 3, 4 / 3, 3.0, 37 / 6, 71 / 6)
HEAT_CAPACITY: Final = Fit(
    (4219.323, -318.2443, 960.4037, -1459.656, 1279.232, -567.8761, 102.4567),
    "J/(kg K)", _LOW, _HIGH, 2e-4, "coolprop-2014", "IAPWS-95", _FITTED,
)  # fmt: skip
CONDUCTIVITY: Final = Fit(
    (0.5558433, 0.2472459, -0.209638, 0.1405134, -0.07211637, 0.01540484),
    "W/(m K)", _LOW, _HIGH, 6e-4, "coolprop-2014", "thermal conductivity of water", _FITTED,
)  # fmt: skip
VISCOSITY: Final = Fit(
    (-6.324649, -3.473115, 3.478703, -3.892277, 3.580793, -2.205422, 0.7791421, -0.1182172),
    "Pa s", _LOW, _HIGH, 3e-4, "coolprop-2014", "viscosity of water; ln μ is fitted", _FITTED,
)  # fmt: skip


def _sum(tau: float | Draws, fit: Fit, powers: tuple[float, ...]) -> float | Draws:
    total: float | Draws = 0.0 * tau
    for coefficient, power in zip(fit.coefficients, powers, strict=True):
        total = total + coefficient * tau**power
    return total


def _tau(temperature: float | Draws) -> float | Draws:
    return 1.0 - temperature / CRITICAL_TEMPERATURE.value


def saturation_pressure(temperature: float | Draws) -> float | Draws:
    """Pressure at which water boils at this temperature.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Vapour pressure. [Pa]

    Notes
    -----
    ln(p/pc) = (Tc/T) Σ aᵢ τ^eᵢ, τ = 1 − T/Tc: the auxiliary equation of Wagner & Pruss (1993),
    IAPWS SR1-86(1992); within 1 in 10,000 of CoolProp here. It holds to the critical point;
    below the melting point it is that of supercooled water and extrapolated.
    """
    exponent = _sum(_tau(temperature), SATURATION, _SATURATION_POWERS)
    scaled = CRITICAL_TEMPERATURE.value / temperature * exponent
    pressure: float | Draws = CRITICAL_PRESSURE.value * np.exp(scaled)
    return pressure


def saturation_slope(temperature: float | Draws) -> float | Draws:
    """How fast the saturation pressure rises with temperature.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        dp/dT along the saturation line. [Pa/K]

    Notes
    -----
    The exact derivative of `saturation_pressure`: −(p/T) [ln(p/pc) + Σ aᵢ eᵢ τ^(eᵢ−1)].
    """
    return _saturation(temperature)[1]


def _saturation(temperature: float | Draws) -> tuple[float | Draws, float | Draws]:
    """Pressure and slope at once: both need the same sum."""
    tau = _tau(temperature)
    logarithm = CRITICAL_TEMPERATURE.value / temperature
    logarithm = logarithm * _sum(tau, SATURATION, _SATURATION_POWERS)
    pressure = CRITICAL_PRESSURE.value * np.exp(logarithm)
    slope: float | Draws = 0.0 * tau
    for coefficient, power in zip(SATURATION.coefficients, _SATURATION_POWERS, strict=True):
        slope = slope + coefficient * power * tau ** (power - 1.0)
    return pressure, -pressure / temperature * (logarithm + slope)


def saturation_temperature(pressure: float | Draws) -> float | Draws:
    """Temperature at which water boils at this pressure.

    Parameters
    ----------
    pressure : float or (n,) array
        Absolute pressure, 612 to 476,000. [Pa]

    Returns
    -------
    float or (n,) array
        Boiling temperature. [K]

    Raises
    ------
    OutOfRange
        If the pressure is not above zero or not below the critical pressure: water has no
        boiling point there.

    Notes
    -----
    `saturation_pressure` inverted by Newton's rule on ln p against 1/T, which is nearly a
    straight line: five steps end within 10⁻⁹ K.
    """
    least, most = smallest(pressure), largest(pressure)
    if least <= 0.0 or most >= CRITICAL_PRESSURE.value:
        raise OutOfRange(
            f"Water has no boiling point at {(most if least > 0.0 else least) / 1000:.4g} kPa.",
            remedy="Give an absolute pressure above 0 and below 22064 kPa.",
        )
    wanted = np.log(pressure)
    inverse = 1.0 / 373.12 - (wanted - np.log(101325.0)) / 4890.0
    for _ in range(6):
        temperature = 1.0 / inverse
        found, rise = _saturation(temperature)
        # d ln p / d(1/T) = −T² (dp/dT) / p
        slope = -(temperature**2) * rise / found
        inverse = inverse - (np.log(found) - wanted) / slope
    boiling: float | Draws = 1.0 / inverse
    return boiling


def density(temperature: float | Draws) -> float | Draws:
    """Density of liquid water.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Density. [kg/m³]

    Notes
    -----
    ρ/ρc = 1 + Σ bᵢ τ^eᵢ (Wagner & Pruss 1993, IAPWS SR1-86), within 1 in 100,000 of CoolProp on
    the saturation line; water under 1 atm is at most 5 in 100,000 denser.
    """
    return CRITICAL_DENSITY.value * (1.0 + _sum(_tau(temperature), LIQUID_DENSITY, _LIQUID_POWERS))


def vapour_density(temperature: float | Draws) -> float | Draws:
    """Density of saturated steam.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Density. [kg/m³]

    Notes
    -----
    ln(ρ/ρc) = Σ cᵢ τ^eᵢ (Wagner & Pruss 1993, IAPWS SR1-86), within 2 in 10,000 of CoolProp.
    """
    scaled: float | Draws = np.exp(_sum(_tau(temperature), VAPOUR_DENSITY, _VAPOUR_POWERS))
    return CRITICAL_DENSITY.value * scaled


def latent_heat(temperature: float | Draws) -> float | Draws:
    """Heat that turns a kilogram of liquid water into steam.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Latent heat of evaporation. [J/kg]

    Notes
    -----
    Clapeyron: T (dp/dT) (1/ρ_steam − 1/ρ_liquid), exact for the three equations above; within
    2 in 10,000 of CoolProp.
    """
    expansion = 1.0 / vapour_density(temperature) - 1.0 / density(temperature)
    return temperature * saturation_slope(temperature) * expansion


def heat_capacity(temperature: float | Draws) -> float | Draws:
    """Specific heat capacity of liquid water at constant pressure.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Heat capacity. [J/(kg K)]

    Notes
    -----
    Polynomial in hundreds of °C, fitted to CoolProp; within 2 in 10,000.
    """
    return HEAT_CAPACITY.polynomial(hundreds(temperature))


def sensible_heat(start: float | Draws, end: float | Draws) -> float | Draws:
    """Heat that takes a kilogram of liquid water from one temperature to another.

    Parameters
    ----------
    start, end : float or (n,) array
        Temperatures, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Heat, negative if `end` lies below `start`. [J/kg]

    Notes
    -----
    The exact integral of `heat_capacity`.
    """
    total: float | Draws = 0.0
    for sign, limit in ((1.0, end), (-1.0, start)):
        at = hundreds(limit)
        for power, coefficient in enumerate(HEAT_CAPACITY.coefficients, start=1):
            total = total + sign * 100.0 * coefficient * at**power / power
    return total


def conductivity(temperature: float | Draws) -> float | Draws:
    """Thermal conductivity of liquid water.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Conductivity. [W/(m K)]

    Notes
    -----
    Polynomial in hundreds of °C, fitted to CoolProp; within 6 in 10,000.
    """
    return CONDUCTIVITY.polynomial(hundreds(temperature))


def viscosity(temperature: float | Draws) -> float | Draws:
    """Dynamic viscosity of liquid water.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273.15 to 423.15. [K]

    Returns
    -------
    float or (n,) array
        Viscosity. [Pa s]

    Notes
    -----
    ln μ is a polynomial in hundreds of °C, fitted to CoolProp; within 3 in 10,000.
    """
    value: float | Draws = np.exp(VISCOSITY.polynomial(hundreds(temperature)))
    return value
