"""Room for ice: how much a food swells, and how far a jar may be filled.

The larger of two is taken: what the swelling computed here needs, and what the national table of
home preservation asks for. Neither makes a shouldered jar fit for the freezer.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import Final, Literal

import numpy as np

from counterproof.errors import OutOfRange
from counterproof.physics import food_properties, frozen, water
from counterproof.physics.flags import Flag
from counterproof.physics.food_properties import Makeup
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.sourced import Sourced

Pack = Literal["liquid", "juice", "dry"]
Mouth = Literal["wide", "narrow"]

PINT: Final = 0.473176e-3  # [m³], US
QUART: Final = 0.946353e-3  # [m³], US


def _row(pint: float, quart: float) -> tuple[Sourced, Sourced]:
    made = [
        Sourced(
            depth, "m", 0.0, "nchfp-2006", "headspace to allow between packed food and closure",
            "pint and quart of the United States; printed in inches",
        )
        for depth in (pint, quart)
    ]  # fmt: skip
    return made[0], made[1]


_INCH: Final = 0.0254
DEPTHS: Final[dict[tuple[Pack, Mouth], tuple[Sourced, Sourced]]] = {
    ("liquid", "wide"): _row(0.5 * _INCH, 1.0 * _INCH),
    ("liquid", "narrow"): _row(0.75 * _INCH, 1.5 * _INCH),
    ("juice", "wide"): _row(0.5 * _INCH, 1.0 * _INCH),
    ("juice", "narrow"): _row(1.5 * _INCH, 1.5 * _INCH),
    ("dry", "wide"): _row(0.5 * _INCH, 0.5 * _INCH),
    ("dry", "narrow"): _row(0.5 * _INCH, 0.5 * _INCH),
}
"""Depth to leave free, for a pint and a quart."""
MOUTH_DIAMETER: Final[dict[Mouth, Sourced]] = {
    "wide": Sourced(
        0.076, "m", 0.05, "assumed", "", "inside of a wide mouth; common practice, measure yours"
    ),
    "narrow": Sourced(
        0.060, "m", 0.05, "assumed", "", "inside of a regular mouth; common practice, measure yours"
    ),
}


@dataclass(frozen=True, slots=True)
class Jar:
    """A vessel with a lid.

    Parameters
    ----------
    volume : float
        Brimful volume, > 0. [m³]
    diameter : float
        Inner diameter of its body, > 0. [m]
    mouth : Mouth
        wide (as wide as the body) or narrow.
    shouldered : bool
        Whether the body narrows below the mouth.
    pack : Pack
        liquid (syrup, purée, soup), juice, or dry.

    Raises
    ------
    OutOfRange
        If a size is not above zero.
    """

    volume: float
    diameter: float
    mouth: Mouth = "wide"
    shouldered: bool = False
    pack: Pack = "liquid"

    def __post_init__(self) -> None:
        """Refuse what has no size."""
        if self.volume <= 0.0 or self.diameter <= 0.0:
            raise OutOfRange("A jar has a volume and a diameter.", remedy="Give both above zero.")

    @property
    def opening(self) -> float:
        """Area at the top. [m²]"""
        return pi / 4.0 * min(MOUTH_DIAMETER[self.mouth].value, self.diameter) ** 2


@dataclass(frozen=True, slots=True)
class Fill:
    """How far to fill a jar.

    Parameters
    ----------
    line : float
        Volume of food to fill in. [m³]
    free : float
        Volume to leave free. [m³]
    depth : float
        The same, measured down from the rim. [m]
    computed, tabled : float
        What swelling alone asks for, and what the table asks for. [m³]
    rule : str
        Which of the two decided.
    flags : tuple of Flag
        Shoulders, and jars beyond the table.
    """

    line: float
    free: float
    depth: float
    computed: float
    tabled: float
    rule: Literal["swelling computed here", "national table"]
    flags: tuple[Flag, ...]


def expansion(of: Makeup, freezing_point: float, start: float, end: float) -> float:
    """How much a food swells from liquid to frozen.

    Parameters
    ----------
    of : Makeup
        What it is made of, unfrozen.
    freezing_point : float
        Where the first ice forms. [K]
    start, end : float
        Temperature when filled in, and in the freezer, 233 to 423. [K]

    Returns
    -------
    float
        Growth of the volume over the volume at the start. [1]

    Notes
    -----
    Specific volumes of the parts added up; water by `water.density`, ice and the rest by Choi &
    Okos. Water at 0 °C becomes 9.05 % larger. A liquid filled in hot shrinks first.
    """
    before = _specific_volume(of, start)
    after = _specific_volume(frozen.frozen_makeup(of, end, freezing_point), end)
    return after / before - 1.0


def _specific_volume(of: Makeup, temperature: float) -> float:
    total = 0.0
    for name, share in of.items():
        if name == "water":
            # Liquid left among ice: nearer to water at 0 °C than to any equation below it.
            mass = float(water.density(max(temperature, ZERO_CELSIUS)))
        else:
            celsius = temperature - ZERO_CELSIUS
            mass = float(food_properties.COMPONENTS[name].density.polynomial(celsius))
        total += float(share) / mass
    return total


def fill(jar: Jar, swelling: float) -> Fill:
    """How far a jar may be filled.

    Parameters
    ----------
    jar : Jar
        The jar.
    swelling : float
        Growth of the volume, as from `expansion`; below 0 counts as none. [1]

    Returns
    -------
    Fill
        Line, free volume and depth: the larger of both rules.

    Raises
    ------
    OutOfRange
        If nothing of the jar would be left to fill.

    Notes
    -----
    Computed: V s/(1 + s). Table: depth times the area at the top; between pint and quart along a
    straight line, a pint's figure below, a quart's above with a flag.
    """
    grown = max(swelling, 0.0)
    computed = jar.volume * grown / (1.0 + grown)
    pint, quart = DEPTHS[jar.pack, jar.mouth]
    deep = float(np.interp(jar.volume, (PINT, QUART), (pint.value, quart.value)))
    tabled = deep * jar.opening
    free = max(computed, tabled)
    if free >= jar.volume:
        raise OutOfRange(
            f"A vessel of {1e6 * jar.volume:.3g} ml is smaller than the room its ice needs.",
            remedy="Use a larger or a narrower vessel.",
        )
    flags: tuple[Flag, ...] = ()
    if jar.shouldered:
        flags += (
            Flag(
                "shouldered",
                "a jar with shoulders may break however far it is filled: ice presses upward "
                "against them. Use a straight-sided one meant for freezing.",
            ),
        )
    if jar.volume > 1.02 * QUART:
        flags += (
            Flag(
                "outside-table",
                f"{1000 * jar.volume:.3g} L lies beyond the table, which ends at a quart "
                "(0.95 L); its quart depth is used, and the swelling computed.",
            ),
        )
    return Fill(
        line=jar.volume - free,
        free=free,
        depth=free / jar.opening,
        computed=computed,
        tabled=tabled,
        rule="swelling computed here" if computed > tabled else "national table",
        flags=flags,
    )
