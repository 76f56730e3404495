"""Amounts that lean on a level in the pot, solved: "water to cover", "to twice the depth".

Reading marks such lines, because an ingredient line alone cannot say how much that is. The steps
say what is in the pot and the kitchen how wide it is; the geometry is that of `physics.packing`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from counterproof.draws import Lognormal, Parameter, Product
from counterproof.kitchen_physics import WATER, fitting_pot, makeup_of
from counterproof.marks import Mark
from counterproof.physics import food_properties, packing
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan import constants as c
from counterproof.plan.parting import DISSOLVED
from counterproof.plan.pot import named_lines
from counterproof.plan.scene import Scene
from counterproof.reading.model import Constituent, MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Tables
from counterproof.ways import Way

_OPEN: Final = frozenset({"to-cover", "no-amount"})
"""Marks of reading that this room may settle."""
_LENGTHS: Final = {"mm": 0.001, "cm": 0.01, "inch": 0.0254, "in": 0.0254, "centimetre": 0.01}
_NUMBER: Final = r"(?P<number>\d+(?:[.,]\d+)?|½|an?|one|two|three|a few)"
_OVER: Final = re.compile(
    rf"\b(?:cover\w*\b[^.;]{0, 120}?\bby|come|rise|stand|reach\w*)\s+(?:up\s+)?(?:about\s+)?{_NUMBER}\s*-?\s*"
    r"(?P<unit>mm|cm|centimetre|inch|in\b|finger)"
)
_TWICE: Final = re.compile(
    r"\b(?:twice|double|2 times|two times)\s+(?:the|its|their)\s+(?:depth|height|level)"
    r"|\bby as much again\b|\bas (?:deep|high) again\b"
)
_HALF: Final = re.compile(r"\bhalf-?\s?way\b|\bhalf (?:the|its|their) (?:depth|height)")
_COVER: Final = re.compile(r"\bcover\b")
_WORDS: Final = {"½": 0.5, "a": 1.0, "an": 1.0, "one": 1.0, "two": 2.0, "three": 3.0, "a few": 3.0}
_COOL: Final = ZERO_CELSIUS + 20.0


@dataclass(frozen=True, slots=True)
class Level:
    """How high a liquid stands over the solids.

    Parameters
    ----------
    times : float
        Of the depth of the solids. [1]
    over : float
        Above that. [m]
    spread : float
        Relative standard deviation of `over`. [1]
    """

    times: float = 1.0
    over: float = 0.0
    spread: float = 0.0


@dataclass(frozen=True, slots=True)
class Over:
    """Liquid to a level.

    Parameters
    ----------
    volume : float
        How much. [m³]
    spread : float
        Its relative standard deviation. [1]
    where : str
        In which pot, in words.
    """

    volume: float
    spread: float
    where: str


TO_COVER: Final = Level(1.0, packing.FINGER.value, packing.FINGER.spread)
"""“To cover”, and where water is named without an amount."""


def level_of(text: str) -> Level | None:
    """The level a line asks for.

    Parameters
    ----------
    text : str
        The line, in any case.

    Returns
    -------
    Level or None
        None where it names none.
    """
    said = text.lower()
    if _TWICE.search(said):
        return Level(2.0)
    if _HALF.search(said):
        return Level(0.5)
    if (found := _OVER.search(said)) is not None:
        number = _WORDS.get(found["number"]) or float(found["number"].replace(",", "."))
        unit = _LENGTHS.get(found["unit"], packing.FINGER.value)
        return Level(1.0, number * unit, c.LEVEL.spread)
    if _COVER.search(said):
        return TO_COVER
    return None


def covered(reading: Reading, tables: Tables) -> Reading:
    """The reading with its relative amounts solved from solids, pot and packing.

    Parameters
    ----------
    reading : Reading
        As marked: lines that lean on a level carry a doubt or a fault.
    tables : Tables
        Composition of the foods, from which their density follows.

    Returns
    -------
    Reading
        With a mass of a wide range and a note where the solids are known; else unchanged.
    """
    asked = [
        (line, level)
        for line in reading.lines
        if line.food is not None
        and line.food.kind == "liquid"
        and any(mark.kind in _OPEN for mark in line.marks)
        and (level := level_of(line.written.text)) is not None
    ]
    if not asked:
        return reading
    scene = Scene.of(reading, tables)
    solved = {line.written.number: _solved(scene, line, level) for line, level in asked}
    lines = tuple(solved.get(line.written.number, line) for line in reading.lines)
    return replace(reading, lines=lines)


def _solved(scene: Scene, line: MarkedLine, level: Level) -> MarkedLine:
    solids = _solids(scene, line)
    held = scene.contents(solids)
    if line.food is None or not held.mass:
        return line
    scale = scene.reading.scale  # solved for the batch as written, so that scaling stays exact
    over = liquid_over(float(held.volume(_COOL)) / scale, level, scene.reading.kitchen)
    spread = over.spread
    of = (
        food_properties.WATER
        if line.food.food_class == WATER
        else makeup_of(line.food.id, scene.tables)
    )
    kilograms = over.volume * float(food_properties.density(of, _COOL))
    key = f"measure|{line.food.id}|to cover|{level.times:g}×+{level.over:g}|1"
    mass = Product(kilograms, (Parameter(key, Lognormal.from_spread(1.0, spread)),)).scaled(scale)
    names = " and ".join(dict.fromkeys(part.food.name for part in solids[:2]))
    note = Mark(
        "note",
        "level-in-the-pot",
        f"{_level_in_words(level)} {names} in {over.where}: about {kilograms * scale:.2g} kg, give or take "
        f"{spread:.0%} (the solids fill {packing.PACKING.value:.0%} of their bed). Measure it once "
        "and write it in to do better.",
    )
    kept = tuple(mark for mark in line.marks if mark.kind not in _OPEN | {"assumed-weight"})
    way = (
        Way("level", kilograms, "kg", f"{_level_in_words(level)} {names}", c.BED),
        Way("scale", scale),
    )
    return replace(line, mass=mass, purchased=mass, marks=(*kept, note), way=way)


def liquid_over(solids: float, level: Level, kitchen: Kitchen) -> Over:
    """How much liquid stands to a level over solids in the cook's own pot, or one of usual shape.

    Parameters
    ----------
    solids : float
        Their volume, without gaps, > 0. [m³]
    level : Level
        How high.
    kitchen : Kitchen
        With its vessels.

    Returns
    -------
    Over
        Volume with its spread. [m³]
    """
    pot = fitting_pot(kitchen, 1000 * solids * 2.0 * max(level.times, 1.0))
    diameter = pot.diameter_m if pot is not None else None
    amount = _amount(solids, level, diameter)
    where = f"your {pot.name}" if pot is not None else "a pot of usual shape"
    return Over(amount(), _spread(amount, solids, level, diameter), where)


def _solids(scene: Scene, line: MarkedLine) -> tuple[Constituent, ...]:
    """What the liquid is to cover: solids the line names, those its step names, those in the pot."""
    others = [other for other in scene.reading.lines if other is not line]
    first = scene.first[line.written.number]
    step = next((s for s in scene.reading.steps if s.written.number == first), None)
    asked = named_lines(line.written.text, others)
    beside = named_lines(step.written.text, others) if step is not None else frozenset()
    there = (
        scene.in_pot(step)
        if step is not None
        else tuple(part for other in others for part in other.constituents)
    )
    for numbers in (asked, beside):
        parts = [p for o in others if o.written.number in numbers for p in o.constituents]
        if solids := _firm(parts):
            return solids
    return _firm([part for part in there if part.food is not line.food])


def _firm(parts: list[Constituent]) -> tuple[Constituent, ...]:
    return tuple(
        part
        for part in parts
        if part.mass is not None
        and part.food.kind == "solid"
        and part.food.food_class not in DISSOLVED
    )


def _amount(volume: float, level: Level, diameter: float | None) -> Callable[..., float]:
    """Volume of liquid as a function of what is uncertain about it. [m³]"""

    def of(
        packed: float = packing.PACKING.value,
        proportion: float = packing.PROPORTION.value,
        over: float = level.over,
        times: float = level.times,
    ) -> float:
        wide = diameter or packing.usual_diameter(
            volume, over=over, times=times, packing=packed, proportion=proportion
        )
        return float(packing.water_over(volume, wide, over=over, times=times, packing=packed))

    return of


def _spread(
    amount: Callable[..., float], volume: float, level: Level, diameter: float | None
) -> float:
    """Relative standard deviation, to first order in each of the four. [1]"""
    moved = [
        ("packed", packing.PACKING.value, packing.PACKING.spread),
        ("over", level.over, level.spread),
        ("times", level.times, c.LEVEL.spread if level.times != 1.0 else 0.0),
    ]
    if diameter is None:
        moved.append(("proportion", packing.PROPORTION.value, packing.PROPORTION.spread))
    halves = [
        (amount(**{name: at * (1 + by)}) - amount(**{name: at * (1 - by)})) / 2
        for name, at, by in moved
        if by
    ]
    weighing = c.BED.spread * volume
    return float(sum(half**2 for half in (*halves, weighing)) ** 0.5 / amount())


def _level_in_words(level: Level) -> str:
    if level.times == 2.0:
        return "To twice the depth of the"
    if level.times < 1.0:
        return "Half way up the"
    return f"{100 * level.over:.2g} cm over the"
