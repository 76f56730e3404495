"""What a batch is charged for: an amount of something, times what a unit of it is worth."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from counterproof.draws import Product
from counterproof.footprint.activities import Rated, energy_factor, rated_energy
from counterproof.footprint.factors import RangeFor, Valued, base_link, best_link, valued
from counterproof.footprint.season import season_of
from counterproof.plan.model import EnergyUse
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import FactorSet, Stage, Tables
from counterproof.ways import Way

APART = ("heat", "keeping", "packs", "carriage", "fizz", "waste", "asked for")
"""What stands beside no line and no step, in the order in which it is told."""


@dataclass(frozen=True, slots=True)
class Item:
    """An amount of something, whole batch, and what a unit of it is worth.

    Parameters
    ----------
    kind : {"line", "energy", "activity"}
        Whether an ingredient line, an energy use or anything else is charged.
    name : str
        What it is, for people.
    number : int or None
        The line's or the step's number.
    food : str
        Food.id, or "".
    amount : Product
        On the mass basis of the factor, whole batch. [unit of the worth]
    worth : Valued or Rated
        What a unit is worth. [kg CO2e per kg, kWh, t·km]
    mass : float
        Mean edible mass of a food, 0 for all else. [kg]
    way : tuple of Way
        To the plain number of the amount, where it is no food's.
    apart : str
        What it belongs to where it stands beside no line and no step: one of `APART`; else "".
    """

    kind: Literal["line", "energy", "activity"]
    name: str
    number: int | None
    food: str
    amount: Product
    worth: Valued | Rated
    mass: float = 0.0
    way: tuple[Way, ...] = ()
    apart: str = ""

    @property
    def mean(self) -> float:
        """Expected kg CO2e of the batch: amount and worth are independent."""
        return self.amount.mean * self.worth.mean

    @property
    def unit(self) -> str:
        """Unit of the amount."""
        return "kg" if isinstance(self.worth, Valued) else self.worth.unit

    @property
    def stage(self) -> str:
        """Stage it is charged at; a food's factor spans several."""
        return "production to retail" if isinstance(self.worth, Valued) else self.worth.stage

    @property
    def source(self) -> str:
        """Source.id of its factor."""
        worth = self.worth
        if isinstance(worth, Valued):
            return worth.components[0].factor.provenance.source
        return worth.source

    @property
    def factor(self) -> str:
        """The factor used, for people."""
        if isinstance(self.worth, Valued):
            link, first = self.worth.link, self.worth.components[0].factor
            season = self.worth.season
            told = "" if season is None else f", × {season.row.ratio:.2g} {season.row.condition}"
            return f"{link.item}, {link.set} set, per {first.unit} {first.basis}{told}".strip()
        return self.worth.name

    @property
    def replaced(self) -> dict[Stage, float]:
        """What was taken out of a food's factor, by stage, whole batch. [kg CO2e]"""
        if not isinstance(self.worth, Valued):
            return {}
        return {stage: self.amount.mean * out for stage, out in self.worth.replaced.items()}

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
    purchase: str = "home",
    worths: dict[tuple[object, ...], Valued] | None = None,
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
    purchase : str
        Whose purchase it is: "home", or a bought alternative's name.
    worths : dict or None
        What links were worth already, on the same tables; it grows.

    Returns
    -------
    tuple of list of Item and list of Uncounted
        One of either for each food of the line; at least one in all.
    """
    number, text = line.written.number, line.written.text
    known = {} if worths is None else worths
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
            told = (link, range_for, purchase)
            worth = known.get(told)
            if worth is None:
                worth = valued(link, tables, range_for=range_for, purchase=purchase)
                known[told] = worth
            season = season_of(line, food, kitchen, tables)
            worth = worth if season is None else replace(worth, season=season)
            amount = (part.purchased if worth.as_bought else None) or part.mass
            items.append(Item("line", name, number, food, amount, worth, part.mass.mean))
    return items, uncounted


def energy_items(
    uses: Iterable[EnergyUse], reading: Reading, tables: Tables
) -> tuple[list[Item], list[str]]:
    """What the steps and the storage are charged for, and what had to be assumed.

    Parameters
    ----------
    uses : iterable of EnergyUse
        What steps and storage take.
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
    shared = reading.recipe.oven_shared_by
    for use in uses:
        factor = energy_factor(use.carrier, region, tables)
        if factor is None:
            said[f"No {use.carrier} factor is known for {region}: its use is not counted."] = None
            continue
        if factor.region != region:
            stands = "the world's" if factor.region == "world" else f"that of {factor.region}"
            said[f"No {use.carrier} factor is known for {region}: {stands} stands in."] = None
        if factor.lacks:
            said[f"The {use.carrier} factor for {factor.region} leaves out {factor.lacks}."] = None
        kwh, way = use.kwh, use.way
        if shared != 1 and use.appliance == "oven":
            kwh = kwh.scaled(1 / shared)
            way = (*way, Way("dishes", shared, "", "oven", divides=True)) if way else ()
            said[f"The oven holds {shared:g} dishes, and each bears an equal part of its heat."] = (
                None
            )
        apart = "" if use.step else "keeping" if use.stage == "home storage" else "heat"
        worth = rated_energy(factor, use.stage)
        items.append(Item("energy", use.name, use.step, "", kwh, worth, way=way, apart=apart))
    return items, list(said)
