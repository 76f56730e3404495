"""A microwave oven: rated output, what of it the food absorbs, what the socket delivers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag
from counterproof.physics.values import Draws, smallest
from counterproof.sourced import Sourced

OUTPUT: Final = Sourced(
    800.0, "W", 0.1, "assumed", "", "rated output; read it on the door of yours"
)
EFFICIENCY: Final = Sourced(
    0.55, "1", 0.08, "assumed", "",
    "rated output over power from the socket: 0.50–0.60; a US rule-making baseline of 0.557, "
    "from memory",
)  # fmt: skip
SMALL_LOAD: Final = Sourced(
    0.03, "kg", 0.5, "assumed", "",
    "a load of this mass absorbs half of what the rating test's litre does: small loads take "
    "up less; from memory of measured water loads",
)  # fmt: skip
DISH: Final = Sourced(
    0.08, "1", 0.6, "assumed", "", "heat that goes on into the dish, over that in the food"
)


@dataclass(frozen=True, slots=True)
class Microwave:
    """A microwave oven.

    Parameters
    ----------
    output : float or (n,) array
        Rated output at the setting used, > 0. [W]
    efficiency : float or (n,) array
        Rated output over power from the socket, 0 to 1. [1]
    dish : float or (n,) array
        Heat into the dish over heat into the food. [1]
    small : float or (n,) array
        Mass that takes up half of the rated output. [kg]
    """

    output: float | Draws = OUTPUT.value
    efficiency: float | Draws = EFFICIENCY.value
    dish: float | Draws = DISH.value
    small: float | Draws = SMALL_LOAD.value


@dataclass(frozen=True, slots=True)
class Microwaved:
    """Food heated in a microwave oven.

    Parameters
    ----------
    time : float or (n,) array
        How long. [s]
    useful : float or (n,) array
        Heat in the food. [J]
    dish : float or (n,) array
        Heat in the dish. [J]
    oven : float or (n,) array
        Turned to heat in the oven itself. [J]
    bought : float or (n,) array
        Electricity: the sum of these. [J]
    """

    time: float | Draws
    useful: float | Draws
    dish: float | Draws
    oven: float | Draws
    bought: float | Draws


def absorbed_share(mass: float | Draws, small: float | Draws = SMALL_LOAD.value) -> float | Draws:
    """Share of the rated output that a load takes up.

    Parameters
    ----------
    mass : float or (n,) array
        Moist food, > 0. [kg]
    small : float or (n,) array
        Mass that takes up half. [kg]

    Returns
    -------
    float or (n,) array
        m/(m + small), 1 for the rating test's litre to within 3 %. [1]
    """
    return mass / (mass + small)


def microwaved(useful: float | Draws, mass: float | Draws, oven: Microwave) -> Microwaved:
    """Time and electricity that bring a heat into food.

    Parameters
    ----------
    useful : float or (n,) array
        Heat wanted in the food, evaporation included, > 0. [J]
    mass : float or (n,) array
        The food, > 0. [kg]
    oven : Microwave
        The oven.

    Returns
    -------
    Microwaved
        Time, electricity and where it goes; the parts add up.

    Raises
    ------
    OutOfRange
        If there is nothing to heat: an empty oven is damaged.
    """
    if smallest(mass) <= 0.0 or smallest(useful) <= 0.0:
        raise OutOfRange(
            "A microwave oven must not run empty.",
            remedy="Give a mass of food and an end temperature above its start.",
        )
    into_dish = useful * oven.dish
    time = (useful + into_dish) / (oven.output * absorbed_share(mass, oven.small))
    bought = oven.output / oven.efficiency * time
    return Microwaved(time, useful, into_dish, bought - useful - into_dish, bought)


def remarks(mass: float | Draws) -> tuple[Flag, ...]:
    """Flags of a load.

    Parameters
    ----------
    mass : float or (n,) array
        The food. [kg]

    Returns
    -------
    tuple of Flag
        A doubt below 50 g, where absorption is least known; always a note that heat is uneven.
    """
    flags: tuple[Flag, ...] = ()
    if smallest(mass) < 0.05:
        flags += (
            Flag(
                "small-load",
                f"{1000 * smallest(mass):.0f} g: below 50 g what a microwave load takes up is a "
                "guess; heat in short bursts and look.",
            ),
        )
    even = "the mean temperature is meant: stir, let it stand, and measure the coldest place."
    return (*flags, Flag("uneven", even, "note"))
