"""Versions of a recipe: swaps match foods, so they are made here, before lines are read."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from counterproof.errors import SwapNotFound
from counterproof.marks import Mark
from counterproof.reading.lines import split_line
from counterproof.reading.modifiers import HARMLESS, JOINING

if TYPE_CHECKING:
    from counterproof.reading.foods import Matcher
    from counterproof.recipe.model import Recipe, Version, WrittenLine
    from counterproof.rows import Food


def version_applied(
    recipe: Recipe, version: Version, matcher: Matcher
) -> tuple[Recipe, tuple[Mark, ...]]:
    """The recipe with a version's changes made: lines swapped, steps left out, pack, keep, servings.

    Parameters
    ----------
    recipe : Recipe
        As written.
    version : Version
        One of its versions.
    matcher : Matcher
        Finds the food that a swap's words and the lines mean.

    Returns
    -------
    tuple of Recipe and tuple of Mark
        The changed recipe, each swapped line keeping its number and place; and doubts where a
        swap's words fit more than one line.

    Raises
    ------
    SwapNotFound
        If no line fits the words of a swap.
    """
    lines = list(recipe.lines)
    marks: list[Mark] = []
    for sought, text in version.swap.items():
        places = _fitting(sought, recipe.lines, matcher)
        if not places:
            raise SwapNotFound(
                f"The version “{version.name}” swaps “{sought}”, but no line of the recipe is "
                f"that. Its lines are: {_shown(recipe.lines)}.",
                remedy="Use words of one of these lines, such as its food.",
                file=recipe.file,
                line=version.at,
            )
        if len(places) > 1:
            marks.append(
                Mark(
                    "doubt",
                    "swap-unsure",
                    f"The version “{version.name}” swaps “{sought}”, which fits "
                    f"{len(places)} lines; the first is swapped. Use more words of the line meant.",
                    tuple(recipe.lines[place].text for place in places),
                )
            )
        lines[places[0]] = replace(lines[places[0]], text=text)
    numbers = {step.number for step in recipe.steps}
    marks += [
        Mark(
            "doubt",
            "no-such-step",
            f"The version “{version.name}” skips step {skipped}, but the method has "
            f"{len(numbers)} steps.",
        )
        for skipped in version.skips
        if skipped not in numbers
    ]
    changed = replace(
        recipe,
        lines=tuple(lines),
        steps=tuple(step for step in recipe.steps if step.number not in version.skips),
        pack=recipe.pack if version.pack is None else version.pack,
        keep=recipe.keep if version.keep is None else version.keep,
        serves=recipe.serves if version.serves is None else (version.serves, version.serves),
    )
    return changed, tuple(marks)


def _fitting(sought: str, lines: tuple[WrittenLine, ...], matcher: Matcher) -> list[int]:
    """Places of the lines that fit best: the same food and words, then one of the two."""
    wanted = _telling(sought, matcher)
    asked = matcher.match(sought)
    ranked: dict[int, list[int]] = {}
    for place, line in enumerate(lines):
        split = matcher.before.once(split_line, line.text, "us")
        match = matcher.match(split.name)
        here = _telling(f"{split.name} {split.preparation} {split.container}", matcher)
        written = wanted <= here
        same = asked.food is not None and match.food == asked.food
        near = _near(asked.food, match.food)
        if same and written:
            ranked.setdefault(0, []).append(place)
        elif same:
            ranked.setdefault(1, []).append(place)
        elif written:
            ranked.setdefault(2, []).append(place)
        elif near and bool(wanted & here):
            ranked.setdefault(3, []).append(place)
    return ranked[min(ranked)] if ranked else []


def _near(one: Food | None, other: Food | None) -> bool:
    return one is not None and other is not None and one.food_class == other.food_class


def _telling(text: str, matcher: Matcher) -> frozenset[str]:
    said = frozenset(matcher.words(text))
    return (said - HARMLESS - JOINING) or said


def _shown(lines: tuple[WrittenLine, ...]) -> str:
    return "; ".join(f"“{line.text[:60]}”" for line in lines[:20])
