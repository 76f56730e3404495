"""The page on the press folder says what was measured; nothing is timed here."""

from __future__ import annotations

import importlib.util
import inspect
import json
from pathlib import Path

from counterproof.cli.press import press
from counterproof.press.folder import PARTS

BENCHMARKS = Path(__file__).parents[2] / "benchmarks"


def test_the_page_is_made_from_its_measurements() -> None:
    spec = importlib.util.spec_from_file_location("press_speed", BENCHMARKS / "press_speed.py")
    assert spec is not None
    assert spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    speeds = json.loads(script.MEASUREMENTS.read_text("utf-8"))
    assert script.rendered(speeds) == script.PAGE.read_text("utf-8")
    assert set(speeds["parts"]) == set(PARTS)


def test_every_part_and_option_of_the_press_is_documented() -> None:
    page = (BENCHMARKS.parent / "docs" / "press.md").read_text("utf-8")
    assert [part for part in PARTS if f"| `{part}/` |" not in page] == []
    options = [name for name in inspect.signature(press).parameters if name != "episode"]
    spelled = {"as_json": "json", "output": "o"}
    missing = [name for name in options if f"-{spelled.get(name, name)}" not in page]
    assert missing == []
