"""How the desk looks and whom it lets in: every width, both schemes, no mouse, larger, on paper."""

from __future__ import annotations

from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped] # no types
from playwright.sync_api import Browser, Page, expect

from .at_the_desk import PASTED, Up, paged, proofed, put, typed, vetted

WIDTHS = (320, 360, 480, 640, 736, 768, 1024, 1280, 1920)
RIGHT_TO_LEFT = "# مرق العدس\n\n- 200 g red lentils (عدس أحمر)\n- 1 onion, בצל\n\n## Method\n\n1. Simmer for 20 minutes.\n"  # fmt: skip

pytestmark = pytest.mark.browser


@pytest.mark.parametrize("width", WIDTHS)
def test_every_row_is_as_tall_as_its_text_at_every_width(
    browser: Browser, up: Up, width: int
) -> None:
    long = PASTED + "\n".join(f"{n}. {'stir and wait ' * n}" for n in range(3, 20)) + "\n\n\tTabbed  twice.\n"  # fmt: skip
    with paged(browser, width=width) as (page, _):
        page.goto(up.at())
        proofed(page)
        put(page, long)
        proofed(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        rows, text = page.evaluate(
            """() => { const a = document.getElementById('text'); const had = a.style.height;
            a.style.height = '1px'; a.style.bottom = 'auto'; const tall = a.scrollHeight;
            a.style.height = had; a.style.bottom = '';
            return [document.getElementById('lines').offsetHeight, tall]; }"""
        )
        assert abs(rows - text) <= 1
        apart = page.evaluate(
            """() => { const area = getComputedStyle(document.getElementById('text'));
            const mirror = getComputedStyle(document.querySelector('.mirror .text'));
            return ['font', 'fontVariant', 'fontFeatureSettings', 'fontKerning', 'lineHeight',
            'letterSpacing', 'wordSpacing', 'whiteSpace', 'textWrap', 'overflowWrap', 'wordBreak',
            'hyphens', 'tabSize', 'textIndent', 'textTransform'].filter(
            name => area[name] !== mirror[name]).map(name => [name, area[name], mirror[name]]); }"""
        )
        assert apart == []


@pytest.mark.parametrize("path", ["/", "/script"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_no_rule_of_accessibility_is_broken(
    browser: Browser, up: Up, path: str, scheme: Literal["light", "dark"], width: int
) -> None:
    with paged(browser, width=width, scheme=scheme) as (page, _):
        page.goto(up.at(path))
        if path == "/":
            proofed(page)
            put(page, PASTED)
            proofed(page)
        else:
            vetted(page)
        _clean(page)
        page.locator("[data-why]").first.click()
        page.wait_for_selector("dialog[open]")
        _clean(page)


def _clean(page: Page) -> None:
    found = Axe().run(page).response["violations"]
    told = [(one["id"], [node["html"][:160] for node in one["nodes"]]) for one in found]
    assert told == []


@pytest.mark.parametrize("path", ["/kitchen", "/questions", "/scale"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_the_other_pages_break_no_rule_either(
    browser: Browser, up: Up, path: str, scheme: Literal["light", "dark"], width: int
) -> None:
    with paged(browser, width=width, scheme=scheme) as (page, complaints):
        page.goto(up.at(path))
        page.wait_for_selector("body[data-stage=beside]", timeout=20_000)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        _clean(page)
        if path == "/questions":
            page.get_by_role("button", name="Work it out").click()
            page.wait_for_selector(".answered svg", timeout=20_000)
        if path == "/scale":
            page.locator("#readings").fill("1240 pot\n+onion 1655\n900\n")
            page.wait_for_selector("#weighed .mark.fault", timeout=20_000)
        _clean(page)
        wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0
        assert complaints == []


def test_everything_can_be_done_without_a_mouse(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        put(page, PASTED)
        proofed(page)
        page.get_by_role("link", name="Recipe").focus()
        reached: list[str] = []
        for _ in range(60):
            page.keyboard.press("Tab")
            reached.append(
                str(
                    page.evaluate(
                        "() => { const e = document.activeElement; return e.id || e.dataset.why || e.dataset.settled || e.textContent.trim().slice(0, 20); }"
                    )
                )
            )
        for wanted in ("Script", "save", "text", "mass:1", "line:1"):
            assert wanted in reached, reached
        assert any("(meaning" in one for one in reached)
        page.locator("[data-why='line:1']").focus()
        page.keyboard.press("Enter")
        page.wait_for_selector("dialog[open]")
        page.keyboard.press("Tab")
        page.keyboard.press("Escape")
        page.wait_for_selector("dialog:not([open])", state="attached")
        assert page.evaluate("document.activeElement.dataset.why") == "line:1"
        page.locator("[data-settled]:visible").first.focus()
        page.keyboard.press("Enter")
        assert "(meaning " in typed(page)
        page.keyboard.press("Control+s")
        expect(page.locator("#state")).to_have_text("saved")


def test_the_new_total_is_announced_politely(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        live = page.locator("#said")
        assert live.get_attribute("aria-live") == "polite"
        first = live.inner_text()
        put(page, PASTED)
        proofed(page)
        assert live.inner_text() != first
        assert "kg" in live.inner_text()


def test_lines_written_from_right_to_left_keep_their_side(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        put(page, RIGHT_TO_LEFT)
        proofed(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 1280
        row = page.locator(".line-row", has_text="lentils").first
        expect(row.locator(".read")).to_contain_text("lentils")
        assert typed(page) == RIGHT_TO_LEFT


def test_at_twice_the_size_nothing_is_lost(browser: Browser, up: Up) -> None:
    with paged(browser, width=640, scale=2.0) as (page, _):
        page.goto(up.at())
        proofed(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 640
        expect(page.locator(".line-row", has_text="pearl barley").locator(".read").first).to_be_visible()  # fmt: skip
        expect(page.locator("#save")).to_be_visible()


def test_less_motion_means_none(browser: Browser, up: Up) -> None:
    with paged(browser, motion="reduce") as (page, _):
        page.goto(up.at())
        proofed(page)
        moving = page.evaluate(
            "[...document.querySelectorAll('*')].filter(e => { const s = getComputedStyle(e); return s.animationName !== 'none' || s.transitionDuration !== '0s'; }).length"
        )
        assert moving == 0


def test_on_paper_stand_recipe_and_marks_without_the_controls(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        page.emulate_media(media="print")
        shown = page.locator("main").inner_text()
        assert "200 g pearl barley" in shown
        assert "pearl barley\n200 g" in shown or "198–202" in shown or "kg" in shown
        expect(page.locator("#save")).to_be_hidden()
        expect(page.locator("#text")).to_be_hidden()
        expect(page.locator("#swap")).to_be_hidden()
        assert len(page.pdf()) > 20_000
