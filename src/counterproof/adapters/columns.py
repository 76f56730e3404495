"""A data table read by columns, and held against its form: one way of checking for every table.

The tables that ship with the package and a cook's own table are checked by the same code; only
the place that a fault names differs.
"""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from counterproof.adapters.cells import Cell, cells
from counterproof.adapters.form import PROVENANCE, Form
from counterproof.errors import TableError
from counterproof.rows import Provenance

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

FIRST_LINE = 2  # the heading is line 1
Place = tuple[str, int]
"""A file and a line in it."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A table read by columns: quicker than by rows, and a rule sees a whole column at once.

    `places` says where each row stands; without it they stand in the form's file, one a line.
    """

    form: Form
    columns: dict[str, list[Any]]
    places: tuple[Place, ...] = ()

    @classmethod
    def read(cls, form: Form, content: bytes) -> Sheet:
        """Read a table's columns, each cell turned into what its type says.

        Parameters
        ----------
        form : Form
            The table.
        content : bytes
            Its file.

        Returns
        -------
        Sheet
            Not yet checked beyond its cells.

        Raises
        ------
        TableError
            If it is no such table, or a cell is not what its column may hold.
        """
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
        if set(map(len, lines)) <= {len(heading)}:
            return cls.of_cells(form, lines)
        number, line = next(
            (number, line)
            for number, line in enumerate(lines, FIRST_LINE)
            if len(line) != len(heading)
        )
        raise TableError(
            f"the row has {len(line)} cells, the heading has {len(heading)}.",
            remedy="Put a cell that holds a comma between double quotes; leave no line empty.",
            file=form.file,
            line=number,
        )

    @classmethod
    def of_cells(
        cls, form: Form, lines: Sequence[Sequence[str]], places: tuple[Place, ...] = ()
    ) -> Sheet:
        """Turn rows of text cells into columns.

        Parameters
        ----------
        form : Form
            The table.
        lines : sequence of sequence of str
            A text for every column of the form, row by row.
        places : tuple of Place
            Where each row stands, if not in the form's file.

        Returns
        -------
        Sheet
            Not yet checked beyond its cells.

        Raises
        ------
        TableError
            If a cell is not what its column may hold.
        """
        expected = cells(form)
        turned = zip(*lines, strict=True) if lines else ((),) * len(expected)
        bare = cls(form, {}, places)
        columns = {
            name: bare.column(name, cell, texts)
            for (name, cell), texts in zip(expected.items(), turned, strict=True)
        }
        return cls(form, columns, places)

    def column(self, name: str, cell: Cell, texts: Iterable[str]) -> list[Any]:
        """Read the cells of one column.

        Parameters
        ----------
        name : str
            The column.
        cell : Cell
            What its cells may hold.
        texts : iterable of str
            The cells as written.

        Returns
        -------
        list
            Their values.
        """
        texts = list(texts)
        if cell.kind == "string" and not cell.words and list(map(str.strip, texts)) == texts:
            return texts
        known: dict[str, Any] = {}
        for text in dict.fromkeys(texts):  # most cells repeat: read each text once
            try:
                known[text] = cell.read(text)
            except (ValueError, KeyError) as error:
                raise self.fault(
                    texts.index(text),
                    f'"{name}" is "{text}", allowed is {cell.allowed}.',
                    "Correct the cell; no blanks before or after it.",
                ) from error
        return list(map(known.__getitem__, texts))

    def place(self, index: int) -> Place:
        """Where a row stands.

        Parameters
        ----------
        index : int
            The row, counted from 0.

        Returns
        -------
        Place
            File and line.
        """
        return self.places[index] if self.places else (self.form.file, index + FIRST_LINE)

    def fault(self, index: int, message: str, remedy: str) -> TableError:
        """A rule broken in a row.

        Parameters
        ----------
        index : int
            The row, counted from 0.
        message, remedy : str
            What was found, and what to do.

        Returns
        -------
        TableError
            To be raised.
        """
        file, line = self.place(index)
        return TableError(message, remedy=remedy, file=file, line=line)

    def under(self, own: Sheet) -> Sheet:
        """These rows with another sheet's rows in their place, or added to them.

        Parameters
        ----------
        own : Sheet
            Rows of the same form.

        Returns
        -------
        Sheet
            Rows of the same key replaced, the others added at the end.
        """
        replaced = set(own.joined(self.form.key))
        kept = [at for at, key in enumerate(self.joined(self.form.key)) if key not in replaced]
        return Sheet(
            self.form,
            {
                name: [*(column[at] for at in kept), *own.columns[name]]
                for name, column in self.columns.items()
            },
            (*map(self.place, kept), *map(own.place, range(len(own)))),
        )

    def without(self, names: tuple[str, ...], keys: set[Any]) -> Sheet:
        """These rows without those of some keys.

        Parameters
        ----------
        names : tuple of str
            Columns the keys are made of.
        keys : set
            What is left out.

        Returns
        -------
        Sheet
            The other rows, in their order.
        """
        kept = [at for at, key in enumerate(self.joined(names)) if key not in keys]
        columns = {name: [column[at] for at in kept] for name, column in self.columns.items()}
        return Sheet(self.form, columns, tuple(map(self.place, kept)))

    def __len__(self) -> int:
        return len(next(iter(self.columns.values())))

    def joined(self, names: Iterable[str]) -> list[Any]:
        """The values of some columns, row by row.

        Parameters
        ----------
        names : iterable of str
            The columns.

        Returns
        -------
        list
            Bare values for one column, tuples for several.
        """
        picked = [self.columns[name] for name in names]
        return picked[0] if len(picked) == 1 else list(zip(*picked, strict=True))

    def check(self, sheets: Mapping[str, Sheet]) -> None:
        """Hold every row against the table's form.

        Parameters
        ----------
        sheets : mapping
            All tables by name, for what one says of another.

        Raises
        ------
        TableError
            If a row breaks a rule.
        """
        self.check_key()
        self._check_numbers()
        self._check_references(sheets)
        if "obtained" in self.columns:
            self._check_provenance(set(sheets["sources"].columns["id"]))

    def check_key(self) -> None:
        """Hold that no two rows share a key.

        Raises
        ------
        TableError
            If two do; it names the later one.
        """
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
                    f"{self.place(first[key])[1]}.",
                    "Keep one of the two.",
                )
            first[key] = index

    def _check_numbers(self) -> None:
        for name in self.form.filled:
            if "" in self.columns[name]:
                raise self.fault(self.columns[name].index(""), f'"{name}" is empty.', "Fill it in.")
        for name, limits in self.form.limits.items():
            column = self.columns[name]
            wrong = {n for n in set(column) if n is not None and not limits.hold(n)}
            if wrong:
                index = next(at for at, number in enumerate(column) if number in wrong)
                raise self.fault(
                    index,
                    f'"{name}" is {column[index]:g}, allowed is {limits}.',
                    "Correct the number.",
                )

    def _check_references(self, sheets: Mapping[str, Sheet]) -> None:
        for name, target in self.form.refers.items():
            table, column = target.split(".")
            known = set(sheets[table].columns[column])
            missing = set(self.columns[name]) - known
            if missing:
                index = next(at for at, v in enumerate(self.columns[name]) if v in missing)
                value = self.columns[name][index]
                raise self.fault(
                    index,
                    f'"{name}" says "{value}", which is not in the table {table}.',
                    f'Add a row "{value}" to {table}, or correct the spelling.',
                )

    def _check_provenance(self, sources: set[str]) -> None:
        rows = self.joined(("source", "obtained", "note"))
        for parts in dict.fromkeys(rows):  # most repeat; in the order of the file
            source, obtained, note = parts
            if source and source not in sources:
                raise self.fault(
                    rows.index(parts),
                    f'the source "{source}" is unknown.',
                    f'Add a record "{source}" to sources, or correct the spelling.',
                )
            if obtained != "assumed" and not source:
                raise self.fault(
                    rows.index(parts),
                    f'the figure is "{obtained}" but names no source.',
                    'Name the source, or say "assumed" and why.',
                )
            if obtained == "assumed" and not note:
                raise self.fault(
                    rows.index(parts), "an assumed figure gives no reason.", "Say why in the note."
                )

    def rows(self) -> tuple[Any, ...]:
        """The rows, in the order of the file, held against the rules between their cells.

        Returns
        -------
        tuple
            Rows of the form's class.

        Raises
        ------
        TableError
            If a row breaks a rule.
        """
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
