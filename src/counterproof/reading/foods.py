"""From a name to a food: deterministic, and able to say why.

A name is the head of a noun phrase with words around it. Every name in the food table whose words
all occur in what the cook wrote, and whose head is the head of the phrase, is a candidate. What
the candidate leaves uncovered decides its certainty: "good-quality" costs next to nothing,
"smoked" a quarter, another food's name before a head that is made of something ("cashew" before
"milk") more than half. The best candidate wins; below `THRESHOLD` nobody does.
"""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from rapidfuzz import fuzz, process

from counterproof.reading.model import RunnerUp
from counterproof.reading.modifiers import (
    CHOOSING,
    DRY_CLASSES,
    FLAVOURED,
    FORM_KEPT,
    FORM_LOST,
    FORMS,
    GROUND_CLASSES,
    HARMLESS,
    JOINING,
    MADE_OF,
    PARTS,
    PLACES,
    VARIETIES,
)
from counterproof.reading.spellings import plain, words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.rows import Fit, Food, Tables

THRESHOLD = 0.55  # below it a name is marked, not guessed
LISTED = 0.30  # below it a food is no serious reading of the name and is not listed
RUNNERS_UP = 4
MISSPELT = 0.86  # certainty kept by a word that was read as its nearest neighbour
CLOSE_SPELLING = 86.0  # rapidfuzz ratio from which two words are one, misspelt
MEATS = frozenset({"beef", "veal", "lamb", "pork", "poultry", "game"})

FITS: tuple[Fit, ...] = ("same", "other form", "relative", "class average")
_TAIL = re.compile(r"\b(?:with|in|from|on|for|including|such as|like)\b", re.IGNORECASE)
_OF = re.compile(r"\bof\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Match:
    """What a name was understood to be.

    `food` is None where nothing reached the threshold; `runners_up` then holds what it might be.
    `explanation` says in plain words what was set aside and what could not be honoured.
    """

    food: Food | None
    certainty: float
    fit: Fit | None
    runners_up: tuple[RunnerUp, ...]
    explanation: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Name:
    """One name of the table, as comparable words."""

    food: Food
    words: frozenset[str]
    region: str
    contested: bool  # the same words mean another food in another region


@dataclass(frozen=True, slots=True)
class _Candidate:
    name: _Name
    certainty: float
    notes: tuple[str, ...]
    changed: bool  # a state of the food could not be honoured


def worse(one: Fit | None, other: Fit | None) -> Fit | None:
    """The looser of two fits.

    Parameters
    ----------
    one, other : Fit or None
        None where no fit is known.

    Returns
    -------
    Fit or None
        None as soon as one of them is None.
    """
    if one is None or other is None:
        return None
    return FITS[max(FITS.index(one), FITS.index(other))]


class Matcher:
    """Finds foods by name. Built once from the tables; holds no state that a call changes."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._by_name: dict[str, Food] = {}
        self._by_head: dict[str, list[_Name]] = defaultdict(list)
        self._nouns: set[str] = set()
        self._vocabulary: set[str] = set()
        self._joined: dict[str, tuple[str, ...]] = {}
        self._choices: dict[str, Food] = {}
        self._prepositional: dict[str, Food] = {}
        self._index()
        # In the order of the alphabet: among equally near words the first wins, always the same.
        self._spellings = tuple(sorted(word for word in self._vocabulary if len(word) >= 5))

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
        hint_set = frozenset(hints)
        exact = self._by_name.get(plain(name).strip())
        if exact is None:
            exact = self._prepositional.get(" ".join(words(name)))
        if exact is not None and not hint_set:
            return Match(exact, 1.0, self.fit(exact), ())
        candidates = self._candidates(name, hint_set, region)
        best = max((c.certainty for c in candidates), default=0.0)
        if best < THRESHOLD:
            mended, notes = self._mended(name)
            if notes:
                candidates += [
                    replace(
                        c, certainty=c.certainty * MISSPELT ** len(notes), notes=c.notes + notes
                    )
                    for c in self._candidates(mended, hint_set, region)
                ]
        return self._chosen(candidates)

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
        sought = " ".join(words(name)[:8])
        if not sought:
            return ()
        found: dict[str, Food] = {}
        for text, _, _ in process.extract(
            sought, self._choices.keys(), scorer=fuzz.token_sort_ratio, limit=12, score_cutoff=55
        ):
            food = self._choices[text]
            found.setdefault(food.id, food)
        return tuple(found.values())[:limit]

    def knows(self, name: str) -> bool:
        """Whether the table has these very words as a name.

        Parameters
        ----------
        name : str
            A possible name.

        Returns
        -------
        bool
            True where it has.
        """
        sought = _canonical(words(name))
        wanted = frozenset(sought)
        return bool(sought) and any(
            entry.words == wanted for word in sought for entry in self._by_head.get(word, ())
        )

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
        links = self._tables.links.get(food.id, ())
        for link in links:
            if link.set == "global" and link.fit in FITS[:2]:
                return link.fit
        return min((link.fit for link in links), key=FITS.index, default=None)

    def _index(self) -> None:
        named = [(self._tables.foods[row.food], row.name, row.region) for row in self._tables.names]
        named += [(food, food.name, "") for food in self._tables.foods.values()]
        regions: dict[frozenset[str], set[str]] = defaultdict(set)
        listed: list[tuple[Food, tuple[str, ...], str]] = []
        for food, name, region in named:
            own = _canonical(words(name))
            if not own:
                continue
            listed.append((food, own, region))
            if (
                food.food_class in MEATS
                and len(own) > 1
                and not {"ground", "mince"}.isdisjoint(own)
            ):
                listed += [
                    (
                        food,
                        tuple(said if word in {"ground", "mince"} else word for word in own),
                        region,
                    )
                    for said in ("ground", "mince", "minced")
                ]
            regions[frozenset(own)].add(food.id)
            self._vocabulary.update(own)
            self._joined.setdefault("".join(own), own)
            self._choices.setdefault(" ".join(words(name)), food)
            if not JOINING.isdisjoint(name.split()):
                self._prepositional.setdefault(" ".join(words(name)), food)
            if len(own) == 1:
                self._nouns.add(own[0])
        for food in self._tables.foods.values():
            self._by_name[plain(food.name)] = food
        seen: set[tuple[str, frozenset[str], str]] = set()
        for food, own, region in listed:
            key = (food.id, frozenset(own), region)
            if key in seen:
                continue
            seen.add(key)
            entry = _Name(food, frozenset(own), region, len(regions[frozenset(own)]) > 1)
            for head in _heads(own):
                self._by_head[head].append(entry)

    def _candidates(self, name: str, hints: frozenset[str], region: str) -> list[_Candidate]:
        found: list[_Candidate] = []
        for phrase, kept, extra in _phrases(name):
            written = self._joined_up(_canonical(words(phrase)))
            if not written:
                continue
            for candidate in self._headed(written, hints | extra, region):
                found.append(
                    candidate
                    if kept == 1.0
                    else replace(candidate, certainty=candidate.certainty * kept)
                )
        return found

    def _headed(
        self, written: tuple[str, ...], hints: frozenset[str], region: str
    ) -> list[_Candidate]:
        """Candidates that share the head of the phrase, or, failing that, stand inside it."""
        reach = frozenset(written) | hints
        found: list[_Candidate] = []
        for place in range(len(written) - 1, -1, -1):
            head = written[place]
            for entry in self._by_head.get(head, ()):
                if entry.words <= reach:
                    found.append(self._judged(entry, head, written, hints, region))
            if not _passable(head):
                break
        if not found:
            for place, head in enumerate(written):
                for entry in self._by_head.get(head, ()):
                    if entry.words <= reach:
                        inside = self._judged(entry, head, written[: place + 1], hints, region)
                        tail = f"“{' '.join(written[place + 1 :])}” after it is not known here"
                        found.append(
                            replace(
                                inside,
                                certainty=inside.certainty * 0.5,
                                notes=(*inside.notes, tail),
                            )
                        )
        return found

    def _judged(
        self,
        entry: _Name,
        head: str,
        written: tuple[str, ...],
        hints: frozenset[str],
        region: str,
    ) -> _Candidate:
        certainty = 1.0
        notes: list[str] = []
        changed = False
        place = max(index for index, word in enumerate(written) if word == head)
        for index, word in enumerate(written):
            if word in entry.words:
                continue
            kept, note = self._kept(word, entry, head, before=index < place)
            certainty *= kept
            if note:
                notes.append(note)
                changed = changed or word in FORM_KEPT or word in FORMS.values()
        for word in hints - entry.words:
            if word not in written and not _natural(word, entry.food):
                certainty *= 0.95
        if entry.contested and entry.region:
            home = "uk" if region in {"au", "metric"} else region
            if home != entry.region:
                certainty *= 0.5 if home else (0.8 if entry.region == "uk" else 0.79)
                notes.append(f"a {entry.region.upper()} name")
        return _Candidate(entry, certainty, tuple(notes), changed)

    def _kept(self, word: str, entry: _Name, head: str, *, before: bool) -> tuple[float, str]:
        """What share of certainty a word leaves that the candidate does not cover."""
        if word in FORM_KEPT or word in FORMS.values():
            if _natural(word, entry.food):
                return 0.99, ""
            return FORM_KEPT.get(word, FORM_LOST), f"“{word}” set aside: no such form in the table"
        if word in HARMLESS or word[-1] == "%":
            return (0.995, "") if before else (0.9, "")
        if word in CHOOSING:
            return (0.97, "") if before else (0.9, "")
        if word in PLACES:
            return 0.98, ""
        if word in PARTS and not before:
            return 0.98, ""
        if word in self._nouns:
            if head in PARTS:
                return 0.45, f"“{word}” before “{head}” may make another food of it"
            if head in FLAVOURED:
                return 0.8, f"“{word}” read as a flavour of {entry.food.name}"
            if head in MADE_OF:
                return 0.45, f"“{word}” before “{head}” may make another food of it"
            return 0.6, f"“{word}” is a food of its own"
        if word in PARTS:
            return 0.95, ""
        if head in PARTS:
            return 0.5, f"“{word}” is not known here"
        if head in MADE_OF and head not in FLAVOURED:
            kept = 0.72 if head in VARIETIES else 0.5
            return kept, f"“{word}” before “{head}” is not known here"
        return 0.85, f"“{word}” is not known here"

    def _joined_up(self, written: tuple[str, ...]) -> tuple[str, ...]:
        """Words that the table writes apart or together ("bayleaf", "corn meal") brought in line."""
        found: list[str] = []
        skip = False
        for index, word in enumerate(written):
            if skip:
                skip = False
                continue
            following = written[index + 1] if index + 1 < len(written) else ""
            if following and word + following in self._vocabulary and word not in self._by_head:
                found.append(word + following)
                skip = True
            elif word not in self._vocabulary and word in self._joined:
                found.extend(self._joined[word])
            else:
                found.append(word)
        return tuple(found)

    def _mended(self, name: str) -> tuple[str, tuple[str, ...]]:
        """The name with unknown words read as their nearest known neighbours."""
        mended: list[str] = []
        notes: list[str] = []
        for word in words(name)[:12]:
            if (
                word in self._vocabulary
                or _passable(word)
                or word in FORMS
                or word in JOINING
                or len(word) < 5
                or len(word) > 30
            ):
                mended.append(word)
                continue
            near = process.extractOne(
                word, self._spellings, scorer=fuzz.ratio, score_cutoff=CLOSE_SPELLING
            )
            if near is None:
                mended.append(word)
            else:
                mended.append(near[0])
                notes.append(f"“{word}” read as “{near[0]}”")
        return " ".join(mended), tuple(notes)

    def _chosen(self, candidates: list[_Candidate]) -> Match:
        best: dict[str, _Candidate] = {}
        for candidate in candidates:
            food = candidate.name.food.id
            held = best.get(food)
            if held is None or candidate.certainty > held.certainty:
                best[food] = candidate
        ranked = sorted(
            best.values(), key=lambda c: (-c.certainty, -len(c.name.words), c.name.food.id)
        )
        if not ranked:
            return Match(None, 0.0, None, ())
        first = ranked[0]
        # The longest known name wins: a shorter one inside it ("milk" in "coconut milk") is no
        # serious other reading.
        ranked = [first] + [c for c in ranked[1:] if not c.name.words < first.name.words]
        answered = first.certainty >= THRESHOLD
        others = ranked[1:] if answered else ranked
        runners = tuple(
            RunnerUp(c.name.food, round(c.certainty, 4))
            for c in others[:RUNNERS_UP]
            if c.certainty >= LISTED
        )
        certainty = round(first.certainty, 4)
        if not answered:
            return Match(None, certainty, None, runners, first.notes)
        fit = self.fit(first.name.food)
        if first.changed:
            fit = worse(fit, "other form")
        return Match(first.name.food, certainty, fit, runners, first.notes)


def _canonical(found: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(FORMS.get(word, word) for word in found if word not in JOINING)


def _passable(word: str) -> bool:
    """Whether a word at the end of a phrase may be passed over to find its head."""
    return (
        word in HARMLESS
        or word in CHOOSING
        or word in PARTS
        or word in PLACES
        or word in FORMS.values()
    )


def _heads(own: tuple[str, ...]) -> tuple[str, ...]:
    """The words by which a table name is looked up: its last, and its last that is no modifier."""
    heads = {own[-1]}
    for word in reversed(own):
        if not _passable(word):
            heads.add(word)
            break
    else:
        heads.update(own)
    return tuple(sorted(heads))


def _natural(state: str, food: Food) -> bool:
    """Whether the state goes without saying for foods of this class."""
    if state == "dried":
        return food.food_class in DRY_CLASSES
    if state == "ground":
        return food.food_class in GROUND_CLASSES
    return food.food_class == "water & ice" or state in food.id.split("-")


def _phrases(name: str) -> list[tuple[str, float, frozenset[str]]]:
    """The ways to read a name with prepositions in it: (phrase, certainty kept, states implied)."""
    tail = _TAIL.search(name)
    if tail is not None and tail.start() > 0:
        before, after = name[: tail.start()], name[tail.end() :]
        word = tail.group().lower()
        canned = frozenset({"canned"}) if word == "in" else frozenset[str]()
        found = [(phrase, kept * 0.98, canned) for phrase, kept, _ in _phrases(before)]
        return [*found, (after, 0.8, frozenset[str]())] if word == "from" else found
    of = _OF.search(name)
    if of is not None and of.start() > 0:
        turned = f"{name[of.end() :]} {name[: of.start()]}"
        return [(name, 0.98, frozenset[str]()), (turned, 0.99, frozenset[str]())]
    return [(name, 1.0, frozenset[str]())]
