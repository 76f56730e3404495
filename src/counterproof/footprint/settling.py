"""What to settle next: the parameters that the spread of a result comes from, in plain words."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

import numpy as np

from counterproof.draws import Parameter, Streams
from counterproof.footprint.factors import RangeFor, Valued
from counterproof.footprint.held import Summed
from counterproof.footprint.items import Item
from counterproof.footprint.model import Settling

LEAST = 0.01
"""Smallest share of the variance worth telling. [1]"""

UNITS = {
    "weighed": frozenset({"mg", "g", "kg", "oz", "lb"}),
    "filled": frozenset(
        {"ml", "cl", "dl", "l", "tsp", "tbsp", "dessertspoon", "cup", "floz", "pint", "quart"}
        | {"gallon", "gill", "shot"}
    ),
    "by eye": frozenset({"handful", "splash", "pinch", "dash", "drizzle", "knob", "drop"}),
    "single": frozenset({"piece"}),
}
"""Measures by the way their amount varies; all others are counted: cloves, sprigs, tins."""

WORDS = {
    "weighed": "how exactly the {name} is weighed",
    "filled": "how full the {measure} of {name}",
    "by eye": "how much a {measure} of {name} is",
    "single": "how big the {name}",
    "counted": "how big the {measure} of {name}",
}
"""What a cook would settle about a measure."""


ACTIVITIES = {
    "pack": "how heavy the {name} is: weigh it empty",
    "material": "what making {name} emits",
    "disposal": "where {name} ends",
    "carriage": "what carriage by {name} emits",
    "distance": "how far the {name} goes",
    "storage": "how full the {name} is",
    "fizz": "fizz: {name}",
    "waste": "how much is wasted: {name}",
}
"""What a cook would settle about an activity, by the first word of a parameter's key."""

ENERGY = "how much energy: "

WEIGH = {
    "weighed": "Weigh the {name} on a finer scale",
    "filled": "Weigh the {name} instead of filling a {measure}",
    "by eye": "Weigh the {name}",
    "single": "Weigh the {name}",
    "counted": "Weigh the {name}",
}
"""What a cook does about a measure."""

DO = {
    "pack": "Weigh the {name} empty and name it under vessels in the kitchen file",
    "storage": "Look how full the {name} is, and how much it takes in a year",
    "waste": "Weigh what is thrown away: {name}",
    "distance": "Say how far it comes: write the kilometres and the mode into the line",
}
"""What a cook does about an activity, by the first word of a parameter's key."""


def meaning(parameter: Parameter, item: Item, range_for: RangeFor) -> str:
    """What a parameter of an item means, in plain words.

    Parameters
    ----------
    parameter : Parameter
        One of the item's.
    item : Item
        The item.
    range_for : RangeFor
        one-purchase or the-average.

    Returns
    -------
    str
        Such as "which white beans" or "how big the onions". Parameters of one meaning are
        settled together.
    """
    kind, *rest = parameter.key.split("|")
    name = item.name
    if kind in ACTIVITIES:
        return ACTIVITIES[kind].format(name=rest[0] if rest else name)
    if item.kind != "line":
        return "which electricity or gas" if kind == "energy" else f"{ENERGY}{name}"
    if kind == "season":
        return f"where and when the {name} was grown"
    if kind in {"factor", "link"}:
        return f"which {name}" if range_for == "one-purchase" else f"what {name} costs on average"
    if kind != "measure" or len(rest) < 2:
        return f"how much {name} goes in"
    way, measure = _measured(rest)
    return WORDS[way].format(name=name, measure=measure)


def _measured(rest: list[str]) -> tuple[str, str]:
    """The way a measure's amount varies, and its name, by the rest of a parameter's key."""
    measure = rest[1].split("/")[0] if len(rest) > 1 else ""
    return next((way for way, units in UNITS.items() if measure in units), "counted"), measure


def remedy(parameter: Parameter, item: Item, range_for: RangeFor) -> str:
    """What a cook does to settle a parameter of an item.

    Parameters
    ----------
    parameter : Parameter
        One of the item's.
    item : Item
        The item.
    range_for : RangeFor
        one-purchase or the-average.

    Returns
    -------
    str
        An order without a full stop; empty where a cook can do nothing.
    """
    kind, *rest = parameter.key.split("|")
    name = item.name
    if kind in ACTIVITIES:
        return DO.get(kind, "").format(name=rest[0] if rest else name)
    if item.kind != "line":
        return (
            "Name the region of the grid" if kind == "energy" else "Read the meter while it cooks"
        )
    if kind == "season":
        return f"Write where the {name} was grown, and in which month"
    if kind in {"factor", "link"}:
        buys = "Ask its grower or maker for a figure and put it into own_factors"
        return buys if range_for == "one-purchase" else ""
    way, measure = _measured(rest if kind == "measure" else [])
    return WEIGH[way].format(name=name.partition(",")[0], measure=measure)


def _slopes(item: Item) -> list[tuple[Parameter, float]]:
    """Slope of the item's expected value in each of its parameters, all others at their mean."""
    amount, worth = item.amount, item.worth
    slopes = [
        (parameter, item.mean / parameter.distribution.mean)
        for parameter in amount.parameters
        if parameter.distribution.mean
    ]
    if not isinstance(worth, Valued):
        return [*slopes, (worth.parameter, amount.mean)]
    ratio = 1.0 if worth.season is None else worth.season.row.ratio
    slopes += [
        (parameter, amount.mean * worth.link.per * ratio * weight)
        for weight, parameter in worth.terms
    ]
    if worth.deviation is not None:
        slopes.append((worth.deviation, amount.mean * worth.whole))
    if worth.season is not None:
        slopes.append((worth.season.parameter, amount.mean * worth.whole / ratio))
    return slopes


def _joined(words: Iterable[str]) -> str:
    """One meaning for a parameter that several items share."""
    said = list(words)
    if len(said) > 1 and all(word.startswith(ENERGY) for word in said):
        return "how much energy the cooking takes"
    return "; ".join(said)


def _moved(by_parameter: Mapping[Parameter, float], streams: Streams) -> float:
    """Variance that one stream makes, by the parameters that it draws and their slopes."""
    if len(by_parameter) == 1:
        ((parameter, slope),) = by_parameter.items()
        return slope**2 * streams.variance(parameter)
    moved = np.zeros(streams.n)
    for parameter, slope in by_parameter.items():
        moved += slope * streams.values(parameter)
    return float(moved.var())


def settle_next(
    whole: Summed, serves: float, streams: Streams, range_for: RangeFor
) -> tuple[Settling, ...]:
    """First-order shares of the variance of a serving, largest first.

    Parameters
    ----------
    whole : Summed
        All that a serving is charged for. [kg CO2e]
    serves : float
        Servings eaten, > 0. [servings]
    streams : Streams
        The draws.
    range_for : RangeFor
        one-purchase or the-average.

    Returns
    -------
    tuple of Settling
        Those of at least 1 %. They sum to less than 1 where parameters multiply. [1]

    Notes
    -----
    First-order share Var(E[Y | x]) / Var(Y). The batch is a sum of products of independent
    parameters, so E[Y | x] is linear in each x with a slope known exactly; only Var(x) comes
    from the draws. Source: Sobol' I. M. (1993), Mathematical Modelling and Computational
    Experiment 1:407–414.
    """
    variance = float(whole.total.var()) * serves**2
    if variance <= 0:
        return ()
    slopes: dict[str, dict[Parameter, float]] = defaultdict(lambda: defaultdict(float))
    words: dict[str, dict[str, None]] = defaultdict(dict)
    does: dict[str, str] = {}
    for item in whole.ordered:
        for parameter, slope in _slopes(item):
            slopes[parameter.key][parameter] += slope
            words[parameter.key][meaning(parameter, item, range_for)] = None
            does.setdefault(parameter.key, remedy(parameter, item, range_for))
    shares: dict[str, float] = defaultdict(float)
    how: dict[str, str] = {}
    for key, by_parameter in slopes.items():
        what = _joined(words[key])
        shares[what] += _moved(by_parameter, streams) / variance
        how[what] = how.get(what) or does[key]
    ranked = sorted(shares.items(), key=lambda pair: (-pair[1], pair[0]))
    return tuple(Settling(what, share, how[what]) for what, share in ranked if share >= LEAST)
