"""Flags: what a value must say about itself where it leaves the ground it stands on.

A value outside its range of validity comes back as computed, with a flag that travels to the
page. Nothing is clamped. A question that has no answer raises `OutOfRange` instead.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.values import ZERO_CELSIUS, Draws, Fit, printed_ends


@dataclass(frozen=True, slots=True)
class Flag:
    """One flag.

    Parameters
    ----------
    name : str
        Short slug, such as ``outside-validity``.
    message : str
        One sentence a cook understands, with the limit and the value.
    level : str
        "doubt" where the value may be wrong, "note" where it only should be known.
    """

    name: str
    message: str
    level: Literal["note", "doubt"] = "doubt"

    def to_dict(self) -> dict[str, str | list[str]]:
        """Return the JSON form, the same as that of a mark."""
        return {"level": self.level, "kind": self.name, "message": self.message, "choices": []}


def outside(
    what: str, value: float | Draws, low: float, high: float, unit: str
) -> tuple[Flag, ...]:
    """A flag if a quantity leaves its valid range, none if it does not.

    Parameters
    ----------
    what : str
        The quantity as a cook says it, such as "water temperature".
    value : float or (n,) array
        The quantity; of draws, the printed range (5th to 95th percentile) counts. [as `unit`; K if `unit` is "°C"]
    low, high : float
        The range, ends included. [as `value`]
    unit : str
        Unit to print; "°C" turns kelvin into it.

    Returns
    -------
    tuple of Flag
        None or one.
    """
    least, most = printed_ends(value)
    if low <= least and most <= high:
        return ()
    shift = ZERO_CELSIUS if unit == "°C" else 0.0
    found = most if most > high else least
    return (
        Flag(
            "outside-validity",
            f"{what}: {found - shift:.4g} {unit} lies outside the range this was checked for, "
            f"{low - shift:.4g} to {high - shift:.4g} {unit}; the value is computed all the same "
            "and may be wrong.",
        ),
    )


def outside_fit(what: str, temperature: float | Draws, fit: Fit) -> tuple[Flag, ...]:
    """A flag if a temperature leaves the range of a correlation.

    Parameters
    ----------
    what : str
        The quantity as a cook says it.
    temperature : float or (n,) array
        Temperature. [K]
    fit : Fit
        The correlation.

    Returns
    -------
    tuple of Flag
        None or one.
    """
    return outside(what, temperature, fit.low, fit.high, "°C")


def unique(flags: Iterable[Flag]) -> tuple[Flag, ...]:
    """Each flag once, in order of appearance.

    Parameters
    ----------
    flags : iterable of Flag
        Flags, some of them alike.

    Returns
    -------
    tuple of Flag
        Without repetition.
    """
    return tuple(dict.fromkeys(flags))


def refuse_unless_positive(what: str, value: float | Draws | None, *, zero: bool = False) -> None:
    """Refuse a quantity that is negative, zero or no number, whatever is asked about it.

    Parameters
    ----------
    what : str
        The quantity as a cook says it, such as "The time".
    value : float or (n,) array or None
        The quantity; None passes, for it was not given. [any]
    zero : bool
        Whether zero is a value too.

    Raises
    ------
    OutOfRange
        If one draw is refused.
    """
    if value is None:
        return
    draws = np.asarray(value)
    if np.all(draws >= 0.0 if zero else draws > 0.0):
        return
    raise OutOfRange(
        f"{what} is {np.min(draws):g}: it cannot be below zero{'' if zero else ', or zero'}.",
        remedy=f"Give a number {'of zero or more' if zero else 'above zero'}.",
    )
