"""A line while it is being read, and the small judgements that every part of the reading shares."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from counterproof.reading.model import Part, Quantity
from counterproof.reading.purposes import purpose_named
from counterproof.reading.words import NEVER_ALONE
from counterproof.units import MEASURES

if TYPE_CHECKING:
    from counterproof.reading.heads import Head
    from counterproof.reading.written_amounts import Amount
    from counterproof.units import System

COUNTS: Final = frozenset({"count", "by eye"})
"""Kinds of measure that count pieces."""


def describes(words: list[str]) -> bool:
    """Return whether words only describe a food, so that its name must go on.

    Parameters
    ----------
    words : list of str
        Part of a name.

    Returns
    -------
    bool
        True for "whole", "large even-sized"; False for "mushrooms".
    """
    return NEVER_ALONE.issuperset([word.lower() for word in words])


def complete(name: str) -> bool:
    """Return whether a name names a food; "whole, skinless" only describes one.

    Parameters
    ----------
    name : str
        A name, not empty.

    Returns
    -------
    bool
        As not `describes`, told by the last word alone for most.
    """
    return name.rpartition(" ")[2].lower() not in NEVER_ALONE or not describes(name.split())


def noun(words: list[str]) -> list[str]:
    """Return a name without the words before it that only describe.

    Parameters
    ----------
    words : list of str
        A name.

    Returns
    -------
    list of str
        "thyme" of "fresh thyme"; at least the last word.
    """
    first = 0
    while first < len(words) - 1 and words[first].lower() in NEVER_ALONE:
        first += 1
    return words[first:]


class Unfinished:
    """What is known of a line so far.

    Parameters
    ----------
    head : Head
        What it begins with.
    system : System
        Whose cups and spoons.
    """

    __slots__ = (
        "alternatives",
        "aside",
        "comment",
        "drained",
        "flags",
        "head",
        "meaning",
        "measured_as",
        "name",
        "naming",
        "parts",
        "preparation",
        "system",
        "weighed",
    )

    def __init__(self, head: Head, system: System) -> None:
        self.head = head
        self.system = system
        self.name: list[str] = []
        self.alternatives: list[str] = []
        self.preparation: list[str] = []
        self.measured_as: list[str] = []
        self.comment: list[str] = []
        self.meaning = ""
        self.aside = False  # after "or 2 …" or "plus", amounts belong to something else
        self.naming = False  # after "such as", names are examples until "or …"
        self.flags = head.flags
        self.parts: list[Part] = []
        self.drained: Quantity | None = None  # what is left of a pack without its liquid
        self.weighed: Quantity | None = None  # what a scale said, over every other amount

    @property
    def counts_pieces(self) -> bool:
        """Whether the line counts pieces: "3 garlic cloves", "½ lemon juice"."""
        quantities = self.head.quantities
        return bool(quantities) and quantities[0].measure == "piece"

    def note(self, kind: str, text: str) -> None:
        """Keep a stretch of the line with what it was taken for.

        Parameters
        ----------
        kind : str
            "amount", "size", "name", "alternative", "preparation", "comment" or "meaning".
        text : str
            The stretch.
        """
        self.parts.append(Part(kind, text))

    def call(self, name: str) -> None:
        """Keep a name, or more of it.

        Parameters
        ----------
        name : str
            The words.
        """
        self.name.append(name)
        self.parts.append(Part("name", name))

    def prepare(self, text: str, *, before_name: bool = False) -> None:
        """Keep a preparation; before the name, it is the state the food was measured in.

        Parameters
        ----------
        text : str
            The words.
        before_name : bool
            "200 g cooked rice" as against "200 g rice, cooked".
        """
        if before_name:
            self.measured_as.append(text)
        self.preparation.append(text)
        self.parts.append(Part("preparation", text))

    def remark(self, text: str) -> None:
        """Keep a comment, with the flags it raises.

        Parameters
        ----------
        text : str
            The words.
        """
        self.comment.append(text)
        self.note("comment", text)
        lower = text.lower()
        if "optional" in lower:
            self.flags.add("optional")
        if "to taste" in lower:
            self.flags.add("to taste")
        if lower.startswith(("plus", "with extra")):
            self.flags.add("plus extra")
        elif purpose := purpose_named(lower):
            self.flags.add(purpose)

    def count(self, row: list[Amount], word: str) -> None:
        """Keep a second way of saying the amount; "each" makes the first count the packs.

        Parameters
        ----------
        row : list of Amount
            Equivalent amounts.
        word : str
            "each", "total" or such, or "".
        """
        head = self.head
        quantities = [amount.quantity for amount in row]
        if word == "each":
            self.flags.add("each")
            if len(head.quantities) == 1 and MEASURES[head.quantities[0].measure] in COUNTS:
                counted: Quantity = head.quantities[0]
                head.packs, head.container = counted.low, counted.measure
                head.quantities = quantities
                return
        head.quantities = [*head.quantities, *quantities]
