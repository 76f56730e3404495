"""Finds a browser: the system's, then the one that came with playwright, else a loud skip.

Under `CI=true` a missing browser fails instead: a check that silently does not run proves nothing.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Error, Playwright, sync_playwright

from .at_the_desk import marker as marker  # noqa: PLC0414 (fixtures are found by name here)
from .at_the_desk import up as up  # noqa: PLC0414

NAMES = ("chromium", "chromium-browser", "google-chrome")
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
MISSING = "NO BROWSER FOUND: the pages were not looked at"
REMEDY = "install chromium from the system's packages, or run `playwright install chromium`"


def _found(playwright: Playwright) -> Browser | None:
    system = next((place for name in NAMES if (place := shutil.which(name))), None)
    own = Path(playwright.chromium.executable_path)
    place = system or (str(own) if own.exists() else None)
    if place is None:
        return None
    try:
        return playwright.chromium.launch(executable_path=place, args=list(QUIET))
    except Error as fault:
        pytest.fail(f"the browser at {place} does not start: {fault}")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A running browser."""
    with sync_playwright() as playwright:
        found = _found(playwright)
        if found is None:
            message = f"{MISSING}; {REMEDY}"
            if os.environ.get("CI") == "true":
                pytest.fail(message)
            pytest.skip(message)
        yield found
        found.close()


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say aloud, at the end, that pages were not looked at."""
    skipped = terminalreporter.getreports("skipped")
    if any(MISSING in str(report.longrepr) for report in skipped):
        terminalreporter.write_line(f"{MISSING}; {REMEDY}", red=True, bold=True)
