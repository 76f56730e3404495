"""Files saved whole, with a revision; drafts for their owner's eyes alone."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from counterproof.desk import documents
from counterproof.desk.documents import NOT_THERE
from counterproof.errors import ChangedOnDisk, OutsideFolder

Asking = Any
EPISODE = "01-barley-pot"


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (b"a\nb\n", b"a\nc\n"),
        (b"a\r\nb\r\n", b"a\r\nc\r\n"),
        (b"\xef\xbb\xbfa\nb\n", b"\xef\xbb\xbfa\nc\n"),
    ],
)
def test_a_save_changes_what_was_typed_and_nothing_else(
    tmp_path: Path, before: bytes, after: bytes
) -> None:
    place = tmp_path / "recipe.md"
    place.write_bytes(before)
    now = documents.standing(place, tmp_path)
    assert now.text == "a\nb\n"
    documents.saved(place, now.text.replace("b", "c"), now.revision, tmp_path)
    assert place.read_bytes() == after


def test_a_save_over_another_revision_writes_nothing(tmp_path: Path) -> None:
    place = tmp_path / "recipe.md"
    place.write_text("mine")
    over = documents.standing(place, tmp_path).revision
    place.write_text("theirs")
    with pytest.raises(ChangedOnDisk):
        documents.saved(place, "mine, longer", over, tmp_path)
    assert place.read_text() == "theirs"


def test_a_file_made_by_someone_else_meanwhile_is_kept(tmp_path: Path) -> None:
    place = tmp_path / "script.md"
    place.write_text("theirs")
    with pytest.raises(ChangedOnDisk):
        documents.saved(place, "mine", NOT_THERE, tmp_path)
    assert place.read_text() == "theirs"


def test_a_draft_is_readable_by_its_owner_alone_whatever_the_umask(tmp_path: Path) -> None:
    place = tmp_path / "recipe.md"
    before = os.umask(0)
    try:
        documents.drafted(place, "typed", "r1", tmp_path)
    finally:
        os.umask(before)
    (draft,) = tmp_path.iterdir()
    assert draft.stat().st_mode & 0o777 == 0o600
    assert documents.draft_of(place, tmp_path) == documents.Draft("typed", "r1")


def test_saving_throws_the_draft_away(tmp_path: Path) -> None:
    place = tmp_path / "recipe.md"
    documents.drafted(place, "typed", NOT_THERE, tmp_path)
    documents.saved(place, "typed", NOT_THERE, tmp_path)
    assert [one.name for one in tmp_path.iterdir()] == ["recipe.md"]


def test_what_is_typed_back_to_what_is_saved_leaves_no_draft(tmp_path: Path) -> None:
    place = tmp_path / "recipe.md"
    place.write_text("as it was")
    over = documents.standing(place, tmp_path).revision
    documents.drafted(place, "as it is", over, tmp_path)
    documents.drafted(place, "as it was", over, tmp_path)
    assert [one.name for one in tmp_path.iterdir()] == ["recipe.md"]


@pytest.mark.parametrize("content", [b"", b"{", b'{"text": 1}', b"[]", b"\xff\xfe", b"[" * 5000])
def test_a_draft_that_cannot_be_read_is_no_draft(tmp_path: Path, content: bytes) -> None:
    (tmp_path / ".recipe.md.draft").write_bytes(content)
    assert documents.draft_of(tmp_path / "recipe.md", tmp_path) is None


def test_a_link_that_leads_outside_is_neither_read_nor_written(tmp_path: Path) -> None:
    outside = tmp_path / "outside.txt"
    outside.write_text("a secret")
    folder = tmp_path / "open"
    folder.mkdir()
    link = folder / "recipe.md"
    link.symlink_to(outside)
    attempts: list[Callable[[], object]] = [
        lambda: documents.standing(link, folder),
        lambda: documents.saved(link, "x", NOT_THERE, folder),
        lambda: documents.standing(folder / ".." / "outside.txt", folder),
    ]
    for attempt in attempts:
        with pytest.raises(OutsideFolder) as fault:
            attempt()
        assert "secret" not in str(fault.value)
        assert str(tmp_path) not in str(fault.value)
    assert outside.read_text() == "a secret"


def test_a_linked_draft_is_not_followed(tmp_path: Path) -> None:
    outside = tmp_path / "outside.txt"
    outside.write_text('{"text": "planted", "over": "x"}')
    folder = tmp_path / "open"
    folder.mkdir()
    (folder / ".recipe.md.draft").symlink_to(outside)
    with pytest.raises(OutsideFolder):
        documents.draft_of(folder / "recipe.md", folder)


def test_a_loop_of_links_ends(tmp_path: Path) -> None:
    (tmp_path / "one").symlink_to(tmp_path / "two")
    (tmp_path / "two").symlink_to(tmp_path / "one")
    with pytest.raises(OutsideFolder):
        documents.standing(tmp_path / "one", tmp_path)


def test_the_page_is_told_of_a_conflict_and_can_take_either_text(asking: Asking) -> None:
    told = asking.page()
    mine = told["text"].replace("Barley pot", "My barley pot")
    asking.recipe.write_text(told["text"].replace("Barley pot", "Their barley pot"))
    save = {"what": "recipe", "name": EPISODE, "text": mine, "over": told["over"]}
    refused = asking.client.post("/save", json=save)
    assert refused.status_code == 409
    assert "Their barley pot" in refused.json()["theirs"]
    assert "Their barley pot" in asking.recipe.read_text()
    kept = asking.client.post("/save", json={**save, "over": refused.json()["over"]})
    assert kept.status_code == 200
    assert "My barley pot" in asking.recipe.read_text()


def test_a_draft_outlives_the_desk(asking: Asking) -> None:
    told = asking.page()
    documents.drafted(asking.recipe, told["text"] + "typed\n", told["over"], asking.root)
    again = asking.page()
    assert again["drafted"] is True
    assert again["text"].endswith("typed\n")
    assert again["saved"] == told["text"]
    asking.client.post("/drop-draft", json={"what": "recipe", "name": EPISODE})
    assert asking.page()["drafted"] is False
