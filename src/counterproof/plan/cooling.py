"""Where a recipe cools something hot: how much, in what, where, and what the rules say to it.

A verdict stands beside the step that begins the cooling. It is asked with the whole batch: what
is eaten at table cools for nobody, and how much that is no recipe says.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, MutableMapping, Sequence
from dataclasses import dataclass, replace
from math import ceil
from typing import Any, Final

from counterproof.errors import OutOfRange
from counterproof.kitchen_physics import WATER, fitting_pot
from counterproof.physics import cooling_changes, staging
from counterproof.physics.containers import Kind
from counterproof.physics.cooling_in_turn import InTurn, Stay, in_turn
from counterproof.physics.cooling_rules import RULES
from counterproof.physics.cooling_scene import Dish, Spot, household_fridge
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan import constants as c
from counterproof.plan.cooled import CooledStep, Place
from counterproof.plan.model import Leaving
from counterproof.plan.scene import Scene
from counterproof.reading.model import MarkedStep, Process
from counterproof.rows import Food

Memo = MutableMapping[Any, InTurn]
"""Answers by question: whoever asks again and again keeps one and hands it in."""

_BOILED: Final = frozenset({"boil", "simmer", "poach", "steam", "cook", "slow_cook", "fry"})
_HOT: Final = _BOILED | {"bake", "heat", "microwave"}
_COLD: Final = {"chill": "fridge", "freeze": "freezer"}
_REMEMBERED: Final = 256
_SHORT: Final = 60.0  # [min] below which food that stands is on its way to the table
_A_LITTLE: Final = re.compile(r"\bcool\w* (?:slightly|a little|a bit|for a (?:bit|moment|minute))")
_RACK: Final = re.compile(r"\brack\b")
_UNTIL_COLD: Final = re.compile(r"\b(?:until|till) (?:it is |it's |they are |quite )?(?:cold|cool)\b|room temperature|\bto go cold\b")  # fmt: skip
_PROBED: Final = re.compile(r"\b(?:until|till|to|below|under) [^.;]{0,40}?(?P<level>\d{1,3}(?:[.,]\d)?) ?°? ?(?P<unit>[cf])\b")  # fmt: skip
_NO_COLDER: Final = 3.0  # [°C] iced water is 0 to 2 °C, and nothing in it gets quite there
_ICE: Final = re.compile(r"\bice[- ]?(?:bath|water)\b|\biced water\b|\bwater and ice\b|\bice and water\b|\b(?:sink|bowl|basin) of (?:cold |iced )*(?:water|ice)\b")  # fmt: skip
_COUNTER: Final = re.compile(r"\bcool\b|\bcold\b|\bstand\b|\brest\b|\bsteam\b")
_TRAY: Final = re.compile(r"\btrays?\b|\bshallow (?:dish|container|bowl|pan|tin)\w*|\b(?:roasting|baking) (?:tin|dish)\b")  # fmt: skip
_JAR: Final = re.compile(r"\bjars?\b|\btubs?\b|\b(?:lidded|airtight|freezer) (?:box|container)\w*")
_BOTTLE: Final = re.compile(r"\bbottles?\b")
_DEEP: Final = re.compile(r"(?P<cm>\d+(?:[.,]\d+)?)\s*cm\b(?: deep)?")
_SIZE: Final = re.compile(r"(?P<size>\d+(?:[.,]\d+)?)\s*-?\s*(?P<unit>ml|cl|l|litres?|liters?)\b")
_OPEN: Final = re.compile(r"\buncovered\b|\bwithout (?:a |the )?lid\b|\blid off\b|\bopen\b")
_STIRRED: Final = re.compile(r"\bstir")
_LITRES: Final = {"ml": 0.001, "cl": 0.01}


@dataclass(frozen=True, slots=True)
class _Event:
    """A cooling: at which step it begins, from how hot, and the steps that tell of it."""

    step: MarkedStep
    start: float
    text: str
    places: tuple[Place, ...]


def coolings(scene: Scene, leaving: Sequence[Leaving], memo: Memo) -> tuple[CooledStep, ...]:
    """Every cooling of a recipe with its verdicts.

    Parameters
    ----------
    scene : Scene
        The recipe and its kitchen.
    leaving : sequence of Leaving
        What is no longer in the pot by then.
    memo : mutable mapping
        Answers already given; new ones are put in.

    Returns
    -------
    tuple of CooledStep
        In the order of the steps; empty where nothing hot is cooled.
    """
    found = [_cooled(scene, event, leaving, memo) for event in _events(scene)]
    return tuple(one for one in found if one is not None)


def _events(scene: Scene) -> Iterable[_Event]:
    hot: float | None = None
    heated: MarkedStep | None = None
    cooled = False
    steps = scene.reading.steps
    for at, step in enumerate(steps):
        for process in step.processes:
            if process.kind in _HOT and process.appliance != "fridge":
                hot, heated = _heat(scene, process), step
            elif hot is not None and _is_cooling(step, process):
                yield _Event(step, hot, step.written.text.lower(), _places(steps[at:], scene))
                hot, cooled = None, True
    kept = {keep.where for keep in scene.reading.recipe.keep}
    if not cooled and hot is not None and heated is not None and kept & {"fridge", "freezer"}:
        told = " ".join(step.written.text.lower() for step in steps)
        yield _Event(heated, hot, told, ("counter", "fridge"))


def _heat(scene: Scene, process: Process) -> float:
    """How hot a process leaves the food. [K]"""
    if process.kind in _BOILED:
        return scene.place.boil
    if process.kind == "heat" and process.celsius is not None:
        return ZERO_CELSIUS + process.celsius
    return c.WARM.value if process.kind in {"heat", "microwave"} else c.BAKED.value


def _is_cooling(step: MarkedStep, process: Process) -> bool:
    text = step.written.text.lower()
    if process.kind in _COLD:
        return True
    stood = process.minutes[1] or process.minutes[0] or 0.0 if process.minutes else None
    if process.kind == "cool":
        on_the_way = _A_LITTLE.search(text) or _RACK.search(text)
        return not on_the_way and (stood is None or stood > _SHORT)
    if process.kind in {"rest", "steep", "store"}:
        return _UNTIL_COLD.search(text) is not None or (stood is not None and stood > _SHORT)
    return False


def _places(steps: Sequence[MarkedStep], scene: Scene) -> tuple[Place, ...]:
    """Where it cools in turn: the first step's own words, and where later steps put it."""
    text = steps[0].written.text.lower()
    places: list[Place] = []
    if _ICE.search(text):
        places.append("ice bath")
    elif _COUNTER.search(text):
        places.append("counter")
    for step in steps:
        for process in step.processes:
            if process.kind in _HOT:
                return tuple(places) or ("counter",)
            cold = _COLD.get(process.kind)
            if cold == "fridge" or (process.kind == "store" and process.appliance == "fridge"):
                return (*places, "fridge")
            if cold == "freezer":
                return (*places, "freezer")
    kept = {keep.where for keep in scene.reading.recipe.keep} & {"fridge", "freezer"}
    return (*places, "fridge") if kept else tuple(places) or ("counter",)


def _cooled(
    scene: Scene, event: _Event, leaving: Sequence[Leaving], memo: Memo
) -> CooledStep | None:
    foods = _held(scene, event.step, leaving)
    contents = scene.mixed(foods)
    mass = float(contents.mass)
    if mass <= 0.0 or float(contents.moisture) < c.MOIST.value * mass:
        return None  # bread, cakes and sweets: dry food needs no clock
    # Two digits of litres: the model deserves no more, and a keystroke asks nothing new.
    volume = float(f"{float(contents.volume(ZERO_CELSIUS + 40.0)):.2g}")
    solids = sum(kg for food, kg in foods if food.kind == "solid")
    makeup = {
        name: round(float(share) * float(contents.food) / mass, 2)
        for name, share in contents.makeup.items()
    }
    makeup["water"] = 1.0 - sum(share for name, share in makeup.items() if name != "water")
    pot = Dish(
        volume,
        flow="thin" if solids < c.THIN.value * mass else "thick",
        makeup=makeup,
        covered=_OPEN.search(event.text) is None,
    )
    vessel = fitting_pot(scene.reading.kitchen, 1000 * volume)
    if vessel is not None and vessel.diameter_m:
        pot = replace(pot, diameter=vessel.diameter_m)
    filled = _filled(event.text, pot, scene)
    stays = _stays(scene, event, pot, filled)
    asked = (_key(pot), _key(filled), event.places, event.start, scene.reading.kitchen.fridge_celsius,
             scene.reading.kitchen.fridge_litres, scene.place, _STIRRED.search(event.text) is None,
             tuple(stay.until for stay in stays))  # fmt: skip
    if asked not in memo:
        if len(memo) >= _REMEMBERED:
            memo.clear()
        try:
            memo[asked] = in_turn(stays, event.start, RULES["us"], _fridge(scene))
        except OutOfRange:  # no warmer than what is around it: there is nothing to cool
            return None
    last = stays[-1].dish
    return CooledStep(
        event.step.written.number,
        1000 * volume,
        last.kind,
        int(last.portions),
        event.start,
        event.places,
        memo[asked],
    )


def _held(
    scene: Scene, step: MarkedStep, leaving: Sequence[Leaving]
) -> tuple[tuple[Food, float], ...]:
    """What is in the pot less what has left it by then. [kg]"""
    number = step.written.number
    left: dict[str, float] = {}
    for gone in leaving:
        if gone.step is not None and gone.step <= number:
            left[gone.food] = left.get(gone.food, 0.0) + gone.mass.mean
    steam = left.pop("", 0.0)
    held = [
        (part.food, part.mass.mean - left.pop(part.food.id, 0.0))
        for part in scene.in_pot(step)
        if part.mass is not None
    ]
    # What boils off is water: from water first, then from stock and the like.
    held.sort(key=lambda pair: (pair[0].food_class != WATER, pair[0].kind != "liquid"))
    kept = []
    for food, mass in held:
        off = min(steam, max(mass, 0.0)) if food.kind == "liquid" else 0.0
        steam -= off
        kept.append((food, mass - off))
    return tuple((food, mass) for food, mass in kept if mass > 0.0)


def _filled(text: str, pot: Dish, scene: Scene) -> Dish:
    """The vessels in which it goes cold, as the words say; the pot where they say none."""
    whole = float(pot.volume)
    if _TRAY.search(text):
        deep = _DEEP.search(text)
        if deep is None:
            return replace(pot, kind="tray", diameter=None, depth=None)
        depth = float(deep["cm"].replace(",", ".")) / 100.0
        count = max(ceil(whole / (cooling_changes.TRAY_AREA.value * depth) - 1e-9), 1)
        return replace(
            pot, kind="tray", volume=whole / count, diameter=None, depth=depth, portions=count
        )
    kind: Kind | None = "jar" if _JAR.search(text) else "bottle" if _BOTTLE.search(text) else None
    if kind is None:
        return pot
    size = _vessel_size(text, kind, scene)
    count = max(ceil(whole / size - 1e-9), 1)
    return replace(pot, kind=kind, volume=whole / count, diameter=None, portions=count)


def _vessel_size(text: str, kind: Kind, scene: Scene) -> float:
    """What a jar or a bottle holds, as words, pack or kitchen say. [m³]"""
    packs = " ".join(pack.container for pack in scene.reading.recipe.pack).lower()
    for said in (text, packs):
        if (found := _SIZE.search(said)) is not None:
            size = float(found["size"].replace(",", "."))
            return size * _LITRES.get(found["unit"], 1.0) / 1000.0
    for vessel in scene.reading.kitchen.vessels:
        if kind in vessel.name and vessel.litres:
            return vessel.litres / 1000.0
    return (c.JAR if kind == "jar" else c.BOTTLE).value


def _stays(scene: Scene, event: _Event, pot: Dish, filled: Dish) -> list[Stay]:
    """One stay a place: on counter and in iced water it is in the pot, cold in its last vessel."""
    stays = []
    for place in event.places:
        last = place == event.places[-1]
        dish, until = (filled, None) if last else (pot, staging.OFF_THE_COUNTER.value)
        if place == "ice bath":
            dish = replace(dish, stirred=_STIRRED.search(event.text) is not None)
            until = None if last else _bathed_until(event.text)
        elif place == "counter" and until is not None:
            until = max(until, scene.place.room + 5.0)
        stays.append(Stay(dish, _spot(place, scene), until))
    return stays


def _bathed_until(text: str) -> float:
    """When it comes out of iced water: at the temperature the step states, or as its words say."""
    stated = _PROBED.search(text)
    if stated is not None:
        value = float(stated["level"].replace(",", "."))
        celsius = value if stated["unit"] == "c" else (value - 32.0) / 1.8
        return ZERO_CELSIUS + max(celsius, _NO_COLDER)
    cold = _UNTIL_COLD.search(text) is not None
    return (c.BATHED if cold else cooling_changes.STEAMED_OFF).value


def _spot(place: Place, scene: Scene) -> Spot:
    if place == "ice bath":
        return Spot("ice-bath", scene.place)
    if place == "counter":
        return Spot("room", scene.place)
    if place == "freezer":
        cold = ZERO_CELSIUS + scene.reading.kitchen.freezer_celsius
        return Spot("fridge", scene.place, cold)
    return _fridge(scene)


def _fridge(scene: Scene) -> Spot:
    kitchen = scene.reading.kitchen
    return household_fridge(
        ZERO_CELSIUS + kitchen.fridge_celsius,
        kitchen.fridge_litres,
        kitchen.fridge_kwh_per_year,
        scene.place,
    )


def _key(dish: Dish) -> tuple[object, ...]:
    return (dish.volume, dish.kind, dish.diameter, dish.depth, dish.covered, dish.flow,
            tuple(dish.makeup.items()), dish.stirred, dish.portions)  # fmt: skip
