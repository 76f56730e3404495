"""A climate win that loses on land, fresh water or nutrients says so."""

from __future__ import annotations

import pytest

from counterproof.comparison.paired import Pair
from counterproof.comparison.trade_offs import TradeOff
from counterproof.draws import Streams
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, compared

TWO = """---
serves: 1
versions:
  other: {{swap: {{"{food}": "{b}"}}}}
---
# Plate

- {a}
- 200 g onions
"""


def _pair(bench: Workbench, streams: Streams, a: str, b: str) -> Pair:
    recipe = read_text(TWO.format(a=a, b=b, food=a.split(" g ")[1]))
    orders = [
        Order(recipe, Kitchen(), version, name=version or "first") for version in (None, "other")
    ]
    (pair,) = compared(orders, bench, streams).pairs
    return pair


def _of(pair: Pair, kind: str) -> TradeOff:
    return next(one for one in pair.traded.found if one.kind == kind)


@pytest.mark.published
def test_means_are_the_published_ones(bench: Workbench, streams: Streams) -> None:
    # Poore & Nemecek 2018, Data S2, per kg: nuts 12.96 m², 4133.8 L, 19.15 g PO4e; pig meat 17.36,
    # 1795.8, 76.38; onions 0.39, 14.3, 3.24, as bought: 200 g of ours, peel and all.
    pair = _pair(bench, streams, "100 g shelled almonds", "100 g pork mince")
    for kind, nuts, pork, onion in (
        ("land", 12.96, 17.36, 0.39),
        ("fresh water", 4133.8, 1795.8, 14.3),
        ("eutrophication", 19.15, 76.38, 3.24),
    ):
        found = _of(pair, kind)
        assert found.a == pytest.approx(0.1 * nuts + 0.2 * onion, rel=0.02)
        assert found.b == pytest.approx(0.1 * pork + 0.2 * onion, rel=0.02)


def test_a_win_on_climate_that_loses_on_water_is_said(bench: Workbench, streams: Streams) -> None:
    # Farmed fish 13.63 kg CO2e and 3691 L a kg, lamb 39.72 and 1803: the fish wins and loses.
    pair = _pair(bench, streams, "150 g farmed salmon fillet", "150 g boneless lamb")
    water = _of(pair, "fresh water")
    assert pair.share_a_lower is not None
    assert pair.share_a_lower > 0.9
    assert water.loses
    assert water.ratio == pytest.approx(3691.3 / 1802.8, rel=0.02)
    (said,) = [mark for mark in pair.marks if "fresh water" in mark.message]
    assert (said.kind, said.level) == ("trade-off", "note")
    assert "first takes 2.0 times the fresh water of other" in said.message.replace("\xa0", " ")
    assert not _of(pair, "land").loses
    told = next(one for one in pair.to_dict()["trade_offs"] if one["burden"] == "fresh water")
    assert told["climate_win_loses"] is True
    assert told["unit"] == "litre"


def test_it_is_the_winner_that_loses_whichever_side_it_stands_on(
    bench: Workbench, streams: Streams
) -> None:
    pair = _pair(bench, streams, "150 g boneless lamb", "150 g farmed salmon fillet")
    assert _of(pair, "fresh water").loses
    assert any("other takes 2.0 times" in m.message.replace("\xa0", " ") for m in pair.marks)


def test_a_win_all_along_the_line_says_nothing(bench: Workbench, streams: Streams) -> None:
    pair = _pair(bench, streams, "150 g dried lentils", "600 g beef chuck")
    assert not any(one.loses for one in pair.traded.found)
    assert not any(mark.kind == "trade-off" for mark in pair.marks)


def test_what_both_share_cancels_draw_by_draw(bench: Workbench, streams: Streams) -> None:
    pair = _pair(bench, streams, "150 g dried lentils", "151 g dried lentils")
    # One purchase, weighed twice: either may be the heavier, as for climate.
    assert pair.share_a_lower is not None
    assert _of(pair, "land").share_a_lower == pytest.approx(pair.share_a_lower, abs=0.05)


def test_nothing_is_compared_where_a_food_has_no_row(bench: Workbench, streams: Streams) -> None:
    pair = _pair(bench, streams, "50 g butter", "50 g honey")
    assert pair.traded.found == ()
    assert pair.to_dict()["trade_offs_not_covered"] == ["butter", "honey"]
