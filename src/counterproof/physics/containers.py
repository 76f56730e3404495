"""Pots, trays, jars and bottles that food cools in: size from what is known, wall, heat held."""

from __future__ import annotations

from math import pi
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

from counterproof.errors import OutOfRange
from counterproof.physics.convection import EMISSIVITY, EMISSIVITY_BRIGHT
from counterproof.physics.values import Draws, largest, smallest
from counterproof.physics.vessels import Pot
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

Kind = Literal["pot", "tray", "jar", "bottle"]

_PROPORTION: Final[Mapping[str, Sourced]] = MappingProxyType(
    {
        "pot": Sourced(
            0.5, "1", 0.3, "assumed", "", "depth over diameter of what is in a pot, if not given"
        ),
        "jar": Sourced(1.2, "1", 0.2, "assumed", "", "depth over diameter of a preserving jar"),
        "bottle": Sourced(2.5, "1", 0.3, "assumed", "", "depth over diameter of a bottle"),
    }
)
TRAY_DEPTH: Final = Sourced(
    0.05, "m", 0.2, "unl-soup", "shallow pans: 2 inches", "depth in a tray, if not given"
)
SHALLOW: Final = Sourced(
    0.076, "m", 0.0, "cdc-cooling", "shallow pan: 3 inches or less", "trays deeper than this"
)
_MASS: Final[Mapping[str, Sourced]] = MappingProxyType(
    {
        "steel": Sourced(
            10.0, "kg/m²", 0.4, "assumed", "", "steel vessel over its hot surface; weigh it"
        ),
        "glass": Sourced(8.0, "kg/m²", 0.2, "assumed", "", "glass about 3 mm thick, 2500 kg/m³"),
    }
)
_RESISTANCE: Final[Mapping[str, Sourced]] = MappingProxyType(
    {
        "steel": Sourced(
            6e-5, "m² K/W", 0.5, "assumed", "", "1 mm of stainless steel, 16 W/(m K), from memory"
        ),
        "glass": Sourced(
            3e-3, "m² K/W", 0.2, "assumed", "", "3 mm of soda-lime glass, 1.0 W/(m K), from memory"
        ),
    }
)
MATERIALS: Final = tuple(_MASS)


def container(
    kind: Kind,
    volume: float | Draws,
    *,
    diameter: float | Draws | None = None,
    depth: float | Draws | None = None,
    covered: bool = True,
    material: str | None = None,
) -> Pot:
    """A vessel with food in it.

    Parameters
    ----------
    kind : Kind
        pot, tray, jar or bottle. A tray counts as round, of the same area: a square one has an
        eighth more rim.
    volume : float or (n,) array
        Of the food in it, > 0. [m³]
    diameter : float or (n,) array or None
        Inner diameter. [m]
    depth : float or (n,) array or None
        Depth of the food; must fit volume and diameter if all three are given. [m]
    covered : bool
        Whether a lid is on.
    material : str or None
        steel or glass; None for what the kind is usually made of.

    Returns
    -------
    Pot
        Round, with the size that follows, or usual proportions where only the volume is known.

    Raises
    ------
    OutOfRange
        If a size is not above zero, or volume, diameter and depth contradict each other by more
        than a fifth.
    """
    known = [size for size in (volume, diameter, depth) if size is not None]
    if not all(smallest(size) > 0.0 for size in known):
        raise OutOfRange(
            "A vessel has a volume, a diameter and a depth above zero.",
            remedy="Give sizes above zero, with their unit.",
        )
    if diameter is not None and depth is not None:
        held = pi / 4.0 * diameter**2 * depth
        if largest(held / volume) > 1.2 or smallest(held / volume) < 1 / 1.2:
            raise OutOfRange(
                f"{1000 * smallest(volume):.3g} L do not stand {100 * smallest(depth):.3g} cm "
                f"deep in a vessel {100 * smallest(diameter):.3g} cm wide: that holds "
                f"{1000 * smallest(held):.3g} L.",
                remedy="Give two of volume, diameter and depth, and leave the third out.",
            )
    elif diameter is not None:
        depth = volume / (pi / 4.0 * diameter**2)
    else:
        if depth is None:
            depth = TRAY_DEPTH.value if kind == "tray" else _depth_in(kind, volume)
        diameter = (volume / depth / (pi / 4.0)) ** 0.5
    # Volume rules where all three were given: it is what was measured.
    depth = volume / (pi / 4.0 * diameter**2)
    made_of = material or ("glass" if kind in {"jar", "bottle"} else "steel")
    if made_of not in _MASS:
        raise OutOfRange(
            f"What heat passes through “{made_of}” is not known here.",
            remedy=f"Materials are: {', '.join(MATERIALS)}.",
        )
    mass = _MASS[made_of].value * (pi / 4.0 * diameter**2 + pi * diameter * depth)
    shine = EMISSIVITY_BRIGHT if made_of == "steel" else EMISSIVITY
    return Pot(diameter, depth, mass, made_of, covered, shine.value)


def _depth_in(kind: Kind, volume: float | Draws) -> float | Draws:
    proportion = _PROPORTION[kind].value
    return proportion * (4.0 * volume / (pi * proportion)) ** (1.0 / 3.0)


def wall_resistance(pot: Pot) -> float:
    """Resistance of a vessel's wall to heat.

    Parameters
    ----------
    pot : Pot
        A vessel of steel or glass.

    Returns
    -------
    float
        Thickness over conductivity; that of steel for any other metal. [m² K/W]
    """
    return _RESISTANCE["glass" if pot.material == "glass" else "steel"].value


def constants(kind: Kind, pot: Pot, *, sized: bool) -> tuple[Sourced, ...]:
    """What a vessel assumes.

    Parameters
    ----------
    kind : Kind
        pot, tray, jar or bottle.
    pot : Pot
        The vessel.
    sized : bool
        Whether a diameter or a depth was given.

    Returns
    -------
    tuple of Sourced
        To be printed with the answer.
    """
    glass = pot.material == "glass"
    shine = EMISSIVITY if glass else EMISSIVITY_BRIGHT
    shape = () if sized else ((TRAY_DEPTH if kind == "tray" else _PROPORTION[kind]),)
    return (*shape, _MASS["glass" if glass else "steel"], shine)
