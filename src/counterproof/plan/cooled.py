"""What the rules say to a step that cools something hot, and the one mark that tells it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final, Literal

from counterproof.marks import Mark
from counterproof.physics.answer import Ruling
from counterproof.physics.containers import Kind
from counterproof.physics.cooling_in_turn import InTurn
from counterproof.physics.spread import Spread, ranged, spoken
from counterproof.physics.values import ZERO_CELSIUS

Place = Literal["ice bath", "counter", "fridge", "freezer"]
_WHERE: Final[dict[Place, str]] = {
    "ice bath": "in iced water",
    "counter": "on the counter",
    "fridge": "in the fridge",
    "freezer": "in the freezer",
}


@dataclass(frozen=True, slots=True)
class CooledStep:
    """A step that cools something hot, and what the rules say.

    Parameters
    ----------
    step : int
        Its number.
    litres : float
        The whole batch. [L]
    vessel : str
        pot, tray, jar or bottle.
    count : int
        How many of them. [1]
    start : float
        How hot it is when the cooling begins. [K]
    places : tuple of str
        ice bath, counter, fridge, freezer, in turn.
    found : InTurn
        Times and verdicts.
    """

    step: int
    litres: float
    vessel: Kind
    count: int
    start: float
    places: tuple[Place, ...]
    found: InTurn

    @property
    def ruling(self) -> Ruling:
        """The gravest of the verdicts."""
        return self.found.verdicts[self.found.worst].verdict

    @property
    def lukewarm(self) -> Spread:
        """Time of the first rule's path, 57 to 21 °C. [s]"""
        return self.found.times[0]

    @property
    def mark(self) -> Mark:
        """The one mark beside the step."""
        level: Literal["note", "doubt"] = (
            "note" if self.ruling in {"within", "no rule"} else "doubt"
        )
        return Mark(level, f"cooling-{self.ruling.replace(' ', '-')}", self._said())

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "step": self.step,
            "about": "cooling",
            "verdict": self.ruling,
            "message": self.mark.message,
            "litres": self.litres,
            "vessel": self.vessel,
            "vessels": self.count,
            "places": list(self.places),
            **self.found.to_dict(),
        }

    def _said(self) -> str:
        at = self.found.worst
        rule, time = self.found.rules[at], self.found.times[at]
        begins = self.start if rule.clock is None else min(self.start, rule.clock.value)
        path = f"{begins - ZERO_CELSIUS:.0f} to {rule.goal.value - ZERO_CELSIUS:.0f} °C"
        limit = f"{spoken(rule.limit.value)} allowed, US Food Code {rule.limit.locator}"
        lead = f"Cooling {self.litres:.2g} L {self._way()}"
        if self.ruling == "within":
            return (
                f"{lead}: within the limits as modelled, {path} in {ranged(time)} ({limit}). "
                "A thermometer tells whether it is."
            )
        decided = "too close to call" if self.ruling == "too close" else "over the limit"
        said = f"{lead}: {decided}, {path} in {ranged(time)} ({limit})."
        if self.found.would_pass:
            change = self.found.would_pass[0].says
            return f"{said} This would pass: {change[0].lower()}{change[1:]}"
        return f"{said} No ice bath, tray or jar tried here passes: make less of it, and measure."

    def _way(self) -> str:
        """In the pot all along, or in the pot first and in its last vessels from then on."""
        *before, last = (_WHERE[place] for place in self.places)
        if self.vessel == "pot" or not before:
            return ", ".join((f"in {self._vessels()}", ", then ".join((*before, last))))
        return f"{', then '.join(before)}, then in {self._vessels()} {last}"

    def _vessels(self) -> str:
        return f"a {self.vessel}" if self.count == 1 else f"{self.count} {self.vessel}s"
