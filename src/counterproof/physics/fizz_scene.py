"""What a question about fizz is asked of: a pressure that says which, a machine, and its cautions."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import acidity, carbon_dioxide, carbonation, water
from counterproof.physics.boiling import pressure_at
from counterproof.physics.boiling import validity as altitude_validity
from counterproof.physics.cautions import DEFER
from counterproof.physics.charging import Bottle
from counterproof.physics.flags import Flag, unique
from counterproof.physics.values import Draws

WATER_ONLY: Final = (
    "Carbonate water only, unless the maker of the machine says otherwise: sugar, juice and pulp "
    f"foam and block its valve. {DEFER}"
)
PRESSURE: Final = (
    "Only bottles made for pressure, undamaged, within their date and never washed hotter than "
    f"their label says; let the pressure off before opening. {DEFER}"
)
UPRIGHT: Final = f"Cylinders upright, cool, away from the sun and out of a closed car. {DEFER}"

BAR: Final = 1e5
"""[Pa]"""
STATED: Final = ("carroll-1991", "coolprop-2014", "iapws-sr1-86", "harned-davis-1943")
"""Sources behind every answer about fizz."""


@dataclass(frozen=True, slots=True)
class Pressure:
    """A pressure that says which one it is.

    Parameters
    ----------
    gauge : float or None
        Above the air outside. [Pa]
    absolute : float or None
        Total. [Pa]
    partial : float or None
        Of the carbon dioxide. [Pa]
    altitude : float
        Height above the sea. [m]

    Raises
    ------
    OutOfRange
        If not exactly one of the three is given.
    """

    gauge: float | None = None
    absolute: float | None = None
    partial: float | None = None
    altitude: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what does not say which pressure it means."""
        given = [p for p in (self.gauge, self.absolute, self.partial) if p is not None]
        if len(given) != 1 or given[0] < 0.0:
            raise OutOfRange(
                "A pressure is a gauge reading, an absolute one, or that of the gas alone.",
                remedy="Give exactly one of them, 0 or more.",
            )

    @property
    def outside(self) -> float:
        """Of the air around. [Pa]"""
        return float(pressure_at(self.altitude))

    def total(self, temperature: float) -> float:
        """Return the absolute pressure in the head space.

        Parameters
        ----------
        temperature : float
            Of water and head space. [K]

        Returns
        -------
        float
            Total; for a given partial pressure, with water vapour. [Pa]
        """
        if self.absolute is not None:
            return self.absolute
        if self.gauge is not None:
            return self.gauge + self.outside
        vapour = water.saturation_pressure(temperature)
        return float(self.partial or 0.0) + float(vapour)

    def inputs(self) -> dict[str, float | None]:
        """Return what is printed of it."""
        given = {
            "gauge_bar": self.gauge,
            "absolute_bar": self.absolute,
            "partial_bar": self.partial,
        }
        printed = {name: None if p is None else p / BAR for name, p in given.items()}
        return {**printed, "altitude_m": self.altitude}


@dataclass(frozen=True, slots=True)
class Machine:
    """What carbonates: bottle, habit, cylinder.

    Parameters
    ----------
    bottle : Bottle or None
        Bottle and water; None for water alone, at equilibrium.
    purges : int or None
        How often the air is let out first; None where there is no air. [1]
    pulses : int or None
        Pulses or shakes under pressure; None for all the way to equilibrium. [1]
    contents : float or None
        Gas in the full cylinder. [kg]
    cylinder_volume : float or None
        Its inner volume. [m³]
    room : float or None
        Volume of the closed room that a full cylinder might leak into. [m³]

    Raises
    ------
    OutOfRange
        If there is not one pulse.
    """

    bottle: Bottle | None = None
    purges: int | None = None
    pulses: int | None = None
    contents: float | None = None
    cylinder_volume: float | None = None
    room: float | None = None

    def __post_init__(self) -> None:
        """Refuse what does not carbonate."""
        if self.pulses is not None and self.pulses < 1:
            raise OutOfRange(
                "Without a pulse no gas goes into the water.", remedy="Give one pulse or more."
            )

    def inputs(self) -> dict[str, float | None]:
        """Return what is printed of it."""
        bottle = self.bottle
        return {
            "bottle_ml": None if bottle is None else 1e6 * bottle.volume,
            "water_ml": None if bottle is None else 1e6 * bottle.water,
            "purges": self.purges,
            "pulses": self.pulses,
            "cylinder_g": None if self.contents is None else 1e3 * self.contents,
            "room_m3": self.room,
        }


def strength(
    held: float | Draws, temperature: float | Draws, alkalinity: float | None
) -> dict[str, Any]:
    """What a carbonation is called, by every measure.

    Parameters
    ----------
    held : float or (n,) array
        Dissolved carbon dioxide, > 0. [kg/m³]
    temperature : float or (n,) array
        Of the water. [K]
    alkalinity : float or None
        Of the water; None for anything from 0 to 4. [mol/m³]

    Returns
    -------
    dict of str to Any
        g/L, volumes by three definitions, mole fraction, carbonic acid (as CO₂), pH.
    """
    moles = held / carbon_dioxide.MOLAR_MASS.value
    solvent = water.density(temperature) / water.MOLAR_MASS.value
    charge: float | Draws
    if alkalinity is None:
        # Evenly over the range; draws stand in no order, so the two stay independent.
        count = np.size(held) if np.ndim(held) else 101
        charge = np.linspace(*acidity.ALKALINITY, count)
    else:
        charge = alkalinity
    return {
        "co2_g_per_l": held,
        "volumes": carbonation.volumes(held),
        "volumes_at_sixty_fahrenheit": carbonation.volumes_at_sixty(held),
        "volumes_ideal_gas": held / carbonation.VOLUME_IDEAL.value,
        "co2_mole_fraction": moles / (moles + solvent),
        "carbonic_acid_g_per_l": acidity.carbonic_acid(held),
        "ph": acidity.ph(temperature, held, charge),
    }


def marks(
    temperature: float | Draws,
    partial: float | Draws,
    alkalinity: float | None,
    altitude: float,
) -> tuple[Flag, ...]:
    """Flags of a carbonation.

    Parameters
    ----------
    temperature : float or (n,) array
        Of the water. [K]
    partial : float or (n,) array
        Pressure of the gas. [Pa]
    alkalinity : float or None
        As asked. [mol/m³]
    altitude : float
        Height above the sea. [m]

    Returns
    -------
    tuple of Flag
        Ranges that were left; an unknown alkalinity as a note.
    """
    flags = carbonation.validity(temperature, partial)
    flags += acidity.validity(temperature, 0.0 if alkalinity is None else alkalinity)
    flags += altitude_validity(altitude)
    if alkalinity is None:
        flags += (
            Flag(
                "alkalinity-unknown",
                "the pH is a range: soft to hard water, 0 to 4 meq/L of alkalinity.",
                "note",
            ),
        )
    return unique(flags)
