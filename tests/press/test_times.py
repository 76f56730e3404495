"""The time line drawn: bars in order, long waits cut, everything named."""

from __future__ import annotations

import pytest

from counterproof.press import times, wording
from counterproof.proof import TaskProof


def task(begins: float, lasts: float, *, hands_on: bool = False) -> TaskProof:
    return TaskProof(1, "bake", hands_on, (begins,) * 3, (lasts,) * 3, "some time")


def test_bars_stand_one_after_the_other_and_fill_the_line() -> None:
    first, second = times.bars([task(0, 600), task(600, 1200)])
    assert (first.start, first.width) == pytest.approx((0, 1 / 3))
    assert (second.start, second.width) == pytest.approx((1 / 3, 2 / 3))
    assert not first.cuts


def test_a_night_is_cut_so_that_minutes_keep_their_room() -> None:
    minutes, night = times.bars([task(0, 1200), task(1200, 36000)])
    assert minutes.width == pytest.approx(1200 / (1200 + times.LONGEST_DRAWN))
    assert len(night.cuts) == 1
    assert night.start < night.cuts[0] < night.start + night.width


def test_what_runs_beside_a_long_wait_is_not_cut_away() -> None:
    long, beside = times.bars([task(0, 36000), task(600, 600)])
    assert beside.start > long.start
    assert beside.width > 0.05
    assert len(long.cuts) == 1


def test_nothing_to_draw_is_nothing() -> None:
    assert times.bars([]) == ()
    assert times.bars([task(0, 0)]) == ()


def test_a_bar_says_what_it_is_and_waits_are_hatched() -> None:
    waits, hands = times.bars([task(0, 600), task(600, 600, hands_on=True)])
    drawn = times.bar(waits, title=wording.task_words(task(0, 600)), first=True)
    assert "<title>bake, waiting, some time</title>" in drawn
    assert 'fill="url(#hatching-waiting)"' in drawn
    assert "<pattern" in drawn
    assert "url(" not in times.bar(hands, title="fry")
