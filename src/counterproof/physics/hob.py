"""Hobs: what share of the energy bought reaches the pot, by kind."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag
from counterproof.physics.values import Draws, printed_ends
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

EFFICIENCY: Final[Mapping[str, Sourced]] = MappingProxyType({
    "gas": Sourced(
        0.40, "1", 0.15, "sweeney-2014", "abstract",
        "one measured case 0.37, a government label programme 0.32",
    ),
    "solid plate": Sourced(
        0.70, "1", 0.10, "assumed", "",
        "a little below smooth ceramic (0.74): the heavy plate stores heat",
    ),
    "ceramic": Sourced(0.74, "1", 0.08, "sweeney-2014", "abstract", ""),
    "induction": Sourced(
        0.87, "1", 0.06, "sweeney-2014", "abstract", "84–90 %; less for small pans"
    ),
})  # fmt: skip
"""Heat into the pot over energy into the hob. The tests behind them count a covered load's own
small losses as waste, so that in a quick heating-up those are counted about twice (2–3 %)."""

POWER: Final[Mapping[str, Sourced]] = MappingProxyType({
    "gas": Sourced(2700.0, "W", 0.2, "assumed", "", "gas burnt by a large ring on full"),
    "solid plate": Sourced(2000.0, "W", 0.15, "assumed", "", "a large plate on full"),
    "ceramic": Sourced(2000.0, "W", 0.15, "assumed", "", "a large zone on full"),
    "induction": Sourced(2000.0, "W", 0.15, "assumed", "", "a large zone on full, no boost"),
})  # fmt: skip
LEAST_FLAME: Final = Sourced(
    400.0, "W", 0.3, "assumed", "", "a gas ring seldom burns lower; below it the pot boils on"
)
CARRIER: Final[Mapping[str, str]] = MappingProxyType(
    {"gas": "gas", "solid plate": "electricity", "ceramic": "electricity", "induction": "electricity"}
)  # fmt: skip


def efficiency_of(kind: str) -> Sourced:
    """The efficiency of a kind of hob.

    Parameters
    ----------
    kind : str
        gas, solid plate, ceramic or induction.

    Returns
    -------
    Sourced
        Heat into the pot over energy bought. [1]

    Raises
    ------
    OutOfRange
        If there is no such kind here.
    """
    if kind not in EFFICIENCY:
        raise OutOfRange(
            f"“{kind}” is not a kind of hob known here.",
            remedy=f"Kinds are: {', '.join(EFFICIENCY)}.",
        )
    return EFFICIENCY[kind]


def dial(into_pot: float | Draws, efficiency: float | Draws, full: float | Draws) -> float | Draws:
    """Share of a ring's full power that brings a heat into the pot.

    Parameters
    ----------
    into_pot : float or (n,) array
        Heat wanted in the pot. [W]
    efficiency : float or (n,) array
        Heat into the pot over energy bought, 0 to 1. [1]
    full : float or (n,) array
        Power of the ring on full. [W]

    Returns
    -------
    float or (n,) array
        Share, above 1 where the ring is too weak. [1]
    """
    return into_pot / (efficiency * full)


def remarks(kind: str, bought: float | Draws, full: float | Draws) -> tuple[Flag, ...]:
    """Flags of a ring asked for a power.

    Parameters
    ----------
    kind : str
        gas, solid plate, ceramic or induction.
    bought : float or (n,) array
        Power it would have to take. [W]
    full : float or (n,) array
        Its power on full. [W]

    Returns
    -------
    tuple of Flag
        A doubt where it is too weak; a note where a flame does not go so low.
    """
    flags: tuple[Flag, ...] = ()
    least, most = printed_ends(bought)
    if printed_ends(bought - full)[1] > 0.0:
        flags += (
            Flag(
                "ring-too-weak",
                f"this may take {most:.0f} W from the hob, more than the ring gives on full; "
                "then it cannot be kept so.",
            ),
        )
    if kind == "gas" and least < LEAST_FLAME.value:
        flags += (
            Flag(
                "flame-too-strong",
                f"the pot may need no more than {least:.0f} W of gas; a ring seldom burns below "
                f"{LEAST_FLAME.value:.0f} W, so it will take more and boil away more.",
                "note",
            ),
        )
    return flags
