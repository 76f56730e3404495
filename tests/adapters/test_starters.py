"""Folders to start from."""

from __future__ import annotations

from pathlib import Path

import pytest

from counterproof.adapters.files import episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen, load_season
from counterproof.adapters.starters import new_episode, new_season, slug
from counterproof.errors import AlreadyThere, InputError, UnreadableFile
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.kitchen_file import read_kitchen


def test_a_new_season_can_be_used_as_it_is(tmp_path: Path) -> None:
    written = new_season('Mum\'s "best" soups', tmp_path)
    season = tmp_path / "mums-best-soups"
    assert all(path.is_file() for path in written)
    assert load_season(season).title == 'Mum\'s "best" soups'
    (episode,) = episodes(season)
    recipe, _ = load_recipe(str(episode))
    assert (recipe.title, recipe.serves, recipe.marks) == ("First supper", (4, 4), ())
    assert (len(recipe.lines), len(recipe.steps)) == (7, 3)
    assert "[= one serving" in (episode / "script.md").read_text(encoding="utf-8")
    assert load_kitchen(recipe).region == "uk"


def test_every_commented_setting_of_the_templates_is_right(tmp_path: Path) -> None:
    new_season("S", tmp_path)
    season = tmp_path / "s"
    text = (season / "kitchen.yaml").read_text(encoding="utf-8")
    opened = "\n".join(
        line.removeprefix("# ") if ":" in line.split("#")[1] else line
        for line in text.splitlines()
        if line.startswith("# ")
        and (":" in line or line.startswith("#   -"))
        and not line.startswith("# The")
        and not line.startswith("# What")
    )
    kitchen = read_kitchen(opened)
    assert kitchen.stated == frozenset(Kitchen.__dataclass_fields__) - {
        "stated", "file", "region", "middle", "range_for", "own_factors",
    }  # fmt: skip
    recipe_file = season / "episodes" / "01-first-supper" / "recipe.md"
    recipe_text = recipe_file.read_text(encoding="utf-8")
    recipe_file.write_text(
        recipe_text.replace("\n# ", "\n", 9).replace("\nThese", "\n# These"), encoding="utf-8"
    )
    recipe, version = load_recipe(f"{recipe_file}+chicken")
    assert (version, recipe.marks) == ("chicken", ())
    assert recipe.bought is not None
    assert recipe.eaten == 0.9


def test_episodes_are_numbered_on(tmp_path: Path) -> None:
    new_season("Suppers", tmp_path)
    season = tmp_path / "suppers"
    new_episode("Pear crumble", season)
    written = new_episode("# Crème  brûlée", season / "episodes" / "01-first-supper")
    assert [one.name for one in episodes(season)] == [
        "01-first-supper",
        "02-pear-crumble",
        "03-creme-brulee",
    ]
    assert load_recipe(str(written[0]))[0].title == "# Crème brûlée"


def test_an_episode_may_stand_alone(tmp_path: Path) -> None:
    written = new_episode("Tea", tmp_path)
    assert [path.relative_to(tmp_path).as_posix() for path in written] == [
        "tea/recipe.md",
        "tea/script.md",
    ]


def test_nothing_is_written_over(tmp_path: Path) -> None:
    new_season("Suppers", tmp_path)
    place = tmp_path / "suppers" / "season.yaml"
    place.write_text("title: Mine", encoding="utf-8")
    with pytest.raises(AlreadyThere):
        new_season("Suppers", tmp_path)
    new_episode("Tea", tmp_path / "suppers")
    with pytest.raises(AlreadyThere):
        new_episode("tea", tmp_path / "suppers")
    assert place.read_text(encoding="utf-8") == "title: Mine"
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(AlreadyThere):
        new_season("file", tmp_path)


def test_a_place_that_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    with pytest.raises(UnreadableFile):
        new_season("Suppers", tmp_path / "file")


@pytest.mark.parametrize(
    ("name", "bare"),
    [
        ("Pea's Soup!", "peas-soup"),
        ("Crème brûlée", "creme-brulee"),
        ("../up/and away", "up-and-away"),
        ("щи", "щи"),
        ("a" * 99, "a" * 60),
    ],
)
def test_slug(name: str, bare: str) -> None:
    assert slug(name) == bare


@pytest.mark.parametrize("name", ["", "…", "🍲", "/"])
def test_a_name_without_words(name: str) -> None:
    with pytest.raises(InputError, match="no letter or digit"):
        slug(name)
