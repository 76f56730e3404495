"""Keep times: the class of a dish, the tables, the shorter where two differ."""

from __future__ import annotations

import pytest

from counterproof.plan.keeping import Kept, dishes_of, is_preserve, kept_of
from counterproof.plan.planning import plan_of
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark


def reading_of(bench: Workbench, title: str, lines: str, steps: str, keep: str = "") -> Reading:
    bullets = "".join(f"- {line}\n" for line in lines.split("; "))
    head = f"---\nkeep: {keep}\n---\n" if keep else ""
    text = f"{head}# {title}\n\nServes 4\n\n{bullets}\n## Method\n\n1. {steps}\n"
    return mark(Order(read_text(text), Kitchen()), bench)


@pytest.mark.parametrize(
    ("title", "lines", "steps", "expected"),
    [
        ("Carrot soup", "1 kg carrots; 1 l stock", "Simmer for 20 minutes.", "soup or stew"),
        ("Chicken broth", "1 chicken (1.5 kg); 3 l water", "Simmer for 2 hours.", "stock or broth"),
        ("Leek bake", "6 leeks; 200 g cheddar", "Bake for 40 minutes.", "casserole"),
        ("Rice", "300 g rice; 600 ml water", "Simmer for 12 minutes.", "cooked rice"),
    ],
)
def test_a_dish_finds_its_class(
    title: str, lines: str, steps: str, expected: str, bench: Workbench
) -> None:
    assert expected in dishes_of(reading_of(bench, title, lines, steps))


@pytest.mark.published
def test_soup_keeps_as_the_us_chart_says_and_rice_as_the_strictest(bench: Workbench) -> None:
    # US Cold Food Storage Chart (foodsafety.gov): soups and stews 3 to 4 days in the fridge, 2 to
    # 3 months in the freezer. New Zealand MPI: rice dishes within 2 days, shorter than the USDA's
    # 3 to 4, so it decides.
    soup = kept_of(reading_of(bench, "Soup", "1 kg carrots; 1 l stock", "Simmer for 9 minutes."))
    assert [(kept.where, kept.table) for kept in soup] == [
        ("fridge", "3 to 4 days"),
        ("freezer", "60 to 90 days"),
    ]
    rice = kept_of(reading_of(bench, "Rice soup", "300 g rice; 2 l stock", "Simmer for 9 minutes."))
    fridge = next(kept for kept in rice if kept.where == "fridge")
    assert (fridge.table, fridge.verdict.source) == ("2 days", "nz-mpi-leftovers")


def test_a_cordial_has_no_table_and_the_printed_sentence(bench: Workbench) -> None:
    reading = reading_of(
        bench, "Rhubarb cordial", "1 kg rhubarb; 500 g sugar; 1 l water", "Simmer for 10 minutes.",
        "[{where: fridge, days: 7}]",
    )  # fmt: skip
    assert is_preserve(reading)
    (kept,) = kept_of(reading)
    assert kept.verdict.verdict == "no rule"
    assert "keep it cold, use it soon, ask your food authority" in kept.says
    assert kept.mark is None


@pytest.mark.parametrize(
    ("where", "days", "level"),
    [("fridge", 2, None), ("fridge", 4, "doubt"), ("fridge", 9, "doubt"), ("freezer", 200, "note")],
)
def test_a_plan_that_keeps_too_long_is_marked(
    where: str, days: int, level: str | None, bench: Workbench
) -> None:
    reading = reading_of(
        bench, "Soup", "1 kg carrots; 1 l stock", "Simmer for 20 minutes.",
        f"[{{where: {where}, days: {days}}}]",
    )  # fmt: skip
    (kept,) = kept_of(reading)
    assert (None if kept.mark is None else kept.mark.level) == level
    marks = [mark for at, mark in plan_of(reading, bench.tables).marks if at == 0]
    assert marks == ([] if kept.mark is None else [kept.mark])


def test_the_cupboard_has_no_rule(bench: Workbench) -> None:
    reading = reading_of(
        bench, "Soup", "1 kg carrots; 1 l stock", "Simmer for 20 minutes.",
        "[{where: cupboard, days: 30}]",
    )  # fmt: skip
    (kept,) = kept_of(reading)
    assert isinstance(kept, Kept)
    assert kept.to_dict()["verdict"] == "no rule"


def test_a_salad_is_not_in_these_tables(bench: Workbench) -> None:
    assert kept_of(reading_of(bench, "Salad", "1 lettuce; 1 tbsp olive oil", "Toss.")) == ()
