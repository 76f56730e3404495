"""What the program notes beside a line of the recipe."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Level = Literal["note", "doubt", "fault"]
"""note: worth knowing; doubt: a choice is open; fault: not counted."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark in the margin.

    Parameters
    ----------
    level : Level
        note, doubt or fault.
    kind : str
        Short slug from a closed list per package, such as ``no-amount``.
    message : str
        One sentence a cook understands.
    choices : tuple of str
        Texts that settle the doubt; each can be written into the line as ``(meaning …)``.
    """

    level: Level
    kind: str
    message: str
    choices: tuple[str, ...] = ()

    def to_dict(self) -> dict[str, str | list[str]]:
        """Return the JSON form."""
        return {
            "level": self.level,
            "kind": self.kind,
            "message": self.message,
            "choices": list(self.choices),
        }
