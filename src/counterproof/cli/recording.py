"""The command that sets what was made beside what was planned."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.at_the_stove import at_the_stove
from counterproof.cli.options import DrawCount, Json, KitchenFile, RecipeName, Seed
from counterproof.errors import InputError

if TYPE_CHECKING:
    from counterproof.batch_cases import Recorded, Written

family = typer.Typer()


@family.command()
def record(
    recipe: RecipeName = None,
    day: Annotated[
        str | None,
        typer.Argument(
            metavar="[YYYY-MM-DD]", help="One batch; all of them if left out.", show_default=False
        ),
    ] = None,
    accept: Annotated[
        list[str] | None,
        typer.Option(
            "--accept", metavar="NAME", help="Write an offered correction into recipe or kitchen."
        ),
    ] = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    date: Annotated[
        str | None,
        typer.Option(
            "--date", metavar="YYYY-MM-DD", help="Today’s day, which no batch may lie after."
        ),
    ] = None,
    as_json: Json = False,
) -> None:
    """Set what was made beside what was planned, from the batch files beside a recipe."""
    from counterproof import batch_cases

    if recipe is None and accept:
        raise InputError(
            "The demo is not corrected.", remedy="Name a recipe, or copy the demo's season."
        )
    order, place = at_the_stove(recipe or _demo_with_batches(), kitchen)
    files = _batches(place, day, opening.day(date))
    bench = opening.bench(order.kitchen)
    found = batch_cases.recorded(order, bench, opening.streams(seed, draws), files)
    written = _accepted(found, accept or [], place)
    if as_json:
        document = {**found.to_dict(), "written": [str(one) for one in written]}
        outcome.print_json(document)
    else:
        from counterproof.adapters.record_terminal import print_recorded

        print_recorded(found, outcome.console(), order.kitchen.middle)
        for one in written:
            outcome.say(f"Changed {one}.")
    outcome.leave("doubt" for batch in found.batches if batch.needs_attention)


def _demo_with_batches() -> str:
    """The first episode of the demo that was recorded."""
    from counterproof.adapters.batches import batch_files
    from counterproof.adapters.files import demo_season, episodes, recipe_file

    found = next(one for one in episodes(demo_season()) if batch_files(recipe_file(one)))
    outcome.say(f"No recipe named: this is the demo, {found.name}.")
    return str(found)


def _batches(place: Path, day: str | None, today: str) -> list[Written]:
    """The batch files asked for; none lies in the future."""
    from counterproof.adapters import batches
    from counterproof.batch_cases import Written as File

    folder = batches.batch_folder(place)
    found = batches.batch_files(place)
    chosen = [one for one in found if day in {None, one.path.stem, one.day}]
    if not chosen:
        known = ", ".join(one.path.stem for one in found)
        raise InputError(
            f"There is no batch of {day}; there are {known}."
            if known
            else "No batch is recorded yet.",
            remedy=f"Write one into {folder / f'{day or today}.md'}: what was weighed, timed and "
            "measured, one thing a line, such as “10:05 on”, “pulp 870 g”, “0.45 kWh”.",
            file=str(folder),
        )
    for one in chosen:
        if one.day > today:
            raise InputError(
                f"This batch is dated {one.day}, after today, {today}.",
                remedy="Name the file by the day it was made, or say which day it is: --date.",
                file=str(one.path),
            )
    return [File(str(one.path), one.day, one.text) for one in chosen]


def _accepted(found: Recorded, names: list[str], place: Path) -> list[Path]:
    """Write the corrections that were accepted."""
    from counterproof.adapters.files import load_text
    from counterproof.adapters.writing import write_atomically
    from counterproof.batch.corrections import accepted

    offered = [one.name for one in found.corrections]
    for name in names:
        if name not in offered:
            raise InputError(
                f"No correction “{name}” is offered.",
                remedy=f"Offered are: {', '.join(offered)}." if offered else "None is offered.",
            )
    kitchen = found.reading.kitchen.file
    targets = {"recipe": str(place), "kitchen": kitchen}
    changes: list[tuple[Path, str]] = []
    for where, chosen in accepted(found.corrections, names).items():
        file = targets[where]
        if file is None:
            raise InputError(
                "There is no kitchen file to correct: the defaults are used.",
                remedy="Write a kitchen.yaml beside the recipe, even an empty one.",
            )
        text = load_text(Path(file))
        for one in chosen:
            text = one.change(text)
        changes.append((Path(file), text))
    for path, text in changes:
        write_atomically(path, text.encode())
    return [path for path, _ in changes]
