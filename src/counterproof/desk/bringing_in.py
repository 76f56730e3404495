"""Pasted text, a saved page or JSON-LD as the text of a recipe."""

from __future__ import annotations

from pathlib import PurePath

from counterproof.adapters.contents import PAGE_LIMIT, TEXT_LIMIT
from counterproof.adapters.files import read_recipe
from counterproof.errors import UnreadableFile
from counterproof.recipe.text import write_text

_FORMS = frozenset({".html", ".htm", ".xhtml", ".json", ".jsonld"})


def brought_in(file: str, content: str) -> str:
    """Return what was pasted or dropped as the text of a recipe.

    Parameters
    ----------
    file : str
        Its name; "" for what was pasted.
    content : str
        What it holds.

    Returns
    -------
    str
        Plain text as it is; what a page or a JSON-LD document carries, as Markdown.

    Raises
    ------
    InputError
        If there is no recipe in it, or it is too large.
    """
    name = PurePath(file.replace("\\", "/")).name[:120]
    form = PurePath(name).suffix.casefold()
    limit = PAGE_LIMIT if form in _FORMS else TEXT_LIMIT
    if len(content.encode()) > limit:
        raise UnreadableFile(
            f"This is larger than a recipe can be ({limit / 1e6:.0f} MB).",
            remedy="Bring in the recipe alone.",
            file=name or None,
        )
    start = content[:2000].lstrip().casefold()
    marked_up = start.startswith(("<!doctype", "<html", "<?xml", "<head", "<body", "<script"))
    if form in _FORMS or marked_up or start.startswith(("{", "[")):
        return write_text(read_recipe(content.encode(), name if form in _FORMS else ""))
    read_recipe(content.encode(), name or "pasted.md")
    return content.replace("\r\n", "\n").replace("\r", "\n")
