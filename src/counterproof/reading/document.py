"""The reading as the JSON document that `mark` prints (contracts page, JSON, `mark`)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from counterproof.draws import Range
from counterproof.reading.allergens import allergens_of_line, allergens_of_recipe

if TYPE_CHECKING:
    from counterproof.draws import Product, Streams
    from counterproof.reading.model import MarkedLine, MarkedStep, Reading
    from counterproof.rows import Tables


def mark_document(reading: Reading, tables: Tables, streams: Streams) -> dict[str, Any]:
    """The `mark` document of a reading; a line's mass is that of all its `foods` together.

    Parameters
    ----------
    reading : Reading
        A recipe as understood.
    tables : Tables
        With the allergens of each food.
    streams : Streams
        Seed and number of draws for the ranges.

    Returns
    -------
    dict
        Plain lists, dicts, texts and numbers, keys as promised in the contracts.
    """
    return {
        "title": reading.recipe.title,
        "version": None if reading.version is None else reading.version.name,
        "serves": reading.serves,
        "lines": [_line(line, tables, streams) for line in reading.lines],
        "steps": [_step(step) for step in reading.steps],
        "marks": [mark.to_dict() for mark in reading.marks],
        "allergens": allergens_of_recipe(reading, tables).to_dict(),
        "allergens_us": allergens_of_recipe(reading, tables, "us").to_dict(),
    }


def _line(line: MarkedLine, tables: Tables, streams: Streams) -> dict[str, Any]:
    found = allergens_of_line(line, tables)
    food = line.food
    return {
        "number": line.written.number,
        "as_written": line.written.text,
        "section": line.written.section,
        "quantity": None if line.quantity is None else line.quantity.to_dict(),
        "food": None
        if food is None
        else {"id": food.id, "name": food.name, "class": food.food_class, "fit": line.fit},
        "foods": [
            {
                "id": part.food.id,
                "name": part.food.name,
                "class": part.food.food_class,
                "fit": part.fit,
                "mass_kg": _range([part.mass], streams),
                "purchased_kg": _range([part.purchased], streams),
            }
            for part in line.constituents
        ],
        "certainty": line.certainty,
        "runners_up": [
            {"id": other.food.id, "name": other.food.name, "certainty": other.certainty}
            for other in line.runners_up
        ],
        "called": line.split.name,
        "prepared": line.split.preparation,
        "mass_kg": _range([part.mass for part in line.constituents], streams),
        "purchased_kg": _range([part.purchased for part in line.constituents], streams),
        "allergens": [*found.present, *found.read_the_label],
        "marks": [mark.to_dict() for mark in line.marks],
    }


def _range(products: list[Product | None], streams: Streams) -> dict[str, float] | None:
    """The range of a sum; None where a part could not be weighed, since the sum then is unknown."""
    known = [product for product in products if product is not None]
    if not known or len(known) < len(products):
        return None
    draws = sum((product.draws(streams) for product in known[1:]), known[0].draws(streams))
    return Range.of(draws, sum(product.mean for product in known)).to_dict()


def _step(step: MarkedStep) -> dict[str, Any]:
    return {
        "number": step.written.number,
        "as_written": step.written.text,
        "processes": [
            {
                "kind": process.kind,
                "minutes": None
                if process.minutes is None
                else {"low": process.minutes[0], "high": process.minutes[1]},
                "celsius": process.celsius,
                "covered": process.covered,
                "appliance": process.appliance,
            }
            for process in step.processes
        ],
        "marks": [mark.to_dict() for mark in step.marks],
    }
