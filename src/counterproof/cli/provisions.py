"""Commands before the cooking: what to buy, and who does what when."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.options import DrawCount, Json, KitchenFile, Seed, Serves
from counterproof.errors import InputError

if TYPE_CHECKING:
    from counterproof.batch.to_buy import ShoppingList
    from counterproof.use_cases import Order

family = typer.Typer()

Recipes = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="[RECIPE[+VERSION] …]",
        help="Recipes, or a season's folder for all of it; the demo's first if left out.",
        show_default=False,
    ),
]


@family.command()
def shop(
    recipes: Recipes = None,
    serves: Serves = None,
    stations: Annotated[
        float, typer.Option("--stations", metavar="N", help="How many in a class cook each.")
    ] = 1.0,
    pantry: Annotated[
        str | None,
        typer.Option("--pantry", metavar="FILE", help="What is in the house already."),
    ] = None,
    output: Annotated[
        str,
        typer.Option("--output", "-o", metavar="FILE", help="Write it as FILE.txt or FILE.html."),
    ] = "",
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    as_json: Json = False,
) -> None:
    """List what to buy: merged over recipes, less the pantry, in packs, by part of the shop."""
    from counterproof import provisioning
    from counterproof.adapters.kitchens import load_pantry

    if stations <= 0:
        raise InputError("A class has at least one station.", remedy="Give --stations 10, say.")
    orders = _orders(recipes, kitchen, serves)
    listed = provisioning.shopping(
        orders,
        opening.bench(*(order.kitchen for order in orders)),
        opening.streams(seed, draws),
        stations=stations,
        pantry=load_pantry(orders[0].recipe, pantry),
        season=_others(orders, kitchen),
    )
    if output:
        _write(Path(output), listed, as_json=as_json)
    elif as_json:
        outcome.print_json(listed.to_dict())
    else:
        from counterproof.adapters.provisions_terminal import print_shopping

        print_shopping(listed, outcome.console())
    outcome.leave("doubt" for _ in listed.unread)


@family.command()
def day(
    recipes: Recipes = None,
    serves: Serves = None,
    ready: Annotated[
        str, typer.Option("--ready", metavar="HH:MM", help="When it is to be eaten.")
    ] = "19:00",
    cooks: Annotated[
        int, typer.Option("--cooks", metavar="N", min=1, max=24, help="Pairs of hands.")
    ] = 1,
    rings: Annotated[
        int | None,
        typer.Option("--rings", metavar="N", min=0, max=24, help="Rings; the kitchen's, or 4."),
    ] = None,
    ovens: Annotated[
        int | None,
        typer.Option("--ovens", metavar="N", min=0, max=12, help="Ovens; the kitchen's, or 1."),
    ] = None,
    hours: Annotated[
        str, typer.Option("--hours", metavar="HH:MM-HH:MM", help="When there are hands.")
    ] = "07:00-22:00",
    kitchen: KitchenFile = None,
    as_json: Json = False,
) -> None:
    """Plan a day over several dishes: no ring, oven or pair of hands is used twice at a time."""
    from counterproof import provisioning
    from counterproof.batch.day import RINGS, Room

    first, _, last = hours.partition("-")
    opens, closes = _minutes(first, "--hours"), _minutes(last, "--hours")
    if opens >= closes:
        raise InputError(
            f"“{hours}” has no hour in it.", remedy="Give the hours of one day: 07:00-22:00."
        )
    orders = _orders(recipes, kitchen, serves)
    place = orders[0].kitchen
    room = Room(
        cooks,
        rings if rings is not None else place.rings or RINGS,
        ovens if ovens is not None else 1 if place.ovens is None else place.ovens,
        opens,
        closes,
    )
    bench = opening.bench(*(order.kitchen for order in orders))
    found = provisioning.day(orders, bench, room, _minutes(ready, "--ready"))
    if as_json:
        outcome.print_json(found.to_dict())
    else:
        from counterproof.adapters.day_terminal import print_day

        print_day(found, outcome.console())
    outcome.leave("doubt" for wait in found.plan.waits if wait.too_long)


def _minutes(clock: str, option: str) -> int:
    """Minutes after midnight."""
    found = re.fullmatch(r"([01]?\d|2[0-4])[:.]([0-5]\d)", clock.strip())
    if found is None:
        raise InputError(
            f"{option}: “{clock}” is no time of day.", remedy="Write it as 19:00, in 24 hours."
        )
    return 60 * int(found[1]) + int(found[2])


def _orders(names: list[str] | None, kitchen: str | None, serves: float | None) -> list[Order]:
    """The recipes named; a season's folder stands for all of its episodes."""
    from counterproof.adapters.files import episodes

    if not names:
        return [opening.order(None, kitchen, serves)]
    found: list[Order] = []
    for name in names:
        folder = Path(name)
        of = episodes(folder) if (folder / "season.yaml").is_file() else ()
        found += [opening.order(str(one), kitchen, serves) for one in of or (name,)]
    return found


def _others(orders: list[Order], kitchen: str | None) -> list[Order]:
    """The season's other recipes, which may use up what is left."""
    place = orders[0].recipe.file
    if place in {None, "-"}:
        return []
    shopped = {order.recipe.title for order in orders}
    episode = opening.episode(Path(str(place)), kitchen)
    return [order for order in episode.others if order.recipe.title not in shopped]


def _write(place: Path, listed: ShoppingList, *, as_json: bool) -> None:
    from counterproof.adapters.writing import write_atomically
    from counterproof.press.shopping import plain
    from counterproof.press.shopping_page import shopping_page

    ways = {".txt": plain, ".html": shopping_page}
    if place.suffix not in ways:
        raise InputError(
            f"A shopping list is not written as “{place.name}”.",
            remedy="Name the file with .txt for plain text, or .html for a page to print.",
        )
    write_atomically(place, ways[place.suffix](listed).encode())
    outcome.told([place], as_json=as_json)
