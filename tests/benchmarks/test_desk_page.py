"""The page on the desk says what was measured, and every option of the command."""

from __future__ import annotations

import importlib.util
import inspect
import json
from pathlib import Path

from counterproof.cli.desk import desk

BENCHMARKS = Path(__file__).parents[2] / "benchmarks"


def test_the_page_is_made_from_its_measurements() -> None:
    spec = importlib.util.spec_from_file_location("desk_latency", BENCHMARKS / "desk_latency.py")
    assert spec is not None
    assert spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    told = json.loads(script.MEASUREMENTS.read_text("utf-8"))
    assert script.rendered(told) == script.PAGE.read_text("utf-8")


def test_every_option_of_the_desk_is_documented() -> None:
    page = (BENCHMARKS.parent / "docs" / "desk.md").read_text("utf-8")
    options = [name for name in inspect.signature(desk).parameters if name != "folder"]
    assert [name for name in options if f"--{name}" not in page] == []
    for picture in ("desk.png", "desk-script.png"):
        assert picture in page
        assert (BENCHMARKS.parent / "docs" / picture).is_file()
