"""How much heat a vessel gives off at each temperature of its contents, where it stands.

Worked out once on a few temperatures, by draw where vessel, room or factor are draws, and looked
up by `cooling` at each step.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import convection, iced_water, moving_air, water
from counterproof.physics.air import Room
from counterproof.physics.boiling import boiling_point_under
from counterproof.physics.containers import wall_resistance
from counterproof.physics.fridge import Fridge
from counterproof.physics.heating import Contents
from counterproof.physics.values import Draws, largest
from counterproof.physics.vessels import Leaks, Pot, evaporation_rate

Where = Literal["room", "fridge", "ice-bath"]

_POINTS: Final = 128


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Where a vessel cools.

    Parameters
    ----------
    where : Where
        room, fridge or ice-bath.
    room : Room
        The air around it; in an ice bath, the water's temperature in place of the air's.
    speed : float
        Speed of moved air; 0 for still air. [m/s]
    open_below : bool
        Whether air reaches its bottom, as on a wire shelf; a worktop takes no heat.
    fridge : Fridge or None
        What warms while it takes up the heat.
    stirred : bool
        Whether the contents are kept moving.
    """

    where: Where
    room: Room
    speed: float = 0.0
    open_below: bool = True
    fridge: Fridge | None = None
    stirred: bool = False


@dataclass(frozen=True, slots=True)
class Exchange:
    """Heat given off, by difference of temperature.

    Parameters
    ----------
    ambient : (n,) array
        Temperature the difference counts from. [K]
    span : (n,) array
        Largest difference tabulated. [K]
    table : (m, n, 3) array
        Per degree of difference [W/K], by evaporation [W], heat capacity [J/K], at differences
        that rise with the square of the row.
    area : (n,) array
        Surface that gives off heat. [m²]
    """

    ambient: Draws
    span: Draws
    table: Draws
    area: Draws

    def at(self, difference: Draws) -> Draws:
        """Look up.

        Parameters
        ----------
        difference : (…, n) array
            Contents above ambient; below 0 it counts as 0. [K]

        Returns
        -------
        (…, n, 3) array
            As in `table`, linear between rows.

        Raises
        ------
        OutOfRange
            If a difference is not a number: the heat balance around it has run away.
        """
        if not np.isfinite(difference).all():
            raise OutOfRange(
                "So much heat at once is beyond what the model of a place can follow.",
                remedy="Give less in one vessel, or a cooler start.",
            )
        rows = self.table.shape[0] - 1
        at = np.sqrt(np.maximum(difference, 0.0) / self.span) * rows
        row = np.minimum(at, rows - 1).astype(np.intp)
        lane = np.arange(row.shape[-1])
        low = self.table[row, lane]
        found: Draws = low + (at - row)[..., np.newaxis] * (self.table[row + 1, lane] - low)
        return found


def exchange(
    pot: Pot,
    contents: Contents,
    surroundings: Surroundings,
    start: float | Draws,
    leaks: Leaks,
) -> Exchange:
    """Heat given off from the start down to the surroundings.

    Parameters
    ----------
    pot : Pot
        The vessel.
    contents : Contents
        What is in it, all of one temperature.
    surroundings : Surroundings
        Where it stands.
    start : float or (n,) array
        Temperature at the start, above the surroundings, up to 423. [K]
    leaks : Leaks
        Factor on what the correlations give, and where evaporation lies between its lower (0) and
        its higher (1) estimate.

    Returns
    -------
    Exchange
        For n draws, 1 if nothing is drawn.

    Notes
    -----
    Wall, lid and bottom are as hot as the contents. Air: free convection joined with moved air,
    and radiation, on wall, top and bottom (no bottom on a worktop); evaporation from an open top,
    or what a lid lets pass. Ice bath: the wall, and the
    bottom; under still contents the cold layer stays where it is, so that heat reaches the bottom
    by conduction alone, through half their depth. What the top gives to the room is left out.
    """
    ambient = surroundings.room.temperature
    lanes = np.broadcast_shapes(
        *(
            np.shape(value)
            for value in (
                start, ambient, pot.diameter, pot.depth, leaks.flow, leaks.between, contents.mass,
            )
        ),
        (1,),
    )  # fmt: skip
    around = np.broadcast_to(np.asarray(ambient, dtype=float), lanes)
    above = np.broadcast_to(np.asarray(start, dtype=float), lanes) - around
    span = np.maximum(above, 0.1)  # a draw that does not start above its surroundings never cools
    steps = (np.arange(_POINTS) / (_POINTS - 1)) ** 2
    at = around + steps[:, np.newaxis] * span
    latent = np.zeros(at.shape)
    if surroundings.where == "ice-bath":
        per_degree, area = _to_bath(at, pot, surroundings, leaks.flow)
    else:
        per_degree, area = _to_air(at, pot, surroundings)
        per_degree = leaks.flow * per_degree
        room = surroundings.room
        if not pot.covered or largest(leaks.lid) > 0.0:
            latent = _evaporation(at, around, pot, room, leaks) * water.latent_heat(at)
    heat = contents.heat_capacity(at) + pot.heat_capacity
    layers = (per_degree, latent, heat)
    table = np.stack([np.broadcast_to(layer, at.shape) for layer in layers], axis=-1)
    return Exchange(around, span, table, np.broadcast_to(area, lanes))


def _evaporation(at: Draws, around: Draws, pot: Pot, room: Room, leaks: Leaks) -> Draws:
    """Between the lower and the higher estimate at each temperature: warm, the pool's is lower."""
    boil = boiling_point_under(room.pressure)
    # At no difference at all nothing rises, and the analogy has no logarithm.
    hot = np.maximum(at, around + 0.01)
    first, second = (
        np.asarray(evaporation_rate(hot, boil, pot, room, replace(leaks, between=end)))
        for end in (0.0, 1.0)
    )
    low, high = np.minimum(first, second), np.maximum(first, second)
    wet = low > 0.0
    ratio = np.where(wet, high, 1.0) / np.where(wet, low, 1.0)
    between: Draws = np.where(wet, low * ratio**leaks.between, low + (high - low) * leaks.between)
    return between


def _to_air(at: Draws, pot: Pot, surroundings: Surroundings) -> tuple[Draws, float | Draws]:
    room = surroundings.room
    around, pressure, speed = room.temperature, room.pressure, surroundings.speed
    wall = convection.wall(at, around, pot.depth, pressure)
    top = convection.top(at, around, pot.diameter, pressure)
    bottom = convection.bottom(at, around, pot.diameter, pressure)
    if speed > 0.0:
        level = moving_air.along(at, around, pot.diameter, speed, pressure)
        wall = moving_air.joined(wall, moving_air.across(at, around, pot.diameter, speed, pressure))
        top, bottom = moving_air.joined(top, level), moving_air.joined(bottom, level)
    black = convection.radiation(at, around, 1.0)
    above = pot.emissivity if pot.covered else convection.EMISSIVITY.value
    per_degree = pot.side * (wall + pot.emissivity * black)
    per_degree = per_degree + pot.mouth * (top + above * black)
    area = pot.side + pot.mouth
    if surroundings.open_below:
        per_degree = per_degree + pot.mouth * (bottom + pot.emissivity * black)
        area = area + pot.mouth
    return np.asarray(per_degree), area


def _to_bath(
    at: Draws, pot: Pot, surroundings: Surroundings, flow: float | Draws
) -> tuple[Draws, float | Draws]:
    bath, resistance = surroundings.room.temperature, wall_resistance(pot)
    if surroundings.stirred:
        # How well a cook stirs is less certain than still water: the factor counts twice.
        film = iced_water.SWIRLED.value * flow**2
        area = pot.side + pot.mouth
        through = iced_water.through_wall(at, bath, pot.depth, resistance, film)
        return through * area, area
    through = iced_water.through_wall(at, bath, pot.depth, resistance)
    layer = 0.5 * pot.depth / water.conductivity(at)
    below = 1.0 / (1.0 / np.maximum(through, 1e-9) + layer)
    return flow * (through * pot.side + below * pot.mouth), pot.side + pot.mouth
