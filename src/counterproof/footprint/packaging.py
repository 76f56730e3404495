"""What packs are charged for: making each part, per use, and what becomes of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from counterproof.draws import Parameter, Product
from counterproof.footprint.activities import Rated, rated, regions_for
from counterproof.footprint.containers import Packed, packed
from counterproof.footprint.end_of_life import route
from counterproof.footprint.items import Item
from counterproof.life_cycle_rows import LifeCycle, Material
from counterproof.recipe.kitchen import Vessel
from counterproof.recipe.model import Pack
from counterproof.ways import Way

FILLED: Final = 0.9
"""Share of a pack of one's own that is filled. [1] Assumption: room is left at the top."""


@dataclass(frozen=True, slots=True)
class PackUse:
    """So many packs of a kind, for the whole batch.

    Parameters
    ----------
    pack : Packed
        What one is.
    count : float
        How many, a fraction where a batch fills no whole number. [1]
    uses : float
        How often each is used before it is thrown away, > 0. [1]
    region : str
        Whose bins it ends in.
    amounts : tuple of Parameter
        What the count depends on, each of mean 1.
    """

    pack: Packed
    count: float
    uses: float
    region: str
    amounts: tuple[Parameter, ...] = ()


def pack_uses(
    packs: Sequence[Pack],
    litres: float,
    region: str,
    cycle: LifeCycle,
    vessels: Sequence[Vessel] = (),
    *,
    filled: float = FILLED,
) -> tuple[list[PackUse], list[str]]:
    """The packs that a batch is kept or sold in.

    Parameters
    ----------
    packs : sequence of Pack
        As stated; several share the batch equally.
    litres : float
        What is packed, whole batch. [L]
    region : str
        Whose bins they end in.
    cycle : LifeCycle
        Containers and their parts.
    vessels : sequence of Vessel
        The kitchen's own, some of them weighed empty.
    filled : float
        Share of a pack that is filled, 0 to 1. [1]

    Returns
    -------
    tuple of list of PackUse and list of str
        And the words that no pack was found for.
    """
    uses: list[PackUse] = []
    unknown: list[str] = []
    for one in packs:
        found = packed(one.container, cycle, vessels, one.lid)
        if found is None:
            unknown.append(one.container)
            continue
        count = litres / len(packs) / (found.litres * filled)
        uses.append(PackUse(found, count, one.uses, region))
    return uses, unknown


def recycled_content(material: str, region: str, cycle: LifeCycle) -> float:
    """Share of a pack's material that has been something before.

    Parameters
    ----------
    material : str
        Material.id.
    region : str
        Where it is bought.
    cycle : LifeCycle
        Recycled contents.

    Returns
    -------
    float
        0 where nothing is known of it. [1]
    """
    for name in regions_for(region, cycle):
        row = cycle.contents.get((material, name))
        if row is not None:
            return row.share
    return 0.0


def making(material: Material, region: str, cycle: LifeCycle) -> Rated:
    """What making a kilogram of a pack's material emits.

    Parameters
    ----------
    material : Material
        What it is made of.
    region : str
        Where it is bought: decides its recycled content.
    cycle : LifeCycle
        Recycled contents.

    Returns
    -------
    Rated
        (1 − r) × primary + r × closed loop. [kg CO2e per kg]
    """
    share = recycled_content(material.id, region, cycle)
    mean = (1 - share) * material.primary + share * material.recycled
    return rated(
        f"{material.name}, {100 * share:.0f} % recycled, per kg",
        f"material|{material.id}|{share:g}",
        mean,
        material.spread,
        stage="packaging",
        unit="kg",
        told=material.provenance,
    )


def pack_items(uses: Sequence[PackUse], cycle: LifeCycle) -> tuple[list[Item], list[str]]:
    """What packs are charged for, and what had to be assumed.

    Parameters
    ----------
    uses : sequence of PackUse
        The packs, whole batch.
    cycle : LifeCycle
        Materials, contents, fates.

    Returns
    -------
    tuple of list of Item and list of str
        For each part its making and its end; one sentence for each assumption. [kg]
    """
    items: list[Item] = []
    said: dict[str, None] = {}
    for use in uses:
        pack = use.pack
        reused = "" if use.uses == 1 else f", used {use.uses:g} times"
        guessed = [part for part in pack.parts if part.assumed]
        if guessed:
            said[
                f"{pack.name}: {1000 * pack.kg:.0f} g empty, "
                f"{'some of it' if pack.weighed else 'a mass that is'} assumed "
                f"({guessed[0].assumed}); break-evens that rest on it are bands."
            ] = None
        for part in pack.parts:
            material = cycle.materials[part.material]
            amount = Product(use.count * part.kg / use.uses, (part.parameter, *use.amounts))
            name = f"{pack.name}, {part.part}{reused}"
            trail = (
                Way("pieces", use.count, "", pack.name),
                Way("part", part.kg, "kg", part.part),
                Way("uses", use.uses, divides=True),
            )
            made = making(material, use.region, cycle)
            items.append(Item("activity", name, None, "", amount, made, way=trail))
            way = route(part.material, use.region, cycle)
            if way is None:
                said[f"Where {material.name} ends is not known: it is not counted."] = None
                continue
            said |= dict.fromkeys(way.said)
            items.append(
                Item(
                    "activity", f"{name}, thrown away", None, "", amount,
                    way.rate(material.name), way=trail,
                )
            )  # fmt: skip
            if material.lacks:
                said[f"The figure for {material.name} leaves out {material.lacks}."] = None
    return items, list(said)


@dataclass(frozen=True, slots=True)
class PackagingReport:
    """The packs of one serving: how many, of what, and where they go.

    Parameters
    ----------
    packs : tuple of (str, float, float)
        Name, packs a serving, uses of each. [1]
    by_material : mapping
        Material → mass a serving. [kg]
    by_fate : mapping
        Fate → mass a serving; it sums to the mass of all. [kg]
    not_transported : float
        Tap water that came through the pipe and was carried by nobody. [kg]
    """

    packs: tuple[tuple[str, float, float], ...]
    by_material: dict[str, float]
    by_fate: dict[str, float]
    not_transported: float = 0.0

    @property
    def kg(self) -> float:
        """Mass of all packs of one serving, each divided by its uses. [kg]"""
        return sum(self.by_material.values())

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "items": [
                {"name": name, "per_serving": count, "uses": uses}
                for name, count, uses in self.packs
            ],
            "mass_kg": self.kg,
            "mass_kg_by_material": dict(self.by_material),
            "mass_kg_by_fate": dict(self.by_fate),
            "weight_not_transported_kg": self.not_transported,
        }


def packaging_report(
    uses: Sequence[PackUse], serves: float, not_transported: float, cycle: LifeCycle
) -> PackagingReport:
    """The packs of one serving.

    Parameters
    ----------
    uses : sequence of PackUse
        The packs of the whole batch.
    serves : float
        Servings eaten, > 0. [servings]
    not_transported : float
        Tap water of the whole batch. [kg]
    cycle : LifeCycle
        Materials and fates.

    Returns
    -------
    PackagingReport
        Mean masses. [kg]
    """
    materials: dict[str, float] = defaultdict(float)
    fates: dict[str, float] = defaultdict(float)
    for use in uses:
        for part in use.pack.parts:
            kg = use.count * part.kg / use.uses / serves
            materials[cycle.materials[part.material].name] += kg
            way = route(part.material, use.region, cycle)
            for fate, share in ({} if way is None else way.shares).items():
                fates[fate] += share * kg
    return PackagingReport(
        tuple((use.pack.name, use.count / serves, use.uses) for use in uses),
        dict(materials),
        dict(fates),
        not_transported / serves,
    )
