"""What a scale said, written beside the by-eye words: "a glug of oil (weighed 28 g)"."""

from __future__ import annotations

import pytest

from counterproof.reading.lines import split_line
from counterproof.reading.marking import read_recipe
from counterproof.reading.settling import settled
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Workbench

RECIPE = """# Soup

Serves 4

## Ingredients

- {line}
- 1 kg white cabbage

## Method

1. Simmer for 20 minutes.
"""


@pytest.mark.parametrize(
    ("line", "kg"),
    [
        ("a glug of olive oil (weighed 28 g)", 0.028),
        ("a glug of olive oil (weighed 28 g, give or take 1 g)", 0.028),
        ("3 onions, chopped (weighed 415 g, give or take 5 g)", 0.415),
        ("2 lemons, juiced (weighed 84 g)", 0.084),
        ("2 sticks celery (weighed at 4 oz)", 0.1133980925),
        ("10 tins plum tomatoes (400 g each) (weighed 4.012 kg)", 4.012),
        ("1 tin tomatoes (meaning chopped tomatoes, 400 g) (weighed 412 g)", 0.412),
        ("water to cover, and as much again (weighed 1.21 kg)", 1.21),
        ("2% salt by cabbage weight (weighed 24 g)", 0.024),
        ("a pinch of salt (weighed 2 g, give or take 5 g)", 0.002),
        ("2 cups stock + 1 cup water (weighed 700 g)", 0.7),
        ("olive oil (weighed 28 g)", 0.028),
    ],
)
def test_what_was_weighed_is_the_mass_in_the_pot_whatever_was_said_by_eye(
    line: str, kg: float, bench: Workbench
) -> None:
    recipe = read_text(RECIPE.format(line=line))
    found = read_recipe(recipe, bench.tables, bench.matcher, Kitchen()).lines[0]
    masses = [part.mass.mean for part in found.constituents if part.mass is not None]
    assert sum(masses) == pytest.approx(kg, rel=1e-9)
    assert "fault" not in {mark.level for mark in found.marks}
    assert not {"to-cover", "amounts-disagree", "each-or-all"} & {m.kind for m in found.marks}


def test_weighed_without_a_weight_stays_a_remark() -> None:
    split = settled(split_line("250 g flour (weighed on the old scale)"), "us")
    assert [(q.low, q.measure) for q in split.quantities] == [(250.0, "g")]
    assert "weighed" not in split.flags


def test_give_or_take_is_the_range_of_the_line() -> None:
    (said,) = split_line("oil (weighed 28 g, give or take 1 g)").quantities
    assert (said.low, said.high) == pytest.approx((27.0, 29.0))
