"""Quantities as they are typed, a number with its unit: on the command line and in settings."""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

from counterproof.errors import QuantityError
from counterproof.units import IMPERIAL_GALLON, INCH, OUNCE, POUND, US_GALLON

if TYPE_CHECKING:
    from collections.abc import Mapping

Asked = Literal[
    "temperature",
    "pressure",
    "volume",
    "mass",
    "time",
    "power",
    "energy",
    "length",
    "concentration",
]
"""What a typed quantity may be."""

_PSI: Final = POUND * 9.80665 / INCH**2  # [Pa], exact by its definition
_TYPED: Final[Mapping[str, Mapping[str, float]]] = MappingProxyType(
    {
        "temperature": {"C": 1.0, "F": 5 / 9, "K": 1.0},
        "pressure": {
            "bar": 1e5,
            "mbar": 100.0,
            "kPa": 1e3,
            "Pa": 1.0,
            "psi": _PSI,
            "atm": 101325.0,
        },
        "volume": {
            "ml": 1e-6,
            "cl": 1e-5,
            "dl": 1e-4,
            "L": 1e-3,
            "floz": IMPERIAL_GALLON / 160 * 1e-6,
            "usfloz": US_GALLON / 128 * 1e-6,
        },
        "mass": {"mg": 1e-6, "g": 1e-3, "kg": 1.0, "oz": OUNCE, "lb": POUND},
        "time": {"s": 1.0, "min": 60.0, "h": 3600.0, "d": 86400.0},
        "power": {"W": 1.0, "kW": 1e3},
        "energy": {"J": 1.0, "kJ": 1e3, "MJ": 1e6, "Wh": 3600.0, "kWh": 3.6e6},
        "length": {"mm": 1e-3, "cm": 1e-2, "m": 1.0, "km": 1e3, "in": INCH, "ft": 12 * INCH},
        "concentration": {"mg/L": 1e-3, "g/L": 1.0, "kg/L": 1e3},
    }
)
_EXAMPLES: Final[Mapping[str, str]] = MappingProxyType(
    {
        "temperature": "4C or 39F",
        "pressure": "3bar or 45psi",
        "volume": "1L or 473ml",
        "mass": "1.2kg or 250g",
        "time": "20min or 1.5h",
        "power": "2kW or 900W",
        "energy": "0.4kWh or 900kJ",
        "length": "8cm or 3in",
        "concentration": "6g/L",
    }
)
_QUANTITY: Final = re.compile(r"\s*([+−-]?)(\d+(?:[.,]\d+)?|\.\d+)\s*([^\s\d]\S*)?\s*")


def _typed_unit(word: str, kind: Asked) -> str | None:
    word = word.removeprefix("°").replace("litre", "L").replace("liter", "L")
    if word in _TYPED[kind]:
        return word
    folded = [unit for unit in _TYPED[kind] if unit.lower() == word.lower()]
    return folded[0] if len(folded) == 1 else None


def parse_quantity(text: str, kind: Asked) -> float:
    """Return a quantity as it is typed, such as ``4C`` or ``473ml``, in SI.

    Parameters
    ----------
    text : str
        A number with its unit, with or without a space between them.
    kind : Asked
        What is asked for; it decides which units are taken.

    Returns
    -------
    float
        The quantity. [K, Pa, m³, kg, s, W, J, m or kg/m³, by kind]

    Raises
    ------
    QuantityError
        If the unit is missing or is none of the kind, if there is no number, or if a quantity
        that cannot be negative is (temperatures below absolute zero included).
    """
    units = _TYPED[kind]
    taken = f"Give a {kind} in {', '.join(units)}: for example {_EXAMPLES[kind]}."
    match = _QUANTITY.fullmatch(text)
    if match is None:
        raise QuantityError(f"“{text}” is not a number with its unit.", remedy=taken)
    sign, digits, word = match.groups()
    if word is None:
        raise QuantityError(f"“{text}” has no unit.", remedy=taken)
    unit = _typed_unit(word, kind)
    if unit is None:
        raise QuantityError(f"“{text}”: “{word}” is not a unit of {kind}.", remedy=taken)
    number = float(digits.replace(",", ".")) * (-1.0 if sign in {"-", "−"} else 1.0)
    offset = {"C": 273.15, "F": 459.67}.get(unit, 0.0) if kind == "temperature" else 0.0
    value = (number + offset) * units[unit]
    if value < 0 and kind != "length":  # a place may lie below the sea
        raise QuantityError(f"“{text}” is less than a {kind} can be.", remedy=taken)
    return value
