"""What a script may speak of: recipes, versions and what is bought instead, each worked out once."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from rapidfuzz import fuzz, process

from counterproof.claims.figure import Figure
from counterproof.claims.grammar import nearest_phrases
from counterproof.costing import Cost
from counterproof.draws import Streams
from counterproof.errors import NotUnderstood
from counterproof.footprint.assess import assess
from counterproof.footprint.factors import RangeFor
from counterproof.footprint.held import Held
from counterproof.footprint.model import Footprint
from counterproof.plan.model import Plan
from counterproof.plan.planning import plan_of
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen_file import with_changes
from counterproof.rows import FactorSet, Tables

Per = Literal["serving", "1000 kcal", "100 g protein", "kg"]

THIS = ("", "it", "this", "this one", "this recipe", "same recipe", "recipe", "homemade one")
BOUGHT = (
    "bought alternative",
    "bought one",
    "bought",
    "shop one",
    "one from the shop",
    "one from a shop",
    "canned",
)


@dataclass(frozen=True)
class Subject:
    """Something a script may speak of.

    Parameters
    ----------
    key : str
        "" for the episode's own recipe, else what it is kept under.
    called : str
        What it is called in a sentence: "this recipe with beef".
    names : tuple of str
        What the script may call it, in lower case.
    work : callable
        Reads and plans it; called once.
    """

    key: str
    called: str
    names: tuple[str, ...]
    work: Callable[[], tuple[Reading, Plan, Cost | None]]


@dataclass(frozen=True, slots=True)
class Basis:
    """What a figure is worked out on.

    Parameters
    ----------
    range_for : RangeFor
        one-purchase or the-average.
    per : Per
        What footprints are told per.
    region : str or None
        Where it is cooked; None for the kitchen's own.
    sets : frozenset of (str, FactorSet)
        Foods that are valued in a named set, by Food.id.
    """

    range_for: RangeFor
    per: Per = "serving"
    region: str | None = None
    sets: frozenset[tuple[str, FactorSet]] = frozenset()


class Material:
    """The subjects of one script, on one seed; whatever was worked out is kept.

    Parameters
    ----------
    subjects : sequence of Subject
        The episode's own first.
    tables : Tables
        All tables.
    streams : Streams
        Seed, number of draws, and the draws already made.
    audience : tuple of str
        Regions in which claims are asked too.
    held : Held or None
        What was worked out on the same tables and streams; it grows.
    """

    def __init__(
        self,
        subjects: Sequence[Subject],
        tables: Tables,
        streams: Streams,
        audience: tuple[str, ...] = (),
        held: Held | None = None,
    ) -> None:
        self.subjects = tuple(subjects)
        self.tables = tables
        self.streams = streams
        self.audience = audience
        self._entries: dict[tuple[str, str | None], tuple[Reading, Plan]] = {}
        self._costs: dict[str, Cost | None] = {}
        self._lines: dict[tuple[str, str], tuple[MarkedLine, ...]] = {}
        self.figures: dict[tuple[object, Basis], Figure] = {}
        self._held = held or Held()
        self._footprints: dict[tuple[str, str | None, RangeFor, object], Footprint] = {}

    @property
    def own(self) -> Subject:
        """The episode's own recipe."""
        return self.subjects[0]

    @property
    def kitchen_region(self) -> str:
        """Where the episode's recipe is cooked."""
        return self.entry(self.own)[0].kitchen.region

    @property
    def basis(self) -> Basis:
        """The basis the kitchen states."""
        return Basis(self.entry(self.own)[0].kitchen.range_for)

    @property
    def middle(self) -> Literal["mean", "median"]:
        """The middle value that is said."""
        return self.entry(self.own)[0].kitchen.middle

    def entry(self, subject: Subject, region: str | None = None) -> tuple[Reading, Plan]:
        """Return a subject as read and planned.

        Parameters
        ----------
        subject : Subject
            One of `subjects`.
        region : str or None
            Where it is cooked instead.

        Returns
        -------
        tuple of Reading and Plan
            Worked out at first asking.
        """
        key = (subject.key, region)
        if key not in self._entries:
            if region is None:
                reading, plan, cost = subject.work()
                self._costs[subject.key] = cost
            else:
                reading = self.entry(subject)[0]
                moved = with_changes(reading.kitchen, {"region": region})
                reading = replace(reading, kitchen=moved)
                plan = plan_of(reading, self.tables)
            self._entries[key] = (reading, plan)
        return self._entries[key]

    def cost(self, subject: Subject) -> Cost | None:
        """Return what a serving costs.

        Parameters
        ----------
        subject : Subject
            One of `subjects`.

        Returns
        -------
        Cost or None
            None where no prices are known.
        """
        self.entry(subject)
        return self._costs.get(subject.key)

    def footprint(self, subject: Subject, basis: Basis) -> Footprint:
        """Return the footprint of one serving on a basis.

        Parameters
        ----------
        subject : Subject
            One of `subjects`.
        basis : Basis
            Range, region and factor sets; what it is told per is left to the caller.

        Returns
        -------
        Footprint
            Of one serving. [kg CO2e]
        """
        key = (subject.key, basis.region, basis.range_for, basis.sets)
        if key not in self._footprints:
            reading, plan = self.entry(subject, basis.region)
            self._footprints[key] = assess(
                reading,
                self.tables,
                plan,
                streams=self.streams,
                range_for=basis.range_for,
                factor_set=dict(basis.sets),
                held=self._held,
            )
        return self._footprints[key]

    def found(self, words: str) -> Subject | None:
        """Return the subject that words name.

        Parameters
        ----------
        words : str
            As the script calls it, in lower case.

        Returns
        -------
        Subject or None
            None where no subject is called so.

        Raises
        ------
        NotUnderstood
            If several are.
        """
        spoken = bare(words)
        hits = [one for one in self.subjects if spoken in one.names]
        if not hits:
            asked = set(spoken.split())
            hits = [
                one
                for one in self.subjects
                if len(spoken) > 3
                and any(
                    asked <= {*name.split(), *map(singular, name.split())} for name in one.names
                )
            ]
            hits = hits if not hits or hits[0] is not self.own else hits[:1]
        if len(hits) > 1:
            least = min(len(name) for hit in hits for name in hit.names)
            short = [hit for hit in hits if any(len(name) == least for name in hit.names)]
            hits = short if len(short) == 1 else hits
        if len(hits) > 1:
            raise NotUnderstood(
                f"“{words}” may be {' or '.join(f'“{hit.called}”' for hit in hits[:4])}.",
                remedy="Say which, by a longer part of its title.",
            )
        return hits[0] if hits else None

    def lines(self, words: str, subject: Subject) -> tuple[MarkedLine, ...]:
        """Return the ingredient lines that a food's name means.

        Parameters
        ----------
        words : str
            Such as "bread" or "cheddar".
        subject : Subject
            Whose lines.

        Returns
        -------
        tuple of MarkedLine
            Empty where no line is meant. A food class names all its lines, else the foods' names
            decide, and if none fits, the lines' own words.
        """
        key = (words, subject.key)
        if key not in self._lines:
            self._lines[key] = self._named_lines(words, subject)
        return self._lines[key]

    def _named_lines(self, words: str, subject: Subject) -> tuple[MarkedLine, ...]:
        reading, _ = self.entry(subject)
        asked = {singular(word) for word in bare(words).split()}
        if not asked:
            return ()

        def named(text: str) -> set[str]:
            return {singular(word) for word in re.findall(r"[^\W\d_]+", text.casefold())}

        def of_class(line: MarkedLine) -> bool:
            return any(named(part.food.food_class) == asked for part in line.constituents)

        def by_food(line: MarkedLine) -> bool:
            return any(asked <= named(part.food.name) for part in line.constituents)

        def by_text(line: MarkedLine) -> bool:
            return asked <= named(line.written.text)

        def fitting(test: Callable[[MarkedLine], bool]) -> tuple[MarkedLine, ...]:
            return tuple(line for line in reading.lines if test(line))

        whole = fitting(of_class)
        if whole:
            return tuple(line for line in reading.lines if line in whole or by_food(line))
        return fitting(by_food) or fitting(by_text)

    def unknown(self, words: str) -> NotUnderstood:
        """Return the doubt that words name nothing, with the nearest that do.

        Parameters
        ----------
        words : str
            As the script has them.

        Returns
        -------
        NotUnderstood
            To be raised.
        """
        reading, _ = self.entry(self.own)
        names: dict[str, None] = {}
        for subject in self.subjects:
            names |= dict.fromkeys(name for name in subject.names if name)
        names |= dict.fromkeys(
            f"the {part.food.name}" for line in reading.lines for part in line.constituents
        )
        close = [
            name
            for name, score, _ in process.extract(words, list(names), scorer=fuzz.WRatio, limit=3)
            if score >= 55
        ]
        offered = (*close, *nearest_phrases(words))[:4]
        return NotUnderstood(
            f"“{words}” is nothing this script can speak of.",
            remedy="Nearest are: " + "; ".join(f"“{one}”" for one in offered) + "."
            if offered
            else "Name this recipe, one of its versions, a food in it, or another episode.",
        )


def bare(words: str) -> str:
    """Words as names are compared: no articles in front, hyphens as blanks.

    Parameters
    ----------
    words : str
        In lower case.

    Returns
    -------
    str
        Single blanks.
    """
    words = re.sub(r"[^\w' ]+", " ", words)
    words = re.sub(r"^(?:the|a|an) ", "", words.strip())
    return " ".join(words.split())


def singular(word: str) -> str:
    """A word without its plural ending, as far as two forms must meet.

    Parameters
    ----------
    word : str
        In lower case.

    Returns
    -------
    str
        "tomatoes" and "tomato" give the same.
    """
    for ending, put in (("ies", "y"), ("oes", "o"), ("ves", "f"), ("ches", "ch"), ("s", "")):
        if word.endswith(ending) and len(word) > len(ending) + 2 and not word.endswith("ss"):
            return word[: -len(ending)] + put
    return word


def version_names(title: str, version: str | None, *, own: bool) -> tuple[str, ...]:
    """Return what a script may call a recipe or a version of it.

    Parameters
    ----------
    title : str
        The recipe's title.
    version : str or None
        The version's name.
    own : bool
        Whether it is the episode's own recipe.

    Returns
    -------
    tuple of str
        In lower case, as `bare` gives them.
    """
    called = bare(title.casefold())
    heads = (called, *THIS) if own else (called,)
    if version is None:
        return heads
    name = bare(version.casefold())
    joined = [f"{head} {word} {name}".strip() for head in heads for word in ("with", "in", "")]
    joined += [f"{head} {name}".strip() for head in heads]
    return tuple(dict.fromkeys((*joined, *((name, f"with {name}") if own else ()))))
