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


def test_a_salad_brings_none(bench: Workbench) -> None:
    assert (
        ids("# Salad\n\nServes 2\n\n- 1 lettuce\n- 1 tbsp olive oil\n\n1. Toss.\n", bench) == set()
    )


def test_no_caution_promises_anything(bench: Workbench) -> None:
    recipe = read_text("# Roast\n\nServes 4\n\n- 1 chicken (1.5 kg)\n\n1. Roast and chill.\n")
    for caution in cautions_of(mark(Order(recipe, Kitchen()), bench)):
        assert "safe" not in caution.text.lower()
