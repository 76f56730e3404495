"""What the web site takes: schema.org data, the head of a page, show notes."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from dataclasses import replace
from html.parser import HTMLParser
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof import numerals
from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.forme import Forme
from counterproof.press import site
from counterproof.press.fixed_words import LANGUAGES, words_in
from counterproof.press.linked_data import duration, inside_html, recipe_data
from counterproof.recipe.model import Recipe
from counterproof.recipe.page import read_page
from counterproof.recipe.schema_org import read_json

EPISODES = [episode.name for episode in episodes(demo_season())]
MadeForme = Callable[..., Forme]


def made(forme: Forme) -> dict[str, str]:
    found = {}
    for piece in site.pieces(forme, words_in(forme.language)):
        assert isinstance(piece.content, bytes)
        found[piece.name] = piece.content.decode()
    return found


def as_written(recipe: Recipe) -> Recipe:
    """A recipe without what a file alone knows: its name, its line numbers, remarks on it."""
    return replace(
        recipe,
        file=None,
        marks=(),
        lines=tuple(replace(line, at=None) for line in recipe.lines),
        steps=tuple(replace(step, at=None) for step in recipe.steps),
        versions=tuple(replace(version, at=None) for version in recipe.versions),
    )


class Head(HTMLParser):
    """The properties and the data in the head of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.told: dict[str, str] = {}
        self.data = ""
        self._in_data = False
        self.tags: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        told = dict(attrs)
        self.tags.append(tag)
        name = told.get("property") or told.get("name")
        if tag == "meta" and name:
            self.told[name] = told["content"] or ""
        self._in_data = tag == "script" and told.get("type") == "application/ld+json"

    def handle_data(self, data: str) -> None:
        if self._in_data:
            self.data += data
            self._in_data = False


@pytest.mark.parametrize("name", EPISODES)
def test_the_data_is_read_back_equal(name: str, demo_forme: MadeForme) -> None:
    forme = demo_forme(name)
    recipe, _ = load_recipe(str(demo_season() / "episodes" / name))
    files = made(forme)
    assert as_written(read_json(files["site/recipe.json"])) == as_written(recipe)
    page = f"<!doctype html><html><head>{files['site/head.html']}</head><body></body></html>"
    assert as_written(read_page(page)) == as_written(recipe)


@pytest.mark.published
@pytest.mark.parametrize("name", EPISODES)
def test_the_data_holds_what_schema_org_and_common_readers_ask_for(
    name: str, demo_forme: MadeForme
) -> None:
    # schema.org/Recipe and schema.org/NutritionInformation (V28); readers of search engines ask
    # for name and image, and recommend the others named here (structured data for recipes, from
    # memory). Durations are ISO 8601; energy and masses are a number, a blank and a unit.
    forme = demo_forme(name)
    data = json.loads(made(forme)["site/recipe.json"])
    assert data["@type"] == "Recipe"
    assert data["@context"][0] == "https://schema.org"
    assert data["name"]
    assert data["image"] == ["og.png"]
    assert data["datePublished"] == forme.date
    assert data["recipeYield"]
    assert len(data["recipeIngredient"]) == len(forme.edition.lines)
    assert re.fullmatch(r"P(\d+D)?(T(\d+H)?(\d+M)?)?", data["totalTime"])
    nutrition = data["nutrition"]
    assert nutrition["@type"] == "NutritionInformation"
    assert nutrition["servingSize"].endswith((" g", " kg"))
    for key, value in nutrition.items():
        if key.endswith("Content"):
            assert re.fullmatch(r"\d+(\.\d+)? g", value)
    energy = forme.edition.nutrition["energy_kcal"]
    assert energy is not None
    assert nutrition["calories"] == f"{numerals.plain(energy)} kcal"


@pytest.mark.published
@pytest.mark.parametrize(
    ("minutes", "written"),
    # ISO 8601-1:2019, 5.5.2: designators P, D, T, H, M; parts of nought are left out.
    [(45, "PT45M"), (60, "PT1H"), (105, "PT1H45M"), (1440, "P1D"), (3120, "P2DT4H")],
)
def test_durations_are_written_as_iso_8601_has_them(minutes: int, written: str) -> None:
    assert duration(minutes) == written


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_head_holds_what_the_open_graph_protocol_asks_for(
    language: str, demo_forme: MadeForme
) -> None:
    # The Open Graph protocol (ogp.me): og:title, og:type, og:image and og:url for every page;
    # a picture has a type, a size and a text.
    forme = demo_forme(EPISODES[0], language=language)
    head = Head(made(forme)["site/head.html"])
    assert {"og:title", "og:type", "og:image", "og:url", "og:image:alt"} <= set(head.told)
    assert head.told["og:image"] == "og.png"
    assert (head.told["og:image:width"], head.told["og:image:height"]) == ("1200", "630")
    shown = numerals.shown(forme.edition.serving, forme.edition.middle)
    middle = words_in(language).figure(shown.middle)
    assert middle in head.told["og:title"]
    assert middle in head.told["description"]
    assert json.loads(head.data) == recipe_data(forme)


def test_words_of_a_recipe_cannot_end_the_script_or_the_tag(demo_forme: MadeForme) -> None:
    nasty = '</script><img src=x onerror="alert(1)"> "> <!-- &'
    forme = demo_forme(EPISODES[0])
    data = {**forme.linked_data, "name": nasty}
    hostile = replace(
        forme, linked_data=data, credits=(nasty,), edition=replace(forme.edition, title=nasty)
    )
    text = made(hostile)["site/head.html"]
    head = Head(text)
    assert set(head.tags) == {"title", "meta", "script"}
    assert json.loads(head.data)["name"] == nasty
    assert text.count("<script") == text.count("</script>") == 1
    notes = made(hostile)["site/notes-long.md"]
    assert "<img" not in notes.replace("\\<", "")


@pytest.mark.property
@given(st.dictionaries(st.text(), st.text()))
def test_any_words_inside_html_are_the_same_words(data: dict[str, Any]) -> None:
    text = inside_html(data)
    assert not set("<>&") & set(text)
    assert json.loads(text) == data


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", EPISODES)
def test_the_notes_name_number_cautions_allergens_and_credits(
    name: str, language: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(name, language=language, credits=("After a recipe by a neighbour",))
    files = made(forme)
    plain = files["site/notes-long.md"].replace("\\", "")
    shown = numerals.shown(forme.edition.serving, forme.edition.middle)
    words = words_in(language)
    for text in (plain, files["site/notes-short.md"].replace("\\", "")):
        assert words.figure(f"{shown.middle}{numerals.SPACE}{shown.unit}") in text
        assert forme.edition.title in text
    assert "After a recipe by a neighbour" in plain
    for caution in forme.edition.cautions:
        assert caution in plain
    for source in forme.edition.sources:
        assert source.credit in plain
    assert words("card.review") in plain
    assert len(files["site/notes-short.md"]) < 400
