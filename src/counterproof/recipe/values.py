"""The kinds of value that settings hold, each with its check and its message."""

from __future__ import annotations

import math
import re
from typing import Annotated

from pydantic import AfterValidator, BeforeValidator


def _number(value: object) -> object:
    shown = shortened(value)
    if isinstance(value, str):
        try:
            value = float(value.strip())
        except ValueError:
            raise ValueError(f"{shown} is not a number") from None
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(f"{shown} is not a number")  # noqa: TRY004 pydantic reads ValueError
    if not math.isfinite(value):
        raise ValueError(f"{shown} is not a number that can be worked with")
    return value


def _words(value: object) -> object:
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        raise ValueError(f"{shortened(value)} is not text")  # noqa: TRY004 pydantic reads ValueError
    text = re.sub(r"\s+", " ", str(value)).strip()
    if not text:
        raise ValueError("it is empty")
    return text


def shortened(value: object, length: int = 40) -> str:
    """Return a value as it may be quoted in a message.

    Parameters
    ----------
    value : object
        The value.
    length : int
        Most characters shown.

    Returns
    -------
    str
        It in quotation marks, cut where it is long.
    """
    text = "nothing" if value is None else f'"{value}"'
    return text if len(text) <= length else f'{text[:length]} …"'


def one_of(*allowed: str) -> BeforeValidator:
    """Return a check that a word is one of those allowed.

    Parameters
    ----------
    allowed : str
        The words, in lower case.

    Returns
    -------
    BeforeValidator
        To be put in an annotation; it gives the word in lower case.
    """

    def check(value: object) -> object:
        if isinstance(value, str) and value.strip().casefold() in allowed:
            return value.strip().casefold()
        raise ValueError(f"{shortened(value)} is not one of {', '.join(allowed)}")

    return BeforeValidator(check)


def between(low: float, high: float, unit: str) -> AfterValidator:
    """Return a check that a number lies between two bounds.

    Parameters
    ----------
    low, high : float
        The bounds, both allowed. [in `unit`]
    unit : str
        The unit, for the message.

    Returns
    -------
    AfterValidator
        To be put in an annotation.
    """

    def check(value: float) -> float:
        if not low <= value <= high:
            raise ValueError(f"{shortened(value)} is outside {low:g} to {high:g} {unit}".rstrip())
        return value

    return AfterValidator(check)


Number = Annotated[float, BeforeValidator(_number)]
"""A finite number, written as one."""

Words = Annotated[str, BeforeValidator(_words)]
"""Text on one line, not empty."""
