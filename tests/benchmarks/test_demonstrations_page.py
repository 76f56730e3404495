"""The page of demonstrations is made from what was worked out and from nothing else."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def builder() -> ModuleType:
    """The script that builds the page, loaded without running it."""
    found = importlib.util.spec_from_file_location(
        "demonstrations", ROOT / "benchmarks" / "demonstrations.py"
    )
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


def test_the_page_is_what_was_worked_out(builder: ModuleType) -> None:
    told = json.loads(builder.MEASUREMENTS.read_text("utf-8"))
    assert builder.PAGE.read_text("utf-8") == builder.rendered(told)
    assert len(told["stew"]) == len(builder.REGIONS) * len(builder.HOBS)
    assert [row["litres"] for row in told["cordial"]] == ["1", "5", "25", "100", "500"]
