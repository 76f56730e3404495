"""Rules that one step can keep or break, as published and as marked."""

from __future__ import annotations

import pytest

from counterproof.plan.planning import plan_of
from counterproof.plan.step_verdicts import StepVerdict, chart_class
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark


def verdicts(
    bench: Workbench, lines: str, steps: str, region: str = "us"
) -> tuple[StepVerdict, ...]:
    text = f"# Dish\n\nServes 4\n\n- {lines}\n\n## Method\n\n1. {steps}\n"
    kitchen = Kitchen(region=region)
    reading = mark(Order(read_text(text), kitchen), bench)
    return plan_of(reading, bench.tables).verdicts


BEANS = "300 g dried kidney beans\n- 2 litres water"


@pytest.mark.published
@pytest.mark.parametrize(
    ("steps", "step", "ruling"),
    [
        ("Soak overnight.\n2. Boil hard for 10 minutes, then simmer for an hour.", 2, "within"),
        ("Soak overnight.\n2. Boil hard for 30 minutes.", 2, "within"),
        ("Soak overnight.\n2. Boil for 5 minutes.\n3. Simmer for an hour.", 2, "over"),
        ("Soak overnight.\n2. Boil, then simmer for an hour.", 2, "too close"),
        ("Cook in the slow cooker for 8 hours.", 1, "over"),
    ],
)
def test_dried_kidney_beans_are_boiled_hard(
    steps: str, step: int, ruling: str, bench: Workbench
) -> None:
    # UK and US advice on phytohaemagglutinin (FDA, Bad Bug Book, 2nd ed.: "boil … for at least 30
    # minutes", soak 5 hours; the UK's 10 minutes), both from memory as `physics.advice` says.
    (found,) = verdicts(bench, BEANS, steps)
    assert (found.about, found.step, found.said.verdict) == ("kidney-beans", step, ruling)
    assert found.mark.level == ("note" if ruling == "within" else "doubt")


def test_tinned_kidney_beans_need_no_boiling(bench: Workbench) -> None:
    assert verdicts(bench, "1 tin kidney beans", "Warm through.") == ()


@pytest.mark.published
@pytest.mark.parametrize(
    ("lines", "celsius", "ruling"),
    [
        ("1 chicken (1.5 kg)", 76, "within"),  # 165 °F, 74 °C
        ("1 chicken (1.5 kg)", 70, "over"),
        ("500 g beef mince", 73, "within"),  # 160 °F, 71 °C
        ("500 g beef mince", 68, "over"),
        ("600 g salmon fillet", 65, "within"),  # 145 °F, 63 °C
    ],
)
def test_a_stated_core_is_held_against_the_us_chart(
    lines: str, celsius: int, ruling: str, bench: Workbench
) -> None:
    # "Safe minimum internal temperatures", foodsafety.gov: poultry 165 °F, ground meats 160 °F,
    # fish 145 °F. A probe is taken to err by 1 K.
    steps = f"Roast until a thermometer in the thickest part reads {celsius}°C."
    (found,) = verdicts(bench, lines, steps)
    assert (found.about, found.said.verdict) == ("core-temperature", ruling)
    assert "asks for" in found.said.message


@pytest.mark.published
@pytest.mark.parametrize(
    ("region", "celsius", "ruling"),
    [("us", 60, "within"), ("us", 50, "over"), ("uk", 63, "within"), ("uk", 60, "over")],
)
def test_keeping_hot_is_asked_of_the_cooks_own_rules(
    region: str, celsius: int, ruling: str, bench: Workbench
) -> None:
    # US Food Code 3-501.16: 57 °C (135 °F) or above. UK temperature-control guidance: 63 °C.
    (found,) = verdicts(
        bench, "1 litre soup stock", f"Simmer, then keep it above {celsius}°C.", region
    )
    assert (found.about, found.said.verdict) == ("hot-holding", ruling)


def test_an_oven_at_200_is_no_core_and_no_hot_holding(bench: Workbench) -> None:
    assert verdicts(bench, "1 chicken (1.5 kg)", "Keep warm, then roast at 200°C.") == ()


def test_raw_meat_is_on_the_chart_and_cooked_is_not() -> None:
    assert chart_class("beef-mince", "beef") == "minced beef, pork, veal, lamb"
    assert chart_class("duck-breast", "poultry") == "duck, goose"
    assert chart_class("mussels", "shellfish") == "clams, oysters, mussels"
    assert chart_class("chicken-breast-cooked", "poultry") is None
    assert chart_class("carrot", "vegetables") is None
