"""What a plan of the steps holds: energy used and what leaves the pot."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from counterproof.draws import Product
from counterproof.marks import Mark

Carrier = Literal["electricity", "gas"]


@dataclass(frozen=True, slots=True)
class EnergyUse:
    """Energy one process draws from the meter or the gas pipe, for the whole batch.

    `kwh` is final energy [kWh]; `step` is the number of the step it belongs to.
    """

    name: str  # for people: "simmer, 25–30 min"
    carrier: Carrier
    appliance: str
    kwh: Product
    step: int


@dataclass(frozen=True, slots=True)
class Leaving:
    """What leaves the pot and is not eaten, for the whole batch.

    `mass` is what leaves [kg]; what it cost to grow stays with what is served.
    """

    what: str  # for people: "strained fruit", "drained water", "steam"
    cause: Literal["strained", "drained", "boiled off"]
    fate: Literal["food waste", "sink", "air"]
    mass: Product
    step: int


@dataclass(frozen=True)
class Plan:
    """The steps of one reading in kitchen terms.

    `marks` are by step number; `assumed` says in plain words what was taken for granted.
    """

    energy: tuple[EnergyUse, ...]
    leaving: tuple[Leaving, ...]
    marks: tuple[tuple[int, Mark], ...]
    assumed: tuple[str, ...]
