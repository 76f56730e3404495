"""What the steps of a recipe inside a recipe take, by the share that is taken."""

from __future__ import annotations

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.plan.planning import plan_of
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_recipe
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine

STOCK = Recipe(
    title="Leek stock",
    lines=(WrittenLine(1, "500 g leeks"), WrittenLine(2, "2 litres water")),
    steps=(WrittenLine(1, "Simmer for 1 hour, then strain."),),
    serves=(4, 4),
)


def test_half_a_batch_takes_half_the_energy_and_loses_half() -> None:
    shipped = load_tables()
    shipped_matcher = Matcher(shipped)
    soup = Recipe(
        title="Soup",
        lines=(WrittenLine(1, "½ quantity leek stock"),),
        steps=(),
        serves=(2, 2),
        beside=(STOCK,),
    )
    alone = plan_of(read_recipe(STOCK, shipped, shipped_matcher, Kitchen()), shipped)
    inside = plan_of(read_recipe(soup, shipped, shipped_matcher, Kitchen()), shipped)
    assert alone.energy
    assert alone.leaving
    for one, half in zip(alone.energy, inside.energy, strict=True):
        assert half.kwh.mean == pytest.approx(one.kwh.mean / 2)
        assert half.step is None
        assert half.name == f"Leek stock: {one.name}"
    for gone, part in zip(alone.leaving, inside.leaving, strict=True):
        assert part.mass.mean == pytest.approx(gone.mass.mean / 2)
    served = sum(part.mean for part in inside.serving_mass)
    assert served == pytest.approx(sum(part.mean for part in alone.serving_mass))
