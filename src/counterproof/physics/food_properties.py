"""Density, heat capacity and conductivity of a food from what it is made of.

Choi & Okos (1986), as tabulated in the ASHRAE Handbook, Refrigeration (2006), chapter 9, tables
1 and 2. A makeup maps components to mass fractions. Ice is a component like the others;
`frozen.frozen_makeup` says how much of the water it is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import ZERO_CELSIUS, Draws, Fit, largest, smallest
from counterproof.sourced import Sourced

Makeup = Mapping[str, float | Draws]
"""Component → mass fraction: water, protein, fat, carbohydrate, fibre, ash, ice."""

_LOW: Final = ZERO_CELSIUS - 40.0
_HIGH: Final = ZERO_CELSIUS + 150.0


@dataclass(frozen=True, slots=True)
class _Component:
    """Polynomials in °C of one component."""

    density: Fit
    heat_capacity: Fit
    conductivity: Fit


def _component(
    name: str,
    density: tuple[float, ...],
    heat: tuple[float, ...],
    conductivity: tuple[float, ...],
) -> _Component:
    def fit(coefficients: tuple[float, ...], unit: str, error: float) -> Fit:
        return Fit(
            coefficients, unit, _LOW, _HIGH, error, "choi-okos-1986",
            f"{name}, ASHRAE Refrigeration 2006 ch. 9 tables 1–2", "polynomial in °C",
        )  # fmt: skip

    return _Component(
        fit(density, "kg/m³", 0.03),
        fit(tuple(1000.0 * c for c in heat), "J/(kg K)", 0.05),
        fit(conductivity, "W/(m K)", 0.1),
    )


# fmt: off
COMPONENTS: Final[Mapping[str, _Component]] = MappingProxyType({
    "water": _component(
        "water", (997.18, 0.0031439, -0.0037574), (4.1289, -9.0864e-5, 5.4731e-6),
        (0.57109, 0.0017625, -6.7036e-6),
    ),
    "protein": _component(
        "protein", (1329.9, -0.5184), (2.0082, 0.0012089, -1.3129e-6),
        (0.17881, 0.0011958, -2.7178e-6),
    ),
    "fat": _component(
        "fat", (925.59, -0.41757), (1.9842, 0.0014733, -4.8008e-6),
        (0.18071, -0.00027604, -1.7749e-7),
    ),
    "carbohydrate": _component(
        "carbohydrate", (1599.1, -0.31046), (1.5488, 0.0019625, -5.9399e-6),
        (0.20141, 0.0013874, -4.3312e-6),
    ),
    "fibre": _component(
        "fibre", (1311.5, -0.36589), (1.8459, 0.0018306, -4.6509e-6),
        (0.18331, 0.0012497, -3.1683e-6),
    ),
    "ash": _component(
        "ash", (2423.8, -0.28063), (1.0926, 0.0018896, -3.6817e-6),
        (0.32962, 0.0014011, -2.9069e-6),
    ),
    "ice": _component(
        "ice", (916.89, -0.13071), (2.0623, 0.0060769),
        (2.2196, -0.0062489, 0.00010154),
    ),
})
# fmt: on
HEAT_CAPACITY_SPREAD: Final = Sourced(
    1.0,
    "1",
    0.04,
    "assumed",
    "",
    "heat capacity of a food from its makeup against measured ones: a few per cent",
)  # fmt: skip
CONDUCTIVITY_SPREAD: Final = Sourced(
    1.0, "1", 0.10, "assumed", "",
    "conductivity depends on structure, which a makeup does not tell: about a tenth",
)  # fmt: skip

WATER: Final[Makeup] = MappingProxyType({"water": 1.0})


def makeup(shares: Makeup) -> Makeup:
    """A checked makeup whose fractions add up to one.

    Parameters
    ----------
    shares : Makeup
        Amounts of the components per unit of food, adding up to 0.95–1.05, or per 100 g.

    Returns
    -------
    Makeup
        Mass fractions, in the order of the table, those that are zero left out.

    Raises
    ------
    OutOfRange
        If a component is unknown or negative, or the sum is far from the whole.
    """
    unknown = [name for name in shares if name not in COMPONENTS]
    if unknown:
        raise OutOfRange(
            f"“{unknown[0]}” is not a component whose heat is known.",
            remedy=f"Use {', '.join(COMPONENTS)}; count alcohol as water.",
        )
    total: float | Draws = sum(shares.values(), start=0.0)
    if largest(total) > 50.0:
        total = total / 100.0
        shares = {name: share / 100.0 for name, share in shares.items()}
    if smallest(total) < 0.95 or largest(total) > 1.05 or smallest(*shares.values()) < 0.0:
        raise OutOfRange(
            f"The parts of the food add up to {smallest(total):.3g}, or one is negative.",
            remedy="Give the share of each component, together 1 (or grams in 100 g).",
        )
    return {name: shares[name] / total for name in COMPONENTS if name in shares}


def from_analysis(grams: Mapping[str, float | None]) -> Makeup:
    """The makeup of a food from a nutrient table's line.

    Parameters
    ----------
    grams : mapping
        Grams in 100 g of water, protein, fat, carbohydrate (by difference, its fibre included),
        fibre, ash and alcohol; None or left out where the table says nothing.

    Returns
    -------
    Makeup
        Mass fractions: fibre taken out of the carbohydrate, alcohol counted as water. What is
        missing to the whole, up to 70 g, is counted as ash: salt, soda, what was not analysed.

    Raises
    ------
    OutOfRange
        If the parts do not come to about 100 g.
    """
    held = {name: float(value or 0.0) for name, value in grams.items()}
    fibre = min(held.get("fibre", 0.0), held.get("carbohydrate", 0.0))
    parts = {
        "water": held.get("water", 0.0) + held.get("alcohol", 0.0),
        "protein": held.get("protein", 0.0),
        "fat": held.get("fat", 0.0),
        "carbohydrate": held.get("carbohydrate", 0.0) - fibre,
        "fibre": fibre,
        "ash": held.get("ash", 0.0),
    }
    missing = 100.0 - sum(parts.values())
    if 0.0 < missing <= 70.0:
        parts["ash"] += missing
    return makeup({name: value / 100.0 for name, value in parts.items() if value > 0.0})


def density(of: Makeup, temperature: float | Draws, porosity: float | Draws = 0.0) -> float | Draws:
    """Density of a food.

    Parameters
    ----------
    of : Makeup
        What it is made of; fractions add up to 1.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    porosity : float or (n,) array
        Share of its volume that is air, 0 to 1. [1]

    Returns
    -------
    float or (n,) array
        Density. [kg/m³]

    Notes
    -----
    (1 − porosity) / Σ xᵢ/ρᵢ. The equations' water is 0.2–0.3 % lighter than water is; see
    `water.density` for water itself.
    """
    celsius = temperature - ZERO_CELSIUS
    volume: float | Draws = 0.0 * celsius
    for name, share in of.items():
        volume = volume + share / COMPONENTS[name].density.polynomial(celsius)
    return (1.0 - porosity) / volume


def heat_capacity(of: Makeup, temperature: float | Draws) -> float | Draws:
    """Specific heat capacity of a food in which nothing freezes or melts.

    Parameters
    ----------
    of : Makeup
        What it is made of; fractions add up to 1.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Σ xᵢ cᵢ. [J/(kg K)]
    """
    celsius = temperature - ZERO_CELSIUS
    total: float | Draws = 0.0 * celsius
    for name, share in of.items():
        total = total + share * COMPONENTS[name].heat_capacity.polynomial(celsius)
    return total


def component_heat(name: str, temperature: float | Draws) -> float | Draws:
    """Heat in one component above the freezing point of water.

    Parameters
    ----------
    name : str
        A component.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Integral of its heat capacity from 0 °C, negative below it. [J/kg]
    """
    celsius = temperature - ZERO_CELSIUS
    total: float | Draws = 0.0 * celsius
    for power, c in enumerate(COMPONENTS[name].heat_capacity.coefficients, start=1):
        total = total + c * celsius**power / power
    return total


def sensible_heat(of: Makeup, start: float | Draws, end: float | Draws) -> float | Draws:
    """Heat that takes a kilogram of food from one temperature to another, nothing freezing.

    Parameters
    ----------
    of : Makeup
        What it is made of; fractions add up to 1.
    start, end : float or (n,) array
        Temperatures, 233 to 423. [K]

    Returns
    -------
    float or (n,) array
        Heat, negative if `end` lies below `start`; the exact integral of `heat_capacity`. [J/kg]
    """
    total: float | Draws = 0.0
    for name, share in of.items():
        total = total + share * (component_heat(name, end) - component_heat(name, start))
    return total


@dataclass(frozen=True, slots=True)
class Conductivity:
    """Conductivity between its two bounds.

    Parameters
    ----------
    parallel : float or (n,) array
        Components side by side: the upper bound. [W/(m K)]
    series : float or (n,) array
        Components one behind the other: the lower bound. [W/(m K)]
    """

    parallel: float | Draws
    series: float | Draws

    @property
    def between(self) -> float | Draws:
        """Mean of the two bounds, which is what a moist food is taken to have. [W/(m K)]"""
        return 0.5 * (self.parallel + self.series)


AIR_CONDUCTIVITY: Final = Sourced(
    0.025, "W/(m K)", 0.1, "coolprop-2014", "air at 10 °C", "for the pores of a food"
)


def conductivity(
    of: Makeup, temperature: float | Draws, porosity: float | Draws = 0.0
) -> Conductivity:
    """Thermal conductivity of a food, as bounds.

    Parameters
    ----------
    of : Makeup
        What it is made of; fractions add up to 1.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    porosity : float or (n,) array
        Share of its volume that is air, 0 to 1. [1]

    Returns
    -------
    Conductivity
        Parallel and series values. [W/(m K)]

    Notes
    -----
    Volume fractions vᵢ = xᵢ ρ/ρᵢ; parallel Σ vᵢ kᵢ, series 1/Σ(vᵢ/kᵢ). Pores join by volume.
    """
    celsius = temperature - ZERO_CELSIUS
    solid = density(of, temperature)
    along: float | Draws = 0.0 * celsius
    across: float | Draws = 0.0 * celsius
    for name, share in of.items():
        component = COMPONENTS[name]
        volume = share * solid / component.density.polynomial(celsius) * (1.0 - porosity)
        k = component.conductivity.polynomial(celsius)
        along = along + volume * k
        across = across + volume / k
    along = along + porosity * AIR_CONDUCTIVITY.value
    across = across + porosity / AIR_CONDUCTIVITY.value
    return Conductivity(along, 1.0 / across)


def diffusivity(
    of: Makeup, temperature: float | Draws, porosity: float | Draws = 0.0
) -> float | Draws:
    """Thermal diffusivity of a food.

    Parameters
    ----------
    of : Makeup
        What it is made of; fractions add up to 1.
    temperature : float or (n,) array
        Temperature, 233 to 423. [K]
    porosity : float or (n,) array
        Share of its volume that is air, 0 to 1. [1]

    Returns
    -------
    float or (n,) array
        k/(ρ c), k between the bounds. [m²/s]
    """
    k = conductivity(of, temperature, porosity).between
    return k / (density(of, temperature, porosity) * heat_capacity(of, temperature))


def validity(temperature: float | Draws, of: Makeup) -> tuple[Flag, ...]:
    """Flags of a food's properties at a temperature.

    Parameters
    ----------
    temperature : float or (n,) array
        Temperature. [K]
    of : Makeup
        What it is made of.

    Returns
    -------
    tuple of Flag
        One if the equations are left; one if there is water below 0 °C that was not split
        into water and ice.
    """
    flags = outside("food temperature", temperature, _LOW, _HIGH, "°C")
    if smallest(temperature) < ZERO_CELSIUS and "ice" not in of and "water" in of:
        flags += (
            Flag(
                "not-frozen",
                f"food at {smallest(temperature) - ZERO_CELSIUS:.4g} °C is counted as unfrozen; "
                "below its freezing point part of its water is ice.",
            ),
        )
    return flags
