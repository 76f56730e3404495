"""The command that brings a recipe to the people, the food or the pots there are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.options import DrawCount, Json, KitchenFile, RecipeName, Seed
from counterproof.cli.quantities import of_option, quantity
from counterproof.errors import AlreadyThere, InputError, QuantityError
from counterproof.typed_quantities import parse_quantity

if TYPE_CHECKING:
    from counterproof.batch.measurable import Measuring
    from counterproof.batch_cases import Written
    from counterproof.recipe.model import Recipe

family = typer.Typer()


@family.command()
def scale(
    recipe: RecipeName = None,
    serves: Annotated[
        float | None, typer.Option("--serves", metavar="N", min=0.01, help="For so many people.")
    ] = None,
    have: Annotated[
        str | None,
        typer.Option(
            "--have", metavar="AMOUNT", help="For what there is, such as “1.3 kg squash”."
        ),
    ] = None,
    jars: Annotated[
        str | None,
        typer.Option("--jars", metavar="6x473ml", help="For so many jars, to their freeze line."),
    ] = None,
    pot: Annotated[
        float | None, quantity("--pot", "volume", "For a pot of this size.", "7L")
    ] = None,
    stations: Annotated[
        int | None,
        typer.Option("--stations", metavar="N", min=1, help="Split over so many who cook it."),
    ] = None,
    hobs: Annotated[
        int | None, typer.Option("--hobs", metavar="N", min=1, help="So many rings at once.")
    ] = None,
    measures: Annotated[
        str | None,
        typer.Option(
            "--measured-in", metavar="us|metric", help="In cups and ounces, or in grams and ml."
        ),
    ] = None,
    output: Annotated[
        str | None,
        typer.Option("--output", "-o", metavar="FILE", help="Write the recipe for one pot."),
    ] = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """Bring a recipe to the people, the ingredient, the jars or the pot there is."""
    from counterproof import batch_cases, scaling_cases

    order = opening.order(recipe, kitchen, None)
    wish = scaling_cases.Wish(
        serves,
        have,
        None if jars is None else of_option("--jars", _jars, jars),
        None if pot is None else 1000.0 * pot,
        stations,
        hobs,
        _measuring(measures),
    )
    files: list[Written] = []
    if order.recipe.file not in {None, "-"} and order.version is None:
        from counterproof.adapters import batches

        found = batches.batch_files(Path(str(order.recipe.file)))
        files = [batch_cases.Written(str(one.path), one.day, one.text) for one in found]
    bench = opening.bench(order.kitchen)
    done = scaling_cases.scaled(order, bench, opening.streams(seed, draws), wish, files)
    if output is not None:
        from counterproof.adapters.writing import write_atomically
        from counterproof.recipe.text import write_text

        if Path(output).exists():
            raise AlreadyThere(
                "There is a file of that name already.",
                remedy="Name another, or move it away.",
                file=output,
            )
        write_atomically(Path(output), write_text(_from_there(done.recipe, Path(output))).encode())
        outcome.say(output)
    if as_json:
        outcome.print_json({**done.to_dict(), "written": output})
    else:
        from counterproof.adapters.scaled_terminal import print_scaled

        print_scaled(done, outcome.console())
    told = [mark.level for line in done.lines for mark in line.marks]
    outcome.leave([*told, *(mark.level for mark in done.marks)])


def _from_there(recipe: Recipe, target: Path) -> Recipe:
    """A recipe whose kitchen is named from the folder it is written into."""
    from dataclasses import replace
    from os.path import relpath

    if recipe.kitchen is None or recipe.file in {None, "-"}:
        return recipe
    kitchen = Path(str(recipe.file)).parent / recipe.kitchen
    return replace(recipe, kitchen=Path(relpath(kitchen, target.parent)).as_posix())


def _jars(text: str) -> tuple[int, float]:
    """“6x473ml” as a count and a volume."""
    count, sign, size = text.lower().replace("×", "x").partition("x")
    if not sign or not count.strip().isdigit() or int(count) < 1:
        raise QuantityError(
            f"“{text}” is not a number of jars.", remedy="Write how many and how large: 6x473ml."
        )
    return int(count), parse_quantity(size.strip(), "volume")


def _measuring(word: str | None) -> Measuring:
    if word is None:
        return "as written"
    if word not in {"us", "metric"}:
        raise InputError(
            f"“{word}” is not whose measures.", remedy="Write us or metric, or leave it out."
        )
    return "us" if word == "us" else "metric"
