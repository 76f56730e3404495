"""What an episode brings to the press, locked up: everything that is published and nothing else.

A printer's forme is the type of a sheet, locked in its frame and ready to print. Ours is the
proof of the episode with what only the press needs beside it. `locking_up` makes it from the
results of the use cases; the modules of `press` turn it into files and calculate nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterproof.proof import Edition

Paper = Literal["a5", "a4", "letter", "index"]
Measures = Literal["metric", "us", "both"]


@dataclass(frozen=True, slots=True)
class Trim:
    """How the card is cut and measured.

    Parameters
    ----------
    paper : str
        "a5", "a4", "letter" (US) or "index" (6 by 4 inches).
    measures : str
        "metric", "us" or "both": weights, spoons, degrees, and with them the names of foods.
    """

    paper: Paper = "a5"
    measures: Measures = "both"


@dataclass(frozen=True)
class Forme:
    """One episode, ready for the press.

    Parameters
    ----------
    edition : Edition
        The proof, its derivations filled in.
    date : str
        The day it is pressed for, ISO 8601.
    language : str
        Of the fixed words: "en" or another that is shipped.
    trim : Trim
        How the card is cut and measured.
    """

    edition: Edition
    date: str
    language: str = "en"
    trim: Trim = Trim()
