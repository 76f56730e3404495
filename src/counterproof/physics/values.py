"""What a physical value may be: one number or n draws, a correlation, a constant to be taken.

`Fit` is the sibling of `Sourced` for a curve: its coefficients, where it holds, how far it is off
and where it comes from, in one place. `Take` is how a question gets an uncertain constant: its
middle value (`middle`), or draws under a key from whoever keeps the draws.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Protocol

import numpy as np
from numpy.typing import NDArray

from counterproof.sourced import Sourced

Draws = NDArray[np.float64]

ZERO_CELSIUS: Final = Sourced(
    273.15, "K", 0.0, "exact", "definition of the degree Celsius", ""
).value  # fmt: skip
STANDARD_PRESSURE: Final = Sourced(
    101325.0, "Pa", 0.0, "exact", "definition of the standard atmosphere", ""
).value  # fmt: skip
GAS_CONSTANT: Final = Sourced(
    8.31446261815324, "J/(mol K)", 0.0, "exact", "SI since 2019: Avogadro times Boltzmann", ""
).value  # fmt: skip
GRAVITY: Final = Sourced(9.80665, "m/s²", 0.0, "exact", "standard gravity, 1901", "").value
STEFAN_BOLTZMANN: Final = Sourced(
    5.670374419e-8, "W/(m² K⁴)", 0.0, "exact", "SI since 2019, cut to ten digits", ""
).value  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fit:
    """A correlation that can be defended.

    Parameters
    ----------
    coefficients : tuple of float
        In the order of the equation beside it.
    unit : str
        Unit of the result.
    low, high : float
        Where it holds. [K]
    error : float
        Largest relative error there, against the reference named in `note`. [1]
    source : str
        Id of a row of `data/sources.csv`.
    locator : str
        Equation, table.
    note : str
        How the error was found.
    """

    coefficients: tuple[float, ...]
    unit: str
    low: float
    high: float
    error: float
    source: str
    locator: str
    note: str

    def polynomial(self, at: float | Draws) -> float | Draws:
        """Return the coefficients as a polynomial, lowest power first.

        Parameters
        ----------
        at : float or (n,) array
            The variable of the fit, as its equation says. [1]

        Returns
        -------
        float or (n,) array
            The value. [`unit`]
        """
        value: float | Draws = self.coefficients[-1] + 0.0 * at
        for coefficient in reversed(self.coefficients[:-1]):
            value = value * at + coefficient
        return value


def hundreds(temperature: float | Draws) -> float | Draws:
    """Hundreds of degrees Celsius, the variable of our own fits.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature. [K]

    Returns
    -------
    float or (n,) array
        (T − 273.15 K) / 100 K. [1]
    """
    return (temperature - ZERO_CELSIUS) / 100.0


class Take(Protocol):
    """How a question gets an uncertain constant: one number, or draws under a key."""

    def __call__(self, key: str, constant: Sourced, /) -> float | Draws:
        """Return the constant, in its own unit."""
        ...


def middle(key: str, constant: Sourced, /) -> float:  # noqa: ARG001 (a Take is called with its key)
    """The middle value of a constant, which is what a question takes where nobody draws.

    Parameters
    ----------
    key : str
        What the constant is.
    constant : Sourced
        The constant.

    Returns
    -------
    float
        Its value. [its unit]
    """
    return constant.value


def taken_share(take: Take, key: str, constant: Sourced) -> float | Draws:
    """A share between 0 and 1, drawn so that it stays there.

    Parameters
    ----------
    take : Take
        Where draws come from.
    key : str
        What the share is.
    constant : Sourced
        A share strictly between 0 and 1, with its relative spread. [1]

    Returns
    -------
    float or (n,) array
        The share s. [1]

    Notes
    -----
    What is drawn is a factor on the odds of the smaller part (s below a half, else 1 − s), with
    the relative spread of s over (1 − s): the same standard deviation to first order, the mean
    nearly kept, and no draw of an efficiency can pass 1. The middle value comes back exactly.
    """
    odds = constant.value / (1.0 - constant.value)
    spread = constant.spread / (1.0 - constant.value)
    factor = take(key, Sourced(1.0, "1", spread, constant.source, constant.locator, constant.note))
    drawn = odds * factor if constant.value < 0.5 else odds / factor
    return drawn / (1.0 + drawn)


def largest(*values: float | Draws) -> float:
    """The largest of all numbers and draws.

    Parameters
    ----------
    *values : float or (n,) array
        Any quantities of one unit. [any]

    Returns
    -------
    float
        The largest. [the same]
    """
    # A plain number is its own largest; asking the array library takes ten times as long.
    return max(
        float(value) if isinstance(value, float) else float(np.max(value)) for value in values
    )


def smallest(*values: float | Draws) -> float:
    """The smallest of all numbers and draws.

    Parameters
    ----------
    *values : float or (n,) array
        Any quantities of one unit. [any]

    Returns
    -------
    float
        The smallest. [the same]
    """
    return min(
        float(value) if isinstance(value, float) else float(np.min(value)) for value in values
    )


def printed_ends(value: float | Draws) -> tuple[float, float]:
    """The ends of a quantity as a range is printed.

    Parameters
    ----------
    value : float or (n,) array
        Any quantity. [any]

    Returns
    -------
    tuple of float
        5th and 95th percentile of 20 draws or more, else the smallest and the largest. [the same]
    """
    if isinstance(value, float):
        return float(value), float(value)
    draws = np.asarray(value).reshape(-1)
    if draws.size < 20:
        return float(draws.min()), float(draws.max())
    # Order statistics, so that infinite draws do no harm; partition is faster than quantiles.
    low, high = int(0.05 * (draws.size - 1)), int(np.ceil(0.95 * (draws.size - 1)))
    parted = np.partition(draws, (low, high))
    return float(parted[low]), float(parted[high])
