"""The handout as a student meets it: moved by mouse and keyboard, without scripts, on paper."""

from __future__ import annotations

from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped] # no types
from playwright.sync_api import Browser, Page

from counterproof import numerals
from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Streams
from counterproof.forme import Forme
from counterproof.locking_up import Manuscript, locked_up
from counterproof.press.fixed_words import words_in
from counterproof.press.handout import handout
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def forme(bench: Workbench) -> Forme:
    recipe, _ = load_recipe(str(episodes(demo_season())[0]))
    order = Order(recipe, load_kitchen(recipe), name=recipe.title)
    return locked_up(Manuscript(Episode(order)), bench, Streams(seed=1, n=1000), date="2026-11-25")


@pytest.fixture(scope="module")
def place(forme: Forme, tmp_path_factory: pytest.TempPathFactory) -> Path:
    found = tmp_path_factory.mktemp("handout") / "handout.html"
    found.write_bytes(handout(forme, words_in("en")))
    return found


def shown(page: Page) -> str:
    """What stands at the place that is shown, of which there is one."""
    visible = page.locator("section:visible")
    assert visible.count() == 1
    return visible.inner_text()


def test_every_place_can_be_moved_to_and_is_read_out(
    browser: Browser, forme: Forme, place: Path
) -> None:
    page = browser.new_page()
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda fault: complaints.append(str(fault)))
    page.goto(place.as_uri())
    versions = list(dict.fromkeys(position.version for position in forme.positions))
    serves = sorted({position.serves for position in forme.positions})
    for position in forme.positions:
        page.locator(f"input[name=version][value='{versions.index(position.version)}']").check()
        page.locator("#serves").fill(str(serves.index(position.serves)))
        value = numerals.shown(position.serving, forme.edition.middle)
        assert value.middle in shown(page)
        said = page.locator("#said").text_content() or ""
        assert value.middle in said
        assert page.locator("#said").get_attribute("aria-live") == "polite"
        told = page.locator("#serves").get_attribute("aria-valuetext")
        assert told == page.locator("#serves-told").text_content()
    page.close()
    assert complaints == []


def test_it_is_moved_by_keyboard_alone(browser: Browser, place: Path) -> None:
    page = browser.new_page()
    page.goto(place.as_uri())
    before = shown(page)
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowDown")
    moved = shown(page)
    assert moved != before
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowLeft")
    assert shown(page) != moved
    page.close()


def test_without_scripts_it_is_complete(browser: Browser, forme: Forme, place: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(place.as_uri())
    assert not page.locator("#controls").is_visible()
    assert page.get_by_text("Without scripts the controls rest").is_visible()
    told = page.locator("table").first.inner_text()
    for position in forme.positions:
        value = numerals.shown(position.serving, forme.edition.middle)
        assert value.middle in told
        assert value.span in told
    assert numerals.shown(forme.edition.serving, forme.edition.middle).middle in shown(page)
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_it_shuts_no_reader_out(browser: Browser, place: Path, width: int, scheme: str) -> None:
    # axe-core, an independent engine, all of its rules; at every stop of the first control
    context = browser.new_context(
        viewport={"width": width, "height": 900},
        color_scheme="dark" if scheme == "dark" else "light",
    )
    page = context.new_page()
    page.goto(place.as_uri())
    for radio in page.locator("input[name=version]").all():
        radio.check()
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        found = Axe().run(page).response["violations"]
        assert [(fault["id"], fault["nodes"][0]["target"]) for fault in found] == []
    context.close()


def test_on_paper_the_controls_are_gone_and_the_tables_are_there(
    browser: Browser, place: Path
) -> None:
    page = browser.new_page()
    page.goto(place.as_uri())
    page.emulate_media(media="print")
    assert not page.locator("#controls").is_visible()
    assert page.locator("table").first.is_visible()
    assert page.locator("section:visible").count() == 1
    page.close()
