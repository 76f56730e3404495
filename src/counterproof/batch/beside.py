"""Plan beside fact: what was expected of a batch, what was measured, and which differences matter.

A difference matters where what was measured, with its own range, lies outside the plan's: from
the 5th to the 95th percentile.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Any, Final, Literal

from counterproof.batch.made import Made, Measured
from counterproof.draws import Range
from counterproof.reading.model import Reading

Ruling = Literal["as planned", "beyond the plan", "not planned"]
Unit = Literal["kg", "m³", "s", "kWh", "°Bx"]

FIGURES: Final[tuple[tuple[str, str, Unit], ...]] = (
    ("weighed_in", "weighed in", "kg"),
    ("heating_s", "to the boil", "s"),
    ("simmering_s", "kept hot", "s"),
    ("steam", "boiled off", "kg"),
    ("pulp", "left in the sieve", "kg"),
    ("liquid", "ran through the sieve", "kg"),
    ("made_kg", "made", "kg"),
    ("made_m3", "made", "m³"),
    ("brix", "sugar (Brix)", "°Bx"),
    ("brix_of_juice", "sugar in the juice (Brix)", "°Bx"),
    ("energy_kwh", "electricity", "kWh"),
)
"""Figures of a batch in the order they are shown, with their unit."""
_KEYS: Final[dict[str, tuple[str, float]]] = {
    "kg": ("kg", 1.0), "m³": ("litres", 1000.0), "s": ("s", 1.0), "kWh": ("kwh", 1.0),
    "°Bx": ("brix", 1.0),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Row:
    """One figure, planned and measured.

    Parameters
    ----------
    name : str
        Of `FIGURES`, or "line 3".
    called : str
        In words.
    unit : Unit
        Of both.
    planned : Range or None
        What was expected. [unit]
    measured : Measured
        What was found. [unit]
    number : int or None
        Number of the recipe line, where it is one.
    """

    name: str
    called: str
    unit: Unit
    planned: Range | None
    measured: Measured
    number: int | None = None

    @property
    def ruling(self) -> Ruling:
        """Whether it matters."""
        if self.planned is None:
            return "not planned"
        low, high = (
            self.measured.value - self.measured.half,
            self.measured.value + self.measured.half,
        )
        outside = high < self.planned.p05 or low > self.planned.p95
        return "beyond the plan" if outside else "as planned"

    @property
    def ratio(self) -> float | None:
        """Measured over planned. [1]"""
        if self.planned is None or self.planned.mean <= 0.0:
            return None
        return self.measured.value / self.planned.mean

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        key, per = _KEYS[self.unit]
        return {
            "what": self.name,
            "called": self.called,
            "number": self.number,
            f"planned_{key}": None if self.planned is None else self.planned.scaled(per).to_dict(),
            f"measured_{key}": per * self.measured.value,
            f"give_or_take_{key}": per * self.measured.half,
            "verdict": self.ruling,
            "of_planned": self.ratio,
        }


@dataclass(frozen=True, slots=True)
class Balance:
    """Where the mass went: in, and out as steam, pulp and liquid.

    Parameters
    ----------
    put_in : Measured
        What was in the pot. [kg]
    out : mapping of str to Measured
        By where it went. [kg]
    """

    put_in: Measured
    out: Mapping[str, Measured]

    @property
    def missing(self) -> float:
        """What no reading accounts for: what clings to cloth, spoon and pot. [kg]"""
        return self.put_in.value - sum(one.value for one in self.out.values())

    @property
    def half(self) -> float:
        """Half the width of its range, all readings independent. [kg]"""
        return sqrt(sum(one.half**2 for one in (self.put_in, *self.out.values())))

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "in_kg": self.put_in.value,
            "out_kg": {name: one.value for name, one in self.out.items()},
            "missing_kg": self.missing,
            "give_or_take_kg": self.half,
        }


def rows_of(
    made: Made, reading: Reading, lines: Mapping[int, Range], figures: Mapping[str, Range]
) -> tuple[Row, ...]:
    """Every figure of a batch that was measured, beside what was planned.

    Parameters
    ----------
    made : Made
        The batch.
    reading : Reading
        The recipe as understood, at the batch's servings.
    lines, figures : mapping
        What was planned, as `planned` tells it.

    Returns
    -------
    tuple of Row
        The lines first, in the recipe's order.
    """
    rows = [
        Row(f"line {number}", line.split.name or line.written.text, "kg", lines.get(number),
            made.lines[number], number)
        for line in reading.lines
        if (number := line.written.number) in made.lines
    ]  # fmt: skip
    for name, called, unit in FIGURES:
        if name in made.figures:
            rows.append(Row(name, called, unit, figures.get(name), made.figures[name]))
    return tuple(rows)


def balance_of(made: Made, in_pot: Sequence[int]) -> Balance | None:
    """Where the mass of what was cooked went.

    Parameters
    ----------
    made : Made
        The batch.
    in_pot : sequence of int
        Numbers of the lines that were cooked and strained.

    Returns
    -------
    Balance or None
        None where something that went in or came out was not weighed.
    """
    put_in = _put_in(made, in_pot)
    if put_in is None:
        return None
    out = {name: made.figures[name] for name in ("steam", "pulp", "liquid") if name in made.figures}
    if "liquid" not in out:
        return None
    return Balance(put_in, out)


def _put_in(made: Made, in_pot: Sequence[int]) -> Measured | None:
    """What was in the pot: as the scale under it said before it boiled, else line by line."""
    lost = made.weighing.lost if made.weighing is not None else ()
    if lost:
        first = lost[0]
        return Measured(first.held, first.half, first.at)
    parts = [made.lines[number] for number in in_pot if number in made.lines]
    if not parts or len(parts) < len(in_pot):
        return None
    return Measured(sum(one.value for one in parts), sum(one.half for one in parts), parts[-1].at)


@dataclass(frozen=True, slots=True)
class Scatter:
    """One figure over several batches.

    Parameters
    ----------
    name, called : str
        As in `Row`.
    unit : Unit
        Its unit.
    planned : Range or None
        What was expected. [unit]
    values : tuple of float
        One a batch that measured it. [unit]
    number : int or None
        Number of the recipe line.
    """

    name: str
    called: str
    unit: Unit
    planned: Range | None
    values: tuple[float, ...]
    number: int | None = None

    @property
    def mean(self) -> float:
        """Of all batches. [unit]"""
        return sum(self.values) / len(self.values)

    @property
    def deviation(self) -> float | None:
        """Standard deviation of one batch; None from a single one. [unit]"""
        if len(self.values) < 2:
            return None
        return sqrt(sum((value - self.mean) ** 2 for value in self.values) / (len(self.values) - 1))

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        key, per = _KEYS[self.unit]
        deviation = self.deviation
        return {
            "what": self.name,
            "called": self.called,
            "number": self.number,
            "batches": len(self.values),
            f"planned_{key}": None if self.planned is None else self.planned.scaled(per).to_dict(),
            f"mean_{key}": per * self.mean,
            f"standard_deviation_{key}": None if deviation is None else per * deviation,
        }


def scatter_of(batches: Sequence[tuple[Row, ...]], shares: Sequence[float]) -> tuple[Scatter, ...]:
    """Means and scatter of several batches, each brought to the recipe's own size.

    Parameters
    ----------
    batches : sequence of tuple of Row
        The rows of each batch.
    shares : sequence of float
        Of each batch, how many times the recipe it was. [1]

    Returns
    -------
    tuple of Scatter
        In the order of the first batch that has each.
    """
    found: dict[str, list[tuple[Row, float]]] = {}
    for rows, share in zip(batches, shares, strict=True):
        for row in rows:
            found.setdefault(row.name, []).append((row, share))
    made = []
    for name, pairs in found.items():
        row, share = pairs[0]
        extensive = row.unit in {"kg", "m³"}
        values = tuple(one.measured.value / (times if extensive else 1.0) for one, times in pairs)
        planned = row.planned
        if planned is not None and extensive and share != 1.0:
            planned = planned.scaled(1.0 / share)
        made.append(Scatter(name, row.called, row.unit, planned, values, row.number))
    order = {name: at for at, (name, _, _) in enumerate(FIGURES)}
    made.sort(key=lambda one: (one.number is None, one.number or 0, order.get(one.name, 0)))
    return tuple(made)
