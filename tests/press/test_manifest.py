"""The manifest of a press folder, and what moved between two pressings."""

from __future__ import annotations

import hashlib
from dataclasses import replace

import pytest

from counterproof.errors import BrokenSettings
from counterproof.press.manifest import Impression, Manifest, checksum, read_manifest
from counterproof.press.moved import moved

ASKED = Impression("Stew", None, "2026-11-25", "en", "a5", "both", None, 1, 1000)
PLAIN = Manifest(ASKED, {"seed": 1, "draws": 1000}, {"recipe.md": "abc"})


def _figures(**shown: str) -> bytes:
    rows = "".join(f"{key.replace('_', ':')},{key},{told}\n" for key, told in shown.items())
    return f"key,name,shown\n{rows}".encode()


def test_a_checksum_is_sha_256() -> None:
    assert checksum(b"stew") == hashlib.sha256(b"stew").hexdigest()


def test_a_manifest_is_read_back_equal() -> None:
    whole = PLAIN.with_files({"a.txt": "card"}, {"a.txt": b"hello"})
    assert read_manifest(whole.to_bytes(), "manifest.json") == whole


def test_what_was_carried_over_from_another_recipe_is_named() -> None:
    old = PLAIN.with_files({"a.txt": "card", "b.txt": "script"}, {"a.txt": b"1", "b.txt": b"2"})
    today = replace(PLAIN, inputs={"recipe.md": "def"}, files=old.files)
    new = today.with_files({"a.txt": "card"}, {"a.txt": b"3"})
    assert new.left_behind == ("script",)
    assert old.left_behind == ()


@pytest.mark.parametrize("content", [b"", b"[]", b'{"files": []}', b"\xff", b'{"impression": 3}'])
def test_what_is_no_manifest_is_one_clear_error(content: bytes) -> None:
    with pytest.raises(BrokenSettings, match="not the manifest"):
        read_manifest(content, "manifest.json")


def test_nothing_moved_where_every_byte_is_the_same() -> None:
    files = {"data/figures.csv": _figures(serving="0.64"), "stills/total.svg": b"x"}
    assert not moved(files, dict(files))


def test_figures_lines_and_stills_that_moved_are_told_apart() -> None:
    was = {
        "data/figures.csv": _figures(serving="0.64", line_3="0.12", gone="1"),
        "stills/total.svg": b"x",
        "stills/total.csv": b"x",
        "stills/same.svg": b"s",
    }
    now = {
        **was,
        "data/figures.csv": _figures(serving="0.65", line_3="0.13", new="2"),
        "stills/total.svg": b"y",
        "stills/total.csv": b"y",
    }
    found = moved(was, now)
    assert [(one.key, one.was, one.now) for one in found.figures] == [
        ("serving", "0.64", "0.65"),
        ("gone", "1", ""),
        ("new", "", "2"),
    ]
    assert [(one.key, one.was, one.now) for one in found.lines] == [("line:3", "0.12", "0.13")]
    assert found.stills == ("total",)
    assert found.files == ("data/figures.csv", "stills/total.csv", "stills/total.svg")


def test_a_number_that_moved_below_its_printed_digits_has_not_moved() -> None:
    was = {"data/figures.csv": b"key,name,shown,mean\nserving,one serving,0.64,0.638\n"}
    now = {"data/figures.csv": b"key,name,shown,mean\nserving,one serving,0.64,0.639\n"}
    found = moved(was, now)
    assert found.figures == ()
    assert found.files == ("data/figures.csv",)
