"""Ice in a drink: what melts, how cold it gets, how much water it adds.

Two ends: all the ice melts and the drink stays above its freezing point, or some is left and drink
and ice meet at the freezing point of what has become of the drink. The glass and the room are left
out, so a warm glass melts more.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties
from counterproof.physics.mixing import Drink, balanced, heat
from counterproof.physics.values import ZERO_CELSIUS, Draws, largest, smallest
from counterproof.physics.water import HEAT_OF_FUSION


@dataclass(frozen=True, slots=True)
class Chilled:
    """A drink with ice that has come to rest.

    Parameters
    ----------
    drink : Drink
        The liquid, melt water in it.
    melted, left : float or (n,) array
        Ice that melted, ice that is left. [kg]
    """

    drink: Drink
    melted: float | Draws
    left: float | Draws

    @property
    def dilution(self) -> float | Draws:
        """Melt water over the drink before. [1]"""
        return self.melted / (self.drink.mass - self.melted)


def ice_heat(temperature: float | Draws) -> float | Draws:
    """Heat in a kilogram of ice, counted from water at 0 °C.

    Parameters
    ----------
    temperature : float or (n,) array
        Its temperature, 233 to 273.15. [K]

    Returns
    -------
    float or (n,) array
        Negative: heat of fusion and what is colder than 0 °C. [J/kg]
    """
    return food_properties.component_heat("ice", temperature) - HEAT_OF_FUSION.value


def _diluted(drink: Drink, melt: float | Draws) -> Drink:
    return replace(drink, mass=drink.mass + melt, moisture=drink.moisture + melt)


def chilled(drink: Drink, ice: float | Draws, temperature: float | Draws) -> Chilled:
    """A drink after its ice has come to rest.

    Parameters
    ----------
    drink : Drink
        Before the ice.
    ice : float or (n,) array
        Ice put in, ≥ 0. [kg]
    temperature : float or (n,) array
        Its temperature, 233 to 273.15: from the freezer −18 °C, wet from a bucket 0 °C. [K]

    Returns
    -------
    Chilled
        The liquid, what melted and what is left; heat and mass conserved.

    Raises
    ------
    OutOfRange
        If there is less than no ice, it is warmer than ice can be, or the drink would freeze
        to it instead of melting it.

    Notes
    -----
    Melted mass by halving on the heat balance at the drink's own freezing point; where all melts
    the temperature follows from the balance.
    """
    if smallest(ice) < 0.0 or largest(temperature) > ZERO_CELSIUS:
        raise OutOfRange(
            "Ice is at 0 °C or colder, and there is none or some of it.",
            remedy="Give its mass and a temperature such as -18C.",
        )
    brought = ice * ice_heat(temperature)
    before = heat(drink, drink.temperature)

    def surplus(melt: float | Draws) -> float | Draws:
        """Heat left over if so much melts and all ends at the freezing point."""
        end = _diluted(drink, melt)
        cold = end.begins_to_freeze
        rest = (ice - melt) * ice_heat(cold)
        return before + brought - heat(end, cold) - rest

    if smallest(surplus(0.0 * np.asarray(ice))) < 0.0:
        raise OutOfRange(
            "So much cold ice would freeze the drink instead of melting.",
            remedy="Use less ice or warmer ice.",
        )
    low = np.zeros(np.broadcast(ice, drink.mass, before, brought).shape)
    high = low + ice
    whole = surplus(high) >= 0.0
    for _ in range(60):
        half = 0.5 * (low + high)
        enough = surplus(half) > 0.0
        low, high = np.where(enough, half, low), np.where(enough, high, half)
    melted = np.where(whole, low * 0.0 + ice, 0.5 * (low + high))
    end = _diluted(drink, _plain(melted))
    warm = balanced(end, before + brought)
    cold = end.begins_to_freeze
    ended = replace(end, temperature=_plain(np.where(whole, warm, cold)))
    return Chilled(ended, _plain(melted), _plain(np.where(whole, 0.0, ice - melted)))


def _plain(value: Draws) -> float | Draws:
    return value if np.ndim(value) else float(value)


def ice_for(drink: Drink, wanted: float, temperature: float) -> float:
    """Ice that cools a drink to a temperature and all melts.

    Parameters
    ----------
    drink : Drink
        Before the ice, of single numbers.
    wanted : float
        Temperature at the end, below that of the drink, above its freezing point. [K]
    temperature : float
        Of the ice. [K]

    Returns
    -------
    float
        Ice. [kg]

    Raises
    ------
    OutOfRange
        If the temperature does not lie between drink and freezing point.

    Notes
    -----
    m = (h(T₀) − h(T_f)) / (h_water(T_f) − h_ice), heat by `heat`.
    """
    warm = float(np.mean(drink.temperature))
    if not ZERO_CELSIUS <= wanted < warm:
        raise OutOfRange(
            f"Ice takes a drink of {warm - ZERO_CELSIUS:.3g} °C to between there and 0 °C.",
            remedy="Ask for a temperature between; colder only with ice left in it.",
        )
    given = heat(drink, drink.temperature) - heat(drink, wanted)
    melt = Drink(1.0, 0.0, 0.0, 0.0, 1.0, 0.0, wanted)
    return float(given / (heat(melt, wanted) - ice_heat(temperature)))
