"""A small pantry for tests of the footprint: a few foods, tables and readings made by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import settings

from counterproof.adapters.tables import load_tables
from counterproof.draws import Lognormal, Parameter, Product, Streams
from counterproof.reading.model import MarkedLine, Quantity, Reading, Split
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine
from counterproof.rows import (
    Composition,
    EnergyFactor,
    Factor,
    FactorStage,
    Food,
    Link,
    Mixture,
    Provenance,
    Source,
    Tables,
)
from counterproof.use_cases import Workbench

# No time is asserted, and a run gives the same verdict as the run before it.
settings.register_profile("house", deadline=None, derandomize=True)
settings.load_profile("house")

MADE_UP = Provenance("", "", "assumed", "a table for tests")
STUDY = Provenance("study-2018", "Data S2", "read", "")
CENSUS = Provenance("census-2023", "synthesis", "read", "")


def _food(slug: str, name: str, food_class: str) -> Food:
    return Food(slug, name, food_class, "solid", "", "")


def _percentiles(item: str, basis: str, studies: int, *figures: float) -> Factor:
    low, p05, p10, p50, p90, p95, high, mean = figures
    return Factor(
        "global", item, "kg", basis, mean, p05, p10, p50, p90, p95, low, high, studies, None, None,
        "mean", "AR5 with feedback", "cradle to retail", STUDY,
    )  # fmt: skip


def _single(factor_set: str, item: str, basis: str, mean: float, spread: float) -> Factor:
    return Factor(
        factor_set, item, "kg", basis, mean, None, None, None, None, None, None, None, None, None,  # type: ignore[arg-type]
        spread, "mean", "AR5", "cradle to retail", CENSUS,
    )  # fmt: skip


def _link(food: str, factor_set: str, item: str, fit: str, per: float = 1.0) -> Link:
    return Link(food, factor_set, item, fit, per, "", MADE_UP)  # type: ignore[arg-type]


FOODS = (
    _food("lentils-dried", "lentils, dried", "pulses"),
    _food("white-beans-dried", "white beans, dried", "pulses"),
    _food("beef-chuck", "beef chuck", "beef"),
    _food("nuts", "nuts", "nuts"),
    _food("butter", "butter", "dairy"),
    _food("olive-oil", "olive oil", "oils"),
    _food("onion", "onion", "vegetables"),
    _food("tomato", "tomato", "vegetables"),
    _food("sea-bean", "sea bean", "vegetables"),
)

# Poore & Nemecek 2018, Data S2, retail weight: low, p05, p10, median, p90, p95, high, mean.
FACTORS = (
    _percentiles("Other Pulses", "dry", 44, 0.6657, 0.89, 0.98, 1.39, 3.75, 4.0, 5.2655, 1.79),
    _percentiles(
        "Bovine Meat (beef herd)", "edible, boneless", 106,
        35.0628, 37.57, 40.37, 60.36, 209.85, 269.19, 432.0473, 99.48,
    ),
    _percentiles(
        "Bovine Meat (dairy herd)", "edible, boneless", 43,
        9.5672, 14.93, 17.94, 34.14, 50.9, 56.68, 73.9218, 33.3,
    ),
    _percentiles("Nuts", "edible, shelled", 23, -8.0884, -4.02, -3.65, -1.33, 3.84, 10.79, 23.6772, 0.43),
    _percentiles("Olive Oil", "product", 24, 1.8857, 2.13, 2.86, 5.09, 7.63, 10.79, 20.274, 5.42),
    _percentiles("Onions & Leeks", "as bought", 29, 0.1756, 0.28, 0.3, 0.41, 0.79, 0.82, 0.8573, 0.5),
    _percentiles("Tomatoes", "as bought", 82, 0.2229, 0.37, 0.39, 0.65, 5.95, 12.62, 28.9618, 2.09),
    # AGRIBALYSE 3.1.1, farm to retail: butter 82 % fat 7.786, olive oil 0.983, tomato, onion.
    _single("national", "Butter", "product", 7.786, 1.3),
    _single("national", "Olive oil", "product", 0.983, 1.2),
    _single("national", "Onion", "as bought", 0.4, 1.3),
    _single("national", "Beef", "edible, boneless", 28.0, 1.3),
    _single("national", "Pulses", "dry", 0.8, 1.3),
)  # fmt: skip

LINKS = (
    _link("lentils-dried", "global", "Other Pulses", "other form"),
    _link("lentils-dried", "national", "Pulses", "class average"),
    _link("white-beans-dried", "global", "Other Pulses", "other form"),
    _link("white-beans-dried", "national", "Pulses", "class average"),
    _link("beef-chuck", "global", "Beef, unspecified", "same"),
    _link("beef-chuck", "national", "Beef", "same"),
    _link("nuts", "global", "Nuts", "same"),
    _link("butter", "national", "Butter", "same"),
    _link("olive-oil", "global", "Olive Oil", "same", 1 / 0.916),
    _link("olive-oil", "national", "Olive oil", "same"),
    _link("onion", "global", "Onions & Leeks", "same"),
    _link("onion", "national", "Onion", "same"),
    _link("tomato", "global", "Tomatoes", "same"),
)

# Poore & Nemecek 2018, stages per kg retail weight with losses, tomatoes (rounded).
STAGES = {
    "land-use change": 0.373, "feed": 0.0, "farm": 0.705, "processing": 0.012,
    "transport": 0.177, "packaging": 0.146, "retail": 0.017, "losses": 0.660,
}  # fmt: skip


def _source(name: str) -> Source:
    return Source(name, name, "", "", f"{name}.", "", "", "", "")


@pytest.fixture(scope="session")
def tiny_tables() -> Tables:
    """Nine foods, three of them alike; figures of two published sets where named."""
    by_food: dict[str, tuple[Link, ...]] = {}
    for link in LINKS:
        by_food[link.food] = (*by_food.get(link.food, ()), link)
    return Tables(
        foods={food.id: food for food in FOODS},
        names=(),
        household={},
        densities={},
        composition={
            food.id: Composition(
                food.id, 10.0, 20.0, 5.0, 60.0, None, None, None, None, None, 350.0, None, MADE_UP
            )
            for food in FOODS
        },
        edible={},
        yields={},
        allergens={},
        factors={(factor.set, factor.item): factor for factor in FACTORS},
        stages={
            ("global", "Tomatoes"): tuple(
                FactorStage("global", "Tomatoes", stage, mean, STUDY)
                for stage, mean in STAGES.items()
            )
        },
        links=by_food,
        mixtures={
            ("global", "Beef, unspecified"): (
                Mixture("global", "Beef, unspecified", "Bovine Meat (beef herd)", 0.5635, STUDY),
                Mixture("global", "Beef, unspecified", "Bovine Meat (dairy herd)", 0.4365, STUDY),
            )
        },
        energy={
            ("electricity", "world"): EnergyFactor("electricity", "world", 0.5, 1.15, "", STUDY),
            ("gas", "uk"): EnergyFactor("gas", "uk", 0.2, 1.05, "upstream", STUDY),
        },
        sources={name: _source(name) for name in ("study-2018", "census-2023")},
        sha256="0" * 64,
        version="0",
    )


MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


@pytest.fixture(scope="session")
def made_line(tiny_tables: Tables) -> MadeLine:
    """`made_line("onion", 0.2, number=1)`: a line of 200 g, counted as weighed within 2 %."""

    def line(
        food: str | None,
        kg: float | None,
        *,
        number: int = 1,
        spread: float = 0.02,
        measure: str = "g",
        bought: float = 1.0,
    ) -> MarkedLine:
        text = f"{kg} kg {food}"
        quantity = None if kg is None else Quantity(1000 * kg, 1000 * kg, measure)
        mass = (
            None
            if kg is None
            else Product(
                kg,
                (
                    Parameter(
                        f"measure|{food}|{measure}|{1000 * kg:g}|1",
                        Lognormal.from_spread(1.0, spread),
                    ),
                ),
            )
        )
        return MarkedLine(
            written=WrittenLine(number, text),
            split=Split(text, (), 1.0, "", "", food or "", (), "", "", "", frozenset()),
            quantity=quantity,
            food=None if food is None else tiny_tables.foods[food],
            fit=None,
            certainty=1.0,
            runners_up=(),
            mass=mass,
            purchased=None if mass is None else mass.scaled(bought),
            marks=(),
        )

    return line


@pytest.fixture(scope="session")
def made_reading() -> MadeReading:
    """`made_reading(line, …, serves=4)`: a reading of lines already understood."""

    def reading(*lines: MarkedLine, serves: float = 4.0, kitchen: Kitchen | None = None) -> Reading:
        numbered = tuple(
            replace(line, written=replace(line.written, number=at))
            for at, line in enumerate(lines, start=1)
        )
        recipe = Recipe("A dish", tuple(line.written for line in numbered), ())
        return Reading(recipe, None, kitchen or Kitchen(), numbered, (), serves, 1.0, ())

    return reading


@pytest.fixture
def streams() -> Streams:
    """Ten thousand draws under seed 1."""
    return Streams(seed=1)


@pytest.fixture(scope="session")
def bench() -> Workbench:
    """The shipped tables with a matcher over them."""
    return Workbench.over(load_tables())
