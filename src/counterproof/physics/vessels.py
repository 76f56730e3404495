"""Pots and pans: their size, what they weigh, what heat they hold, and what they lose."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import convection, evaporation
from counterproof.physics.air import Room
from counterproof.physics.flags import Flag
from counterproof.physics.values import Draws, printed_ends
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

SLENDERNESS: Final = Sourced(
    0.55, "1", 0.2, "assumed", "",
    "height over diameter of a pot: saucepans and stock pots, 0.4 to 0.8; decides its surface",
)  # fmt: skip
FILLING: Final = Sourced(
    0.65, "1", 0.2, "assumed", "", "share of a pot that is filled, where no pot is named"
)
POT_MASS: Final = Sourced(
    14.0, "kg/m²", 0.3, "assumed", "",
    "mass of a pot over its base and wall: 1.7 kg for a 4 L steel pot; weigh it to do better",
)  # fmt: skip
POT_EMISSIVITY: Final = Sourced(
    0.4, "1", 0.5, "assumed", "", "bright steel 0.2, enamel or stained metal 0.9; pot not named"
)
LID_LEAK: Final = Sourced(
    0.10, "1", 0.6, "assumed", "",
    "share of an open pot's evaporation that escapes past a lid; no measured pan data found",
)  # fmt: skip
MATERIAL_HEAT: Final[Mapping[str, Sourced]] = MappingProxyType(
    {
        name: Sourced(value, "J/(kg K)", 0.04, "assumed", "", "handbook value, from memory")
        for name, value in (
            ("steel", 490.0), ("cast iron", 460.0), ("aluminium", 897.0), ("copper", 385.0),
            ("glass", 830.0), ("earthenware", 900.0),
        )
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Pot:
    """A round upright vessel.

    Parameters
    ----------
    diameter : float or (n,) array
        Inner diameter. [m]
    depth : float or (n,) array
        Depth of what is in it: the part of the wall that is as hot as that. [m]
    mass : float or (n,) array
        Its own mass. [kg]
    material : str
        A key of `MATERIAL_HEAT`.
    covered : bool
        Whether a lid is on.
    emissivity : float or (n,) array
        Of its outside. [1]
    """

    diameter: float | Draws
    depth: float | Draws
    mass: float | Draws
    material: str = "steel"
    covered: bool = True
    emissivity: float | Draws = POT_EMISSIVITY.value

    @property
    def mouth(self) -> float | Draws:
        """Area of the open surface. [m²]"""
        return pi / 4.0 * self.diameter**2

    @property
    def side(self) -> float | Draws:
        """Area of the hot wall. [m²]"""
        return pi * self.diameter * self.depth

    @property
    def heat_capacity(self) -> float | Draws:
        """Heat it takes up per degree. [J/K]"""
        return self.mass * MATERIAL_HEAT[self.material].value


def pot_for(
    volume: float,
    *,
    diameter: float | None = None,
    mass: float | None = None,
    material: str = "steel",
    covered: bool = True,
) -> Pot:
    """A pot of usual proportions for what goes into it.

    Parameters
    ----------
    volume : float
        Volume of the contents, > 0. [m³]
    diameter : float or None
        Inner diameter, if known. [m]
    mass : float or None
        Its own mass, if known. [kg]
    material : str
        A key of `MATERIAL_HEAT`.
    covered : bool
        Whether a lid is on.

    Returns
    -------
    Pot
        With diameter and mass by the assumed proportions where they are not given.

    Raises
    ------
    OutOfRange
        If the volume is not above zero, a size is not above zero, or the material is unknown.
    """
    if volume <= 0 or (diameter is not None and diameter <= 0) or (mass is not None and mass < 0):
        raise OutOfRange(
            "A pot holds more than nothing and is wider than nothing.",
            remedy="Give a volume and a diameter above zero.",
        )
    if material not in MATERIAL_HEAT:
        raise OutOfRange(
            f"The heat that “{material}” holds is not known here.",
            remedy=f"Materials are: {', '.join(MATERIAL_HEAT)}.",
        )
    if diameter is None:
        held = volume / FILLING.value
        diameter = (4.0 * held / (pi * SLENDERNESS.value)) ** (1.0 / 3.0)
    depth = volume / (pi / 4.0 * diameter**2)
    if mass is None:
        wall = pi * diameter * max(SLENDERNESS.value * diameter, depth)
        mass = POT_MASS.value * (pi / 4.0 * diameter**2 + wall)
    return Pot(diameter, depth, mass, material, covered)


@dataclass(frozen=True, slots=True)
class Leaks:
    """What is uncertain about a vessel's losses, taken once for a whole answer.

    Parameters
    ----------
    flow : float or (n,) array
        Real still air over the correlations. [1]
    between : float or (n,) array
        Where evaporation lies between its two estimates, 0 to 1. [1]
    lid : float or (n,) array
        Share of an open pot's evaporation that escapes past a lid. [1]
    """

    flow: float | Draws = convection.FLOW.value
    between: float | Draws = evaporation.BETWEEN.value
    lid: float | Draws = LID_LEAK.value


NEAR_BOIL: Final = Sourced(
    5.0, "K", 0.5, "assumed", "",
    "near the boil the top of the water is this much cooler than the boiling point: both "
    "evaporation estimates end there, and the flux found there is kept up to the boil",
)  # fmt: skip


def dry_loss(temperature: float | Draws, pot: Pot, room: Room, leaks: Leaks) -> float | Draws:
    """Heat that leaves a pot by convection and radiation, its base apart.

    Parameters
    ----------
    temperature : float or (n,) array
        Of the contents; wall and lid are as hot. [K]
    pot : Pot
        The vessel.
    room : Room
        The air around it.
    leaks : Leaks
        What is uncertain.

    Returns
    -------
    float or (n,) array
        Power. [W]
    """
    around = room.temperature
    wall = leaks.flow * convection.wall(temperature, around, pot.depth, room.pressure)
    mouth = leaks.flow * convection.top(temperature, around, pot.diameter, room.pressure)
    metal = convection.radiation(temperature, around, 1.0)
    above = pot.emissivity if pot.covered else convection.EMISSIVITY.value
    through = pot.side * (wall + pot.emissivity * metal) + pot.mouth * (mouth + above * metal)
    return through * (temperature - around)


def evaporation_rate(
    temperature: float | Draws, boil: float | Draws, pot: Pot, room: Room, leaks: Leaks
) -> float | Draws:
    """Water that leaves a pot as vapour below the boil.

    Parameters
    ----------
    temperature : float or (n,) array
        Of the contents, up to `boil`. [K]
    boil : float or (n,) array
        Boiling point at the room's pressure. [K]
    pot : Pot
        The vessel; a lid lets only `leaks.lid` of it pass.
    room : Room
        The air above it.
    leaks : Leaks
        What is uncertain.

    Returns
    -------
    float or (n,) array
        Mass per time. [kg/s]
    """
    surface = np.minimum(temperature, boil - NEAR_BOIL.value)
    flux = evaporation.open_flux(surface, pot.diameter, room, leaks.between)
    return flux * pot.mouth * (leaks.lid if pot.covered else 1.0)


def near_boil(temperature: float | Draws, boil: float | Draws) -> tuple[Flag, ...]:
    """Flags of a temperature at which evaporation is held at that of a cooler surface.

    Parameters
    ----------
    temperature : float or (n,) array
        Of the contents at their hottest. [K]
    boil : float or (n,) array
        Boiling point. [K]

    Returns
    -------
    tuple of Flag
        A note within `NEAR_BOIL` of the boil.
    """
    if printed_ends(temperature - boil)[1] <= -NEAR_BOIL.value:
        return ()
    return (
        Flag(
            "near-boil",
            f"within {NEAR_BOIL.value:g} °C of the boil the published estimates of evaporation "
            f"end; it is counted as it is {NEAR_BOIL.value:g} °C below.",
            "note",
        ),
    )
