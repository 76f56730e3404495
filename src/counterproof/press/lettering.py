"""Which signs our faces can print, and what stands for one that they lack.

On paper nothing falls back to a reader's own fonts. A sign that no face has becomes a lozenge,
and the page says which signs were meant, so that nothing is dropped in silence.
"""

from __future__ import annotations

import io
import unicodedata
from collections.abc import Mapping, Sequence
from importlib.resources import files
from typing import Any, Final

from fontTools.ttLib import TTFont  # type: ignore[import-untyped] # it ships no types

from counterproof.press.plain_text import printable

FACES: Final = (
    ("font_source_serif_pro", "SourceSerifPro-Regular.ttf"),
    ("font_source_serif_pro", "SourceSerifPro-It.ttf"),
    ("font_source_serif_pro", "SourceSerifPro-Semibold.ttf"),
    ("font_source_sans_pro", "SourceSansPro-Regular.ttf"),
    ("font_source_sans_pro", "SourceSansPro-It.ttf"),
    ("font_source_sans_pro", "SourceSansPro-Semibold.ttf"),
)
"""Package and file of every face that paper is printed in; embedded unchanged, under its name."""

GETA: Final = "◊"
"""Stands for a sign that no face has, as a printer's geta stood for a missing sort."""

_READ: Final = (FACES[0], FACES[3])  # where these two lack a sign, an italic lacks it too
_FIRST_PRINTED: Final = 32


def type_case() -> frozenset[int]:
    """Return every sign that our faces have, by its code point."""
    found: set[int] = set()
    for package, file in _READ:
        face = files(package).joinpath("files", file).read_bytes()
        with TTFont(io.BytesIO(face), lazy=True) as font:
            found.update(font.getBestCmap())
    return frozenset(found)


def in_our_letters(text: str, case: frozenset[int]) -> str:
    """Return a text as it can be printed.

    Parameters
    ----------
    text : str
        Any text, as a cook wrote it.
    case : frozenset of int
        The signs that our faces have.

    Returns
    -------
    str
        On one line, composed, with a lozenge for every sign that no face has.
    """
    composed = unicodedata.normalize("NFC", printable(text))
    return "".join(sign if ord(sign) in case else GETA for sign in composed)


def lacking(texts: Sequence[str], case: frozenset[int]) -> tuple[str, ...]:
    """Return the signs that no face has, each once, in the order they come.

    Parameters
    ----------
    texts : sequence of str
        As a cook wrote them.
    case : frozenset of int
        The signs that our faces have.

    Returns
    -------
    tuple of str
        Such as "U+6F22".
    """
    composed = unicodedata.normalize("NFC", "".join(texts))
    missing = (sign for sign in composed if ord(sign) >= _FIRST_PRINTED and ord(sign) not in case)
    return tuple(f"U+{ord(sign):04X}" for sign in dict.fromkeys(missing))


def set_in_our_letters(value: Any, case: frozenset[int]) -> Any:
    """Return a document of texts, lists and mappings, all of it as it can be printed.

    Parameters
    ----------
    value : Any
        What JSON can hold.
    case : frozenset of int
        The signs that our faces have.

    Returns
    -------
    Any
        The same document, its texts in our letters.
    """
    if isinstance(value, str):
        return in_our_letters(value, case)
    if isinstance(value, Mapping):
        return {key: set_in_our_letters(one, case) for key, one in value.items()}
    if isinstance(value, Sequence):
        return [set_in_our_letters(one, case) for one in value]
    return value


def texts_in(value: Any) -> list[str]:
    """Return every text of a document.

    Parameters
    ----------
    value : Any
        What JSON can hold.

    Returns
    -------
    list of str
        In the order they come.
    """
    if isinstance(value, str):
        return [value]
    if isinstance(value, Mapping):
        return [text for one in value.values() for text in texts_in(one)]
    if isinstance(value, Sequence):
        return [text for one in value for text in texts_in(one)]
    return []
