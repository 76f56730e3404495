"""How well the food that was found stands for the one that was meant."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counterproof.rows import Fit

FITS: tuple[Fit, ...] = ("same", "other form", "relative", "class average")
"""From the best to the loosest."""


def worse(one: Fit | None, other: Fit | None) -> Fit | None:
    """The looser of two fits.

    Parameters
    ----------
    one, other : Fit or None
        None where no fit is known.

    Returns
    -------
    Fit or None
        None as soon as one of them is None.
    """
    if one is None or other is None:
        return None
    return FITS[max(FITS.index(one), FITS.index(other))]
