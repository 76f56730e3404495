"""The desk as a cook meets it: pasted, settled, swapped, vetted, pressed, and found again."""

from __future__ import annotations

import json
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from .at_the_desk import EPISODE, PASTED, SEASON, Up, paged, proofed, put, typed, vetted

pytestmark = pytest.mark.browser


def test_from_a_pasted_recipe_to_a_pressed_comparison(browser: Browser, up: Up) -> None:
    up.recipe.write_text("# To come\n\n- 1 leek\n\n## Method\n\n1. Boil it for 9 minutes.\n")
    with paged(browser) as (page, complaints):
        page.goto(up.at())
        proofed(page)
        put(page, PASTED)
        expect(page.locator("h1")).to_have_text("Bean stew for a wet evening")
        proofed(page)

        for words in ("cream", "butter beans, canned"):  # two doubts, settled where they stand
            page.get_by_role("button", name=f"(meaning {words})", exact=True).click()
            assert f"(meaning {words})\n" in typed(page)
            page.wait_for_selector("body:not([data-stage=pictured])", state="attached")
            proofed(page)
        assert typed(page).count("(meaning ") == 2

        page.locator("#swap-line").select_option(label="250 g mince")
        page.locator("#swap-instead").fill("240 g green lentils")
        page.locator("#swap-name").fill("lentils")
        page.get_by_role("button", name="Write it in").click()
        row = page.locator("#versions li", has_text="lentils").last
        expect(row).to_contain_text("times the recipe")
        proofed(page)
        assert "lower than the recipe in" in row.inner_text()

        page.get_by_role("button", name="Save and press").click()
        expect(page.locator("#pressed")).to_contain_text("card/card.pdf", timeout=90_000)
        assert (up.recipe.parent / "press" / "card" / "card.pdf").is_file()
        saved = up.recipe.read_text()
        assert "lentils: {swap:" in saved
        assert saved.count("(meaning ") == 2

        page.get_by_role("link", name="Script").click()
        vetted(page)
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
        vetted(page)
        assert "with lentils" in typed(page)
        page.get_by_role("link", name="Recipe").click()
        proofed(page)
        assert typed(page).count("(meaning ") == 2
        expect(page.locator("#versions")).to_contain_text("lentils")
        assert complaints == []


def test_the_token_leaves_the_address_and_no_history_holds_it(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        assert up.token not in page.url
        assert page.evaluate("history.length") <= 2
        page.reload()
        proofed(page)
        assert page.context.cookies() == []


def test_without_the_token_there_is_only_an_explanation(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(f"{up.address}/")
        expect(page.locator("#waiting")).to_contain_text("address that the desk printed")


def test_a_second_tab_gets_the_token_from_the_first(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        other = page.context.new_page()
        other.goto(f"{up.address}/")
        proofed(other)


def test_nothing_is_asked_of_anyone_else_and_the_page_is_light(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, complaints):
        sizes: dict[str, int] = {}
        asked: list[str] = []
        page.on("request", lambda request: asked.append(request.url))

        def weighed(answer: Any) -> None:
            if "/faces/" not in answer.url:
                sizes[answer.url] = answer.request.sizes()["responseBodySize"]

        page.on("requestfinished", lambda request: weighed(request.response()))
        page.goto(up.at())
        proofed(page)
        page.wait_for_timeout(300)
        assert all(address.startswith(up.address) for address in asked)
        assert 10_000 < sum(sizes.values()) <= 150_000, sizes
        assert complaints == []


def test_a_mark_changes_and_caret_selection_scroll_and_undo_stay(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        before = typed(page)
        at = before.index("200 g pearl") + 1
        page.evaluate(
            "at => { const a = document.getElementById('text'); a.focus(); a.setSelectionRange(at, at); scrollTo(0, 120); }",
            at,
        )
        scrolled = page.evaluate("scrollY")
        page.keyboard.press("5")
        row = page.locator(".line-row", has_text="pearl barley").first
        expect(row.locator(".read")).to_contain_text("2.50 kg")
        proofed(page)
        assert page.evaluate("document.activeElement.id") == "text"
        assert page.evaluate("document.getElementById('text').selectionStart") == at + 1
        assert page.evaluate("scrollY") == scrolled
        page.keyboard.press("Control+z")
        assert typed(page) == before
        page.keyboard.press("Shift+ArrowRight")
        page.keyboard.press("Shift+ArrowRight")
        page.wait_for_timeout(700)
        selected = page.evaluate(
            "() => { const a = document.getElementById('text'); return a.selectionEnd - a.selectionStart; }"
        )
        assert selected == 2


def test_a_settled_doubt_can_be_undone(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        put(page, PASTED)
        proofed(page)
        before = typed(page)
        page.locator("[data-settled]:visible").first.click()
        assert "(meaning " in typed(page)
        page.keyboard.press("Control+z")
        assert typed(page) == before


def test_a_step_leads_to_its_question_and_the_kitchen_to_its_file(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, complaints):
        page.goto(up.at())
        proofed(page)
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


def test_two_tabs_do_not_write_over_each_other(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        other = page.context.new_page()
        other.goto(up.at())
        proofed(other)
        put(page, PASTED)
        page.keyboard.press("Control+s")
        expect(page.locator("#state")).to_have_text("saved")
        put(other, PASTED.replace("wet", "dry"))
        other.keyboard.press("Control+s")
        expect(other.locator("#conflict")).to_contain_text("changed on disk")
        assert "wet" in up.recipe.read_text()
        other.get_by_role("button", name="Take what is on disk").click()
        assert "wet" in typed(other)
        other.keyboard.press("Control+z")
        assert "dry" in typed(other)


def test_what_another_program_saves_is_taken_up_or_told_of(browser: Browser, up: Up) -> None:
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
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
        assert "Mine." in typed(page)


def test_a_recipe_of_four_hundred_lines_keeps_up(browser: Browser, up: Up) -> None:
    foods = ("onions", "carrots", "pearl barley", "kidney beans", "potatoes", "butter", "leeks")
    lines = [f"- {10 + at} g {foods[at % len(foods)]}" for at in range(400)]
    text = "\n".join(["# Four hundred", "", "Serves 100", "", "## Ingredients", "", *lines, "", "## Method", "", "1. Boil everything for 20 minutes.", ""])  # fmt: skip
    with paged(browser) as (page, complaints):
        page.goto(up.at())
        proofed(page)
        put(page, text)
        proofed(page)
        assert page.locator("button[data-why^='mass:']").count() == 400
        end = text.index("g onions\n- 17") if "g onions\n- 17" in text else text.index("- 10 g") + 4
        page.evaluate(
            "at => { const a = document.getElementById('text'); a.focus(); a.setSelectionRange(at, at); }",
            end,
        )
        page.keyboard.press("9")
        proofed(page)
        assert complaints == []


def test_a_saved_page_that_is_dropped_becomes_the_recipe(browser: Browser, up: Up) -> None:
    linked = {
        "@context": "https://schema.org",
        "@type": "Recipe",
        "name": "Leek soup",
        "recipeIngredient": ["2 leeks", "1 litre vegetable stock"],
        "recipeInstructions": ["Simmer the leeks in the stock for 20 minutes."],
    }
    with paged(browser) as (page, _):
        page.goto(up.at())
        proofed(page)
        page.locator("#bring").set_input_files(
            {"name": "soup.json", "mimeType": "application/json", "buffer": json.dumps(linked).encode()}
        )  # fmt: skip
        expect(page.locator("h1")).to_have_text("Leek soup")
        assert "2 leeks" in typed(page)
        page.keyboard.press("Control+z")
        assert "Barley pot" in typed(page)


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
    with paged(browser) as (page, _):
        with _started(root, port) as (process, address):
            page.goto(address)
            proofed(page)
            page.locator("#text").click()
            page.keyboard.press("Control+End")
            page.keyboard.type("3. Taste it.\n")
            proofed(page)
            time.sleep(0.6)
            process.send_signal(signal.SIGKILL)
            process.wait(10)
        page.keyboard.type("4. Serve it.\n")
        expect(page.locator("#state")).to_contain_text("does not answer")
        assert "4. Serve it." in typed(page)
        with _started(root, port) as (_, anew):
            expect(page.locator("#locked")).to_be_visible(timeout=15_000)
            fresh = page.context.new_page()
            fresh.goto(anew)
            proofed(fresh)
            expect(fresh.locator("#drafted")).to_be_visible()
            assert "3. Taste it." in str(fresh.locator("#text").input_value())
            fresh.close()
            page.goto(anew)  # the same page but for the token: nothing on it is loaded anew
            proofed(page)
            assert "4. Serve it." in typed(page)
            page.keyboard.press("Control+s")
            expect(page.locator("#state")).to_have_text("saved")
    assert "4. Serve it." in (root / "episodes" / EPISODE / "recipe.md").read_text()
