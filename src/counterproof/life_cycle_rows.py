"""The rows of the tables beyond the ingredients: packs, bins, carriage, regions.

Beside `rows.py`, which holds what is known of foods and energy: a material is no food, and these
tables grow with the trades of packing and disposal, not with the kitchen.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from counterproof.provenance import Provenance

Fate = Literal["recycled", "combusted", "landfilled", "composted", "digested"]
FATES: tuple[Fate, ...] = ("recycled", "combusted", "landfilled", "composted", "digested")


@dataclass(frozen=True, slots=True)
class Material:
    """What a pack is made of, and what making a kilogram of it costs."""

    id: str  # "glass", "pet", …
    name: str  # for people
    family: str  # whose regional fates it shares: "glass", "plastics", …
    primary: float  # kg CO2e per kg, nothing recycled in it
    recycled: float  # kg CO2e per kg, all of it recycled in a closed loop
    spread: float  # geometric standard deviation, assumed
    stack: float  # fossil kg CO2 per kg burnt, from the formula of the material
    lacks: str  # what the figures leave out, for people; ""
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class RecycledContent:
    """Share of a material that has been something before, where packs are bought."""

    material: str
    region: str  # a kitchen's region; "world" where none is known
    share: float
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Container:
    """A pack as it is sold or kept: its kind, size and what it is mostly made of."""

    id: str
    name: str  # for people
    kind: str  # "can", "bottle", "jar", "tub", "carton", "tin", "tray", "bag"
    material: str  # Material.id of its body
    litres: float  # what it holds
    common: bool  # taken first where words name only its kind


@dataclass(frozen=True, slots=True)
class ContainerPart:
    """A part of a container, with its mass."""

    container: str
    part: Literal["body", "closure", "label", "film", "sleeve"]
    material: str
    kg: float
    spread: float  # geometric standard deviation
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Disposal:
    """kg CO2e per kg of a material, or of food waste, that goes one way, in one region's rows."""

    material: str  # Material.id, or "food"
    region: str
    fate: Fate
    kgco2e_per_kg: float
    lacks: str  # what the row leaves out: "stack", "process", ""
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class FateShare:
    """Share of a family of materials, or of food waste, that goes one way in a region."""

    family: str
    region: str
    year: int
    fate: Fate
    share: float
    provenance: Provenance


Kind = Literal["land", "fresh water", "eutrophication"]
KINDS: tuple[Kind, ...] = ("land", "fresh water", "eutrophication")


@dataclass(frozen=True, slots=True)
class Burden:
    """What a unit of a food of the global set takes besides its greenhouse gases, across producers.

    From the field to the shop, losses in it, per the same unit and mass basis as its factor.
    """

    item: str  # Factor.item of the global set
    kind: Kind
    unit: str  # "m2·year", "litre", "g PO4e"
    mean: float
    p05: float
    p50: float
    p95: float
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Region:
    """A place by whose rows a kitchen is valued, and the wider one whose rows may stand in."""

    id: str  # "uk", "us", "eu", "world", an ISO 3166 alpha-3 code, or a US grid subregion's four
    name: str  # for people
    within: str  # Region.id; "" where only the world's rows may stand in


@dataclass(frozen=True, slots=True)
class GridLoss:
    """Share of what power stations send out that is lost on the way to the socket."""

    region: str
    year: int
    share: float
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Carriage:
    """kg CO2e per tonne-kilometre of freight; per vehicle-kilometre for a car."""

    mode: str  # "lorry", "chilled lorry", "van", "rail", "sea", "air", "car"
    region: str
    direct: float
    upstream: float  # making and bringing the fuel; 0 where it is lacking
    spread: float  # geometric standard deviation
    lacks: str
    provenance: Provenance

    @property
    def whole(self) -> float:
        """Fuel burnt and fuel made. [kg CO2e per t·km]"""
        return self.direct + self.upstream


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg of the usual chain of a kind of goods."""

    chain: str  # "drink", "chilled", "frozen", "dry", "gas cylinder"
    leg: int  # from 1, in the order travelled
    mode: str
    km: float
    spread: float  # geometric standard deviation
    provenance: Provenance


@dataclass(frozen=True)
class LifeCycle:
    """All of these tables, with the indexes the core reads."""

    materials: Mapping[str, Material] = field(default_factory=dict)
    contents: Mapping[tuple[str, str], RecycledContent] = field(default_factory=dict)
    containers: Mapping[str, Container] = field(default_factory=dict)
    parts: Mapping[str, tuple[ContainerPart, ...]] = field(default_factory=dict)  # by container
    disposal: Mapping[tuple[str, str], tuple[Disposal, ...]] = field(default_factory=dict)
    fates: Mapping[tuple[str, str], tuple[FateShare, ...]] = field(default_factory=dict)
    carriage: Mapping[tuple[str, str], Carriage] = field(default_factory=dict)
    chains: Mapping[str, tuple[Leg, ...]] = field(default_factory=dict)
    regions: Mapping[str, Region] = field(default_factory=dict)
    losses: Mapping[str, GridLoss] = field(default_factory=dict)  # by region
    burdens: Mapping[tuple[str, Kind], Burden] = field(default_factory=dict)
