"""The drawer's small functions."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from counterproof.press import drawing

SIGNS = {level: drawing.sign(level) for level in ("note", "doubt", "fault")}


def test_each_level_has_a_sign_of_its_own_drawn_without_type() -> None:
    assert len(set(SIGNS.values())) == len(SIGNS)
    for svg in SIGNS.values():
        kinds = {element.tag.rpartition("}")[2] for element in ET.fromstring(svg).iter()}  # noqa: S314 - our own drawing
        assert kinds <= {"svg", "path", "circle"}


def test_a_sign_that_repeats_words_is_hidden_from_screen_readers() -> None:
    for svg in (*SIGNS.values(), drawing.registration_cross(), drawing.leader()):
        assert 'aria-hidden="true"' in svg


def test_one_blue_and_the_page_s_own_colours() -> None:
    for svg in SIGNS.values():
        assert "var(--blue)" in svg
        assert "#" not in svg
    assert drawing.SHEET.blue in drawing.sign("doubt", drawing.SHEET)


@pytest.mark.parametrize(
    ("value", "text"), [(1.0, "1"), (0.126, "0.13"), (-0.001, "0"), (12.50, "12.5"), (100, "100")]
)
def test_lengths_are_rounded(value: float, text: str) -> None:
    assert drawing.rounded(value) == text


def test_attributes_are_escaped() -> None:
    assert drawing.tag("g", data_a='"<') == '<g data-a="&quot;&lt;"/>'
    assert drawing.tag("g", "x", class_=None) == "<g>x</g>"
