"""The sentences that say how one serving compares with another, the same on every surface."""

from __future__ import annotations

from counterproof import numerals
from counterproof.draws import Range
from counterproof.numerals import SPACE, percent, shown
from counterproof.press.plain_text import printable
from counterproof.proof import Edition, VersionProof

ROUNDING = 0.02
"""Share of the total by which totals may miss a difference before it is said. House rule. [1]"""


def version_phrases(version: VersionProof, edition: Edition) -> list[str]:
    """Return how a version compares with the recipe on shared draws.

    Parameters
    ----------
    version : VersionProof
        A version.
    edition : Edition
        The recipe it is a version of.

    Returns
    -------
    list[str]
        Phrases for one sentence; none for the recipe itself. Where the two totals do not differ
        by the difference, because it was taken inside one factor set and they were not, the last
        phrase says so.
    """
    if version.difference is None:
        return []
    phrases = against(
        "the recipe",
        version.difference,
        edition.middle,
        ratio=version.ratio,
        share_lower=version.share_lower,
        factor_set=version.factor_set,
    )
    phrases += totals_apart(version.serving, edition.serving, version.difference)
    return phrases


def totals_apart(one: Range, other: Range, difference: Range) -> list[str]:
    """Return a warning where two totals shown do not differ by the difference told of them.

    Parameters
    ----------
    one, other : Range
        The totals shown, each in its own base. [kg CO2e]
    difference : Range
        One minus the other, valued in one set. [kg CO2e]

    Returns
    -------
    list[str]
        One phrase, or none.
    """
    apart = one.mean - other.mean
    if abs(apart - difference.mean) <= ROUNDING * abs(other.mean):
        return []
    return ["the totals shown rest on other factors and do not compare"]


def against(
    other: str,
    difference: Range,
    middle: str,
    *,
    ratio: float | None,
    share_lower: float | None,
    factor_set: str | None,
) -> list[str]:
    """Return how one serving compares with another on shared draws.

    Parameters
    ----------
    other : str
        What it is compared with, as the sentence calls it.
    difference : Range
        One minus the other. [kg CO2e]
    middle : str
        "mean" or "median": which of them stands in the middle.
    ratio : float or None
        Ratio of the means. [1]
    share_lower : float or None
        Share of draws in which it is below the other. [1]
    factor_set : str or None
        The set that values what differs.

    Returns
    -------
    list[str]
        Phrases for one sentence.
    """
    told = shown(difference, middle)
    phrases = [] if ratio is None else [f"{numerals.plain(ratio)} times {other}"]
    if told.exact and told.middle == "0":
        phrases.append("no difference")
    else:
        phrases.append(f"difference {numerals.signed(told)}{SPACE}{told.unit} ({told.span})")
    if share_lower is not None:
        phrases.append(f"lower than {other} in {percent(share_lower)} of the draws")
    if factor_set:
        phrases.append(f"compared in the {printable(factor_set)} set")
    return phrases
