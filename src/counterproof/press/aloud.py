"""Figures as they are read aloud: numbers in words, units by their names.

Only what we put in a script's place is spelled out, and that is English, as the language of
figures and claims is; the cook's own words stay as they are.
"""

from __future__ import annotations

import re
from typing import Final

_UNITS: Final = {
    "kg CO₂e": ("kilogram of CO₂ equivalent", "kilograms of CO₂ equivalent"),
    "g CO₂e": ("gram of CO₂ equivalent", "grams of CO₂ equivalent"),
    "lb CO₂e": ("pound of CO₂ equivalent", "pounds of CO₂ equivalent"),
    "oz CO₂e": ("ounce of CO₂ equivalent", "ounces of CO₂ equivalent"),
    "kg CO₂": ("kilogram of CO₂", "kilograms of CO₂"),
    "g CO₂": ("gram of CO₂", "grams of CO₂"),
    "kWh": ("kilowatt hour", "kilowatt hours"),
    "Wh": ("watt hour", "watt hours"),
    "kg": ("kilogram", "kilograms"),
    "g": ("gram", "grams"),
    "lb": ("pound", "pounds"),
    "oz": ("ounce", "ounces"),
    "fl oz": ("fluid ounce", "fluid ounces"),
    "ml": ("millilitre", "millilitres"),
    "km": ("kilometre", "kilometres"),
    "kcal": ("kilocalorie", "kilocalories"),
    "°C": ("degree Celsius", "degrees Celsius"),
    "°F": ("degree Fahrenheit", "degrees Fahrenheit"),
    "%": ("per cent", "per cent"),
}
"""Signs of units → one of them and several, as they are said."""

_NUMBER: Final = r"\d+(?:\.\d+)?"
_FIGURE: Final = re.compile(
    rf"(?<![\w.])(?P<less><)?(?P<minus>[-−])?(?P<number>{_NUMBER})(?:–(?P<high>{_NUMBER}))?(?!\.?\w)"
    rf"(?: (?P<unit>{'|'.join(sorted(map(re.escape, _UNITS), key=len, reverse=True))})(?!\w))?"
)
_MOST: Final = 999_999_999


def aloud(text: str) -> str:
    """Return a figure's words as they are read aloud.

    Parameters
    ----------
    text : str
        Such as "12.6 kg CO₂e" or "four to seven times".

    Returns
    -------
    str
        Such as "twelve point six kilograms of CO₂ equivalent".
    """
    return _FIGURE.sub(_spoken, text.replace("\N{NO-BREAK SPACE}", " "))


def _spoken(match: re.Match[str]) -> str:
    number, high, unit = match["number"], match["high"], match["unit"]
    said = in_words(number)
    if high:
        said = f"{said} to {in_words(high)}"
    if match["minus"]:
        said = f"minus {said}"
    if match["less"]:
        said = f"less than {said}"
    if not unit:
        return said
    return f"{said} {_UNITS[unit][0 if number == '1' and not high else 1]}"


def in_words(number: str) -> str:
    """Return a number in words.

    Parameters
    ----------
    number : str
        Digits, with a point where it has decimals.

    Returns
    -------
    str
        Decimals digit by digit, idle zeros not said; the digits from a thousand million on.
    """
    whole, _, decimals = number.partition(".")
    if int(whole) > _MOST:
        return number
    said = _whole(int(whole))
    behind = " ".join(_ONES[int(digit)] for digit in decimals) if decimals.strip("0") else ""
    return f"{said} point {behind}" if behind else said


_ONES: Final = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen",
)  # fmt: skip
_TENS: Final = (
    "", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
)  # fmt: skip


def _whole(value: int) -> str:
    if value < 20:
        return _ONES[value]
    if value < 100:
        tens, ones = divmod(value, 10)
        return _TENS[tens] + (f"-{_ONES[ones]}" if ones else "")
    for size, name in ((1_000_000, "million"), (1000, "thousand"), (100, "hundred")):
        if value >= size:
            many, rest = divmod(value, size)
            said = f"{_whole(many)} {name}"
            if not rest:
                return said
            return f"{said} and {_whole(rest)}" if rest < 100 else f"{said} {_whole(rest)}"
    raise AssertionError  # every number below a hundred has been said
