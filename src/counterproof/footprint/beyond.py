"""Everything beyond ingredients and cooking: keeping, packs, carriage, fizz, waste, in one list."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Final

from counterproof.footprint.containers import PACK_WORDS
from counterproof.footprint.extras import extra_items
from counterproof.footprint.fizz import FIZZED, fizz_items
from counterproof.footprint.items import Item
from counterproof.footprint.packaging import FILLED, PackUse, pack_items, pack_uses
from counterproof.footprint.replacing import Specific, specific
from counterproof.footprint.storage import stored
from counterproof.footprint.transport import carried, chain
from counterproof.footprint.waste import waste_items
from counterproof.life_cycle_rows import LifeCycle
from counterproof.marks import Mark
from counterproof.numerals import plain_mass
from counterproof.plan.model import EnergyUse, Plan
from counterproof.plan.planning import litres_made
from counterproof.plan.pot import is_at_table
from counterproof.reading.model import Reading
from counterproof.rows import Tables

TAP: Final = frozenset({"water", FIZZED})
"""Food.id of what comes through a pipe."""

DRINKS: Final = frozenset({"soft drinks", "juices", "water & ice", "wine & beer"})
"""Classes of food that are carried as drinks."""


MOST: Final = 3.0
"""Ingredients of one serving above which an amount or the servings are doubted. [kg] Assumed: a
day's food and drink of one person weigh about as much."""


@dataclass(frozen=True, slots=True)
class Beyond:
    """What a batch is charged for beyond its ingredients and its cooking.

    Parameters
    ----------
    items : tuple of Item
        Activities, whole batch.
    energy : tuple of EnergyUse
        Stays in fridge and freezer. [kWh]
    lines : mapping
        Line number → what the line says of its pack and carriage.
    packs : tuple of PackUse
        Every pack, whole batch.
    tap : float
        Tap water used, whole batch. [kg]
    assumed : tuple of str
        One plain sentence each.
    marks : tuple of Mark
        About the recipe as a whole: a pack or a region that is not known, an absurd serving.
    """

    items: tuple[Item, ...]
    energy: tuple[EnergyUse, ...]
    lines: Mapping[int, Specific]
    packs: tuple[PackUse, ...]
    tap: float
    assumed: tuple[str, ...]
    marks: tuple[Mark, ...]


def beyond(reading: Reading, plan: Plan | None, tables: Tables) -> Beyond:
    """What a batch is charged for beyond its ingredients and its cooking.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan or None
        What leaves the pot, what there is to serve.
    tables : Tables
        All tables.

    Returns
    -------
    Beyond
        Nothing of it where the recipe states nothing.
    """
    recipe, kitchen, cycle = reading.recipe, reading.kitchen, tables.life_cycle
    bought = recipe.purchase != "home"
    litres = litres_kept(reading, plan, tables)
    # A pack of one's own is filled short of the rim; one that is sold holds what it says.
    kept, unknown = pack_uses(
        recipe.pack, litres, kitchen.region, cycle, kitchen.vessels,
        filled=1.0 if bought else FILLED,
    )  # fmt: skip
    items, said = pack_items(kept, cycle)
    items = _apart(items, "packs")
    assumed = dict.fromkeys(said)
    packs = [*kept]
    lines: dict[int, Specific] = {}
    for line in reading.lines:
        found = None if bought else specific(line, kitchen, tables, reading.scale)
        if found is None:
            continue
        lines[line.written.number] = found
        packs += found.packs
    if bought:
        contents = _mass(reading)
        packed_kg = contents + sum(use.count * use.pack.kg for use in kept)
        legs, said = carried(
            recipe.title, packed_kg, chain(_chain(reading), cycle), kitchen.region, cycle
        )
        items += _apart(legs, "carriage")
        assumed |= dict.fromkeys(said)
        if legs:
            assumed["The way to the shop is the usual chain: distances are assumed."] = None
    for what, (more, said) in (
        ("fizz", fizz_items(reading.lines, kitchen, tables)),
        ("waste", waste_items(reading, plan, tables)),
        ("asked for", extra_items(reading, tables)),
    ):
        items += _apart(more, what)
        assumed |= dict.fromkeys(said)
    return Beyond(
        tuple(items),
        stored(reading, litres),
        lines,
        tuple(packs),
        sum(
            part.mass.mean
            for line in reading.lines
            for part in line.constituents
            if part.food.id in TAP and part.mass is not None
        ),
        tuple(assumed),
        (
            *_absurd(_mass(reading) / reading.serves),
            *_unknown_region(kitchen.region, cycle),
            *(_unknown(words) for words in unknown),
        ),
    )


def _apart(items: Iterable[Item], what: str) -> list[Item]:
    return [replace(item, apart=what) for item in items]


def _mass(reading: Reading) -> float:
    return sum(
        part.mass.mean
        for line in reading.lines
        if not is_at_table(line)
        for part in line.constituents
        if part.mass is not None
    )


def litres_kept(reading: Reading, plan: Plan | None, tables: Tables) -> float:
    """What is packed and kept, whole batch: all but what is added at the table.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    plan : Plan or None
        What leaves the pot.
    tables : Tables
        Densities of foods.

    Returns
    -------
    float
        What the cook says it makes; else the mass in the pot, a kilogram a litre; a single food
        by its density. [L]
    """
    made = litres_made(reading)
    if made is not None:
        return made
    foods = {part.food.id for line in reading.lines for part in line.constituents}
    density = 1.0
    if len(foods) == 1:
        rows = tables.densities.get(next(iter(foods)), ())
        density = next((row.kg_per_litre for row in rows if not row.form), 1.0)
    gone = sum(part.mass.mean for part in plan.leaving) if plan is not None else 0.0
    return max(0.0, _mass(reading) - gone) / density


def _chain(reading: Reading) -> str:
    classes = {part.food.food_class for line in reading.lines for part in line.constituents}
    packs = " ".join(pack.container for pack in reading.recipe.pack).lower()
    if classes & DRINKS:
        return "drink"
    return "chilled" if "tray" in packs or "tub" in packs else "dry"


def _absurd(kg: float) -> tuple[Mark, ...]:
    if kg <= MOST:
        return ()
    return (
        Mark(
            "doubt",
            "absurd-serving",
            f"{plain_mass(kg)} go into one serving, more than anyone eats: look at the amounts, "
            "their units, and for how many it is.",
        ),
    )


def _unknown_region(region: str, cycle: LifeCycle) -> tuple[Mark, ...]:
    if not cycle.regions or region in cycle.regions:
        return ()
    near = get_close_matches(region, cycle.regions, n=4, cutoff=0.5)
    told = ", ".join(f"{name} ({cycle.regions[name].name})" for name in near)
    return (
        Mark(
            "doubt",
            "unknown-region",
            f"No figures are known for the region {region}: the world's stand in. "
            + (f"Near it: {told}." if near else "Write uk, us, eu, or a country's three letters."),
            tuple(near),
        ),
    )


def _unknown(words: str) -> Mark:
    return Mark(
        "doubt",
        "unknown-pack",
        f"“{words}” is no pack that is known here, so it is not counted. Name a kind and a size, "
        f"such as {', '.join(PACK_WORDS[:4])}; or weigh an empty one and name it under vessels in "
        "the kitchen file.",
        PACK_WORDS,
    )
