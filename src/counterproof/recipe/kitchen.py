"""The place a recipe is cooked in, with a stated default for everything."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

HobKind = Literal["gas", "solid plate", "ceramic", "induction"]


@dataclass(frozen=True, slots=True)
class Kitchen:
    """The kitchen. `stated` names the keys the cook gave; all others are defaults and printed so."""

    region: str = "world"
    hob: HobKind = "ceramic"
    hob_watts: float = 2000.0
    oven: Literal["fan", "conventional", "gas"] = "fan"
    altitude_m: float = 0.0
    room_celsius: float = 20.0
    tap_celsius: float = 15.0
    fridge_celsius: float = 4.0
    fridge_litres: float = 250.0
    fridge_kwh_per_year: float = 150.0
    freezer_celsius: float = -18.0
    freezer_litres: float = 100.0
    freezer_kwh_per_year: float = 200.0
    month: int | None = None
    middle: Literal["mean", "median"] = "mean"
    range_for: Literal["one-purchase", "the-average"] = "one-purchase"
    stated: frozenset[str] = field(default_factory=frozenset)
    file: str | None = None
