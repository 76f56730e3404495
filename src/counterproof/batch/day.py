"""A plan for the day: several dishes on the hands, rings and ovens there are.

Every dish is laid backwards from the time it is wanted, the longest first, each stretch as late
as there is room for it, so that nothing stands about longer than it must.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import islice, permutations
from typing import Any, Final

from counterproof.batch.stretches import (
    KEEPS,
    End,
    Need,
    Piece,
    Stretch,
    Takes,
    in_turn,
    stretches_of,
)
from counterproof.errors import InputError
from counterproof.plan.times import Task

DAY: Final = 24 * 60
"""Minutes of a day."""

LONGEST: Final = 7 * DAY
"""How far back a plan reaches. [min] A house choice: what takes longer is made another week."""

ALIKE: Final = 10.0
"""Degrees within which two dishes share an oven: assumed, less than a domestic one swings. [K]"""

_NAMES: Final[dict[Takes, str]] = {"hands": "hands", "ring": "a ring", "oven": "the oven"}


RINGS: Final = 4
"""Rings of a hob of which nothing was said: assumed, a common domestic one. [1]"""

LONGEST_STAND: Final = 120
"""Minutes for which food may stand between hot and cold: source `usda-two-hours`, two hours, as
quoted by a university extension. Local rules go before it."""

MOST_ORDERS: Final = 120
"""Orders of laying dishes that are tried: all of five dishes'. [1]"""


@dataclass(frozen=True, slots=True)
class Room:
    """What there is to cook with.

    Parameters
    ----------
    cooks : int
        Pairs of hands, ≥ 1.
    rings : int
        Rings of the hob.
    ovens : int
        Ovens.
    opens, closes : int
        When hands are there. [minutes after midnight]
    """

    cooks: int = 1
    rings: int = RINGS
    ovens: int = 1
    opens: int = 7 * 60
    closes: int = 22 * 60


@dataclass(frozen=True, slots=True)
class Slot:
    """A task in its place on the day.

    Parameters
    ----------
    dish : str
        Whose it is.
    task : Task
        What is done.
    begins, ends : int
        Minutes after midnight of the day it is eaten; before 0 it is another day.
    place : str
        "ring 2", "oven", "oven 2", "fridge" …; "" where it takes no appliance.
    """

    dish: str
    task: Task
    begins: int
    ends: int
    place: str


@dataclass(frozen=True, slots=True)
class Wait:
    """A dish that stands because something else has the room it needs.

    Parameters
    ----------
    dish : str
        Which one waits.
    after : str
        What it has come to: the last task before.
    begins, ends : int
        Minutes after midnight.
    keeps : bool
        Whether it waits in the cold or under water, where it may.
    cause : str
        What it waits for, for people; "" where it only waits to be eaten.
    """

    dish: str
    after: str
    begins: int
    ends: int
    keeps: bool
    cause: str

    @property
    def too_long(self) -> bool:
        """Whether it stands about for longer than food may."""
        return not self.keeps and self.ends - self.begins > LONGEST_STAND


@dataclass(frozen=True, slots=True)
class DayPlan:
    """The plan.

    Parameters
    ----------
    ready : int
        When everything is wanted. [minutes after midnight]
    room : Room
        What it was planned for.
    slots : tuple of Slot
        In the order in which they begin.
    waits : tuple of Wait
        Who stands, and for what.
    """

    ready: int
    room: Room
    slots: tuple[Slot, ...]
    waits: tuple[Wait, ...]

    @property
    def starts(self) -> int:
        """When the first thing begins. [minutes after midnight]"""
        return min((slot.begins for slot in self.slots), default=self.ready)

    @property
    def hands_on(self) -> int:
        """All work that needs hands. [min]"""
        return sum(slot.ends - slot.begins for slot in self.slots if slot.task.hands_on)

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form: minutes after midnight of the day of eating."""
        return {
            "ready_min": self.ready,
            "starts_min": self.starts,
            "hands_on_min": self.hands_on,
            "room": {
                "cooks": self.room.cooks,
                "rings": self.room.rings,
                "ovens": self.room.ovens,
            },
            "tasks": [
                {
                    "recipe": slot.dish,
                    "step": slot.task.step,
                    "does": slot.task.does,
                    "hands_on": slot.task.hands_on,
                    "begins_min": slot.begins,
                    "ends_min": slot.ends,
                    "place": slot.place,
                }
                for slot in self.slots
            ],
            "waits": [
                {
                    "recipe": wait.dish,
                    "after": wait.after,
                    "begins_min": wait.begins,
                    "ends_min": wait.ends,
                    "keeps": wait.keeps,
                    "too_long": wait.too_long,
                    "for": wait.cause,
                }
                for wait in self.waits
            ],
        }


@dataclass(frozen=True, slots=True)
class _Taken:
    """Room that a dish holds, and which of its kind."""

    dish: str
    need: Need  # in minutes of the day
    which: int


@dataclass
class _Book:
    """What is taken already, and by whom."""

    room: Room
    taken: list[_Taken] = field(default_factory=list)

    def places(self, dish: str, needs: Sequence[Need], at: int) -> list[_Taken] | _Taken | None:
        """Room for all needs when they begin at `at`, or what stands in the way."""
        found: list[_Taken] = []
        for need in needs:
            there = replace(need, begins=need.begins + at, ends=need.ends + at)
            if need.takes == "hands" and not self._open(there):
                return None
            free, against = self._free(there, found)
            if free is None:
                return against
            found.append(_Taken(dish, there, free))
        return found

    def _open(self, need: Need) -> bool:
        start = need.begins % DAY
        return self.room.opens <= start and start + need.ends - need.begins <= self.room.closes

    def _free(self, need: Need, more: Sequence[_Taken]) -> tuple[int | None, _Taken | None]:
        there = {"hands": self.room.cooks, "ring": self.room.rings, "oven": self.room.ovens}
        beside = [
            one
            for one in (*self.taken, *more)
            if one.need.takes == need.takes
            and one.need.begins < need.ends
            and need.begins < one.need.ends
        ]
        for which in range(1, there[need.takes] + 1):
            if all(one.which != which or _shared(one.need, need) for one in beside):
                return which, None
        return None, beside[0] if beside else None


def _shared(one: Need, other: Need) -> bool:
    """Whether two dishes may stand in one oven."""
    return (
        one.takes == "oven"
        and one.celsius is not None
        and other.celsius is not None
        and abs(one.celsius - other.celsius) <= ALIKE
    )


def day_plan(
    dishes: Sequence[tuple[str, Sequence[Task]]], room: Room, ready: int, end: End = "p50"
) -> DayPlan:
    """A plan by which every dish is ready at one time.

    Parameters
    ----------
    dishes : sequence of (str, sequence of Task)
        Names and time lines.
    room : Room
        What there is to cook with.
    ready : int
        When they are wanted. [minutes after midnight]
    end : End
        Which end of each time is planned with: "p50", or "p95" to be sure.

    Returns
    -------
    DayPlan
        No ring, oven or pair of hands is used twice at a time.

    Raises
    ------
    InputError
        If a dish needs what is not there, or more time than a week.
    """
    laid = [(name, stretches_of(tasks, end)) for name, tasks in dishes]
    laid.sort(key=lambda one: -sum(stretch.minutes for stretch in one[1]))
    orders = islice(permutations(laid), MOST_ORDERS)
    return min((_in_order(order, room, ready) for order in orders), key=_standing)


def _standing(plan: DayPlan) -> tuple[int, int]:
    """How long food stands about that should not, and how early it all begins. [min]"""
    stands = sum(wait.ends - wait.begins for wait in plan.waits if not wait.keeps)
    return stands, -plan.starts


def _in_order(dishes: Sequence[tuple[str, Sequence[Stretch]]], room: Room, ready: int) -> DayPlan:
    """Dishes laid one after the other; the first has the first choice of room."""
    book = _Book(room)
    slots: list[Slot] = []
    waits: list[Wait] = []
    for name, stretches in dishes:
        until = ready
        for stretch in reversed(stretches):
            made, at, held, cause = _laid(name, stretch, until, book)
            over = at + made.minutes
            if over < until:
                last = made.pieces[-1].task
                waits.append(
                    Wait(name, last.does, over, until, last.does in KEEPS or last.step == 0, cause)
                )
            slots += [
                Slot(name, one.task, at + one.begins, at + one.ends, _place(one, place, held, room))
                for place, one in enumerate(made.pieces)
            ]
            until = at
    return DayPlan(
        ready,
        room,
        tuple(sorted(slots, key=lambda slot: (slot.begins, slot.ends, slot.dish))),
        tuple(sorted(waits, key=lambda wait: (wait.begins, wait.dish))),
    )


def _laid(
    name: str, stretch: Stretch, until: int, book: _Book
) -> tuple[Stretch, int, list[_Taken], str]:
    """A stretch as late as there is room for it: where it begins, its room, what held it up."""
    for form in (stretch, in_turn(stretch)):
        cause = ""
        for at in range(until - form.minutes, until - LONGEST, -1):
            found = book.places(name, form.needs, at)
            if isinstance(found, list):
                book.taken += found
                return form, at, found, cause
            if not cause:
                cause = "the night" if found is None else _said(found)
    lacking = _lacking(stretch, book.room)
    raise InputError(
        f"“{name}” needs {lacking} than there are.",
        remedy="Give what there is: --rings, --ovens, --cooks, --hours; or leave the dish out.",
    )


def _said(taken: _Taken) -> str:
    if taken.need.takes == "hands":
        return f"hands, which are at {taken.dish}"
    return f"{_NAMES[taken.need.takes]}, which {taken.dish} has"


def _lacking(stretch: Stretch, room: Room) -> str:
    kinds = {need.takes for need in stretch.needs}
    if "oven" in kinds and room.ovens < 1:
        return "more ovens"
    if "ring" in kinds and room.rings < 1:
        return "more rings"
    return "longer hours or more hands"


def _place(piece: Piece, place: int, held: Sequence[_Taken], room: Room) -> str:
    """The ring or oven a piece stands on; other appliances by their name."""
    for one in held:
        if one.need.takes != "hands" and place in one.need.of:
            single = one.need.takes == "oven" and room.ovens == 1
            return "oven" if single else f"{one.need.takes} {one.which}"
    return piece.task.place
