"""The pantry file."""

import pytest

from counterproof.errors import BrokenSettings
from counterproof.recipe.pantry_file import InPantry, read_pantry
from counterproof.recipe.prices_file import PackSize


def test_an_amount_may_be_left_out() -> None:
    pantry = read_pantry("pantry:\n  - {food: salt}\n  - {food: oil, amount: 500 ml}\n", "p.yaml")
    assert pantry.foods == (
        InPantry("salt", None, 2),
        InPantry("oil", PackSize("volume", 0.0005), 3),
    )


def test_an_unknown_key_is_named_with_its_line() -> None:
    with pytest.raises(BrokenSettings, match="amuont") as caught:
        read_pantry("pantry:\n  - {food: salt, amuont: 3 g}\n", "p.yaml")
    assert caught.value.line == 2


def test_an_amount_that_is_none_is_named() -> None:
    with pytest.raises(BrokenSettings, match="plenty"):
        read_pantry("pantry:\n  - {food: salt, amount: plenty of it}\n")
