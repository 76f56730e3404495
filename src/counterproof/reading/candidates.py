"""The foods that a name may mean, each with the certainty that its uncovered words leave it."""

from __future__ import annotations

from typing import NamedTuple

from counterproof.reading.leftovers import STATES, certainty_kept, natural, passable
from counterproof.reading.modifiers import CLASS_NOUNS, JOINING
from counterproof.reading.name_index import IndexedName, NameIndex, canonical
from counterproof.reading.noun_phrases import phrases

ANOTHER_ORDER = 0.8  # "chocolate milk" where "milk chocolate" is written
INSIDE = 0.5  # certainty kept where only the front of the name is known
LONGEST = 16  # words of a name that are read; what follows is no name


class Candidate(NamedTuple):
    """A name of the table as a reading of a name: how sure, and what is to be said of it."""

    name: IndexedName
    certainty: float
    notes: tuple[str, ...]
    changed: bool  # a state of the food could not be honoured


class _Sought(NamedTuple):
    """A phrase as canonical words and as said, with the states said outside it and the region."""

    written: tuple[str, ...]
    said: tuple[str, ...]
    hints: frozenset[str]
    region: str


class Candidates:
    """Finds the names of a table that may be meant."""

    __slots__ = ("_index",)

    def __init__(self, index: NameIndex) -> None:
        self._index = index

    def of(self, name: str, hints: frozenset[str], region: str) -> list[Candidate]:
        """The readings of a name, none of them chosen.

        Parameters
        ----------
        name : str
            As written.
        hints : frozenset of str
            States said elsewhere in the line.
        region : str
            "uk", "us", "au" or "" where unknown.

        Returns
        -------
        list of Candidate
            A food may stand among them by several names.
        """
        found: list[Candidate] = []
        for phrase, kept, implied in phrases(name):
            said = tuple(
                word for word in self._index.words(phrase)[:LONGEST] if word not in JOINING
            )
            written = canonical(said)
            for way in dict.fromkeys((written, self._index.joined_up(written))):
                found += [
                    candidate
                    if kept == 1.0
                    else candidate._replace(certainty=candidate.certainty * kept)
                    for candidate in self._headed(_Sought(way, said, hints | implied, region))
                ]
        return found

    def _headed(self, sought: _Sought) -> list[Candidate]:
        """Candidates that share the head of the phrase, or, failing that, stand inside it."""
        written = sought.written
        reach = frozenset(written) | sought.hints
        found: list[Candidate] = []
        for head in reversed(written):
            found += [self._judged(entry, head, sought) for entry in self._index.under(head, reach)]
            if not passable(head):
                break
        found += self._classed(sought)
        return found or self._inside(sought, reach)

    def _inside(self, sought: _Sought, reach: frozenset[str]) -> list[Candidate]:
        """Candidates at the front of a phrase whose end is not known ("liver spread")."""
        found: list[Candidate] = []
        for place, head in enumerate(sought.written):
            front = sought._replace(written=sought.written[: place + 1])
            tail = f"“{' '.join(sought.written[place + 1 :])}” after it is not known here"
            for entry in self._index.under(head, reach):
                judged = self._judged(entry, head, front)
                certainty = judged.certainty * INSIDE
                found.append(judged._replace(certainty=certainty, notes=(*judged.notes, tail)))
        return found

    def _classed(self, sought: _Sought) -> list[Candidate]:
        """Candidates without the head, where the head only names their class ("cod fish")."""
        written = sought.written
        if len(written) < 2 or written[-1] not in CLASS_NOUNS:
            return []
        alone = self._index.under(written[-1], frozenset(written[-1:]))
        classes = {entry.food.food_class for entry in alone}
        return [
            candidate._replace(certainty=candidate.certainty * 0.95)
            for candidate in self._headed(sought._replace(written=written[:-1]))
            if candidate.name.food.food_class in classes and written[-1] not in candidate.name.words
        ]

    def _judged(self, entry: IndexedName, head: str, sought: _Sought) -> Candidate:
        certainty = 1.0
        notes: list[str] = []
        changed = False
        written = sought.written
        if len(entry.words) < len(written) or not entry.words.issuperset(written):
            place = len(written) - 1 - written[::-1].index(head)
            for index, word in enumerate(written):
                if word in entry.words:
                    continue
                kept, note = certainty_kept(
                    word,
                    entry.food,
                    head if entry.bare else "",
                    before=index < place,
                    nouns=self._index.nouns,
                )
                certainty *= kept
                if note:
                    notes.append(note)
                    changed = changed or word in STATES
        for word in sought.hints - entry.words:
            if word not in written and not natural(word, entry.food):
                certainty *= 0.95
        if len(entry.words) == len(written) and (
            entry.said != sought.said
            if entry.contested
            else not entry.bare and canonical(entry.said) != written
        ):
            certainty *= ANOTHER_ORDER
        if entry.contested and entry.region:
            home = "uk" if sought.region in {"au", "metric"} else sought.region
            if home != entry.region:
                certainty *= 0.5 if home else (0.8 if entry.region == "uk" else 0.79)
                notes.append(f"it is called so in the {entry.region.upper()}")
        return Candidate(entry, certainty, tuple(notes), changed)


def is_better(one: Candidate, other: Candidate) -> bool:
    """Whether a name says more surely, or more fully, what another says of the same food.

    Parameters
    ----------
    one, other : Candidate
        Readings of one name as the same food.

    Returns
    -------
    bool
        The same whatever the order in which they were found.
    """
    if one.certainty != other.certainty:
        return one.certainty > other.certainty
    return _fullness(one.name) < _fullness(other.name)


def _fullness(name: IndexedName) -> tuple[int, bool, tuple[str, ...], str]:
    """Names that say more first, then those that leave nothing open; then by the alphabet."""
    return -len(name.words), name.row.why != "", name.said, name.region
