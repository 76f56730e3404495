"""Cost of a serving: from the cook's own prices only, worked by hand, and never guessed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.files import demo_season
from counterproof.adapters.tables import load_tables
from counterproof.costing import Cost, prices_by_food, serving_cost
from counterproof.draws import Product, Streams
from counterproof.errors import BrokenSettings
from counterproof.plan.model import EnergyUse, Plan
from counterproof.reading.foods import Matcher
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.prices_file import Prices, read_prices
from counterproof.rows import Food

TABLES = load_tables()
MATCHER = Matcher(TABLES)
MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]


def _prices(*rows: str, energy: str = "") -> Prices:
    listed = "\n".join(f"  - {{{row}}}" for row in rows)
    return read_prices(f"currency: £\nprices:\n{listed}\n{energy}", "prices.yaml")


def _cost(prices: Prices, reading: Reading, plan: Plan | None = None) -> Cost | None:
    return serving_cost(
        reading, plan, prices, prices_by_food(prices, TABLES, MATCHER), Streams(n=1000)
    )


ONIONS = "food: onions, price: 1.20, pack: 1 kg, date: 2026-11-14"
BUTTER = "food: butter, price: 2.00, pack: 250 g, date: 2026-10-01"


def test_a_serving_worked_by_hand(made_line: MadeLine, made_reading: MadeReading) -> None:
    # Bought 0.5 kg onions for 0.4 kg peeled, at 1.20 a kilogram; 0.1 kg butter at 8.00; for four,
    # with half a kilowatt-hour at 0.30: (0.60 + 0.80 + 0.15) / 4.
    reading = made_reading(
        made_line("onion", 0.4, spread=0.0, bought=1.25), made_line("butter", 0.1, spread=0.0)
    )
    plan = Plan(energy=(EnergyUse("simmer", "electricity", Product(0.5), 1),))
    tariff = "energy: {electricity: {per_kwh: 0.30, date: 2026-09-01}}"
    found = _cost(_prices(ONIONS, BUTTER, energy=tariff), reading, plan)
    assert found is not None
    assert found.per_serving.mean == pytest.approx((0.60 + 0.80 + 0.15) / 4)
    assert found.per_serving.p05 == pytest.approx(found.per_serving.p95)
    assert found.energy_per_serving == pytest.approx(0.15 / 4)
    assert found.coverage == pytest.approx(1.0)
    assert found.dates == ("2026-09-01", "2026-11-14")
    assert found.not_priced == ()
    assert found.to_dict()["currency"] == "£"


def test_what_is_left_over_is_paid_for_by_what_is_eaten(
    made_line: MadeLine, made_reading: MadeReading
) -> None:
    # As above without the butter: (0.60 + 0.15) / 4 servings, of which four fifths are eaten; two
    # kilowatt-hours of freezing at 0.30 come to it; three dishes share the oven's 0.9 kWh.
    reading = made_reading(made_line("onion", 0.4, spread=0.0, bought=1.25))
    eaten = replace(reading, recipe=replace(reading.recipe, eaten=0.8, oven_shared_by=3))
    prices = _prices(ONIONS, energy="energy: {electricity: {per_kwh: 0.30, date: 2026-09-01}}")
    plan = Plan(
        energy=(
            EnergyUse("simmer", "electricity", Product(0.5), 1),
            EnergyUse("bake", "electricity", Product(0.9), 2, appliance="oven"),
        )
    )
    stay = EnergyUse("60 days in the freezer", "electricity", Product(2.0), None, "home storage")
    by_food = prices_by_food(prices, TABLES, MATCHER)
    found = serving_cost(eaten, plan, prices, by_food, Streams(n=100), (stay,))
    assert found is not None
    energy = 0.30 * (0.5 + 0.9 / 3 + 2.0)
    assert found.per_serving.mean == pytest.approx((0.60 + energy) / (4 * 0.8))
    assert found.energy_per_serving == pytest.approx(energy / (4 * 0.8))


def test_what_has_no_price_is_named_not_guessed(
    made_line: MadeLine, made_reading: MadeReading
) -> None:
    reading = made_reading(made_line("onion", 0.3), made_line("nuts", 0.1))
    plan = Plan(energy=(EnergyUse("simmer", "gas", Product(0.5), 1),))
    found = _cost(_prices(ONIONS), reading, plan)
    assert found is not None
    assert found.coverage == pytest.approx(0.75)
    assert found.not_priced == ("nuts", "gas")
    assert found.energy_per_serving is None
    assert _cost(_prices(BUTTER), reading) is None


def test_water_is_left_out_of_the_coverage(made_line: MadeLine, made_reading: MadeReading) -> None:
    water = Food("water-tap", "tap water", "water & ice", "liquid", "", "")
    tap = replace(made_line("onion", 2.0), food=water)
    found = _cost(_prices(ONIONS), made_reading(made_line("onion", 0.3), tap))
    assert found is not None
    assert found.coverage == pytest.approx(1.0)
    assert found.not_priced == ()


def test_the_latest_price_of_a_food_counts() -> None:
    older = "food: onion, price: 9, pack: 1 kg, date: 2025-01-01"
    for rows in ((ONIONS, older), (older, ONIONS)):
        found = prices_by_food(_prices(*rows), TABLES, MATCHER)
        assert found["onion"].price == pytest.approx(1.20)


@pytest.mark.published
def test_packs_by_volume_and_by_piece() -> None:
    # USDA SR28: olive oil NDB 04053, 216 g a cup of 236.6 ml, 0.913 kg per litre; egg NDB 01123,
    # large 50 g without shell, 12 % refuse.
    found = prices_by_food(
        _prices(
            "food: olive oil, price: 9, pack: 1 l, date: 2026-01-01",
            "food: eggs, price: 3, pack: 12, date: 2026-01-01",
        ),
        TABLES,
        MATCHER,
    )
    assert found["oil-olive"].price == pytest.approx(9 / 0.913, rel=0.02)
    egg = next(key for key in found if key.startswith("egg"))
    assert found[egg].price == pytest.approx(3 / (12 * 0.050 / 0.88), rel=0.15)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("food: moon dust, price: 1, pack: 1 kg, date: 2026-01-01", "is no food"),
        ("food: onions, price: 1, pack: 1 glass, date: 2026-01-01", "No weight is known"),
    ],
)
def test_a_price_that_cannot_be_placed_names_its_line(row: str, says: str) -> None:
    with pytest.raises(BrokenSettings) as caught:
        prices_by_food(_prices(BUTTER, row), TABLES, MATCHER)
    assert says in str(caught.value)
    assert (caught.value.file, caught.value.line) == ("prices.yaml", 4)


@pytest.mark.property
@given(st.floats(0.01, 100))
def test_cost_is_proportional_to_price(factor: float) -> None:
    def per_kg(price: float) -> float:
        rows = f"food: onions, price: {price!r}, pack: 1 kg, date: 2026-11-14"
        return prices_by_food(_prices(rows), TABLES, MATCHER)["onion"].price

    assert per_kg(1.2 * factor) == pytest.approx(factor * per_kg(1.2))


def test_the_example_of_the_documentation_and_the_demo_prices_can_be_placed() -> None:
    page = Path(__file__).parents[1] / "docs" / "foods.md"
    example = page.read_text(encoding="utf-8").split("```yaml\n")[1].split("```")[0]
    found = prices_by_food(read_prices(example, "prices.yaml"), TABLES, MATCHER)
    assert found["tomatoes-canned"].price == pytest.approx(1.5)
    demo = demo_season() / "prices.yaml"
    shipped = read_prices(demo.read_text(encoding="utf-8"), str(demo))
    assert len(prices_by_food(shipped, TABLES, MATCHER)) > 10
