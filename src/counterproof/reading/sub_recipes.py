"""A line that is itself a recipe: "1 quantity shortcrust pastry (see page 12)".

The recipes it may mean stand beside the recipe (those of its season). A line means one of them if
it asks for a recipe and its words are a title's, or if it names a title outright and is no known
food. Then it stands for the share of that recipe's batch that it takes: its foods, and what its
steps take. Draws keep the keys they have in that recipe, so that both tell the same of it.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from counterproof.errors import CircularRecipe
from counterproof.marks import Mark
from counterproof.reading.model import Constituent, MarkedLine, Taken
from counterproof.reading.modifiers import HARMLESS, JOINING
from counterproof.reading.spellings import words
from counterproof.reading.telling import grams, said
from counterproof.units import MEASURES, unit_kg, unit_ml
from counterproof.ways import Way

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from counterproof.draws import Product
    from counterproof.reading.at_the_scales import Scales
    from counterproof.reading.model import Reading, Split
    from counterproof.recipe.model import Recipe
    from counterproof.units import System

_ELSEWHERE: Final = re.compile(
    r"\b(?:recipe|see (?:page|p\.|recipe|episode|above|below)|page \d|p\. ?\d|episode \d"
    r"|(?:recipe )?follows)\b",
    re.IGNORECASE,
)
_LITRE_KG: Final = 1.0  # of a dish measured by volume: assumed, that of water


def with_recipes(
    lines: tuple[MarkedLine, ...],
    recipe: Recipe,
    scales: Scales,
    within: tuple[str, ...],
    read: Callable[[Recipe, tuple[str, ...]], Reading],
) -> tuple[MarkedLine, ...]:
    """The lines of a recipe with those that are recipes themselves taken in.

    Parameters
    ----------
    lines : tuple of MarkedLine
        As they were read without regard to other recipes.
    recipe : Recipe
        Whose lines they are; beside it stand those they may mean.
    scales : Scales
        Whose cups and spoons, and the factor on every mass.
    within : tuple of str
        Titles of the recipes that this one is taken into.
    read : callable
        Reads a recipe that is taken into those of some titles.

    Returns
    -------
    tuple of MarkedLine
        As many, in their order.

    Raises
    ------
    CircularRecipe
        If a line is a recipe that needs this one.
    """
    found: list[MarkedLine] = []
    for line in lines:
        other = recipe_meant(line, recipe.beside)
        if other is not None:
            inner = read(*_within(other, recipe, within))
            found.append(taken_in(line, inner, scales))
        else:
            found.append(elsewhere(line) if asks_for_recipe(line.split) else line)
    return tuple(found)


def _within(
    other: Recipe, outer: Recipe, within: tuple[str, ...]
) -> tuple[Recipe, tuple[str, ...]]:
    """A recipe that a line of another is, with what stands beside it, and those it goes into."""
    titles = (*within, outer.title)
    if other.title in titles:
        around = " needs ".join(f"“{title}”" for title in (*titles, other.title))
        raise CircularRecipe(
            f"These recipes need each other: {around}.",
            remedy="Write the ingredients of one of them into the other.",
            file=other.file,
        )
    beside = tuple(one for one in outer.beside if one.title != other.title)
    return replace(other, beside=(*beside, replace(outer, beside=()))), titles


def asks_for_recipe(split: Split) -> bool:
    """Whether a line points to another recipe.

    Parameters
    ----------
    split : Split
        The line's parts.

    Returns
    -------
    bool
        True for "1 quantity pastry" and "200 g pesto (see page 12)".
    """
    if split.meaning:
        return False
    batch = bool(split.quantities) and split.quantities[0].measure == "recipe"
    return batch or _ELSEWHERE.search(f"{split.comment} {split.preparation}") is not None


def recipe_meant(line: MarkedLine, beside: Sequence[Recipe]) -> Recipe | None:
    """The recipe that a line is.

    Parameters
    ----------
    line : MarkedLine
        As it was read without regard to other recipes.
    beside : sequence of Recipe
        Those it may mean.

    Returns
    -------
    Recipe or None
        None where it means none of them, or may mean several.
    """
    asks = asks_for_recipe(line.split)
    known = line.food is not None and line.certainty == 1.0  # the table has these very words
    if not beside or line.split.meaning or (known and not asks):
        return None
    wanted = title_words(line.split.name)
    titles = [(title_words(recipe.title), recipe) for recipe in beside]
    same = [recipe for title, recipe in titles if wanted and title == wanted]
    if not same and wanted and asks:
        same = [recipe for title, recipe in titles if wanted < title]
    return same[0] if len(same) == 1 else None


def title_words(text: str) -> frozenset[str]:
    """The words by which a recipe is known.

    Parameters
    ----------
    text : str
        A title, or what a line calls it.

    Returns
    -------
    frozenset of str
        Comparable words without those that only describe.
    """
    told = frozenset(words(text))
    return (told - HARMLESS - JOINING) or told


def may_name(text: str, title: str) -> bool:
    """Whether a line may mean a recipe of some title; cheap, so that few need be read.

    Parameters
    ----------
    text : str
        The line as written.
    title : str
        A recipe's title.

    Returns
    -------
    bool
        True where all words of the title stand in the line, or, in a line that speaks of a
        quantity or a recipe, one of them.
    """
    here, named = frozenset(words(text)), title_words(title)
    if named <= here:
        return bool(named)
    asks = not here.isdisjoint({"quantity", "batch", "recipe", "page", "episode"})
    return asks and not named.isdisjoint(here)


def taken_in(line: MarkedLine, sub: Reading, scales: Scales) -> MarkedLine:
    """A line as the share of another recipe that it takes.

    Parameters
    ----------
    line : MarkedLine
        As it was read without regard to other recipes.
    sub : Reading
        The recipe it means, as understood, for the servings it was written for.
    scales : Scales
        Whose cups and spoons, and the factor on every mass of the outer recipe.

    Returns
    -------
    MarkedLine
        With that recipe's foods, and a note; with a fault where its share cannot be told.
    """
    inner = [part for one in sub.lines for part in one.constituents]
    batch = sum(part.mass.mean for part in inner if part.mass is not None)
    share = _share(line.split, sub, batch, scales.system)
    title = sub.recipe.title
    if share is None or not batch:
        fault = Mark(
            "fault",
            "no-share",
            f"This is the recipe “{title}”, but how much of its batch is not clear. Write “½ "
            "quantity”, a weight, or a number of portions.",
        )
        return replace(
            line, food=None, mass=None, purchased=None, also=(), marks=(fault,), runners_up=()
        )
    parts = [_cut(part, share * scales.factor, title) for part in inner]
    parts.sort(key=lambda part: -(0.0 if part.mass is None else part.mass.mean))
    first, *also = parts
    return replace(
        line,
        food=first.food,
        fit=first.fit,
        certainty=1.0,
        runners_up=(),
        mass=first.mass,
        purchased=first.purchased,
        also=tuple(also),
        alternatives=(),
        unread=(),
        way=first.way,
        marks=(_told(sub, share, batch), *_open(sub)),
        taken=Taken(sub, share * scales.factor),
    )


def _share(split: Split, sub: Reading, batch: float, system: System) -> float | None:
    """Share of a batch that a line takes. [1]"""
    if not split.quantities:
        return 1.0
    quantity = split.quantities[0]
    number = (quantity.low + quantity.high) / 2 * (split.packs or 1.0)
    kind = MEASURES[quantity.measure]
    if number <= 0 or not batch:
        return None
    if quantity.measure in {"recipe", "portion"}:
        return number / (sub.serves if quantity.measure == "portion" else 1.0)
    if kind not in {"mass", "volume"}:
        return None
    weighed = kind == "mass"
    one = unit_kg if weighed else lambda measure: unit_ml(measure, system) / 1000 * _LITRE_KG
    return number * one(quantity.measure) / batch


def _cut(part: Constituent, share: float, title: str) -> Constituent:
    def cut(mass: Product | None) -> Product | None:
        return None if mass is None else mass.scaled(share)

    way = part.way if share == 1.0 else (*part.way, Way("given", share, "", f"taken of “{title}”"))
    return part._replace(mass=cut(part.mass), purchased=cut(part.purchased), way=way)


def _told(sub: Reading, share: float, batch: float) -> Mark:
    how = "all of it" if share == 1.0 else f"{share:.3g} of its batch"
    message = (
        f"This is the recipe “{sub.recipe.title}” of this season: {how} is counted, "
        f"{grams(share * batch)} as its ingredients weigh before cooking, with what its steps take."
    )
    return Mark("note", "taken-in", message)


def _open(sub: Reading) -> tuple[Mark, ...]:
    """The doubt about what is open in the recipe that is taken in."""
    lines = [
        line.written.text for line in sub.lines if any(mark.level != "note" for mark in line.marks)
    ]
    if not lines:
        return ()
    message = (
        f"In the recipe “{sub.recipe.title}” {_lines(len(lines))} not counted or in doubt "
        f"(“{lines[0][:60]}”{', …' if len(lines) > 1 else ''}): settle it there."
    )
    return (Mark("doubt", "taken-in-open", message),)


def _lines(number: int) -> str:
    return "1 line is" if number == 1 else f"{number} lines are"


def elsewhere(line: MarkedLine) -> MarkedLine:
    """A line that asks for a recipe which is not at hand, with a doubt that says so.

    Parameters
    ----------
    line : MarkedLine
        For whose words `asks_for_recipe` holds.

    Returns
    -------
    MarkedLine
        Unchanged but for its marks.
    """
    if line.food is None or line.split.quantities[:1] == ():
        return line
    message = (
        f"“{line.split.name}” points to another recipe, and none of that name is in this season: "
    )
    remedy = "Put the recipe into the season, or write its ingredients or a weight here."
    if line.mass is None:
        unweighed = f"{said(line.split.quantities[0])} of it cannot be weighed. {remedy}"
        kept = tuple(mark for mark in line.marks if mark.kind != "no-weight")
        return replace(line, marks=(*kept, Mark("fault", "no-weight", message + unweighed)))
    bought = f"{line.food.name} as it is bought, {grams(line.mass.mean)}, is counted. {remedy}"
    doubt = Mark("doubt", "recipe-elsewhere", message + bought)
    return replace(line, marks=(*line.marks, doubt))
