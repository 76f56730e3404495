"""Words in schema.org data: out of tags, entities and nesting, and back into them."""

from __future__ import annotations

import html
import re
from typing import Any, Final

from counterproof.recipe.markup import spaced

OURS: Final = "counterproof:recipe"
"""Key of our own settings and sections in the document."""

DEEPEST: Final = 40
"""Levels of nesting walked: assumed, real pages stay under ten."""

_BREAK = re.compile(r"<\s*(?:br|/?p|/?li|/?div|/?ol|/?ul|/?h\d)\b[^<>]*>", re.IGNORECASE)
_TAG = re.compile(r"</?[a-zA-Z][^<>]*>")
_SURROGATE = re.compile(r"[\ud800-\udfff]")


def cleaned(text: str, *, exact: bool) -> str:
    """Return the words of a text that may hold tags and entities, on one line.

    Parameters
    ----------
    text : str
        The text as it stands in the document.
    exact : bool
        Whether we wrote the document ourselves, and escaped it once.

    Returns
    -------
    str
        The words.
    """
    text = _SURROGATE.sub("\ufffd", text)
    for _ in range(1 if exact else 2):  # foreign pages often escape twice
        text = html.unescape(_TAG.sub(" ", text) if _TAG.search(text) else text)
    return spaced(_SURROGATE.sub("\ufffd", text))


def shown_words(text: str) -> str:
    """Return words so written that `cleaned` gives them back.

    Parameters
    ----------
    text : str
        The words.

    Returns
    -------
    str
        The words, escaped where they would be taken for tags or entities.
    """
    return text if cleaned(text, exact=True) == text else html.escape(text, quote=False)


def words_in(value: Any, *, exact: bool, depth: int = 0) -> list[str]:
    """Return the words in a value of any shape: text, number, list, or thing with a name.

    Parameters
    ----------
    value : object
        Decoded JSON.
    exact : bool
        Whether we wrote the document ourselves.
    depth : int
        Levels of nesting walked already.

    Returns
    -------
    list of str
        The words of every text in it, empty ones left out.
    """
    if isinstance(value, bool) or value is None or depth > DEEPEST:
        return []
    if isinstance(value, str | int | float):
        text = cleaned(str(value), exact=exact)
        return [text] if text else []
    if isinstance(value, list):
        return [text for one in value for text in words_in(one, exact=exact, depth=depth + 1)]
    if isinstance(value, dict):
        for key in ("text", "name", "@value", "value", "itemListElement"):
            if key in value:
                return words_in(value[key], exact=exact, depth=depth + 1)
    return []


def split_lines(value: Any) -> Any:
    """Split a single string into its lines, at line ends and at the tags that break a line.

    Parameters
    ----------
    value : object
        Decoded JSON.

    Returns
    -------
    object
        The lines of a string; anything else as it is.
    """
    if not isinstance(value, str):
        return value
    text = value
    for _ in range(2):
        text = _BREAK.sub("\n", text)
        if "<" in text or "&lt;" not in text:
            break
        text = html.unescape(text)
    return text.replace("\r", "\n").split("\n")


def prose(value: Any, *, exact: bool) -> str:
    """Return a running text with its lines kept.

    Parameters
    ----------
    value : object
        Decoded JSON.
    exact : bool
        Whether we wrote the document ourselves.

    Returns
    -------
    str
        The words, a line of the text a line.
    """
    lines = split_lines(value) if not exact else str(value or "").split("\n")
    return "\n".join(words_in(lines, exact=exact))
