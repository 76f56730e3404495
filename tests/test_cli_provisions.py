"""`shop` as it is typed."""

import json
from pathlib import Path

import pytest

from counterproof.adapters.files import demo_season, episodes
from counterproof.cli import main

FIRST = str(episodes(demo_season())[0])


def _ran(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int | str | None, str, str]:
    with pytest.raises(SystemExit) as left:
        main(arguments)
    said = capsys.readouterr()
    return left.value.code, said.out, said.err


def test_a_list_for_a_recipe(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _ran(capsys, "shop", FIRST)
    assert code == 0
    assert "Tins and jars" in out
    assert "4 × 400 g" in out
    assert "the pantry holds enough" in out  # the demo's pantry file is found


def test_a_season_is_all_of_it(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _ran(capsys, "shop", str(demo_season()), "--json", "--draws", "200")
    assert code == 0
    assert len(json.loads(out)["recipes"]) == len(episodes(demo_season()))


def test_a_class_with_stations(capsys: pytest.CaptureFixture[str]) -> None:
    _, once, _ = _ran(capsys, "shop", FIRST, "--json", "--draws", "200")
    _, ten, _ = _ran(capsys, "shop", FIRST, "--stations", "10", "--json", "--draws", "200")

    def needs(document: str) -> dict[str, float]:
        return {
            item["food"]["id"]: item["need_kg"]["mean"]
            for part in json.loads(document)["parts"]
            for item in part["items"]
        }

    assert needs(ten) == {food: pytest.approx(10 * kg) for food, kg in needs(once).items()}


@pytest.mark.parametrize("suffix", ["txt", "html"])
def test_a_list_is_written(capsys: pytest.CaptureFixture[str], tmp_path: Path, suffix: str) -> None:
    place = tmp_path / f"list.{suffix}"
    code, _, err = _ran(capsys, "shop", FIRST, "-o", str(place))
    assert code == 0
    assert str(place) in err
    assert "white beans, canned" in place.read_text(encoding="utf-8")


def test_another_kind_of_file_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    code, _, err = _ran(capsys, "shop", FIRST, "-o", "list.docx")
    assert code == 2
    assert ".html" in err


def test_no_station_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = _ran(capsys, "shop", FIRST, "--stations", "0", "--json")
    assert code == 2
    assert "station" in json.loads(out)["error"]["message"]


def test_a_day_is_planned_by_the_clock(capsys: pytest.CaptureFixture[str]) -> None:
    others = [str(one) for one in episodes(demo_season())]
    code, out, _ = _ran(capsys, "day", others[3], others[4], "--ready", "18:30", "--rings", "2")
    assert code == 0
    assert "Ready at 18:30 with 1 cook, 2 rings and 1 oven" in out
    assert "preheat the oven, 190 °C" in out


def test_a_day_in_json(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = _ran(capsys, "day", FIRST, "--json")
    day = json.loads(out)
    assert day["starts_to_be_sure_min"] < day["starts_min"] < day["ready_min"] == 19 * 60


@pytest.mark.parametrize(("option", "said"), [("--ready", "half past"), ("--hours", "22:00-07:00")])
def test_what_is_no_time_is_refused(
    capsys: pytest.CaptureFixture[str], option: str, said: str
) -> None:
    code, out, _ = _ran(capsys, "day", FIRST, option, said, "--json")
    assert code == 2
    assert json.loads(out)["error"]["remedy"]
