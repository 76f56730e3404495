"""The sources as programs for references read them: CSL-JSON and BibTeX."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from typing import Any, Final

from counterproof.press.harmless import link
from counterproof.press.plain_text import printable
from counterproof.proof import SourceLine

_DATE: Final = re.compile(r"(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?")
_DOI: Final = "https://doi.org/"


def as_csl(sources: Sequence[SourceLine]) -> bytes:
    """Return sources as CSL-JSON.

    Parameters
    ----------
    sources : sequence of SourceLine
        As printed.

    Returns
    -------
    bytes
        One item a source: type and id, which the schema asks for, and what is known of it. The
        whole citation, the licence and the credit line stand in its note.
    """
    items = [_item(source) for source in sources]
    return (json.dumps(items, ensure_ascii=False, indent=2) + "\n").encode()


def _item(source: SourceLine) -> dict[str, Any]:
    address = link(source.address)
    item: dict[str, Any] = {
        "id": source.id,
        "type": "document",
        "title": printable(source.title or source.citation),
        "author": [{"literal": printable(source.producer)}] if source.producer else [],
        "issued": _date(source.published),
        "accessed": _date(source.accessed),
        "DOI": address.removeprefix(_DOI) if address and address.startswith(_DOI) else "",
        "URL": address or "",
        "note": _note(source),
    }
    return {key: value for key, value in item.items() if value}


def _note(source: SourceLine) -> str:
    licence = f"Licence: {source.licence}." if source.licence else ""
    told = (source.citation, licence, source.credit)
    return " ".join(printable(part) for part in told if part)


def _date(text: str) -> dict[str, Any] | None:
    found = _DATE.fullmatch(text.strip())
    if found is not None:
        return {"date-parts": [[int(part) for part in found.groups() if part]]}
    return {"literal": printable(text)} if text.strip() else None


def as_bibtex(sources: Sequence[SourceLine]) -> bytes:
    """Return sources as BibTeX.

    Parameters
    ----------
    sources : sequence of SourceLine
        As printed.

    Returns
    -------
    bytes
        One entry a source, its key the id.
    """
    return ("\n\n".join(_entry(source) for source in sources) + "\n").encode()


def _entry(source: SourceLine) -> str:
    address = link(source.address)
    date = _DATE.match(source.published.strip())
    fields = {
        "title": f"{{{_tex(source.title or source.citation)}}}",
        "author": f"{{{_tex(source.producer)}}}" if source.producer else "",
        "year": date[1] if date is not None else "",
        "url": address or "",
        "urldate": source.accessed if _DATE.fullmatch(source.accessed) else "",
        "note": _tex(_note(source)),
    }
    told = ",\n".join(f"  {key} = {{{value}}}" for key, value in fields.items() if value)
    return f"@misc{{{source.id},\n{told}\n}}"


_TEX: Final = re.compile(r"[\\{}$&#^_~%]")
_SPELLED: Final = {
    "\\": r"\textbackslash{}",
    "^": r"\textasciicircum{}",
    "~": r"\textasciitilde{}",
}


def _tex(text: str) -> str:
    """Words that TeX sets as they are."""
    return _TEX.sub(lambda sign: _SPELLED.get(sign[0], f"\\{sign[0]}"), printable(text))
