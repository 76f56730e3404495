"""Deep fat: what the food takes up is eaten, the rest is left in the pan."""

from __future__ import annotations

import re
from typing import Final

from counterproof.draws import Lognormal, Parameter
from counterproof.marks import Mark
from counterproof.physics.frying import TAKEN_UP
from counterproof.plan.model import Leaving
from counterproof.plan.scene import Scene
from counterproof.reading.model import Constituent, MarkedLine, MarkedStep
from counterproof.reading.telling import grams

FATS: Final = frozenset({"oils", "butter & fats"})
DEEP: Final = 0.25
"""From here on fat for frying is a bath and no film in a pan: assumed, a centimetre deep in a pan
of 18 cm. [kg]"""
_DEEP_FRIED: Final = re.compile(r"\bdeep[- ]?fr[yi]|\bfryer\b")


def fat_left(scene: Scene) -> tuple[list[Leaving], list[tuple[int, Mark]]]:
    """What is left of the fat that food was deep-fried in, and a note that says so.

    Parameters
    ----------
    scene : Scene
        The recipe and its kitchen.

    Returns
    -------
    tuple of list of Leaving and list of (int, Mark)
        One of each for every line of frying fat, whole batch. [kg]
    """
    left: list[Leaving] = []
    told: list[tuple[int, Mark]] = []
    step = next((one for one in scene.reading.steps if _fries(one)), None)
    for line in scene.reading.lines:
        if not _is_bath(line, scene, step):
            continue
        fat = line.constituents[0]
        solids = _fried(scene, step)
        if fat.mass is None or not solids:
            continue
        share = min(TAKEN_UP.value * solids / fat.mass.mean, 0.95)
        # What is left is what is not taken up, so its spread is that of the uptake.
        deviation = Lognormal.from_spread(1.0, min(TAKEN_UP.spread * share / (1 - share), 1.0))
        mass = fat.mass.scaled(1 - share).times(Parameter(f"fat left|{fat.food.id}", deviation))
        number = None if step is None else step.written.number
        left.append(
            Leaving(f"{fat.food.name} left in the pan", mass, number, "left behind",
                    "food waste", fat.food.id)
        )  # fmt: skip
        told.append((number or 0, _note(fat, solids, share)))
    return left, told


def _fries(step: MarkedStep) -> bool:
    text = step.written.text.lower()
    deep = _DEEP_FRIED.search(text) is not None
    return deep or any(process.kind == "fry" for process in step.processes)


def _is_bath(line: MarkedLine, scene: Scene, step: MarkedStep | None) -> bool:
    """Whether a line is the fat of a bath: said to be, or far more than a pan needs."""
    if line.food is None or line.mass is None or line.food.food_class not in FATS:
        return False
    flags = line.split.flags
    if "for deep frying" in flags:
        return True
    deep = line.mass.mean / scene.reading.scale >= DEEP
    said = step is not None and _DEEP_FRIED.search(step.written.text.lower()) is not None
    return deep and ("for frying" in flags or said)


def _fried(scene: Scene, step: MarkedStep | None) -> float:
    """Mass of what goes into the fat: what the step names, else all that is not fat. [kg]"""
    there: tuple[Constituent, ...] = ()
    if step is not None:
        there = scene.named(step, "fry") or scene.in_pot(step)
    everything = tuple(part for line in scene.reading.lines for part in line.constituents)
    for parts in (there, everything):
        masses = [
            part.mass.mean
            for part in parts
            if part.mass is not None and part.food.food_class not in FATS
        ]
        if masses:
            return sum(masses)
    return 0.0


def _note(fat: Constituent, solids: float, share: float) -> Mark:
    whole = 0.0 if fat.mass is None else fat.mass.mean
    return Mark(
        "note",
        "fat-left",
        f"Of {grams(whole)} of {fat.food.name} about {grams(share * whole)} goes into the food "
        f"({TAKEN_UP.value:.0%} of the {grams(solids)} that is fried, give or take half: assumed); the "
        "rest is not eaten and counts as thrown away. If it is used again, write "
        f"`carried_over: [{fat.food.name}]` at the top; its burden stays here.",
    )
