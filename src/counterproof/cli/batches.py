"""Commands that make a by-eye recipe repeatable: weigh in, record, scale."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.options import Date, DrawCount, Json, KitchenFile, RecipeName, Seed
from counterproof.cli.quantities import of_option, quantity
from counterproof.errors import AlreadyThere, InputError, QuantityError
from counterproof.typed_quantities import parse_quantity

if TYPE_CHECKING:
    from counterproof.batch.measurable import Measuring
    from counterproof.batch_cases import Recorded, WeighedRecipe, Written
    from counterproof.recipe.model import Recipe
    from counterproof.use_cases import Order

family = typer.Typer()
_DONE: Final = frozenset({"done", "finished", "that's it", "thats it"})
_PROMPT: Final = "scale> "


@family.command("weigh-in")
def weigh_in(
    recipe: RecipeName = None,
    source: Annotated[
        str,
        typer.Option(
            "--from", metavar="FILE", help="Readings from a file; else as they are typed, or piped."
        ),
    ] = "",
    write: Annotated[
        bool,
        typer.Option("--write", help="Write the weights into the recipe, as typing “done” does."),
    ] = False,
    anew: Annotated[
        bool, typer.Option("--anew", help="Put a weigh-in that was begun aside and begin another.")
    ] = False,
    kitchen: KitchenFile = None,
    date: Date = None,
    as_json: Json = False,
) -> None:
    """Turn running scale readings into weighed ingredient lines.

    One reading a line, as they come: “1240 pot”, “+onions 1655”, “bottle 812 → 640”, “tare”,
    “undo”, “no, 1665”; “done” writes the weights into the recipe. Every line is saved at once
    beside the recipe, and a weigh-in that was left is taken up where it stopped.
    """
    from counterproof import batch_cases
    from counterproof.adapters import batches
    from counterproof.adapters.files import load_text

    if recipe is None:
        raise InputError(
            "Which recipe is on the scale?",
            remedy="Name its file or its episode's folder: what is weighed is kept beside it.",
        )
    order, place = _at_the_stove(recipe, kitchen)
    bench, streams = opening.bench(order.kitchen), opening.streams(1, 10_000)
    if source:
        text = load_text(Path(source)) if source != "-" else sys.stdin.read()
        weighed = batch_cases.weighed_recipe(order, bench, streams, text)
        finish = write
    else:
        if anew and (aside := batches.set_aside(place)) is not None:
            outcome.say(f"The weigh-in that was begun lies in {aside} now.")
        text = batches.load_draft(place)
        weighed = batch_cases.weighed_recipe(order, bench, streams, text)
        if text.strip():
            outcome.say(f"Taken up from {batches.draft_of(place)}; --anew begins another.")
        weighed, text, finish = _typed(weighed, text, place, as_json=as_json)
        finish = finish or write
    written: list[Path] = []
    if finish and not _faults(weighed):
        written = _written(weighed, order, place, text, opening.day(date))
    if as_json:
        draft = batches.draft_of(place)
        outcome.print_json(
            {
                **weighed.to_dict(),
                "written": [str(one) for one in written],
                "draft": str(draft) if draft.is_file() else None,
            }
        )
    else:
        from counterproof.adapters.batch_terminal import print_weigh_in

        print_weigh_in(weighed, outcome.console())
        _told(written, finish, place, _faults(weighed))
    outcome.leave(mark.level for _, mark in weighed.weighing.marks)


def _at_the_stove(recipe: str | None, kitchen: str | None) -> tuple[Order, Path]:
    """The recipe itself, with its file: what is measured is written beside it."""
    order = _begun(recipe, kitchen) or opening.order(recipe, kitchen, None)
    if order.recipe.file in {None, "-"} or order.version is not None:
        raise InputError(
            "What is measured belongs beside a recipe file.",
            remedy="Name the file or the episode's folder, without a version.",
        )
    return order, Path(str(order.recipe.file))


def _begun(name: str | None, kitchen: str | None) -> Order | None:
    """A recipe that is only now begun: a folder without one, whose name is its title."""
    from counterproof.adapters.files import RECIPE_FILES, episodes
    from counterproof.adapters.kitchens import load_kitchen
    from counterproof.recipe.model import Recipe
    from counterproof.use_cases import Order as Begun

    folder = Path(name or "")
    if name is None or not folder.is_dir() or episodes(folder):
        return None
    if any((folder / file).exists() for file in RECIPE_FILES):
        return None
    title = folder.resolve().name.lstrip("0123456789-_ ").replace("-", " ").capitalize()
    recipe = Recipe(title or "Untitled recipe", (), (), file=str(folder / RECIPE_FILES[0]))
    outcome.say(f"There is no recipe in {folder} yet: it is begun with what is weighed in.")
    return Begun(recipe, load_kitchen(recipe, kitchen), name=recipe.title)


def _faults(weighed: WeighedRecipe) -> bool:
    return any(mark.level == "fault" for _, mark in weighed.weighing.marks)


def _typed(
    weighed: WeighedRecipe, text: str, place: Path, *, as_json: bool
) -> tuple[WeighedRecipe, str, bool]:
    """Take readings as they come, saving each; whether it was said to be done."""
    from counterproof.adapters import batches
    from counterproof.adapters.batch_terminal import print_last

    by_hand = sys.stdin.isatty()
    if by_hand:
        outcome.say(
            "One reading a line: “1240 pot”, “+onions 1655”, “undo”, “no, 1665”; “list” shows "
            "all, “done” writes it into the recipe, an empty input (Ctrl-D) leaves it for later."
        )
    for line in _lines(by_hand=by_hand, as_json=as_json):
        said = line.strip()
        if said.casefold().rstrip(".!") in _DONE:
            if by_hand and _faults(weighed):
                outcome.say("Some lines are not counted yet; settle them, or “undo” them.")
                continue
            return weighed, text, True
        if by_hand and said.casefold() == "list":
            from counterproof.adapters.batch_terminal import print_weigh_in

            print_weigh_in(weighed, outcome.console(errors=True))
            continue
        if not said:
            continue
        text = f"{text.rstrip()}\n{said}\n".lstrip()
        batches.save_draft(place, text)
        weighed = weighed.after(text)
        if by_hand:
            print_last(weighed, len(text.splitlines()), outcome.console(errors=True))
    return weighed, text, False


def _lines(*, by_hand: bool, as_json: bool) -> Iterator[str]:
    """Lines as they are typed, or piped; an interruption ends them and loses none."""
    if not by_hand:
        yield from sys.stdin
        return
    while True:
        try:
            if as_json:  # standard output is the document's alone
                typer.echo(_PROMPT, nl=False, err=True)
            yield input("" if as_json else _PROMPT)
        except (EOFError, KeyboardInterrupt):
            outcome.say("")
            return


def _written(weighed: WeighedRecipe, order: Order, place: Path, text: str, day: str) -> list[Path]:
    """Write the weights into the recipe, and the readings into the batch of the day."""
    from counterproof.adapters import batches
    from counterproof.adapters.files import load_text
    from counterproof.adapters.writing import write_atomically
    from counterproof.batch.written_in import recipe_with_weights, with_weights

    if place.exists() and place.suffix in {"", ".md", ".markdown", ".txt"}:
        target = place
        content = with_weights(load_text(place), order.recipe, weighed.weighing)
    else:
        target = place.with_suffix(".md")
        content = recipe_with_weights(order.recipe, weighed.weighing)
    write_atomically(target, content.encode())
    return [target, batches.write_batch(place, day, order.recipe.title, text)]


def _told(written: list[Path], finish: bool, place: Path, faults: bool) -> None:
    from counterproof.adapters import batches

    if written:
        outcome.say(f"Written into {written[0]}; the readings lie in {written[1]}.")
    elif finish and faults:
        outcome.say("Nothing was written: some readings are not counted yet. Settle them first.")
    elif (draft := batches.draft_of(place)).is_file():
        outcome.say(f"Kept in {draft}. Type “done”, or add --write, when all is weighed in.")


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
    order, place = _at_the_stove(recipe or _demo_with_batches(), kitchen)
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
