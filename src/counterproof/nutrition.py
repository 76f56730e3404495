"""What one serving gives: mass, energy and nutrients, each with the share of the mass it rests on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterproof.plan.model import Plan
from counterproof.reading.model import Reading
from counterproof.rows import Composition, Tables

COVERED: Final = 0.9
"""Share of the mass whose composition must be known for a sum to be given. [1]

Assumption: below it the sum would be mostly a statement about the table.
"""

SALT_PER_SODIUM: Final = 2.5
"""Salt over the sodium in it. [1] Regulation (EU) 1169/2011, Annex I, point 11."""

KILOJOULES_PER_KILOCALORIE: Final = 4.184
"""The thermochemical calorie, exact by definition. [kJ/kcal]"""

NUTRIENTS: Final = (
    "energy_kcal",
    "protein_g",
    "fat_g",
    "carbohydrate_g",
    "sugars_g",
    "fibre_g",
    "salt_g",
)

HOW: Final = (
    "Raw composition of the ingredients as they go in; nothing is taken for what heat destroys.",
    "Carbohydrate is by difference and holds the fibre.",
    "What is strained off takes that share of its own nutrients; all else stays in the liquid.",
    "Water poured off takes its share of the salt put in, and nothing else; steam takes nothing.",
)
"""What the sums rest on, in plain words."""


@dataclass(frozen=True, slots=True)
class FoodPart:
    """What one food brings to one serving: its mass that stays, what it is known to hold.

    `brings` leaves out what the table of compositions does not tell. [kg; kcal, g]
    """

    food: str  # Food.id
    kg: float
    brings: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Nutrition:
    """Nutrients of one serving at the mean, and the share of its mass each rests on.

    `amounts` is None where less than `COVERED` of the mass has a figure. `coverage` is of the
    mass that stays in the dish, water included. [kcal, g; 1]
    """

    amounts: Mapping[str, float | None]
    coverage: Mapping[str, float]

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        kcal = self.amounts["energy_kcal"]
        return {
            "per": "serving",
            "energy_kj": None if kcal is None else kcal * KILOJOULES_PER_KILOCALORIE,
            **self.amounts,
            "coverage": dict(self.coverage),
            "how": list(HOW),
        }


@dataclass(frozen=True, slots=True)
class Function:
    """What one serving gives, at the mean; None where it cannot be said."""

    kg: float | None
    litres: float | None
    kcal: float | None
    protein_g: float | None

    def to_dict(self) -> dict[str, float | None]:
        """Return the JSON form."""
        return {"kg": self.kg, "kcal": self.kcal, "protein_g": self.protein_g}


def serving_nutrition(reading: Reading, tables: Tables, plan: Plan | None = None) -> Nutrition:
    """Nutrients of one serving.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    tables : Tables
        With the composition of each food.
    plan : Plan or None
        What leaves the pot; without it nothing does.

    Returns
    -------
    Nutrition
        Per serving, with the coverage of each. [kcal, g; 1]

    Notes
    -----
    Σ edible mass × share kept × content of 100 g. `HOW` says what is kept of what leaves.
    """
    parts = food_parts(reading, tables, plan)
    sums = dict.fromkeys(NUTRIENTS, 0.0)
    known = dict.fromkeys(NUTRIENTS, 0.0)
    whole = 0.0
    for part in parts:
        whole += part.kg
        for name, amount in part.brings.items():
            sums[name] += amount
            known[name] += part.kg
    coverage = {name: known[name] / whole if whole else 0.0 for name in NUTRIENTS}
    return Nutrition(
        {name: sums[name] if whole and coverage[name] >= COVERED else None for name in NUTRIENTS},
        coverage,
    )


def food_parts(reading: Reading, tables: Tables, plan: Plan | None = None) -> list[FoodPart]:
    """What each food of one serving brings to it.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    tables : Tables
        With the composition of each food.
    plan : Plan or None
        What leaves the pot; without it nothing does.

    Returns
    -------
    list of FoodPart
        One for each food of each line, in their order. [kg, kcal, g]
    """
    kept = _kept(reading, plan)
    parts: list[FoodPart] = []
    for food, food_class, kg in _masses(reading):
        stays = kg * kept.get(food, 1.0) / reading.serves
        left = kept[_SALT] if food_class == "salt" else 1.0
        made_of = tables.composition.get(food)
        brings: dict[str, float] = {}
        for name in NUTRIENTS if made_of is not None else ():
            content = None if made_of is None else _content(made_of, name)
            if content is not None:
                brings[name] = stays * 10 * content * left
        parts.append(FoodPart(food, stays, brings))
    return parts


_SALT: Final = "salt put in"
"""Key of the share of the salt that stays when water is poured off; no Food.id has a blank."""


def _masses(reading: Reading) -> list[tuple[str, str, float]]:
    return [
        (part.food.id, part.food.food_class, part.mass.mean)
        for line in reading.lines
        for part in line.constituents
        if part.mass is not None
    ]


def _kept(reading: Reading, plan: Plan | None) -> dict[str, float]:
    """Share of each food, and of the salt put in, that stays in the dish."""
    put_in: defaultdict[str, float] = defaultdict(float)
    water = 0.0
    for food, food_class, kg in _masses(reading):
        put_in[food] += kg
        water += kg if food_class == "water & ice" else 0.0
    gone: defaultdict[str, float] = defaultdict(float)
    poured = 0.0
    for leaving in plan.leaving if plan is not None else ():
        if leaving.cause in {"strained", "left behind"} and leaving.food:
            gone[leaving.food] += leaving.mass.mean
        elif leaving.cause == "drained":
            poured += leaving.mass.mean
    kept = {food: max(0.0, 1.0 - kg / put_in[food]) for food, kg in gone.items() if put_in[food]}
    return {**kept, _SALT: max(0.0, 1.0 - poured / water) if water else 1.0}


def _content(made_of: Composition, name: str) -> float | None:
    if name != "salt_g":
        content: float | None = getattr(made_of, name)
        return content
    return None if made_of.sodium_mg is None else made_of.sodium_mg / 1000 * SALT_PER_SODIUM


def serving_function(reading: Reading, nutrition: Nutrition, plan: Plan | None = None) -> Function:
    """What one serving gives, for comparing servings and for footprints per energy and protein.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    nutrition : Nutrition
        Of one serving.
    plan : Plan or None
        What there is to serve; without it, the sum of the ingredients.

    Returns
    -------
    Function
        Mass and litres as eaten, energy and protein. [kg, L, kcal, g]
    """
    served = sum(part.mean for part in plan.serving_mass) if plan is not None else 0.0
    mass = sum(kg for _, _, kg in _masses(reading)) / reading.serves
    return Function(
        kg=served or mass or None,
        litres=plan.serving_litres if plan is not None else None,
        kcal=nutrition.amounts["energy_kcal"],
        protein_g=nutrition.amounts["protein_g"],
    )
