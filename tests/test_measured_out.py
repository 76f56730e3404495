"""What a card says beside the proof: scaled amounts, oven dials, names on the other side."""

from __future__ import annotations

import pytest

from counterproof.forme import Card, Heat
from counterproof.local_names import PAIRS, local_name
from counterproof.measured_out import measured_out
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark


def card(bench: Workbench, *lines: str, steps: str = "Stir.", serves: float | None = None) -> Card:
    """The card of a recipe for four."""
    told = "\n".join(f"- {line}" for line in lines)
    text = f"# Supper\n\nServes 4\n\n{told}\n\n## Method\n\n1. {steps}\n"
    return measured_out(mark(Order(read_text(text), Kitchen(), serves=serves), bench), bench.tables)


def words(bench: Workbench, line: str, serves: float) -> str:
    """One line for other servings."""
    return card(bench, line, serves=serves).lines[0].words


def test_an_unscaled_line_is_the_cooks_own(bench: Workbench) -> None:
    line = "250 g/9 oz kale or chard, stalks out, shredded (a good heap)"
    assert card(bench, line).lines[0].words == line


@pytest.mark.parametrize(
    ("line", "serves", "scaled"),
    [
        ("600 g red lentils", 2, "300 g red lentils"),
        ("600 g red lentils", 8, "1.2 kg red lentils"),
        ("1.2 litres vegetable stock", 1, "300 ml vegetable stock"),
        ("2 x 400 g tins chopped tomatoes", 2, "400 g tin chopped tomatoes"),
        ("2 x 400 g tins chopped tomatoes", 6, "3 × 400 g tins chopped tomatoes"),
        ("juice of 1 lemon", 2, "juice of ½ lemon"),
        ("3 celery sticks, chopped", 8, "6 celery sticks, chopped"),
        ("3–4 onions, roughly chopped", 8, "6–8 onions, roughly chopped"),
        ("4 tbsp olive oil", 6, "6 tbsp olive oil"),
        ("250 g/8 oz kale, shredded", 8, "500 g (1 lb) kale, shredded"),
        ("salt and pepper", 8, "salt and pepper"),
    ],
)
def test_amounts_are_scaled_and_words_kept(
    bench: Workbench, line: str, serves: float, scaled: str
) -> None:
    assert words(bench, line, serves) == scaled


def test_a_weight_that_the_line_gives_is_told_apart_from_an_estimate(bench: Workbench) -> None:
    given, counted = card(bench, "250 g red lentils", "2 onions").lines
    assert given.weighs_as_written
    assert not counted.weighs_as_written


def test_what_is_poured_or_spooned_has_cups_and_what_is_cut_has_none(bench: Workbench) -> None:
    milk, carrots = card(bench, "500 ml whole milk", "500 g carrots").lines
    assert milk.us_measure == "2 cups + 2 tbsp"
    assert (carrots.us_measure, carrots.us_weight) == ("", "1 lb")


# The usual conversion table of British cookery books, from memory: common practice, no source.
@pytest.mark.parametrize(
    ("written", "heat"),
    [
        ("180°C/160°C fan/gas 4", Heat("180 °C", "350 °F", "160 °C", "4")),
        ("200C (180C fan)", Heat("200 °C", "400 °F", "180 °C", "6")),
        ("a 160C fan oven", Heat("180 °C", "350 °F", "160 °C", "4")),
        ("180C fan", Heat("200 °C", "400 °F", "180 °C", "6")),
        ("350°F", Heat("180 °C", "350 °F", "160 °C", "4")),
        ("190 °C/375 °F/gas 5", Heat("190 °C", "375 °F", "170 °C", "5")),
        ("gas mark 7", Heat("220 °C", "425 °F", "200 °C", "7")),
    ],
)
def test_an_oven_is_told_on_four_dials_once(bench: Workbench, written: str, heat: Heat) -> None:
    assert card(bench, "1 kg potatoes", steps=f"Bake at {written} for 40 minutes.").steps[
        0
    ].heats == (heat,)


def test_two_settings_and_the_foods_own_temperature_stand_apart(bench: Workbench) -> None:
    text = "Roast at 220C for 20 minutes, then at 180C for an hour, until 75C inside."
    told = card(bench, "1 chicken", steps=text).steps[0].heats
    assert [heat.celsius for heat in told] == ["220 °C", "180 °C", "75 °C"]
    assert told[2] == Heat("75 °C", "167 °F")


@pytest.mark.parametrize(
    ("food", "written", "found"),
    [
        ("courgette", "courgettes", ("us", "zucchini")),
        ("courgette", "zucchini", ("uk", "courgette")),
        ("courgette", "yellow squash", None),
        ("onion", "onions", None),
    ],
)
def test_a_name_is_told_on_the_other_side(
    food: str, written: str, found: tuple[str, str] | None
) -> None:
    assert local_name(food, written) == found


@pytest.mark.parametrize("food", PAIRS)
def test_both_names_stand_in_the_table_of_names(bench: Workbench, food: str) -> None:
    known = {(row.name, row.region) for row in bench.tables.names if row.food == food}
    for name, region in zip(PAIRS[food], ("uk", "us"), strict=True):
        assert known & {(name, region), (name, "")}, (name, region)
