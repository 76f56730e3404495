"""The copy of the colophon: everything that is to be told behind the figures of an episode."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any, Final

from counterproof.forme import Forme
from counterproof.numerals import CO2E, SPACE
from counterproof.press import footing, wording
from counterproof.press.figures import term_text, text_of
from counterproof.press.fixed_words import Words
from counterproof.press.harmless import link
from counterproof.press.plain_text import printable
from counterproof.proof import Derivation, Edition, Term

_GROUPS: Final = {
    "serving": "whole",
    "batch": "whole",
    "stage": "stages",
    "version": "versions",
    "ratio": "versions",
    "share": "versions",
    "line": "lines",
    "mass": "lines",
    "step": "steps",
    "kwh": "steps",
    "apart": "elsewhere",
    "activity": "elsewhere",
    "per": "per",
    "nutrition": "nutrition",
    "cost": "cost",
    "likened": "drawn",
    "cooling": "drawn",
    "packs": "drawn",
    "said": "said",
}
"""Kind of a derivation → the heading it stands under; any other kind under "other"."""

WRITTEN_IN: Final = "en"
"""Language of workings, assumptions and marks: that of the program."""


@dataclass(frozen=True, slots=True)
class Step:
    """A step of a working: its sign, what it is, its value, where that comes from.

    `opens` is the number of the derivation of this very value; `source` the id of a source that
    is listed, `where` its place there, or why there is none.
    """

    does: str
    says: str
    value: str
    opens: int | None
    source: str
    where: str


@dataclass(frozen=True, slots=True)
class Working:
    """How a number came about, under its short number."""

    number: int
    name: str
    value: str
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Group:
    """Workings under one heading."""

    heading: str
    workings: tuple[Working, ...]


@dataclass(frozen=True, slots=True)
class SourceCopy:
    """A source with what its licence asks for; `link` only where the address may be one."""

    id: str
    citation: str
    address: str
    link: str
    licence: str
    credit: str


@dataclass(frozen=True, slots=True)
class ColophonCopy:
    """The whole colophon.

    `told` are headings with their sentences, `basis` pairs of name and value.
    """

    language: str
    written_in: str
    heading: str
    title: str
    total: str
    number: int
    lead: str
    credits: tuple[str, tuple[str, ...]]
    method: str
    basis: tuple[tuple[str, str], ...]
    told: tuple[tuple[str, tuple[str, ...]], ...]
    numbers: str
    numbers_lead: str
    groups: tuple[Group, ...]
    sources: str
    listed: tuple[SourceCopy, ...]
    licence: str
    assumed: str

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return asdict(self)


def colophon_copy(forme: Forme, words: Words) -> ColophonCopy:
    """Return the copy of the colophon.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Returns
    -------
    ColophonCopy
        Basis, assumptions, coverage, second opinion, marks left open, every derivation, sources.
    """
    edition = forme.edition
    title = wording.title(edition)
    whole = edition.derivations[0] if edition.derivations else None
    total = "" if whole is None else words.figure(text_of(whole, edition.middle))
    return ColophonCopy(
        language=words.language,
        written_in=WRITTEN_IN,
        heading=words("colophon.heading", title=title),
        title=title,
        total=total,
        number=1,
        lead=wording.sum_of(edition),
        credits=(words("colophon.credits"), tuple(printable(one) for one in forme.credits)),
        method=words("colophon.method"),
        basis=_basis(edition, words),
        told=_told(edition, words),
        numbers=words("colophon.numbers"),
        numbers_lead=words("colophon.numbers lead"),
        groups=_groups(edition, words),
        sources=words("colophon.sources"),
        listed=tuple(
            SourceCopy(
                source.id,
                printable(source.citation),
                printable(source.address),
                link(source.address) or "",
                printable(source.licence),
                printable(source.credit),
            )
            for source in edition.sources
        ),
        licence=words("colophon.licence", licence="{licence}"),
        assumed=words("colophon.assumed word"),
    )


def _basis(edition: Edition, words: Words) -> tuple[tuple[str, str], ...]:
    return (*footing.basis_rows(edition), (words("colophon.review name"), footing.review(edition)))


def _told(edition: Edition, words: Words) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Coverage, second opinion, what was assumed, what to settle, marks left open."""
    opinions = [
        f"{one.name}: {words.figure(one.shown)}{SPACE}{CO2E}; {one.coverage}"
        for one in footing.opinions(edition)
    ]
    settle = footing.settle_phrases(edition)
    found = (
        ("coverage", [wording.sentence(*footing.coverage_phrases(edition))]),
        ("second opinion", opinions),
        ("settle", settle),
        ("assumed", [printable(one) for one in edition.assumed]),
        ("open", _open(edition, words)),
        ("cautions", [printable(one) for one in edition.cautions]),
    )
    return tuple(
        (words(f"colophon.{key}"), tuple(sentences)) for key, sentences in found if sentences
    )


def _open(edition: Edition, words: Words) -> list[str]:
    """Every mark that was not settled, with the place it stands at."""
    told = [printable(mark.message) for mark in edition.marks if mark.level != "note"]
    for key, rows in (("line", edition.lines), ("step", edition.steps)):
        told += [
            words(f"colophon.at {key}", number=str(row.number), what=printable(mark.message))
            for row in rows
            for mark in row.marks
            if mark.level != "note"
        ]
    return told or [words("colophon.nothing open")]


def _groups(edition: Edition, words: Words) -> tuple[Group, ...]:
    made: dict[str, list[Working]] = {}
    for number, one in enumerate(edition.derivations, start=1):
        kind, _, rest = one.key.partition(":")
        group = "versions" if kind == "serving" and rest else _GROUPS.get(kind, "other")
        made.setdefault(group, []).append(_working(number, one, edition, words))
    return tuple(
        Group(words(f"colophon.group {name}"), tuple(workings)) for name, workings in made.items()
    )


def _working(number: int, one: Derivation, edition: Edition, words: Words) -> Working:
    value = words.figure(text_of(one, edition.middle))
    steps = tuple(_step(term, place, edition, words) for place, term in enumerate(one.terms))
    return Working(number, printable(one.name), value, steps)


def _step(term: Term, place: int, edition: Edition, words: Words) -> Step:
    listed = {source.id for source in edition.sources}
    source = term.source if term.source in listed else ""
    aside = "" if source else {"assumed": words("colophon.assumed word")}.get(term.source, "")
    where = printable(", ".join(part for part in (aside, term.locator) if part))
    return Step(
        does="" if place == 0 and term.does == "+" else term.does,
        says=printable(term.says),
        value=words.figure(term_text(term, edition)),
        opens=edition.number_of(term.opens) if term.opens else None,
        source=source,
        where=where,
    )
