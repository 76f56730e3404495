"""Drafts kept while typing goes on: at a pause, and at least every two seconds."""

from __future__ import annotations

import asyncio
import contextlib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from counterproof.desk import documents
from counterproof.errors import CounterproofError

REST: Final = 0.25
"""Pause in the typing after which a draft is written. [s] Assumed: a look up from the keys."""

LONGEST: Final = 2.0
"""Longest that typing without a pause goes undrafted. [s] Assumed: a few words are soon retyped."""


@dataclass
class Drafter:
    """What waits to be drafted, one text a file."""

    _waiting: dict[Path, asyncio.Task[None]] = field(default_factory=dict)
    _since: dict[Path, float] = field(default_factory=dict)
    _writing: dict[Path, asyncio.Task[None]] = field(default_factory=dict)

    def keep(self, path: Path, text: str, over: str, within: Path) -> None:
        """Draft a text soon.

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
        loop = asyncio.get_running_loop()
        self._cancel(path)
        since = self._since.setdefault(path, loop.time())
        wait = min(REST, max(0.0, since + LONGEST - loop.time()))
        self._waiting[path] = loop.create_task(self._later(wait, path, text, over, within))

    async def forget(self, path: Path) -> None:
        """Draft nothing more of a file that is being saved; what is being written is waited for.

        Parameters
        ----------
        path : Path
            The file.
        """
        self._cancel(path)
        self._since.pop(path, None)
        if path in self._writing:
            await self._writing[path]

    def _cancel(self, path: Path) -> None:
        waiting = self._waiting.pop(path, None)
        if waiting is not None:
            waiting.cancel()

    async def _later(self, wait: float, path: Path, text: str, over: str, within: Path) -> None:
        await asyncio.sleep(wait)
        self._since.pop(path, None)
        task = self._waiting.pop(path, None)
        if task is not None:
            self._writing[path] = task
        try:
            with contextlib.suppress(CounterproofError):  # a full disk is told when it is saved
                await asyncio.to_thread(documents.drafted, path, text, over, within)
        finally:
            self._writing.pop(path, None)
