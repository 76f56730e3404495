"""An oven: preheating its body, holding it against its losses, and what the load takes.

The oven is one temperature with one heat capacity and one loss coefficient:
C dT/dt = P − U (T − T_room), solved exactly; electricity equals heat stored plus heat lost.
"""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, smallest
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

BODY: Final = Sourced(
    8000.0, "J/K", 0.3, "assumed", "",
    "heat an oven of about 65 L takes up per degree: 13 kg of liner and racks, 3 kg of glass, "
    "part of the insulation",
)  # fmt: skip
HOLDING: Final[Mapping[str, Sourced]] = MappingProxyType({
    "fan": Sourced(
        0.21, "1", 0.3, "assumed", "",
        "share of the time the element is on at 180 °C: 0.5 kW, as 1.2 m² of insulated wall, "
        "door and vent lose",
    ),
    "conventional": Sourced(0.23, "1", 0.3, "assumed", "", "likewise, top and bottom elements"),
    "gas": Sourced(0.30, "1", 0.3, "assumed", "", "likewise; its flue draws air through the oven"),
})  # fmt: skip
_HELD: Final = 160.0  # [K], 180 °C over a room of 20 °C, to which `HOLDING` belongs
POWER: Final[Mapping[str, Sourced]] = MappingProxyType({
    "fan": Sourced(2500.0, "W", 0.15, "assumed", "", "ring element of a built-in oven"),
    "conventional": Sourced(2300.0, "W", 0.15, "assumed", "", "top and bottom elements"),
    "gas": Sourced(3500.0, "W", 0.2, "assumed", "", "gas burnt by an oven burner on full"),
})  # fmt: skip
INTO_OVEN: Final[Mapping[str, Sourced]] = MappingProxyType({
    "fan": Sourced(0.99, "1", 0.005, "assumed", "", "all but the light and the fan's motor outside"),
    "conventional": Sourced(0.99, "1", 0.005, "assumed", "", "all but the light"),
    "gas": Sourced(
        0.55, "1", 0.2, "assumed", "",
        "heat kept over gas burnt, the rest leaves with the flue gas; published test-block "
        "efficiencies of about 6 % for gas and 11–12 % for electric ovens, from memory",
    ),
})  # fmt: skip
CARRIER: Final[Mapping[str, str]] = MappingProxyType(
    {"fan": "electricity", "conventional": "electricity", "gas": "gas"}
)
DRIED_OUT: Final = Sourced(
    0.15, "1", 0.5, "assumed", "",
    "share of the food's water that leaves as steam in an open dish; weigh it to do better",
)  # fmt: skip
_LOWEST: Final = ZERO_CELSIUS + 50.0
_HIGHEST: Final = ZERO_CELSIUS + 280.0


@dataclass(frozen=True, slots=True)
class Oven:
    """An oven in its room.

    Parameters
    ----------
    body : float or (n,) array
        Heat it takes up per degree. [J/K]
    loss : float or (n,) array
        Heat it loses per degree above the room. [W/K]
    power : float or (n,) array
        What it takes while its element or burner is on. [W]
    into : float or (n,) array
        Heat that stays in the oven over energy bought, 0 to 1. [1]
    room : float or (n,) array
        Room temperature. [K]
    """

    body: float | Draws
    loss: float | Draws
    power: float | Draws
    into: float | Draws
    room: float | Draws


def loss_of(holding: float | Draws, power: float | Draws, into: float | Draws) -> float | Draws:
    """Heat an oven loses per degree, from how long its element is on.

    Parameters
    ----------
    holding : float or (n,) array
        Share of the time at 180 °C, 0 to 1; see `HOLDING`. [1]
    power : float or (n,) array
        What it takes while its element or burner is on. [W]
    into : float or (n,) array
        Heat that stays in the oven over energy bought, 0 to 1. [1]

    Returns
    -------
    float or (n,) array
        Loss over 160 K. [W/K]
    """
    return holding * power * into / _HELD


@dataclass(frozen=True, slots=True)
class Preheat:
    """Heating the empty oven.

    Parameters
    ----------
    time : float or (n,) array
        Until it is hot. [s]
    stored : float or (n,) array
        Heat in its body. [J]
    lost : float or (n,) array
        Heat through its walls meanwhile. [J]
    bought : float or (n,) array
        Energy bought: (stored + lost) over `into`. [J]
    """

    time: float | Draws
    stored: float | Draws
    lost: float | Draws
    bought: float | Draws


def preheat(oven: Oven, end: float | Draws, start: float | Draws | None = None) -> Preheat:
    """Heat an empty oven on full power.

    Parameters
    ----------
    oven : Oven
        The oven.
    end : float or (n,) array
        Temperature wanted, 323 to 553. [K]
    start : float or (n,) array or None
        Its temperature now; None for that of the room. [K]

    Returns
    -------
    Preheat
        Time and energy; (stored + lost) = into · bought exactly.

    Raises
    ------
    OutOfRange
        If it is hot already, or its power never gets it there.

    Notes
    -----
    t = (C/U) ln[(P − U(T₀ − T_r))/(P − U(T − T_r))], P the heat that stays in the oven.
    """
    begin = oven.room if start is None else start
    if largest(begin - end) >= 0.0:
        raise OutOfRange(
            "The oven is as hot as that already.",
            remedy="Give a temperature above its present one.",
        )
    inside = oven.power * oven.into
    rest = inside - oven.loss * (end - oven.room)
    if smallest(rest) <= 0.0:
        limit = float(np.min(oven.room + inside / oven.loss)) - ZERO_CELSIUS
        raise OutOfRange(
            f"This oven's power holds it at {limit:.0f} °C at most.",
            remedy="Give a lower temperature or more power.",
        )
    logarithm: float | Draws = np.log((inside - oven.loss * (begin - oven.room)) / rest)
    time = oven.body / oven.loss * logarithm
    stored = oven.body * (end - begin)
    return Preheat(time, stored, inside * time - stored, oven.power * time)


def hold(oven: Oven, temperature: float | Draws) -> float | Draws:
    """Power bought that keeps an oven hot, its load apart.

    Parameters
    ----------
    oven : Oven
        The oven.
    temperature : float or (n,) array
        Temperature kept, above the room's. [K]

    Returns
    -------
    float or (n,) array
        Mean power over the element's going on and off. [W]

    Raises
    ------
    OutOfRange
        If the temperature is not above the room's.
    """
    if largest(oven.room - temperature) >= 0.0:
        raise OutOfRange(
            "An oven no warmer than the room is off.", remedy="Give an oven temperature."
        )
    return oven.loss * (temperature - oven.room) / oven.into


@dataclass(frozen=True, slots=True)
class Bake:
    """One dish's share of an oven's work.

    Parameters
    ----------
    preheat, hold : float or (n,) array
        Energy bought to heat the oven and to keep it hot, this dish's share. [J]
    load : float or (n,) array
        Energy bought for what goes into food, dish and steam. [J]
    bought : float or (n,) array
        Their sum. [J]
    preheat_time : float or (n,) array
        Time until the oven is hot, 0 if it is put in cold. [s]
    """

    preheat: float | Draws
    hold: float | Draws
    load: float | Draws
    bought: float | Draws
    preheat_time: float | Draws


def bake(
    oven: Oven,
    temperature: float | Draws,
    time: float | Draws,
    load: float | Draws,
    share: float | Draws = 1.0,
) -> Bake:
    """Preheat an oven and bake in it.

    Parameters
    ----------
    oven : Oven
        The oven.
    temperature : float or (n,) array
        Oven temperature, 323 to 553. [K]
    time : float or (n,) array
        Baking time after preheating, ≥ 0. [s]
    load : float or (n,) array
        Heat that goes into food, dish and steam. [J]
    share : float or (n,) array
        This dish's share of preheating and holding, above 0 to 1: one of two dishes has 0.5. [1]

    Returns
    -------
    Bake
        Energy and its parts.

    Raises
    ------
    OutOfRange
        If the time is negative or the share is not above 0 and at most 1.
    """
    if smallest(time) < 0.0:
        raise OutOfRange("Baking takes time.", remedy="Give a time above zero.")
    if smallest(share) <= 0.0 or largest(share) > 1.0:
        raise OutOfRange(
            f"A dish has a share of an oven between 0 and 1, not {largest(share):g}.",
            remedy="Give 1 for a dish that is baked alone, 0.5 for one of two.",
        )
    heating = preheat(oven, temperature)
    before = share * heating.bought
    keeping = share * hold(oven, temperature) * time
    into_load = load / oven.into
    return Bake(before, keeping, into_load, before + keeping + into_load, heating.time)


def validity(temperature: float | Draws) -> tuple[Flag, ...]:
    """Flags of an oven temperature.

    Parameters
    ----------
    temperature : float or (n,) array
        Oven temperature. [K]

    Returns
    -------
    tuple of Flag
        One outside 50 to 280 °C, where losses are no longer in proportion.
    """
    return outside("oven temperature", temperature, _LOWEST, _HIGHEST, "°C")
