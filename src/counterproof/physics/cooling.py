"""A hot food in a vessel, cooling: as one temperature, and limited by conduction.

Two models. *Mixed*: contents and vessel have one temperature, and what leaves them depends on it
(`exchange`). *Conducted*: nothing moves inside, and the centre waits for heat to travel out
(`conduction`). What is stirred is mixed; a thick food left alone is conducted; a thin liquid
left alone lies between, and both are given.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.conduction import Body
from counterproof.physics.exchange import Exchange
from counterproof.physics.fridge import Fridge
from counterproof.physics.values import Draws, largest

STRIDE: Final = 0.04
"""Share of the difference to the surroundings that one step takes away. [1]"""

_LONGEST: Final = 60.0  # time constants after which a food must have got there
_QUARTER: Final = 0.25
_CLOSE: Final = 0.02  # [K] from the surroundings: it has got there


@dataclass(frozen=True, slots=True)
class History:
    """Temperatures over time, one column a draw.

    Parameters
    ----------
    seconds : (k, n) array
        Times, rising down the column. [s]
    temperatures : (k, n) array
        Temperatures, falling or level down the column. [K]
    """

    seconds: Draws
    temperatures: Draws

    def until(self, level: float) -> Draws:
        """Time until a temperature is reached.

        Parameters
        ----------
        level : float
            Temperature. [K]

        Returns
        -------
        (n,) array
            Time; 0 if it starts below, infinite if it never gets there. [s]
        """
        lane = np.arange(self.temperatures.shape[1])
        above = self.temperatures > level
        row = above.sum(axis=0)
        last = self.temperatures.shape[0] - 1
        after = np.clip(row, 1, last)
        high, low = self.temperatures[after - 1, lane], self.temperatures[after, lane]
        early, late = self.seconds[after - 1, lane], self.seconds[after, lane]
        fall = np.where(high > low, high - low, 1.0)
        at = early + (late - early) * (high - level) / fall
        at = np.where(row > last, np.inf, at)
        reached: Draws = np.where(row == 0, 0.0, at)
        return reached

    def at(self, time: float) -> Draws:
        """Temperature at a time.

        Parameters
        ----------
        time : float
            Time, ≥ 0. [s]

        Returns
        -------
        (n,) array
            Temperature; the last one after the end. [K]
        """
        lanes = range(self.seconds.shape[1])
        return np.array(
            [np.interp(time, self.seconds[:, i], self.temperatures[:, i]) for i in lanes]
        )


def time_between(early: Draws, late: Draws) -> Draws:
    """Time between two events that may never happen.

    Parameters
    ----------
    early, late : (…) array
        When they happen; infinite for never. [s]

    Returns
    -------
    (…) array
        Their difference, infinite where the later one never happens. [s]
    """
    happens = np.isfinite(late)
    gap = np.where(happens, late, 0.0) - np.where(happens, early, 0.0)
    between: Draws = np.where(happens, gap, np.inf)
    return between


@dataclass(frozen=True, slots=True)
class Mixed:
    """Cooling as one temperature.

    Parameters
    ----------
    history : History
        Temperatures over time.
    dry, latent : (n,) array
        Heat given off without and by evaporation. [J]
    given_up : (n,) array
        Heat that contents and vessel have lost. [J]
    peak : (n,) array
        Warmest that the surroundings became. [K]
    moved_out : (n,) array
        Heat a fridge's compressor moved out; 0 without a fridge. [J]
    leaked_in : (n,) array
        Heat that came into the fridge through its walls. [J]
    stored : (n,) array
        Heat left in the fridge at the end. [J]
    """

    history: History
    dry: Draws
    latent: Draws
    given_up: Draws
    peak: Draws
    moved_out: Draws
    leaked_in: Draws
    stored: Draws

    def until(self, level: float) -> Draws:
        """Time until a temperature is reached.

        Parameters
        ----------
        level : float
            Temperature. [K]

        Returns
        -------
        (n,) array
            See `History.until`. [s]
        """
        return self.history.until(level)


def mixed(
    table: Exchange,
    start: float | Draws,
    floor: float,
    *,
    fridge: Fridge | None = None,
    portions: float | Draws = 1.0,
    stride: float = STRIDE,
) -> Mixed:
    """Cooling of contents and vessel as one temperature.

    Parameters
    ----------
    table : Exchange
        What is given off at each temperature.
    start : float or (n,) array
        Temperature at the start, above the surroundings. [K]
    floor : float
        Temperature below which nobody asks. [K]
    fridge : Fridge or None
        What warms with the heat; None for surroundings that stay as they are.
    portions : float or (n,) array
        How many such vessels stand in the fridge. [1]
    stride : float
        Share of the difference that one step takes away, 0.001 to 0.2. [1]

    Returns
    -------
    Mixed
        Until each draw is at `floor`, or within 0.02 K of its surroundings.

    Raises
    ------
    OutOfRange
        If no draw starts warmer than its surroundings, or the fridge never recovers; a single
        draw that does not never cools.

    Notes
    -----
    C dT/dt = −G (T − T_a) − L(T), by midpoint steps that each take the same share of the
    difference away, so that few are needed however long it takes; the default stride changes
    times by less than 1 in 1000. Heat given off is summed from the same midpoints, so that it
    equals what contents and vessel lose, to rounding; so does the fridge's balance.
    """
    lanes = table.ambient.size
    temperature = np.broadcast_to(np.asarray(start, dtype=float), (lanes,))
    ambient = setting = table.ambient
    if largest(temperature - ambient) <= 0.0:
        raise OutOfRange(
            "The food starts no warmer than what should cool it.",
            remedy="Give a start above the surroundings, or a colder place.",
        )
    time, dry, latent, given_up, moved_out, leaked_in = np.zeros((6, lanes))
    peak = ambient
    seconds, temperatures = [time], [temperature]
    for _ in range(int(_LONGEST / stride)):
        above = temperature - setting
        running = (above > _CLOSE) & (temperature > floor)
        if not running.any():
            break
        through, vapour, heat = _given_off(table, temperature, ambient)
        step, share = _step(temperature - ambient, above, through, vapour, heat, stride)
        step = np.where(running, step, 0.0)
        # The mean temperature of the step, to third order in what it takes away.
        lag = (0.5 - 0.25 * share) * step * (through + vapour) / heat
        before = heat
        through, vapour, heat = _given_off(table, temperature - lag, ambient)
        fall = step * (through + vapour) / heat
        # The heat capacity belongs to the mean of the step's ends, a hair away.
        heat = heat + (heat - before) * (0.5 * fall / np.where(running, lag, 1.0) - 1.0)
        fall = step * (through + vapour) / heat
        temperature = temperature - fall
        time = time + step
        dry = dry + step * through
        latent = latent + step * vapour
        given_up = given_up + heat * fall
        if fridge is not None:
            dumped = portions * (through + vapour)
            leak = fridge.leak * (fridge.room - ambient)
            warmed = fridge.after(step, ambient, setting, dumped)
            leaked_in = leaked_in + step * leak
            moved_out = moved_out + step * (dumped + leak)
            moved_out = moved_out - fridge.heat_capacity * (warmed - ambient)
            ambient = warmed
            peak = np.maximum(peak, ambient)
        seconds.append(time)
        temperatures.append(temperature)
    else:
        raise OutOfRange(
            "This takes the fridge longer than can be computed: it does not recover.",
            remedy="Cool the food in an ice bath or a cool room first, or in smaller parts.",
        )
    return Mixed(
        History(np.stack(seconds), np.stack(temperatures)),
        dry,
        latent,
        given_up,
        peak,
        moved_out,
        leaked_in,
        (ambient - setting) * (fridge.heat_capacity if fridge is not None else 0.0),
    )


def _step(
    difference: Draws, above: Draws, through: Draws, vapour: Draws, heat: Draws, stride: float
) -> tuple[Draws, Draws]:
    """Length of a step, and the share of the difference to the surroundings it takes away.

    It takes `stride` of what the food is above its end; but where a fridge recovers more slowly
    than the food follows it, at most a quarter of what the food is above the fridge.
    """
    gap = np.maximum(difference, 1e-9)
    above = np.maximum(above, 1e-9)
    share = np.minimum(stride * above / gap, _QUARTER)
    # Conductance; evaporation counts towards the end, where it would stop by itself.
    per_degree = np.maximum(through, 0.0) / gap + np.maximum(vapour, 0.0) / above
    return share * heat / np.maximum(per_degree, 1e-9), share


def _given_off(table: Exchange, at: Draws, ambient: Draws) -> tuple[Draws, Draws, Draws]:
    """Dry and latent power, and heat capacity."""
    difference = at - ambient
    if ambient is table.ambient:
        per_degree, vapour, heat = table.at(difference).T
    else:
        # What evaporates and what heat is held go with the temperature, not with the difference.
        now, cold = table.at(np.array((difference, at - table.ambient)))
        per_degree, vapour, heat = now[:, 0], cold[:, 1], cold[:, 2]
    return per_degree * difference, vapour, heat


@dataclass(frozen=True, slots=True)
class Conducted:
    """Cooling of the centre of a food in which nothing moves.

    Parameters
    ----------
    body : Body
        The food.
    like : Mixed
        The same vessel, mixed: it tells the coefficient at the surface.
    start, ambient : (n,) array
        Temperatures of food and surroundings at the start. [K]
    heat : float or (n,) array
        Heat capacity of contents and vessel. [J/K]
    area : (n,) array
        Surface that gives off heat. [m²]

    Notes
    -----
    The coefficient is the constant one with which the mixed model would reach the temperature
    asked for in the same time: so a body that conducts without limit cools just like the mixed
    one, a fridge that warms counts, and what limits a thick food is its own conductivity.
    """

    body: Body
    like: Mixed
    start: Draws
    ambient: Draws
    heat: float | Draws
    area: Draws

    def until_each(self, levels: Sequence[float]) -> Draws:
        """Times until the centre is at several temperatures.

        Parameters
        ----------
        levels : sequence of float
            Temperatures. [K]

        Returns
        -------
        (k, n) array
            One row a level: 0 if it starts below, infinite if it never gets there. [s]
        """
        level = np.asarray(levels, dtype=float)[:, np.newaxis]
        lumped = np.stack([self.like.until(each) for each in levels])
        reachable = (level < self.start) & np.isfinite(lumped) & (level > self.ambient)
        above = np.where(self.start > self.ambient, self.start - self.ambient, 1.0)
        share = np.where(reachable, (level - self.ambient) / above, 0.5)
        took = np.where(reachable, lumped, 1.0)
        coefficient = self.heat * np.log(1.0 / share) / (self.area * took)
        time = np.maximum(self.body.time_until(share, coefficient), lumped)
        never = np.where(level < self.start, np.inf, 0.0)
        reached: Draws = np.where(reachable, time, never)
        return reached

    def history(self, levels: Sequence[float]) -> History:
        """Temperatures of the centre over time.

        Parameters
        ----------
        levels : sequence of float
            Temperatures to reach, falling. [K]

        Returns
        -------
        History
            From the start; levels that are never reached repeat the one before.
        """
        seconds, temperatures = [np.zeros(self.start.size)], [self.start]
        for level, time in zip(levels, self.until_each(levels), strict=True):
            reached = np.isfinite(time) & (level < self.start)
            seconds.append(np.where(reached, time, seconds[-1]))
            temperatures.append(np.where(reached, level, temperatures[-1]))
        return History(np.stack(seconds), np.stack(temperatures))
