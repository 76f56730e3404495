"""The closed list of marks a reading may make beside a line, and what each asks of the cook."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counterproof.marks import Level

KINDS: dict[str, tuple[Level, str]] = {
    # faults: the line stays, but does not count
    "no-food": ("fault", "The line names no food: write one, or take the line out."),
    "not-food": ("fault", "A tool or wrapping, not eaten: it is not counted."),
    "unknown-food": (
        "fault",
        "The food is not in the table: choose a near one, or write a plainer name.",
    ),
    "no-amount": ("fault", "A main ingredient without an amount: write how much."),
    "no-weight": ("fault", "What is counted has no known weight: give a weight."),
    "no-share": ("fault", "Another recipe, and how much of it is not clear: write its share."),
    "no-density": ("fault", "A volume of something with no known density: give a weight."),
    "no-base": ("fault", "A share of another line that cannot be found or weighed: give a weight."),
    # doubts: a choice is open, and what was taken meanwhile is said
    "unsure-food": ("doubt", "The name may mean another food: choose."),
    "alternative": ("note", "Several foods to choose from: the first is taken."),
    "amounts-disagree": ("doubt", "Two ways of saying the amount differ: strike one out."),
    "each-or-all": ("doubt", "A weight may be of each piece or of all: say which."),
    "unit-missing": ("doubt", "A number too large for a count: read as grams."),
    "bone-or-not": ("doubt", "Meat with its bones or without: say which."),
    "part-size": ("doubt", "A part of a drink: taken as a bar measure until it is said."),
    "odd-number": ("doubt", "A number that cannot be meant: read as what it may stand for."),
    "second-food": ("doubt", "A second food in the line, not counted: give it a line of its own."),
    "recipe-elsewhere": ("doubt", "Another recipe that is not at hand: what is bought is counted."),
    "taken-in-open": ("doubt", "Another recipe in which lines are open: settle them there."),
    "raw-or-cooked": ("doubt", "A weight before or after cooking: say which."),
    "to-cover": ("doubt", "Water by the pot, not by measure: a wide guess until it is measured."),
    "swap-unsure": ("doubt", "A version's swap fits more than one line: the first is swapped."),
    # notes: worth knowing
    "assumed-weight": ("note", "A weight that no source gives: the assumption is stated."),
    "set-aside": ("note", "Words of the name that the table cannot honour."),
    "stands-for": ("note", "The food named has no row of its own: what it is counted as."),
    "unspecified": ("note", "The name leaves the kind open: the usual one is taken."),
    "several-foods": ("note", "One line, several foods: how the amount was shared out."),
    "taken-in": ("note", "Another recipe of the season: which share of its batch is counted."),
    "share-of": ("note", "A share of another line's weight."),
    "measures-guessed": ("note", "Whose cups and spoons: guessed from the recipe's own words."),
    "servings-assumed": ("note", "The recipe does not say how many it serves."),
}
"""Kind → its usual level and what it means. "alternative" is a doubt where the first is unknown."""
