"""A line's own words with another amount in them."""

from __future__ import annotations

import re
from typing import Final

from counterproof.batch.measurable import Measurable
from counterproof.reading.model import Part, Split
from counterproof.units import measure_named

_HOW_FULL: Final = re.compile(
    r"\b(?:small|medium|large|extra-large|heaped|heaping|rounded|level|generous|good|scant|big)\b",
    re.IGNORECASE,
)


def line_with(split: Split, amount: Measurable) -> str:
    """A line's own words with another amount.

    Parameters
    ----------
    split : Split
        The line's parts.
    amount : Measurable
        The amount.

    Returns
    -------
    str
        The amount first, or behind the name as "(weighed …)"; settlements and remarks stay,
        other ways of saying the old amount do not.
    """
    words: list[str] = []
    named = False
    placed = amount.weighed or not amount.text
    size = next((part.text for part in split.parts if part.kind == "amount"), "")
    said = _HOW_FULL.search(size) if _measured_alike(split, amount.text) else None
    for part in _lasting(split):
        if part.kind == "amount":
            if not placed:
                words.append(_sized(amount.text, "" if said is None else said[0]))
                placed = True
            continue
        if part.kind == "preparation" and named and words:
            words[-1] += ","
        words.append(f"({part.text})" if part.kind == "comment" else part.text)
        named = named or part.kind == "name"
    text = " ".join(words)
    return f"{text} (weighed {amount.text})" if amount.weighed and amount.text else text


def _measured_alike(split: Split, text: str) -> bool:
    """Whether an amount is counted or spooned as the old one was: then "large" still fits."""
    if not split.quantities:
        return False
    old, new = split.quantities[0].measure, text.rpartition(" ")[2]
    spoons = {old, measure_named(new) or "piece"} <= {"tsp", "tbsp", "dessertspoon"}
    return spoons or (measure_named(new) or "piece") == old


def _sized(amount: str, size: str) -> str:
    """An amount with how large or how full each is: "2½ large", "1½ heaped tbsp"."""
    number, _, measure = amount.partition(" ")
    return f"{number} {size} {measure}".strip() if size else amount


def _lasting(split: Split) -> tuple[Part, ...]:
    """The parts that stay true: not what was weighed, nor a count beside a weight."""
    return tuple(part for part in split.parts if part.kind != "weighed")
