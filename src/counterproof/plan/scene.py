"""The kitchen and the pot as the physics knows them, from a reading and the food tables."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from counterproof.physics import food_properties, hob
from counterproof.physics.food_properties import Makeup
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place, Ring
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.pot import first_named, is_in_pot, named_lines, said_of
from counterproof.reading.model import Constituent, MarkedLine, MarkedStep, Reading
from counterproof.recipe.kitchen import Vessel
from counterproof.rows import Composition, Tables

WATER = "water & ice"
LIKE_VEGETABLES: Makeup = {"water": 0.88, "carbohydrate": 0.12}
"""Makeup of a food whose composition is not known: assumed, most of what is cooked is near it."""


@dataclass(frozen=True)
class Scene:
    """A reading with the tables beside it: what is where, in terms of heat.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    tables : Tables
        Composition of the foods.
    first : mapping of int to int or None
        At which step each line is named first.
    """

    reading: Reading
    tables: Tables
    first: Mapping[int, int | None]

    @classmethod
    def of(cls, reading: Reading, tables: Tables) -> Scene:
        """Return the scene of a reading.

        Parameters
        ----------
        reading : Reading
            The recipe as understood.
        tables : Tables
            Composition of the foods.

        Returns
        -------
        Scene
            With every line's first mention looked up.
        """
        return cls(reading, tables, first_named(reading))

    @property
    def place(self) -> Place:
        """Room and height above the sea."""
        kitchen = self.reading.kitchen
        return Place(ZERO_CELSIUS + kitchen.room_celsius, kitchen.altitude_m)

    @property
    def tap(self) -> float:
        """Temperature of what goes into the pot: tap water, food from the larder. [K]"""
        return ZERO_CELSIUS + self.reading.kitchen.tap_celsius

    @property
    def carrier(self) -> str:
        """What the hob burns or draws."""
        return hob.CARRIER[self.reading.kitchen.hob]

    def ring(self, litres: float, *, covered: bool, share: float = 1.0) -> Ring:
        """Return the hob's ring with a pot that holds so much.

        Parameters
        ----------
        litres : float
            What is in the pot. [L]
        covered : bool
            Whether a lid is on.
        share : float
            Share of full power, 0 to 1. [1]

        Returns
        -------
        Ring
            With the cook's own pot where the kitchen names one that fits.
        """
        kitchen = self.reading.kitchen
        pot = _fitting(kitchen.vessels, litres)
        return Ring(
            kitchen.hob,
            kitchen.hob_watts * share,
            covered,
            pot.diameter_m if pot else None,
            pot.empty_kg if pot else None,
        )

    def in_pot(self, step: MarkedStep) -> tuple[Constituent, ...]:
        """Return the foods in the pot when a step is under way.

        Parameters
        ----------
        step : MarkedStep
            The step.

        Returns
        -------
        tuple of Constituent
            Those with a mass.
        """
        number = step.written.number
        return _weighed(
            line
            for line in self.reading.lines
            if is_in_pot(line, self.first[line.written.number], number)
        )

    def named(self, step: MarkedStep, kind: str) -> tuple[Constituent, ...]:
        """Return the foods named in the sentences of a step that tell of a process.

        Parameters
        ----------
        step : MarkedStep
            The step.
        kind : str
            Kind of the process.

        Returns
        -------
        tuple of Constituent
            Those with a mass.
        """
        named = named_lines(said_of(step, kind), self.reading.lines)
        return _weighed(line for line in self.reading.lines if line.written.number in named)

    def contents(self, parts: Iterable[Constituent]) -> Contents:
        """Return foods as contents of a pot: water by itself, the rest as one mixed food.

        Parameters
        ----------
        parts : iterable of Constituent
            Foods with their masses.

        Returns
        -------
        Contents
            At the mean of every mass. [kg]
        """
        water = 0.0
        shares: dict[str, float] = {}
        for part in parts:
            mass = part.mass.mean if part.mass is not None else 0.0
            if part.food.food_class == WATER:
                water += mass
                continue
            for name, share in self._makeup(part.food.id).items():
                shares[name] = shares.get(name, 0.0) + mass * float(share)
        food = sum(shares.values())
        if food <= 0.0:
            return Contents(water)
        makeup = food_properties.makeup({name: share / food for name, share in shares.items()})
        return Contents(water, food, makeup)

    def _makeup(self, food: str) -> Makeup:
        made_of = self.tables.composition.get(food)
        return LIKE_VEGETABLES if made_of is None else _components(made_of)


def _weighed(lines: Iterable[MarkedLine]) -> tuple[Constituent, ...]:
    return tuple(part for line in lines for part in line.constituents if part.mass is not None)


def _components(made_of: Composition) -> Makeup:
    """Fractions of what is reported, alcohol counted as water; see `food_properties.makeup`."""
    fibre = made_of.fibre_g or 0.0
    reported = {
        "water": (made_of.water_g or 0.0) + (made_of.alcohol_g or 0.0),
        "protein": made_of.protein_g or 0.0,
        "fat": made_of.fat_g or 0.0,
        "carbohydrate": max((made_of.carbohydrate_g or 0.0) - fibre, 0.0),
        "fibre": fibre,
        "ash": made_of.ash_g or 0.0,
    }
    total = sum(reported.values())
    if total < 50.0:  # too little is reported to say what the food is made of
        return LIKE_VEGETABLES
    return {name: share / total for name, share in reported.items() if share}


def _fitting(vessels: tuple[Vessel, ...], litres: float) -> Vessel | None:
    """The smallest of the cook's pots that holds so much; flat things and jars are no pots."""
    pots = [pot for pot in vessels if pot.litres and pot.diameter_m and pot.litres >= litres]
    pots = [pot for pot in pots if not any(word in pot.name for word in ("jar", "tray", "tin"))]
    return min(pots, key=lambda pot: pot.litres or 0.0, default=None)
