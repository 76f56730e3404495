"""A bracket that tells which food a name means: "3 drumsticks (moringa)", "kpanla (mackerel)"."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Iterator

    from counterproof.reading.foods import Match, Matcher
    from counterproof.reading.model import Split

_BRACKET: Final = re.compile(r"\(([^()\d]{2,40})\)")
_SYNONYM: Final = re.compile(
    r"^(?:aka|a\.k\.a\.?|also (?:called|known as)|or|i\.?e\.?|known as|called|the|=)\s+",
    re.IGNORECASE,
)
_LATER: Final = frozenset({"cooked", "boiled"})  # weighed before or after: asked elsewhere
_SURE: Final = 0.9
_DOUBTFUL: Final = 0.75  # as remarks.DOUBTFUL: below it the bracket knows better
_MOST: Final = 3  # words of a bracket that is a name; a longer one is a remark


def told_apart(match: Match, split: Split, matcher: Matcher, region: str) -> Match:
    """The match, or what a bracket of the line says that the name means.

    Parameters
    ----------
    match : Match
        What the name was understood to be by itself.
    split : Split
        The line's parts.
    matcher : Matcher
        The food table's names.
    region : str
        Whose names for foods.

    Returns
    -------
    Match
        The bracket's food where bracket and name together are a food's name ("oil (olive)"),
        where the name alone means nothing here, or where it leaves the kind open and the bracket
        names one of the same class.
    """
    if "(" not in split.text or not split.comment or split.meaning:
        return match
    for said in _brackets(split):
        told = matcher.words(said)
        if not told or len(told) > _MOST or not _LATER.isdisjoint(told):
            continue
        joint = f"{said} {split.name}"
        own = joint if matcher.knows(joint) else said if matcher.knows(said) else ""
        if not own:
            continue
        other = matcher.match(own, region=region)
        if other.food is None or other.certainty < _SURE or other.food == match.food:
            continue
        if own == joint or match.food is None or match.certainty < _DOUBTFUL:
            return _because(other, said)
        is_open = bool(match.row and match.row.why and not match.row.fit)
        if is_open and other.food.food_class == match.food.food_class:
            return _because(other, said)
    return match


def _brackets(split: Split) -> Iterator[str]:
    """What stands in brackets and was taken for a remark, without "also called"."""
    for found in _BRACKET.finditer(split.text):
        inside = found.group(1).strip()
        if inside in split.comment:
            yield _SYNONYM.sub("", inside)


def _because(match: Match, said: str) -> Match:
    return match._replace(explanation=(*match.explanation, f"so says “{said.lower()}” beside it"))
