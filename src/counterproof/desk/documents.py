"""The plain files that are worked on: read with a revision, saved whole, a draft kept beside them.

A revision is a checksum of the bytes on disk. Whoever saves says which one they started from;
where the disk holds another by then, nothing is written over and both texts are there to choose
from. What is typed is drafted into a hidden file that only its owner can read, so that it
outlives browser and desk.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Final

from counterproof.adapters.confining import confined
from counterproof.adapters.contents import content_of, decoded
from counterproof.adapters.writing import write_atomically
from counterproof.errors import ChangedOnDisk, UnreadableFile

NOT_THERE: Final = "none"
"""The revision of a file that is not there yet."""

_OWNER_ALONE: Final = 0o600
_BOM: Final = "\ufeff".encode()


@dataclass(frozen=True, slots=True)
class Standing:
    """A file's text as it stands on disk, lines ended by line feeds, and which revision that is."""

    text: str
    revision: str


@dataclass(frozen=True, slots=True)
class Draft:
    """What was typed and not saved, and the revision it was typed over."""

    text: str
    over: str


def standing(path: Path, within: Path) -> Standing:
    """Return a file as it stands on disk.

    Parameters
    ----------
    path : Path
        The file; it need not be there yet.
    within : Path
        The folder that is open.

    Returns
    -------
    Standing
        Empty, and of the revision `NOT_THERE`, where there is no file.

    Raises
    ------
    InputError
        If it lies outside the folder, cannot be read, or is no text.
    """
    confined(path, within)
    if not path.is_file():
        return Standing("", NOT_THERE)
    content = content_of(path)
    text = decoded(content, path.name).replace("\r\n", "\n").replace("\r", "\n")
    return Standing(text, _revision(content))


def saved(path: Path, text: str, over: str, within: Path) -> Standing:
    """Save a text in place of the revision it was typed over.

    Parameters
    ----------
    path : Path
        The file.
    text : str
        All of it, lines ended by line feeds; they are ended on disk as they were before.
    over : str
        The revision that the writer had seen.
    within : Path
        The folder that is open.

    Returns
    -------
    Standing
        The file as it now stands; the draft is gone.

    Raises
    ------
    ChangedOnDisk
        If the disk holds another revision; nothing is written.
    InputError
        If it lies outside the folder or cannot be written.
    """
    now = standing(path, within)
    if now.revision != over:
        raise ChangedOnDisk(
            "The file has changed on disk since you opened it; nothing was written over.",
            remedy="Take what is on disk, or keep what stands here.",
            file=path.name,
        )
    before = content_of(path) if now.revision != NOT_THERE else b""
    ended = text.replace("\n", "\r\n") if b"\r\n" in before else text
    content = (_BOM if before.startswith(_BOM) else b"") + ended.encode()
    write_atomically(path, content)
    forget_draft(path, within)
    return Standing(text, _revision(content))


def draft_of(path: Path, within: Path) -> Draft | None:
    """Return what was typed over a file and not saved.

    Parameters
    ----------
    path : Path
        The file.
    within : Path
        The folder that is open.

    Returns
    -------
    Draft or None
        None where there is no draft, or none that can be read.
    """
    place = _draft_place(path)
    confined(place, within)
    if place.is_symlink() or not place.is_file():
        return None
    try:
        told = json.loads(decoded(content_of(place), place.name))
        return Draft(str(told["text"]), str(told["over"]))
    except (UnreadableFile, ValueError, KeyError, TypeError, RecursionError):
        return None


def drafted(path: Path, text: str, over: str, within: Path) -> None:
    """Keep what is typed, readable by its owner alone; nothing is kept that is saved already.

    Parameters
    ----------
    path : Path
        The file it is typed over.
    text : str
        All of it.
    over : str
        The revision it is typed over.
    within : Path
        The folder that is open.
    """
    if standing(path, within) == Standing(text, over):
        forget_draft(path, within)
        return
    place = confined(_draft_place(path), within)
    content = json.dumps({"over": over, "text": text}, ensure_ascii=False).encode()
    write_atomically(place, content, _OWNER_ALONE)


def forget_draft(path: Path, within: Path) -> None:
    """Throw a draft away.

    Parameters
    ----------
    path : Path
        The file it was typed over.
    within : Path
        The folder that is open.
    """
    confined(_draft_place(path), within).unlink(missing_ok=True)


def _draft_place(path: Path) -> Path:
    return path.with_name(f".{path.name}.draft")


def _revision(content: bytes) -> str:
    return sha256(content).hexdigest()[:16]
