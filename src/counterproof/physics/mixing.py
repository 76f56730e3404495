"""A drink from its parts: masses add, volumes do not.

Soluble solids (sugar and acid) are taken as sucrose for the density, as a refractometer takes them.
Temperatures come from a heat balance; ice stands in `ice`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, spirits, sucrose, water
from counterproof.physics.freezing_point import freezing_point
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, smallest
from counterproof.sourced import Sourced

_TWENTY: Final = ZERO_CELSIUS + 20.0
_ROUNDING: Final = 1e-9
CRYSTALS: Final = Sourced(
    1587.0, "kg/m³", 0.01, "assumed", "", "sugar crystals without gaps; handbook value, from memory"
)


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a drink.

    Parameters
    ----------
    name : str
        As a cook says it.
    mass : float or (n,) array
        All of it, > 0. [kg]
    sugar, acid, alcohol : float or (n,) array
        Masses in it; acid as citric. [kg]
    water : float or (n,) array or None
        Mass in it; None for all the rest. [kg]
    temperature : float or (n,) array
        Its temperature. [K]
    co2 : float or (n,) array
        Carbon dioxide dissolved in it. [kg]
    sweetener : str
        What its sugar is; a key of `sweetness.RELATIVE`.

    Raises
    ------
    OutOfRange
        If the mass is not above zero, a part of it is negative, or they are more than the whole.
    """

    name: str
    mass: float | Draws
    sugar: float | Draws = 0.0
    acid: float | Draws = 0.0
    alcohol: float | Draws = 0.0
    water: float | Draws | None = None
    temperature: float | Draws = _TWENTY
    co2: float | Draws = 0.0
    sweetener: str = "sucrose"

    def __post_init__(self) -> None:
        """Refuse what cannot be a part."""
        parts = (self.sugar, self.acid, self.alcohol, self.co2)
        least = min(smallest(self.mass), smallest(*parts), smallest(self.moisture))
        over = largest(self.sugar + self.acid + self.alcohol + self.moisture - self.mass)
        if smallest(self.mass) <= 0.0 or least < -_ROUNDING or over > _ROUNDING:
            raise OutOfRange(
                f"{self.name}: sugar, acid, alcohol and water together are more than there is of "
                "it, or one is below nothing.",
                remedy="Give masses that add up to at most the whole.",
            )

    @property
    def moisture(self) -> float | Draws:
        """Water in it. [kg]"""
        if self.water is not None:
            return self.water
        return self.mass - self.sugar - self.acid - self.alcohol

    @property
    def other(self) -> float | Draws:
        """What is none of these: pulp, protein, salt. [kg]"""
        return self.mass - self.sugar - self.acid - self.alcohol - self.moisture


@dataclass(frozen=True, slots=True)
class Drink:
    """All parts together.

    Parameters
    ----------
    mass, sugar, acid, alcohol, moisture, co2 : float or (n,) array
        Sums over the parts. [kg]
    temperature : float or (n,) array
        Once mixed. [K]
    """

    mass: float | Draws
    sugar: float | Draws
    acid: float | Draws
    alcohol: float | Draws
    moisture: float | Draws
    co2: float | Draws
    temperature: float | Draws

    @property
    def brix(self) -> float | Draws:
        """Soluble solids, acid included, in a hundred parts by mass. [°Brix]"""
        return 100.0 * (self.sugar + self.acid) / self.mass

    @property
    def volume(self) -> float | Draws:
        """Volume at 20 °C. [m³]

        Notes
        -----
        Alcohol and water by `spirits.volume`; the solids and the water as a sugar solution, less
        the water counted twice; pulp as carbohydrate. Bubbles are not counted.
        """
        solids = self.sugar + self.acid
        thin = self.moisture + solids
        pulp = self.mass - solids - self.alcohol - self.moisture
        wet: float | Draws = 0.0
        if smallest(thin) > 0.0:
            wet = thin / sucrose.density(100.0 * solids / thin)
        spirited = spirits.volume(self.moisture, self.alcohol)
        alone = self.moisture / spirits.WATER_DENSITY.value
        solid = food_properties.COMPONENTS["carbohydrate"].density.coefficients[0]
        return wet + spirited - alone + pulp / solid

    @property
    def density(self) -> float | Draws:
        """Density at 20 °C. [kg/m³]"""
        return self.mass / self.volume

    @property
    def acidity(self) -> float | Draws:
        """Titratable acid, as citric. [kg/m³]"""
        return self.acid / self.volume

    @property
    def alcohol_share(self) -> float | Draws:
        """Alcohol by volume. [1]"""
        return spirits.by_volume(self.alcohol, self.volume)

    @property
    def begins_to_freeze(self) -> float | Draws:
        """Where its first ice forms. [K]"""
        return freezing_point(
            water=self.moisture, sugar=self.sugar, acid=self.acid, alcohol=self.alcohol
        )


def heat(drink: Part | Drink, temperature: float | Draws) -> float | Draws:
    """Heat in a liquid, counted from 0 °C.

    Parameters
    ----------
    drink : Part or Drink
        What holds it.
    temperature : float or (n,) array
        Its temperature, 250 to 373. [K]

    Returns
    -------
    float or (n,) array
        Heat: water by its own curve, solids as carbohydrate, alcohol constant. [J]

    Notes
    -----
    The heat of mixing is left out: alcohol into water warms the drink by up to 3 K at 20 % by
    mass, sugar cools it by less than 1 K.
    """
    solids = drink.mass - drink.moisture - drink.alcohol
    dry = food_properties.component_heat("carbohydrate", temperature)
    spirit = spirits.HEAT_CAPACITY.value * (temperature - ZERO_CELSIUS)
    wet = water.sensible_heat(ZERO_CELSIUS, temperature)
    return drink.moisture * wet + solids * dry + drink.alcohol * spirit


def balanced(drink: Drink, wanted: float | Draws) -> float | Draws:
    """Temperature at which a drink holds a heat.

    Parameters
    ----------
    drink : Drink
        The drink.
    wanted : float or (n,) array
        Heat, counted from 0 °C. [J]

    Returns
    -------
    float or (n,) array
        Temperature, by Newton's rule. [K]
    """
    temperature = drink.temperature
    for _ in range(8):
        rate = heat(drink, temperature + 0.5) - heat(drink, temperature - 0.5)
        temperature = temperature - (heat(drink, temperature) - wanted) / rate
    return temperature


def mixed(parts: Sequence[Part], kept: float | Draws = 1.0) -> Drink:
    """A drink stirred together from its parts, without ice.

    Parameters
    ----------
    parts : sequence of Part
        At least one.
    kept : float or (n,) array
        Share of the carbon dioxide that is not lost on the way. [1]

    Returns
    -------
    Drink
        Sums, and the temperature of the heat balance; nothing is lost to the glass.

    Raises
    ------
    OutOfRange
        If there is nothing to mix.
    """
    if not parts:
        raise OutOfRange("There is nothing to mix.", remedy="Name at least one part.")

    def whole(name: str) -> float | Draws:
        total: float | Draws = 0.0
        for part in parts:
            total = total + getattr(part, name)
        return total

    mass = whole("mass")
    first: float | Draws = 0.0
    held: float | Draws = 0.0
    for part in parts:
        first = first + part.mass * part.temperature / mass
        held = held + heat(part, part.temperature)
    drink = Drink(
        mass, whole("sugar"), whole("acid"), whole("alcohol"), whole("moisture"),
        kept * whole("co2"), first,
    )  # fmt: skip
    return Drink(
        drink.mass, drink.sugar, drink.acid, drink.alcohol, drink.moisture, drink.co2,
        balanced(drink, held),
    )  # fmt: skip


def apart(parts: Sequence[Part]) -> float | Draws:
    """Volume of the parts before they are mixed.

    Parameters
    ----------
    parts : sequence of Part
        The parts.

    Returns
    -------
    float or (n,) array
        Sum of their volumes at 20 °C; dry sugar as crystals. [m³]
    """
    total: float | Draws = 0.0
    for part in parts:
        if largest((part.moisture + part.alcohol) / part.mass) <= _ROUNDING:
            total = total + part.mass / CRYSTALS.value
        else:
            total = total + mixed((part,)).volume
    return total
