"""The data tables described for others: a Frictionless data package, and who is to be credited.

Written from the forms, the tables and the source records themselves, so that neither can say
anything the loader does not hold. After a table changes: `python -m
counterproof.adapters.datapackage`.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

from counterproof import __version__
from counterproof.adapters.cells import Cell, cells
from counterproof.adapters.form import Form, Limits
from counterproof.adapters.forms import FORMS
from counterproof.adapters.tables import PASSED, checked_tables, checksum, table_contents

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counterproof.rows import Source

OWN = "MIT, as the code: chosen and written for this project"


def package(contents: Mapping[str, bytes], sources: Mapping[str, Source]) -> dict[str, Any]:
    """The descriptor of all tables.

    Parameters
    ----------
    contents : mapping
        File name → content, as `table_contents` gives it.
    sources : mapping
        Source.id → Source.

    Returns
    -------
    dict
        A data package descriptor, ready to be written as JSON.
    """
    return {
        "name": "counterproof-tables",
        "title": "Foods, household weights and emission factors of Counterproof",
        "version": __version__,
        "profile": "tabular-data-package",
        "resources": [_resource(form, contents[form.file], sources) for form in FORMS],
    }


def _resource(form: Form, content: bytes, sources: Mapping[str, Source]) -> dict[str, Any]:
    used = [sources[name] for name in _sources_used(content)]
    foreign = {column: target.split(".") for column, target in form.refers.items()}
    if "source" in cells(form):
        foreign["source"] = ["sources", "id"]
    return {
        "name": form.name,
        "title": form.title,
        "path": form.file,
        "profile": "tabular-data-resource",
        "scheme": "file",
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "bytes": len(content),
        "hash": "sha256:" + hashlib.sha256(content).hexdigest(),
        "sources": [{"title": source.citation, "path": source.address} for source in used],
        "licenses": [
            {"name": f"licence-of-{source.id}", "title": source.licence} for source in used
        ]
        or [{"name": "MIT", "title": OWN}],
        "schema": {
            "fields": [
                _field(name, cell, form.limits.get(name), filled=name in form.filled)
                for name, cell in cells(form).items()
            ],
            "primaryKey": list(form.key),
            "foreignKeys": [
                {"fields": [column], "reference": {"resource": table, "fields": [key]}}
                for column, (table, key) in foreign.items()
            ],
        },
    }


def _field(name: str, cell: Cell, limits: Limits | None, *, filled: bool) -> dict[str, Any]:
    constraints: dict[str, Any] = {}
    if cell.needed or filled:
        constraints["required"] = True
    if cell.words:
        constraints["enum"] = [word for word in cell.words if word]
    if limits is not None:
        # The standard has no strict limit; the loader also refuses the limit itself.
        low = limits.above if limits.low is None else limits.low
        constraints |= {"minimum": low} if low is not None else {}
        constraints |= {"maximum": limits.high} if limits.high is not None else {}
    described: dict[str, Any] = {"name": name, "type": cell.kind}
    if cell.kind == "boolean":
        described |= {"trueValues": ["true"], "falseValues": ["false"]}
    return described | ({"constraints": constraints} if constraints else {})


def _sources_used(content: bytes) -> list[str]:
    rows = csv.DictReader(io.StringIO(content.decode("utf-8"), newline=""))
    return sorted({row["source"] for row in rows if row.get("source")})


def licences(contents: Mapping[str, bytes], sources: Mapping[str, Source]) -> str:
    """The page that says, for each data file, its licence and whom to credit.

    Parameters
    ----------
    contents : mapping
        File name → content, as `table_contents` gives it.
    sources : mapping
        Source.id → Source.

    Returns
    -------
    str
        Markdown.
    """
    lines = [
        "# Licences and credits of the data files",
        "",
        "The code is under the MIT licence. The tables in this folder carry single figures over",
        "from the sources below, row by row, each row naming its source and place. What is said",
        "here of a licence is what was known when the figures were read: where it says *from",
        "memory*, ask the publisher before you pass the table on.",
        "",
        "## By source",
        "",
    ]
    for source in sources.values():
        files = [form.file for form in FORMS if source.id in _sources_used(contents[form.file])]
        lines += [
            f"### {source.id}",
            "",
            source.citation,
            "",
            f"- Address: <{source.address}>",
            f"- Licence: {source.licence}",
            f"- Credit: {source.credit}",
            f"- Read: {source.accessed}",
            f"- In: {', '.join(f'`{file}`' for file in files) or 'no table yet'}",
            "",
        ]
    lines += ["## By file", "", "| file | what | sources |", "| --- | --- | --- |"]
    for form in FORMS:
        used = ", ".join(_sources_used(contents[form.file])) or OWN
        lines.append(f"| `{form.file}` | {form.title} | {used} |")
    return "\n".join(lines) + "\n"


def written() -> dict[str, str]:
    """What stands beside the tables that ship with the package.

    Returns
    -------
    dict
        File name → text.

    Raises
    ------
    TableError
        If a table breaks a rule: nothing is described that cannot be loaded.
    """
    contents = table_contents()
    sources = checked_tables(contents).sources
    return {
        PASSED: checksum(contents) + "\n",
        "datapackage.json": json.dumps(package(contents, sources), indent=1, ensure_ascii=False)
        + "\n",
        "LICENSES.md": licences(contents, sources),
    }


def main() -> None:
    """Write the descriptor and the licence page into the data folder of this source tree."""
    folder = Path(__file__).parents[1] / "data"
    for name, text in written().items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
