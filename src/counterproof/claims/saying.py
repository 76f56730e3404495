"""Figures in words: units for people, no more digits than deserved, ratios only as far as known."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Final, Literal

from counterproof import numerals
from counterproof.claims.figure import Figure, Unit
from counterproof.draws import Range
from counterproof.numerals import DASH, SPACE
from counterproof.units import POUND, US_GALLON

System = Literal["metric", "us"]

ABOUT: Final = 1.5
"""Widest ratio of the ends of a 5–95 % interval that "about five times" may stand for. [1]

A house choice: the ends then lie at most a quarter to either side of the number said.
"""

SPAN: Final = 3.0
"""Widest ratio of the ends that "four to seven times" may stand for. [1] A house choice: beyond
it the words would be true and say nothing."""

NAMES: Final = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")

CO2E: Final = f"CO{chr(0x2082)}e"
CO2: Final = f"CO{chr(0x2082)}"


@dataclass(frozen=True, slots=True)
class Spelled:
    """A unit that people read: what one of it is in the figure's own unit, and how it is told."""

    size: float
    sign: str
    from_: float = 0.0  # the middle from which it is taken, in the figure's own unit


_GRAMS = (Spelled(1.0, "kg", 0.995), Spelled(1e-3, "g"))
_POUNDS = (Spelled(POUND, "lb", 0.995 * POUND), Spelled(POUND / 16, "oz"))
_LITRES = (Spelled(1.0, "litres", 0.995), Spelled(1e-3, "ml"))
_CUPS = (
    Spelled(US_GALLON / 4000, "quarts", 0.995 * US_GALLON / 4000),
    Spelled(US_GALLON / 128_000, "fl oz"),
)
_TIME = (
    Spelled(86_400.0, "days", 2 * 86_400.0),
    Spelled(3600.0, "hours", 5400.0),
    Spelled(60.0, "minutes", 90.0),
    Spelled(1.0, "seconds"),
)

UNITS: Final[dict[tuple[Unit, System], tuple[Spelled, ...]]] = {
    ("kg", "metric"): _GRAMS,
    ("kg", "us"): _POUNDS,
    ("kg CO2e", "metric"): _GRAMS,
    ("kg CO2e", "us"): _POUNDS,
    ("kg CO2", "metric"): _GRAMS,
    ("kg CO2", "us"): _POUNDS,
    ("L", "metric"): _LITRES,
    ("L", "us"): _CUPS,
    ("s", "metric"): _TIME,
    ("s", "us"): _TIME,
    ("kWh", "metric"): (Spelled(1.0, "kWh"),),
    ("kWh", "us"): (Spelled(1.0, "kWh"),),
    ("kcal", "metric"): (Spelled(1.0, "kcal"),),
    ("kcal", "us"): (Spelled(1.0, "calories"),),
    ("K", "metric"): (Spelled(1.0, "°C"),),
    ("K", "us"): (Spelled(5 / 9, "°F"),),
    ("km", "metric"): (Spelled(1.0, "km", 0.995), Spelled(1e-3, "m")),
    ("km", "us"): (Spelled(1.609344, "miles"),),
    ("count", "metric"): (Spelled(1.0, ""),),
    ("count", "us"): (Spelled(1.0, ""),),
}
"""Units people read, largest first. The mile is exact (1959); the US gallon and pound are too."""

_SUFFIX: Final[dict[Unit, str]] = {"kg CO2e": f"{SPACE}{CO2E}", "kg CO2": f"{SPACE}{CO2}"}

WORDS: Final[dict[str, Spelled]] = {
    "g": Spelled(1e-3, "g"),
    "grams": Spelled(1e-3, "g"),
    "kg": Spelled(1.0, "kg"),
    "kilos": Spelled(1.0, "kg"),
    "kilograms": Spelled(1.0, "kg"),
    "pounds": Spelled(POUND, "lb"),
    "lb": Spelled(POUND, "lb"),
    "ounces": Spelled(POUND / 16, "oz"),
    "oz": Spelled(POUND / 16, "oz"),
    "ml": Spelled(1e-3, "ml"),
    "millilitres": Spelled(1e-3, "ml"),
    "litres": Spelled(1.0, "litres"),
    "liters": Spelled(1.0, "liters"),
    "fluid ounces": Spelled(US_GALLON / 128_000, "fl oz"),
    "quarts": Spelled(US_GALLON / 4000, "quarts"),
    "seconds": Spelled(1.0, "seconds"),
    "minutes": Spelled(60.0, "minutes"),
    "hours": Spelled(3600.0, "hours"),
    "days": Spelled(86_400.0, "days"),
    "kwh": Spelled(1.0, "kWh"),
    "kilowatt hours": Spelled(1.0, "kWh"),
    "watt hours": Spelled(1e-3, "Wh"),
    "kcal": Spelled(1.0, "kcal"),
    "calories": Spelled(1.0, "kcal"),
    "km": Spelled(1.0, "km"),
    "kilometres": Spelled(1.0, "km"),
    "miles": Spelled(1.609344, "miles"),
}
"""Units a script may ask for after "in"."""

DIMENSIONS: Final[dict[str, tuple[Unit, ...]]] = {
    **dict.fromkeys(
        ("g", "grams", "kg", "kilos", "kilograms", "pounds", "lb", "ounces", "oz"),
        ("kg", "kg CO2e", "kg CO2"),
    ),
    **dict.fromkeys(("ml", "millilitres", "litres", "liters", "fluid ounces", "quarts"), ("L",)),
    **dict.fromkeys(("seconds", "minutes", "hours", "days"), ("s",)),
    **dict.fromkeys(("kwh", "kilowatt hours", "watt hours"), ("kWh",)),
    **dict.fromkeys(("kcal", "calories"), ("kcal",)),
    **dict.fromkeys(("km", "kilometres", "miles"), ("km",)),
}
"""Which figures a unit may be asked of."""


@dataclass(frozen=True, slots=True)
class Said:
    """A figure as it is said: the words, and its interval in the same unit."""

    words: str
    span: str

    @property
    def text(self) -> str:
        """Words and interval in one phrase."""
        return f"{self.words} ({self.span})" if self.span else self.words


def said(
    figure: Figure,
    *,
    middle: str = "mean",
    system: System = "metric",
    unit: str | None = None,
) -> Said:
    """A figure in words, with the digits it deserves.

    Parameters
    ----------
    figure : Figure
        What is to be said.
    middle : str
        "mean" or "median": which of them is said.
    system : System
        Whose units.
    unit : str or None
        A unit of `WORDS` that was asked for; None for the one people read.

    Returns
    -------
    Said
        Such as "550 g CO₂e" and "350–820".
    """
    value = figure.range
    if figure.unit == "ratio":
        return Said(ratio_words(value, middle), "" if _exact(value) else _ends(value))
    if figure.unit == "share":
        shown = numerals.shown(value.scaled(100.0), middle, "%", finest=1)
        return Said(f"{shown.middle}{SPACE}%", "" if shown.exact else f"{shown.span}{SPACE}%")
    if figure.unit == "price":
        shown = numerals.shown(value, middle, "", finest=2)
        return Said(f"{shown.middle} {figure.currency}".strip(), "" if shown.exact else shown.span)
    if _exact(value) and unit is None and system == "metric" and figure.unit in _AS_READ:
        number, _, sign = _AS_READ[figure.unit](value.mean).partition(SPACE)
        return Said(f"{_whole(number)}{SPACE}{_singular(sign, _whole(number))}", "")
    spelled = _spelled(figure.unit, numerals.middle_value(value, middle), system, unit)
    shown = numerals.shown(value.scaled(1.0 / spelled.size), middle, spelled.sign)
    number = _whole(shown.middle) if shown.exact else shown.middle
    sign = _singular(spelled.sign, number)
    words = f"{number}{SPACE}{sign}".strip(f" {SPACE}")
    return Said(words + _SUFFIX.get(figure.unit, ""), "" if shown.exact else shown.span)


_AS_READ: Final[dict[Unit, Callable[[float], str]]] = {
    "kg": numerals.plain_mass,
    "L": numerals.plain_volume,
}
"""Sizes without a range are told with the digits that card and sheet give them."""


def _whole(number: str) -> str:
    """A number that was given, not measured: "7", not "7.0"."""
    return number.rstrip("0").rstrip(".") if "." in number else number


def _exact(value: Range) -> bool:
    return value.p05 == value.p95


def _spelled(of: Unit, centre: float, system: System, asked: str | None) -> Spelled:
    if asked is not None:
        return WORDS[asked]
    units = UNITS[of, system]
    return next((one for one in units if abs(centre) >= one.from_), units[-1])


def _singular(sign: str, number: str) -> str:
    return sign[:-1] if number == "1" and sign.endswith("s") and len(sign) > 2 else sign


def _ends(value: Range) -> str:
    decimals = 1 if value.p05 < 10 else 0
    low, high = numerals.number(value.p05, decimals), numerals.number(value.p95, decimals)
    return f"{low}{DASH}{high} times"


def ratio_words(value: Range, middle: str = "mean") -> str:
    """A ratio in words, only as far as its interval allows.

    Parameters
    ----------
    value : Range
        Ratio of means, and percentiles of the paired ratio. [1]
    middle : str
        "mean" or "median": which of them "about" speaks of.

    Returns
    -------
    str
        "about five times", "four to seven times", "more, by an uncertain factor of at least
        three", or that it could be either.
    """
    low, high = value.p05, value.p95
    if low <= 0:
        return "no fixed multiple"
    if high < 1:
        return _smaller(value, middle)
    if low <= 1 <= high and high / low > ABOUT:
        return "more or less, it could be either"
    centre = numerals.middle_value(value, middle)
    if not low <= centre <= high:
        centre = value.p50
    if high / low <= ABOUT:
        about = _about(centre, low, high)
        return "about the same" if about == "1" else f"about {about} times"
    if high / low <= SPAN:
        return f"{_word(floor(low))} to {_word(ceil(high))} times"
    least = floor(low) if low >= 2 else 0
    more = "more, by an uncertain factor"
    return f"{more} of at least {_word(least)}" if least else more


def _smaller(value: Range, middle: str) -> str:
    low, high = value.p05, value.p95
    centre = numerals.middle_value(value, middle)
    if not low <= centre <= high:
        centre = value.p50
    if high / low <= ABOUT:
        return f"about {_fraction(centre, low, high)} of it"
    if high / low <= SPAN:
        first, last = f"{100 * low:.0f}", f"{100 * high:.0f}"
        return f"{first} to {last}{SPACE}% of it"
    most = next((words for share, words in FRACTIONS if high <= share), "")
    less = "less, by an uncertain factor"
    return f"{less}, at most {most}" if most and most != "all" else less


FRACTIONS: Final = (
    (0.1, "a tenth"),
    (0.2, "a fifth"),
    (0.25, "a quarter"),
    (1 / 3, "a third"),
    (0.5, "half"),
    (2 / 3, "two thirds"),
    (0.75, "three quarters"),
    (1.0, "all"),
)
"""Shares that have a name, smallest first. [1]"""


def _fraction(centre: float, low: float, high: float) -> str:
    near = min(FRACTIONS, key=lambda one: abs(one[0] / centre - 1.0))
    if low <= near[0] <= high and abs(near[0] / centre - 1.0) < 0.1:
        return near[1]
    return f"{100 * centre:.0f}{SPACE}%"


def _about(centre: float, low: float, high: float) -> str:
    """The shortest number inside the interval, near its middle."""
    whole = round(centre)
    if whole >= 1 and low <= whole <= high and abs(whole / centre - 1.0) < 0.1:
        return _word(whole) if whole > 1 else "1"
    half = round(2 * centre) / 2
    if low <= half <= high and half >= 1:
        if half == 1.5:
            return "one and a half"
        return f"{_word(int(half))} and a half"
    return numerals.plain(centre, 2)


def _word(value: int) -> str:
    if value < len(NAMES):
        return NAMES[value]
    digits = max(0, int(log10(value)) - 1)
    return f"{round(value, -digits):d}"


def shown_parts(parts: Sequence[float], decimals: int) -> list[str]:
    """Parts of a total, each rounded so that the parts shown add up to the total shown.

    Parameters
    ----------
    parts : sequence of float
        The parts, in one unit. [any unit]
    decimals : int
        Decimal places of the total shown.

    Returns
    -------
    list of str
        Largest-remainder rounding: all are cut down to the place shown, and what is missing from
        the rounded total goes to the parts that lost most.
    """
    step = 10.0**-decimals
    total = round(sum(parts) / step)
    floors = [floor(part / step + 1e-9) for part in parts]
    missing = total - sum(floors)
    order = sorted(range(len(parts)), key=lambda at: (floors[at] - parts[at] / step, at))
    for at in order[: max(missing, 0)]:
        floors[at] += 1
    return [numerals.number(value * step, decimals) for value in floors]
