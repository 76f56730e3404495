"""What a name is read for: another spelling, a style set aside, a vegan kind of something."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counterproof.rows import Food

SLIPS = 6  # letters from which a word that differs in vowels only is a slip of the pen
# Part of a food's id, or its class → the name of what stands for its vegan kind.
_VEGAN = {
    "sausage": "vegan sausages", "chorizo": "vegan sausages", "mince": "vegan mince",
    "burger": "vegan burger", "yogurt": "vegan yogurt", "cream": "vegan cream",
    "cheese": "vegan cheese",
    **dict.fromkeys(
        ("beef", "veal", "lamb", "pork", "poultry", "game", "fish", "shellfish"), "vegan chicken pieces"
    ),
}  # fmt: skip
_VOWELS = re.compile(r"(?<!^)[aeiou]")
_DOUBLED = re.compile(r"(.)\1+")
# "Cornish-style", "grass-fed": set aside; of "hickory-smoked" the smoke is kept.
_STYLE = re.compile(
    r"\b[\w'’]+-(?:style|type|fed|reared|raised|caught|grown|finished|ripened|flavou?red|infused"
    r"|scented|glazed|brined|aged|milled|pressed|spiced|(smoked|cured|roasted)) (?=\w)",
    re.IGNORECASE,
)


def without_style(name: str) -> str:
    """A name without what is said of its style: "hickory-smoked trout" as "smoked trout".

    Parameters
    ----------
    name : str
        As written.

    Returns
    -------
    str
        The same where no style is said.
    """
    return _STYLE.sub(_kept, name)


def _kept(style: re.Match[str]) -> str:
    """What of "hickory-smoked" says how the food is: that it is smoked."""
    return f"{style.group(1)} " if style.group(1) else ""


def vegan_kind(food: Food) -> str:
    """The name of what stands for the vegan kind of a food.

    Parameters
    ----------
    food : Food
        What its name means without "vegan".

    Returns
    -------
    str
        "" where nothing stands for it.
    """
    named = (kind for part, kind in _VEGAN.items() if part in food.id)
    return next(named, _VEGAN.get(food.food_class, ""))


def slipped(word: str, near: str) -> bool:
    """Whether two spellings differ in vowels and doubled letters only: "brocolli".

    Parameters
    ----------
    word : str
        As written.
    near : str
        The known word nearest to it.

    Returns
    -------
    bool
        False for short words, which are easily words of their own.
    """
    return min(len(word), len(near)) >= SLIPS and _consonants(word) == _consonants(near)


def _consonants(word: str) -> str:
    return _DOUBLED.sub(r"\1", _VOWELS.sub("", word))
