"""What a unit of an activity is worth: one keyed figure at one life-cycle stage.

Foods have factors that span stages (`factors.Valued`); everything else, a kilowatt-hour, a
kilogram of glass, a tonne-kilometre, is rated here, and both become items by the same path.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log

from counterproof.draws import Draws, Lognormal, Parameter, Streams
from counterproof.provenance import Provenance
from counterproof.rows import STAGES, EnergyFactor, Stage, Tables

WORLD = "world"
"""Region whose rows stand in where a kitchen's own region has none."""

EUROPE: frozenset[str] = frozenset(
    [
        "AUT",
        "BEL",
        "BGR",
        "HRV",
        "CYP",
        "CZE",
        "DNK",
        "EST",
        "FIN",
        "FRA",
        "DEU",
        "GRC",
        "HUN",
        "IRL",
        "ITA",
        "LVA",
        "LTU",
        "LUX",
        "MLT",
        "NLD",
        "POL",
        "PRT",
        "ROU",
        "SVK",
        "SVN",
        "ESP",
        "SWE",
    ]
)
"""Member states of the European Union by ISO 3166 alpha-3 code."""


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
    """

    name: str
    stage: Stage
    unit: str
    parameter: Parameter
    source: str
    told: Provenance | None = None

    @property
    def parameters(self) -> tuple[Parameter, ...]:
        """The one parameter, as foods have several."""
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


def rated_energy(factor: EnergyFactor, stage: Stage) -> Rated:
    """What stands for a kWh of an energy carrier.

    Parameters
    ----------
    factor : EnergyFactor
        The row used. [kg CO2e per kWh]
    stage : Stage
        Where it is charged.

    Returns
    -------
    Rated
        [kg CO2e per kWh]
    """
    return rated(
        f"{factor.carrier}, {factor.region}, per kWh",
        f"energy|{factor.carrier}|{factor.region}",
        factor.kgco2e_per_kwh,
        factor.spread,
        stage=stage,
        unit="kWh",
        told=factor.provenance,
    )


def energy_factor(carrier: str, region: str, tables: Tables) -> EnergyFactor | None:
    """Energy factor of a kitchen's region, of the world where the region has none.

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
    EnergyFactor or None
        None where neither is known. [kg CO2e per kWh]
    """
    return tables.energy.get((carrier, region)) or tables.energy.get((carrier, WORLD))


def regions_for(region: str) -> tuple[str, ...]:
    """Regions whose rows may speak for one, its own first, the world's last.

    Parameters
    ----------
    region : str
        A kitchen's region.

    Returns
    -------
    tuple of str
        uk and GBR, us and USA are the same; a member state may stand on the EU's rows.
    """
    same = {"GBR": ("uk",), "USA": ("us",)}.get(region, ())
    union = ("eu",) if region in EUROPE else ()
    return tuple(dict.fromkeys((region, *same, *union, WORLD)))
