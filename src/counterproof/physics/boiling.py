"""Where water boils: by altitude, and by pressure."""

from __future__ import annotations

from typing import Final

from counterproof.errors import OutOfRange
from counterproof.physics import water
from counterproof.physics.flags import Flag, outside
from counterproof.physics.values import STANDARD_PRESSURE, Draws, largest, smallest
from counterproof.sourced import Sourced

LAPSE: Final = Sourced(
    2.25577e-5, "1/m", 0.0, "icao-1993", "standard atmosphere, troposphere", "0.0065 K/m over 288.15 K"
)  # fmt: skip
EXPONENT: Final = Sourced(5.25588, "1", 0.0, "icao-1993", "standard atmosphere, troposphere", "")
_LOWEST: Final = -500.0
_HIGHEST: Final = 9000.0
_TOP: Final = 11_000.0


def pressure_at(altitude: float | Draws) -> float | Draws:
    """Air pressure of the standard atmosphere.

    Parameters
    ----------
    altitude : float or (n,) array
        Height above the sea, −500 to 9000. [m]

    Returns
    -------
    float or (n,) array
        Pressure. [Pa]

    Raises
    ------
    OutOfRange
        Above 11,000 m or below −5,000 m, where this formula does not describe air.

    Notes
    -----
    101325 (1 − 2.25577·10⁻⁵ h)^5.25588, ICAO standard atmosphere. Weather moves it by 1–3 %.
    """
    least, most = smallest(altitude), largest(altitude)
    if most > _TOP or least < -5_000.0:
        raise OutOfRange(
            f"The standard atmosphere says nothing at {most if most > _TOP else least:.0f} m here.",
            remedy="Give a height between −500 and 9000 m.",
        )
    return STANDARD_PRESSURE * (1.0 - LAPSE.value * altitude) ** EXPONENT.value


def boiling_point(altitude: float | Draws) -> float | Draws:
    """Temperature at which water boils at a height above the sea.

    Parameters
    ----------
    altitude : float or (n,) array
        Height above the sea, −500 to 9000. [m]

    Returns
    -------
    float or (n,) array
        Boiling point of pure water. [K]

    Notes
    -----
    Saturation temperature at `pressure_at`; about 1 K less for each 300 m. Salt and sugar in
    kitchen amounts raise it by less than 1 K (syrups more), which is left out.
    """
    return water.saturation_temperature(pressure_at(altitude))


def boiling_point_under(pressure: float | Draws) -> float | Draws:
    """Temperature at which water boils under a pressure, as in a pressure cooker.

    Parameters
    ----------
    pressure : float or (n,) array
        Absolute pressure: gauge reading plus air pressure, 612 to 476,000. [Pa]

    Returns
    -------
    float or (n,) array
        Boiling point of pure water. [K]

    Raises
    ------
    OutOfRange
        If water has no boiling point at that pressure.
    """
    return water.saturation_temperature(pressure)


def validity(altitude: float | Draws) -> tuple[Flag, ...]:
    """Flags of a height.

    Parameters
    ----------
    altitude : float or (n,) array
        Height above the sea. [m]

    Returns
    -------
    tuple of Flag
        One outside −500 to 9000 m.
    """
    return outside("height above the sea", altitude, _LOWEST, _HIGHEST, "m")
