"""Stretches of a dish: work that runs on without a break, and the room it takes meanwhile.

Half-fried onions cannot wait, a pudding in the fridge can. A time line is divided where the work
may stop for a while; inside a stretch everything keeps its place.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from counterproof.plan.times import Task

Takes = Literal["hands", "ring", "oven"]
End = Literal["p50", "p95"]

KEEPS: Final = frozenset({"chill", "freeze", "thaw", "soak", "marinate"})
"""What food may be left in for longer than it needs: cold, or under water. Common practice."""

STAYS_ON: Final = 10
"""Minutes for which a pot is left on its ring between two tasks: assumed, a short stir aside."""

STAYS_HOT: Final = 20
"""Minutes for which an oven is left on between two tasks: assumed, less than it takes to heat."""


@dataclass(frozen=True, slots=True)
class Piece:
    """A task in minutes from the start of its stretch."""

    task: Task
    begins: int
    ends: int


@dataclass(frozen=True, slots=True)
class Need:
    """Room that pieces `of` a stretch take [min]; `celsius` of an oven where known."""

    takes: Takes
    begins: int
    ends: int
    of: tuple[int, ...]
    celsius: float | None = None


@dataclass(frozen=True, slots=True)
class Stretch:
    """Work that runs on without a break.

    Parameters
    ----------
    pieces : tuple of Piece
        In the order in which they begin.
    needs : tuple of Need
        Hands, rings and oven it takes.
    """

    pieces: tuple[Piece, ...]
    needs: tuple[Need, ...]

    @property
    def minutes(self) -> int:
        """How long it lasts. [min]"""
        return max(piece.ends for piece in self.pieces)


def stretches_of(tasks: Sequence[Task], end: End = "p50") -> tuple[Stretch, ...]:
    """A time line, divided where the work may stop.

    Parameters
    ----------
    tasks : sequence of Task
        A recipe's time line.
    end : End
        Which end of each time is planned with: "p50", or "p95" to be sure.

    Returns
    -------
    tuple of Stretch
        One after the other; empty where nothing takes time.
    """
    groups: list[list[Task]] = []
    reached = 0.0
    for task in tasks:
        begins = getattr(task.begins, end)
        apart = begins >= reached - 30.0
        last = groups[-1][-1] if groups else None
        if last is None or (apart and (last.step == 0 or last.does in KEEPS)):
            groups.append([task])
        else:
            groups[-1].append(task)
        reached = max(reached, begins + getattr(task.lasts, end))
    return tuple(_stretch(group, end) for group in groups)


def _stretch(tasks: Sequence[Task], end: End) -> Stretch:
    start = min(getattr(task.begins, end) for task in tasks)
    pieces = []
    for task in tasks:
        begins = getattr(task.begins, end) - start
        pieces.append(
            Piece(task, round(begins / 60), round((begins + getattr(task.lasts, end)) / 60))
        )
    return _with_needs(pieces)


def _with_needs(pieces: Sequence[Piece]) -> Stretch:
    return Stretch(tuple(pieces), (*_hands(pieces), *_rings(pieces), *_oven(pieces)))


def in_turn(stretch: Stretch) -> Stretch:
    """The same work with nothing beside each other, for a room that has not the hands for it.

    Parameters
    ----------
    stretch : Stretch
        With work that its words let run beside other work.

    Returns
    -------
    Stretch
        One task after the other.
    """
    at = 0
    pieces = []
    for piece in stretch.pieces:
        lasts = piece.ends - piece.begins
        pieces.append(replace(piece, begins=at, ends=at + lasts))
        at += lasts
    return _with_needs(pieces)


def _hands(pieces: Iterable[Piece]) -> list[Need]:
    return [
        Need("hands", piece.begins, piece.ends, (place,))
        for place, piece in enumerate(pieces)
        if piece.task.hands_on and piece.ends > piece.begins
    ]


def _rings(pieces: Iterable[Piece]) -> list[Need]:
    """A pot stays on its ring over a short pause; two pots at a time take two."""
    held: list[Need] = []
    for place, piece in enumerate(pieces):
        if piece.task.place != "hob":
            continue
        for at, need in enumerate(held):
            if need.ends <= piece.begins <= need.ends + STAYS_ON:
                held[at] = replace(need, ends=piece.ends, of=(*need.of, place))
                break
        else:
            held.append(Need("ring", piece.begins, piece.ends, (place,)))
    return held


def _oven(pieces: Iterable[Piece]) -> list[Need]:
    """An oven stays on over a short pause, at what it was set to last."""
    held: list[Need] = []
    for place, piece in enumerate(pieces):
        if piece.task.place != "oven":
            continue
        last = held[-1] if held else None
        warmth = piece.task.celsius or (last.celsius if last is not None else None)
        same = last is not None and last.celsius in {None, warmth}
        if last is not None and same and piece.begins <= last.ends + STAYS_HOT:
            ends = max(last.ends, piece.ends)
            held[-1] = replace(last, ends=ends, of=(*last.of, place), celsius=warmth)
        else:
            held.append(Need("oven", piece.begins, piece.ends, (place,), warmth))
    return held
