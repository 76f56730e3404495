"""The page on freezing and drinks says what was measured, and the times wanted are kept."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path

HOUSE = Path(__file__).parents[2]
SPEED = HOUSE / "benchmarks" / "measurements" / "physics_drinks_speed.json"


def test_the_page_is_made_from_its_measurements() -> None:
    path = HOUSE / "benchmarks" / "physics_drinks.py"
    spec = importlib.util.spec_from_file_location("physics_drinks", path)
    assert spec is not None
    assert spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    drinks, speed = (json.loads(f.read_text("utf-8")) for f in (script.MEASUREMENTS, script.SPEED))
    assert script.rendered(drinks, speed) == script.PAGE.read_text("utf-8")


def test_what_was_measured_is_as_fast_as_wanted() -> None:
    # Read from the file, not timed here: a jar below 1 s, with draws below 3 s, all else below
    # 100 ms in the middle.
    for row in json.loads(SPEED.read_text("utf-8"))["answers"]:
        jar = row["question"].startswith(("freeze", "thaw in"))
        assert row["middle_ms"] < (1000.0 if jar else 100.0)
        assert row["draws_ms"] < 3000.0
