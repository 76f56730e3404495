"""Which ingredients a text names, and which are in the pot at a step."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from counterproof.reading.model import MarkedLine, MarkedStep, Process, Reading

KEPT_HOT = frozenset({"boil", "simmer", "poach", "steam"})
"""Kinds that keep a pot of liquid hot."""
_WORD = re.compile(r"[a-zà-ÿ]{3,}")
_RUBBED = re.compile(
    r"\b(?:rub|push|press|pass|work|force)\w*\b[^.;]{0,120}\b(?:sieve|mill|strainer)"
)
_SQUEEZED = re.compile(r"\b(?:squeez|wring|wrung)\w*")
_AT_TABLE = re.compile(
    r"\b(?:to serve|for serving|for the glass|garnish|at the table)\b", re.IGNORECASE
)
# Words that stand in food names without telling which food a step speaks of.
_COMMON = frozenset(
    {"fresh", "dried", "whole", "ground", "large", "small", "white", "red", "green"}
)


def named_lines(text: str, lines: Sequence[MarkedLine]) -> frozenset[int]:
    """Which lines a text names.

    Parameters
    ----------
    text : str
        A step or a sentence of one.
    lines : sequence of MarkedLine
        The ingredients.

    Returns
    -------
    frozenset of int
        Numbers of the lines of which a word stands in the text. Where two lines share a word
        ("water", "sparkling water") it names the one whose words all stand there.
    """
    said = _stems(text)
    found = {line.written.number: _stems_of(line) & said for line in lines}
    whole = {
        line.written.number for line in lines if (own := _stems(line.split.name)) and own <= said
    }
    taken = frozenset().union(*(found[number] for number in whole))
    return frozenset(
        number for number, words in found.items() if words and (number in whole or words - taken)
    )


def first_named(reading: Reading) -> Mapping[int, int | None]:
    """At which step each line is named first.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    mapping of int to int or None
        Line number → step number; None for a line that no step names.
    """
    first: dict[int, int | None] = {line.written.number: None for line in reading.lines}
    for step in reversed(reading.steps):
        for number in named_lines(step.written.text, reading.lines):
            first[number] = step.written.number
    return first


def is_in_pot(line: MarkedLine, first: int | None, step: int) -> bool:
    """Whether a line's food is with the rest at a step.

    Parameters
    ----------
    line : MarkedLine
        The ingredient.
    first : int or None
        The step that names it first, as `first_named` says.
    step : int
        The step asked about.

    Returns
    -------
    bool
        True where it was named by then, or is named nowhere ("add all the ingredients") and
        does not stand under a heading for the table.
    """
    if first is None:
        return not is_at_table(line)
    return first <= step


def is_at_table(line: MarkedLine) -> bool:
    """Whether a line stands under a heading for the table.

    Parameters
    ----------
    line : MarkedLine
        The ingredient.

    Returns
    -------
    bool
        True under "To serve" and "For the glass".
    """
    return _AT_TABLE.search(line.written.section) is not None


def said_of(step: MarkedStep, kind: str) -> str:
    """The sentences of a step in which a kind of process is named.

    Parameters
    ----------
    step : MarkedStep
        The step.
    kind : str
        Kind of the process.

    Returns
    -------
    str
        Joined by spaces; the whole step where no sentence names it.
    """
    told = [
        sentence
        for sentence, processes in step.sentences
        if any(process.kind == kind for process in processes)
    ]
    return " ".join(told) or step.written.text


def way_of_straining(step: MarkedStep) -> str:
    """How a step strains.

    Parameters
    ----------
    step : MarkedStep
        A step that strains.

    Returns
    -------
    str
        "rub" where soft food is rubbed through, "squeeze" where it is wrung out, else "strain".
    """
    text = step.written.text.lower()
    if _RUBBED.search(text):
        return "rub"
    return "squeeze" if _SQUEEZED.search(text) else "strain"


def goes_on(step: MarkedStep, process: Process) -> bool:
    """Whether a process without a time only leads to the next: "boil, then simmer 20 minutes".

    Parameters
    ----------
    step : MarkedStep
        The step it stands in.
    process : Process
        One of its processes.

    Returns
    -------
    bool
        True where it keeps a pot hot, states no time, and the step goes on cooking on the hob.
    """
    if process.minutes is not None or process.kind not in KEPT_HOT:
        return False
    later = step.processes[step.processes.index(process) + 1 :]
    return any(one.kind in KEPT_HOT | {"cook"} and one.appliance == "hob" for one in later)


def _stems(text: str) -> frozenset[str]:
    return frozenset(word.rstrip("s") for word in _WORD.findall(text.lower()))


def _stems_of(line: MarkedLine) -> frozenset[str]:
    words = set(_WORD.findall(f"{line.split.name} {line.food.name if line.food else ''}".lower()))
    return frozenset(word.rstrip("s") for word in words - _COMMON)
