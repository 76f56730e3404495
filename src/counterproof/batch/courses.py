"""A batch's measured temperatures set against the kitchen's own model: warming up, and cooling."""

from __future__ import annotations

from typing import Final

from counterproof.batch.fits import CoolingFit, HeatingFit, cooling_fit, heating_fit
from counterproof.batch.made import Made
from counterproof.batch.planned import contents_made, makeup_made
from counterproof.errors import OutOfRange
from counterproof.kitchen_physics import fitting_pot
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_scene import Dish, Flow, Spot, household_fridge
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan import constants as c
from counterproof.plan.model import Plan
from counterproof.plan.parting import DISSOLVED
from counterproof.plan.pot import KEPT_HOT, is_at_table
from counterproof.plan.scene import Scene
from counterproof.reading.model import Reading
from counterproof.rows import Tables

_MOVES: Final = ("ice bath", "fridge", "freezer", "jars")
_FALLS: Final = 0.5  # [K] a point must lie this much below the one before to tell a rate


def heating_of(made: Made, reading: Reading, tables: Tables) -> HeatingFit | None:
    """How strong the ring was, from what was measured while the pot warmed up.

    Parameters
    ----------
    made : Made
        The batch.
    reading : Reading
        The recipe as it was made.
    tables : Tables
        Composition of the foods.

    Returns
    -------
    HeatingFit or None
        None where no temperature was measured after “on”, or nothing is heated on the hob.
    """
    scene = Scene.of(reading, tables)
    step = next(
        (
            step
            for step in reading.steps
            for process in step.processes
            if process.appliance == "hob" and process.kind in KEPT_HOT | {"cook"}
        ),
        None,
    )
    on = made.events.get("on")
    if step is None or on is None:
        return None
    contents = scene.contents(scene.in_pot(step))
    if not contents.mass:
        return None
    at_start = [level for time, level in made.heating if abs(time - on) < 60.0]
    tap = made.around.get("tap")
    start = at_start[0] if at_start else (tap.value if tap is not None else scene.tap)
    points = [(time - on, level) for time, level in made.heating if time > on]
    boil = made.events.get("boil")
    if (
        boil is not None
        and boil > on
        and not any(level > scene.place.boil - 3.0 for _, level in points)
    ):
        points.append((boil - on, scene.place.boil - 3.0))  # it simmers: near the boil
    litres = 1000.0 * float(contents.volume(ZERO_CELSIUS + 20.0))
    try:
        ring = scene.ring(litres, covered=True)
        return heating_fit(contents, start, points, ring, scene.place)
    except OutOfRange:
        return None


def cooling_of(made: Made, reading: Reading, plan: Plan, tables: Tables) -> CoolingFit | None:
    """How fast a batch cooled where it stood first, and what the rules say to that.

    Parameters
    ----------
    made : Made
        The batch.
    reading : Reading
        The recipe as it was made.
    plan : Plan
        Its plan.
    tables : Tables
        Composition of the foods.

    Returns
    -------
    CoolingFit or None
        None with fewer than two temperatures before it was moved.
    """
    points = made.cooling
    if len(points) < 2:
        return None
    begins = points[0][0]
    moved = min(
        (made.events[name] for name in _MOVES if made.events.get(name, 0.0) > begins),
        default=float("inf"),
    )
    standing = [points[0]]
    for point in points[1:]:
        if point[0] <= moved and point[1] < standing[-1][1] - _FALLS:
            standing.append(point)
    dish = _dish(made, reading, plan, tables, begins)
    if dish is None:
        return None
    asked = Cooling(dish, points[0][1], _spot(made, reading, tables, begins), reading.recipe.title)
    return cooling_fit(asked, standing, points)


def _dish(made: Made, reading: Reading, plan: Plan, tables: Tables, begins: float) -> Dish | None:
    contents = contents_made(reading, plan, tables)
    mass = float(contents.mass)
    if mass <= 0.0:
        return None
    whole = float(contents.volume(ZERO_CELSIUS + 40.0))
    if "made_m3" in made.figures:
        whole = made.figures["made_m3"].value
    makeup = makeup_made(contents)
    strained = {one.food for one in plan.leaving if one.cause == "strained"}
    solids = sum(
        part.mass.mean
        for line in reading.lines
        if not is_at_table(line)
        for part in line.constituents
        if part.mass is not None and part.food.kind == "solid"
        if part.food.food_class not in DISSOLVED and part.food.id not in strained
    )
    flow: Flow = "thin" if solids < c.THIN.value * mass else "thick"
    jars = [(count, each) for count, each, _ in made.jars if each is not None]
    if jars and made.events.get("jars", float("inf")) <= begins:
        count, each = jars[0]
        return Dish(each, "jar", makeup=makeup, flow=flow, portions=count)
    pot = fitting_pot(reading.kitchen, 1000.0 * whole)
    wide = pot.diameter_m if pot is not None else None
    return Dish(whole, "pot", wide, makeup=makeup, flow=flow)


def _spot(made: Made, reading: Reading, tables: Tables, begins: float) -> Spot:
    """Where it stood when the first temperature was read."""
    kitchen = reading.kitchen
    place = Scene.of(reading, tables).place
    gone = {name for name in _MOVES if made.events.get(name, float("inf")) <= begins}
    if "ice bath" in gone:
        return Spot("ice-bath", place)
    if "fridge" in gone:
        measured = made.around.get("fridge")
        cold = ZERO_CELSIUS + kitchen.fridge_celsius if measured is None else measured.value
        return household_fridge(cold, kitchen.fridge_litres, kitchen.fridge_kwh_per_year, place)
    return Spot("room", place)
