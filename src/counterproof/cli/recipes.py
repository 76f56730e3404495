"""Commands over recipes: how they read, what they cost the climate, pages and matrices."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.options import Date, DrawCount, Json, KitchenFile, RecipeName, Seed, Serves
from counterproof.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counterproof.proof import Edition

family = typer.Typer()


def _levels(edition: Edition) -> Iterator[str]:
    """Levels of the marks about the recipe and beside its lines."""
    for mark in (*edition.marks, *(mark for line in edition.lines for mark in line.marks)):
        yield mark.level


@family.command()
def mark(
    recipe: RecipeName = None,
    serves: Serves = None,
    kitchen: KitchenFile = None,
    as_json: Json = False,
) -> None:
    """Show how every line and step of a recipe was understood."""
    from counterproof import use_cases

    order = opening.order(recipe, kitchen, serves)
    bench = opening.bench(order.kitchen)
    streams = opening.streams(1, 10_000)
    reading = use_cases.mark(order, bench)
    if as_json:
        from counterproof.reading.document import mark_document

        outcome.print_json(mark_document(reading, bench.tables, streams))
    else:
        from counterproof.adapters.terminal import print_mark

        print_mark(use_cases.proof(order, bench, streams), outcome.console())
    beside = [mark for line in reading.lines for mark in line.marks]
    outcome.leave(mark.level for mark in (*reading.marks, *beside))


@family.command()
def footprint(
    recipe: RecipeName = None,
    serves: Serves = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    date: Date = None,
    how: Annotated[
        str,
        typer.Option(
            "--how",
            metavar="NUMBER",
            help="Show how one number came about, by key (line:3) or by its place.",
        ),
    ] = "",
    as_json: Json = False,
) -> None:
    """Work out one serving's footprint, by line and by stage, with its range."""
    from counterproof import use_cases

    order = opening.order(recipe, kitchen, serves)
    bench = opening.bench(order.kitchen)
    streams = opening.streams(seed, draws)
    if how:
        from counterproof.adapters.workings_terminal import print_working, working

        edition = use_cases.proof(order, bench, streams, date=opening.day(date))
        if as_json:
            number, one = working(edition, how)
            outcome.print_json({"number": number, **one.to_dict()})
        else:
            print_working(edition, how, outcome.console())
        outcome.leave(_levels(edition))
    elif as_json:
        found = use_cases.assessed(order, bench, streams)
        edition = use_cases.proof_of(found, bench, streams, beside=False)
        outcome.print_json(use_cases.results(found, edition))
        outcome.leave(mark.level for mark in (*found.reading.marks, *found.marks))
    else:
        from counterproof.adapters.terminal import print_proof

        edition = use_cases.proof(order, bench, streams, date=opening.day(date))
        print_proof(edition, outcome.console())
        outcome.leave(_levels(edition))


@family.command()
def compare(
    recipes: Annotated[
        list[str] | None,
        typer.Argument(
            metavar="[RECIPE[+VERSION] …]",
            help="Two or more, or one with its versions; the demo's first recipe if left out.",
            show_default=False,
        ),
    ] = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """Compare servings of two or more recipes or versions, on shared draws."""
    from counterproof import use_cases

    names: list[str | None] = [*recipes] if recipes else [None]
    orders = [
        order for name in names for order in opening.orders(name, kitchen, alone=len(names) == 1)
    ]
    if len(orders) < 2:
        raise InputError(
            f"Only one recipe was named ({names[0]}), and it has no versions.",
            remedy="Name a second recipe, or a version of this one: RECIPE RECIPE+VERSION.",
        )
    bench = opening.bench(*(order.kitchen for order in orders))
    found = use_cases.compared(orders, bench, opening.streams(seed, draws))
    if as_json:
        outcome.print_json(found.to_dict())
    else:
        from counterproof.adapters.terminal import print_comparison

        print_comparison(found, outcome.console())
    outcome.leave("doubt" for pair in found.pairs if pair.reason is not None)


@family.command()
def sheet(
    recipe: RecipeName = None,
    output: Annotated[
        str,
        typer.Option(
            "--output", "-o", metavar="FILE", help="Where the page goes; - for standard output."
        ),
    ] = "",
    serves: Serves = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    date: Date = None,
    as_json: Json = False,
) -> None:
    """Set the proof as one self-contained page."""
    from counterproof import use_cases
    from counterproof.adapters.starters import slug
    from counterproof.adapters.writing import write_atomically
    from counterproof.press.sheet import sheet as page

    order = opening.order(recipe, kitchen, serves)
    bench = opening.bench(order.kitchen)
    edition = use_cases.proof(order, bench, opening.streams(seed, draws), date=opening.day(date))
    content = page(edition)
    if output == "-":
        sys.stdout.write(content)
        return
    place = Path(output or f"{slug(edition.title)}.html")
    write_atomically(place, content.encode())
    if as_json:
        outcome.print_json({"written": str(place), "bytes": len(content.encode())})
    else:
        outcome.say(f"{place}")
    outcome.leave(_levels(edition))


@family.command()
def matrices(
    recipe: RecipeName = None,
    output: Annotated[
        str, typer.Option("--output", "-o", metavar="DIR", help="Folder to write.")
    ] = "matrices",
    kitchen: KitchenFile = None,
    as_json: Json = False,
) -> None:
    """Write the product system as matrices, for an LCA engine."""
    from counterproof import use_cases
    from counterproof.adapters.writing import write_folder
    from counterproof.footprint.matrices import product_system

    order = opening.order(recipe, kitchen, None)
    found = use_cases.assessed(order, opening.bench(order.kitchen), opening.streams(1, 100))
    system = product_system(found.footprint).files()
    files = write_folder(
        Path(output), {name: text.encode() for name, text in sorted(system.items())}
    )
    outcome.told(files, as_json=as_json)
