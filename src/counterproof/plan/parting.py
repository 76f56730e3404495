"""What straining and draining take out of the pot, line by line."""

from __future__ import annotations

from counterproof.draws import Lognormal, Parameter, Product
from counterproof.errors import OutOfRange
from counterproof.kitchen_physics import WATER
from counterproof.physics import parting
from counterproof.plan.model import Leaving
from counterproof.plan.pot import way_of_straining
from counterproof.plan.scene import Scene
from counterproof.reading.model import Constituent, MarkedStep, Process

DISSOLVED = frozenset({"sugars & syrups", "salt", "leavening"})
"""Classes that go into the liquid and through the sieve."""
DRY = frozenset({"pulses", "grains", "pasta & noodles"})
"""Classes whose dry foods take up cooking water."""


def parted(scene: Scene, step: MarkedStep, process: Process) -> tuple[Leaving, ...]:
    """What leaves the pot when something is strained or drained.

    Parameters
    ----------
    scene : Scene
        The recipe and its kitchen.
    step : MarkedStep
        The step that parts.
    process : Process
        A process of kind strain; `leaves` says whether solids or liquid go.

    Returns
    -------
    tuple of Leaving
        One for each food that leaves, whole batch. [kg]
    """
    if process.leaves == "liquid":
        return _drained(scene, step)
    way = way_of_straining(step)
    stays = parting.STAYS[way]
    number = step.written.number
    return tuple(
        Leaving(
            f"strained {part.food.name}",
            _times(part.mass, stays.value, Parameter(
                f"strained|{way}|{part.food.id}", Lognormal.from_spread(1.0, stays.spread)
            )),
            number,
            "strained",
            "food waste",
            part.food.id,
        )
        for part in _strained(scene, step)
        if part.food.kind == "solid"
        and part.food.food_class not in DISSOLVED
        and part.mass is not None
    )  # fmt: skip


def _strained(scene: Scene, step: MarkedStep) -> tuple[Constituent, ...]:
    """What is in the sieve: the foods the sentence names, else all that is in the pot."""
    there = scene.in_pot(step)
    named = [part for part in scene.named(step, "strain") if part in there]
    return tuple(named) or there


def _drained(scene: Scene, step: MarkedStep) -> tuple[Leaving, ...]:
    """Cooking water poured off: what dry solids do not take up and what does not cling."""
    parts = scene.in_pot(step)
    waters = [part for part in parts if part.food.food_class == WATER]
    liquid = _mass(waters)
    solids = [part for part in parts if part not in waters and part.food.kind == "solid"]
    if not waters or liquid <= 0.0 or not solids:
        return ()
    dry = _mass([part for part in solids if part.food.food_class in DRY])
    try:
        absorbed = parting.ABSORBED.value * dry / _mass(solids)
        gone = parting.drained(liquid, _mass(solids), absorbed=absorbed).left / liquid
    except OutOfRange:  # the solids take up all there is: nothing is poured off
        return ()
    deviation = Lognormal.from_spread(1.0, parting.ABSORBED.spread)
    return tuple(
        Leaving(
            "drained water",
            _times(part.mass, float(gone), Parameter(f"drained|{part.food.id}", deviation)),
            step.written.number,
            "drained",
            "sink",
            part.food.id,
        )
        for part in waters
        if part.mass is not None
    )


def _mass(parts: list[Constituent]) -> float:
    return sum(part.mass.mean for part in parts if part.mass is not None)


def _times(mass: Product | None, share: float, deviation: Parameter) -> Product:
    if mass is None:
        return Product(0.0)
    return Product(mass.scale * share, (*mass.parameters, deviation))
