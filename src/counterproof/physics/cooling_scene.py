"""A dish, where it cools, and how fast: both models of `cooling` on the draws a verdict needs.

A thin liquid left alone lies between the mixed model (fast end) and conduction (middle and slow
end); a thick food is conducted; what is stirred is mixed, a thick food against a sluggish film.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import sqrt
from typing import Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, iced_water
from counterproof.physics import fridge as fridges
from counterproof.physics.air import Room
from counterproof.physics.boiling import pressure_at
from counterproof.physics.conduction import Body
from counterproof.physics.containers import Kind, container
from counterproof.physics.cooling import Conducted, Mixed, mixed, time_between
from counterproof.physics.cooling_lanes import Lanes
from counterproof.physics.evaporation import HUMIDITY
from counterproof.physics.exchange import Surroundings, Where, exchange
from counterproof.physics.food_properties import Makeup
from counterproof.physics.fridge import Fridge
from counterproof.physics.heating import Contents
from counterproof.physics.modes import Shape
from counterproof.physics.places import Place
from counterproof.physics.spread import Spread
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, smallest
from counterproof.physics.vessels import Leaks, Pot
from counterproof.sourced import Sourced

Flow = Literal["thin", "thick"]

SLUGGISH: Final = Sourced(
    1 / 3, "1", 0.5, "assumed", "",
    "how well a thick food gives heat to a wall it is stirred against, beside water: tens of times "
    "as viscous, and a film goes with about the third root of that",
)  # fmt: skip
BATH_SWING: Final = Sourced(1.0, "K", 0.5, "assumed", "", "an ice bath is between 0 and 2 °C")
LARGEST: Final = Sourced(
    0.06, "m³", 0.0, "assumed", "", "60 L in one vessel, the largest stock pot of a kitchen"
)
_MEAN: Final = ZERO_CELSIUS + 35.0  # where a cooling food's conductivity is taken


@dataclass(frozen=True, slots=True)
class Dish:
    """What cools, and in what.

    Parameters
    ----------
    volume : float or (n,) array
        Of food in one vessel. [m³]
    kind : Kind
        pot, tray, jar or bottle.
    diameter, depth : float or (n,) array or None
        Of the food in it, where known. [m]
    covered : bool
        Whether a lid is on.
    makeup : Makeup
        What the food is made of.
    flow : Flow
        thin as water, stock and cordial; thick as stew, purée and porridge.
    stirred : bool
        Whether it is stirred all along.
    material : str or None
        steel or glass.
    portions : float or (n,) array
        How many such vessels cool side by side. [1]
    """

    volume: float | Draws
    kind: Kind = "pot"
    diameter: float | Draws | None = None
    depth: float | Draws | None = None
    covered: bool = True
    makeup: Makeup = field(default_factory=lambda: food_properties.WATER)
    flow: Flow = "thin"
    stirred: bool = False
    material: str | None = None
    portions: float | Draws = 1.0

    @property
    def vessel(self) -> Pot:
        """The vessel."""
        return container(
            self.kind,
            self.volume,
            diameter=self.diameter,
            depth=self.depth,
            covered=self.covered,
            material=self.material,
        )

    @property
    def contents(self) -> Contents:
        """The food, by mass."""
        mass = self.volume * food_properties.density(self.makeup, _MEAN)
        if self.makeup.get("water", 0.0) == 1.0:
            return Contents(mass)
        return Contents(0.0, mass, self.makeup)


@dataclass(frozen=True, slots=True)
class Spot:
    """Where it cools.

    Parameters
    ----------
    where : Where
        room, fridge or ice-bath.
    place : Place
        The kitchen.
    temperature : float or (n,) array
        Of a fridge; a room has that of the kitchen, an ice bath its own. [K]
    fridge : Fridge or None
        The fridge that warms; None for one that does not.
    speed : float
        Speed of moved air. [m/s]
    open_below : bool or None
        Whether air reaches the bottom; None for as usual: on a fridge's shelf, not on a worktop.
    """

    where: Where = "fridge"
    place: Place = field(default_factory=Place)
    temperature: float | Draws = ZERO_CELSIUS + 4.0
    fridge: Fridge | None = None
    speed: float = 0.0
    open_below: bool | None = None

    @property
    def ambient(self) -> float | Draws:
        """Temperature of what cools. [K]"""
        if self.where == "fridge":
            return self.temperature
        return self.place.room if self.where == "room" else iced_water.BATH.value

    def surroundings(self, lanes: Lanes, *, stirred: bool) -> Surroundings:
        """Return the surroundings draw by draw.

        Parameters
        ----------
        lanes : Lanes
            The draws.
        stirred : bool
            Whether the contents are stirred.

        Returns
        -------
        Surroundings
            With the swing of a fridge or a bath; a room is as warm as said.
        """
        swing = {"fridge": fridges.SWING.value, "ice-bath": BATH_SWING.value}.get(self.where, 0.0)
        humid = fridges.HUMIDITY if self.where == "fridge" else HUMIDITY
        around = self.ambient + swing * lanes.lean
        room = Room.of(around, humid.value, pressure_at(self.place.altitude))
        below = self.where == "fridge" if self.open_below is None else self.open_below
        return Surroundings(self.where, room, self.speed, below, self.fridge, stirred)


def household_fridge(temperature: float, litres: float, kwh_per_year: float, place: Place) -> Spot:
    """A household fridge that warms when something hot is put in.

    Parameters
    ----------
    temperature : float
        Its setting. [K]
    litres : float
        Room inside. [L]
    kwh_per_year : float
        Electricity, as its label says. [kWh/year]
    place : Place
        The kitchen it stands in.

    Returns
    -------
    Spot
        Where a dish may be put.
    """
    warms = fridges.fridge_of(litres, kwh_per_year, place.room)
    return Spot("fridge", place, temperature, warms)


@dataclass(frozen=True, slots=True)
class Run:
    """A dish cooling in one place, by the models that apply.

    Parameters
    ----------
    mixed : Mixed
        As one temperature.
    conducted : Conducted or None
        By conduction; None for what is stirred.
    flow : Flow
        Whether the food is thin: then the mixed model is its fast end.
    """

    mixed: Mixed
    conducted: Conducted | None
    flow: Flow

    def until_each(self, levels: Sequence[float]) -> Draws:
        """Times until temperatures are reached, by the slower model.

        Parameters
        ----------
        levels : sequence of float
            Temperatures. [K]

        Returns
        -------
        (k, n) array
            One row a level. [s]
        """
        if self.conducted is not None:
            return self.conducted.until_each(levels)
        return np.stack([self.mixed.until(level) for level in levels])

    def spans(self, pairs: Sequence[tuple[float, float]]) -> Draws:
        """Times between pairs of temperatures, by the slower model.

        Parameters
        ----------
        pairs : sequence of (float, float)
            From and to, falling; from the start where that is below. [K]

        Returns
        -------
        (k, n) array
            One row a pair; infinite if the lower one is never reached. [s]
        """
        longest = time_between(*self._mixed_ends(pairs))
        if self.conducted is not None:
            ends = self.conducted.until_each([level for pair in pairs for level in pair])
            longest = np.maximum(longest, time_between(ends[::2], ends[1::2]))
        return longest

    def spreads(self, pairs: Sequence[tuple[float, float]]) -> list[Spread]:
        """The same as ranges, where the draws are `ENDS`.

        Parameters
        ----------
        pairs : sequence of (float, float)
            From and to, falling. [K]

        Returns
        -------
        list of Spread
            Fast end, middle, slow end of each. [s]
        """
        spans = self.spans(pairs)
        if self.flow == "thin":
            spans[:, 0] = np.minimum(spans[:, 0], time_between(*self._mixed_ends(pairs))[:, 0])
        return [Spread(*(float(time) for time in row)) for row in spans]

    def _mixed_ends(self, pairs: Sequence[tuple[float, float]]) -> tuple[Draws, Draws]:
        clocks, goals = zip(*pairs, strict=True)
        return (
            np.stack([self.mixed.until(level) for level in clocks]),
            np.stack([self.mixed.until(level) for level in goals]),
        )


def run(dish: Dish, spot: Spot, start: float | Draws, floor: float, lanes: Lanes) -> Run:
    """Let a dish cool.

    Parameters
    ----------
    dish : Dish
        What cools.
    spot : Spot
        Where.
    start : float or (n,) array
        Temperature at the start, the same all through. [K]
    floor : float
        Temperature below which nobody asks. [K]
    lanes : Lanes
        The draws.

    Returns
    -------
    Run
        Both models, or the mixed one alone for what is stirred.

    Raises
    ------
    OutOfRange
        If so much fits no vessel of a kitchen: the correlations end long before.
    """
    if not 0.0 < smallest(dish.volume) <= largest(dish.volume) <= LARGEST.value:
        raise OutOfRange(
            f"Cooling is modelled up to {1000 * LARGEST.value:.0f} L in one vessel.",
            remedy="Give what one vessel holds.",
        )
    pot, contents = dish.vessel, dish.contents
    around = spot.surroundings(lanes, stirred=dish.stirred)
    slowed = dish.stirred and dish.flow == "thick" and spot.where == "ice-bath"
    # Under stirred contents the factor counts twice (`exchange`), hence the root.
    flow = lanes.factor * (sqrt(SLUGGISH.value) if slowed else 1.0)
    leaks = Leaks(flow, lanes.evaporating, lanes.lid(dish.kind))
    table = exchange(pot, contents, around, start, leaks)
    as_one = mixed(table, start, floor, fridge=spot.fridge, portions=dish.portions)
    if dish.stirred:
        return Run(as_one, None, dish.flow)
    conducted = Conducted(
        _body(dish, pot, around, lanes),
        as_one,
        np.broadcast_to(np.asarray(start, dtype=float), table.ambient.shape),
        table.ambient,
        contents.heat_capacity(_MEAN) + pot.heat_capacity,
        table.area,
    )
    return Run(as_one, conducted, dish.flow)


def _body(dish: Dish, pot: Pot, around: Surroundings, lanes: Lanes) -> Body:
    """The food as a body whose faces are those that `exchange` counts."""
    directions: list[tuple[Shape, float | Draws]] = [("cylinder", pot.diameter / 2.0)]
    # Cooled from above and below, the middle is half way; from one side, at the other end. Iced
    # water cools from below alone.
    both = around.where != "ice-bath" and around.open_below
    directions.append(("slab", pot.depth * (0.5 if both else 1.0)))
    conductivity = food_properties.conductivity(dish.makeup, _MEAN).between * lanes.conducting
    volumetric = food_properties.density(dish.makeup, _MEAN) * food_properties.heat_capacity(
        dish.makeup, _MEAN
    )
    return Body(tuple(directions), conductivity, conductivity / volumetric)
