"""Food that is not eaten: peel and bones, what the sieve keeps, what is left on the plate."""

from __future__ import annotations

from typing import Final

from counterproof.draws import Product
from counterproof.footprint.activities import uncertain
from counterproof.footprint.end_of_life import FOOD, route
from counterproof.footprint.items import Item
from counterproof.plan.model import Plan
from counterproof.reading.model import Reading
from counterproof.rows import Tables
from counterproof.ways import Way

LEAST: Final = 0.001
"""Mass below which waste is not worth an activity of its own. [kg]"""

_POURED: Final = ("liquid", "brine", "water", "oil", "syrup")
"""What is poured off rather than thrown into a bin, by words of `EdibleShare.refuse`."""

SPREAD: Final = 1.3
"""Geometric standard deviation of how much is thrown away. [1] Assumption."""


def refuse_mass(reading: Reading, tables: Tables) -> float:
    """Peel, bones, pods and cores, whole batch; what is poured off is not among them.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    tables : Tables
        What the inedible share of each food is.

    Returns
    -------
    float
        Expected mass as bought less what is eaten. [kg]
    """
    gone = 0.0
    for line in reading.lines:
        for part in line.constituents:
            if part.mass is None or part.purchased is None:
                continue
            row = tables.edible.get(part.food.id)
            if row is not None and any(word in row.refuse for word in _POURED):
                continue
            if "canned" in part.food.id:
                continue
            gone += max(0.0, part.purchased.mean - part.mass.mean)
    return gone


def waste_items(
    reading: Reading, plan: Plan | None, tables: Tables
) -> tuple[list[Item], list[str]]:
    """What food waste is charged for on its way out, and what had to be assumed.

    Parameters
    ----------
    reading : Reading
        The recipe; its kitchen names the region.
    plan : Plan or None
        What leaves the pot, what there is to serve.
    tables : Tables
        Fates and inedible shares.

    Returns
    -------
    tuple of list of Item and list of str
        At the stage "end of life"; what was wasted carries its own burden in the lines. [kg]
    """
    way = route(FOOD, reading.kitchen.region, tables.life_cycle)
    if way is None or reading.recipe.purchase != "home":
        return [], []
    kept = [words.lower() for words in reading.recipe.carried_over]
    masses = {"peel, bones and trimmings": refuse_mass(reading, tables)}
    strained = fat = carried = 0.0
    for part in plan.leaving if plan is not None else ():
        if part.fate != "food waste":
            continue
        if any(_names(words, part.name, part.food) for words in kept):
            carried += part.mass.mean
        elif part.cause == "left behind":
            fat += part.mass.mean
        else:
            strained += part.mass.mean
    masses["what is strained off"] = strained
    masses["frying fat"] = fat
    eaten = reading.recipe.eaten or 1.0
    served = sum(part.mean for part in plan.serving_mass) if plan is not None else 0.0
    masses["cooked and not eaten"] = (1 - eaten) * served * reading.serves
    items = [
        Item(
            "activity", f"{what}, thrown away", None, "",
            Product(kg, (uncertain(f"waste|{what}", SPREAD),)), way.rate("food waste"),
            way=(Way("thrown away", kg, "kg", what),),
        )
        for what, kg in masses.items()
        if kg > LEAST
    ]  # fmt: skip
    said = dict.fromkeys(way.said) if items else {}
    if eaten < 1:
        said[
            f"{eaten:.0%} of what is cooked is eaten: one serving bears what the uneaten rest cost."
        ] = None
    if kept:
        said[
            f"{carried:.2g} kg is carried over to another recipe ({', '.join(kept)}): all of its "
            "burden stays here, so that it is charged once, and none of it is waste here."
        ] = None
    return items, list(said)


def _names(words: str, name: str, food: str) -> bool:
    """Whether a cook's words ("the rhubarb pulp") mean what leaves."""
    said = set(words.replace("-", " ").split()) - {"the", "pulp", "of"}
    there = set(f"{name} {food}".lower().replace("-", " ").replace(",", " ").split())
    return bool(said & there) or not said
