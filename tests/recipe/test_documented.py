"""Every key that may be written is on the page that says what may be written."""

from __future__ import annotations

from pathlib import Path

import pytest

from counterproof.recipe.front_matter import (
    BoughtSettings,
    FrontMatter,
    KeepSettings,
    PackSettings,
    VersionSettings,
)
from counterproof.recipe.kitchen_file import Fizz, Freezer, Fridge, Hob, KitchenSettings, Oven
from counterproof.recipe.kitchen_file import VesselSettings as Vessels
from counterproof.recipe.season_file import Method, SeasonSettings
from counterproof.recipe.settings import Settings

PAGE = Path(__file__).parents[2] / "docs" / "recipe-files.md"
MODELS: list[type[Settings]] = [
    *(FrontMatter, PackSettings, KeepSettings, BoughtSettings, VersionSettings),
    *(KitchenSettings, Hob, Oven, Fridge, Freezer, Fizz, Vessels),
    *(SeasonSettings, Method),
]


@pytest.mark.parametrize("model", MODELS)
def test_every_key_is_documented(model: type[Settings]) -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert [key for key in model.model_fields if f"`{key}`" not in page] == []
