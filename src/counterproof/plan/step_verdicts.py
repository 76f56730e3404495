"""Rules that a single step can keep or break: hard boiling, a core temperature, keeping hot."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final

from counterproof.kitchen_physics import WATER
from counterproof.marks import Mark
from counterproof.physics.advice import ADVICE
from counterproof.physics.answer import Verdict
from counterproof.physics.cautions import DEFER
from counterproof.physics.core_temperatures import CoreTemperature, core_temperature, core_verdict
from counterproof.physics.holding import HOT_UK, HOT_US, reheated
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan import constants as c
from counterproof.plan.authorities import authority
from counterproof.plan.pot import named_lines
from counterproof.reading.durations import temperatures
from counterproof.reading.model import MarkedStep, Reading
from counterproof.reading.steps import sentences

KIDNEY_BEANS: Final = re.compile(r"^kidney-beans(?:-dry|-dried)?$")
_CORE: Final = re.compile(
    r"\bcore\b|\bthermometer\b|\bprobe\b|\binternal\b|\bthickest\b|\binside\b"
)
KEEP_HOT: Final = re.compile(
    r"\b(?:keep|hold|kept|stay)\w*\b[^.;]*?\b(?:above \d+|at \d+|over \d+|hot|warm)(?!\w)"
)
REHEAT: Final = re.compile(r"\breheat\w*|\bheat (?:it )?(?:up )?again\b|\bwarm (?:it )?through\b")


@dataclass(frozen=True, slots=True)
class StepVerdict:
    """What one rule says to one step.

    Parameters
    ----------
    step : int
        Its number.
    about : str
        Slug of the rule.
    said : Verdict
        The rule's verdict.
    """

    step: int
    about: str
    said: Verdict

    @property
    def mark(self) -> Mark:
        """The mark beside the step."""
        level = "note" if self.said.verdict in {"within", "no rule"} else "doubt"
        slug = f"{self.about}-{self.said.verdict.replace(' ', '-')}"
        return Mark("note" if level == "note" else "doubt", slug, self.said.message)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {"step": self.step, "about": self.about, **self.said.to_dict()}


def step_verdicts(reading: Reading) -> tuple[StepVerdict, ...]:
    """What rules other than those of cooling say to the steps.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    tuple of StepVerdict
        Only where a step states what a rule asks for, or a rule asks for a step.
    """
    found = _kidney_beans(reading)
    whose = "uk" if reading.kitchen.region == "uk" else "us"
    for step in reading.steps:
        for sentence in sentences(step.written.text):
            said = sentence.lower()
            degrees = temperatures(sentence)
            if not degrees:
                continue
            kelvin = ZERO_CELSIUS + degrees[0].celsius
            number = step.written.number
            if KEEP_HOT.search(said) and _MILD[0] < degrees[0].celsius < _MILD[1]:
                found.append(StepVerdict(number, "hot-holding", _kept_hot(kelvin, whose)))
            elif REHEAT.search(said) and _CORE.search(said):
                found.append(StepVerdict(number, "reheating", reheated(kelvin)))
            elif _CORE.search(said) and degrees[0].celsius < _MILD[1]:
                row = core_row(reading, step)
                if row is not None:
                    held = row.hold.value if row.hold is not None else 0.0
                    verdict = core_verdict(row, kelvin, held)
                    found.append(StepVerdict(number, "core-temperature", _as_asked(verdict)))
    return tuple(found)


_MILD: Final = (40.0, 100.0)
"""Temperatures that a food can have: above, an oven is meant. [°C]"""


def _kept_hot(asked: float, whose: str) -> Verdict:
    """What the rule says to the temperature at which a step is to keep food hot."""
    limit = HOT_UK if whose == "uk" else HOT_US
    lead = (
        f"The step keeps it at {asked - ZERO_CELSIUS:.0f} °C; {authority(limit.source)} ask for "
        f"{limit.value - ZERO_CELSIUS:.0f} °C or above."
    )
    if asked >= limit.value:
        said = f"{lead} A probe errs by a degree: keep it hotter, and measure. {DEFER}"
        return Verdict("hot holding", "within", said, limit.source)
    return Verdict("hot holding", "over", f"{lead} Keep it hotter. {DEFER}", limit.source)


def _as_asked(verdict: Verdict) -> Verdict:
    """A recipe asks for a temperature; nobody has measured it yet."""
    said = verdict.message.replace("was measured", "is what the step asks for")
    return Verdict(verdict.rule, verdict.verdict, said, verdict.source)


def core_row(reading: Reading, step: MarkedStep | None = None) -> CoreTemperature | None:
    """The chart's row that asks most of what a recipe, or a step of it, cooks.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    step : MarkedStep or None
        A step, whose named foods come first; None for the whole recipe.

    Returns
    -------
    CoreTemperature or None
        None where no food of the chart is in it.
    """
    lines = reading.lines
    if step is not None:
        named = named_lines(step.written.text, lines)
        lines = tuple(line for line in lines if line.written.number in named) or lines
    rows = [
        row
        for line in lines
        for part in line.constituents
        if part.food.food_class != WATER
        and (foods := chart_class(part.food.id, part.food.food_class))
        and (row := core_temperature(foods)) is not None
        and row.temperature is not None
    ]
    return max(
        rows, key=lambda row: row.temperature.value if row.temperature else 0.0, default=None
    )


_COOKED: Final = re.compile(r"cooked|canned|smoked|cured|ham\b|stock|broth|fat$|dripping|lard|salami|chorizo|prosciutto|pancetta")  # fmt: skip
_MINCED: Final = re.compile(r"mince|sausage|meatball|burger|^ground-")
_ROWS: Final = {
    "beef": "beef, veal, lamb: steaks, roasts, chops",
    "veal": "beef, veal, lamb: steaks, roasts, chops",
    "lamb": "beef, veal, lamb: steaks, roasts, chops",
    "pork": "fresh pork",
    "fish": "fish",
    "poultry": "chicken, turkey: whole and in pieces",
    "eggs": "eggs",
    "shellfish": "shrimp, lobster, crab",
}
_MOLLUSC: Final = re.compile(r"clam|oyster|mussel|cockle")


def chart_class(food: str, food_class: str) -> str | None:
    """The class under which the US chart has a raw food.

    Parameters
    ----------
    food : str
        Food.id.
    food_class : str
        Its class.

    Returns
    -------
    str or None
        `foods` of a row; None for what is no raw meat or fish, or is not on the chart.
    """
    if food_class not in _ROWS or _COOKED.search(food):
        return None
    if _MINCED.search(food):
        bird = food_class == "poultry"
        return "minced turkey, chicken" if bird else "minced beef, pork, veal, lamb"
    if food_class == "poultry" and food.startswith(("duck", "goose")):
        return "duck, goose"
    if food_class == "shellfish" and _MOLLUSC.search(food):
        return "clams, oysters, mussels"
    return _ROWS[food_class]


def _kidney_beans(reading: Reading) -> list[StepVerdict]:
    """Dried kidney beans and the hard boiling that they need."""
    if not any(
        KIDNEY_BEANS.search(part.food.id) for line in reading.lines for part in line.constituents
    ):
        return []
    advice = ADVICE["dried-kidney-beans"]
    needed = c.HARD_BOIL.value / 60.0
    boiled = [
        (step.written.number, process.minutes)
        for step in reading.steps
        for process in step.processes
        if process.kind == "boil"
    ]
    long_enough = [
        number for number, minutes in boiled if minutes and (minutes[0] or 0.0) >= needed
    ]
    asked = f"boil dried kidney beans hard for at least {needed:.0f} minutes in fresh water"
    if long_enough:
        said = f"Within the advice: {asked} ({advice.known}). {DEFER}"
        verdict = Verdict(_BEANS, "within", said, advice.source)
        return [StepVerdict(long_enough[0], "kidney-beans", verdict)]
    cooks = [
        step.written.number
        for step in reading.steps
        for process in step.processes
        if process.kind in {"simmer", "slow_cook", "cook", "boil", "bake"}
    ]
    at = boiled[0][0] if boiled else min(cooks, default=0)
    ruling = "too close" if boiled and not any(minutes for _, minutes in boiled) else "over"
    lead = "No time is given for the boil" if ruling == "too close" else "No step does it"
    said = (
        f"{lead}: {asked} first, after soaking them and throwing that water away; they are "
        f"poisonous until then, and a slow cooker does not get hot enough ({advice.known}). {DEFER}"
    )
    verdict = Verdict(_BEANS, "too close" if ruling == "too close" else "over", said, advice.source)
    return [StepVerdict(at, "kidney-beans", verdict)]


_BEANS: Final = "boiling dried kidney beans"
