"""The command that weighs a recipe in."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Final

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.at_the_stove import at_the_stove
from counterproof.cli.options import Date, Json, KitchenFile, RecipeName
from counterproof.errors import InputError

if TYPE_CHECKING:
    from counterproof.batch_cases import WeighedRecipe
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
    order, place = at_the_stove(recipe, kitchen)
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
