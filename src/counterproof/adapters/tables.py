"""The one place where data tables are read: files in, frozen and checked rows out."""

from __future__ import annotations

import csv
import hashlib
import importlib.resources
import io
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, TypeVar

from counterproof import __version__
from counterproof.adapters.cells import Cell, cells
from counterproof.adapters.forms import FORMS, PROVENANCE, Form
from counterproof.errors import TableError
from counterproof.rows import Provenance, Tables

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from importlib.resources.abc import Traversable
    from pathlib import Path

Row = TypeVar("Row")
Key = TypeVar("Key")

SUM_TOLERANCE = 1e-6  # above the rounding of stages and shares written with a few more digits
FIRST_LINE = 2  # the heading is line 1


def load_tables(folder: Path | None = None) -> Tables:
    """All data tables, each row checked.

    Parameters
    ----------
    folder : Path or None
        Where the CSV files lie; None for those that ship inside the package.

    Returns
    -------
    Tables
        Frozen rows in SI units, indexed for use, with the checksum of all files.

    Raises
    ------
    TableError
        If a file is missing or a row breaks a rule; it names file, line and remedy.
    """
    contents = table_contents(folder)
    sheets = {form.name: _Sheet.read(form, contents[form.file]) for form in FORMS}
    for sheet in sheets.values():
        sheet.check(sheets)
    _check_factors(sheets)
    of: dict[str, tuple[Any, ...]] = {name: sheet.rows() for name, sheet in sheets.items()}
    factors = of["factors_global"] + of["factors_literature"] + of["factors_national"]
    return Tables(
        foods=_indexed(of["foods"], lambda row: row.id),
        names=of["names"],
        household=_grouped(of["household"], lambda row: row.food),
        densities=_grouped(of["densities"], lambda row: row.food),
        composition=_indexed(of["composition"], lambda row: row.food),
        edible=_indexed(of["edible"], lambda row: row.food),
        yields=_grouped(of["yields"], lambda row: row.food),
        allergens=_grouped(of["allergens"], lambda row: row.food),
        factors=_indexed(factors, lambda row: (row.set, row.item)),
        stages=_grouped(of["factor_stages"], lambda row: (row.set, row.item)),
        links=_grouped(of["links"], lambda row: row.food),
        mixtures=_grouped(of["mixtures"], lambda row: (row.set, row.name)),
        energy=_indexed(of["energy"], lambda row: (row.carrier, row.region)),
        sources=_indexed(of["sources"], lambda row: row.id),
        sha256=checksum(contents),
        version=__version__,
        shapes=_indexed(of["factor_shapes"], lambda row: (row.set, row.item)),
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
    root: Traversable = folder or importlib.resources.files("counterproof") / "data"
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


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A table read by columns: quicker than by rows, and a rule sees a whole column at once."""

    form: Form
    columns: dict[str, list[Any]]

    @classmethod
    def read(cls, form: Form, content: bytes) -> _Sheet:
        """Read a table's columns, each cell turned into what its type says."""
        try:
            text = content.decode("utf-8")
        except UnicodeDecodeError as error:
            raise TableError(
                "this table is not UTF-8 text.", remedy="Save it as UTF-8.", file=form.file
            ) from error
        heading, *lines = [*csv.reader(io.StringIO(text, newline=""))] or [[]]
        expected = cells(form)
        if heading != list(expected):
            raise TableError(
                f"the columns are {', '.join(heading) or 'missing'}.",
                remedy=f"They must be, in this order: {', '.join(expected)}.",
                file=form.file,
                line=1,
            )
        for number, line in enumerate(lines, FIRST_LINE):
            if len(line) != len(heading):
                raise TableError(
                    f"the row has {len(line)} cells, the heading has {len(heading)}.",
                    remedy="Put a cell that holds a comma between double quotes; leave no line empty.",
                    file=form.file,
                    line=number,
                )
        turned = zip(*lines, strict=True) if lines else ((),) * len(heading)
        return cls(
            form,
            {
                name: _column(form, name, cell, texts)
                for (name, cell), texts in zip(expected.items(), turned, strict=True)
            },
        )

    def fault(self, index: int, message: str, remedy: str) -> TableError:
        """A rule broken in a row, counted from 0."""
        return TableError(message, remedy=remedy, file=self.form.file, line=index + FIRST_LINE)

    def joined(self, names: Iterable[str]) -> list[Any]:
        """The values of some columns, row by row: bare for one column, tuples for several."""
        picked = [self.columns[name] for name in names]
        return picked[0] if len(picked) == 1 else list(zip(*picked, strict=True))

    def check(self, sheets: Mapping[str, _Sheet]) -> None:
        """Hold every row against the table's form."""
        self._check_key()
        self._check_numbers()
        self._check_references(sheets)
        if "obtained" in self.columns:
            self._check_provenance(set(sheets["sources"].columns["id"]))

    def _check_key(self) -> None:
        keys = self.joined(self.form.key)
        if len(set(keys)) == len(keys):
            return
        first: dict[Any, int] = {}
        for index, key in enumerate(keys):
            if key in first:
                named = ", ".join(key) if isinstance(key, tuple) else key
                raise self.fault(
                    index,
                    f"the same {', '.join(self.form.key)} ({named}) stands in line "
                    f"{first[key] + FIRST_LINE}.",
                    "Keep one of the two.",
                )
            first[key] = index

    def _check_numbers(self) -> None:
        for name in self.form.filled:
            if "" in self.columns[name]:
                raise self.fault(self.columns[name].index(""), f'"{name}" is empty.', "Fill it in.")
        for name, limits in self.form.limits.items():
            for index, number in enumerate(self.columns[name]):
                if number is not None and not limits.hold(number):
                    raise self.fault(
                        index,
                        f'"{name}" is {number:g}, allowed is {limits}.',
                        "Correct the number.",
                    )

    def _check_references(self, sheets: Mapping[str, _Sheet]) -> None:
        for name, target in self.form.refers.items():
            table, column = target.split(".")
            known = set(sheets[table].columns[column])
            for index, value in enumerate(self.columns[name]):
                if value not in known:
                    raise self.fault(
                        index,
                        f'"{name}" says "{value}", which is not in {table}.csv.',
                        f'Add a row "{value}" to {table}.csv, or correct the spelling.',
                    )

    def _check_provenance(self, sources: set[str]) -> None:
        for index, (source, obtained, note) in enumerate(
            self.joined(("source", "obtained", "note"))
        ):
            if source and source not in sources:
                raise self.fault(
                    index,
                    f'the source "{source}" is unknown.',
                    f'Add a record "{source}" to sources.csv, or correct the spelling.',
                )
            if obtained != "assumed" and not source:
                raise self.fault(
                    index,
                    f'the figure is "{obtained}" but names no source.',
                    'Name the source, or say "assumed" and why.',
                )
            if obtained == "assumed" and not note:
                raise self.fault(
                    index, "an assumed figure gives no reason.", "Say why in the note."
                )

    def rows(self) -> tuple[Any, ...]:
        """The rows, in the order of the file, held against the rules between their cells."""
        values = [column for name, column in self.columns.items() if name not in PROVENANCE]
        if "obtained" in self.columns:
            origins = self.joined(PROVENANCE)
            known = {parts: Provenance(*parts) for parts in dict.fromkeys(origins)}
            values.append(list(map(known.__getitem__, origins)))
        else:
            values = list(self.columns.values())  # a source, or a food with a note of its own
        rows = tuple(map(self.form.row, *values))
        for says, holds in self.form.rules:
            for index, row in enumerate(rows):
                if not holds(row):
                    raise self.fault(index, f"this must hold: {says}.", "Correct the row.")
        return rows


def _column(form: Form, name: str, cell: Cell, texts: Iterable[str]) -> list[Any]:
    texts = list(texts)
    known: dict[str, Any] = {}
    for text in dict.fromkeys(texts):  # most cells repeat: read each text once
        try:
            known[text] = cell.read(text)
        except (ValueError, KeyError) as error:
            raise TableError(
                f'"{name}" is "{text}", allowed is {cell.allowed}.',
                remedy="Correct the cell; no blanks before or after it.",
                file=form.file,
                line=texts.index(text) + FIRST_LINE,
            ) from error
    return list(map(known.__getitem__, texts))


def _check_factors(sheets: Mapping[str, _Sheet]) -> None:
    """Hold all that names a factor against the factors, which stand in several files."""
    means: dict[tuple[str, str], float] = {}
    for name in ("factors_global", "factors_literature", "factors_national"):
        sheet = sheets[name]
        means |= zip(sheet.joined(("set", "item")), sheet.columns["mean"], strict=True)
    mixed = set(sheets["mixtures"].joined(("set", "name")))
    for name, known in (
        ("mixtures", means.keys()),
        ("factor_stages", means.keys()),
        ("factor_shapes", means.keys()),
        ("links", means.keys() | mixed),
    ):
        sheet = sheets[name]
        for index, key in enumerate(sheet.joined(("set", "item"))):
            if key not in known:
                raise sheet.fault(
                    index,
                    f'the {key[0]} set has no factor "{key[1]}".',
                    f"Add it to factors_{key[0]}.csv, or correct the spelling.",
                )
    _check_sums(
        sheets["mixtures"],
        zip(
            sheets["mixtures"].joined(("set", "name")),
            sheets["mixtures"].columns["share"],
            strict=True,
        ),
        dict.fromkeys(mixed, 1.0),
        "the shares of the mixture",
    )
    stages = sheets["factor_stages"]
    _check_sums(
        stages,
        zip(stages.joined(("set", "item")), stages.columns["mean"], strict=True),
        means,
        "the stages of the factor",
    )


def _check_sums(
    sheet: _Sheet,
    parts: Iterable[tuple[tuple[str, str], float]],
    wholes: Mapping[tuple[str, str], float],
    what: str,
) -> None:
    sums: defaultdict[tuple[str, str], float] = defaultdict(float)
    last: dict[tuple[str, str], int] = {}
    for index, (key, part) in enumerate(parts):
        sums[key] += part
        last[key] = index
    for key, total in sums.items():
        if abs(total - wholes[key]) > SUM_TOLERANCE:
            raise sheet.fault(
                last[key],
                f'{what} "{key[1]}" sum to {total:.6g}, not to {wholes[key]:.6g}.',
                "Correct the parts.",
            )


def _indexed(rows: Iterable[Row], key: Callable[[Row], Key]) -> dict[Key, Row]:
    return {key(row): row for row in rows}


def _grouped(rows: Iterable[Row], key: Callable[[Row], Key]) -> dict[Key, tuple[Row, ...]]:
    groups: defaultdict[Key, list[Row]] = defaultdict(list)
    for row in rows:
        groups[key(row)].append(row)
    return {name: tuple(group) for name, group in groups.items()}
