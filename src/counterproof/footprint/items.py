"""What a batch is charged for: an amount of something, times what a unit of it is worth."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import log
from typing import Literal

from counterproof.draws import Draws, Lognormal, Parameter, Product, Streams
from counterproof.footprint.factors import RangeFor, Valued, base_link, best_link, valued
from counterproof.footprint.season import season_of
from counterproof.plan.model import Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import STAGES, EnergyFactor, FactorSet, Stage, Tables

WORLD = "world"
"""Region whose energy factors stand in where a kitchen's own region has none."""


@dataclass(frozen=True, slots=True)
class Carried:
    """What stands for a kWh of an energy carrier.

    Parameters
    ----------
    factor : EnergyFactor
        The row used. [kg CO2e per kWh]
    stage : Stage
        Where it is charged.
    """

    factor: EnergyFactor
    stage: Stage

    @property
    def parameter(self) -> Parameter:
        """Keyed parameter. [kg CO2e per kWh]"""
        row = self.factor
        return Parameter(
            f"energy|{row.carrier}|{row.region}", Lognormal(row.kgco2e_per_kwh, log(row.spread))
        )

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        """The one parameter, as foods have several."""
        return (self.parameter,)

    @property
    def mean(self) -> float:
        """Expected kg CO2e per kWh."""
        return self.factor.kgco2e_per_kwh

    @property
    def stages(self) -> tuple[float, ...]:
        """Mean by stage, in the order of `rows.STAGES`. [kg CO2e per kWh]"""
        return tuple(self.mean if stage == self.stage else 0.0 for stage in STAGES)

    def draws(self, streams: Streams) -> Draws:
        """Return the draws of kg CO2e per kWh.

        Parameters
        ----------
        streams : Streams
            Seed, number of draws, and the draws already made.

        Returns
        -------
        (n,) array
            Shared and read-only. [kg CO2e per kWh]
        """
        return streams.values(self.parameter)


@dataclass(frozen=True, slots=True)
class Item:
    """An amount of something, whole batch, and what a unit of it is worth.

    Parameters
    ----------
    kind : {"line", "energy"}
        Whether an ingredient line or an energy use is charged.
    name : str
        What it is, for people.
    number : int or None
        The line's or the step's number.
    food : str
        Food.id, or "".
    amount : Product
        On the mass basis of the factor, whole batch. [kg or kWh]
    worth : Valued or Carried
        What a unit is worth. [kg CO2e per kg or kWh]
    mass : float
        Mean edible mass of a food, 0 for energy. [kg]
    """

    kind: Literal["line", "energy"]
    name: str
    number: int | None
    food: str
    amount: Product
    worth: Valued | Carried
    mass: float = 0.0

    @property
    def mean(self) -> float:
        """Expected kg CO2e of the batch: amount and worth are independent."""
        return self.amount.mean * self.worth.mean

    @property
    def unit(self) -> str:
        """Unit of the amount."""
        return "kg" if self.kind == "line" else "kWh"

    @property
    def stage(self) -> str:
        """Stage it is charged at; a food's factor spans several."""
        return "production to retail" if isinstance(self.worth, Valued) else self.worth.stage

    @property
    def source(self) -> str:
        """Source.id of its factor."""
        worth = self.worth
        row = worth.components[0].factor if isinstance(worth, Valued) else worth.factor
        return row.provenance.source

    @property
    def factor(self) -> str:
        """The factor used, for people."""
        if isinstance(self.worth, Valued):
            link, first = self.worth.link, self.worth.components[0].factor
            season = self.worth.season
            told = "" if season is None else f", × {season.row.ratio:.2g} {season.row.condition}"
            return f"{link.item}, {link.set} set, per {first.unit} {first.basis}{told}".strip()
        row = self.worth.factor
        return f"{row.carrier}, {row.region}, per kWh"

    @property
    def identity(self) -> tuple[str, ...]:
        """What the item is, whatever its place: sums run in this order."""
        keys = [parameter.key for parameter in self.amount.parameters]
        return (self.kind, self.name, self.food, repr(self.amount.scale), *keys)


@dataclass(frozen=True, slots=True)
class Uncounted:
    """A line, or one food of a line, without a figure, and why."""

    number: int
    as_written: str
    food: str  # what the food is called, or ""
    why: Literal["no mass", "no food", "no factor"]


Preference = FactorSet | Mapping[str, FactorSet] | None
"""A set for all foods, a set for some (by Food.id), or each food's own base."""


def line_items(
    line: MarkedLine,
    tables: Tables,
    kitchen: Kitchen,
    *,
    range_for: RangeFor,
    factor_set: Preference = None,
) -> tuple[list[Item], list[Uncounted]]:
    """What an ingredient line is charged for.

    Parameters
    ----------
    line : MarkedLine
        The line as understood.
    tables : Tables
        All tables.
    kitchen : Kitchen
        Its region and month tell what is in season.
    range_for : RangeFor
        one-purchase or the-average.
    factor_set : Preference
        The set to value it in.

    Returns
    -------
    tuple of list of Item and list of Uncounted
        One of either for each food of the line; at least one in all.
    """
    number, text = line.written.number, line.written.text
    items: list[Item] = []
    uncounted: list[Uncounted] = []
    if not line.constituents:
        uncounted.append(Uncounted(number, text, "", "no food"))
    for part in line.constituents:
        food, name = part.food.id, part.food.name
        wanted = factor_set.get(food) if isinstance(factor_set, Mapping) else factor_set
        link = base_link(food, tables) if wanted is None else best_link(food, wanted, tables)
        if part.mass is None:
            uncounted.append(Uncounted(number, text, name, "no mass"))
        elif link is None:
            uncounted.append(Uncounted(number, text, name, "no factor"))
        else:
            worth = replace(
                valued(link, tables, range_for=range_for),
                season=season_of(line, food, kitchen, tables),
            )
            amount = (part.purchased if worth.as_bought else None) or part.mass
            items.append(Item("line", name, number, food, amount, worth, part.mass.mean))
    return items, uncounted


def energy_factor(carrier: str, region: str, tables: Tables) -> EnergyFactor | None:
    """Energy factor of a kitchen's region, of the world where the region has none.

    Parameters
    ----------
    carrier : str
        "electricity" or "gas".
    region : str
        The kitchen's region.
    tables : Tables
        All tables.

    Returns
    -------
    EnergyFactor or None
        None where neither is known. [kg CO2e per kWh]
    """
    return tables.energy.get((carrier, region)) or tables.energy.get((carrier, WORLD))


def energy_items(plan: Plan, reading: Reading, tables: Tables) -> tuple[list[Item], list[str]]:
    """What the steps and the storage are charged for, and what had to be assumed.

    Parameters
    ----------
    plan : Plan
        How the recipe is carried out.
    reading : Reading
        The recipe as understood; its kitchen names the region.
    tables : Tables
        All tables.

    Returns
    -------
    tuple of list of Item and list of str
        The items; one plain sentence for each assumption.
    """
    items: list[Item] = []
    said: dict[str, None] = {}
    region = reading.kitchen.region
    for use in plan.energy:
        factor = energy_factor(use.carrier, region, tables)
        if factor is None:
            said[f"No {use.carrier} factor is known for {region}: its use is not counted."] = None
            continue
        if factor.region != region:
            said[f"No {use.carrier} factor is known for {region}: the world's stands in."] = None
        if factor.lacks:
            said[f"The {use.carrier} factor for {factor.region} leaves out {factor.lacks}."] = None
        items.append(Item("energy", use.name, use.step, "", use.kwh, Carried(factor, use.stage)))
    return items, list(said)
