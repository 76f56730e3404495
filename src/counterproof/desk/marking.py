"""Marks made off the event loop, in stages, and dropped as soon as they are stale.

What a line is understood to be is ready within milliseconds and goes out first; what it adds to
the footprint follows; versions, which take as long again each, come when the typing pauses. Two
threads share the work, so that the first stage never waits behind the last one of an older text.
"""

from __future__ import annotations

import asyncio
import contextlib
import logging
from collections.abc import AsyncIterator, Callable, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Any, Final, TypeVar

from counterproof import use_cases
from counterproof.claims.material import Material
from counterproof.desk.documents import standing
from counterproof.desk.opened import Leaf, Opened
from counterproof.desk.picturing import pictured
from counterproof.desk.script_page import set_script
from counterproof.desk.sheet_page import Known, beside_stage, read_stage, valued_stage
from counterproof.draws import Streams
from counterproof.errors import BrokenFrontMatter, CounterproofError, SwapNotFound
from counterproof.footprint.held import Held
from counterproof.proof import Derivation, Edition
from counterproof.reading.model import Reading
from counterproof.use_cases import Assessed, Order, Workbench
from counterproof.vetting_cases import Episode, material_of, vetted_script

PAUSE: Final = 0.15
"""How long typing rests before footprints are worked out, and again before versions are. [s]
Assumed: longer than between two keys of a practised typist, shorter than a look at the margin."""

_TABS_KEPT: Final = 32
_QUICK_ARRAYS: Final = 256
_SEED: Final = 1
_Made = TypeVar("_Made")
_LOG: Final = logging.getLogger(__name__)


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


@dataclass(frozen=True, slots=True)
class Read:
    """What the first stage leaves for the others."""

    stage: Mapping[str, Any]
    order: Order
    bench: Workbench
    reading: Reading


@dataclass(slots=True)
class Work:
    """One text being worked out; what a stage has found serves the next."""

    asked: Asked
    order: Order
    bench: Workbench
    reading: Reading
    base: Assessed | None = None
    under: dict[str, str] = field(default_factory=dict)
    held: Held = field(default_factory=Held)


@dataclass(frozen=True, slots=True)
class Told:
    """The last proof of a recipe, from which numbers are explained, and what else was told."""

    edition: Edition
    more: tuple[Derivation, ...] = ()


@dataclass(frozen=True, slots=True)
class Beside:
    """What a script is vetted beside, worked out."""

    episode: Episode
    bench: Workbench
    material: Material
    edition: Edition


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
        self._told: dict[str, Told] = {}
        self._set: Known = {}
        self._beside_script: Beside | None = None
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

    def told(self, leaf: Leaf) -> Told | None:
        """Return the last proof of a recipe, from which numbers are explained.

        Parameters
        ----------
        leaf : Leaf
            The recipe.

        Returns
        -------
        Told or None
            None before the first.
        """
        return self._told.get(leaf.name)

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
            read = await loop.run_in_executor(self._quick, self._read, asked, folder)
            if read is None:
                return
            yield _stage("read", asked, read.stage)
            work = Work(asked, read.order, read.bench, read.reading)
            for name, make in (("valued", self._value), ("beside", self._beside), ("pictured", self._picture)):  # fmt: skip
                if not asked.fresh:
                    await asyncio.sleep(PAUSE)
                made = await self.slowly(partial(self._unless_stale, work, make))
                if made is None:
                    return
                yield _stage(name, asked, made)
        except Exception as fault:  # noqa: BLE001 (whatever it is, the page has to be told)
            if not self.stale(asked):
                yield _stage("fault", asked, _fault(fault))

    async def vetted(
        self, asked: Asked, folder: Opened, recipe: str
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

        Yields
        ------
        mapping of str to object
            One stage; nothing once a newer text has come in.
        """
        self._note(asked)

        def work() -> Mapping[str, Any] | None:
            if self.stale(asked):
                return None
            beside = self._spoken_of(asked.leaf, folder, recipe)
            found = vetted_script(
                asked.text,
                beside.episode,
                beside.bench,
                self.streams,
                file="script.md",
                material=beside.material,
            )
            done = set_script(found, beside.material, beside.edition)
            self._told[asked.leaf.name] = Told(beside.edition, done.derivations)
            return done.stage

        try:
            made = await self.slowly(work)
            if made is not None and not self.stale(asked):
                yield _stage("beside", asked, made)
        except Exception as fault:  # noqa: BLE001 (whatever it is, the page has to be told)
            if not self.stale(asked):
                yield _stage("fault", asked, _fault(fault))

    def _spoken_of(self, leaf: Leaf, folder: Opened, recipe: str) -> Beside:
        """What a script speaks of, worked out once for all that is typed into it."""
        episode = folder.episode(leaf, recipe)
        before = self._beside_script
        if before is not None and before.episode == episode:
            return before
        bench = folder.bench(episode.order.kitchen)
        made = Beside(
            episode,
            bench,
            material_of(episode, bench, self.streams),
            use_cases.proof(episode.order, bench, self.streams, date=self.date),
        )
        self._beside_script = made
        return made

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
                work = Work(asked, read.order, read.bench, read.reading)
                for make in (self._value, self._beside, self._picture):
                    self._slow.submit(make, work).result()

    def close(self) -> None:
        """Let both threads finish and end."""
        self._quick.shutdown(cancel_futures=True)
        self._slow.shutdown(cancel_futures=True)

    def _note(self, asked: Asked) -> None:
        if asked.fresh or asked.revision > self._newest.get(asked.tab, -1):
            self._newest.pop(asked.tab, None)
            self._newest[asked.tab] = asked.revision
        while len(self._newest) > _TABS_KEPT:
            del self._newest[next(iter(self._newest))]

    def _read(self, asked: Asked, folder: Opened) -> Read | None:
        if self.stale(asked):
            return None
        order = folder.order(asked.leaf, asked.text)
        bench = folder.bench(order.kitchen)
        trouble: dict[str, Any] = {}
        try:
            reading = use_cases.mark(order, bench)
        except (SwapNotFound, BrokenFrontMatter) as fault:
            # A line may be gone while its swap still stands: the recipe is marked all the same.
            trouble = {"trouble": _fault(fault)}
            order = _with_what_applies(order, bench)
            reading = use_cases.mark(order, bench)
        stage = read_stage(asked.text, reading, bench.tables, self._quick_streams, self._set)
        return Read({**stage, **trouble}, order, bench, reading)

    def _unless_stale(
        self, work: Work, make: Callable[[Work], Mapping[str, Any]]
    ) -> Mapping[str, Any] | None:
        if self.stale(work.asked):
            return None
        made = make(work)
        return None if self.stale(work.asked) else made

    def _value(self, work: Work) -> Mapping[str, Any]:
        work.base = use_cases.assessed(work.order, work.bench, self.streams, held=work.held)
        edition = self._edition(work, work.base, beside=False)
        stage = valued_stage(work.asked.text, edition, work.reading)
        work.under = stage["under"]
        return stage

    def _beside(self, work: Work) -> Mapping[str, Any]:
        assert work.base is not None  # noqa: S101 (the stage before has made it)
        edition = self._edition(work, work.base, beside=True)
        self._told[work.asked.leaf.name] = Told(edition)
        stage = beside_stage(edition, work.order)
        stage["under"] = {
            piece: html for piece, html in stage["under"].items() if work.under.get(piece) != html
        }
        return stage

    def _picture(self, work: Work) -> Mapping[str, Any]:
        assert work.base is not None  # noqa: S101 (as above)
        found = pictured(work.base, work.bench, self.streams, work.held)
        told = self._told[work.asked.leaf.name]
        self._told[work.asked.leaf.name] = Told(told.edition, found.derivations)
        return {"under": {"likenesses": found.html}}

    def _edition(self, work: Work, base: Assessed, *, beside: bool) -> Edition:
        return use_cases.proof_of(
            base, work.bench, self.streams, date=self.date, beside=beside, held=work.held
        )


def _with_what_applies(order: Order, bench: Workbench) -> Order:
    """The order without the versions that cannot be made of it."""
    kept = []
    for version in order.recipe.versions:
        alone = replace(order, recipe=replace(order.recipe, versions=(version,)))
        try:
            use_cases.mark(alone, bench)
            use_cases.mark(replace(alone, version=version.name), bench)
        except CounterproofError:
            continue
        kept.append(version)
    return replace(order, recipe=replace(order.recipe, versions=tuple(kept)))


def _stage(name: str, asked: Asked, made: Mapping[str, Any]) -> Mapping[str, Any]:
    return {"stage": name, "revision": asked.revision, **made}


def _fault(fault: Exception) -> dict[str, Any]:
    """What went wrong, in words; with its traceback on standard error where it is our own fault."""
    if not isinstance(fault, CounterproofError):
        _LOG.error("a text could not be marked", exc_info=fault)
        return {
            "line": None,
            "message": f"Something here could not be worked out ({type(fault).__name__}).",
            "remedy": "That is a fault of the program; what you typed is kept. Change the last line.",
        }
    told = fault.to_dict()
    return {"line": told["line"], "message": told["message"], "remedy": told["remedy"]}
