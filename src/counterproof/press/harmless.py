"""Words a cook wrote, made harmless where a program would act on them: cells and links."""

from __future__ import annotations

import re
from typing import Final

_ACTED_ON: Final = ("=", "+", "-", "@", "\t", "\r", "\n")
"""What a spreadsheet takes for a formula at the start of a cell (OWASP, "CSV Injection")."""

_NUMBER: Final = re.compile(r"[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?")


def cell(text: str) -> str:
    """Return the text of a CSV cell that no spreadsheet takes for a formula.

    Parameters
    ----------
    text : str
        Any text; a plain number is left as it is.

    Returns
    -------
    str
        The text, behind an apostrophe where it would be acted on.

    Notes
    -----
    OWASP, "CSV Injection": prepend a single quote to a cell that begins with = + - @, a tab or a
    carriage return. Quoting of commas and line ends is left to the writer.
    """
    if text.startswith(_ACTED_ON) and not _NUMBER.fullmatch(text):
        return f"'{text}"
    return text


def link(address: str) -> str | None:
    """Return an address that may become a link, or None where it stays plain words.

    Parameters
    ----------
    address : str
        As a source, a cook or a page gives it.

    Returns
    -------
    str or None
        The address if it is https and holds no space, quote or angle bracket.
    """
    if re.fullmatch(r"https://[^\s\"'<>\\]+", address):
        return address
    return None
