"""The press folder on the disk: there whole or not at all, and what stood there is not lost.

A folder is built beside its place, every file and folder forced to the disk, and then changes
places with the old one in a single step where the system can do that (Linux, renameat2), else in
two. What an interrupted run left behind is cleared away by the next.
"""

from __future__ import annotations

import ctypes
import os
import shutil
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path
from tempfile import mkdtemp
from typing import Final

from counterproof.adapters.writing import umask
from counterproof.errors import AlreadyThere, UnreadableFile
from counterproof.press.manifest import MANIFEST, Manifest, checksum, read_manifest

_BESIDE: Final = ".pressing-"
_OLD: Final = ".pressed-"
_CURRENT: Final = -100  # AT_FDCWD of Linux: paths are from the working folder
_EXCHANGE: Final = 2  # RENAME_EXCHANGE of Linux: both names are there before and after


def manifest_in(folder: Path) -> Manifest | None:
    """Return what a press folder says of itself.

    Parameters
    ----------
    folder : Path
        Any folder.

    Returns
    -------
    Manifest or None
        None where it holds no manifest.

    Raises
    ------
    UnreadableFile
        If it cannot be read.
    BrokenSettings
        If what lies there is not a manifest.
    """
    place = folder / MANIFEST
    try:
        if not place.exists():
            return None
        return read_manifest(place.read_bytes(), str(place))
    except OSError as fault:
        raise _unreadable(place, fault) from None


def contents_of(folder: Path) -> dict[str, bytes]:
    """Return every file of a folder.

    Parameters
    ----------
    folder : Path
        Any folder; none there is an empty one.

    Returns
    -------
    dict of str to bytes
        Name, with / between folders → content; the manifest is left out.

    Raises
    ------
    UnreadableFile
        If one of them cannot be read.
    """
    try:
        return {
            place.relative_to(folder).as_posix(): place.read_bytes()
            for place in sorted(folder.rglob("*"))
            if place.is_file() and place != folder / MANIFEST
        }
    except OSError as fault:
        raise _unreadable(folder, fault) from None


def free_place(folder: Path) -> dict[str, bytes]:
    """Return what stands at the place of a press folder, once nothing of a person's would be lost.

    Parameters
    ----------
    folder : Path
        Where the press folder is to stand.

    Returns
    -------
    dict of str to bytes
        Its files as they were pressed; none where nothing stands there.

    Raises
    ------
    AlreadyThere
        If something stands there that the press did not make, or made otherwise.
    """
    if folder.exists() and not folder.is_dir():
        raise AlreadyThere(
            "This is a file, not a folder.",
            remedy="Name another place with -o.",
            file=str(folder),
        )
    manifest, found = manifest_in(folder), contents_of(folder)
    if manifest is None:
        if found:
            raise AlreadyThere(
                f"The folder was not made by the press and holds {_named(list(found))}.",
                remedy="Name another place with -o; nothing is written over.",
                file=str(folder),
            )
        return {}
    known = {file.name: file.sha256 for file in manifest.files}
    foreign = [name for name, content in found.items() if known.get(name) != checksum(content)]
    if foreign:
        raise AlreadyThere(
            f"The press did not make {_named(foreign)}, or made it otherwise.",
            remedy="Move it to another place, or name another folder with -o: "
            "the press replaces the whole folder.",
            file=str(folder),
        )
    return found


def write_press_folder(folder: Path, contents: Mapping[str, bytes]) -> None:
    """Put a finished folder in its place; what stood there stays until it is finished.

    Parameters
    ----------
    folder : Path
        Where it is to stand.
    contents : mapping of str to bytes
        Name, with / between folders → content.

    Raises
    ------
    UnreadableFile
        If it cannot be written; then what stood there is untouched.
    """
    folder = folder.absolute()
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        _clear(folder)
        with _beside(folder) as beside:
            for name, content in contents.items():
                _write(beside / name, content)
            for place in (*(one for one in beside.rglob("*") if one.is_dir()), beside):
                _force(place)
            _change_places(beside, folder)
            _force(folder.parent)
    except OSError as fault:
        raise UnreadableFile(
            f"The press folder cannot be written: {fault.strerror or fault}.",
            remedy="Make room or name another place with -o; what stood there before is untouched.",
            file=str(folder),
        ) from None


@contextmanager
def _beside(folder: Path) -> Iterator[Path]:
    """A fresh folder beside the place, locked while we work in it, gone afterwards."""
    beside = Path(mkdtemp(prefix=f".{folder.name}{_BESIDE}", dir=folder.parent))
    with _locked(beside):
        try:
            beside.chmod(0o777 & ~umask())
            yield beside
        finally:
            shutil.rmtree(beside, ignore_errors=True)


@contextmanager
def _locked(folder: Path) -> Iterator[bool]:
    """Hold a folder for this run; false where another run holds it. Without locks, all are free."""
    try:
        import fcntl  # noqa: PLC0415 (Unix only)
    except ImportError:
        yield True
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        try:
            fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError:
            yield False
        else:
            yield True
    finally:
        os.close(handle)


def _clear(folder: Path) -> None:
    """Clear away what an interrupted run left; bring back the old folder if it stopped midway."""
    for old in sorted(folder.parent.glob(f".{folder.name}{_OLD}*")):
        if folder.exists():
            shutil.rmtree(old, ignore_errors=True)
        else:
            old.rename(folder)
    for left in folder.parent.glob(f".{folder.name}{_BESIDE}*"):
        with suppress(OSError), _locked(left) as free:
            if free:
                shutil.rmtree(left, ignore_errors=True)


def _change_places(new: Path, folder: Path) -> None:
    if not folder.exists():
        new.rename(folder)
    elif not _exchanged(new, folder):
        old = folder.parent / f".{folder.name}{_OLD}{new.name.rpartition('-')[2]}"
        folder.rename(old)
        try:
            new.rename(folder)
        except BaseException:
            old.rename(folder)
            raise
        shutil.rmtree(old, ignore_errors=True)


def _exchanged(one: Path, other: Path) -> bool:
    """Whether the system let two names change places in one step."""
    if not sys.platform.startswith("linux"):
        return False
    rename = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if rename is None:
        return False
    names = (os.fsencode(one), os.fsencode(other))
    return bool(rename(_CURRENT, names[0], _CURRENT, names[1], _EXCHANGE) == 0)


def _write(place: Path, content: bytes) -> None:
    place.parent.mkdir(parents=True, exist_ok=True)
    with place.open("wb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def _force(folder: Path) -> None:
    """Force a folder's names to the disk, where the system has a way to."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _unreadable(place: Path, fault: OSError) -> UnreadableFile:
    return UnreadableFile(
        f"It cannot be read: {fault.strerror or fault}.",
        remedy="Check that you may read it, or name another place with -o.",
        file=str(place),
    )


def _named(names: list[str]) -> str:
    shown = ", ".join(f"“{name}”" for name in names[:3])
    return shown if len(names) <= 3 else f"{shown} and {len(names) - 3} more"
