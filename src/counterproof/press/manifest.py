"""The manifest of a press folder: every file with its checksum, and what it was pressed from."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from hashlib import sha256
from typing import Any, Final

from counterproof.errors import BrokenSettings

MANIFEST: Final = "manifest.json"
"""Its name; a folder that has one is a press folder."""


@dataclass(frozen=True, slots=True)
class Impression:
    """What was asked of the press; with the inputs it decides every byte.

    Parameters
    ----------
    recipe : str
        Title of the recipe.
    version : str or None
        Which version of it.
    date : str
        The day it is pressed for, ISO 8601.
    language : str
        Of the fixed words.
    paper, measures : str
        How the card is cut and measured.
    serves : float or None
        Servings asked for; None for the recipe's own. [1]
    seed, draws : int
        Of the draws.
    """

    recipe: str
    version: str | None
    date: str
    language: str
    paper: str
    measures: str
    serves: float | None
    seed: int
    draws: int


@dataclass(frozen=True, slots=True)
class PressedFile:
    """A file of the folder.

    Parameters
    ----------
    name : str
        Where it lies in the folder.
    part : str
        The part it belongs to.
    size : int
        Its length. [bytes]
    sha256 : str
        Its checksum.
    pressed_from : str
        Checksum of all that decided its bytes: two files with the same one belong together.
    """

    name: str
    part: str
    size: int
    sha256: str
    pressed_from: str


@dataclass(frozen=True, slots=True)
class Manifest:
    """What a press folder holds and what it was pressed from.

    Parameters
    ----------
    impression : Impression
        What was asked.
    basis : mapping of str to str or int or float
        The basis of the figures: data, seed, draws, version of the program.
    inputs : mapping of str to str
        File of the cook's → its checksum.
    files : tuple of PressedFile
        Every file but this one.
    left_out : mapping of str to str
        What is not in the folder → why.
    """

    impression: Impression
    basis: Mapping[str, str | int | float]
    inputs: Mapping[str, str]
    files: tuple[PressedFile, ...] = ()
    left_out: Mapping[str, str] = field(default_factory=dict)

    @property
    def pressed_from(self) -> str:
        """Checksum of impression, basis and inputs."""
        told = [asdict(self.impression), dict(self.basis), dict(self.inputs)]
        return checksum(json.dumps(told, sort_keys=True, ensure_ascii=False).encode())

    @property
    def left_behind(self) -> tuple[str, ...]:
        """Parts that were pressed from something else and carried over."""
        late = (file.part for file in self.files if file.pressed_from != self.pressed_from)
        return tuple(dict.fromkeys(late))

    def with_files(self, parts: Mapping[str, str], contents: Mapping[str, bytes]) -> Manifest:
        """Return the manifest with the files that were just pressed.

        Parameters
        ----------
        parts : mapping of str to str
            File name → part.
        contents : mapping of str to bytes
            File name → content.

        Returns
        -------
        Manifest
            Those files beside what was carried over.
        """
        source = self.pressed_from
        made = tuple(
            PressedFile(name, parts[name], len(content), checksum(content), source)
            for name, content in contents.items()
        )
        kept = tuple(file for file in self.files if file.name not in contents)
        return replace(self, files=tuple(sorted((*made, *kept), key=lambda file: file.name)))

    def to_bytes(self) -> bytes:
        """Return the manifest as it is written."""
        document = {
            "made_by": "counterproof press",
            "impression": asdict(self.impression),
            "basis": dict(self.basis),
            "inputs": dict(self.inputs),
            "pressed_from": self.pressed_from,
            "left_out": dict(self.left_out),
            "files": [asdict(file) for file in self.files],
        }
        return (json.dumps(document, ensure_ascii=False, indent=2) + "\n").encode()


def checksum(content: bytes) -> str:
    """Return the SHA-256 of some bytes.

    Parameters
    ----------
    content : bytes
        Any.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    return sha256(content).hexdigest()


def read_manifest(content: bytes, file: str) -> Manifest:
    """Return the manifest that a press folder holds.

    Parameters
    ----------
    content : bytes
        What stands in the file.
    file : str
        Its name, for messages.

    Returns
    -------
    Manifest
        As it was written.

    Raises
    ------
    BrokenSettings
        If it is not one.
    """
    try:
        document: Any = json.loads(content)
        return Manifest(
            Impression(**document["impression"]),
            dict(document["basis"]),
            dict(document["inputs"]),
            tuple(PressedFile(**one) for one in document["files"]),
            dict(document.get("left_out", {})),
        )
    except (ValueError, KeyError, TypeError) as fault:
        raise BrokenSettings(
            f"This is not the manifest of a press folder: {fault!r}.",
            remedy="Press the episode into a fresh folder.",
            file=file,
        ) from None
