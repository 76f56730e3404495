"""Appliances that draw a steady power for as long as they run: grill, slow cooker, blender, …"""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from counterproof.errors import OutOfRange
from counterproof.physics.values import Draws, smallest
from counterproof.sourced import Sourced

if TYPE_CHECKING:
    from collections.abc import Mapping

POWER: Final[Mapping[str, Sourced]] = MappingProxyType({
    "grill": Sourced(2000.0, "W", 0.25, "assumed", "", "an electric grill element on full"),
    "toaster": Sourced(900.0, "W", 0.2, "assumed", "", "two slots"),
    "slow cooker, low": Sourced(
        150.0, "W", 0.3, "assumed", "", "mean over the hours on the low setting"
    ),
    "slow cooker, high": Sourced(
        230.0, "W", 0.3, "assumed", "", "mean over the hours on the high setting"
    ),
    "blender": Sourced(500.0, "W", 0.4, "assumed", "", "a jug blender under load"),
    "stick blender": Sourced(300.0, "W", 0.4, "assumed", "", "a hand-held blender under load"),
    "food processor": Sourced(500.0, "W", 0.4, "assumed", "", "under load"),
    "mixer": Sourced(250.0, "W", 0.4, "assumed", "", "a hand or stand mixer under load"),
})  # fmt: skip


def power_of(appliance: str) -> Sourced:
    """Power an appliance draws while it runs.

    Parameters
    ----------
    appliance : str
        A key of `POWER`.

    Returns
    -------
    Sourced
        Power from the socket. [W]

    Raises
    ------
    OutOfRange
        If the appliance is not known here.
    """
    if appliance not in POWER:
        raise OutOfRange(
            f"What “{appliance}” draws is not known here.",
            remedy=f"Appliances are: {', '.join(POWER)}; or give its power.",
        )
    return POWER[appliance]


def energy(power: float | Draws, time: float | Draws) -> float | Draws:
    """Energy a steady power takes.

    Parameters
    ----------
    power : float or (n,) array
        Power, ≥ 0. [W]
    time : float or (n,) array
        How long it runs, ≥ 0. [s]

    Returns
    -------
    float or (n,) array
        Energy. [J]

    Raises
    ------
    OutOfRange
        If power or time is negative.
    """
    if smallest(power, time) < 0.0:
        raise OutOfRange(
            "Power and running time are not below zero.", remedy="Give both as positive numbers."
        )
    return power * time
