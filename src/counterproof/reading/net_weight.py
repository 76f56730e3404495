"""Whether a written weight still holds what is thrown away: bones, stones, peel, can liquid."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from counterproof.marks import Mark
from counterproof.units import CONTAINERS

if TYPE_CHECKING:
    from counterproof.reading.model import Split
    from counterproof.rows import EdibleShare, Food

# Written before the name, these words say that the weight is already without what is thrown
# away; the second words are found in the table's `refuse`.
_STONES: Final = ("stone", "pit")
_PEELS: Final = ("peel", "paring", "scraping", "skin")
_WITHOUT: Final = {
    "boneless": ("bone",), "meat": ("bone",), "boned": ("bone",), "filleted": ("bone",),
    "shelled": ("shell",), "shucked": ("shell",), "pitted": _STONES, "stoned": _STONES,
    "peeled": _PEELS, "skinned": _PEELS, "podded": ("pod",), "hulled": ("hull",),
}  # fmt: skip
_WITHOUT_SAID: Final = re.compile(rf"(?<!not )\b(?:{'|'.join(_WITHOUT)})\b")
_BOUGHT_SO: Final = frozenset(
    {"boneless", "meat", "boned", "shelled", "shucked", "pitted", "filleted"}
)
_WITHOUT_BONES_OR_JUICE: Final = frozenset({"drained weight", "cooked meat"})
_NET: Final = re.compile(
    r"\b(?:drained|peeled|prepared|trimmed|shelled|cooked|boned|net|podded)\s+weight\b"
    r"|\b(?:meat|flesh) only\b|\bout of (?:the|their) shells?\b"
)
# Meat in small pieces has no bone in it: common practice, with no source. A named joint may be
# chopped with its bone, or cut up at home: of these only dice and strips before the name count.
_DICED: Final = re.compile(
    r"\b(?:diced|cubed|strips?|minced|mince|goujons|stir[- ]fry|boned|deboned"
    r"|(?<!bone-in )fillets?|escalopes?|medallions?)\b"
)
_OFF_THE_BONE: Final = re.compile(
    rf"{_DICED.pattern}|\b(?:cubes|shredded|chunks|slivers|sliced|slices|chopped|boneless"
    r"|bite[- ]sized?|small pieces)\b"
)
_PIECES: Final = re.compile(r"\bpieces\b")
_ON_THE_BONE: Final = re.compile(
    r"\bbone[- ]in\b|\bon the bone\b|\bwith (?:the )?bones?\b|\bwhole\b"
)
_BARE_MEATS: Final = frozenset(
    {"chicken", "pork", "lamb", "beef", "turkey", "veal", "duck", "goat"}
)


def net_weight(split: Split, food: Food, edible: EdibleShare | None) -> tuple[bool, bool]:
    """Whether a written weight is what is eaten, and whether the food is bought that way.

    Parameters
    ----------
    split : Split
        The line's parts.
    food : Food
        What is weighed.
    edible : EdibleShare or None
        What of it is eaten as it is bought, and what is thrown away.

    Returns
    -------
    tuple of bool
        "700 g peeled potatoes" is what is eaten, bought with its peel; "500 g diced chicken" is
        bought without its bones.
    """
    if edible is None or edible.share >= 1:
        return False, False
    text = split.text.lower()
    if "weighed" in split.flags:
        return True, False  # a scale under the pot sees only what goes in
    if not split.flags.isdisjoint(_WITHOUT_BONES_OR_JUICE) or _NET.search(text):
        return True, False
    if split.container in CONTAINERS:
        return False, False
    before = f"{split.name} {split.measured_as} {split.comment}".lower()
    for match in _WITHOUT_SAID.finditer(before):
        if any(part in edible.refuse for part in _WITHOUT[match.group()]):
            return True, match.group() in _BOUGHT_SO
    boned = "bone" in edible.refuse and _is_off_the_bone(split, food)
    return boned, boned


def _is_off_the_bone(split: Split, food: Food) -> bool:
    """Whether a meat's words say that it was cut from the bone before it was weighed."""
    if _ON_THE_BONE.search(split.text.lower()):
        return False
    said = f"{split.measured_as} {split.name}".lower()
    if food.id not in _BARE_MEATS:
        return _DICED.search(said) is not None
    said = f"{said} {split.preparation.lower()} {split.comment.lower()}"
    if _OFF_THE_BONE.search(said):
        return True
    return food.food_class != "poultry" and _PIECES.search(said) is not None


def on_or_off_the_bone(split: Split, food: Food) -> tuple[Mark, ...]:
    """The doubt about "chicken pieces", which may be joints or boneless meat.

    Parameters
    ----------
    split : Split
        The line's parts.
    food : Food
        What is weighed as bought.

    Returns
    -------
    tuple of Mark
        "bone-or-not", or none.
    """
    bare = food.food_class == "poultry" and food.id in _BARE_MEATS
    if not bare or "pieces" not in split.name.lower().split():
        return ()
    message = (
        f"“{split.name}” is weighed with its bones. Write “boneless {food.name}” if there are none."
    )
    choices = (f"boneless {food.name}", f"{food.name} on the bone")
    return (Mark("doubt", "bone-or-not", message, choices),)
