"""What an episode brings to the press, locked up: everything that is published and nothing else.

A printer's forme is the type of a sheet, locked in its frame and ready to print. Ours is the
proof of the episode with what only the press needs beside it. `locking_up` makes it from the
results of the use cases; the modules of `press` turn it into files and calculate nothing.
"""

from __future__ import annotations

from dataclasses import dataclass

from counterproof.proof import Edition


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
    """

    edition: Edition
    date: str
    language: str = "en"
