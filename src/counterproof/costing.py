"""What a serving costs in money: from the cook's own prices only, never from a guess."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterproof.draws import Product, Range, Streams
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.foods import Matcher
from counterproof.reading.model import Reading
from counterproof.recipe.prices_file import Prices
from counterproof.rows import Tables
from counterproof.stocked import stocked_food, stocked_mass

HOW: Final = (
    "The share of a pack that is used is charged, as bought: with peel, bones, a tin's liquid.",
    "Energy of the steps and of the planned stays in fridge and freezer, where a tariff is known.",
    "What is not eaten is paid for by what is; an oven shared by several dishes shares its heat.",
    "Water is left out of the coverage; work, rent and wear are not counted.",
)


@dataclass(frozen=True, slots=True)
class Cost:
    """What one serving costs, as far as prices are known.

    Parameters
    ----------
    per_serving : Range
        Of what has a price; its spread is that of the amounts. [currency]
    currency : str
        As the price file writes it.
    coverage : float
        Share of the edible mass, without water, that has a price. [1]
    dates : tuple of str
        First and last day of the prices used, ISO 8601.
    energy_per_serving : float or None
        The part for energy, at the mean; None where no tariff is known. [currency]
    not_priced : tuple of str
        What has no price, for people.
    parts : tuple of (str, float)
        What each food and each use of energy costs, at the mean. [currency]
    """

    per_serving: Range
    currency: str
    coverage: float
    dates: tuple[str, str]
    energy_per_serving: float | None
    not_priced: tuple[str, ...]
    parts: tuple[tuple[str, float], ...] = ()

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "per_serving": self.per_serving.to_dict(),
            "currency": self.currency,
            "coverage": self.coverage,
            "dates": {"first": self.dates[0], "last": self.dates[1]},
            "energy_per_serving": self.energy_per_serving,
            "not_priced": list(self.not_priced),
            "how": list(HOW),
        }


@dataclass(frozen=True, slots=True)
class PerKilogram:
    """What a kilogram of a food costs as it is bought [currency/kg], and on which day."""

    price: float
    date: str


def prices_by_food(prices: Prices, tables: Tables, matcher: Matcher) -> dict[str, PerKilogram]:
    """The latest price of each food, per kilogram.

    Parameters
    ----------
    prices : Prices
        A price file.
    tables : Tables
        Densities, household weights, edible shares.
    matcher : Matcher
        Built from the same tables.

    Returns
    -------
    dict
        Food.id → PerKilogram.

    Raises
    ------
    BrokenSettings
        If a name is no food that is known for certain, or a pack has no weight; it names the line.
    """
    found: dict[str, PerKilogram] = {}
    for row in prices.prices:
        food = stocked_food(row.food, matcher, prices.file, row.line)
        kg = stocked_mass(food, row.pack, tables, prices.file, row.line)
        held = found.get(food.id)
        if held is None or row.date > held.date:
            found[food.id] = PerKilogram(row.price / kg, row.date)
    return found


def serving_cost(
    reading: Reading,
    plan: Plan | None,
    prices: Prices,
    by_food: Mapping[str, PerKilogram],
    streams: Streams,
    stays: Sequence[EnergyUse] = (),
) -> Cost | None:
    """What one serving costs.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan or None
        Energy of the steps.
    prices : Prices
        The price file, for its currency and tariffs.
    by_food : mapping
        Food.id → price per kilogram, as `prices_by_food` gives it.
    streams : Streams
        Seed, number of draws, and the draws already made.
    stays : sequence of EnergyUse
        What the planned stays in fridge and freezer take.

    Returns
    -------
    Cost or None
        Of one serving that is eaten: what is left over, it pays for. None where nothing at all has a price. [currency of the file]
    """
    charged: list[tuple[Product, float]] = []
    names: list[str] = []
    dates: list[str] = []
    missing: dict[str, None] = {}
    whole = priced = 0.0
    for line in reading.lines:
        if line.food is None:
            missing[line.written.text] = None
        for part in line.constituents:
            price = by_food.get(part.food.id)
            water = part.food.food_class == "water & ice"
            if part.mass is not None and not water:
                whole += part.mass.mean
            if price is None or part.mass is None:
                missing |= {} if water else {part.food.name: None}
                continue
            priced += 0.0 if water else part.mass.mean
            charged.append(((part.purchased or part.mass), price.price))
            names.append(part.food.name)
            dates.append(price.date)
    tariffs = {tariff.carrier: tariff for tariff in prices.tariffs}
    energy: float | None = None
    serves, shared = reading.serves_eaten, reading.recipe.oven_shared_by
    for use in (*(plan.energy if plan is not None else ()), *stays):
        tariff = tariffs.get(use.carrier)
        if tariff is None:
            missing[use.carrier] = None
            continue
        kwh = use.kwh.scaled(1 / shared) if use.appliance == "oven" else use.kwh
        charged.append((kwh, tariff.per_kwh))
        names.append(f"{use.carrier}: {use.name}")
        dates.append(tariff.date)
        energy = (energy or 0.0) + kwh.mean * tariff.per_kwh / serves
    if not charged:
        return None
    first, *others = [product.scaled(price / serves) for product, price in charged]
    draws = sum((part.draws(streams) for part in others), first.draws(streams))
    means = [part.mean for part in (first, *others)]
    mean = sum(means)
    return Cost(
        per_serving=Range.of(draws, mean),
        currency=prices.currency,
        coverage=priced / whole if whole else 0.0,
        dates=(min(dates), max(dates)),
        energy_per_serving=energy,
        not_priced=tuple(missing),
        parts=tuple(zip(names, means, strict=True)),
    )
