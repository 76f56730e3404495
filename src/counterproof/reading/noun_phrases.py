"""A name with prepositions in it as phrases that end in their heads: "cloves of garlic"."""

from __future__ import annotations

import re

_TAIL = re.compile(
    r"(?<![-\w])(?:with|in|from|on|for|including|such as|like)(?![-\w])", re.IGNORECASE
)
_KEPT_IN = re.compile(r"\b(?:syrup|vinegar|brine|adobo|sauce|alcohol|rum|brandy)\b", re.IGNORECASE)
_WHEN = re.compile(  # "tomatoes in August" lie in no tin
    r"\s*(?:season\b|(?:jan|febr)uary|march|april|may\b|june|july|august|(?:sept|nov|dec)ember"
    r"|october)|\s*(?:their|its|the)\s+(?:skins?|shells?|jackets?|pods?|husks?)\b",
    re.IGNORECASE,
)
_OF = re.compile(r"\bof\b", re.IGNORECASE)


def phrases(name: str) -> list[tuple[str, float, frozenset[str]]]:
    """The ways to read a name with prepositions in it.

    Parameters
    ----------
    name : str
        The food part of a line, as written.

    Returns
    -------
    list of (str, float, frozenset of str)
        A phrase that ends in its head, the certainty kept by reading it so, and the states that
        the preposition implies.
    """
    tail = _TAIL.search(name)
    if tail is not None and tail.start() > 0:
        before, after = name[: tail.start()], name[tail.end() :]
        word = tail.group().lower()
        tinned = word == "in" and not _WHEN.match(after)
        canned = frozenset({"canned"}) if tinned else frozenset[str]()
        same = 0.85 if word == "in" and _KEPT_IN.search(after) else 0.98
        found = [(phrase, kept * same, canned) for phrase, kept, _ in phrases(before)]
        return [*found, (after, 0.8, frozenset[str]())] if word == "from" else found
    of = _OF.search(name)
    if of is not None and of.start() > 0:
        turned = f"{name[of.end() :]} {name[: of.start()]}"
        return [(name, 0.98, frozenset[str]()), (turned, 0.99, frozenset[str]())]
    return [(name, 1.0, frozenset[str]())]
