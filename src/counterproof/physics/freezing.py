"""Freezing and thawing of a round vessel: the enthalpy method run for a handful of cases.

Times come for one case or for draws; draws ride on a surface through at most thirty runs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frozen
from counterproof.physics.enthalpy_method import Direction, History, history
from counterproof.physics.food_properties import Makeup
from counterproof.physics.freezing_formulas import plank
from counterproof.physics.response import surface
from counterproof.physics.substance import Substance, food
from counterproof.physics.surroundings import Round
from counterproof.physics.values import ZERO_CELSIUS, Draws
from counterproof.sourced import Sourced

CELLS: Final = 12
CLOSEST: Final = 0.2
"""Surroundings nearer than this to the temperature wanted count as never getting there. [K]"""
MELT_MOVES: Final = Sourced(
    3.0, "1", 0.4, "assumed", "",
    "how much more heat a thin liquid carries than at rest while it cools, or melts around its ice; "
    "1 for a thick soup or a solid food; no measured jars found",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Passage:
    """How long a body takes, with one middle history.

    Parameters
    ----------
    time : float or (n,) array
        Until the core is there. [s]
    middle : History
        The middle case, one column.
    error : float
        Relative error of the surface that carries the draws; 0 without draws. [1]
    runs : int
        Cases run. [1]
    never : float
        Share of the draws in which the core never gets there; their time is infinite. [1]
    """

    time: float | Draws
    middle: History
    error: float
    runs: int
    never: float = 0.0


@dataclass(frozen=True, slots=True)
class Task:
    """What is frozen or thawed, and how far.

    Parameters
    ----------
    body : Round
        Size of the contents.
    makeup : Makeup
        What they are made of, unfrozen.
    freezing_point : float
        Where the first ice forms. [K]
    start, until : float
        Even temperature at the start; temperature the core shall reach. [K]
    mixing : float
        How much more heat the unfrozen part carries than at rest. [1]
    """

    body: Round
    makeup: Makeup
    freezing_point: float
    start: float
    until: float
    mixing: float = 1.0

    @property
    def substance(self) -> Substance:
        """The contents as tables over heat."""
        return food(self.makeup, self.freezing_point, mixing=self.mixing)

    @property
    def ways(self) -> tuple[Direction, Direction]:
        """Radius and half height."""
        return (
            Direction("cylinder", 0.5 * self.body.diameter, CELLS),
            Direction("slab", 0.5 * self.body.height, CELLS),
        )


def latent_heat(task: Task) -> float:
    """Heat that the contents give between the freezing point and the end, per volume.

    Parameters
    ----------
    task : Task
        What is frozen.

    Returns
    -------
    float
        Heat. [J/m³]
    """
    end = min(task.until, task.freezing_point - 1.0)
    top = frozen.enthalpy(task.makeup, task.freezing_point, task.freezing_point)
    low = frozen.enthalpy(task.makeup, end, task.freezing_point)
    return float(food_properties.density(task.makeup, ZERO_CELSIUS) * (top - low))


def rough_time(task: Task, ambient: Draws, coefficient: Draws) -> Draws:
    """About how long it takes, to set the step of the solver.

    Parameters
    ----------
    task : Task
        What is frozen or thawed.
    ambient : (b,) array
        Temperature around. [K]
    coefficient : (b,) array
        Heat transfer. [W/(m² K)]

    Returns
    -------
    (b,) array
        Time: Plank's slab, divided by the dimensions of the can, plus what is sensible. [s]
    """
    body = task.body
    flat, long = sorted((body.diameter, body.height))
    dimension = 2.0 + flat / long if flat == body.diameter else 1.0 + 2.0 * flat / long
    thawing = task.until > task.start
    drop = np.maximum(np.abs(task.freezing_point - ambient), 0.5)
    conductivity = 0.55 * task.mixing if thawing else 1.8
    latent = latent_heat(Task(body, task.makeup, task.freezing_point, task.start, 263.15))
    sensible = 3.8e6 * max(abs(task.start - task.freezing_point), abs(task.until - task.start) / 2)
    both = latent + 0.6 * sensible
    time: Draws = np.asarray(
        plank(
            "slab",
            size=flat,
            latent=both,
            drop=drop,
            coefficient=coefficient,
            conductivity=conductivity,
        )
    )
    return time / dimension


def run(task: Task, ambient: Draws, coefficient: Draws, conducting: Draws | None = None) -> History:
    """The enthalpy method on given cases.

    Parameters
    ----------
    task : Task
        What is frozen or thawed.
    ambient : (b,) array
        Temperature around. [K]
    coefficient : (b,) array
        Heat transfer at the surface. [W/(m² K)]
    conducting : (b,) array or None
        Factor on the conductivity. [1]

    Returns
    -------
    History
        One column a case.
    """
    return history(
        task.substance,
        task.ways,
        start=task.start,
        ambient=ambient,
        coefficient=coefficient,
        until=task.until,
        guess=rough_time(task, ambient, coefficient),
        conducting=conducting,
    )


def passage(
    task: Task,
    ambient: float | Draws,
    coefficient: float | Draws,
    conducting: float | Draws = 1.0,
) -> Passage:
    """Time to freeze or thaw, for one case or for draws.

    Parameters
    ----------
    task : Task
        What is frozen or thawed.
    ambient : float or (n,) array
        Temperature around. [K]
    coefficient : float or (n,) array
        Heat transfer at the surface, > 0. [W/(m² K)]
    conducting : float or (n,) array
        Factor on the conductivity, > 0. [1]

    Returns
    -------
    Passage
        Time, and the history of the middle case.

    Raises
    ------
    OutOfRange
        If the core would never get there in the middle, or in most draws.
    """
    one = (np.array([float(np.mean(part))]) for part in (ambient, coefficient, conducting))
    middle = run(task, *one)
    time = float(middle.reached[0])
    if not np.isfinite(time):
        raise OutOfRange(
            "The core does not get there in any time worth planning.",
            remedy="Use surroundings further from the temperature wanted, or a smaller vessel.",
        )
    if all(np.ndim(part) == 0 for part in (ambient, coefficient, conducting)):
        return Passage(time, middle, 0.0, 1)
    sign = 1.0 if task.start > task.until else -1.0
    gap = sign * (task.until - np.asarray(ambient))
    drivers = np.stack(np.broadcast_arrays(gap, coefficient, conducting), axis=1)
    there = drivers[:, 0] > CLOSEST
    never = 1.0 - float(np.mean(there))
    if never > 0.5:
        raise OutOfRange(
            f"In {never:.0%} of the draws the surroundings never bring the core to "
            f"{task.until - ZERO_CELSIUS:.3g} °C.",
            remedy="Use surroundings further from the temperature wanted.",
        )
    whole, drivers = drivers, drivers[there]
    moving = [at for at in range(3) if np.ptp(drivers[:, at]) > 0.0]

    def times(points: Draws) -> Draws:
        full = np.tile(drivers.mean(axis=0), (points.shape[0], 1))
        full[:, moving] = points
        around = task.until - sign * full[:, 0]
        return run(task, around, full[:, 1], full[:, 2]).reached

    laid = surface(drivers[:, moving], times)
    carried = np.full(whole.shape[0], np.inf)
    carried[there] = laid.at(drivers[:, moving])
    return Passage(carried, middle, laid.error, laid.points + 1, never)
