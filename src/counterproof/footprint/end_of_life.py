"""Where packs and food waste go, region by region, and what that emits.

Cut-off: recycling carries its sorting and transport, and its benefit stands in the recycled
content of whatever is made of it. Burning carries its stack: the carbon of the pack, where the
region's row leaves it out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from counterproof.footprint.activities import Rated, rated, regions_for
from counterproof.life_cycle_rows import Disposal, Fate, LifeCycle
from counterproof.provenance import Provenance

FOOD: Final = "food"
"""What food waste is called among the materials."""

SPREAD: Final = 1.3
"""Geometric standard deviation of what a kilogram emits on its way out. [1]

Assumption: towns differ from their country by as much; the sources give no range.
"""

STAND_IN: Final = ("uk", "us")
"""Regions whose disposal rows stand in where a region has none of its own."""


@dataclass(frozen=True, slots=True)
class Route:
    """Which way a kilogram goes, and what each way emits.

    Parameters
    ----------
    material : str
        Material.id, or "food".
    shares : mapping
        Fate → share of the mass; they sum to 1. [1]
    emits : mapping
        Fate → kg CO2e per kg that goes this way, the stack of burnt plastic in it.
    year : int
        Of the shares.
    region : str
        Whose shares they are.
    said : tuple of str
        What had to be taken from elsewhere, or is left out.
    told : Provenance
        Of the row that weighs most.
    """

    material: str
    shares: Mapping[Fate, float]
    emits: Mapping[Fate, float]
    year: int
    region: str
    said: tuple[str, ...]
    told: Provenance

    @property
    def mean(self) -> float:
        """Expected kg CO2e per kg."""
        return sum(share * self.emits[fate] for fate, share in self.shares.items())

    def rate(self, name: str) -> Rated:
        """Return what a kilogram is charged on its way out.

        Parameters
        ----------
        name : str
            What goes, for people.

        Returns
        -------
        Rated
            At the stage "end of life". [kg CO2e per kg]
        """
        return rated(
            f"disposal of {name}, {self.region}, {self.year}",
            f"disposal|{self.material}|{self.region}",
            self.mean,
            SPREAD,
            stage="end of life",
            unit="kg",
            told=self.told,
        )


def route(material: str, region: str, cycle: LifeCycle) -> Route | None:
    """Which way a kilogram of a material, or of food waste, goes in a region.

    Parameters
    ----------
    material : str
        Material.id, or "food".
    region : str
        A kitchen's region.
    cycle : LifeCycle
        Fates and disposal.

    Returns
    -------
    Route or None
        None where the tables have no fates for it at all. [kg CO2e per kg]
    """
    held = cycle.materials.get(material)
    family = material if held is None else held.family
    names = regions_for(region, cycle)
    rows = next((found for name in names if (found := cycle.fates.get((family, name)))), ())
    shares: dict[Fate, float] = {}
    emits: dict[Fate, float] = {}
    said: dict[str, None] = {}
    used: list[tuple[float, Provenance]] = []
    stack = 0.0 if held is None else held.stack
    name = "food waste" if held is None else held.name
    for row in rows:
        way = _disposal(material, row.fate, names, cycle)
        if way is None:
            return None
        shares[row.fate] = row.share
        emits[row.fate] = way.kgco2e_per_kg + (stack if way.lacks == "stack" else 0.0)
        used.append((row.share, row.provenance))
        if way.region not in names:
            said[f"What {name} emits when {row.fate}: the {way.region} row stands in."] = None
    if not rows:
        return None
    if rows[0].provenance.obtained == "assumed":
        said[f"Where {name} goes ({rows[0].region}): {rows[0].provenance.note}."] = None
    told = max(used, key=lambda pair: pair[0])[1]
    if not told.source:
        told = next((one for _, one in used if one.source), told)
    return Route(material, shares, emits, rows[0].year, rows[0].region, tuple(said), told)


def _disposal(
    material: str, fate: Fate, names: tuple[str, ...], cycle: LifeCycle
) -> Disposal | None:
    for name in (*names, *STAND_IN):
        for row in cycle.disposal.get((material, name), ()):
            if row.fate == fate:
                return row
    return None
