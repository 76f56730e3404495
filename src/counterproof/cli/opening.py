"""What commands open before they begin: tables, kitchens, recipes, streams, the day."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from counterproof.cli import outcome
from counterproof.errors import InputError

if TYPE_CHECKING:
    from counterproof.draws import Streams
    from counterproof.locking_up import Manuscript
    from counterproof.recipe.kitchen import Kitchen
    from counterproof.recipe.model import Recipe
    from counterproof.use_cases import Order, Workbench
    from counterproof.vetting_cases import Episode


def bench(*kitchens: Kitchen) -> Workbench:
    """Tables and matcher for some kitchens, which must share their own foods and factors."""
    from counterproof.adapters.kitchens import own_table
    from counterproof.adapters.tables import load_tables, uncollected
    from counterproof.use_cases import Workbench

    own = {own_table(kitchen) for kitchen in kitchens} or {None}
    if len(own) > 1:
        raise InputError(
            "These recipes are cooked in kitchens with different own foods and factors.",
            remedy="Name one kitchen for all of them with --kitchen FILE.",
        )
    with uncollected():
        return Workbench.over(load_tables(own=own.pop()))


def kitchen(file: str | None) -> Kitchen:
    """The kitchen named, or the one of the folder one stands in."""
    from counterproof.adapters.kitchens import load_kitchen
    from counterproof.recipe.model import Recipe

    return load_kitchen(Recipe("", (), (), file=str(Path("recipe.md"))), file)


def streams(seed: int, draws: int) -> Streams:
    """The draws of one run."""
    from counterproof.draws import Streams

    return Streams(seed=seed, n=draws)


def order(name: str | None, kitchen_file: str | None, serves: float | None) -> Order:
    """The recipe named, with the kitchen it is cooked in; the demo's first if none is."""
    from counterproof.adapters.files import load_recipe
    from counterproof.adapters.kitchens import load_kitchen, load_prices
    from counterproof.use_cases import Order

    recipe, version = load_recipe(_or_demo(name), sys.stdin.buffer)
    place = load_kitchen(recipe, kitchen_file)
    called = _called(recipe, version)
    return Order(recipe, place, version, serves, name=called, prices=load_prices(recipe))


def orders(name: str | None, kitchen_file: str | None, *, alone: bool) -> list[Order]:
    """The orders a name stands for: named alone, a recipe is compared with its versions."""
    from dataclasses import replace

    first = order(name, kitchen_file, None)
    if not alone or first.version is not None:
        return [first]
    versions = [
        replace(first, version=version.name, name=_called(first.recipe, version.name))
        for version in first.recipe.versions
    ]
    return [first, *versions]


def episode(place: Path, kitchen_file: str | None) -> Episode:
    """The recipe that stands beside a script, and the season's other recipes."""
    from dataclasses import replace

    from counterproof.adapters.manuscripts import in_season

    own = order(str(place if str(place) else Path()), kitchen_file, None)
    return in_season(replace(own, version=None, name=own.recipe.title), place, kitchen_file)


def manuscript(name: str | None, kitchen_file: str | None, serves: float | None) -> Manuscript:
    """The recipe or version named, with the season's others and the script beside it."""
    from counterproof.adapters.manuscripts import manuscript_of

    return manuscript_of(order(name, kitchen_file, serves), kitchen_file)


def day(date: str | None) -> str:
    """The day to print: the one named, or today."""
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


def _called(recipe: Recipe, version: str | None) -> str:
    return f"{recipe.title}+{version}" if version else recipe.title


def _or_demo(name: str | None) -> str:
    if name is not None:
        return name
    from counterproof.adapters.files import demo_season, episodes

    first = episodes(demo_season())[0]
    outcome.say(f"No recipe named: this is the demo, {first.name}.")
    return str(first)
