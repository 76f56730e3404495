"""What the plan says of the demo season, and what it takes for granted: numbers for the page.

python benchmarks/plan_of_recipes.py            measure, write, render docs/plan.md
python benchmarks/plan_of_recipes.py --page     render the page again from what was measured
"""

from __future__ import annotations

import argparse
import hashlib
import json
import statistics
from collections.abc import Callable
from pathlib import Path
from time import perf_counter
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

import counterproof.plan
from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.adapters.tables import load_tables
from counterproof.in_words import seconds_in_words
from counterproof.physics import packing
from counterproof.physics.cooling_lanes import ENDS
from counterproof.physics.cooling_rules import RULES
from counterproof.physics.cooling_scene import Dish, Spot, run
from counterproof.physics.spread import Spread, spoken
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan import constants
from counterproof.plan.planning import plan_of
from counterproof.plan.scene import Scene
from counterproof.reading.model import Reading
from counterproof.sourced import Sourced
from counterproof.use_cases import Order, Workbench, mark

HERE = Path(__file__).parent
MEASUREMENTS = HERE / "measurements" / "plan.json"
PAGE = HERE.parent / "docs" / "plan.md"
CORDIAL = "02-rhubarb-cordial"
SIMMERED_AT = 2
"""Step of the demo cordial after which it stands, before the straining."""
REPEATS = 20


def measured() -> dict[str, Any]:
    """Return every number of the page."""
    bench = Workbench.over(load_tables())
    readings = {}
    for episode in episodes(demo_season()):
        recipe, _ = load_recipe(str(episode))
        readings[episode.name] = mark(Order(recipe, load_kitchen(recipe)), bench)
    return {
        "sha256": digest(),
        "recipes": [told(reading, bench) for reading in readings.values()],
        "standing": standing(readings[CORDIAL], bench),
        "speed": speed(list(readings.values()), bench),
        "assumed": assumed(),
        "usual_times": [
            {"kind": kind.replace("_", " "), "low": low, "high": high}
            for kind, (low, high) in constants.USUAL_TIMES.items()
        ],
        "default_minutes": [
            {"kind": kind.replace("_", " "), "minutes": default.value, "spread": default.spread}
            for kind, default in constants.DEFAULT_MINUTES.items()
        ],
        "packing": {"middle": packing.PACKING.value, "spread": packing.PACKING.spread},
    }


def digest() -> str:
    """Return the checksum of what was measured: the source of the plan."""
    folder = Path(counterproof.plan.__file__).parent
    text = b"".join(path.read_bytes() for path in sorted(folder.glob("*.py")))
    return hashlib.sha256(text).hexdigest()


def told(reading: Reading, bench: Workbench) -> dict[str, Any]:
    """Return what the plan says of one recipe."""
    plan = plan_of(reading, bench.tables, {})
    line = plan.timeline
    return {
        "title": reading.recipe.title,
        "total": in_words(line.total),
        "hands_on": in_words(line.hands_on),
        "waiting": in_words(line.waiting),
        "coolings": [one.mark.message for one in plan.coolings],
        "keeps": [kept.says for kept in line.keeps],
    }


def in_words(time: Spread) -> str:
    """Return a time as it is printed."""
    return seconds_in_words(time.p05, time.p95)


def standing(reading: Reading, bench: Workbench) -> dict[str, Any]:
    """Return how long the demo's concentrate stands until it is as warm as the room."""
    scene = Scene.of(reading, bench.tables)
    step = next(step for step in reading.steps if step.written.number == SIMMERED_AT)
    contents = scene.contents(scene.in_pot(step))
    volume = float(contents.volume(ZERO_CELSIUS + 40.0))
    mass = float(contents.mass)
    makeup = {
        name: float(share) * float(contents.food) / mass for name, share in contents.makeup.items()
    }
    makeup["water"] = 1.0 - sum(share for name, share in makeup.items() if name != "water")
    pot = next(v for v in reading.kitchen.vessels if v.name == "saucepan")
    room, boil = scene.place.room, scene.place.boil
    ends = {
        "hand-warm": ZERO_CELSIUS + 40.0,
        "21 °C": ZERO_CELSIUS + 21.0,
        "2 K above the room": room + 2.0,
    }
    rows = []
    for covered in (True, False):
        dish = Dish(volume, diameter=pot.diameter_m, covered=covered, makeup=makeup, flow="thick")
        cooled = run(dish, Spot("room", scene.place), boil, room + 1.0, ENDS)
        spans = cooled.spreads([(boil, end) for end in ends.values()])
        rules = cooled.spreads([(ZERO_CELSIUS + 57.0, ZERO_CELSIUS + 21.0)])
        rows.append(
            {
                "lid": "on" if covered else "off",
                "times": {
                    name: [spoken(time.p05), spoken(time.p50), spoken(time.p95)]
                    for name, time in zip(ends, spans, strict=True)
                },
                "57_to_21": [spoken(rules[0].p05), spoken(rules[0].p95)],
            }
        )
    return {
        "litres": round(1000 * volume, 1),
        "room_celsius": room - ZERO_CELSIUS,
        "boil_celsius": round(boil - ZERO_CELSIUS, 1),
        "diameter_cm": round(100 * (pot.diameter_m or 0.0)),
        "rows": rows,
        "limit": spoken(RULES["us"][0].limit.value),
    }


def speed(readings: list[Reading], bench: Workbench) -> dict[str, float]:
    """Return how long a plan takes, in the middle of the demo's recipes. [ms]"""

    def middle(timed: Callable[[Reading], object]) -> float:
        taken = []
        for reading in readings:
            times = []
            for _ in range(REPEATS):
                begun = perf_counter()
                timed(reading)
                times.append(1000 * (perf_counter() - begun))
            taken.append(min(times))
        return round(statistics.median(taken), 1)

    remembered: dict[Any, Any] = {}
    return {
        "plain_ms": middle(lambda reading: plan_of(reading, bench.tables)),
        "asked_again_ms": middle(lambda reading: plan_of(reading, bench.tables, remembered)),
        "asked_anew_ms": middle(lambda reading: plan_of(reading, bench.tables, {})),
    }


def assumed() -> list[dict[str, Any]]:
    """Return what the plan assumes of its own, with the reasons."""
    own = {name: held for name, held in vars(constants).items() if isinstance(held, Sourced)}
    return [
        {
            "name": name.replace("_", " ").lower(),
            "value": f"{held.value:g}",
            "unit": "" if held.unit == "1" else held.unit,
            "spread": held.spread,
            "note": held.note,
        }
        for name, held in own.items()
        if held.source == "assumed"
    ]


def rendered(values: dict[str, Any]) -> str:
    """Return the page, made from the measurements and from nothing else."""
    pages = Environment(
        loader=FileSystemLoader(HERE),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        autoescape=False,  # noqa: S701 (the page is Markdown; nothing in it comes from outside)
    )
    pages.filters["percent"] = lambda share: f"{100 * share:.0f} %"
    return pages.get_template("plan_page.md.j2").render(**values)


def main() -> None:
    """Measure unless only the page is asked for, then render it."""
    parser = argparse.ArgumentParser(description="The plan of the demo season, in numbers.")
    parser.add_argument("--page", action="store_true", help="only render the page again")
    if not parser.parse_args().page:
        text = json.dumps(measured(), indent=1, ensure_ascii=False)
        MEASUREMENTS.write_text(text + "\n", "utf-8")
    PAGE.write_text(rendered(json.loads(MEASUREMENTS.read_text("utf-8"))), "utf-8")


if __name__ == "__main__":
    main()
