"""Someone else's number: which choices of boundary, set, middle and mass basis would give it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final

from counterproof.claims.numbers_in_words import number_at
from counterproof.draws import Range, Streams
from counterproof.errors import NotUnderstood
from counterproof.footprint.factors import SETS, best_link, valued
from counterproof.reading.foods import Matcher
from counterproof.rows import Factor, Tables

NEAR: Final = 0.06
"""How near a choice must come to give a number. [1] A house choice: rounding to two digits."""

SURE: Final = 0.55
"""Certainty below which a food's name is not taken, as in a recipe's line. [1]"""

_SHAPE: Final = re.compile(
    r"^\s*(?P<unit>kg|g|kilos?|kilograms?|grams?|t|tonnes?)\s*(?:of\s+)?(?:co2e?q?|co₂e?|carbon dioxide|carbon)?\s*"
    r"(?:per|a|for (?:a|one|each)|/|in (?:a|one))\s*(?P<per>kg|kilo|kilogram|100\s?g|g|serving)s?\s*(?:of\s+)?(?P<food>.*?)\s*[.?!]*$",
    re.IGNORECASE,
)
QUESTIONS: Final = (
    "Is it per kilogram as bought, edible, dry or cooked?",
    "Is it a mean or a median, and of how many farms or studies?",
    "Does it end at the farm, at the shop, or on the plate? Are losses and land-use change in it?",
    "Which edition of the warming potentials, and which country?",
)
"""What to send back, whatever the number."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One way of counting, and what it gives. [kg CO2e/kg]"""

    words: str
    value: float
    source: str

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {"choice": self.words, "kgco2e_per_kg": self.value, "source": self.source}


@dataclass(frozen=True)
class Theirs:
    """A number of someone else, and what would give it.

    Parameters
    ----------
    text : str
        As they said it.
    food : str
        The food it is taken to be about.
    value : float
        Their number. [kg CO2e/kg]
    giving : tuple of Choice
        Choices that give it, nearest first.
    nearest : tuple of Choice
        The nearest others.
    range : Range
        Our own figure, one purchase. [kg CO2e/kg]
    verdict : str
        holds, fails or cannot be judged.
    wording : str
        How it may be said, with its owner named.
    """

    text: str
    food: str
    value: float
    giving: tuple[Choice, ...]
    nearest: tuple[Choice, ...]
    range: Range
    verdict: str
    wording: str

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "theirs": self.text,
            "food": self.food,
            "kgco2e_per_kg": self.value,
            "given_by": [choice.to_dict() for choice in self.giving],
            "nearest": [choice.to_dict() for choice in self.nearest],
            "ours_kgco2e_per_kg": self.range.to_dict(),
            "verdict": self.verdict,
            "wording": self.wording,
            "questions": list(QUESTIONS),
        }


def their_number(text: str, tables: Tables, matcher: Matcher, streams: Streams) -> Theirs:
    """Which choices give a number that someone else said.

    Parameters
    ----------
    text : str
        Such as "99 kg per kg beef".
    tables : Tables
        All tables.
    matcher : Matcher
        Over their names.
    streams : Streams
        Seed, number of draws, and the draws already made.

    Returns
    -------
    Theirs
        It holds where a choice of ours gives it, fails where it lies outside all of them.

    Raises
    ------
    NotUnderstood
        If no number, unit or food is found in it.
    """
    start = re.search(r"[\d.½¼¾]", text)
    read = number_at(text, start.start()) if start else number_at(text)
    shape = _SHAPE.match(text[read[1] :]) if read is not None else None
    if read is None or shape is None or shape["per"].lower() == "serving" or not shape["food"]:
        raise NotUnderstood(
            f"“{text}” is not read as a footprint per weight of a food.",
            remedy="Say it like “99 kg per kg beef”; a number per serving needs the recipe.",
        )
    matched = matcher.match(shape["food"])
    if matched.food is None or matched.certainty < SURE:
        raise NotUnderstood(
            f"“{shape['food']}” is no food that is known here.",
            remedy="See `counterproof foods` for its name.",
        )
    food = matched.food.id
    unit = shape["unit"].lower()
    size = 1.0 if unit.startswith("k") else 1000.0 if unit.startswith("t") else 1e-3
    per = {"kg": 1.0, "kilo": 1.0, "kilogram": 1.0, "g": 1e-3}.get(
        shape["per"].lower().replace(" ", ""), 0.1
    )
    value = read[0] * size / per
    choices = _choices(food, tables)
    ranked = sorted(choices, key=lambda choice: abs(choice.value / value - 1) if value else 0.0)
    giving = tuple(one for one in ranked if value and abs(one.value / value - 1) <= NEAR)
    ours = _ours(food, tables, streams)
    inside = any(choice.value >= value for choice in choices) and ours.p05 <= value <= ours.p95
    verdict = "holds" if giving else "cannot be judged" if inside else "fails"
    name = tables.foods[food].name
    said = " ".join(text.split())
    wording = (
        f"They say “{said}”; that is {giving[0].words}."
        if giving
        else f"They say “{said}”; we find {ours.p05:.2g} to {ours.p95:.2g} kg CO₂e per kg of {name}."
    )
    rest = tuple(one for one in ranked if one not in giving)[:3]
    return Theirs(said, name, value, giving[:4], rest, ours, verdict, wording)


def _choices(food: str, tables: Tables) -> list[Choice]:
    """Every published number of every item that stands for a food, in every set."""
    made: list[Choice] = []
    for name in SETS:
        link = best_link(food, name, tables)
        if link is None:
            continue
        parts = tables.mixtures.get((name, link.item))
        for item in [part.item for part in parts] if parts else [link.item]:
            factor = tables.factors[name, item]
            made += _of_factor(factor)
    return made


def _of_factor(factor: Factor) -> list[Choice]:
    source = factor.provenance.source
    basis = f"{factor.item}, {factor.set} set, per {factor.unit} {factor.basis}, {factor.boundary}"
    middle = factor.middle if factor.p50 is None else "mean"
    values = [
        (middle, factor.mean),
        ("5th percentile", factor.p05),
        ("10th percentile", factor.p10),
        ("median", factor.p50),
        ("90th percentile", factor.p90),
        ("95th percentile", factor.p95),
    ]
    return [
        Choice(f"the {word} of {basis}", value, source)
        for word, value in values
        if value is not None and value > 0
    ]


def _ours(food: str, tables: Tables, streams: Streams) -> Range:
    link = next(
        (found for name in SETS if (found := best_link(food, name, tables)) is not None), None
    )
    if link is None:
        raise NotUnderstood(
            f"No factor is known for {tables.foods[food].name}.", remedy="Name another food."
        )
    worth = valued(link, tables, range_for="one-purchase")
    return Range.of(worth.draws(streams), worth.mean)
