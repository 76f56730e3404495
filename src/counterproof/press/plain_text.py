"""Text from a recipe made fit to be printed: nothing in it can steer a terminal or a page."""

from __future__ import annotations

import re
import unicodedata

_BLANKS = re.compile(r"[^\S\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}]+")
REPLACEMENT = "\N{REPLACEMENT CHARACTER}"


def printable(text: str) -> str:
    """Return `text` on one line, with every control and direction character made visible.

    Parameters
    ----------
    text : str
        Any text, as it stood in a file.

    Returns
    -------
    str
        Line breaks and tabs become spaces, a no-break space stays one; escape sequences, other control characters, lone
        surrogates and marks that turn the direction of writing become a replacement sign, so
        that nobody can hide or reorder words.
    """
    spaced = _BLANKS.sub(" ", text).strip()
    return "".join(_visible(sign) for sign in spaced)


def _visible(sign: str) -> str:
    if sign.isascii():
        return sign if sign.isprintable() else REPLACEMENT
    kind = unicodedata.category(sign)
    if kind in {"Cc", "Cs"} or unicodedata.bidirectional(sign) in _TURNS:
        return REPLACEMENT
    return sign


_TURNS = frozenset({"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"})
