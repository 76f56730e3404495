"""What an appliance takes, from an answer of the physics, and the way its number came about."""

from __future__ import annotations

from typing import Final

import numpy as np

from counterproof.draws import Lognormal, Parameter
from counterproof.physics import hob, water
from counterproof.physics.answer import Answer
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.sourced import Sourced
from counterproof.ways import Way

JOULES_PER_KWH: Final = 3.6e6
AN_HOUR: Final = (Way("an hour", 60.0, "min/h", divides=True),)
"""Behind a power: it is held for minutes, and paid for by the hour."""


def in_kwh(joules: float) -> float:
    """Energy as it is paid for.

    Parameters
    ----------
    joules : float or array
        Energy. [J]

    Returns
    -------
    float
        Its mean. [kWh]
    """
    return float(np.mean(joules)) / JOULES_PER_KWH


def in_kilowatts(watts: float) -> float:
    """Power as it stands on an appliance.

    Parameters
    ----------
    watts : float or array
        Power. [W]

    Returns
    -------
    float
        Its mean. [kW]
    """
    return float(np.mean(watts)) / 1000


def in_a_minute(watts: float) -> float:
    """What a power takes in a minute.

    Parameters
    ----------
    watts : float or array
        Power. [W]

    Returns
    -------
    float
        Of its mean. [kWh/min]
    """
    return in_kilowatts(watts) / 60


def deviation(key: str, constant: Sourced) -> Parameter:
    """A keyed factor of mean one with a constant's spread.

    Parameters
    ----------
    key : str
        What it is: shared by all that name it.
    constant : Sourced
        The constant.

    Returns
    -------
    Parameter
        The factor.
    """
    return Parameter(key, Lognormal.from_spread(1.0, constant.spread))


def with_losses(done: Answer, loss: float) -> tuple[float, float]:
    """What simmering takes and loses in a kitchen whose pots lose more or less than the model.

    Parameters
    ----------
    done : Answer
        Of the simmering, by the model.
    loss : float
        How many times the model its pots lose, > 0. [1]

    Returns
    -------
    tuple of float
        Power taken [W] and water lost [kg/s].
    """
    watts = float(np.mean(done.result["power_w"]))
    evaporating = float(np.mean(done.result["evaporation_kg_per_h"])) / 3600
    efficiency = float(np.mean(done.result["into_pot_w"])) / watts
    latent = float(water.latent_heat(ZERO_CELSIUS + float(np.mean(done.result["celsius"]))))
    return watts + (loss - 1.0) * evaporating * latent / efficiency, loss * evaporating


def through_hob(kind: str, taken: float, unit: str, name: str) -> tuple[Way, Way]:
    """The way to what a hob takes: the heat that reaches the pot, over the efficiency.

    Parameters
    ----------
    kind : str
        What the heat is for.
    taken : float
        What the hob takes. [by `unit`]
    unit : str
        kW or kWh.
    name : str
        Which hob.

    Returns
    -------
    tuple of Way
        Heat and efficiency.
    """
    share = hob.efficiency_of(name)
    into = Way(kind, taken * share.value, unit)
    return into, Way("efficiency", share.value, "", name, share, divides=True)


def through_plug(done: Answer, share: float, told: Sourced, name: str) -> tuple[Way, Way]:
    """The way to what a plugged appliance takes: the heat in what it heats, over its efficiency.

    Parameters
    ----------
    done : Answer
        Of the heating.
    share : float
        Its efficiency in this case, > 0. [1]
    told : Sourced
        The constant it comes from.
    name : str
        Which appliance.

    Returns
    -------
    tuple of Way
        Heat and efficiency.
    """
    heat = Way("heat", in_kwh(done.result["input_j"]) * share, "kWh")
    return heat, Way("efficiency", share, "", name, told, divides=True)
