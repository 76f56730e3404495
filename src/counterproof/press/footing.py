"""The small print under the total, in words: what makes a figure judgeable and reproducible."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from counterproof import numerals
from counterproof.draws import Range
from counterproof.numerals import percent
from counterproof.press.plain_text import printable
from counterproof.press.wording import sentence, sum_of
from counterproof.proof import Edition

NO_REVIEW = "No critical review; not a comparative assertion in the sense of ISO 14044."
CROSS_CONTACT = "cross-contact not assessed"

NARROWS = 0.05
"""Share of a range below which it is not said what settling would win. House rule. [1]"""

RANGE_KINDS = {
    "one-purchase": "what any one purchase may be, across producers",
    "the-average": "how well the average is known; a lower bound",
}
_BASIS_NAMES = {
    "functional_unit": "functional unit",
    "boundary": "boundary",
    "middle": "middle value",
    "range_for": "range",
    "gwp": "GWP",
    "factor_sets": "factor sets",
    "seed": "seed",
    "draws": "draws",
    "version": "version",
    "data_sha256": "data checksum (SHA-256)",
    "own_factors": "the kitchen's own table",
}


@dataclass(frozen=True, slots=True)
class Opinion:
    """What another factor set says of one serving."""

    name: str
    value: Range
    shown: str
    coverage: str


def coverage_phrases(edition: Edition) -> list[str]:
    """Return how much of the mass has a factor and how well the factors fit.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[str]
        Phrases for one sentence.
    """
    told = [f"{percent(edition.coverage_mass)} of the mass has a factor"]
    if edition.coverage_by_fit:
        fits = ", ".join(
            f"{fit} {percent(share)}" for fit, share in edition.coverage_by_fit.items()
        )
        told.append(f"by fit: {fits}")
    return told


def opinions(edition: Edition) -> list[Opinion]:
    """Return the total as the other factor sets would have it.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[Opinion]
        One a set, in the order given.
    """
    return [
        Opinion(
            printable(name),
            Range(value, value, value, value),
            numerals.plain(value),
            f"covers {percent(coverage)} of the mass",
        )
        for name, value, coverage in edition.second_opinion
    ]


def settle_phrases(edition: Edition) -> list[str]:
    """Return what to settle next, each with its share of the total's variance.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[str]
        One phrase an item.
    """
    told = zip(edition.settle_next, settle_orders(edition), strict=True)
    return [
        f"{percent(share)} of the variance: {printable(what)}" + (f". {order}" if order else "")
        for (what, share), order in told
    ]


def settle_orders(edition: Edition) -> list[str]:
    """Return what a cook does about each thing to settle, and what is won by it.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[str]
        One sentence an item, in the order of `Edition.settle_next`; empty where nothing can be
        done or nothing would be seen of it.
    """
    how = [*edition.settle_how, *[("", 0.0)] * len(edition.settle_next)]
    return [
        f"{printable(do)}: it would narrow the total’s range by {percent(narrows)}."
        if do and narrows >= NARROWS
        else ""
        for do, narrows in how[: len(edition.settle_next)]
    ]


def allergen_phrases(edition: Edition) -> list[tuple[str, str]]:
    """Return the allergen statement as (what, which) pairs; it promises nothing.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[tuple[str, str]]
        Pairs; the last has nothing in front.
    """
    told = []
    if edition.allergens_present:
        told.append(("present", _list(edition.allergens_present)))
    if edition.allergens_read_label:
        told.append(("read the label for", _list(edition.allergens_read_label)))
    if edition.allergens_unknown:
        told.append(
            ("not known, so this statement is incomplete", _list(edition.allergens_unknown, "; "))
        )
    us = edition.allergens_us
    if us is not None and us.present:
        told.append(("present, by the nine of the US", _list(us.present)))
    if us is not None and us.read_label:
        told.append(("read the label for, by the nine of the US", _list(us.read_label)))
    found = edition.allergens_present or edition.allergens_read_label
    lead = "No others found" if found else "None found"
    told.append(("", f"{lead} among the ingredients as written; {CROSS_CONTACT}."))
    return told


def _list(words: Iterable[str], between_them: str = ", ") -> str:
    return between_them.join(printable(word) for word in words)


def source_number(edition: Edition, source: str | None) -> int | None:
    """Return the number under which a source is listed, as a line's footnote.

    Parameters
    ----------
    edition : Edition
        What is shown.
    source : str or None
        SourceLine.id.

    Returns
    -------
    int or None
        From 1; None where the source is not listed.
    """
    listed = [line.id for line in edition.sources]
    return listed.index(source) + 1 if source in listed else None


def source_phrases(edition: Edition) -> list[str]:
    """Return each source with its address, its licence and the credit line it asks for.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[str]
        One paragraph a source.
    """
    told = []
    for number, source in enumerate(edition.sources, start=1):
        parts = [f"[{number}]", source.citation, source.address]
        parts.append(f"Licence: {source.licence}." if source.licence else "")
        parts.append(source.credit)
        told.append(" ".join(printable(part) for part in parts if part))
    return told


def review(edition: Edition) -> str:
    """Return what has not been done to the total: a critical review.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    str
        One sentence.
    """
    return sentence(printable(str(edition.basis.get("review", NO_REVIEW))).rstrip("."))


def basis_rows(edition: Edition) -> list[tuple[str, str]]:
    """Return the basis block: everything needed to reproduce and judge the total.

    Parameters
    ----------
    edition : Edition
        What is shown.

    Returns
    -------
    list[tuple[str, str]]
        Pairs of name and value, known names first.
    """
    told = {key: str(value) for key, value in edition.basis.items() if key != "review"}
    told.setdefault("functional_unit", sum_of(edition))
    told.setdefault("middle", edition.middle)
    told.setdefault("range_for", edition.range_for)
    kind = RANGE_KINDS.get(told["range_for"])
    if kind:
        told["range_for"] += f": {kind}; from the 5th to the 95th percentile"
    order = [key for key in _BASIS_NAMES if key in told]
    order += [key for key in told if key not in _BASIS_NAMES]
    return [(_BASIS_NAMES.get(key, key.replace("_", " ")), printable(told[key])) for key in order]
