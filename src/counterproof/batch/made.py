"""A batch as it was really made: masses, volumes, times, energy, temperatures, jars, words."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Final

from counterproof.batch.weighed import WeighIn
from counterproof.marks import Mark
from counterproof.physics.values import ZERO_CELSIUS

_KEYS: Final[dict[str, tuple[str, float]]] = {
    "steam": ("steam_kg", 1.0), "pulp": ("pulp_kg", 1.0), "liquid": ("liquid_kg", 1.0),
    "made_m3": ("made_litres", 1000.0),
}  # fmt: skip
"""JSON keys of the figures whose names carry no unit, and what they are multiplied by."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A figure that was measured.

    Parameters
    ----------
    value : float
        How much. [kg, m³, s, kWh, °Bx, K or 1, by its name]
    half : float
        Half the width of its range. [the same unit]
    at : int
        Line of the file.
    """

    value: float
    half: float
    at: int


@dataclass(frozen=True)
class Made:
    """One batch as it was really made.

    Parameters
    ----------
    day : str
        ISO 8601.
    file : str
        Its file.
    serves : float
        For how many it was made. [servings]
    lines : mapping of int to Measured
        What went in, by number of the recipe line. [kg]
    figures : mapping of str to Measured
        Steam, pulp, liquid, made_kg, made_m3, heating_s, simmering_s, energy_kwh, brix.
    around : mapping of str to Measured
        Measured fridge, freezer, room and tap. [K]
    heating, cooling : tuple of (float, float)
        Temperatures of the food while it warmed and while it cooled: time of day [s] and
        temperature [K].
    events : mapping of str to float
        When things happened. [s]
    jars : tuple of (float, float or None, str)
        How many, what is in one [m³], what they are called.
    eaten : float or None
        Share eaten. [1]
    tasted, remarks : tuple of str
        The cook's words.
    weighing : WeighIn
        The scale readings.
    marks : tuple of (int, Mark)
        By line of the file.
    clocked : bool
        Whether its times are of day; else they count from when the first was taken.
    """

    day: str
    file: str
    serves: float
    lines: Mapping[int, Measured] = field(default_factory=lambda: MappingProxyType({}))
    figures: Mapping[str, Measured] = field(default_factory=lambda: MappingProxyType({}))
    around: Mapping[str, Measured] = field(default_factory=lambda: MappingProxyType({}))
    heating: tuple[tuple[float, float], ...] = ()
    cooling: tuple[tuple[float, float], ...] = ()
    events: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    jars: tuple[tuple[float, float | None, str], ...] = ()
    eaten: float | None = None
    tasted: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    weighing: WeighIn | None = None
    marks: tuple[tuple[int, Mark], ...] = ()
    clocked: bool = True

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        figures = {}
        for name, one in self.figures.items():
            key, per = _KEYS.get(name, (name, 1.0))
            figures[key] = {"value": one.value * per, "give_or_take": one.half * per, "at": one.at}
        return {
            "date": self.day,
            "file": self.file,
            "serves": self.serves,
            "lines": [
                {"number": n, "mass_kg": one.value, "give_or_take_kg": one.half, "at": one.at}
                for n, one in sorted(self.lines.items())
            ],
            "measured": figures,
            "around_celsius": {n: one.value - ZERO_CELSIUS for n, one in self.around.items()},
            "jars": [
                {
                    "count": n,
                    "litres_each": None if each is None else 1000.0 * each,
                    "called": called,
                }
                for n, each, called in self.jars
            ],
            "eaten_share": self.eaten,
            "tasted": list(self.tasted),
            "remarks": list(self.remarks),
        }
