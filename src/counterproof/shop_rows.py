"""The rows of the tables of the shop: which packs are sold, and where in a shop a food stands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from counterproof.provenance import Provenance


@dataclass(frozen=True, slots=True)
class PackSold:
    """A pack in which a food is commonly sold."""

    food: str
    amount: float  # in `unit`
    unit: Literal["kg", "L", "piece"]
    container: str  # Container.id it comes in; "" where that is not known
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class ShopPart:
    """The part of a shop where a class of foods stands."""

    food_class: str
    part: str  # for people: "fruit and vegetables"
    loose: bool  # whether it is weighed out or sold by the piece where no pack is known
    provenance: Provenance


@dataclass(frozen=True)
class Shop:
    """The tables of the shop."""

    packs: Mapping[str, tuple[PackSold, ...]] = field(default_factory=dict)  # by food
    parts: Mapping[str, ShopPart] = field(default_factory=dict)  # by food class
