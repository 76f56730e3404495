"""From an amount and a food to a mass, with the range of the measure.

Every mass is a plain number of kilograms times keyed parameters with mean 1: the measure's own
spread and, where the cook wrote one, the interval of the quantity. Keys say what was measured
(food, measure, size, quantity as written), never where the line stands, and scaling only changes
the plain number. Spreads: method page, section 2.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterproof.draws import Lognormal, Parameter, Product, Uniform
from counterproof.marks import Mark
from counterproof.reading.by_eye import ALSO_CALLED, EYE_SPREAD, Guess, guess, unsaid
from counterproof.reading.spellings import words
from counterproof.units import CONTAINERS, MEASURES, unit_kg, unit_m, unit_ml

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.reading.model import Quantity, Split
    from counterproof.rows import Food, HouseholdWeight, Tables
    from counterproof.units import System

WEIGHED = 0.02
LIQUID_BY_VOLUME = 0.06
SOLID_BY_VOLUME = 0.15
COUNTED = 0.20
# How far two ways of saying an amount may lie apart: cooks round ounces to 25 g and pounds to
# 500 g, and a spoonful of a powder is uncertain by half.
BOTH_WEIGHED = 1.35
ONE_BY_VOLUME = 2.0
MANY = 50  # a bare number from here on, of something with no weight by the piece, is in grams
SIZED = {"small": 0.7, "medium": 1.0, "large": 1.4}  # of the middling piece; assumed
_SIZES = {
    "extra-large": "large", "medium-large": "medium", "medium-small": "medium",
    "even-sized": "medium", "fist-sized": "medium",
}  # fmt: skip
_KG_PER_CM = {"spices": 0.0004, "": 0.006}  # cinnamon bark; roots such as ginger: assumed
_LITTLE_VOLUMES = frozenset({"pinch", "dash"})
# Written before the name (or as "… weight"), these words say that the weight is already without
# what is thrown away; the second word is found in the table's `refuse`.
_WITHOUT = {
    "boneless": "bone", "shelled": "shell", "shucked": "shell", "pitted": "stone",
    "stoned": "stone", "peeled": "peel", "podded": "pod", "filleted": "bone", "hulled": "hull",
}  # fmt: skip
_BOUGHT_SO = frozenset({"boneless", "shelled", "shucked", "pitted", "filleted"})
_NET = re.compile(
    r"\b(?:drained|peeled|prepared|trimmed|shelled|cooked|boned|net|podded)\s+weight\b"
)
_JUICE_SHARE = 0.40  # of a citrus fruit as bought, where no household row gives the yield: assumed
_ZEST_SHARE = 0.05  # likewise


@dataclass(frozen=True, slots=True)
class Weighed:
    """The mass of a food in a line: edible and as bought, or neither with a fault that says why."""

    mass: Product | None
    purchased: Product | None
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class _Try:
    """One written amount turned into kilograms."""

    quantity: Quantity | None
    kg: float  # nominal, middle of the interval, packs included
    spread: float
    as_bought: bool
    tail: str  # of the draw key
    marks: tuple[Mark, ...] = ()
    bought_so: bool = False  # bought without its refuse: as bought is what is eaten


@dataclass(frozen=True, slots=True)
class Scales:
    """What weighing needs besides the line: tables, whose cups, and the plain factor."""

    tables: Tables
    system: System
    factor: float = 1.0


def weighed(
    split: Split, food: Food, scales: Scales, *, nth: int = 1, fruit: Food | None = None
) -> Weighed:
    """The mass of a food in the amount the line gives.

    Parameters
    ----------
    split : Split
        The line's parts.
    food : Food
        What its name was understood to be.
    scales : Scales
        Tables, measure system and scaling factor.
    nth : int
        Which of several identical amounts of this food this is, from 1.
    fruit : Food or None
        Where the line says "juice of" or "zest of": the whole fruit that is counted.

    Returns
    -------
    Weighed
        Edible and as-bought mass [kg], and marks for what was assumed or is missing.
    """
    if not split.quantities:
        return _without_amount(split, food, scales, nth)
    tries: list[_Try] = []
    faults: list[Mark] = []
    for quantity in split.quantities:
        found = _tried(quantity, split, food, scales, fruit)
        if isinstance(found, Mark):
            faults.append(found)
        else:
            tries.append(found)
    if not tries:
        return Weighed(None, None, (faults[0],))
    chosen, marks = _agreed(tries, split, food)
    return _masses(chosen, food, scales, nth, marks)


def amount_key(split: Split, food: Food) -> str:
    """What identical amounts have in common: food, measures and numbers as written.

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
    written = "/".join(f"{_figures(q, split)} {q.measure}" for q in split.quantities)
    return f"{food.id}|{split.size}|{written}"


def _masses(chosen: _Try, food: Food, scales: Scales, nth: int, marks: tuple[Mark, ...]) -> Weighed:
    tail = f"{chosen.tail}|{nth}"
    parameters = [Parameter(f"measure|{tail}", Lognormal.from_spread(1.0, chosen.spread))]
    quantity = chosen.quantity
    if quantity is not None and quantity.high > quantity.low:
        middle = (quantity.low + quantity.high) / 2
        interval = Uniform(quantity.low / middle, quantity.high / middle)
        parameters.append(Parameter(f"quantity|{tail}", interval))
    edible = scales.tables.edible.get(food.id)
    share = 1.0 if edible is None or chosen.bought_so else edible.share
    eaten, bought = (
        (chosen.kg * share, chosen.kg) if chosen.as_bought else (chosen.kg, chosen.kg / share)
    )
    drawn = tuple(parameters)
    return Weighed(
        Product(eaten, drawn).scaled(scales.factor),
        Product(bought, drawn).scaled(scales.factor),
        marks,
    )


def _figures(quantity: Quantity, split: Split) -> str:
    packs = f"{split.packs:g}x" if split.packs != 1 else ""
    if quantity.high > quantity.low:
        return f"{packs}{quantity.low:g}-{quantity.high:g}"
    return f"{packs}{quantity.low:g}"


def _tried(
    quantity: Quantity, split: Split, food: Food, scales: Scales, fruit: Food | None
) -> _Try | Mark:
    kind = MEASURES.get(quantity.measure, "count")
    number = (quantity.low + quantity.high) / 2 * (split.packs or 1.0)
    tail = f"{food.id}|{quantity.measure}|{_figures(quantity, split)}"
    if number <= 0:
        return Mark(
            "fault", "no-amount", f"The amount of {food.name} is zero. Write how much goes in."
        )
    if kind == "mass":
        return _by_weight(quantity, number, tail, split, food, scales)
    if kind == "volume":
        return _by_volume(quantity, number, tail, split, food, scales)
    if kind == "length":
        return _by_length(quantity, number, tail, food, scales)
    return _by_count(quantity, number, tail, split, food, scales, fruit)


def _by_weight(
    quantity: Quantity, number: float, tail: str, split: Split, food: Food, scales: Scales
) -> _Try:
    net, bought_so = _net_weight(split, food, scales.tables)
    return _Try(
        quantity,
        number * unit_kg(quantity.measure),
        WEIGHED,
        as_bought=not net,
        tail=tail,
        bought_so=bought_so,
    )


def _net_weight(split: Split, food: Food, tables: Tables) -> tuple[bool, bool]:
    """Whether a written weight is what is eaten, and whether the food is bought that way."""
    edible = tables.edible.get(food.id)
    if edible is None or edible.share >= 1:
        return False, False
    text = split.text.lower()
    if "drained weight" in split.flags or _NET.search(text):
        return True, False
    if split.container in CONTAINERS:
        return False, False
    name = split.name.lower()
    before = text[: text.find(name)] if name and name in text else ""
    for word, refuse in _WITHOUT.items():
        if word in text and refuse in edible.refuse and (word in before or word in name):
            return True, word in _BOUGHT_SO
    return False, False


def _by_volume(
    quantity: Quantity, number: float, tail: str, split: Split, food: Food, scales: Scales
) -> _Try | Mark:
    litres = number * unit_ml(quantity.measure, scales.system) / 1000
    density = _density(split, food, scales.tables)
    spread = LIQUID_BY_VOLUME if food.kind == "liquid" else SOLID_BY_VOLUME
    if quantity.measure in _LITTLE_VOLUMES:
        spread = EYE_SPREAD
    if density is not None:
        return _Try(quantity, litres * density, spread, as_bought=False, tail=tail)
    if food.kind == "liquid":
        note = _assumed(
            f"No density is known for {food.name}: taken as that of water, 1 kg a litre."
        )
        return _Try(quantity, litres, spread, as_bought=False, tail=tail, marks=(note,))
    little = guess(food, quantity.measure)
    if little is not None:
        return _guessed(quantity, number, tail, little)
    return Mark(
        "fault",
        "no-density",
        f"No density is known for {food.name}, so {_said(quantity)} cannot become grams. "
        "Write a weight into the line.",
    )


def _density(split: Split, food: Food, tables: Tables) -> float | None:
    rows = tables.densities.get(food.id, ())
    if rows:
        forms = {row.form: row.kg_per_litre for row in rows}
        if len(forms) > 1:
            said = words(f"{split.preparation} {split.name}")
            for form in sorted(forms):
                if form and set(words(form)) <= set(said):
                    return forms[form]
        return forms.get("", rows[0].kg_per_litre)
    for row in tables.household.get(food.id, ()):
        if MEASURES.get(row.measure) == "volume" and row.measure not in _LITTLE_VOLUMES:
            return row.kg / unit_ml(row.measure, "us") * 1000
    return None


def _by_length(quantity: Quantity, number: float, tail: str, food: Food, scales: Scales) -> _Try:
    centimetres = number * unit_m(quantity.measure) * 100
    row = _row(scales.tables.household.get(food.id, ()), "cm-piece", "", ())
    if row is not None:
        spread = COUNTED if row.spread is None else row.spread
        return _Try(
            quantity, centimetres * row.kg, max(spread, 0.3), as_bought=row.as_bought, tail=tail
        )
    kg = _KG_PER_CM.get(food.food_class, _KG_PER_CM[""])
    note = _assumed(f"A centimetre of {food.name} is taken as {kg * 1000:g} g.")
    return _Try(quantity, centimetres * kg, 0.4, as_bought=False, tail=tail, marks=(note,))


def _by_count(
    quantity: Quantity,
    number: float,
    tail: str,
    split: Split,
    food: Food,
    scales: Scales,
    fruit: Food | None,
) -> _Try | Mark:
    measure, size = quantity.measure, _SIZES.get(split.size, split.size)
    if size in {"thumb-sized", "finger-sized"} and measure == "piece":
        measure, size = "thumb", ""
    if size not in SIZED:
        size = ""
    if size:
        tail = f"{food.id}|{measure}/{size}|{_figures(quantity, split)}"
    rows = scales.tables.household.get(food.id, ())
    said = words(f"{split.preparation} {split.name}") if rows else ()
    if fruit is not None and fruit.id != food.id:
        return _from_fruit(quantity, number, tail, food, scales, fruit, size)
    asked = [food.drawn_measure] if measure == "piece" and food.drawn_measure else []
    found = _counted(rows, [*asked, measure], size, said)
    if found is None and measure != "piece":
        usual = guess(food, measure)
        if usual is not None:
            return _guessed(quantity, number, tail, usual)
    found = found or _counted(rows, ALSO_CALLED.get(measure, ()), size, said)
    if found is not None:
        kg, as_bought, spread, marks = found
        marks = tuple(_assumed(f"{food.name}: {mark}") for mark in marks)
        return _Try(quantity, number * kg, spread, as_bought=as_bought, tail=tail, marks=marks)
    for name in (*asked, measure):
        usual = guess(food, name)
        if usual is not None:
            return _guessed(quantity, number, tail, usual)
    if measure == "piece" and number >= MANY:
        doubt = Mark(
            "doubt",
            "unit-missing",
            f"{number:g} {food.name} is too many for a count: read as grams. Write the unit.",
            (f"{number:g} g {food.name}", f"{number:g} ml {food.name}"),
        )
        return _Try(quantity, number / 1000, COUNTED, as_bought=True, tail=tail, marks=(doubt,))
    return Mark(
        "fault",
        "no-weight",
        f"No weight is known for {_said(quantity)} of {food.name}. Give a weight, such as “200 g”.",
    )


def _counted(
    rows: tuple[HouseholdWeight, ...], measures: Iterable[str], size: str, said: tuple[str, ...]
) -> tuple[float, bool, float, tuple[str, ...]] | None:
    """Kilograms of one, whether as bought, spread and what was assumed; None without a row."""
    for measure in measures:
        row = _row(rows, measure, size, said)
        if row is None:
            continue
        spread = row.spread if row.spread is not None else COUNTED
        if MEASURES.get(measure) == "by eye":
            spread = EYE_SPREAD
        if not size or row.size == size or SIZED[size] == SIZED.get(row.size, 1.0):
            return row.kg, row.as_bought, spread, ()
        times = SIZED[size] / SIZED.get(row.size, 1.0)
        said_size = f"a {size} one is taken as {times:.2g} times the usual {_grams(row.kg)}."
        return row.kg * times, row.as_bought, spread, (said_size,)
    return None


def _from_fruit(
    quantity: Quantity,
    number: float,
    tail: str,
    food: Food,
    scales: Scales,
    fruit: Food,
    size: str,
) -> _Try | Mark:
    """The juice or zest of counted fruit: by the table's yield, else by an assumed share."""
    own = _row(scales.tables.household.get(food.id, ()), "piece", size, ())
    if own is not None:
        spread = own.spread if own.spread is not None else COUNTED
        return _Try(quantity, number * own.kg, spread, as_bought=False, tail=tail)
    whole = _row(scales.tables.household.get(fruit.id, ()), "piece", size, ())
    if whole is None:
        return Mark(
            "fault",
            "no-weight",
            f"No weight is known for one {fruit.name}, so its {food.name} cannot be weighed. "
            "Give the juice in millilitres or the zest in grams.",
        )
    edible = scales.tables.edible.get(fruit.id)
    bought = whole.kg if whole.as_bought or edible is None else whole.kg / edible.share
    share = _ZEST_SHARE if {"zest", "peel", "rind"} & set(words(food.name)) else _JUICE_SHARE
    note = _assumed(
        f"One {fruit.name} is taken to give {bought * share * 1000:.2g} g of {food.name}, "
        f"{share:.0%} of its weight."
    )
    return _Try(quantity, number * bought * share, 0.3, as_bought=False, tail=tail, marks=(note,))


def _row(
    rows: tuple[HouseholdWeight, ...], measure: str, size: str, said: tuple[str, ...]
) -> HouseholdWeight | None:
    """The household weight that fits best: form said in the line first, then size."""
    fitting = [row for row in rows if row.measure == measure]
    if not fitting:
        return None
    if len(fitting) == 1:
        return fitting[0]
    sizes = (size, "", "medium", "large", "small") if size else ("", "medium", "large", "small")

    def rank(row: HouseholdWeight) -> tuple[int, int]:
        form = 1 if not row.form else 0 if set(words(row.form)) <= set(said) else 2
        return form, sizes.index(row.size) if row.size in sizes else len(sizes)

    return min(fitting, key=rank)


def _guessed(quantity: Quantity | None, number: float, tail: str, usual: Guess) -> _Try:
    note = _assumed(f"The weight is assumed: {usual.what}, {_grams(usual.kg)}.")
    return _Try(quantity, number * usual.kg, usual.spread, usual.as_bought, tail, (note,))


def _agreed(tries: list[_Try], split: Split, food: Food) -> tuple[_Try, tuple[Mark, ...]]:
    """The amount to use among several ways of saying it, and a doubt where they disagree."""
    if len(tries) == 1:
        return tries[0], tries[0].marks
    chosen = min(tries, key=_trust)
    weight = chosen if _kind(chosen) == "mass" else None
    counts = [one for one in tries if _kind(one) in {"count", "by eye"}]
    if weight is not None and counts and "each" not in split.flags:
        return _each_or_all(weight, counts[0], food)
    for other in tries:
        if other is chosen or _kind(other) not in {"mass", "volume"}:
            continue
        ratio = max(other.kg, chosen.kg) / min(other.kg, chosen.kg)
        by_volume = "volume" in {_kind(other), _kind(chosen)}
        if ratio > (ONE_BY_VOLUME if by_volume else BOTH_WEIGHED):
            return chosen, (
                *chosen.marks,
                Mark(
                    "doubt",
                    "amounts-disagree",
                    f"{_said_of(chosen)} and {_said_of(other)} of {food.name} are not the same "
                    f"amount ({_grams(chosen.kg)} against {_grams(other.kg)}); the first is used. "
                    "Strike out the wrong one.",
                    (
                        f"{_said_of(chosen)} {food.name}",
                        f"{_said_of(other)} {food.name}",
                    ),
                ),
            )
    return chosen, chosen.marks


def _each_or_all(weight: _Try, count: _Try, food: Food) -> tuple[_Try, tuple[Mark, ...]]:
    """ "4 chicken breasts (150 g)": the weight of all, unless that is far less than they weigh."""
    number = 1.0 if count.quantity is None else (count.quantity.low + count.quantity.high) / 2
    if number <= 1 or weight.kg >= 0.45 * count.kg:
        return weight, weight.marks
    low, high = weight.kg, weight.kg * number
    if abs(high - count.kg) >= abs(low - count.kg):
        return weight, weight.marks
    each = replace(weight, kg=high)
    doubt = Mark(
        "doubt",
        "each-or-all",
        f"{_said_of(weight)} is too little for {number:g} of {food.name}, so it is read as the "
        "weight of each. Write “each” or “in all”.",
        (f"{_grams(high)} {food.name}", f"{_grams(low)} {food.name}"),
    )
    return each, (*weight.marks, doubt)


def _trust(one: _Try) -> int:
    """Metric weight before other weight before volume before count."""
    if one.quantity is None:
        return 9
    if one.quantity.measure in {"g", "kg", "mg"}:
        return 0
    return {"mass": 1, "volume": 2, "count": 3, "by eye": 5, "length": 4}[_kind(one)]


def _kind(one: _Try) -> str:
    return "count" if one.quantity is None else MEASURES.get(one.quantity.measure, "count")


def _without_amount(split: Split, food: Food, scales: Scales, nth: int) -> Weighed:
    usual = unsaid(food, split.flags)
    if usual is None:
        return Weighed(
            None,
            None,
            (
                Mark(
                    "fault",
                    "no-amount",
                    f"The line does not say how much {food.name} goes in. Write an amount, such "
                    "as a weight or a count.",
                ),
            ),
        )
    note = _assumed(
        f"No amount is written: taken as {usual.what}, {_grams(usual.kg)}, give or take half."
    )
    chosen = _Try(
        None, usual.kg, usual.spread, as_bought=False, tail=f"{food.id}|unsaid|", marks=(note,)
    )
    return _masses(chosen, food, scales, nth, chosen.marks)


def _assumed(message: str) -> Mark:
    return Mark("note", "assumed-weight", message)


def _grams(kg: float) -> str:
    return f"{kg:.3g} kg" if kg >= 1 else f"{kg * 1000:.2g} g" if kg < 0.1 else f"{kg * 1000:.0f} g"


def _said(quantity: Quantity) -> str:
    number = f"{quantity.low:.3g}"
    if quantity.high > quantity.low:
        number += f"–{quantity.high:.3g}"
    return number if quantity.measure == "piece" else f"{number} {quantity.measure}"


def _said_of(one: _Try) -> str:
    return "" if one.quantity is None else _said(one.quantity)
