"""A desk over a small season of our own, asked as a browser would ask it."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from counterproof.desk.app import SHELLS, desk_app
from counterproof.desk.guards import TOKEN_HEADER, Lock
from counterproof.desk.marking import Marker
from counterproof.desk.opened import Opened, opened
from counterproof.desk.shared import Desk

ADDRESS = "http://127.0.0.1:8000"
SEASON = Path(__file__).parent / "season"
EPISODE = "01-barley-pot"


@dataclass(frozen=True)
class Asking:
    """The desk, its folder, and a client that holds the token."""

    client: TestClient
    stranger: TestClient
    folder: Opened
    root: Path
    desk: Desk

    @property
    def recipe(self) -> Path:
        """The recipe on disk."""
        return self.root / "episodes" / EPISODE / "recipe.md"

    def page(self, path: str = "/leaf/recipe") -> dict[str, object]:
        """What the desk tells of a page."""
        answer = self.client.get(path, params={"name": EPISODE})
        assert answer.status_code == 200, answer.text
        return dict(answer.json())


@pytest.fixture(scope="session")
def marker() -> Iterator[Marker]:
    """Threads and draws, shared: they hold nothing of a folder but what is named."""
    made = Marker(draws=500, date="2026-11-25")
    yield made
    made.close()


@pytest.fixture
def season(tmp_path: Path) -> Path:
    """A season of one's own to write in."""
    return Path(shutil.copytree(SEASON, tmp_path / "season"))


@pytest.fixture
def asking(season: Path, marker: Marker) -> Iterator[Asking]:
    """The desk over it."""
    lock = Lock(frozenset({"127.0.0.1:8000", "localhost:8000"}), SHELLS, "the-token")
    folder = opened(str(season))
    desk = Desk(folder, marker, season.parent)
    app = desk_app(desk, lock)
    with (
        TestClient(app, ADDRESS, headers={TOKEN_HEADER: "the-token"}) as client,
        TestClient(app, ADDRESS) as stranger,
    ):
        yield Asking(client, stranger, folder, season, desk)
