"""The press folder on the disk: whole or not at all, and nothing of a person's is lost."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
import textwrap
from pathlib import Path
from typing import Any

import pytest

from counterproof.adapters import press_folder
from counterproof.adapters.press_folder import (
    contents_of,
    free_place,
    manifest_in,
    write_press_folder,
)
from counterproof.errors import AlreadyThere, UnreadableFile
from counterproof.press.manifest import MANIFEST, Impression, Manifest

ASKED = Impression("Stew", None, "2026-11-25", "en", "a5", "both", None, 1, 1000)


def finished(**files: str) -> dict[str, bytes]:
    """A folder's contents with its manifest; `__` in a name stands for /, `_` for a point."""
    contents = {
        name.replace("__", "/").replace("_", "."): text.encode() for name, text in files.items()
    }
    whole = Manifest(ASKED, {}, {}).with_files(dict.fromkeys(contents, "card"), contents)
    return {**contents, MANIFEST: whole.to_bytes()}


def test_a_folder_is_written_with_its_folders(tmp_path: Path) -> None:
    place = tmp_path / "deep" / "press"
    write_press_folder(place, finished(card__card_txt="stew", a_csv="1"))
    assert contents_of(place) == {"card/card.txt": b"stew", "a.csv": b"1"}
    assert manifest_in(place) is not None
    assert list(place.parent.iterdir()) == [place]


@pytest.mark.parametrize("in_one_step", [True, False])
def test_a_finished_folder_replaces_the_old_one_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, *, in_one_step: bool
) -> None:
    if not in_one_step:
        monkeypatch.setattr(press_folder, "_exchanged", lambda *_: False)
    place = tmp_path / "press"
    write_press_folder(place, finished(old_txt="old"))
    write_press_folder(place, finished(new_txt="new"))
    assert contents_of(place) == {"new.txt": b"new"}
    assert list(tmp_path.iterdir()) == [place]


def _full(*_: Any, **__: Any) -> None:
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def test_a_full_disk_leaves_the_old_folder_untouched(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "press"
    write_press_folder(place, finished(old_txt="old"))
    written = press_folder._write

    def nearly_full(target: Path, content: bytes) -> None:
        written(target, content)
        _full()

    monkeypatch.setattr(press_folder, "_write", nearly_full)
    with pytest.raises(UnreadableFile, match="No space left") as caught:
        write_press_folder(place, finished(new_txt="new"))
    assert "untouched" in caught.value.remedy
    assert contents_of(place) == {"old.txt": b"old"}
    assert list(tmp_path.iterdir()) == [place]


def test_a_swap_that_fails_midway_brings_the_old_folder_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "press"
    write_press_folder(place, finished(old_txt="old"))
    monkeypatch.setattr(press_folder, "_exchanged", lambda *_: False)
    rename = Path.rename

    def second_fails(self: Path, target: Path) -> Path:
        if target == place and ".pressing-" in self.name:
            _full()
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", second_fails)
    with pytest.raises(UnreadableFile):
        write_press_folder(place, finished(new_txt="new"))
    assert contents_of(place) == {"old.txt": b"old"}
    assert list(tmp_path.iterdir()) == [place]


def test_an_interruption_leaves_the_old_folder_and_no_trace(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "press"
    write_press_folder(place, finished(old_txt="old"))

    def interrupted(*_: Any) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(press_folder, "_change_places", interrupted)
    with pytest.raises(KeyboardInterrupt):
        write_press_folder(place, finished(new_txt="new"))
    assert contents_of(place) == {"old.txt": b"old"}
    assert list(tmp_path.iterdir()) == [place]


@pytest.mark.skipif(os.name != "posix", reason="kills a process the Unix way")
def test_what_a_killed_run_left_is_cleared_away_by_the_next(tmp_path: Path) -> None:
    place = tmp_path / "press"
    write_press_folder(place, finished(old_txt="old"))
    script = textwrap.dedent(
        f"""
        import os, signal
        from pathlib import Path
        from counterproof.adapters import press_folder
        press_folder._change_places = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
        press_folder.write_press_folder(Path({str(place)!r}), {{"new.txt": b"new"}})
        """
    )
    ended = subprocess.run([sys.executable, "-c", script], check=False)  # noqa: S603 (our own script)
    assert ended.returncode == -signal.SIGKILL
    assert len(list(tmp_path.iterdir())) == 2  # the old folder, and the half-made one beside it
    assert contents_of(place) == {"old.txt": b"old"}
    write_press_folder(place, finished(new_txt="new"))
    assert list(tmp_path.iterdir()) == [place]
    assert contents_of(place) == {"new.txt": b"new"}


def test_a_run_that_stopped_between_two_renames_is_mended_by_the_next(tmp_path: Path) -> None:
    place = tmp_path / "press"
    write_press_folder(place, finished(old_txt="old"))
    place.rename(tmp_path / ".press.pressed-abc")
    press_folder._clear(place)
    assert contents_of(place) == {"old.txt": b"old"}


def test_another_run_at_work_is_left_alone(tmp_path: Path) -> None:
    place = tmp_path / "press"
    with press_folder._beside(place) as at_work:
        (at_work / "half.txt").write_bytes(b"half")
        write_press_folder(place, finished(new_txt="new"))
        assert (at_work / "half.txt").exists()
    assert list(tmp_path.iterdir()) == [place]


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root writes anywhere")
def test_a_folder_that_may_not_be_written_in_is_one_clear_error(tmp_path: Path) -> None:
    tmp_path.chmod(0o555)
    try:
        with pytest.raises(UnreadableFile, match="Permission denied"):
            write_press_folder(tmp_path / "press", finished(a_txt="a"))
    finally:
        tmp_path.chmod(0o755)


def test_a_read_only_place_is_one_clear_error(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(**_: Any) -> str:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr(press_folder, "mkdtemp", refused)
    with pytest.raises(UnreadableFile, match="Permission denied"):
        write_press_folder(tmp_path / "press", finished(a_txt="a"))
    assert list(tmp_path.iterdir()) == []


def test_a_folder_of_somebody_elses_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    with pytest.raises(AlreadyThere, match="not made by the press"):
        free_place(tmp_path)


def test_a_file_at_the_place_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "press").write_text("mine")
    with pytest.raises(AlreadyThere, match="a file, not a folder"):
        free_place(tmp_path / "press")


@pytest.mark.parametrize("name", ["notes.txt", "card.txt"])
def test_what_a_person_put_or_changed_there_is_not_lost(tmp_path: Path, name: str) -> None:
    place = tmp_path / "press"
    write_press_folder(place, finished(card_txt="stew"))
    (place / name).write_text("mine")
    with pytest.raises(AlreadyThere, match=name):
        free_place(place)


def test_an_empty_or_missing_place_is_free(tmp_path: Path) -> None:
    assert free_place(tmp_path) == {}
    assert free_place(tmp_path / "nowhere") == {}
