"""What has to be bought for one recipe or many: merged, less the pantry, in packs, by shop part."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from counterproof.batch.packs import OnShelf, packs_for
from counterproof.batch.ranges import range_of
from counterproof.batch.shelves import (
    LAST,
    part_of_shop,
    rounded_up,
    shelves,
    sizes_on_sale,
    whole_of,
)
from counterproof.batch.to_buy import Dish, ShoppingList, ToBuy, Use
from counterproof.draws import Product, Streams
from counterproof.numerals import plain_mass
from counterproof.reading.allergens import Allergens, allergens_of_recipe
from counterproof.reading.model import MarkedLine
from counterproof.recipe.prices_file import Price
from counterproof.rows import Food, Tables

FROM_THE_TAP: Final = frozenset({"water", "water-home-carbonated", "ice"})
"""Food.id of what comes out of the tap."""


WALK: Final = (
    "fruit and vegetables", "bread", "meat and fish", "dairy and eggs", "plant-based",
    "tins and jars", "dry goods", "baking", "oils and vinegars", "herbs and spices", "drinks",
    "freezer", "not food", LAST,
)  # fmt: skip
"""The order in which a shop is walked through: what thaws last of all. Common practice."""


@dataclass
class _Wanted:
    """One food while the lines are gone through."""

    food: Food
    products: list[Product] = field(default_factory=list)
    parts: dict[str, list[Product]] = field(default_factory=dict)  # of the whole, by part
    uses: list[Use] = field(default_factory=list)
    by_eye: bool = False

    def all(self) -> list[Product]:
        """What is needed: wholes, and as many again as the part that takes the most of them."""
        most = max(self.parts.values(), key=lambda of: sum(one.mean for one in of), default=[])
        return [*self.products, *most]


def shopping_list(
    dishes: Sequence[Dish],
    tables: Tables,
    streams: Streams,
    *,
    prices: Sequence[tuple[Food, float, Price]] = (),
    currency: str = "",
    in_house: Mapping[str, float] | None = None,
    season: Sequence[Dish] = (),
) -> ShoppingList:
    """What has to be bought for dishes.

    Parameters
    ----------
    dishes : sequence of Dish
        What is cooked.
    tables : Tables
        Household weights, packs on sale, parts of the shop.
    streams : Streams
        Seed and number of draws.
    prices : sequence of (Food, float, Price)
        Packs with their mass as bought and their price, as `priced_packs` gives them. [kg]
    currency : str
        Of those prices.
    in_house : mapping or None
        Food.id → what the pantry holds, as `held_in` gives it. [kg]
    season : sequence of Dish
        Other dishes that could use up what is left.

    Returns
    -------
    ShoppingList
        Every line of every dish is on it, from the tap, or told as to be bought by eye.
    """
    wanted: dict[str, _Wanted] = {}
    unread: list[tuple[str, str]] = []
    tap = 0.0
    for dish in dishes:
        for line in dish.reading.lines:
            if not line.constituents:
                unread.append((dish.name, line.written.text))
            for part in line.constituents:
                mass = part.purchased or part.mass
                whole = whole_of(part.food, tables)
                food, gives = (part.food, 1.0) if whole is None else whole
                held = wanted.setdefault(food.id, _Wanted(food))
                if mass is None:
                    held.by_eye = True
                    held.uses.append(_use(dish, line, 0.0))
                    continue
                if part.food.id in FROM_THE_TAP:
                    tap += mass.mean * dish.times
                    continue
                into = held.products if whole is None else held.parts.setdefault(part.food.id, [])
                into.append(mass.scaled(gives * dish.times))
                held.uses.append(_use(dish, line, gives * mass.mean * dish.times))
    others = _elsewhere(season)
    shelf = shelves(prices, tables)
    store = in_house or {}
    parts: defaultdict[str, list[ToBuy]] = defaultdict(list)
    for key, one in wanted.items():
        if key in FROM_THE_TAP:
            continue
        need = range_of(one.all(), streams)
        at_hand = min(store.get(key, 0.0), need.mean)
        sizes = shelf.get(key) or sizes_on_sale(one.food, tables)
        packs = _taken(max(0.0, need.mean - at_hand), sizes)
        item = ToBuy(
            one.food, need, at_hand, packs, tuple(one.uses), (), one.by_eye and key not in store
        )
        use_up = tuple(others.get(key, {}).items()) if item.left > 0 and packs else ()
        parts[part_of_shop(one.food, tables)].append(
            ToBuy(item.food, need, at_hand, packs, item.uses, use_up, item.by_eye)
        )
    listed = _in_order(parts, tables)
    materials, unknown = _packaging((item for _, items in listed for item in items), tables)
    return ShoppingList(
        tuple((dish.name, dish.times) for dish in dishes),
        listed,
        tap,
        tuple(dict.fromkeys(unread)),
        _allergens(dishes, tables),
        currency,
        materials,
        unknown,
    )


def _taken(need: float, sizes: Sequence[OnShelf]) -> tuple[tuple[OnShelf, int], ...]:
    """Packs or pieces; what is weighed out is one bag of as much."""
    first = sizes[0]
    if first.sold_by != "weight":
        return packs_for(need, sizes)
    kg = rounded_up(need, first.kg)
    return ((OnShelf(kg, plain_mass(kg), sold_by="weight"), 1),) if kg > 0 else ()


def _use(dish: Dish, line: MarkedLine, kg: float) -> Use:
    optional = "optional" in line.split.flags
    return Use(dish.name, line.written.number, line.written.text, kg, optional)


def _elsewhere(season: Sequence[Dish]) -> dict[str, dict[str, float]]:
    """Food.id → dish → what it takes. [kg]"""
    found: defaultdict[str, dict[str, float]] = defaultdict(dict)
    for dish in season:
        for line in dish.reading.lines:
            for part in line.constituents:
                mass = part.purchased or part.mass
                if mass is not None:
                    of = found[part.food.id]
                    of[dish.name] = of.get(dish.name, 0.0) + mass.mean * dish.times
    return found


def _in_order(
    parts: Mapping[str, list[ToBuy]], tables: Tables
) -> tuple[tuple[str, tuple[ToBuy, ...]], ...]:
    known = [*WALK, *(row.part for row in tables.shop.parts.values() if row.part not in WALK)]
    return tuple(
        (part, tuple(sorted(parts[part], key=lambda item: item.food.name)))
        for part in dict.fromkeys(known)
        if part in parts
    )


def _packaging(
    items: Iterable[ToBuy], tables: Tables
) -> tuple[tuple[tuple[str, float], ...], tuple[str, ...]]:
    """What the packs weigh by material [kg], and foods whose pack is not known."""
    of: defaultdict[str, float] = defaultdict(float)
    unknown: list[str] = []
    for item in items:
        for pack, count in item.packs:
            parts = tables.life_cycle.parts.get(pack.container, ())
            for part in parts:
                of[tables.life_cycle.materials[part.material].name] += part.kg * count
            if not parts and pack.sold_by == "pack":
                unknown.append(item.food.name)
    by_mass = sorted(of.items(), key=lambda one: (-one[1], one[0]))
    return tuple(by_mass), tuple(dict.fromkeys(unknown))


def _allergens(dishes: Sequence[Dish], tables: Tables) -> Allergens:
    found = [allergens_of_recipe(dish.reading, tables) for dish in dishes]
    present = {one for of in found for one in of.present}
    label = {one for of in found for one in of.read_the_label} - present
    unknown = dict.fromkeys(one for of in found for one in of.unknown)
    return Allergens(tuple(sorted(present)), tuple(sorted(label)), tuple(unknown))
