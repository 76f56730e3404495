"""How long one answer of the physics takes, in the middle and with 10,000 draws, warm.

    python benchmarks/physics_speed.py            measure and write measurements/physics_speed.json

Wanted: any single answer below 100 ms, 10,000 draws of a closed form below 20 ms. Streams are
held, as while a cook types. The inverse question (power for a wanted time) iterates and is not a
closed form.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median
from time import perf_counter

from counterproof.draws import DRAWS, Lognormal, Parameter, Streams
from counterproof.physics import (
    food_properties,
    questions_dry_heat,
    questions_heat,
    questions_plugged,
)
from counterproof.physics.answer import Answer
from counterproof.physics.heating import Contents
from counterproof.physics.places import Ring
from counterproof.physics.values import Draws, Take, middle
from counterproof.sourced import Sourced

MEASUREMENTS = Path(__file__).parent / "measurements" / "physics_speed.json"
TIMES = 30
STEW = food_properties.makeup({"water": 0.8, "protein": 0.08, "fat": 0.04, "carbohydrate": 0.08})
OPEN = Ring("gas", covered=False)
QUESTIONS: dict[str, Callable[[Take], Answer]] = {
    "heat, covered": lambda take: questions_heat.heat(Contents(1.0), 288.15, take=take),
    "heat, open, stew": lambda take: questions_heat.heat(
        Contents(1.0, 1.0, STEW), 288.15, ring=OPEN, take=take
    ),
    "heat in a wanted time (inverse)": lambda take: questions_heat.heat(
        Contents(1.0), 288.15, time=300.0, take=take
    ),
    "simmer": lambda take: questions_heat.simmer(Contents(4.0), 1800.0, take=take),
    "simmer, boiled hard": lambda take: questions_heat.simmer(
        Contents(4.0), 1800.0, hard=True, ring=OPEN, take=take
    ),
    "kettle": lambda take: questions_plugged.boil_kettle(1.0, 288.15, take=take),
    "fry": lambda take: questions_dry_heat.fry(Contents(0.0, 0.5, STEW), 480.0, take=take),
    "bake": lambda take: questions_dry_heat.bake(
        453.15, 2400.0, Contents(0.0, 1.0, STEW), take=take
    ),
    "microwave": lambda take: questions_plugged.microwave_food(
        Contents(0.3), 288.15, 348.15, take=take
    ),
}


def _printed(question: Callable[[Take], Answer]) -> object:
    return question(middle).to_dict()


def milliseconds(ask: Callable[[], object]) -> float:
    """Return the median time of a call, after one that warms up."""
    ask()
    taken = []
    for _ in range(TIMES):
        begun = perf_counter()
        ask()
        taken.append(1000.0 * (perf_counter() - begun))
    return median(taken)


def main() -> None:
    """Measure every question, print and write the times."""
    streams = Streams(seed=1, n=DRAWS)

    def drawn(key: str, constant: Sourced, /) -> float | Draws:
        return streams.values(
            Parameter(key, Lognormal.from_spread(constant.value, constant.spread))
        )

    rows = {}
    for name, question in QUESTIONS.items():
        one = milliseconds(partial(_printed, question))
        many = milliseconds(partial(question, drawn))
        rows[name] = {"one_ms": round(one, 2), "draws_ms": round(many, 2)}
        print(f"{name:34} one answer {one:6.2f} ms   {DRAWS} draws {many:6.2f} ms")
    MEASUREMENTS.write_text(
        json.dumps({"draws": DRAWS, "questions": rows}, indent=1) + "\n", "utf-8"
    )


if __name__ == "__main__":
    main()
