"""The packs of one serving and the gas of the fizz, in characters."""

from __future__ import annotations

from typing import Final

from rich.text import Text

from counterproof.adapters.characters import GREY, Page, hatched
from counterproof.press import around, packs
from counterproof.press.hatching import Field, letter
from counterproof.proof import Edition, PackagingProof

WIDTH: Final = 48
"""Characters of the longer strip."""


def pack_texts(page: Page, edition: Edition) -> list[Text]:
    """Return the packs of one serving, beside those of what is bought instead.

    Parameters
    ----------
    page : Page
        Where it is printed.
    edition : Edition
        What is shown.

    Returns
    -------
    list of Text
        Strips, their key, then sentences; empty where nothing is packed.
    """
    report = packs.report_of(edition)
    if report is None:
        return []
    made = _strips(page, report)
    made += [page.words(words) for words in packs.pack_phrases(report)]
    return made


def _strips(page: Page, report: PackagingProof) -> list[Text]:
    sides = [(one.name, one.told) for one in packs.strips(report)]
    reports = [report, *([] if report.bought is None else [report.bought])]
    longest = max(sum(one.by_material.values()) for one in reports)
    made = []
    name_width = max((len(name) for name, _ in sides), default=0)
    for (name, told), one in zip(sides, reports, strict=False):
        lead = page.words(f"{name:<{name_width}} ", GREY)
        drawn = hatched(_fields(one, longest), 0.0, WIDTH) if page.drawn else Text()
        drawn.rstrip()
        made.append(lead + drawn + Text(" " if page.drawn else "") + page.words(told))
    for fate in packs.fates_of(report) if sides else []:
        key = f"{letter(fate)}  " if page.drawn else ""
        made.append(page.words(f"{key}{packs.WHERE[fate]} {packs.fate_masses(report, fate)}"))
    return made


def _fields(report: PackagingProof, longest: float) -> list[Field]:
    fields, start = [], 0.0
    for fate in packs.fates_of(report):
        width = report.by_fate.get(fate, 0.0) / longest
        fields.append(Field(fate, start, width))
        start += width
    return fields


def fizz_texts(page: Page, edition: Edition) -> list[Text]:
    """Return where the gas of one serving goes, and the serving with and without it.

    Parameters
    ----------
    page : Page
        Where it is printed.
    edition : Edition
        What is shown.

    Returns
    -------
    list of Text
        Sentences; empty where nothing was fizzed at home.
    """
    fizz = edition.fizz
    if fizz is None:
        return []
    told = around.fizz_phrases(fizz)
    figures = zip(around.fizz_figures(fizz), around.fizz_shown(fizz), strict=True)
    told += [
        f"With {name}: {words}{', as the total is told' if stands else ''}."
        for (name, _, stands), words in figures
    ]
    return [page.words(words) for words in told]
