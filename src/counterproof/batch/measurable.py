"""Amounts that people can measure: rounded to spoons, to the scale's step, to halves of an onion.

An amount is never silently rounded away: what is less than a scale or a spoon can measure keeps
its number and gets a mark that says how to measure it all the same.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import floor
from typing import Final, Literal

from counterproof.cups_and_ounces import us_measure, us_weight
from counterproof.marks import Mark
from counterproof.reading.model import Split
from counterproof.units import CONTAINERS, MEASURES, OUNCE, System, measure_named, unit_kg, unit_ml

Measuring = Literal["as written", "metric", "us"]

LEAST_STEPS: Final = 2.0
"""Steps of a scale from which a weight is measured on it: assumed; below, the step is more than
half of it. [1]"""
LEAST_SPOON: Final = 0.125
"""Smallest spoon that is sold, an eighth of a teaspoon: common practice. [teaspoons]"""
SPOONED: Final = 60.0
"""Volume up to which spoons measure better than a jug: assumed, four tablespoons. [mL]"""
FAR: Final = 0.05
"""Share by which a count may be rounded before a weight says it better: assumed. [1]"""
BY_EYE: Final = 0.3
"""The same of what is taken by eye: assumed. [1]"""
MANY: Final = 10.0
"""From so many on, whole ones are counted: assumed. [1]"""
LEAST_COUNT: Final = 0.9
"""Less than about one cannot be counted to what rounding may change: assumed. [1]"""
PACK: Final = 0.1
"""Share by which packs may be rounded before their contents are measured out: assumed. [1]"""
_SIGNS: Final = {0.25: "¼", 1 / 3: "⅓", 0.5: "½", 2 / 3: "⅔", 0.75: "¾"}
_SPOONS: Final = frozenset({"tsp", "tbsp", "dessertspoon", "pinch", "dash"})
_BY_FINGERS: Final = frozenset({"pinch", "dash"})
ENOUGH_FOR_A_SPOON: Final = 3.5
"""So many pinches are spooned: assumed. [1]"""
_CUPS: Final = frozenset({"cup", "floz", "pint", "quart", "gallon", "gill", "shot"})
_WORDS: Final = {"l": "litres", "floz": "fl oz", "cm-piece": "cm piece"}
_SMALL_PIECE: Final = 0.01  # [kg]; lighter pieces are counted whole: pods, cloves, leaves


@dataclass(frozen=True, slots=True)
class Measurable:
    """An amount in words that a reader can measure.

    Parameters
    ----------
    text : str
        Such as "1.31 kg", "2½ tbsp", "3"; "" where the line has no amount.
    weighed : bool
        Whether it belongs behind the name, as a weight of what goes into the pot.
    mark : Mark or None
        Where it is less than can be measured.
    """

    text: str
    weighed: bool = False
    mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """A line's amount that is to be scaled.

    Parameters
    ----------
    split : Split
        The line's parts.
    factor : float
        How many times the recipe, > 0. [1]
    kg : float or None
        What goes into the pot of it then. [kg]
    liquid : bool
        Whether it is poured.
    """

    split: Split
    factor: float
    kg: float | None
    liquid: bool = False

    @property
    def low(self) -> float:
        """Lower end of the first amount, scaled; packs included. [its measure]"""
        return self.split.quantities[0].low * self.split.packs * self.factor

    @property
    def high(self) -> float:
        """Upper end. [its measure]"""
        return self.split.quantities[0].high * self.split.packs * self.factor


def measurable(
    amount: Amount, step: float, system: System, measuring: Measuring, *, by_weight: bool = False
) -> Measurable:
    """An amount that people can measure.

    Parameters
    ----------
    amount : Amount
        What is to be measured.
    step : float
        The scale's step. [kg]
    system : System
        Whose spoons and cups.
    measuring : Measuring
        In the cook's own measures, in metric, or in those of a US kitchen.
    by_weight : bool
        Whether only a weight in grams will do: a ratio hangs on it, and ounces are too coarse.

    Returns
    -------
    Measurable
        Its words; with a mark where neither scale nor spoon can measure it.
    """
    split, kg = amount.split, amount.kg
    if not split.quantities:
        return Measurable("")
    kind = MEASURES.get(split.quantities[0].measure, "count")
    if split.container in CONTAINERS and kind in {"mass", "volume"} and _in_packs(amount):
        return Measurable(_packs(amount))
    if kg is not None and ("weighed" in split.flags or (by_weight and kind != "mass")):
        return _behind(kg, step, "metric" if by_weight else measuring)
    if kind == "mass":
        return _by_mass(amount, step, "metric" if by_weight else measuring)
    if kind == "volume":
        return _by_volume(amount, step, system, measuring)
    return _by_hand(amount, step, measuring)


def _behind(kg: float, step: float, measuring: Measuring) -> Measurable:
    """A weight of what goes into the pot, behind the name."""
    text, mark = _weight(kg, step, measuring)
    return Measurable(text, weighed=True, mark=mark)


def _by_hand(amount: Amount, step: float, measuring: Measuring) -> Measurable:
    """What is counted, cut to a length or taken by eye."""
    measure = amount.split.quantities[0].measure
    kind = MEASURES.get(measure, "count")
    if kind == "length":
        return Measurable(f"{_halves(amount.high)} {measure}")
    if kind == "by eye":
        return _by_eye(amount, step, measuring)
    return _by_count(amount, step, measuring)


def _by_mass(amount: Amount, step: float, measuring: Measuring) -> Measurable:
    unit = unit_kg(amount.split.quantities[0].measure)
    ends = (amount.low * unit, amount.high * unit)
    us = measuring == "us" or (
        measuring == "as written" and amount.split.quantities[0].measure in {"oz", "lb"}
    )
    told = [_weight(end, step, "us" if us else "metric") for end in dict.fromkeys(ends)]
    mark = next((mark for _, mark in told if mark is not None), None)
    return Measurable(_joined([text for text, _ in told]), mark=mark)


def _joined(ends: list[str]) -> str:
    """Two ends as one, such as 650 and 700 g as "650–700 g"."""
    if len(ends) < 2 or ends[0] == ends[1]:
        return ends[0]
    first, unit = ends[0].rpartition(" ")[::2]
    if unit and ends[1].endswith(f" {unit}") and " " not in first:
        return f"{first}–{ends[1]}"
    return "–".join(ends)


def _weight(kg: float, step: float, measuring: Measuring) -> tuple[str, Mark | None]:
    """A weight to the scale's step, or coarser where that is still within half a per cent."""
    if measuring == "us":
        said = us_weight(kg)
        if said:
            return said, None
        mark = None if kg >= LEAST_STEPS * step else _too_little(kg, step)
        return f"{max(round(kg / OUNCE, 1), 0.1):g} oz", mark
    coarse = next(
        (by for by, above in ((0.01, 2.0), (0.005, 1.0), (0.001, 0.0)) if kg >= above), step
    )
    by = max(step, coarse)
    if kg < LEAST_STEPS * step:
        return f"{float(f'{1000 * kg:.2g}'):g} g", _too_little(kg, step)
    rounded = by * floor(kg / by + 0.5)
    if rounded >= 1.0 - 1e-9:
        return f"{rounded:.3f}".rstrip("0").rstrip(".") + " kg", None
    return f"{round(1000 * rounded, 3):g} g", None


def _too_little(kg: float, step: float) -> Mark:
    times = next((n for n in (10, 20, 50, 100) if kg * n >= 10 * step), 100)
    return Mark(
        "doubt",
        "too-little-to-measure",
        f"{float(f'{1000 * kg:.2g}'):g} g is less than a scale to {1000 * step:g} g can measure. Use a "
        f"finer scale or a spoon, or weigh {times} times as much, mix it well and take one part of "
        f"{times}.",
    )


def _by_volume(amount: Amount, step: float, system: System, measuring: Measuring) -> Measurable:
    measure = amount.split.quantities[0].measure
    ends = list(dict.fromkeys((amount.low, amount.high)))
    ml = [end * unit_ml(measure, system) for end in ends]
    cups = measure in _CUPS and measuring != "metric"
    if measure in _BY_FINGERS and ends[-1] < ENOUGH_FOR_A_SPOON:
        rounded = max(floor(2.0 * ends[-1] + 0.5) / 2.0, 0.5)
        mark = _less_than_a_spoon(amount, step) if ends[-1] < LEAST_COUNT else None
        return Measurable(f"{_number(rounded)} {_named(measure, rounded)}", mark=mark)
    if measuring == "us" or (cups and system == "us"):
        return _us_volume(amount, ml, step)
    if measuring == "metric" and measure in _CUPS and not amount.liquid and amount.kg is not None:
        return _behind(amount.kg, step, "metric")
    if cups:
        return Measurable(f"{'–'.join(map(_quarters, ends))} {_named(measure, ends[-1])}")
    if measuring == "metric":
        system = "metric"
    if max(ml) <= SPOONED and (measure in _SPOONS or max(ml) < SPOONED / 4):
        return _spoons(amount, ml, step, system)
    return Measurable(_joined([_jug(one) for one in ml]))


def _us_volume(amount: Amount, ml: list[float], step: float) -> Measurable:
    told = [us_measure(one) for one in _sayable(ml, us_measure)]
    if all(told):
        return Measurable(_joined(told))
    few = f"{ml[-1] / unit_ml('tsp', 'us'):.2g} tsp"
    return Measurable(few, mark=_less_than_a_spoon(amount, step))


def _spoons(amount: Amount, ml: list[float], step: float, system: System) -> Measurable:
    tea = unit_ml("tsp", system)
    table = unit_ml("tbsp", system)
    if max(ml) < LEAST_SPOON * tea * 0.9:
        return Measurable(f"{max(ml) / tea:.2g} tsp", mark=_less_than_a_spoon(amount, step))

    def said(one: float) -> str:
        if one < table * 0.95:
            finest = LEAST_SPOON if one < tea / 2 else 0.25
            return f"{_number(max(finest * floor(one / tea / finest + 0.5), finest))} tsp"
        whole = floor(2.0 * one / table + 1e-9) / 2.0
        rest = floor(2.0 * (one - whole * table) / tea + 0.5) / 2.0
        lead = f"{_number(whole)} tbsp"
        return f"{lead} + {_number(rest)} tsp" if rest else lead

    return Measurable(_joined([said(one) for one in _sayable(ml, said)]))


def _sayable(ml: list[float], said: Callable[[float], str]) -> list[float]:
    """Both ends of a range where one measure says both; else its middle."""
    told = [said(one) for one in ml]
    measures = {text.rpartition(" ")[2] for text in told}
    if len(told) < 2 or (len(measures) == 1 and not any("+" in text for text in told)):
        return ml
    return [sum(ml) / len(ml)]


def _less_than_a_spoon(amount: Amount, step: float) -> Mark:
    weight = "" if amount.kg is None else f", {float(f'{1000 * amount.kg:.2g}'):g} g"
    return Mark(
        "doubt",
        "too-little-to-measure",
        f"This is less than an eighth of a teaspoon{weight}, and no spoon or scale to {1000 * step:g} g "
        "measures it. Take a pinch, or mix a spoonful into some of the recipe and take a part of it.",
    )


def _jug(ml: float) -> str:
    by = next(by for by, above in ((50.0, 2000.0), (10.0, 500.0), (5.0, 0.0)) if ml >= above)
    rounded = by * floor(ml / by + 0.5)
    if rounded >= 1000.0:
        return f"{rounded / 1000.0:.3f}".rstrip("0").rstrip(".") + " litres"
    return f"{rounded:.0f} ml"


def _by_eye(amount: Amount, step: float, measuring: Measuring) -> Measurable:
    """A handful does not scale by hand: where it can be weighed, it becomes a weight."""
    number = 0.5 * (amount.low + amount.high)
    rounded = max(floor(2.0 * number + 0.5) / 2.0, 0.5)
    weighable = amount.kg is not None and amount.kg >= LEAST_STEPS * step
    if amount.kg is not None and (weighable or abs(rounded - number) > BY_EYE * number):
        return _behind(amount.kg, step, measuring)
    return Measurable(f"{_number(rounded)} {amount.split.quantities[0].measure}")


def _by_count(amount: Amount, step: float, measuring: Measuring) -> Measurable:
    measure = amount.split.quantities[0].measure
    number = 0.5 * (amount.low + amount.high)
    each = None if amount.kg is None or number <= 0.0 else amount.kg / number
    rounded = _counted(number, small=each is not None and each < _SMALL_PIECE)
    apart = abs(rounded - number) > FAR * number
    if apart and amount.kg is not None and amount.kg >= LEAST_STEPS * step:
        return _behind(amount.kg, step, measuring)
    if rounded <= 0.0 or (apart and number < LEAST_COUNT):
        few = f"{_number(float(f'{number:.2g}'))} {'' if measure == 'piece' else measure}".strip()
        return Measurable(few, mark=_part_of_one(number))
    name = (
        "" if measure == "piece" or _says(amount.split, measure) else f" {_named(measure, rounded)}"
    )
    return Measurable(f"{_number(rounded)}{name}")


def _says(split: Split, measure: str) -> bool:
    """Whether the name says what is counted: "3 celery sticks"."""
    names = [
        part.text.split()[-1] for part in split.parts if part.kind == "name" and part.text.split()
    ]
    return any(measure_named(name) == measure for name in names)


def _counted(number: float, *, small: bool) -> float:
    """Whole ones where they are small or many, halves of few, quarters of one."""
    if small or number >= MANY:
        return float(floor(number + 0.5))
    if number >= 1.0:
        return floor(2.0 * number + 0.5) / 2.0
    return max(floor(4.0 * number + 0.5) / 4.0, 0.25)


def _in_packs(amount: Amount) -> bool:
    """Whether whole, half or quarter packs come near; else their contents are measured."""
    number = amount.split.packs * amount.factor
    return abs(_counted(number, small=False) - number) <= PACK * number


def _packs(amount: Amount) -> str:
    """Tins stay tins: whole ones and halves, each of its own size."""
    split = amount.split
    number = split.packs * amount.factor
    rounded = _counted(number, small=False)
    size = split.quantities[0]
    return f"{_number(rounded)} x {size.low:g} {size.measure} {_named(split.container, rounded)}"


def _part_of_one(number: float) -> Mark:
    return Mark(
        "doubt",
        "too-little-to-measure",
        f"{number:.2g} of one cannot be counted out. Weigh it, or make a larger amount.",
    )


def _named(measure: str, number: float) -> str:
    word = _WORDS.get(measure, measure)
    if measure in {"tsp", "tbsp", "floz", "l", "ml", "cl", "dl"} or number <= 1.0:
        return word
    if word == "leaf":
        return "leaves"
    if word == "loaf":
        return "loaves"
    return f"{word}es" if word.endswith(("ch", "sh", "s", "x")) else f"{word}s"


def _halves(number: float) -> str:
    return _number(max(floor(2.0 * number + 0.5) / 2.0, 0.5))


def _quarters(number: float) -> str:
    return _number(max(floor(4.0 * number + 0.5) / 4.0, 0.25))


def _number(value: float) -> str:
    whole = int(value)
    rest = value - whole
    sign = next((sign for share, sign in _SIGNS.items() if abs(rest - share) < 1e-6), "")
    if sign:
        return f"{whole}{sign}" if whole else sign
    if abs(rest - 0.125) < 1e-6:
        return f"{whole}⅛" if whole else "⅛"
    return f"{value:g}"
