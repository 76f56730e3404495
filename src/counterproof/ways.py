"""The way to an amount: what was multiplied with what, and on whose word.

An amount is a product, and the product alone no longer tells how it came about. Whoever works
one out keeps its factors here, so that a derivation can be told later; nothing is calculated
from them.
"""

from __future__ import annotations

from math import prod
from typing import TYPE_CHECKING, Final, NamedTuple

from counterproof.provenance import Provenance

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.sourced import Sourced


ASSUMED: Final = Provenance("", "", "assumed", "a mark says what was taken")
"""What a usual size or weight rests on that no source gives."""


class Way(NamedTuple):
    """One factor on the way to an amount.

    Parameters
    ----------
    kind : str
        What it is, from the closed list in `deriving_words`.
    value : float
        The factor, or what is divided by. [unit]
    unit : str
        "" for a plain number.
    what : str
        What it is of, for people: a measure, a food, an appliance.
    told : Provenance or None
        Where it comes from; None for the cook's own word and for arithmetic.
    divides : bool
        Whether it divides.
    """

    kind: str
    value: float
    unit: str = ""
    what: str = ""
    told: Provenance | Sourced | None = None
    divides: bool = False


def along(ways: Iterable[Way]) -> float:
    """Product of ways.

    Parameters
    ----------
    ways : iterable of Way
        Factors and divisors.

    Returns
    -------
    float
        1 for none. [product of the units]
    """
    return prod(1 / way.value if way.divides else way.value for way in ways)
