"""The scale on the desk: readings kept as they are typed, and written into the recipe."""

from typing import Any

import pytest

Asking = Any
READINGS = "1240 pot\n+onion 1655\n"


def _asked(asking: Asking, path: str, text: str) -> Any:
    return asking.client.post(path, json={"name": asking.folder.first, "text": text})


def test_readings_are_kept_and_told_beside_the_lines(asking: Asking) -> None:
    answer = _asked(asking, "/weighed", READINGS).json()
    assert "415 g ±" in answer["html"]
    assert answer["ready"]
    assert asking.page("/leaf/scale")["text"] == READINGS


def test_a_weigh_in_that_is_emptied_leaves_no_draft(asking: Asking) -> None:
    _asked(asking, "/weighed", READINGS)
    _asked(asking, "/weighed", "")
    assert asking.page("/leaf/scale")["text"] == ""
    assert not (asking.recipe.parent / "weigh-in.md").exists()


def test_weights_are_written_into_the_recipe_and_readings_into_a_batch(asking: Asking) -> None:
    answer = _asked(asking, "/weighed-in", READINGS)
    assert answer.status_code == 200, answer.text
    assert "(weighed 415 g" in asking.recipe.read_text(encoding="utf-8")
    batch = asking.root / answer.json()["batch"]
    assert batch.parent.name == "batches"
    assert "+onion 1655" in batch.read_text(encoding="utf-8")
    assert asking.page("/leaf/scale")["text"] == ""


def test_a_reading_that_is_not_counted_stops_the_writing(asking: Asking) -> None:
    before = asking.recipe.read_bytes()
    text = f"{READINGS}900\n"
    assert not _asked(asking, "/weighed", text).json()["ready"]
    assert _asked(asking, "/weighed-in", text).status_code == 422
    assert asking.recipe.read_bytes() == before


def test_too_many_readings_are_refused(asking: Asking) -> None:
    assert _asked(asking, "/weighed", "1\n" * 150_000).status_code in {413, 422}


@pytest.mark.parametrize("path", ["/weighed", "/weighed-in"])
def test_a_stranger_weighs_nothing_in(asking: Asking, path: str) -> None:
    assert asking.stranger.post(path, json={}).status_code == 401
