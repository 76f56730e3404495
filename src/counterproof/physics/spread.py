"""A time whose middle, low and high values are known, and how it is said."""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, isfinite


@dataclass(frozen=True, slots=True)
class Spread:
    """A time, as its 5th, 50th and 95th percentile.

    Parameters
    ----------
    p05, p50, p95 : float
        Percentiles, rising; infinite for never. [s]
    """

    p05: float
    p50: float
    p95: float

    @property
    def mean(self) -> float:
        """Mean by 0.185, 0.63, 0.185 of the three (Keefer & Bodily 1983), infinite if one is. [s]"""
        return 0.63 * self.p50 + 0.185 * (self.p05 + self.p95)

    def to_dict(self) -> dict[str, float]:
        """Return the range in the form of contracts; never is infinite here and null in JSON."""
        return {"mean": self.mean, "p05": self.p05, "p50": self.p50, "p95": self.p95}

    def shifted(self, time: float) -> Spread:
        """Return the same with a known time added.

        Parameters
        ----------
        time : float
            What has passed already. [s]

        Returns
        -------
        Spread
            Later by that time. [s]
        """
        return Spread(self.p05 + time, self.p50 + time, self.p95 + time)


def spoken(time: float) -> str:
    """A time as a cook says it.

    Parameters
    ----------
    time : float
        Time, ≥ 0 or infinite. [s]

    Returns
    -------
    str
        "12 min", "1 h 50 min", "more than 2 days", "never".
    """
    if not isfinite(time):
        return "never"
    minutes = floor(time / 60.0 + 0.5)
    if minutes < 1:
        return f"{time:.0f} s"
    if minutes < 60:
        return f"{minutes} min"
    if minutes >= 48 * 60:
        return "more than 2 days"
    # Past three hours a cook wants five-minute steps.
    if minutes > 180:
        minutes = 5 * round(minutes / 5)
    hours, rest = divmod(minutes, 60)
    return f"{hours} h {rest:02d} min" if rest else f"{hours} h"


def ranged(time: Spread) -> str:
    """A time with its range as a cook says it.

    Parameters
    ----------
    time : Spread
        The time. [s]

    Returns
    -------
    str
        "6 h to 9 h"; what becomes of it where it never ends.
    """
    if spoken(time.p50) == "never":
        return "no time: it does not get there"
    if spoken(time.p95) == "never":
        return f"{spoken(time.p05)} or more, perhaps never"
    return f"{spoken(time.p05)} to {spoken(time.p95)}"
