"""What moved between two pressings: figures by their printed digits, stills, lines and files."""

from __future__ import annotations

import csv
import io
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

FIGURES: Final = "data/figures.csv"
"""Where the figures lie in a press folder; its first column is the key, the same every time."""

_STILLS: Final = "stills/"
_OF_LINES: Final = ("line:", "mass:")


@dataclass(frozen=True, slots=True)
class MovedFigure:
    """A figure whose printed digits are not what they were.

    Parameters
    ----------
    key : str
        Which figure, by the key of its derivation.
    name : str
        What it is called.
    was, now : str
        As printed; empty where it was not there.
    """

    key: str
    name: str
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class Moved:
    """What is different.

    Parameters
    ----------
    figures, lines : tuple of MovedFigure
        Figures of the whole, and those of single recipe lines.
    stills : tuple of str
        Stills that show something else, by name.
    files : tuple of str
        Every file whose bytes differ, that is gone or new.
    """

    figures: tuple[MovedFigure, ...] = ()
    lines: tuple[MovedFigure, ...] = ()
    stills: tuple[str, ...] = ()
    files: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        """Whether anything moved."""
        return bool(self.files)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "figures": [_told(figure) for figure in self.figures],
            "lines": [_told(figure) for figure in self.lines],
            "stills": list(self.stills),
            "files": list(self.files),
        }


def _told(figure: MovedFigure) -> dict[str, str]:
    return {"key": figure.key, "name": figure.name, "was": figure.was, "now": figure.now}


def moved(was: Mapping[str, bytes], now: Mapping[str, bytes]) -> Moved:
    """Return what moved between two pressings.

    Parameters
    ----------
    was, now : mapping of str to bytes
        File name → content, as pressed then and now.

    Returns
    -------
    Moved
        Nothing where every byte is the same.
    """
    files = tuple(name for name in sorted({*was, *now}) if was.get(name) != now.get(name))
    figures = _moved_figures(was.get(FIGURES, b""), now.get(FIGURES, b""))
    stills = dict.fromkeys(_still(name) for name in files if name.startswith(_STILLS))
    return Moved(
        figures=tuple(one for one in figures if not one.key.startswith(_OF_LINES)),
        lines=tuple(one for one in figures if one.key.startswith(_OF_LINES)),
        stills=tuple(stills),
        files=files,
    )


def _still(name: str) -> str:
    """The still that a file belongs to: its picture, its drawing and its numbers are one."""
    return name.removeprefix(_STILLS).partition(".")[0]


def _moved_figures(was: bytes, now: bytes) -> tuple[MovedFigure, ...]:
    then, today = _figures(was), _figures(now)
    return tuple(
        MovedFigure(
            key,
            (today.get(key) or then[key])[0],
            then.get(key, ("", ""))[1],
            today.get(key, ("", ""))[1],
        )
        for key in dict.fromkeys((*then, *today))
        if then.get(key, ("", ""))[1] != today.get(key, ("", ""))[1]
    )


def _figures(content: bytes) -> dict[str, tuple[str, str]]:
    """Key → name and what is printed of it."""
    rows = csv.DictReader(io.StringIO(content.decode("utf-8-sig")))
    return {row["key"]: (row["name"], row["shown"]) for row in rows if row.get("key")}
