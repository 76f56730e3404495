"""How long each thing a step does takes, and whether it needs hands: stated, modelled or assumed."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final

from counterproof.physics.spread import Spread
from counterproof.plan import constants as c
from counterproof.plan.pot import goes_on
from counterproof.reading.model import MarkedLine, MarkedStep, Process

Warming = dict[int, tuple[tuple[str, float], ...]]
"""By place of the process in its step: what is heated before it begins, and how long. [s]"""
MINUTE: Final = 60.0
HANDS_ON: Final = frozenset(
    {"prep", "add", "transfer", "mix", "blend", "grind", "strain", "serve", "fry", "toast",
     "grill", "melt", "heat", "carbonate"}
)  # fmt: skip
WAITS: Final = frozenset(
    {"chill", "freeze", "thaw", "cool", "soak", "marinate", "rise", "steep", "rest", "ferment", "dry"}
)  # fmt: skip
_CUTS: Final = re.compile(r"\b(?:peel|chop|slic|dic|cub|grat|minc|shred|cor|zest|trim|cut|quarter|halv|pare|stone|pit)\w*\b")  # fmt: skip
_OVERNIGHT: Final = re.compile(r"\bovernight\b|\bthe (?:day|night) before\b")
_STORED: Final = frozenset({"thaw", "freeze", "rise", "marinate", "soak", "steep", "ferment"})


@dataclass(frozen=True, slots=True)
class Task:
    """One thing to do or to wait for, on the time line.

    Parameters
    ----------
    step : int
        Number of its step; 0 for what comes before the first.
    does : str
        What it is: "simmer", "bring to the boil".
    hands_on : bool
        Whether it needs hands, or only somebody near.
    lasts : Spread
        How long. [s]
    begins : Spread
        When, from the start. [s]
    stated : bool
        Whether the recipe states the time.
    place : str
        Where it stands meanwhile: "hob", "oven", "fridge", …; "" where it takes no appliance.
    celsius : float or None
        What an oven is set to. [°C]
    """

    step: int
    does: str
    hands_on: bool
    lasts: Spread
    begins: Spread = Spread(0.0, 0.0, 0.0)  # noqa: RUF009 (frozen)
    stated: bool = False
    place: str = ""
    celsius: float | None = None

    @property
    def ends(self) -> Spread:
        """When it is over. [s]"""
        return added(self.begins, self.lasts)


def added(first: Spread, second: Spread) -> Spread:
    """One time after another, end by end: what runs late keeps the rest late.

    Parameters
    ----------
    first, second : Spread
        Times. [s]

    Returns
    -------
    Spread
        Their sum. [s]
    """
    return Spread(first.p05 + second.p05, first.p50 + second.p50, first.p95 + second.p95)


def later(first: Spread, second: Spread) -> Spread:
    """The later of two times, end by end.

    Parameters
    ----------
    first, second : Spread
        Times. [s]

    Returns
    -------
    Spread
        Their maximum. [s]
    """
    return Spread(
        max(first.p05, second.p05), max(first.p50, second.p50), max(first.p95, second.p95)
    )


def preparing(lines: tuple[MarkedLine, ...]) -> Task | None:
    """What the ingredient lines ask for before the first step: peeling, chopping, grating.

    Parameters
    ----------
    lines : tuple of MarkedLine
        The ingredients.

    Returns
    -------
    Task or None
        None where no line asks for it.
    """
    cut = [
        line.mass.mean
        for line in lines
        if line.mass is not None
        and _CUTS.search(f"{line.split.preparation} {line.split.comment}".lower())
    ]
    if not cut:
        return None
    seconds = len(cut) * c.PER_LINE.value + sum(cut) * c.PER_KILOGRAM.value
    wide = 1.645 * c.PER_KILOGRAM.spread
    lasts = Spread(seconds * (1 - wide), seconds, seconds * (1 + wide))
    return Task(0, "prepare the ingredients", hands_on=True, lasts=lasts)


def tasks_of(step: MarkedStep, warming: Warming, cooled: Spread | None) -> tuple[Task, ...]:
    """What a step does, one after the other.

    Parameters
    ----------
    step : MarkedStep
        The step.
    warming : Warming
        By place of the process: what is heated first, and how long that takes. [s]
    cooled : Spread or None
        Modelled time of a cooling that begins at this step. [s]

    Returns
    -------
    tuple of Task
        Each beginning at 0: `laid_out` puts them on the line.
    """
    number, text = step.written.number, step.written.text.lower()
    overnight = _OVERNIGHT.search(text) is not None
    tasks: list[Task] = []
    untimed: set[str] = set()
    waits = {process.kind for process in step.processes} & WAITS
    for place, process in enumerate(step.processes):
        tasks += [
            _at(process, _warmed(number, name, seconds)) for name, seconds in warming.get(place, ())
        ]
        if process.minutes is not None:
            tasks.append(_at(process, _stated(number, process)))
            continue
        if goes_on(step, process) or _is_named_again(process.kind, untimed, waits, cooled):
            continue
        lasts = _unstated(process, text, cooled, overnight=overnight)
        if process.kind in WAITS:
            untimed.add(process.kind)
            overnight = overnight and process.kind == "cool"
        if lasts is not None and not (place in warming and process.kind in {"boil", "preheat"}):
            made = Task(number, _named(process), process.kind in HANDS_ON, lasts)
            tasks.append(_at(process, made))
    return tuple(tasks)


def _warmed(step: int, name: str, seconds: float) -> Task:
    lasts = _ranged(seconds, c.WARMING.spread)
    return Task(step, name, hands_on=False, lasts=lasts)


def _at(process: Process, task: Task) -> Task:
    """A task with the appliance it takes."""
    celsius = process.celsius if process.appliance == "oven" else None
    return replace(task, place=process.appliance or "", celsius=celsius)


def _is_named_again(kind: str, untimed: set[str], waits: set[str], cooled: Spread | None) -> bool:
    """A wait is often named twice and is one: "leave to steep", "cool, then chill"."""
    if kind == "rest":
        return len(waits) > 1
    if kind == "chill" and (untimed & _STORED or (cooled is not None and "cool" in untimed)):
        return True
    return kind in untimed


def _stated(number: int, process: Process) -> Task:
    low, high = process.minutes or (None, None)
    if low is None:
        low = 0.5 * (high or 0.0)
    if high is None:
        high = low * (1.0 + 1.645 * c.OPEN_ENDED.spread)
    lasts = Spread(low * MINUTE, 0.5 * (low + high) * MINUTE, high * MINUTE)
    drips = process.kind == "strain"
    hands_on = process.kind in HANDS_ON and not drips
    return Task(number, _named(process), hands_on, lasts, stated=True)


def _unstated(
    process: Process, text: str, cooled: Spread | None, *, overnight: bool
) -> Spread | None:
    kind = process.kind
    if overnight and kind in WAITS - {"cool"}:
        return _between(c.OVERNIGHT)
    if cooled is not None and kind in {"cool", "chill"} and cooled.p95 < c.LONGEST.value:
        return cooled
    if kind in c.DEFAULT_MINUTES:
        default = c.DEFAULT_MINUTES[kind]
        return _ranged(default.value * MINUTE, default.spread)
    if kind == "prep" and _CUTS.search(text):
        return _between(c.CUTTING)
    return _between(c.USUAL_TIMES[kind]) if kind in c.USUAL_TIMES else None


def _between(ends: tuple[float, float]) -> Spread:
    low, high = ends
    return Spread(low * MINUTE, 0.5 * (low + high) * MINUTE, high * MINUTE)


def _ranged(seconds: float, spread: float) -> Spread:
    wide = min(1.645 * spread, 0.9)
    return Spread(seconds * (1 - wide), seconds, seconds * (1 + wide))


def _named(process: Process) -> str:
    kind = "cook" if process.kind == "unspecified" else process.kind.replace("_", " ")
    dripping = "strain" if process.minutes is None else "drip"
    return {"strain": dripping, "prep": "prepare"}.get(kind, kind)
