"""What a question about freezing or thawing is asked of: a filling, its vessel, a cold place."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import pi
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frozen
from counterproof.physics import glass as glassware
from counterproof.physics.answer import Curve, Verdict
from counterproof.physics.containers import Kind, container
from counterproof.physics.enthalpy_method import History
from counterproof.physics.flags import Flag, outside
from counterproof.physics.food_properties import WATER, Makeup
from counterproof.physics.freezing import MELT_MOVES, Passage, Task
from counterproof.physics.freezing_point import freezing_point
from counterproof.physics.headspace import Fill, Jar, Mouth, Pack, expansion, fill
from counterproof.physics.surroundings import FLOW, Place, Round, coefficient
from counterproof.physics.values import ZERO_CELSIUS, Draws, Take
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping


_CURVE_POINTS: Final = 60
_ROUGH: Final = 0.05  # an interpolant worse than this is said aloud
SOLVED_BY: Final = ("choi-okos-1986", "ashrae-refrigeration-2006", "churchill-chu-1975")
"""Sources behind every answer of the solver."""
SWING: Final[dict[Place, Sourced]] = {
    "freezer": Sourced(1.0, "1", 0.10, "assumed", "", "freezers stray by 2 °C from their setting"),
    "fridge": Sourced(1.0, "1", 0.25, "assumed", "", "fridges stray by 1 °C from their setting"),
    "counter": Sourced(1.0, "1", 0.07, "assumed", "", "a room strays by 1 to 2 °C over a day"),
    "water": Sourced(1.0, "1", 0.10, "assumed", "", "the water cools between its changes"),
}
"""Difference between the freezing point and the surroundings, real over stated."""
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
        known = self.begins is not None or self.sugar > 0.0 or self.makeup is WATER
        return moves if known else (*moves, frozen.FREEZING_POINT)


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


@dataclass(frozen=True, slots=True)
class Around:
    """Surroundings as the solver takes them.

    Parameters
    ----------
    ambient : float or (n,) array
        Temperature. [K]
    coefficient : float or (n,) array
        Heat transfer. [W/(m² K)]
    conducting : float or (n,) array
        Factor on the conductivity of the contents. [1]
    """

    ambient: float | Draws
    coefficient: float | Draws
    conducting: float | Draws


def around(
    place: Place, ambient: float, body: Round, filling: Filling, *, glass: bool, take: Take
) -> Around:
    """Surroundings with what is uncertain about them.

    Parameters
    ----------
    place : Place
        freezer, fridge, counter or water.
    ambient : float
        Its temperature. [K]
    body : Round
        Size of the contents.
    filling : Filling
        The contents.
    glass : bool
        Whether a wall of glass lies between.
    take : Take
        Where draws come from.

    Returns
    -------
    Around
        Temperature, heat transfer, conductivity.
    """
    begins = filling.freezing_point
    # The outside stays between the freezing point and the surroundings, nearer to the former.
    surface = begins + 0.25 * (ambient - begins)
    middle = coefficient(body, surface, ambient, place, glass=glass)
    gap = take(f"{place}|difference", SWING[place])
    flow = take(f"{place}|flow", FLOW)
    conducting = take("food conductivity", food_properties.CONDUCTIVITY_SPREAD)
    return Around(begins + gap * (ambient - begins), middle * flow, conducting)


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


def shocks(vessel: Vessel, glass: float, meets: float, what: str) -> tuple[Verdict, ...]:
    """What a sudden change of temperature says to a vessel.

    Parameters
    ----------
    vessel : Vessel
        The vessel.
    glass : float
        Its temperature. [K]
    meets : float
        Temperature it is put into. [K]
    what : str
        What happens, as a cook says it.

    Returns
    -------
    tuple of Verdict
        One if it is of glass.
    """
    if vessel.glass is None:
        return ()
    return (glassware.shock(vessel.glass, glass, meets, what),)


def core_curve(history: History) -> Curve:
    """The core's temperature over time, thinned out.

    Parameters
    ----------
    history : History
        A middle case.

    Returns
    -------
    Curve
        At most sixty points.
    """
    count = history.time.shape[0]
    at = np.unique(np.linspace(0, count - 1, min(count, _CURVE_POINTS)).astype(int))
    return Curve.of(history.time[at, 0], history.core[at, 0])


def remarks(task: Task, coldest: float, done: Passage) -> tuple[Flag, ...]:
    """Flags of a freezing or thawing.

    Parameters
    ----------
    task : Task
        What was frozen or thawed.
    coldest : float
        Coldest temperature in it. [K]
    done : Passage
        How it went.

    Returns
    -------
    tuple of Flag
        Ranges that were left; an interpolant worse than 5 %.
    """
    flags = frozen.validity(coldest) + outside(
        "start temperature", task.start, ZERO_CELSIUS - 40.0, ZERO_CELSIUS + 100.0, "°C"
    )
    if done.error > _ROUGH:
        flags += (
            Flag(
                "interpolant",
                f"the surface that carries the draws is off by up to {done.error:.0%}.",
            ),
        )
    return flags
