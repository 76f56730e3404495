"""The plan's page is made from the committed measurements and from nothing else."""

from __future__ import annotations

import importlib.util
import json
from pathlib import Path
from types import ModuleType
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def builder() -> ModuleType:
    """The script that builds the page, loaded without running it."""
    found = importlib.util.spec_from_file_location(
        "plan_of_recipes", ROOT / "benchmarks" / "plan_of_recipes.py"
    )
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


@pytest.fixture(scope="module")
def values(builder: ModuleType) -> Any:
    """What was measured."""
    return json.loads(builder.MEASUREMENTS.read_text("utf-8"))


@pytest.mark.frozen
def test_the_page_is_what_the_measurements_say(builder: ModuleType, values: Any) -> None:
    page = builder.PAGE.read_text("utf-8")
    assert page == builder.rendered(values), "run benchmarks/plan_of_recipes.py --page"


@pytest.mark.frozen
def test_the_measurements_are_of_this_plan(builder: ModuleType, values: Any) -> None:
    assert values["assumed"] == builder.assumed(), "run benchmarks/plan_of_recipes.py"


def test_the_page_promises_nothing(builder: ModuleType) -> None:
    assert "safe" not in builder.PAGE.read_text("utf-8").lower()
