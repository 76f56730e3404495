"""Which parts a press folder has, and the files of those that are asked for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from counterproof.errors import UsageFault
from counterproof.forme import Forme
from counterproof.press import card, colophon, data, handout, script, site
from counterproof.press.fixed_words import words_in
from counterproof.press.part import Part, Piece
from counterproof.press.stills import pulling

PARTS: Final[Mapping[str, Part]] = {
    "card": card.pieces,
    "stills": pulling.pieces,
    "handout": handout.pieces,
    "script": script.pieces,
    "colophon": colophon.pieces,
    "site": site.pieces,
    "data": data.pieces,
}
"""Name of a part → what makes its files, in the order in which they are made."""


def parts_asked(only: Sequence[str]) -> tuple[str, ...]:
    """Return the names of the parts that are to be made.

    Parameters
    ----------
    only : sequence of str
        Names as a person gives them; none for all.

    Returns
    -------
    tuple of str
        In the order of the folder.

    Raises
    ------
    UsageFault
        If one of them is not a part.
    """
    for name in only:
        if name not in PARTS:
            raise UsageFault(
                f"The press folder has no part “{name}”; its parts are: {', '.join(PARTS)}.",
                remedy="Take one of these with --only, or leave it out for all.",
            )
    return tuple(name for name in PARTS if not only or name in only)


def pieces_of(forme: Forme, parts: Sequence[str]) -> Iterator[tuple[str, Piece]]:
    """Yield the files of some parts, each with the part it belongs to.

    Parameters
    ----------
    forme : Forme
        The episode.
    parts : sequence of str
        Names of parts.

    Yields
    ------
    tuple of str and Piece
        Part and file; the same for the same forme.
    """
    words = words_in(forme.language)
    for part in parts:
        for piece in PARTS[part](forme, words):
            yield part, piece
