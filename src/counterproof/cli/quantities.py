"""Quantities as options: every one carries its unit, and a bare number is told which are taken."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any, Final

import typer

from counterproof.errors import QuantityError
from counterproof.kitchen_questions.amounts import amount_said
from counterproof.typed_quantities import Asked, parse_quantity

_METAVARS: Final[dict[Asked, str]] = {
    "temperature": "4C|39F",
    "pressure": "3bar|45psi",
    "volume": "1L|473ml",
    "mass": "1.2kg|250g",
    "time": "20min|1.5h",
    "power": "2kW|900W",
    "length": "8cm|3in",
    "concentration": "6g/L",
}


def quantity(name: str, kind: Asked, says: str, example: str = "") -> Any:
    """An option that takes a quantity of one kind and hands it on in SI."""
    reader = partial(parse_quantity, kind=kind)
    return _option(name, reader, example or _METAVARS[kind], says)


def amount(name: str, says: str) -> Any:
    """An option that takes a volume or a weight."""
    return _option(name, amount_said, "1L|800g", says)


def _option(name: str, reader: Callable[[str], Any], metavar: str, says: str) -> Any:
    def read(text: Any) -> Any:
        if not isinstance(text, str):  # a default comes ready
            return text
        return of_option(name, reader, text)

    return typer.Option(name, parser=read, metavar=metavar, help=says, show_default=False)


def of_option(name: str, reader: Callable[[str], Any], text: str) -> Any:
    """Read an option's text; what is wrong with it is told with the option's name."""
    try:
        return reader(text)
    except QuantityError as fault:
        raise QuantityError(f"{name} {fault.message}", remedy=fault.remedy) from None


def temperature(text: str) -> float:
    """A temperature in K."""
    return parse_quantity(text, "temperature")


def measured(text: str) -> tuple[float, float]:
    """A time and the temperature measured then, written as 30min=60C."""
    time, sign, level = text.partition("=")
    if not sign:
        raise QuantityError(
            f"“{text}” is not a time and a temperature.",
            remedy="Write when it was measured and how warm it was: 30min=60C.",
        )
    return parse_quantity(time, "time"), parse_quantity(level, "temperature")


def share(text: str) -> float:
    """A share written in per cent."""
    number = text.strip().removesuffix("%").strip()
    try:
        found = float(number.replace(",", ".")) / 100.0
    except ValueError:
        found = -1.0
    if not text.strip().endswith("%") or not 0.0 < found < 1.0:
        raise QuantityError(
            f"“{text}” is not a share.", remedy="Give it in per cent, above 0% and below 100%."
        )
    return found


def percentage(name: str, says: str) -> Any:
    """An option that takes a share in per cent."""
    return _option(name, share, "50%", says)
