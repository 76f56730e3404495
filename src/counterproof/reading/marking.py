"""The marked reading of a recipe: every line kept, each with what was understood and weighed."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from counterproof.draws import Product
from counterproof.marks import Mark
from counterproof.reading.amounts import Scales, Weighed, amount_key, weighed
from counterproof.reading.lines import split_line
from counterproof.reading.measures_used import measures_used
from counterproof.reading.model import Constituent, MarkedLine, Reading
from counterproof.reading.modifiers import NEVER_FOOD
from counterproof.reading.meant import Meant, meant
from counterproof.reading.relative import covering, is_covering, is_share, share_of_line
from counterproof.reading.spellings import words
from counterproof.reading.settling import additions, settled
from counterproof.reading.steps import read_step
from counterproof.reading.versions import version_applied

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from counterproof.reading.foods import Matcher
    from counterproof.reading.model import MarkedStep, Split
    from counterproof.recipe.kitchen import Kitchen
    from counterproof.recipe.model import Recipe, Version, WrittenLine
    from counterproof.rows import Food, Tables
    from counterproof.units import System

SERVES = 4.0  # where the recipe does not say: assumed, a family pot
DOUBTFUL = 0.75  # from here on a name is taken without asking; below it the choice is marked


def read_recipe(
    recipe: Recipe,
    tables: Tables,
    matcher: Matcher,
    kitchen: Kitchen,
    *,
    version: Version | None = None,
    serves: float | None = None,
    step_reader: Callable[[WrittenLine], MarkedStep] = read_step,
) -> Reading:
    """The recipe, or a version of it, as it was understood.

    Parameters
    ----------
    recipe : Recipe
        As written.
    tables : Tables
        Foods, weights, densities, edible shares.
    matcher : Matcher
        Built from the same tables.
    kitchen : Kitchen
        Where it is cooked, a version's changes to it made.
    version : Version or None
        Changes to make first.
    serves : float or None
        Servings asked for, > 0; None for those written. Scales every line. [servings]
    step_reader : callable
        Reads one step.

    Returns
    -------
    Reading
        As many lines and steps as were written, each with its marks.

    Raises
    ------
    SwapNotFound
        If the version swaps a line that is not there.
    """
    marks: list[Mark] = list(recipe.marks)
    if version is not None:
        recipe, doubts = version_applied(recipe, version, matcher)
        marks += doubts
    written = _servings(recipe)
    if written is None:
        marks.append(_servings_assumed())
    base = written or SERVES
    wanted = serves or base
    scale = wanted / base
    system, region, guessed = measures_used(recipe)
    if guessed is not None:
        marks.append(guessed)
    lines = read_lines(recipe.lines, tables, matcher, system=system, region=region, scale=scale)
    return Reading(
        recipe=recipe,
        version=version,
        kitchen=kitchen,
        lines=lines,
        steps=tuple(step_reader(step) for step in recipe.steps),
        serves=wanted,
        scale=scale,
        marks=tuple(marks),
    )


def read_lines(
    written: Sequence[WrittenLine],
    tables: Tables,
    matcher: Matcher,
    *,
    system: System = "us",
    region: str = "",
    scale: float = 1.0,
) -> tuple[MarkedLine, ...]:
    """Ingredient lines as understood; their order changes nothing but the order of the result.

    Parameters
    ----------
    written : sequence of WrittenLine
        The lines.
    tables : Tables
        Foods, weights, densities, edible shares.
    matcher : Matcher
        Built from the same tables.
    system : System
        Whose cups and spoons.
    region : str
        Whose names for foods: "uk", "us", "au" or "".
    scale : float
        Factor on every mass, > 0. [1]

    Returns
    -------
    tuple of MarkedLine
        One for each line, in the order given.
    """
    splits = [settled(split_line(line.text, system), system) for line in written]
    names = [meant(split, matcher, region) for split in splits]
    nths = _occurrences(written, splits, names)
    scales = Scales(tables, system, scale)
    lines = [
        _marked(line, split, name, nth, scales, matcher, region)
        for line, split, name, nth in zip(written, splits, names, nths, strict=True)
    ]
    for place, line in enumerate(lines):
        if line.food is not None and is_share(line.written.text):
            lines[place] = share_of_line(line, [*lines[:place], *lines[place + 1 :]])
        elif line.food is not None and not line.split.quantities and is_covering(line.written.text):
            lines[place] = covering(line, scale)
    return tuple(lines)


def _occurrences(
    written: Sequence[WrittenLine], splits: Sequence[Split], names: Sequence[Meant]
) -> list[int]:
    """Which of several identical amounts of one food each line is, whatever their order."""
    alike: dict[str, list[int]] = defaultdict(list)
    for place, (split, name) in enumerate(zip(splits, names, strict=True)):
        if name.match.food is not None:
            alike[amount_key(split, name.match.food)].append(place)
    nths = [1] * len(splits)
    for places in alike.values():
        if len(places) > 1:
            places.sort(key=lambda p: (written[p].text, written[p].section))
            for nth, place in enumerate(places, start=1):
                nths[place] = nth
    return nths


def _marked(
    line: WrittenLine,
    split: Split,
    name: Meant,
    nth: int,
    scales: Scales,
    matcher: Matcher,
    region: str,
) -> MarkedLine:
    match = name.match
    quantity = split.quantities[0] if split.quantities else None
    food = match.food
    if food is None:
        return MarkedLine(
            line, split, quantity, None, None, match.certainty, match.runners_up, None, None,
            (_unknown(name, matcher),),
        )  # fmt: skip
    if food.food_class == "not food":
        fault = Mark("fault", "not-food", f"{food.name} is not eaten: it is not counted.")
        return MarkedLine(
            line, split, quantity, food, match.fit, match.certainty, match.runners_up, None, None,
            (fault,), alternatives=name.alternatives, unread=name.unread,
        )  # fmt: skip
    marks = [*name.marks, *_unsure(name, food)]
    weights = [weighed(split, food, scales, nth=nth, fruit=name.fruit)]
    also: list[Constituent] = []
    if name.also:
        others = [other for other in name.also if other.food is not None]
        shared = bool(split.quantities) and name.fruit is None
        for other in others:
            part = weighed(split, _food(other.food), scales, nth=nth, fruit=name.fruit)
            weights.append(part)
            part = _share(part, len(others) + 1) if shared else part
            also.append(Constituent(_food(other.food), other.fit, part.mass, part.purchased))
        if shared:
            weights[0] = _share(weights[0], len(others) + 1)
        marks.append(_two_foods([food, *(part.food for part in also)], shared=shared))
    for place, extra in enumerate(additions(split, scales.system), start=2):
        more = meant(extra, matcher, region).match if extra.name else match
        if more.food is not None:
            part = weighed(extra, more.food, scales, nth=nth if more.food != food else nth + place)
            weights.append(part)
            also.append(Constituent(more.food, more.fit, part.mass, part.purchased))
            marks.append(_two_foods([food, more.food], shared=False))
    for part in weights:
        marks += [mark for mark in part.marks if mark not in marks]
    return MarkedLine(
        written=line,
        split=split,
        quantity=quantity,
        food=food,
        fit=match.fit,
        certainty=match.certainty,
        runners_up=match.runners_up,
        mass=weights[0].mass,
        purchased=weights[0].purchased,
        marks=tuple(marks),
        also=tuple(also),
        alternatives=name.alternatives,
        unread=name.unread,
    )


def _food(food: Food | None) -> Food:
    assert food is not None  # noqa: S101 - naming only lists answered matches
    return food


def _share(part: Weighed, count: int) -> Weighed:
    def cut(product: Product | None) -> Product | None:
        return None if product is None else product.scaled(1 / count)

    return replace(part, mass=cut(part.mass), purchased=cut(part.purchased))


def _unknown(name: Meant, matcher: Matcher) -> Mark:
    called = name.called
    found = words(called)
    if not found or called.rstrip().endswith(":"):
        return Mark(
            "fault",
            "no-food",
            "No food is named in this line. Write one, or make it a heading, or take it out.",
        )
    if not NEVER_FOOD.isdisjoint(found):
        return Mark(
            "fault", "not-food", f"“{called}” is a tool or wrapping, not eaten: it is not counted."
        )
    choices = [runner.food.name for runner in name.match.runners_up]
    choices += [food.name for food in matcher.nearest(called) if food.name not in choices]
    offer = (
        f"Is it {_listed(choices[:4])}? Write “(meaning …)” after it."
        if choices
        else "Write a plainer name for it, such as the kind of food it is."
    )
    message = f"“{called[:80]}” is not a food this table knows, so it is not counted. {offer}"
    return Mark("fault", "unknown-food", message, tuple(choices[:4]))


def _unsure(name: Meant, food: Food) -> list[Mark]:
    match = name.match
    if match.certainty < DOUBTFUL:
        choices = (food.name, *(runner.food.name for runner in match.runners_up))
        why = f" ({'; '.join(match.explanation)})" if match.explanation else ""
        return [
            Mark(
                "doubt",
                "unsure-food",
                f"“{name.called}” is taken as {food.name}, but only {match.certainty:.0%} sure"
                f"{why}. Choose, or write “(meaning …)” after it.",
                choices,
            )
        ]
    if match.explanation:
        return [Mark("note", "set-aside", f"Read as {food.name}: {'; '.join(match.explanation)}.")]
    return []


def _two_foods(foods: list[Food], *, shared: bool) -> Mark:
    named = _listed([food.name for food in foods], "and")
    how = "its amount is shared equally between them" if shared else "each is weighed by itself"
    return Mark("note", "two-foods", f"The line stands for {named}; {how}.")


def _listed(texts: list[str], word: str = "or") -> str:
    return texts[0] if len(texts) == 1 else f"{', '.join(texts[:-1])} {word} {texts[-1]}"


def _servings(recipe: Recipe) -> float | None:
    if recipe.serves is None:
        return None
    low, high = recipe.serves
    middle = (low + high) / 2
    return middle if middle > 0 else None


def _servings_assumed() -> Mark:
    return Mark(
        "note",
        "servings-assumed",
        f"The recipe does not say how many it serves: taken as {SERVES:g}. "
        "Write `serves: 6` at the top to settle it.",
    )
