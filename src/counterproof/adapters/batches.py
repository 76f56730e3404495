"""Where batches lie: the draft of a weigh-in beside the recipe, and one dated file a batch."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Final

from counterproof.adapters.files import load_text
from counterproof.adapters.writing import write_atomically, write_folder
from counterproof.errors import AlreadyThere, InputError, UnreadableFile

WEIGHED_IN: Final = "Weighed in"
"""Heading of the section that holds scale readings."""
_DATED: Final = re.compile(r"(?P<date>\d{4}-\d{2}-\d{2})(?:[-_ ].*)?\.(?:md|txt)")
_OF_AN_EPISODE: Final = "recipe"
_MOST_A_DAY: Final = 99


@dataclass(frozen=True, slots=True)
class BatchFile:
    """A dated file: where it is, its day, its text."""

    path: Path
    day: str
    text: str


def batch_folder(recipe: Path) -> Path:
    """Return the folder of a recipe's batches.

    Parameters
    ----------
    recipe : Path
        The recipe file.

    Returns
    -------
    Path
        `batches` in an episode; named after the recipe beside a lone file.
    """
    if recipe.stem == _OF_AN_EPISODE:
        return recipe.parent / "batches"
    return recipe.parent / f"{recipe.stem}-batches"


def draft_of(recipe: Path) -> Path:
    """Return where a weigh-in is kept until it is done.

    Parameters
    ----------
    recipe : Path
        The recipe file.

    Returns
    -------
    Path
        Beside the recipe.
    """
    name = "weigh-in.md" if recipe.stem == _OF_AN_EPISODE else f"{recipe.stem}-weigh-in.md"
    return recipe.parent / name


def batch_files(recipe: Path) -> tuple[BatchFile, ...]:
    """Load a recipe's batches.

    Parameters
    ----------
    recipe : Path
        The recipe file.

    Returns
    -------
    tuple of BatchFile
        The oldest first; files whose names do not begin with a day are no batches.

    Raises
    ------
    InputError
        If a name begins with a day that is none, such as 2026-02-30.
    """
    folder = batch_folder(recipe)
    if not folder.is_dir():
        return ()
    found = []
    for path in sorted(folder.iterdir()):
        dated = _DATED.fullmatch(path.name)
        if dated is None:
            continue
        try:
            date.fromisoformat(dated["date"])
        except ValueError:
            raise InputError(
                f"“{dated['date']}” is not a day.",
                remedy="Name the file by year, month and day, such as 2026-11-21.md.",
                file=str(path),
            ) from None
        found.append(BatchFile(path, dated["date"], load_text(path)))
    return tuple(found)


def load_draft(recipe: Path) -> str:
    """Load a weigh-in that was begun.

    Parameters
    ----------
    recipe : Path
        The recipe file.

    Returns
    -------
    str
        Its lines so far; empty where none was begun.
    """
    place = draft_of(recipe)
    return load_text(place) if place.is_file() else ""


def save_draft(recipe: Path, text: str) -> None:
    """Save a weigh-in as it stands, whole or not at all.

    Parameters
    ----------
    recipe : Path
        The recipe file.
    text : str
        Its lines so far.
    """
    write_atomically(draft_of(recipe), text.encode())


def set_aside(recipe: Path) -> Path | None:
    """Put a weigh-in that was begun aside, so that another can begin; it is not lost.

    Parameters
    ----------
    recipe : Path
        The recipe file.

    Returns
    -------
    Path or None
        Where it lies now; None where none was begun.

    Raises
    ------
    AlreadyThere
        If a hundred lie there already.
    """
    place = draft_of(recipe)
    if not place.is_file():
        return None
    for number in range(1, _MOST_A_DAY + 1):
        other = place.with_name(f"{place.stem}-aside-{number}{place.suffix}")
        if not other.exists():
            place.replace(other)
            return other
    raise AlreadyThere(
        "There are too many weigh-ins set aside.",
        remedy="Throw some of them away.",
        file=str(place.parent),
    )


def write_batch(recipe: Path, day: str, title: str, readings: str) -> Path:
    """Write a finished weigh-in as the beginning of a batch, and end its draft.

    Parameters
    ----------
    recipe : Path
        The recipe file.
    day : str
        The batch's day, ISO 8601.
    title : str
        The recipe's title.
    readings : str
        What was read off the scale.

    Returns
    -------
    Path
        The dated file; nothing is written over.

    Raises
    ------
    AlreadyThere
        If a hundred batches of that day are there.
    """
    folder = batch_folder(recipe)
    for number in range(1, _MOST_A_DAY + 1):
        name = f"{day}.md" if number == 1 else f"{day}-{number}.md"
        if not (folder / name).exists():
            text = f"# {title}, {day}\n\n## {WEIGHED_IN}\n\n{readings.strip()}\n"
            (place,) = write_folder(folder, {name: text.encode()})
            try:
                draft_of(recipe).unlink(missing_ok=True)
            except OSError as fault:
                raise UnreadableFile(
                    f"The draft cannot be removed: {fault.strerror}.",
                    remedy="Throw it away by hand: its readings stand in the batch now.",
                    file=str(draft_of(recipe)),
                ) from None
            return place
    raise AlreadyThere(
        f"There are too many batches of {day}.", remedy="Name another day.", file=str(folder)
    )
