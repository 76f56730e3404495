"""What the cook settled, and what a line adds to itself, brought into its parts."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from counterproof.reading.lines import split_line
from counterproof.reading.model import Quantity
from counterproof.reading.relative import leant
from counterproof.reading.words import JOINING_PARTICIPLES
from counterproof.units import CONTAINERS, MEASURES, unit_kg

if TYPE_CHECKING:
    from counterproof.reading.model import Split
    from counterproof.units import System

_DRAWN = re.compile(
    r"(?:(?:\w+ )?(?:squeezes?|twists?) of (?:the )?(?P<after>.+)|(?P<before>.+) twists?)$",
    re.IGNORECASE,
)
_ADDED = re.compile(
    r"(?:^|[,;]\s*|\s)(?:\+|plus|and|(?:beaten|mixed|whisked|blended|dissolved|stirred"
    rf"|{'|'.join(sorted(JOINING_PARTICIPLES))})\s+(?:with|in|into))"
    r"\s+(?=[\d½¼¾⅓⅔⅛]|an?\s+\w+\s+of\b)([^,;]+)",
    re.IGNORECASE,
)
MAY_SAY_AN_AMOUNT = re.compile(
    r"[\d½¼¾⅓⅔⅛]| of\b"
)  # without one, or "a pinch of", no amount is added
_DRAWN_PARTS = frozenset({"juice of", "zest of"})
_DRAWN_NAMES = frozenset({"juice", "zest", "rind", "peel"})
_HEADING = re.compile(r"^(?:for|to make|to)\s+the\s+\D+$|^\D+:\s*$", re.IGNORECASE)


def settled(split: Split, system: System) -> Split:
    """The line with the cook's own "(meaning …)" written over what it replaces.

    Parameters
    ----------
    split : Split
        The line as the grammar split it.
    system : System
        Whose cups and spoons.

    Returns
    -------
    Split
        With the name, and the amount where one is given, of its meaning.
    """
    if not split.meaning:
        return drawn(leant(_drained(split)))
    name, amount = split.meaning, None
    pieces = [piece.strip() for piece in split.meaning.split(",") if piece.strip()]
    for piece in pieces:
        inner = split_line(piece, system)
        if inner.quantities and not inner.name.strip("., "):
            amount = inner
            name = ", ".join(other for other in pieces if other is not piece)
            break
    inner = split_line(name, system)
    if inner.quantities and inner.name:
        amount, name = inner, inner.name
    name = name.removeprefix("the ").strip()
    settled = replace(
        split, name=name or split.name, alternatives=(), preparation=split.preparation
    )
    if amount is None or "weighed" in split.flags:
        return settled
    return replace(
        settled,
        quantities=amount.quantities,
        packs=amount.packs,
        container=amount.container or split.container,
        size=amount.size,
    )


def _drained(split: Split) -> Split:
    """The line by its drained weight, where it says one: the liquid of the tin is not eaten."""
    if split.drained is None or "weighed" in split.flags:
        return split
    first = split.quantities[0] if split.quantities else None
    weighed = first is not None and MEASURES[first.measure] == "mass"
    in_all = weighed and first is not None and _kg(split.drained) > _kg(first)
    if in_all or first is None or not (weighed or split.container or first.measure in CONTAINERS):
        return replace(split, quantities=(split.drained,), packs=1.0)
    packs = split.packs if weighed or split.container else first.low
    return replace(split, quantities=(split.drained,), packs=packs)


def _kg(quantity: Quantity) -> float:
    return quantity.high * unit_kg(quantity.measure)


def drawn(split: Split) -> Split:
    """The line with "a squeeze of lemon" and "a twist of orange" as juice and zest by eye.

    Parameters
    ----------
    split : Split
        The line as the grammar split it.

    Returns
    -------
    Split
        With the fruit as its name and what is drawn from it as a flag.
    """
    said = split.name.lower()
    squeezed = "squeeze" in said
    if not squeezed and "twist" not in said:
        return split
    found = _DRAWN.match(split.name)
    if found is None:
        return split
    first = split.quantities[0] if split.quantities else Quantity(1.0, 1.0, "piece")
    return replace(
        split,
        name=found["after"] or found["before"],
        quantities=(replace(first, measure="splash" if squeezed else "strip"),),
        flags=split.flags | {"juice of" if squeezed else "zest of"},
    )


def is_heading(split: Split) -> bool:
    """Whether a line is a heading that stands among the ingredients.

    Parameters
    ----------
    split : Split
        The line's parts.

    Returns
    -------
    bool
        True for "For the dough" and "Dressing:".
    """
    return not split.quantities and _HEADING.match(split.text.strip()) is not None


def additions(split: Split, system: System) -> tuple[Split, ...]:
    """Further amounts a line adds: "8 cups broth + 2 cups water", "2 eggs plus 1 yolk".

    Parameters
    ----------
    split : Split
        The line as settled.
    system : System
        Whose cups and spoons.

    Returns
    -------
    tuple of Split
        One for each addition that has an amount; its name is empty where it adds more of the same.
    """
    if not (split.comment or split.preparation) or "weighed" in split.flags:
        return ()  # a scale has added up already
    said = f"{split.comment}, {split.preparation}"
    if MAY_SAY_AN_AMOUNT.search(said) is None:
        return ()
    found = (split_line(piece.strip(), system) for piece in _ADDED.findall(said))
    drawn_too = split.flags & _DRAWN_PARTS
    return tuple(
        replace(other, name=f"{split.name} {other.name}")  # "zest of 1 lemon, plus 2 tbsp juice"
        if other.name.lower() in _DRAWN_NAMES
        else replace(other, flags=other.flags | drawn_too)
        for other in found
        if other.quantities
    )
