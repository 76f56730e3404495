"""What a unit of an activity is worth: one keyed figure at one life-cycle stage.

Foods have factors that span stages (`factors.Valued`); everything else, a kilowatt-hour, a
kilogram of glass, a tonne-kilometre, is rated here, and both become items by the same path.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, replace
from math import log
from typing import Final

from counterproof.draws import Draws, Lognormal, Parameter, Streams
from counterproof.life_cycle_rows import GridLoss, LifeCycle
from counterproof.provenance import Provenance
from counterproof.rows import STAGES, EnergyFactor, Stage, Tables

WORLD = "world"
"""Region whose rows stand in where a kitchen's own region has none."""

LOSSES: Final = "grid losses"
"""How a row says that it is of electricity as generated, not as it comes out of a socket."""


@dataclass(frozen=True, slots=True)
class Rated:
    """What stands for a unit of an activity.

    Parameters
    ----------
    name : str
        The figure used, for people; it also labels the process in the matrices.
    stage : Stage
        Where it is charged.
    unit : str
        What it is per: "kWh", "kg", "t·km".
    parameter : Parameter
        Its value. [kg CO2e per unit]
    source : str
        Source.id, or "" where it is assumed.
    told : Provenance or None
        Of the row behind it, with its place in the source; None where it is of no table.
    also : str
        Source.id of a second figure that is in it, or "".
    """

    name: str
    stage: Stage
    unit: str
    parameter: Parameter
    source: str
    told: Provenance | None = None
    also: str = ""

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        """The one parameter, as foods have several."""
        return (self.parameter,)

    @property
    def drawn_from(self) -> tuple[Hashable, ...]:
        """Everything that the draws follow from."""
        return (self.parameter,)

    @property
    def mean(self) -> float:
        """Expected kg CO2e per unit."""
        return self.parameter.distribution.mean

    @property
    def stages(self) -> tuple[float, ...]:
        """Mean by stage, in the order of `rows.STAGES`. [kg CO2e per unit]"""
        return tuple(self.mean if stage == self.stage else 0.0 for stage in STAGES)

    def draws(self, streams: Streams) -> Draws:
        """Return the draws of kg CO2e per unit.

        Parameters
        ----------
        streams : Streams
            Seed, number of draws, and the draws already made.

        Returns
        -------
        (n,) array
            Shared and read-only. [kg CO2e per unit]
        """
        return streams.values(self.parameter)


def uncertain(key: str, spread: float) -> Parameter:
    """A multiplier of mean 1.

    Parameters
    ----------
    key : str
        What it is, never where it stands.
    spread : float
        Geometric standard deviation, ≥ 1. [1]

    Returns
    -------
    Parameter
        Lognormal. [1]
    """
    return Parameter(key, Lognormal(1.0, log(spread)))


def rated(
    name: str, key: str, mean: float, spread: float, *, stage: Stage, unit: str, told: Provenance
) -> Rated:
    """What stands for a unit of an activity, lognormal about a figure of a table.

    Parameters
    ----------
    name : str
        The figure used, for people.
    key : str
        What it is, never where it stands.
    mean : float
        Its expected value, > 0. [kg CO2e per unit]
    spread : float
        Geometric standard deviation, ≥ 1. [1]
    stage : Stage
        Where it is charged.
    unit : str
        What it is per.
    told : Provenance
        Where it comes from.

    Returns
    -------
    Rated
        [kg CO2e per unit]
    """
    parameter = Parameter(key, Lognormal(mean, log(spread)))
    return Rated(name, stage, unit, parameter, told.source, told)


@dataclass(frozen=True, slots=True)
class Delivered(EnergyFactor):
    """An energy factor as it comes out of the socket, with the loss that is in it."""

    loss: GridLoss | None = None


def rated_energy(factor: Delivered, stage: Stage) -> Rated:
    """What stands for a kWh of an energy carrier.

    Parameters
    ----------
    factor : Delivered
        The row used. [kg CO2e per kWh]
    stage : Stage
        Where it is charged.

    Returns
    -------
    Rated
        [kg CO2e per kWh]
    """
    lost = "" if factor.loss is None else f", with {100 * factor.loss.share:.1f} % lost on the way"
    worth = rated(
        f"{factor.carrier}, {factor.region}, per kWh{lost}",
        f"energy|{factor.carrier}|{factor.region}",
        factor.kgco2e_per_kwh,
        factor.spread,
        stage=stage,
        unit="kWh",
        told=factor.provenance,
    )
    return worth if factor.loss is None else replace(worth, also=factor.loss.provenance.source)


def energy_factor(carrier: str, region: str, tables: Tables) -> Delivered | None:
    """Energy factor of a kitchen's region, of one whose rows may stand in where it has none.

    Parameters
    ----------
    carrier : str
        "electricity" or "gas".
    region : str
        The kitchen's region.
    tables : Tables
        All tables.

    Returns
    -------
    Delivered or None
        With the losses of the grid where they are known: what is generated over what arrives,
        1 / (1 − share lost). Its `lacks` says what is left out still; None where neither the
        region's nor a wider one's row is known. [kg CO2e per kWh]
    """
    cycle = tables.life_cycle
    rows = (tables.energy.get((carrier, name)) for name in regions_for(region, cycle))
    row = next((found for found in rows if found is not None), None)
    if row is None:
        return None
    lacks = row.lacks.split(" and ")
    loss = cycle.losses.get(row.region) if LOSSES in lacks else None
    arrives = 1.0 if loss is None else 1.0 - loss.share
    return Delivered(
        row.carrier,
        row.region,
        row.kgco2e_per_kwh / arrives,
        row.spread,
        " and ".join(part for part in lacks if loss is None or part != LOSSES),
        row.provenance,
        loss,
    )


def regions_for(region: str, cycle: LifeCycle) -> tuple[str, ...]:
    """Regions whose rows may speak for one, its own first, the world's last.

    Parameters
    ----------
    region : str
        A kitchen's region.
    cycle : LifeCycle
        With the regions.

    Returns
    -------
    tuple of str
        uk and GBR, us and USA are the same; a member state may stand on the EU's rows, a grid
        subregion on those of its country.
    """
    held = cycle.regions.get(region)
    within = (held.within,) if held is not None and held.within else ()
    return tuple(dict.fromkeys((region, *within, WORLD)))
