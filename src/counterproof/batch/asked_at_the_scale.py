"""What a weigh-in asks about, in words: what was weighed without a name, together, or too coarsely."""

from __future__ import annotations

from typing import Final

from counterproof.batch.weighed import Weighed
from counterproof.batch.weights import FINEST_ASSUMED, grams
from counterproof.marks import Mark

NEVER: Final = "Nothing is counted until it is said."
COARSE: Final = 0.25
"""Share of a weight that its range may be before it is told: assumed. [1]"""
OWN_WEIGHT_APART: Final = 2.0
"""Steps by which a vessel may miss its weight in the kitchen file: assumed, two readings. [1]"""


def too_coarse(line: Weighed, step: float) -> Mark:
    """What is little for the scale it was weighed on.

    Parameters
    ----------
    line : Weighed
        What was weighed.
    step : float
        The scale's step. [kg]

    Returns
    -------
    Mark
        A note.
    """
    says = (
        f"{grams(line.kg, step)} of {line.name} is little for a scale to {grams(step, step)}: give or "
        f"take {line.half / line.kg:.0%}. A finer scale, or a spoon, tells it better."
    )
    return Mark("note", "little-for-the-scale", says)


def bare(kg: float, step: float) -> str:
    """A weight without its unit, for a sum.

    Parameters
    ----------
    kg : float
        The weight. [kg]
    step : float
        The scale's step. [kg]

    Returns
    -------
    str
        Digits, as the scale shows them.
    """
    return grams(kg, step).removesuffix(" g")


def nameless(kg: float, step: float) -> Mark:
    """Something that went in without a word.

    Parameters
    ----------
    kg : float
        How much. [kg]
    step : float
        The scale's step. [kg]

    Returns
    -------
    Mark
        A fault: it is not counted.
    """
    return Mark(
        "fault", "without-a-word",
        f"{grams(kg, step)} went in without a name. {NEVER} Write what it was: “+onions 1655”.",
    )  # fmt: skip


def together(label: str, kg: float, step: float) -> Mark:
    """Several lines of the recipe weighed as one.

    Parameters
    ----------
    label : str
        As they were called.
    kg : float
        How much. [kg]
    step : float
        The scale's step. [kg]

    Returns
    -------
    Mark
        A doubt.
    """
    return Mark(
        "doubt", "together",
        f"“{label}” were weighed together, {grams(kg, step)}, and are several lines of the recipe. "
        "They stand as one line; weigh them one by one to part them.",
    )  # fmt: skip


def off_step(kg: float, step: float) -> Mark | None:
    """A reading that is not among the marks of its scale.

    Parameters
    ----------
    kg : float
        The reading. [kg]
    step : float
        The scale's step. [kg]

    Returns
    -------
    Mark or None
        None where it is, or where the scale reads to the gram.
    """
    steps = kg / step
    if abs(steps - round(steps)) * step < 1e-7 or step <= FINEST_ASSUMED + 1e-9:
        return None
    return Mark(
        "note", "finer-than-the-scale",
        f"{1000 * kg:g} g is not among the marks of a scale to {grams(step, step)}; "
        "its range is kept as that of the scale. If it reads finer, say “scale to 1 g”.",
    )  # fmt: skip
