"""What a weigh-in holds: differences of readings, the lines they belong to, how things stand."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from counterproof.batch.weights import FINEST_ASSUMED
from counterproof.marks import Mark


@dataclass(frozen=True, slots=True)
class Difference:
    """What one or two readings say went in, or came out.

    Parameters
    ----------
    at : int
        Line of the weigh-in.
    label : str
        What it was called.
    kg : float
        How much; below 0 where it came out. [kg]
    half : float
        Half-width of its range, from the scale's step. [kg]
    says : str
        The sum it came from: "1655 − 1240 g".
    line : int or None
        Number of the recipe line it belongs to; None where none does.
    lost : bool
        Whether it went off as steam.
    held : float
        Of what went off: what was in the vessel before. [kg]
    """

    at: int
    label: str
    kg: float
    half: float
    says: str
    line: int | None = None
    lost: bool = False
    held: float = 0.0


@dataclass(frozen=True, slots=True)
class Weighed:
    """One line with what was weighed for it.

    Parameters
    ----------
    number : int or None
        Number of the recipe line; None for what the recipe does not list.
    name : str
        What it is called.
    kg, half : float
        The weight, and half the width of its range. [kg]
    differences : tuple of Difference
        What it is the sum of.
    """

    number: int | None
    name: str
    kg: float
    half: float
    differences: tuple[Difference, ...]


@dataclass(frozen=True, slots=True)
class State:
    """How things stand after a line: what the scale shows, on what, and what was said so far.

    Parameters
    ----------
    base : float or None
        What the scale would show now; None before the first reading. [kg]
    vessel : str
        What stands on it.
    step : float
        The scale's step. [kg]
    spread : float
        Half-width that `base` carries over from what was poured, beyond one reading's. [kg]
    held : float
        What is known to be in the vessel. [kg]
    differences : tuple of Difference
        So far.
    marks : tuple of (int, Mark)
        So far, by line of the weigh-in.
    """

    base: float | None = None
    vessel: str = ""
    step: float = FINEST_ASSUMED
    spread: float = 0.0
    held: float = 0.0
    differences: tuple[Difference, ...] = ()
    marks: tuple[tuple[int, Mark], ...] = ()


@dataclass(frozen=True)
class WeighIn:
    """A weigh-in as it stands.

    Parameters
    ----------
    lines : tuple of Weighed
        In the recipe's own order, then what it does not list, in the order weighed.
    unweighed : tuple of int
        Numbers of the recipe lines that are still to be weighed.
    lost : tuple of Difference
        What went off as steam.
    marks : tuple of (int, Mark)
        By line of the weigh-in; 0 for all of it.
    state : State
        After the last line.
    """

    lines: tuple[Weighed, ...]
    unweighed: tuple[int, ...]
    lost: tuple[Difference, ...]
    marks: tuple[tuple[int, Mark], ...]
    state: State

    @property
    def kg(self) -> float:
        """All that was weighed in. [kg]"""
        return sum(line.kg for line in self.lines)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            "lines": [
                {
                    "number": line.number,
                    "called": line.name,
                    "mass_kg": line.kg,
                    "give_or_take_kg": line.half,
                    "from": [
                        {"at": one.at, "called": one.label, "says": one.says, "mass_kg": one.kg}
                        for one in line.differences
                    ],
                }
                for line in self.lines
            ],
            "weighed_in_kg": self.kg,
            "steam_kg": -sum(one.kg for one in self.lost),
            "unweighed": list(self.unweighed),
            "scale_step_kg": self.state.step,
            "marks": [{"at": at, **mark.to_dict()} for at, mark in self.marks],
        }
