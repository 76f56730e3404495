"""A gas cylinder: its pressure by temperature and filling, and when it has no more liquid.

Filling is mass over inner volume. Between the densities of saturated vapour and liquid both are
there and the pressure is the vapour pressure, whatever the filling. Outside, and above 30.98 °C
always, there is one fluid and the filling decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import carbon_dioxide
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import GAS_CONSTANT, ZERO_CELSIUS, Fit
from counterproof.sourced import Sourced

_CRITICAL: Final = carbon_dioxide.CRITICAL_TEMPERATURE.value
CRITICAL_DENSITY: Final = Sourced(467.6, "kg/m³", 1e-3, "span-wagner-1996", "table 3", "")
LIQUID: Final = Fit(
    (1.9245108, -0.62385555, -0.32731127, 0.39245142),
    "kg/m³", 216.592, _CRITICAL, 2e-3, "span-wagner-1996", "eq. 3.14",
    "coefficients from memory, checked against CoolProp 8.0.0",
)  # fmt: skip
_LIQUID_POWERS: Final = (0.34, 0.5, 10 / 6, 11 / 6)
VAPOUR: Final = Fit(
    (-1.7074879, -0.8227467, -4.6008549, -10.111178, -29.742252),
    "kg/m³", 216.592, _CRITICAL, 5e-4, "span-wagner-1996", "eq. 3.15",
    "coefficients from memory, checked against CoolProp 8.0.0",
)  # fmt: skip
_VAPOUR_POWERS: Final = (0.34, 0.5, 1.0, 7 / 3, 14 / 3)
SINGLE: Final = Fit(
    (
        0.3824256, -6.442297, 9.946622, 2.162105, -7.477148, 3.02009, -0.3059645,
        -0.3199221, 12.35644, -14.69574, -17.21138, 27.12549, -10.93976, 1.33733,
        -1.317793, -5.290779, 4.303544, 16.07061, -20.71357, 8.385551, -1.10142,
    ),
    "1", 263.15, 333.15, 3e-3, "coolprop-2014",
    "(Z − 1)/δ as Σ aᵢⱼ (Tc/T)ⁱ δʲ, i = 0…2, j = 0…6, δ = ρ/ρc",
    "fitted here to CoolProp 8.0.0 (Span & Wagner), 20 to 900 kg/m³, below 300 bar",
)  # fmt: skip
_HIGHEST: Final = 3.0e7

State = Literal["gas and liquid", "gas only", "liquid only", "above the critical point"]


@dataclass(frozen=True, slots=True)
class Cylinder:
    """What is in a cylinder.

    Parameters
    ----------
    pressure : float
        Absolute pressure. [Pa]
    state : State
        What is there.
    liquid_share : float
        Mass of liquid over all mass; 0 where there is none. [1]
    flags : tuple of Flag
        What to say about it.
    """

    pressure: float
    state: State
    liquid_share: float
    flags: tuple[Flag, ...] = ()


def liquid_density(temperature: float) -> float:
    """Density of liquid carbon dioxide under its own vapour.

    Parameters
    ----------
    temperature : float
        Temperature, 216.6 to 304.13. [K]

    Returns
    -------
    float
        Density, within 2 in 1,000 of CoolProp. [kg/m³]
    """
    tau = max(1.0 - temperature / _CRITICAL, 0.0)
    terms = zip(LIQUID.coefficients, _LIQUID_POWERS, strict=True)
    return float(CRITICAL_DENSITY.value * np.exp(sum(a * tau**p for a, p in terms)))


def vapour_density(temperature: float) -> float:
    """Density of carbon dioxide vapour over its liquid.

    Parameters
    ----------
    temperature : float
        Temperature, 216.6 to 304.13. [K]

    Returns
    -------
    float
        Density, within 5 in 10,000 of CoolProp. [kg/m³]
    """
    tau = max(1.0 - temperature / _CRITICAL, 0.0)
    terms = zip(VAPOUR.coefficients, _VAPOUR_POWERS, strict=True)
    return float(CRITICAL_DENSITY.value * np.exp(sum(a * tau**p for a, p in terms)))


def single_phase_pressure(temperature: float, density: float) -> float:
    """Pressure of carbon dioxide that is one fluid.

    Parameters
    ----------
    temperature : float
        Temperature, 263 to 333. [K]
    density : float
        Density, 0 to 900, outside the two-phase dome. [kg/m³]

    Returns
    -------
    float
        Pressure, within 3 in 1,000 of CoolProp below 300 bar. [Pa]
    """
    inverse, reduced = _CRITICAL / temperature, density / CRITICAL_DENSITY.value
    total = 0.0
    for at, coefficient in enumerate(SINGLE.coefficients):
        total += coefficient * inverse ** (at // 7) * reduced ** (at % 7)
    ideal = density * GAS_CONSTANT / carbon_dioxide.MOLAR_MASS.value * temperature
    return ideal * (1.0 + reduced * total)


def cylinder(temperature: float, mass: float, volume: float) -> Cylinder:
    """State of a cylinder of carbon dioxide.

    Parameters
    ----------
    temperature : float
        Temperature, 263 to 333; below 263 only with gas and liquid. [K]
    mass : float
        Carbon dioxide in it, > 0. [kg]
    volume : float
        Inner volume, > 0. [m³]

    Returns
    -------
    Cylinder
        Pressure, state, share of liquid.

    Raises
    ------
    OutOfRange
        If mass or volume is not above zero, or the filling is denser than 900 kg/m³ and all
        liquid: such a cylinder would burst.
    """
    if mass <= 0.0 or volume <= 0.0:
        raise OutOfRange(
            "A cylinder needs some gas and some volume.", remedy="Give both above zero."
        )
    filling = mass / volume
    if temperature < _CRITICAL:
        thin, thick = vapour_density(temperature), liquid_density(temperature)
        if thin <= filling <= thick:
            share = (1.0 / thin - 1.0 / filling) / (1.0 / thin - 1.0 / thick)
            pressure = float(carbon_dioxide.saturation_pressure(temperature))
            return Cylinder(pressure, "gas and liquid", share)
        state: State = "gas only" if filling < thin else "liquid only"
    else:
        state = "above the critical point"
    flags = outside("cylinder temperature", temperature, SINGLE.low, SINGLE.high, "°C")
    if filling > 900.0:
        raise OutOfRange(
            f"{filling:.4g} kg of carbon dioxide per m³ at {temperature - ZERO_CELSIUS:.3g} °C is "
            "more than any cylinder may be filled with.",
            remedy="Check the mass and the inner volume; fillers leave a third of it free.",
        )
    pressure = single_phase_pressure(temperature, filling)
    flags += outside("cylinder pressure (bar)", pressure / 1e5, 0.0, _HIGHEST / 1e5, "bar")
    return Cylinder(pressure, state, 1.0 if state == "liquid only" else 0.0, flags)


def full_of_liquid(mass: float, volume: float) -> float | None:
    """Temperature at which the liquid in a cylinder fills it.

    Parameters
    ----------
    mass : float
        Carbon dioxide in it, > 0. [kg]
    volume : float
        Inner volume, > 0. [m³]

    Returns
    -------
    float or None
        Temperature above which the pressure climbs by bars per degree; None if the filling is
        below the critical density, so that it never happens. [K]
    """
    filling = mass / volume
    if filling <= CRITICAL_DENSITY.value:
        return None
    low, high = LIQUID.low, _CRITICAL
    for _ in range(60):
        half = 0.5 * (low + high)
        low, high = (half, high) if liquid_density(half) > filling else (low, half)
    return 0.5 * (low + high)
