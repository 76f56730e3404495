"""How fast a cold jar trades heat with what is around it: freezer, fridge, counter, water."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from counterproof.errors import OutOfRange
from counterproof.physics import air, convection, iced_water, water
from counterproof.sourced import Sourced

FLOW: Final = Sourced(
    1.0, "1", 0.22, "assumed", "",
    "heat transfer in a real freezer or fridge against the correlations: shelves, neighbours, fans; "
    "0.7–1.4 holds nine cases in ten",
)  # fmt: skip
GLASS_CONDUCTIVITY: Final = Sourced(
    1.0, "W/(m K)", 0.1, "assumed", "", "soda-lime glass; handbook value, from memory"
)
GLASS_THICKNESS: Final = Sourced(
    0.003, "m", 0.3, "assumed", "", "wall of a kitchen jar, 2 to 4 mm; not measured"
)

Place = Literal["freezer", "fridge", "counter", "water"]
HUMIDITY: Final[dict[Place, float]] = {"freezer": 0.7, "fridge": 0.5, "counter": 0.5, "water": 0.0}
"""Relative humidity of the air there, assumed: it only matters where a jar sweats. [1]"""


@dataclass(frozen=True, slots=True)
class Round:
    """An upright round body.

    Parameters
    ----------
    diameter, height : float
        Outer sizes of what is filled, > 0. [m]

    Raises
    ------
    OutOfRange
        If a size is not above zero.
    """

    diameter: float
    height: float

    def __post_init__(self) -> None:
        """Refuse what has no size."""
        if self.diameter <= 0.0 or self.height <= 0.0:
            raise OutOfRange(
                "A vessel is wider and taller than nothing.",
                remedy="Give volume and diameter above zero.",
            )

    @property
    def wall(self) -> float:
        """Wall over whole surface. [1]"""
        return self.height / (self.height + 0.5 * self.diameter)


def condensation(surface: float, ambient: float, convective: float, humidity: float) -> float:
    """What dew adds to the heat transfer of a cold surface.

    Parameters
    ----------
    surface, ambient : float
        Temperatures, surface below ambient. [K]
    convective : float
        Convection alone. [W/(m² K)]
    humidity : float
        Relative humidity of the air, 0 to 1. [1]

    Returns
    -------
    float
        Coefficient; 0 above the dew point or below 0 °C, where frost insulates again. [W/(m² K)]

    Notes
    -----
    Chilton & Colburn: h · Le^(2/3) · 0.622 h_fg/(cp p) · Δp_v/ΔT.
    """
    if ambient <= surface or surface < 273.15:
        return 0.0
    drive = air.vapour_pressure(ambient, humidity) - water.saturation_pressure(surface)
    per_pascal = 0.622 * water.latent_heat(surface) / (air.heat_capacity(ambient) * 101_325.0)
    mass = convective * air.lewis_factor(0.5 * (surface + ambient)) * per_pascal * drive
    return max(float(mass / (ambient - surface)), 0.0)


def coefficient(
    body: Round, surface: float, ambient: float, place: Place, *, glass: bool = True
) -> float:
    """Heat transfer between the contents' outside and their surroundings.

    Parameters
    ----------
    body : Round
        The vessel.
    surface, ambient : float
        Temperatures of its outside and of what is around. [K]
    place : Place
        freezer, fridge, counter or water.
    glass : bool
        Whether a wall of glass lies between.

    Returns
    -------
    float
        Coefficient, middle value. [W/(m² K)]

    Notes
    -----
    Still air: wall, top and bottom by their areas, radiation to the walls around (emissivity 0.9),
    dew on the counter and in the fridge. Still water: `iced_water`. Glass in series.
    """
    if place == "water":
        # A wall below 0 °C ices over, and water meets that ice at 0 °C.
        outside = float(iced_water.coefficient(max(surface, 273.15), ambient, body.height))
    else:
        upper, lower = convection.top, convection.bottom
        if surface < ambient:
            upper, lower = lower, upper
        wall = convection.wall(surface, ambient, body.height)
        ends = 0.5 * (
            upper(surface, ambient, body.diameter) + lower(surface, ambient, body.diameter)
        )
        still = float(body.wall * wall + (1.0 - body.wall) * ends)
        dew = condensation(surface, ambient, still, HUMIDITY[place])
        radiant = convection.radiation(surface, ambient, convection.EMISSIVITY.value)
        outside = still + dew + float(radiant)
    if not glass:
        return outside
    return 1.0 / (1.0 / outside + GLASS_THICKNESS.value / GLASS_CONDUCTIVITY.value)
