"""Lines that go on with the line above them, put together again."""

from __future__ import annotations

import re
from dataclasses import replace

from counterproof.recipe.headings import looks_like_amount, opens
from counterproof.recipe.markup import Item
from counterproof.recipe.servings import statement

WRAPPED_FROM = 50
"""Length of a line from which the next one, begun in lower case, may be its continuation:
assumed, between a long ingredient line and the shortest width at which letters are wrapped."""

LONGEST_PARAGRAPH = 5000
"""Length from which a paragraph is not added to [characters]: assumed, two pages of print."""

_END_OF_SENTENCE = re.compile(r"[.!?:][)\"'”’]*$")


def joined(found: list[Item]) -> list[Item]:
    """Return items with the lines that continue them.

    Parameters
    ----------
    found : list of Item
        One for every line.

    Returns
    -------
    list of Item
        One for every line with what continues it.
    """
    whole: list[Item] = []
    last = 0
    for item in found:
        before = whole[-1] if whole else None
        if before is not None and item.at == last + 1 and _continues(before, item):
            whole[-1] = replace(
                before,
                text=f"{before.text} {item.text}",
                raw=f"{before.raw} {item.raw}",
                length=item.length,
            )
        else:
            whole.append(item)
        last = item.at
    return whole


def _continues(before: Item, item: Item) -> bool:
    """Return whether a plain line goes on with the line above it."""
    apart = item.sign != "plain" or item.gap or item.literal or before.literal
    apart = apart or len(before.text) > LONGEST_PARAGRAPH
    apart = apart or before.sign not in {"plain", "bullet", "number"}
    if apart or statement(item.text) or opens(item.text):
        return False
    if before.sign != "plain" and item.indent >= max(2, before.indent + 1):
        return True
    if before.text.count("(") > before.text.count(")") and before.length >= WRAPPED_FROM // 2:
        return True  # a bracket is open
    long = before.length >= WRAPPED_FROM
    if _END_OF_SENTENCE.search(before.text[-8:]):
        return False
    if looks_like_amount(item.text):  # "no deeper than / 5 cm" under a number is one step
        return long and before.sign == "number"
    goes_on = item.text[:1].islower() or item.text.startswith("(")
    return (long and goes_on) or (
        before.length >= WRAPPED_FROM + 16 and len(before.text.split()) > 8
    )
