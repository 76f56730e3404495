"""The cooling question: its contract, its verdicts, the changes that pass, measured temperatures."""

from __future__ import annotations

import json
from dataclasses import replace
from math import ceil
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.errors import OutOfRange
from counterproof.physics.answer import Answer
from counterproof.physics.containers import TRAY_DEPTH, Kind
from counterproof.physics.cooling_changes import STEAMED_OFF, TRAY_AREA, Limit, changes
from counterproof.physics.cooling_lanes import ENDS, slow_lanes
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_scene import Dish, Flow, Spot, household_fridge, run
from counterproof.physics.exchange import Where
from counterproof.physics.fitting import fitted
from counterproof.physics.places import Place
from counterproof.physics.questions_cool import cool
from counterproof.physics.values import ZERO_CELSIUS as ZERO

FRIDGE = household_fridge(ZERO + 3.0, 250.0, 150.0, Place())
STOCK = Cooling(Dish(0.004, "pot", diameter=0.22), ZERO + 95.0, FRIDGE, "stock")
LIMITS = (Limit(ZERO + 57.0, ZERO + 21.0, 7200.0), Limit(ZERO + 57.0, ZERO + 5.0, 21600.0))


def _document(answer: Answer) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(json.dumps(answer.to_dict(), allow_nan=False))
    return document


def test_the_answer_keeps_its_contract() -> None:
    document = _document(cool(STOCK))
    assert document["process"] == "cool"
    spans = document["result"]["spans"]
    assert [(span["from_celsius"], span["to_celsius"]) for span in spans] == [
        (pytest.approx(57.0), pytest.approx(21.0)),
        (pytest.approx(57.0), pytest.approx(5.0)),
    ]
    for span in (*(each["seconds"] for each in spans), document["result"]["danger_zone_s"]):
        assert set(span) == {"mean", "p05", "p50", "p95"}
        assert span["p05"] <= span["p50"] <= span["p95"]
    assert [each["verdict"] for each in document["verdicts"]] == ["over", "over"]
    curve = document["curve"]
    assert curve["seconds"] == sorted(curve["seconds"])
    assert curve["celsius"] == sorted(curve["celsius"], reverse=True)
    assert curve["celsius"][0] == pytest.approx(95.0)
    band = document["result"]["band"]
    for fast, middle, slow in zip(
        band["fast_celsius"], curve["celsius"], band["slow_celsius"], strict=True
    ):
        assert fast <= middle + 1e-9 <= slow + 2e-9
    assert document["cautions"]
    assert "fda-food-code" in document["sources"]


def test_never_is_null_in_json() -> None:
    document = _document(cool(replace(STOCK, spot=Spot("room"))))
    total = document["result"]["spans"][1]["seconds"]
    assert total["p95"] is None
    assert document["verdicts"][1]["verdict"] == "over"


def test_no_text_promises_safety() -> None:
    for asked in (
        STOCK,
        replace(STOCK, spot=Spot("room")),
        replace(STOCK, authorities=("nowhere",)),
    ):
        said = json.dumps(_document(cool(asked))).lower()
        assert "safe" not in said


def test_an_authority_without_a_rule_gets_no_rule() -> None:
    (found,) = cool(replace(STOCK, authorities=("nowhere",))).verdicts
    assert found.verdict == "no rule"
    assert "keep it cold, use it soon, ask your food authority" in found.message


def test_a_pot_in_an_ice_bath_stirred_is_within() -> None:
    asked = replace(
        STOCK, dish=Dish(0.002, "pot", stirred=True), spot=Spot("ice-bath"), start=ZERO + 90.0
    )
    answer = cool(asked)
    assert [each.verdict for each in answer.verdicts] == ["within", "within"]
    assert answer.result["would_pass"] == []
    # 2 kg from 90 to 5 °C give 0.71 MJ, 2.1 kg of ice; the pot adds a little.
    assert answer.result["ice_kg"]["p50"] == pytest.approx(2.25, rel=0.08)


@pytest.mark.property
@pytest.mark.parametrize(
    ("litres", "flow", "celsius"),
    [(1.5, "thin", 3.0), (4.0, "thin", 3.0), (4.0, "thick", 3.0), (1.0, "thick", 4.0)],
)
def test_each_change_passes_with_the_margins_of_the_verdict(
    litres: float, flow: str, celsius: float
) -> None:
    spot = replace(FRIDGE, temperature=ZERO + celsius)
    dish = Dish(litres / 1000.0, "pot", flow=flow)  # type: ignore[arg-type]  # (a parameter is text)
    found = {change.kind: change for change in changes(dish, spot, ZERO + 95.0, LIMITS)}
    assert found
    if "trays" in found:
        trays = found["trays"]
        each = dish.volume / trays.count
        tray = replace(
            dish, volume=each, kind="tray", depth=each / TRAY_AREA.value, covered=False,
            portions=float(trays.count),
        )  # fmt: skip
        cold = replace(spot, temperature=trays.fridge)
        asked = Cooling(tray, STEAMED_OFF.value, cold)
        assert [v.verdict for v in cool(asked).verdicts] == ["within", "within"]
        assert trays.size <= TRAY_DEPTH.value
        fewer = trays.count - 1
        if fewer and each * trays.count / fewer / TRAY_AREA.value <= TRAY_DEPTH.value:
            deeper = replace(
                tray, volume=dish.volume / fewer, depth=dish.volume / fewer / TRAY_AREA.value,
                portions=float(fewer),
            )  # fmt: skip
            verdicts = cool(replace(asked, dish=deeper)).verdicts
            assert [v.verdict for v in verdicts] != ["within", "within"]
    if "jars" in found:
        jars = found["jars"]
        assert jars.count == ceil(litres / (1000.0 * jars.size) - 1e-9)
        jar = replace(dish, volume=jars.size, kind="jar", portions=float(jars.count))
        asked = Cooling(jar, STEAMED_OFF.value, replace(spot, temperature=jars.fridge))
        assert [v.verdict for v in cool(asked).verdicts] == ["within", "within"]


@pytest.mark.property
def test_more_food_needs_more_trays_and_a_longer_bath() -> None:
    small = {c.kind: c for c in changes(Dish(0.001), FRIDGE, ZERO + 95.0, LIMITS)}
    large = {c.kind: c for c in changes(Dish(0.004), FRIDGE, ZERO + 95.0, LIMITS)}
    assert large["trays"].count >= small["trays"].count
    assert large["ice bath"].size >= small["ice bath"].size


def test_hot_glass_is_not_sent_into_iced_water() -> None:
    jar = Dish(0.001, "jar")
    assert "ice bath" not in {c.kind for c in changes(jar, FRIDGE, ZERO + 95.0, LIMITS)}
    cautions = cool(replace(STOCK, dish=jar)).cautions
    assert any("glass" in caution for caution in cautions)


def test_a_big_hot_pot_warms_the_fridge_and_says_so() -> None:
    answer = cool(STOCK)
    peak = answer.result["fridge_peak_celsius"]
    assert peak["p50"] > 5.0
    assert any("warms the fridge" in caution for caution in answer.cautions)
    still = cool(replace(STOCK, spot=replace(FRIDGE, fridge=None)))
    assert "fridge_peak_celsius" not in still.result


def test_deep_trays_and_thin_liquids_are_marked() -> None:
    deep = cool(replace(STOCK, dish=Dish(0.004, "tray", depth=0.08, flow="thick")))
    kinds = {flag.name for flag in deep.flags}
    assert "deep-tray" in kinds
    assert "between-models" not in kinds
    shallow = cool(replace(STOCK, dish=Dish(0.004, "tray", depth=0.07)))
    kinds = {flag.name for flag in shallow.flags}
    assert "deep-tray" not in kinds
    assert "between-models" in kinds


def test_both_ends_of_the_range_of_temperatures() -> None:
    hot = replace(STOCK, dish=Dish(0.001, "jar"), start=ZERO + 149.0)
    assert not any(
        "food" in flag.message and flag.name == "outside-validity" for flag in cool(hot).flags
    )
    hotter = cool(replace(hot, start=ZERO + 160.0))
    assert any(flag.name == "outside-validity" for flag in hotter.flags)


def _measured(stretch: float, times: tuple[float, ...]) -> tuple[tuple[float, float], ...]:
    """Readings of a dish whose time runs `stretch` times the middle curve's."""
    history = run(STOCK.dish, FRIDGE, STOCK.start, ZERO + 5.0, ENDS).conducted
    assert history is not None
    curve = history.history([ZERO + c for c in np.linspace(94.0, 6.0, 60)])
    return tuple((t, float(curve.at(t / stretch)[1])) for t in times)


@pytest.mark.property
@pytest.mark.parametrize("stretch", [0.7, 1.0, 1.4])
def test_measured_temperatures_find_the_pace(stretch: float) -> None:
    before = cool(STOCK).result["spans"][0]["seconds"]
    measured = _measured(stretch, (3600.0, 7200.0, 10800.0))
    answer = cool(STOCK, measured=measured)
    after = answer.result["spans"][0]["seconds"]
    truth = stretch * before["p50"]
    assert after["p05"] < truth < after["p95"]
    assert after["p95"] / after["p05"] < before["p95"] / before["p05"]
    assert after["p50"] == pytest.approx(truth, rel=0.12)
    assert not any(flag.name == "measured-disagrees" for flag in answer.flags)


def test_measurements_that_fit_nothing_are_marked() -> None:
    answer = cool(STOCK, measured=((600.0, ZERO + 20.0), (7200.0, ZERO + 80.0)))
    assert any(flag.name == "measured-disagrees" for flag in answer.flags)


def test_a_measurement_at_the_start_alone_is_refused() -> None:
    history = run(STOCK.dish, FRIDGE, STOCK.start, ZERO + 5.0, ENDS).mixed.history
    with pytest.raises(OutOfRange, match="measured after the start"):
        fitted(history, [(0.0, ZERO + 95.0)])


def test_time_already_spent_shortens_what_is_allowed() -> None:
    tray = Dish(0.001, "tray", depth=0.02, covered=False)
    asked = Cooling(tray, ZERO + 40.0, FRIDGE, "soup", already=0.0)
    fresh = cool(asked).verdicts[0].verdict
    late = cool(replace(asked, already=2 * 3600.0)).verdicts[0].verdict
    unknown = cool(replace(asked, already=None)).verdicts[0].verdict
    assert (fresh, late, unknown) == ("within", "over", "too close")


@pytest.mark.property
def test_the_bath_then_the_fridge_keep_both_limits() -> None:
    dish = Dish(0.003, "pot")
    (bath,) = (c for c in changes(dish, FRIDGE, ZERO + 95.0, LIMITS) if c.kind == "ice bath")
    slow = slow_lanes(1)
    levels = [ZERO + celsius for celsius in (57.0, 21.0, 5.0)]
    in_bath = run(replace(dish, stirred=True), Spot("ice-bath"), ZERO + 95.0, ZERO + 5.0, slow)
    left = float(in_bath.mixed.history.at(bath.size)[0])
    cold = replace(FRIDGE, temperature=bath.fridge)
    after = run(dish, cold, max(left, ZERO + 5.01), ZERO + 5.0, slow).until_each(levels)[:, 0]
    whole = [
        float(early) if early <= bath.size else bath.size + float(late)
        for early, late in zip(in_bath.until_each(levels)[:, 0], after, strict=True)
    ]
    assert whole[1] - whole[0] < 7200.0
    assert whole[2] - whole[0] < 21600.0


@pytest.mark.property
@settings(deadline=None, max_examples=30)
@given(
    litres=st.floats(0.05, 20.0),
    kind=st.sampled_from(["pot", "tray", "jar", "bottle"]),
    where=st.sampled_from(["room", "fridge", "ice-bath"]),
    celsius=st.floats(30.0, 99.9),
    flow=st.sampled_from(["thin", "thick"]),
    covered=st.booleans(),
    stirred=st.booleans(),
    speed=st.sampled_from([0.0, 1.5]),
)
def test_any_sensible_question_has_an_answer(
    litres: float,
    kind: Kind,
    where: Where,
    celsius: float,
    flow: Flow,
    covered: bool,
    stirred: bool,
    speed: float,
) -> None:
    dish = Dish(litres / 1000.0, kind, covered=covered, flow=flow, stirred=stirred)
    spot = replace(FRIDGE, where=where, speed=speed)
    if where != "fridge":
        spot = replace(spot, fridge=None)
    document = _document(cool(Cooling(dish, ZERO + celsius, spot, already=None)))
    for span in document["result"]["spans"]:
        known = [span["seconds"][key] for key in ("p05", "p50", "p95")]
        finite = [each for each in known if each is not None]
        assert finite == sorted(finite)
        # Never comes last: what the slow end reaches, the fast end reaches too.
        assert known[: len(finite)] == finite


def test_two_readings_in_a_fridge_add_the_check_that_needs_no_model() -> None:
    measured = ((1800.0, ZERO + 80.0), (3600.0, ZERO + 70.0))
    names = [each.rule for each in cool(STOCK, measured=measured).verdicts]
    assert sum(name.startswith("two readings") for name in names) == 2
    assert not any(
        each.rule.startswith("two readings") for each in cool(STOCK, measured=measured[:1]).verdicts
    )
    document = _document(cool(STOCK, measured=measured))
    for left in document["result"]["from_last_measured"]:
        assert left["seconds"]["p05"] > 0.0


def test_changes_start_from_what_was_measured() -> None:
    # 1.5 L at 50 °C after 40 minutes: the clock has run since 57 °C, and the trays begin at 50 °C.
    asked = replace(STOCK, dish=Dish(0.0015, "pot"))
    answer = cool(asked, measured=((2400.0, ZERO + 50.0),))
    for change in answer.result["would_pass"]:
        assert "Let it stand" not in change["says"]
    assert "time-used-up" not in {flag.name for flag in answer.flags}
    late = cool(asked, measured=((2400.0, ZERO + 50.0), (5 * 3600.0, ZERO + 45.0)))
    assert "time-used-up" in {flag.name for flag in late.flags}
    assert late.result["would_pass"] == []


def test_a_food_hardly_warmer_than_the_fridge_may_never_get_colder() -> None:
    # 4.5 °C in a fridge at 4 °C whose warm end is 5 °C.
    answer = cool(replace(STOCK, start=ZERO + 4.5, spot=Spot(temperature=ZERO + 4.0), already=0.0))
    assert answer.verdicts[-1].verdict == "within"
    warmer = replace(STOCK, start=ZERO + 6.5, spot=Spot(temperature=ZERO + 6.0), already=0.0)
    assert cool(warmer).verdicts[-1].verdict == "over"
    with pytest.raises(OutOfRange, match="no warmer"):
        cool(replace(STOCK, start=ZERO + 2.9, spot=Spot(temperature=ZERO + 4.0)))
