"""Files as people name them, and files that are no recipes."""

from __future__ import annotations

import io
import shutil
from pathlib import Path

import pytest

from counterproof.adapters.files import demo_season, episodes, load_recipe, load_text
from counterproof.adapters.kitchens import load_kitchen, load_season
from counterproof.errors import (
    BrokenFrontMatter,
    InputError,
    NotARecipe,
    UnknownVersion,
    UnreadableFile,
)

TOAST = "# Toast\n\n## Ingredients\n\n- 2 slices bread\n\n## Method\n\n1. Toast the bread.\n"
BEEF = "---\nversions:\n  beef: {swap: {bread: 200 g beef}}\n---\n" + TOAST


def put(path: Path, content: str | bytes) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def test_a_version_is_named_behind_a_plus(tmp_path: Path) -> None:
    place = put(tmp_path / "toast.md", BEEF)
    assert load_recipe(str(place))[1] is None
    recipe, version = load_recipe(f"{place}+beef")
    assert (recipe.title, version, recipe.file) == ("Toast", "beef", str(place))


def test_a_plus_may_be_part_of_the_name(tmp_path: Path) -> None:
    place = put(tmp_path / "salt+pepper.md", BEEF)
    assert load_recipe(str(place))[1] is None
    assert load_recipe(f"{place}+beef")[1] == "beef"


def test_an_unknown_version(tmp_path: Path) -> None:
    place = put(tmp_path / "toast.md", BEEF)
    with pytest.raises(UnknownVersion, match="beef") as caught:
        load_recipe(f"{place}+beaf")
    assert caught.value.remedy == 'Did you mean "beef"?'
    bare = put(tmp_path / "bare.md", TOAST)
    with pytest.raises(UnknownVersion, match="has none"):
        load_recipe(f"{bare}+beef")


def test_standard_input() -> None:
    recipe, version = load_recipe("-+beef", io.BytesIO(BEEF.encode()))
    assert (recipe.title, version, recipe.file) == ("Toast", "beef", "-")
    for text in ('{"@type": "Recipe", "name": "T", "recipeIngredient": ["bread"]}',):
        assert load_recipe("-", io.BytesIO(text.encode()))[0].title == "T"
        page = f"<!DOCTYPE html><script type='application/ld+json'>{text}</script>"
        assert load_recipe("-", io.BytesIO(page.encode()))[0].title == "T"
    with pytest.raises(NotARecipe, match="empty"):
        load_recipe("-", io.BytesIO())


def test_an_episode_folder_and_a_season_of_one(tmp_path: Path) -> None:
    put(tmp_path / "season.yaml", "title: Suppers")
    place = put(tmp_path / "episodes" / "01-toast" / "recipe.md", TOAST)
    for name in (place, place.parent, tmp_path):
        assert load_recipe(str(name))[0].title == "Toast"
    put(tmp_path / "episodes" / "02-tea" / "recipe.md", TOAST)
    with pytest.raises(NotARecipe, match="2 episodes") as caught:
        load_recipe(str(tmp_path))
    assert "02-tea" in caught.value.remedy


def test_a_folder_without_a_recipe(tmp_path: Path) -> None:
    with pytest.raises(NotARecipe, match="no recipe"):
        load_recipe(str(tmp_path))


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    put(tmp_path / "toast.md", TOAST)
    with pytest.raises(UnreadableFile, match="no such file") as caught:
        load_recipe(str(tmp_path / "tost.md"))
    assert "toast.md" in caught.value.remedy
    for name in ("", "x" * 5000, "nul\x00byte"):
        with pytest.raises(InputError):
            load_recipe(name)


@pytest.mark.parametrize(
    ("name", "content", "line", "words"),
    [
        ("latin.md", b"# Caf\xc3\xa9\n\n250 ml cr\xe8me\n", 3, 'byte 19 is 0xE8, "è" in Latin-1'),
        ("cut.md", "1 cup crème".encode()[:-3], 1, "byte 9 is 0xC3"),
        ("bom.md", b"\xef\xbb\xbfa\r\nb\r\n\xff", 3, "byte 10 is 0xFF"),
        ("wide.md", "# Toast".encode("utf-16"), 1, "UTF-16"),
        ("blob.md", b"ab\ncd\x00\x01", 2, "byte 6 is zero"),
        ("scan.md", b"%PDF-1.7 ...", None, "a PDF"),
        ("office.txt", b"PK\x03\x04....", None, "word-processor"),
        ("picture.md", b"\x89PNG\r\n\x1a\n", None, "a picture"),
        ("empty.md", b"", None, "empty"),
        ("page.html", b"<html><body>Toast</body></html>", None, "no schema.org recipe"),
        ("data.json", b'{"a":\n1,,}', 2, "not JSON"),
        ("front.md", b"---\nserves: [\n---\nx", 2, "YAML"),
    ],
)
def test_what_is_no_recipe(
    tmp_path: Path, name: str, content: bytes, line: int | None, words: str
) -> None:
    place = put(tmp_path / name, content)
    with pytest.raises(InputError) as caught:
        load_recipe(str(place))
    assert words in caught.value.message
    assert (caught.value.file, caught.value.line) == (str(place), line)
    assert caught.value.remedy


@pytest.mark.parametrize("name", ["huge.md", "huge.html"])
def test_a_file_too_large_is_refused_before_it_is_read(
    tmp_path: Path, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / name
    with place.open("wb") as stream:
        stream.truncate(50_000_000)
    monkeypatch.setattr(Path, "open", None)
    with pytest.raises(UnreadableFile, match="50 MB"):
        load_recipe(str(place))


def test_too_much_on_standard_input() -> None:
    with pytest.raises(UnreadableFile, match="larger"):
        load_recipe("-", io.BytesIO(b"a" * 20_000_001))


def test_a_page_in_the_encoding_it_names(tmp_path: Path) -> None:
    text = (
        '<html><head><meta charset="iso-8859-1"><script type="application/ld+json">'
        '{"@type": "Recipe", "name": "Crème", "recipeIngredient": ["1 œuf", "½ l crème"]}'
        "</script></head></html>"
    )
    place = put(tmp_path / "page.html", text.encode("cp1252"))
    assert [line.text for line in load_recipe(str(place))[0].lines] == ["1 œuf", "½ l crème"]
    wide = put(tmp_path / "wide.html", text.encode("utf-16"))
    assert load_recipe(str(wide))[0].title == "Crème"


def test_the_demo_season() -> None:
    season = demo_season()
    assert load_season(season).title == "Cold-Month Suppers"
    found = episodes(season)
    assert len(found) == 6
    for episode in found:
        recipe, _ = load_recipe(str(episode))
        assert recipe.marks == ()
        assert recipe.serves is not None
        assert recipe.serves[0] >= 8
        assert len(recipe.lines) >= 9
        assert len(recipe.steps) >= 4
        assert load_kitchen(recipe).altitude_m == 900
        assert "[= one serving of this recipe" in load_text(episode / "script.md")
        for version in recipe.versions:
            for words in version.swap:
                assert sum(words in line.text for line in recipe.lines) == 1


def test_the_demo_stew_and_cordial_have_what_the_evening_needs() -> None:
    stew, cordial = (load_recipe(str(one))[0] for one in episodes(demo_season())[:2])
    assert [version.name for version in stew.versions] == ["chicken", "beef"]
    assert any("strain" in step.text for step in cordial.steps)
    assert cordial.bought is not None
    assert cordial.pack[0].container == "pint jar"
    assert cordial.makes == "about 1.2 litres of cordial"


def test_the_demos_saved_page(tmp_path: Path) -> None:
    page = demo_season() / "saved" / "leek-and-potato-soup.html"
    recipe, _ = load_recipe(str(page))
    assert recipe.title == "Leek & potato soup"
    assert (len(recipe.lines), len(recipe.steps)) == (11, 4)
    assert [mark.kind for mark in recipe.marks] == ["broken-block"]
    copy = shutil.copy(page, tmp_path / "copy.htm")
    assert load_recipe(str(copy))[0].lines == recipe.lines


def test_front_matter_faults_name_the_file_as_it_was_given(tmp_path: Path) -> None:
    place = put(tmp_path / "toast.md", "---\r\nserves: no\r\n---\r\n" + TOAST)
    with pytest.raises(BrokenFrontMatter) as caught:
        load_recipe(str(place))
    assert str(caught.value).startswith(f"{place}, line 2: ")


def test_recipes_of_the_season_that_a_line_names_stand_beside_it(tmp_path: Path) -> None:
    put(tmp_path / "season.yaml", "title: Suppers")
    step = "\n\n1. Bake.\n"
    tart = put(
        tmp_path / "episodes" / "01-tart" / "recipe.md",
        f"# Tart\n\n- 1 quantity shortcrust pastry\n- 3 leeks{step}",
    )
    put(
        tmp_path / "episodes" / "02-pastry" / "recipe.md",
        f"---\ntitle: Shortcrust pastry\n---\n\n- 250 g flour\n- 1 quantity clear butter{step}",
    )
    put(tmp_path / "episodes" / "03-tea" / "recipe.md", "---\nserves: [\n---\n# Tea\n")  # broken
    put(tmp_path / "recipes" / "butter.md", f"# Clear butter\n\n- 250 g butter{step}")
    recipe, _ = load_recipe(str(tart))
    assert [one.title for one in recipe.beside] == ["Shortcrust pastry", "Clear butter"]
    alone, _ = load_recipe(str(put(tmp_path.parent / "lone.md", TOAST)))
    assert alone.beside == ()
