"""What is heated, and the heat balance of warming it and keeping it hot in a pot.

The balance is C(T) dT/dt = P − D(T) − L(T) ṁ(T): net power, dry losses, evaporation. It is
integrated over temperature, t = ∫ C dT/(P − losses), by Gauss–Legendre nodes, so that one pass
answers one question or ten thousand draws, and power × time equals heat taken up plus losses to
rounding. What evaporates on the way is small and is not taken off the mass.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frozen, water
from counterproof.physics.air import Room
from counterproof.physics.flags import Flag, outside
from counterproof.physics.food_properties import Makeup
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, printed_ends, smallest
from counterproof.physics.vessels import Leaks, Pot, dry_loss, evaporation_rate

_NODES: Final = 12


@dataclass(frozen=True, slots=True)
class Contents:
    """What is in the pot.

    Parameters
    ----------
    water : float or (n,) array
        Mass of water that is there as water: added, not inside the food. [kg]
    food : float or (n,) array
        Mass of food. [kg]
    makeup : Makeup
        What the food is made of; fractions add up to 1.
    spread : float or (n,) array
        Real heat capacity of the food over that of its makeup. [1]
    freezing_point : float or (n,) array
        Where ice begins to form in the food, below 273.15. [K]
    """

    water: float | Draws
    food: float | Draws = 0.0
    makeup: Makeup = field(default_factory=lambda: food_properties.WATER)
    spread: float | Draws = 1.0
    freezing_point: float | Draws = frozen.FREEZING_POINT.value

    @property
    def mass(self) -> float | Draws:
        """Everything in the pot. [kg]"""
        return self.water + self.food

    @property
    def moisture(self) -> float | Draws:
        """Water in the pot, that in the food included. [kg]"""
        return self.water + self.food * self.makeup.get("water", 0.0)

    def volume(self, temperature: float | Draws) -> float | Draws:
        """Return the volume, without gaps.

        Parameters
        ----------
        temperature : float or (n,) array
            Temperature, 273 to 423. [K]

        Returns
        -------
        float or (n,) array
            Volume. [m³]
        """
        solid = self.food / food_properties.density(self.makeup, temperature)
        return self.water / water.density(temperature) + solid

    def heat_capacity(self, temperature: float | Draws) -> float | Draws:
        """Return the heat they take up per degree.

        Parameters
        ----------
        temperature : float or (n,) array
            Temperature, 273 to 423. [K]

        Returns
        -------
        float or (n,) array
            Heat capacity. [J/K]
        """
        food = food_properties.heat_capacity(self.makeup, temperature)
        return self.water * water.heat_capacity(temperature) + self.food * self.spread * food

    def heat(self, start: float | Draws, end: float | Draws) -> float | Draws:
        """Return the heat that takes them from one temperature to another.

        Parameters
        ----------
        start : float or (n,) array
            Temperature at the start, 233 to 423; below 273.15 the water is ice and the food
            partly frozen. [K]
        end : float or (n,) array
            Temperature at the end, 273.15 to 423. [K]

        Returns
        -------
        float or (n,) array
            Heat, melting included. [J]
        """
        if smallest(start) >= ZERO_CELSIUS:
            food = food_properties.sensible_heat(self.makeup, start, end)
            return self.water * water.sensible_heat(start, end) + self.food * self.spread * food
        food = frozen.enthalpy(self.makeup, end, self.freezing_point)
        food = food - frozen.enthalpy(self.makeup, start, self.freezing_point)
        ice = np.minimum(start, ZERO_CELSIUS)
        melted = water.HEAT_OF_FUSION.value - food_properties.component_heat("ice", ice)
        liquid = water.sensible_heat(np.maximum(start, ZERO_CELSIUS), end)
        heat: float | Draws = np.where(start < ZERO_CELSIUS, melted, 0.0) + liquid
        return self.water * heat + self.food * self.spread * food


def start_remarks(contents: Contents, start: float | Draws) -> tuple[Flag, ...]:
    """Flags of the temperature that something is heated from.

    Parameters
    ----------
    contents : Contents
        What is heated.
    start : float or (n,) array
        Its temperature. [K]

    Returns
    -------
    tuple of Flag
        A doubt outside −40 to 150 °C, where the equations end; a note that what is frozen thaws.
    """
    flags = outside("start temperature", start, ZERO_CELSIUS - 40.0, ZERO_CELSIUS + 150.0, "°C")
    if smallest(start) >= ZERO_CELSIUS:
        return flags
    point = printed_ends(contents.freezing_point)[0] - ZERO_CELSIUS
    said = "what is frozen at the start is thawed first, its latent heat counted"
    if largest(contents.food) > 0.0:
        said += f"; its food begins to freeze at {point:.2g} °C"
    return (*flags, Flag("from-frozen", f"{said}.", "note"))


@dataclass(frozen=True, slots=True)
class HeatUp:
    """Warming something in a pot.

    Parameters
    ----------
    time : float or (n,) array
        How long it takes. [s]
    useful : float or (n,) array
        Heat taken up by the contents. [J]
    vessel : float or (n,) array
        Heat taken up by the pot. [J]
    dry : float or (n,) array
        Heat lost by convection and radiation. [J]
    latent : float or (n,) array
        Heat lost by evaporation. [J]
    evaporated : float or (n,) array
        Mass evaporated. [kg]
    delivered : float or (n,) array
        Heat that passed into the pot: net power times time. [J]
    """

    time: float | Draws
    useful: float | Draws
    vessel: float | Draws
    dry: float | Draws
    latent: float | Draws
    evaporated: float | Draws
    delivered: float | Draws


@dataclass(frozen=True, slots=True)
class Stove:
    """The circumstances of heating in a pot.

    Parameters
    ----------
    pot : Pot
        The vessel.
    room : Room
        The air around it.
    boil : float or (n,) array
        Boiling point at the room's pressure. [K]
    leaks : Leaks
        What is uncertain about the losses.
    """

    pot: Pot
    room: Room
    boil: float | Draws
    leaks: Leaks = field(default_factory=Leaks)

    def losses(self, temperature: float | Draws) -> tuple[float | Draws, float | Draws]:
        """Return what leaves the pot at a temperature.

        Parameters
        ----------
        temperature : float or (n,) array
            Of the contents. [K]

        Returns
        -------
        tuple
            Dry losses [W] and evaporation [kg/s].
        """
        dry = dry_loss(temperature, self.pot, self.room, self.leaks)
        return dry, evaporation_rate(temperature, self.boil, self.pot, self.room, self.leaks)


def _rank(*values: float | Draws) -> int:
    return max(np.ndim(value) for value in values)


@cache
def _gauss() -> tuple[Draws, Draws]:
    """Places between −1 and 1, and their weights: constants, worked out when first needed."""
    places, weights = np.polynomial.legendre.leggauss(_NODES)
    places.setflags(write=False)
    weights.setflags(write=False)
    return places, weights


def _nodes(start: float | Draws, end: float | Draws, rank: int) -> tuple[Draws, Draws]:
    """Temperatures and weights on a new first axis, one node a row."""
    places, weights = _gauss()
    shape = (_NODES,) + (1,) * _rank(start, end)
    span = end - start
    temperatures = start + span * (0.5 + 0.5 * places.reshape(shape))
    # Where only masses or powers are drawn, the nodes stay one column and losses are cheap.
    missing = rank - (temperatures.ndim - 1)
    temperatures = temperatures.reshape(temperatures.shape + (1,) * missing)
    weighted = 0.5 * weights.reshape((_NODES,) + (1,) * rank) * span
    return temperatures, weighted


def _course(
    contents: Contents, stove: Stove, start: float | Draws, end: float | Draws, other: float | Draws
) -> tuple[Draws, Draws]:
    """Temperatures on the way and the heat taken up at each, one node a row.

    What is below 0 °C at the start thaws at the losses of 0 °C, which are next to none.
    """
    refuse_ends(start, end, stove.boil)
    rank = _rank(
        contents.water, contents.food, contents.spread, other, start, end, stove.boil,
        stove.room.temperature, stove.room.pressure, stove.pot.mass, stove.pot.diameter,
        stove.leaks.flow, stove.leaks.between, stove.leaks.lid,
    )  # fmt: skip
    begin = start if smallest(start) >= ZERO_CELSIUS else np.maximum(start, ZERO_CELSIUS)
    at, weights = _nodes(begin, end, rank)
    heat = weights * (contents.heat_capacity(at) + stove.pot.heat_capacity)
    if begin is not start:
        if smallest(end) < ZERO_CELSIUS:
            raise OutOfRange(
                "This ends frozen.",
                remedy="Give an end temperature of 0 °C or more, or ask `thaw`.",
            )
        thaw = contents.heat(start, begin) + stove.pot.heat_capacity * (begin - start)
        heat = np.concatenate((np.broadcast_to(thaw, (1, *heat.shape[1:])), heat))
        cold = np.broadcast_to(np.asarray(begin), at.shape[1:])[np.newaxis]
        at = np.concatenate((cold, at))
    return at, heat


def heat_up(
    contents: Contents,
    stove: Stove,
    start: float | Draws,
    end: float | Draws,
    power: float | Draws,
) -> HeatUp:
    """Warm contents and pot from one temperature to another.

    Parameters
    ----------
    contents : Contents
        What is in the pot.
    stove : Stove
        Pot, room, boiling point.
    start, end : float or (n,) array
        Temperatures, start < end ≤ boiling point; a frozen start is thawed first. [K]
    power : float or (n,) array
        Heat that passes into the pot. [W]

    Returns
    -------
    HeatUp
        Time, heats and evaporated mass; time is infinite for draws whose power does not suffice.

    Raises
    ------
    OutOfRange
        If the end lies below the start or above the boil, or the power never gets there in
        most draws.
    """
    at, heat = _course(contents, stove, start, end, power)
    dry, vapour = stove.losses(at)
    latent = vapour * water.latent_heat(at)
    net = power - dry - latent
    never = np.any(net <= 0.0, axis=0)
    if np.mean(never) > 0.5:
        raise OutOfRange(
            f"At {np.mean(power):.0f} W into the pot it loses as much as it gets before "
            f"{largest(end) - ZERO_CELSIUS:.4g} °C.",
            remedy="Put the lid on, take more power, or a narrower pot.",
        )
    pace = np.where(never, np.inf, heat / np.where(net > 0.0, net, 1.0))
    time: float | Draws = np.sum(pace, axis=0)
    finite = np.where(np.isfinite(pace), pace, 0.0)
    useful = contents.heat(start, end)
    return HeatUp(
        time=time,
        useful=useful,
        vessel=stove.pot.heat_capacity * (end - start),
        dry=np.sum(finite * dry, axis=0),
        latent=np.sum(finite * latent, axis=0),
        evaporated=np.sum(finite * vapour, axis=0),
        delivered=power * time,
    )


def refuse_ends(start: float | Draws, end: float | Draws, boil: float | Draws) -> None:
    """Refuse a warming that ends colder than it starts, or above the boil.

    Parameters
    ----------
    start, end, boil : float or (n,) array
        Temperatures: at the start, wanted, of boiling water here. [K]

    Raises
    ------
    OutOfRange
        If one draw is refused.
    """
    if largest(start - end) >= 0.0:
        raise OutOfRange(
            "Heating ends warmer than it starts.",
            remedy="Give an end temperature above the start; to cool, ask `cool`.",
        )
    if largest(end - boil) > 1e-6:
        raise OutOfRange(
            f"Water does not get hotter than {largest(boil) - ZERO_CELSIUS:.1f} °C in an open or "
            "loosely covered pot here.",
            remedy="Give an end temperature up to that, or a pressure above the air's.",
        )


def power_for(
    contents: Contents,
    stove: Stove,
    start: float | Draws,
    end: float | Draws,
    time: float | Draws,
) -> float | Draws:
    """Power into the pot that warms it in a wanted time.

    Parameters
    ----------
    contents : Contents
        What is in the pot.
    stove : Stove
        Pot, room, boiling point.
    start, end : float or (n,) array
        Temperatures, start < end ≤ boiling point. [K]
    time : float or (n,) array
        Wanted time, > 0. [s]

    Returns
    -------
    float or (n,) array
        Heat that passes into the pot. [W]

    Raises
    ------
    OutOfRange
        If the end lies below the start or above the boil, or the time is not above zero.

    Notes
    -----
    `heat_up` inverted by Newton's rule on 1/t, which is nearly a straight line in power, until
    a step changes nothing; never below what is lost.
    """
    if largest(-time) >= 0.0:
        raise OutOfRange("Heating takes time.", remedy="Give a time above zero.")
    at, heat = _course(contents, stove, start, end, time)
    dry, vapour = stove.losses(at)
    losses = dry + vapour * water.latent_heat(at)
    most = np.max(losses, axis=0)
    power: float | Draws = np.maximum(np.sum(heat, axis=0) / time + np.mean(losses, axis=0), most)
    power = power * 1.02 + 1e-3
    for _ in range(40):
        rate = 1.0 / np.sum(heat / (power - losses), axis=0)
        slope = rate**2 * np.sum(heat / (power - losses) ** 2, axis=0)
        step = (rate - 1.0 / time) / slope
        power = np.maximum(power - step, 0.5 * (power + most))
        if largest(np.abs(step) / power) < 1e-12:
            break
    return power
