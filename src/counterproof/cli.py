"""The command line: options in, one use case, text or JSON out. Nothing is decided here.

Heavy modules are imported inside the commands, so that `--help` answers at once.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer
from typer.exceptions import TyperException

from counterproof import __version__
from counterproof.errors import CounterproofError, InputError, UsageFault

if TYPE_CHECKING:
    from counterproof.draws import Streams
    from counterproof.recipe.kitchen import Kitchen
    from counterproof.recipe.model import Recipe
    from counterproof.use_cases import Order, Workbench

app = typer.Typer(
    help="Mark up a recipe: what each line weighs, what each step takes, what a serving costs the climate.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)
new = typer.Typer(
    help="Begin a season or an episode: a folder to start from, with comments that teach."
)
app.add_typer(new, name="new")

DEMO = "the demo"
DONE, ATTENTION, FAILED = 0, 1, 2

RecipeName = Annotated[
    str | None,
    typer.Argument(
        metavar="RECIPE[+VERSION]",
        help="A recipe file, an episode's folder, or - for standard input; the demo if left out.",
        show_default=False,
    ),
]
Words = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="[WORDS]", help="What it is called; all if left out.", show_default=False
    ),
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document and nothing else.")]
KitchenFile = Annotated[
    str | None, typer.Option("--kitchen", metavar="FILE", help="The kitchen to cook in.")
]
Serves = Annotated[
    float | None, typer.Option("--serves", metavar="N", min=0.01, help="Scale to so many servings.")
]
Seed = Annotated[int, typer.Option("--seed", metavar="N", min=0, help="Seed of the draws.")]
DrawCount = Annotated[
    int,
    typer.Option("--draws", metavar="N", min=100, max=1_000_000, help="How many draws."),
]
Date = Annotated[
    str | None,
    typer.Option("--date", metavar="YYYY-MM-DD", help="The day to print; today if left out."),
]


@app.callback(invoke_without_command=True)
def _start(
    version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False,
) -> None:
    if version:
        typer.echo(f"counterproof {__version__}")
        raise typer.Exit


@app.command()
def mark(
    recipe: RecipeName = None,
    serves: Serves = None,
    kitchen: KitchenFile = None,
    as_json: Json = False,
) -> None:
    """Show how every line and step of a recipe was understood."""
    from counterproof import use_cases

    order = _order(recipe, kitchen, serves)
    bench = _bench(order.kitchen)
    streams = _streams(1, 10_000)
    reading = use_cases.mark(order, bench)
    if as_json:
        from counterproof.reading.document import mark_document

        _print_json(mark_document(reading, bench.tables, streams))
    else:
        from counterproof.adapters.terminal import print_mark

        print_mark(use_cases.proof(order, bench, streams), _console())
    _leave(m.level for line in reading.lines for m in line.marks)


@app.command()
def footprint(
    recipe: RecipeName = None,
    serves: Serves = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    date: Date = None,
    as_json: Json = False,
) -> None:
    """Work out one serving's footprint, by line and by stage, with its range."""
    from counterproof import use_cases

    order = _order(recipe, kitchen, serves)
    bench = _bench(order.kitchen)
    streams = _streams(seed, draws)
    if as_json:
        found = use_cases.assessed(order, bench, streams)
        _print_json(found.to_dict())
        _leave(mark.level for mark in found.marks)
    else:
        from counterproof.adapters.terminal import print_proof

        edition = use_cases.proof(order, bench, streams, date=_day(date))
        print_proof(edition, _console())
        _leave(m.level for line in edition.lines for m in line.marks)


@app.command()
def compare(
    recipes: Annotated[
        list[str], typer.Argument(metavar="RECIPE[+VERSION] …", help="Two or more to compare.")
    ],
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """Compare servings of two or more recipes or versions, on shared draws."""
    from counterproof import use_cases

    orders = [
        order for name in recipes for order in _orders(name, kitchen, alone=len(recipes) == 1)
    ]
    if len(orders) < 2:
        raise InputError(
            f"Only one recipe was named ({recipes[0]}), and it has no versions.",
            remedy="Name a second recipe, or a version of this one: RECIPE RECIPE+VERSION.",
        )
    bench = _bench(*(order.kitchen for order in orders))
    found = use_cases.compared(orders, bench, _streams(seed, draws))
    if as_json:
        _print_json(found.to_dict())
    else:
        from counterproof.adapters.terminal import print_comparison

        print_comparison(found, _console())
    _leave("doubt" for pair in found.pairs if pair.reason is not None)


@app.command()
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
    from counterproof.adapters.files import write_atomically
    from counterproof.adapters.starters import slug
    from counterproof.press.sheet import sheet as page

    order = _order(recipe, kitchen, serves)
    bench = _bench(order.kitchen)
    edition = use_cases.proof(order, bench, _streams(seed, draws), date=_day(date))
    content = page(edition)
    if output == "-":
        sys.stdout.write(content)
        return
    place = Path(output or f"{slug(edition.title)}.html")
    write_atomically(place, content.encode())
    if as_json:
        _print_json({"written": str(place), "bytes": len(content.encode())})
    else:
        _say(f"{place}")
    _leave(m.level for line in edition.lines for m in line.marks)


@app.command()
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
    from counterproof.adapters.files import write_folder
    from counterproof.footprint.matrices import product_system

    order = _order(recipe, kitchen, None)
    found = use_cases.assessed(order, _bench(order.kitchen), _streams(1, 100))
    system = product_system(found.footprint).files()
    files = write_folder(
        Path(output), {name: text.encode() for name, text in sorted(system.items())}
    )
    _told(files, as_json=as_json)


@app.command()
def foods(
    words: Words = None,
    used_in: Annotated[
        str | None,
        typer.Option("--in", metavar="RECIPE", help="List the foods a recipe uses instead."),
    ] = None,
    kitchen: KitchenFile = None,
    as_json: Json = False,
) -> None:
    """Look up a food: its names, weights, composition, allergens and factors, with sources."""
    from counterproof import looking_up
    from counterproof.adapters import lookup_terminal

    if used_in is not None:
        order = _order(used_in, kitchen, None)
        used = looking_up.foods_in(order, _bench(order.kitchen))
        if as_json:
            told = [
                {
                    "id": u.food.id,
                    "name": u.food.name,
                    "class": u.food.food_class,
                    "lines": list(u.lines),
                }
                for u in used
            ]
            _print_json({"recipe": order.called, "foods": told})
        else:
            lookup_terminal.print_used(used, _console())
        return
    bench = _bench(_kitchen(kitchen))
    said = " ".join(words or [])
    streams = _streams(1, 10_000)
    found = looking_up.foods_found(said, bench)
    alone = found.exact or len(found.rows) == 1
    if as_json:
        rows = found.rows if said else ()
        whole = [looking_up.food_account(food, bench.tables, streams) for food in rows]
        _print_json(
            {
                "words": said,
                "found": [account.to_dict(bench.tables) for account in whole]
                or [{"id": f.id, "name": f.name, "class": f.food_class} for f in found.rows],
                "left_off": found.left_off,
                "nearest": list(found.nearest),
            }
        )
    else:
        first = looking_up.food_account(found.rows[0], bench.tables, streams) if alone else None
        lookup_terminal.print_foods(said, found, first, bench.tables, _console())
    _leave(() if found.rows else ("doubt",))


@app.command()
def factors(words: Words = None, kitchen: KitchenFile = None, as_json: Json = False) -> None:
    """Look up an emission factor: its percentiles, stages, basis, boundary and source."""
    from counterproof import looking_up
    from counterproof.adapters.lookup_terminal import print_factors

    tables = _bench(_kitchen(kitchen)).tables
    said = " ".join(words or [])
    streams = _streams(1, 10_000)
    found = looking_up.factors_found(said, tables)
    accounts = [looking_up.factor_account(factor, tables, streams) for factor in found.rows]
    if as_json:
        _print_json(
            {
                "words": said,
                "found": [account.to_dict(tables) for account in accounts],
                "left_off": found.left_off,
                "nearest": list(found.nearest),
            }
        )
    else:
        print_factors(said, found, accounts, _console())
    _leave(() if found.rows else ("doubt",))


@new.command("season")
def new_season(
    name: Annotated[str, typer.Argument(help="What the season is called.")], as_json: Json = False
) -> None:
    """Write a season's folder: its kitchen, its method, a first episode."""
    from counterproof.adapters import starters

    _told(starters.new_season(name, Path()), as_json=as_json)


@new.command("episode")
def new_episode(
    name: Annotated[str, typer.Argument(help="What is cooked.")], as_json: Json = False
) -> None:
    """Write an episode's folder: recipe and script."""
    from counterproof.adapters import starters

    _told(starters.new_episode(name, Path()), as_json=as_json)


def _told(files: Sequence[Path], *, as_json: bool) -> None:
    if as_json:
        _print_json({"files": [str(file) for file in files]})
    else:
        for file in files:
            _say(f"{file}")


def _bench(*kitchens: Kitchen) -> Workbench:
    """Tables and matcher for some kitchens, which must share their own foods and factors."""
    from counterproof.adapters.files import own_table
    from counterproof.adapters.tables import load_tables
    from counterproof.use_cases import Workbench

    own = {own_table(kitchen) for kitchen in kitchens} or {None}
    if len(own) > 1:
        raise InputError(
            "These recipes are cooked in kitchens with different own foods and factors.",
            remedy="Name one kitchen for all of them with --kitchen FILE.",
        )
    return Workbench.over(load_tables(own=own.pop()))


def _kitchen(file: str | None) -> Kitchen:
    """The kitchen named, or the one of the folder one stands in."""
    from counterproof.adapters.files import load_kitchen
    from counterproof.recipe.model import Recipe

    return load_kitchen(Recipe("", (), (), file=str(Path("recipe.md"))), file)


def _streams(seed: int, draws: int) -> Streams:
    from counterproof.draws import Streams

    return Streams(seed=seed, n=draws)


def _order(name: str | None, kitchen: str | None, serves: float | None) -> Order:
    from counterproof.adapters.files import load_kitchen, load_prices, load_recipe
    from counterproof.use_cases import Order

    recipe, version = load_recipe(_or_demo(name), sys.stdin.buffer)
    place = load_kitchen(recipe, kitchen)
    called = _called(recipe, version)
    return Order(recipe, place, version, serves, name=called, prices=load_prices(recipe))


def _orders(name: str, kitchen: str | None, *, alone: bool) -> list[Order]:
    """The orders a name stands for: named alone, a recipe is compared with its versions."""
    from dataclasses import replace

    order = _order(name, kitchen, None)
    if not alone or order.version is not None:
        return [order]
    versions = [
        replace(order, version=version.name, name=_called(order.recipe, version.name))
        for version in order.recipe.versions
    ]
    return [order, *versions]


def _called(recipe: Recipe, version: str | None) -> str:
    return f"{recipe.title}+{version}" if version else recipe.title


def _or_demo(name: str | None) -> str:
    if name is not None:
        return name
    from counterproof.adapters.files import demo_season, episodes

    first = episodes(demo_season())[0]
    _say(f"No recipe named: this is the demo, {first.name}.")
    return str(first)


def _day(date: str | None) -> str:
    from datetime import UTC, datetime
    from datetime import date as calendar_day

    if date is None:
        return datetime.now(tz=UTC).date().isoformat()
    try:
        return calendar_day.fromisoformat(date).isoformat()
    except ValueError:
        raise InputError(
            f"“{date}” is not a day.", remedy="Write it as year-month-day, such as 2026-11-25."
        ) from None


def _console() -> Any:
    from rich.console import Console

    return Console(highlight=False)


def _say(message: str) -> None:
    """Messages go to standard error, so that standard output holds results alone."""
    typer.echo(message, err=True)


def _print_json(document: Any) -> None:
    sys.stdout.write(json.dumps(document, ensure_ascii=False, indent=2) + "\n")


def _leave(levels: Any) -> None:
    if any(level != "note" for level in levels):
        raise typer.Exit(ATTENTION)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run one command and leave with its exit status: 0 done, 1 look at it, 2 could not."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    try:
        status = app(given, standalone_mode=False)
    except CounterproofError as error:
        _fail(error, as_json="--json" in given)
    except TyperException as error:
        remedy = f"See counterproof {_command(error)}--help."
        _fail(UsageFault(error.format_message(), remedy=remedy), as_json="--json" in given)
    except typer.Exit as leave:
        sys.exit(leave.exit_code)
    except (typer.Abort, KeyboardInterrupt):
        sys.exit(130)
    else:
        sys.exit(status if isinstance(status, int) else DONE)


def _command(error: TyperException) -> str:
    context = getattr(error, "ctx", None)
    path = context.command_path.split()[1:] if context else []
    return " ".join((*path, ""))


def _fail(error: CounterproofError, *, as_json: bool) -> None:
    if as_json:
        _print_json({"error": error.to_dict()})
    else:
        from rich.console import Console

        from counterproof.adapters.terminal import print_error

        print_error(error, Console(stderr=True, highlight=False))
    sys.exit(FAILED)
