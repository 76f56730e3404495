"""Rows made when they are asked for, from tables that are known to have passed every check.

A kitchen asks for a score of the thousand foods. To find a row takes the first cells of its line;
the rest of the line is read when its key is asked for, and once.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from itertools import starmap
from typing import TYPE_CHECKING, Any

from counterproof.adapters.cells import cells
from counterproof.adapters.form import PROVENANCE
from counterproof.rows import Provenance

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from counterproof.adapters.form import Form


def lines_of(content: bytes) -> list[str]:
    """The lines of a table below its heading.

    Parameters
    ----------
    content : bytes
        Its file; no cell holds a line end.

    Returns
    -------
    list of str
        One for each row.
    """
    return content.decode("utf-8").split("\n")[1:-1]


def row_maker(form: Form) -> Callable[[Iterable[str]], tuple[Any, ...]]:
    """How lines of a table become rows.

    Parameters
    ----------
    form : Form
        The table.

    Returns
    -------
    callable
        Takes lines, gives as many rows of the form's class.
    """
    expected = cells(form)
    # A text is what it says already; the other cells are read from theirs.
    reads = [
        (place, cell.read) for place, cell in enumerate(expected.values()) if cell.kind != "string"
    ]
    row, told = form.row, -len(PROVENANCE) if "obtained" in expected else None
    if told is None and not reads:
        return lambda lines: tuple(starmap(row, csv.reader(lines)))

    def made(texts: list[Any]) -> Any:
        for place, read in reads:
            texts[place] = read(texts[place])
        return row(*texts) if told is None else row(*texts[:told], Provenance(*texts[told:]))

    return lambda lines: tuple(map(made, csv.reader(lines)))


class RowsAsAsked(Mapping[Any, Any]):
    """Rows by the first cells of their lines: one for each key, or all that share it."""

    __slots__ = ("_lines", "_made", "_make", "_one")

    def __init__(self, form: Form, lines: Sequence[str], *, width: int, one: bool) -> None:
        self._make = row_maker(form)
        self._one = one
        self._made: dict[Any, Any] = {}
        self._lines: dict[Any, list[str]] = {}
        held = self._lines
        for key, line in zip(map(_FIRST[width], lines), lines, strict=True):
            if key in held:
                held[key].append(line)
            else:
                held[key] = [line]

    def __getitem__(self, key: Any) -> Any:
        made = self._made.get(key)
        if made is None:
            rows = self._make(self._lines[key])
            made = self._made[key] = rows[0] if self._one else rows
        return made

    def get(self, key: Any, default: Any = None) -> Any:
        """What stands under a key.

        Parameters
        ----------
        key : object
            Text, or a tuple of texts.
        default : object
            What else.

        Returns
        -------
        object
            A row, or a tuple of rows; the default where the key is not known.
        """
        made = self._made.get(key)
        if made is not None:
            return made
        return self[key] if key in self._lines else default

    def __contains__(self, key: object) -> bool:
        return key in self._lines

    def __iter__(self) -> Iterator[Any]:
        return iter(self._lines)

    def __len__(self) -> int:
        return len(self._lines)


def _first(line: str) -> str:
    return line.partition(",")[0] if line[0] != '"' else _cells(line)[0]


def _first_two(line: str) -> tuple[str, str]:
    one, two, _ = line.split(",", 2)
    if '"' in one or '"' in two:
        one, two, *_ = _cells(line)
    return one, two


def _cells(line: str) -> list[str]:
    return next(csv.reader([line]))


_FIRST: dict[int, Callable[[str], Any]] = {1: _first, 2: _first_two}
