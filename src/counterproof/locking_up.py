"""Locking up the forme: what one episode brings to the press, from the results of the use cases."""

from __future__ import annotations

from dataclasses import dataclass

from counterproof.draws import Streams
from counterproof.forme import Forme, Trim
from counterproof.measured_out import measured_out
from counterproof.use_cases import Workbench, mark, proof
from counterproof.vetting_cases import Episode


@dataclass(frozen=True)
class Manuscript:
    """What stands in an episode's folder.

    Parameters
    ----------
    episode : Episode
        The recipe with its kitchen, version and servings, the season's others, the audience.
    script : str or None
        Text of the script; None where there is none.
    script_file : str or None
        Its name, for messages.
    """

    episode: Episode
    script: str | None = None
    script_file: str | None = None


def locked_up(
    manuscript: Manuscript,
    bench: Workbench,
    streams: Streams,
    *,
    date: str,
    language: str = "en",
    trim: Trim | None = None,
) -> Forme:
    """One episode, ready for the press.

    Parameters
    ----------
    manuscript : Manuscript
        What stands in the episode's folder.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    date : str
        The day it is pressed for, ISO 8601.
    language : str
        Of the fixed words.
    trim : Trim or None
        How the card is cut and measured.

    Returns
    -------
    Forme
        Everything the press needs.
    """
    order = manuscript.episode.order
    return Forme(
        edition=proof(order, bench, streams, date=date),
        date=date,
        language=language,
        trim=trim or Trim(),
        card=measured_out(mark(order, bench), bench.tables),
    )
