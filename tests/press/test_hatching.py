"""Printer's hatching for life-cycle stages."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest

from counterproof.draws import Range
from counterproof.press import hatching
from counterproof.press.hatching import stage_fields, stage_strip
from counterproof.rows import STAGES


def _exact(value: float) -> Range:
    return Range(value, value, value, value)


def test_every_stage_has_a_pattern_of_its_own() -> None:
    drawn = re.findall(r'<pattern id="([^"]+)"[^>]*>(.*?)</pattern>', hatching.patterns())
    assert len(drawn) == len(STAGES)
    assert len({name for name, _ in drawn}) == len({inside for _, inside in drawn}) == len(STAGES)
    assert len({hatching.letter(stage) for stage in STAGES}) == len(STAGES)


def test_no_pattern_is_told_by_colour() -> None:
    assert set(re.findall(r'stroke="([^"]+)"', hatching.patterns())) == {"var(--ink)"}


@pytest.mark.property
def test_fields_are_as_wide_as_their_stages() -> None:
    stages = (("production", _exact(0.6)), ("packaging", _exact(0.3)), ("cooking", _exact(0.1)))
    fields, zero = stage_fields(stages, "mean")
    assert zero == 0
    assert [round(field.width, 9) for field in fields] == [0.6, 0.3, 0.1]
    assert [round(field.start, 9) for field in fields] == [0.0, 0.6, 0.9]


def test_a_stage_below_zero_stands_left_of_it() -> None:
    stages = (("production", _exact(-0.2)), ("transport", _exact(0.5)), ("retail", _exact(0.3)))
    fields, zero = stage_fields(stages, "mean")
    assert zero == pytest.approx(0.2)
    assert fields[0].start == pytest.approx(0.0)
    assert fields[0].width == pytest.approx(0.2)
    assert fields[1].start == pytest.approx(0.2)
    svg = stage_strip(stages, "mean", title="t", description="d")
    assert 'x1="20%"' in svg


def test_a_strip_of_nothing_is_not_drawn() -> None:
    assert stage_strip((("retail", _exact(0.0)),), "mean", title="t", description="d") == ""


def test_the_strip_is_well_formed_and_described() -> None:
    svg = stage_strip((("retail", _exact(1.0)),), "mean", title="a & b", description="<c>")
    root = ET.fromstring(svg)  # noqa: S314 - our own drawing
    assert [element.text for element in list(root)[:2]] == ["a & b", "<c>"]
