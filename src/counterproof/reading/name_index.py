"""The names of the food table, arranged for looking up by the head of a phrase."""

from __future__ import annotations

import re
from collections import defaultdict
from typing import TYPE_CHECKING, NamedTuple

from counterproof.reading.leftovers import passable
from counterproof.reading.modifiers import FORMS, JOINING
from counterproof.reading.spellings import Speller, plain
from counterproof.rows import FoodName

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Iterator, Mapping

    from counterproof.rows import Food, Tables

MEATS = frozenset({"beef", "veal", "lamb", "pork", "poultry", "game"})
LONGEST_WORD = 30  # letters; what is longer is not looked up by its spelling
_MINCES = frozenset({"ground", "mince", "minced"})
_TOUCHED = JOINING.union(FORMS)  # what `canonical` leaves out or spells otherwise
_NUMBERED = re.compile(r"(?<!\d)(?!00\b)\d+(?! ?%)\b")  # "type 55 flour": told apart by a number


class IndexedName(NamedTuple):
    """One name of the table as comparable words.

    `said` are its words in order, states as spelt; it is contested where the same words, in any
    order and spelling, are also the name of another food ("milk chocolate", "chocolate milk").
    """

    food: Food
    words: frozenset[str]
    said: tuple[str, ...]
    region: str
    contested: bool
    bare: bool  # one telling word only: what stands before it may make another food of it
    row: FoodName  # as the table has it, with what it says beyond the food


class Known(NamedTuple):
    """A food that goes by a very name, with the row that says so."""

    food: Food
    row: FoodName


def canonical(found: tuple[str, ...]) -> tuple[str, ...]:
    """Comparable words with each state in one spelling and the grammar words left out.

    Parameters
    ----------
    found : tuple of str
        From `spellings.words`.

    Returns
    -------
    tuple of str
        "powdered" and "ground" both as "ground"; no "and", "of", "the".
    """
    if _TOUCHED.isdisjoint(found):
        return found
    spelt = tuple([FORMS.get(word, word) for word in found if word not in JOINING])
    if "fresh" in spelt and "ground" in spelt:  # "fresh ground pepper" is freshly ground
        return tuple([word for word in spelt if word != "fresh"])
    return spelt


class NameIndex:
    """All names of a food table. Built once; never changed."""

    def __init__(self, tables: Tables) -> None:
        self.words = Speller().words
        named = _named(tables)
        own = {(known.row.food, known.row.name): known for known in named}
        self.by_name: dict[str, Known] = {
            plain(food.name): own[food.id, food.name.lower()] for food in tables.foods.values()
        }
        self.exact: dict[str, Known] = {}  # names with prepositions or numbers: only as a whole
        self.alone: dict[frozenset[str], IndexedName] = {}  # words that mean one food everywhere
        self.heads: set[str] = set()  # words by which names are looked up
        self.by_two: dict[tuple[str, str], list[IndexedName]] = defaultdict(list)
        self.nouns: dict[str, str] = {}  # word → food class
        self.vocabulary: set[str] = set()
        self._meaning: dict[frozenset[str], str] = {}  # words → id of the first food so called
        self._contested: set[frozenset[str]] = set()  # words that another food goes by as well
        self._arrange(self._listed(named))
        self._leave_to_words(tables.foods.values())

    def whole(self, name: str) -> Known | None:
        """The food that goes by this very name, prepositions and all.

        Parameters
        ----------
        name : str
            As written.

        Returns
        -------
        Known or None
            None where the name has to be read word by word.
        """
        found = self.by_name.get(plain(name).strip())
        if found is not None or (not name.replace(" ", "").isalpha() and _NUMBERED.search(name)):
            return found
        said = self.words(name)
        if not JOINING.isdisjoint(said):
            return self.exact.get(" ".join(said))
        own = canonical(said)
        entry = self.alone.get(frozenset(own))
        if entry is None or not (entry.bare or canonical(entry.said) == own):
            return None
        return Known(entry.food, entry.row)

    def is_exact(self, name: str) -> bool:
        """Whether the table has this name with its prepositions: it needs no hint of a form.

        Parameters
        ----------
        name : str
            As written.

        Returns
        -------
        bool
            True for "chipotle in adobo", which is canned whatever it comes in.
        """
        said = self.words(name)
        return not JOINING.isdisjoint(said) and " ".join(said) in self.exact

    def knows(self, said: tuple[str, ...]) -> bool:
        """Whether the table has these comparable words as a name, in any order.

        Parameters
        ----------
        said : tuple of str
            From `words`.

        Returns
        -------
        bool
            True where it has.
        """
        return frozenset(canonical(said)) in self._meaning

    def under(self, head: str, reach: frozenset[str]) -> list[IndexedName]:
        """The names of a head that have no word out of reach.

        Parameters
        ----------
        head : str
            A word of a phrase.
        reach : frozenset of str
            The canonical words that may be in the name, the head among them.

        Returns
        -------
        list of IndexedName
            Those of the head alone first.
        """
        found = list(self.by_two.get((head, ""), ()))
        for word in reach:
            found += [one for one in self.by_two.get((head, word), ()) if one.words <= reach]
        return found

    def joined_up(self, written: tuple[str, ...]) -> tuple[str, ...]:
        """Words that the table writes apart or together ("bayleaf", "corn meal") brought in line.

        Parameters
        ----------
        written : tuple of str
            Canonical words as written.

        Returns
        -------
        tuple of str
            The same in the table's way of writing.
        """
        found: list[str] = []
        skip = False
        for index, word in enumerate(written):
            if skip:
                skip = False
                continue
            following = written[index + 1] if index + 1 < len(written) else ""
            if following and word + following in self.vocabulary and word not in self.heads:
                found.append(word + following)
                skip = True
            elif word not in self.vocabulary:
                found.extend(self._taken_apart(word))
            else:
                found.append(word)
        return tuple(found)

    def _taken_apart(self, word: str) -> tuple[str, ...]:
        """A word as the words of a name that it runs together; itself where it is none."""
        for parts in _cuts(word, self.vocabulary):
            named = self.by_two.get(_two(parts, parts[-1]), ())
            if any(canonical(entry.said) == parts for entry in named):
                return parts
        return (word,)

    def _listed(self, named: Iterable[Known]) -> dict[_Way, _Listed]:
        """The ways to say the names of foods; names with a number are held only as a whole."""
        listed: dict[_Way, _Listed] = {}
        for known in named:
            food, row = known
            name = row.name
            said = spelt = self.words(name)
            if not JOINING.isdisjoint(spelt):
                said = tuple([word for word in spelt if word not in JOINING])
            if not said:
                continue
            numbered = _NUMBERED.search(name) is not None
            if numbered or said is not spelt:
                self.exact.setdefault(" ".join(spelt), known)
            if numbered:
                continue
            own = canonical(said)
            self.vocabulary.update(own)
            if len(own) == 1:
                self.nouns.setdefault(own[0], food.food_class)
            for way, meant in ((said, own), *_minced(food, said, own)):
                words = frozenset(meant)
                listed.setdefault((food.id, way, row.region), (known, meant, words))
                if self._meaning.setdefault(words, food.id) != food.id:
                    self._contested.add(words)
        return listed

    def _leave_to_words(self, foods: Iterable[Food]) -> None:
        """Take no food by its own name where others share its words: their order then tells."""
        for food in foods:
            name = food.name
            if _NUMBERED.search(name) is None and name == name.lower():
                said = tuple([word for word in self.words(name) if word not in JOINING])
                if frozenset(canonical(said)) in self._contested:
                    del self.by_name[plain(name)]

    def _arrange(self, listed: Mapping[_Way, _Listed]) -> None:
        """Put every name under its heads."""
        held = {word for _, own, _ in listed.values() for word in own}
        telling = frozenset(word for word in held if not passable(word))
        for (_, said, region), (known, own, words) in listed.items():
            bare = len(words & telling) <= 1
            contested = words in self._contested
            entry = IndexedName(known.food, words, said, region, contested, bare, known.row)
            for head in _heads(own, telling):
                self.heads.add(head)
                self.by_two[_two(own, head)].append(entry)
            if not contested:
                self.alone.setdefault(words, entry)


_Way = tuple[str, tuple[str, ...], str]
"""A food's id, its name as said, and the region where it is called so."""

_Listed = tuple[Known, tuple[str, ...], frozenset[str]]
"""A name of a food, its canonical words in order, and as a set."""


def _two(own: tuple[str, ...], head: str) -> tuple[str, str]:
    """The head by which a name is looked up, and its first other word; "" where it has none."""
    return head, next((word for word in own if word != head), "")


def _cuts(word: str, known: Container[str]) -> Iterator[tuple[str, ...]]:
    """The ways to cut a word into known ones; one too long to be a name has none."""
    for at in range(2, len(word) - 1) if len(word) <= LONGEST_WORD else ():
        if word[:at] in known:
            rest = word[at:]
            if rest in known:
                yield word[:at], rest
            for more in _cuts(rest, known):
                yield word[:at], *more


def _named(tables: Tables) -> list[Known]:
    """Every name with its food; each food also by its own name, where none of them is that."""
    foods = dict(tables.foods)
    found = [Known(foods[row.food], row) for row in tables.names]
    listed = {(row.food, row.name) for row in tables.names}
    found += [
        Known(food, _unlisted(food))
        for food in foods.values()
        if (food.id, food.name.lower()) not in listed
    ]
    return found


def _unlisted(food: Food) -> FoodName:
    """The name that a food bears itself, where the table of names does not repeat it."""
    return FoodName(food.id, food.name.lower(), "")


def _minced(
    food: Food, said: tuple[str, ...], own: tuple[str, ...]
) -> Iterable[tuple[tuple[str, ...], tuple[str, ...]]]:
    """The other ways to say a name, as said and canonical: minced meat is also ground or mince."""
    if food.food_class not in MEATS or len(own) < 2 or _MINCES.isdisjoint(own):
        return ()
    ways = [
        tuple([mince if word in _MINCES else word for word in said]) for mince in sorted(_MINCES)
    ]
    return [(way, canonical(way)) for way in ways]


def _heads(own: tuple[str, ...], telling: frozenset[str]) -> tuple[str, ...]:
    """The words by which a name is looked up: its last, and its last that is no modifier."""
    if own[-1] in telling:
        return own[-1:]
    heads = {own[-1]}
    for word in reversed(own):
        if word in telling:
            heads.add(word)
            break
    else:
        heads.update(own)
    return tuple(sorted(heads))
