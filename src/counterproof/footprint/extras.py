"""What is left out unless asked for: the shopping trip, washing up, the making of appliances."""

from __future__ import annotations

from typing import Final

from counterproof.draws import Lognormal, Parameter, Product
from counterproof.footprint.activities import (
    Rated,
    energy_factor,
    rated,
    rated_energy,
    regions_for,
    uncertain,
)
from counterproof.footprint.items import Item
from counterproof.footprint.transport import carriage
from counterproof.reading.model import Reading
from counterproof.recipe.trip import trip_said
from counterproof.rows import Tables
from counterproof.sourced import Sourced
from counterproof.units import US_GALLON

TRIP: Final = Sourced(5.0, "km", 0.6, "assumed", "", "there and back to the shop by car")
BASKET: Final = Sourced(12.0, "kg", 0.5, "assumed", "", "what one trip brings home")
PETROL: Final = Sourced(
    8.887 / (US_GALLON / 1000), "kg/L", 0.02, "epa-equivalencies-2024",
    "gallons of gasoline consumed: 8.887 kg CO2 a gallon",
    "CO2 from the exhaust of a litre of petrol burnt; the spread is assumed: blends differ",
)  # fmt: skip
TOLD: Final = 1.4
"""Geometric standard deviation of what a trip costs a kilogram, where the cook says how far. [1]
Assumption: what one basket weighs stays unknown."""
WASHING: Final = Sourced(
    0.15, "kWh", 0.6, "assumed", "",
    "electricity to warm the water that one serving's dishes take: three litres by 40 K",
)  # fmt: skip
APPLIANCES: Final = Sourced(
    300.0, "kg", 0.5, "assumed", "",
    "CO2e of making hob, oven and fridge: some 120 kg of steel and plastics, no source read",
)  # fmt: skip
SERVINGS: Final = Sourced(
    25000.0, "1", 0.6, "assumed", "", "servings of their lives: fifteen years of four or five a day"
)


def extra_items(reading: Reading, tables: Tables) -> tuple[list[Item], list[str]]:
    """What the recipe asks to count beyond the boundary that is usual here.

    Parameters
    ----------
    reading : Reading
        The recipe; its `also_count` names what is asked for.
    tables : Tables
        Carriage and electricity.

    Returns
    -------
    tuple of list of Item and list of str
        None of it unless asked for; one sentence for each.
    """
    asked = reading.recipe.also_count
    region, cycle = reading.kitchen.region, tables.life_cycle
    items: list[Item] = []
    said: list[str] = []
    row = carriage("car", region, cycle)
    us = reading.recipe.measures == "us" or "us" in regions_for(region, cycle)
    trip = None if reading.recipe.trip is None else trip_said(reading.recipe.trip, us=us)
    kg = _brought(reading) / BASKET.value
    if "shopping trip" in asked and trip is not None and trip.litres is not None:
        burnt = Parameter("trip|petrol", Lognormal.from_spread(PETROL.value, PETROL.spread))
        worth = Rated("petrol burnt, per litre", "transport", "litre", burnt, PETROL.source)
        amount = Product(kg * trip.litres, (uncertain("trip|litres", TOLD),))
        items.append(Item("activity", "shopping trip, its share", None, "", amount, worth))
        said.append(
            f"Shopping trip: {trip.said}, {trip.litres:.1f} litres of petrol for {BASKET.value:g} "
            "kg (assumed), shared by mass; what it takes to make the petrol is not counted."
        )
    elif "shopping trip" in asked and row is not None:
        km = TRIP.value if trip is None else trip.km
        spread = 1.8 if trip is None else TOLD
        worth = rated(
            f"average car, {row.region}, per km", f"carriage|car|{row.region}", row.whole, row.spread,
            stage="transport", unit="km", told=row.provenance,
        )  # fmt: skip
        amount = Product(kg * km, (uncertain("trip|km per kg", spread),))
        items.append(Item("activity", "shopping trip, its share", None, "", amount, worth))
        said.append(
            f"Shopping trip: {km:g} km by car{' (assumed)' if trip is None else ''} for "
            f"{BASKET.value:g} kg (assumed), shared by mass."
        )
    factor = energy_factor("electricity", region, tables)
    if "washing up" in asked and factor is not None:
        amount = Product(WASHING.value * reading.serves, (uncertain("washing up|kWh", 1.6),))
        worth = rated_energy(factor, "cooking")
        items.append(Item("activity", "washing up", None, "", amount, worth))
        said.append(f"Washing up: {WASHING.value:g} kWh a serving (assumed).")
    if "appliances" in asked:
        made = Parameter("appliances|made", Lognormal.from_spread(APPLIANCES.value, 0.5))
        worth = Rated("hob, oven and fridge, made", "cooking", "set", made, "")
        amount = Product(reading.serves / SERVINGS.value, (uncertain("appliances|life", 1.6),))
        items.append(Item("activity", "appliances, their share", None, "", amount, worth))
        said.append("Appliances: a share of their making by servings in their lives (assumed).")
    return items, said


def _brought(reading: Reading) -> float:
    return sum(
        bought.mean
        for line in reading.lines
        for part in line.constituents
        if (bought := part.purchased or part.mass) is not None
        and part.food.food_class != "water & ice"
    )
