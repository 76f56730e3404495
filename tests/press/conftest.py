"""The demo episodes locked up for the press, each worked out once for all tests of the press."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import cache

import pytest

from counterproof.adapters.files import demo_season, episodes, load_recipe, load_text
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Streams
from counterproof.forme import Forme
from counterproof.locking_up import Manuscript, locked_up
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode

EPISODES = tuple(episode.name for episode in episodes(demo_season()))
DAY = "2026-11-25"

MadeForme = Callable[..., Forme]


@pytest.fixture(scope="session")
def demo_forme(bench: Workbench) -> MadeForme:
    """`demo_forme("02-rhubarb-cordial", language="de")`: an episode ready for the press."""

    @cache
    def worked_out(name: str) -> Forme:
        place = demo_season() / "episodes" / name
        recipe, version = load_recipe(str(place))
        order = Order(recipe, load_kitchen(recipe), version, name=recipe.title)
        file = place / "script.md"
        script = load_text(file) if file.is_file() else None
        manuscript = Manuscript(Episode(order), script, str(file) if script else None)
        return locked_up(manuscript, bench, Streams(seed=1), date=DAY)

    def forme(name: str, **changed: object) -> Forme:
        return replace(worked_out(name), **changed)  # type: ignore[arg-type]

    return forme
