"""A printer's signs."""

from __future__ import annotations

from xml.etree import ElementTree as ET

from counterproof.press import signs
from counterproof.press.drawing import SHEET

SIGNS = {level: signs.sign(level) for level in ("note", "doubt", "fault")}


def test_each_level_has_a_sign_of_its_own_drawn_without_type() -> None:
    assert len(set(SIGNS.values())) == len(SIGNS)
    for svg in SIGNS.values():
        kinds = {element.tag.rpartition("}")[2] for element in ET.fromstring(svg).iter()}  # noqa: S314 - our own drawing
        assert kinds <= {"svg", "path", "circle"}


def test_a_sign_that_repeats_words_is_hidden_from_screen_readers() -> None:
    for svg in (*SIGNS.values(), signs.registration_cross(), signs.leader()):
        assert 'aria-hidden="true"' in svg


def test_one_blue_and_the_page_s_own_colours() -> None:
    for svg in SIGNS.values():
        assert "var(--blue)" in svg
        assert "#" not in svg
    assert SHEET.blue in signs.sign("doubt", SHEET)
