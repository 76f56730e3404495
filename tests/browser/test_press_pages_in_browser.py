"""Every page of a press folder as a reader meets it: alone, narrow and wide, light and dark."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped] # no types
from playwright.sync_api import Browser

from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.adapters.manuscripts import manuscript_of
from counterproof.draws import Streams
from counterproof.locking_up import locked_up
from counterproof.press.folder import PARTS, pieces_of
from counterproof.use_cases import Order, Workbench

pytestmark = pytest.mark.browser


@pytest.fixture(scope="session")
def pages(bench: Workbench, tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """Every page that the press makes of an episode, in English and in German."""
    folder = tmp_path_factory.mktemp("press")
    recipe, _ = load_recipe(str(episodes(demo_season())[0]))
    manuscript = manuscript_of(Order(recipe, load_kitchen(recipe), name=recipe.title))
    found = []
    for language in ("en", "de"):
        streams = Streams(seed=1, n=1000)
        forme = locked_up(manuscript, bench, streams, date="2026-11-25", language=language)
        for _, piece in pieces_of(forme, tuple(PARTS)):
            content = piece.content
            if isinstance(content, bytes) and content.lstrip().lower().startswith(b"<!doctype"):
                place = folder / f"{language}-{piece.name.replace('/', '-')}"
                place.write_bytes(content)
                found.append(place)
    assert len(found) > 4
    return found


def test_no_page_asks_for_anything_outside_itself(browser: Browser, pages: list[Path]) -> None:
    context = browser.new_context()
    page = context.new_page()
    asked: list[str] = []
    complaints: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda fault: complaints.append(str(fault)))
    for place in pages:
        page.goto(place.as_uri())
        page.wait_for_load_state("networkidle")
    context.close()
    assert [one for one in asked if not one.startswith("data:")] == [one.as_uri() for one in pages]
    assert complaints == []


@pytest.mark.parametrize("width", [320, 768, 1440])
def test_no_page_scrolls_sideways(browser: Browser, pages: list[Path], width: int) -> None:
    context = browser.new_context(viewport={"width": width, "height": 900})
    page = context.new_page()
    wide = {}
    for place in pages:
        page.goto(place.as_uri())
        found = page.evaluate("document.documentElement.scrollWidth")
        if found > width:
            wide[place.name] = found
    context.close()
    assert wide == {}


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_page_shuts_a_reader_out(
    browser: Browser, pages: list[Path], scheme: Literal["light", "dark"]
) -> None:
    # axe-core's rules for WCAG 2 A and AA, run by an independent engine
    context = browser.new_context(color_scheme=scheme)
    page = context.new_page()
    faults = {}
    for place in pages:
        page.goto(place.as_uri())
        found = Axe().run(page).response["violations"]
        if found:
            faults[place.name] = [
                (fault["id"], [node["target"] for node in fault["nodes"]][:3]) for fault in found
            ]
    context.close()
    assert faults == {}
