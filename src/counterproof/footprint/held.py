"""What valuations have in common: the draws of items and their sums, worked out once.

A version of a recipe costs no more than what it changes: an item that stands in both has the
same row, and a row, its range and its variance are made once for all that is compared.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from counterproof.draws import Draws, Range, Streams
from counterproof.footprint.beyond import Beyond
from counterproof.footprint.factors import Valued, base_link, best_link
from counterproof.footprint.items import Item, Preference, Uncounted
from counterproof.footprint.model import Row, Valuation, stacked
from counterproof.nutrition import Function
from counterproof.reading.model import Reading
from counterproof.rows import FactorSet, Tables


@dataclass(frozen=True)
class Summed:
    """Items in an order of their own, so that moving a line moves no digit of their sum.

    Parameters
    ----------
    ordered : list of Item
        The items.
    rows : list of Row
        Of one serving, in the same order. [kg CO2e]
    total : (n,) array
        Sum of the draws. [kg CO2e]
    mean : float
        Sum of the means. [kg CO2e]
    """

    ordered: list[Item]
    rows: list[Row]
    total: Draws
    mean: float

    @cached_property
    def amounts(self) -> Draws:
        """Draws of every amount, of one serving. [unit of each item]"""
        return stacked([row.amount for row in self.rows], len(self.total))

    @cached_property
    def range(self) -> Range:
        """The sum of them all. [kg CO2e]"""
        return Range.of(self.total, self.mean)

    def of(self, items: Sequence[Item]) -> list[Row]:
        """Return the rows of the same items in another order.

        Parameters
        ----------
        items : sequence of Item
            The same items, in any order.

        Returns
        -------
        list of Row
            In the order of `items`. [kg CO2e]
        """
        held = {id(item): row for item, row in zip(self.ordered, self.rows, strict=True)}
        return [held[id(item)] for item in items]


@dataclass(frozen=True)
class Held:
    """What valuations on the same tables and streams have in common, worked out once.

    By identity of readings and lines: it keeps hold of the readings, and whoever holds it holds
    the tables.
    """

    readings: dict[int, Reading] = field(default_factory=dict)
    around: dict[int, Beyond] = field(default_factory=dict)
    functions: dict[int, Function] = field(default_factory=dict)
    lines: dict[tuple[object, ...], tuple[list[Item], list[Uncounted], list[str]]] = field(
        default_factory=dict
    )
    in_base: dict[tuple[str, FactorSet], bool] = field(default_factory=dict)
    worths: dict[tuple[object, ...], Valued] = field(default_factory=dict)
    rows: dict[tuple[object, ...], Row] = field(default_factory=dict)
    valuations: dict[tuple[object, ...], Valuation] = field(default_factory=dict)

    def of_reading(self, reading: Reading) -> int:
        """Return what a reading goes by, and keep hold of it.

        Parameters
        ----------
        reading : Reading
            A recipe as understood.

        Returns
        -------
        int
            The same for the same object only.
        """
        self.readings[id(reading)] = reading
        return id(reading)

    def chosen(self, preference: Preference, foods: Iterable[str], tables: Tables) -> Preference:
        """Return a preference without what says nothing: foods that stand in that set anyway.

        Parameters
        ----------
        preference : Preference
            A set for all foods, a set for some by Food.id, or None.
        foods : iterable of str
            Food.id of what is valued.
        tables : Tables
            With the links of foods to sets.

        Returns
        -------
        Preference
            Equal ones lead to equal items.
        """
        if not isinstance(preference, Mapping):
            return preference
        return {
            food: preference[food]
            for food in dict.fromkeys(foods)
            if food in preference and not self._in_base(food, preference[food], tables)
        }

    def _in_base(self, food: str, factor_set: FactorSet, tables: Tables) -> bool:
        known = self.in_base.get((food, factor_set))
        if known is None:
            known = best_link(food, factor_set, tables) is base_link(food, tables)
            self.in_base[food, factor_set] = known
        return known

    def row(self, item: Item, serves: float, streams: Streams) -> Row:
        """Return what an item adds to one serving.

        Parameters
        ----------
        item : Item
            Of the whole batch.
        serves : float
            Servings eaten, > 0. [servings]
        streams : Streams
            Seed, number of draws, and the draws already made.

        Returns
        -------
        Row
            The same object for all items that are the same thing. [kg CO2e]
        """
        name = (item.amount, serves, item.worth.drawn_from)
        found = self.rows.get(name)
        if found is None:
            amount = item.amount.draws(streams)
            amount /= serves
            drawn = amount * item.worth.draws(streams)
            found = self.rows[name] = Row(amount, drawn, item.mean / serves, name, streams)
        return found


def summed(items: Sequence[Item], serves: float, streams: Streams, held: Held) -> Summed:
    """The draws of every item, of one serving, and their sum.

    Parameters
    ----------
    items : sequence of Item
        All that a batch is charged for.
    serves : float
        Servings eaten, > 0. [servings]
    streams : Streams
        Seed, number of draws, and the draws already made.
    held : Held
        What was worked out already; it grows.

    Returns
    -------
    Summed
        [kg CO2e]
    """
    ordered = sorted(items, key=lambda item: item.identity)
    rows = [held.row(item, serves, streams) for item in ordered]
    total = np.zeros(streams.n)
    for row in rows:
        total += row.drawn
    return Summed(ordered, rows, total, sum(row.mean for row in rows))
