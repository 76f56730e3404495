"""What a person asks of batches, one function a question: weigh in, record, scale."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from counterproof.batch.beside import Balance, Row, Scatter, balance_of, rows_of, scatter_of
from counterproof.batch.corrections import Correction, Evidence, corrections_of
from counterproof.batch.courses import cooling_of, heating_of
from counterproof.batch.facts import in_the_pot, made_of, servings_of
from counterproof.batch.fits import CoolingFit, HeatingFit
from counterproof.batch.made import Made
from counterproof.batch.planned import planned_figures, planned_lines
from counterproof.batch.ranges import mass_of_line
from counterproof.batch.reasons import reasons_of, steam_without_lid
from counterproof.batch.remade import plan_as_made, reading_as_made
from counterproof.batch.weigh_in import weigh_in
from counterproof.batch.weighed import WeighIn
from counterproof.draws import Range, Streams
from counterproof.footprint.assess import assess
from counterproof.physics.answer import printed
from counterproof.plan.planning import plan_of
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.use_cases import Order, Workbench, mark


@dataclass(frozen=True)
class WeighedRecipe:
    """A recipe at the scale: what was understood by eye, and what was weighed.

    Parameters
    ----------
    reading : Reading
        The recipe as understood before.
    weighing : WeighIn
        What the scale said.
    by_eye : mapping of int to Range
        What each line was taken to weigh, by its number. [kg]
    kitchen : Kitchen
        With the vessels' empty weights.
    """

    reading: Reading
    weighing: WeighIn
    by_eye: Mapping[int, Range]
    kitchen: Kitchen

    def after(self, text: str) -> WeighedRecipe:
        """Return the same recipe after a longer weigh-in.

        Parameters
        ----------
        text : str
            The weigh-in so far.

        Returns
        -------
        WeighedRecipe
            Read anew from the text.
        """
        return replace(self, weighing=weigh_in(text, self.reading.lines, self.kitchen))

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        document = self.weighing.to_dict()
        text = {line.written.number: line.written.text for line in self.reading.lines}
        for line in document["lines"]:
            number = line["number"]
            before = self.by_eye.get(number)
            line["as_written"] = text.get(number)
            line["by_eye_kg"] = None if before is None else before.to_dict()
        return {"title": self.reading.recipe.title, **document}


def weighed_recipe(
    order: Order, bench: Workbench, streams: Streams, text: str, *, first: int = 1
) -> WeighedRecipe:
    """A weigh-in beside the recipe it belongs to.

    Parameters
    ----------
    order : Order
        The recipe and its kitchen.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed and number of draws.
    text : str
        The weigh-in so far.
    first : int
        Number of its first line, for messages.

    Returns
    -------
    WeighedRecipe
        What was weighed, and what it was taken to be by eye.
    """
    reading = mark(order, bench)
    by_eye = {
        line.written.number: range_
        for line in reading.lines
        if (range_ := mass_of_line(line, streams)) is not None
    }
    found = weigh_in(text, reading.lines, order.kitchen, first=first)
    return WeighedRecipe(reading, found, by_eye, order.kitchen)


@dataclass(frozen=True)
class Batch:
    """One batch, worked out.

    Parameters
    ----------
    made : Made
        What was measured.
    rows : tuple of Row
        Plan beside fact.
    balance : Balance or None
        Where the mass went.
    heating : HeatingFit or None
        How strong the ring was.
    cooling : CoolingFit or None
        How fast it cooled, and what the rules leave.
    planned, as_made : Range
        One serving's footprint as planned, and as it was made. [kg CO2e]
    reasons : tuple of str
        What accounts for the differences that matter.
    """

    made: Made
    rows: tuple[Row, ...]
    balance: Balance | None
    heating: HeatingFit | None
    cooling: CoolingFit | None
    planned: Range
    as_made: Range
    reasons: tuple[str, ...] = ()

    @property
    def needs_attention(self) -> bool:
        """Whether a figure lies beyond the plan, a rule is not kept, or a line is not counted."""
        return (
            any(row.ruling == "beyond the plan" for row in self.rows)
            or (self.cooling is not None and self.cooling.needed)
            or any(one.level != "note" for _, one in self.made.marks)
        )

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            **self.made.to_dict(),
            "beside": [row.to_dict() for row in self.rows],
            "balance": None if self.balance is None else self.balance.to_dict(),
            "heating": None if self.heating is None else self.heating.to_dict(),
            "cooling": None if self.cooling is None else self.cooling.to_dict(),
            "reasons": list(self.reasons),
            "serving_planned_kgco2e": self.planned.to_dict(),
            "serving_as_made_kgco2e": self.as_made.to_dict(),
            "marks": [{"at": at, **one.to_dict()} for at, one in self.made.marks],
        }


@dataclass(frozen=True)
class Recorded:
    """A recipe's batches beside its plan.

    Parameters
    ----------
    reading : Reading
        The recipe as written.
    batches : tuple of Batch
        The oldest first.
    scatter : tuple of Scatter
        Means and scatter over all of them, at the recipe's own size.
    corrections : tuple of Correction
        What is offered.
    evidence : Evidence
        What they are drawn from.
    """

    reading: Reading
    batches: tuple[Batch, ...]
    scatter: tuple[Scatter, ...]
    corrections: tuple[Correction, ...]
    evidence: Evidence

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        document: dict[str, Any] = {
            "title": self.reading.recipe.title,
            "serves": self.reading.serves,
            "batches": [batch.to_dict() for batch in self.batches],
            "over_batches": [one.to_dict() for one in self.scatter],
            "corrections": [one.to_dict() for one in self.corrections],
        }
        finite: dict[str, Any] = printed(document)
        return finite


@dataclass(frozen=True, slots=True)
class Written:
    """A batch file as it lies there: its name, its day, its text."""

    file: str
    day: str
    text: str


def recorded(
    order: Order, bench: Workbench, streams: Streams, files: Sequence[Written]
) -> Recorded:
    """Plan beside fact, for one batch or several.

    Parameters
    ----------
    order : Order
        The recipe and its kitchen.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    files : sequence of Written
        The batch files, the oldest first.

    Returns
    -------
    Recorded
        Each batch, all of them together, and the corrections they speak for.
    """
    reading = mark(order, bench)
    batches = tuple(_batch(order, bench, streams, one, reading.serves) for one in files)
    shares = [batch.made.serves / reading.serves for batch in batches]
    scatter = scatter_of([batch.rows for batch in batches], shares)
    evidence = Evidence(
        reading,
        [batch.made for batch in batches],
        [batch.rows for batch in batches],
        scatter,
        [batch.heating for batch in batches if batch.heating is not None],
    )
    return Recorded(reading, batches, scatter, corrections_of(evidence), evidence)


def _batch(order: Order, bench: Workbench, streams: Streams, one: Written, written: float) -> Batch:
    serves = servings_of(one.text, written)
    reading = mark(replace(order, serves=serves), bench)
    plan = plan_of(reading, bench.tables)
    made = made_of(one.text, reading, one.day, one.file)
    lines = planned_lines(reading, streams)
    rows = rows_of(made, reading, lines, planned_figures(reading, plan, bench.tables, streams))
    really = reading_as_made(reading, made)
    done = plan_as_made(plan_of(really, bench.tables), really, made)
    before = assess(reading, bench.tables, plan, streams=streams)
    after = assess(really, bench.tables, done, streams=streams)
    heating = heating_of(made, really, bench.tables)
    kept = made.figures.get("simmering_s")
    open_pot = None if kept is None else steam_without_lid(really, bench.tables, kept.value)
    return Batch(
        made,
        rows,
        balance_of(made, in_the_pot(reading)),
        heating,
        cooling_of(made, really, done, bench.tables),
        before.serving,
        after.serving,
        reasons_of(rows, open_pot, heating, order.kitchen.hob_watts),
    )
