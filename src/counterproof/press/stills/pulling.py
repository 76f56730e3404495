"""Every still of an episode, pulled in both cuts, with its words and its numbers beside it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from counterproof import numerals
from counterproof.forme import Forme
from counterproof.press.figures import derived, text_of
from counterproof.press.figures_table import as_csv
from counterproof.press.fixed_words import Words
from counterproof.press.lettering import lacking, type_case
from counterproof.press.part import Piece, picture
from counterproof.press.stills import cooling, fates, seen, share_card, stages, swaps, total
from counterproof.press.stills.plate import CUTS, Cut, Plate
from counterproof.press.stills.subject import Copy, Subject, plated

_OVER = "-overlay"

SHARED: Final = "site/og.png"
"""The picture of a shared link lies beside the head of the page that names it."""


@dataclass(frozen=True, slots=True)
class Absent:
    """A still that is not made, and why."""

    kind: str
    why: str


def pieces(forme: Forme, words: Words) -> Iterator[Piece]:
    """Return every still of an episode, its numbers, and the list of them.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Yields
    ------
    Piece
        PNG and SVG of both cuts, on paper and for overlay; CSV; the list as text and as JSON.
    """
    copy = Copy(forme, words)
    made, absent = subjects(copy)
    listed = []
    for one in made:
        names = []
        for cut in CUTS:
            for piece in _pulled(copy, one, cut):
                names.append(piece.name)
                yield piece
        numbers = f"stills/{one.kind}.csv"
        yield Piece(numbers, as_csv(forme.edition, one.keys))
        names.append(numbers)
        if one.table:
            names.append(f"stills/{one.kind}-curve.csv")
            yield Piece(names[-1], one.table)
        listed.append((one, tuple(name.removeprefix("stills/") for name in names)))
    card = share_card.drawn(copy)
    yield Piece(SHARED, picture(card, width=share_card.WIDE, height=share_card.HIGH))
    yield Piece("stills/stills.txt", _list(copy, listed, absent).encode())
    yield Piece("stills/stills.json", _json(copy, listed, absent).encode())


def subjects(copy: Copy) -> tuple[list[Subject], list[Absent]]:
    """Return what the stills of an episode tell, and those that have nothing to tell.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.

    Returns
    -------
    tuple of list of Subject and list of Absent
        In the order of the list.
    """
    made: list[Subject] = []
    absent: list[Absent] = []
    found: tuple[tuple[str, Subject | tuple[Subject, ...] | str], ...] = (
        ("total", total.subject(copy)),
        ("swaps", swaps.subject(copy)),
        ("stages", stages.subject(copy)),
        ("likenesses", seen.subject(copy)),
        ("packs", fates.subject(copy)),
        ("cooling", cooling.subjects(copy)),
    )
    for kind, one in found:
        if isinstance(one, str):
            absent.append(Absent(kind, one))
        else:
            made.extend(one if isinstance(one, tuple) else (one,))
    return made, absent


def drawn(copy: Copy, subject: Subject, cut: Cut) -> Plate:
    """Return a still on its plate.

    Parameters
    ----------
    copy : Copy
        The episode with its fixed words.
    subject : Subject
        What it tells.
    cut : Cut
        The size of it.

    Returns
    -------
    Plate
        With everything on it.
    """
    plate = Plate(cut)
    plated(copy, subject, plate)
    return plate


def _pulled(copy: Copy, subject: Subject, cut: Cut) -> Iterator[Piece]:
    plate = drawn(copy, subject, cut)
    for ending in ("", _OVER):
        svg = plate.pulled(subject.statement, subject.alt, overlay=bool(ending))
        name = f"stills/{subject.kind}-{cut.name}{ending}"
        yield Piece(f"{name}.svg", svg.encode())
        yield Piece(f"{name}.png", picture(svg, width=cut.width, height=cut.height))


def _numbers(copy: Copy, subject: Subject) -> list[tuple[str, str, str]]:
    """Short number, name and printed text of each figure of a still."""
    told = []
    for key in subject.keys:
        found = derived(copy.edition, key)
        if found is not None:
            text = copy.words.figure(text_of(found, copy.edition.middle))
            told.append((copy.number(key), found.name, text))
    return told


def _list(copy: Copy, listed: list[tuple[Subject, tuple[str, ...]]], absent: list[Absent]) -> str:
    words = copy.words
    lead = words("stills.list lead", wide="-wide", tall="-tall", overlay=_OVER)
    lines = [words("stills.list", title=copy.title()), "", lead]
    signs = lacking([copy.edition.title, *(one.name for one in copy.edition.versions)], type_case())
    if signs:
        lines.append(words("stills.list lacking", signs=", ".join(signs)))
    for one, names in listed:
        numbers = "; ".join(
            f"{number} {name}: {text}" for number, name, text in _numbers(copy, one)
        )
        lines += [
            "",
            f"{one.kind}: {one.statement}",
            f"  {words('stills.list say', text=one.spoken)}",
            f"  {words('stills.list alt', text=one.alt)}",
            f"  {words('stills.list numbers', text=numbers)}",
            f"  {words('stills.list files', text=', '.join(names))}",
        ]
    for missing in absent:
        lines += ["", words("stills.list missing", text=f"{missing.kind}. {missing.why}")]
    return "\n".join(lines).replace(numerals.SPACE, " ") + "\n"


def _json(copy: Copy, listed: list[tuple[Subject, tuple[str, ...]]], absent: list[Absent]) -> str:
    document = {
        "stills": [
            {
                "kind": one.kind,
                "statement": one.statement,
                "alt": one.alt,
                "spoken": one.spoken,
                "numbers": [
                    {"number": int(number), "name": name, "shown": text}
                    for number, name, text in _numbers(copy, one)
                ],
                "files": list(names),
            }
            for one, names in listed
        ],
        "not_made": [{"kind": one.kind, "why": one.why} for one in absent],
    }
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"
