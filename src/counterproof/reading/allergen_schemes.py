"""The allergens of a line by the law of a place: the UK's and EU's fourteen, the US's nine.

The food table holds the fourteen. What the nine name otherwise, or not at all, is told here, on
the cautious side: gluten may be wheat, so it is told as wheat unless the food is of another grain,
and then the label must tell.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final, Literal

from counterproof.rows import Allergen

Scheme = Literal["uk-eu", "us"]
SCHEMES: Final[tuple[Scheme, ...]] = ("uk-eu", "us")

TITLES: Final[Mapping[Scheme, str]] = {
    "uk-eu": "the fourteen of the UK and the EU",
    "us": "the nine of the US",
}

SOURCES: Final[Mapping[Scheme, str]] = {
    "uk-eu": "Regulation (EU) No 1169/2011, Annex II, as kept in UK law; from memory",
    "us": (
        "Food Allergen Labeling and Consumer Protection Act of 2004, section 203, and FASTER Act "
        "of 2021, section 2 (sesame); from memory"
    ),
}
"""Where each list stands. All from memory: no text of either law was at hand."""

US_NAMES: Final[Mapping[str, str]] = {
    "milk": "milk",
    "eggs": "eggs",
    "fish": "fish",
    "crustaceans": "crustacean shellfish",
    "nuts": "tree nuts",
    "peanuts": "peanuts",
    "gluten": "wheat",
    "soya": "soybeans",
    "sesame": "sesame",
}
"""What the US nine call an allergen of the fourteen; celery, mustard, sulphites, lupin and
molluscs are not among them."""

OTHER_GRAINS: Final = frozenset(
    {
        "barley", "barley-cooked", "barley-hulled", "beer", "flour-oat", "flour-rye",
        "malt-extract", "oat-bran", "oat-milk", "oats", "oats-groats", "porridge", "stout",
    }
)  # fmt: skip
"""Food.id of those whose gluten is of barley, oats or rye: wheat is for the label to tell."""

NUTS_OF_ONE_LIST: Final = frozenset({"pine-nuts"})
"""Foods that the US list counts among tree nuts and the EU's list of eight does not."""


def under(scheme: Scheme, row: Allergen) -> Allergen | None:
    """An allergen of a food as a scheme names it.

    Parameters
    ----------
    scheme : Scheme
        uk-eu or us.
    row : Allergen
        A row of the table, which holds the fourteen.

    Returns
    -------
    Allergen or None
        None where the scheme does not name it.
    """
    return row if scheme == "uk-eu" else _us(row)


def name_under(scheme: Scheme, row: Allergen) -> str | None:
    """What a scheme calls an allergen of a food.

    Parameters
    ----------
    scheme : Scheme
        uk-eu or us.
    row : Allergen
        A row of the table.

    Returns
    -------
    str or None
        None where the scheme does not name it.
    """
    told = under(scheme, row)
    return None if told is None else told.allergen


def _us(row: Allergen) -> Allergen | None:
    name = US_NAMES.get(row.allergen)
    if name is None:
        return None
    if row.allergen == "gluten" and row.food in OTHER_GRAINS:
        return replace(row, allergen=name, status="read the label")
    if row.allergen == "nuts" and row.food in NUTS_OF_ONE_LIST:
        return replace(row, allergen=name, status="present")
    return replace(row, allergen=name)
