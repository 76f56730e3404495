"""Where a question is asked: the room, the height above the sea, the hob and the pot on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, Final

import numpy as np

from counterproof.physics import convection, evaporation, food_properties, hob, vessels
from counterproof.physics.air import Room
from counterproof.physics.boiling import boiling_point, pressure_at
from counterproof.physics.heating import Contents, Stove
from counterproof.physics.values import ZERO_CELSIUS, Draws, Take, taken_share
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

POT_OWN_MASS: Final = Sourced(
    1.0, "1", vessels.POT_MASS.spread, "assumed", "", vessels.POT_MASS.note
)


@dataclass(frozen=True)
class Place:
    """A kitchen, as far as heat knows it; its air and boiling point are worked out once.

    Parameters
    ----------
    room : float
        Temperature of the room. [K]
    altitude : float
        Height above the sea. [m]
    """

    room: float = 293.15
    altitude: float = 0.0

    @cached_property
    def air(self) -> Room:
        """The air of the room, half moist: hot pots hardly feel the difference."""
        return Room.of(self.room, evaporation.HUMIDITY.value, pressure_at(self.altitude))

    @cached_property
    def boil(self) -> float:
        """Boiling point of water here. [K]"""
        return float(boiling_point(self.altitude))

    def inputs(self) -> Mapping[str, Any]:
        """Return what is printed of it."""
        return {"room_celsius": self.room - ZERO_CELSIUS, "altitude_m": self.altitude}


@dataclass(frozen=True, slots=True)
class Ring:
    """A ring of a hob and the pot on it.

    Parameters
    ----------
    kind : str
        gas, solid plate, ceramic or induction.
    power : float or (n,) array or None
        Energy it takes per second at the setting used; None for that of a large ring on full. [W]
    covered : bool
        Whether a lid is on.
    diameter : float or None
        Inner diameter of the pot; None for one of usual proportions. [m]
    pot_mass : float or None
        Mass of the empty pot; None for one of usual walls. [kg]
    material : str
        What the pot is made of; a key of `vessels.MATERIAL_HEAT`.
    """

    kind: str = "ceramic"
    power: float | Draws | None = None
    covered: bool = True
    diameter: float | None = None
    pot_mass: float | None = None
    material: str = "steel"

    def efficiency(self, take: Take) -> float | Draws:
        """Return heat into the pot over energy bought.

        Parameters
        ----------
        take : Take
            Where draws come from.

        Returns
        -------
        float or (n,) array
            Efficiency. [1]
        """
        return taken_share(take, f"hob|{self.kind}", hob.efficiency_of(self.kind))

    def full(self, take: Take) -> float | Draws:
        """Return what it takes, as given or on full.

        Parameters
        ----------
        take : Take
            Where draws come from.

        Returns
        -------
        float or (n,) array
            Energy bought per second. [W]
        """
        if self.power is not None:
            return self.power
        hob.efficiency_of(self.kind)
        return take(f"hob power|{self.kind}", hob.POWER[self.kind])

    def stove(self, contents: Contents, place: Place, take: Take) -> Stove:
        """Return pot, room and losses for what is in it.

        Parameters
        ----------
        contents : Contents
            What is in the pot.
        place : Place
            The kitchen.
        take : Take
            Where draws come from.

        Returns
        -------
        Stove
            The circumstances of heating.
        """
        volume = float(np.mean(contents.volume(293.15)))
        pot = vessels.pot_for(
            volume,
            diameter=self.diameter,
            mass=self.pot_mass,
            material=self.material,
            covered=self.covered,
        )
        if self.pot_mass is None:
            pot = replace(pot, mass=pot.mass * take("pot|mass", POT_OWN_MASS))
        shine = taken_share(take, "pot|emissivity", vessels.POT_EMISSIVITY)
        return Stove(replace(pot, emissivity=shine), place.air, place.boil, leaks(take))

    def inputs(self, pot: vessels.Pot) -> Mapping[str, Any]:
        """Return what is printed of it, defaults filled in.

        Parameters
        ----------
        pot : Pot
            The pot that was used.

        Returns
        -------
        mapping
            Names to values, the unit in each name.
        """
        return {
            "appliance": f"{self.kind} hob",
            "power_w": hob.POWER[self.kind].value if self.power is None else self.power,
            "covered": pot.covered,
            "diameter_m": pot.diameter,
            "pot_kg": float(np.mean(pot.mass)),
        }


def leaks(take: Take) -> vessels.Leaks:
    """What is uncertain about a vessel's losses, taken once.

    Parameters
    ----------
    take : Take
        Where draws come from.

    Returns
    -------
    Leaks
        Still air, evaporation, lid.
    """
    return vessels.Leaks(
        flow=take("still air", convection.FLOW),
        between=taken_share(take, "evaporation", evaporation.BETWEEN),
        lid=taken_share(take, "lid", vessels.LID_LEAK),
    )


def with_spread(contents: Contents, take: Take) -> Contents:
    """The same contents with what is uncertain about their heat capacity.

    Parameters
    ----------
    contents : Contents
        What is in the pot.
    take : Take
        Where draws come from.

    Returns
    -------
    Contents
        With `spread` taken.
    """
    return replace(
        contents, spread=take("food heat capacity", food_properties.HEAT_CAPACITY_SPREAD)
    )


LOSSES: Final = (
    convection.FLOW,
    evaporation.BETWEEN,
    evaporation.POOL,
    evaporation.HUMIDITY,
    vessels.NEAR_BOIL,
    vessels.LID_LEAK,
    vessels.POT_EMISSIVITY,
)
"""Constants behind every vessel's losses, for the credits of an answer."""
LAWS: Final = ("iapws-sr1-86", "coolprop-2014", "icao-1993", "churchill-chu-1975", "mcadams-1954")
"""Sources behind every answer that heats in a vessel."""
