"""`foods`, `factors`, own tables, prices and seasons, as a person types them."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from counterproof.cli import main

Ran = Callable[..., tuple[int, str, str]]

DISH = """# Tomato salad

Serves 2

- 400 g tomatoes
- 1 tbsp olive oil
"""

OURS = """
sources:
  - {id: own-2026, title: Own, producer: us, published: 2026, citation: "Ours, 2026.",
     accessed: 2026-11-20, licence: own}
factors:
  - {item: Our tomato, basis: edible, mean: 1, spread: 1.1, gwp: AR6, boundary: to our gate,
     source: own-2026, locator: sheet 1}
links:
  - {food: tomato, item: Our tomato, source: own-2026, obtained: derived}
"""


@pytest.fixture
def ran(capsys: pytest.CaptureFixture[str]) -> Ran:
    def run(*arguments: str) -> tuple[int, str, str]:
        with pytest.raises(SystemExit) as leave:
            main(arguments)
        found = capsys.readouterr()
        assert isinstance(leave.value.code, int)
        return leave.value.code, found.out, found.err

    return run


@pytest.fixture
def dish(tmp_path: Path) -> Path:
    place = tmp_path / "recipe.md"
    place.write_text(DISH, encoding="utf-8")
    return place


def _json(out: str) -> dict[str, Any]:
    told = json.loads(out)
    assert isinstance(told, dict)
    return told


def test_foods_tells_one_in_full(ran: Ran) -> None:
    status, out, _ = ran("foods", "olive", "oil")
    assert status == 0
    for said in ("olive oil", "In 100 g", "884 kcal", "usda-sr28", "NDB 04053", "global set"):
        assert said in out


def test_foods_in_json(ran: Ran) -> None:
    status, out, _ = ran("foods", "tomato", "--json")
    told = _json(out)
    assert status == 0
    assert told["words"] == "tomato"
    first = told["found"][0]
    assert first["id"] == "tomato"
    assert {
        "names",
        "household",
        "densities",
        "edible",
        "composition",
        "allergens",
        "links",
    } <= set(first)
    assert {row["condition"] for row in first["seasons"]} == {
        "heated greenhouse",
        "in season",
        "out of season",
    }


@pytest.mark.parametrize("command", ["foods", "factors"])
def test_nothing_found_leaves_with_one_and_the_nearest(ran: Ran, command: str) -> None:
    status, out, _ = ran(command, "tomatoxqj")
    assert status == 1
    assert "is found for" in out
    status, out, _ = ran(command, "qqqqqqq", "--json")
    assert status == 1
    assert _json(out)["found"] == []


def test_foods_lists_all_and_those_of_a_recipe(ran: Ran, dish: Path) -> None:
    status, out, _ = ran("foods")
    assert status == 0
    assert "olive oil" in out
    status, out, _ = ran("foods", "--in", str(dish))
    assert status == 0
    assert "tomato" in out
    assert "1 tbsp olive oil" in out
    status, out, _ = ran("foods", "--in", str(dish), "--json")
    assert [food["id"] for food in _json(out)["foods"]] == ["tomato", "oil-olive"]


def test_factors_tell_percentiles(ran: Ran) -> None:
    status, out, _ = ran("factors", "olive", "oil")
    assert status == 0
    assert "Olive Oil, global set" in out
    assert "95 % 10.79" in " ".join(out.split())
    status, out, _ = ran("factors", "Tomatoes", "--json")
    found = _json(out)["found"]
    assert any(one["p95"] == 12.62 for one in found)


def test_the_kitchens_own_table_counts_everywhere(ran: Ran, dish: Path) -> None:
    kitchen = dish.parent / "kitchen.yaml"
    kitchen.write_text("own_factors: ours.yaml\n", encoding="utf-8")
    (dish.parent / "ours.yaml").write_text(OURS, encoding="utf-8")
    status, out, _ = ran("footprint", str(dish), "--json")
    told = _json(out)
    assert status == 0
    assert told["lines"][0]["kgco2e"]["mean"] == pytest.approx(0.2, rel=0.15)
    assert any("ours.yaml" in said for said in told["assumed"])
    assert told["basis"]["own_factors"].startswith("ours.yaml")
    _, out, _ = ran("foods", "tomato", "--kitchen", str(kitchen), "--json")
    assert _json(out)["found"][0]["own"] is True


def test_a_fault_in_the_own_table_names_its_line(ran: Ran, dish: Path) -> None:
    (dish.parent / "kitchen.yaml").write_text("own_factors: ours.yaml\n", encoding="utf-8")
    (dish.parent / "ours.yaml").write_text(OURS.replace("mean: 1,", "mean: x,"), encoding="utf-8")
    status, out, _ = ran("footprint", str(dish), "--json")
    error = _json(out)["error"]
    assert (status, error["kind"], error["file"], error["line"]) == (
        2,
        "TableError",
        "ours.yaml",
        6,
    )
    (dish.parent / "ours.yaml").unlink()
    status, out, _ = ran("footprint", str(dish), "--json")
    assert (status, _json(out)["error"]["kind"]) == (2, "UnreadableFile")


def test_recipes_of_different_own_tables_are_not_compared(ran: Ran, dish: Path) -> None:
    other = dish.parent / "other"
    other.mkdir()
    (other / "recipe.md").write_text(DISH, encoding="utf-8")
    (other / "kitchen.yaml").write_text("own_factors: ours.yaml\n", encoding="utf-8")
    (other / "ours.yaml").write_text(OURS, encoding="utf-8")
    status, out, _ = ran("compare", str(dish), str(other), "--json")
    assert status == 2
    assert "own foods and factors" in _json(out)["error"]["message"]


def test_a_version_cannot_bring_an_own_table(ran: Ran, dish: Path) -> None:
    dish.write_text(
        "---\nversions:\n  ours: {kitchen: {own_factors: ours.yaml}}\n---\n" + DISH,
        encoding="utf-8",
    )
    status, out, _ = ran("footprint", f"{dish}+ours", "--json")
    error = _json(out)["error"]
    assert (status, error["kind"]) == (2, "BrokenFrontMatter")
    assert "kitchen file" in error["remedy"]


def test_cost_and_nutrition_stand_beside_the_footprint(ran: Ran, dish: Path) -> None:
    _, out, _ = ran("footprint", str(dish), "--json")
    told = _json(out)
    assert told["cost"] is None
    assert told["nutrition"]["per"] == "serving"
    assert told["nutrition"]["fat_g"] == pytest.approx(7.2, rel=0.1)
    (dish.parent / "prices.yaml").write_text(
        "currency: €\nprices: [{food: tomatoes, price: 3, pack: 1 kg, date: 2026-11-14}]\n",
        encoding="utf-8",
    )
    _, out, _ = ran("footprint", str(dish), "--json")
    cost = _json(out)["cost"]
    assert cost["per_serving"]["mean"] == pytest.approx(0.6)
    assert cost["not_priced"] == ["olive oil"]
    _, out, _ = ran("compare", str(dish), str(dish), "--json")
    assert [item["cost"]["currency"] for item in _json(out)["items"]] == ["€", "€"]


def test_the_month_of_the_kitchen_changes_the_total_and_says_so(ran: Ran, dish: Path) -> None:
    totals = {}
    for month in ("August", "January"):
        (dish.parent / "kitchen.yaml").write_text(f"region: uk\nmonth: {month}\n", encoding="utf-8")
        status, out, _ = ran("footprint", str(dish), "--json")
        told = _json(out)
        assert status == 0
        totals[month] = told["lines"][0]["kgco2e"]["mean"]
        assert any("depends on the month" in said for said in told["assumed"])
        assert told["lines"][0]["marks"][0]["kind"] == "season"
    # AGRIBALYSE 3.1.1: 1.87686 off season over 0.5012 in season, kg CO2e/kg to retail.
    assert totals["January"] / totals["August"] == pytest.approx(1.87686 / 0.5012, rel=1e-3)


def test_the_month_of_a_line_outranks_the_kitchens(ran: Ran, dish: Path) -> None:
    (dish.parent / "kitchen.yaml").write_text("region: uk\nmonth: January\n", encoding="utf-8")
    dish.write_text(DISH.replace("400 g tomatoes", "400 g tomatoes in August"), encoding="utf-8")
    _, out, _ = ran("footprint", str(dish), "--json")
    told = _json(out)
    assert "in season (the line says “in August”)" in told["lines"][0]["marks"][0]["message"]


def test_a_flight_no_set_tells_of_is_carried_by_its_own_leg(ran: Ran, dish: Path) -> None:
    dish.write_text(DISH.replace("400 g tomatoes", "200 g asparagus by air"), encoding="utf-8")
    status, out, _ = ran("footprint", str(dish), "--json")
    told = _json(out)
    assert status == 0
    (flight,) = [one for one in told["activities"] if "by air" in one["name"]]
    assert (flight["stage"], flight["unit"]) == ("transport", "t·km")
    (grown,) = [one for one in told["activities"] if one["name"] == "asparagus"]
    assert flight["kgco2e"]["mean"] > 10 * grown["replaced"]["transport"]


def test_allergens_by_both_lists(ran: Ran, dish: Path) -> None:
    dish.write_text(DISH + "- 100 g flour\n", encoding="utf-8")
    _, out, _ = ran("mark", str(dish), "--json")
    told = _json(out)
    assert "gluten" in told["allergens"]["present"]
    assert "wheat" in told["allergens_us"]["present"]
