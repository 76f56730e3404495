"""`press` as a person types it: a finished folder or the old one, and what moved since."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest

from counterproof.adapters import press_folder
from counterproof.cli import main
from counterproof.press.folder import PARTS

SOUP = """# Lentil soup

Serves 4

- 250 g red lentils
- 2 onions
- 1 litre vegetable stock
- 2 tbsp olive oil

1. Soften the onions in the oil, 8 minutes.
2. Add the rest and simmer, covered, for 25 minutes.
"""
QUICK = ("--date", "2026-11-25", "--draws", "200")


@pytest.fixture
def soup(tmp_path: Path) -> Path:
    """An episode of its own."""
    place = tmp_path / "soup"
    place.mkdir()
    (place / "recipe.md").write_text(SOUP)
    return place


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, str, str]:
    """Exit status, output and messages of one command."""
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    said = capsys.readouterr()
    return int(ended.value.code or 0), said.out, said.err


def document(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, Any]:
    """Exit status and the one JSON document."""
    status, out, _ = run(capsys, *arguments, "--json")
    return status, json.loads(out)


def test_every_file_is_in_the_manifest_with_its_checksum(
    soup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    status, told = document(capsys, "press", str(soup), *QUICK)
    folder = soup / "press"
    assert status == 0
    assert told["folder"] == str(folder)
    # without a script there is none to press
    assert {file["part"] for file in told["files"]} == set(PARTS) - {"script"}
    manifest = json.loads((folder / "manifest.json").read_text())
    there = {
        place.relative_to(folder).as_posix(): sha256(place.read_bytes()).hexdigest()
        for place in folder.rglob("*")
        if place.is_file() and place.name != "manifest.json"
    }
    assert {file["name"]: file["sha256"] for file in manifest["files"]} == there
    assert manifest["basis"]["seed"] == 1
    assert manifest["basis"]["draws"] == 200
    assert manifest["inputs"] == {"recipe.md": sha256(SOUP.encode()).hexdigest()}


def test_pressed_twice_the_bytes_are_the_same_and_nothing_has_moved(
    soup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(capsys, "press", str(soup), *QUICK)
    first = press_folder.contents_of(soup / "press")
    run(capsys, "press", str(soup), *QUICK)
    assert press_folder.contents_of(soup / "press") == first
    status, told = document(capsys, "press", str(soup), "--verify")
    assert (status, told["holds"]) == (0, True)


def test_another_process_in_another_time_zone_gives_the_same_bytes(soup: Path) -> None:
    made = []
    for seed, zone in (("1", "UTC"), ("2", "Asia/Tokyo")):
        place = soup.parent / f"out-{seed}"
        command = [sys.executable, "-m", "counterproof", "press", str(soup), "-o", str(place)]
        subprocess.run(  # noqa: S603 (our own program)
            [*command, *QUICK],
            check=True,
            capture_output=True,
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
        )
        made.append(press_folder.contents_of(place))
    assert made[0] == made[1]


def test_verify_says_which_figures_and_lines_moved(
    soup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(capsys, "press", str(soup), *QUICK)
    (soup / "recipe.md").write_text(SOUP.replace("250 g red lentils", "500 g red lentils"))
    status, told = document(capsys, "press", str(soup), "--verify")
    assert (status, told["holds"]) == (1, False)
    assert told["inputs"] == ["recipe.md"]
    assert "serving" in [figure["key"] for figure in told["moved"]["figures"]]
    mass = next(one for one in told["moved"]["lines"] if one["key"] == "mass:1")
    assert mass["was"].startswith("250")
    assert mass["now"].startswith("500")
    _, shown, _ = run(capsys, "press", str(soup), "--verify")
    assert "Figures" in shown
    assert "→" in shown


def test_verify_names_what_was_changed_by_hand(
    soup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(capsys, "press", str(soup), *QUICK)
    (soup / "press" / "card" / "card.txt").write_text("mine")
    status, told = document(capsys, "press", str(soup), "--verify")
    assert status == 1
    assert told["touched"] == ["card/card.txt"]


def test_a_part_alone_leaves_the_others_and_says_when_they_are_older(
    soup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run(capsys, "press", str(soup), *QUICK)
    before = press_folder.contents_of(soup / "press")
    status, told = document(capsys, "press", str(soup), "--only", "card", *QUICK)
    assert (status, told["left_behind"]) == (0, [])
    assert press_folder.contents_of(soup / "press") == before
    later = ("--date", "2026-12-01", "--draws", "200")
    status, told = document(capsys, "press", str(soup), "--only", "card", *later)
    assert status == 1
    assert set(told["left_behind"]) == set(PARTS) - {"card", "script"}


def test_a_part_alone_in_a_fresh_folder(soup: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = soup.parent / "out"
    status, told = document(capsys, "press", str(soup), "-o", str(place), "--only", "card", *QUICK)
    assert status == 0
    assert {file["part"] for file in told["files"]} == {"card"}


def test_paper_measures_language_and_servings_reach_the_card(
    soup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ("--only", "card", "--language", "de", "--measures", "metric", "--serves", "8")
    run(capsys, "press", str(soup), *asked, *QUICK)
    text = (soup / "press" / "card" / "card.txt").read_text()
    assert "für 8 Portionen" in text
    assert "500 g red lentils" in text
    assert "US" not in text.split("Zubereitung")[0]


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--paper", "a3"), "a5, a4, letter, index"),
        (("--measures", "imperial"), "metric, us, both"),
        (("--only", "poster"), "its parts are: card"),
        (("--language", "fr"), "it has: en, de"),
        (("--verify", "--only", "card"), "Give one of the two"),
        (("--date", "25.11.2026"), "is not a day"),
        (("--verify",), "no press folder here"),
    ],
)
def test_what_cannot_be_done_is_one_clear_error_and_nothing_is_written(
    soup: Path, capsys: pytest.CaptureFixture[str], options: tuple[str, ...], says: str
) -> None:
    status, told = document(capsys, "press", str(soup), *options)
    assert status == 2
    assert says in f"{told['error']['message']} {told['error']['remedy']}"
    assert [place.name for place in soup.iterdir()] == ["recipe.md"]


def test_a_folder_of_somebody_elses_stays(soup: Path, capsys: pytest.CaptureFixture[str]) -> None:
    mine = soup / "press"
    mine.mkdir()
    (mine / "notes.txt").write_text("mine")
    status, told = document(capsys, "press", str(soup), *QUICK)
    assert (status, told["error"]["kind"]) == (2, "AlreadyThere")
    assert (mine / "notes.txt").read_text() == "mine"


def test_an_interrupted_run_leaves_the_old_folder(
    soup: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    run(capsys, "press", str(soup), *QUICK)
    before = press_folder.contents_of(soup / "press")

    def interrupted(*_: Any) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(press_folder, "_change_places", interrupted)
    (soup / "recipe.md").write_text(SOUP.replace("250 g", "300 g"))
    status, _, _ = run(capsys, "press", str(soup), *QUICK)
    assert status == 130
    assert press_folder.contents_of(soup / "press") == before
    assert sorted(place.name for place in soup.iterdir()) == ["press", "recipe.md"]


def test_a_recipe_from_standard_input_and_a_version_can_be_pressed(
    soup: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    versioned = (
        f"---\nversions:\n  beans: {{swap: {{red lentils: 300 g white beans}}}}\n---\n{SOUP}"
    )
    (soup / "recipe.md").write_text(versioned)
    place = str(soup.parent / "out")
    run(capsys, "press", f"{soup}+beans", "-o", place, "--only", "card", *QUICK)
    text = (Path(place) / "card" / "card.txt").read_text()
    assert "LENTIL SOUP, BEANS" in text
    assert "300 g white beans" in text
    assert (
        json.loads((Path(place) / "manifest.json").read_text())["impression"]["version"] == "beans"
    )
