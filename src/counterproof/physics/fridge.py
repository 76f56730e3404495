"""A fridge that warms while it takes up the heat of what is put into it.

A stated simple model, not a measurement: one temperature for air and contents, heat leaking in
through the walls, and a compressor that runs flat out as long as the fridge is warmer than set.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.physics.values import Draws
from counterproof.sourced import Sourced

PERFORMANCE: Final = Sourced(
    1.8, "1", 0.25, "assumed", "",
    "heat a household fridge moves out per unit of electricity over a year",
)  # fmt: skip
RUNNING: Final = Sourced(
    0.35, "1", 0.3, "assumed", "", "share of the time the compressor runs in a closed, full fridge"
)
LABEL_DIFFERENCE: Final = Sourced(
    20.0, "K", 0.1, "assumed", "", "label tests keep 4–5 °C inside a room of 25 °C, from memory"
)
FILLED: Final = Sourced(
    200.0, "J/(K L)", 0.5, "assumed", "",
    "heat capacity per litre of fridge: a quarter full of food at 3.5 kJ/(kg K), shared in part",
)  # fmt: skip
SWING: Final = Sourced(
    1.0, "K", 0.5, "assumed", "",
    "the warm and the cold end of a fridge against its middle: shelves differ, doors open",
)  # fmt: skip
HUMIDITY: Final = Sourced(0.6, "1", 0.3, "assumed", "", "relative humidity in a fridge")
_SECONDS_A_YEAR: Final = 365.25 * 86400.0


@dataclass(frozen=True, slots=True)
class Fridge:
    """A fridge.

    Parameters
    ----------
    litres : float
        Room inside. [L]
    power : float
        Mean electric power over a year. [W]
    room : float
        Temperature of the room it stands in. [K]
    """

    litres: float
    power: float
    room: float

    @property
    def heat_capacity(self) -> float:
        """Heat that warms it by one degree. [J/K]"""
        return FILLED.value * self.litres

    @property
    def leak(self) -> float:
        """Heat that comes in for each degree between room and fridge. [W/K]"""
        return self.power * PERFORMANCE.value / LABEL_DIFFERENCE.value

    @property
    def strength(self) -> float:
        """Heat its compressor moves out while it runs. [W]"""
        return self.power * PERFORMANCE.value / RUNNING.value

    def after(
        self, step: Draws, temperature: Draws, setting: float | Draws, dumped: Draws
    ) -> Draws:
        """Its temperature a little later.

        Parameters
        ----------
        step : (n,) array
            Time that passes. [s]
        temperature : (n,) array
            Its temperature now. [K]
        setting : float or (n,) array
            The temperature it is set to. [K]
        dumped : (n,) array
            Heat that food gives off in it. [W]

        Returns
        -------
        (n,) array
            At the setting where the compressor can hold it, above it where it runs flat out and
            more comes in. [K]
        """
        arriving = dumped + self.leak * (self.room - temperature)
        left = temperature + step * (arriving - self.strength) / self.heat_capacity
        return np.maximum(left, setting)


def fridge_of(litres: float, kwh_per_year: float, room: float) -> Fridge:
    """A fridge from its label.

    Parameters
    ----------
    litres : float
        Room inside. [L]
    kwh_per_year : float
        Electricity, as the label says. [kWh/year]
    room : float
        Temperature of the room it stands in. [K]

    Returns
    -------
    Fridge
        The fridge.
    """
    return Fridge(litres, kwh_per_year * 3.6e6 / _SECONDS_A_YEAR, room)


CONSTANTS: Final = (PERFORMANCE, RUNNING, LABEL_DIFFERENCE, FILLED, SWING)
"""What the model assumes, to be printed with an answer that uses it."""
