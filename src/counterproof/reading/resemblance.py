"""What looks like what: a misspelt word like a known one, an unknown name like known names."""

from __future__ import annotations

from collections import defaultdict
from functools import cached_property
from typing import TYPE_CHECKING

from rapidfuzz import fuzz, process

from counterproof.reading.name_index import NameIndex, canonical

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.rows import Food

SPELT_OUT = 5  # letters from which a word is long enough to be known by its spelling
CLOSE_SPELLING = 86.0  # rapidfuzz ratio from which two words are one, misspelt
LIKE_AT_ALL = 60.0  # rapidfuzz ratio below which a word brings no name to mind that holds it
ALIKE = 80.0  # rapidfuzz ratio below which a whole name is not offered as near


class Resemblance:
    """Finds known words and names by their look; what that takes is arranged when first asked."""

    def __init__(self, index: NameIndex) -> None:
        self._index = index

    @cached_property
    def _beginning(self) -> dict[str, list[str]]:
        """The first two letters of words → the words."""
        return _by(self._index.vocabulary, slice(2))

    @cached_property
    def _ending(self) -> dict[str, list[str]]:
        """The last two letters of words → the words."""
        return _by(self._index.vocabulary, slice(-2, None))

    @cached_property
    def _holding(self) -> dict[str, list[tuple[str, str]]]:
        """Words → the heads and first words of names that they are one of."""
        found: dict[str, list[tuple[str, str]]] = defaultdict(list)
        for two in self._index.by_two:
            found[two[0]].append(two)
            found[two[1]].append(two)
        return found

    def _looking_like(self, sought: Iterable[str]) -> dict[str, Food]:
        """Names that may look like some words: what looks alike mostly begins alike.

        A name's words in the order of the alphabet → the first food so called.
        """
        twos: set[tuple[str, str]] = set()
        for word in sought:
            begun = self._beginning.get(word[:2], ())
            alike = process.extract(
                word, begun, scorer=fuzz.ratio, limit=None, score_cutoff=LIKE_AT_ALL
            )
            for near, _, _ in alike:
                twos.update(self._holding.get(near, ()))
        found: dict[str, Food] = {}
        for two in sorted(twos):
            for name in self._index.by_two[two]:
                found.setdefault(" ".join(sorted(name.words)), name.food)
        return found

    def spelt_like(self, word: str) -> str | None:
        """The known word that an unknown one is, misspelt.

        Parameters
        ----------
        word : str
            A word of `SPELT_OUT` letters or more.

        Returns
        -------
        str or None
            The nearest, among equally near ones the first in the alphabet; None where none is near.
        """
        # One slip of the pen leaves the beginning or the end of a word as it should be.
        may_be = {*self._beginning.get(word[:2], ()), *self._ending.get(word[-2:], ())}
        long = sorted(one for one in may_be if len(one) >= SPELT_OUT)
        near = process.extractOne(word, long, scorer=fuzz.ratio, score_cutoff=CLOSE_SPELLING)
        return None if near is None else near[0]

    def nearest(self, said: tuple[str, ...], limit: int) -> tuple[Food, ...]:
        """Foods whose names look most like an unknown one.

        Parameters
        ----------
        said : tuple of str
            The comparable words of the unknown name.
        limit : int
            How many at most.

        Returns
        -------
        tuple of Food
            Nearest first; empty where nothing is near.
        """
        sought = sorted(canonical(said[:8]))
        near = self._looking_like(sought)
        alike = process.extract(
            " ".join(sought), list(near), scorer=fuzz.ratio, limit=12, score_cutoff=ALIKE
        )
        single = [text for text in near if " " not in text]
        for word in sought:
            if len(word) >= SPELT_OUT:
                alike += process.extract(
                    word, single, scorer=fuzz.ratio, limit=2, score_cutoff=CLOSE_SPELLING
                )
        found: dict[str, Food] = {}
        for text, _, _ in alike:
            found.setdefault(near[text].id, near[text])
        return tuple(found.values())[:limit]


def _by(words: Iterable[str], letters: slice) -> dict[str, list[str]]:
    found: dict[str, list[str]] = defaultdict(list)
    for word in words:
        found[word[letters]].append(word)
    return found
