"""What keeping a batch cold takes: an appliance's electricity × its share of the room × days."""

from __future__ import annotations

from typing import Final

from counterproof.draws import Product
from counterproof.footprint.activities import uncertain
from counterproof.in_words import stay_in_words
from counterproof.plan.model import EnergyUse
from counterproof.reading.model import Reading
from counterproof.sourced import Sourced
from counterproof.ways import Way

FULL: Final = Sourced(
    0.5, "1", 0.3, "assumed", "",
    "share of a fridge or freezer that is filled: what stands in it shares its electricity, empty "
    "room and all",
)  # fmt: skip

DAYS_A_YEAR: Final = 365.0


def stored(reading: Reading, litres: float) -> tuple[EnergyUse, ...]:
    """Electricity of the planned stays in fridge and freezer.

    Parameters
    ----------
    reading : Reading
        The recipe, with its plan for keeping; its kitchen gives the appliances.
    litres : float
        What is kept, whole batch. [L]

    Returns
    -------
    tuple of EnergyUse
        At the stage "home storage". [kWh]

    Notes
    -----
    kWh a year × days / 365 × litres kept / (litres inside × share that is filled). A cupboard
    takes nothing.
    """
    kitchen = reading.kitchen
    rooms = {
        "fridge": (kitchen.fridge_kwh_per_year, kitchen.fridge_litres),
        "freezer": (kitchen.freezer_kwh_per_year, kitchen.freezer_litres),
    }
    uses: list[EnergyUse] = []
    for keep in reading.recipe.keep:
        if keep.where not in rooms or not keep.days:
            continue
        yearly, inside = rooms[keep.where]
        kwh = yearly * keep.days / DAYS_A_YEAR * litres / (inside * FULL.value)
        uses.append(
            EnergyUse(
                stay_in_words(keep.days, keep.where),
                "electricity",
                Product(kwh, (uncertain(f"storage|{keep.where}|filled", 1 + FULL.spread),)),
                None,
                "home storage",
                keep.where,
                (
                    Way("a year", yearly, "kWh", keep.where),
                    Way("days", keep.days / DAYS_A_YEAR, "", f"{keep.days:g}"),
                    Way("kept", litres, "L"),
                    Way("inside", inside, "L", keep.where, divides=True),
                    Way("filled", FULL.value, "", keep.where, FULL, divides=True),
                ),
            )
        )
    return tuple(uses)
