"""The data of an episode: its numbers, its results, its matrices, its plan on the calendar."""

from __future__ import annotations

import json
from collections.abc import Iterator

from counterproof.forme import Forme
from counterproof.press.figures_table import as_csv, as_parquet
from counterproof.press.fixed_words import Words
from counterproof.press.ical import as_icalendar
from counterproof.press.moved import FIGURES
from counterproof.press.part import Piece

PARQUET = "data/figures.parquet"


def pieces(forme: Forme, words: Words) -> Iterator[Piece]:
    """Return the data of an episode.

    Parameters
    ----------
    forme : Forme
        The episode.
    words : Words
        Fixed words.

    Yields
    ------
    Piece
        CSV, JSON, iCalendar, the matrices; Parquet where its library is there.
    """
    yield Piece(FIGURES, as_csv(forme.edition))
    parquet = as_parquet(forme.edition)
    if parquet is not None:
        yield Piece(PARQUET, parquet)
    results = json.dumps(forme.results, ensure_ascii=False, indent=2) + "\n"
    yield Piece("data/results.json", results.encode())
    for name, text in sorted(forme.matrices.items()):
        yield Piece(f"data/matrices/{name}", text.encode())
    yield Piece("data/plan.ics", as_icalendar(forme, words))
