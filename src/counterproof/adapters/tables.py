"""The one place where data tables are read: files in, frozen and checked rows out."""

from __future__ import annotations

import gc
import hashlib
import importlib.resources
from collections import defaultdict
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Protocol

from counterproof import __version__
from counterproof.adapters.as_asked import RowsAsAsked, lines_of, row_maker
from counterproof.adapters.checking import checked, own_content
from counterproof.adapters.forms import FORMS
from counterproof.errors import TableError
from counterproof.life_cycle_rows import LifeCycle
from counterproof.rows import Tables
from counterproof.shop_rows import Shop

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from importlib.resources.abc import Traversable
    from pathlib import Path

    from counterproof.adapters.columns import Sheet
    from counterproof.rows import Own

PASSED = "passed.sha256"
"""File beside the tables: their checksum when they last passed every check."""

_BY_NAME = {form.name: form for form in FORMS}


def load_tables(folder: Path | None = None, own: tuple[str, str] | None = None) -> Tables:
    """All data tables, each row checked: now, or before they were shipped.

    The tables of the package are opened without being read where their checksum says that they
    passed; a changed byte, another folder or a cook's own table, and every row is checked.

    Parameters
    ----------
    folder : Path or None
        Where the CSV files lie; None for those that ship inside the package.
    own : tuple of str and str, or None
        Name and text of the cook's own table, which replaces rows or adds to them.

    Returns
    -------
    Tables
        Frozen rows in SI units, indexed for use, with the checksum of all files.

    Raises
    ------
    TableError
        If a file is missing or a row breaks a rule; it names file, line and remedy.
    """
    with uncollected():
        return _loaded(folder, own)


@contextmanager
def uncollected() -> Iterator[None]:
    """Hold off the search for garbage while a hundred thousand things that stay are made.

    What stands in the end is passed over by every later search.
    """
    searching = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if searching:
            gc.freeze()
            gc.enable()


def _loaded(folder: Path | None, own: tuple[str, str] | None) -> Tables:
    contents = table_contents(folder)
    digest = checksum(contents)
    if own is None and digest == _passed():
        return _assembled(_AsAsked(contents), digest)
    return checked_tables(contents, own)


def checked_tables(contents: Mapping[str, bytes], own: tuple[str, str] | None = None) -> Tables:
    """Data tables whose every row is made and checked, whatever is known of their files.

    Parameters
    ----------
    contents : mapping
        File name → content, as `table_contents` gives it.
    own : tuple of str and str, or None
        Name and text of the cook's own table.

    Returns
    -------
    Tables
        As `load_tables`.

    Raises
    ------
    TableError
        If a row breaks a rule; it names file, line and remedy.
    """
    sheets, held = checked(contents, own)
    if own is not None:
        contents = {**contents, "own_factors": own_content(own[1])}
    rows = {name: sheet.rows() for name, sheet in sheets.items()}
    return _assembled(_Checked(sheets, rows), checksum(contents), held)


def _passed() -> str:
    """The checksum of the shipped tables when they last passed every check."""
    return (_shipped() / PASSED).read_text("utf-8").strip()


class _Made(Protocol):
    """Rows in the order of their files, or by their first columns: `width` of them."""

    def every(self, name: str) -> tuple[Any, ...]: ...

    def one(self, *names: str, width: int = 1) -> Mapping[Any, Any]: ...

    def many(self, name: str, width: int = 1) -> Mapping[Any, tuple[Any, ...]]: ...


@dataclass(frozen=True, slots=True)
class _Checked:
    sheets: Mapping[str, Sheet]
    rows: Mapping[str, tuple[Any, ...]]

    def every(self, name: str) -> tuple[Any, ...]:
        return self.rows[name]

    def one(self, *names: str, width: int = 1) -> Mapping[Any, Any]:
        return {key: row for name in names for key, row in self._keyed(name, width)}

    def many(self, name: str, width: int = 1) -> Mapping[Any, tuple[Any, ...]]:
        groups: defaultdict[Any, list[Any]] = defaultdict(list)
        for key, row in self._keyed(name, width):
            groups[key].append(row)
        return {key: tuple(group) for key, group in groups.items()}

    def _keyed(self, name: str, width: int) -> Iterable[tuple[Any, Any]]:
        sheet = self.sheets[name]
        return zip(sheet.joined([*sheet.columns][:width]), self.rows[name], strict=True)


@dataclass(frozen=True, slots=True)
class _AsAsked:
    contents: Mapping[str, bytes]

    def every(self, name: str) -> tuple[Any, ...]:
        return row_maker(_BY_NAME[name])(lines_of(self.contents[f"{name}.csv"]))

    def one(self, *names: str, width: int = 1) -> Mapping[Any, Any]:
        return self._rows(names, width, one=True)

    def many(self, name: str, width: int = 1) -> Mapping[Any, tuple[Any, ...]]:
        return self._rows((name,), width, one=False)

    def _rows(self, names: tuple[str, ...], width: int, *, one: bool) -> RowsAsAsked:
        lines = [line for name in names for line in lines_of(self.contents[f"{name}.csv"])]
        return RowsAsAsked(_BY_NAME[names[0]], lines, width=width, one=one)


def _assembled(made: _Made, sha256: str, own: Own | None = None) -> Tables:
    one, many = made.one, made.many
    return Tables(
        foods=one("foods"),
        names=made.every("names"),
        household=many("household"),
        densities=many("densities"),
        composition=one("composition"),
        edible=one("edible"),
        yields=many("yields"),
        allergens=many("allergens"),
        factors=one("factors_global", "factors_literature", "factors_national", width=2),
        stages=many("factor_stages", width=2),
        links=many("links"),
        mixtures=many("mixtures", width=2),
        energy=one("energy", width=2),
        sources=one("sources"),
        sha256=sha256,
        version=__version__,
        shapes=one("factor_shapes", width=2),
        seasons=many("seasons"),
        harvests=one("harvests"),
        likenesses=many("likenesses"),
        overclaims=made.every("overclaims"),
        life_cycle=LifeCycle(
            materials=one("materials"),
            contents=one("recycled_content", width=2),
            containers=one("containers"),
            parts=many("container_parts"),
            disposal=many("disposal", width=2),
            fates=many("fates", width=2),
            carriage=one("carriage", width=2),
            chains=many("chains"),
            regions=one("regions"),
            losses=one("grid_losses"),
            burdens=one("burdens", width=2),
        ),
        shop=Shop(many("packs_sold"), one("shop_parts")),
        own=own,
    )


def table_contents(folder: Path | None = None) -> dict[str, bytes]:
    """The bytes of every table file, line ends as one newline.

    Parameters
    ----------
    folder : Path or None
        Where the CSV files lie; None for those that ship inside the package.

    Returns
    -------
    dict
        File name → content.

    Raises
    ------
    TableError
        If a file is missing.
    """
    root: Traversable = folder or _shipped()
    contents = {}
    for form in FORMS:
        try:
            # A checkout may turn line ends around; the checksum must not see it.
            contents[form.file] = (root / form.file).read_bytes().replace(b"\r\n", b"\n")
        except OSError as error:
            raise TableError(
                "this table is missing.",
                remedy=f"Put {form.file} back into the data folder, or install the package again.",
                file=form.file,
            ) from error
    return contents


def _shipped() -> Traversable:
    return importlib.resources.files("counterproof") / "data"


def checksum(contents: Mapping[str, bytes]) -> str:
    """SHA-256 over the names and contents of table files, sorted by name.

    Parameters
    ----------
    contents : mapping
        File name → content, as `table_contents` gives it.

    Returns
    -------
    str
        Hexadecimal digest.
    """
    digest = hashlib.sha256()
    for name in sorted(contents):
        digest.update(name.encode() + b"\0" + contents[name])
    return digest.hexdigest()
