"""The commands as a person types them: exit status, JSON keys, messages, bad input."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from counterproof.cli import main

SOUP = """# Lentil soup

Serves 4

- 250 g red lentils
- 2 onions
- 1 litre vegetable stock
- 2 tbsp olive oil

1. Soften the onions in the oil, 8 minutes.
2. Add the rest and simmer, covered, for 25 minutes.
"""
VERSIONED = "---\nversions:\n  chicken: {swap: {red lentils: 400 g chicken thighs}}\n---\n" + SOUP


@pytest.fixture
def soup(tmp_path: Path) -> Path:
    place = tmp_path / "soup.md"
    place.write_text(SOUP)
    return place


class Told:
    """What a command said, and how it left."""

    def __init__(self, status: int, out: str, err: str) -> None:
        self.status, self.out, self.err = status, out, err

    @property
    def document(self) -> dict[str, Any]:
        found = json.loads(self.out)
        assert isinstance(found, dict)
        return found


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]) -> Any:
    def run(*arguments: str) -> Told:
        with pytest.raises(SystemExit) as leave:
            main(arguments)
        found = capsys.readouterr()
        status = leave.value.code
        assert isinstance(status, int)
        return Told(status, found.out, found.err)

    return run


def test_mark_prints_the_promised_keys(told: Any, soup: Path) -> None:
    found = told("mark", str(soup), "--json")
    assert found.status == 0
    document = found.document
    assert {"title", "serves", "lines", "steps", "allergens"} <= set(document)
    line = document["lines"][0]
    assert line["quantity"] == {"low": 250.0, "high": 250.0, "measure": "g"}
    assert {"id", "name", "class", "fit"} == set(line["food"])
    assert {"mean", "p05", "p50", "p95"} == set(line["mass_kg"])
    assert {
        "number", "as_written", "certainty", "runners_up", "called", "prepared", "purchased_kg",
        "allergens", "marks",
    } <= set(line)  # fmt: skip
    step = document["steps"][1]
    simmer = next(p for p in step["processes"] if p["kind"] == "simmer")
    assert simmer["minutes"] == {"low": 25, "high": 25}
    assert simmer["covered"] is True
    assert {"present", "read_the_label", "unknown"} <= set(document["allergens"])


def test_footprint_prints_the_promised_keys_and_adds_up(told: Any, soup: Path) -> None:
    document = told("footprint", str(soup), "--json", "--draws", "2000").document
    assert {
        "functional_unit", "serving", "batch", "per", "stages", "lines", "activities", "coverage",
        "second_opinion", "settle_next", "assumed", "sources", "basis",
    } <= set(document)  # fmt: skip
    assert {"kg", "litre", "1000_kcal", "100_g_protein"} == set(document["per"])
    serving = document["serving"]["kgco2e"]["mean"]
    lines = sum(line["kgco2e"]["mean"] for line in document["lines"])
    others = sum(a["kgco2e"]["mean"] for a in document["activities"] if "line" not in a)
    assert lines + others == pytest.approx(serving, rel=1e-12)
    assert document["batch"]["kgco2e"]["mean"] == pytest.approx(4 * serving, rel=1e-12)
    basis = document["basis"]
    assert (basis["seed"], basis["draws"]) == (1, 2000)
    assert re.fullmatch(r"[0-9a-f]{64}", basis["data_sha256"])


def test_serves_scales_the_batch_and_leaves_each_line_of_a_serving_alone(
    told: Any, soup: Path
) -> None:
    once = told("mark", str(soup), "--json").document
    twice = told("mark", str(soup), "--json", "--serves", "8").document
    for one, two in zip(once["lines"], twice["lines"], strict=True):
        assert two["mass_kg"]["mean"] == pytest.approx(2 * one["mass_kg"]["mean"], rel=1e-12)
        assert two["mass_kg"]["p05"] == pytest.approx(2 * one["mass_kg"]["p05"], rel=1e-12)


def test_the_same_call_prints_the_same_bytes(told: Any, soup: Path) -> None:
    arguments = ("footprint", str(soup), "--json", "--seed", "7", "--draws", "500")
    assert told(*arguments).out == told(*arguments).out


def test_compare_holds_a_recipe_against_its_version(told: Any, tmp_path: Path) -> None:
    place = tmp_path / "soup.md"
    place.write_text(VERSIONED)
    document = told("compare", str(place), f"{place}+chicken", "--json").document
    (pair,) = document["pairs"]
    assert pair["share_a_lower"] > 0.95
    assert {"of_means", "p05", "p50", "p95"} == set(pair["ratio"])
    assert {"difference_kgco2e", "factor_set", "function", "shares_draws_of"} <= set(pair)
    assert told("compare", str(place), "--json").document["pairs"] == document["pairs"]


def test_compare_of_a_recipe_with_itself_is_exactly_zero(told: Any, soup: Path) -> None:
    (pair,) = told("compare", str(soup), str(soup), "--json").document["pairs"]
    assert set(pair["difference_kgco2e"].values()) == {0.0}


def test_sheet_writes_one_page(told: Any, soup: Path, tmp_path: Path) -> None:
    page = tmp_path / "soup.html"
    assert told("sheet", str(soup), "-o", str(page), "--date", "2026-11-25").status == 0
    assert "Lentil soup" in page.read_text()
    assert "2026-11-25" in page.read_text()


def test_matrices_are_written_as_files(told: Any, soup: Path, tmp_path: Path) -> None:
    folder = tmp_path / "system"
    assert told("matrices", str(soup), "-o", str(folder)).status == 0
    assert {file.suffix for file in folder.iterdir()} >= {".csv"}


def test_a_bare_command_shows_the_demo(told: Any) -> None:
    found = told("footprint", "--json", "--draws", "200")
    assert "demo" in found.err
    assert found.document["coverage"]["mass_share"] > 0.9


@pytest.mark.parametrize(
    ("name", "content", "kind"),
    [
        ("empty.md", b"", "NotARecipe"),
        (
            "essay.md",
            b"# On soup\n\nSoup is older than the spoon it is eaten with.\n",
            "NotARecipe",
        ),
        ("broken.md", b"---\nserves: [4\n---\n" + SOUP.encode(), "BrokenFrontMatter"),
        ("latin.md", "# Crème\n\n- 200 ml crème\n".encode("latin-1"), "UnreadableFile"),
        ("binary.md", bytes(range(256)) * 8, "UnreadableFile"),
        ("page.html", b"<!doctype html><title>x</title><p>Nothing to cook.</p>", "NotARecipe"),
        (
            "swap.md",
            b"---\nversions:\n  beef: {swap: {venison: 1 kg beef}}\n---\n" + SOUP.encode(),
            "SwapNotFound",
        ),
    ],
)
def test_bad_input_leaves_with_2_and_names_file_and_remedy(
    told: Any, tmp_path: Path, name: str, content: bytes, kind: str
) -> None:
    place = tmp_path / name
    place.write_bytes(content)
    found = told("footprint", str(place), "--json")
    assert found.status == 2
    error = found.document["error"]
    assert error["kind"] == kind
    assert name in error["file"]
    assert error["remedy"]
    assert "Traceback" not in found.err


def test_a_50_mb_file_is_refused_unread(told: Any, tmp_path: Path) -> None:
    place = tmp_path / "large.md"
    with place.open("wb") as file:
        file.truncate(50_000_000)
    found = told("mark", str(place), "--json")
    assert (found.status, found.document["error"]["kind"]) == (2, "UnreadableFile")


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("2 handfuls of moon glimmer", "unknown-food"),
        ("250 g/2 lb butter", "amounts-disagree"),
    ],
)
def test_a_doubtful_line_is_marked_and_leaves_with_1(
    told: Any, tmp_path: Path, line: str, kind: str
) -> None:
    place = tmp_path / "doubt.md"
    place.write_text(SOUP.replace("- 2 onions", f"- 2 onions\n- {line}"))
    found = told("mark", str(place), "--json")
    assert found.status == 1
    marked = next(one for one in found.document["lines"] if one["as_written"] == line)
    assert kind in {mark["kind"] for mark in marked["marks"]}


def test_a_usage_fault_is_json_too(told: Any) -> None:
    found = told("footprint", "--json", "--draws", "many")
    assert found.status == 2
    assert "--draws" in found.document["error"]["message"]


def test_every_command_has_a_help_line(told: Any) -> None:
    for command in (
        "mark",
        "footprint",
        "compare",
        "sheet",
        "matrices",
        "new season",
        "new episode",
    ):
        found = told(*command.split(), "--help")
        assert found.status == 0
        assert len(found.out.splitlines()) > 4


def test_what_is_bought_instead_is_a_version(told: Any, tmp_path: Path) -> None:
    recipe = tmp_path / "cordial.md"
    recipe.write_text(
        "---\nserves: 4\nbought: {what: lemonade, container: 330 ml can, region: uk}\n---\n"
        "# Cordial\n\n- 100 g sugar\n- 700 ml water\n",
        encoding="utf-8",
    )
    found = told("compare", str(recipe), f"{recipe}+bought", "--json", "--draws", "500").document
    home, bought = found["items"]
    assert bought["packaging"]["mass_kg_by_material"].keys() == {"aluminium"}
    assert home["packaging"]["items"] == []
    assert found["pairs"][0]["packaging_avoided_kg"] > 0


def test_a_food_without_a_factor_is_a_fault_and_leaves_with_1(told: Any, tmp_path: Path) -> None:
    (tmp_path / "own.yaml").write_text(
        "foods:\n- {id: moss, name: reindeer moss, food_class: vegetables, kind: solid}\n"
    )
    kitchen = tmp_path / "kitchen.yaml"
    kitchen.write_text("own_factors: own.yaml\n")
    place = tmp_path / "moss.md"
    place.write_text(SOUP.replace("- 2 onions", "- 2 onions\n- 400 g reindeer moss"))
    found = told("footprint", str(place), "--kitchen", str(kitchen), "--json", "--draws", "200")
    assert found.status == 1
    line = next(one for one in found.document["lines"] if "moss" in one["as_written"])
    assert [(mark["level"], mark["kind"]) for mark in line["marks"]] == [("fault", "no-factor")]
    assert found.document["coverage"]["mass_share"] < 0.9


@pytest.mark.parametrize(
    "food", ["black tea", "venison", "wild boar", "whey", "pectin", "beef bones", "fish roe"]
)
def test_a_total_with_a_seldom_food_leaves_with_0(told: Any, tmp_path: Path, food: str) -> None:
    place = tmp_path / "seldom.md"
    place.write_text(SOUP.replace("- 2 onions", f"- 2 onions\n- 20 g {food}"))
    found = told("footprint", str(place), "--json", "--draws", "200")
    assert found.status == 0
    line = next(one for one in found.document["lines"] if food in one["as_written"])
    assert line["kgco2e"]["mean"] > 0


@pytest.mark.parametrize(
    ("option", "value"),
    [("--serves", "abc"), ("--serves", "0"), ("--draws", "5"), ("--seed", "1.5"), ("--seed", "-1")],
)
def test_a_number_that_cannot_be_used_is_told_in_our_own_words(
    told: Any, soup: Path, option: str, value: str
) -> None:
    command = "mark" if option == "--serves" else "footprint"
    found = told(command, str(soup), "--json", option, value)
    assert found.status == 2
    error = found.document["error"]
    assert option in error["message"]
    assert value in error["message"]
    assert "number" in error["remedy"]
    assert "Input" not in error["message"]  # the words of a library


def test_compare_without_a_recipe_takes_the_demo_and_its_versions(told: Any) -> None:
    found = told("compare", "--json", "--draws", "200")
    assert found.status in {0, 1}
    assert len(found.document["items"]) > 2


def test_a_doubt_about_the_recipe_as_a_whole_needs_attention(told: Any, tmp_path: Path) -> None:
    place = tmp_path / "odd.md"
    place.write_text("---\nversions: {odd: {kitchen: {hobb: gas}}}\n---\n" + SOUP)
    for command in ("mark", "footprint"):
        found = told(command, str(place), "--json")
        assert found.status == 1
