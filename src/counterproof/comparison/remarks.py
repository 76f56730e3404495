"""What has to be said beside a comparison: unlike servings, sets that disagree, what is missing.

Beside `paired.py`, which works the comparison out: whether it may be judged is decided there,
what a reader must know of it is put into words here.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from counterproof.footprint.model import Valuation
from counterproof.marks import Mark
from counterproof.nutrition import Function
from counterproof.rows import FactorSet, Tables

APART: Final = 0.1
"""Difference of mass, energy or protein above which two servings are marked unlike. [1]"""


def unlike_servings(a: Function, b: Function) -> list[Mark]:
    """Marks where two servings do not give the same.

    Parameters
    ----------
    a, b : Function
        What one serving of either side gives.

    Returns
    -------
    list of Mark
        One for each of mass, energy and protein that differs by more than a tenth.
    """
    words = (("kg", "mass"), ("kcal", "energy"), ("protein_g", "protein"))
    marks: list[Mark] = []
    for name, word in words:
        one, other = getattr(a, name), getattr(b, name)
        if not one or not other:
            continue
        larger, smaller = max(one, other), min(one, other)
        if larger > (1 + APART) * smaller:
            marks.append(
                Mark(
                    "note",
                    "unlike-servings",
                    f"The two servings differ in {word} by {100 * (larger / smaller - 1):.0f} %.",
                )
            )
    return marks


def turning_sets(
    ratio: float | None, otherwise: Iterable[tuple[FactorSet, float | None]]
) -> list[Mark]:
    """Marks where another set would reverse or halve the comparison.

    Parameters
    ----------
    ratio : float or None
        Ratio of the means in the set that is used. [1]
    otherwise : iterable of (FactorSet, float or None)
        Other sets that cover both sides, with their ratio. [1]

    Returns
    -------
    list of Mark
        One doubt a set.
    """
    marks: list[Mark] = []
    if ratio is None or ratio <= 0:
        return marks
    times = ratio if ratio >= 1 else 1 / ratio
    for name, theirs in otherwise:
        if theirs is None:
            continue
        turned = theirs if ratio >= 1 else 1 / theirs
        if turned < max(1.0, times / 2):
            does = "reverses" if turned < 1 else "halves"
            marks.append(
                Mark(
                    "doubt",
                    "sets-disagree",
                    f"The {name} set {does} this comparison: {turned:.2g} times, "
                    f"not {times:.2g} times.",
                )
            )
    return marks


def missing_lines(a: str, one: Valuation, b: str, other: Valuation) -> list[Mark]:
    """Marks for lines that are not counted on one side only.

    Parameters
    ----------
    a, b : str
        Names of the two sides.
    one, other : Valuation
        What they are worth.

    Returns
    -------
    list of Mark
        One doubt a line.
    """
    marks: list[Mark] = []
    sides = [{(line.as_written, line.food) for line in side.uncounted} for side in (one, other)]
    for name, lacks, against in ((a, sides[0], sides[1]), (b, sides[1], sides[0])):
        marks += [
            Mark("doubt", "not-counted", f"“{written}” is not counted in {name}.")
            for written, _ in sorted(lacks - against)
        ]
    return marks


def outside_the_set(
    factor_set: FactorSet | None, foods: frozenset[str], tables: Tables
) -> list[Mark]:
    """A mark for what the common set has no figure for, and is too little to matter.

    Parameters
    ----------
    factor_set : FactorSet or None
        The common set.
    foods : frozenset of str
        Food.id of each.
    tables : Tables
        With their names.

    Returns
    -------
    list of Mark
        One note, or none.
    """
    if not foods:
        return []
    says = (
        f"The {factor_set} set has no figure for {_names(foods, tables)}, less than 1 % of each "
        "side; that part is not valued in it."
    )
    return [Mark("note", "outside-the-set", says)]


def refusal(missing: frozenset[str], factor_set: FactorSet | None, tables: Tables) -> str:
    """Why a comparison cannot be judged: no set, or not the set asked for, covers what differs.

    Parameters
    ----------
    missing : frozenset of str
        Food.id of what is lacking.
    factor_set : FactorSet or None
        The set asked for, if one was.
    tables : Tables
        With the names of foods.

    Returns
    -------
    str
        One sentence.
    """
    names = _names(missing, tables)
    if factor_set is None:
        lacks = f"No factor set covers all that differs (the global set lacks {names})"
    else:
        lacks = f"The {factor_set} set does not cover all that differs (it lacks {names})"
    return f"{lacks}: the comparison cannot be judged."


def _names(foods: frozenset[str], tables: Tables) -> str:
    return ", ".join(sorted(tables.foods[food].name for food in foods))
