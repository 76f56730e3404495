"""A shopping list: merged over recipes, less the pantry, in packs; no line is lost."""

import pytest

from counterproof.batch.shelves import held_in, part_of_shop, priced_packs, sizes_on_sale, whole_of
from counterproof.batch.shopping import shopping_list
from counterproof.batch.to_buy import Dish, ShoppingList, ToBuy
from counterproof.draws import Streams
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.pantry_file import read_pantry
from counterproof.recipe.prices_file import read_prices
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark

STREAMS = Streams(seed=1, n=500)


def _dish(bench: Workbench, lines: str, *, serves: float | None = None, times: float = 1.0) -> Dish:
    text = f"# A pot\n\nServes 4\n\n## Ingredients\n\n{lines}\n\n## Method\n\n1. Cook it.\n"
    return Dish("a pot", mark(Order(read_text(text), Kitchen(), serves=serves), bench), times)


def _listed(bench: Workbench, *dishes: Dish, **more: object) -> ShoppingList:
    return shopping_list(dishes, bench.tables, STREAMS, **more)  # type: ignore[arg-type]


def _item(listed: ShoppingList, food: str) -> ToBuy:
    return next(item for item in listed.items if item.food.id == food)


def test_the_same_food_of_two_recipes_is_bought_once(bench: Workbench) -> None:
    listed = _listed(
        bench, _dish(bench, "- 300 g plain flour"), _dish(bench, "- 1.4 kg plain flour")
    )
    flour = _item(listed, "flour")
    assert flour.need.mean == pytest.approx(1.7)
    assert [(pack.kg, count) for pack, count in flour.packs] == [(1.5, 2)]
    assert flour.left == pytest.approx(1.3)
    assert [use.kg for use in flour.uses] == pytest.approx([0.3, 1.4])


def test_stations_multiply_and_the_sum_is_rounded_not_each(bench: Workbench) -> None:
    # Ten stations of 60 g need 600 g: three packs of 250 g, not ten of them.
    listed = _listed(bench, _dish(bench, "- 60 g butter", times=10))
    assert [count for _, count in _item(listed, "butter").packs] == [3]


def test_what_is_eaten_is_turned_into_what_is_bought(bench: Workbench) -> None:
    """1 kg of peeled bananas is 1.56 kg with the skin: refuse 36 %, SR28 NDB 09040."""
    banana = _item(_listed(bench, _dish(bench, "- 1 kg peeled bananas")), "banana")
    assert banana.need.mean == pytest.approx(1.0 / 0.64, rel=0.02)


def test_juice_and_zest_of_the_same_lemons_are_bought_once(bench: Workbench) -> None:
    lines = "- juice of 2 lemons\n- grated zest of 1 lemon"
    lemon = _item(_listed(bench, _dish(bench, lines)), "lemon")
    assert [count for _, count in lemon.packs] == [2]


def test_the_pantry_is_taken_off(bench: Workbench) -> None:
    pantry = read_pantry("pantry:\n  - {food: plain flour, amount: 1 kg}\n  - {food: salt}\n")
    held = held_in(pantry, bench.tables, bench.matcher)
    lines = "- 1.2 kg plain flour\n- 5 g salt\n- 500 g sugar"
    listed = _listed(bench, _dish(bench, lines), in_house=held)
    flour = _item(listed, "flour")
    assert flour.in_house == pytest.approx(1.0)
    assert sum(pack.kg * count for pack, count in flour.packs) >= 0.2
    assert _item(listed, "salt").packs == ()


def test_prices_choose_the_pack_and_make_the_cost(bench: Workbench) -> None:
    text = "currency: £\nprices:\n  - {food: sugar, price: 1.15, pack: 1 kg, date: 2026-10-30}\n"
    priced = priced_packs(read_prices(text), bench.tables, bench.matcher)
    listed = _listed(bench, _dish(bench, "- 1.3 kg sugar"), prices=priced, currency="£")
    assert _item(listed, "sugar").cost == pytest.approx(2.30)
    total, without = listed.cost
    assert total == pytest.approx(2.30)
    assert without == ()


def test_a_line_that_is_not_understood_is_told(bench: Workbench) -> None:
    listed = _listed(bench, _dish(bench, "- 100 g zzyzx\n- 100 g sugar"))
    assert ("a pot", "100 g zzyzx") in listed.unread


def test_tap_water_is_not_bought_and_sparkling_water_is(bench: Workbench) -> None:
    listed = _listed(bench, _dish(bench, "- 1 litre water\n- 1 litre sparkling water"))
    assert listed.from_the_tap == pytest.approx(1.0, rel=0.01)
    assert [item.food.id for item in listed.items] == ["water-sparkling"]


def test_tins_bring_their_steel_home(bench: Workbench) -> None:
    listed = _listed(bench, _dish(bench, "- 1 tin chopped tomatoes\n- 2 tins kidney beans"))
    one = sum(part.kg for part in bench.tables.life_cycle.parts["steel-tin-0.4l"])
    assert sum(kg for _, kg in listed.packaging) == pytest.approx(3 * one)


def test_what_is_left_is_offered_to_the_season(bench: Workbench) -> None:
    other = Dish("a pie", _dish(bench, "- 200 g butter").reading)
    listed = _listed(bench, _dish(bench, "- 300 g butter"), season=[other])
    ((name, kg),) = _item(listed, "butter").elsewhere
    assert name == "a pie"
    assert kg == pytest.approx(0.2)


def test_every_food_has_a_part_of_the_shop_and_something_to_take(bench: Workbench) -> None:
    for food in bench.tables.foods.values():
        assert part_of_shop(food, bench.tables) != "other", food.id
        assert sizes_on_sale(food, bench.tables), food.id


def test_a_lemon_gives_48_g_of_juice(bench: Workbench) -> None:
    """SR28 NDB 09152: a lemon yields 48 g of juice; NDB 09150: 84 g edible, 47 % refuse."""
    whole = whole_of(bench.tables.foods["lemon-juice"], bench.tables)
    assert whole is not None
    assert whole[1] == pytest.approx(0.084 / bench.tables.edible["lemon"].share / 0.048)


def test_the_document_holds_every_item(bench: Workbench) -> None:
    document = _listed(bench, _dish(bench, "- 100 g sugar\n- 1 onion")).to_dict()
    told = {item["food"]["id"] for part in document["parts"] for item in part["items"]}
    assert told == {"sugar", "onion"}
    assert document["cost"] is None
