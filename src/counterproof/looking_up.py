"""Looking up foods and factors: what words find in the tables, best first."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Final, Generic, TypeVar

from rapidfuzz import fuzz, process

from counterproof.reading.name_index import canonical
from counterproof.reading.spellings import words
from counterproof.rows import Factor, Food, Tables
from counterproof.use_cases import Order, Workbench, mark

Row = TypeVar("Row")

MOST: Final = 40
"""Rows listed at most; more are counted."""

NEAR: Final = 60.0
"""Similarity from which a factor's name is offered for words that name none: assumed, as for the
keys of settings."""


@dataclass(frozen=True, slots=True)
class Found(Generic[Row]):
    """What words found, best first; `exact` where the first goes by these very words.

    `left_off` counts what else was found; `nearest` is filled where nothing was.
    """

    rows: tuple[Row, ...]
    exact: bool
    left_off: int = 0
    nearest: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Used:
    """A food that a recipe uses, and the lines it stands in, as "version: line"."""

    food: Food
    lines: tuple[str, ...]


def foods_found(said: str, bench: Workbench) -> Found[Food]:
    """Foods that words mean, or that have them in their names.

    Parameters
    ----------
    said : str
        Words, as a recipe would write them, or the name of a class of foods; without any,
        every food is found, class by class.
    bench : Workbench
        Tables and matcher.

    Returns
    -------
    Found
        First what the words mean in a recipe, then names that hold them all, the shortest first;
        with the nearest names where there is none.
    """
    tables = bench.tables
    sought = frozenset(canonical(words(said)))
    if not said.strip():
        every = sorted(tables.foods.values(), key=lambda food: (food.food_class, food.id))
        return Found(tuple(every), exact=False)
    if not sought:
        return Found((), exact=False)
    rank: dict[str, tuple[int, int]] = {}
    for slug, name in _names(tables):
        held = _held(sought, name)
        if held is not None:
            rank[slug] = min(rank.get(slug, held), held)
    for food in tables.foods.values():
        if sought == frozenset(canonical(words(food.food_class))):
            rank.setdefault(food.id, (3, 0))
    match = bench.matcher.match(said)
    if match.food is not None:
        rank[match.food.id] = (0, 0)
    ranked = sorted(rank, key=lambda slug: (rank[slug], slug))
    near = () if ranked else tuple(food.name for food in bench.matcher.nearest(said, 5))
    return Found(
        tuple(tables.foods[slug] for slug in ranked[:MOST]),
        exact=match.food is not None and match.certainty == 1.0,
        left_off=max(0, len(ranked) - MOST),
        nearest=near,
    )


def _held(sought: frozenset[str], name: str) -> tuple[int, int] | None:
    """How well a name holds the words sought, least first: whole, or begun; None where not."""
    held = frozenset(canonical(words(name)))
    if sought <= held:
        return 1, len(held - sought)
    if all(any(word.startswith(part) for word in held) for part in sought):
        return 2, len(held)
    return None


def _names(tables: Tables) -> Iterable[tuple[str, str]]:
    for food in tables.foods.values():
        yield food.id, food.name
    for row in tables.names:
        yield row.food, row.name


def factors_found(said: str, tables: Tables) -> Found[Factor]:
    """Factors that have words in their names, or whose set is named.

    Parameters
    ----------
    said : str
        Words; without any, every factor is found.
    tables : Tables
        All tables.

    Returns
    -------
    Found
        The shortest names first, sets in the order of the tables; nearest names where none is.
    """
    sought = frozenset(canonical(words(said)))
    if said.strip() and not sought:
        return Found((), exact=False)
    rank: dict[tuple[str, str], tuple[int, int]] = {}
    for key, factor in tables.factors.items():
        held = _held(sought, factor.item)
        if held is not None:
            rank[key] = held
        elif sought == {factor.set}:
            rank[key] = (3, 0)
    ranked = sorted(rank, key=lambda key: (rank[key], key))
    near: tuple[str, ...] = ()
    if not ranked:
        items = sorted({item for _, item in tables.factors})
        close = process.extract(
            said.casefold(), items, scorer=fuzz.partial_ratio, limit=5, score_cutoff=NEAR,
            processor=str.casefold,
        )  # fmt: skip
        near = tuple(item for item, _, _ in close)
    return Found(
        tuple(tables.factors[key] for key in ranked[:MOST]),
        exact=bool(ranked) and rank[ranked[0]] == (1, 0),
        left_off=max(0, len(ranked) - MOST),
        nearest=near,
    )


def foods_in(order: Order, bench: Workbench) -> tuple[Used, ...]:
    """Foods that a recipe uses, in all its versions unless one is named.

    Parameters
    ----------
    order : Order
        The recipe, its kitchen and version.
    bench : Workbench
        Tables and matcher.

    Returns
    -------
    tuple of Used
        In the order of the recipe; what only a version uses comes after.
    """
    readings = [mark(order, bench)]
    if order.version is None:
        versions = order.recipe.versions
        readings += [mark(replace(order, version=one.name), bench) for one in versions]
    lines: dict[str, dict[str, None]] = {}
    for reading in readings:
        for line in reading.lines:
            for part in line.constituents:
                lines.setdefault(part.food.id, {})[line.written.text] = None
    return tuple(Used(bench.tables.foods[food], tuple(said)) for food, said in lines.items())
