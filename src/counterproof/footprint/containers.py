"""From a cook's words for a pack to what it is made of and weighs."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import log
from typing import Final

from counterproof.draws import Lognormal, Parameter
from counterproof.footprint.activities import uncertain
from counterproof.life_cycle_rows import Container, LifeCycle
from counterproof.recipe.kitchen import Vessel

SCALE: Final = 0.02
"""Relative standard deviation of a weighing on a kitchen scale (method §2). [1]"""

SURFACE: Final = 2 / 3
"""Power of its volume by which a pack's mass grows: its surface. [1]

Assumption: walls of one thickness. It only bridges the step to the nearest size of the table.
"""

_LITRES: Final = {
    "ml": 1e-3, "cl": 1e-2, "dl": 0.1, "l": 1.0, "litre": 1.0, "liter": 1.0, "litres": 1.0,
    "liters": 1.0, "g": 1e-3, "kg": 1.0, "pint": 0.568, "quart": 0.946, "oz": 0.0284,
}  # fmt: skip
"""Litres of a unit a pack's size is told in; a gram of food counts as a millilitre. [L]"""

_SIZE: Final = re.compile(
    r"(?P<number>\d+(?:[.,]\d+)?|half|quarter)?[\s-]*(?:a )?\b"
    r"(?P<unit>ml|cl|dl|litres?|liters?|l|kg|g|oz|pint|quart)\b"
)
_KINDS: Final = (
    ("tub", r"tubs?|pots?|boxe?s?|freezer (?:box|pot)"),
    ("carton", r"cartons?|bricks?"),
    ("bottle", r"bottles?|flasks?"),
    ("jar", r"jars?"),
    ("tray", r"trays?"),
    ("bag", r"bags?|pouche?s?"),
    ("can", r"cans?"),
    ("tin", r"tins?|tinned|canned"),
)
_MATERIALS: Final = (
    ("glass", r"glass"),
    ("pet", r"pet|plastic bottles?"),
    ("aluminium", r"alumini?um|alu|foil"),
    ("steel", r"steel|tinplate"),
    ("plastics", r"plastic|polypropylene|pp|hdpe|polyethylene"),
    ("board", r"card(?:board)?|board"),
)


@dataclass(frozen=True, slots=True)
class PartMass:
    """A part of a pack and its mass. [kg]"""

    part: str
    material: str
    kg: float
    parameter: Parameter
    assumed: str  # why the mass is a guess; "" where it was weighed or read


@dataclass(frozen=True, slots=True)
class Packed:
    """A pack that was understood: its size and parts.

    Parameters
    ----------
    name : str
        For people.
    litres : float
        What it holds. [L]
    parts : tuple of PartMass
        Body, closure, label, with their masses. [kg]
    weighed : bool
        Whether its body was weighed empty by the cook.
    """

    name: str
    litres: float
    parts: tuple[PartMass, ...]
    weighed: bool = False

    @property
    def kg(self) -> float:
        """Expected mass of the empty pack. [kg]"""
        return sum(part.kg for part in self.parts)


def packed(
    words: str, cycle: LifeCycle, vessels: Sequence[Vessel] = (), lid: str | None = None
) -> Packed | None:
    """The pack that words mean.

    Parameters
    ----------
    words : str
        Such as "330 ml can" or "pint jar"; with the material where it is said.
    cycle : LifeCycle
        Containers and their parts.
    vessels : sequence of Vessel
        The kitchen's own; an empty one that was weighed beats the table.
    lid : str or None
        What its closure is made of, or "none".

    Returns
    -------
    Packed or None
        The nearest size of the kind, its mass taken to the size asked for by its surface; None
        where no kind of pack is named.
    """
    said = " ".join(words.lower().split())
    own = next((one for one in vessels if one.name.lower() == said), None)
    wanted = own.litres if own is not None and own.litres else _size(said)
    row = _nearest(said, wanted, cycle)
    if row is None:
        return None
    litres = wanted or row.litres
    grown = (litres / row.litres) ** SURFACE
    parts = []
    for one in cycle.parts.get(row.id, ()):
        material = one.material
        if one.part == "closure" and lid is not None:
            if lid.lower() in {"none", "no"}:
                continue
            material = _material_said(lid.lower(), cycle) or material
        key = f"pack|{row.name}|{one.part}"
        guess = one.provenance.note if one.provenance.obtained == "assumed" else ""
        kg, parameter = one.kg * grown, uncertain(key, one.spread)
        if one.part == "body" and own is not None and own.empty_kg is not None:
            kg, guess = own.empty_kg, ""
            parameter = Parameter(f"pack|weighed|{said}", Lognormal.from_spread(1.0, SCALE))
        parts.append(PartMass(one.part, material, kg, parameter, guess))
    weighed = own is not None and own.empty_kg is not None
    name = said if own is not None or wanted else row.name
    return Packed(name, litres, tuple(parts), weighed)


def _size(said: str) -> float | None:
    found = _SIZE.search(said)
    if found is None or (found["number"] is None and found["unit"] not in {"pint", "quart", "litre", "liter"}):  # fmt: skip
        return None
    number = {"half": 0.5, "quarter": 0.25, None: 1.0}.get(found["number"])
    amount = float(found["number"].replace(",", ".")) if number is None else number
    return amount * _LITRES[found["unit"]] or None


def _word(said: str, table: Sequence[tuple[str, str]]) -> str | None:
    return next((name for name, words in table if re.search(rf"\b(?:{words})\b", said)), None)


def _material_said(said: str, cycle: LifeCycle) -> str | None:
    word = _word(said, _MATERIALS)
    return "pp" if word == "plastics" else word if word in cycle.materials else None


def _nearest(said: str, litres: float | None, cycle: LifeCycle) -> Container | None:
    kind, material = _word(said, _KINDS), _word(said, _MATERIALS)
    if kind is None and material == "glass":
        kind = "jar"
    if kind == "can" and re.search(r"\d\s*g\b", said):
        kind = "tin"  # a can told by its grams holds food
    if kind is None:
        return None
    fitting = [
        row
        for row in cycle.containers.values()
        if row.kind == kind and _made_of(row, material, cycle)
    ] or [row for row in cycle.containers.values() if row.kind == kind]
    if not fitting:
        return None
    if litres is None:
        return next((row for row in fitting if row.common), fitting[0])
    still = "still" in said
    return min(
        fitting,
        key=lambda row: (round(abs(log(row.litres / litres)), 6), ("still" in row.name) != still),
    )


def _made_of(row: Container, material: str | None, cycle: LifeCycle) -> bool:
    if material is None:
        return "still" not in row.name
    made = cycle.materials[row.material]
    plastic = material == "plastics" and made.family in {"plastics", "pet"}
    return made.id == material or plastic


PACK_WORDS: Final = (
    "330 ml can", "0.5 l PET bottle", "400 ml glass jar", "1 litre tub", "330 ml glass bottle",
    "1 litre carton", "400 g tin", "ready-meal tray", "freezer bag",
)  # fmt: skip
"""Words for packs that are always understood."""
