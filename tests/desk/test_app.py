"""The desk's routes, each asked once as the page asks it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from counterproof.desk.app import SHELLS, desk_app
from counterproof.desk.guards import TOKEN_HEADER, Lock
from counterproof.desk.marking import Marker
from counterproof.desk.opened import opened
from counterproof.desk.shared import Desk
from counterproof.recipe.text import read_text

Asking = Any
EPISODE = "01-barley-pot"


def test_a_page_tells_its_text_and_what_is_open(asking: Asking) -> None:
    told = asking.page()
    assert told["text"] == told["saved"] == asking.recipe.read_text()
    assert told["drafted"] is False
    assert "Evenings at the hall" in told["html"]
    script = asking.page("/leaf/script")
    assert "[= one serving of this recipe]" in script["text"]


def test_a_version_is_written_where_the_page_asks(asking: Asking) -> None:
    text = asking.page()["text"]
    at = text.split("\n").index("- 200 g pearl barley") + 1
    told = {"name": EPISODE, "text": text, "version": "rice", "line": at, "instead": "200 g rice"}
    answer = asking.client.post("/version", json=told)
    assert answer.status_code == 200, answer.text
    versions = read_text(answer.json()["text"]).versions
    assert [version.name for version in versions] == ["lamb", "rice"]
    refused = asking.client.post("/version", json={**told, "version": "lamb"})
    assert refused.status_code == 422
    assert refused.json()["error"]["remedy"]


def test_what_is_dropped_comes_back_as_text(asking: Asking) -> None:
    linked = {"@type": "Recipe", "name": "Soup", "recipeIngredient": ["2 leeks"], "recipeInstructions": "Boil."}  # fmt: skip
    told = {"file": "soup.json", "content": json.dumps(linked)}
    answer = asking.client.post("/bring-in", json=told)
    assert "2 leeks" in answer.json()["text"]
    bad = asking.client.post("/bring-in", json={"file": "x.html", "content": "<p>nothing</p>"})
    assert bad.status_code == 422
    assert bad.json()["error"]["kind"] == "NotARecipe"


@pytest.mark.parametrize("body", [b"", b"[]", b"{", b'{"name": 1}', b"[" * 100_000, b'{"name": "' + b"x" * 99 + b'"}'])  # fmt: skip
@pytest.mark.parametrize("path", ["/save", "/marks", "/version", "/bring-in", "/press"])
def test_a_request_that_says_too_little_is_refused_in_words(
    asking: Asking, path: str, body: bytes
) -> None:
    answer = asking.client.post(path, content=body)
    assert answer.status_code == 422
    assert answer.json()["error"]["remedy"]


def test_an_error_names_a_file_and_no_path(asking: Asking) -> None:
    asking.recipe.write_bytes(b"\xff\xfe\x00")
    answer = asking.client.get("/leaf/recipe", params={"name": EPISODE})
    assert answer.status_code == 422
    assert answer.json()["error"]["file"] == "recipe.md"
    assert str(asking.root) not in answer.text


def test_the_press_is_run_from_what_is_saved(asking: Asking) -> None:
    answer = asking.client.post("/press", json={"name": EPISODE})
    assert answer.status_code == 200, answer.text
    told = answer.json()
    assert told["folder"] == f"episodes/{EPISODE}/press"
    assert "card/card.pdf" in told["files"]
    for name in told["files"]:
        assert (asking.root / told["folder"] / name).is_file()


def test_a_press_folder_that_leads_outside_is_not_written(asking: Asking) -> None:
    outside = asking.root.parent / "outside"
    outside.mkdir()
    (asking.recipe.parent / "press").symlink_to(outside)
    answer = asking.client.post("/press", json={"name": EPISODE})
    assert answer.status_code == 422
    assert list(outside.iterdir()) == []


def test_the_demo_season_is_looked_at_copied_and_then_changed(
    tmp_path: Path, marker: Marker
) -> None:
    lock = Lock(frozenset({"127.0.0.1:8000"}), SHELLS, "t")
    app = desk_app(Desk(opened(None), marker, tmp_path), lock)
    with TestClient(app, "http://127.0.0.1:8000", headers={TOKEN_HEADER: "t"}) as client:
        told = client.get("/leaf/recipe").json()
        assert told["read_only"] is True
        assert 'id="keep-a-copy"' in told["html"]
        save = {"what": "recipe", "name": told["name"], "text": told["text"], "over": told["over"]}
        assert client.post("/save", json=save).status_code == 403
        assert client.post("/press", json=save).status_code == 403
        folder = client.post("/keep-a-copy", json={}).json()["folder"]
        assert (tmp_path / folder / "season.yaml").is_file()
        assert client.get("/leaf/recipe").json()["read_only"] is False
        changed = {**save, "text": told["text"] + "\nMine.\n"}
        assert client.post("/save", json=changed).status_code == 200
        place = tmp_path / folder / "episodes" / told["name"] / "recipe.md"
        assert place.read_text().endswith("Mine.\n")
