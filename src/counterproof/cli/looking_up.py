"""Commands that look something up: foods and emission factors with their sources."""

from __future__ import annotations

from typing import Annotated

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.options import Json, KitchenFile, Words

family = typer.Typer()


@family.command()
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
    from counterproof.accounts import food_account
    from counterproof.adapters import lookup_terminal

    if used_in is not None:
        order = opening.order(used_in, kitchen, None)
        used = looking_up.foods_in(order, opening.bench(order.kitchen))
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
            outcome.print_json({"recipe": order.called, "foods": told})
        else:
            lookup_terminal.print_used(used, outcome.console())
        return
    bench = opening.bench(opening.kitchen(kitchen))
    said = " ".join(words or [])
    streams = opening.streams(1, 10_000)
    found = looking_up.foods_found(said, bench)
    alone = found.exact or len(found.rows) == 1
    if as_json:
        rows = found.rows if said else ()
        whole = [food_account(food, bench.tables, streams) for food in rows]
        outcome.print_json(
            {
                "words": said,
                "found": [account.to_dict(bench.tables) for account in whole]
                or [{"id": f.id, "name": f.name, "class": f.food_class} for f in found.rows],
                "left_off": found.left_off,
                "nearest": list(found.nearest),
            }
        )
    else:
        first = food_account(found.rows[0], bench.tables, streams) if alone else None
        lookup_terminal.print_foods(said, found, first, bench.tables, outcome.console())
    outcome.leave(() if found.rows else ("doubt",))


@family.command()
def factors(words: Words = None, kitchen: KitchenFile = None, as_json: Json = False) -> None:
    """Look up an emission factor: its percentiles, stages, basis, boundary and source."""
    from counterproof import looking_up
    from counterproof.accounts import factor_account
    from counterproof.adapters.lookup_terminal import print_factors

    tables = opening.bench(opening.kitchen(kitchen)).tables
    said = " ".join(words or [])
    streams = opening.streams(1, 10_000)
    found = looking_up.factors_found(said, tables)
    accounts = [factor_account(factor, tables, streams) for factor in found.rows]
    if as_json:
        outcome.print_json(
            {
                "words": said,
                "found": [account.to_dict(tables) for account in accounts],
                "left_off": found.left_off,
                "nearest": list(found.nearest),
            }
        )
    else:
        print_factors(said, found, accounts, outcome.console())
    outcome.leave(() if found.rows else ("doubt",))
