"""A second food inside a line: "dates stuffed with cream cheese", "4 plums, 1 cinnamon stick".

The amount of such a line is that of its own food. What it is stuffed with, wrapped or rolled in
has no amount; what stands after a comma with an amount of its own may be added, or be a part of
it ("6 eggs, 4 egg whites"). Neither is weighed; both are named, so that nothing is passed over in
silence.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from counterproof.marks import Mark
from counterproof.reading.lines import split_line
from counterproof.reading.modifiers import NEVER_FOOD
from counterproof.reading.remarks import DOUBTFUL, listed
from counterproof.reading.settling import MAY_SAY_AN_AMOUNT
from counterproof.reading.spellings import words
from counterproof.reading.words import JOINING_PARTICIPLES
from counterproof.units import CONTAINERS

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from counterproof.reading.foods import Matcher
    from counterproof.reading.model import Split
    from counterproof.rows import Food

_JOINED: Final = re.compile(
    rf"\b(?:{'|'.join(sorted(JOINING_PARTICIPLES))}) (?:\w+ )?(?:with|in|into|on)"
    r" (?:a little |some |the |an? |their own |its own )?(?!\d)([^,;()]+)",
    re.IGNORECASE,
)
_CLAUSE: Final = re.compile(r"[,;]\s*")
_AMOUNT_BEFORE: Final = re.compile(
    r"(?:(?:\d|[½¼¾⅓⅔⅛])|(?:an?\s+|one\s+|two\s+)?(?:pinch|dash|handful|sprig|knob)"
    r"(?:es|s)?\s+of\s)",
    re.IGNORECASE,
)
_BETWEEN: Final = re.compile(r"\s+(?:and|&|then|or)\s+", re.IGNORECASE)
_NOT_ADDED: Final = frozenset({"water & ice", "not food"})
_MOST: Final = 4  # words of a name; what is longer is a sentence


def second_foods(split: Split, matcher: Matcher, region: str = "") -> tuple[Food, ...]:
    """The foods a line speaks of beside its own, without an amount.

    Parameters
    ----------
    split : Split
        The line as settled; where the cook has said what it means, nothing is open.
    matcher : Matcher
        The food table's names.
    region : str
        Whose names for foods.

    Returns
    -------
    tuple of Food
        Those whose names are known without a doubt, in the order written.
    """
    if not (split.comment or split.preparation) or split.meaning or _in_a_pack(split):
        return ()  # what is in a jar of artichokes in oil weighs what the jar holds
    said = f"{split.preparation}, {split.comment}"
    names: list[str] = []
    if " with " in said or " in" in said or " on " in said:
        for match in _JOINED.finditer(said):
            names += _BETWEEN.split(match.group(1))
    if MAY_SAY_AN_AMOUNT.search(said) is not None:
        names += _measured(split, said)
    found: dict[str, Food] = {}
    for name in names:
        told = words(name)
        if not told or len(told) > _MOST or not NEVER_FOOD.isdisjoint(told):
            continue
        meant = matcher.match(name, region=region)
        if meant.food is not None and meant.certainty >= DOUBTFUL:
            found.setdefault(meant.food.id, meant.food)
    return tuple(food for food in found.values() if food.food_class not in _NOT_ADDED)


def _measured(split: Split, said: str) -> Iterator[str]:
    """The names of clauses that are ingredients by themselves: an amount, a unit and a name."""
    if any(flag.endswith(" of") for flag in split.flags):
        return  # "1 juice of 1 lime"
    own = {*words(split.name)}
    for clause in _CLAUSE.split(said):
        if _AMOUNT_BEFORE.match(clause) is None:
            continue
        inner = split_line(clause)
        bare = not (inner.comment or inner.alternatives or inner.flags)
        if bare and inner.quantities and inner.name and own.isdisjoint(words(inner.name)):
            yield inner.name


def _in_a_pack(split: Split) -> bool:
    counted = split.quantities[0].measure if split.quantities else ""
    return split.container in CONTAINERS or counted in CONTAINERS


def not_counted(foods: Iterable[Food]) -> Mark:
    """The doubt about foods that a line names beside its own.

    Parameters
    ----------
    foods : iterable of Food
        At least one.

    Returns
    -------
    Mark
        "second-food".
    """
    names = [food.name for food in foods]
    one = len(names) == 1
    which, them = (
        ("which is", "it on a line of its own, with its amount")
        if one
        else ("which are", "them on lines of their own, with their amounts")
    )
    return Mark(
        "doubt",
        "second-food",
        f"This line also speaks of {listed(names, 'and')}, {which} not counted: how much goes in is "
        f"not plain here. Write {them}.",
    )
