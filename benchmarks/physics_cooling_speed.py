"""How long one cooling question takes, and ten thousand draws of a closed form.

Run from the project's folder: `.venv/bin/python benchmarks/physics_cooling_speed.py`. The goals of
the kitchen-physics issue are 100 ms for any single answer, warm, and 20 ms for the draws.
"""

from __future__ import annotations

from collections.abc import Callable
from statistics import median
from time import perf_counter

import numpy as np

from counterproof.physics.conduction import can
from counterproof.physics.convection import wall
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_rules import BOTH_STAGES
from counterproof.physics.cooling_scene import Dish, Spot, household_fridge
from counterproof.physics.modes import modes
from counterproof.physics.places import Place
from counterproof.physics.questions_cool import cool
from counterproof.physics.two_points import rate_needed
from counterproof.physics.values import ZERO_CELSIUS

FRIDGE = household_fridge(ZERO_CELSIUS + 3.0, 250.0, 150.0, Place())
HOT = ZERO_CELSIUS + 95.0


def milliseconds(once: Callable[[], object], times: int = 15) -> float:
    """Median time of a call after one to warm up.

    Parameters
    ----------
    once : callable
        What is timed.
    times : int
        How often. [1]

    Returns
    -------
    float
        Median. [ms]
    """
    once()
    taken = []
    for _ in range(times):
        begun = perf_counter()
        once()
        taken.append(1000.0 * (perf_counter() - begun))
    return median(taken)


def main() -> None:
    """Print one line for each."""
    answers = {
        "4 L of stock in the fridge, and what would pass": Cooling(
            Dish(0.004, diameter=0.22), HOT, FRIDGE
        ),
        "4 L of stew, uncovered, and what would pass": Cooling(
            Dish(0.004, diameter=0.22, flow="thick", covered=False), HOT, FRIDGE
        ),
        "4 L stirred in an ice bath": Cooling(Dish(0.004, stirred=True), HOT, Spot("ice-bath")),
        "0.5 L jar in the fridge": Cooling(Dish(0.0005, "jar"), HOT, FRIDGE),
    }
    for name, asked in answers.items():
        print(f"{milliseconds(lambda asked=asked: cool(asked)):7.1f} ms  {name}")  # type: ignore[misc]  # (bound early)
    draws = np.linspace(0.7, 1.3, 10_000)
    body = can(0.22, 0.11, 0.6, 1.45e-7)
    closed: dict[str, Callable[[], object]] = {
        "f of a can": lambda: body.decade_time(8.0 * draws),
        "j of a can": lambda: body.lag(8.0 * draws),
        "first root of a sphere": lambda: modes("sphere", draws, 1),
        "a wall in still air": lambda: wall(HOT * draws**0.01, ZERO_CELSIUS + 20.0, 0.1),
        "the rate two readings need": lambda: rate_needed(BOTH_STAGES, ZERO_CELSIUS + 3.0 * draws),
    }
    for name, once in closed.items():
        print(f"{milliseconds(once):7.1f} ms  10,000 draws of {name}")


if __name__ == "__main__":
    main()
