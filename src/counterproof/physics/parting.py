"""Strain, squeeze, drain, rub through, discard: what goes through, what stays, with which solutes.

What is dissolved is taken to be spread evenly over all water that has been cooked together, the
water inside the solids included: it parts in proportion to the liquid. `extracted` says how far
that evenness was reached.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag
from counterproof.physics.values import Draws, largest, smallest
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

Fate = Literal["food waste", "sink", "kept"]
"""Where what is not served goes: to the bin, down the sink, or into something else."""

STAYS: Final[Mapping[str, Sourced]] = MappingProxyType({
    "strain": Sourced(
        0.40, "1", 0.35, "assumed", "",
        "wet mass that stays in cloth or sieve over the mass of solids before cooking, left to "
        "drip; depends on patience: weigh it",
    ),
    "squeeze": Sourced(
        0.30, "1", 0.35, "assumed", "", "likewise, wrung out by hand or pressed with a ladle"
    ),
    "rub": Sourced(
        0.10, "1", 0.5, "assumed", "",
        "what a sieve or mill keeps back when soft food is rubbed through: skins, seeds, strings",
    ),
})  # fmt: skip
"""By way of straining: the cake left behind, over the solids as they went in."""

ABSORBED: Final = Sourced(
    1.2, "1", 0.25, "assumed", "",
    "water taken up by dry pasta, rice or pulses over their dry mass, when they are drained: "
    "cooking yields of 2.2 to 2.5 in nutrient tables",
)  # fmt: skip
CLINGING: Final = Sourced(
    0.08, "1", 0.5, "assumed", "", "liquid that clings to drained pieces, over their mass"
)
FATE: Final[Mapping[str, Fate]] = MappingProxyType(
    {"strain": "food waste", "squeeze": "food waste", "rub": "food waste", "drain": "sink",
     "discard": "food waste"}
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Parted:
    """A mass parted in two.

    Parameters
    ----------
    served : float or (n,) array
        What goes on. [kg]
    left : float or (n,) array
        What does not. [kg]
    solutes_served : float or (n,) array
        Share of what is dissolved that goes on. [1]
    fate : Fate
        Where the rest goes.
    flags : tuple of Flag
        What the result must say about itself.
    """

    served: float | Draws
    left: float | Draws
    solutes_served: float | Draws
    fate: Fate
    flags: tuple[Flag, ...] = ()

    @property
    def solutes_left(self) -> float | Draws:
        """Share of what is dissolved that stays behind. [1]"""
        return 1.0 - self.solutes_served


def strained(
    liquid: float | Draws,
    solids: float | Draws,
    stays: float | Draws,
    *,
    moisture: float | Draws = 0.9,
    extracted: float | Draws = 1.0,
    way: str = "strain",
) -> Parted:
    """Liquid through a cloth or sieve, solids left behind: the liquid is served.

    Parameters
    ----------
    liquid : float or (n,) array
        Liquid in the pot before straining, ≥ 0. [kg]
    solids : float or (n,) array
        Solids as they went in, ≥ 0. [kg]
    stays : float or (n,) array
        Wet mass left behind over the solids as they went in; see `STAYS`. [1]
    moisture : float or (n,) array
        Share of the solids that is water, 0 to 1. [1]
    extracted : float or (n,) array
        Share of the solids' solutes that have reached the liquid's level: 1 after long
        simmering, 0 for what was only rinsed. [1]
    way : str
        strain, squeeze or rub.

    Returns
    -------
    Parted
        Masses add up to liquid + solids. Solutes are counted in those of the solids.

    Raises
    ------
    OutOfRange
        If an amount is negative or a share lies outside 0 to 1.

    Notes
    -----
    Cake = stays · solids, at most all there is. All water is liquid + moisture · solids; the
    cake's water is what it holds beyond the solids' dry matter. Solutes that go on =
    extracted · (1 − cake's water/all water).
    """
    _refuse(liquid, solids, stays, moisture=moisture, extracted=extracted)
    left = stays * solids
    total = liquid + solids
    flags: tuple[Flag, ...] = ()
    if largest(left - total) > 0.0:
        raise OutOfRange(
            "More stays in the sieve than went into it.",
            remedy="Give a smaller share that stays, or the liquid that was added.",
        )
    dry = (1.0 - moisture) * solids
    if smallest(left - dry) < 0.0:
        flags = (
            Flag(
                "drier-than-dry",
                "less stays behind than the solids' dry matter: some of it went through.",
                "note",
            ),
        )
    wet: float | Draws = np.maximum(left - dry, 0.0)
    through = 1.0 - wet / (liquid + moisture * solids)
    return Parted(total - left, left, extracted * through, _fate(way), flags)


def drained(
    liquid: float | Draws,
    solids: float | Draws,
    *,
    absorbed: float | Draws = 0.0,
    clinging: float | Draws = CLINGING.value,
) -> Parted:
    """Liquid poured off: the solids are served.

    Parameters
    ----------
    liquid : float or (n,) array
        Liquid before cooking, what boiled away taken off, ≥ 0. [kg]
    solids : float or (n,) array
        Solids as they went in, ≥ 0. [kg]
    absorbed : float or (n,) array
        Liquid taken up over the solids' mass: `ABSORBED` for dry pasta, rice, pulses; about 0
        for vegetables; negative for meat that loses juice. [1]
    clinging : float or (n,) array
        Liquid that clings to the drained pieces over their mass. [1]

    Returns
    -------
    Parted
        Masses add up; solutes are those of the liquid (its salt, say).

    Raises
    ------
    OutOfRange
        If an amount is negative, or the solids take up more than there is.
    """
    _refuse(liquid, solids, clinging)
    swollen = solids * (1.0 + absorbed)
    kept = solids * absorbed + clinging * swollen
    if largest(kept - liquid) > 0.0:
        raise OutOfRange(
            "The pieces take up more liquid than there is: nothing is left to drain.",
            remedy="Give more cooking liquid, or cook without draining.",
        )
    share = kept / liquid
    return Parted(solids + kept, liquid - kept, share, _fate("drain"))


def discarded(mass: float | Draws, share: float | Draws) -> Parted:
    """A part taken out and thrown away: a bay leaf, bones, a soaking water's sprouts.

    Parameters
    ----------
    mass : float or (n,) array
        All of it, ≥ 0. [kg]
    share : float or (n,) array
        What is thrown away, 0 to 1. [1]

    Returns
    -------
    Parted
        Masses add up; solutes in proportion.

    Raises
    ------
    OutOfRange
        If the mass is negative or the share lies outside 0 to 1.
    """
    _refuse(mass, share=share)
    return Parted(mass * (1.0 - share), mass * share, 1.0 - share, _fate("discard"))


def concentrated(
    solutes: float | Draws, before: float | Draws, boiled_off: float | Draws
) -> float | Draws:
    """Mass fraction of what is dissolved after boiling down.

    Parameters
    ----------
    solutes : float or (n,) array
        Mass fraction before, 0 to 1. [1]
    before : float or (n,) array
        Mass before, > 0. [kg]
    boiled_off : float or (n,) array
        Water that leaves, less than there is. [kg]

    Returns
    -------
    float or (n,) array
        Mass fraction after; 100 times it is °Brix where what is dissolved is sugar. [1]

    Raises
    ------
    OutOfRange
        If more leaves than there is water.
    """
    if smallest(before * (1.0 - solutes) - boiled_off) <= 0.0:
        raise OutOfRange(
            "It would boil dry.", remedy="Boil for a shorter time, or with more liquid."
        )
    return solutes * before / (before - boiled_off)


def _fate(way: str) -> Fate:
    if way not in FATE:
        raise OutOfRange(
            f"“{way}” is not a way of parting known here.", remedy=f"Ways are: {', '.join(FATE)}."
        )
    return FATE[way]


def _refuse(*amounts: float | Draws, **shares: float | Draws) -> None:
    if smallest(*amounts) < 0.0:
        raise OutOfRange("An amount is not below zero.", remedy="Give amounts of zero or more.")
    for name, share in shares.items():
        if smallest(share) < 0.0 or largest(share) > 1.0:
            raise OutOfRange(
                f"The share “{name}” lies between 0 and 1, not at {largest(share):g}.",
                remedy="Give it as a part of one: a half is 0.5.",
            )
