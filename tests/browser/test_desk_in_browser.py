"""The desk as a cook meets it: pasted, settled, swapped, vetted, pressed, and found again."""

from __future__ import annotations

import json
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Literal

import pytest
import uvicorn
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped] # no types
from playwright.sync_api import Browser, Page, expect

from counterproof.desk.app import SHELLS, desk_app
from counterproof.desk.guards import Lock, hosts_of
from counterproof.desk.marking import Marker
from counterproof.desk.opened import opened
from counterproof.desk.shared import Desk

SEASON = Path(__file__).parents[1] / "desk" / "season"
EPISODE = "01-barley-pot"
WIDTHS = (320, 360, 480, 640, 736, 768, 1024, 1280, 1920)
PASTED = """Bean stew for a wet evening
Serves 4

Ingredients
- 2 tins tomatoes
- 1 onion
- 250 g mince
- 300 g pasta or rice
- 2 frobnicated sorbs
- 200 ml creem
- 400 g butter beens, drained

Method
1. Fry the onion and the mince for 10 minutes.
2. Add the rest, cover and simmer for 20 minutes.
"""
RIGHT_TO_LEFT = "# مرق العدس\n\n- 200 g red lentils (عدس أحمر)\n- 1 onion, בצל\n\n## Method\n\n1. Simmer for 20 minutes.\n"  # fmt: skip

pytestmark = pytest.mark.browser


@dataclass(frozen=True)
class Up:
    """A desk that is up, and the folder on it."""

    address: str
    token: str
    root: Path

    def at(self, path: str = "/", **asked: str) -> str:
        query = "&".join(f"{key}={value}" for key, value in asked.items())
        return f"{self.address}{path}{'?' if query else ''}{query}#token={self.token}"

    @property
    def recipe(self) -> Path:
        return self.root / "episodes" / EPISODE / "recipe.md"


@pytest.fixture(scope="module")
def marker() -> Iterator[Marker]:
    """One set of threads and draws for all."""
    made = Marker(draws=500, date="2026-11-25")
    yield made
    made.close()


@pytest.fixture
def up(tmp_path: Path, marker: Marker) -> Iterator[Up]:
    """A desk over a season of one's own."""
    root = Path(shutil.copytree(SEASON, tmp_path / "season"))
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    port = int(listening.getsockname()[1])
    lock = Lock(hosts_of("127.0.0.1", port), SHELLS)
    app = desk_app(Desk(opened(str(root)), marker, tmp_path), lock)
    config = uvicorn.Config(app, log_level="error", lifespan="off", timeout_graceful_shutdown=1)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    yield Up(f"http://127.0.0.1:{port}", lock.token, root)
    server.should_exit = True
    thread.join(10)


@contextmanager
def _page(
    browser: Browser,
    *,
    width: int = 1280,
    scheme: Literal["light", "dark"] = "light",
    scale: float = 1.0,
    motion: Literal["reduce", "no-preference"] = "no-preference",
) -> Iterator[tuple[Page, list[str]]]:
    """A page, and what it complained of."""
    context = browser.new_context(
        viewport={"width": width, "height": 900},
        color_scheme=scheme,
        device_scale_factor=scale,
        reduced_motion=motion,
    )
    page = context.new_page()
    complaints: list[str] = []
    page.on("console", lambda told: complaints.append(told.text))
    page.on("pageerror", lambda fault: complaints.append(str(fault)))
    yield page, complaints
    context.close()


def _proofed(page: Page) -> None:
    """Wait until all stages of the text as it stands are on the page."""
    page.wait_for_selector("body[data-stage=pictured]", state="attached", timeout=20_000)


def _vetted(page: Page) -> None:
    page.wait_for_selector("body[data-stage=beside] #said-piece section", timeout=20_000)


def _typed(page: Page) -> str:
    return str(page.locator("#text").input_value())


def _put(page: Page, text: str) -> None:
    """Paste over everything, as a person does."""
    page.locator("#text").click()
    page.keyboard.press("Control+a")
    page.keyboard.insert_text(text)


def test_from_a_pasted_recipe_to_a_pressed_comparison(browser: Browser, up: Up) -> None:
    up.recipe.write_text("# To come\n\n- 1 leek\n\n## Method\n\n1. Boil it for 9 minutes.\n")
    with _page(browser) as (page, complaints):
        page.goto(up.at())
        _proofed(page)
        _put(page, PASTED)
        expect(page.locator("h1")).to_have_text("Bean stew for a wet evening")
        _proofed(page)

        for words in ("cream", "butter beans, canned"):  # two doubts, settled where they stand
            page.get_by_role("button", name=f"(meaning {words})", exact=True).click()
            assert f"(meaning {words})\n" in _typed(page)
            page.wait_for_selector("body:not([data-stage=pictured])", state="attached")
            _proofed(page)
        assert _typed(page).count("(meaning ") == 2

        page.locator("#swap-line").select_option(label="250 g mince")
        page.locator("#swap-instead").fill("240 g green lentils")
        page.locator("#swap-name").fill("lentils")
        page.get_by_role("button", name="Write it in").click()
        row = page.locator("#versions li", has_text="lentils").last
        expect(row).to_contain_text("times the recipe")
        _proofed(page)
        assert "lower than the recipe in" in row.inner_text()

        page.get_by_role("button", name="Save and press").click()
        expect(page.locator("#pressed")).to_contain_text("card/card.pdf", timeout=90_000)
        assert (up.recipe.parent / "press" / "card" / "card.pdf").is_file()
        saved = up.recipe.read_text()
        assert "lentils: {swap:" in saved
        assert saved.count("(meaning ") == 2

        page.get_by_role("link", name="Script").click()
        _vetted(page)
        area = page.locator("#text")
        area.click()
        page.keyboard.press("Control+End")
        page.keyboard.insert_text(
            "\nAnd with lentils: [= one serving of this recipe with lentils].\n"
        )
        expect(page.locator("#said-piece")).to_contain_text("And with lentils: ")
        page.keyboard.press("Control+s")
        expect(page.locator("#state")).to_have_text("saved")

        page.reload()
        _vetted(page)
        assert "with lentils" in _typed(page)
        page.get_by_role("link", name="Recipe").click()
        _proofed(page)
        assert _typed(page).count("(meaning ") == 2
        expect(page.locator("#versions")).to_contain_text("lentils")
        assert complaints == []


def test_the_token_leaves_the_address_and_no_history_holds_it(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        assert up.token not in page.url
        assert page.evaluate("history.length") <= 2
        page.reload()
        _proofed(page)
        assert page.context.cookies() == []


def test_without_the_token_there_is_only_an_explanation(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(f"{up.address}/")
        expect(page.locator("#waiting")).to_contain_text("address that the desk printed")


def test_a_second_tab_gets_the_token_from_the_first(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        other = page.context.new_page()
        other.goto(f"{up.address}/")
        _proofed(other)


def test_nothing_is_asked_of_anyone_else_and_the_page_is_light(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, complaints):
        sizes: dict[str, int] = {}
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))

        def weighed(answer: Any) -> None:
            if "/faces/" not in answer.url:
                sizes[answer.url] = answer.request.sizes()["responseBodySize"]

        page.on("requestfinished", lambda request: weighed(request.response()))
        page.goto(up.at())
        _proofed(page)
        page.wait_for_timeout(300)
        assert all(address.startswith(up.address) for address in asked)
        assert 10_000 < sum(sizes.values()) <= 150_000, sizes
        assert complaints == []


def test_a_mark_changes_and_caret_selection_scroll_and_undo_stay(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        before = _typed(page)
        at = before.index("200 g pearl") + 1
        page.evaluate(
            "at => { const a = document.getElementById('text'); a.focus(); a.setSelectionRange(at, at); scrollTo(0, 120); }",
            at,
        )
        scrolled = page.evaluate("scrollY")
        page.keyboard.press("5")
        row = page.locator(".line-row", has_text="pearl barley").first
        expect(row.locator(".read")).to_contain_text("2.50 kg")
        _proofed(page)
        assert page.evaluate("document.activeElement.id") == "text"
        assert page.evaluate("document.getElementById('text').selectionStart") == at + 1
        assert page.evaluate("scrollY") == scrolled
        page.keyboard.press("Control+z")
        assert _typed(page) == before
        page.keyboard.press("Shift+ArrowRight")
        page.keyboard.press("Shift+ArrowRight")
        page.wait_for_timeout(700)
        selected = page.evaluate(
            "() => { const a = document.getElementById('text'); return a.selectionEnd - a.selectionStart; }"
        )
        assert selected == 2


def test_a_settled_doubt_can_be_undone(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        _put(page, PASTED)
        _proofed(page)
        before = _typed(page)
        page.locator("[data-settled]:visible").first.click()
        assert "(meaning " in _typed(page)
        page.keyboard.press("Control+z")
        assert _typed(page) == before


@pytest.mark.parametrize("width", WIDTHS)
def test_every_row_is_as_tall_as_its_text_at_every_width(
    browser: Browser, up: Up, width: int
) -> None:
    long = PASTED + "\n".join(f"{n}. {'stir and wait ' * n}" for n in range(3, 20)) + "\n\n\tTabbed  twice.\n"  # fmt: skip
    with _page(browser, width=width) as (page, _):
        page.goto(up.at())
        _proofed(page)
        _put(page, long)
        _proofed(page)
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
    with _page(browser, width=width, scheme=scheme) as (page, _):
        page.goto(up.at(path))
        if path == "/":
            _proofed(page)
            _put(page, PASTED)
            _proofed(page)
        else:
            _vetted(page)
        _clean(page)
        page.locator("[data-why]").first.click()
        page.wait_for_selector("dialog[open]")
        _clean(page)


@pytest.mark.parametrize("path", ["/kitchen", "/questions", "/scale"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_the_other_pages_break_no_rule_either(
    browser: Browser, up: Up, path: str, scheme: Literal["light", "dark"], width: int
) -> None:
    with _page(browser, width=width, scheme=scheme) as (page, complaints):
        page.goto(up.at(path))
        page.wait_for_selector("body[data-stage=beside]", timeout=20_000)
        assert page.evaluate("document.documentElement.scrollWidth") <= width
        _clean(page)
        if path == "/questions":
            page.get_by_role("button", name="Work it out").click()
            page.wait_for_selector("#answer svg, .answer svg", timeout=20_000)
            _clean(page)
            assert page.evaluate("document.documentElement.scrollWidth") <= width
        assert complaints == []


def _clean(page: Page) -> None:
    found = Axe().run(page).response["violations"]
    told = [(one["id"], [node["html"][:160] for node in one["nodes"]]) for one in found]
    assert told == []


@pytest.mark.parametrize("path", ["/kitchen", "/questions", "/scale"])
@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_kitchen_and_questions_break_no_rule_of_accessibility(
    browser: Browser, up: Up, path: str, scheme: Literal["light", "dark"], width: int
) -> None:
    with _page(browser, width=width, scheme=scheme) as (page, complaints):
        page.goto(up.at(path))
        page.wait_for_selector("body[data-stage=beside]", timeout=20_000)
        if path == "/questions":
            page.get_by_role("button", name="Work it out").click()
            page.wait_for_selector(".answered", timeout=20_000)
        if path == "/scale":
            page.locator("#readings").fill("1240 pot\n+onion 1655\n900\n")
            page.wait_for_selector("#weighed .mark.fault", timeout=20_000)
        _clean(page)
        wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0
        assert complaints == []


def test_a_step_leads_to_its_question_and_the_kitchen_to_its_file(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, complaints):
        page.goto(up.at())
        _proofed(page)
        line = page.locator("#text").input_value().split("\n")
        at = next(n for n, words in enumerate(line) if "immer" in words and words[:1].isdigit())
        page.locator("#text").evaluate(
            "(area, at) => { area.focus(); area.setSelectionRange(at, at); }",
            sum(len(words) + 1 for words in line[:at]) + 3,
        )
        page.get_by_role("button", name="ask the kitchen").locator("visible=true").click()
        page.wait_for_selector(".answered", timeout=20_000)
        expect(page.locator("#question")).to_contain_text("Filled in from step")
        page.locator("#entry-time").fill("two hours")
        page.get_by_role("button", name="Work it out").click()
        expect(page.locator("#fault-time")).not_to_be_empty()

        page.get_by_role("link", name="Kitchen").click()
        page.wait_for_selector("body[data-stage=beside] #kitchen", timeout=20_000)
        page.locator("#entry-altitude_m").fill("1500")
        page.get_by_role("button", name="Save the kitchen").click()
        expect(page.locator("#entry-altitude_m")).to_have_value("1500", timeout=20_000)
        page.wait_for_timeout(300)
        assert "altitude_m: 1500" in (up.root / "kitchen.yaml").read_text()
        assert [told for told in complaints if "422" not in told] == []


def test_everything_can_be_done_without_a_mouse(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        _put(page, PASTED)
        _proofed(page)
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
        assert "(meaning " in _typed(page)
        page.keyboard.press("Control+s")
        expect(page.locator("#state")).to_have_text("saved")


def test_the_new_total_is_announced_politely(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        live = page.locator("#said")
        assert live.get_attribute("aria-live") == "polite"
        first = live.inner_text()
        _put(page, PASTED)
        _proofed(page)
        assert live.inner_text() != first
        assert "kg" in live.inner_text()


def test_two_tabs_do_not_write_over_each_other(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        other = page.context.new_page()
        other.goto(up.at())
        _proofed(other)
        _put(page, PASTED)
        page.keyboard.press("Control+s")
        expect(page.locator("#state")).to_have_text("saved")
        _put(other, PASTED.replace("wet", "dry"))
        other.keyboard.press("Control+s")
        expect(other.locator("#conflict")).to_contain_text("changed on disk")
        assert "wet" in up.recipe.read_text()
        other.get_by_role("button", name="Take what is on disk").click()
        assert "wet" in _typed(other)
        other.keyboard.press("Control+z")
        assert "dry" in _typed(other)


def test_what_another_program_saves_is_taken_up_or_told_of(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        text = up.recipe.read_text()
        up.recipe.write_text(text.replace("200 g pearl", "210 g pearl"))
        page.evaluate("dispatchEvent(new Event('focus'))")
        expect(page.locator("#text")).to_have_value(re.compile("210 g pearl"))
        expect(page.locator("#state")).to_have_text("saved")
        page.locator("#text").click()
        page.keyboard.press("Control+End")
        page.keyboard.type("Mine.")
        up.recipe.write_text(text.replace("200 g pearl", "220 g pearl"))
        page.evaluate("dispatchEvent(new Event('focus'))")
        expect(page.locator("#conflict")).to_be_visible()
        assert "Mine." in _typed(page)


def test_a_recipe_of_four_hundred_lines_keeps_up(browser: Browser, up: Up) -> None:
    foods = ("onions", "carrots", "pearl barley", "kidney beans", "potatoes", "butter", "leeks")
    lines = [f"- {10 + at} g {foods[at % len(foods)]}" for at in range(400)]
    text = "\n".join(["# Four hundred", "", "Serves 100", "", "## Ingredients", "", *lines, "", "## Method", "", "1. Boil everything for 20 minutes.", ""])  # fmt: skip
    with _page(browser) as (page, complaints):
        page.goto(up.at())
        _proofed(page)
        _put(page, text)
        _proofed(page)
        assert page.locator("button[data-why^='mass:']").count() == 400
        end = text.index("g onions\n- 17") if "g onions\n- 17" in text else text.index("- 10 g") + 4
        page.evaluate(
            "at => { const a = document.getElementById('text'); a.focus(); a.setSelectionRange(at, at); }",
            end,
        )
        page.keyboard.press("9")
        _proofed(page)
        assert complaints == []


def test_lines_written_from_right_to_left_keep_their_side(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        _put(page, RIGHT_TO_LEFT)
        _proofed(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 1280
        row = page.locator(".line-row", has_text="lentils").first
        expect(row.locator(".read")).to_contain_text("lentils")
        assert _typed(page) == RIGHT_TO_LEFT


def test_at_twice_the_size_nothing_is_lost(browser: Browser, up: Up) -> None:
    with _page(browser, width=640, scale=2.0) as (page, _):
        page.goto(up.at())
        _proofed(page)
        assert page.evaluate("document.documentElement.scrollWidth") <= 640
        expect(page.locator(".line-row", has_text="pearl barley").locator(".read").first).to_be_visible()  # fmt: skip
        expect(page.locator("#save")).to_be_visible()


def test_less_motion_means_none(browser: Browser, up: Up) -> None:
    with _page(browser, motion="reduce") as (page, _):
        page.goto(up.at())
        _proofed(page)
        moving = page.evaluate(
            "[...document.querySelectorAll('*')].filter(e => { const s = getComputedStyle(e); return s.animationName !== 'none' || s.transitionDuration !== '0s'; }).length"
        )
        assert moving == 0


def test_on_paper_stand_recipe_and_marks_without_the_controls(browser: Browser, up: Up) -> None:
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        page.emulate_media(media="print")
        shown = page.locator("main").inner_text()
        assert "200 g pearl barley" in shown
        assert "pearl barley\n200 g" in shown or "198–202" in shown or "kg" in shown
        expect(page.locator("#save")).to_be_hidden()
        expect(page.locator("#text")).to_be_hidden()
        expect(page.locator("#swap")).to_be_hidden()
        assert len(page.pdf()) > 20_000


def test_a_saved_page_that_is_dropped_becomes_the_recipe(browser: Browser, up: Up) -> None:
    linked = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": "Leek soup",
        "recipeIngredient": ["2 leeks", "1 litre vegetable stock"],
        "recipeInstructions": ["Simmer the leeks in the stock for 20 minutes."],
    }
    with _page(browser) as (page, _):
        page.goto(up.at())
        _proofed(page)
        page.locator("#bring").set_input_files(
            {"name": "soup.json", "mimeType": "application/json", "buffer": json.dumps(linked).encode()}
        )  # fmt: skip
        expect(page.locator("h1")).to_have_text("Leek soup")
        assert "2 leeks" in _typed(page)
        page.keyboard.press("Control+z")
        assert "Barley pot" in _typed(page)


@contextmanager
def _started(folder: Path, port: int) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """A desk in a process of its own, and the address it printed."""
    command = [sys.executable, "-m", "counterproof", "desk", str(folder), "--port", str(port)]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True)  # noqa: S603 (our own)
    assert process.stderr is not None
    try:
        address = next(
            found[0] for line in process.stderr if (found := re.search(r"http\S+", line))
        )
        yield process, address
    finally:
        process.kill()
        process.wait(10)
        process.stderr.close()


def test_killed_and_started_anew_in_the_middle_of_a_line(browser: Browser, tmp_path: Path) -> None:
    root = Path(shutil.copytree(SEASON, tmp_path / "season"))
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = int(free.getsockname()[1])
    with _page(browser) as (page, _):
        with _started(root, port) as (process, address):
            page.goto(address)
            _proofed(page)
            page.locator("#text").click()
            page.keyboard.press("Control+End")
            page.keyboard.type("3. Taste it.\n")
            _proofed(page)
            time.sleep(0.6)
            process.send_signal(signal.SIGKILL)
            process.wait(10)
        page.keyboard.type("4. Serve it.\n")
        expect(page.locator("#state")).to_contain_text("does not answer")
        assert "4. Serve it." in _typed(page)
        with _started(root, port) as (_, anew):
            expect(page.locator("#locked")).to_be_visible(timeout=15_000)
            fresh = page.context.new_page()
            fresh.goto(anew)
            _proofed(fresh)
            expect(fresh.locator("#drafted")).to_be_visible()
            assert "3. Taste it." in str(fresh.locator("#text").input_value())
            fresh.close()
            page.goto(anew)  # the same page but for the token: nothing on it is loaded anew
            _proofed(page)
            assert "4. Serve it." in _typed(page)
            page.keyboard.press("Control+s")
            expect(page.locator("#state")).to_have_text("saved")
    assert "4. Serve it." in (root / "episodes" / EPISODE / "recipe.md").read_text()
