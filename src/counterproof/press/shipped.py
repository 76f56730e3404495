"""What ships with the press as files: templates, style sheets, scripts, words."""

from __future__ import annotations

from importlib.resources import files


def shipped(*place: str) -> str:
    """Return the text of a file that ships with the press.

    Parameters
    ----------
    *place : str
        Folders, if any, and the file's name.

    Returns
    -------
    str
        Its text.
    """
    return files("counterproof.press").joinpath(*place).read_text(encoding="utf-8")
