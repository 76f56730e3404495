"""A general LCA engine solves a recipe's matrices to the same footprint (`make reference`)."""

from __future__ import annotations

import importlib
import importlib.util
import warnings
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Product, Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.matrices import Matrix, product_system
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.reading.named_versions import names_beside
from counterproof.rows import Tables
from counterproof.use_cases import Order, Workbench, assessed

ENGINE = ("bw2calc", "bw_processing")

pytestmark = [
    pytest.mark.reference,
    # The engine warns of an optional faster solver and of its own dependencies.
    pytest.mark.filterwarnings("ignore"),
    pytest.mark.skipif(
        not all(importlib.util.find_spec(name) for name in ENGINE),
        reason="NOT CHECKED against an LCA engine: bw2calc is not installed; run `make reference`",
    ),
]

FLOWS_FROM = 1000
"""First number of a flow, apart from those of processes."""


def _engine_score(technosphere: Matrix, biosphere: Matrix, characterisation: Matrix) -> float:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        processing: Any = importlib.import_module("bw_processing")
        calculation: Any = importlib.import_module("bw2calc")
    package = processing.create_datapackage()

    def add(matrix: str, rows: Matrix, first_row: int, first_column: int, *, flip: bool) -> None:
        at_row, at_column = np.nonzero(rows)
        values = rows[at_row, at_column]
        indices = np.empty(len(values), dtype=processing.INDICES_DTYPE)
        indices["row"] = at_row + first_row
        indices["col"] = at_column + first_column
        # The engine takes inputs as positive numbers with a flag that turns their sign.
        options = {"flip_array": values < 0} if flip else {}
        package.add_persistent_vector(
            matrix=matrix, indices_array=indices, data_array=np.abs(values) if flip else values,
            **options,
        )  # fmt: skip

    add("technosphere_matrix", technosphere, 1, 1, flip=True)
    add("biosphere_matrix", biosphere, FLOWS_FROM, 1, flip=False)
    add("characterization_matrix", np.diag(characterisation), FLOWS_FROM, FLOWS_FROM, flip=False)
    engine = calculation.LCA({1: 1.0}, data_objs=[package])
    engine.lci()
    engine.lcia()
    return float(engine.score)


def test_the_engine_gives_the_static_value(
    tiny_tables: Tables,
    made_line: Callable[..., MarkedLine],
    made_reading: Callable[..., Reading],
) -> None:
    reading = made_reading(
        made_line("white-beans-dried", 0.4),
        made_line("lentils-dried", 0.1),
        made_line("beef-chuck", 0.5),
        made_line("nuts", 0.1),
        made_line("tomato", 0.8, bought=1.05),
        made_line("olive-oil", 0.03),
        serves=4,
    )
    plan = Plan(energy=(EnergyUse("simmer", "electricity", Product(0.6), 1),))
    found = assess(reading, tiny_tables, plan, streams=Streams(seed=1, n=100))
    system = product_system(found)
    score = _engine_score(system.technosphere, system.biosphere, system.characterisation)
    assert score == pytest.approx(found.static, rel=1e-9)


def _demo_orders() -> list[Order]:
    orders: list[Order] = []
    for episode in episodes(demo_season()):
        recipe, _ = load_recipe(str(episode))
        order = Order(recipe, load_kitchen(recipe))
        orders += [replace(order, version=name) for name in (None, *names_beside(order.recipe))]
    return orders


@pytest.mark.parametrize("order", _demo_orders(), ids=lambda order: order.called)
def test_every_demo_version_is_solved_to_its_static_value(order: Order, bench: Workbench) -> None:
    found = assessed(order, bench, Streams(seed=1, n=100), verdicts=False).footprint
    system = product_system(found)
    score = _engine_score(system.technosphere, system.biosphere, system.characterisation)
    assert score == pytest.approx(found.static, rel=1e-9)
