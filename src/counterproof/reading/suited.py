"""What a line's amount and words make of the food it names: a mug of tea is no mug of leaves."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from counterproof.reading.foods import Match, Matcher
from counterproof.reading.model import RunnerUp

if TYPE_CHECKING:
    from counterproof.reading.model import Split

_AT_HOME = re.compile(
    r"\b(?:soda (?:machine|maker|siphon|syphon)|(?:fizzed|carbonated|made) (?:at home|yourself)"
    r"|home[- ](?:made|fizzed|carbonated))\b",
    re.IGNORECASE,
)
# What is done to solids only.
_WORKED = frozenset({"peeled", "chopped", "diced", "cubed", "sliced", "grated", "halved", "seeded"})
_BY_AMOUNT = (0.45, 0.75)  # a runner-up from here on is taken, so sure, if the amount suits it
_BY_SPOON = 0.65  # sure that a spoonful of a root, or of coriander, is its powder
_POWDERED = frozenset({"vegetables", "fresh herbs"})
_POURED = frozenset({"cup", "glass", "ml", "l", "cl", "dl", "pint", "floz", "shot", "quart"})
_LEAVES = frozenset({"ground", "loose", "whole", "dried"})  # said of the dry leaf or bean
_KEPT = frozenset({"spices", "dried herbs"})
_OF_FRESH = frozenset({"bunch", "sprig", "handful", "stalk", "leaf"})


def suited(match: Match, name: str, split: Split, matcher: Matcher, region: str = "") -> Match:
    """The match, or the form of the food that suits how it is measured and what is done to it.

    Parameters
    ----------
    match : Match
        What the name was understood to be.
    name : str
        The name as it was looked up.
    split : Split
        The line's parts.
    matcher : Matcher
        The food table's names.
    region : str
        "uk", "us", "au" or "": decides names that differ.

    Returns
    -------
    Match
        Another form where the amount or the words ask for it.
    """
    match = _counted(_soaked(match, split, matcher, region), split, matcher)
    return _fizzed(spooned(_poured(match, split, matcher), name, split, matcher), split, matcher)


def _counted(match: Match, split: Split, matcher: Matcher) -> Match:
    """The match, or what suits the amount: a drink is not counted, nor peeled, no spice bunched."""
    food = match.food
    measure = split.quantities[0].measure if split.quantities else ""
    if food is not None and food.food_class in _KEPT and measure in _OF_FRESH:
        fresh = matcher.match(f"fresh {split.name}")
        if fresh.food is not None and fresh.food.food_class == "fresh herbs":
            return fresh
    if food is None or food.kind != "liquid" or not match.runners_up:
        return match
    by_piece = measure == "piece"
    worked = not _WORKED.isdisjoint(matcher.words(split.preparation))
    if not (worked or (by_piece and not matcher.counts(food))):
        return match
    for runner in match.runners_up:
        solid = runner.food.kind == "solid" and runner.certainty >= _BY_AMOUNT[0]
        if solid and (worked or matcher.counts(runner.food)):
            others = tuple(other for other in match.runners_up if other is not runner)
            return Match(
                runner.food,
                max(runner.certainty, _BY_AMOUNT[1]),
                matcher.fit(runner.food),
                (RunnerUp(food, match.certainty), *others),
                (*match.explanation, f"not {food.name}, as it is counted or cut"),
            )
    return match


def _soaked(match: Match, split: Split, matcher: Matcher, region: str) -> Match:
    """The match, or the dry form of a pulse that is soaked: nobody soaks a tin of beans."""
    food = match.food
    if food is None or food.food_class != "pulses" or split.meaning:
        return match
    said = split.preparation.lower()
    if not food.id.endswith("-canned") or ("soaked" not in said and "uncooked" not in said):
        return match
    dry = matcher.match(f"dried {split.name}", region=region)
    return dry if dry.food is not None and dry.food.food_class == "pulses" else match


def _poured(match: Match, split: Split, matcher: Matcher) -> Match:
    """The match, or the drink made of it: a mug of tea is no mug of leaves."""
    food = match.food
    if food is None or food.food_class != "tea & coffee" or food.kind == "liquid":
        return match
    measure = split.quantities[0].measure if split.quantities else ""
    drinks = [other for other in matcher.others(match) if other.kind == "liquid"]
    dry = not _LEAVES.isdisjoint(matcher.words(split.preparation))
    if measure not in _POURED or not drinks or split.meaning or dry:
        return match
    return Match(
        drinks[0],
        _BY_AMOUNT[1],
        matcher.fit(drinks[0]),
        (RunnerUp(food, round(1 - _BY_AMOUNT[1], 4)),),
        ("the drink is taken, as it is measured like one",),
    )


def _fizzed(match: Match, split: Split, matcher: Matcher) -> Match:
    """The match, or tap water fizzed at home where a line's words say that it was."""
    sparkling = match.food is not None and match.food.food_class == "water & ice"
    if not sparkling or "sparkling" not in split.text.lower() or not _AT_HOME.search(split.text):
        return match
    home = matcher.match("water fizzed at home")
    return home if home.food is not None else match


def spooned(match: Match, name: str, split: Split, matcher: Matcher) -> Match:
    """The match, or the powder of it: nobody measures "¼ tsp ginger" from the root uncut.

    Parameters
    ----------
    match : Match
        What the name was understood to be.
    name : str
        The name as it was looked up.
    split : Split
        The line's parts.
    matcher : Matcher
        The food table's names.

    Returns
    -------
    Match
        Less sure where the powder is taken.
    """
    food = match.food
    if food is None or food.food_class not in _POWDERED or split.preparation or split.meaning:
        return match
    if (
        not split.quantities
        or split.quantities[0].measure != "tsp"
        or len(matcher.words(name)) != 1
    ):
        return match
    if not matcher.knows(f"ground {name}"):
        return match
    powder = matcher.match(f"ground {name}")
    return powder._replace(
        certainty=_BY_SPOON,
        runners_up=(RunnerUp(food, round(1 - _BY_SPOON, 4)), *powder.runners_up),
        explanation=("a teaspoon of it, uncut, is taken as its powder",),
    )
