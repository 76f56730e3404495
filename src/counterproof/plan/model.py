"""What a plan holds: the energy the steps take, what leaves the pot, what there is to serve."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

from counterproof.draws import Product
from counterproof.marks import Mark
from counterproof.plan.cooled import CooledStep
from counterproof.plan.step_verdicts import StepVerdict
from counterproof.plan.timeline import Timeline
from counterproof.rows import Stage
from counterproof.ways import Way

Carrier = Literal["electricity", "gas"]


@dataclass(frozen=True, slots=True)
class EnergyUse:
    """Energy that one step, or one stay in a fridge, takes for the whole batch.

    Parameters
    ----------
    name : str
        What it is, for people: "simmer, covered, 25 min".
    carrier : Carrier
        What is bought: electricity or gas.
    kwh : Product
        Energy delivered to the appliance, whole batch. [kWh]
    step : int or None
        Number of the step that takes it.
    stage : Stage
        "cooking" or "home storage".
    appliance : str
        What it is done on, for people: "hob", "oven".
    way : tuple of Way
        To the plain number of `kwh`: what physics asks for, the efficiency.
    """

    name: str
    carrier: Carrier
    kwh: Product
    step: int | None
    stage: Stage = "cooking"
    appliance: str = ""
    way: tuple[Way, ...] = ()


@dataclass(frozen=True, slots=True)
class Leaving:
    """What leaves the pot and is not served: strained fruit, poured-off water, oil left behind.

    Its burden stays with what is eaten; only mass and nutrients go.

    Parameters
    ----------
    name : str
        What it is, for people.
    mass : Product
        How much of it, whole batch. [kg]
    step : int or None
        Number of the step at which it leaves.
    cause : str
        Why it leaves.
    fate : str
        Where it goes.
    food : str
        Food.id of what is strained off, or "".
    """

    name: str
    mass: Product
    step: int | None
    cause: Literal["strained", "drained", "boiled off", "left behind"] = "strained"
    fate: Literal["food waste", "sink", "air"] = "food waste"
    food: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """How a recipe is carried out.

    Parameters
    ----------
    energy : tuple of EnergyUse
        What the steps and the storage take.
    leaving : tuple of Leaving
        What is not served.
    serving_mass : tuple of Product
        Mass of one serving as eaten, a sum of products; empty: the sum of the ingredients. [kg]
    serving_litres : float or None
        Mean volume of one serving where it is a drink. [L]
    assumed : tuple of str
        What had to be assumed, one plain sentence each.
    marks : tuple of (int, Mark)
        Marks beside steps, by step number; 0 for the recipe as a whole.
    timeline : Timeline
        The steps in time, where the work may stop, how long the dish keeps.
    coolings : tuple of CooledStep
        Verdicts on what is cooled; empty unless asked for.
    verdicts : tuple of StepVerdict
        What other rules say to single steps.
    """

    energy: tuple[EnergyUse, ...] = ()
    leaving: tuple[Leaving, ...] = ()
    serving_mass: tuple[Product, ...] = ()
    serving_litres: float | None = None
    assumed: tuple[str, ...] = ()
    marks: tuple[tuple[int, Mark], ...] = ()
    timeline: Timeline = field(default_factory=Timeline)
    coolings: tuple[CooledStep, ...] = ()
    verdicts: tuple[StepVerdict, ...] = ()

    def times_to_dict(self) -> dict[str, Any]:
        """Return time line and verdicts in their JSON form."""
        said: list[CooledStep | StepVerdict] = [*self.coolings, *self.verdicts]
        return {
            "timeline": self.timeline.to_dict(),
            "verdicts": [one.to_dict() for one in sorted(said, key=lambda one: one.step)],
        }
