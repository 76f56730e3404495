"""Files are written whole or not at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from counterproof.adapters.writing import write_atomically
from counterproof.errors import UnreadableFile


def test_writing_is_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "card.svg"
    write_atomically(place, b"one")
    place.chmod(0o640)
    write_atomically(place, b"two")
    assert place.read_bytes() == b"two"
    assert place.stat().st_mode & 0o777 == 0o640

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(UnreadableFile, match="No space left"):
        write_atomically(place, b"three")
    assert place.read_bytes() == b"two"
    assert [one.name for one in tmp_path.iterdir()] == ["card.svg"]


def test_writing_where_there_is_no_folder(tmp_path: Path) -> None:
    with pytest.raises(UnreadableFile, match="cannot be written"):
        write_atomically(tmp_path / "gone" / "card.svg", b"x")
