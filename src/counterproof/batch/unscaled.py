"""What does not grow with the recipe, each with the number that kitchen physics gives it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from counterproof.draws import Range
from counterproof.in_words import mass_in_words, seconds_in_words
from counterproof.plan.model import Plan
from counterproof.plan.pot import is_at_table
from counterproof.reading.model import MarkedLine, Reading
from counterproof.sourced import Sourced

LITTLE: Final = Sourced(
    1.1, "1", 0.0, "assumed", "", "a recipe scaled by less than a tenth is told nothing of this"
)
SEASONED: Final = Sourced(
    2 / 3, "1", 0.2, "assumed", "",
    "share of salt, spice and sharpness to begin with when a recipe is made larger: cooks' habit, "
    "no source",
)  # fmt: skip
_SEASONINGS: Final = frozenset({"salt", "spices", "dried herbs", "vinegars"})
_SETS: Final = re.compile(
    r"\b(?:setting point|until (?:it is |it |just )?sets?|is set|to set\b|jell(?:y|ies)|jam|marmalade"
    r"|wobbl\w*|gels?\b)",
    re.IGNORECASE,
)
_GELLING: Final = frozenset({"gelatine", "agar", "pectin"})
_TIMES: Final = 1.1
"""Hands-on time that grows by less than a tenth is not told: assumed. [1]"""
_MUCH: Final = 1.5
"""Seasoning is told of from half as much again: assumed. [1]"""


@dataclass(frozen=True, slots=True)
class Unscaled:
    """One thing that does not grow with the recipe.

    Parameters
    ----------
    what : str
        Such as "heating up".
    says : str
        One sentence for a cook.
    before, after : float or None
        As written, and at the size asked; of one pot. [unit]
    unit : str
        s, kg or kWh; "" without numbers.
    basis : str
        "kitchen physics", "the recipe" or "common practice".
    """

    what: str
    says: str
    before: float | None = None
    after: float | None = None
    unit: str = ""
    basis: str = "kitchen physics"

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        key = f"_{self.unit.lower()}" if self.unit else ""
        return {
            "what": self.what,
            "says": self.says,
            f"before{key}": self.before,
            f"after{key}": self.after,
            "basis": self.basis,
        }


@dataclass(frozen=True)
class Size:
    """A recipe at one size: what was understood, its plan, and the plan's figures."""

    reading: Reading
    plan: Plan
    figures: Mapping[str, Range]


def unscaled_of(written: Size, pot: Size, pots: int) -> tuple[Unscaled, ...]:
    """What a cook has to do differently at another size.

    Parameters
    ----------
    written : Size
        The recipe as written.
    pot : Size
        What goes into one pot.
    pots : int
        How many such pots there are. [1]

    Returns
    -------
    tuple of Unscaled
        Empty where one pot holds what the recipe says.
    """
    factor = pot.reading.serves / written.reading.serves
    if 1.0 / LITTLE.value <= factor <= LITTLE.value and pots == 1:
        return ()
    found = [
        _heating(written, pot, factor), _kept_hot(written), _steam(written, pot, factor),
        _energy(written, pot, factor, pots), *_cooling(written, pot), _oven(written, pot, factor),
        _hands(written, pot, factor), _seasoning(pot, factor), _gelling(pot, factor),
    ]  # fmt: skip
    return tuple(one for one in found if one is not None)


def _heating(written: Size, pot: Size, factor: float) -> Unscaled | None:
    one, other = written.figures.get("heating_s"), pot.figures.get("heating_s")
    if one is None or other is None or abs(other.mean / one.mean - 1.0) < 0.05:
        return None
    says = (
        f"It takes {seconds_in_words(other.p05, other.p95)} to the boil instead of "
        f"{seconds_in_words(one.p05, one.p95)}: {factor:.2g} times the food on the same ring."
    )
    return Unscaled("heating up", says, one.mean, other.mean, "s")


def _kept_hot(written: Size) -> Unscaled | None:
    one = written.figures.get("simmering_s")
    if one is None:
        return None
    says = (
        f"Simmer as long as the recipe says, {seconds_in_words(one.p05, one.p95)}, from when it is hot "
        "again: pieces of the same size take the same time."
    )
    return Unscaled("simmering", says, one.mean, one.mean, "s", "the recipe")


def _steam(written: Size, pot: Size, factor: float) -> Unscaled | None:
    one, other = written.figures.get("steam"), pot.figures.get("steam")
    if one is None or other is None:
        return None
    apart = other.mean - factor * one.mean
    lead = (
        f"{mass_in_words(other.mean)} of steam leave the pot, where {factor:.2g} times the recipe's "
        f"would be {mass_in_words(factor * one.mean)}"
    )
    if abs(apart) < 0.01:
        says = f"{lead}: no matter."
    elif apart < 0.0:
        says = f"{lead}: hold {mass_in_words(-apart)} of water back, or let it boil down longer."
    else:
        says = f"{lead}: keep {mass_in_words(apart)} of water at hand."
    return Unscaled("boiling off", says, one.mean, other.mean, "kg")


def _energy(written: Size, pot: Size, factor: float, pots: int) -> Unscaled | None:
    one, other = written.figures.get("energy_kwh"), pot.figures.get("energy_kwh")
    if one is None or other is None:
        return None
    share = other.mean / factor / one.mean
    more = f"{share:.2g} times" if abs(share - 1.0) > 0.05 else "as much as"
    times = f", {pots} times over" if pots > 1 else ""
    says = f"Cooking takes {other.mean:.2g} kWh{times}; a serving takes {more} the recipe's."
    return Unscaled("energy", says, one.mean, other.mean, "kWh")


def _cooling(written: Size, pot: Size) -> list[Unscaled]:
    found = []
    before = {one.step: one for one in written.plan.coolings}
    for cold in pot.plan.coolings:
        was = before.get(cold.step)
        then = None if was is None else was.found.times[was.found.worst].p50
        now = cold.found.times[cold.found.worst].p50
        lead = (
            "" if was is None or was.ruling == cold.ruling else f"As written it is {was.ruling}. "
        )
        found.append(Unscaled("cooling", f"{lead}{cold.mark.message}", then, now, "s"))
    return found


def _oven(written: Size, pot: Size, factor: float) -> Unscaled | None:
    bakes = [
        process
        for step in written.reading.steps
        for process in step.processes
        if process.kind == "bake" and process.minutes
    ]
    if not bakes:
        return None
    one = sum(use.kwh.mean for use in written.plan.energy if use.appliance == "oven")
    other = sum(use.kwh.mean for use in pot.plan.energy if use.appliance == "oven")
    says = (
        f"The baking time stands for a dish as deep as before: spread {factor:.2g} times the food over "
        f"{factor:.2g} times the area. In one dish of the same shape it would be "
        f"{factor ** (1 / 3):.2g} times as deep and take up to {factor ** (2 / 3):.2g} times as long to "
        f"its middle. The oven takes {other:.2g} kWh instead of {one:.2g}."
    )
    return Unscaled("oven", says, one, other, "kWh")


def _hands(written: Size, pot: Size, factor: float) -> Unscaled | None:
    one, other = written.plan.timeline.hands_on, pot.plan.timeline.hands_on
    if one.p50 <= 0.0 or (other.p50 / one.p50 < _TIMES and factor > 1.0):
        return None
    says = (
        f"Hands are needed for {seconds_in_words(other.p05, other.p95)} instead of "
        f"{seconds_in_words(one.p05, one.p95)}."
    )
    return Unscaled("hands-on time", says, one.p50, other.p50, "s")


def _seasoning(pot: Size, factor: float) -> Unscaled | None:
    named = [line.split.name for line in pot.reading.lines if _is_seasoning(line)]
    if not named or factor < _MUCH:
        return None
    says = (
        f"Begin with two thirds of {_listed(named)}, taste at the end and add: what is lost to the pot "
        "and to steam does not grow with the recipe."
    )
    return Unscaled("seasoning", says, basis="common practice")


def _is_seasoning(line: MarkedLine) -> bool:
    return line.food is not None and line.food.food_class in _SEASONINGS and not is_at_table(line)


def _gelling(pot: Size, factor: float) -> Unscaled | None:
    lines = pot.reading.lines
    told = " ".join((pot.reading.recipe.title, *(step.written.text for step in pot.reading.steps)))
    agent = any(line.food is not None and line.food.id in _GELLING for line in lines)
    sweet = any(
        line.food is not None
        and line.food.food_class == "sugars & syrups"
        and line.mass is not None
        for line in lines
    )
    if not (agent or (sweet and _SETS.search(told))):
        return None
    surface = factor ** (-1 / 3)
    says = (
        f"It sets otherwise at another size: a pot of the same shape has {surface:.2g} times the "
        "surface for each litre, so it boils down more slowly, and what is heated longer sets more "
        "weakly. Test a spoonful on a cold plate; make jam in small batches."
    )
    return Unscaled("gelling", says, basis="common practice")


def _listed(names: list[str]) -> str:
    if len(names) == 1:
        return names[0]
    return f"{', '.join(names[:-1])} and {names[-1]}"
