"""From a name to a food: deterministic, and able to say why.

A name is the head of a noun phrase with words around it. Every name in the food table whose words
all occur in what the cook wrote, and whose head is the head of the phrase, is a candidate. What
the candidate leaves uncovered decides its certainty: "good-quality" costs next to nothing,
"smoked" a quarter, another food's name before a head that is made of something ("cashew" before
"milk") more than half. The best candidate wins; below `THRESHOLD` nobody does.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counterproof.reading.candidates import LONGEST, Candidate, Candidates, is_better
from counterproof.reading.fits import FITS, worse
from counterproof.reading.leftovers import passable
from counterproof.reading.met_before import MetBefore
from counterproof.reading.model import RunnerUp
from counterproof.reading.modifiers import FORMS, JOINING, REPLACING
from counterproof.reading.name_index import LONGEST_WORD, NameIndex
from counterproof.reading.read_for import slipped, vegan_kind, without_style
from counterproof.reading.resemblance import SPELT_OUT, Resemblance

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.rows import Fit, Food, FoodName, Tables

THRESHOLD = 0.55  # below it a name is marked, not guessed
LISTED = 0.44  # below it a food is no serious reading of the name and is not listed
RUNNERS_UP = 4
IN_ITS_STYLE = 0.9  # certainty kept where "Cornish-style" is set aside
MISSPELT = 0.86  # certainty kept by a word that was read as its nearest neighbour
MADE_OF_PLANTS = 0.65  # sure that a vegan kind of something is like the vegan kinds known
MISTAKEN = 0.7  # the same where more than vowels and doubled letters differ: a word of its own?
MOST_HELD = 20_000  # names whose matches are held: a corpus's common ones


class Match(NamedTuple):
    """What a name was understood to be.

    `food` is None where nothing reached the threshold; `runners_up` then holds what it might be.
    `explanation` says in plain words what was set aside and what could not be honoured; `row` is
    the name of the table by which the food was found.
    """

    food: Food | None
    certainty: float
    fit: Fit | None
    runners_up: tuple[RunnerUp, ...]
    explanation: tuple[str, ...] = ()
    row: FoodName | None = None


class Matcher:
    """Finds foods by name. Built once from the tables; no call changes an answer.

    Names met before are not worked out again: recipes repeat themselves. `before` holds lines
    and steps in the same way, for whoever reads them.
    """

    def __init__(self, tables: Tables) -> None:
        self.before = MetBefore()
        self._links = tables.links
        self._household = tables.household
        self._foods = tables.foods
        self._index = NameIndex(tables)
        self._candidates = Candidates(self._index)
        self._resemblance = Resemblance(self._index)
        self._held: dict[tuple[str, frozenset[str], str], Match] = {}

    def match(self, name: str, *, hints: Iterable[str] = (), region: str = "") -> Match:
        """The food that a name means.

        Parameters
        ----------
        name : str
            The food part of a line, as written.
        hints : iterable of str
            States said elsewhere in the line ("canned" by its container, "dried" by its
            preparation): they choose between forms but are not part of the name.
        region : str
            "uk", "us", "au" or "" where unknown: decides names that differ.

        Returns
        -------
        Match
            The food with its certainty, fit, runners-up and explanation.
        """
        said = frozenset(hints)
        asked = (name, said, region)
        held = self._held.get(asked)
        if held is None:
            if len(self._held) >= MOST_HELD:
                self._held.clear()
            held = self._held[asked] = self._found(name, said, region)
        return held

    def words(self, text: str) -> tuple[str, ...]:
        """The comparable words of a name, each name worked out once.

        Parameters
        ----------
        text : str
            A food's name, by the table or by the cook.

        Returns
        -------
        tuple of str
            As `spellings.words`.
        """
        return self._index.words(text)

    def _found(self, name: str, said: frozenset[str], region: str) -> Match:
        whole = self._index.whole(name)
        if whole is not None and (not said or self._index.is_exact(name)):
            fit = worse(self.fit(whole.food), whole.row.fit or "same")
            return Match(whole.food, 1.0, fit, (), row=whole.row)
        candidates = self._candidates.of(name, said, region)
        if "-" in name and (plainer := without_style(name)) != name:
            candidates += [
                c._replace(certainty=c.certainty * IN_ITS_STYLE)
                for c in self._candidates.of(plainer, said, region)
            ]
        if not _answered(candidates):
            mended, notes, kept = self._mended(name)
            if notes:
                candidates += [
                    c._replace(certainty=c.certainty * kept, notes=c.notes + notes)
                    for c in self._candidates.of(mended, said, region)
                ]
            if not _answered(candidates):
                candidates += self._without_animals(name, said, region)
        return self._chosen(candidates)

    def _without_animals(self, name: str, said: frozenset[str], region: str) -> list[Candidate]:
        """Candidates for "plant-based chorizo": what is made of plants in the food's place."""
        own = self.words(name)
        if REPLACING.isdisjoint(own) or "egg" in own or len(own) < 2:
            return []
        bare = " ".join(word for word in own if word not in REPLACING and word != "based")
        best = max(self._candidates.of(bare, said, region), key=lambda c: c.certainty, default=None)
        if best is None or best.certainty < THRESHOLD:
            return []
        note = (f"“{own[-1]}” of plants has no row of its own",)
        return [
            c._replace(certainty=MADE_OF_PLANTS, notes=note)
            for c in self._candidates.of(vegan_kind(best.name.food), frozenset(), region)
            if c.certainty == 1.0
        ]

    def nearest(self, name: str, limit: int = 3) -> tuple[Food, ...]:
        """Foods whose names look most like `name`, to offer for an unknown one.

        Parameters
        ----------
        name : str
            The unknown name.
        limit : int
            How many at most.

        Returns
        -------
        tuple of Food
            Nearest first; empty where nothing is near.
        """
        return self._resemblance.nearest(self.words(name), limit)

    def knows(self, name: str, *before: str) -> bool:
        """Whether the table has these very words as a name, in any order.

        Parameters
        ----------
        name : str
            A possible name.
        *before : str
            Comparable words to stand before it.

        Returns
        -------
        bool
            True where it has.
        """
        return self._index.knows((*before, *self.words(name)))

    def goes_by(self, name: str) -> bool:
        """Whether the table has this very name, "and" and all: "peas and carrots".

        Parameters
        ----------
        name : str
            A possible name.

        Returns
        -------
        bool
            False for "cream and cheese", though there is a cream cheese.
        """
        return self._index.whole(name) is not None

    def others(self, match: Match) -> tuple[Food, ...]:
        """What the name by which a food was found may mean as well.

        Parameters
        ----------
        match : Match
            From `match`.

        Returns
        -------
        tuple of Food
            As the table of names has them; empty where the name means one food.
        """
        return tuple(self._foods[one] for one in match.row.others.split()) if match.row else ()

    def counts(self, food: Food) -> bool:
        """Whether the table knows what one piece of a food weighs.

        Parameters
        ----------
        food : Food
            A food of the table.

        Returns
        -------
        bool
            True where a bare count of it means something.
        """
        named = {"piece", food.drawn_measure} - {""}
        return any(row.measure in named for row in self._household.get(food.id, ()))

    def fit(self, food: Food) -> Fit | None:
        """How well the food's best factor fits: the global set's first where it is close.

        Parameters
        ----------
        food : Food
            A food of the table.

        Returns
        -------
        Fit or None
            None where the food has no factor.
        """
        links = self._links.get(food.id, ())
        for link in links:
            if link.set == "global" and link.fit in FITS[:2]:
                return link.fit
        return min((link.fit for link in links), key=FITS.index, default=None)

    def _mended(self, name: str) -> tuple[str, tuple[str, ...], float]:
        """The name with unknown words read as their nearest known neighbours, and how sure."""
        kept = 1.0
        mended: list[str] = []
        notes: list[str] = []
        for word in self.words(name)[:LONGEST]:
            known = word in self._index.vocabulary or word in FORMS or word in JOINING
            if known or passable(word) or not SPELT_OUT <= len(word) <= LONGEST_WORD:
                mended.append(word)
                continue
            near = self._resemblance.spelt_like(word)
            mended.append(near or word)
            if near is not None:
                kept *= MISSPELT if slipped(word, near) else MISTAKEN
                notes.append(f"“{word}” read as “{near}”")
        return " ".join(mended), tuple(notes), kept

    def _chosen(self, candidates: list[Candidate]) -> Match:
        best: dict[str, Candidate] = {}
        for candidate in candidates:
            held = best.get(candidate.name.food.id)
            if held is None or is_better(candidate, held):
                best[candidate.name.food.id] = candidate
        if not best:
            return Match(None, 0.0, None, ())
        first, *others = sorted(
            best.values(), key=lambda c: (-c.certainty, -len(c.name.words), c.name.food.id)
        )
        answered = first.certainty >= THRESHOLD
        # The longest known name wins: a shorter one inside it ("milk" in "coconut milk") is no
        # serious other reading.
        others = [c for c in others if not c.name.words < first.name.words]
        runners = tuple(
            RunnerUp(c.name.food, round(c.certainty, 4))
            for c in (others if answered else [first, *others])[:RUNNERS_UP]
            if c.certainty >= LISTED
        )
        certainty = round(first.certainty, 4)
        if not answered:
            return Match(None, certainty, None, runners, first.notes)
        fit = self.fit(first.name.food)
        if first.changed:
            fit = worse(fit, "other form")
        fit = worse(fit, first.name.row.fit or "same")
        return Match(first.name.food, certainty, fit, runners, first.notes, first.name.row)


def _answered(candidates: list[Candidate]) -> bool:
    """Whether one of them is sure enough to be taken."""
    return any(candidate.certainty >= THRESHOLD for candidate in candidates)
