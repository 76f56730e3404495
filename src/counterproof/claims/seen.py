"""A quantity as a number of things people can see, and the place in which it is seen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final, Literal

from counterproof import numerals
from counterproof.draws import Range, Streams
from counterproof.physics.values import STANDARD_PRESSURE, ZERO_CELSIUS
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Likeness, Tables

FEWEST: Final = 1.0
MOST: Final = 300.0
"""Counts that can be pictured. [1] A house choice."""

Shape = Literal["sphere", "pot", "tub", "room", "glass", "bottle", "none"]


@dataclass(frozen=True)
class Seen:
    """A quantity as a number of things people can see.

    Parameters
    ----------
    kind : str
        What the things are: balloon, stockpot, car, …
    count : Range
        How many of them. [1; km or miles where the thing is a distance]
    name, names : str
        One of them, and several.
    sentence : str
        Count and thing in a sentence, with the warning that belongs to it.
    conditions : tuple of str
        Temperature, pressure, size, region, year.
    source : str
        Source.id, or why there is none.
    warning : str
        Where it misleads; "" where it does not.
    shape : Shape
        How it is drawn.
    size : tuple of float
        Width and height. [m]
    """

    kind: str
    count: Range
    name: str
    names: str
    sentence: str
    conditions: tuple[str, ...]
    source: str
    warning: str = ""
    shape: Shape = "none"
    size: tuple[float, float] = (0.0, 0.0)

    @property
    def pictured(self) -> bool:
        """Whether the count can be pictured."""
        return FEWEST <= self.count.mean <= MOST

    @property
    def words(self) -> str:
        """Count and thing."""
        return counted(self.count, self.name, self.names)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, as contracts promise it."""
        exact = self.count.p05 == self.count.p95
        return {
            "kind": self.kind,
            "count": self.count.mean if exact else self.count.to_dict(),
            "sentence": self.sentence,
            "conditions": list(self.conditions),
            "source": self.source,
            "warning": self.warning or None,
        }


def counted(count: Range, name: str, names: str) -> str:
    """A count and what is counted, with the digits the count deserves.

    Parameters
    ----------
    count : Range
        How many. [1]
    name, names : str
        One of them, and several.

    Returns
    -------
    str
        Such as "about 27 twelve-inch balloons".
    """
    shown = numerals.shown(count, "mean", "")
    if count.mean < 1:
        return f"{shown.middle} of a {name}"
    if count.p05 == count.p95 and abs(count.mean - round(count.mean)) < _EVEN:
        return f"{count.mean:.0f} {name if round(count.mean) == 1 else names}"
    return f"about {shown.middle} {names}"


_EVEN: Final = 1e-9
"""How near a whole number a count may lie to be one. [1]"""


@dataclass(frozen=True)
class Surroundings:
    """What likenesses need to know: where it is cooked, at what temperature a gas is measured.

    Parameters
    ----------
    kitchen : Kitchen
        The cook's kitchen.
    tables : Tables
        All tables, the likenesses among them.
    streams : Streams
        Seed and number of draws.
    temperature : float
        Of the gas. [K]
    pressure : float
        Of the gas. [Pa]
    """

    kitchen: Kitchen
    tables: Tables
    streams: Streams
    temperature: float = ZERO_CELSIUS + 20.0
    pressure: float = STANDARD_PRESSURE

    def row(self, kind: str) -> Likeness | None:
        """Return the row of a kind that holds in the kitchen's region, or everywhere.

        Parameters
        ----------
        kind : str
            What the things are.

        Returns
        -------
        Likeness or None
            None where no row holds.
        """
        rows = self.tables.likenesses.get(kind, ())
        for region in (self.kitchen.region, ""):
            for row in rows:
                if row.region == region:
                    return row
        return None
