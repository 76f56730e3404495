"""Type as outlines: what is measured is what an independent shaper would set."""

from __future__ import annotations

import re

import pytest

from counterproof.adapters.typst_setting import composing_room
from counterproof.press.outlines import Box, Style, fitted, outlined, width, wrapped
from counterproof.press.part import Setting

FAMILIES: dict[Style, str] = {
    "serif": 'font: "Source Serif Pro"',
    "serif italic": 'font: "Source Serif Pro", style: "italic"',
    "sans": 'font: "Source Sans Pro"',
    "sans semibold": 'font: "Source Sans Pro", weight: 600',
}
LINES = (
    "AVATAR To. Wave, Typ",
    "0.64 kg CO₂e",
    "9,6 Liter in 2 Schalen",
    "Wohin die Packungen gehen",
)


@pytest.mark.published
@pytest.mark.parametrize("style", FAMILIES)
def test_a_line_is_as_long_as_a_shaper_sets_it(style: Style) -> None:
    # Typst shapes with rustybuzz, a port of HarfBuzz; ligatures off, since we draw sign by sign.
    with composing_room("2026-11-25") as set_job:
        for line in LINES:
            source = (
                "#set page(width: auto, height: auto, margin: 0pt)\n"
                f"#set text({FAMILIES[style]}, size: 100pt, ligatures: false)\n"
                f'#"{line}"\n'
            )
            made = set_job("line", Setting(source, format="svg")).decode()
            found = re.search(r'viewBox="0 0 ([\d.]+) ', made)
            assert found is not None
            assert width(line, style, 100.0) == pytest.approx(float(found[1]), abs=0.5)


def test_a_line_needs_no_font_and_knows_its_box() -> None:
    drawn, box = outlined("Typ", "serif", 50.0, (10.0, 100.0), "#000")
    assert "<text" not in drawn
    assert "font" not in drawn
    assert box.left == 10.0
    assert box.right == pytest.approx(10.0 + width("Typ", "serif", 50.0))
    assert 100.0 < box.bottom < 115.0  # the y and the p reach below the base line
    assert 60.0 < box.top < 70.0  # the T is as high as a capital


@pytest.mark.property
def test_words_are_broken_where_they_must_and_none_is_lost() -> None:
    words = "a very long name of a dish and Donaudampfschifffahrtsgesellschaftskapitän in it"
    for room in (90.0, 200.0, 500.0, 5000.0):
        lines = wrapped(words, "sans", 40.0, room)
        assert "".join(lines).replace(" ", "") == words.replace(" ", "")
        assert all(width(line, "sans", 40.0) <= room for line in lines)


def test_the_largest_type_that_fits_is_taken() -> None:
    assert fitted("short", "sans", (80.0, 40.0), 400.0, 1) == (80.0, ["short"])
    size, lines = fitted("a name that is longer than that", "sans", (80.0, 40.0), 600.0, 1)
    assert (size, len(lines)) == (40.0, 1)
    size, lines = fitted("a name that is longer than that " * 9, "sans", (80.0, 40.0), 600.0, 2)
    assert size == 40.0
    assert len(lines) == 2
    assert lines[-1].endswith("…")
    assert width(lines[-1], "sans", 40.0) <= 600.0


def test_boxes_meet_only_where_they_have_room_in_common() -> None:
    one = Box(0, 0, 10, 10)
    assert one.meets(Box(9, 9, 20, 20))
    assert not one.meets(Box(10, 0, 20, 10))
    assert Box(1, 1, 9, 9).within(one)
    assert not Box(1, 1, 11, 9).within(one)
    assert Box(1, 1, 9, 9).grown(1, 1) == one
