"""Scaling to what there is: amounts that can be measured, pots, jars to their freeze line."""

from __future__ import annotations

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.batch.measurable import LEAST_SPOON
from counterproof.batch.scaling import Measures, having, scaled_lines
from counterproof.batch.splitting import FULL, split_over
from counterproof.draws import Streams
from counterproof.errors import InputError
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.recipe.text import read_text, write_text
from counterproof.scaling_cases import Wish, scaled
from counterproof.use_cases import Order, Workbench, mark

STEW = """# Stew

Serves 4

## Ingredients

- 1.2 kg butternut squash, peeled
- 2 x 400 g tins chopped tomatoes
- 3 onions, chopped
- 2 tbsp olive oil
- 1 tsp ground cumin
- 1 litre vegetable stock
- a handful of parsley
- 2 bay leaves
- a pinch of chilli flakes
- salt
- a glug of vinegar (weighed 28 g, give or take 1 g)

## Method

1. Soften the onions in the oil for 8 minutes.
2. Add everything else and simmer, covered, for 30 minutes.
3. Leave to cool, then chill in the fridge overnight.
"""
POTS = (Vessel("saucepan", 3.0, 0.2, 0.9), Vessel("stockpot", 15.0, 0.3, 2.6))
KITCHEN = Kitchen(vessels=POTS, tools=("scale to 1 g",))


@pytest.fixture(scope="module")
def reading(bench: Workbench) -> Reading:
    return mark(Order(read_text(STEW), KITCHEN), bench)


@pytest.fixture(scope="module")
def streams() -> Streams:
    return Streams(seed=1, n=400)


def _masses(reading: Reading) -> list[float]:
    return [
        sum(part.mass.mean for part in line.constituents if part.mass is not None)
        for line in reading.lines
    ]


@pytest.mark.property
@settings(max_examples=30, deadline=None)
@given(factor=st.floats(0.3, 12.0), measuring=st.sampled_from(["as written", "metric", "us"]))
def test_amounts_come_within_what_is_marked_and_never_below_what_can_be_measured(
    reading: Reading, bench: Workbench, factor: float, measuring: str
) -> None:
    measures = Measures(0.001, measuring)  # type: ignore[arg-type]
    _, lines, _ = scaled_lines(reading, factor, 1, measures, bench.tables, bench.matcher)
    for line in lines:
        effect = line.effect
        assert effect is not None, line.text
        if not line.marks:
            assert abs(effect) <= 0.30, line
        weight = re.search(r"(?:^|weighed )([\d.]+) (g|kg)\b", line.text)
        if weight is not None and not line.marks:
            grams = float(weight[1]) * (1000 if weight[2] == "kg" else 1)
            assert grams >= 1.0
        spoon = re.match(r"([\d.⅛¼½¾]+) tsp", line.text)
        if spoon is not None and not line.marks:
            value = {"⅛": 0.125, "¼": 0.25, "½": 0.5, "¾": 0.75}.get(spoon[1])
            assert value is None or value >= LEAST_SPOON


@pytest.mark.property
@settings(max_examples=20, deadline=None)
@given(factor=st.floats(0.5, 6.0))
def test_scaled_up_and_down_again_comes_back_within_what_rounding_did(
    reading: Reading, bench: Workbench, factor: float
) -> None:
    measures = Measures(0.001)
    recipe, up, _ = scaled_lines(reading, factor, 1, measures, bench.tables, bench.matcher)
    there = mark(Order(recipe, KITCHEN), bench)
    _, down, _ = scaled_lines(there, 1.0 / factor, 1, measures, bench.tables, bench.matcher)
    for first, second, before in zip(up, down, _masses(reading), strict=True):
        if before == 0.0 or first.as_written == "salt":  # a line without an amount stays as it is
            continue
        effects = (1.0 + (first.effect or 0.0)) * (1.0 + (second.effect or 0.0))
        assert second.measured_kg is not None
        assert second.measured_kg == pytest.approx(before * effects, rel=1e-6, abs=1e-9)


def test_once_the_recipe_is_the_recipe(reading: Reading, bench: Workbench) -> None:
    _, lines, _ = scaled_lines(reading, 1.0, 1, Measures(0.001), bench.tables, bench.matcher)
    for line in lines:
        assert line.effect == pytest.approx(0.0, abs=0.05)


def test_weighed_lines_stay_weighed_to_the_gram(reading: Reading, bench: Workbench) -> None:
    recipe, lines, _ = scaled_lines(reading, 2.5, 1, Measures(0.001), bench.tables, bench.matcher)
    assert lines[-1].text == "vinegar (weighed 70 g)"
    again = mark(Order(read_text(write_text(recipe)), KITCHEN), bench)
    assert _masses(again)[-1] == pytest.approx(0.07)


@pytest.mark.parametrize(
    ("line", "factor", "text"),
    [
        ("2 x 400 g tins chopped tomatoes", 1.5, "3 x 400 g tins chopped tomatoes"),
        ("4 large leeks, sliced", 0.6, "2½ large leeks, sliced"),
        ("1 tsp ground cumin", 3.0, "1 tbsp ground cumin"),
        ("2 tbsp olive oil", 1.2, "2 tbsp + 1 tsp olive oil"),
        ("650–700 g granulated sugar", 0.5, "325–350 g granulated sugar"),
        ("500 g red lentils, rinsed", 3.0, "1.5 kg red lentils, rinsed"),
        ("1.3 litres hot vegetable stock", 0.6, "780 ml hot vegetable stock"),
        ("3 celery sticks, chopped", 2.0, "6 celery sticks, chopped"),
        ("2 squash, about 1 kg altogether, peeled", 2.0, "2 kg squash, peeled"),
    ],
)
def test_lines_keep_their_words(bench: Workbench, line: str, factor: float, text: str) -> None:
    recipe = read_text(
        f"# Dish\n\nmeasures: uk\n\nServes 4\n\n- {line}\n- 1 kg potatoes\n\n1. Boil.\n"
    )
    reading = mark(Order(recipe, KITCHEN), bench)
    _, lines, _ = scaled_lines(reading, factor, 1, Measures(0.001), bench.tables, bench.matcher)
    assert lines[0].text == text


@pytest.mark.parametrize(
    ("line", "text"),
    [
        ("2 medium squash, about 2.2 kg altogether", "9 lb 11 oz squash"),
        ("1.2 litres vegetable stock", "2½ quarts vegetable stock"),
        ("2 tbsp cornflour", "¼ cup cornflour"),
    ],
)
def test_american_measures_keep_the_mass_and_the_food(
    bench: Workbench, line: str, text: str
) -> None:
    recipe = read_text(
        f"---\nmeasures: uk\n---\n# Dish\n\nServes 4\n\n- {line}\n- 1 kg potatoes\n\n1. Boil.\n"
    )
    reading = mark(Order(recipe, KITCHEN), bench)
    _, (found, _), _ = scaled_lines(
        reading, 2.0, 1, Measures(0.001, "us"), bench.tables, bench.matcher
    )
    assert found.effect is not None
    assert abs(found.effect) < 0.06
    assert found.text.startswith(text)
    assert "another-food" not in {one.kind for one in found.marks}


def test_too_little_is_marked_with_a_way_to_measure_it(reading: Reading, bench: Workbench) -> None:
    _, lines, _ = scaled_lines(reading, 0.05, 1, Measures(0.005), bench.tables, bench.matcher)
    marked = {line.number for line in lines for mark in line.marks if mark.level == "doubt"}
    assert {5, 7, 9} <= marked


def test_what_there_is_of_one_ingredient_decides(reading: Reading, bench: Workbench) -> None:
    factor, said = having("1.8 kg squash", reading, bench.tables, bench.matcher)
    assert factor == pytest.approx(1.5)
    assert "asks for 1.20" in said
    with pytest.raises(InputError, match="No line"):
        having("1 kg rhubarb", reading, bench.tables, bench.matcher)
    with pytest.raises(InputError):
        having("squash", reading, bench.tables, bench.matcher)


@pytest.mark.parametrize(
    ("litres", "stations", "hobs", "pots", "rounds"),
    [
        (10.0, None, None, 1, 1),
        (12.0, None, None, 2, 2),
        (30.0, None, 2, 3, 2),
        (12.0, 10, 5, 10, 2),
    ],
)
def test_pots_are_never_fuller_than_they_may_boil(
    reading: Reading, litres: float, stations: int, hobs: int, pots: int, rounds: int
) -> None:
    split = split_over(litres, reading, room=None, stations=stations, hobs=hobs)
    assert (split.pots, split.rounds) == (pots, rounds)
    assert split.vessel is not None
    assert split.litres <= FULL.value * (split.vessel.litres or 0.0) + 1e-9
    assert split.litres * split.pots == pytest.approx(litres)


@pytest.mark.parametrize(
    "wish", [Wish(), Wish(serves=4, jars=(6, 473e-6)), Wish(have="1 kg squash", serves=3)]
)
def test_one_thing_decides_the_size(bench: Workbench, streams: Streams, wish: Wish) -> None:
    with pytest.raises(InputError):
        scaled(Order(read_text(STEW), KITCHEN), bench, streams, wish)


def test_a_pot_that_is_named_is_the_pot(bench: Workbench, streams: Streams) -> None:
    found = scaled(Order(read_text(STEW), KITCHEN), bench, streams, Wish(serves=20.0, pot=7.0))
    assert (found.split.vessel, found.split.room) == (None, 7.0)
    assert found.split.pots > 1
    assert "no-pot" not in {one.kind for one in found.marks}


def test_a_pot_decides_and_is_three_quarters_full(bench: Workbench, streams: Streams) -> None:
    found = scaled(Order(read_text(STEW), KITCHEN), bench, streams, Wish(pot=7.0))
    assert found.split.pots == 1
    assert found.split.litres == pytest.approx(0.75 * 7.0, rel=1e-6)


@pytest.mark.published
def test_jars_are_filled_to_the_line_of_the_national_table(
    bench: Workbench, streams: Streams
) -> None:
    # National Center for Home Food Preservation, Headspace to allow between packed food and
    # closure (So Easy to Preserve, 5th ed. 2006): wide-mouth pint, liquid pack, half an inch.
    found = scaled(Order(read_text(STEW), KITCHEN), bench, streams, Wish(jars=(6, 473.176e-6)))
    jars = found.jars
    assert jars is not None
    assert jars.filled.depth >= 0.5 * 0.0254 - 1e-9
    assert jars.litres < 6 * 0.473176
    assert found.factor == pytest.approx(jars.litres / (jars.litres / found.factor))
    assert "freeze-line" in {mark.kind for mark in found.marks}  # it is not kept in a freezer


def test_what_does_not_scale_comes_with_its_number(bench: Workbench, streams: Streams) -> None:
    found = scaled(Order(read_text(STEW), KITCHEN), bench, streams, Wish(serves=16))
    told = {one.what: one for one in found.unscaled}
    assert {"heating up", "simmering", "boiling off", "energy", "cooling", "seasoning"} <= set(told)
    heats = told["heating up"]
    assert heats.before is not None
    assert heats.after is not None
    assert heats.after > 1.5 * heats.before
    steam = told["boiling off"]
    assert steam.before is not None
    assert steam.after is not None
    assert steam.after < found.split.pots * 4.0 * steam.before
    simmer = told["simmering"]
    assert simmer.before == simmer.after


def test_a_recipe_at_its_own_size_is_told_nothing(bench: Workbench, streams: Streams) -> None:
    assert scaled(Order(read_text(STEW), KITCHEN), bench, streams, Wish(serves=4)).unscaled == ()
