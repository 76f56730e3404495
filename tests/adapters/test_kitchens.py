"""Which kitchen a recipe is cooked in, and what its season says of the method."""

from __future__ import annotations

import io
from pathlib import Path

import pytest

from counterproof.adapters.files import load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.errors import BrokenSettings, UnreadableFile

TOAST = "# Toast\n\n## Ingredients\n\n- 2 slices bread\n\n## Method\n\n1. Toast the bread.\n"


def put(path: Path, content: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(content, encoding="utf-8")
    return path


def test_which_kitchen(tmp_path: Path) -> None:
    recipe_file = put(tmp_path / "season" / "episodes" / "01-a" / "recipe.md", TOAST)

    def altitude(override: str | None = None) -> float:
        return load_kitchen(load_recipe(str(recipe_file))[0], override).altitude_m

    assert altitude() == 0
    put(tmp_path / "season" / "kitchen.yaml", "altitude_m: 1")
    assert altitude() == 1
    put(tmp_path / "season" / "season.yaml", "title: S\nkitchen: hall.yaml")
    put(tmp_path / "season" / "hall.yaml", "altitude_m: 2")
    assert altitude() == 2
    put(recipe_file, "---\nkitchen: mine.yaml\n---\n" + TOAST)
    put(recipe_file.parent / "mine.yaml", "altitude_m: 3")
    assert altitude() == 3
    assert altitude(str(put(tmp_path / "other.yaml", "altitude_m: 4"))) == 4


def test_the_seasons_method_stands_unless_the_kitchen_says(tmp_path: Path) -> None:
    recipe_file = put(tmp_path / "recipe.md", TOAST)
    put(tmp_path / "season.yaml", "title: S\nmethod: {middle: median, range_for: the-average}")
    put(tmp_path / "kitchen.yaml", "middle: mean")
    kitchen = load_kitchen(load_recipe(str(recipe_file))[0])
    assert (kitchen.middle, kitchen.range_for) == ("mean", "the-average")


def test_a_kitchen_that_is_named_must_be_there(tmp_path: Path) -> None:
    recipe_file = put(tmp_path / "recipe.md", "---\nkitchen: gone.yaml\n---\n" + TOAST)
    with pytest.raises(UnreadableFile, match="no such file"):
        load_kitchen(load_recipe(str(recipe_file))[0])
    put(tmp_path / "gone.yaml", "altitud_m: 3")
    with pytest.raises(BrokenSettings, match="altitude_m"):
        load_kitchen(load_recipe(str(recipe_file))[0])
    assert load_kitchen(load_recipe("-", io.BytesIO(TOAST.encode()))[0]).stated == frozenset()
