"""Marks made off the event loop, in stages, and dropped as soon as they are stale.

What a line is understood to be is ready within milliseconds and goes out first; what it adds to
the footprint follows; versions, which take as long again each, come when the typing pauses. Two
threads share the work, so that the first stage never waits behind the last one of an older text.
"""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator, Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import Any, Final, TypeVar

from counterproof import use_cases
from counterproof.claims.verdicts import Vetted
from counterproof.desk.documents import standing
from counterproof.desk.opened import Leaf, Opened
from counterproof.desk.sheet_page import Known, beside_stage, read_stage, valued_stage
from counterproof.draws import Streams
from counterproof.errors import CounterproofError
from counterproof.proof import Edition
from counterproof.reading.model import Reading
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import vetted_script

PAUSE: Final = 0.15
"""How long typing rests before footprints are worked out, and again before versions are. [s]
Assumed: longer than between two keys of a practised typist, shorter than a look at the margin."""

_TABS_KEPT: Final = 32
_QUICK_ARRAYS: Final = 256
_SEED: Final = 1
_Made = TypeVar("_Made")


@dataclass(frozen=True, slots=True)
class Asked:
    """One text to be marked.

    Parameters
    ----------
    tab : str
        The page that asks.
    revision : int
        Its count of changes; a higher one makes this one stale.
    leaf : Leaf
        Whose text it is.
    text : str
        All of it.
    fresh : bool
        Whether the page has just been opened and nothing need be waited for.
    """

    tab: str
    revision: int
    leaf: Leaf
    text: str
    fresh: bool = False


class Marker:
    """The two threads that mark, and the newest revision of every page.

    Parameters
    ----------
    draws : int
        Draws of every evaluation. [1]
    date : str or None
        The day printed on proofs, ISO 8601.
    """

    def __init__(self, draws: int = 10_000, date: str | None = None) -> None:
        self.date = date
        self._newest: dict[str, int] = {}
        self._editions: dict[str, Edition] = {}
        self._set: Known = {}
        self._quick = ThreadPoolExecutor(1, "quick")
        self._slow = ThreadPoolExecutor(1, "slow")
        # One cache of draws a thread: a cache is no place for two to write in at once.
        self._quick_streams = Streams(seed=_SEED, n=draws, most=_QUICK_ARRAYS)
        self.streams = Streams(seed=_SEED, n=draws)

    def stale(self, asked: Asked) -> bool:
        """Return whether a newer text of the same page has come in.

        Parameters
        ----------
        asked : Asked
            The text.

        Returns
        -------
        bool
            True where its marks are wanted no more.
        """
        return self._newest.get(asked.tab, asked.revision) > asked.revision

    def edition(self, leaf: Leaf) -> Edition | None:
        """Return the last proof of a recipe, from which numbers are explained.

        Parameters
        ----------
        leaf : Leaf
            The recipe.

        Returns
        -------
        Edition or None
            None before the first.
        """
        return self._editions.get(leaf.name)

    async def slowly(self, work: Callable[[], _Made]) -> _Made:
        """Do something that takes time on the thread that has it.

        Parameters
        ----------
        work : callable
            What to do.

        Returns
        -------
        object
            What it made.
        """
        return await asyncio.get_running_loop().run_in_executor(self._slow, work)

    async def stages(self, asked: Asked, folder: Opened) -> AsyncIterator[Mapping[str, Any]]:
        """Mark a text, stage by stage.

        Parameters
        ----------
        asked : Asked
            The text.
        folder : Opened
            Where its kitchen and tables come from.

        Yields
        ------
        mapping of str to object
            What each stage changes on the page; nothing once a newer text has come in.
        """
        self._note(asked)
        loop = asyncio.get_running_loop()
        try:
            made = await loop.run_in_executor(self._quick, self._read, asked, folder)
            if made is None:
                return
            stage, order, bench, reading = made
            yield stage
            await self._pause(asked)
            value = await loop.run_in_executor(
                self._slow, self._value, asked, order, bench, reading
            )
            if value is None:
                return
            yield value
            await self._pause(asked)
            beside = await loop.run_in_executor(self._slow, self._value, asked, order, bench, None)
            if beside is not None:
                yield beside
        except CounterproofError as fault:
            if not self.stale(asked):
                yield {"stage": "fault", "revision": asked.revision, **_fault(fault)}

    async def vetted(
        self,
        asked: Asked,
        folder: Opened,
        recipe: str,
        told: Callable[[Vetted], Mapping[str, Any]],
    ) -> AsyncIterator[Mapping[str, Any]]:
        """Vet a script.

        Parameters
        ----------
        asked : Asked
            The script's text.
        folder : Opened
            Where its recipe, kitchen and tables come from.
        recipe : str
            The text of the recipe it speaks of.
        told : callable
            Turns what was found into pieces of the page.

        Yields
        ------
        mapping of str to object
            One stage; nothing once a newer text has come in.
        """
        self._note(asked)

        def work() -> Mapping[str, Any] | None:
            if self.stale(asked):
                return None
            episode = folder.episode(asked.leaf, recipe)
            bench = folder.bench(episode.order.kitchen)
            found = vetted_script(asked.text, episode, bench, self.streams, file="script.md")
            return told(found)

        try:
            made = await self.slowly(work)
            if made is not None and not self.stale(asked):
                yield {"stage": "beside", "revision": asked.revision, **made}
        except CounterproofError as fault:
            if not self.stale(asked):
                yield {"stage": "fault", "revision": asked.revision, **_fault(fault)}

    def warm(self, folder: Opened) -> None:
        """Work the first recipe out once, so that the first page need not wait for it.

        Parameters
        ----------
        folder : Opened
            What is open.
        """
        leaf = folder.leaf(None)
        with contextlib.suppress(CounterproofError):  # it is told on the page
            text = standing(leaf.recipe, folder.root).text or folder.beginning(leaf)
            asked = Asked("", 0, leaf, text, fresh=True)
            read = self._quick.submit(self._read, asked, folder).result()
            if read is not None:
                _, order, bench, reading = read
                self._slow.submit(self._value, asked, order, bench, reading).result()
                self._slow.submit(self._value, asked, order, bench, None).result()

    def close(self) -> None:
        """Let both threads finish and end."""
        self._quick.shutdown(cancel_futures=True)
        self._slow.shutdown(cancel_futures=True)

    async def _pause(self, asked: Asked) -> None:
        if not asked.fresh:
            await asyncio.sleep(PAUSE)

    def _note(self, asked: Asked) -> None:
        if asked.fresh or asked.revision > self._newest.get(asked.tab, -1):
            self._newest.pop(asked.tab, None)
            self._newest[asked.tab] = asked.revision
        while len(self._newest) > _TABS_KEPT:
            del self._newest[next(iter(self._newest))]

    def _read(
        self, asked: Asked, folder: Opened
    ) -> tuple[Mapping[str, Any], Order, Workbench, Reading] | None:
        if self.stale(asked):
            return None
        order = folder.order(asked.leaf, asked.text)
        bench = folder.bench(order.kitchen)
        reading = use_cases.mark(order, bench)
        stage = read_stage(asked.text, reading, bench.tables, self._quick_streams, self._set)
        return {"stage": "read", "revision": asked.revision, **stage}, order, bench, reading

    def _value(
        self,
        asked: Asked,
        order: Order,
        bench: Workbench,
        reading: Reading | None,
    ) -> Mapping[str, Any] | None:
        """The second stage, told what was read; the last one where it is not."""
        if self.stale(asked):
            return None
        last = reading is None
        edition = use_cases.proof(order, bench, self.streams, date=self.date, beside=last)
        if self.stale(asked):
            return None
        if reading is not None:
            return {
                "stage": "valued",
                "revision": asked.revision,
                **valued_stage(asked.text, edition, reading),
            }
        self._editions[asked.leaf.name] = edition
        return {"stage": "beside", "revision": asked.revision, **beside_stage(edition, order)}


def _fault(fault: CounterproofError) -> dict[str, Any]:
    told = fault.to_dict()
    return {"line": told["line"], "message": told["message"], "remedy": told["remedy"]}
