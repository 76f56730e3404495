"""What is open: found by any name a person gives, and nothing read outside it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from counterproof.adapters.files import demo_season
from counterproof.desk.opened import copied, opened
from counterproof.errors import AlreadyThere, InputError, OutsideFolder, ReadOnly, UnreadableFile

Asking = Any
EPISODE = "01-barley-pot"
ELSEWHERE = "hob: {kind: gas}\nregion: FRA\n"


def test_a_season_an_episode_and_a_recipe_of_it_open_the_season(season: Path) -> None:
    episode = season / "episodes" / EPISODE
    for name in (season, episode, episode / "recipe.md"):
        folder = opened(str(name))
        assert folder.root == season
        assert folder.first == EPISODE
        assert folder.title == "Evenings at the hall"


def test_a_lone_recipe_opens_its_folder(tmp_path: Path) -> None:
    place = tmp_path / "soup.md"
    place.write_text("Soup\n\nIngredients\n- 1 leek\n\nMethod\n1. Boil the leek.\n")
    folder = opened(str(place))
    assert (folder.root, folder.first, folder.read_only) == (tmp_path, "soup", False)


def test_a_saved_page_is_worked_on_as_a_recipe_beside_it(tmp_path: Path) -> None:
    place = tmp_path / "soup.html"
    place.write_bytes((demo_season() / "saved" / "leek-and-potato-soup.html").read_bytes())
    folder = opened(str(place))
    leaf = folder.leaf(None)
    assert leaf.recipe == tmp_path / "recipe.md"
    assert "## Ingredients" in folder.beginning(leaf)
    (tmp_path / "recipe.md").write_text("another")
    assert opened(str(place)).leaf(None).recipe == tmp_path / "soup.md"


def test_without_a_name_the_demo_season_can_be_looked_at_and_copied(tmp_path: Path) -> None:
    demo = opened(None)
    assert demo.read_only
    with pytest.raises(ReadOnly):
        demo.writable()
    mine = copied(demo, tmp_path)
    assert not mine.read_only
    assert mine.root == tmp_path / demo.root.name
    assert [leaf.name for leaf in mine.leaves] == [leaf.name for leaf in demo.leaves]
    with pytest.raises(AlreadyThere):
        copied(demo, tmp_path)


def test_what_is_not_there_is_said_in_one_error(tmp_path: Path) -> None:
    for name in (tmp_path / "nothing.md", tmp_path):
        with pytest.raises(InputError):
            opened(str(name))


def test_a_recipe_that_is_not_in_the_folder_is_refused(season: Path) -> None:
    folder = opened(str(season))
    for name in ("../secret", "/etc/passwd", "02-not-there", "episodes/" + EPISODE):
        with pytest.raises(UnreadableFile):
            folder.leaf(name)


@pytest.mark.parametrize("how", ["traversal", "absolute", "link"])
def test_a_kitchen_outside_the_folder_is_not_read(season: Path, how: str) -> None:
    outside = season.parent / "secret.yaml"
    outside.write_text(ELSEWHERE)
    recipe = season / "episodes" / EPISODE / "recipe.md"
    named = {"traversal": "../../../secret.yaml", "absolute": str(outside), "link": "k.yaml"}[how]
    if how == "link":
        (recipe.parent / "k.yaml").symlink_to(outside)
    folder = opened(str(season))
    text = recipe.read_text().replace("measures: uk", f"kitchen: {named}")
    with pytest.raises(OutsideFolder) as fault:
        folder.order(folder.leaf(None), text)
    assert "gas" not in str(fault.value)
    assert str(season.parent) not in str(fault.value)


def test_a_kitchen_above_an_open_folder_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "kitchen.yaml").write_text(ELSEWHERE)
    (tmp_path / "prices.yaml").write_text("currency: £\nprices: []\n")
    inner = tmp_path / "a"
    inner.mkdir()
    place = inner / "soup.md"
    place.write_text("Soup\n\nIngredients\n- 1 leek\n\nMethod\n1. Boil the leek.\n")
    folder = opened(str(place))
    order = folder.order(folder.leaf(None), place.read_text())
    assert order.kitchen.hob == "ceramic"
    assert order.prices is None


def test_own_factors_outside_the_folder_are_not_read(season: Path) -> None:
    (season.parent / "own.csv").write_text("secret")
    kitchen = season / "kitchen.yaml"
    kitchen.write_text(kitchen.read_text() + "own_factors: ../own.csv\n")
    folder = opened(str(season))
    leaf = folder.leaf(None)
    order = folder.order(leaf, leaf.recipe.read_text())
    with pytest.raises(OutsideFolder):
        folder.bench(order.kitchen)


def test_a_kitchen_is_read_again_once_it_has_changed(season: Path) -> None:
    folder = opened(str(season))
    leaf = folder.leaf(None)
    text = leaf.recipe.read_text()
    assert folder.order(leaf, text).kitchen.hob == "induction"
    (season / "kitchen.yaml").write_text("hob: {kind: gas}  # changed meanwhile\n")
    assert folder.order(leaf, text).kitchen.hob == "gas"


def test_a_script_is_vetted_beside_the_seasons_others(season: Path) -> None:
    other = season / "episodes" / "02-leeks"
    other.mkdir()
    (other / "recipe.md").write_text("# Leeks\n\n- 2 leeks\n\n## Method\n\n1. Boil the leeks.\n")
    folder = opened(str(season))
    leaf = folder.leaf(EPISODE)
    episode = folder.episode(leaf, leaf.recipe.read_text())
    assert [order.recipe.title for order in episode.others] == ["Leeks"]
    assert episode.audience == ("uk", "eu")
