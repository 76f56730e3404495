"""From the amounts of a line and a food to a mass, with the range of the measure.

Every mass is a plain number of kilograms times keyed parameters with mean 1: the measure's own
spread and, where the cook wrote one, the interval of the quantity. Keys say what was measured
(food, measure, size, quantity as written), never where the line stands, and scaling only changes
the plain number.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from counterproof.draws import Lognormal, Parameter, Product, Uniform
from counterproof.marks import Mark
from counterproof.reading.at_the_scales import Case, Try
from counterproof.reading.by_eye import unsaid
from counterproof.reading.telling import assumed, figures, grams, said
from counterproof.reading.weighing import tried
from counterproof.units import MEASURES
from counterproof.ways import ASSUMED, Way

if TYPE_CHECKING:
    from counterproof.reading.model import Split
    from counterproof.rows import Food

# How far two ways of saying an amount may lie apart: cooks round ounces to 25 g and pounds to
# 500 g, and a spoonful of a powder is uncertain by half.
BOTH_WEIGHED = 1.35
ONE_BY_VOLUME = 2.0
LITTLE = 0.015  # [kg]; nobody weighs half an ounce of a herb to the gram
_METRIC = frozenset({"mg", "g", "kg", "ml", "cl", "dl", "l"})
FAR_LESS = 0.45  # of what the counted pieces weigh: then a weight is of each, not of all


class Weighed(NamedTuple):
    """The mass of a food in a line: edible and as bought, or neither with a fault that says why."""

    mass: Product | None
    purchased: Product | None
    marks: tuple[Mark, ...]
    way: tuple[Way, ...] = ()  # to the edible mass


def weighed(case: Case, *, nth: int = 1) -> Weighed:
    """The mass of a food in the amount its line gives.

    Parameters
    ----------
    case : Case
        The food, its line, tables, measure system and scaling factor.
    nth : int
        Which of several identical amounts of this food this is, from 1.

    Returns
    -------
    Weighed
        Edible and as-bought mass [kg], and marks for what was assumed or is missing.
    """
    if not case.split.quantities:
        return _without_amount(case, nth)
    tries: list[Try] = []
    faults: list[Mark] = []
    for quantity in case.split.quantities:
        found = tried(quantity, case)
        if isinstance(found, Mark):
            faults.append(found)
        else:
            tries.append(found)
    if not tries:
        return Weighed(None, None, (faults[0],))
    chosen, marks = _agreed(tries, case)
    return _masses(chosen, case, nth, marks)


def amount_key(split: Split, food: Food) -> str:
    """What identical amounts have in common: food, size, measures and numbers as written.

    Parameters
    ----------
    split : Split
        The line's parts.
    food : Food
        What its name was understood to be.

    Returns
    -------
    str
        Equal for two lines whose draws would collide.
    """
    written = "/".join([f"{figures(q, split)} {q.measure}" for q in split.quantities])
    return f"{food.id}|{split.size}|{written}"


def _masses(chosen: Try, case: Case, nth: int, marks: tuple[Mark, ...]) -> Weighed:
    tail = f"{chosen.tail}|{nth}"
    parameters = [Parameter(f"measure|{tail}", Lognormal.from_spread(1.0, chosen.spread))]
    quantity = chosen.quantity
    if quantity is not None and quantity.high > quantity.low:
        middle = (quantity.low + quantity.high) / 2
        interval = Uniform(quantity.low / middle, quantity.high / middle)
        parameters.append(Parameter(f"quantity|{tail}", interval))
    edible = case.scales.tables.edible.get(case.food.id)
    share = 1.0 if edible is None or chosen.bought_so else edible.share
    eaten = chosen.kg * share if chosen.as_bought else chosen.kg
    bought = chosen.kg if chosen.as_bought else chosen.kg / share
    drawn, factor = tuple(parameters), case.scales.factor
    mass = Product(eaten * factor, drawn)
    way = chosen.way
    if eaten != chosen.kg and edible is not None:
        way = (*way, Way("edible", share, "", edible.refuse, edible.provenance))
    if factor != 1.0:
        way = (*way, Way("scale", factor))
    purchased = mass if bought == eaten else Product(bought * factor, drawn)
    return Weighed(mass, purchased, marks, way)


def _agreed(tries: list[Try], case: Case) -> tuple[Try, tuple[Mark, ...]]:
    """The amount to use among several ways of saying it, and a doubt where they disagree."""
    if len(tries) == 1:
        return tries[0], tries[0].marks
    chosen = min(tries, key=_trust)
    counts = [one for one in tries if _kind(one) in {"count", "by eye"}]
    if _kind(chosen) == "mass" and counts and "each" not in case.split.flags:
        return _each_or_all(chosen, counts[0], case.food)
    for other in tries:
        if other is chosen or _kind(other) not in {"mass", "volume"}:
            continue
        ratio = max(other.kg, chosen.kg) / min(other.kg, chosen.kg)
        by_volume = "volume" in {_kind(other), _kind(chosen)}
        limit = ONE_BY_VOLUME if by_volume else BOTH_WEIGHED
        if ratio > limit and abs(other.kg - chosen.kg) > LITTLE:
            return chosen, (*chosen.marks, _disagreement(chosen, other, case.food))
    return chosen, chosen.marks


def _disagreement(chosen: Try, other: Try, food: Food) -> Mark:
    one, two = _said_of(chosen), _said_of(other)
    return Mark(
        "doubt",
        "amounts-disagree",
        f"{one} and {two} of {food.name} are not the same amount ({grams(chosen.kg)} against "
        f"{grams(other.kg)}); {one} is used. Strike out the wrong one.",
        (f"{one} {food.name}", f"{two} {food.name}"),
    )


def _each_or_all(weight: Try, count: Try, food: Food) -> tuple[Try, tuple[Mark, ...]]:
    """Read "4 chicken breasts (150 g)": the weight of all, unless that is far less than they are."""
    number = 1.0 if count.quantity is None else (count.quantity.low + count.quantity.high) / 2
    if number <= 1 or weight.kg >= FAR_LESS * count.kg:
        return weight, weight.marks
    low, high = weight.kg, weight.kg * number
    if abs(high - count.kg) >= abs(low - count.kg):
        return weight, weight.marks
    doubt = Mark(
        "doubt",
        "each-or-all",
        f"{_said_of(weight)} is too little for {number:g} of {food.name}, so it is read as the "
        "weight of each. Write “each” or “in all”.",
        (f"{grams(high)} {food.name}", f"{grams(low)} {food.name}"),
    )
    # The count must be in the key: "4 breasts (150 g)" and "6 breasts (150 g)" differ.
    tail = f"{weight.tail} each of {number:g}"
    way = (*weight.way, Way("each", number))
    return weight._replace(kg=high, tail=tail, way=way), (*weight.marks, doubt)


def _trust(one: Try) -> int:
    """Metric weight before other weight before metric volume before other volume before count."""
    measure = "" if one.quantity is None else one.quantity.measure
    metric = measure in _METRIC
    order = {"mass": 1, "volume": 3, "count": 4, "length": 5, "by eye": 6}
    return order[_kind(one)] - metric


def _kind(one: Try) -> str:
    return "count" if one.quantity is None else MEASURES.get(one.quantity.measure, "count")


def _said_of(one: Try) -> str:
    return "" if one.quantity is None else said(one.quantity)


def _without_amount(case: Case, nth: int) -> Weighed:
    food = case.food
    usual = unsaid(food, case.split.flags)
    if usual is None:
        fault = Mark(
            "fault",
            "no-amount",
            f"The line does not say how much {food.name} goes in. Write an amount, such as a "
            "weight or a count.",
        )
        return Weighed(None, None, (fault,))
    note = assumed(
        f"No amount is written: taken as {usual.what}, {grams(usual.kg)}, give or take half."
    )
    chosen = Try(
        quantity=None,
        kg=usual.kg,
        spread=usual.spread,
        as_bought=False,
        tail=f"{food.id}|unsaid|",
        marks=(note,),
        way=(Way("unsaid", usual.kg, "kg", usual.what, ASSUMED),),
    )
    return _masses(chosen, case, nth, chosen.marks)
