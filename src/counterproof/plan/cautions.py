"""Cautions: what could hurt someone in this recipe, said once, with where the advice comes from.

They are reminders, never a promise: each defers to the local code and to licensed practice.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from counterproof.reading.model import Reading

DEFER: Final = "Local codes and licensed practice come first."


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution: `source` is an id of `data/sources.csv`, or "common practice"."""

    id: str
    text: str
    source: str
    locator: str

    @property
    def printed(self) -> str:
        """The caution with its authority, as it is printed."""
        return f"{self.text} ({self.locator})" if self.locator else self.text


@dataclass(frozen=True, slots=True)
class _Rule:
    caution: Caution
    applies: Callable[[Reading], bool]


def _process(*kinds: str) -> Callable[[Reading], bool]:
    return lambda reading: any(
        process.kind in kinds for step in reading.steps for process in step.processes
    )


def _food(pattern: str) -> Callable[[Reading], bool]:
    search = re.compile(pattern).search
    return lambda reading: any(
        search(part.food.id) for line in reading.lines for part in line.constituents
    )


def _class(*classes: str) -> Callable[[Reading], bool]:
    return lambda reading: any(
        part.food.food_class in classes for line in reading.lines for part in line.constituents
    )


def _said(pattern: str) -> Callable[[Reading], bool]:
    search = re.compile(pattern, re.IGNORECASE).search
    return lambda reading: any(search(step.written.text) for step in reading.steps)


def _kept(where: str) -> Callable[[Reading], bool]:
    return lambda reading: any(keep.where == where for keep in reading.recipe.keep)


def _all(*rules: Callable[[Reading], bool]) -> Callable[[Reading], bool]:
    return lambda reading: all(rule(reading) for rule in rules)


def _any(*rules: Callable[[Reading], bool]) -> Callable[[Reading], bool]:
    return lambda reading: any(rule(reading) for rule in rules)


_HEATING: Final = ("boil", "simmer", "poach", "fry", "bake", "grill", "cook", "microwave", "steam")
_RULES: Final[tuple[_Rule, ...]] = (
    _Rule(
        Caution(
            "honey",
            "Honey is not for infants under 12 months.",
            "common practice",
            "public-health advice on infant botulism, from memory",
        ),
        _food(r"^honey"),
    ),
    _Rule(
        Caution(
            "kidney-beans",
            "Dried kidney beans: soak, throw the water away, boil hard in fresh water; never cook "
            "them from dry in a slow cooker.",
            "common practice",
            "government advice on phytohaemagglutinin, from memory",
        ),
        _food(r"^(?:red-)?kidney-beans?(?:-dried|-dry)?$"),
    ),
    _Rule(
        Caution(
            "rhubarb-leaves",
            "Rhubarb: the stalks only; the leaves are poisonous.",
            "common practice",
            "",
        ),
        _food(r"^rhubarb"),
    ),
    _Rule(
        Caution(
            "poultry",
            "Poultry and minced meat: measure the core; the US government chart asks for 74 °C "
            "(165 °F) in poultry and 71 °C (160 °F) in minced beef, pork, veal and lamb.",
            "us-internal-temperatures",
            "safe minimum internal temperatures",
        ),
        _any(_class("poultry"), _food(r"mince|ground-(?:beef|pork|lamb|turkey|chicken)")),
    ),
    _Rule(
        Caution(
            "cooling",
            "What is kept: cool from 57 °C to 21 °C within 2 hours and to 5 °C within 6 hours in "
            "all; shallow containers or an ice bath help. Measure it.",
            "fda-food-code",
            "FDA Food Code 3-501.14",
        ),
        _any(_kept("fridge"), _kept("freezer"), _process("chill", "freeze")),
    ),
    _Rule(
        Caution(
            "jars-in-the-freezer",
            "Freezing in glass: straight-sided jars made for it, cold before they go in, room left "
            "at the top; jars with shoulders break.",
            "nchfp-headspace",
            "freezing headspace",
        ),
        _all(_said(r"\bjars?\b|\bglass\b"), _any(_process("freeze"), _kept("freezer"))),
    ),
    _Rule(
        Caution(
            "hot-glass",
            "Hot liquid into glass: warm the glass first; never hot glass onto cold stone or into "
            "cold water.",
            "common practice",
            "soda-lime glass stands a sudden difference of about 40 K, from memory",
        ),
        _all(_said(r"\bjars?\b|\bbottles?\b"), _process("boil", "simmer", "heat", "steep")),
    ),
    _Rule(
        Caution(
            "pressure",
            "Carbonating: pressure. Bottles made for it and within their date, water only unless "
            "the maker says otherwise, the maker's instructions before this page.",
            "common practice",
            "",
        ),
        _any(_process("carbonate"), _said(r"carbonat\w+|soda (?:siphon|syphon)|fizz the water")),
    ),
    _Rule(
        Caution(
            "hot-oil",
            "Deep-frying: dry food, a pan no more than a third full, never left alone; a burning "
            "pan is covered, never watered.",
            "common practice",
            "",
        ),
        _said(r"deep[- ]fry"),
    ),
    _Rule(
        Caution(
            "raw-egg",
            "Eggs that stay raw or soft are not for everyone: ask your food authority about "
            "infants, pregnancy and the unwell.",
            "common practice",
            "",
        ),
        _all(_class("eggs"), lambda reading: not _process(*_HEATING)(reading)),
    ),
)


def cautions_of(reading: Reading) -> tuple[Caution, ...]:
    """The cautions a recipe calls for, in a fixed order.

    Parameters
    ----------
    reading : Reading
        A recipe as understood.

    Returns
    -------
    tuple of Caution
        Empty where no rule applies, which says nothing about the recipe.
    """
    return tuple(rule.caution for rule in _RULES if rule.applies(reading))
