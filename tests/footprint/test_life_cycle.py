"""Nothing counted twice, nothing lost: packs, keeping, carriage, fizz, waste, what is bought."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from counterproof.comparison.paired import Pair
from counterproof.draws import Streams
from counterproof.errors import BrokenFrontMatter
from counterproof.footprint.containers import PACK_WORDS, packed
from counterproof.footprint.fizz import CHARGED, LEFT
from counterproof.footprint.matrices import product_system
from counterproof.footprint.model import Footprint
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, assessed, compared, mark, proof

UK = Kitchen(region="uk", hob="induction")

SOUP = """---
serves: 4
{front}
---
# Tomato soup

- 800 g tomatoes
- 1 onion
- 2 tbsp olive oil
{lines}

1. Simmer for 20 minutes, covered.
"""


def _found(
    bench: Workbench,
    streams: Streams,
    front: str = "",
    lines: str = "",
    version: str | None = None,
    kitchen: Kitchen = UK,
) -> Footprint:
    recipe = read_text(SOUP.format(front=front, lines=lines))
    return assessed(Order(recipe, kitchen, version), bench, streams, verdicts=False).footprint


def _stage(found: Footprint, stage: str) -> float:
    return sum(part.kgco2e.mean for part in found.stages if part.stage == stage)


def _replaced(found: Footprint) -> dict[str, float]:
    return {
        stage: out / found.serves
        for part in found.items
        for stage, out in part.item.replaced.items()
    }


@pytest.mark.parametrize("words", ["loose", "in my own jar", "refilled"])
def test_loose_produce_has_no_pack_and_loses_nothing_else(
    bench: Workbench, streams: Streams, words: str
) -> None:
    usual = _found(bench, streams, lines="- 500 g potatoes")
    loose = _found(bench, streams, lines=f"- 500 g potatoes, {words}")
    out = _replaced(loose)
    assert out.keys() == {"packaging"}
    assert usual.static - loose.static == pytest.approx(out["packaging"], rel=1e-9)
    assert _stage(usual, "packaging") - _stage(loose, "packaging") == pytest.approx(
        out["packaging"], rel=1e-9
    )
    for stage in ("processing", "transport", "retail", "home storage", "cooking"):
        assert _stage(usual, stage) == pytest.approx(_stage(loose, stage), rel=1e-12)
    # It moves every draw by the same amount per kilogram: only the weighing (2 %) still varies it.
    moved = usual.draws - loose.draws
    assert moved.std() < 0.03 * moved.mean()
    assert float(moved.min()) > 0


def test_a_drained_tin_charges_the_tin_once(bench: Workbench, streams: Streams) -> None:
    found = _found(bench, streams, lines="- 2 x 400 g tins cannellini beans, drained")
    tins = [part for part in found.items if part.item.name == "400 g tin, body"]
    (body,) = tins
    # Two tins of 55 g, weighed by no one: 110 g of steel for four.
    assert body.item.amount.mean == pytest.approx(2 * 0.055 * (0.4 / 0.425) ** (2 / 3))
    assert body.item.number == 4
    assert _replaced(found)["packaging"] > 0
    told = next(a for a in found.to_dict()["activities"] if a["replaced"])
    assert told["replaced"] == {"packaging": pytest.approx(_replaced(found)["packaging"])}


def test_tins_scale_with_the_servings(bench: Workbench, streams: Streams) -> None:
    recipe = read_text(SOUP.format(front="", lines="- 2 tins chickpeas"))
    four, eight = (
        assessed(Order(recipe, UK, serves=serves), bench, streams, verdicts=False).footprint
        for serves in (4, 8)
    )
    masses = [
        next(p.item.amount.mean for p in found.items if "body" in p.item.name)
        for found in (four, eight)
    ]
    assert masses[1] == pytest.approx(2 * masses[0], rel=1e-12)


def test_a_flight_stands_in_place_of_the_usual_carriage(bench: Workbench, streams: Streams) -> None:
    usual = _found(bench, streams, lines="- 500 g cabbage")
    flown = _found(bench, streams, lines="- 500 g cabbage, 6000 km by air")
    out = _replaced(flown)
    assert out.keys() == {"transport"}
    leg = next(part for part in flown.items if part.item.unit == "t·km")
    assert leg.item.amount.mean == pytest.approx(0.5 / 1000 * 6000, rel=1e-6)
    # UK 2024: long-haul freight 1.2342 kg CO2e per t·km with radiative forcing.
    assert leg.kgco2e.mean * flown.serves == pytest.approx(3 * 1.2342, rel=1e-4)
    assert flown.static - usual.static == pytest.approx(
        leg.kgco2e.mean - out["transport"], rel=1e-9
    )


def test_the_solved_matrices_hold_with_every_activity(bench: Workbench, streams: Streams) -> None:
    found = _found(
        bench,
        streams,
        front="eaten: 0.9\nkeep: {where: freezer, days: 30}\npack: {container: 1 litre tub, uses: 20}"
        "\nalso_count: [shopping trip, washing up, appliances]",
        lines="- 2 tins chickpeas\n- 500 g cabbage, 6000 km by air\n"
        "- 1 litre sparkling water, made in the soda machine",
    )
    system = product_system(found)
    solved = system.biosphere @ np.linalg.solve(system.technosphere, system.demand)
    assert float(solved.sum()) == pytest.approx(found.static, rel=1e-9)
    assert sum(part.kgco2e.mean for part in found.stages) == pytest.approx(found.static, rel=1e-9)
    assert sum(part.kgco2e.mean for part in found.items) == pytest.approx(found.static, rel=1e-9)


def test_a_pack_is_divided_by_its_uses(bench: Workbench, streams: Streams) -> None:
    once = _found(bench, streams, front="pack: {container: 400 ml glass jar}")
    forty = _found(bench, streams, front="pack: {container: 400 ml glass jar, uses: 40}")
    none = _found(bench, streams)
    assert once.static - none.static == pytest.approx(40 * (forty.static - none.static), rel=1e-9)
    assert once.packaging is not None
    assert sum(once.packaging.by_fate.values()) == pytest.approx(once.packaging.kg, rel=1e-9)


def test_a_weighed_empty_beats_the_table(bench: Workbench) -> None:
    cycle = bench.tables.life_cycle
    own = (Vessel("pint jar", 0.57, None, 0.31),)
    weighed, table = packed("pint jar", cycle, own), packed("pint jar", cycle)
    assert weighed is not None
    assert table is not None
    assert weighed.parts[0].kg == 0.31
    assert not weighed.parts[0].assumed
    assert table.parts[0].assumed
    assert weighed.weighed


@pytest.mark.parametrize("words", PACK_WORDS)
def test_packs_that_are_offered_are_understood(bench: Workbench, words: str) -> None:
    found = packed(words, bench.tables.life_cycle)
    assert found is not None
    assert found.kg > 0


def test_an_unknown_pack_is_a_doubt_with_packs_to_choose(
    bench: Workbench, streams: Streams
) -> None:
    found = _found(bench, streams, front="pack: {container: amphora}")
    (mark,) = found.marks[0]
    assert (mark.level, mark.kind) == ("doubt", "unknown-pack")
    assert mark.choices == PACK_WORDS


def test_an_unknown_region_names_what_may_be_written(bench: Workbench, streams: Streams) -> None:
    with pytest.raises(BrokenFrontMatter, match="uk, us, eu, world"):
        _found(
            bench, streams, front="bought: {what: tomato soup, region: narnia}", version="bought"
        )


def test_a_region_without_rows_offers_the_nearest(bench: Workbench, streams: Streams) -> None:
    found = _found(bench, streams, kitchen=Kitchen(region="FRX"))
    (mark,) = found.marks[0]
    assert (mark.level, mark.kind) == ("doubt", "unknown-region")
    assert "FRA" in mark.choices
    assert "FRA (France)" in mark.message
    known = _found(bench, streams, kitchen=Kitchen(region="FRA"))
    assert 0 not in known.marks


def test_keeping_cold_takes_its_share_of_the_appliance(bench: Workbench, streams: Streams) -> None:
    kitchen = replace(UK, freezer_litres=200.0, freezer_kwh_per_year=219.0)
    found = _found(bench, streams, front="makes: 2 litres\nkeep: {where: freezer, days: 50}",
                   kitchen=kitchen)  # fmt: skip
    # 219 kWh a year is 0.6 a day; 2 of 100 filled litres for 50 days: 0.6 kWh × 0.21579 kg/kWh as
    # generated, of which 0.0183 in 0.22535 are lost on the way.
    kwh = 0.6 * 0.21579 / (1 - 0.0183 / 0.22535)
    assert _stage(found, "home storage") * found.serves == pytest.approx(kwh, rel=1e-4)


def test_what_is_not_eaten_is_charged_to_what_is(bench: Workbench, streams: Streams) -> None:
    whole, half = _found(bench, streams), _found(bench, streams, front="eaten: 0.5")
    thrown = next(
        part.kgco2e.mean for part in half.items if part.item.name.startswith("cooked and not eaten")
    )
    assert half.static - thrown == pytest.approx(2 * whole.static, rel=1e-9)
    assert half.function.kg == pytest.approx(whole.function.kg or 0)


def test_a_shared_oven_bears_its_part(bench: Workbench, streams: Streams) -> None:
    text = "---\nserves: 2\n{front}\n---\n# Bake\n\n- 500 g potatoes\n\n1. Bake at 200C for 40 minutes.\n"
    alone, shared = (
        assessed(Order(read_text(text.format(front=front)), UK), bench, streams).footprint
        for front in ("", "oven_shared_by: 4")
    )
    assert _stage(alone, "cooking") == pytest.approx(4 * _stage(shared, "cooking"), rel=1e-9)


CORDIAL = """---
makes: 1 litre of cordial, for 10 glasses
serves: 10
bought: {{what: lemonade, container: {pack}, region: uk}}
---
# Cordial

- 300 g sugar
- 700 ml water
- 2 lemons
- 2 litres sparkling water, made in the soda machine

1. Heat the water and the sugar to a simmer.
"""


def _drinks(
    bench: Workbench, streams: Streams, pack: str, kitchen: Kitchen = UK
) -> tuple[Footprint, Footprint, Pair]:
    order = Order(read_text(CORDIAL.format(pack=pack)), kitchen)
    found = compared([order, replace(order, version="bought", name="bought")], bench, streams)
    return found.items[0][1], found.items[1][1], found.pairs[0]


def test_gas_balances_and_is_told_both_ways(bench: Workbench, streams: Streams) -> None:
    by_product, _, _ = _drinks(bench, streams, "330 ml can")
    air, _, _ = _drinks(bench, streams, "330 ml can", replace(UK, gas="captured"))
    gas = by_product.fizz
    assert gas is not None
    assert air.fizz is not None
    assert gas.dissolved + gas.vented == pytest.approx(gas.charged)
    assert gas.charged == pytest.approx(0.2002 * CHARGED.value / 1000, rel=1e-6)
    assert gas.left_in_cylinder / gas.released == pytest.approx(LEFT.value)
    assert by_product.static - air.static == pytest.approx(gas.released, rel=1e-9)
    assert gas.if_not == pytest.approx(air.static, rel=1e-9)
    assert air.fizz.if_counted == pytest.approx(by_product.static, rel=1e-9)


def test_what_is_bought_is_as_much_in_its_own_pack(bench: Workbench, streams: Streams) -> None:
    home, bought, pair = _drinks(bench, streams, "330 ml can")
    assert bought.function.kg == pytest.approx(home.function.kg)
    assert _replaced(bought).keys() == {"packaging", "transport"}
    assert bought.packaging is not None
    ((name, cans, _),) = bought.packaging.packs
    assert name == "330 ml can"
    assert bought.packaging.by_material == {"aluminium": pytest.approx(cans * 0.013)}
    assert home.packaging is not None
    assert home.packaging.not_transported > 0.2
    assert pair.packaging_avoided == pytest.approx(bought.packaging.kg)
    lives = [even.per for even in pair.break_even if "soda machine" in even.per]
    assert len(lives) == 1


def test_glass_used_once_is_the_heaviest_way_to_buy_a_drink(
    bench: Workbench, streams: Streams
) -> None:
    packs = ("2 l PET bottle", "330 ml can", "0.75 l glass bottle")
    by_pack = {pack: _drinks(bench, streams, pack)[1] for pack in packs}
    assert max(by_pack, key=lambda pack: by_pack[pack].static) == "0.75 l glass bottle"
    # Changing the pack keeps the draw of what is in it.
    contents = [found.item_draws[0] for found in by_pack.values()]
    assert all(np.array_equal(contents[0], one) for one in contents)


@pytest.mark.parametrize(
    ("warmed", "uses"),
    [
        ("in the microwave for 4 minutes", {"microwave, 4 min"}),
        ("on the hob for 5 minutes", {"heat, 5 min"}),
        (
            "in the oven at 180C for 25 minutes",
            {"preheat the oven", "bake, 25 min", "heat the food in the oven"},
        ),
    ],
)
def test_a_bought_dish_is_warmed_as_the_cook_says(
    bench: Workbench, streams: Streams, warmed: str, uses: set[str]
) -> None:
    front = f"bought: {{what: lasagne, container: ready-meal tray, warmed: {warmed}}}"
    hot = _found(bench, streams, front=front, version="bought")
    cold = _found(bench, streams, front=front.partition(", warmed")[0] + "}", version="bought")
    assert {part.item.name for part in hot.items if part.item.kind == "energy"} == uses
    assert hot.static - cold.static == pytest.approx(_stage(hot, "cooking"), rel=1e-9)
    assert _stage(cold, "cooking") == 0


def test_a_bought_dish_of_which_nobody_says_how_it_is_warmed_says_so(bench: Workbench) -> None:
    for what, kinds in (("lasagne", ["warming-unsaid"]), ("lemonade", [])):
        recipe = read_text(
            SOUP.format(front=f"bought: {{what: {what}, container: tray}}", lines="")
        )
        read = mark(Order(recipe, UK, "bought"), bench)
        assert [one.kind for one in read.marks] == kinds


def test_a_version_may_be_what_is_bought(bench: Workbench, streams: Streams) -> None:
    front = (
        "bought: {what: tomato soup, container: 400 g tin}\n"
        "versions: {in-a-carton: {bought: {what: tomato soup, container: 600 ml carton}}}"
    )
    tin = _found(bench, streams, front=front, version="bought")
    carton = _found(bench, streams, front=front, version="in-a-carton")
    assert tin.packaging is not None
    assert carton.packaging is not None
    assert (tin.packaging.packs[0][0], carton.packaging.packs[0][0]) == (
        "400 g tin",
        "600 ml carton",
    )
    assert tin.item_draws[0].tolist() == carton.item_draws[0].tolist()  # one purchase, two packs
    edition = proof(Order(read_text(SOUP.format(front=front, lines="")), UK), bench, streams)
    assert [version.name for version in edition.versions] == ["as written", "in-a-carton", "bought"]
    assert edition.versions[1].changes == ("tomato soup from the shop, in 600 ml carton",)


def test_steps_that_are_skipped_take_nothing(bench: Workbench, streams: Streams) -> None:
    front = "versions: {cold: {skips: [1], keep: []}}\nkeep: {where: fridge, days: 1}"
    cold = _found(bench, streams, front=front, version="cold")
    assert _stage(cold, "cooking") == 0
    assert _stage(cold, "home storage") == 0


def test_days_in_the_freezer_up_to_which_keeping_is_no_worse(
    bench: Workbench, streams: Streams
) -> None:
    front = "keep: {where: freezer, days: 30}\nversions: {beef: {keep: [], swap: {tomatoes: 800 g beef mince}}}"
    recipe = read_text(SOUP.format(front=front, lines=""))
    kept = Order(recipe, UK, name="kept")
    (pair,) = compared([kept, replace(kept, version="beef", name="beef")], bench, streams).pairs
    even = next(one for one in pair.break_even if one.per.startswith("days in the freezer"))
    assert even.share_never < 0.01
    assert even.at is not None
    days = replace(recipe, keep=(replace(recipe.keep[0], days=even.at.mean),))
    sides = [replace(kept, recipe=days), replace(kept, version="beef", name="beef")]
    (there,) = compared(sides, bench, streams).pairs
    assert there.difference is not None
    assert there.difference.mean == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("range_for", ["one-purchase", "the-average"])
def test_home_made_and_shop_bought_soup_share_what_is_really_shared(
    bench: Workbench, streams: Streams, range_for: str
) -> None:
    kitchen = replace(UK, range_for=range_for)  # type: ignore[arg-type]
    recipe = read_text(
        SOUP.format(front="bought: {what: tomato soup, container: 1 litre carton}", lines="")
    )
    home = Order(recipe, kitchen, name="home")
    bought = replace(home, version="bought", name="bought")
    found = compared([home, bought, home], bench, streams)
    pair, itself, _ = found.pairs
    assert pair.factor_set == "national"
    assert not any("tomato" in name for name in pair.shares_draws_of)
    assert itself.draws is not None
    assert not itself.draws.any()
    keys = [
        {key.key for part in side.items if part.item.food for key in part.item.worth.parameters}
        for _, side in found.items[:2]
    ]
    assert not keys[0] & keys[1]
    if range_for == "one-purchase":
        assert all(key.endswith("|bought:tomato soup") for key in keys[1])


def test_the_proof_shows_what_is_bought(bench: Workbench, streams: Streams) -> None:
    edition = proof(Order(read_text(CORDIAL.format(pack="330 ml can")), UK), bench, streams)
    assert [version.name for version in edition.versions] == ["as written", "bought"]
    assert edition.versions[1].changes == ("lemonade from the shop, in 330 ml can, uk",)
    assert edition.packaging is not None
    assert (edition.packaging.avoided or 0) > 0
    assert edition.fizz is not None


def test_what_is_carried_over_is_charged_once(bench: Workbench, streams: Streams) -> None:
    text = (
        "---\nserves: 4\n{front}\n---\n# Juice\n\n- 1 kg rhubarb\n- 1 litre water\n\n"
        "1. Simmer the rhubarb in the water for 15 minutes.\n2. Strain through a cloth.\n"
    )
    binned, kept = (
        assessed(Order(read_text(text.format(front=front)), UK), bench, streams).footprint
        for front in ("", "carried_over: [rhubarb pulp]")
    )
    names = [part.item.name for part in kept.items]
    assert not any(name.startswith("what is strained") for name in names)
    assert _stage(binned, "production") == pytest.approx(_stage(kept, "production"), rel=1e-12)
    assert _stage(binned, "end of life") > _stage(kept, "end of life")
    assert any("charged once" in said for said in kept.assumed)


def test_nothing_optional_is_counted_unless_asked(bench: Workbench, streams: Streams) -> None:
    usual = _found(bench, streams)
    asked = _found(bench, streams, front="also_count: [shopping trip, washing up, appliances]")
    extra = {part.item.name for part in asked.items} - {part.item.name for part in usual.items}
    assert extra == {"shopping trip, its share", "washing up", "appliances, their share"}


def test_a_gas_comparison_that_rests_on_what_one_region_leaves_out_is_refused(
    bench: Workbench, streams: Streams
) -> None:
    recipe = read_text(
        "---\nserves: 2\n---\n# Hot water\n\n- 2 litres water\n\n1. Boil for 30 minutes.\n"
    )
    uk, us = (
        Order(recipe, Kitchen(region=region, hob="gas"), name=region) for region in ("uk", "us")
    )
    (pair,) = compared([uk, us], bench, streams).pairs
    assert pair.difference is None
    assert pair.reason is not None
    assert "leaves out upstream" in pair.reason
    electric = [replace(one, kitchen=replace(one.kitchen, hob="induction")) for one in (uk, us)]
    (pair,) = compared(electric, bench, streams).pairs
    assert pair.difference is not None


def test_a_grid_comparison_that_rests_on_losses_is_refused_or_noted(
    bench: Workbench, streams: Streams
) -> None:
    # As generated: eu 0.213, uk 0.216, AUS 0.554 kg CO2e a kWh. The uk's losses are in, those of the
    # other two are not known: up to 18 % may turn the first pair, never the second.
    recipe = read_text(
        "---\nserves: 2\n---\n# Hot water\n\n- 2 litres water\n\n1. Boil for 30 minutes.\n"
    )
    uk, eu, aus = (
        Order(recipe, Kitchen(region=region, hob="induction"), name=region)
        for region in ("uk", "eu", "AUS")
    )
    (near,) = compared([uk, eu], bench, streams).pairs
    assert near.difference is None
    assert near.reason is not None
    assert "electricity figure for eu leaves out grid losses" in near.reason
    (far,) = compared([uk, aus], bench, streams).pairs
    assert far.difference is not None
    assert "boundaries-differ" in {mark.kind for mark in far.marks}
