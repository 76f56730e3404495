"""Questions of cold: cool, freeze, thaw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import pi
from typing import Final, Literal

from counterproof.errors import InputError
from counterproof.kitchen_questions.around import Around, Stuff, stuff
from counterproof.physics import glass, questions_cool, questions_freeze, questions_thaw
from counterproof.physics.answer import Answer
from counterproof.physics.cold_scene import Filling, Vessel, Way
from counterproof.physics.containers import Kind
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_scene import Dish, Spot, household_fridge
from counterproof.physics.exchange import Where
from counterproof.physics.headspace import Mouth, Pack
from counterproof.physics.moving_air import TABLE_FAN
from counterproof.physics.values import ZERO_CELSIUS

Thickness = Literal["thin", "thick"]
_PACKS: Final[dict[str, Pack]] = {"juices": "juice"}


@dataclass(frozen=True, slots=True)
class Served:
    """A dish as a person describes it.

    Parameters
    ----------
    food : str or None
        Its name; None for water.
    volume : float or None
        Of one vessel's contents; None where diameter and depth say it. [m³]
    vessel : Kind
        pot, tray, jar or bottle.
    diameter, depth : float or None
        Of the food in it. [m]
    covered, stirred : bool
        Whether a lid is on; whether it is stirred all along.
    flow : Thickness or None
        thin or thick; None for as the food is.
    portions : int
        How many such vessels stand side by side. [1]
    """

    food: str | None = None
    volume: float | None = None
    vessel: Kind = "pot"
    diameter: float | None = None
    depth: float | None = None
    covered: bool = True
    stirred: bool = False
    flow: Thickness | None = None
    portions: int = 1

    def dish(self, what: Stuff) -> Dish:
        """Return the dish of the physics.

        Parameters
        ----------
        what : Stuff
            The food as read.

        Returns
        -------
        Dish
            Round, with what is known of it.

        Raises
        ------
        InputError
            If its size is not said.
        """
        volume = self.volume
        if volume is None and self.diameter is not None and self.depth is not None:
            volume = pi / 4.0 * self.diameter**2 * self.depth
        if volume is None:
            raise InputError(
                "How much there is to cool is not said.",
                remedy="Give --volume 3L, or both --diameter and --depth.",
            )
        return Dish(
            volume,
            self.vessel,
            self.diameter,
            self.depth,
            self.covered,
            what.makeup,
            self.flow or ("thin" if what.liquid else "thick"),
            self.stirred,
            None,
            float(self.portions),
        )


@dataclass(frozen=True, slots=True)
class Corner:
    """Where something cools.

    Parameters
    ----------
    where : Where
        room, fridge or ice-bath.
    ambient : float or None
        Temperature there; None for the kitchen's. [K]
    fan : bool
        Whether a table fan blows over it.
    """

    where: Where = "fridge"
    ambient: float | None = None
    fan: bool = False

    def spot(self, around: Around) -> Spot:
        """Return the spot of the physics.

        Parameters
        ----------
        around : Around
            The kitchen.

        Returns
        -------
        Spot
            A fridge is one that warms, as its label and size say.

        Raises
        ------
        InputError
            If an ice bath is given another temperature.
        """
        if self.ambient is not None and self.where == "ice-bath":
            raise InputError(
                "An ice bath keeps its own temperature while ice is left.",
                remedy="Leave --ambient out.",
            )
        spot = Spot(self.where, around.place)
        if self.where == "room" and self.ambient is not None:
            spot = Spot(self.where, around.elsewhere(room=self.ambient).place)
        elif self.where == "fridge":
            spot = own_fridge(around)
            if self.ambient is not None:
                spot = replace(spot, temperature=self.ambient)
        return replace(spot, speed=TABLE_FAN.value) if self.fan else spot


def own_fridge(around: Around) -> Spot:
    """The kitchen's fridge, which warms when something hot is put in.

    Parameters
    ----------
    around : Around
        The kitchen.

    Returns
    -------
    Spot
        Its fridge.
    """
    kitchen = around.kitchen
    return household_fridge(
        around.fridge, kitchen.fridge_litres, kitchen.fridge_kwh_per_year, around.place
    )


def cool(
    served: Served,
    around: Around,
    corner: Corner,
    *,
    start: float | None = None,
    authorities: Sequence[str] = ("us",),
    already: float | None = None,
    measured: Sequence[tuple[float, float]] = (),
) -> Answer:
    """Let a dish cool, held to the rules.

    Parameters
    ----------
    served : Served
        The dish.
    around : Around
        The kitchen.
    corner : Corner
        Where it cools.
    start : float or None
        Temperature at the start; None for the boil. [K]
    authorities : sequence of str
        Whose rules are asked.
    already : float or None
        Time since it passed 57 °C, where it starts below. [s]
    measured : sequence of (float, float)
        Temperatures measured since: time and temperature. [s, K]

    Returns
    -------
    Answer
        Times, verdicts, what would pass.

    Raises
    ------
    InputError
        If its size is not said.
    """
    what = stuff(served.food, around)
    asked = Cooling(
        served.dish(what),
        around.place.boil if start is None else start,
        corner.spot(around),
        what.name,
        tuple(authorities),
        already,
    )
    fridge = None if corner.where == "fridge" else own_fridge(around)
    return what.told(questions_cool.cool(asked, fridge_spot=fridge, measured=measured))


@dataclass(frozen=True, slots=True)
class Jarred:
    """A filled vessel as a person describes it.

    Parameters
    ----------
    food : str or None
        What is in it; None for water.
    volume : float
        Brimful volume, or that of the contents of a tray or pot. [m³]
    vessel : Kind
        jar, bottle, tray or pot.
    diameter : float or None
        Inner diameter. [m]
    filled : float or None
        Volume filled in; None for up to the line. [m³]
    mouth : Mouth
        wide or narrow.
    shouldered : bool
        Whether it narrows below the mouth.
    glass : str
        soda-lime, borosilicate, toughened; none for metal or plastic.
    """

    food: str | None = None
    volume: float = 473e-6
    vessel: Kind = "jar"
    diameter: float | None = None
    filled: float | None = None
    mouth: Mouth = "wide"
    shouldered: bool = False
    glass: str | None = None

    def read(self, around: Around) -> tuple[Filling, Vessel, Stuff]:
        """Return filling and vessel of the physics, and how the food was read.

        Parameters
        ----------
        around : Around
            Tables and kitchen.

        Returns
        -------
        tuple of (Filling, Vessel, Stuff)
            Jars and bottles are of soda-lime glass, trays and pots of none, if not said.
        """
        what = stuff(self.food, around)
        usual: glass.Kind | None = "soda-lime" if self.vessel in {"jar", "bottle"} else None
        kinds: dict[str | None, glass.Kind | None] = {None: usual, "none": None}
        kinds |= {kind: kind for kind in glass.LIMIT}
        filling = Filling(what.name, what.makeup, what.sugar, what.liquid)
        vessel = Vessel(
            self.volume,
            self.vessel,
            self.diameter,
            self.mouth,
            self.shouldered,
            _PACKS.get(what.food_class, "liquid"),
            kinds[self.glass],
            self.filled,
        )
        return filling, vessel, what


def freeze(
    jarred: Jarred,
    around: Around,
    *,
    start: float | None = None,
    freezer: float | None = None,
    until: float | None = None,
    wanted_time: float | None = None,
) -> Answer:
    """Freeze a filled vessel.

    Parameters
    ----------
    jarred : Jarred
        Vessel and contents.
    around : Around
        The kitchen.
    start : float or None
        Temperature when it goes in; None for that of the fridge. [K]
    freezer : float or None
        Temperature of the freezer; None for the kitchen's. [K]
    until : float or None
        Temperature its core shall reach; None for the usual one. [K]
    wanted_time : float or None
        Time it may take: then the largest vessel is part of the answer. [s]

    Returns
    -------
    Answer
        Time, room for the ice, fill line, plan in stages.
    """
    filling, vessel, what = jarred.read(around)
    answer = questions_freeze.freeze(
        filling,
        vessel,
        start=around.fridge if start is None else start,
        freezer=around.freezer if freezer is None else freezer,
        until=until,
        way=Way(around.place.room, around.fridge),
        wanted_time=wanted_time,
        take=around.take,
    )
    return what.told(answer)


def thaw(
    jarred: Jarred,
    around: Around,
    where: questions_thaw.Where = "fridge",
    *,
    start: float | None = None,
    ambient: float | None = None,
    power: float | None = None,
    available: float | None = None,
) -> Answer:
    """Thaw a frozen vessel.

    Parameters
    ----------
    jarred : Jarred
        Vessel and contents.
    around : Around
        The kitchen.
    where : Where
        fridge, water, microwave or counter.
    start : float or None
        Temperature of the frozen contents; None for that of the freezer. [K]
    ambient : float or None
        Temperature of the place; None for the kitchen's. [K]
    power : float or None
        Rated output of the microwave oven. [W]
    available : float or None
        Time there is. [s]

    Returns
    -------
    Answer
        Time, and when to start.
    """
    filling, vessel, what = jarred.read(around)
    usual = {
        "fridge": around.fridge,
        "counter": around.place.room,
        "water": ZERO_CELSIUS + around.kitchen.tap_celsius,
    }
    answer = questions_thaw.thaw(
        filling,
        vessel,
        where=where,
        start=around.freezer if start is None else start,
        ambient=usual.get(where) if ambient is None else ambient,
        output=power,
        available=available,
        take=around.take,
    )
    return what.told(answer)
