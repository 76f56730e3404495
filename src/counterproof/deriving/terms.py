"""The terms of a working: ways, parameters and plain numbers, put in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import exp, hypot, isclose
from typing import Final

import numpy as np

from counterproof.draws import Distribution, Lognormal, Parameter, Product, Range
from counterproof.proof import Term
from counterproof.provenance import Provenance
from counterproof.sourced import Sourced
from counterproof.units import MEASURES
from counterproof.ways import Way, along

AGREES: Final = 1e-9
"""Relative difference below which a working is the number it leads to: rounding of floats. [1]"""

SHARE: Final = "share"
"""Unit of a number from 0 to 1 that people read in per cent."""

_SHARES: Final = frozenset({"edible", "given", "share of", "efficiency", "filled", "left in it"})
"""Kinds of ways that are shares."""

_NORMAL_95: Final = 1.6448536269514722
"""95th percentile of the standard normal distribution. [1]"""

_ENDS: Final = np.array([0.05, 0.5, 0.95])

_WORDS: Final = {
    "written": "the amount as written",
    "packs": "how many of them",
    "fullness": "how full the measure is",
    "unit": "what one {what} is",
    "density": "density of {what}",
    "piece": "what one weighs: {what}",
    "centimetre": "what a centimetre of {what} weighs",
    "size": "{what} against the usual size",
    "given": "the part that is {what}",
    "edible": "what is left without {what}",
    "scale": "scaled to the servings asked for",
    "each": "the weight is of each: how many there are",
    "unsaid": "no amount is written: {what}",
    "shared": "shared among so many foods of the line",
    "share of": "as a share of the weight of {what}",
    "to cover": "what is taken to cover the rest",
    "level": "{what}, by pot and packing",
    "as much as": "as much as the serving it is set against",
    "heat": "heat that has to get into it, losses on the way included",
    "kept hot": "heat that leaves the pot while it is kept hot",
    "frying": "heat into pan and food",
    "efficiency": "efficiency of {what}",
    "power": "power of the {what}",
    "an hour": "minutes in an hour",
    "preheating": "to heat up the empty oven ({what})",
    "oven hot": "to keep the oven hot ({what})",
    "oven load": "heat the food takes up in the oven, by its efficiency",
    "dishes": "dishes that share the {what}",
    "a year": "electricity of the {what} in a year",
    "days": "{what} of the 365 days of a year",
    "kept": "what is kept",
    "inside": "what the {what} holds",
    "filled": "share of the {what} that is filled",
    "pieces": "how many: {what}",
    "part": "mass of the {what}",
    "uses": "how often one is used",
    "tonnes": "what is carried",
    "kilometres": "how far, by {what}",
    "thrown away": "{what}",
    "gas": "gas taken for a kilogram of water",
    "left in it": "share of a cylinder's gas that comes out of it",
    "of its life": "mass of {what} over the gas of all its fillings",
    "made of": "mass of the {what}",
    "life": "litres the {what} makes in its life",
    "liquefying": "electricity to clean and liquefy it",
    "amount": "the amount of the whole batch",
}

_PARAMETERS: Final = {
    "measure": "how far the measure may be off",
    "quantity": "within the range as written, about its middle",
    "minutes": "minutes it takes",
    "hob": "how far the hob's efficiency may be off",
    "holding": "how far the heat kept up may be off",
    "heating": "how far the heat may be off",
    "frying": "how far frying may be off",
    "kettle": "how far the kettle's energy may be off",
    "microwave": "how far the microwave oven's energy may be off",
    "oven": "how far the oven's energy may be off",
    "appliance": "how far the appliance's power may be off",
    "storage": "how far the share that is filled may be off",
    "distance": "how far the distance may be off",
    "container": "how far the mass of the pack may be off",
    "pack": "how far the mass of the pack may be off",
    "waste": "how far the mass thrown away may be off",
    "fizz": "how far the amount may be off",
    "trip": "how far the trip's share may be off",
    "washing up": "how far the energy may be off",
    "appliances": "how far the servings of its life may be off",
}


def exactly(value: float) -> Range:
    """Return a plain number as a range.

    Parameters
    ----------
    value : float
        Any number. [any unit]

    Returns
    -------
    Range
        Without width. [the same unit]
    """
    return Range(value, value, value, value)


def range_of(distribution: Distribution) -> Range:
    """Return mean and percentiles of a distribution, without drawing from it.

    Parameters
    ----------
    distribution : Distribution
        Of a parameter. [any unit]

    Returns
    -------
    Range
        From its quantiles. [the same unit]
    """
    mean = distribution.mean
    if isinstance(distribution, Lognormal):
        middle = mean * exp(-distribution.sigma * distribution.sigma / 2)
        apart = exp(_NORMAL_95 * distribution.sigma)
        return Range(mean, middle / apart, middle, middle * apart)
    low, middle, high = distribution.quantile(_ENDS).tolist()
    return Range(mean, low, middle, high)


def of_product(product: Product) -> Range | None:
    """Return the range of a product without drawing from it, where that can be told.

    Parameters
    ----------
    product : Product
        A plain number times parameters. [any unit]

    Returns
    -------
    Range or None
        None where parameters of several shapes meet: only draws tell. [the same unit]

    Notes
    -----
    A product of independent lognormals is lognormal: the squares of their log deviations add.
    """
    shapes = [parameter.distribution for parameter in product.parameters]
    if not shapes:
        return exactly(product.scale)
    if len(shapes) == 1:
        return range_of(shapes[0]).scaled(product.scale)
    sigmas = [shape.sigma for shape in shapes if isinstance(shape, Lognormal)]
    if len(sigmas) < len(shapes):
        return None
    return range_of(Lognormal(product.mean, hypot(*sigmas)))


def told_by(told: Provenance | Sourced | None) -> tuple[str, str]:
    """Return source and locator of a figure.

    Parameters
    ----------
    told : Provenance or Sourced or None
        Where it comes from.

    Returns
    -------
    tuple of str
        Source.id, "assumed", or "" for the cook's own word; then the place in it.
    """
    if told is None:
        return "", ""
    if isinstance(told, Sourced):
        return told.source, told.locator or told.note
    return told.source or told.obtained, told.locator or told.note


def of_way(way: Way, *, first: bool = False) -> Term:
    """Return a way as a term.

    Parameters
    ----------
    way : Way
        A factor or a divisor.
    first : bool
        Whether the working begins with it.

    Returns
    -------
    Term
        In words. [unit of the way]
    """
    source, locator = told_by(way.told)
    unit = SHARE if way.kind in _SHARES else way.unit
    if way.kind == "written" and way.what != "piece":
        unit = way.what
    says = _WORDS[way.kind].format(what=way.what)
    if way.kind == "unit" and way.unit == "kg" and MEASURES.get(way.what) == "mass":
        says = f"one {way.what}"
    elif way.kind == "packs" and way.what:
        says = f"how many of them ({way.what})"
    if first and not way.divides:
        return Term(says, exactly(way.value), unit, source, locator, "+")
    return Term(says, exactly(way.value), unit, source, locator, "÷" if way.divides else "×")


def of_parameter(parameter: Parameter, unit: str = "") -> Term:
    """Return what is uncertain about an amount as a term.

    Parameters
    ----------
    parameter : Parameter
        Of mean 1, or a time. [1, min]
    unit : str
        Of its value.

    Returns
    -------
    Term
        That multiplies.
    """
    kind = parameter.key.partition("|")[0]
    says = _PARAMETERS.get(kind, "how far the amount may be off")
    told = "min" if kind == "minutes" else unit
    return Term(says, range_of(parameter.distribution), told, does="×")


def of_amount(product: Product, ways: Sequence[Way], unit: str) -> list[Term]:
    """Return the working of an amount: its ways, then what is uncertain about it.

    Parameters
    ----------
    product : Product
        The amount. [unit]
    ways : sequence of Way
        To its plain number; empty where none were kept.
    unit : str
        Its unit.

    Returns
    -------
    list of Term
        Their means multiply to the product's mean.

    Notes
    -----
    Ways that do not lead to the plain number, as of an amount changed since, are not told.
    """
    trail: Iterable[Way] = ways
    if not ways or not isclose(along(ways), product.scale, rel_tol=AGREES):
        trail = (Way("amount", product.scale, unit),)
    ahead = sorted(trail, key=lambda way: way.divides)
    terms = [of_way(way, first=at == 0) for at, way in enumerate(ahead)]
    return [*terms, *(of_parameter(parameter) for parameter in product.parameters)]
