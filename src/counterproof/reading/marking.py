"""The marked reading of a recipe: every line kept, each with what was understood and weighed."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from counterproof.marks import Mark
from counterproof.reading.amounts import Weighed, amount_key, weighed
from counterproof.reading.at_the_scales import Case, Scales
from counterproof.reading.lines import split_line
from counterproof.reading.meant import Meant, meant
from counterproof.reading.measures_used import measures_used
from counterproof.reading.model import Constituent, MarkedLine, Reading
from counterproof.reading.relative import covering, is_covering, is_share, share_of_line
from counterproof.reading.remarks import (
    not_eaten,
    odd_number,
    said_of_name,
    several,
    unknown,
    unsure,
)
from counterproof.reading.second_foods import not_counted, second_foods
from counterproof.reading.settling import additions, settled
from counterproof.reading.steps import read_step
from counterproof.reading.sub_recipes import with_recipes
from counterproof.reading.versions import version_applied
from counterproof.ways import Way

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from counterproof.draws import Product
    from counterproof.reading.foods import Match, Matcher
    from counterproof.reading.model import MarkedStep, Split
    from counterproof.recipe.kitchen import Kitchen
    from counterproof.recipe.model import Recipe, Version, WrittenLine
    from counterproof.rows import Food, Tables
    from counterproof.units import System

SERVES = 4.0  # where the recipe does not say: assumed, a family pot


def read_recipe(
    recipe: Recipe,
    tables: Tables,
    matcher: Matcher,
    kitchen: Kitchen,
    *,
    version: Version | None = None,
    serves: float | None = None,
    step_reader: Callable[[WrittenLine], MarkedStep] = read_step,
    within: tuple[str, ...] = (),
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
    within : tuple of str
        Titles of the recipes that this one is taken into.

    Returns
    -------
    Reading
        As many lines and steps as were written, each with its marks.

    Raises
    ------
    SwapNotFound
        If the version swaps a line that is not there.
    CircularRecipe
        If a line is a recipe that needs this one.
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

    def read(other: Recipe, titles: tuple[str, ...]) -> Reading:
        return read_recipe(other, tables, matcher, kitchen, step_reader=step_reader, within=titles)

    lines = with_recipes(lines, recipe, Scales(tables, system, scale), within, read)
    return Reading(
        recipe=recipe,
        version=version,
        kitchen=kitchen,
        lines=lines,
        steps=tuple(matcher.before.once(step_reader, step) for step in recipe.steps),
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
    scales = Scales(tables, system, scale, matcher.words)
    understood = [_understood(line, scales, matcher, region) for line in written]
    lines = [
        _marked(one, nths, matcher)
        for one, nths in zip(understood, _occurrences(understood), strict=True)
    ]
    for place, doubt in _second_foods_marked(understood):
        lines[place] = replace(lines[place], marks=(*lines[place].marks, doubt))
    for place, line in enumerate(lines):
        if line.food is not None and is_share(line.written.text):
            lines[place] = share_of_line(line, [*lines[:place], *lines[place + 1 :]])
        elif line.food is not None and not line.split.quantities and is_covering(line.written.text):
            lines[place] = covering(line, scale)
    return tuple(lines)


class _Portion(NamedTuple):
    """A food of a line that is to be weighed, and among how many its amount is shared."""

    match: Match
    case: Case
    among: int = 1


class _Understood(NamedTuple):
    """A line whose food or foods are known, not yet weighed."""

    written: WrittenLine
    split: Split
    name: Meant
    portions: tuple[_Portion, ...]
    beside: tuple[Food, ...] = ()  # named without an amount: "stuffed with cream cheese"


def _understood(line: WrittenLine, scales: Scales, matcher: Matcher, region: str) -> _Understood:
    split = matcher.before.once(split_line, line.text, scales.system)
    split = settled(split, scales.system)
    name = meant(split, matcher, region)
    matches = [match for match in (name.match, *name.also) if match.food is not None]
    each = "each of several" in split.flags or ("each" in split.flags and split.packs == 1)
    shared = split.quantities and name.fruit is None and not each
    among = len(matches) if shared else 1
    portions = [
        _Portion(match, Case(split, match.food, scales, name.fruit), among)
        for match in matches
        if match.food is not None
    ]
    if portions:
        for extra in additions(split, scales.system):
            more = meant(extra, matcher, region) if extra.name else name
            food = more.match.food
            if food is not None:
                portions.append(_Portion(more.match, Case(extra, food, scales, more.fruit)))
    beside = second_foods(split, matcher, region) if portions else ()
    return _Understood(line, split, name, tuple(portions), beside)


def _second_foods_marked(lines: Sequence[_Understood]) -> Iterator[tuple[int, Mark]]:
    """The doubt about foods that a line names beside its own and no line counts, by its place."""
    speaking = [(place, line.beside) for place, line in enumerate(lines) if line.beside]
    if not speaking:
        return
    counted = {portion.case.food.id for line in lines for portion in line.portions}
    for place, beside in speaking:
        if left := [food for food in beside if food.id not in counted]:
            yield place, not_counted(left)


def _occurrences(lines: Sequence[_Understood]) -> list[list[int]]:
    """Which of several identical amounts of one food each portion is, whatever the lines' order."""
    alike: dict[str, list[tuple[str, str, int, int]]] = defaultdict(list)
    for at, line in enumerate(lines):
        for place, portion in enumerate(line.portions):
            key = amount_key(portion.case.split, portion.case.food)
            alike[key].append((line.written.text, line.written.section, at, place))
    nths = [[1] * len(line.portions) for line in lines]
    for same in alike.values():
        if len(same) == 1:
            continue
        for nth, (_, _, at, place) in enumerate(sorted(same), start=1):
            nths[at][place] = nth
    return nths


def _marked(line: _Understood, nths: list[int], matcher: Matcher) -> MarkedLine:
    name, food = line.name, line.name.match.food
    weights: list[Weighed] = []
    if food is None:
        marks = [unknown(name, matcher)]
    elif food.food_class == "not food":
        marks = [not_eaten(f"“{name.called[:80]}”")]
    else:
        weights = [
            _cut(weighed(portion.case, nth=nth), portion.among)
            for portion, nth in zip(line.portions, nths, strict=True)
        ]
        marks = [*name.marks, *unsure(name, food)]
        for match in (name.match, *name.also):
            marks += said_of_name(match, matcher)
        if len(weights) > 1:
            shared = line.portions[0].among > 1
            foods = [portion.case.food for portion in line.portions]
            marks.append(several(foods, shared=shared))
        marks += odd_number(line.written.text)
        for part in weights:
            if part.marks:
                marks += [mark for mark in part.marks if mark not in marks]
    return MarkedLine(
        written=line.written,
        split=line.split,
        quantity=line.split.quantities[0] if line.split.quantities else None,
        food=food,
        fit=name.match.fit,
        certainty=name.match.certainty,
        runners_up=name.match.runners_up,
        mass=weights[0].mass if weights else None,
        purchased=weights[0].purchased if weights else None,
        marks=tuple(marks),
        also=_further(line.portions, weights) if len(weights) > 1 else (),
        alternatives=name.alternatives,
        unread=name.unread,
        way=weights[0].way if weights else (),
    )


def _further(portions: Sequence[_Portion], weights: Sequence[Weighed]) -> tuple[Constituent, ...]:
    """The foods of a line after the first."""
    return tuple(
        Constituent(portion.case.food, portion.match.fit, part.mass, part.purchased, part.way)
        for portion, part in zip(portions[1:], weights[1:], strict=True)
    )


def _cut(part: Weighed, among: int) -> Weighed:
    def cut(product: Product | None) -> Product | None:
        return None if product is None else product.scaled(1 / among)

    if among == 1:
        return part
    way = (*part.way, Way("shared", among, divides=True))
    return part._replace(mass=cut(part.mass), purchased=cut(part.purchased), way=way)


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
