"""What a press folder does not hold is told in its manifest."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from counterproof.forme import Forme
from counterproof.press import left_out as room
from counterproof.press.left_out import left_out
from counterproof.press.manifest import Impression, Manifest, read_manifest

MadeForme = Callable[..., Forme]
ASKED = Impression("Dish", None, "2026-11-25", "en", "a5", "both", None, 1, 1000)


def test_an_episode_without_a_script_says_so(demo_forme: MadeForme) -> None:
    whole = demo_forme("05-pear-oat-crumble")
    assert "script" not in left_out(whole)
    found = left_out(demo_forme("05-pear-oat-crumble", script=None))
    assert found["script"] == "The episode has no script: write a script.md beside its recipe."
    manifest = Manifest(ASKED, {}, {}, left_out=found)
    assert read_manifest(manifest.to_bytes(), "manifest.json").left_out == found


def test_a_missing_library_is_named(demo_forme: MadeForme, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "find_spec", lambda _: None)
    found = left_out(demo_forme("05-pear-oat-crumble"))
    assert "counterproof[parquet]" in found["data/figures.parquet"]


def test_a_still_with_nothing_to_show_is_named_with_its_reason(demo_forme: MadeForme) -> None:
    found = left_out(demo_forme("05-pear-oat-crumble", courses=()))
    assert "Nothing hot is cooled" in found["stills/cooling"]
    assert "stills/total" not in found
