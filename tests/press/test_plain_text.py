"""Text from a recipe made fit to be printed."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.press.plain_text import printable


def test_an_escape_sequence_cannot_steer_a_terminal() -> None:
    assert "\x1b" not in printable("2 onions\x1b[31m\x1b]0;title\x07")


def test_words_cannot_be_turned_round() -> None:
    turned = printable("\N{RIGHT-TO-LEFT OVERRIDE}snoino 2\N{POP DIRECTIONAL FORMATTING}")
    assert turned == "\N{REPLACEMENT CHARACTER}snoino 2\N{REPLACEMENT CHARACTER}"


def test_ordinary_writing_is_left_alone() -> None:
    for text in ("½ tsp crème fraîche", "шалфей", "זעתר", "800 g トマト缶", "🌶 1 chilli"):
        assert printable(text) == text


@pytest.mark.property
@given(st.text())
def test_what_is_printed_is_one_line_without_controls(text: str) -> None:
    shown = printable(text)
    assert not any(unicodedata.category(sign) in {"Cc", "Cs"} for sign in shown)
    assert len(shown.splitlines()) <= 1
    assert printable(shown) == shown
