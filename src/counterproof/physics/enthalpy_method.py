"""Freezing and thawing by finite volumes: slab, cylinder, sphere, and a round jar in two directions.

The unknown is the heat in each cell. Each step is implicit and taken direction by direction; the
equations of a line are solved by Newton's rule with a tridiagonal elimination over all lines and
all cases at once. Every iterate is written as flows between cells, so energy is conserved to
rounding whether or not it has converged.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.substance import Substance, refuse_impossible
from counterproof.physics.values import Draws

Shape = Literal["slab", "cylinder", "sphere"]
_DIMENSIONS: Final = {"slab": 1, "cylinder": 2, "sphere": 3}
_SETTLED: Final = 1e-3  # [K], where Newton's rule may stop
_PATIENT: Final = 8
_MOST: Final = 30
STEPS: Final = 200
"""Steps in the time first guessed. [1]"""


@dataclass(frozen=True, slots=True)
class Direction:
    """One direction heat can take, from the middle outward, in equal cells.

    Parameters
    ----------
    shape : Shape
        slab (half of it: the middle is a mirror), cylinder or sphere.
    half : float
        Half thickness or radius, > 0. [m]
    cells : int
        Number of cells, ≥ 3. [1]
    """

    shape: Shape
    half: float
    cells: int

    def __post_init__(self) -> None:
        """Refuse what has no size."""
        if self.half <= 0.0 or self.cells < 3:
            raise OutOfRange(
                "A body has a size, and the sums need at least three cells.",
                remedy="Give a thickness or diameter above zero.",
            )

    @property
    def width(self) -> float:
        """Width of a cell. [m]"""
        return self.half / self.cells

    @property
    def faces(self) -> Draws:
        """Area of the faces, relative to the outer one, the middle first. [1]"""
        edge = np.linspace(0.0, 1.0, self.cells + 1)
        return edge ** (_DIMENSIONS[self.shape] - 1)

    @property
    def volumes(self) -> Draws:
        """Volume of the cells over the outer area. [m]"""
        power = _DIMENSIONS[self.shape]
        edge = np.linspace(0.0, 1.0, self.cells + 1)
        volumes: Draws = self.half / power * np.diff(edge**power)
        return volumes


@dataclass(frozen=True, slots=True)
class History:
    """What happened, one column a case.

    Parameters
    ----------
    time : (k, b) array
        Times. [s]
    core, mean : (k, b) array
        Temperature at the core; the temperature that all would have if it were even. [K]
    heat : (k, b) array
        Heat per volume, averaged over the body. [J/m³]
    lost : (k, b) array
        Heat per volume that has left through the surface. [J/m³]
    reached : (b,) array
        Time at which the core got to where it should; infinite if it did not. [s]
    """

    time: Draws
    core: Draws
    mean: Draws
    heat: Draws
    lost: Draws
    reached: Draws

    @property
    def imbalance(self) -> float:
        """Largest heat gone missing, over the heat that changed hands. [1]"""
        gone = self.heat[0] - self.heat - self.lost
        return float(np.max(np.abs(gone)) / np.max(np.abs(self.lost)))


def _eliminated(below: Draws, middle: Draws, above: Draws, right: Draws) -> Draws:
    """Solution of tridiagonal systems along the first axis (Thomas)."""
    count = right.shape[0]
    factor, value = np.empty_like(right), np.empty_like(right)
    factor[0] = above[0] / middle[0]
    value[0] = right[0] / middle[0]
    for at in range(1, count):
        pivot = 1.0 / (middle[at] - below[at] * factor[at - 1])
        factor[at] = above[at] * pivot
        value[at] = (right[at] - below[at] * value[at - 1]) * pivot
    for at in range(count - 2, -1, -1):
        value[at] -= factor[at] * value[at + 1]
    return value


@dataclass(frozen=True, slots=True)
class _Cases:
    """What differs from case to case, shaped (1, 1, b)."""

    ambient: Draws
    coefficient: Draws
    conducting: Draws


@dataclass(frozen=True, slots=True)
class _Grid:
    """A direction ready to sweep along: shaped (cells, 1, 1)."""

    width: float
    volumes: Draws
    inner: Draws

    @classmethod
    def of(cls, way: Direction) -> _Grid:
        volumes = way.volumes[:, None, None]
        return cls(way.width, volumes, 2.0 * way.faces[1:-1, None, None] / way.width)


def _swept(
    heat: Draws, step: Draws, grid: _Grid, substance: Substance, cases: _Cases
) -> tuple[Draws, Draws]:
    """One implicit step along the first axis: heat, and heat lost per outer area and line."""
    now = heat
    lost = np.zeros_like(heat[-1])
    gain, middle = np.empty_like(heat), np.empty_like(heat)
    below, above = np.zeros_like(heat), np.zeros_like(heat)
    temperature, slope, conductivity = substance.read(now)
    for turn in range(_MOST):
        conducting = conductivity * cases.conducting
        first, second = conducting[:-1], conducting[1:]
        between = step * grid.inner * first * second / (first + second)
        outer = (step / (0.5 * grid.width / conducting[-1:] + 1.0 / cases.coefficient))[0]
        flow = between * (temperature[1:] - temperature[:-1])
        np.multiply(grid.volumes, heat - now, out=gain)
        gain[:-1] += flow
        gain[1:] -= flow
        gain[-1] += outer * (cases.ambient[0] - temperature[-1])
        middle[:] = grid.volumes
        middle[:-1] += between * slope[:-1]
        middle[1:] += between * slope[1:]
        middle[-1] += outer * slope[-1]
        np.multiply(between, -slope[:-1], out=below[1:])
        np.multiply(between, -slope[1:], out=above[:-1])
        change = _eliminated(below, middle, above, gain)
        solved = temperature + slope * change
        through = outer * (solved[-1] - cases.ambient[0])
        now = now + change
        if turn > _PATIENT:  # a front that jumps to and fro between two cells: meet in the middle
            now, through = now - 0.5 * change, 0.5 * (through + lost)
        lost = through
        temperature, slope, conductivity = substance.read(now)
        if np.abs(temperature - solved).max() < _SETTLED:
            break
    return now, lost


def history(  # noqa: PLR0913 (a body, its surroundings, and where to stop)
    substance: Substance,
    ways: tuple[Direction, ...],
    *,
    start: float,
    ambient: Draws,
    coefficient: Draws,
    until: float,
    guess: Draws,
    conducting: Draws | None = None,
    steps: int = STEPS,
) -> History:
    """Freeze or thaw a body until its core has reached a temperature.

    Parameters
    ----------
    substance : Substance
        What it is made of.
    ways : tuple of Direction
        One, or two for a round body of finite height (cylinder, then slab).
    start : float
        Even temperature at the start. [K]
    ambient : (b,) array
        Temperature around, one a case. [K]
    coefficient : (b,) array
        Heat transfer at the surface, > 0. [W/(m² K)]
    until : float
        Temperature the core shall reach. [K]
    guess : (b,) array
        About how long it takes, > 0: it sets the step. [s]
    conducting : (b,) array or None
        Factor on the conductivity. [1]
    steps : int
        Steps in the time guessed. [1]

    Returns
    -------
    History
        Up to where every case has ended, at most four times the time guessed.

    Raises
    ------
    OutOfRange
        If the core could never get there, or there are not one or two directions.

    Notes
    -----
    First order in time and, at a sharp front, in space: an error of about half a cell.
    """
    if len(ways) not in {1, 2}:
        raise OutOfRange(
            "Heat is followed in one or two directions.", remedy="Give a slab, a ball or a jar."
        )
    refuse_impossible(start, ambient, until)
    cases = _Cases(
        ambient[None, None, :],
        coefficient[None, None, :],
        np.ones_like(ambient)[None, None, :] if conducting is None else conducting[None, None, :],
    )
    shape = (ways[0].cells, ways[1].cells if len(ways) == 2 else 1, ambient.size)
    heat = np.full(shape, float(substance.heat(start)))
    weights = ways[0].volumes[:, None] / ways[0].volumes.sum()
    if len(ways) == 2:
        weights = weights * (ways[1].volumes / ways[1].volumes.sum())[None, :]
    step = (guess / steps)[None, None, :]
    gone = np.zeros(ambient.size)
    rows = [_row(substance, heat, weights, gone)]
    cooling = start > until
    grids = [_Grid.of(way) for way in ways]
    outers = [float(way.volumes.sum()) for way in ways]
    along, across = weights.sum(axis=1)[:, None], weights.sum(axis=0)[:, None]
    for _ in range(4 * steps):
        heat, lost = _swept(heat, step, grids[0], substance, cases)
        gone = gone + (lost / outers[0] * across).sum(axis=0)
        if len(ways) == 2:
            turned, lost = _swept(heat.swapaxes(0, 1), step, grids[1], substance, cases)
            heat = turned.swapaxes(0, 1)
            gone = gone + (lost / outers[1] * along).sum(axis=0)
        rows.append(_row(substance, heat, weights, gone))
        there = rows[-1][0] <= until if cooling else rows[-1][0] >= until
        if bool(np.all(there)):
            break
    core, mean, held, out = (np.array(part) for part in zip(*rows, strict=True))
    time = np.arange(len(rows))[:, None] * (guess / steps)[None, :]
    return History(time, core, mean, held, out, _crossing(time, core, until, cooling=cooling))


def _row(
    substance: Substance, heat: Draws, weights: Draws, gone: Draws
) -> tuple[Draws, Draws, Draws, Draws]:
    held = (weights[:, :, None] * heat).sum(axis=(0, 1))
    return substance.read(heat[0, 0])[0], substance.read(held)[0], held, gone


def _crossing(time: Draws, core: Draws, until: float, *, cooling: bool) -> Draws:
    """First time at which the core is there, between two steps on a straight line."""
    there = core <= until if cooling else core >= until
    reached = np.full(core.shape[1], np.inf)
    for case in range(core.shape[1]):
        hits = np.flatnonzero(there[:, case])
        if hits.size:
            at = int(hits[0])
            before, after = core[at - 1, case], core[at, case]
            part = (until - before) / (after - before)
            reached[case] = time[at - 1, case] + part * (time[at, case] - time[at - 1, case])
    return reached
