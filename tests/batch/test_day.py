"""A plan for the day: everything in its order, nothing used twice at a time."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.batch.day import DAY, DayPlan, Room, Slot, day_plan
from counterproof.batch.stretches import in_turn, stretches_of
from counterproof.errors import InputError
from counterproof.physics.spread import Spread
from counterproof.plan.timeline import laid_out
from counterproof.plan.times import Task

NOON = 12 * 60
ROOM = Room(cooks=1, rings=2, ovens=1)


def _task(does: str, minutes: float, *, hands: bool = False, place: str = "", celsius: float | None = None) -> Task:  # fmt: skip
    lasts = Spread(50 * minutes, 60 * minutes, 90 * minutes)
    return Task(1, does, hands, lasts, place=place, celsius=celsius)


def _in_turn(*tasks: Task) -> tuple[Task, ...]:
    return laid_out([(False, tasks)])


def _clash(one: Slot, other: Slot) -> bool:
    return one.begins < other.ends and other.begins < one.ends


def _roast(celsius: float) -> tuple[Task, ...]:
    return _in_turn(_task("bake", 60, place="oven", celsius=celsius))


def _by_hand(plan: DayPlan) -> list[Slot]:
    return [slot for slot in plan.slots if slot.task.hands_on and slot.ends > slot.begins]


def test_a_dish_alone_ends_when_it_is_wanted() -> None:
    plan = day_plan([("soup", _in_turn(_task("chop", 10, hands=True), _task("simmer", 30, place="hob")))], ROOM, NOON)  # fmt: skip
    assert [(slot.begins, slot.ends, slot.place) for slot in plan.slots] == [
        (NOON - 40, NOON - 30, ""),
        (NOON - 30, NOON, "ring 1"),
    ]
    assert plan.waits == ()


def test_two_roasts_of_one_warmth_share_the_oven_and_of_two_do_not() -> None:
    alike = day_plan([("a", _roast(180)), ("b", _roast(185))], ROOM, NOON)
    apart = day_plan([("a", _roast(180)), ("b", _roast(220))], ROOM, NOON)

    def clashes(plan: DayPlan) -> bool:
        first, second = (slot for slot in plan.slots if slot.place == "oven")
        return _clash(first, second)

    assert clashes(alike)
    assert not clashes(apart)
    assert any("the oven" in wait.cause for wait in apart.waits)


def test_hands_are_not_there_at_night() -> None:
    cold = _in_turn(
        _task("mix", 20, hands=True), _task("chill", 10 * 60), _task("serve", 5, hands=True)
    )
    plan = day_plan([("pudding", cold)], ROOM, 9 * 60)
    assert all(7 * 60 <= slot.begins % DAY < 22 * 60 for slot in _by_hand(plan))
    assert plan.waits[0].cause == "the night"
    assert plan.waits[0].keeps


def test_what_stands_too_long_is_told() -> None:
    """Food is refrigerated within two hours: USDA FSIS, quoted by the University of Nebraska."""
    long = _in_turn(_task("fry", 200, hands=True, place="hob"))
    plan = day_plan([("first", long), ("second", long)], ROOM, 18 * 60)
    assert [wait.too_long for wait in plan.waits] == [True]


def test_a_dish_that_needs_an_oven_needs_an_oven() -> None:
    with pytest.raises(InputError, match="more ovens"):
        day_plan([("a", _roast(180))], Room(ovens=0), NOON)


def test_work_side_by_side_is_done_in_turn_where_hands_are_few() -> None:
    beside = laid_out(
        [(False, [_task("fry", 10, hands=True, place="hob")]), (True, [_task("mix", 10, hands=True)])]
    )  # fmt: skip
    (together,) = stretches_of(beside)
    assert together.minutes == 10
    assert in_turn(together).minutes == 20
    alone = day_plan([("a", beside)], ROOM, NOON)
    pair = day_plan([("a", beside)], Room(cooks=2), NOON)
    assert (NOON - alone.starts, NOON - pair.starts) == (20, 10)


def test_a_pot_stays_on_its_ring() -> None:
    (stretch,) = stretches_of(
        _in_turn(_task("boil", 10, place="hob"), _task("add", 2, hands=True), _task("simmer", 20, place="hob"))
    )  # fmt: skip
    rings = [need for need in stretch.needs if need.takes == "ring"]
    assert [(need.begins, need.ends) for need in rings] == [(0, 32)]


tasks = st.builds(
    _task,
    st.sampled_from(["fry", "mix", "simmer", "bake", "chill"]),
    st.integers(1, 45),
    hands=st.booleans(),
    place=st.sampled_from(["", "hob", "oven"]),
    celsius=st.sampled_from([None, 180.0, 220.0]),
)
dishes = st.lists(
    st.lists(tasks, min_size=1, max_size=5).map(lambda of: _in_turn(*of)), min_size=1, max_size=3
)


@pytest.mark.property
@settings(max_examples=60)
@given(dishes, st.integers(1, 2), st.integers(1, 2))
def test_nothing_is_used_twice_at_a_time(
    lines: list[tuple[Task, ...]], cooks: int, rings: int
) -> None:
    named = [(f"dish {at}", line) for at, line in enumerate(lines)]
    plan = day_plan(named, Room(cooks=cooks, rings=rings), 18 * 60)
    on_rings = [slot for slot in plan.slots if slot.place.startswith("ring")]
    for one, other in combinations(on_rings, 2):
        assert one.place != other.place or not _clash(one, other)
    for minute in {slot.begins for slot in _by_hand(plan)}:
        at_work = [slot for slot in _by_hand(plan) if slot.begins <= minute < slot.ends]
        assert len(at_work) <= cooks
    for name, line in named:
        own = [slot for slot in plan.slots if slot.dish == name]
        assert [slot.task for slot in own] == list(line)  # in the recipe's order, none lost
        assert max(slot.ends for slot in own) <= 18 * 60
