"""The product system as matrices: solved, it is the footprint."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable

import numpy as np
import pytest

from counterproof.draws import Product, Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.matrices import ProductSystem, product_system
from counterproof.footprint.model import Footprint
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.model import MarkedLine, Reading
from counterproof.rows import STAGES, Tables


@pytest.fixture
def found(
    tiny_tables: Tables,
    made_line: Callable[..., MarkedLine],
    made_reading: Callable[..., Reading],
) -> Footprint:
    # Two foods that share a factor, a mixture, a factor with stages, one per litre, and energy.
    reading = made_reading(
        made_line("white-beans-dried", 0.4),
        made_line("lentils-dried", 0.1),
        made_line("beef-chuck", 0.5),
        made_line("tomato", 0.8, bought=1.05),
        made_line("olive-oil", 0.03),
        serves=4,
    )
    plan = Plan(energy=(EnergyUse("simmer", "electricity", Product(0.6), 1),))
    return assess(reading, tiny_tables, plan, streams=Streams(seed=1, n=100))


def _solved(system: ProductSystem) -> np.ndarray:
    return system.biosphere @ np.linalg.solve(system.technosphere, system.demand)


def test_solved_matrices_give_the_static_value(found: Footprint) -> None:
    system = product_system(found)
    score = system.characterisation @ _solved(system)
    assert score == pytest.approx(found.static, rel=1e-9)


def test_solved_matrices_give_the_stages(found: Footprint) -> None:
    by_stage = dict(zip(STAGES, _solved(product_system(found)).tolist(), strict=True))
    stated = {part.stage: part.kgco2e.mean for part in found.stages}
    for stage, value in by_stage.items():
        assert value == pytest.approx(stated.get(stage, 0.0), rel=1e-9, abs=1e-12)


def test_a_tiny_system_worked_by_hand(
    tiny_tables: Tables,
    made_line: Callable[..., MarkedLine],
    made_reading: Callable[..., Reading],
) -> None:
    # One line, 0.4 kg of onion as bought for 2 servings at 0.5 kg CO2e per kg:
    #              serving  batch  line 1  onions
    #   serving       1
    #   batch       −1/2      1
    #   line 1               −1      1
    #   onions                    −0.4      1
    #   emits                              0.5       one serving: 0.5 × 0.4 / 2 = 0.1
    reading = made_reading(made_line("onion", 0.4), serves=2)
    system = product_system(assess(reading, tiny_tables, streams=Streams(seed=1, n=10)))
    assert system.technosphere.tolist() == [
        [1.0, 0.0, 0.0, 0.0],
        [-0.5, 1.0, 0.0, 0.0],
        [0.0, -1.0, 1.0, 0.0],
        [0.0, 0.0, -0.4, 1.0],
    ]
    assert system.biosphere[0].tolist() == pytest.approx([0.0, 0.0, 0.0, 0.5])
    assert _solved(system).sum() == pytest.approx(0.1)
    assert system.processes == (
        "one serving",
        "the batch",
        "line 1: onion",
        "Onions & Leeks, global set, as bought",
    )


def test_files_hold_the_whole_system(found: Footprint) -> None:
    system = product_system(found)
    files = system.files()
    assert files.keys() == {
        "technosphere.csv", "biosphere.csv", "characterisation.csv", "system.json",
    }  # fmt: skip

    def read(name: str, shape: tuple[int, int]) -> np.ndarray:
        matrix = np.zeros(shape)
        for entry in csv.DictReader(io.StringIO(files[name])):
            matrix[int(entry["row"]), int(entry["column"])] = float(entry["value"])
        return matrix

    count, flows = len(system.processes), len(system.flows)
    assert (read("technosphere.csv", (count, count)) == system.technosphere).all()
    assert (read("biosphere.csv", (flows, count)) == system.biosphere).all()
    assert (read("characterisation.csv", (flows, flows)) == np.eye(flows)).all()
    labels = json.loads(files["system.json"])
    assert [process["name"] for process in labels["processes"]] == list(system.processes)
    assert labels["demand"] == [{"process": 0, "amount": 1.0}]
