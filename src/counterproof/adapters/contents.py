"""What a file holds, as bytes and as text, with every way it may be no text told in words."""

from __future__ import annotations

import codecs
import re
from collections.abc import Mapping
from pathlib import Path
from typing import BinaryIO, Final

from counterproof.errors import UnreadableFile
from counterproof.recipe.settings import nearest

TEXT_LIMIT: Final = 2_000_000
"""Largest recipe text read [bytes]: assumed, some thousand pages."""

PAGE_LIMIT: Final = 20_000_000
"""Largest saved web page read [bytes]: assumed, with its pictures inside."""

NEAR_NAME: Final = 75.0
"""Similarity from which a file is offered for one not there: assumed, endings alone make 60."""

PAGES: Final = frozenset({".html", ".htm", ".xhtml"})
_KNOWN_BINARY: Final[Mapping[bytes, str]] = {
    b"%PDF": "a PDF",
    b"PK\x03\x04": "a word-processor document or an archive",
    b"\xd0\xcf\x11\xe0": "an old word-processor document",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"GIF8": "a picture",
    b"{\\rtf": "a rich-text document",
}


def content_of(path: Path) -> bytes:
    """Return what a file holds.

    Parameters
    ----------
    path : Path
        The file.

    Returns
    -------
    bytes
        Its content.

    Raises
    ------
    UnreadableFile
        If it is not there, may not be read, or is too large; nothing is read of a file too large.
    """
    limit = PAGE_LIMIT if path.suffix.casefold() in PAGES else TEXT_LIMIT
    try:
        size = path.stat().st_size
        if size > limit:
            raise _too_large(str(path), size, limit)
        with path.open("rb") as stream:
            content = stream.read(limit + 1)  # a pipe has no size to ask for
    except FileNotFoundError:
        raise UnreadableFile(
            "There is no such file.", remedy=suggestion(path), file=str(path)
        ) from None
    except IsADirectoryError:
        raise UnreadableFile(
            "This is a folder.", remedy="Name a file in it.", file=str(path)
        ) from None
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or str(fault)
        raise UnreadableFile(
            f"The file cannot be opened: {why}.",
            remedy="Check the name and that you may read it.",
            file=str(path),
        ) from None
    if len(content) > limit:
        raise _too_large(str(path), None, limit)
    return content


def content_of_stream(stream: BinaryIO | None) -> bytes:
    """Return what standard input holds.

    Parameters
    ----------
    stream : BinaryIO or None
        Standard input; None where there is none.

    Returns
    -------
    bytes
        Its content.

    Raises
    ------
    UnreadableFile
        If it is too large.
    """
    content = b"" if stream is None else stream.read(PAGE_LIMIT + 1)
    if len(content) > PAGE_LIMIT:
        raise _too_large("-", None, PAGE_LIMIT)
    return content


def _too_large(file: str, size: int | None, limit: int) -> UnreadableFile:
    found = "" if size is None else f"holds {size / 1e6:.0f} MB and "
    return UnreadableFile(
        f"The file {found}is larger than a recipe can be ({limit / 1e6:.0f} MB).",
        remedy="Check that it is the recipe, and save the recipe alone.",
        file=file,
    )


def decoded(content: bytes, file: str) -> str:
    """Return the text of a file.

    Parameters
    ----------
    content : bytes
        What the file holds: UTF-8, with or without a byte order mark.
    file : str
        Its name, for messages.

    Returns
    -------
    str
        The text.

    Raises
    ------
    UnreadableFile
        If it is no text, or text in another encoding; the first wrong byte is named.
    """
    kind = next((what for magic, what in _KNOWN_BINARY.items() if content.startswith(magic)), None)
    if kind:
        raise UnreadableFile(
            f"This is {kind}, not text.",
            remedy="Open it, copy the recipe, and save it as plain text in UTF-8.",
            file=file,
        )
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        raise UnreadableFile(
            "The text is in UTF-16.", remedy="Save it as UTF-8.", file=file, line=1
        )
    if b"\x00" in content:
        place = content.index(b"\x00")
        raise UnreadableFile(
            f"This is not text: byte {place + 1} is zero.",
            remedy="Name a recipe saved as plain text in UTF-8.",
            file=file,
            line=_line_of(content, place),
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        start = fault.start + (3 if content.startswith(codecs.BOM_UTF8) else 0)
        byte = content[start]
        guess = bytes([byte]).decode("cp1252", "replace")
        likely = f', "{guess}" in Latin-1' if guess.isprintable() and guess != "\ufffd" else ""
        raise UnreadableFile(
            f"The text is not UTF-8: byte {start + 1} is 0x{byte:02X}{likely}.",
            remedy="Open it in your editor and save it with the encoding UTF-8.",
            file=file,
            line=_line_of(content, start),
        ) from None


def page_text(content: bytes, file: str) -> str:
    """Return the text of a saved page, in the encoding that the page itself names.

    Parameters
    ----------
    content : bytes
        What the file holds.
    file : str
        Its name, for messages.

    Returns
    -------
    str
        The text.

    Raises
    ------
    UnreadableFile
        If it is no text in that encoding.
    """
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return content.decode("utf-16", "replace")
    named = re.search(rb"<meta[^>]*charset\s*=\s*[\"']?\s*([\w-]+)", content[:4096], re.IGNORECASE)
    name = named[1].decode("ascii") if named else "utf-8"
    if name.casefold() in {"iso-8859-1", "latin-1", "latin1", "windows-1252", "iso-8859-15"}:
        # Browsers read all of these as Windows-1252, and pages are written for browsers.
        return content.decode("iso-8859-15" if name.endswith("15") else "cp1252", "replace")
    return decoded(content, file)


def _line_of(content: bytes, place: int) -> int:
    before = content[:place]
    return 1 + before.count(b"\n") + before.replace(b"\r\n", b"").count(b"\r")


def suggestion(path: Path) -> str:
    """Return what to do about a name that means no file.

    Parameters
    ----------
    path : Path
        The name.

    Returns
    -------
    str
        The file beside it that is nearest in name, or the advice to check.
    """
    try:
        beside = sorted(one.name for one in path.parent.iterdir() if not one.name.startswith("."))
    except (OSError, ValueError):
        return "Check the name and the folder."
    near = nearest(path.name, beside, NEAR_NAME) if beside else None
    return f'Did you mean "{path.parent / near}"?' if near else "Check the name and the folder."
