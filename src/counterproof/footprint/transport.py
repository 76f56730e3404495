"""Carriage by mode: legs that were stated, or the usual chain of a kind of goods."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.draws import Parameter, Product
from counterproof.footprint.activities import rated, regions_for, uncertain
from counterproof.footprint.items import Item
from counterproof.life_cycle_rows import Carriage, LifeCycle
from counterproof.ways import Way

STATED: Final = 1.1
"""Geometric standard deviation of a distance that a cook states. [1] Assumption."""

_STAND_IN: Final = "uk"


@dataclass(frozen=True, slots=True)
class Journey:
    """One leg of the way: mode, kilometres, and how well these are known."""

    mode: str
    km: float
    spread: float
    key: str


def chain(kind: str, cycle: LifeCycle) -> tuple[Journey, ...]:
    """The usual chain of a kind of goods.

    Parameters
    ----------
    kind : str
        "drink", "chilled", "frozen", "dry" or "gas cylinder".
    cycle : LifeCycle
        Chains.

    Returns
    -------
    tuple of Journey
        In the order travelled. [km]
    """
    return tuple(
        Journey(leg.mode, leg.km, leg.spread, f"distance|{kind}|{leg.leg}")
        for leg in cycle.chains.get(kind, ())
    )


def carriage(mode: str, region: str, cycle: LifeCycle) -> Carriage | None:
    """Row of a mode, of the region or of the one that stands in for it.

    Parameters
    ----------
    mode : str
        "lorry", "sea", …
    region : str
        A kitchen's region.
    cycle : LifeCycle
        Carriage.

    Returns
    -------
    Carriage or None
        None for a mode that is not known. [kg CO2e per t·km]
    """
    for name in (*regions_for(region, cycle), _STAND_IN):
        row = cycle.carriage.get((mode, name))
        if row is not None:
            return row
    return None


def carried(
    what: str,
    kg: float,
    journeys: tuple[Journey, ...],
    region: str,
    cycle: LifeCycle,
    amounts: tuple[Parameter, ...] = (),
) -> tuple[list[Item], list[str]]:
    """What carrying goods is charged for.

    Parameters
    ----------
    what : str
        What is carried, for people.
    kg : float
        Its mass with its pack, whole batch. [kg]
    journeys : tuple of Journey
        The legs.
    region : str
        Whose freight.
    cycle : LifeCycle
        Carriage.
    amounts : tuple of Parameter
        What the mass depends on, each of mean 1.

    Returns
    -------
    tuple of list of Item and list of str
        One item a leg; what had to be assumed. [t·km]
    """
    items: list[Item] = []
    said: dict[str, None] = {}
    for leg in journeys:
        row = carriage(leg.mode, region, cycle)
        if row is None:
            said[f"No figure is known for carriage by {leg.mode}: it is not counted."] = None
            continue
        if row.lacks:
            said[f"Carriage by {row.mode} ({row.region}) leaves out {row.lacks}."] = None
        worth = rated(
            f"{row.mode}, {row.region}, per t·km",
            f"carriage|{row.mode}|{row.region}",
            row.whole,
            row.spread,
            stage="transport",
            unit="t·km",
            told=row.provenance,
        )
        amount = Product(kg / 1000 * leg.km, (uncertain(leg.key, leg.spread), *amounts))
        way = (Way("tonnes", kg / 1000, "t"), Way("kilometres", leg.km, "km", leg.mode))
        name = f"{what}, {leg.km:g} km by {leg.mode}"
        items.append(Item("activity", name, None, "", amount, worth, way=way))
    return items, list(said)
