"""The draws a verdict on cooling needs, side by side: the fast end, the middle, the slow end.

The slow end has 0.7 times the heat transfer, the warm end of the fridge, and a food that conducts
a sixth less; the fast end 1.3 times, the cold end, a sixth more. They stand for the 95th and the
5th percentile of the time.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.physics.containers import Kind
from counterproof.physics.food_properties import CONDUCTIVITY_SPREAD
from counterproof.physics.values import Draws
from counterproof.physics.vessels import LID_LEAK
from counterproof.sourced import Sourced

SLOW_END: Final = Sourced(
    0.7, "1", 0.0, "assumed", "",
    "heat transfer at the slow end, 1.3 at the fast: still-air models of real vessels are good to "
    "about 30 %; taken as nine cases in ten",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Lanes:
    """Draws that go through the models side by side.

    Parameters
    ----------
    factor : (n,) array
        Heat transfer against the correlations. [1]
    """

    factor: Draws

    @property
    def lean(self) -> Draws:
        """How far to the slow side: −1 at the fast end, 1 at the slow end. [1]"""
        return (1.0 - self.factor) / (1.0 - SLOW_END.value)

    @property
    def conducting(self) -> Draws:
        """Conductivity against its middle value; 1.645 standard deviations at the ends. [1]"""
        return 1.0 - 1.645 * CONDUCTIVITY_SPREAD.spread * self.lean

    def lid(self, kind: Kind) -> Draws:
        """Share of an open vessel's evaporation that passes its lid.

        Parameters
        ----------
        kind : Kind
            pot, tray, jar or bottle.

        Returns
        -------
        (n,) array
            None at the slow end, twice `LID_LEAK` at the fast end; none through a screwed lid. [1]
        """
        loose = kind in {"pot", "tray"}
        return loose * LID_LEAK.value * np.maximum(1.0 - self.lean, 0.0)

    @property
    def evaporating(self) -> Draws:
        """Where evaporation lies between its estimates; the lower one at the slow end. [1]"""
        return 0.5 - 0.5 * self.lean


ENDS: Final = Lanes(np.array([2.0 - SLOW_END.value, 1.0, SLOW_END.value]))
"""Fast end, middle, slow end."""


def slow_lanes(count: int) -> Lanes:
    """The slow end, for several vessels side by side.

    Parameters
    ----------
    count : int
        How many. [1]

    Returns
    -------
    Lanes
        All at the slow end.
    """
    return Lanes(np.full(count, SLOW_END.value))
