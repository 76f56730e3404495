"""Plan beside fact over the demo's cordial: mass conserved, figures recomputed, corrections offered."""

from __future__ import annotations

from pathlib import Path

import pytest

from counterproof.adapters.batches import batch_files
from counterproof.adapters.files import demo_season, load_recipe, load_text
from counterproof.adapters.kitchens import load_kitchen
from counterproof.batch.facts import made_of
from counterproof.batch_cases import Recorded, Written, recorded
from counterproof.draws import Streams
from counterproof.recipe.kitchen_file import read_kitchen
from counterproof.recipe.text import read_text
from counterproof.scaling_cases import Wish, scaled
from counterproof.use_cases import Order, Workbench, mark

CORDIAL = demo_season() / "episodes" / "02-rhubarb-cordial"


@pytest.fixture(scope="module")
def order() -> Order:
    recipe, _ = load_recipe(str(CORDIAL))
    return Order(recipe, load_kitchen(recipe))


@pytest.fixture(scope="module")
def files() -> list[Written]:
    found = batch_files(CORDIAL / "recipe.md")
    return [Written(str(one.path), one.day, one.text) for one in found]


@pytest.fixture(scope="module")
def streams() -> Streams:
    return Streams(seed=1, n=1000)


@pytest.fixture(scope="module")
def found(order: Order, bench: Workbench, streams: Streams, files: list[Written]) -> Recorded:
    return recorded(order, bench, streams, files)


def test_the_demo_records_are_read_without_a_doubt(found: Recorded) -> None:
    assert len(found.batches) == 2
    marks = [one for batch in found.batches for _, one in batch.made.marks]
    assert {one.kind for one in marks} == {"little-for-the-scale"}
    assert {one.level for one in marks} == {"note"}


def test_what_went_in_came_out_as_steam_pulp_and_juice(found: Recorded) -> None:
    for batch in found.batches:
        assert batch.balance is not None
        # What clings to a cloth and a pot: under two per cent, and never more out than in.
        assert -batch.balance.half <= batch.balance.missing < 0.02 * batch.balance.put_in.value
        weighed = sum(one.value for one in batch.made.lines.values())
        made = batch.balance.put_in.value - sum(one.value for one in batch.balance.out.values())
        assert weighed > batch.balance.put_in.value > made


def test_conservation_holds_within_the_recorded_scatter(found: Recorded) -> None:
    left = [batch.balance.missing for batch in found.batches if batch.balance is not None]
    mean = sum(left) / len(left)
    for missing, batch in zip(left, found.batches, strict=True):
        assert batch.balance is not None
        assert abs(missing - mean) <= 2.0 * batch.balance.half


def test_the_batch_that_boiled_off_too_much_is_told_and_traced(found: Recorded) -> None:
    good, bad = found.batches
    rows = [{row.name: row for row in batch.rows} for batch in (good, bad)]
    assert rows[0]["steam"].ruling == "as planned"
    assert rows[1]["steam"].ruling == "beyond the plan"
    assert rows[1]["simmering_s"].ruling == "beyond the plan"
    assert rows[1]["made_m3"].measured.value < rows[0]["made_m3"].measured.value
    assert any("lid off" in reason for reason in bad.reasons)
    assert not any("boiled off" in reason for reason in good.reasons)


def test_figures_follow_what_was_measured(found: Recorded) -> None:
    good, bad = found.batches
    # More electricity, and less of it eaten: a serving of the bad batch bears more.
    assert bad.as_made.mean > good.as_made.mean > 0.0
    assert good.as_made.mean != good.planned.mean


def test_several_batches_have_means_and_scatter(found: Recorded) -> None:
    over = {one.name: one for one in found.scatter}
    steam = over["steam"]
    assert len(steam.values) == 2
    assert steam.deviation is not None
    assert steam.deviation > 0.5 * steam.mean
    rhubarb = over["line 1"]
    assert rhubarb.deviation is not None
    assert rhubarb.deviation < 0.01 * rhubarb.mean
    document = found.to_dict()
    assert document["over_batches"][0]["batches"] == 2


def test_corrections_are_offered_and_made_only_when_called(
    found: Recorded, order: Order, bench: Workbench
) -> None:
    offered = {one.name: one for one in found.corrections}
    assert {"weights", "yield", "hob-power", "fridge-temperature"} <= set(offered)
    text = load_text(CORDIAL / "recipe.md")
    written = offered["weights"].change(text)
    assert "900 ml water (weighed " in written
    reading = mark(Order(read_text(written), order.kitchen), bench)
    over = {one.number: one for one in found.scatter if one.number is not None}
    water = sum(p.mass.mean for p in reading.lines[2].constituents if p.mass is not None)
    assert 1000 * water == pytest.approx(1000 * over[3].mean, abs=0.51)
    assert "Makes about 1.95 litres of cordial" in offered["yield"].change(text)
    kitchen = load_text(Path(str(order.kitchen.file)))
    hotter = read_kitchen(offered["hob-power"].change(kitchen))
    assert hotter.hob_watts == pytest.approx(1300.0, rel=0.1)
    assert read_kitchen(offered["fridge-temperature"].change(kitchen)).fridge_celsius == 6.0


def test_accepted_corrections_bring_the_next_plan_nearer(
    found: Recorded, order: Order, bench: Workbench, streams: Streams, files: list[Written]
) -> None:
    offered = {one.name: one for one in found.corrections}
    kitchen = load_text(Path(str(order.kitchen.file)))
    changed = read_kitchen(offered["hob-power"].change(kitchen))
    again = recorded(Order(order.recipe, changed), bench, streams, files[:1])
    before = {row.name: row for row in found.batches[0].rows}["heating_s"]
    after = {row.name: row for row in again.batches[0].rows}["heating_s"]
    assert before.ruling == "beyond the plan"
    assert after.ruling == "as planned"
    assert "hob-power" not in {one.name for one in again.corrections}


def test_a_simmer_loss_is_offered_where_the_pot_loses_more(
    order: Order, bench: Workbench, streams: Streams, files: list[Written]
) -> None:
    text = files[0].text.replace("after simmering 3301", "after simmering 3275")
    found = recorded(order, bench, streams, [Written("x", "2026-11-14", text)])
    offered = {one.name: one for one in found.corrections}
    assert "simmer-loss" in offered
    kitchen = read_kitchen(offered["simmer-loss"].change(load_text(Path(str(order.kitchen.file)))))
    assert kitchen.simmer_loss == pytest.approx(47.0 / 17.0, rel=0.15)
    again = recorded(
        Order(order.recipe, kitchen), bench, streams, [Written("x", "2026-11-14", text)]
    )
    row = {row.name: row for row in again.batches[0].rows}["steam"]
    assert row.ruling == "as planned"
    assert "simmer-loss" not in {one.name for one in again.corrections}


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("12:05 174 °C", "above-the-boil"),
        ("870 g of something", "weight-of-what"),
        ("juice 400 g with the saucepan", "less-than-empty"),
        ("made 2 kg\nmade 3 kg", "said-twice"),
        ("48 °C", "without-a-time"),
    ],
)
def test_what_does_not_add_up_is_marked(
    order: Order, bench: Workbench, line: str, kind: str
) -> None:
    made = made_of(f"# Batch\n\n{line}\n", mark(order, bench), "2026-11-14", "x")
    assert kind in {one.kind for _, one in made.marks}


def test_half_a_recipe_is_planned_as_half(order: Order, bench: Workbench, streams: Streams) -> None:
    text = "half the recipe\nwater 450 g\n"
    (batch,) = recorded(order, bench, streams, [Written("x", "2026-11-14", text)]).batches
    (row,) = batch.rows
    assert batch.made.serves == pytest.approx(12.0)
    assert row.ruling == "as planned"


def test_the_round_trip_weighed_scaled_recorded_gives_the_masses_to_the_gram(
    order: Order, bench: Workbench, streams: Streams, files: list[Written]
) -> None:
    """weigh-in → recipe → scale → record: what is weighed in for the scaled recipe is as planned."""
    found = recorded(order, bench, streams, files[:1])
    weights = next(one for one in found.corrections if one.name == "weights")
    recipe = read_text(weights.change(load_text(CORDIAL / "recipe.md")), "recipe.md")
    done = scaled(Order(recipe, order.kitchen), bench, streams, Wish(serves=48.0))
    readings = ["## Weighed in", "scale to 1 g", "tare"]
    names = {1: "rhubarb", 2: "sugar", 3: "water", 5: "lemons", 6: "ginger"}
    total = 0
    wanted = {}
    for line in done.lines:
        if line.number in names and line.measured_kg is not None:
            grams = round(1000 * line.measured_kg)
            total += grams
            wanted[line.number] = grams
            readings.append(f"+{names[line.number]} {total}")
    again = recorded(
        Order(done.recipe, order.kitchen), bench, streams,
        [Written("x", "2026-11-28", "\n".join(readings))],
    )  # fmt: skip
    (batch,) = again.batches
    for number, grams in wanted.items():
        assert 1000 * batch.made.lines[number].value == pytest.approx(grams, abs=1e-6)
    by_weight = [row for row in batch.rows if row.number in {1, 3, 5, 6}]
    assert {row.ruling for row in by_weight} == {"as planned"}


def test_six_jars_take_the_yield_that_was_recorded(
    order: Order, bench: Workbench, streams: Streams, files: list[Written]
) -> None:
    found = scaled(order, bench, streams, Wish(jars=(6, 473e-6)), files)
    assert "as one batch gave it" in found.because
    assert found.jars is not None
    assert found.factor == pytest.approx(found.jars.litres / 1.95, rel=1e-6)


def test_a_class_of_twenty_in_ten_pairs_cooks_in_two_rounds_on_five_hobs(
    order: Order, bench: Workbench, streams: Streams
) -> None:
    found = scaled(order, bench, streams, Wish(serves=20.0, stations=10, hobs=5))
    assert (found.split.pots, found.split.at_once, found.split.rounds) == (10, 5, 2)
    rhubarb = found.lines[0]
    assert rhubarb.measured_kg is not None
    assert 10 * rhubarb.measured_kg == pytest.approx(1.5 * 20 / 24, rel=0.01)
