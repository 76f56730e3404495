"""A number with its unit, its range and where it comes from, in one place."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sourced:
    """A constant that can be defended.

    Parameters
    ----------
    value : float
        The number, in `unit`.
    unit : str
        SI or a unit used with it; "1" for a plain number.
    spread : float
        Relative standard deviation; 0 for an exact value.
    source : str
        Id of a row of `data/sources.csv`, "exact", or "assumed".
    locator : str
        Table, page, equation.
    note : str
        For "assumed": the reason, and who is affected.
    """

    value: float
    unit: str
    spread: float
    source: str
    locator: str
    note: str
