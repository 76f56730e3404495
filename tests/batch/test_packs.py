"""Packs off the shelf: enough, for the least money, with as little over as can be."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.batch.packs import OnShelf, packs_for

KILO, HALF, TWO = OnShelf(1.0, "1 kg"), OnShelf(0.5, "500 g"), OnShelf(2.0, "2 kg")
sizes = st.lists(
    st.builds(
        OnShelf,
        st.floats(0.05, 5.0),
        st.just("pack"),
        st.one_of(st.none(), st.floats(0.1, 20.0)),
    ),
    min_size=1,
    max_size=3,
)


@pytest.mark.property
@given(st.floats(0.0, 30.0), sizes)
def test_never_buys_less_than_needed_nor_a_pack_too_many(need: float, shelf: list[OnShelf]) -> None:
    taken = packs_for(need, shelf)
    held = sum(pack.kg * count for pack, count in taken)
    assert held >= need - 1e-6
    assert all(held - pack.kg < need for pack, _ in taken)  # none could be put back


def test_takes_what_leaves_least() -> None:
    assert packs_for(2.4, [KILO, TWO, HALF]) == ((TWO, 1), (HALF, 1))
    assert packs_for(2.0, [KILO, TWO]) == ((TWO, 1),)  # of equals the fewest


def test_takes_the_cheapest_where_all_have_a_price() -> None:
    # Worked by hand: two halves cost 3.00, one kilo 2.10, though 0.1 kg more is left.
    kilo, half = OnShelf(1.0, "1 kg", 2.10), OnShelf(0.45, "450 g", 1.50)
    assert packs_for(0.9, [kilo, half]) == ((kilo, 1),)


def test_nothing_is_taken_for_nothing() -> None:
    assert packs_for(0.0, [KILO]) == ()


def test_an_empty_shelf_is_a_fault_of_the_caller() -> None:
    with pytest.raises(ValueError, match="shelf"):
        packs_for(1.0, [])
