"""Cautions: what could hurt someone in this recipe, said once, with where the advice comes from.

They are reminders, never a promise: each defers to the local code and to licensed practice. What
authorities say is held once, in the physics (`advice`, `core_temperatures`, `cooling_rules`,
`holding`); this room knows which of it a recipe calls for.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from counterproof.physics import cautions, holding
from counterproof.physics.advice import ADVICE
from counterproof.physics.cautions import DEFER
from counterproof.physics.cooling_rules import BOTH_STAGES, FIRST_STAGE
from counterproof.physics.core_temperatures import ROWS, CoreTemperature, core_temperature
from counterproof.physics.spread import spoken
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.authorities import authority
from counterproof.plan.keeping import is_preserve
from counterproof.plan.step_verdicts import KEEP_HOT, KIDNEY_BEANS, REHEAT, chart_class
from counterproof.reading.model import Reading
from counterproof.sourced import Sourced


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
        who = "" if self.source == "common practice" else authority(self.source)
        told = ", ".join(part for part in (who, self.locator) if part)
        return f"{self.text} ({told})" if told else self.text


Applies = Callable[[Reading], bool]


def _process(*kinds: str) -> Applies:
    return lambda reading: any(
        process.kind in kinds for step in reading.steps for process in step.processes
    )


def _food(pattern: str) -> Applies:
    search = re.compile(pattern).search
    return lambda reading: any(
        search(part.food.id) for line in reading.lines for part in line.constituents
    )


def _class(*classes: str) -> Applies:
    return lambda reading: any(
        part.food.food_class in classes for line in reading.lines for part in line.constituents
    )


def _said(pattern: str) -> Applies:
    search = re.compile(pattern, re.IGNORECASE).search
    return lambda reading: any(search(step.written.text.lower()) for step in reading.steps)


def _titled(pattern: str) -> Applies:
    search = re.compile(pattern, re.IGNORECASE).search
    return lambda reading: search(reading.recipe.title) is not None


def _kept(*where: str) -> Applies:
    return lambda reading: any(keep.where in where for keep in reading.recipe.keep)


def _all(*rules: Applies) -> Applies:
    return lambda reading: all(rule(reading) for rule in rules)


def _any(*rules: Applies) -> Applies:
    return lambda reading: any(rule(reading) for rule in rules)


def _not(rule: Applies) -> Applies:
    return lambda reading: not rule(reading)


_HEATING: Final = _process(
    "boil", "simmer", "poach", "fry", "bake", "grill", "cook", "microwave", "steam", "slow_cook"
)
_COLD: Final = _any(_kept("fridge", "freezer"), _process("chill", "freeze"))
_PERISHABLE: Final = _class(
    "beef", "pork", "lamb", "veal", "poultry", "game", "offal", "fish", "shellfish", "eggs", "dairy"
)


def _advice(name: str, about: str) -> Caution:
    """What `physics.advice` holds, with how it is known."""
    advice = ADVICE[about]
    how = "from memory: check it" if advice.known == "from memory" else ""
    where = "" if advice.known == "no rule" else advice.locator
    return Caution(name, advice.says, advice.source, "; ".join(p for p in (where, how) if p))


def _celsius(of: Sourced) -> str:
    return f"{of.value - ZERO_CELSIUS:.0f} °C"


def _own(name: str, text: str, locator: str = "") -> Caution:
    return Caution(name, text.removesuffix(f" {DEFER}"), "common practice", locator)


def _cooling() -> Caution:
    clock = FIRST_STAGE.clock or FIRST_STAGE.goal
    text = (
        f"What is kept: cool from {_celsius(clock)} to {_celsius(FIRST_STAGE.goal)} within "
        f"{spoken(FIRST_STAGE.limit.value)} and to {_celsius(BOTH_STAGES.goal)} within "
        f"{spoken(BOTH_STAGES.limit.value)} in all; shallow containers or an ice bath help. "
        "Measure it."
    )
    return Caution("cooling", text, FIRST_STAGE.source, "3-501.14")


_RULES: Final[tuple[tuple[Caution, Applies], ...]] = (
    (_advice("honey", "honey-for-infants"), _food(r"^honey")),
    (_advice("kidney-beans", "dried-kidney-beans"), _food(KIDNEY_BEANS.pattern)),
    (
        _own("rhubarb-leaves", "Rhubarb: the stalks only; the leaves are poisonous."),
        _food(r"^rhubarb"),
    ),
    (_cooling(), _COLD),
    (_advice("cooked-rice", "cooked-rice"), _all(_class("rice"), _COLD)),
    (
        Caution(
            "reheating",
            f"Leftovers are reheated to {_celsius(holding.REHEAT_US)} all through, once.",
            holding.REHEAT_US.source,
            holding.REHEAT_US.locator,
        ),
        _any(_said(REHEAT.pattern), _all(_kept("fridge", "freezer"), _HEATING, _not(is_preserve))),
    ),
    (
        Caution(
            "hot-holding",
            f"What is kept hot stays at {_celsius(holding.HOT_US)} or above in US rules, at "
            f"{_celsius(holding.HOT_UK)} in the UK's. Measure it.",
            holding.HOT_UK.source,
            "hot holding; US FDA Food Code, danger zone",
        ),
        _said(KEEP_HOT.pattern),
    ),
    (_advice("two-hours", "two-hours"), _all(_PERISHABLE, _COLD)),
    (
        Caution(
            "thawed",
            "Thaw in the fridge, use within 24 hours of thawing, do not freeze it again.",
            holding.THAWED.source,
            holding.THAWED.locator,
        ),
        _any(_kept("freezer"), _process("thaw")),
    ),
    (
        _advice("cordial-at-room-temperature", "cordial-at-room-temperature"),
        _all(_titled(r"\b(?:cordial|syrup|shrub)\b"), is_preserve),
    ),
    (
        _advice("oil-infused", "oil-infused"),
        _all(_class("oils"), _any(_titled(r"\binfused oil|\b(?:garlic|herb|chilli|basil) oil\b"),
             _said(r"\binfus\w*[^.;]*\boil\b|\boil\b[^.;]*\binfus"))),
    ),
    (
        _advice("juice-pressed-at-home", "juice-pressed-at-home"),
        _all(_titled(r"\bjuice\b"), _not(_HEATING)),
    ),
    (
        _advice("low-acid-in-jars", "low-acid-in-jars"),
        _all(_said(r"\bjars?\b"), _HEATING, _not(is_preserve),
             _any(_kept("cupboard"), _said(r"\bsteril|\bseal"))),
    ),
    (
        Caution(
            "jars-in-the-freezer",
            "Freezing in glass: straight-sided jars made for it, cold before they go in, room left "
            "at the top; jars with shoulders break.",
            "nchfp-headspace",
            "",
        ),
        _all(_said(r"\bjars?\b|\bglass\b"), _any(_process("freeze"), _kept("freezer"))),
    ),
    (
        _own(
            "hot-glass",
            "Hot liquid into glass: warm the glass first; never hot glass onto cold stone or into "
            "cold water.",
            "soda-lime glass stands a sudden difference of about 40 K, from memory",
        ),
        _all(_said(r"\bjars?\b|\bbottles?\b"), _process("boil", "simmer", "heat", "steep")),
    ),
    (
        _own(
            "pressure",
            "Carbonating: pressure. Bottles made for it and within their date, water only unless "
            "the maker says otherwise, the maker's instructions before this page.",
        ),
        _any(_process("carbonate"), _said(r"carbonat\w+|soda (?:siphon|syphon)|fizz the water")),
    ),
    (_own("hot-oil", cautions.HOT_FAT), _said(r"deep[- ]fry")),
    (
        _own(
            "raw-egg",
            "Eggs that stay raw or soft are not for everyone: ask your food authority about "
            "infants, pregnancy and the unwell.",
        ),
        _all(_class("eggs"), _not(_HEATING)),
    ),
)  # fmt: skip


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
    core = _core(reading)
    return (*core, *(caution for caution, applies in _RULES if applies(reading)))


def _core(reading: Reading) -> tuple[Caution, ...]:
    """Core temperatures for the raw meat, fish and eggs in it, each row of the chart once."""
    if not _HEATING(reading):
        return ()
    asked: dict[str, None] = {}
    for line in reading.lines:
        for part in line.constituents:
            foods = chart_class(part.food.id, part.food.food_class)
            if foods is not None:
                asked[foods] = None
    rows = [row for foods in asked if (row := core_temperature(foods)) is not None]
    if not rows:
        return ()
    told = "; ".join(_row(row) for row in rows)
    text = f"Measure the core: {told}."
    if reading.kitchen.region == "uk":
        text += f" UK advice: {_row(ROWS[-1])}."
    return (Caution("core-temperature", text, rows[0].source, ""),)


def _row(row: CoreTemperature) -> str:
    if row.temperature is None:
        return f"{row.foods}: {row.sign}"
    rest = "" if row.hold is None else f" and {spoken(row.hold.value)}"
    kind = "" if not rest else " of rest" if row.authority == "us" else " at it"
    return f"{row.foods}, {_celsius(row.temperature)}{rest}{kind}"
