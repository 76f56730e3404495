"""Plain numbers as options: what is wrong with one is said in our own words."""

from __future__ import annotations

from functools import partial
from typing import Any

import typer

from counterproof.errors import UsageFault


def whole(name: str, low: int, high: int | None, says: str) -> Any:
    """An option that takes a whole number from `low` to `high`."""
    return _option(name, partial(_read, name=name, low=low, high=high, kind=int), says)


def number(name: str, low: float, high: float | None, says: str) -> Any:
    """An option that takes a number from `low` to `high`."""
    return _option(name, partial(_read, name=name, low=low, high=high, kind=float), says)


def _option(name: str, reader: Any, says: str) -> Any:
    return typer.Option(name, parser=reader, metavar="N", help=says)


def _read(
    text: Any, *, name: str, low: float, high: float | None, kind: type[int | float]
) -> float | int:
    if not isinstance(text, str):  # a default comes ready
        return kind(text)
    asked = f"from {low:.12g} to {high:.12g}" if high is not None else f"from {low:.12g} up"
    what = "a whole number" if kind is int else "a number"
    remedy = f"Write {what} {asked}: {name} {_example(low, high):g}."
    try:
        found = kind(text.strip().replace(",", ".") if kind is float else text.strip())
    except (ValueError, OverflowError):
        raise UsageFault(f"{name} takes {what}; “{text}” is none.", remedy=remedy) from None
    if not low <= found <= (float("inf") if high is None else high):
        raise UsageFault(f"{name} is taken {asked}, not {text}.", remedy=remedy)
    return found


def _example(low: float, high: float | None) -> float:
    if high is None:
        return max(low, 4)
    return max(low, min(4.0, high))
