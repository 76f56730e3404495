"""The kitchen and the pot as the physics knows them, from a reading and the food tables."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from counterproof.kitchen_physics import WATER, fitting_pot, makeup_of, place_of
from counterproof.physics import food_properties, hob
from counterproof.physics.food_properties import Makeup
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place, Ring
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.pot import first_named, is_in_pot, named_lines, said_of
from counterproof.reading.model import Constituent, MarkedLine, MarkedStep, Reading
from counterproof.rows import Food, Tables


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
    makeups : dict
        What foods asked for already are made of, by Food.id; it grows.
    """

    reading: Reading
    tables: Tables
    first: Mapping[int, int | None]
    makeups: dict[str, Makeup] = field(default_factory=dict, compare=False, repr=False)

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

    @cached_property
    def place(self) -> Place:
        """Room and height above the sea."""
        return place_of(self.reading.kitchen)

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
        pot = fitting_pot(kitchen, litres)
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
        return self.mixed((part.food, part.mass.mean) for part in parts if part.mass is not None)

    def mixed(self, foods: Iterable[tuple[Food, float]]) -> Contents:
        """Return weighed foods as contents of a pot.

        Parameters
        ----------
        foods : iterable of (Food, float)
            Foods, each with its mass. [kg]

        Returns
        -------
        Contents
            Water by itself, the rest as one mixed food. [kg]
        """
        water = 0.0
        shares: dict[str, float] = {}
        for food, mass in foods:
            if food.food_class == WATER:
                water += mass
                continue
            made_of = self.makeups.get(food.id)
            if made_of is None:
                made_of = self.makeups[food.id] = makeup_of(food.id, self.tables)
            for name, share in made_of.items():
                shares[name] = shares.get(name, 0.0) + mass * float(share)
        held = sum(shares.values())
        if held <= 0.0:
            return Contents(water)
        makeup = food_properties.makeup({name: share / held for name, share in shares.items()})
        return Contents(water, held, makeup)


def _weighed(lines: Iterable[MarkedLine]) -> tuple[Constituent, ...]:
    return tuple(part for line in lines for part in line.constituents if part.mass is not None)
