"""A second food inside a line: "dates stuffed with cream cheese", "salmon wrapped in bacon".

The amount of such a line is that of its own food. What it is stuffed with, wrapped or rolled in
has no amount, so it cannot be weighed; it is named, so that it is not passed over in silence.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from counterproof.marks import Mark
from counterproof.reading.modifiers import NEVER_FOOD
from counterproof.reading.remarks import DOUBTFUL, listed
from counterproof.reading.spellings import words
from counterproof.reading.words import JOINING_PARTICIPLES
from counterproof.units import CONTAINERS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.reading.foods import Matcher
    from counterproof.reading.model import Split
    from counterproof.rows import Food

_JOINED: Final = re.compile(
    rf"\b(?:{'|'.join(sorted(JOINING_PARTICIPLES))}) (?:\w+ )?(?:with|in|into|on)"
    r" (?:a little |some |the |an? |their own |its own )?(?!\d)([^,;()]+)",
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
    if " with " not in said and " in" not in said and " on " not in said:
        return ()
    found: dict[str, Food] = {}
    for match in _JOINED.finditer(said):
        for name in _BETWEEN.split(match.group(1)):
            told = words(name)
            if not told or len(told) > _MOST or not NEVER_FOOD.isdisjoint(told):
                continue
            meant = matcher.match(name, region=region)
            if meant.food is not None and meant.certainty >= DOUBTFUL:
                found.setdefault(meant.food.id, meant.food)
    return tuple(food for food in found.values() if food.food_class not in _NOT_ADDED)


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
    own = "a line of its own" if len(names) == 1 else "lines of their own"
    are = "is" if len(names) == 1 else "are"
    return Mark(
        "doubt",
        "second-food",
        f"This line also speaks of {listed(names, 'and')}, which {are} not counted, since no amount "
        f"is said. Write it on {own}, such as “50 g {names[0]}”.",
    )
