"""What is frozen or thawed, the vessel it is in, and what it passes on the way to the freezer."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import pi
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frozen
from counterproof.physics import glass as glassware
from counterproof.physics.containers import Kind, constants, container
from counterproof.physics.flags import Flag
from counterproof.physics.food_properties import WATER, Makeup
from counterproof.physics.freezing import MELT_MOVES
from counterproof.physics.freezing_point import CRYOSCOPIC, HELD_WATER, freezing_point
from counterproof.physics.freezing_point import validity as sugar_validity
from counterproof.physics.headspace import MOUTH_DIAMETER, Fill, Jar, Mouth, Pack, expansion, fill
from counterproof.physics.surroundings import GLASS_CONDUCTIVITY, GLASS_THICKNESS, Place, Round
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

_FATTY: Final = 0.3
USUAL: Final[dict[Place, float]] = {
    "freezer": ZERO_CELSIUS - 18.0,
    "fridge": ZERO_CELSIUS + 4.0,
    "counter": ZERO_CELSIUS + 20.0,
    "water": ZERO_CELSIUS + 15.0,
}
"""Temperature of each place where none is given, as on dials and thermometers. [K]"""


@dataclass(frozen=True, slots=True)
class Filling:
    """What is frozen or thawed.

    Parameters
    ----------
    name : str
        As a cook says it.
    makeup : Makeup
        What it is made of, unfrozen; fractions add up to 1.
    sugar : float
        Dissolved sugar, of the mass: it sets where ice begins. [1]
    thin : bool
        Whether it moves like water while it is liquid.
    begins : float or None
        Freezing point, if it is known. [K]
    """

    name: str = "water"
    makeup: Makeup = field(default_factory=lambda: WATER)
    sugar: float = 0.0
    thin: bool = True
    begins: float | None = None

    @property
    def freezing_point(self) -> float:
        """Where ice begins: given, from the sugar, or −1 °C for a moist food. [K]"""
        if self.begins is not None:
            return self.begins
        water = float(self.makeup.get("water", 0.0))
        if water > 0.995:
            return ZERO_CELSIUS - 0.01
        if self.sugar > 0.0:
            sweet = float(freezing_point(water=water, sugar=self.sugar))
            solids = 1.0 - water - self.sugar
            return sweet if solids < 0.02 else min(sweet, frozen.FREEZING_POINT.value)
        return frozen.FREEZING_POINT.value

    @property
    def mixing(self) -> float:
        """How much more heat its liquid carries than at rest. [1]"""
        return MELT_MOVES.value if self.thin else 1.0

    @property
    def constants(self) -> tuple[Sourced, ...]:
        """What it assumes."""
        moves = (MELT_MOVES,) if self.thin else ()
        if self.begins is not None or self.makeup is WATER:
            return moves
        sweet = (CRYOSCOPIC, HELD_WATER) if self.sugar > 0.0 else ()
        return (*moves, *sweet, frozen.FREEZING_POINT)

    @property
    def flags(self) -> tuple[Flag, ...]:
        """What its freezing point and its fat must say about themselves."""
        flags: tuple[Flag, ...] = ()
        if float(np.mean(self.makeup.get("fat", 0.0))) > _FATTY:
            flags += (
                Flag(
                    "fat-sets",
                    "the heat that fat gives while it sets is left out: a fatty food takes longer.",
                ),
            )
        if self.begins is None and self.sugar > 0.0:
            flags += sugar_validity(float(self.makeup.get("water", 0.0)), self.sugar, 0.0)
        return flags


@dataclass(frozen=True, slots=True)
class Vessel:
    """What it is frozen in.

    Parameters
    ----------
    volume : float
        Brimful volume of a closed vessel; of the contents in a tray or pot, > 0. [m³]
    kind : Kind
        jar, bottle, tray or pot.
    diameter : float or None
        Inner diameter; None for usual proportions. [m]
    mouth : Mouth
        wide or narrow.
    shouldered : bool
        Whether it narrows below the mouth; every bottle does.
    pack : Pack
        liquid, juice or dry.
    glass : glass.Kind or None
        soda-lime, borosilicate or toughened; None for metal or plastic.
    filled : float or None
        Volume filled in; None for up to the line, or all of an open vessel. [m³]
    """

    volume: float
    kind: Kind = "jar"
    diameter: float | None = None
    mouth: Mouth = "wide"
    shouldered: bool = False
    pack: Pack = "liquid"
    glass: glassware.Kind | None = "soda-lime"
    filled: float | None = None

    @property
    def closed(self) -> bool:
        """Whether ice has a lid above it."""
        return self.kind in {"jar", "bottle"}

    @property
    def width(self) -> float:
        """Inner diameter. [m]"""
        return float(container(self.kind, self.volume, diameter=self.diameter).diameter)

    @property
    def jar(self) -> Jar:
        """The vessel as the rules for headspace see it."""
        narrow: Mouth = "narrow" if self.kind == "bottle" else self.mouth
        shoulders = self.shouldered or self.kind == "bottle"
        return Jar(self.volume, self.width, narrow, shoulders, self.pack)

    @property
    def constants(self) -> tuple[Sourced, ...]:
        """What it assumes."""
        pot = container(self.kind, self.volume, diameter=self.diameter)
        shape = constants(self.kind, pot, sized=False)[:1] if self.diameter is None else ()
        wall = () if self.glass is None else (GLASS_THICKNESS, GLASS_CONDUCTIVITY)
        rim = (MOUTH_DIAMETER[self.jar.mouth],) if self.closed else ()
        return (*shape, *wall, *rim)

    def body(self, volume: float) -> Round:
        """Return the size of contents of a volume.

        Parameters
        ----------
        volume : float
            Of the contents, > 0, at most that of the vessel. [m³]

        Returns
        -------
        Round
            Width of the vessel, height that follows.

        Raises
        ------
        OutOfRange
            If it does not go in.
        """
        if volume > 1.0001 * self.volume:
            raise OutOfRange(
                f"{1e6 * volume:.3g} ml do not go into {1e6 * self.volume:.3g} ml.",
                remedy="Give a larger vessel or less to fill in.",
            )
        return Round(self.width, volume / (pi / 4.0 * self.width**2))

    def line(self, filling: Filling, warm: float, cold: float) -> Fill | None:
        """Return how far it may be filled.

        Parameters
        ----------
        filling : Filling
            What is in it.
        warm, cold : float
            Temperature when filled in, and frozen. [K]

        Returns
        -------
        Fill or None
            None for an open vessel.
        """
        if not self.closed:
            return None
        return fill(self.jar, expansion(filling.makeup, filling.freezing_point, warm, cold))

    def resized(self, factor: float) -> Vessel:
        """Return the same form with another volume.

        Parameters
        ----------
        factor : float
            New volume over old, > 0. [1]

        Returns
        -------
        Vessel
            Proportions kept.
        """
        wider = self.width * factor ** (1.0 / 3.0)
        return replace(self, volume=self.volume * factor, diameter=wider, filled=None)

    def inputs(self) -> Mapping[str, Any]:
        """Return what is printed of it."""
        return {
            "vessel": self.kind,
            "volume_ml": 1e6 * self.volume,
            "diameter_m": self.width,
            "mouth": self.jar.mouth if self.closed else None,
            "shouldered": self.jar.shouldered if self.closed else None,
            "glass": self.glass,
        }


@dataclass(frozen=True, slots=True)
class Way:
    """What a hot jar passes before the freezer.

    Parameters
    ----------
    room, fridge : float
        Temperatures of counter and fridge. [K]
    """

    room: float = USUAL["counter"]
    fridge: float = USUAL["fridge"]


def mass_of(filling: Filling, volume: float, temperature: float) -> float:
    """Mass of a volume of the filling.

    Parameters
    ----------
    filling : Filling
        What is in the vessel.
    volume : float
        Its volume, unfrozen. [m³]
    temperature : float
        Its temperature, unfrozen. [K]

    Returns
    -------
    float
        Mass. [kg]
    """
    return float(np.asarray(food_properties.density(filling.makeup, temperature))) * volume
