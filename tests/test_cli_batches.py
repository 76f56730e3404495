"""weigh-in, record and scale as a person types them: exit status, JSON keys, files, bad input."""

from __future__ import annotations

import io
import json
import re
import shutil
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from counterproof.adapters.files import demo_season
from counterproof.cli import main

EPISODE = "02-rhubarb-cordial"
READINGS = "scale to 1 g\nsaucepan\n+rhubarb 2404\n+water 3296\n"


class Typed(io.TextIOWrapper):
    """What is typed or piped."""


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
def episode(tmp_path: Path) -> Path:
    season = tmp_path / "season"
    shutil.copytree(demo_season(), season)
    return season / "episodes" / EPISODE


@pytest.fixture
def told(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Told]:
    def run(*arguments: str, typed: str = "") -> Told:
        monkeypatch.setattr(sys, "stdin", Typed(io.BytesIO(typed.encode()), "utf-8"))
        with pytest.raises(SystemExit) as leave:
            main(arguments)
        found = capsys.readouterr()
        assert isinstance(leave.value.code, int)
        return Told(leave.value.code, found.out, found.err)

    return run


Run = Callable[..., Told]


def test_readings_are_kept_line_by_line_and_taken_up_again(told: Run, episode: Path) -> None:
    recipe = (episode / "recipe.md").read_text()
    first = told("weigh-in", str(episode), "--json", typed=READINGS)
    assert first.status == 0
    assert first.document["weighed_in_kg"] == pytest.approx(2.396)
    assert (episode / "weigh-in.md").read_text() == READINGS
    assert (episode / "recipe.md").read_text() == recipe
    again = told(
        "weigh-in", str(episode), "--date", "2026-11-24", "--json", typed="+cardamom 3299\ndone\n"
    )
    assert again.status == 0
    assert "Taken up" in again.err
    assert not (episode / "weigh-in.md").exists()
    changed = (episode / "recipe.md").read_text()
    assert "900 ml water (weighed 892 g, give or take 1 g)" in changed
    batch = (episode / "batches" / "2026-11-24.md").read_text()
    assert batch.startswith("# Rhubarb and cardamom cordial, 2026-11-24\n\n## Weighed in\n")
    assert "+cardamom 3299" in batch
    lines = told("mark", str(episode), "--json").document["lines"]
    assert lines[0]["mass_kg"]["mean"] == pytest.approx(1.504)


def test_an_interrupted_weigh_in_loses_nothing(
    told: Run, episode: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def torn(_: Typed) -> Iterator[str]:
        yield from READINGS.splitlines(keepends=True)
        raise KeyboardInterrupt

    monkeypatch.setattr(Typed, "__iter__", torn)
    assert told("weigh-in", str(episode)).status == 130
    monkeypatch.undo()
    assert (episode / "weigh-in.md").read_text() == READINGS


def test_a_recipe_can_be_begun_at_the_scale(told: Run, episode: Path) -> None:
    folder = episode.parent / "07-onion-soup"
    folder.mkdir()
    typed = "stew pot\n+onions 2900\n+butter 2960\ndone\n"
    found = told("weigh-in", str(folder), "--date", "2026-11-25", "--json", typed=typed)
    assert found.status == 0
    text = (folder / "recipe.md").read_text()
    assert "# Onion soup" in text
    assert "- onions (weighed 800 g, give or take 5 g)" in text
    lines = told("mark", str(folder), "--json").document["lines"]
    assert [line["mass_kg"]["mean"] for line in lines] == pytest.approx([0.8, 0.06])


def test_nothing_is_written_while_something_is_asked(told: Run, episode: Path) -> None:
    recipe = (episode / "recipe.md").read_text()
    found = told("weigh-in", str(episode), typed=READINGS + "+sugar 3200\ndone\n")
    assert found.status == 1
    assert "went down" in " ".join(found.out.split())
    assert (episode / "recipe.md").read_text() == recipe
    assert (episode / "weigh-in.md").exists()


def test_a_weigh_in_from_a_file_and_one_set_aside(told: Run, episode: Path, tmp_path: Path) -> None:
    readings = tmp_path / "readings.txt"
    readings.write_text(READINGS)
    found = told("weigh-in", str(episode), "--from", str(readings), "--json")
    assert found.document["written"] == []
    assert not (episode / "weigh-in.md").exists()
    told("weigh-in", str(episode), typed=READINGS)
    told("weigh-in", str(episode), "--anew", typed="tare\n")
    assert (episode / "weigh-in-aside-1.md").read_text() == READINGS
    assert (episode / "weigh-in.md").read_text() == "tare\n"


@pytest.mark.parametrize("name", ["-", "{episode}+honey"])
def test_what_is_measured_belongs_beside_a_recipe(told: Run, episode: Path, name: str) -> None:
    soup = "# Soup\n\n- 1 kg leeks\n\n1. Boil.\n"
    found = told("weigh-in", name.format(episode=episode), "--json", typed=soup)
    assert found.status == 2
    assert "error" in found.document


def test_record_sets_plan_beside_fact(told: Run, episode: Path) -> None:
    found = told("record", str(episode), "--json")
    assert found.status == 1  # one batch boiled off too much
    assert len(found.document["batches"]) == 2
    keys = {
        "date", "file", "serves", "lines", "measured", "around_celsius", "jars", "eaten_share",
        "tasted", "remarks", "beside", "balance", "heating", "cooling", "reasons",
        "serving_planned_kgco2e", "serving_as_made_kgco2e", "marks",
    }  # fmt: skip
    assert set(found.document["batches"][0]) == keys
    assert found.document["batches"][0]["measured"]["made_litres"]["value"] == pytest.approx(1.95)
    text = told("record", str(episode), "2026-11-21")
    assert "boiled off" in text.out
    assert "measured, within: 57 to 21 °C" in " ".join(text.out.split())


def test_while_it_still_cools_it_is_told_until_when_it_may_go_into_iced_water(
    told: Run, episode: Path
) -> None:
    cooling = "1.9 litres in all\n\n12:00 74 °C\n12:30 72 °C\n13:00 67 °C\n"
    (episode / "batches" / "2026-11-24.md").write_text(cooling)
    found = told("record", str(episode), "2026-11-24", "--date", "2026-11-24")
    said = " ".join(found.out.split())
    by = re.search(r"Into iced water by (\d\d):(\d\d) to pass", said)
    assert by is not None
    assert 13 <= int(by[1]) <= 16
    assert "Local codes" in said


def test_a_correction_is_made_only_when_it_is_accepted(told: Run, episode: Path) -> None:
    kitchen = episode.parents[1] / "kitchen.yaml"
    before = kitchen.read_text()
    told("record", str(episode), "--json")
    assert kitchen.read_text() == before
    found = told(
        "record", str(episode), "--accept", "fridge-temperature", "--accept", "yield", "--json"
    )
    assert len(found.document["written"]) == 2
    assert kitchen.read_text() == before.replace("kwh_per_year: 170, celsius: 4", "kwh_per_year: 170, celsius: 6")  # fmt: skip
    assert "Makes about 1.95 litres of cordial" in (episode / "recipe.md").read_text()
    wrong = told("record", str(episode), "--accept", "everything", "--json")
    assert wrong.status == 2
    assert "hob-power" in wrong.document["error"]["remedy"]


@pytest.mark.parametrize(
    ("arguments", "file", "says"),
    [
        (["--date", "2026-11-20"], None, "after today"),
        (["2026-10-01"], None, "no batch of"),
        ([], "2026-02-30.md", "not a day"),
    ],
)
def test_a_batch_that_cannot_be(
    told: Run, episode: Path, arguments: list[str], file: str | None, says: str
) -> None:
    if file is not None:
        (episode / "batches" / file).write_text("pulp 1 kg\n")
    found = told("record", str(episode), *arguments, "--json")
    assert found.status == 2
    assert says in found.document["error"]["message"]
    assert found.document["error"]["remedy"]


def test_without_a_recipe_the_demo_is_shown_and_never_written(told: Run) -> None:
    found = told("record", "--json")
    assert found.status == 1
    assert "this is the demo" in found.err
    assert found.document["title"] == "Rhubarb and cardamom cordial"
    assert told("record", "--accept", "hob-power", "--json").status == 2
    assert told("weigh-in", "--json", typed="saucepan\n").status == 2


def test_a_recipe_without_batches_is_told_how_to_begin(told: Run, tmp_path: Path) -> None:
    soup = tmp_path / "soup.md"
    soup.write_text("# Soup\n\n- 1 kg leeks\n\n1. Boil.\n")
    found = told("record", str(soup), "--date", "2026-11-25", "--json")
    assert found.status == 2
    assert "soup-batches" in found.document["error"]["remedy"]


def test_scale_to_people_jars_a_pot_and_what_there_is(told: Run, episode: Path) -> None:
    for asked in (
        ["--serves", "20"],
        ["--jars", "6x473ml"],
        ["--pot", "7L"],
        ["--have", "1.3 kg rhubarb"],
    ):
        found = told("scale", str(episode), *asked, "--json")
        assert found.status in {0, 1}
        assert set(found.document) == {
            "title", "times", "serves", "because", "split", "jars", "lines", "ratios",
            "does_not_scale", "marks", "written",
        }  # fmt: skip
        assert (found.document["jars"] is not None) == ("--jars" in asked)


def test_a_scaled_recipe_is_a_recipe(told: Run, episode: Path, tmp_path: Path) -> None:
    target = tmp_path / "small.md"
    told("scale", str(episode), "--serves", "6", "-o", str(target))
    document = told("mark", str(target), "--json").document
    assert document["serves"] == 6
    assert document["lines"][0]["mass_kg"]["mean"] == pytest.approx(0.375, rel=0.01)
    recipe = episode / "recipe.md"
    recipe.write_text(recipe.read_text().replace("measures: uk", "measures: uk\nkitchen: ../../kitchen.yaml"))  # fmt: skip
    other = tmp_path / "other.md"
    told("scale", str(episode), "--serves", "6", "-o", str(other))
    assert "kitchen: season/kitchen.yaml" in other.read_text()
    again = told("scale", str(episode), "--serves", "6", "-o", str(target), "--json")
    assert again.status == 2


@pytest.mark.parametrize(
    "arguments",
    [
        [],
        ["--serves", "20", "--pot", "7"],
        ["--jars", "6"],
        ["--jars", "6x473"],
        ["--jars", "nonex473ml"],
        ["--have", "love"],
        ["--serves", "4", "--have", "1 kg rhubarb"],
        ["--serves", "4", "--measured-in", "fathoms"],
    ],
)
def test_a_scale_without_a_size_is_told_which_there_are(
    told: Run, episode: Path, arguments: list[str]
) -> None:
    found = told("scale", str(episode), *arguments, "--json")
    assert found.status == 2
    assert found.document["error"]["remedy"]
