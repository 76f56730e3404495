"""Named quantities of a kitchen answer as text: the unit in the key says how people read it.

Every number is rounded by `numerals`; here only the unit is chosen.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterproof import numerals
from counterproof.draws import Range
from counterproof.physics.answer import printed

_MINUTE, _HOUR, _DAY = 60.0, 3600.0, 86400.0
_KWH: Final = 3.6e6


@dataclass(frozen=True, slots=True)
class _Unit:
    """From the unit of a key to what is read: unit, values of the key's unit in one of it."""

    name: str
    size: float
    finest: int


_UNITS: Final[Mapping[str, tuple[tuple[float, _Unit], ...]]] = {
    # Suffix → from which value on → unit read; the first that fits, the largest first.
    "_kg_per_h": ((1.0, _Unit("kg an hour", 1.0, 2)), (0.0, _Unit("g an hour", 1e-3, 0))),
    "_g_per_l": ((0.0, _Unit("g/L", 1.0, 2)),),
    "_kg_per_l": ((0.0, _Unit("kg/L", 1.0, 3)),),
    "_meq_per_l": ((0.0, _Unit("meq/L", 1.0, 1)),),
    "_celsius": ((0.0, _Unit("°C", 1.0, 1)),),
    "_share": ((0.0, _Unit("%", 0.01, 1)),),
    "_ppm": ((0.0, _Unit("ppm", 1.0, 0)),),
    "_bar": ((0.0, _Unit("bar", 1.0, 2)),),
    "_kg": ((1.0, _Unit("kg", 1.0, 2)), (0.0, _Unit("g", 1e-3, 1))),
    "_mm": ((0.0, _Unit("mm", 1.0, 0)),),
    "_ml": ((1000.0, _Unit("L", 1000.0, 2)), (0.0, _Unit("ml", 1.0, 0))),
    "_m3": ((0.0, _Unit("m³", 1.0, 0)),),
    "_m": ((1.0, _Unit("m", 1.0, 0)), (0.01, _Unit("cm", 0.01, 1)), (0.0, _Unit("mm", 1e-3, 1))),
    "_l": ((0.0, _Unit("L", 1.0, 2)),),
    "_g": ((1000.0, _Unit("kg", 1000.0, 2)), (0.0, _Unit("g", 1.0, 1))),
    "_j": ((0.01 * _KWH, _Unit("kWh", _KWH, 3)), (0.0, _Unit("kJ", 1e3, 1))),
    "_w": ((1000.0, _Unit("kW", 1e3, 2)), (0.0, _Unit("W", 1.0, 0))),
    "_s": (
        (2 * _DAY, _Unit("days", _DAY, 1)),
        (100 * _MINUTE, _Unit("h", _HOUR, 1)),
        (100.0, _Unit("min", _MINUTE, 1)),
        (0.0, _Unit("s", 1.0, 0)),
    ),
}


def suffix(key: str) -> str:
    """The unit at the end of a key.

    Parameters
    ----------
    key : str
        Such as ``time_s``.

    Returns
    -------
    str
        Such as ``_s``; empty where the key carries no unit.
    """
    return next((unit for unit in _UNITS if f"_{key}".endswith(unit)), "")


def as_range(value: Any) -> Range | None:
    """A result as a range.

    Parameters
    ----------
    value : Any
        A number, draws, or a range in its JSON form.

    Returns
    -------
    Range or None
        A point where it is one number; None where it is no number at all.
    """
    told = printed(value)
    if isinstance(told, Mapping) and set(told) == {"mean", "p05", "p50", "p95"}:
        parts = [told[part] for part in ("mean", "p05", "p50", "p95")]
        return None if any(part is None for part in parts) else Range(*parts)
    if isinstance(told, bool) or not isinstance(told, int | float):
        return None
    return Range(*([float(told)] * 4))


def quantity(key: str, value: Any, middle: str = "mean") -> str:
    """A quantity as it is read.

    Parameters
    ----------
    key : str
        Its name, the unit in it.
    value : Any
        A number, draws, or a range in its JSON form.
    middle : str
        "mean" or "median": which value stands in the middle.

    Returns
    -------
    str
        Such as “4.5 min (3.8–5.6)”; “never” where no draw is finite, the words themselves where
        it is no number.
    """
    found = as_range(value)
    if found is None:
        return (
            value.replace("-", " ") if isinstance(value, str) else _open_ended(key, value, middle)
        )
    unit = _unit(suffix(key), abs(numerals.middle_value(found, middle)))
    scaled = found.scaled(1.0 / unit.size)
    if scaled.p05 == scaled.p95:
        number = _exact(scaled.mean, unit)
        return f"{number}{numerals.SPACE}{unit.name}".strip()
    return numerals.shown(scaled, middle, unit.name, unit.finest).text


def _open_ended(key: str, value: Any, middle: str) -> str:
    """A time of which the slow end, or all of it, never comes."""
    told = printed(value)
    least = told.get("p05") if isinstance(told, Mapping) else None
    return "never" if least is None else f"{quantity(key, least, middle)} or more, maybe never"


def _unit(end: str, size: float) -> _Unit:
    steps = _UNITS.get(end, ((0.0, _Unit("", 1.0, 2)),))
    return next(unit for least, unit in steps if size >= least)


def _exact(value: float, unit: _Unit) -> str:
    """A number without a range, to three digits, whole where it is whole."""
    rounded = round(value, unit.finest)
    if abs(value - round(value)) < 1e-9 and abs(value) < 1e6:
        return numerals.number(value, 0)
    if abs(value) >= 100.0 or rounded == round(value):
        return numerals.number(value, 0)
    return numerals.plain(value, numerals.MOST_DIGITS)


def time_unit(longest: float) -> tuple[str, float]:
    """The unit in which times up to a longest one are read.

    Parameters
    ----------
    longest : float
        The longest time. [s]

    Returns
    -------
    tuple of (str, float)
        Its name, and how many seconds it has.
    """
    unit = _unit("_s", longest)
    return unit.name, unit.size
