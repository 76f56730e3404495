"""What a cell of a data table may hold: one small reader for each type a row's field can have."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Literal, cast, get_args, get_origin, get_type_hints

from counterproof.rows import Provenance

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable

    from counterproof.adapters.form import Form


@dataclass(frozen=True, slots=True)
class Cell:
    """What the cells of one column may hold: how they are read, and how that is said."""

    read: Callable[[str], Any]
    kind: Literal["string", "number", "integer", "boolean"]
    needed: bool
    words: tuple[str, ...] = ()

    @property
    def allowed(self) -> str:
        """What a cell may hold, for people."""
        if self.words:
            return "one of: " + ", ".join(word or "(nothing)" for word in self.words)
        noun = {"number": "a number", "integer": "a whole number", "boolean": "true or false"}
        return noun.get(self.kind, "text") + ("" if self.needed else ", or nothing")


def _number(text: str) -> float:
    number = float(text)
    if not math.isfinite(number):
        raise ValueError(text)
    return number


def _text(text: str) -> str:
    if text != text.strip():
        raise ValueError(text)
    return text


def _chosen(words: tuple[str, ...]) -> Cell:
    by_word = {word: word for word in words}
    return Cell(by_word.__getitem__, "string", needed="" not in words, words=words)


_CELLS: dict[Any, Cell] = {
    str: Cell(_text, "string", needed=False),
    float: Cell(_number, "number", needed=True),
    float | None: Cell(lambda text: _number(text) if text else None, "number", needed=False),
    int: Cell(int, "integer", needed=True),
    int | None: Cell(lambda text: int(text) if text else None, "integer", needed=False),
    bool: Cell({"true": True, "false": False}.__getitem__, "boolean", needed=True),
}


@cache  # one entry for each class of rows; to evaluate type hints takes long
def _typed_cells(row: Hashable) -> dict[str, Cell]:
    hints = get_type_hints(cast("type[Any]", row))
    cells: dict[str, Cell] = {}
    for name, hint in hints.items():
        if hint is Provenance:
            cells |= _typed_cells(Provenance)
        else:
            words = get_args(hint) if get_origin(hint) is Literal else ()
            cells[name] = _chosen(words) if words else _CELLS[hint]
    return cells


def cells(form: Form) -> dict[str, Cell]:
    """What each column of a table may hold, in the order of the columns.

    Parameters
    ----------
    form : Form
        The table.

    Returns
    -------
    dict
        Column → Cell.
    """
    closed = {column: _chosen(words) for column, words in form.closed.items()}
    return {
        column: closed.get(column, cell)
        for column, cell in _typed_cells(cast("Hashable", form.row)).items()
    }
