"""Verdicts beside steps that cool: what is asked of the physics, and what its answer becomes."""

from __future__ import annotations

import json
import re
from itertools import pairwise

import pytest

from counterproof.draws import Streams
from counterproof.physics.cooling_rules import BOTH_STAGES, FIRST_STAGE, VICTORIA_FIRST
from counterproof.physics.values import ZERO_CELSIUS
from counterproof.plan.cooled import CooledStep
from counterproof.plan.cooling import Memo
from counterproof.plan.model import Plan
from counterproof.plan.planning import plan_of
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark, proof

SOUP = "1 kg carrots; 2 litres vegetable stock"


def planned(
    bench: Workbench,
    steps: str,
    lines: str = SOUP,
    head: str = "Serves 4",
    kitchen: Kitchen | None = None,
    memo: Memo | None = None,
) -> Plan:
    bullets = "".join(f"- {line}\n" for line in lines.split("; "))
    text = f"{head}\n\n# Soup\n\n{bullets}\n## Method\n\n1. {steps}\n"
    if head.startswith("---"):
        text = f"{head}\n# Soup\n\nServes 4\n\n{bullets}\n## Method\n\n1. {steps}\n"
    reading = mark(Order(read_text(text), kitchen or Kitchen()), bench)
    return plan_of(reading, bench.tables, {} if memo is None else memo)


def cooled(bench: Workbench, steps: str, lines: str = SOUP) -> CooledStep:
    (found,) = planned(bench, steps, lines).coolings
    return found


@pytest.mark.published
def test_the_limits_asked_are_those_the_food_code_prints() -> None:
    # US FDA Food Code 2022, 3-501.14(A): "Within 2 hours from 57 °C (135 °F) to 21 °C (70 °F);
    # and within a total of 6 hours from 57 °C (135 °F) to 5 °C (41 °F) or less."
    assert FIRST_STAGE.clock is not None
    told = [
        (rule.clock.value if rule.clock else 0.0, rule.goal.value, rule.limit.value)
        for rule in (FIRST_STAGE, BOTH_STAGES)
    ]
    assert [(round(a - ZERO_CELSIUS), round(b - ZERO_CELSIUS), c / 3600) for a, b, c in told] == [
        (57, 21, 2.0),
        (57, 5, 6.0),
    ]


def test_a_covered_pot_put_into_the_fridge_is_over(bench: Workbench) -> None:
    deep = cooled(bench, "Simmer for 20 minutes.\n2. Cool, then chill in the fridge.")
    assert deep.found.rules[0] is FIRST_STAGE
    assert deep.ruling == "over"
    assert deep.mark.level == "doubt"
    assert "3-501.14" in deep.mark.message


def test_shallow_trays_do_better_than_the_pot(bench: Workbench) -> None:
    pot = cooled(bench, "Simmer for 20 minutes.\n2. Cool, then chill in the fridge.")
    trays = cooled(
        bench,
        "Simmer for 20 minutes.\n2. Stand the pot in an ice bath, then ladle into shallow trays "
        "2 cm deep, uncovered, and chill in the fridge.",
    )
    assert (trays.vessel, trays.places) == ("tray", ("ice bath", "fridge"))
    assert trays.count == 2
    assert trays.lukewarm.p95 < 0.5 * pot.lukewarm.p05


def test_iced_water_holds_the_pot_until_the_probe_says(bench: Workbench) -> None:
    """The colder it comes out of iced water, the sooner the fridge has it at 5 °C."""
    told = [
        cooled(
            bench,
            f"Simmer for 20 minutes.\n2. Stand the pot in iced water and stir it {until}, then "
            "put it in the fridge.",
        )
        for until in ("until it stops steaming", "until a probe reads 20°C", "until it is at 45 °F")
    ]
    whole = [one.found.times[1].p50 for one in told]
    assert whole[0] > whole[1] > whole[2]
    assert told[1].lukewarm.p95 < told[0].lukewarm.p50  # stirred, the first stage is soon over


def test_a_small_jar_in_iced_water_and_fridge_is_within(bench: Workbench) -> None:
    small = cooled(
        bench,
        "Boil the water for 5 minutes.\n2. Stand the pot in an ice bath, stirring, until cold, "
        "then chill.",
        "500 ml water; 10 g salt",
    )
    assert small.found.verdicts[0].verdict == "within"
    assert small.found.times[0].p95 < FIRST_STAGE.limit.value


def test_one_mark_a_cooling_and_it_says_what_would_pass(bench: Workbench) -> None:
    plan = planned(bench, "Simmer for 20 minutes.\n2. Cool.\n3. Chill overnight.\n4. Freeze.")
    marks = [(at, mark) for at, mark in plan.marks if mark.kind.startswith("cooling")]
    assert [at for at, _ in marks] == [2]
    assert "This would pass: " in marks[0][1].message
    assert "safe" not in marks[0][1].message.lower()


def test_what_is_kept_cold_has_a_verdict_even_if_no_step_cools(bench: Workbench) -> None:
    head = "---\nkeep: [{where: fridge, days: 2}]\n---\n"
    (found,) = planned(bench, "Simmer for 20 minutes. Serve.", head=head).coolings
    assert (found.step, found.places) == (1, ("counter", "fridge"))
    assert planned(bench, "Simmer for 20 minutes. Serve.").coolings == ()


@pytest.mark.parametrize(
    ("lines", "steps"),
    [
        ("1 lettuce; 1 tbsp olive oil", "Chill the leaves in the fridge."),
        ("500 g flour; 7 g yeast; 200 ml water", "Bake for 40 minutes.\n2. Cool on a wire rack."),
        (SOUP, "Simmer for 20 minutes.\n2. Leave to cool for 10 minutes and serve."),
        (SOUP, "Simmer for 20 minutes.\n2. Cool slightly, then serve."),
    ],
)
def test_what_is_cold_dry_or_on_its_way_to_the_table_has_none(
    lines: str, steps: str, bench: Workbench
) -> None:
    assert planned(bench, steps, lines).coolings == ()


@pytest.mark.property
def test_more_of_it_never_cools_faster(bench: Workbench) -> None:
    steps = "Simmer for 20 minutes.\n2. Cool, then chill in the fridge."
    times = [
        cooled(bench, steps, f"{kg} kg carrots; {2 * kg} litres vegetable stock").lukewarm
        for kg in (0.25, 0.5, 1, 2, 4)
    ]
    for less, more in pairwise(times):
        assert less.p05 <= more.p05
        assert less.p50 <= more.p50
        assert less.p95 <= more.p95


def test_what_is_strained_off_and_boiled_off_does_not_cool(bench: Workbench) -> None:
    whole = cooled(bench, "Simmer for 20 minutes.\n2. Chill.", "1 kg rhubarb; 1 litre water")
    strained = cooled(
        bench,
        "Simmer the rhubarb for 20 minutes. Strain through a sieve.\n2. Chill.",
        "1 kg rhubarb; 1 litre water",
    )
    assert strained.litres < 0.9 * whole.litres


def test_the_same_question_is_asked_once(bench: Workbench) -> None:
    memo: Memo = {}
    steps = "Simmer for 20 minutes.\n2. Cool, then chill."
    first = planned(bench, steps, memo=memo)
    assert len(memo) == 1
    again = planned(bench, steps, memo=memo)
    assert len(memo) == 1
    assert again.coolings == first.coolings
    planned(bench, steps, "2 kg carrots; 2 litres vegetable stock", memo=memo)
    assert len(memo) == 2


def test_no_cooling_is_asked_about_unless_somebody_asks(bench: Workbench) -> None:
    text = "# Soup\n\n- 1 kg carrots\n- 1 l water\n\n## Method\n\n1. Boil for 9 minutes. Chill.\n"
    reading = mark(Order(read_text(text), Kitchen()), bench)
    assert plan_of(reading, bench.tables).coolings == ()


def test_the_cooks_own_jars_and_pots_are_taken(bench: Workbench) -> None:
    kitchen = Kitchen(
        vessels=(Vessel("stockpot", 8.0, 0.26, 2.0), Vessel("jam jar", 0.3, 0.07, 0.2))
    )
    steps = "Simmer for 20 minutes.\n2. Fill into jars and chill in the fridge."
    (found,) = planned(bench, steps, kitchen=kitchen).coolings
    assert found.vessel == "jar"
    assert found.count == pytest.approx(found.litres / 0.3, abs=1.0)


def test_the_verdict_goes_out_as_data(bench: Workbench) -> None:
    plan = planned(bench, "Simmer for 20 minutes.\n2. Cool, then chill in the fridge.")
    (told,) = plan.times_to_dict()["verdicts"]
    assert "Infinity" not in json.dumps(plan.times_to_dict())  # never is null
    assert any(span["seconds"]["p95"] is None for span in told["spans"])
    assert told["step"] == 2
    assert told["about"] == "cooling"
    assert {span["rule"] for span in told["spans"]} == {FIRST_STAGE.name, BOTH_STAGES.name}
    assert all(set(span["seconds"]) == {"mean", "p05", "p50", "p95"} for span in told["spans"])
    assert VICTORIA_FIRST.name not in str(told)


def test_the_proof_says_what_boils_off_and_what_stays_in_the_sieve(bench: Workbench) -> None:
    text = (
        "# Cordial\n\nServes 4\n\n- 1 kg rhubarb\n- 1 litre water\n\n## Method\n\n"
        "1. Simmer the rhubarb in the water, uncovered, for 20 minutes. Strain through a sieve.\n"
        "2. Cool, then chill in the fridge.\n"
    )
    edition = proof(Order(read_text(text), Kitchen()), bench, Streams(seed=1, n=200))
    first, second = edition.steps
    assert re.fullmatch(
        r"simmer, 20 min, uncovered; strain · \d+ g boils off · \d+ g strained off",
        first.understood,
    )
    assert [mark.kind for mark in second.marks] == ["cooling-over"]
    assert edition.timeline is not None
    assert edition.timeline.keeps == ()
