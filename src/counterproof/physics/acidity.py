"""How sour carbonated water is: the charge balance of water, carbon dioxide and alkalinity.

Strong ions (hardness, salt) appear only as their alkalinity, the charge that bicarbonate must
balance. Fruit acids are not in it.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import carbon_dioxide
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import ZERO_CELSIUS, Draws, Fit, smallest
from counterproof.sourced import Sourced

FIRST: Final = Fit(
    (3404.71, 0.032786, -14.8435), "1", 273.15, 323.15, 0.001, "harned-davis-1943",
    "pK₁ = a/T + bT + c", "coefficients from memory; they give 6.351 at 25 °C",
)  # fmt: skip
SECOND: Final = Fit(
    (2902.39, 0.02379, -6.4980), "1", 273.15, 323.15, 0.001, "harned-scholes-1941",
    "pK₂ = a/T + bT + c", "coefficients from memory; they give 10.33 at 25 °C",
)  # fmt: skip
WATER: Final = Fit(
    (4470.99, 0.017060, -6.0875), "1", 273.15, 323.15, 0.001, "harned-hamer-1933",
    "pK_w = a/T + bT + c", "coefficients from memory; they give 13.995 at 25 °C",
)  # fmt: skip
DEBYE: Final = Fit(
    (0.4913, 6.08e-4, 2.3e-6), "1", 273.15, 323.15, 0.005, "assumed",
    "Debye–Hückel slope of water, powers of °C", "0.491 at 0 and 0.509 at 25 °C in handbooks; from memory",
)  # fmt: skip
DAVIES: Final = Sourced(
    0.3,
    "1",
    0.1,
    "assumed",
    "",
    "Davies's linear term, 0.2 to 0.3; from memory; matters above 10 mmol/L",
)
HYDRATION: Final = Sourced(
    1.7e-3, "1", 0.1, "assumed", "",
    "[H2CO3]/[CO2] at 25 °C; read in a table of reactions: how little is carbonic acid proper",
)  # fmt: skip
_TURNS: Final = 6
_STEPS: Final = 4
ALKALINITY: Final = (0.0, 4.0)
"""Alkalinity of tap water where none is stated, as a range. [mol/m³] (meq/L)"""


def _constant(fit: Fit, temperature: float | Draws) -> float | Draws:
    over, slope, shift = fit.coefficients
    value: float | Draws = 10.0 ** -(over / temperature + slope * temperature + shift)
    return value


def _activity(temperature: float | Draws, strength: float | Draws) -> float | Draws:
    """Activity coefficient of a single charge: Davies, with the slope of water."""
    slope = DEBYE.polynomial(temperature - ZERO_CELSIUS)
    root = np.sqrt(strength)
    value: float | Draws = 10.0 ** (-slope * (root / (1.0 + root) - DAVIES.value * strength))
    return value


def ph(
    temperature: float | Draws, concentration: float | Draws, alkalinity: float | Draws
) -> float | Draws:
    """PH of water with carbon dioxide dissolved in it.

    Parameters
    ----------
    temperature : float or (n,) array
        Water temperature, 273.15 to 323.15. [K]
    concentration : float or (n,) array
        Dissolved carbon dioxide, > 0, as CO₂ and carbonic acid together. [kg/m³]
    alkalinity : float or (n,) array
        Charge of the strong ions, ≥ 0; 1 mol/m³ is 1 meq/L, or 50 mg/L as CaCO₃. [mol/m³]

    Returns
    -------
    float or (n,) array
        pH, by activity. [1]

    Raises
    ------
    OutOfRange
        If there is no carbon dioxide, or the alkalinity is negative.

    Notes
    -----
    [H⁺] + A = [HCO₃⁻] + 2 [CO₃²⁻] + [OH⁻], solved by Newton's rule in ln h, again and again with
    the activity coefficients of Davies at the ionic strength found. About ±0.05 below 5 mol/m³.
    """
    if smallest(concentration) <= 0.0 or smallest(alkalinity) < 0.0:
        raise OutOfRange(
            "The acidity needs some carbon dioxide and an alkalinity of 0 meq/L or more.",
            remedy="Give the alkalinity from the water supplier's sheet, in meq/L.",
        )
    gas = concentration / carbon_dioxide.MOLAR_MASS.value / 1000.0  # [mol/L]
    charge = alkalinity / 1000.0
    first, second = _constant(FIRST, temperature), _constant(SECOND, temperature)
    ions = _constant(WATER, temperature)
    # Bicarbonate alone: h² + A h = K₁ c, in the form that keeps its digits at high alkalinity.
    product = first * gas
    hydrogen = 2.0 * product / (charge + np.sqrt(charge**2 + 4.0 * product))
    strength = charge + hydrogen
    for _ in range(_TURNS):
        one = _activity(temperature, strength)
        two = one**4
        for _ in range(_STEPS):
            bicarbonate = product / (hydrogen * one)
            carbonate = second * bicarbonate * one / (hydrogen * two)
            hydroxide = ions / (hydrogen * one)
            free = hydrogen / one
            excess = free + charge - bicarbonate - 2.0 * carbonate - hydroxide
            # Slope by ln h; it never vanishes.
            slope = free + bicarbonate + 4.0 * carbonate + hydroxide
            hydrogen = hydrogen * np.exp(np.clip(-excess / slope, -3.0, 3.0))
        strength = 0.5 * (free + charge + bicarbonate + 4.0 * carbonate + hydroxide)
    found: float | Draws = -np.log10(hydrogen)
    return found if np.ndim(found) else float(found)


def carbonic_acid(concentration: float | Draws) -> float | Draws:
    """The part of dissolved carbon dioxide that has become carbonic acid.

    Parameters
    ----------
    concentration : float or (n,) array
        Dissolved carbon dioxide, CO₂ and H₂CO₃ together. [kg/m³]

    Returns
    -------
    float or (n,) array
        H₂CO₃, by moles of CO₂: about 1 in 600. [kg/m³ of CO₂]
    """
    share = HYDRATION.value / (1.0 + HYDRATION.value)
    return concentration * share


def validity(temperature: float | Draws, alkalinity: float | Draws) -> tuple[Flag, ...]:
    """Flags of a pH.

    Parameters
    ----------
    temperature : float or (n,) array
        Water temperature. [K]
    alkalinity : float or (n,) array
        Alkalinity. [mol/m³]

    Returns
    -------
    tuple of Flag
        One for each range that is left.
    """
    flags = outside("water temperature (acidity)", temperature, FIRST.low, FIRST.high, "°C")
    return flags + outside("alkalinity", alkalinity, 0.0, 10.0, "meq/L")
