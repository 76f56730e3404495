"""Carbon dioxide let into a room, against the limits for places of work.

The limits are for healthy adults at work; a kitchen with children or the ill has less room. Gas
collects low down and mixes late, so the mean is the least anyone near the floor may breathe.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import carbon_dioxide
from counterproof.physics.answer import Ruling, Verdict
from counterproof.physics.values import STANDARD_PRESSURE, Draws, largest, smallest
from counterproof.sourced import Sourced

BACKGROUND: Final = Sourced(
    425e-6, "1", 0.02, "assumed", "", "outdoor air in the middle 2020s; a lived-in room holds more"
)
EIGHT_HOURS: Final = Sourced(
    5000e-6, "1", 0.0, "osha-co2", "permissible exposure limit, mean of 8 hours", ""
)
FIFTEEN_MINUTES: Final = Sourced(
    30_000e-6, "1", 0.0, "niosh-co2", "short-term limit, mean of 15 minutes", ""
)
DANGEROUS: Final = Sourced(
    40_000e-6, "1", 0.0, "niosh-co2", "immediately dangerous to life or health", ""
)


def added_fraction(
    mass: float | Draws,
    room: float | Draws,
    temperature: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Mole fraction that a mass of carbon dioxide adds to a closed room.

    Parameters
    ----------
    mass : float or (n,) array
        Carbon dioxide let out, ≥ 0. [kg]
    room : float or (n,) array
        Volume of air in the room, > 0. [m³]
    temperature : float or (n,) array
        Of the room. [K]
    pressure : float or (n,) array
        Of the room. [Pa]

    Returns
    -------
    float or (n,) array
        Fraction, 0.005 being 5000 ppm; well mixed, the air it drives out not counted. [1]

    Raises
    ------
    OutOfRange
        If the mass is negative, the room has no volume, or the gas would more than fill it.
    """
    if smallest(mass) < 0.0 or smallest(room) <= 0.0:
        raise OutOfRange(
            "A room has a volume, and gas a mass.", remedy="Give both as numbers above zero."
        )
    added = mass / carbon_dioxide.density(temperature, pressure) / room
    if largest(added) > 1.0:
        raise OutOfRange(
            "That much gas would fill the room more than once.",
            remedy="Check the mass and the room's volume.",
        )
    return added


def mean_fraction(
    added: float | Draws, changes: float | Draws, span: float | Draws
) -> float | Draws:
    """Mean of what was added over a span, while the room is aired.

    Parameters
    ----------
    added : float or (n,) array
        Fraction added at the start. [1]
    changes : float or (n,) array
        Air changes, ≥ 0; 0.3 per hour is a closed room. [1/s]
    span : float or (n,) array
        Time over which the limit takes the mean, > 0. [s]

    Returns
    -------
    float or (n,) array
        Mean fraction above the background: added (1 − e^(−nt))/(nt). [1]
    """
    exponent = np.maximum(changes * span, 1e-9)
    value: float | Draws = added * -np.expm1(-exponent) / exponent
    return value


def largest_mass(
    fraction: float | Draws,
    room: float | Draws,
    temperature: float | Draws,
    pressure: float | Draws = STANDARD_PRESSURE,
) -> float | Draws:
    """Mass of carbon dioxide that brings a closed room to a limit.

    Parameters
    ----------
    fraction : float or (n,) array
        The limit, above the background. [1]
    room : float or (n,) array
        Volume of air. [m³]
    temperature : float or (n,) array
        Of the room. [K]
    pressure : float or (n,) array
        Of the room. [Pa]

    Returns
    -------
    float or (n,) array
        Mass. [kg]
    """
    return fraction * room * carbon_dioxide.density(temperature, pressure)


def verdicts(added: float | Draws, changes: float | Draws = 0.0) -> tuple[Verdict, ...]:
    """What the three limits say to a release of gas into a room.

    Parameters
    ----------
    added : float or (n,) array
        Fraction added at once, well mixed. [1]
    changes : float or (n,) array
        Air changes; 0 for a closed room. [1/s]

    Returns
    -------
    tuple of Verdict
        One a limit. Above half the limit it is already *too close*: the gas does not mix evenly.
    """
    spans = (
        ("carbon dioxide, 8 hours", EIGHT_HOURS, 8 * 3600.0),
        ("carbon dioxide, 15 minutes", FIFTEEN_MINUTES, 900.0),
        ("carbon dioxide, at once", DANGEROUS, 0.0),
    )
    found = []
    for rule, limit, span in spans:
        mean = mean_fraction(added, changes, span) + BACKGROUND.value
        low, high = (float(np.quantile(mean, q)) for q in (0.05, 0.95))
        verdict: Ruling = "too close"
        if low > limit.value:
            verdict = "over"
        elif high < 0.5 * limit.value:
            verdict = "within"
        advice = {
            "within": "Keep a window open all the same.",
            "too close": "Air the room: gas gathers low down before it mixes.",
            "over": "Do not let it out there: leave the room, air it, store the cylinder elsewhere.",
        }[verdict]
        message = (
            f"{1e6 * float(np.mean(mean)):,.0f} ppm of carbon dioxide, evenly mixed; the limit for "
            f"places of work is {1e6 * limit.value:,.0f} ppm. {advice}"
        )
        found.append(Verdict(rule, verdict, message, limit.source))
    return tuple(found)
