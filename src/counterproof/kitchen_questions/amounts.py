"""An amount of liquid as a person gives it. It stands alone, so that reading one costs nothing."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Amount:
    """By volume or by weight, one of the two.

    Parameters
    ----------
    volume : float or None
        Volume. [m³]
    mass : float or None
        Mass. [kg]
    """

    volume: float | None = None
    mass: float | None = None
