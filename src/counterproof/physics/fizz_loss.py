"""Carbon dioxide lost between the bottle and the mouth: pouring, stirring, warming, standing.

Papers on it exist; their figures were not seen. So every share here is assumed, wide, and an input.
Dilution by what is flat is not a loss: it conserves mass and is computed.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.values import Draws, largest, smallest
from counterproof.sourced import Sourced

POURED: Final = Sourced(
    0.12, "1", 0.6, "assumed", "",
    "share lost by pouring once down the side of a tilted glass; no measured figure seen; 0.04 to "
    "0.27 holds nine cases in ten",
)  # fmt: skip
STIRRED: Final = Sourced(
    0.20, "1", 0.5, "assumed", "",
    "share lost by stirring a syrup in until it is dissolved; no measured figure seen",
)  # fmt: skip
WARMED: Final = Sourced(
    0.015, "1/K", 0.6, "assumed", "", "share lost per degree of warming; no measured figure seen"
)
STOOD: Final = Sourced(
    0.012, "1/min", 0.7, "assumed", "",
    "share lost per minute in an open glass; no measured figure seen",
)  # fmt: skip


def kept(
    *,
    poured: float | Draws = 0.0,
    stirred: float | Draws = 0.0,
    warmed: float | Draws = 0.0,
    stood: float | Draws = 0.0,
    per_degree: float | Draws = WARMED.value,
    rate: float | Draws = STOOD.value,
) -> float | Draws:
    """Share of the carbon dioxide that is still in the drink.

    Parameters
    ----------
    poured, stirred : float or (n,) array
        Share lost by pouring and by stirring, 0 to 1. [1]
    warmed : float or (n,) array
        Degrees it warms by, ≥ 0. [K]
    stood : float or (n,) array
        Time in an open glass, ≥ 0. [s]
    per_degree : float or (n,) array
        Share lost per degree. [1/K]
    rate : float or (n,) array
        Share lost per minute. [1/min]

    Returns
    -------
    float or (n,) array
        Share kept. [1]

    Raises
    ------
    OutOfRange
        If a share lies outside 0 to 1, or a time or a warming is negative.

    Notes
    -----
    (1 − poured)(1 − stirred) exp(−per_degree · ΔT) exp(−rate · t): each acts on what is left.
    """
    shares = (poured, stirred)
    if smallest(*shares, warmed, stood) < 0.0 or largest(*shares) > 1.0:
        raise OutOfRange(
            "A drink loses between none and all of its gas.",
            remedy="Give shares from 0 to 1, and times and degrees from 0.",
        )
    slow: float | Draws = np.exp(-(per_degree * warmed + rate * stood / 60.0))
    return (1.0 - poured) * (1.0 - stirred) * slow


def diluted(
    concentration: float | Draws, fizzy: float | Draws, flat: float | Draws
) -> float | Draws:
    """Carbon dioxide left in a drink when something flat joins it, nothing being lost.

    Parameters
    ----------
    concentration : float or (n,) array
        In the carbonated part. [kg/m³]
    fizzy, flat : float or (n,) array
        Volumes of the carbonated and the flat part, fizzy > 0. [m³]

    Returns
    -------
    float or (n,) array
        In the mixture. [kg/m³]
    """
    return concentration * fizzy / (fizzy + flat)


def needed_before(
    wanted: float | Draws, share_kept: float | Draws, share_fizzy: float | Draws = 1.0
) -> float | Draws:
    """Carbon dioxide the water must hold for so much to reach the glass.

    Parameters
    ----------
    wanted : float or (n,) array
        In the finished drink. [kg/m³]
    share_kept : float or (n,) array
        Share that is not lost on the way, > 0. [1]
    share_fizzy : float or (n,) array
        Share of the drink's volume that is carbonated water, > 0. [1]

    Returns
    -------
    float or (n,) array
        In the water. [kg/m³]
    """
    return wanted / (share_kept * share_fizzy)
