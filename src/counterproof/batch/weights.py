"""Weights as a cook reads them off a scale, and how finely the scale reads."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from counterproof.recipe.kitchen import Kitchen
from counterproof.units import measure_named, unit_kg

FINEST_ASSUMED: Final = 0.001
"""Step of a kitchen scale where nothing is said of it: assumed, most read whole grams. [kg]"""
HEAVIEST: Final = 100.0
"""More than any kitchen scale carries: assumed; such a weight is in another unit. [kg]"""

_NUMBER: Final = r"\d{1,3}(?:[,\u202f\u00a0]\d{3})+(?:\.\d+)?|\d+(?:[.,]\d+)?|[.,]\d+"
_UNIT: Final = (
    r"kilograms?|kilogrammes?|kilos?|kgs?|grams?|grammes?|gr?|mg|pounds?|lbs?|ounces?|ozs?"
)
WEIGHT: Final = re.compile(
    rf"(?<![\w.,])(?P<number>{_NUMBER})\s*(?:(?P<unit>{_UNIT})\b\.?)?"
    rf"(?:(?<=\w|\.)\s*(?P<rest>\d+(?:[.,]\d+)?)\s*(?:ounces?|ozs?)\b\.?)?(?![\w])",
    re.IGNORECASE,
)
"""A number with or without its unit; pounds may be followed by ounces."""
_STEP: Final = re.compile(
    rf"\bscales?\b[^,;.]*?\b(?:to|in steps of|reads to|by)\s+(?P<number>{_NUMBER})\s*(?P<unit>{_UNIT})\b",
    re.IGNORECASE,
)
_POUNDS: Final = re.compile(r"pounds?|lbs?", re.IGNORECASE)
_THREE: Final = re.compile(r"\d{1,3}(?:[,\u202f\u00a0]\d{3})+")


@dataclass(frozen=True, slots=True)
class Weight:
    """A weight as it was said.

    Parameters
    ----------
    kg : float
        How much. [kg]
    unit : str
        The unit it was said in, or taken in.
    stated : bool
        Whether the unit was said.
    """

    kg: float
    unit: str
    stated: bool


def weight_of(found: re.Match[str], unit: str) -> Weight:
    """The weight that a match of `WEIGHT` says.

    Parameters
    ----------
    found : re.Match
        The match.
    unit : str
        What a bare number is in: g, kg, oz or lb.

    Returns
    -------
    Weight
        In kilograms.
    """
    said = found["unit"]
    name = (measure_named(said) or "g") if said else unit
    kg = _number(found["number"], name) * unit_kg(name)
    if found["rest"]:
        kg += _number(found["rest"], "oz") * unit_kg("oz")
    return Weight(kg, name, bool(said))


def _number(text: str, unit: str) -> float:
    """Digits as a number: a comma before three digits parts thousands, except of kilograms."""
    bare = re.sub(r"[\u202f\u00a0]", "", text)
    if _THREE.fullmatch(text) and not (unit in {"kg", "lb", "oz"} and text.count(",") == 1):
        return float(bare.replace(",", ""))
    return float(bare.replace(",", "."))


def step_said(text: str) -> float | None:
    """How finely a scale reads, where a text says so.

    Parameters
    ----------
    text : str
        Such as "kitchen scale to 5 g".

    Returns
    -------
    float or None
        Its step, above 0. [kg]
    """
    found = _STEP.search(text)
    if found is None:
        return None
    unit = measure_named(found["unit"]) or "g"
    step = _number(found["number"], unit) * unit_kg(unit)
    return step if step > 0.0 else None


def finest_step(kitchen: Kitchen) -> float | None:
    """The finest scale among a kitchen's tools.

    Parameters
    ----------
    kitchen : Kitchen
        With its tools.

    Returns
    -------
    float or None
        Its step; None where no scale is named with one. [kg]
    """
    steps = [step for tool in kitchen.tools if (step := step_said(tool)) is not None]
    return min(steps, default=None)


def grams(kg: float, step: float) -> str:
    """A weight as the scale shows it, to its step.

    Parameters
    ----------
    kg : float
        The weight. [kg]
    step : float
        The scale's step, > 0. [kg]

    Returns
    -------
    str
        Such as "1483 g", "0.4 g"; no digit is lost that the scale has.
    """
    decimals = 0
    while (
        decimals < 3
        and abs(1000.0 * step * 10**decimals - round(1000.0 * step * 10**decimals)) > 1e-9
    ):
        decimals += 1
    return f"{round(1000.0 * kg, decimals):.{decimals}f} g"
