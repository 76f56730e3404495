"""What a press folder does not hold, and why: nothing is left out in silence."""

from __future__ import annotations

from importlib.util import find_spec

from counterproof.forme import Forme
from counterproof.press.fixed_words import words_in
from counterproof.press.stills import pulling
from counterproof.press.stills.subject import Copy


def left_out(forme: Forme) -> dict[str, str]:
    """Return what is not made of a forme.

    Parameters
    ----------
    forme : Forme
        The episode.

    Returns
    -------
    dict of str to str
        Part or file → why, and what to do to have it.
    """
    found: dict[str, str] = {}
    if forme.script is None:
        found["script"] = "The episode has no script: write a script.md beside its recipe."
    if find_spec("pyarrow") is None:
        found["data/figures.parquet"] = (
            "The library for Parquet is not installed: pip install 'counterproof[parquet]'."
        )
    _, absent = pulling.subjects(Copy(forme, words_in("en")))
    found |= {f"stills/{one.kind}": one.why for one in absent}
    return found
