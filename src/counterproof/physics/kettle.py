"""An electric kettle: an element in the water, a light body, and a switch that is a little late."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics import water
from counterproof.physics.flags import Flag
from counterproof.physics.heating import Contents, Stove, heat_up
from counterproof.physics.simmering import full_boil
from counterproof.physics.values import Draws, smallest
from counterproof.physics.vessels import MATERIAL_HEAT
from counterproof.sourced import Sourced

POWER: Final = Sourced(
    2200.0, "W", 0.2, "assumed", "", "kettles take 1.2 to 3 kW; read the plate under yours"
)
BODY: Final = Sourced(
    300.0, "J/K", 0.4, "assumed", "",
    "heat that the body and the element take up per degree: half a kilogram of steel and plastic",
)  # fmt: skip
OVERRUN: Final = Sourced(
    8.0, "s", 0.5, "assumed", "", "it boils on until steam has reached the switch"
)
LEAST: Final = 0.15  # [kg], below it most kettles do not cover their element or mark
MOST: Final = 1.8  # [kg], what large kettles hold


@dataclass(frozen=True, slots=True)
class Kettle:
    """A kettle where it stands.

    Parameters
    ----------
    stove : Stove
        The kettle as a covered pot whose mass is that of its body; room and boiling point.
    power : float or (n,) array
        Electric power, all of which enters the water. [W]
    overrun : float or (n,) array
        Boiling time before it switches off. [s]
    """

    stove: Stove
    power: float | Draws = POWER.value
    overrun: float | Draws = OVERRUN.value


@dataclass(frozen=True, slots=True)
class Boiled:
    """Water boiled in a kettle.

    Parameters
    ----------
    time : float or (n,) array
        Until it switches off. [s]
    useful : float or (n,) array
        Heat in the water. [J]
    body, losses, overrun : float or (n,) array
        Heat in the kettle, lost through it, spent after the boil. [J]
    bought : float or (n,) array
        Electricity: the sum of these. [J]
    evaporated : float or (n,) array
        Water lost. [kg]
    """

    time: float | Draws
    useful: float | Draws
    body: float | Draws
    losses: float | Draws
    overrun: float | Draws
    bought: float | Draws
    evaporated: float | Draws

    @property
    def efficiency(self) -> float | Draws:
        """Heat in the water over electricity. [1]"""
        return self.useful / self.bought


def boiled(mass: float | Draws, start: float | Draws, end: float | Draws, kettle: Kettle) -> Boiled:
    """Heat water in a kettle to a temperature, or to the boil and a little over.

    Parameters
    ----------
    mass : float or (n,) array
        Water, > 0. [kg]
    start, end : float or (n,) array
        Temperatures, start < end ≤ boiling point; a kettle with a setting stops before. [K]
    kettle : Kettle
        The kettle; its late switch counts only if `end` is the boil.

    Returns
    -------
    Boiled
        Time, energy and its parts, which add up.

    Raises
    ------
    OutOfRange
        If there is no water, or the end lies below the start or above the boil.
    """
    if smallest(mass) <= 0.0:
        raise OutOfRange(
            "An empty kettle must not be switched on.", remedy="Give an amount of water."
        )
    warm = heat_up(Contents(mass), kettle.stove, start, end, kettle.power)
    to_boil = smallest(end - kettle.stove.boil) > -0.5
    late = kettle.overrun if to_boil else 0.0
    boiling_on = full_boil(kettle.stove, kettle.power)
    return Boiled(
        time=warm.time + late,
        useful=warm.useful,
        body=warm.vessel,
        losses=warm.dry + warm.latent,
        overrun=kettle.power * late,
        bought=kettle.power * (warm.time + late),
        evaporated=warm.evaporated + boiling_on.evaporation * late,
    )


def body_mass(heat: float | Draws = BODY.value) -> float | Draws:
    """Mass of steel that holds as much heat as a kettle's body.

    Parameters
    ----------
    heat : float or (n,) array
        Heat the body takes up per degree. [J/K]

    Returns
    -------
    float or (n,) array
        Mass. [kg]
    """
    return heat / MATERIAL_HEAT["steel"].value


def remarks(mass: float | Draws) -> tuple[Flag, ...]:
    """Flags of an amount of water in a kettle.

    Parameters
    ----------
    mass : float or (n,) array
        Water. [kg]

    Returns
    -------
    tuple of Flag
        One if it is less than kettles take or more than they hold.
    """
    least = smallest(mass)
    if least >= LEAST and -smallest(-mass) <= MOST:
        return ()
    litres = least / water.density(288.15) * 1000.0
    return (
        Flag(
            "kettle-size",
            f"{litres:.2g} L: kettles take between {LEAST} and {MOST} L at a time; keep to the "
            "marks on yours and boil the rest in a second go.",
        ),
    )
