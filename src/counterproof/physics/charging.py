"""What a machine or a cap does to a bottle: air let out, pulses, gas used, litres a cylinder gives.

How fast water takes gas up depends on stirring, nozzle and patience; nobody measured it for a
kitchen, so the share of the way to equilibrium that one pulse makes is assumed, with a wide range.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics import carbon_dioxide
from counterproof.physics.values import Draws, largest, smallest
from counterproof.sourced import Sourced

PULSE: Final = Sourced(
    0.45, "1", 0.3, "assumed", "",
    "share of the way to equilibrium that one pulse or one hearty shake under pressure makes; no "
    "measured source found; what a machine gives at a number of pulses rests on it",
)  # fmt: skip
RELIEF: Final = Sourced(
    0.15, "1", 0.5, "assumed", "",
    "share of the gas let in that the relief valve and the joints pass; no measured source found",
)  # fmt: skip
DRAINED: Final = Sourced(
    0.97, "1", 0.02, "assumed", "",
    "share of a cylinder that can be used before its pressure is too low to carbonate with",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Bottle:
    """A bottle as it is carbonated.

    Parameters
    ----------
    volume : float
        Brimful volume. [m³]
    water : float
        Volume of water in it, above 0, below `volume`. [m³]

    Raises
    ------
    OutOfRange
        If there is no water, or no head space: gas needs room.
    """

    volume: float
    water: float

    def __post_init__(self) -> None:
        """Refuse a bottle without water or without head space."""
        if not 0.0 < self.water < self.volume:
            raise OutOfRange(
                "A bottle is carbonated with some water in it and some room above.",
                remedy="Fill it to its line: about a tenth of it stays free.",
            )

    @property
    def head(self) -> float:
        """Volume above the water. [m³]"""
        return self.volume - self.water


def air_left(ambient: float | Draws, total: float | Draws, purges: int) -> float | Draws:
    """Pressure of the air that stays in a head space after letting it out so often.

    Parameters
    ----------
    ambient : float or (n,) array
        Air pressure outside, > 0. [Pa]
    total : float or (n,) array
        Absolute pressure the bottle is brought to before each venting, ≥ ambient. [Pa]
    purges : int
        How often; 0 leaves all the air in. [1]

    Returns
    -------
    float or (n,) array
        Partial pressure of air. [Pa]

    Raises
    ------
    OutOfRange
        If the number is negative, or the bottle is not brought above the air outside.

    Notes
    -----
    Each time gas and air mix and the mixture is let down to ambient: p_air = p₀ (p₀/p)ⁿ.
    """
    if purges < 0 or smallest(total - ambient) < 0.0:
        raise OutOfRange(
            "Air is let out by pressing gas in above the pressure outside.",
            remedy="Give a pressure above that of the air, and 0 purges or more.",
        )
    return ambient * (ambient / total) ** purges


def taken_up(
    equilibrium: float | Draws, pulses: int, pulse: float | Draws = PULSE.value
) -> float | Draws:
    """Carbon dioxide in the water after some pulses.

    Parameters
    ----------
    equilibrium : float or (n,) array
        What the water would hold in the end. [kg/m³]
    pulses : int
        Pulses, or shakes under pressure, ≥ 0. [1]
    pulse : float or (n,) array
        Share of the way that one makes, 0 to 1. [1]

    Returns
    -------
    float or (n,) array
        Dissolved: c = c_eq [1 − (1 − pulse)ⁿ]. [kg/m³]

    Raises
    ------
    OutOfRange
        If the number is negative or the share outside 0 to 1.
    """
    if pulses < 0 or smallest(pulse) < 0.0 or largest(pulse) > 1.0:
        raise OutOfRange(
            "A pulse makes between none and all of the way to equilibrium.",
            remedy="Give a share from 0 to 1 and a number of pulses from 0.",
        )
    return equilibrium * (1.0 - (1.0 - pulse) ** pulses)


@dataclass(frozen=True, slots=True)
class Charge:
    """Where the gas of one bottle went.

    Parameters
    ----------
    dissolved : float or (n,) array
        In the water. [kg]
    head : float or (n,) array
        In the head space, lost at opening. [kg]
    purged : float or (n,) array
        Let out with the air. [kg]
    passed : float or (n,) array
        Through the relief valve and the joints. [kg]
    """

    dissolved: float | Draws
    head: float | Draws
    purged: float | Draws
    passed: float | Draws

    @property
    def used(self) -> float | Draws:
        """All of it. [kg]"""
        return self.dissolved + self.head + self.purged + self.passed

    @property
    def efficiency(self) -> float | Draws:
        """Dissolved over used. [1]"""
        return self.dissolved / self.used


def charge(
    bottle: Bottle,
    temperature: float | Draws,
    partial: float | Draws,
    concentration: float | Draws,
    *,
    purges: int = 0,
    relief: float | Draws = RELIEF.value,
) -> Charge:
    """Gas that one bottle takes.

    Parameters
    ----------
    bottle : Bottle
        The bottle.
    temperature : float or (n,) array
        Of water and head space. [K]
    partial : float or (n,) array
        Pressure of carbon dioxide in the head space. [Pa]
    concentration : float or (n,) array
        Carbon dioxide in the water. [kg/m³]
    purges : int
        How often the head space is let out. [1]
    relief : float or (n,) array
        Share of all gas let in that passes valve and joints, 0 to below 1. [1]

    Returns
    -------
    Charge
        Where it went; nothing is left over.
    """
    dissolved = concentration * bottle.water
    head = carbon_dioxide.density(temperature, partial) * bottle.head
    purged = purges * head
    passed = (dissolved + head + purged) * relief / (1.0 - relief)
    return Charge(dissolved, head, purged, passed)


def litres_per_cylinder(
    contents: float | Draws, used: float | Draws, drained: float | Draws = DRAINED.value
) -> float | Draws:
    """Litres of drink that a cylinder carbonates.

    Parameters
    ----------
    contents : float or (n,) array
        Carbon dioxide in the full cylinder. [kg]
    used : float or (n,) array
        Gas used per volume of drink, > 0. [kg/m³]
    drained : float or (n,) array
        Share of the contents that can be used. [1]

    Returns
    -------
    float or (n,) array
        Litres. [L]
    """
    return 1000.0 * contents * drained / used
