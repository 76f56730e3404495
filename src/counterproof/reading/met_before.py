"""What was read once and need not be read again: recipes repeat themselves, and so does typing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable

_Read = TypeVar("_Read")
MOST_HELD: Final = 4_000
"""Lines and steps that are held: more than a season's, few beside the names of the tables."""


class MetBefore:
    """Holds what lines and steps were read as, each read once.

    Whoever reads many recipes holds one. What it holds changes no answer, and is bounded.
    """

    __slots__ = ("_held",)

    def __init__(self) -> None:
        self._held: dict[tuple[Hashable, ...], object] = {}

    def __len__(self) -> int:
        """Return how much is held."""
        return len(self._held)

    def once(self, read: Callable[..., _Read], *asked: Hashable) -> _Read:
        """What a function reads in a text, asked only where it was not asked before.

        Parameters
        ----------
        read : callable
            Pure: what it returns follows from what it is asked, and cannot be changed.
        *asked : hashable
            What it is asked.

        Returns
        -------
        object
            As the function returns it.
        """
        name = (read, *asked)
        found = self._held.get(name)
        if found is None:
            if len(self._held) >= MOST_HELD:
                self._held.clear()
            found = self._held[name] = read(*asked)
        return cast("_Read", found)
