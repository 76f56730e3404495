"""The physics page is made from the committed measurements and from nothing else."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def builder() -> ModuleType:
    """The script that builds the page, loaded without running it."""
    found = importlib.util.spec_from_file_location(
        "physics_heat", ROOT / "benchmarks" / "physics_heat.py"
    )
    assert found is not None
    assert found.loader is not None
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module


@pytest.mark.frozen
def test_the_page_is_what_the_measurements_say(builder: ModuleType) -> None:
    page = (ROOT / "docs" / "physics.md").read_text("utf-8")
    assert page == builder.rendered(builder.sections()), "run benchmarks/physics_heat.py --page"
