"""A drink made to measure: how much sweet, sour and plain part gives a °Brix and an acidity."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics.mixing import Part, mixed


def scaled(part: Part, mass: float) -> Part:
    """A part of the same kind with another mass.

    Parameters
    ----------
    part : Part
        The part, of single numbers.
    mass : float
        Its new mass, > 0. [kg]

    Returns
    -------
    Part
        All in proportion.
    """
    factor = mass / float(np.mean(part.mass))
    wet = None if part.water is None else part.water * factor
    return replace(
        part,
        mass=mass,
        sugar=part.sugar * factor,
        acid=part.acid * factor,
        alcohol=part.alcohol * factor,
        water=wet,
        co2=part.co2 * factor,
    )


def composed(
    sweet: Part,
    sour: Part | None,
    plain: Part,
    *,
    brix: float,
    acid: float | None,
    volume: float,
) -> tuple[Part, ...]:
    """Masses of the parts that give a drink of known strength.

    Parameters
    ----------
    sweet : Part
        What brings the sugar, such as a syrup.
    sour : Part or None
        What brings the acid, such as lime juice; None where only the °Brix is asked.
    plain : Part
        What fills up, such as carbonated water.
    brix : float
        Soluble solids wanted, 0 to 65. [°Brix]
    acid : float or None
        Titratable acid wanted, as citric; None to leave it. [kg/m³]
    volume : float
        Of the drink at 20 °C, > 0. [m³]

    Returns
    -------
    tuple of Part
        The parts with their masses; none that is not needed.

    Raises
    ------
    OutOfRange
        If one part would have to be taken away: the drink is out of reach with these parts.

    Notes
    -----
    Mass balances for solids, acid and volume, linear in the masses for a given density; the
    density follows from the mixture, a few times over.
    """
    parts = [sweet, plain] if sour is None or acid is None else [sweet, sour, plain]
    solids = [float(np.mean((part.sugar + part.acid) / part.mass)) for part in parts]
    acids = [float(np.mean(part.acid / part.mass)) for part in parts]
    heavy = 1000.0
    masses = np.zeros(len(parts))
    for _ in range(20):
        rows = [solids, [1.0] * len(parts)]
        wanted = [brix / 100.0 * heavy * volume, heavy * volume]
        if len(parts) == 3 and acid is not None:
            rows.append(acids)
            wanted.append(acid * volume)
        try:
            masses = np.linalg.solve(np.array(rows), np.array(wanted))
        except np.linalg.LinAlgError:
            raise _unreachable() from None
        if float(np.min(masses)) < -1e-9:
            raise _unreachable()
        made = [scaled(p, float(m)) for p, m in zip(parts, masses, strict=True) if m > 1e-12]
        new = float(np.mean(mixed(made).density))
        if abs(new - heavy) < 1e-9 * heavy:
            break
        heavy = new
    return tuple(made)


def _unreachable() -> OutOfRange:
    return OutOfRange(
        "These parts cannot give that sweetness and acidity in that volume.",
        remedy="Use a stronger syrup or juice, or ask for a weaker drink.",
    )
