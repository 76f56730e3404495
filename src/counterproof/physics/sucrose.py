"""Sugar solutions at 20 °C: density by °Brix and back, specific gravity, what dissolves at most."""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import water
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import ZERO_CELSIUS, Draws, Fit, largest, smallest

DENSITY: Final = Fit(
    (998.2, 386.45973, 123.60384, 72.273590, -28.722374),
    "kg/m³", 293.15, 293.15, 8e-5, "crc-68-sucrose",
    "concentrative properties of aqueous solutions: sucrose, 20 °C; powers of the mass fraction",
    "fitted here to the handbook's 38 rows, 0 to 82 %: at most 0.08 kg/m³ off",
)  # fmt: skip
SOLUBILITY: Final = Fit(
    (64.2045, 0.13909, 0.000399472, 8.80118e-07),
    "%", 273.15, 373.15, 0.002, "crc-68-sucrose", "solubility of sucrose in water; powers of °C",
    "fitted here to 14 rows, 0 to 100 °C",
)  # fmt: skip
_TWENTY: Final = ZERO_CELSIUS + 20.0
_DENSEST: Final = 0.85


def density(brix: float | Draws, temperature: float | Draws = _TWENTY) -> float | Draws:
    """Density of a sugar solution.

    Parameters
    ----------
    brix : float or (n,) array
        Sucrose, or soluble solids taken for it, in a hundred parts by mass, 0 to 82. [°Brix]
    temperature : float or (n,) array
        Temperature; away from 20 °C the density follows that of water. [K]

    Returns
    -------
    float or (n,) array
        Density. [kg/m³]

    Raises
    ------
    OutOfRange
        Below 0 or above 85 °Brix: nothing dissolves so much.

    Notes
    -----
    Polynomial of the fourth degree, within 0.0001 g/ml of the handbook at 20 °C. Water's expansion
    stands for the solution's: within 0.3 % from 0 to 40 °C (assumed).
    """
    share = np.asarray(brix) / 100.0
    if smallest(share) < 0.0 or largest(share) > _DENSEST:
        raise OutOfRange(
            f"{100.0 * largest(share):.3g} °Brix is not a solution.",
            remedy="Give 0 to 85 parts of sugar in a hundred by mass.",
        )
    at = DENSITY.polynomial(share)
    scaled = at * water.density(temperature) / water.density(_TWENTY)
    return scaled if np.ndim(scaled) else float(scaled)


def brix(density_at_twenty: float | Draws) -> float | Draws:
    """Sugar in a solution of known density.

    Parameters
    ----------
    density_at_twenty : float or (n,) array
        Density at 20 °C, 998.2 to about 1425. [kg/m³]

    Returns
    -------
    float or (n,) array
        Parts of sugar in a hundred by mass. [°Brix]

    Raises
    ------
    OutOfRange
        If it is lighter than water or denser than any solution.

    Notes
    -----
    `density` turned round by Newton's rule.
    """
    wanted = np.asarray(density_at_twenty, dtype=float)
    if smallest(wanted) < 998.15 or largest(wanted) > float(density(85.0)):
        raise OutOfRange(
            "A sugar solution is denser than water and lighter than 1.45 kg/L.",
            remedy="Give the density at 20 °C; alcohol or bubbles make a drink lighter.",
        )
    share = (wanted - 998.2) / 400.0
    rising = tuple(enumerate(DENSITY.coefficients))[1:]
    for _ in range(12):
        slope = sum(power * c * share ** (power - 1) for power, c in rising)
        share = share - (DENSITY.polynomial(share) - wanted) / slope
    found = 100.0 * share
    return found if np.ndim(found) else float(found)


def specific_gravity(degrees: float | Draws) -> float | Draws:
    """Specific gravity of a sugar solution, 20 °C over water at 20 °C.

    Parameters
    ----------
    degrees : float or (n,) array
        Parts of sugar in a hundred by mass, 0 to 82. [°Brix]

    Returns
    -------
    float or (n,) array
        Specific gravity. [1]
    """
    return density(degrees) / DENSITY.coefficients[0]


def saturated(temperature: float | Draws) -> float | Draws:
    """Sugar in a solution that takes no more.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature, 273 to 373. [K]

    Returns
    -------
    float or (n,) array
        Parts of sucrose in a hundred by mass. [°Brix]
    """
    return SOLUBILITY.polynomial(temperature - ZERO_CELSIUS)


def validity(degrees: float | Draws, temperature: float | Draws) -> tuple[Flag, ...]:
    """Flags of a sugar solution.

    Parameters
    ----------
    degrees : float or (n,) array
        Soluble solids. [°Brix]
    temperature : float or (n,) array
        Temperature. [K]

    Returns
    -------
    tuple of Flag
        More sugar than dissolves; temperatures where water's expansion stands for more than it can.
    """
    flags = outside("temperature (sugar solution)", temperature, 273.15 - 10.0, 313.15, "°C")
    over = largest(np.asarray(degrees) - saturated(temperature))
    if over > 0.0:
        flags += (
            Flag(
                "undissolved",
                f"{largest(degrees):.0f} °Brix is more sugar than dissolves cold: some stays on the "
                "bottom.",
            ),
        )
    return flags
