"""For the web site of an episode: data for search engines, the head of the page, show notes."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from jinja2 import Environment, StrictUndefined
from markupsafe import Markup

from counterproof.forme import Forme
from counterproof.press import wording
from counterproof.press.card_copy import card_copy
from counterproof.press.fixed_words import Words
from counterproof.press.linked_data import PICTURE, inside_html, piece, recipe_data
from counterproof.press.part import Piece
from counterproof.press.shipped import shipped
from counterproof.press.show_notes import long_notes, short_notes

_LOCALES: Final = {"en": "en_GB", "de": "de_DE"}
_WIDTH, _HEIGHT = 1200, 630


def pieces(forme: Forme, words: Words) -> Iterator[Piece]:
    """Return what the web site of an episode takes.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Yields
    ------
    Piece
        The recipe as JSON-LD, a piece for the head of a page, show notes short and long.
    """
    yield piece(forme)
    yield Piece("site/head.html", _head(forme, words).encode())
    yield Piece("site/notes-short.md", short_notes(forme, words))
    yield Piece("site/notes-long.md", long_notes(forme, words))


def _head(forme: Forme, words: Words) -> str:
    copy = card_copy(forme, words)
    title = wording.title(forme.edition)
    template = shipped("head.html.j2")
    room = Environment(
        autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
    )
    return room.from_string(template).render(
        told=words("site.head"),
        title=title,
        description=words("site.description", title=title, total=copy.value),
        preview=words("site.preview", title=title, total=copy.value),
        picture=PICTURE,
        width=_WIDTH,
        height=_HEIGHT,
        alt=f"{copy.footprint}: {copy.value}; {copy.interval}",
        locale=_LOCALES.get(words.language, words.language),
        published=forme.date,
        data=Markup(inside_html(recipe_data(forme))),  # noqa: S704 (no sign of HTML is left in it)
    )
