"""Water fizzed at home: the gas and where it goes, its cylinder, the machine."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterproof.draws import Lognormal, Parameter, Product
from counterproof.footprint.activities import (
    Rated,
    energy_factor,
    rated_energy,
    uncertain,
)
from counterproof.footprint.end_of_life import route
from counterproof.footprint.items import Item
from counterproof.footprint.packaging import making
from counterproof.footprint.transport import carried, chain
from counterproof.reading.model import MarkedLine
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Tables
from counterproof.sourced import Sourced
from counterproof.ways import Way

FIZZED: Final = "water-home-carbonated"
"""Food.id of tap water that was fizzed at home."""

CHARGED: Final = Sourced(
    7.1, "g/L", 0.25, "assumed", "425 g over 60 L",
    "gas taken from the cylinder per litre: cylinder contents and litres are recalled",
)  # fmt: skip
DISSOLVED: Final = Sourced(
    6.0, "g/L", 0.25, "assumed", "", "gas in the water as poured, as bottled waters hold 5 to 9"
)
CYLINDER_GAS: Final = Sourced(0.425, "kg", 0.03, "assumed", "", "gas in a full cylinder, recalled")
LEFT: Final = Sourced(
    0.02, "1", 0.5, "assumed", "",
    "share of the gas left in a cylinder when it no longer fizzes: 0.6 L at about 7 bar",
)  # fmt: skip
CYLINDER: Final = Sourced(0.75, "kg", 0.2, "assumed", "", "an empty aluminium cylinder with valve")
FILLINGS: Final = Sourced(
    40.0, "1", 0.5, "assumed", "", "fillings in a cylinder's life: ten years of four a year"
)
MACHINE_PLASTIC: Final = Sourced(1.0, "kg", 0.3, "assumed", "", "plastic of a hand-worked machine")
MACHINE_STEEL: Final = Sourced(0.4, "kg", 0.4, "assumed", "", "steel of a hand-worked machine")
BOTTLE: Final = Sourced(0.11, "kg", 0.2, "assumed", "", "PET bottle of the machine, a litre")
BOTTLE_LITRES: Final = Sourced(
    450.0, "L", 0.4, "assumed", "", "a bottle's life: three years at three litres a week"
)
LIQUEFYING: Final = Sourced(
    0.25, "kWh/kg", 0.4, "assumed", "",
    "electricity to clean and liquefy by-product gas and to fill; no source read",
)  # fmt: skip
COUNTS: Final = {"by-product": True, "biogenic": False, "captured": False}
"""Whether gas that escapes counts, by where it came from.

By-product of a fossil process: counted, as it is fossil carbon that leaves the glass; whoever
holds that the factory would have vented it anyway reads the other figure. Biogenic or captured
from the air: not counted. Both figures are given.
"""


@dataclass(frozen=True, slots=True)
class FizzReport:
    """The gas of one serving and where it goes. [kg, L, kg CO2e]

    `counted` says whether the released gas is in the total.
    """

    litres: float
    charged: float
    dissolved: float
    left_in_cylinder: float
    origin: str
    counted: bool
    serving: float  # the total as it stands

    @property
    def vented(self) -> float:
        """Gas lost while charging. [kg]"""
        return self.charged - self.dissolved

    @property
    def released(self) -> float:
        """All gas that ends in the air: charged, and what is left when it is refilled. [kg]"""
        return self.charged + self.left_in_cylinder

    @property
    def if_not(self) -> float:
        """One serving where released gas does not count. [kg CO2e]"""
        return self.serving - (self.released if self.counted else 0.0)

    @property
    def if_counted(self) -> float:
        """One serving where it does. [kg CO2e]"""
        return self.if_not + self.released

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "litres": self.litres,
            "charged_kg": self.charged,
            "dissolved_kg": self.dissolved,
            "vented_kg": self.vented,
            "left_in_cylinder_kg": self.left_in_cylinder,
            "origin": self.origin,
            "released_gas_counts": self.counted,
            "serving_kgco2e_if_gas_counts": self.if_counted,
            "serving_kgco2e_if_not": self.if_not,
        }


def fizzed_litres(lines: Sequence[MarkedLine]) -> float:
    """Litres of water fizzed at home, whole batch.

    Parameters
    ----------
    lines : sequence of MarkedLine
        The ingredients.

    Returns
    -------
    float
        A kilogram of it is taken for a litre. [L]
    """
    return sum(water.mean for water, _ in _waters(lines))


def _waters(lines: Sequence[MarkedLine]) -> list[tuple[Product, tuple[Way, ...]]]:
    return [
        (part.mass, part.way)
        for line in lines
        for part in line.constituents
        if part.food.id == FIZZED and part.mass is not None
    ]


def fizz_report(
    lines: Sequence[MarkedLine], kitchen: Kitchen, serves: float, serving: float
) -> FizzReport | None:
    """The gas of one serving.

    Parameters
    ----------
    lines : sequence of MarkedLine
        The ingredients.
    kitchen : Kitchen
        Where its gas comes from.
    serves : float
        Servings eaten, > 0. [servings]
    serving : float
        Footprint of one serving as it stands. [kg CO2e]

    Returns
    -------
    FizzReport or None
        None where nothing was fizzed at home.
    """
    litres = fizzed_litres(lines) / serves
    if not litres:
        return None
    charged = litres * CHARGED.value / 1000
    return FizzReport(
        litres,
        charged,
        litres * DISSOLVED.value / 1000,
        charged * LEFT.value / (1 - LEFT.value),
        kitchen.gas,
        COUNTS[kitchen.gas],
        serving,
    )


def fizz_items(
    lines: Sequence[MarkedLine], kitchen: Kitchen, tables: Tables
) -> tuple[list[Item], list[str]]:
    """What fizzing water at home is charged for, and what had to be assumed.

    Parameters
    ----------
    lines : sequence of MarkedLine
        The ingredients.
    kitchen : Kitchen
        Region, origin of the gas, litres a machine makes in its life.
    tables : Tables
        Materials, freight, electricity.

    Returns
    -------
    tuple of list of Item and list of str
        Gas, its liquefying and carriage, shares of cylinder, machine and bottle.
    """
    waters = _waters(lines)
    if not waters:
        return [], []
    cycle, region = tables.life_cycle, kitchen.region
    items: list[Item] = []
    charging = uncertain("fizz|gas per litre", 1 + CHARGED.spread)
    said: dict[str, None] = {
        f"Fizz: {CHARGED.value:g} g of gas a litre, of which {DISSOLVED.value:g} g are in the "
        "water as poured; masses of cylinder and machine are assumed.": None,
        f"The gas is taken as {kitchen.gas}; released, it "
        f"{'counts' if COUNTS[kitchen.gas] else 'does not count'}. Both figures are given.": None,
    }
    kept = Way("left in it", 1 - LEFT.value, "", "", LEFT, divides=True)
    for water, poured in waters:
        way = (*poured, Way("gas", CHARGED.value / 1000, "kg/kg", "", CHARGED), kept)
        gas = water.scaled(CHARGED.value / 1000 / (1 - LEFT.value)).times(charging)
        if COUNTS[kitchen.gas]:
            name = f"carbon dioxide released, {kitchen.gas}"
            exact = Parameter("fizz|released", Lognormal(1.0, 0.0))
            items.append(
                Item(
                    "activity",
                    name,
                    None,
                    "",
                    gas,
                    Rated(name, "cooking", "kg", exact, ""),
                    way=way,
                )
            )
        items += _liquefied(gas, way, region, tables)
        gross = (CYLINDER.value * 2 + CYLINDER_GAS.value) / CYLINDER_GAS.value
        legs, told = carried(
            "gas cylinder, there full and back empty",
            gas.scale * gross,
            chain("gas cylinder", cycle),
            region,
            cycle,
            gas.parameters,
        )
        items += legs
        said |= dict.fromkeys(told)
        per_kilogram = CYLINDER.value / CYLINDER_GAS.value / FILLINGS.value
        lasts = (*way, Way("of its life", per_kilogram, "kg/kg", "the cylinder", CYLINDER))
        share = (gas.scaled(per_kilogram), lasts)
        items += _share("gas cylinder", "aluminium", share, kitchen, tables)
        for what, material, kg, life in (
            ("soda machine", "pp", MACHINE_PLASTIC.value, kitchen.fizz_litres),
            ("soda machine", "steel", MACHINE_STEEL.value, kitchen.fizz_litres),
            ("bottle of the machine", "pet", BOTTLE.value, BOTTLE_LITRES.value),
        ):
            lasts = (
                *poured,
                Way("made of", kg, "kg", what),
                Way("life", life, "L", what, divides=True),
            )
            items += _share(what, material, (water.scaled(kg / life), lasts), kitchen, tables)
    return items, list(said)


def _liquefied(gas: Product, way: tuple[Way, ...], region: str, tables: Tables) -> list[Item]:
    factor = energy_factor("electricity", region, tables)
    if factor is None:
        return []
    kwh = gas.scaled(LIQUEFYING.value).times(uncertain("fizz|liquefying", 1 + LIQUEFYING.spread))
    worth = rated_energy(factor, "cooking")
    way = (*way, Way("liquefying", LIQUEFYING.value, "kWh/kg", "", LIQUEFYING))
    return [Item("activity", "gas, cleaned and liquefied", None, "", kwh, worth, way=way)]


def _share(
    what: str,
    material: str,
    share: tuple[Product, tuple[Way, ...]],
    kitchen: Kitchen,
    tables: Tables,
) -> list[Item]:
    """A share of a thing that lasts, made and thrown away; all of it counts under cooking."""
    cycle = tables.life_cycle
    made = cycle.materials.get(material)
    if made is None:
        return []
    kg, lasts = share
    amount = kg.times(uncertain(f"fizz|{what}|{material}", 1.5))
    worth = making(made, kitchen.region, cycle)
    items = [
        Item("activity", f"{what}, share of its {made.name}", None, "", amount,
             Rated(worth.name, "cooking", "kg", worth.parameter, worth.source, worth.told), way=lasts)
    ]  # fmt: skip
    way = route(material, kitchen.region, cycle)
    if way is not None:
        name = f"{what}, share of its {made.name}, thrown away"
        items.append(Item("activity", name, None, "", amount, way.rate(made.name), way=lasts))
    return items
