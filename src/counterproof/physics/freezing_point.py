"""Where a sweet, sour or spirited liquid begins to freeze."""

from __future__ import annotations

from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import ZERO_CELSIUS, Draws, smallest
from counterproof.sourced import Sourced

CRYOSCOPIC: Final = Sourced(
    1.86, "K kg/mol", 0.002, "assumed", "", "handbooks print 1.86 for water; from memory"
)
HELD_WATER: Final = Sourced(
    0.27, "1", 0.1, "assumed", "",
    "water that dissolved sugar keeps for itself, per mass of sugar: chosen so that sucrose freezes "
    "where handbooks say (12 %: −0.77 °C, 20 %: −1.46 °C, 40 %: −4.45 °C)",
)  # fmt: skip
# Molar masses from the standard atomic weights of IUPAC.
SUCROSE: Final = 0.34230  # [kg/mol]
SINGLE_SUGAR: Final = 0.18016  # [kg/mol], glucose or fructose
CITRIC_ACID: Final = 0.19212  # [kg/mol]
ETHANOL: Final = 0.046068  # [kg/mol]


def freezing_point(
    *,
    water: float | Draws,
    sugar: float | Draws = 0.0,
    acid: float | Draws = 0.0,
    alcohol: float | Draws = 0.0,
    split: float | Draws = 0.0,
) -> float | Draws:
    """Temperature at which the first ice forms in a drink.

    Parameters
    ----------
    water : float or (n,) array
        Mass of water, > 0. [kg]
    sugar, acid, alcohol : float or (n,) array
        Masses dissolved in it. [kg]
    split : float or (n,) array
        Share of the sugar that is glucose or fructose, 0 for table sugar, 1 for honey. [1]

    Returns
    -------
    float or (n,) array
        Initial freezing point, at most −0.01 °C. [K]

    Raises
    ------
    OutOfRange
        If there is not enough water for the sugar in it.

    Notes
    -----
    ΔT = 1.86 Σnᵢ / (m_water − 0.27 m_sugar): the colligative law with the water that sugar holds
    taken off. Within 0.03 K of printed values for sucrose to 40 %; alcohol to about 10 % by mass.
    """
    free = water - HELD_WATER.value * sugar
    if smallest(free) <= 0.0:
        raise OutOfRange(
            "There is too little water for the sugar in it: such a syrup does not freeze to ice.",
            remedy="Give at least as much water as sugar.",
        )
    moles = sugar * ((1.0 - split) / SUCROSE + split / SINGLE_SUGAR)
    moles = moles + acid / CITRIC_ACID + alcohol / ETHANOL
    return ZERO_CELSIUS - 0.01 - CRYOSCOPIC.value * moles / free


def validity(water: float, sugar: float, alcohol: float) -> tuple[Flag, ...]:
    """Flags of a freezing point.

    Parameters
    ----------
    water, sugar, alcohol : float
        Masses in the drink. [kg]

    Returns
    -------
    tuple of Flag
        One for too much sugar, one for too much alcohol.
    """
    whole = water + sugar + alcohol
    flags = outside("sugar (freezing point)", 100.0 * sugar / whole, 0.0, 45.0, "%")
    return flags + outside("alcohol (freezing point)", 100.0 * alcohol / whole, 0.0, 15.0, "%")
