"""An amount of liquid as a person gives it. It stands alone, so that reading one costs nothing."""

from __future__ import annotations

from dataclasses import dataclass

from counterproof.errors import QuantityError
from counterproof.typed_quantities import parse_quantity


@dataclass(frozen=True, slots=True)
class Amount:
    """By volume or by weight, one of the two.

    Parameters
    ----------
    volume : float or None
        Volume. [m³]
    mass : float or None
        Mass. [kg]
    """

    volume: float | None = None
    mass: float | None = None


def amount_said(text: str) -> Amount:
    """The amount that a text says.

    Parameters
    ----------
    text : str
        A volume or a weight with its unit: 1L, 800g.

    Returns
    -------
    Amount
        One of the two.

    Raises
    ------
    QuantityError
        If it is neither.
    """
    try:
        return Amount(volume=parse_quantity(text, "volume"))
    except QuantityError as no_volume:
        try:
            return Amount(mass=parse_quantity(text, "mass"))
        except QuantityError as no_mass:
            remedy = f"{no_volume.remedy} Or: {no_mass.remedy}"
            unit = text.strip().lstrip("0123456789.,+-− ")
            found = f"“{text}”: “{unit}” is neither a volume nor a weight."
            raise QuantityError(found if unit else no_volume.message, remedy=remedy) from None
