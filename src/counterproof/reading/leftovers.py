"""What a word costs that the best-fitting name leaves uncovered.

The shares below are judgements, calibrated on a labelled set of names (docs/reading.md): what
matters is which side of the threshold and of the asking line they fall on.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterproof.reading.modifiers import (
    ANIMAL_CLASSES,
    CHOOSING,
    COLOUR_DECIDES,
    COLOURS,
    DRAWN_FROM_PLANTS,
    DRY_CLASSES,
    FLAVOURED,
    FLAVOURING_CLASSES,
    FLAVOURS,
    FORM_KEPT,
    FORM_LOST,
    FORMS,
    FROZEN_KEPT,
    GROUND_CLASSES,
    HARMLESS,
    KEPT_CLASSES,
    KEPT_FORMS,
    MADE_OF,
    MIXED_CLASSES,
    NEVER_LAST,
    OTHER_FLAVOURED,
    OTHER_PARTS,
    PARTS,
    PICKLE_CLASSES,
    PLACES,
    PLANT_CLASSES,
    REPLACING,
    SWEET_CLASSES,
    VARIETIES,
    VESSELS,
    WET_FORMS,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from counterproof.rows import Food

MEATS = frozenset({"beef", "veal", "lamb", "pork", "poultry", "game"})
STATES = frozenset(FORMS.values())
_NATURAL = {
    "dried": DRY_CLASSES,
    "ground": GROUND_CLASSES,
    "candied": SWEET_CLASSES,
    **dict.fromkeys(("cured", "pickled", "preserved", "canned"), PICKLE_CLASSES),
}
"""States that go without saying, by class of food."""
AFTER = 0.9  # any modifier that stands behind the head ("butter unsalted")
UNKNOWN = 0.85
UNKNOWN_BEFORE_ALL = 0.74  # before a head that is the whole name, a doubt: "bombay" before "duck"


def passable(word: str) -> bool:
    """Whether a word at the end of a phrase may be passed over to find its head.

    Parameters
    ----------
    word : str
        A comparable word.

    Returns
    -------
    bool
        True for modifiers, parts, places and states.
    """
    if word in NEVER_LAST:
        return False
    return (
        word in HARMLESS
        or word in CHOOSING
        or word in PARTS
        or word in PLACES
        or word in STATES
        or word[-1] == "%"
    )


def natural(state: str, food: Food) -> bool:
    """Whether a state goes without saying for foods of this class.

    Parameters
    ----------
    state : str
        One of `STATES`.
    food : Food
        The food.

    Returns
    -------
    bool
        True for "dried" of a pulse, "ground" of a spice, "cured" of olives.
    """
    parts = food.id.split("-")
    if state == "fresh":
        return food.food_class not in KEPT_CLASSES and KEPT_FORMS.isdisjoint(parts)
    if state in parts or food.food_class == "water & ice":
        return True
    if state == "dried" and not WET_FORMS.isdisjoint(parts):
        return False
    return food.food_class in _NATURAL.get(state, ())


def certainty_kept(
    word: str, food: Food, head: str, *, before: bool, nouns: Mapping[str, str]
) -> tuple[float, str]:
    """What share of certainty an uncovered word leaves, and what to say about it.

    Parameters
    ----------
    word : str
        A comparable word that the name does not cover.
    food : Food
        The food the name stands for.
    head : str
        The head of the phrase; "" where the name says more than its head, as "peanut butter"
        does: then nothing before it makes another food of it.
    before : bool
        Whether the word stands before the head.
    nouns : mapping
        Words that are foods by themselves → their food class.

    Returns
    -------
    tuple of float and str
        Share kept, 0 to 1 [1]; a remark in plain words, or "" where nothing need be said.
    """
    replaced = _replacing_kept(word, food, head, before=before)
    if replaced is not None:
        return replaced
    modifier = _modifier_kept(word, before=before)
    if modifier is not None:
        return modifier, ""
    if word in nouns or word in FLAVOURS:
        return _noun_kept(word, food, head, nouns.get(word, ""))
    return _unknown_kept(word, head)


def _replacing_kept(word: str, food: Food, head: str, *, before: bool) -> tuple[float, str] | None:
    """For words that may make another food of it: a state, a colour, a substitute, a part."""
    if word in STATES:
        return _state_kept(word, food)
    if word in COLOURS and head in COLOUR_DECIDES:
        return 0.7, f"“{word}” {head} may be another food than {food.name}"
    if word in REPLACING and food.food_class in ANIMAL_CLASSES | MIXED_CLASSES:
        kept = 0.45 if food.food_class in ANIMAL_CLASSES else 0.7
        return kept, f"“{word}” may put another food in the place of {food.name}"
    apart = OTHER_PARTS.get(word)
    if apart is not None and not before and food.food_class not in apart:
        return 0.7, f"“{word}” may be another food than {food.name}"
    return None


def _state_kept(word: str, food: Food) -> tuple[float, str]:
    if natural(word, food):
        return 0.99, ""
    kept = FORM_KEPT.get(word, FORM_LOST)
    if word == "frozen" and food.food_class not in FROZEN_KEPT:
        kept = FORM_LOST
    return kept, f"“{word}” is left out, since the food table has no such kind of it"


def _modifier_kept(word: str, *, before: bool) -> float | None:
    if word in HARMLESS or word in REPLACING or word[-1] == "%":
        return 0.995 if before else AFTER
    if word in CHOOSING:
        return 0.97 if before else AFTER
    if word in PLACES or (word in PARTS and not before) or (word in VESSELS and before):
        return 0.98
    return None


def _noun_kept(word: str, food: Food, head: str, noun_class: str) -> tuple[float, str]:
    fruity = head == "yogurt" and noun_class in FLAVOURING_CLASSES
    if head in FLAVOURED or word in FLAVOURS or fruity:
        kept = 0.74 if head in OTHER_FLAVOURED and word not in FLAVOURS else 0.8
        return kept, f"“{word}” read as a flavour of {food.name}"
    if noun_class == food.food_class and noun_class in MEATS:
        return 0.9, f"“{word}” read as a kind of {food.name}"  # "topside mince"
    if head in DRAWN_FROM_PLANTS and noun_class in PLANT_CLASSES:
        return 0.62, f"“{word}” read as what the {head} is of"
    if head in MADE_OF or head in PARTS:
        return 0.45, f"“{word}” before “{head}” may make another food of it"
    return 0.6, f"“{word}” is a food of its own"


def _unknown_kept(word: str, head: str) -> tuple[float, str]:
    if head in PARTS:
        return 0.5, f"“{word}” is not known here"
    if head in MADE_OF and head not in FLAVOURED:
        kept = 0.72 if head in VARIETIES else 0.5
        return kept, f"“{word}” before “{head}” is not known here"
    lone = bool(head) and word not in PARTS  # "tooth garlic" is garlic by the tooth
    return UNKNOWN_BEFORE_ALL if lone else UNKNOWN, f"“{word}” is not known here"
