"""What a serving gives: mass, energy, protein, so that unlike servings are seen to be unlike."""

from __future__ import annotations

from dataclasses import dataclass

from counterproof.plan.model import Plan
from counterproof.reading.model import Reading
from counterproof.rows import Tables

COVERED = 0.9
"""Share of the mass whose composition must be known for a sum to be given. [1]

Assumption: below it the sum would be mostly a statement about the table.
"""


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


def serving_function(reading: Reading, tables: Tables, plan: Plan | None = None) -> Function:
    """What one serving gives.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    tables : Tables
        All tables.
    plan : Plan or None
        What there is to serve; without it, the sum of the ingredients.

    Returns
    -------
    Function
        Mass and litres as eaten, energy and protein of the ingredients. [kg, L, kcal, g]
    """
    parts = [
        (part.food.id, part.mass.mean)
        for line in reading.lines
        for part in line.constituents
        if part.mass is not None
    ]
    mass = sum(kg for _, kg in parts) / reading.serves
    kcal = protein = with_kcal = with_protein = 0.0
    for food, kg in parts:
        made_of = tables.composition.get(food)
        if made_of is not None and made_of.energy_kcal is not None:
            kcal += kg * 10 * made_of.energy_kcal / reading.serves
            with_kcal += kg / reading.serves
        if made_of is not None and made_of.protein_g is not None:
            protein += kg * 10 * made_of.protein_g / reading.serves
            with_protein += kg / reading.serves
    served = sum(part.mean for part in plan.serving_mass) if plan is not None else 0.0
    return Function(
        kg=served or mass or None,
        litres=plan.serving_litres if plan is not None else None,
        kcal=kcal if mass and with_kcal >= COVERED * mass else None,
        protein_g=protein if mass and with_protein >= COVERED * mass else None,
    )
