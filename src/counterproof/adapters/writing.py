"""Files written whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from counterproof.errors import InputError, UnreadableFile


def write_atomically(path: Path, content: bytes, mode: int | None = None) -> None:
    """Write a file so that it is there whole or not at all.

    Parameters
    ----------
    path : Path
        Where to; its folder must exist.
    content : bytes
        What to write.
    mode : int or None
        Who may read it; as it was, or as the system gives it, where None.

    Raises
    ------
    UnreadableFile
        If the folder is not there or may not be written in.
    """
    try:
        if mode is None:
            mode = path.stat().st_mode & 0o777 if path.exists() else 0o666 & ~umask()
        handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}.", dir=path.parent)
    except (OSError, ValueError) as fault:
        raise _unwritable(path, fault) from None
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        Path(name).chmod(mode)
        Path(name).replace(path)
    except OSError as fault:
        Path(name).unlink(missing_ok=True)
        raise _unwritable(path, fault) from None
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def umask() -> int:
    """Return the bits of a mode that the system takes away from new files.

    Returns
    -------
    int
        The mask, left as it was.
    """
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _unwritable(path: Path, fault: Exception) -> InputError:
    why = getattr(fault, "strerror", None) or str(fault)
    return UnreadableFile(
        f"The file cannot be written: {why}.",
        remedy="Check that its folder is there and that you may write in it.",
        file=str(path),
    )


def write_folder(folder: Path, contents: Mapping[str, bytes]) -> tuple[Path, ...]:
    """Write several files into a folder, which is made where it is not there.

    Parameters
    ----------
    folder : Path
        Where to.
    contents : mapping of str to bytes
        File name → what to write.

    Returns
    -------
    tuple of Path
        The files, in the order given.

    Raises
    ------
    UnreadableFile
        If the folder cannot be made or written in.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise _unwritable(folder, fault) from None
    for name, content in contents.items():
        write_atomically(folder / name, content)
    return tuple(folder / name for name in contents)
