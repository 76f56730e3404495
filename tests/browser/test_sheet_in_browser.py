"""The page as a reader meets it: every width, light and dark, by keyboard, on paper."""

from __future__ import annotations

import itertools
import runpy
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import Any, Literal

import pytest
from playwright.sync_api import Browser, Page

from counterproof import numerals
from counterproof.press.sheet import sheet
from counterproof.press.wording import all_marks
from counterproof.proof import Edition

SAMPLE = Path(__file__).parents[1] / "press" / "sample_edition.py"
EDITION: Edition = runpy.run_path(str(SAMPLE))["EDITION"]
UNBROKEN = "Donaudampfschifffahrtsgesellschaftskapitän" * 4
WIDTHS = (320, 360, 480, 736, 768, 1024, 1280, 1920)

pytestmark = pytest.mark.browser


@pytest.fixture(scope="session")
def proof(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sample's page on disk."""
    place = tmp_path_factory.mktemp("sheet") / "proof.html"
    place.write_text(sheet(EDITION), encoding="utf-8")
    return place


@contextmanager
def _opened(
    browser: Browser, place: Path, width: int = 1280, scheme: Literal["light", "dark"] = "light"
) -> Iterator[tuple[Page, list[str], list[str]]]:
    """The page, the addresses it asked for, and what it complained of."""
    context = browser.new_context(
        viewport={"width": width, "height": 900}, color_scheme=scheme, java_script_enabled=True
    )
    page = context.new_page()
    asked: list[str] = []
    complaints: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: complaints.append(message.text))
    page.on("pageerror", lambda fault: complaints.append(str(fault)))
    page.goto(place.as_uri())
    page.evaluate("document.fonts.ready.then(() => true)")
    yield page, asked, complaints
    context.close()


def test_nothing_but_the_file_itself_is_asked_for(browser: Browser, proof: Path) -> None:
    with _opened(browser, proof) as (page, asked, complaints):
        page.wait_for_load_state("networkidle")
        outside = [address for address in asked if not address.startswith("data:")]
        assert outside == [proof.as_uri()]
        assert complaints == []


@pytest.mark.parametrize("width", WIDTHS)
def test_the_page_never_scrolls_sideways(browser: Browser, proof: Path, width: int) -> None:
    with _opened(browser, proof, width) as (page, _, _):
        assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_a_word_without_a_break_is_broken(browser: Browser, tmp_path: Path) -> None:
    line = replace(EDITION.lines[0], as_written=UNBROKEN, food=UNBROKEN, factor=UNBROKEN)
    place = tmp_path / "long.html"
    long = replace(EDITION, title=UNBROKEN, lines=(line, *EDITION.lines[1:]), assumed=(UNBROKEN,))
    place.write_text(sheet(long), encoding="utf-8")
    for width in (360, 768, 1280):
        with _opened(browser, place, width) as (page, _, _):
            assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_our_own_faces_are_used(browser: Browser, proof: Path) -> None:
    with _opened(browser, proof) as (page, _, _):
        faces = page.evaluate(
            "[...document.fonts].map(f => [f.family.replaceAll('\"', ''), f.status])"
        )
        assert {name for name, _ in faces} == {"Counterproof Serif", "Counterproof Sans"}
        assert all(status == "loaded" for _, status in faces)


PLACES = """() => [...document.querySelectorAll('li.row.line')].map(row => {
  const box = name => { const r = row.querySelector(name).getBoundingClientRect();
    return {left: r.left, right: r.right, top: r.top, bottom: r.bottom}; };
  return {left: box('.left'), written: box('.written'), right: box('.right')};
})"""


def test_the_margins_stand_beside_their_line(browser: Browser, proof: Path) -> None:
    for width in (768, 1280):
        with _opened(browser, proof, width) as (page, _, _):
            for row in page.evaluate(PLACES):
                assert row["left"]["right"] <= row["written"]["left"]
                assert row["written"]["right"] <= row["right"]["left"] + 1
                assert abs(row["left"]["top"] - row["right"]["top"]) < 1


def test_the_margins_fold_under_their_line_where_it_is_narrow(
    browser: Browser, proof: Path
) -> None:
    with _opened(browser, proof, 360) as (page, _, _):
        for row in page.evaluate(PLACES):
            assert row["written"]["bottom"] <= row["left"]["top"] + 1
            assert row["left"]["bottom"] <= row["right"]["top"] + 1


STROKES = """() => [...document.querySelectorAll('li.row.line')].map(row => {
  const stroke = row.querySelector('.interval svg');
  if (!stroke) return null;
  const box = stroke.getBoundingClientRect();
  const place = row.querySelector('.drawn').getBoundingClientRect();
  return [(box.left + box.width / 2 - place.left) / place.width, row.id];
})"""


@pytest.mark.parametrize("width", [360, 768, 1280])
def test_strokes_stand_in_the_order_of_their_values(
    browser: Browser, proof: Path, width: int
) -> None:
    with _opened(browser, proof, width) as (page, _, _):
        places = {row[1]: row[0] for row in page.evaluate(STROKES) if row}
    values = {f"line-{line.number}": line.kgco2e.mean for line in EDITION.lines if line.kgco2e}
    assert places.keys() == values.keys()
    ordered = sorted(values, key=lambda name: values[name])
    for before, after in itertools.pairwise(ordered):
        assert places[before] <= places[after] + 0.005


def test_no_two_pieces_of_type_in_a_row_run_into_each_other(browser: Browser, proof: Path) -> None:
    overlap = """() => [...document.querySelectorAll('.value')].filter(v => {
      const place = v.closest('.right').getBoundingClientRect();
      return [...v.children].some(c => !c.classList.contains('unseen')
        && c.getBoundingClientRect().right > place.right + 1);
    }).map(v => v.textContent)"""
    for width in (360, 768, 1280):
        with _opened(browser, proof, width) as (page, _, _):
            assert page.evaluate(overlap) == []


def test_the_keyboard_reaches_every_doubt_and_shows_where_it_is(
    browser: Browser, proof: Path
) -> None:
    doubts = sum(mark.level != "note" for mark in all_marks(EDITION))
    with _opened(browser, proof) as (page, _, _):
        reached: set[str] = set()
        stops = doubts + len(EDITION.sources) + sum(bool(line.source) for line in EDITION.lines)
        for _ in range(stops):
            page.keyboard.press("Tab")
            seen: dict[str, Any] | None = page.evaluate(
                """() => { const e = document.activeElement;
                  if (!e || !e.closest('.mark')) return null;
                  return {text: e.textContent, outline: getComputedStyle(e).outlineStyle}; }"""
            )
            if seen:
                assert seen["outline"] == "solid"
                reached.add(seen["text"])
        assert len(reached) == doubts
        page.locator("summary").first.press("Enter")
        assert page.locator("details").first.get_attribute("open") is None


# WCAG 2.2, success criterion 1.4.3 and its definitions of relative luminance and contrast ratio:
# text needs 4.5 : 1 against its ground (3 : 1 from 24 px, or from 18.66 px where it is bold).
CONTRAST = """() => {
  const light = c => { const [r, g, b] = c.match(/[\\d.]+/g).slice(0, 3).map(v => {
    v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
  const ground = light(getComputedStyle(document.documentElement).backgroundColor);
  const worst = {};
  for (const e of document.querySelectorAll('main *')) {
    const own = [...e.childNodes].some(n => n.nodeType === 3 && n.textContent.trim());
    if (!own || ['title', 'desc'].includes(e.tagName)) continue;
    const style = getComputedStyle(e);
    const ink = light(e.tagName === 'text' ? style.fill : style.color);
    const ratio = (Math.max(ink, ground) + 0.05) / (Math.min(ink, ground) + 0.05);
    if (ratio < 4.5) worst[e.className || e.tagName] = ratio;
  }
  return worst;
}"""


@pytest.mark.published
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_all_type_can_be_read_against_its_ground(
    browser: Browser, proof: Path, scheme: Literal["light", "dark"]
) -> None:
    with _opened(browser, proof, scheme=scheme) as (page, _, _):
        assert page.evaluate(CONTRAST) == {}


def test_dark_mode_turns_paper_and_ink_round(browser: Browser, proof: Path) -> None:
    grounds = []
    schemes: tuple[Literal["light", "dark"], ...] = ("light", "dark")
    for scheme in schemes:
        with _opened(browser, proof, scheme=scheme) as (page, _, _):
            grounds.append(
                page.evaluate(
                    """() => [getComputedStyle(document.documentElement).backgroundColor,
                      getComputedStyle(document.querySelector('.strip .field')).stroke]"""
                )
            )
    assert grounds[0] != grounds[1]
    assert grounds[0][1] != grounds[1][1]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_it_prints_on_paper_with_nothing_folded_away(
    browser: Browser, proof: Path, paper: str
) -> None:
    with _opened(browser, proof) as (page, _, _):
        page.locator("summary").first.click()
        choices = (
            "document.querySelector('.choices').checkVisibility({contentVisibilityAuto: true})"
        )
        assert not page.evaluate(choices)
        page.emulate_media(media="print")
        page.wait_for_function(choices)  # the new medium takes effect with the next frame
        page.set_viewport_size({"width": 700, "height": 900})
        assert page.evaluate("document.documentElement.scrollWidth") <= 700
        assert page.evaluate("getComputedStyle(document.body).fontSize") != "18px"
        assert page.pdf(format=paper).startswith(b"%PDF")


def test_a_screen_reader_is_told_what_a_number_is(browser: Browser, proof: Path) -> None:
    with _opened(browser, proof) as (page, _, _):
        row = page.get_by_role("listitem").filter(has_text="a sprig of rosemary")
        told = numerals.shown(next(x.kgco2e for x in EDITION.lines if x.number == 9 and x.kgco2e))
        picture = row.get_by_role("img")
        assert picture.count() == 1
        title = picture.locator("title").text_content() or ""
        assert title.startswith(told.text)
        assert page.get_by_role("heading", level=1).count() == 1
        assert page.get_by_role("main").count() == 1
        assert page.get_by_role("list", name="For the stew").count() == 1
