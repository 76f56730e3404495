"""The price file: packs, days, tariffs, and what is said when one cannot be used."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.errors import BrokenSettings
from counterproof.recipe.prices_file import PackSize, read_prices

FILE = """
currency: £
prices:
  - {food: onions, price: 1.10, pack: 1 kg, date: 2026-11-14, where: market hall}
  - {food: lemon, price: 0.40, pack: 1, date: 2026-11-14}
energy:
  gas: {per_kwh: 0.07, date: 2026-10-01}
"""


def test_a_file_is_read() -> None:
    found = read_prices(FILE, "prices.yaml")
    onions, lemon = found.prices
    assert (onions.food, onions.price, onions.pack) == ("onions", 1.10, PackSize("mass", 1.0))
    assert (onions.date, onions.where, onions.line) == ("2026-11-14", "market hall", 4)
    assert lemon.pack == PackSize("count", 1.0, "piece")
    assert [(one.carrier, one.per_kwh) for one in found.tariffs] == [("gas", 0.07)]
    assert found.currency == "£"


@pytest.mark.parametrize(
    ("pack", "size"),
    [
        ("400 g", PackSize("mass", 0.4)),
        ("1.5kg", PackSize("mass", 1.5)),
        ("1 l", PackSize("volume", 0.001)),
        ("750 ml", PackSize("volume", 0.00075)),
        ("6", PackSize("count", 6.0, "piece")),
        ("each", PackSize("count", 1.0, "piece")),
        ("12 pieces", PackSize("count", 12.0, "piece")),
        ("1 bunch", PackSize("count", 1.0, "bunch")),
        ("2 bunches", PackSize("count", 2.0, "bunch")),
    ],
)
def test_packs_as_people_write_them(pack: str, size: PackSize) -> None:
    (found,) = read_prices(
        f"currency: €\nprices: [{{food: x, price: 1, pack: {pack}, date: 2026-01-02}}]"
    ).prices
    assert found.pack.kind == size.kind
    assert found.pack.measure == size.measure
    assert found.pack.amount == pytest.approx(size.amount)


@pytest.mark.parametrize(
    ("before", "after", "says"),
    [
        ("price: 1.10", "price: cheap", '"cheap" is not a number'),
        ("price: 1.10", "price: -1", "is outside"),
        ("pack: 1 kg", "pack: 0 g", "is no pack"),
        ("pack: 1 kg", "pack: a lot of it", "is no pack"),
        ("date: 2026-11-14, where", "date: last week, where", "is no day"),
        ("currency: £", "money: £", "currency: is needed here"),
        ("where: market hall", "wear: market hall", '"where" is the nearest'),
        ("gas:", "coal:", '"coal" is not a key'),
    ],
)
def test_what_cannot_be_used_is_named_with_its_line(before: str, after: str, says: str) -> None:
    assert before in FILE
    with pytest.raises(BrokenSettings) as caught:
        read_prices(FILE.replace(before, after, 1), "prices.yaml")
    assert says in str(caught.value)
    assert caught.value.file == "prices.yaml"


_VALUE = st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=12))


@pytest.mark.property
@given(
    st.lists(
        st.dictionaries(st.sampled_from(["food", "price", "pack", "date", "where"]), _VALUE),
        max_size=3,
    ),
    _VALUE,
)
def test_any_prices_are_read_or_refused_in_words(rows: list[dict[str, Any]], energy: Any) -> None:
    tree = {"currency": "£", "prices": rows, "energy": energy}
    fault, found = None, None
    try:
        found = read_prices(json.dumps(tree), "prices.yaml")
    except BrokenSettings as caught:
        fault = caught
    assert fault is None or fault.remedy
    assert found is None or all(price.price > 0 and price.pack.amount > 0 for price in found.prices)
