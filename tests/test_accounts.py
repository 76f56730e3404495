"""Accounts of foods and factors: what is told of each, with its source."""

from __future__ import annotations

import pytest

from counterproof.accounts import factor_account, food_account
from counterproof.adapters.tables import load_tables
from counterproof.draws import Streams
from counterproof.looking_up import factors_found
from counterproof.use_cases import Workbench

BENCH = Workbench.over(load_tables())
TABLES = BENCH.tables
STREAMS = Streams(n=10_000)


@pytest.mark.published
def test_an_account_tells_every_figure_with_its_source() -> None:
    told = food_account(TABLES.foods["oil-olive"], TABLES, STREAMS).to_dict(TABLES)
    # USDA SR28, NDB 04053: olive oil, 884 kcal and 100 g fat in 100 g.
    (composition,) = told["composition"]
    assert composition["energy_kcal"] == 884
    assert composition["fat_g"] == 100
    assert "04053" in composition["source"]["locator"]
    assert composition["source"]["citation"]
    # Poore & Nemecek 2018, Data S2: olive oil 5.42 kg CO2e a litre, 5 % 2.13, 95 % 10.79.
    link = next(one for one in told["links"] if one["set"] == "global")
    (factor,) = link["factors"]
    assert (factor["mean"], factor["p05"], factor["p95"]) == (5.42, 2.13, 10.79)
    assert factor["unit"] == "litre"
    assert link["kgco2e_per_kg"]["mean"] == pytest.approx(5.42 * link["per"], rel=5e-3)
    assert link["fit"] == "same"


@pytest.mark.published
def test_a_factor_is_told_with_its_published_percentiles() -> None:
    # Poore & Nemecek 2018, Data S2: tomatoes, mean 2.09, 5 % 0.37, median 0.65, 95 % 12.62.
    found = factors_found("Tomatoes", TABLES)
    factor = next(row for row in found.rows if row.set == "global")
    told = factor_account(factor, TABLES, STREAMS).to_dict(TABLES)
    worth = told["kgco2e_per_unit"]
    assert worth["mean"] == pytest.approx(2.09, abs=0.005)
    assert worth["p05"] == pytest.approx(0.37, rel=0.02)
    assert worth["p50"] == pytest.approx(0.65, rel=0.02)
    assert worth["p95"] == pytest.approx(12.62, rel=0.02)
    assert sum(stage["kgco2e_per_unit"] for stage in told["stages"]) == pytest.approx(
        2.09, abs=0.01
    )
    assert {"name": "tomato", "fit": "same"} in told["foods"]
    assert told["basis"] == "as bought"


def test_names_that_stand_for_the_food_are_told_apart() -> None:
    account = food_account(TABLES.foods["sea-bass"], TABLES, STREAMS)
    told = {one["name"]: one for one in account.to_dict(TABLES)["names"]}
    assert told["sea bass"]["fit"] == "same"
    assert told["kingfish"]["fit"] == "relative"
    assert told["kingfish"]["why"]
