"""What a person asks before the cooking: what to buy, and who does what when."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from counterproof.batch.day import DayPlan, Room, day_plan
from counterproof.batch.shelves import held_in, priced_packs
from counterproof.batch.shopping import shopping_list
from counterproof.batch.to_buy import Dish, ShoppingList
from counterproof.draws import Streams
from counterproof.plan.planning import plan_of
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


@dataclass(frozen=True, slots=True)
class Day:
    """A day's plan by the middle of every time, and when to start to be sure.

    Parameters
    ----------
    plan : DayPlan
        By the middle of every time.
    sure : int
        When the first thing begins if everything takes as long as it may. [minutes after midnight]
    """

    plan: DayPlan
    sure: int

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form: minutes after midnight of the day of eating."""
        return {**self.plan.to_dict(), "starts_to_be_sure_min": self.sure}


def day(orders: Sequence[Order], bench: Workbench, room: Room, ready: int) -> Day:
    """A plan by which several orders are ready at one time.

    Parameters
    ----------
    orders : sequence of Order
        What is cooked.
    bench : Workbench
        Tables and matcher.
    room : Room
        What there is to cook with.
    ready : int
        When it is wanted. [minutes after midnight]

    Returns
    -------
    Day
        No ring, oven or pair of hands is used twice at a time.

    Raises
    ------
    InputError
        If a dish needs what is not there.
    """
    lines = []
    for order in orders:
        plan = plan_of(mark(order, bench), bench.tables, bench.coolings)
        lines.append((order.called, plan.timeline.tasks))
    sure = day_plan(lines, room, ready, "p95")
    return Day(day_plan(lines, room, ready), sure.starts)
