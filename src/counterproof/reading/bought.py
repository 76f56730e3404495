"""What is bought instead, read as a recipe of one line: as much of it as one serving of our own."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from counterproof.draws import Product
from counterproof.marks import Mark
from counterproof.reading.marking import read_lines
from counterproof.reading.model import Reading
from counterproof.reading.steps import read_step
from counterproof.recipe.model import Pack, Recipe, Version, WrittenLine
from counterproof.ways import Way

if TYPE_CHECKING:
    from counterproof.reading.foods import Matcher
    from counterproof.recipe.kitchen import Kitchen
    from counterproof.rows import Tables

BOUGHT: Final = "bought"
"""Name of the version that is what is bought instead."""

READY: Final = "ready-made "
"""What stands before the names of a shop's dishes in the table of names."""


HOT: Final = "ready meals"
"""Class of foods that are eaten hot."""


def _warming(words: str) -> WrittenLine:
    """How a dish is made hot, as a step of a method."""
    does = "Bake it" if "oven" in words.casefold() else "Heat it through"
    return WrittenLine(1, f"{does} {words}.")


def bought_reading(
    recipe: Recipe,
    tables: Tables,
    matcher: Matcher,
    kitchen: Kitchen,
    kg: float,
    *,
    name: str = BOUGHT,
) -> Reading:
    """The bought alternative of a recipe, one serving of it.

    Parameters
    ----------
    recipe : Recipe
        Whose `bought` it is; it must have one.
    tables : Tables
        All tables.
    matcher : Matcher
        Built from the same tables.
    kitchen : Kitchen
        Its region, or the one that `bought` names, in place already.
    kg : float
        Mass of one serving of the recipe: as much is bought. [kg]
    name : str
        Of the version that it is.

    Returns
    -------
    Reading
        One line, one serving, its pack as stated; its purchases are its own.
    """
    bought = recipe.bought
    if bought is None:
        raise ValueError("the recipe names no bought alternative")  # use cases ask first
    ready = f"{READY}{bought.what}"
    called = ready if matcher.knows(ready) else bought.what
    written = WrittenLine(1, bought.what)
    (line,) = read_lines(
        (WrittenLine(1, f"{1000 * kg:.6g} g {called}"),),
        tables,
        matcher,
        region=recipe.measures or "",
    )
    # What is bought is as much as the serving it is set against: a reference flow, exact.
    mass = None if line.food is None else Product(kg)
    way = (Way("as much as", kg, "kg"),)
    line = replace(line, written=written, mass=mass, purchased=mass, also=(), way=way)
    steps = () if bought.warmed is None else (_warming(bought.warmed),)
    pack = () if bought.container is None else (Pack(bought.container),)
    alternative = Recipe(
        title=bought.what,
        lines=(written,),
        steps=steps,
        serves=(1.0, 1.0),
        measures=recipe.measures,
        pack=pack,
        file=recipe.file,
        purchase=f"{BOUGHT}:{bought.what.casefold()}",
    )
    marks: tuple[Mark, ...] = ()
    if bought.container is None:
        marks = (
            Mark(
                "note",
                "pack-unsaid",
                f"It is not said what the bought {bought.what} comes in: the pack inside its "
                "factor stands. Write `container: 330 ml can` to settle it.",
            ),
        )
    if line.food is not None and line.food.food_class == HOT and bought.warmed is None:
        marks += (
            Mark(
                "note",
                "warming-unsaid",
                f"It is not said how the bought {bought.what} is made hot: no energy is counted. "
                "Write `warmed: in the microwave for 4 minutes` to settle it.",
            ),
        )
    read = tuple(read_step(step) for step in steps)
    return Reading(alternative, Version(name, {}), kitchen, (line,), read, 1.0, 1.0, marks)
