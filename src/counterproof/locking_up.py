"""Locking up the forme: what one episode brings to the press, from the results of the use cases."""

from __future__ import annotations

from counterproof.draws import Streams
from counterproof.forme import Forme
from counterproof.use_cases import Order, Workbench, proof


def locked_up(
    order: Order, bench: Workbench, streams: Streams, *, date: str, language: str = "en"
) -> Forme:
    """One episode, ready for the press.

    Parameters
    ----------
    order : Order
        The recipe, its kitchen and version.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    date : str
        The day it is pressed for, ISO 8601.
    language : str
        Of the fixed words.

    Returns
    -------
    Forme
        Everything the press needs.
    """
    return Forme(proof(order, bench, streams, date=date), date, language)
