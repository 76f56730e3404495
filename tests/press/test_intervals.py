"""Intervals on a common scale."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.draws import Range
from counterproof.press import intervals
from counterproof.press.intervals import common_scale, round_step

SVG = "{http://www.w3.org/2000/svg}"
SOME = (Range(0.2, 0.1, 0.19, 0.4), Range(0.05, -0.1, 0.04, 0.21), Range(0.3, 0.2, 0.3, 0.95))


def _drawn(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - our own drawing


def _percent(text: str | None) -> float:
    assert text is not None
    return float(text.removesuffix("%"))


def test_the_scale_holds_every_interval_and_zero() -> None:
    scale = common_scale(SOME)
    assert scale.low < -0.1
    assert scale.high > 0.95
    assert scale.ticks == (0.0, 0.5)
    assert common_scale(SOME, most_ticks=8).ticks == (0.0, 0.2, 0.4, 0.6, 0.8)


def test_a_scale_of_nothing_can_still_be_drawn() -> None:
    assert common_scale(()).ticks[0] == 0.0
    assert common_scale([Range(0, 0, 0, 0)]).high > 0


@pytest.mark.property
@given(
    st.lists(
        st.tuples(*[st.floats(-1e5, 1e5)] * 4).map(lambda four: Range(four[0], *sorted(four[1:]))),
        max_size=6,
    )
)
def test_places_keep_the_order_of_values(values: list[Range]) -> None:
    scale = common_scale(values)
    ends = sorted({end for value in values for end in (value.p05, value.mean, value.p95)})
    shares = [scale.share(end) for end in ends]
    assert shares == sorted(shares)
    assert all(0 < share < 1 for share in shares)
    assert 1 <= len(scale.ticks) <= intervals.MOST_TICKS + 2


@pytest.mark.property
@given(st.floats(1e-9, 1e9))
def test_a_round_step_is_the_next_of_one_two_five(least: float) -> None:
    step = round_step(least)
    assert step >= least * (1 - 1e-9)
    assert step / least <= 2.5 * (1 + 1e-9)
    assert f"{step:.0e}"[0] in "125"


def test_a_negative_percentile_is_drawn_left_of_zero() -> None:
    scale = common_scale(SOME)
    svg = _drawn(intervals.interval(scale, SOME[1], "mean", title="walnuts", y="10"))
    zero = _percent(scale.place(0.0))
    line = next(e for e in svg.iter(f"{SVG}line") if e.get("stroke") == "var(--ink)")
    assert _percent(line.get("x1")) < zero < _percent(line.get("x2"))


def test_the_stroke_stands_at_the_middle_that_was_asked_for() -> None:
    scale = common_scale(SOME)
    for middle, value in (("mean", SOME[2].mean), ("median", SOME[2].p50)):
        svg = _drawn(intervals.interval(scale, SOME[2], middle, title="x", y="1.28em"))
        strokes = [e for e in svg.iter(f"{SVG}svg") if e.get("overflow")]
        assert [stroke.get("x") for stroke in strokes] == [scale.place(value)]


def test_a_drawing_names_itself_and_escapes_its_words() -> None:
    svg = intervals.interval(common_scale(SOME), SOME[0], "mean", title='<b>&"', y="1")
    assert _drawn(svg).get("role") == "img"
    assert _drawn(svg).findtext(f"{SVG}title") == '<b>&"'


def test_numbers_in_a_drawing_are_rounded() -> None:
    svg = intervals.axis(common_scale([Range(1 / 3, 1 / 7, 1 / 3, 2 / 3)]), title="scale")
    assert not re.search(r"\d\.\d{3}", svg)
