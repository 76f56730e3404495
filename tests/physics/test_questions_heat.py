"""Questions of heat: what contracts promise, ranges from draws, printed tests of hobs and kettles."""

from __future__ import annotations

import json
from collections.abc import Callable

import numpy as np
import pytest

from counterproof.draws import Lognormal, Parameter, Streams
from counterproof.errors import OutOfRange
from counterproof.physics import (
    food_properties,
    questions_dry_heat,
    questions_heat,
    questions_plugged,
)
from counterproof.physics.answer import Answer, Curve, Verdict, credited, printed
from counterproof.physics.flags import Flag, outside
from counterproof.physics.heating import Contents
from counterproof.physics.places import Place, Ring
from counterproof.physics.questions_dry_heat import Cavity
from counterproof.physics.values import Draws, Take, middle, printed_ends, taken_share
from counterproof.sourced import Sourced

BEEF = food_properties.makeup({"water": 0.70, "protein": 0.22, "fat": 0.07, "ash": 0.01})
Question = Callable[[Take], Answer]
QUESTIONS: dict[str, Question] = {
    "heat": lambda take: questions_heat.heat(Contents(1.0), 288.15, take=take),
    "simmer": lambda take: questions_heat.simmer(Contents(4.0), 1800.0, take=take),
    "kettle": lambda take: questions_plugged.boil_kettle(1.0, 288.15, take=take),
    "fry": lambda take: questions_dry_heat.fry(Contents(0.0, 0.5, BEEF), 480.0, take=take),
    "bake": lambda take: questions_dry_heat.bake(
        453.15, 2400.0, Contents(0.0, 1.2, BEEF), take=take
    ),
    "microwave": lambda take: questions_plugged.microwave_food(
        Contents(0.3), 288.15, 348.15, take=take
    ),
}
PROMISED = {
    "heat": {"time_s", "useful_j", "input_j", "evaporated_kg"},
    "simmer": {"useful_j", "input_j", "evaporated_kg"},
    "bake": {"input_j"},
}


@pytest.fixture(scope="module")
def drawn() -> Take:
    """Two thousand draws of every constant, lognormal with its mean kept."""
    streams = Streams(seed=1, n=2000)

    def take(key: str, constant: Sourced, /) -> float | Draws:
        return streams.values(
            Parameter(key, Lognormal.from_spread(constant.value, constant.spread))
        )

    return take


@pytest.mark.parametrize("process", QUESTIONS)
def test_answers_have_the_promised_form(process: str) -> None:
    document = QUESTIONS[process](middle).to_dict()
    assert document["process"] == process
    assert set(document) == {
        "process", "inputs", "result", "verdicts", "curve", "cautions", "sources", "marks",
    }  # fmt: skip
    assert PROMISED.get(process, {"input_j", "useful_j"}) <= set(document["result"])
    assert all(isinstance(value, float) for value in document["result"].values())
    assert all("Local codes" in caution for caution in document["cautions"])
    assert all(set(mark) == {"level", "kind", "message", "choices"} for mark in document["marks"])
    assert json.loads(json.dumps(document, allow_nan=False)) == document


@pytest.mark.property
@pytest.mark.parametrize("process", QUESTIONS)
def test_draws_surround_the_middle_and_keep_the_balance(process: str, drawn: Take) -> None:
    middle_value = QUESTIONS[process](middle).to_dict()["result"]["input_j"]
    found = QUESTIONS[process](drawn).to_dict()["result"]["input_j"]
    assert found["p05"] < middle_value < found["p95"]
    assert found["mean"] == pytest.approx(middle_value, rel=0.25)


@pytest.mark.property
def test_no_word_of_an_answer_promises_safety() -> None:
    for question in QUESTIONS.values():
        text = json.dumps(question(middle).to_dict()).lower()
        assert " safe" not in text.replace("safety", "")


@pytest.mark.property
def test_the_boil_comes_earlier_and_cooler_on_a_mountain() -> None:
    sea, hill = (
        questions_heat.heat(Contents(1.0), 288.15, place=Place(altitude=at)).result
        for at in (0.0, 2000.0)
    )
    assert hill["boil_celsius"] == pytest.approx(93.3, abs=0.1)
    assert hill["time_s"] < sea["time_s"]
    assert questions_heat.heat(Contents(1.0), 288.15, place=Place(altitude=9500.0)).flags


@pytest.mark.property
def test_a_wanted_time_gives_the_power_that_brings_it() -> None:
    wanted = questions_heat.heat(Contents(1.0), 288.15, time=300.0)
    ring = Ring(power=wanted.result["power_w"])
    assert questions_heat.heat(Contents(1.0), 288.15, ring=ring).result["time_s"] == pytest.approx(
        300.0, rel=1e-6
    )
    hasty = questions_heat.heat(Contents(5.0), 288.15, time=300.0)
    assert "ring-too-weak" in [flag.name for flag in hasty.flags]


@pytest.mark.published
def test_a_litre_on_gas_is_within_the_range(drawn: Take) -> None:
    # 1 L cold to boil with a lid: 0.29–0.30 kWh of gas (MacKay 2008, How much is inside hot
    # water?). The hob's 40 % is from another source, so nothing is fitted.
    asked = questions_heat.heat(Contents(1.0), 288.15, ring=Ring("gas"), take=drawn)
    found = asked.to_dict()["result"]["input_j"]
    assert found["p05"] < 0.29 * 3.6e6 < found["p95"]
    assert found["p05"] < 0.30 * 3.6e6 < found["p95"]


@pytest.mark.published
def test_a_small_kettle_is_within_the_range(drawn: Take) -> None:
    # 350 mL, 17 to 100 °C, 1200 W, 125 s: a plug-meter test in an online magazine (2008).
    asked = questions_plugged.boil_kettle(0.35, 290.15, power=1200.0, take=drawn)
    found = asked.to_dict()["result"]
    assert found["time_s"]["p05"] < 125.0 < found["time_s"]["p95"]
    assert found["efficiency_share"]["p05"] < 0.81 < found["efficiency_share"]["p95"]


@pytest.mark.property
def test_the_warming_curve_ends_when_the_answer_says() -> None:
    asked = questions_heat.heat(Contents(1.0), 288.15)
    curve = asked.curve
    assert curve is not None
    assert curve.seconds[0] == 0.0
    assert curve.seconds[-1] == pytest.approx(asked.result["time_s"], rel=1e-9)
    assert curve.celsius[-1] == pytest.approx(asked.result["boil_celsius"])
    assert all(np.diff(curve.seconds) > 0)


@pytest.mark.property
def test_a_lid_saves_more_at_the_simmer_than_on_the_way_to_the_boil() -> None:
    def saved(question: Callable[[Ring], Answer]) -> float:
        bare, lidded = (question(Ring(covered=on)).result["input_j"] for on in (False, True))
        return float(1 - lidded / bare)

    fast = saved(lambda ring: questions_heat.heat(Contents(1.0), 288.15, ring=ring))
    kept = saved(lambda ring: questions_heat.simmer(Contents(1.0), 1200.0, ring=ring))
    assert 0.0 < fast < 0.15
    assert kept > 0.5


def test_a_hard_boil_uses_the_whole_ring_and_would_boil_dry() -> None:
    ring = Ring(power=2000.0, covered=False)
    boiled = questions_heat.simmer(Contents(4.0), 1800.0, hard=True, ring=ring)
    assert boiled.result["share_of_full_power"] == pytest.approx(1.0)
    assert boiled.result["evaporated_kg"] > 0.9
    with pytest.raises(OutOfRange, match="boil dry"):
        questions_heat.simmer(Contents(0.5), 3600.0, hard=True, ring=ring)
    weak = questions_heat.simmer(Contents(4.0), 60.0, hard=True, ring=Ring(power=60.0))
    assert "no-boil" in [flag.name for flag in weak.flags]


@pytest.mark.property
def test_a_reduction_takes_the_time_that_boils_it_off() -> None:
    ring = Ring(power=1500.0, covered=False)
    wanted = questions_heat.simmer(Contents(1.0), boil_off=0.4, hard=True, ring=ring)
    seconds = wanted.result["time_s"]
    again = questions_heat.simmer(Contents(1.0), seconds, hard=True, ring=ring)
    assert again.result["evaporated_kg"] == pytest.approx(0.4)
    with pytest.raises(OutOfRange, match="one of the two"):
        questions_heat.simmer(Contents(1.0))
    with pytest.raises(OutOfRange, match="never boils off"):
        questions_heat.simmer(Contents(1.0), boil_off=0.4, hard=True, ring=Ring(power=50.0))
    with pytest.raises(OutOfRange, match="boil dry"):
        questions_heat.simmer(Contents(1.0), boil_off=1.2, hard=True, ring=ring)


def test_food_in_the_pot_is_said_to_be_one_temperature() -> None:
    stew = questions_heat.heat(Contents(0.5, 0.5, BEEF), 281.15)
    assert "one-temperature" in [flag.name for flag in stew.flags]
    from_frozen = questions_heat.heat(Contents(0.5, 0.5, BEEF), 263.15)
    assert "from-frozen" in {flag.name for flag in from_frozen.flags}
    too_cold = questions_heat.heat(Contents(1.0), 230.0)
    assert "outside-validity" in {flag.name for flag in too_cold.flags}


def test_an_oven_shared_by_two_and_an_empty_one() -> None:
    alone = questions_dry_heat.bake(453.15, 2400.0)
    half = questions_dry_heat.bake(453.15, 2400.0, cavity=Cavity(share=0.5))
    assert half.result["input_j"] == pytest.approx(0.5 * alone.result["input_j"])
    assert alone.result["useful_j"] == 0.0
    gas = questions_dry_heat.bake(453.15, 2400.0, cavity=Cavity("gas"))
    assert gas.result["input_j"] > 1.3 * alone.result["input_j"]


def test_impossible_questions_name_limit_and_remedy() -> None:
    refused: tuple[tuple[Callable[[], Answer], str], ...] = (
        (lambda: questions_heat.heat(Contents(0.0), 288.15), "nothing in the pot"),
        (lambda: questions_plugged.boil_kettle(0.0, 288.15), "empty"),
        (lambda: questions_dry_heat.fry(Contents(1.0), 60.0), "not for water"),
        (lambda: questions_dry_heat.fry(Contents(0.0, 0.2, BEEF), 60.0, deep=True), "not deep"),
        (lambda: questions_dry_heat.bake(453.15, 60.0, cavity=Cavity("steam")), "Kinds are"),
        (lambda: questions_plugged.microwave_food(Contents(0.3), 288.15, 400.0), "100.0 °C"),
        (lambda: questions_heat.heat(Contents(1.0), 288.15, ring=Ring("coal")), "kind of hob"),
        (lambda: questions_heat.heat(Contents(float("nan")), 288.15), "The water is nan"),
        (lambda: questions_heat.heat(Contents(1.0), 288.15, ring=Ring(power=0.0)), "The power"),
        (lambda: questions_heat.simmer(Contents(1.0), -5.0), "The time is -5"),
        (lambda: questions_dry_heat.bake(453.15, 60.0, Contents(0.0, -1.0)), "The food is -1"),
        (lambda: questions_plugged.microwave_food(Contents(0.3), 350.0, 300.0), "ends warmer"),
        (
            lambda: questions_plugged.microwave_food(Contents(0.3), 288.0, 300.0, output=0.0),
            "The output",
        ),
    )
    for ask, words in refused:
        with pytest.raises(OutOfRange) as caught:
            ask()
        assert words in str(caught.value)
        assert caught.value.remedy


def test_printing_draws_ranges_and_what_is_not_finite() -> None:
    draws = np.array([1.0, 2.0, 3.0, np.inf])
    assert printed(draws) == {"mean": 2.0, "p05": 1.1, "p50": 2.0, "p95": 2.9}
    assert printed({"a": [np.float64(1.0), np.inf, "b"]}) == {"a": [1.0, None, "b"]}
    assert printed(np.full(5, 7.0)) == 7.0
    assert printed(np.array([np.inf])) is None
    verdict = Verdict("a rule", "no rule", "keep it cold", "common practice")
    answer = Answer("cool", {}, {}, (verdict,), Curve.of(np.array([0.0]), np.array([273.15])))
    assert answer.to_dict()["verdicts"][0]["verdict"] == "no rule"
    assert answer.to_dict()["curve"] == {"seconds": [0.0], "celsius": [0.0]}


def test_credits_part_sources_from_assumptions() -> None:
    read = Sourced(1.0, "1", 0.1, "a-study", "table 1", "")
    guess = Sourced(2.0, "kg", 0.5, "assumed", "", "nobody weighed it")
    exact = Sourced(3.0, "K", 0.0, "exact", "", "")
    sources, assumed = credited(read, guess, exact, "b-study", read)
    assert sources == ("a-study", "b-study")
    assert assumed == ("assumed 2 kg ± 50%: nobody weighed it",)


@pytest.mark.property
def test_a_drawn_share_never_leaves_nought_to_one(drawn: Take) -> None:
    share = Sourced(0.9, "1", 0.2, "assumed", "", "")
    draws = np.asarray(taken_share(drawn, "a share", share))
    assert draws.min() > 0.0
    assert draws.max() < 1.0
    assert np.mean(draws) == pytest.approx(0.9, abs=0.06)
    assert taken_share(middle, "a share", share) == pytest.approx(0.9)


def test_flags_look_at_what_is_printed_not_at_single_draws() -> None:
    draws = np.concatenate((np.full(990, 5.0), np.full(10, 500.0)))
    assert outside("a thing", draws, 0.0, 10.0, "kg") == ()
    assert outside("a thing", 11.0, 0.0, 10.0, "kg")[0].name == "outside-validity"
    assert printed_ends(np.array([3.0, 1.0])) == (1.0, 3.0)
    assert Flag("a", "b").to_dict()["level"] == "doubt"
