"""Words and signs for a relation between two quantities, and for what they are likened to."""

from __future__ import annotations

import re
from typing import Final

from counterproof.claims.operations import Relation
from counterproof.errors import NotUnderstood

LIKENESSES: Final = {
    "balloons": "balloon",
    "balloon": "balloon",
    "stockpots": "stockpot",
    "pots": "stockpot",
    "bathtubs": "bathtub",
    "bathtub": "bathtub",
    "rooms": "room",
    "this room": "room",
    "kettles": "kettle",
    "kettles boiled": "kettle",
    "litres boiled": "hob",
    "car kilometres": "car",
    "car km": "car",
    "car miles": "car",
    "glasses": "glass",
    "glasses of water": "glass",
    "bottles": "bottle",
    "a year of it": "habit",
    "a year": "habit",
    "days of food": "day of food",
    "a day of food": "day of food",
    "a day's food": "day of food",
}
"""Words for a likeness, and its kind."""

RELATIONS: Final[tuple[tuple[str, Relation], ...]] = (
    ("no more than", "<="),
    ("not more than", "<="),
    ("at most", "<="),
    ("up to", "<="),
    ("no less than", ">="),
    ("not less than", ">="),
    ("at least", ">="),
    ("lower than", "<"),
    ("less than", "<"),
    ("smaller than", "<"),
    ("lighter than", "<"),
    ("fewer than", "<"),
    ("shorter than", "<"),
    ("cheaper than", "<"),
    ("below", "<"),
    ("under", "<"),
    ("higher than", ">"),
    ("more than", ">"),
    ("larger than", ">"),
    ("bigger than", ">"),
    ("greater than", ">"),
    ("heavier than", ">"),
    ("longer than", ">"),
    ("above", ">"),
    ("over", ">"),
    ("about", "about"),
    ("roughly", "about"),
    ("around", "about"),
    ("the same as", "about"),
    ("as much as", "about"),
)
"""Words for a relation, longest first among those that begin alike."""

_SIGNS: Final[dict[str, Relation]] = {
    "<": "<",
    ">": ">",
    "≤": "<=",
    "≥": ">=",
    "<=": "<=",
    ">=": ">=",
}
_IS: Final = r"(?:is|are|was|were|has|have|comes to|stays|weighs|takes|costs)"
_RELATION: Final = re.compile(
    rf" (?:{_IS} )?(?P<words>{'|'.join(words for words, _ in RELATIONS)})(?= )"
)
_MOST: Final = re.compile(rf" {_IS} (?P<most>most of|the most of|more than half)(?= )")
BETWEEN: Final = re.compile(
    rf"^(?P<left>.+?) {_IS} between (?P<low>.+?) and (?P<high>.+?(?: times)?) (?P<right>\S.+)$"
)
PART_LESS: Final = re.compile(
    rf"^(?P<left>.+?) {_IS} (?P<by>at least )?(?P<part>.+?) (?P<how>less|lower|smaller|more|higher) than (?P<right>.+)$"
)


def compared(words: str) -> tuple[str, Relation, str, float | None]:
    """Left, relation and right of a comparison; “most of” is more than half.

    Parameters
    ----------
    words : str
        A claim.

    Returns
    -------
    tuple
        Left side, relation, right side, and the part of the right side that is meant. [1]

    Raises
    ------
    NotUnderstood
        If no comparison stands there.
    """
    most = _MOST.search(words)
    if most is not None:
        return words[: most.start()], ">", words[most.end() + 1 :], 0.5
    sign = re.search(r" ?(<=|>=|[<>≤≥]) ?", words)
    if sign is not None:
        return words[: sign.start()], _SIGNS[sign[1]], words[sign.end() :], None
    match = _RELATION.search(words)
    if match is None:
        raise NotUnderstood(
            f"No comparison stands in “{words}”.",
            remedy="Say “… is lower than …”, “… is less than half of …” or “… is at least three "
            "times …”.",
        )
    relation = dict(RELATIONS)[match["words"]]
    return words[: match.start()], relation, words[match.end() + 1 :], None
