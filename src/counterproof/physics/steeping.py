"""What steeping draws out of cubes, slices and rods: diffusion, in much or in little liquid.

The inside of the piece decides, not the liquid around it (stirring changes nothing for leaf:
Spiro & Jago 1982). Roots have no published constants for kitchen water, so only comparisons of
two ways of steeping mean much; the share itself comes with its wide range.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.diffusion import Shape, kernel
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import GAS_CONSTANT, ZERO_CELSIUS, Draws, smallest
from counterproof.sourced import Sourced

ROOT: Final = Sourced(
    4e-10, "m²/s", 0.35, "assumed", "",
    "diffusivity in a fibrous root at 80 °C: 2 to 6·10⁻¹⁰, between tea leaf (Farakte 2015: 2.2 at "
    "60 and 4.3 at 80 °C) and solutes in water; no source for roots in kitchen water, so only "
    "relative gains are claimed",
)  # fmt: skip
REFERENCE: Final = ZERO_CELSIUS + 80.0
ACTIVATION: Final = Sourced(
    36e3, "J/mol", 0.12, "farakte-2015", "33 kJ/mol from its two diffusivities",
    "tea: 33 (Farakte 2015) to 40 (Jaganyi & Price 1999) kJ/mol; used for all plants",
)  # fmt: skip
LEAF_RATE: Final = Sourced(
    0.99 / 60.0, "1/s", 0.3, "jaganyi-price-1999", "caffeine, black tea, leaf 1.4–2.0 mm, 80 °C",
    "whole teas differ by a factor of four",
)  # fmt: skip
LEAF_ACTIVATION: Final = Sourced(40.3e3, "J/mol", 0.05, "jaganyi-price-1999", "same", "")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of what is steeped.

    Parameters
    ----------
    shape : Shape
        cube (side), slice (thickness, both faces) or rod (diameter, endless).
    size : float
        Side, thickness or diameter, > 0. [m]

    Raises
    ------
    OutOfRange
        If the size is not above zero.
    """

    shape: Shape
    size: float

    def __post_init__(self) -> None:
        """Refuse what has no size."""
        if self.size <= 0.0:
            raise OutOfRange(
                "A piece has a size.", remedy="Give the side of the cubes, such as 5mm."
            )


def diffusivity(
    temperature: float | Draws,
    at_reference: float | Draws = ROOT.value,
    activation: float | Draws = ACTIVATION.value,
) -> float | Draws:
    """Diffusivity of what is extracted, inside the piece.

    Parameters
    ----------
    temperature : float or (n,) array
        Liquid temperature, 273 to 373. [K]
    at_reference : float or (n,) array
        At 80 °C. [m²/s]
    activation : float or (n,) array
        Activation energy. [J/mol]

    Returns
    -------
    float or (n,) array
        Diffusivity: Arrhenius. [m²/s]
    """
    exponent = -activation / GAS_CONSTANT * (1.0 / temperature - 1.0 / REFERENCE)
    value: float | Draws = at_reference * np.exp(exponent)
    return value


def extracted(
    piece: Piece,
    time: float | Draws,
    diffusing: float | Draws,
    liquid: float | None = None,
) -> float | Draws:
    """Share of what can be drawn out that is in the liquid.

    Parameters
    ----------
    piece : Piece
        The piece.
    time : float or (n,) array
        Steeping time, ≥ 0. [s]
    diffusing : float or (n,) array
        Diffusivity, > 0. [m²/s]
    liquid : float or None
        Volume of liquid over that of the pieces, > 0; None for plenty. [1]

    Returns
    -------
    float or (n,) array
        Share of all that is in the pieces; with little liquid it ends at liquid/(1 + liquid). [1]

    Raises
    ------
    OutOfRange
        If time or liquid is negative.

    Notes
    -----
    `kernel` at Fo = D t/(size/2)².
    """
    if smallest(time) < 0.0 or smallest(diffusing) <= 0.0:
        raise OutOfRange(
            "Steeping needs a time, and something that moves.",
            remedy="Give minutes from 0.",
        )
    return kernel(piece.shape, liquid).share(fourier(piece, time, diffusing))


def fourier(piece: Piece, time: float | Draws, diffusing: float | Draws) -> float | Draws:
    """Time, as diffusion counts it.

    Parameters
    ----------
    piece : Piece
        The piece.
    time : float or (n,) array
        Steeping time. [s]
    diffusing : float or (n,) array
        Diffusivity. [m²/s]

    Returns
    -------
    float or (n,) array
        D t/(size/2)². [1]
    """
    return diffusing * time / (0.5 * piece.size) ** 2


def time_for(piece: Piece, share: float, diffusing: float, liquid: float | None = None) -> float:
    """Time in which a share is drawn out.

    Parameters
    ----------
    piece : Piece
        The piece.
    share : float
        Share wanted, above 0, below what can be had. [1]
    diffusing : float
        Diffusivity, > 0. [m²/s]
    liquid : float or None
        Volume of liquid over that of the pieces; None for plenty. [1]

    Returns
    -------
    float
        Time. [s]

    Raises
    ------
    OutOfRange
        If so much cannot be drawn out at all.
    """
    form = kernel(piece.shape, liquid)
    most = form.end
    if not 0.0 < share < most:
        raise OutOfRange(
            f"No time draws out {share:.0%}; with that much liquid it ends at {most:.0%}.",
            remedy="Ask for less, or use more liquid, or steep twice.",
        )
    low, high = 0.0, 20.0
    for _ in range(80):
        half = 0.5 * (low + high)
        enough = form.share(half) > share
        low, high = (low, half) if enough else (half, high)
    return 0.5 * (low + high) * (0.5 * piece.size) ** 2 / diffusing


def leaf_infusion(
    time: float | Draws,
    temperature: float | Draws,
    rate: float | Draws = LEAF_RATE.value,
    activation: float | Draws = LEAF_ACTIVATION.value,
) -> float | Draws:
    """Share of a leaf's caffeine that is in the cup.

    Parameters
    ----------
    time : float or (n,) array
        Steeping time, ≥ 0. [s]
    temperature : float or (n,) array
        Water temperature, 333 to 368. [K]
    rate : float or (n,) array
        First-order constant at 80 °C. [1/s]
    activation : float or (n,) array
        Activation energy. [J/mol]

    Returns
    -------
    float or (n,) array
        1 − exp(−k t), k by Arrhenius (Jaganyi & Price 1999). [1]
    """
    value: float | Draws = -np.expm1(-diffusivity(temperature, rate, activation) * time)
    return value


@dataclass(frozen=True, slots=True)
class Flavouring:
    """A strong extract that is used by the spoon.

    Parameters
    ----------
    bottle : float
        Volume in the bottle, > 0. [m³]
    dose : float
        Volume used at a time, > 0. [m³]
    drink : float
        Drink that a dose flavours, ≥ the dose. [m³]

    Raises
    ------
    OutOfRange
        If a volume is not above zero, or the dose is more than the drink.
    """

    bottle: float
    dose: float
    drink: float

    def __post_init__(self) -> None:
        """Refuse what cannot be poured."""
        if min(self.bottle, self.dose) <= 0.0 or self.dose > self.drink:
            raise OutOfRange(
                "A drink holds at least the flavouring that went into it.",
                remedy="Give bottle, dose and drink above zero, the drink the largest.",
            )

    @property
    def makes(self) -> float:
        """Drink that the bottle flavours. [m³]"""
        return self.bottle / self.dose * self.drink

    @property
    def strength(self) -> float:
        """Strength of the drink over that of the flavouring. [1]"""
        return self.dose / self.drink


def validity(temperature: float | Draws, piece: Piece) -> tuple[Flag, ...]:
    """Flags of a steeping.

    Parameters
    ----------
    temperature : float or (n,) array
        Liquid temperature. [K]
    piece : Piece
        The piece.

    Returns
    -------
    tuple of Flag
        Ranges that were left; always that only comparisons are claimed.
    """
    flags = outside("steeping temperature", temperature, 273.15, 373.15, "°C")
    flags += outside("piece size (mm)", 1e3 * piece.size, 0.2, 50.0, "mm")
    return (
        *flags,
        Flag(
            "relative-only",
            "how fast roots and spices give is not published for kitchen water: compare two ways "
            "of steeping, don't quote the share alone.",
            "note",
        ),
    )
