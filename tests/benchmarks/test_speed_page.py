"""The page on speed says what was measured; nothing is timed here."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path

import pytest

BENCHMARKS = Path(__file__).parents[2] / "benchmarks"


def test_the_page_is_made_from_its_measurements(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(BENCHMARKS))  # a script finds its neighbours
    spec = importlib.util.spec_from_file_location("speed", BENCHMARKS / "speed.py")
    assert spec is not None
    assert spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    speeds = json.loads(script.MEASUREMENTS.read_text("utf-8"))
    assert script.rendered(speeds) == script.PAGE.read_text("utf-8")
