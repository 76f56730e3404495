"""How many digits a value deserves, and in what unit people read it.

The one place where a number becomes text: the terminal, the sheet and every later surface
print what these functions return, so no two surfaces can round differently.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from counterproof.draws import Range

MOST_DIGITS = 3
"""House rule: nobody reads a fourth digit of a footprint, and none has earned it."""

PLAIN_DIGITS = 2
"""House rule: a number that comes without a range is shown with two digits."""

UNCERTAINTY_DIGITS = 2
"""JCGM 100:2008 (GUM), 7.2.6: an uncertainty is quoted to at most two significant digits."""

FINEST_CO2E = 4
"""House rule: decimal places of a footprint in kg at most; a tenth of a gram is a crumb."""

WIDTH_IN_STANDARD_UNCERTAINTIES = 3.29
"""A 5–95 % interval of a normal distribution is 2 × 1.645 standard deviations wide."""

MEDIAN_APART = 0.2
"""The median is printed too where it differs from the mean by more (method.md, section 4)."""

_NOTHING = 1e-99
"""Below this a number has no place that could be printed; it counts as zero."""

MINUS = "\N{MINUS SIGN}"
DASH = "\N{EN DASH}"
SPACE = "\N{NO-BREAK SPACE}"
CO2E = f"kg{SPACE}CO\N{SUBSCRIPT TWO}e"


@dataclass(frozen=True, slots=True)
class Shown:
    """A range as it is printed: every part rounded to the same place."""

    middle: str
    low: str
    high: str
    median: str | None
    unit: str

    @property
    def span(self) -> str:
        """The interval: with a dash, or with "to" where a minus sign would meet the dash."""
        if MINUS in self.low + self.high:
            return f"{self.low} to {self.high}"
        return self.low if self.low == self.high else f"{self.low}{DASH}{self.high}"

    @property
    def exact(self) -> bool:
        """Whether nothing of the interval is left after rounding."""
        return self.low == self.middle == self.high

    @property
    def text(self) -> str:
        """Middle, unit and interval in one phrase."""
        value = f"{self.middle}{SPACE}{self.unit}" if self.unit else self.middle
        return value if self.exact else f"{value}{SPACE}({self.span})"


def middle_value(value: Range, middle: str) -> float:
    """Return the middle of a range: its mean, or its median where the kitchen says so.

    Parameters
    ----------
    value : Range
        Mean and percentiles. [any unit]
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    float
        In the range's own unit.
    """
    return value.p50 if middle == "median" else value.mean


def standard_uncertainty(value: Range) -> float:
    """Return the standard uncertainty that a 5–95 % interval stands for, taken as normal.

    Parameters
    ----------
    value : Range
        Mean and percentiles. [any unit]

    Returns
    -------
    float
        In the range's own unit, ≥ 0.
    """
    return abs(value.p95 - value.p05) / WIDTH_IN_STANDARD_UNCERTAINTIES


def places(middle: float, uncertainty: float, most: int = MOST_DIGITS) -> int:
    """Return how many decimal places a value deserves; negative for tens, hundreds and so on.

    Parameters
    ----------
    middle : float
        The value itself. [any unit]
    uncertainty : float
        Its standard uncertainty, ≥ 0; zero where none is known. [the same unit]
    most : int
        Significant digits the value may have at most, ≥ 1.

    Returns
    -------
    int
        Decimal places.

    Notes
    -----
    The value is rounded to be consistent with its uncertainty, which is quoted to at most two
    significant digits (JCGM 100:2008, 7.2.6). Whether to one or two is decided as the Particle
    Data Group does (Review of Particle Physics, Introduction, section 5.3): leading digits 100
    to 354 keep two, 355 to 949 one, and 950 to 999 count as 1000 and keep two. Two digits of the
    value itself are kept as long as two digits of the uncertainty reach that far, so that the
    ends of a skewed interval can still be told apart; more than `most` are never shown.
    """
    by_rule = _places_of(uncertainty)
    if by_rule is None:
        return _places_for(middle, PLAIN_DIGITS) or 0
    at_most = _places_for(uncertainty, UNCERTAINTY_DIGITS)
    at_least = _places_for(middle, PLAIN_DIGITS)
    if at_least is None or at_most is None:
        return by_rule
    return min(max(by_rule, min(at_least, at_most)), at_least + most - PLAIN_DIGITS)


def _places_of(uncertainty: float) -> int | None:
    """Decimal places of an uncertainty rounded to its own one or two digits."""
    last = _places_for(uncertainty, 3)
    if last is None:
        return None
    leading = round(abs(uncertainty) * 10.0**last)
    return last - (1 if leading < 355 else 2)  # 950 to 999 become 10 of the next place


def _places_for(value: float, digits: int) -> int | None:
    """Decimal places that show `digits` significant digits of `value` after rounding."""
    if abs(value) < _NOTHING or not math.isfinite(value):
        return None
    exponent = int(f"{abs(value):.{digits - 1}e}".partition("e")[2])  # after rounding: 9.99 → 10
    return digits - 1 - exponent


def number(value: float, decimals: int) -> str:
    """Return a value at a fixed place, with a true minus sign and never a negative zero.

    Parameters
    ----------
    value : float
        Any value. [any unit]
    decimals : int
        Decimal places; negative for tens, hundreds and so on.

    Returns
    -------
    str
        Digits, with a true minus sign.
    """
    if not math.isfinite(value):
        return "not finite"
    rounded = round(value, decimals)
    text = f"{abs(rounded):.{max(decimals, 0)}f}"
    return f"{MINUS}{text}" if rounded < 0 else text


def plain(value: float, digits: int = PLAIN_DIGITS) -> str:
    """Return a value that has no range, to a few significant digits.

    Parameters
    ----------
    value : float
        Any value. [any unit]
    digits : int
        Significant digits, ≥ 1.

    Returns
    -------
    str
        Digits, without a unit.
    """
    decimals = _places_for(value, digits)
    return number(value, 0 if decimals is None else decimals)


def shown(value: Range, middle: str = "mean", unit: str = CO2E, finest: int = FINEST_CO2E) -> Shown:
    """Return a range with the digits it deserves.

    Parameters
    ----------
    value : Range
        Mean and percentiles. [`unit`]
    middle : str
        "mean" or "median": which of them stands in the middle.
    unit : str
        Printed behind the middle value.
    finest : int
        Decimal places at most, whatever the range would allow.

    Returns
    -------
    Shown
        All parts rounded to one place; the median too where it lies more than 20 % off the mean.
    """
    centre = middle_value(value, middle)
    decimals = min(places(centre, standard_uncertainty(value)), finest)
    apart = abs(value.p50 - value.mean) > MEDIAN_APART * abs(value.mean)
    return Shown(
        _or_less(centre, decimals),
        _or_less(value.p05, decimals),
        _or_less(value.p95, decimals),
        _or_less(value.p50, decimals) if apart and middle == "mean" else None,
        unit,
    )


def _or_less(value: float, decimals: int) -> str:
    """A number, or that it lies between zero and the last place shown."""
    if decimals > 0 and 0 < value < 0.5 * 10.0**-decimals:
        return f"<{10.0**-decimals:.{decimals}f}"
    return number(value, decimals)


def mass(value: Range, middle: str = "mean") -> Shown:
    """Return a mass [kg] as cooks read it.

    Grams below one kilogram, kilograms from there; a kitchen scale shows whole grams, so tenths
    are kept below ten grams and hundredths below one gram only.

    Parameters
    ----------
    value : Range
        A mass. [kg]
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    Shown
        In g or kg.
    """
    centre = abs(middle_value(value, middle))
    if centre < 1:
        grams = Range(*(1000 * part for part in (value.mean, value.p05, value.p50, value.p95)))
        return shown(
            grams, middle, "g", finest=2 if centre < 0.000995 else 1 if centre < 0.00995 else 0
        )
    return shown(value, middle, "kg", finest=3)


def plain_mass(kg: float) -> str:
    """Return a mass [kg] without a range, in grams or kilograms.

    Parameters
    ----------
    kg : float
        Mass. [kg]

    Returns
    -------
    str
        With its unit.
    """
    if abs(kg) < 1:
        return f"{_as_read(1000 * kg)}{SPACE}g"
    return f"{plain(kg, MOST_DIGITS)}{SPACE}kg"


def _as_read(value: float) -> str:
    """Grams or millilitres as a scale shows them: tenths below ten, hundredths below one."""
    decimals = _places_for(value, MOST_DIGITS) or 0
    finest = 2 if abs(value) < 0.995 else 1 if abs(value) < 9.95 else 0
    return number(value, min(decimals, finest))


def plain_volume(litres: float) -> str:
    """Return a volume [l] without a range, in millilitres or litres.

    Parameters
    ----------
    litres : float
        Volume. [L]

    Returns
    -------
    str
        With its unit.
    """
    if abs(litres) < 1:
        return f"{_as_read(1000 * litres)}{SPACE}ml"
    return f"{plain(litres, MOST_DIGITS)}{SPACE}litres"


def energy(value: Range, middle: str = "mean") -> Shown:
    """Return an energy [kWh] with the digits it deserves.

    Parameters
    ----------
    value : Range
        An energy. [kWh]
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    Shown
        In kWh.
    """
    return shown(value, middle, "kWh")


def percent(share: float) -> str:
    """Return a share [0 to 1] in whole per cent; 0 and 100 are kept for nothing and all.

    Parameters
    ----------
    share : float
        From 0 to 1. [1]

    Returns
    -------
    str
        Such as “37 %”.
    """
    if 0 < share < 0.01:
        return f"under 1{SPACE}%"
    if 0.99 < share < 1:
        return f"over 99{SPACE}%"
    return f"{number(100 * share, 0)}{SPACE}%"


def count(value: float) -> str:
    """Return a number of servings: whole where it is whole.

    Parameters
    ----------
    value : float
        Servings. [1]

    Returns
    -------
    str
        Digits.
    """
    return f"{value:.0f}" if value == round(value) else plain(value, MOST_DIGITS)


def signed(value: Shown) -> str:
    """Return a difference's middle with its sign written out.

    Parameters
    ----------
    value : Shown
        A difference as printed.

    Returns
    -------
    str
        With + or −; a zero has neither.
    """
    if value.middle[0] in f"<{MINUS}" or not value.middle.strip("0."):
        return value.middle
    return f"+{value.middle}"
