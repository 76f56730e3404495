"""The command that makes everything one episode publishes, and holds it against today."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from counterproof.cli import opening, outcome
from counterproof.cli.options import Date, DrawCount, Json, KitchenFile, RecipeName, Seed, Serves
from counterproof.errors import UsageFault

if TYPE_CHECKING:
    from counterproof.adapters.pressing import Held
    from counterproof.press.manifest import Impression, Manifest

family = typer.Typer()

PAPERS = ("a5", "a4", "letter", "index")
MEASURES = ("metric", "us", "both")
_LISTED = 8  # files of a part that are named one by one


@family.command()
def press(
    episode: RecipeName = None,
    output: Annotated[
        str,
        typer.Option(
            "--output",
            "-o",
            metavar="DIR",
            help="The press folder; press/ in the episode if left out.",
        ),
    ] = "",
    only: Annotated[
        list[str] | None,
        typer.Option("--only", metavar="PART", help="Make this part anew; may be repeated."),
    ] = None,
    verify: Annotated[
        bool, typer.Option("--verify", help="Hold the folder against today's recipe and data.")
    ] = False,
    language: Annotated[
        str, typer.Option("--language", metavar="LANG", help="Of the fixed words: en or de.")
    ] = "en",
    paper: Annotated[
        str, typer.Option("--paper", metavar="PAPER", help=f"Of the card: {', '.join(PAPERS)}.")
    ] = "a5",
    measures: Annotated[
        str,
        typer.Option("--measures", metavar="WHICH", help=f"On the card: {', '.join(MEASURES)}."),
    ] = "both",
    serves: Serves = None,
    kitchen: KitchenFile = None,
    seed: Seed = 1,
    draws: DrawCount = 10_000,
    date: Date = None,
    as_json: Json = False,
) -> None:
    """Make the press folder: everything one episode publishes."""
    from counterproof.adapters import pressing
    from counterproof.adapters.files import demo_season
    from counterproof.adapters.press_folder import free_place
    from counterproof.press.fixed_words import words_in
    from counterproof.press.folder import parts_asked
    from counterproof.press.manifest import Impression

    if verify and only:
        raise UsageFault(
            "--verify holds the whole folder, and --only makes parts of it.",
            remedy="Give one of the two.",
        )
    _among("--paper", paper, PAPERS)
    _among("--measures", measures, MEASURES)
    parts_asked(only or ())  # what cannot be done is said before anything is worked out
    words_in(language)
    first = opening.order(episode, kitchen, serves)
    demo = first.recipe.file is None or Path(first.recipe.file).is_relative_to(demo_season())
    folder = Path(output) if output else _folder(first.recipe.file, demo=demo)
    asked = Impression(
        first.recipe.title, first.version, opening.day(date), language, paper, measures,
        serves, seed, draws,
    )  # fmt: skip
    if verify:
        before = pressing.manifest_of(folder)
        found = _held(episode, kitchen, folder, before)
        _tell_held(found, folder, as_json=as_json)
        outcome.leave(() if found else ("doubt",))
        return
    free_place(folder)
    with _progress() as told:
        told("what the episode brings")
        manuscript, forme = _forme(episode, kitchen, asked)
        manifest = pressing.manifest_for(asked, forme, manuscript)
        whole = pressing.press_into(folder, forme, manifest, only or (), told)
    _tell_pressed(whole, folder, as_json=as_json)
    levels = [mark.level for line in forme.edition.lines for mark in line.marks]
    outcome.leave((*levels, *("doubt" for _ in whole.left_behind)))


def _among(option: str, given: str, allowed: tuple[str, ...]) -> None:
    if given not in allowed:
        raise UsageFault(
            f"{option} is one of {', '.join(allowed)}, not “{given}”.", remedy="Take one of these."
        )


def _folder(recipe: str | None, *, demo: bool) -> Path:
    """Where the press folder stands if nobody says: in the episode; beside us for the demo."""
    if recipe in {None, "-"} or demo:
        return Path("press")
    return Path(str(recipe)).parent / "press"


def _forme(episode: str | None, kitchen: str | None, asked: Impression) -> tuple[Any, Any]:
    """The manuscript and the forme locked up from it."""
    from counterproof.forme import Trim
    from counterproof.locking_up import locked_up

    manuscript = opening.manuscript(episode, kitchen, asked.serves)
    bench = opening.bench(manuscript.episode.order.kitchen)
    forme = locked_up(
        manuscript,
        bench,
        opening.streams(asked.seed, asked.draws),
        date=asked.date,
        language=asked.language,
        trim=Trim(asked.paper, asked.measures),  # type: ignore[arg-type] # held by _among
    )
    return manuscript, forme


def _held(episode: str | None, kitchen: str | None, folder: Path, before: Manifest) -> Held:
    from counterproof.adapters import pressing

    with _progress() as told:
        told("what the episode brings")
        manuscript, forme = _forme(episode, kitchen, before.impression)
        today = pressing.manifest_for(before.impression, forme, manuscript)
        return pressing.held(folder, before, forme, today, told)


@contextmanager
def _progress() -> Iterator[Callable[[str], None]]:
    """Say which file is being made, on standard error, if somebody looks at it."""
    console = outcome.console(errors=True)
    if not console.is_terminal:
        yield lambda _: None
        return
    with console.status("pressing …") as status:
        yield lambda name: status.update(f"pressing {name}")


def _tell_pressed(whole: Manifest, folder: Path, *, as_json: bool) -> None:
    from counterproof.press.manifest import MANIFEST

    if as_json:
        outcome.print_json(
            {
                "folder": str(folder),
                "files": [
                    {
                        "name": file.name,
                        "part": file.part,
                        "bytes": file.size,
                        "sha256": file.sha256,
                    }
                    for file in whole.files
                ],
                "manifest": MANIFEST,
                "pressed_from": whole.pressed_from,
                "left_behind": list(whole.left_behind),
                "left_out": dict(whole.left_out),
            }
        )
        return
    outcome.say(f"{folder}/")
    parts: dict[str, list[str]] = {}
    for file in whole.files:
        parts.setdefault(file.part, []).append(file.name)
    for part, names in parts.items():
        few = len(names) <= _LISTED
        outcome.say(f"  {part}: {', '.join(names) if few else f'{len(names)} files'}")
    outcome.say(f"  {MANIFEST}")
    for name, why in whole.left_out.items():
        outcome.say(f"Left out, {name}: {why}")
    if whole.left_behind:
        outcome.say(
            f"Pressed from an earlier recipe, data or date, and kept: {', '.join(whole.left_behind)}. "
            "Press without --only to bring all to one state."
        )


def _tell_held(found: Held, folder: Path, *, as_json: bool) -> None:
    if as_json:
        outcome.print_json(
            {
                "folder": str(folder),
                "holds": bool(found),
                "moved": found.moved.to_dict(),
                "touched": list(found.touched),
                "inputs": list(found.inputs),
            }
        )
        return
    from rich.table import Table
    from rich.text import Text

    console = outcome.console()
    if found:
        console.print(Text(f"{folder}: as it would be pressed today."))
        return
    rows = [
        (heading, f"{one.name}: {one.was or 'was not there'} → {one.now or 'is gone'}")
        for heading, figures in (("Figures", found.moved.figures), ("Lines", found.moved.lines))
        for one in figures
    ]
    rows += [
        (heading, name)
        for heading, names in (
            ("Stills", found.moved.stills),
            ("Files", found.moved.files),
            ("By hand", found.touched),
            ("Inputs", found.inputs),
        )
        for name in names
    ]
    grid = Table.grid(padding=(0, 2))
    lead = ""
    for heading, told in rows:
        grid.add_row(Text("" if heading == lead else heading), Text(told))
        lead = heading
    console.print(grid)
