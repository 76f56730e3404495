"""Amounts, times, processes and versions in the words a cook would use."""

from __future__ import annotations

from math import inf
from typing import Final

from counterproof.reading.model import Process, Quantity
from counterproof.reading.telling import measure_in_words
from counterproof.recipe.model import Bought, Version

_DAYS: Final = 4 * 1440  # from four days on, days are said [min]
_FRACTIONS: Final = {1 / 8: "⅛", 1 / 4: "¼", 1 / 3: "⅓", 1 / 2: "½", 2 / 3: "⅔", 3 / 4: "¾"}


def process_in_words(process: Process) -> str:
    """One process as a cook reads it: "simmer, 25–30 min, covered".

    Parameters
    ----------
    process : Process
        As the step was read.

    Returns
    -------
    str
        Kind, time, temperature, lid, appliance where it does not go without saying.
    """
    parts = ["cook" if process.kind == "unspecified" else process.kind.replace("_", " ")]
    if process.minutes:
        parts.append(minutes_in_words(*process.minutes))
    if process.celsius is not None:
        parts.append(f"{process.celsius:.0f} °C")
    if process.covered is not None:
        parts.append("covered" if process.covered else "uncovered")
    return ", ".join(parts)


def minutes_in_words(low: float | None, high: float | None) -> str:
    """A time as a cook reads it.

    Parameters
    ----------
    low, high : float or None
        Bounds; one may be open. [min]

    Returns
    -------
    str
        Such as "25–30 min", "at least 2 h", "up to 3 days".
    """
    if low is None or high is None:
        bound = low if high is None else high
        if bound is None:
            return ""
        return f"{'at least' if high is None else 'up to'} {_span(bound, bound)}"
    return _span(low, high)


def seconds_in_words(low: float, high: float) -> str:
    """A worked-out time as a cook reads it, its ends rounded to what they deserve.

    Parameters
    ----------
    low, high : float
        Its ends, ≥ 0. [s]

    Returns
    -------
    str
        Such as "20 min", "1 h 20 min to 2 h 15 min", "26–51 h".
    """
    ends = [_rounded_time(low), _rounded_time(high)]
    if ends[0] == ends[1]:
        return ends[1]
    (first, unit), (second, same) = (end.rpartition(" ")[::2] for end in ends)
    if unit == same and " " not in f"{first}{second}":
        return f"{first}–{second} {unit}"
    return " to ".join(ends)


def _rounded_time(seconds: float) -> str:
    """To the minute below half an hour, to five below three hours, a quarter, then whole hours."""
    minutes = seconds / 60.0
    if minutes < 1.0:
        return f"{seconds:.0f} s"
    rounded = rounded_minutes(seconds)
    if rounded >= _DAYS:
        return f"{rounded / 1440.0:.2g} days"
    hours, rest = divmod(rounded, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest:02d} min" if rest else f"{hours} h"


def rounded_minutes(seconds: float) -> int:
    """A worked-out time rounded to what it deserves.

    Parameters
    ----------
    seconds : float
        Time, ≥ 0. [s]

    Returns
    -------
    int
        To the minute below half an hour, to five below three hours, to a quarter of an hour
        below twelve, then to whole hours. [min]
    """
    minutes = seconds / 60.0
    step = next(by for by, below in ((1, 30), (5, 180), (15, 720), (60, inf)) if minutes < below)
    return step * int(minutes / step + 0.5)


def mass_in_words(kilograms: float) -> str:
    """A worked-out mass as a cook reads it, two digits of it.

    Parameters
    ----------
    kilograms : float
        Mass, ≥ 0. [kg]

    Returns
    -------
    str
        Such as "30 g", "1.2 kg".
    """
    grams = 1000.0 * kilograms
    digits = float(f"{grams:.2g}")
    return f"{digits:g} g" if digits < 1000.0 else f"{digits / 1000.0:.2g} kg"


def _span(low: float, high: float) -> str:
    scales = (("days", 1440.0), ("h", 60.0), ("min", 1.0))
    unit, minutes = next(
        (
            (unit, minutes)
            for unit, minutes in scales
            if low >= minutes and low / minutes * 2 % 1 == 0 == high / minutes * 2 % 1
        ),
        ("s", 1 / 60),
    )
    ends = [f"{bound / minutes:.3g}" for bound in dict.fromkeys((low, high))]
    return f"{'–'.join(ends)} {'day' if ends == ['1'] and unit == 'days' else unit}"


def quantity_in_words(quantity: Quantity | None, packs: float, container: str) -> str:
    """A quantity as it was understood: "2 × 400 g tins", "2–3 cloves", "½".

    Parameters
    ----------
    quantity : Quantity or None
        Amount and measure.
    packs : float
        How many packs of it. [1]
    container : str
        What the packs are, or "".

    Returns
    -------
    str
        For the margin; empty where the line gives no amount.
    """
    if quantity is None:
        return ""
    amount = "–".join(_number(bound) for bound in dict.fromkeys((quantity.low, quantity.high)))
    measure = measure_in_words(quantity.measure, quantity.high)
    one = f"{amount} {measure}".strip()
    if packs != 1:
        one = f"{packs:g} × {one}"
    if container and container != quantity.measure:
        return f"{one} {measure_in_words(container, packs)}"
    return one


def _number(value: float) -> str:
    """A number as cooks write it: halves, quarters and thirds as fractions."""
    whole, rest = int(value), value - int(value)
    for fraction, sign in _FRACTIONS.items():
        if abs(rest - fraction) < 0.005:
            return f"{whole or ''}{sign}"
    return f"{value:.3g}" if value < 1000.0 else f"{value:.0f}"


def stay_in_words(days: float, where: str) -> str:
    """A stay in the cold, in plain words.

    Parameters
    ----------
    days : float
        How long. [days]
    where : str
        "fridge", "freezer" or "cupboard".

    Returns
    -------
    str
        Such as "1 day in the fridge".
    """
    return f"{days:g} {'day' if days == 1 else 'days'} in the {where}"


def version_in_words(version: Version) -> tuple[str, ...]:
    """What a version changes, in plain words.

    Parameters
    ----------
    version : Version
        As the recipe states it.

    Returns
    -------
    tuple of str
        One phrase a change.
    """
    said = [f"{new} instead of {old}" for old, new in version.swap.items()]
    if version.serves is not None:
        said.append(f"serves {version.serves:g}")
    said += [f"{key}: {value}" for key, value in (version.kitchen or {}).items()]
    if version.pack:
        said.append("in " + ", ".join(pack.container for pack in version.pack))
    if version.keep:
        said.append("; ".join(stay_in_words(keep.days, keep.where) for keep in version.keep))
    if version.keep == ():
        said.append("not kept")
    if version.pack == ():
        said.append("in no pack")
    if version.skips:
        one = len(version.skips) == 1
        steps = ", ".join(str(step) for step in version.skips)
        said.append(f"without {'step' if one else 'steps'} {steps}")
    if version.bought is not None:
        said += bought_in_words(version.bought)
    return tuple(said)


def bought_in_words(bought: Bought) -> tuple[str, ...]:
    """What is bought instead, in plain words.

    Parameters
    ----------
    bought : Bought
        The bought alternative.

    Returns
    -------
    tuple of str
        What, in what, where.
    """
    pack = f", in {bought.container}" if bought.container else ""
    where = f", {bought.region}" if bought.region else ""
    warm = f", warmed {bought.warmed}" if bought.warmed else ""
    return (f"{bought.what} from the shop{pack}{where}{warm}",)
