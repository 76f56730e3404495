"""Accounts of a food or a factor: what the tables hold about it, every figure with its source."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any

from counterproof.draws import Range, Streams
from counterproof.footprint.factors import factor_parameter, valued
from counterproof.reading.allergen_schemes import SCHEMES, name_under
from counterproof.rows import Factor, FactorStage, Food, FoodName, Link, Provenance, Tables


@dataclass(frozen=True, slots=True)
class LinkAccount:
    """A food's factor in one set, and what a kilogram of the food is worth by it. [kg CO2e/kg]"""

    link: Link
    factors: tuple[Factor, ...]
    worth: Range


@dataclass(frozen=True, slots=True)
class FoodAccount:
    """All that is known of a food.

    `tables` holds its rows by the name of their table, in the order in which they are told.
    """

    food: Food
    names: tuple[FoodName, ...]  # with what each says beyond the food
    rows: Mapping[str, tuple[Any, ...]]
    links: tuple[LinkAccount, ...]
    own: bool

    def to_dict(self, tables: Tables) -> dict[str, Any]:
        """Return the JSON form.

        Parameters
        ----------
        tables : Tables
            With the source records.

        Returns
        -------
        dict
            Every figure with source, locator and how it was obtained.
        """
        return {
            "id": self.food.id,
            "name": self.food.name,
            "class": self.food.food_class,
            "kind": self.food.kind,
            "note": self.food.note,
            "own": self.own,
            "names": [
                {
                    "name": one.name,
                    "region": one.region or None,
                    "fit": one.fit or "same",
                    "others": one.others.split(),
                    "why": one.why or None,
                }
                for one in self.names
            ],
            **{
                table: [told_row(row, tables, ("food",)) for row in rows]
                for table, rows in self.rows.items()
            },
            "allergen_names": {
                scheme: sorted(
                    {
                        told
                        for row in self.rows["allergens"]
                        if (told := name_under(scheme, row)) is not None
                    }
                )
                for scheme in SCHEMES
            },
            "links": [
                {
                    **told_row(one.link, tables, ("food",)),
                    "kgco2e_per_kg": one.worth.to_dict(),
                    "factors": [told_row(factor, tables) for factor in one.factors],
                }
                for one in self.links
            ],
        }


@dataclass(frozen=True, slots=True)
class FactorAccount:
    """A factor with its percentiles, its stages, and the foods it stands for. [kg CO2e per unit]"""

    factor: Factor
    worth: Range
    stages: tuple[FactorStage, ...]
    foods: tuple[tuple[str, str], ...]  # (name, fit)
    own: bool

    def to_dict(self, tables: Tables) -> dict[str, Any]:
        """Return the JSON form.

        Parameters
        ----------
        tables : Tables
            With the source records.

        Returns
        -------
        dict
            As the table has it, with the range that one purchase may have.
        """
        return {
            **told_row(self.factor, tables),
            "own": self.own,
            "kgco2e_per_unit": self.worth.to_dict(),
            "stages": [{"stage": row.stage, "kgco2e_per_unit": row.mean} for row in self.stages],
            "foods": [{"name": name, "fit": fit} for name, fit in self.foods],
        }


def told_row(row: Any, tables: Tables, without: Sequence[str] = ()) -> dict[str, Any]:
    """A table's row as a document: its fields, and its source with citation and locator.

    Parameters
    ----------
    row : row
        Any row of `rows.py`.
    tables : Tables
        With the source records.
    without : sequence of str
        Fields left out.

    Returns
    -------
    dict
        Ready to be written as JSON.
    """
    told: dict[str, Any] = {}
    for field in fields(row):
        value = getattr(row, field.name)
        if isinstance(value, Provenance):
            source = tables.sources.get(value.source)
            told["source"] = {
                "id": value.source or None,
                "citation": None if source is None else source.citation,
                "locator": value.locator,
                "obtained": value.obtained,
                "note": value.note,
            }
        elif field.name not in without:
            told[field.name] = value
    return told


def food_account(food: Food, tables: Tables, streams: Streams) -> FoodAccount:
    """All that is known of a food.

    Parameters
    ----------
    food : Food
        A food of the tables.
    tables : Tables
        All tables.
    streams : Streams
        Seed and number of draws for the ranges.

    Returns
    -------
    FoodAccount
        With every row that names it.
    """
    name = food.id
    composition, edible = tables.composition.get(name), tables.edible.get(name)
    harvest = tables.harvests.get(name)
    own = tables.own
    return FoodAccount(
        food=food,
        names=tuple(row for row in tables.names if row.food == name),
        rows={
            "household": tables.household.get(name, ()),
            "densities": tables.densities.get(name, ()),
            "edible": () if edible is None else (edible,),
            "composition": () if composition is None else (composition,),
            "yields": tables.yields.get(name, ()),
            "allergens": tables.allergens.get(name, ()),
            "seasons": tables.seasons.get(name, ()),
            "harvests": () if harvest is None else (harvest,),
        },
        links=tuple(_link_account(link, tables, streams) for link in tables.links.get(name, ())),
        own=own is not None and any(name in key[1:] for key in own.keys),
    )


def _link_account(link: Link, tables: Tables, streams: Streams) -> LinkAccount:
    worth = valued(link, tables, range_for="one-purchase")
    return LinkAccount(
        link,
        tuple(part.factor for part in worth.components),
        Range.of(worth.draws(streams), worth.mean),
    )


def factor_account(factor: Factor, tables: Tables, streams: Streams) -> FactorAccount:
    """A factor as what one purchase may be, with its stages and its foods.

    Parameters
    ----------
    factor : Factor
        A factor of the tables.
    tables : Tables
        All tables.
    streams : Streams
        Seed and number of draws.

    Returns
    -------
    FactorAccount
        Percentiles as published, or of the spread the source's grade stands for.
    """
    parameter = factor_parameter(factor, tables, range_for="one-purchase", food="")
    worth = Range.of(streams.values(parameter), parameter.distribution.mean)
    mixed = {
        key[1]
        for key, parts in tables.mixtures.items()
        if key[0] == factor.set and any(part.item == factor.item for part in parts)
    }
    foods = tuple(
        (tables.foods[link.food].name, link.fit)
        for links in tables.links.values()
        for link in links
        if link.set == factor.set and link.item in {factor.item, *mixed}
    )
    own = tables.own
    return FactorAccount(
        factor,
        worth,
        tables.stages.get((factor.set, factor.item), ()),
        foods,
        own is not None and own.has("factors", factor.set, factor.item),
    )
