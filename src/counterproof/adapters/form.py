"""What a data table is to the loader: its file, its rows, the rules its cells obey."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

PROVENANCE = ("source", "locator", "obtained", "note")
"""Columns that a field `provenance` of a row stands for."""


@dataclass(frozen=True, slots=True)
class Limits:
    """The numbers a column may hold: `low` and `high` belong to it unless `above` is given."""

    low: float | None = None
    high: float | None = None
    above: float | None = None  # strictly above

    def hold(self, number: float) -> bool:
        """Whether the number is one of them.

        Parameters
        ----------
        number : float
            The value of a cell. [the column's own unit]

        Returns
        -------
        bool
            True where no limit is broken.
        """
        return (
            (self.low is None or number >= self.low)
            and (self.high is None or number <= self.high)
            and (self.above is None or number > self.above)
        )

    def __str__(self) -> str:
        parts = (
            f"above {self.above:g}" if self.above is not None else "",
            f"at least {self.low:g}" if self.low is not None else "",
            f"at most {self.high:g}" if self.high is not None else "",
        )
        return " and ".join(part for part in parts if part)


POSITIVE = Limits(above=0)
PER_100_G = Limits(low=0, high=100)
MONTH = Limits(low=1, high=12)
SPREAD = Limits(low=1)  # a geometric standard deviation


@dataclass(frozen=True, slots=True)
class Form:
    """One table: what it is, what its rows are, and what must hold in it.

    Parameters
    ----------
    file : str
        Name in the data folder.
    row : type
        The row class of `rows.py` it makes.
    title : str
        What the table says, in one line.
    key : tuple of str
        Columns that together name a row; no two rows share them.
    refers : mapping
        Column → "table.column" it must be found in.
    limits : mapping
        Column → the numbers it may hold.
    closed : mapping
        Column → the words it may hold, where the row's type leaves them open.
    filled : tuple of str
        Columns of text that may not be empty.
    rules : tuple
        (what must hold between the cells of a row, the check) pairs.
    """

    file: str
    row: type[Any]
    title: str
    key: tuple[str, ...]
    refers: Mapping[str, str] = field(default_factory=dict)
    limits: Mapping[str, Limits] = field(default_factory=dict)
    closed: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    filled: tuple[str, ...] = ()
    rules: tuple[tuple[str, Callable[[Any], bool]], ...] = ()

    @property
    def name(self) -> str:
        """The file's name without its ending."""
        return self.file.removesuffix(".csv")
