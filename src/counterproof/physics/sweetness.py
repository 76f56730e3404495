"""How sweet sugars taste against sucrose: published values, with their range.

Sweetness is a judgement of panels: it depends on strength, temperature and what else is in the
glass. So a range is given, never one number alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics.values import Draws

_STUDY: Final = "phn-2022"
_DICTIONARY: Final = "dictionary-food-nutrition"


@dataclass(frozen=True, slots=True)
class Relative:
    """Sweetness of equal mass, sucrose being 1.

    Parameters
    ----------
    low, high : float
        Ends of what is published. [1]
    sources : tuple of str
        Ids of rows of `data/sources.csv`.
    """

    low: float
    high: float
    sources: tuple[str, ...]


RELATIVE: Final[dict[str, Relative]] = {
    "sucrose": Relative(1.0, 1.0, (_STUDY,)),
    "brown sugar": Relative(1.0, 1.0, (_STUDY,)),
    "fructose": Relative(1.17, 1.73, (_STUDY, _DICTIONARY)),
    "glucose": Relative(0.67, 0.80, (_STUDY, _DICTIONARY)),
    "maltose": Relative(0.33, 0.5, (_STUDY, _DICTIONARY)),
    "lactose": Relative(0.16, 0.2, (_STUDY, _DICTIONARY)),
    "honey": Relative(0.9, 1.1, (_STUDY,)),
    "invert sugar": Relative(0.9, 1.1, (_STUDY,)),
    "fruit sugars": Relative(1.0, 1.2, (_STUDY,)),
    "molasses": Relative(0.8, 1.0, (_STUDY,)),
    "glucose syrup": Relative(0.9, 1.1, (_STUDY,)),
    "erythritol": Relative(0.6, 0.8, (_STUDY,)),
    "xylitol": Relative(0.9, 1.1, (_STUDY,)),
    "sorbitol": Relative(0.5, 0.7, (_STUDY,)),
}
"""Where one value is published, a tenth either way is assumed; fructose is sweeter when cold."""


def relative_sweetness(name: str) -> Relative:
    """Sweetness of a sweetener against sucrose.

    Parameters
    ----------
    name : str
        A key of `RELATIVE`.

    Returns
    -------
    Relative
        Its published range, for equal mass of solids.

    Raises
    ------
    OutOfRange
        If none is known here.
    """
    if name not in RELATIVE:
        raise OutOfRange(
            f"How sweet “{name}” is against sugar is not known here.",
            remedy=f"Known are: {', '.join(RELATIVE)}.",
        )
    return RELATIVE[name]


def sweetness(
    masses: dict[str, float | Draws], volume: float | Draws
) -> tuple[float | Draws, float | Draws]:
    """Sweetness of a drink, as the sucrose that would taste alike.

    Parameters
    ----------
    masses : dict of float or (n,) array
        Mass of each sweetener's solids. [kg]
    volume : float or (n,) array
        Of the drink, > 0. [m³]

    Returns
    -------
    tuple of float or (n,) array
        Low and high ends: Σ mass · relative sweetness over volume. [kg/m³]
    """
    low: float | Draws = 0.0
    high: float | Draws = 0.0
    for name, mass in masses.items():
        known = relative_sweetness(name)
        low, high = low + mass * known.low, high + mass * known.high
    return low / volume, high / volume
