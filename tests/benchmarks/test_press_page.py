"""The page on the press folder says what was measured; nothing is timed here."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path

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
