"""Paths held inside one folder: no way out by "..", by an absolute path or by a link."""

from __future__ import annotations

from pathlib import Path

from counterproof.errors import OutsideFolder


def confined(path: Path, within: Path | None, named_in: str = "") -> Path:
    """Return a path, if it lies inside a folder once every link in it is followed.

    Parameters
    ----------
    path : Path
        The path, there or not.
    within : Path or None
        The folder it has to lie in; None asks for nothing.
    named_in : str
        What names the path, for the message: "kitchen: in recipe.md".

    Returns
    -------
    Path
        The same path.

    Raises
    ------
    OutsideFolder
        If it lies elsewhere. The message tells neither where nor whether anything is there.
    """
    if within is None:
        return path
    try:
        inside = path.resolve().is_relative_to(within.resolve())
    except (OSError, RuntimeError, ValueError):  # a link that leads to itself, a zero byte
        inside = False
    if not inside:
        raise OutsideFolder(
            "This file lies outside the folder that is open, and is not read.",
            remedy="Move it inside, and name it from there.",
            file=named_in or path.name,
        )
    return path
