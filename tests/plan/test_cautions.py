"""Cautions stand wherever someone could be hurt, and only there."""

from __future__ import annotations

import pytest

from counterproof.plan.cautions import cautions_of
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark


def ids(text: str, bench: Workbench) -> set[str]:
    recipe = read_text(text)
    return {caution.id for caution in cautions_of(mark(Order(recipe, Kitchen()), bench))}


@pytest.mark.parametrize(
    ("lines", "steps", "expected"),
    [
        ("2 tbsp honey\n- 1 litre water", "Stir.", "honey"),
        ("400 g rhubarb", "Stew gently.", "rhubarb-leaves"),
        ("1 chicken (1.5 kg)", "Roast for 90 minutes.", "core-temperature"),
        ("1 litre vegetable stock", "Cool, pour into jars and freeze.", "jars-in-the-freezer"),
        ("1 litre vegetable stock", "Cool and chill in the fridge.", "cooling"),
        ("1 litre water", "Carbonate the water in the machine.", "pressure"),
        ("2 eggs", "Whisk with the sugar and serve.", "raw-egg"),
        ("300 g dried kidney beans", "Soak overnight, then simmer.", "kidney-beans"),
        ("500 g potatoes\n- 1 litre sunflower oil", "Deep-fry until golden.", "hot-oil"),
        ("500 g sugar\n- 500 ml water", "Boil and pour into warm bottles.", "hot-glass"),
    ],
)
def test_a_hazard_brings_its_caution(
    lines: str, steps: str, expected: str, bench: Workbench
) -> None:
    assert expected in ids(f"# Dish\n\nServes 4\n\n- {lines}\n\n1. {steps}\n", bench)


@pytest.mark.parametrize(
    ("title", "lines", "steps", "keep", "expected"),
    [
        ("Cordial", "500 g sugar\n- 1 litre water", "Boil.", "", "cordial-at-room-temperature"),
        ("Garlic oil", "500 ml olive oil\n- 4 cloves garlic", "Mix.", "", "oil-infused"),
        ("Apple juice", "2 kg apples", "Press.", "", "juice-pressed-at-home"),
        ("Bean jars", "400 g carrots\n- 1 litre water", "Boil. Fill jars and seal.", "",
         "low-acid-in-jars"),
        ("Rice", "300 g rice\n- 1 litre water", "Boil.", "fridge", "cooked-rice"),
        ("Stew", "500 g diced beef", "Simmer for 2 hours.", "fridge", "reheating"),
        ("Stew", "500 g diced beef", "Simmer for 2 hours.", "freezer", "thawed"),
        ("Stew", "500 g diced beef", "Simmer for 2 hours.", "fridge", "two-hours"),
        ("Soup", "1 kg carrots", "Simmer. Keep it hot until served.", "", "hot-holding"),
    ],
)  # fmt: skip
def test_rules_of_the_physics_stand_where_a_recipe_calls_for_them(
    title: str, lines: str, steps: str, keep: str, expected: str, bench: Workbench
) -> None:
    head = f"---\nkeep: [{{where: {keep}, days: 2}}]\n---\n" if keep else ""
    assert expected in ids(f"{head}# {title}\n\nServes 4\n\n- {lines}\n\n1. {steps}\n", bench)


@pytest.mark.published
def test_core_temperatures_are_printed_as_the_chart_has_them(bench: Workbench) -> None:
    # "Safe minimum internal temperatures", foodsafety.gov: poultry 165 °F (74 °C), ground beef
    # 160 °F (71 °C). UK: 70 °C for 2 minutes, in a UK kitchen only.
    text = "# Pie\n\nServes 4\n\n- 1 kg chicken thighs\n- 500 g beef mince\n\n1. Bake.\n"
    told = {}
    for region in ("us", "uk"):
        reading = mark(Order(read_text(text), Kitchen(region=region)), bench)
        (told[region],) = [x.printed for x in cautions_of(reading) if x.id == "core-temperature"]
    assert "74 °C" in told["us"]
    assert "71 °C" in told["us"]
    assert "70 °C" not in told["us"]
    assert "70 °C and 2 min" in told["uk"]


def test_each_rule_stands_once(bench: Workbench) -> None:
    text = (
        "---\nkeep: [{where: fridge, days: 2}]\n---\n# Dish\n\nServes 4\n\n- 2 tbsp honey\n"
        "- 3 tbsp honey\n- 1 chicken (1.5 kg)\n- 2 chicken breasts\n\n1. Roast. Chill.\n"
    )
    found = [caution.id for caution in cautions_of(mark(Order(read_text(text), Kitchen()), bench))]
    assert len(found) == len(set(found))


def test_a_salad_brings_none(bench: Workbench) -> None:
    assert (
        ids("# Salad\n\nServes 2\n\n- 1 lettuce\n- 1 tbsp olive oil\n\n1. Toss.\n", bench) == set()
    )


def test_no_caution_promises_anything(bench: Workbench) -> None:
    recipe = read_text("# Roast\n\nServes 4\n\n- 1 chicken (1.5 kg)\n\n1. Roast and chill.\n")
    for caution in cautions_of(mark(Order(recipe, Kitchen()), bench)):
        assert "safe" not in caution.text.lower()
