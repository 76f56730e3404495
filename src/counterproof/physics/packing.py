"""Water over a bed of solids: how much it takes to cover them, or to stand so deep.

Solids of volume V packed to a fraction φ fill a pot of area A to the depth h = V/(φ A). Water up
to k times that depth, or up to a height d above it, is what the cylinder holds less the solids.
"""

from __future__ import annotations

from math import pi
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.values import Draws, smallest
from counterproof.sourced import Sourced

PACKING: Final = Sourced(
    0.58, "1", 0.12, "assumed", "",
    "share of a bed that is solid: like balls poured loosely fill 0.60, shaken 0.64 (Scott 1960, "
    "from memory); pieces of vegetables, beans and rhubarb lie about there or looser",
)  # fmt: skip
FINGER: Final = Sourced(
    0.015, "m", 0.5, "assumed", "", "“to cover”: a centimetre or two over the solids"
)
PROPORTION: Final = Sourced(
    0.5, "1", 0.3, "assumed", "", "depth over diameter of what is in a pot, if the pot is not known"
)
_ROUNDS: Final = 40


def bed_depth(
    solids: float | Draws, diameter: float | Draws, packing: float | Draws = PACKING.value
) -> float | Draws:
    """Depth to which solids fill a pot.

    Parameters
    ----------
    solids : float or (n,) array
        Their own volume, without gaps, > 0. [m³]
    diameter : float or (n,) array
        Inner diameter of the pot, > 0. [m]
    packing : float or (n,) array
        Share of the bed that is solid, between 0 and 1. [1]

    Returns
    -------
    float or (n,) array
        Depth. [m]

    Raises
    ------
    OutOfRange
        If a size is not above zero, or the packing is not between 0 and 1.
    """
    if smallest(solids) <= 0.0 or smallest(diameter) <= 0.0:
        raise OutOfRange(
            "Solids and pot have a size above zero.", remedy="Give the solids a weight."
        )
    if smallest(packing) <= 0.0 or smallest(1.0 - packing) <= 0.0:
        raise OutOfRange(
            "The share of a bed that is solid lies between 0 and 1.",
            remedy="Give a share such as 0.6.",
        )
    return solids / (packing * pi / 4.0 * diameter**2)


def water_over(
    solids: float | Draws,
    diameter: float | Draws,
    *,
    over: float | Draws = 0.0,
    times: float = 1.0,
    packing: float | Draws = PACKING.value,
) -> float | Draws:
    """Volume of water that stands in and above a bed of solids.

    Parameters
    ----------
    solids : float or (n,) array
        Volume of the solids, without gaps, > 0. [m³]
    diameter : float or (n,) array
        Inner diameter of the pot, > 0. [m]
    over : float or (n,) array
        Height above the level asked for. [m]
    times : float
        Level over the depth of the bed: 1 just covers it, 2 is twice its depth, ½ half way up. [1]
    packing : float or (n,) array
        Share of the bed that is solid, between 0 and 1. [1]

    Returns
    -------
    float or (n,) array
        Volume of water. [m³]

    Raises
    ------
    OutOfRange
        If a size is not above zero, or the packing is not between 0 and 1.

    Notes
    -----
    V_w = A (k h + d) − min(k, 1) V: solids that stand out of the water do not make room for less.
    """
    depth = bed_depth(solids, diameter, packing)
    area = pi / 4.0 * np.square(diameter)
    return area * (times * depth + over) - min(times, 1.0) * solids


def usual_diameter(
    solids: float,
    *,
    over: float = 0.0,
    times: float = 1.0,
    packing: float = PACKING.value,
    proportion: float = PROPORTION.value,
) -> float:
    """Diameter of a pot of usual proportions for solids and the water over them.

    Parameters
    ----------
    solids : float
        Volume of the solids, without gaps, > 0. [m³]
    over : float
        Height of water above the level asked for. [m]
    times : float
        Level over the depth of the bed. [1]
    packing : float
        Share of the bed that is solid, between 0 and 1. [1]
    proportion : float
        Depth of all that is in it over its diameter, > 0. [1]

    Returns
    -------
    float
        The diameter at which the level stands at that proportion. [m]

    Notes
    -----
    max(k, 1) h(D) + d = p D has one root, since its left side falls with D: by halving.
    """
    low, high = 0.01, 5.0
    for _ in range(_ROUNDS):
        middle = 0.5 * (low + high)
        level = max(times, 1.0) * float(bed_depth(solids, middle, packing)) + over
        low, high = (middle, high) if level > proportion * middle else (low, middle)
    return 0.5 * (low + high)
