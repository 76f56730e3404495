"""What a person asks of batches, one function a question: weigh in, record, scale."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from counterproof.batch.ranges import mass_of_line
from counterproof.batch.weigh_in import WeighIn, weigh_in
from counterproof.draws import Range, Streams
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
