"""What tests at the desk share: a desk that is up, a page on it, and how a person uses both."""

from __future__ import annotations

import shutil
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

import pytest
import uvicorn
from playwright.sync_api import Browser, Page

from counterproof.desk.app import SHELLS, desk_app
from counterproof.desk.guards import Lock, hosts_of
from counterproof.desk.marking import Marker
from counterproof.desk.opened import opened
from counterproof.desk.shared import Desk

SEASON = Path(__file__).parents[1] / "desk" / "season"
EPISODE = "01-barley-pot"
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
def paged(
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


def proofed(page: Page) -> None:
    """Wait until all stages of the text as it stands are on the page."""
    page.wait_for_selector("body[data-stage=pictured]", state="attached", timeout=20_000)


def vetted(page: Page) -> None:
    page.wait_for_selector("body[data-stage=beside] #said-piece section", timeout=20_000)


def typed(page: Page) -> str:
    return str(page.locator("#text").input_value())


def put(page: Page, text: str) -> None:
    """Paste over everything, as a person does."""
    page.locator("#text").click()
    page.keyboard.press("Control+a")
    page.keyboard.insert_text(text)
