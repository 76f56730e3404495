"""A number of the proof as every surface prints it: its digits, its unit, its interval.

Card, stills, colophon, script notes and tables all take the text of a number from here, by the
key of its derivation, so that no number is rounded in two ways.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from counterproof import numerals
from counterproof.draws import Range
from counterproof.numerals import CO2E, SPACE, Shown
from counterproof.physics.spread import Spread, ranged
from counterproof.press.fixed_words import Words
from counterproof.press.giving import money
from counterproof.proof import Derivation, Edition, Term

_FINEST_FACTOR: Final = 9
"""House rule: decimal places of what is no footprint of food; a factor may be a millionth."""

_PLAIN: Final = ("ratio", "per", "nutrition")
"""Kinds of numbers that are told without an interval, to two digits, wherever they stand."""


def derived(edition: Edition, key: str) -> Derivation | None:
    """Return the derivation of a number.

    Parameters
    ----------
    edition : Edition
        The proof.
    key : str
        Which number.

    Returns
    -------
    Derivation or None
        None where the proof holds no such number.
    """
    number = edition.number_of(key)
    return None if number is None else edition.derivations[number - 1]


def text_of(derivation: Derivation, middle: str) -> str:
    """Return a number with its unit and its interval, as it is printed everywhere.

    Parameters
    ----------
    derivation : Derivation
        Of the number.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        Such as "0.64 kg CO₂e (0.41–1.0)".
    """
    kind = derivation.key.partition(":")[0]
    value, unit = derivation.value, derivation.unit
    if kind == "cost":
        return money(value, unit, middle)
    if kind == "cooling":
        return ranged(Spread(value.p05, value.p50, value.p95))
    if kind == "packs":
        return numerals.plain_mass(value.mean)
    if kind in _PLAIN:
        return _with_unit(numerals.plain(value.mean), unit.replace("/", " per ", 1))
    return value_text(value, unit, middle)


def term_text(term: Term, edition: Edition) -> str:
    """Return the value of a step of a working, as the number it opens is printed.

    Parameters
    ----------
    term : Term
        The step.
    edition : Edition
        The proof it belongs to.

    Returns
    -------
    str
        Empty where it only tells.
    """
    if term.value is None:
        return ""
    opened = derived(edition, term.opens) if term.opens else None
    if opened is not None and opened.value == term.value and opened.unit == term.unit:
        return text_of(opened, edition.middle)
    return value_text(term.value, term.unit, edition.middle)


def value_text(value: Range, unit: str, middle: str) -> str:
    """Return a value with the digits it deserves in its unit.

    Parameters
    ----------
    value : Range
        Mean and percentiles; without width where it is exact. [`unit`]
    unit : str
        As derivations name it; "share" is read in per cent.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        Middle, unit and interval.
    """
    if unit == "share":
        return _share_text(value, middle)
    if unit == "s":
        value, unit = _as_told(value)
    ranged = _RANGED.get(unit)
    if ranged is not None and value.p05 != value.p95:
        return ranged(value, middle).text
    if unit.startswith(CO2E) or value.p05 != value.p95:
        finest = numerals.FINEST_CO2E if unit == CO2E else _FINEST_FACTOR
        return numerals.shown(value, middle, unit, finest=finest).text
    if unit == "kg" and abs(value.mean) < 1:
        return _with_unit(_exactly(1000 * value.mean), "g")
    return _with_unit(_exactly(value.mean), unit)


_TIMES: Final = ((172_800.0, 86_400.0, "days"), (5400.0, 3600.0, "h"), (90.0, 60.0, "min"))
"""From how many seconds a time is told in which unit, the seconds of one, its sign."""


def _as_told(value: Range) -> tuple[Range, str]:
    for least, one, sign in _TIMES:
        if value.mean >= least:
            return value.scaled(1 / one), sign
    return value, "s"


_RANGED: Final[dict[str, Callable[[Range, str], Shown]]] = {
    "kg": numerals.mass,
    "kWh": numerals.energy,
}


def _share_text(value: Range, middle: str) -> str:
    if value.p05 == value.p95:
        return numerals.percent(value.mean)
    return numerals.shown(value.scaled(100.0), middle, "%", finest=1).text


def _exactly(value: float) -> str:
    """A number that is what it is: whole where it is whole, else three digits without idle zeros."""
    text = numerals.count(value)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _with_unit(text: str, unit: str) -> str:
    return f"{text}{SPACE}{unit}" if unit else text


def shown_in(words: Words, value: Range, middle: str) -> Shown:
    """Return a footprint as it is printed, in a language's figures.

    Parameters
    ----------
    words : Words
        Fixed words of the language.
    value : Range
        Mean and percentiles. [kg CO2e]
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    Shown
        The digits that every surface prints.
    """
    told = numerals.shown(value, middle)
    write = words.figure
    median = None if told.median is None else write(told.median)
    return Shown(write(told.middle), write(told.low), write(told.high), median, told.unit)


def lower_in(words: Words, share: float) -> str:
    """Return in how many draws a version is lower than the recipe, in words.

    Parameters
    ----------
    words : Words
        Fixed words of the language.
    share : float
        Share of the draws. [1]

    Returns
    -------
    str
        Such as "lower in 33 % of the draws", "lower in no draw".
    """
    if share <= 0:
        return words("stills.never lower")
    if share >= 1:
        return words("stills.always lower")
    return words("stills.lower", share=words.told(numerals.percent(share)))
