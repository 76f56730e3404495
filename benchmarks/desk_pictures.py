"""The pictures of the desk in the documentation, taken from the real page.

    python benchmarks/desk_pictures.py            write docs/desk*.png

A copy of the demo season is put on the desk, so that nothing of it is changed.
"""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path

from desk_latency import put_up
from playwright.sync_api import Page, sync_playwright

from counterproof.adapters.files import demo_season

DOCS = Path(__file__).parents[1] / "docs"
WIDTH, HEIGHT = 1280, 900
READY = "body[data-stage=pictured], body[data-stage=beside]:not(:has(#total))"


def opened(page: Page, address: str, path: str) -> None:
    """Open a page of the desk and wait until everything is on it."""
    base, token = address.split("/#")
    page.goto(f"{base}{path}#{token}")
    page.wait_for_selector(READY, state="attached", timeout=60_000)
    page.wait_for_timeout(500)


def main() -> None:
    """Take the pictures."""
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(shutil.copytree(demo_season(), Path(name) / "cold-month-suppers"))
        desk, address = put_up(folder)
        place = shutil.which("chromium") or playwright.chromium.executable_path
        browser = playwright.chromium.launch(executable_path=place, args=["--no-sandbox"])
        try:
            size = {"width": WIDTH, "height": HEIGHT}
            page = browser.new_page(viewport=size)  # type: ignore[arg-type] # a plain dict
            opened(page, address, "/?name=01-squash-and-bean-stew")
            at = page.evaluate("document.getElementById('text').value.indexOf('- 2 medium')")
            page.evaluate(
                "at => { const a = document.getElementById('text'); a.focus(); a.setSelectionRange(at, at); scrollTo(0, 390); }",
                at,
            )
            page.wait_for_timeout(400)
            page.screenshot(path=DOCS / "desk.png")
            page.locator("#versions").scroll_into_view_if_needed()
            page.evaluate("document.getElementById('total').scrollIntoView(); scrollBy(0, -20)")
            page.wait_for_timeout(300)
            page.screenshot(path=DOCS / "desk-versions.png")
            opened(page, address, "/script?name=02-rhubarb-cordial")
            page.screenshot(path=DOCS / "desk-script.png")
        finally:
            browser.close()
            desk.terminate()
            desk.wait(10)


if __name__ == "__main__":
    main()
