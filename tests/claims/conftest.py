"""The data tables, and a season's episodes to vet scripts beside."""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterproof.adapters.files import demo_season, episodes, load_recipe, load_text
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Streams
from counterproof.rows import Tables
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode


@pytest.fixture(scope="session")
def tables(bench: Workbench) -> Tables:
    return bench.tables


@pytest.fixture(scope="session")
def season() -> dict[str, Episode]:
    """Every episode of the demo season by its number, each beside the others."""
    orders = {}
    for folder in episodes(demo_season()):
        recipe, _ = load_recipe(str(folder))
        orders[folder.name[:2]] = Order(recipe, load_kitchen(recipe), name=recipe.title)
    return {
        number: Episode(
            order,
            tuple(other for name, other in orders.items() if name != number),
            ("uk", "eu"),
        )
        for number, order in orders.items()
    }


@pytest.fixture(scope="session")
def scripts() -> dict[str, str]:
    """Every script of the demo season by its episode's number."""
    return {
        folder.name[:2]: load_text(folder / "script.md")
        for folder in episodes(demo_season())
        if (folder / "script.md").is_file()
    }


@pytest.fixture(scope="session")
def claim_streams() -> Streams:
    return Streams(seed=1, n=2000)


@pytest.fixture(scope="session")
def lone(season: dict[str, Episode]) -> Episode:
    """The first episode without its season."""
    return replace(season["01"], others=())
