"""Numbers as cooks write them: 1 1/2, ½, 1,5, .25, a dozen, two to three."""

from __future__ import annotations

import re
from typing import Final

from counterproof.reading.any_case import any_case
from counterproof.reading.words import NUMBER_WORDS

_D: Final = r"\d{1,6}(?!\d)"
FIGURE: Final = (
    rf"(?:{_D} {{1,2}}(?:(?i:and) |& )?{_D}[/⁄]{_D}(?![/⁄])|{_D}-\d/{_D}(?!/)|{_D}[/⁄]{_D}"
    rf"|\d{{1,3}}(?:,\d{{3}}(?!\d)){{1,2}}(?!,\d)|{_D}(?:[.,]\d{{1,9}}(?!\d))?|\.\d{{1,9}}(?!\d))"
)
"""Pattern of one number in figures; nobody weighs out more than six digits of anything."""

_WORDS: Final = any_case(*sorted(NUMBER_WORDS, key=len, reverse=True)) + r"(?![\w'])"
NUMBER: Final = re.compile(
    rf"(?:(?P<low>{FIGURE})(?!\d)|(?P<word>{_WORDS}))"
    r"(?:(?P<to>\s?-?\s?(?:-|(?i:to)(?=[\s\d])|(?i:or) |(?i:and (?=(?:a )?(?:half|quarter|third|\d+/)))"
    r"|& (?=\d+/))\s?)"
    rf"(?:(?P<high>{FIGURE})(?!\d)|(?P<high_word>{_WORDS}))(?![/⁄]|\s?%))?"
)
"""One number or one range at a place of the line."""
NUMBER_BEGINNINGS: Final = frozenset(word[:2] for word in NUMBER_WORDS)
"""The first two letters of every number in words."""

_PARTS: Final = re.compile(r"[ \-&]+(?:and )?")
_FRACTIONS: Final = {
    f"{upper}{bar}{lower}": upper / lower
    for upper in range(1, 10)
    for lower in range(2, 10)
    for bar in "/⁄"
}


def figure_value(figure: str) -> tuple[float, bool]:
    """Return the value of a number in figures, and whether a lost space was supplied.

    Parameters
    ----------
    figure : str
        Text that matches `FIGURE`.

    Returns
    -------
    tuple of float and bool
        The value [1], and True where "13/4" was read as 1 3/4.
    """
    if figure.isdigit():
        return float(figure), False
    before, _, last = figure.rpartition(" ")
    if last in _FRACTIONS and (not before or before.isdigit()):
        return float(before or 0) + _FRACTIONS[last], False
    if "/" not in figure and "⁄" not in figure:
        if re.fullmatch(r"\d{1,3}(?:,\d{3})+", figure) and not figure.startswith("0"):
            figure = figure.replace(",", "")
        value = float(figure.replace(",", "."))
        return value, False
    *whole, fraction = _PARTS.split(figure)
    upper, _, lower = fraction.replace("⁄", "/").partition("/")
    share, lost = _share(upper, lower, lone=not whole)
    return (float(whole[0]) if whole else 0.0) + share, lost


def _share(upper: str, lower: str, *, lone: bool) -> tuple[float, bool]:
    divisor = float(lower)
    if divisor == 0:
        return float(upper), False
    if (
        lone
        and 1 < len(upper) < 4
        and lower in {"2", "3", "4", "8"}
        and 0 < int(upper[-1]) < int(lower)
    ):
        # Nobody measures eleven halves: a space between the whole and the fraction was lost.
        return float(upper[:-1]) + float(upper[-1]) / divisor, True
    return float(upper) / divisor, False


def range_value(match: re.Match[str]) -> tuple[float, float, bool]:
    """Return the least and most of a match of `NUMBER`, and whether a space was supplied.

    Parameters
    ----------
    match : re.Match
        A match of `NUMBER`.

    Returns
    -------
    tuple of float, float and bool
        Least, most [1], and as `figure_value`.
    """
    low_text, word, joint, high_text, high_word = match.group(
        "low", "word", "to", "high", "high_word"
    )
    lost = False
    if low_text is not None:
        low, lost = figure_value(low_text)
        high = low
    else:
        low, high = NUMBER_WORDS[word.lower()]
    if joint is None:
        return low, high, lost
    if high_text is not None:
        other, lost_too = figure_value(high_text)
        lost = lost or lost_too
        top = other
    else:
        other, top = NUMBER_WORDS[high_word.lower()]
    if joint.strip() in {"and", "&"}:
        return low + other, high + top, lost
    return min(low, other), max(high, top), lost
