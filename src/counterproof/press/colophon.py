"""The colophon of an episode: method, derivations and sources, on a page and on paper."""

from __future__ import annotations

import json
from collections.abc import Iterator

from counterproof.forme import Forme
from counterproof.press.colophon_copy import ColophonCopy, colophon_copy
from counterproof.press.fixed_words import Words
from counterproof.press.lettering import set_in_our_letters, type_case
from counterproof.press.page import page
from counterproof.press.part import ACCESSIBLE, Piece, Setting
from counterproof.press.references import as_bibtex, as_csl
from counterproof.press.shipped import shipped


def pieces(forme: Forme, words: Words) -> Iterator[Piece]:
    """Return the colophon in all its forms.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Yields
    ------
    Piece
        HTML, PDF, and the sources as CSL-JSON and BibTeX.
    """
    copy = colophon_copy(forme, words)
    yield Piece("colophon/colophon.html", page("colophon.html.j2", copy=copy))
    yield Piece("colophon/colophon.pdf", _printed(copy, words))
    yield Piece("colophon/sources.json", as_csl(forme.edition.sources))
    yield Piece("colophon/sources.bib", as_bibtex(forme.edition.sources))


def _printed(copy: ColophonCopy, words: Words) -> Setting:
    foot = words("card.page", title=copy.title, page="{page}", pages="{pages}")
    told = set_in_our_letters({**copy.to_dict(), "page": foot}, type_case())
    document = json.dumps(told, ensure_ascii=False).encode()
    source = shipped("typst", "colophon.typ")
    return Setting(source, {"colophon.json": document}, standards=ACCESSIBLE)
