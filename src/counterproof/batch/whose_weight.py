"""Whose weight it is: the recipe line that a word at the scale belongs to, and what is doubtful."""

from __future__ import annotations

from collections.abc import Sequence

from counterproof.batch.asked_at_the_scale import nameless, together
from counterproof.batch.labels import lines_meant, parts_of
from counterproof.batch.weighed import State
from counterproof.batch.weights import grams
from counterproof.marks import Mark
from counterproof.plan.pot import is_at_table
from counterproof.reading.model import MarkedLine

Whose = tuple[int | None, tuple[Mark, ...]]
"""Number of the line, None where there is none, and marks."""


def line_weighed(
    label: str, kg: float, lines: Sequence[MarkedLine], state: State, *, poured: bool = False
) -> Whose:
    """The recipe line a weight belongs to, and what is doubtful about it.

    Parameters
    ----------
    label : str
        What it was called at the scale, or "".
    kg : float
        How much it was. [kg]
    lines : sequence of MarkedLine
        The recipe's lines.
    state : State
        What was weighed before it, and how finely.
    poured : bool
        Whether it came from a bottle, which may hold what the word does not say.

    Returns
    -------
    Whose
        The line's number and marks.
    """
    weighed = frozenset(one.line for one in state.differences if one.line is not None)
    if not label:
        return None, (nameless(kg, state.step),)
    parts = parts_of(label)
    if len(parts) > 1:
        each = [lines_meant(part, lines, weighed) for part in parts]
        numbers = {one.lines[0].written.number for one in each if one.lines}
        if len(numbers) > 1:
            return None, (together(label, kg, state.step),)
    found = lines_meant(label, lines, weighed)
    if found.lines:
        doubts = () if found.sure else (_which(label, found.lines),)
        return found.lines[0].written.number, doubts
    if poured:
        return _poured(
            label, kg, [line for line in lines if line.written.number not in weighed], state
        )
    says = f"The recipe lists no {label}; it becomes a line of its own."
    return None, (Mark("note", "not-listed", says),)


def _which(label: str, lines: Sequence[MarkedLine]) -> Mark:
    names = tuple(line.written.text for line in lines)
    return Mark(
        "doubt", "which-line",
        f"“{label}” may be {' or '.join(f'“{name}”' for name in names)}; the first is "
        "taken. Name it more closely.",
        names,
    )  # fmt: skip


def _poured(label: str, kg: float, unweighed: Sequence[MarkedLine], state: State) -> Whose:
    """What a bottle can only hold, where its word fits no line."""
    liquid = [
        line
        for line in unweighed
        if line.food is not None and line.food.kind == "liquid" and not is_at_table(line)
    ]
    if len(liquid) == 1:
        says = f"The {label} holds {liquid[0].split.name}: the only liquid not yet weighed."
        return liquid[0].written.number, (Mark("note", "poured", says),)
    doubt = Mark(
        "doubt", "poured-what",
        f"{grams(kg, state.step)} were poured from “{label}”: of what? It is listed by "
        "itself until the line names it.",
        tuple(f"{line.split.name} bottle" for line in liquid),
    )  # fmt: skip
    return None, (doubt,)
