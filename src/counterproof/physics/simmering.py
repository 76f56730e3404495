"""Keeping a pot hot: below the boil for what it loses, at a full boil for what it is given."""

from __future__ import annotations

from dataclasses import dataclass

from counterproof.errors import OutOfRange
from counterproof.physics import water
from counterproof.physics.heating import Stove, refuse_ends
from counterproof.physics.values import Draws, largest


@dataclass(frozen=True, slots=True)
class Hold:
    """Keeping something hot in a pot.

    Parameters
    ----------
    power : float or (n,) array
        Heat that must pass into the pot. [W]
    dry : float or (n,) array
        Of it, convection and radiation. [W]
    evaporation : float or (n,) array
        Water that leaves. [kg/s]
    """

    power: float | Draws
    dry: float | Draws
    evaporation: float | Draws


def hold(stove: Stove, temperature: float | Draws) -> Hold:
    """Power that keeps a pot at a temperature below the boil.

    Parameters
    ----------
    stove : Stove
        Pot, room, boiling point.
    temperature : float or (n,) array
        Temperature to keep, above the room's and up to the boiling point. [K]

    Returns
    -------
    Hold
        Power and evaporation.

    Raises
    ------
    OutOfRange
        If the temperature is not above that of the room, or above the boil.
    """
    if largest(stove.room.temperature - temperature) >= 0.0:
        raise OutOfRange(
            "What is no warmer than the room needs no heat to stay so.",
            remedy="Give a temperature above that of the room.",
        )
    refuse_ends(stove.room.temperature, temperature, stove.boil)
    dry, vapour = stove.losses(temperature)
    return Hold(dry + vapour * water.latent_heat(temperature), dry, vapour)


def full_boil(stove: Stove, power: float | Draws) -> Hold:
    """What boils away when a given power passes into a boiling pot.

    Parameters
    ----------
    stove : Stove
        Pot, room, boiling point. A lid that does not seal returns nothing at a full boil but
        what its top condenses, which is counted among the dry losses.
    power : float or (n,) array
        Heat that passes into the pot. [W]

    Returns
    -------
    Hold
        The power as given, dry losses, and (P − dry)/h_fg as evaporation, negative where the
        power does not keep the boil.
    """
    dry, _ = stove.losses(stove.boil)
    return Hold(power, dry, (power - dry) / water.latent_heat(stove.boil))
