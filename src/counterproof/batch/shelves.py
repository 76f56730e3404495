"""What stands on the shelf and in the pantry: packs by food, and where in a shop they are."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from math import ceil, isclose
from typing import Final

from counterproof.batch.packs import OnShelf
from counterproof.numerals import SPACE, plain_mass
from counterproof.reading.foods import Matcher
from counterproof.recipe.pantry_file import Pantry
from counterproof.recipe.prices_file import PackSize, Price, Prices
from counterproof.rows import Food, Tables
from counterproof.stocked import mass_as_bought, stocked_food, stocked_mass

WEIGHED_OUT: Final = 0.05
"""What a stall weighs to. [kg] Assumed: half a handful more or less is not argued over."""

SPOONED_OUT: Final = 0.01
"""What is asked for where neither a pack nor a stall is known. [kg] Assumed."""

SMALLEST_PIECE: Final = 0.03
"""What a piece weighs from which it is counted rather than weighed. [kg] Assumed."""

PARTS_OF: Final = {
    "lemon-juice": "lemon",
    "lemon-zest": "lemon",
    "lime-juice": "lime",
    "lime-zest": "lime",
    "orange-zest": "orange",
    "egg-white": "egg",
    "egg-yolk": "egg",
}
"""Food.id of what is bought whole: one lemon gives its juice and its zest."""

_PIECES: Final = ("bulb", "head", "bunch", "piece", "stalk")
_BY_THE_PIECE: Final = frozenset({"bulb", "head", "bunch"})
_KEPT_COLD: Final = {"frozen": "freezer", "canned": "tins and jars", "tinned": "tins and jars"}
LAST: Final = "other"


def shelves(
    prices: Sequence[tuple[Food, float, Price]], tables: Tables
) -> dict[str, list[OnShelf]]:
    """The sizes that have a price, each at its latest.

    Parameters
    ----------
    prices : sequence of (Food, float, Price)
        Packs with their mass as bought. [kg]
    tables : Tables
        Packs on sale, which tell the container of a size.

    Returns
    -------
    dict
        Food.id → sizes.
    """
    latest: dict[tuple[str, float], tuple[Food, Price]] = {}
    for food, kg, price in prices:
        held = latest.get((food.id, kg))
        if held is None or price.date > held[1].date:
            latest[food.id, kg] = (food, price)
    found: defaultdict[str, list[OnShelf]] = defaultdict(list)
    for (key, kg), (food, price) in latest.items():
        same = (one for one in sizes_on_sale(food, tables) if isclose(one.kg, kg, rel_tol=0.01))
        container = next((one.container for one in same), "")
        one_piece = price.pack.kind == "count" and price.pack.amount == 1
        says, sold_by = (price.pack.measure, "piece") if one_piece else (_says(price.pack), "pack")
        found[key].append(OnShelf(kg, says, price.price, container, sold_by))
    return found


def _says(pack: PackSize) -> str:
    """What is printed on it, in its own round numbers."""
    if pack.kind == "count":
        return f"{pack.amount:g} {_plural(pack.measure, pack.amount)}"
    large, small = ("kg", "g") if pack.kind == "mass" else ("L", "ml")
    amount = pack.amount if pack.kind == "mass" else 1000 * pack.amount
    whole = amount >= 1
    return f"{amount if whole else 1000 * amount:.6g}{SPACE}{large if whole else small}"


def _plural(word: str, count: float) -> str:
    if count == 1:
        return word
    return f"{word}es" if word.endswith(("ch", "sh", "s", "x")) else f"{word}s"


def sizes_on_sale(food: Food, tables: Tables) -> list[OnShelf]:
    """The sizes in which a food without a price is commonly sold.

    Parameters
    ----------
    food : Food
        The food.
    tables : Tables
        Packs on sale, household weights, parts of the shop.

    Returns
    -------
    list of OnShelf
        Packs; else the piece, where it is sold loose and a piece has a weight; else by weight.
    """
    found = []
    for row in tables.shop.packs.get(food.id, ()):
        pack = (
            PackSize("mass", row.amount)
            if row.unit == "kg"
            else PackSize("volume", row.amount / 1000)
            if row.unit == "L"
            else PackSize("count", row.amount, "piece")
        )
        kg = mass_as_bought(food, pack, tables)
        if kg is not None:
            found.append(OnShelf(kg, _says(pack), None, row.container))
    if found:
        return found
    part = tables.shop.parts.get(food.food_class)
    if part is None or not part.loose:
        return [OnShelf(SPOONED_OUT, plain_mass(SPOONED_OUT), sold_by="weight")]
    for measure in _PIECES:
        kg = mass_as_bought(food, PackSize("count", 1.0, measure), tables)
        if kg is not None and (kg >= SMALLEST_PIECE or measure in _BY_THE_PIECE):
            return [OnShelf(kg, measure, sold_by="piece")]
    return [OnShelf(WEIGHED_OUT, plain_mass(WEIGHED_OUT), sold_by="weight")]


def whole_of(food: Food, tables: Tables) -> tuple[Food, float] | None:
    """The food that is bought for a part of it.

    Parameters
    ----------
    food : Food
        Such as the juice of a lemon.
    tables : Tables
        Household weights, edible shares.

    Returns
    -------
    tuple of Food and float, or None
        The whole, and how much of it as bought gives a kilogram of the part [kg/kg]; None where
        the food is bought as it is.
    """
    whole = tables.foods.get(PARTS_OF.get(food.id, ""))
    if whole is None:
        return None
    one = PackSize("count", 1.0, "piece")
    bought, gives = mass_as_bought(whole, one, tables), mass_as_bought(food, one, tables)
    return None if bought is None or not gives else (whole, bought / gives)


def part_of_shop(food: Food, tables: Tables) -> str:
    """Where in a shop a food stands.

    Parameters
    ----------
    food : Food
        The food.
    tables : Tables
        Parts of the shop.

    Returns
    -------
    str
        For people.
    """
    state = food.name.rpartition(", ")[2]
    if state in _KEPT_COLD:
        return _KEPT_COLD[state]
    row = tables.shop.parts.get(food.food_class)
    return LAST if row is None else row.part


def priced_packs(
    prices: Prices, tables: Tables, matcher: Matcher
) -> tuple[tuple[Food, float, Price], ...]:
    """The packs of a price file, each with its food and mass.

    Parameters
    ----------
    prices : Prices
        A price file.
    tables : Tables
        Densities, household weights, edible shares.
    matcher : Matcher
        Over the same tables.

    Returns
    -------
    tuple of (Food, float, Price)
        Mass as bought. [kg]

    Raises
    ------
    BrokenSettings
        If a name is no food that is known for certain, or a pack has no weight.
    """
    made = []
    for row in prices.prices:
        food = stocked_food(row.food, matcher, prices.file, row.line)
        made.append((food, stocked_mass(food, row.pack, tables, prices.file, row.line), row))
    return tuple(made)


def held_in(pantry: Pantry, tables: Tables, matcher: Matcher) -> dict[str, float]:
    """What a pantry holds of each food.

    Parameters
    ----------
    pantry : Pantry
        A pantry file.
    tables : Tables
        Densities, household weights, edible shares.
    matcher : Matcher
        Over the same tables.

    Returns
    -------
    dict
        Food.id → mass as bought; without end where the file states no amount. [kg]

    Raises
    ------
    BrokenSettings
        If a name is no food that is known for certain, or an amount has no weight.
    """
    found: defaultdict[str, float] = defaultdict(float)
    for row in pantry.foods:
        food = stocked_food(row.food, matcher, pantry.file, row.line)
        found[food.id] += (
            float("inf")
            if row.amount is None
            else stocked_mass(food, row.amount, tables, pantry.file, row.line)
        )
    return dict(found)


def rounded_up(kg: float, to: float) -> float:
    """A mass rounded up to what is weighed out.

    Parameters
    ----------
    kg : float
        Mass. [kg]
    to : float
        What is weighed to, > 0. [kg]

    Returns
    -------
    float
        Never less. [kg]
    """
    return ceil(kg / to - 1e-9) * to
