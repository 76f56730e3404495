"""The steps on a time line: what needs hands, what only waits, and where it may be left.

One thing follows another as it is written; a step runs beside the one before it only where its
words say so ("meanwhile").
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final

from counterproof.physics.spread import Spread
from counterproof.plan.cooled import CooledStep
from counterproof.plan.keeping import Kept
from counterproof.plan.times import Task, Warming, added, later, preparing, tasks_of
from counterproof.reading.model import MarkedStep, Reading

NOTHING: Final = Spread(0.0, 0.0, 0.0)
MEANWHILE: Final = re.compile(
    r"\bmeanwhile\b|\bin the meantime\b|\bat the same time\b"
    r"|^\s*(?:while|whilst|as) (?:the|it|they|that|this|these)\b"
)
_LEFT: Final = frozenset({"chill", "freeze"})


@dataclass(frozen=True, slots=True)
class MakeAhead:
    """A point at which the work may stop for a while.

    Parameters
    ----------
    step : int
        The step after which it may.
    where : str
        fridge or freezer.
    says : str
        One sentence, with how long the tables give it.
    """

    step: int
    where: str
    says: str


@dataclass(frozen=True, slots=True)
class Timeline:
    """A recipe's time.

    Parameters
    ----------
    tasks : tuple of Task
        In the order in which they begin.
    make_ahead : tuple of MakeAhead
        Where the work may stop.
    keeps : tuple of Kept
        How long what is made keeps.
    """

    tasks: tuple[Task, ...] = ()
    make_ahead: tuple[MakeAhead, ...] = ()
    keeps: tuple[Kept, ...] = ()

    @property
    def hands_on(self) -> Spread:
        """All that needs hands. [s]"""
        return _summed(task.lasts for task in self.tasks if task.hands_on)

    @property
    def waiting(self) -> Spread:
        """All that only has to pass; where two things run beside each other both count. [s]"""
        return _summed(task.lasts for task in self.tasks if not task.hands_on)

    @property
    def total(self) -> Spread:
        """From the start to the end of the last. [s]"""
        end = NOTHING
        for task in self.tasks:
            end = later(end, task.ends)
        return end

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form, units in the keys."""
        return {
            "total_s": self.total.to_dict(),
            "hands_on_s": self.hands_on.to_dict(),
            "waiting_s": self.waiting.to_dict(),
            "tasks": [
                {
                    "step": task.step,
                    "does": task.does,
                    "hands_on": task.hands_on,
                    "begins_s": task.begins.to_dict(),
                    "lasts_s": task.lasts.to_dict(),
                    "stated": task.stated,
                }
                for task in self.tasks
            ],
            "make_ahead": [
                {"after_step": point.step, "where": point.where, "says": point.says}
                for point in self.make_ahead
            ],
            "keeps": [kept.to_dict() for kept in self.keeps],
        }


def timeline_of(
    reading: Reading,
    warming: Mapping[int, Warming],
    cooled: Sequence[CooledStep],
    keeps: tuple[Kept, ...],
) -> Timeline:
    """The time line of a recipe.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    warming : mapping of int to Warming
        By step and place of the process: what is heated first, and how long that takes. [s]
    cooled : sequence of CooledStep
        Coolings with their modelled times; may be empty.
    keeps : tuple of Kept
        How long it keeps.

    Returns
    -------
    Timeline
        Empty where nothing takes time.
    """
    modelled = {one.step: one.lukewarm for one in cooled}
    first = preparing(reading.lines)
    groups: list[tuple[bool, tuple[Task, ...]]] = [] if first is None else [(False, (first,))]
    for step in reading.steps:
        number = step.written.number
        tasks = tasks_of(step, warming.get(number, {}), modelled.get(number))
        tasks = _joined(tasks)
        if tasks:
            beside = MEANWHILE.search(step.written.text.lower()) is not None
            groups.append((beside, tasks))
    return Timeline(laid_out(groups), _make_ahead(reading.steps, keeps), keeps)


def _joined(tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Neighbours that only need hands for a moment are one task: "add, mix"."""
    made: list[Task] = []
    for task in tasks:
        last = made[-1] if made else None
        if (
            last is not None
            and task.hands_on
            and last.hands_on
            and not (task.stated or last.stated)
        ):
            does = ", ".join(dict.fromkeys((*last.does.split(", "), task.does)))
            made[-1] = replace(
                last,
                does=does,
                lasts=added(last.lasts, task.lasts),
                place=last.place or task.place,
            )
        else:
            made.append(task)
    return tuple(made)


def laid_out(groups: Sequence[tuple[bool, Sequence[Task]]]) -> tuple[Task, ...]:
    """Tasks put on the line, one after the other.

    Parameters
    ----------
    groups : sequence of (bool, sequence of Task)
        What each step does, and whether it runs beside the step before.

    Returns
    -------
    tuple of Task
        With their beginnings. [s]
    """
    placed: list[Task] = []
    end = before = NOTHING  # of all so far, and of what stood before the last group
    for beside, tasks in groups:
        start = before if beside else end
        at = start
        for task in tasks:
            placed.append(replace(task, begins=at))
            at = added(at, task.lasts)
        before = start
        end = later(end, at)
    return tuple(placed)


def _make_ahead(steps: Sequence[MarkedStep], keeps: tuple[Kept, ...]) -> tuple[MakeAhead, ...]:
    """After a step that leaves food in the cold, if more is to be done."""
    found = []
    for step in steps[:-1]:
        kinds = {process.kind for process in step.processes}
        if not kinds & _LEFT or "thaw" in kinds:
            continue
        where = "freezer" if "freeze" in kinds else "fridge"
        told = next((kept.table for kept in keeps if kept.where == where and kept.table), "")
        tail = f" The table gives {told}." if told else ""
        says = f"After step {step.written.number} it may wait in the {where}.{tail}"
        found.append(MakeAhead(step.written.number, where, says))
    return tuple(found)


def _summed(times: Iterable[Spread]) -> Spread:
    total = NOTHING
    for time in times:
        total = added(total, time)
    return total
