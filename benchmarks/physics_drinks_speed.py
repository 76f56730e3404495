"""How long one answer about freezing, fizz, steeping or mixing takes, in the middle and with draws.

    python benchmarks/physics_drinks_speed.py      measure, write measurements/physics_drinks_speed.json

Wanted: any single answer below 100 ms warm, freezing of a jar below 1 s, with draws below 3 s.
Streams are held, as while a cook types.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

from counterproof.draws import DRAWS, Lognormal, Parameter, Streams
from counterproof.physics.answer import Answer
from counterproof.physics.charging import Bottle
from counterproof.physics.cold_scene import Filling, Vessel
from counterproof.physics.fizz_scene import Machine, Pressure
from counterproof.physics.headspace import PINT
from counterproof.physics.mixing import Part
from counterproof.physics.questions_carbonate import carbonate, carbonate_for
from counterproof.physics.questions_freeze import freeze
from counterproof.physics.questions_mix import mix, mix_for
from counterproof.physics.questions_steep import steep
from counterproof.physics.questions_thaw import thaw
from counterproof.physics.serving import Serving
from counterproof.physics.steeping import Piece
from counterproof.physics.values import Draws, Take, middle
from counterproof.sourced import Sourced

MEASUREMENTS = Path(__file__).parent / "measurements" / "physics_drinks_speed.json"
TIMES = 7
CORDIAL = Filling("cordial", {"water": 0.82, "carbohydrate": 0.18}, sugar=0.18)
JAR = Vessel(PINT)
MACHINE = Machine(Bottle(1e-3, 0.84e-3), 1, 3, 0.425, 0.6e-3, 30.0)
LIME = Part("lime juice", 0.0614, sugar=0.00104, acid=0.002752, sweetener="fruit sugars")
SYRUP = Part("syrup", 0.07377, sugar=0.036885)
SODA = Part("soda water", 0.2995, temperature=277.15, co2=0.0018)
DRINK = (LIME, SYRUP, SODA)
QUESTIONS: dict[str, Callable[[Take], Answer]] = {
    "freeze a pint jar": lambda take: freeze(CORDIAL, JAR, take=take),
    "freeze, largest jar for a time (inverse)": lambda take: freeze(
        CORDIAL, JAR, wanted_time=6 * 3600.0, take=take
    ),
    "thaw in the fridge": lambda take: thaw(CORDIAL, JAR, take=take),
    "thaw in water": lambda take: thaw(CORDIAL, JAR, where="water", take=take),
    "thaw by microwave": lambda take: thaw(CORDIAL, JAR, where="microwave", take=take),
    "carbonate": lambda take: carbonate(277.15, Pressure(gauge=3e5), machine=MACHINE, take=take),
    "carbonate, wanted pressure (inverse)": lambda take: carbonate_for(
        6.0, temperature=277.15, serving=Serving(), take=take
    ),
    "carbonate, wanted temperature (inverse)": lambda take: carbonate_for(
        3.0, pressure=Pressure(gauge=3e5), serving=Serving(), take=take
    ),
    "steep": lambda take: steep(Piece("cube", 6e-3), 600.0, 368.15, liquid=10.0, take=take),
    "mix with ice": lambda take: mix(DRINK, ice_mass=0.1, take=take),
    "mix to measure (inverse)": lambda take: mix_for(
        SYRUP, LIME, SODA, brix=8.0, acid=4.0, take=take
    ),
}


def drawn(streams: Streams) -> Take:
    """Return a `Take` that draws every constant, lognormal with its mean kept."""

    def take(key: str, constant: Sourced, /) -> float | Draws:
        if constant.spread == 0.0:
            return constant.value
        return streams.values(
            Parameter(key, Lognormal.from_spread(constant.value, constant.spread))
        )

    return take


def milliseconds(question: Callable[[Take], Answer], take: Take) -> float:
    """Return the median time of an answer, printed form included, after one to warm up."""
    question(take).to_dict()
    taken = []
    for _ in range(TIMES):
        start = perf_counter()
        question(take).to_dict()
        taken.append(1000.0 * (perf_counter() - start))
    return median(taken)


def main() -> None:
    """Measure, write and print the times."""
    take = drawn(Streams(seed=1, n=DRAWS))
    rows = [
        {
            "question": name,
            "middle_ms": milliseconds(ask, middle),
            "draws_ms": milliseconds(ask, take),
        }
        for name, ask in QUESTIONS.items()
    ]
    text = json.dumps({"draws": DRAWS, "times": TIMES, "answers": rows}, indent=1)
    MEASUREMENTS.write_text(text + "\n", "utf-8")
    for row in rows:
        print(
            f"{row['question']:45} {row['middle_ms']:8.1f} ms {row['draws_ms']:8.1f} ms with draws"
        )


if __name__ == "__main__":
    main()
