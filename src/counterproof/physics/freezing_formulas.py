"""Freezing times by hand: Plank (1913) and Pham (1986), to stand beside the enthalpy method.

Plank starts at the freezing point and ends when the centre has frozen; nothing warms or cools.
Pham goes from any start to any end but was fitted to moist foods in cold stores: it over-states
the sharp front of plain water by about an eighth, which is reported here and not hidden.
"""

from __future__ import annotations

from typing import Final, Literal

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import ZERO_CELSIUS, Draws, smallest

Form = Literal["slab", "cylinder", "sphere"]
_PLANK: Final = {"slab": (1 / 2, 1 / 8), "cylinder": (1 / 4, 1 / 16), "sphere": (1 / 6, 1 / 24)}
_DIMENSIONS: Final = {"slab": 1.0, "cylinder": 2.0, "sphere": 3.0}


def plank(
    form: Form,
    *,
    size: float | Draws,
    latent: float | Draws,
    drop: float | Draws,
    coefficient: float | Draws,
    conductivity: float | Draws,
) -> float | Draws:
    """Time in which a body at its freezing point freezes through, by Plank.

    Parameters
    ----------
    form : Form
        slab (both faces), cylinder (endless) or sphere.
    size : float or (n,) array
        Thickness or diameter, > 0. [m]
    latent : float or (n,) array
        Heat of fusion per volume, > 0. [J/m³]
    drop : float or (n,) array
        Freezing point less surroundings, > 0. [K]
    coefficient : float or (n,) array
        Heat transfer at the surface, > 0. [W/(m² K)]
    conductivity : float or (n,) array
        Of the frozen body, > 0. [W/(m K)]

    Returns
    -------
    float or (n,) array
        Time. [s]

    Raises
    ------
    OutOfRange
        If a quantity is not above zero.

    Notes
    -----
    t = L/ΔT (P a/h + R a²/k); slab P = 1/2, R = 1/8; cylinder 1/4, 1/16; sphere 1/6, 1/24.
    """
    if smallest(size, latent, drop, coefficient, conductivity) <= 0.0:
        raise OutOfRange(
            "Plank's equation needs a size, a heat of fusion and surroundings below the freezing "
            "point.",
            remedy="Give each above zero.",
        )
    p, r = _PLANK[form]
    return latent / drop * (p * size / coefficient + r * size**2 / conductivity)


def pham(  # noqa: PLR0913 (the equation has these)
    form: Form,
    *,
    size: float | Draws,
    start: float | Draws,
    ambient: float | Draws,
    until: float | Draws,
    latent: float | Draws,
    capacities: tuple[float, float],
    coefficient: float | Draws,
    conductivity: float | Draws,
) -> float | Draws:
    """Time in which a moist food freezes to a core temperature, by Pham's first method.

    Parameters
    ----------
    form : Form
        slab (both faces), cylinder (endless) or sphere.
    size : float or (n,) array
        Thickness or diameter, > 0. [m]
    start, ambient, until : float or (n,) array
        Temperatures at the start, around, and of the core at the end. [K]
    latent : float or (n,) array
        Heat of fusion per volume. [J/m³]
    capacities : tuple of float
        Heat capacity per volume, unfrozen and frozen. [J/(m³ K)]
    coefficient : float or (n,) array
        Heat transfer at the surface, > 0. [W/(m² K)]
    conductivity : float or (n,) array
        Of the frozen food. [W/(m K)]

    Returns
    -------
    float or (n,) array
        Time. [s]

    Raises
    ------
    OutOfRange
        If the surroundings are not below the end, or the mean freezing temperature above them.

    Notes
    -----
    t = R/(E h) [ΔH₁/ΔT₁ + ΔH₂/ΔT₂](1 + Bi/2), T_fm = 1.8 + 0.263 T_c + 0.105 T_a (°C); meant for
    −45 ≤ T_a ≤ −15 °C, 0.02 < Bi < 11 (Pham 1986, from memory). E is 1, 2 or 3.
    """
    middle = ZERO_CELSIUS + 1.8 + 0.263 * (until - ZERO_CELSIUS) + 0.105 * (ambient - ZERO_CELSIUS)
    if smallest(until - ambient, middle - ambient, start - middle) <= 0.0:
        raise OutOfRange(
            "A food freezes towards surroundings colder than its end, from a start above freezing.",
            remedy="Give a colder freezer or a warmer end.",
        )
    half = 0.5 * size
    first = capacities[0] * (start - middle) / (0.5 * (start + middle) - ambient)
    second = (latent + capacities[1] * (middle - until)) / (middle - ambient)
    biot = coefficient * half / conductivity
    return half / (_DIMENSIONS[form] * coefficient) * (first + second) * (1.0 + 0.5 * biot)


def shape_dimension(first: float, second: float) -> float:
    """Equivalent dimensions of a brick or short can when its surface decides.

    Parameters
    ----------
    first, second : float
        The other sides over the shortest, ≥ 1. [1]

    Returns
    -------
    float
        E₀ = 1 + 1/b₁ + 1/b₂: how many times faster than a slab it freezes. [1]

    Notes
    -----
    ASHRAE Handbook, Refrigeration, cooling and freezing times of foods, equation 20; Bi → 0.
    """
    return 1.0 + 1.0 / first + 1.0 / second


def validity(ambient: float | Draws, biot: float | Draws) -> tuple[Flag, ...]:
    """Flags of Pham's method.

    Parameters
    ----------
    ambient : float or (n,) array
        Temperature around. [K]
    biot : float or (n,) array
        Biot number on the half size. [1]

    Returns
    -------
    tuple of Flag
        One for each range that is left.
    """
    low, high = ZERO_CELSIUS - 45.0, ZERO_CELSIUS - 15.0
    flags = outside("freezer temperature (Pham)", ambient, low, high, "°C")
    return flags + outside("Biot number (Pham)", biot, 0.02, 11.0, "")
