"""Baker's percentages, brines and syrups: found, held, and against worked examples."""

from __future__ import annotations

import pytest

from counterproof.batch.ratios import hanging_together, percentages, ratio_of
from counterproof.batch.scaling import Measures, scaled_lines
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark

BREAD = """# Three-flour bread

Serves 8

- 500 g strong white flour
- 250 g wholemeal flour
- 250 g spelt flour
- 700 ml water
- 10 g dried yeast
- 20 g salt

1. Knead the dough for 10 minutes, let it rise for 1 hour, and bake at 220 °C for 40 minutes.
"""


# S., Baker's Percentage Tutorial, parts 1 and 3, exercises with answers (wildyeastblog.com, read
# 2026-11-25); the answers are printed as whole per cent and whole grams.
@pytest.mark.published
@pytest.mark.parametrize(
    ("flours", "others", "printed"),
    [
        ([700], [386, 50, 28, 7], [55, 7, 4, 1]),
        ([32], [18, 2, 3, 0.16, 0.7], [56, 6, 9, 0.5, 2]),
        ([500, 250, 250], [700, 10, 20], [70, 1, 2]),
    ],
)
def test_percentages_are_those_of_the_worked_exercises(
    flours: list[float], others: list[float], printed: list[float]
) -> None:
    for ours, theirs in zip(percentages(flours, others), printed, strict=True):
        assert 100 * ours == pytest.approx(theirs, abs=0.5)


@pytest.mark.published
def test_a_dough_of_1400_grams_is_made_of_what_the_exercise_says() -> None:
    # Part 3, exercise 1: 50 + 20 + 30 % flours, 70 % water, 1.5 % yeast, 2 % salt; total 173.5 %.
    shares = [0.50, 0.20, 0.30, 0.70, 0.015, 0.02]
    flour = 1400.0 / sum(shares)
    assert flour == pytest.approx(807, abs=0.5)
    printed = [404, 161, 242, 565, 12, 16]
    for share, grams in zip(shares, printed, strict=True):
        assert share * flour == pytest.approx(grams, abs=0.55)


@pytest.mark.parametrize("factor", [0.37, 1.0, 2.6])
@pytest.mark.parametrize("measuring", ["as written", "metric", "us"])
def test_bread_keeps_its_percentages_at_any_size(
    bench: Workbench, factor: float, measuring: str
) -> None:
    reading = mark(Order(read_text(BREAD), Kitchen()), bench)
    measures = Measures(0.001, measuring)  # type: ignore[arg-type]
    _, _, ratios = scaled_lines(reading, factor, 1, measures, bench.tables, bench.matcher)
    (bread,) = [one for one in ratios if one.kind == "baker's percentages"]
    shares = {share.name: share for share in bread.shares}
    assert shares["water"].before == pytest.approx(0.70, rel=0.01)
    assert shares["salt"].before == pytest.approx(0.02)
    for share in bread.shares:
        # A gram of a scale is what separates them at most.
        assert abs(share.after - share.before) <= 0.0006 / factor + 0.006 * share.before


def test_a_coarse_scale_moves_the_salt_and_is_told(bench: Workbench) -> None:
    reading = mark(Order(read_text(BREAD), Kitchen()), bench)
    measures = Measures(0.005)
    _, lines, ratios = scaled_lines(reading, 0.35, 1, measures, bench.tables, bench.matcher)
    (bread,) = ratios
    assert not bread.holds or any(line.marks for line in lines)


@pytest.mark.parametrize(
    ("lines", "steps", "kind"),
    [
        ("- 1 litre water\n- 50 g salt\n- 1 kg cucumbers", "1. Pickle in the brine.", "brine"),
        ("- 1 litre water\n- 800 g sugar", "1. Simmer for 5 minutes.", "syrup"),
        ("- 500 g plain flour\n- 200 g sugar\n- 200 ml milk", "1. Bake for 30 minutes.", None),
        ("- 2 onions\n- 1 litre stock", "1. Simmer for 20 minutes.", None),
    ],
)
def test_what_hangs_together(bench: Workbench, lines: str, steps: str, kind: str | None) -> None:
    recipe = read_text(f"# Dish\n\nServes 4\n\n## Ingredients\n\n{lines}\n\n## Method\n\n{steps}\n")
    found = hanging_together(mark(Order(recipe, Kitchen()), bench))
    assert [one.kind for one in found] == ([] if kind is None else [kind])


def test_a_ratio_against_itself_is_unmoved(bench: Workbench) -> None:
    reading = mark(Order(read_text(BREAD), Kitchen()), bench)
    (hangs,) = hanging_together(reading)
    ratio = ratio_of(hangs, reading, reading)
    assert ratio is not None
    assert all(share.before == share.after for share in ratio.shares)
