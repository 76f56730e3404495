"""`new season` and `new episode`: folders to start from, with comments that teach.

Nothing that is there is ever written over.
"""

from __future__ import annotations

import re
import unicodedata
from importlib.resources import files as package_files
from pathlib import Path
from typing import Final

from counterproof.adapters.files import season_folder
from counterproof.adapters.writing import write_atomically
from counterproof.errors import AlreadyThere, InputError, UnreadableFile
from counterproof.recipe.markup import written

_EPISODE: Final = ("recipe.md", "script.md")


def new_season(name: str, where: Path) -> tuple[Path, ...]:
    """Make the folder of a season with its first episode.

    Parameters
    ----------
    name : str
        What the season is called.
    where : Path
        The folder to make it in.

    Returns
    -------
    tuple of Path
        The files that were written, the season's own first.

    Raises
    ------
    AlreadyThere
        If a folder of that name is there.
    UnreadableFile
        If the folder cannot be made.
    """
    folder = where / slug(name)
    _make(folder)
    files = [
        _write(folder / file, _template(file).replace("SEASON TITLE", _quoted(name)))
        for file in ("season.yaml", "kitchen.yaml")
    ]
    return (*files, *_episode(folder / "episodes" / "01-first-supper", "First supper"))


def new_episode(name: str, where: Path) -> tuple[Path, ...]:
    """Make the folder of an episode, numbered after the last one.

    Parameters
    ----------
    name : str
        What is cooked in it.
    where : Path
        The season's folder, or one inside it; anywhere else the episode stands alone.

    Returns
    -------
    tuple of Path
        The files that were written.

    Raises
    ------
    AlreadyThere
        If an episode of that name is there.
    UnreadableFile
        If the folder cannot be made.
    """
    season = season_folder(where)
    if season is None:
        return _episode(where / slug(name), name)
    folder = season / "episodes"
    there = [one.name for one in folder.iterdir() if one.is_dir()] if folder.is_dir() else []
    bare = slug(name)
    same = [one for one in there if re.sub(r"^\d+-", "", one) == bare]
    if same:
        raise _already(folder / same[0])
    numbers = [int(match[0]) for one in there if (match := re.match(r"\d{1,4}", one))]
    return _episode(folder / f"{max(numbers, default=0) + 1:02d}-{bare}", name)


def slug(name: str) -> str:
    """Return a name as it may stand in a folder's name: lower case, hyphens, no accents.

    Parameters
    ----------
    name : str
        Any name.

    Returns
    -------
    str
        Letters, digits and hyphens.

    Raises
    ------
    InputError
        If no letter or digit is left.
    """
    bare = "".join(
        sign for sign in unicodedata.normalize("NFKD", name) if not unicodedata.combining(sign)
    )
    words = re.findall(r"\w+", re.sub(r"['’_]", "", bare.casefold()))
    if not words:
        raise InputError(
            f'"{name}" has no letter or digit to name a folder with.',
            remedy="Give it a name in words.",
        )
    return "-".join(words)[:60].rstrip("-")


def _episode(folder: Path, title: str) -> tuple[Path, ...]:
    _make(folder)
    heading = written("# ", title)
    return tuple(
        _write(folder / file, _template(file).replace("# EPISODE TITLE", heading))
        for file in _EPISODE
    )


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True)
    except FileExistsError:
        raise _already(folder) from None
    except OSError as fault:
        raise UnreadableFile(
            f"The folder cannot be made: {fault.strerror}.",
            remedy="Choose another place, in which you may write.",
            file=str(folder),
        ) from None


def _already(folder: Path) -> AlreadyThere:
    return AlreadyThere(
        "There is something of that name already; nothing was written.",
        remedy="Choose another name, or move the old folder away.",
        file=str(folder),
    )


def _write(path: Path, text: str) -> Path:
    write_atomically(path, text.encode())
    return path


def _quoted(name: str) -> str:
    return '"' + " ".join(name.split()).replace("\\", "\\\\").replace('"', '\\"') + '"'


def _template(name: str) -> str:
    folder = package_files("counterproof") / "adapters" / "starter"
    return (folder / name).read_text(encoding="utf-8")
