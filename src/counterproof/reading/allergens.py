"""Allergens of a line and of a recipe: what is present, what the label must tell, what is unknown.

The list is the fourteen of Annex II of Regulation (EU) 1169/2011 as the food table holds them.
Nothing here says that anything is absent: a statement is about the ingredients as written, and
cross-contact is not assessed.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from counterproof.reading.allergen_names import allergens_named
from counterproof.reading.allergen_schemes import US_NAMES, under
from counterproof.reading.allergen_words import allergens_said
from counterproof.reading.foods import THRESHOLD
from counterproof.reading.spellings import plain

if TYPE_CHECKING:
    from collections.abc import Iterable

    from counterproof.reading.allergen_schemes import Scheme
    from counterproof.reading.model import MarkedLine, Reading
    from counterproof.rows import Food, Tables

NO_INGREDIENT = frozenset({"no-food", "not-food"})  # marks of headings, tools and wrappings
COMPLETE = "none found among the ingredients as written; cross-contact not assessed"


@dataclass(frozen=True, slots=True)
class Allergens:
    """What is known of the allergens of a line or a recipe; `unknown` are the lines as written."""

    present: tuple[str, ...]
    read_the_label: tuple[str, ...]
    unknown: tuple[str, ...]

    def to_dict(self) -> dict[str, list[str]]:
        """Return the JSON form."""
        return {
            "present": list(self.present),
            "read_the_label": list(self.read_the_label),
            "unknown": list(self.unknown),
        }


def allergens_of_line(line: MarkedLine, tables: Tables, scheme: Scheme = "uk-eu") -> Allergens:
    """The union over everything the line may be: food, runners-up, alternatives, optional or not.

    Parameters
    ----------
    line : MarkedLine
        A line as understood. Runners-up count unless the cook excluded them by "(meaning …)".
    tables : Tables
        With the allergens of each food.
    scheme : Scheme
        The list of allergens that is told.

    Returns
    -------
    Allergens
        `unknown` holds the line where its food, or an alternative, is not known.
    """
    if line.taken is not None:
        return _of_lines(line.taken.reading.lines, tables, scheme)
    foods: list[Food] = [part.food for part in line.constituents]
    foods += line.alternatives
    if not line.split.meaning:
        foods += [runner.food for runner in line.runners_up]
    certain = line.food is not None and line.certainty >= THRESHOLD and not line.unread
    certain = certain or any(mark.kind in NO_INGREDIENT for mark in line.marks)
    found = _union(foods, tables, scheme, () if certain else (line.written.text,))
    own = frozenset(word for food in foods for word in plain(food.name).replace(",", "").split())
    text = plain(line.written.text)
    heard = allergens_said(text, own) | allergens_named(text)
    if scheme == "us":
        heard = frozenset(US_NAMES[name] for name in heard if name in US_NAMES)
    label = {*found.read_the_label, *heard} - set(found.present)
    return replace(found, read_the_label=tuple(sorted(label)))


def allergens_of_recipe(reading: Reading, tables: Tables, scheme: Scheme = "uk-eu") -> Allergens:
    """The union over all lines.

    Parameters
    ----------
    reading : Reading
        A recipe as understood, swaps made.
    tables : Tables
        With the allergens of each food.
    scheme : Scheme
        The list of allergens that is told.

    Returns
    -------
    Allergens
        `unknown` names the lines that keep the statement incomplete.
    """
    return _of_lines(reading.lines, tables, scheme)


def _of_lines(lines: Iterable[MarkedLine], tables: Tables, scheme: Scheme) -> Allergens:
    present: set[str] = set()
    label: set[str] = set()
    unknown: list[str] = []
    for line in lines:
        found = allergens_of_line(line, tables, scheme)
        present.update(found.present)
        label.update(found.read_the_label)
        unknown.extend(found.unknown)
    return Allergens(tuple(sorted(present)), tuple(sorted(label - present)), tuple(unknown))


def _union(
    foods: Iterable[Food], tables: Tables, scheme: Scheme, unknown: tuple[str, ...]
) -> Allergens:
    present: set[str] = set()
    label: set[str] = set()
    for food in foods:
        for row in tables.allergens.get(food.id, ()):
            told = under(scheme, row)
            if told is not None:
                (present if told.status == "present" else label).add(told.allergen)
    return Allergens(tuple(sorted(present)), tuple(sorted(label - present)), unknown)
