"""What the demo season shows: the choices a cook tells an audience of, over kitchens and places."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from counterproof.adapters.files import demo_season, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.comparison.break_even import BreakEven
from counterproof.comparison.paired import Comparison, Pair
from counterproof.draws import Streams
from counterproof.footprint.model import Footprint
from counterproof.recipe.kitchen import Kitchen
from counterproof.use_cases import Order, Workbench, assessed, compared

LIKELY = 0.66
"""IPCC, Mastrandrea et al. 2010: "likely" is 66 to 100 %, "virtually certain" 99 to 100 %."""


def _order(episode: str, **kitchen: object) -> Order:
    recipe, _ = load_recipe(str(demo_season() / "episodes" / episode))
    made: Kitchen = load_kitchen(recipe)
    return Order(recipe, replace(made, **kitchen), name="as written")  # type: ignore[arg-type]


def _compared(
    order: Order, names: tuple[str, ...], bench: Workbench, streams: Streams
) -> Comparison:
    orders = [order, *(replace(order, version=name, name=name) for name in names)]
    return compared(orders, bench, streams)


def _pair(found: Comparison, a: str, b: str) -> Pair:
    return next(pair for pair in found.pairs if (pair.a, pair.b) == (a, b))


def _stage(found: Footprint, stage: str) -> float:
    return sum(part.kgco2e.mean for part in found.stages if part.stage == stage)


def _even(pair: Pair, start: str) -> BreakEven:
    return next(even for even in pair.break_even if even.per.startswith(start))


@pytest.mark.parametrize("hob", ["induction", "gas"])
@pytest.mark.parametrize("region", ["uk", "FRA", "POL"])
def test_beans_below_chicken_below_beef_on_every_hob(
    bench: Workbench, streams: Streams, hob: str, region: str
) -> None:
    stew = _order("01-squash-and-bean-stew", hob=hob, region=region)
    found = _compared(stew, ("chicken", "beef"), bench, streams)
    for a, b in (("as written", "chicken"), ("as written", "beef"), ("chicken", "beef")):
        pair = _pair(found, a, b)
        assert pair.share_a_lower is not None
        assert pair.share_a_lower > 0.9
        assert pair.factor_set == "global"
    beef = _pair(found, "as written", "beef")
    assert beef.ratio is not None
    assert beef.ratio.p95 < 0.5  # the beans are less than half, wherever they are cooked
    assert {trade.kind: trade.loses for trade in beef.traded.found} == {
        "land": False,
        "fresh water": False,
        "eutrophication": False,
    }


def test_the_grid_decides_whether_induction_or_gas_is_lower(
    bench: Workbench, streams: Streams
) -> None:
    # Per kWh as it arrives: FRA 0.047, uk 0.235, POL 0.657; gas 0.213 with its supply, of which a
    # burner puts less than half into the pot.
    cooking = {
        (region, hob): _stage(
            assessed(_order("01-squash-and-bean-stew", region=region, hob=hob), bench, streams,
                     verdicts=False).footprint,
            "cooking",
        )
        for region in ("uk", "FRA", "POL")
        for hob in ("induction", "gas")
    }  # fmt: skip
    assert cooking["FRA", "induction"] < cooking["uk", "induction"] < cooking["POL", "induction"]
    assert cooking["FRA", "gas"] == pytest.approx(cooking["POL", "gas"], rel=0.1)
    assert cooking["FRA", "induction"] < cooking["FRA", "gas"]
    assert cooking["uk", "induction"] < cooking["uk", "gas"]
    assert cooking["POL", "induction"] > cooking["POL", "gas"]


def test_a_home_fizzed_glass_against_can_pet_and_glass(bench: Workbench, streams: Streams) -> None:
    cordial = _order("02-rhubarb-cordial")
    found = _compared(cordial, ("bought", "in-pet", "in-glass"), bench, streams)
    bought = {name: footprint.static for name, footprint in found.items}
    # The published order of the packs (Amienyo et al. 2013): PET, then the can, then glass once.
    assert bought["in-pet"] < bought["bought"] < bought["in-glass"]
    glass = _pair(found, "as written", "in-glass")
    assert glass.share_a_lower is not None
    assert glass.share_a_lower > 0.99
    # Against can and PET nobody can say: as likely as not, and so never with certainty.
    for name in ("bought", "in-pet"):
        pair = _pair(found, "as written", name)
        assert pair.share_a_lower is not None
        assert 0.33 < pair.share_a_lower < 0.9
        assert _even(pair, "litres in the life").share_never > 0.1


@pytest.mark.parametrize("name", ["bought", "in-glass"])
def test_the_break_even_in_litres_is_where_the_sides_are_equal(
    bench: Workbench, streams: Streams, name: str
) -> None:
    found = _compared(_order("02-rhubarb-cordial"), (name,), bench, streams)
    even = _even(found.pairs[0], "litres in the life")
    assert even.at is not None
    # The middle is where the sides are equal with every parameter at its mean.
    there = _compared(
        _order("02-rhubarb-cordial", fizz_litres=even.at.mean), (name,), bench, streams
    ).pairs[0]
    assert there.difference is not None
    assert there.difference.mean == pytest.approx(0.0, abs=1e-9)


def test_from_one_litre_to_five_hundred_the_machine_pays_off(
    bench: Workbench, streams: Streams
) -> None:
    litres = (1.0, 5.0, 25.0, 100.0, 500.0)
    differences = []
    for life in litres:
        found = _compared(
            _order("02-rhubarb-cordial", fizz_litres=life), ("bought",), bench, streams
        )
        difference = found.pairs[0].difference
        assert difference is not None
        differences.append(difference.mean)
    assert all(later < sooner for sooner, later in pairwise(differences))
    assert differences[0] > 0 > differences[-1]
    # A share of a thing that lasts n litres is c/n: from 1 to 5 it falls by four fifths.
    fixed = (differences[0] - differences[1]) / 0.8
    assert differences[0] - differences[2] == pytest.approx(fixed * (1 - 1 / 25), rel=1e-6)


def test_soup_frozen_for_three_months_against_made_fresh(
    bench: Workbench, streams: Streams
) -> None:
    soup = _order("03-tomato-soup-in-bulk")
    found = _compared(soup, ("fresh", "three-months"), bench, streams)
    items = dict(found.items)
    assert _stage(items["fresh"], "home storage") == 0
    # The same appliance for twice the days; the one night in the fridge is in both.
    assert _stage(items["three-months"], "home storage") == pytest.approx(
        2 * _stage(items["as written"], "home storage"), rel=0.02
    )
    pair = _pair(found, "fresh", "three-months")
    assert pair.share_a_lower == 1.0
    assert pair.difference is not None
    # It is kept at a cost that is seen, and small: the freezer is no reason not to cook ahead.
    assert 0.02 < -pair.difference.mean / items["fresh"].static < 0.2
    assert _even(pair, "days in the freezer").share_never == 1.0


def test_a_bought_soup_is_warmed_too(bench: Workbench, streams: Streams) -> None:
    found = _compared(_order("03-tomato-soup-in-bulk"), ("bought",), bench, streams)
    soup = dict(found.items)["bought"]
    assert _stage(soup, "cooking") > 0
    assert [part.item.name for part in soup.items if part.item.kind == "energy"] == ["heat, 6 min"]
    assert found.pairs[0].factor_set == "national"
