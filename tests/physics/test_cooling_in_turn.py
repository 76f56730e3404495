"""A dish moved as it cools: stays add up to what one stay would be."""

from __future__ import annotations

from dataclasses import replace

import pytest

from counterproof.errors import OutOfRange
from counterproof.physics.cooling_in_turn import Stay, in_turn
from counterproof.physics.cooling_question import Cooling
from counterproof.physics.cooling_rules import RULES
from counterproof.physics.cooling_scene import Dish, Spot, household_fridge
from counterproof.physics.places import Place
from counterproof.physics.questions_cool import cool
from counterproof.physics.values import ZERO_CELSIUS

PLACE = Place()
FRIDGE = household_fridge(ZERO_CELSIUS + 4.0, 250.0, 150.0, PLACE)
POT = Dish(0.003, flow="thick")
HOT = ZERO_CELSIUS + 95.0
US = RULES["us"]


def test_one_stay_is_the_question_itself() -> None:
    asked = cool(Cooling(POT, HOT, FRIDGE))
    found = in_turn([Stay(POT, FRIDGE)], HOT, US, FRIDGE)
    spans = asked.result["spans"]
    assert [time.to_dict() for time in found.times] == [span["seconds"] for span in spans]
    assert [said.verdict for said in found.verdicts] == [v.verdict for v in asked.verdicts]


def test_stirring_between_two_stays_in_one_place_takes_little_off() -> None:
    # A dish is evenly warm when it is moved: two stays in the same fridge are one, stirred once.
    room = Spot("room", PLACE)
    stirred = replace(POT, flow="thin", stirred=True)
    one = in_turn([Stay(stirred, room)], HOT, US[:1], FRIDGE)
    two = in_turn(
        [Stay(stirred, room, ZERO_CELSIUS + 40.0), Stay(stirred, room)], HOT, US[:1], FRIDGE
    )
    assert two.times[0].p50 == pytest.approx(one.times[0].p50, rel=0.01)


@pytest.mark.property
def test_the_longer_on_the_counter_the_later_it_is_cold() -> None:
    room = Spot("room", PLACE)
    times = [
        in_turn([Stay(POT, room, ZERO_CELSIUS + until), Stay(POT, FRIDGE)], HOT, US, FRIDGE).times[
            0
        ]
        for until in (60.0, 50.0, 40.0, 30.0)
    ]
    assert times == sorted(times, key=lambda time: time.p50)


def test_a_stay_that_ends_above_the_start_is_left_out() -> None:
    warm = ZERO_CELSIUS + 50.0
    room = Spot("room", PLACE)
    left_out = in_turn([Stay(POT, room, HOT), Stay(POT, FRIDGE)], warm, US, FRIDGE)
    assert left_out == in_turn([Stay(POT, FRIDGE)], warm, US, FRIDGE)


def test_the_gravest_verdict_decides() -> None:
    found = in_turn([Stay(POT, FRIDGE)], HOT, US, FRIDGE)
    assert found.verdicts[found.worst].verdict == "over"
    assert all(change.says for change in found.would_pass)


def test_food_as_cold_as_its_surroundings_is_refused() -> None:
    with pytest.raises(OutOfRange):
        in_turn([Stay(POT, Spot("room", PLACE))], PLACE.room - 1.0, US, FRIDGE)


@pytest.mark.property
def test_the_way_down_agrees_with_the_times_of_the_rules() -> None:
    room = Spot("room", PLACE)
    stays = [Stay(POT, room, ZERO_CELSIUS + 50.0), Stay(POT, FRIDGE)]
    found = in_turn(stays, HOT, US, FRIDGE)
    levels = [level for level, _ in found.course]
    assert levels == sorted(levels, reverse=True)
    assert (levels[0], levels[-1]) == (HOT, min(rule.goal.value for rule in US))
    for end in ("p05", "p50", "p95"):
        times = [getattr(time, end) for _, time in found.course]
        assert times == sorted(times)
    assert found.course[-1][1] == found.to_goal
