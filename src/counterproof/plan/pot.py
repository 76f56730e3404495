"""Which ingredients are in the pot at a step."""

from __future__ import annotations

import re

from counterproof.reading.model import MarkedLine, MarkedStep, Reading

_WORD = re.compile(r"[a-zà-ÿ]{3,}")
_MASHED = re.compile(r"\b(?:rub|push|press|pass|work|force)\w*\b[^.;]*\b(?:sieve|mill|strainer)")
# Words that stand in food names without telling which food a step speaks of.
_COMMON = frozenset(
    {"fresh", "dried", "whole", "ground", "large", "small", "white", "red", "green"}
)


def in_pot(line: MarkedLine, reading: Reading, step: MarkedStep) -> bool:
    """Whether a line's food is with the rest when a step begins.

    Parameters
    ----------
    line : MarkedLine
        The ingredient.
    reading : Reading
        Its recipe, whose steps say where each food is first named.
    step : MarkedStep
        The step asked about.

    Returns
    -------
    bool
        True where the food is named in this step or an earlier one, or in no step at all
        ("add all the ingredients"); False where it is first named later.
    """
    words = set(_WORD.findall(f"{line.split.name} {line.food.name if line.food else ''}".lower()))
    words -= _COMMON
    stems = {word.rstrip("s") for word in words}
    for other in reading.steps:
        said = {word.rstrip("s") for word in _WORD.findall(other.written.text.lower())}
        if stems & said:
            return other.written.number <= step.written.number
    return True


def mashed(step: MarkedStep) -> bool:
    """Whether straining means rubbing soft food through, so that little stays behind.

    Parameters
    ----------
    step : MarkedStep
        A step that strains.

    Returns
    -------
    bool
        True for "rub through a sieve", False for "strain through muslin".
    """
    return bool(_MASHED.search(step.written.text.lower()))
