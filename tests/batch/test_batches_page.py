"""The story of docs/batches.md, run as it is told: what it shows is what the commands print."""

from __future__ import annotations

import io
import re
import shutil
import sys
from pathlib import Path

import pytest

from counterproof.adapters.files import demo_season
from counterproof.batch.record_talk import record_of
from counterproof.cli import main

PAGE = (Path(__file__).parents[2] / "docs" / "batches.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", PAGE, re.DOTALL | re.MULTILINE)
SHOWN = [text for kind, text in BLOCKS if not kind]
WIDTHS = {"weigh-in": 80, "record": 110, "scale": 100}


def _printed(
    command: str, typed: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> list[str]:
    words = [word.strip('"') for word in re.findall(r'"[^"]*"|\S+', command)][1:]
    monkeypatch.setenv("COLUMNS", str(WIDTHS[words[0]]))
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(typed.encode()), "utf-8"))
    with pytest.raises(SystemExit):
        main(words)
    return capsys.readouterr().out.splitlines()


@pytest.mark.parametrize("shown", SHOWN, ids=[text.splitlines()[0][2:] for text in SHOWN])
def test_every_block_is_what_the_command_prints(
    shown: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    shutil.copytree(demo_season(), tmp_path / "season")
    episode = tmp_path / "season" / "episodes" / "02-rhubarb-cordial"
    monkeypatch.chdir(episode)
    command, *lines = shown.splitlines()
    if "weigh-in" in command:
        shutil.rmtree(episode / "batches")
    typed = next(text for kind, text in BLOCKS if kind == "typed")
    printed = _printed(command.removeprefix("$ "), typed, capsys, monkeypatch)
    at = 0
    for line in lines:
        if line == "…":
            continue
        assert line in printed[at:], line
        at = printed.index(line, at) + 1
    if "weigh-in" in command:
        recipe = (episode / "recipe.md").read_text()
        written = next(text for kind, text in BLOCKS if kind == "written")
        assert set(written.splitlines()) <= set(recipe.splitlines())


def test_the_record_that_is_shown_is_one_and_is_the_demo_s() -> None:
    text = next(text for kind, text in BLOCKS if kind == "record")
    assert record_of(text.replace("…", "")).marks == ()
    ours = demo_season() / "episodes" / "02-rhubarb-cordial" / "batches" / "2026-11-21.md"
    known = ours.read_text().splitlines()
    assert [line for line in text.splitlines() if line not in known and line != "…"] == []


def test_every_option_of_the_three_commands_is_told() -> None:
    from typer.main import get_command  # noqa: PLC0415 - the commands are built for this alone

    from counterproof.cli import app  # noqa: PLC0415

    commands = getattr(get_command(app), "commands", {})
    names = {
        name
        for command in ("weigh-in", "record", "scale")
        for option in commands[command].params
        for name in getattr(option, "opts", ())
        if name.startswith("--")
    }
    assert {"--from", "--accept", "--stations"} <= names
    common = {"--help", "--kitchen", "--seed", "--draws", "--date"}
    assert {name for name in names - common if name not in PAGE} == set()
