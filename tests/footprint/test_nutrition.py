"""What a serving gives, and when that cannot be said."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from counterproof.draws import Product, Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.nutrition import serving_function
from counterproof.plan.model import Plan
from counterproof.reading.model import Constituent, MarkedLine, Reading
from counterproof.rows import Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


def test_mass_energy_and_protein_of_the_ingredients(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    # Every food of the small pantry has 350 kcal and 20 g protein in 100 g.
    reading = made_reading(made_line("onion", 0.3), made_line("tomato", 0.5), serves=4)
    gives = serving_function(reading, tiny_tables)
    assert gives.to_dict() == pytest.approx({"kg": 0.2, "kcal": 700.0, "protein_g": 40.0})
    assert gives.litres is None


def test_what_is_served_comes_from_the_plan(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    reading = made_reading(made_line("onion", 0.8), serves=4)
    plan = Plan(serving_mass=(Product(0.2), Product(-0.05)), serving_litres=0.14)
    gives = serving_function(reading, tiny_tables, plan)
    assert gives.kg == pytest.approx(0.15)
    assert gives.litres == 0.14


def test_a_sum_that_lacks_much_is_not_given(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading
) -> None:
    composition = {k: v for k, v in tiny_tables.composition.items() if k != "tomato"}
    tables = replace(tiny_tables, composition=composition)
    most = made_reading(made_line("onion", 0.95), made_line("tomato", 0.05))
    assert serving_function(most, tables).kcal is not None
    half = made_reading(made_line("onion", 0.8), made_line("tomato", 0.2))
    assert serving_function(half, tables).kcal is None
    assert serving_function(half, tables).protein_g is None


def test_every_food_of_a_line_counts(
    tiny_tables: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    line = made_line("onion", 0.2, spread=0.0)
    other = made_line("tomato", 0.1, spread=0.0)
    nothing = made_line("sea-bean", 0.1, spread=0.0)
    also = tuple(
        Constituent(part.food, None, part.mass, part.purchased)
        for part in (other, nothing)
        if part.food is not None
    )
    reading = made_reading(replace(line, also=also), serves=1)
    found = assess(reading, tiny_tables, streams=streams)
    part = found.of_line(1)
    assert part is not None
    assert part.kgco2e.mean == pytest.approx(0.2 * 0.5 + 0.1 * 2.09)
    assert part.share == pytest.approx(1.0)
    assert part.stages["packaging"] == pytest.approx(0.1 * 0.146)
    assert part.kgco2e == found.serving
    assert [(missing.food, missing.why) for missing in found.uncounted] == [
        ("sea bean", "no factor")
    ]
    (written,) = found.to_dict()["lines"]
    assert written["uncounted"] == [{"food": "sea bean", "why": "no factor"}]
    assert found.function.kg == pytest.approx(0.4)
    assert found.of_line(2) is None
    assert found.of_step(1) is None
