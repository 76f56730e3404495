"""Every number of the proof as a table: CSV, and Parquet where the library for it is there."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Collection
from importlib import import_module
from importlib.util import find_spec
from typing import Any, Final

from counterproof.press.figures import text_of
from counterproof.press.harmless import cell
from counterproof.proof import Derivation, Edition, unit_in_data

COLUMNS: Final = (
    "key",
    "number",
    "name",
    "shown",
    "mean",
    "p05",
    "p50",
    "p95",
    "unit",
    "sources",
)
"""Headings; `number` is the short number in the colophon, numbers are in `unit`."""

_ENDS: Final = ("mean", "p05", "p50", "p95")


def rows(edition: Edition) -> list[dict[str, str | int | float]]:
    """Return every number of a proof, one a row.

    Parameters
    ----------
    edition : Edition
        The proof.

    Returns
    -------
    list of dict
        By the headings of `COLUMNS`; sources by their ids, blanks between them.
    """
    return [
        {
            "key": one.key,
            "number": number,
            "name": one.name,
            "shown": text_of(one, edition.middle),
            **one.value.to_dict(),
            "unit": unit_in_data(one.unit) or "1",
            "sources": " ".join(_sources(one, edition)),
        }
        for number, one in enumerate(edition.derivations, start=1)
    ]


def _sources(one: Derivation, edition: Edition) -> list[str]:
    """Sources that a number's terms name, those of the numbers they open among them."""
    by_key = {known.key: known for known in edition.derivations}
    found: dict[str, None] = {}
    seen: set[str] = set()
    left = [one]
    while left:
        now = left.pop()
        if now.key in seen:
            continue
        seen.add(now.key)
        for term in now.terms:
            if term.source:
                found[term.source] = None
            if term.opens in by_key:
                left.append(by_key[term.opens])
    listed = {source.id for source in edition.sources}
    return sorted(name for name in found if name in listed)


def as_csv(edition: Edition, keys: Collection[str] | None = None) -> bytes:
    """Return the numbers as CSV.

    Parameters
    ----------
    edition : Edition
        The proof.
    keys : collection of str or None
        Those asked for; None for all.

    Returns
    -------
    bytes
        UTF-8, lines ended as RFC 4180 asks; numbers to six significant digits, which is the same
        on every machine.
    """
    text = io.StringIO()
    writer = csv.DictWriter(text, COLUMNS, lineterminator="\r\n")
    writer.writeheader()
    for row in rows(edition):
        if keys is not None and row["key"] not in keys:
            continue
        writer.writerow(
            {
                key: f"{value:.6g}" if key in _ENDS else cell(str(value))
                for key, value in row.items()
            }
        )
    return text.getvalue().encode()


def as_parquet(edition: Edition) -> bytes | None:
    """Return the numbers as Parquet.

    Parameters
    ----------
    edition : Edition
        The proof.

    Returns
    -------
    bytes or None
        Typed columns by the same headings; None where pyarrow, the extra `parquet`, is not there.
    """
    if find_spec("pyarrow") is None:
        return None
    arrow: Any = import_module("pyarrow")
    write: Callable[..., None] = import_module("pyarrow.parquet").write_table
    types = {"number": arrow.int32(), **dict.fromkeys(_ENDS, arrow.float64())}
    schema = arrow.schema([(name, types.get(name, arrow.string())) for name in COLUMNS])
    sink = io.BytesIO()
    write(arrow.Table.from_pylist(rows(edition), schema=schema), sink)
    return sink.getvalue()
