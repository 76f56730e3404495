"""Kitchen air, dry and moist: −40 to 150 °C near one atmosphere.

The small effect of moisture on conductivity and viscosity is left out (below 2 % for room air);
moisture counts where it drives evaporation: its pressure and its diffusivity.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.physics import water
from counterproof.physics.values import (
    GAS_CONSTANT,
    STANDARD_PRESSURE,
    Draws,
    Fit,
    hundreds,
)
from counterproof.sourced import Sourced

MOLAR_MASS: Final = Sourced(0.0289647, "kg/mol", 1e-4, "coolprop-2014", "dry air as used there", "")

_LOW: Final = 233.15
_HIGH: Final = 423.15
_FITTED: Final = "fitted here to CoolProp 8.0.0 at 101,325 Pa, −40 to 150 °C"

HEAT_CAPACITY: Final = Fit(
    (1005.68, 1.50409, 3.95644, 0.0897778),
    "J/(kg K)", _LOW, _HIGH, 2e-5, "coolprop-2014", "air", _FITTED,
)  # fmt: skip
CONDUCTIVITY: Final = Fit(
    (0.0243601, 0.0076541, -0.00043725, 4.26877e-05),
    "W/(m K)", _LOW, _HIGH, 1e-4, "coolprop-2014", "air", _FITTED,
)  # fmt: skip
VISCOSITY: Final = Fit(
    (1.72181e-05, 5.01021e-06, -3.68781e-07, 3.6762e-08),
    "Pa s", _LOW, _HIGH, 1e-4, "coolprop-2014", "air", _FITTED,
)  # fmt: skip
VAPOUR_DIFFUSIVITY: Final = Fit(
    (1.87e-10, 2.072),
    "m²/s", 280.0, 450.0, 0.05, "marrero-mason-1972", "water in air",
    "coefficients from memory; the source states about 5 %",
)  # fmt: skip


def density(
    temperature: float | Draws, pressure: float | Draws = STANDARD_PRESSURE
) -> float | Draws:
    """Density of dry air.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    pressure : float or (n,) array
        Absolute pressure, 60,000 to 120,000. [Pa]

    Returns
    -------
    float or (n,) array
        Density. [kg/m³]

    Notes
    -----
    Ideal gas, p M/(R T): at most 14 in 10,000 low, at −40 °C; 4 in 10,000 at 20 °C.
    """
    return pressure * MOLAR_MASS.value / (GAS_CONSTANT * temperature)


def heat_capacity(temperature: float | Draws) -> float | Draws:
    """Specific heat capacity of dry air at constant pressure.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Heat capacity. [J/(kg K)]

    Notes
    -----
    Polynomial in hundreds of °C, within 2 in 100,000 of CoolProp.
    """
    return HEAT_CAPACITY.polynomial(hundreds(temperature))


def conductivity(temperature: float | Draws) -> float | Draws:
    """Thermal conductivity of dry air.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Conductivity. [W/(m K)]

    Notes
    -----
    Polynomial in hundreds of °C, within 1 in 10,000 of CoolProp.
    """
    return CONDUCTIVITY.polynomial(hundreds(temperature))


def viscosity(temperature: float | Draws) -> float | Draws:
    """Dynamic viscosity of dry air.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Viscosity. [Pa s]

    Notes
    -----
    Polynomial in hundreds of °C, within 1 in 10,000 of CoolProp.
    """
    return VISCOSITY.polynomial(hundreds(temperature))


def kinematic_viscosity(
    temperature: float | Draws, pressure: float | Draws = STANDARD_PRESSURE
) -> float | Draws:
    """Kinematic viscosity of dry air.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    pressure : float or (n,) array
        Absolute pressure, 60,000 to 120,000. [Pa]

    Returns
    -------
    float or (n,) array
        Viscosity over density. [m²/s]
    """
    return viscosity(temperature) / density(temperature, pressure)


def prandtl(temperature: float | Draws) -> float | Draws:
    """Prandtl number of dry air.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        cp μ / k. [1]
    """
    return heat_capacity(temperature) * viscosity(temperature) / conductivity(temperature)


def diffusivity(
    temperature: float | Draws, pressure: float | Draws = STANDARD_PRESSURE
) -> float | Draws:
    """Thermal diffusivity of dry air.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    pressure : float or (n,) array
        Absolute pressure, 60,000 to 120,000. [Pa]

    Returns
    -------
    float or (n,) array
        k/(ρ cp). [m²/s]
    """
    volumetric = density(temperature, pressure) * heat_capacity(temperature)
    return conductivity(temperature) / volumetric


def vapour_diffusivity(
    temperature: float | Draws, pressure: float | Draws = STANDARD_PRESSURE
) -> float | Draws:
    """Diffusivity of water vapour in air.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 280 to 450. [K]
    pressure : float or (n,) array
        Absolute pressure, > 0. [Pa]

    Returns
    -------
    float or (n,) array
        Diffusivity. [m²/s]

    Notes
    -----
    1.87·10⁻¹⁰ T^2.072 / p, p in atmospheres (Marrero & Mason 1972), about 5 %.
    """
    factor, power = VAPOUR_DIFFUSIVITY.coefficients
    return factor * temperature**power * STANDARD_PRESSURE / pressure


def vapour_pressure(temperature: float | Draws, relative_humidity: float | Draws) -> float | Draws:
    """Partial pressure of water vapour in moist air.

    Parameters
    ----------
    temperature : float or (n,) array
        Air temperature, 273.15 to 373. [K]
    relative_humidity : float or (n,) array
        Share of the saturation pressure, 0 to 1. [1]

    Returns
    -------
    float or (n,) array
        Partial pressure. [Pa]

    Notes
    -----
    The enhancement by the air around it (0.4 % at one atmosphere) is left out.
    """
    return relative_humidity * water.saturation_pressure(temperature)


def lewis_factor(
    temperature: float | Draws, pressure: float | Draws = STANDARD_PRESSURE
) -> float | Draws:
    """How much faster vapour moves than heat, (D/α)^(2/3), in the analogy of the two.

    Parameters
    ----------
    temperature : float or (n,) array
        Film temperature, 280 to 423. [K]
    pressure : float or (n,) array
        Absolute pressure. [Pa]

    Returns
    -------
    float or (n,) array
        Lewis number to the power −2/3, about 1.1. [1]

    Notes
    -----
    Chilton & Colburn's analogy: h_mass = h/(ρ cp) · (D/α)^(2/3).
    """
    ratio = vapour_diffusivity(temperature, pressure) / diffusivity(temperature, pressure)
    return ratio ** (2.0 / 3.0)


@dataclass(frozen=True, slots=True)
class Room:
    """The air around what is cooked or cooled.

    Parameters
    ----------
    temperature : float or (n,) array
        Of the air and of the walls. [K]
    vapour : float or (n,) array
        Partial pressure of water in it. [Pa]
    pressure : float or (n,) array
        Absolute pressure. [Pa]
    """

    temperature: float | Draws
    vapour: float | Draws
    pressure: float | Draws = STANDARD_PRESSURE

    @classmethod
    def of(
        cls,
        temperature: float | Draws,
        relative_humidity: float | Draws,
        pressure: float | Draws = STANDARD_PRESSURE,
    ) -> Room:
        """Make a room from its relative humidity.

        Parameters
        ----------
        temperature : float or (n,) array
            Temperature. [K]
        relative_humidity : float or (n,) array
            Share of the saturation pressure, 0 to 1. [1]
        pressure : float or (n,) array
            Absolute pressure. [Pa]

        Returns
        -------
        Room
            The room.
        """
        return cls(temperature, vapour_pressure(temperature, relative_humidity), pressure)
