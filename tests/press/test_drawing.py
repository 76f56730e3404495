"""The drawer's small functions."""

from __future__ import annotations

import pytest

from counterproof.press import drawing


@pytest.mark.parametrize(
    ("value", "text"), [(1.0, "1"), (0.126, "0.13"), (-0.001, "0"), (12.50, "12.5"), (100, "100")]
)
def test_lengths_are_rounded(value: float, text: str) -> None:
    assert drawing.rounded(value) == text


def test_attributes_are_escaped() -> None:
    assert drawing.tag("g", data_a='"<') == '<g data-a="&quot;&lt;"/>'
    assert drawing.tag("g", "x", class_=None) == "<g>x</g>"
