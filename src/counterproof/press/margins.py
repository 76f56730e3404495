"""What stands in the margins beside a line or a step, in words; every surface prints these."""

from __future__ import annotations

import re
from collections.abc import Iterable

from counterproof import numerals
from counterproof.marks import Mark
from counterproof.numerals import SPACE, percent
from counterproof.press.plain_text import printable
from counterproof.proof import LineProof, StepProof

LEVEL_NAMES = {"note": "Note", "doubt": "Doubt", "fault": "Fault"}
SIGN_MEANINGS = {
    "doubt": "doubt: a choice is open",
    "fault": "fault: not counted",
    "note": "note: it stands, but is worth knowing",
}


def amount(line: LineProof, middle: str) -> str:
    """Return a line's quantity and mass as understood, in one phrase.

    Parameters
    ----------
    line : LineProof
        An ingredient line.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    parts = (quantity(line), line_mass(line, middle))
    return " · ".join(part for part in parts if part)


def quantity(line: LineProof) -> str:
    """Return a line's quantity as understood, a number never parted from its unit.

    Parameters
    ----------
    line : LineProof
        An ingredient line.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    return re.sub(r"(?<=\d) (?=\w{1,2}\b)", SPACE, printable(line.quantity))


def line_mass(line: LineProof, middle: str) -> str:
    """Return the edible mass of a line with its range.

    Parameters
    ----------
    line : LineProof
        An ingredient line.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    return "" if line.mass_kg is None else numerals.mass(line.mass_kg, middle).text


def link(line: LineProof) -> str:
    """Return the factor that stands for a line and how well it fits.

    Parameters
    ----------
    line : LineProof
        An ingredient line.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    if line.factor is None:
        return ""
    fit = f" ({line.fit})" if line.fit and line.fit != "same" else ""
    return f"{printable(line.factor)}{fit}"


def certainty(line: LineProof) -> str:
    """Return the runners-up of a reading that is in doubt, with certainties; else nothing.

    Parameters
    ----------
    line : LineProof
        An ingredient line.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    if not line.runners_up or not any(mark.level != "note" for mark in line.marks):
        return ""
    told = [(line.food, line.certainty)] if line.food else []
    told += list(line.runners_up)
    return ", ".join(f"{printable(name)} {percent(share)}" for name, share in told)


def why_not_counted(holder: LineProof | StepProof) -> str:
    """Return why a line has no footprint, in a few words; its marks say more.

    A step without energy needs no reason: most steps take none.

    Parameters
    ----------
    holder : LineProof or StepProof
        A line or a step.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    if isinstance(holder, StepProof):
        return ""
    for mark in marks_by_weight(holder.marks)[0]:
        return f"not counted: {mark.kind.replace('-', ' ')}"
    if holder.food is None:
        return "not counted: no food was recognised"
    if holder.mass_kg is None:
        return "not counted: no weight could be given"
    return "not counted: no factor is linked to this food"


def settle_lead(*, in_line: bool) -> str:
    """Return the words above a mark's choices.

    Parameters
    ----------
    in_line : bool
        Whether its choices are written into an ingredient line.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    return "Settle it by writing into the line" if in_line else "Settle it by writing"


def choices(mark: Mark, *, in_line: bool) -> list[str]:
    """Return a mark's choices in the very words that settle it.

    Parameters
    ----------
    mark : Mark
        A mark with choices, or without.
    in_line : bool
        Whether its choices are written into an ingredient line.

    Returns
    -------
    list[str]
        One text a choice.
    """
    told = [printable(choice) for choice in mark.choices]
    return [f"(meaning {choice})" for choice in told] if in_line else told


def marks_by_weight(marks: Iterable[Mark]) -> tuple[list[Mark], list[Mark]]:
    """Return what needs attention, faults first, and what is only worth knowing.

    Parameters
    ----------
    marks : iterable of Mark
        Marks of a line, a step or the whole recipe.

    Returns
    -------
    tuple[list[Mark], list[Mark]]
        Faults and doubts; notes.
    """
    told = list(marks)
    pressing = [mark for mark in told if mark.level == "fault"]
    pressing += [mark for mark in told if mark.level == "doubt"]
    return pressing, [mark for mark in told if mark.level == "note"]


def step_energy(step: StepProof, middle: str) -> str:
    """Return the energy of a step.

    Parameters
    ----------
    step : StepProof
        A step.
    middle : str
        "mean" or "median": which of them stands in the middle.

    Returns
    -------
    str
        One phrase, without a full stop; empty where there is nothing to say.
    """
    return "" if step.kwh is None else numerals.energy(step.kwh, middle).text
