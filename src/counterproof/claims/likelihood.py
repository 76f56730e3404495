"""How often a comparison is true, and the word for it.

The words are those of Mastrandrea M. D. et al. (2010), Guidance note for lead authors of the IPCC
Fifth Assessment Report on consistent treatment of uncertainties, table 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt
from typing import Final

TERMS: Final[tuple[tuple[float, str], ...]] = (
    (0.99, "virtually certain"),
    (0.90, "very likely"),
    (0.66, "likely"),
    (0.33, "about as likely as not"),
)
"""Least share from which a term holds, strongest first; below them the three of `RARE`. [1]"""

RARE: Final[tuple[tuple[float, str], ...]] = (
    (0.01, "exceptionally unlikely"),
    (0.10, "very unlikely"),
    (0.33, "unlikely"),
)
"""Largest share up to which a term holds, strongest first. [1]"""

LEVEL: Final = 0.90
"""Share from which a sentence is kept, unless somebody says otherwise: very likely. [1]

A house choice: who speaks in public is asked about the tenth case, hardly about the hundredth.
"""

ERRORS: Final = 2.0
"""Standard errors by which a share must clear a border (method §8): terms do not flicker. [1]"""


def likelihood(share: float) -> str:
    """Term for a share.

    Parameters
    ----------
    share : float
        Share of cases, 0 to 1. [1]

    Returns
    -------
    str
        The strongest term whose range holds the share.
    """
    for least, term in TERMS:
        if share >= least:
            return term
    return next(term for most, term in RARE if share <= most)


def standard_error(share: float, n: int) -> float:
    """Standard error of a share counted in independent draws.

    Parameters
    ----------
    share : float
        Share of draws, 0 to 1. [1]
    n : int
        Number of draws, ≥ 1. [1]

    Returns
    -------
    float
        √(p (1 − p) / n). [1]
    """
    return sqrt(share * (1.0 - share) / n)


@dataclass(frozen=True, slots=True)
class ShareTrue:
    """Share of draws in which something is true, and on what it is decided.

    Parameters
    ----------
    share : float
        Share of draws, 0 to 1. [1]
    n : int
        Number of draws. [1]
    """

    share: float
    n: int

    @property
    def decided_on(self) -> float:
        """The share less two standard errors. [1]"""
        return max(0.0, self.share - ERRORS * standard_error(self.share, self.n))

    @property
    def term(self) -> str:
        """The term it is given."""
        return likelihood(self.decided_on)

    def kept(self, level: float = LEVEL) -> bool:
        """Whether the sentence is kept.

        Parameters
        ----------
        level : float
            Share asked for, 0 to 1. [1]

        Returns
        -------
        bool
            True where the share less two standard errors reaches it.
        """
        return self.decided_on >= level
