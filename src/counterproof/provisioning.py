"""What a person asks before the cooking: what to buy for one recipe, many, or a class."""

from __future__ import annotations

from collections.abc import Sequence

from counterproof.batch.shelves import held_in, priced_packs
from counterproof.batch.shopping import shopping_list
from counterproof.batch.to_buy import Dish, ShoppingList
from counterproof.draws import Streams
from counterproof.recipe.pantry_file import Pantry
from counterproof.use_cases import Order, Workbench, mark


def shopping(
    orders: Sequence[Order],
    bench: Workbench,
    streams: Streams,
    *,
    stations: float = 1.0,
    pantry: Pantry | None = None,
    season: Sequence[Order] = (),
) -> ShoppingList:
    """What has to be bought for orders.

    Parameters
    ----------
    orders : sequence of Order
        What is cooked; the first price file among them counts.
    bench : Workbench
        Tables and matcher.
    streams : Streams
        Seed, number of draws, and the draws already made.
    stations : float
        How many stations of a class cook each of them, > 0. [1]
    pantry : Pantry or None
        What is in the house.
    season : sequence of Order
        Other recipes that could use up what is left.

    Returns
    -------
    ShoppingList
        Merged over all.
    """
    prices = next((order.prices for order in orders if order.prices is not None), None)
    return shopping_list(
        [Dish(order.called, mark(order, bench), stations) for order in orders],
        bench.tables,
        streams,
        prices=() if prices is None else priced_packs(prices, bench.tables, bench.matcher),
        currency="" if prices is None else prices.currency,
        in_house=None if pantry is None else held_in(pantry, bench.tables, bench.matcher),
        season=[Dish(order.called, mark(order, bench)) for order in season],
    )
