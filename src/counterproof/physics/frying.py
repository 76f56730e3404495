"""Frying in a pan and in deep fat: the pan's heat, the steam driven off, the loss meanwhile."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, water
from counterproof.physics.air import Room
from counterproof.physics.flags import Flag, outside
from counterproof.physics.food_properties import Makeup
from counterproof.physics.heating import Contents
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, printed_ends, smallest
from counterproof.physics.vessels import Leaks, Pot, dry_loss
from counterproof.sourced import Sourced

PAN_TEMPERATURE: Final = Sourced(
    443.15, "K", 0.03, "assumed", "", "surface of a pan at a medium to high heat, 150–190 °C"
)
FAT_TEMPERATURE: Final = Sourced(
    448.15, "K", 0.015, "assumed", "", "deep fat, 170–180 °C; common practice"
)
PAN_MASS: Final = Sourced(
    1.2, "kg", 0.35, "assumed", "", "a frying pan of 26 cm; weigh it to do better"
)
PAN_DIAMETER: Final = Sourced(0.26, "m", 0.1, "assumed", "", "a frying pan for two to four")
FRIED_OFF: Final = Sourced(
    0.28, "1", 0.5, "assumed", "",
    "share of the food's water that leaves as steam while frying; onions much more, eggs less",
)  # fmt: skip
CORE: Final = Sourced(348.15, "K", 0.02, "assumed", "", "mean end temperature of fried food, 75 °C")
TAKEN_UP: Final = Sourced(
    0.10, "1", 0.5, "assumed", "",
    "fat that food takes up in deep fat, over the mass that goes in: McGee (2004), On Food and "
    "Cooking, on fried potatoes, prints 10 to 15 % oil for thick chips and about 35 % for thin "
    "ones, which weigh half or less of the raw potato; read in an excerpt",
)  # fmt: skip
OIL: Final[Makeup] = {"fat": 1.0}
_HOTTEST: Final = ZERO_CELSIUS + 230.0
SMOKE_LIMIT: Final = ZERO_CELSIUS + 200.0


@dataclass(frozen=True, slots=True)
class Fried:
    """Food fried in a pan.

    Parameters
    ----------
    warming : float or (n,) array
        Heat into pan and fat before the food. [J]
    useful : float or (n,) array
        Heat into the food, steam included. [J]
    steam : float or (n,) array
        Of it, latent heat of what leaves. [J]
    lost : float or (n,) array
        Heat lost to the room while frying. [J]
    evaporated : float or (n,) array
        Steam. [kg]
    delivered : float or (n,) array
        Heat that passed into the pan: warming + useful + lost. [J]
    mean_power : float or (n,) array
        Useful and lost heat over the frying time. [W]
    """

    warming: float | Draws
    useful: float | Draws
    steam: float | Draws
    lost: float | Draws
    evaporated: float | Draws
    delivered: float | Draws
    mean_power: float | Draws


@dataclass(frozen=True, slots=True)
class Frying:
    """The circumstances of frying.

    Parameters
    ----------
    pan : Pot
        The pan, or the pot of deep fat; its depth is that of the hot wall.
    fat : float or (n,) array
        Mass of fat in it. [kg]
    temperature : float or (n,) array
        Of pan and fat, up to 503. [K]
    room : Room
        The air around.
    leaks : Leaks
        What is uncertain about the losses.
    """

    pan: Pot
    fat: float | Draws
    temperature: float | Draws
    room: Room
    leaks: Leaks


@dataclass(frozen=True, slots=True)
class Portion:
    """What is fried.

    Parameters
    ----------
    contents : Contents
        The food.
    start, end : float or (n,) array
        Its mean temperature before and after. [K]
    dried : float or (n,) array
        Share of its mass that leaves as steam. [1]
    """

    contents: Contents
    start: float | Draws
    end: float | Draws
    dried: float | Draws


def fried(frying: Frying, portion: Portion, time: float | Draws) -> Fried:
    """Heat a pan with its fat, fry, and keep it hot meanwhile.

    Parameters
    ----------
    frying : Frying
        Pan, fat, temperature, room.
    portion : Portion
        The food.
    time : float or (n,) array
        Frying time, > 0. [s]

    Returns
    -------
    Fried
        Heat by what it does; the parts add up.

    Raises
    ------
    OutOfRange
        If the time is not above zero, or more steam leaves than there is water.
    """
    if smallest(time) <= 0.0:
        raise OutOfRange("Frying takes time.", remedy="Give a time above zero.")
    moisture = portion.contents.moisture / portion.contents.mass
    if largest(portion.dried - moisture) > 0.0:
        raise OutOfRange(
            f"The food holds {smallest(moisture):.0%} water; {largest(portion.dried):.0%} of it "
            "cannot leave as steam.",
            remedy="Give a smaller share of its mass.",
        )
    around = frying.room.temperature
    warming = frying.pan.heat_capacity * (frying.temperature - around)
    warming = warming + frying.fat * food_properties.sensible_heat(OIL, around, frying.temperature)
    evaporated = portion.contents.mass * portion.dried
    steam = evaporated * water.latent_heat(373.12)
    useful = portion.contents.heat(portion.start, portion.end) + steam
    lost = dry_loss(frying.temperature, frying.pan, frying.room, frying.leaks) * time
    return Fried(
        warming=warming,
        useful=useful,
        steam=steam,
        lost=lost,
        evaporated=evaporated,
        delivered=warming + useful + lost,
        mean_power=(useful + lost) / time,
    )


def remarks(
    temperature: float | Draws, mean_power: float | Draws, net: float | Draws
) -> tuple[Flag, ...]:
    """Flags of frying.

    Parameters
    ----------
    temperature : float or (n,) array
        Of pan and fat. [K]
    mean_power : float or (n,) array
        Power the frying takes. [W]
    net : float or (n,) array
        Power the ring brings into the pan on full. [W]

    Returns
    -------
    tuple of Flag
        Fat near its smoke point; equations left; a pan that cools because too much is in it.
    """
    flags = outside("frying temperature", temperature, ZERO_CELSIUS + 100.0, _HOTTEST, "°C")
    if printed_ends(temperature)[1] > SMOKE_LIMIT:
        flags += (
            Flag("near-smoke", "fat above 200 °C is near its smoke point and may catch fire."),
        )
    if printed_ends(net - mean_power)[0] < 0.0:
        times = printed_ends(mean_power / net)[1]
        flags += (
            Flag(
                "pan-cools",
                f"this may take {times:.1f} times what the ring brings into the pan: it cools and "
                "the food stews; fry in batches or longer.",
            ),
        )
    return flags
