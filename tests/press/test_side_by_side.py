"""The sentences that put one serving against another."""

from __future__ import annotations

import runpy
from dataclasses import replace
from pathlib import Path

from counterproof import numerals
from counterproof.draws import Range
from counterproof.press import side_by_side
from counterproof.proof import Edition

EDITION: Edition = runpy.run_path(str(Path(__file__).with_name("sample_edition.py")))["EDITION"]
NOTHING = Range(0.0, 0.0, 0.0, 0.0)


def _spaced(text: str) -> str:
    return text.replace(numerals.SPACE, " ")


def test_a_version_is_put_against_the_recipe() -> None:
    told = [
        _spaced(phrase) for phrase in side_by_side.version_phrases(EDITION.versions[1], EDITION)
    ]
    assert told == [
        "2.3 times the recipe",
        "difference +0.75 kg CO₂e (0.31–1.46)",
        "lower than the recipe in under 1 % of the draws",
        "compared in the global set",
    ]
    assert side_by_side.version_phrases(EDITION.versions[0], EDITION) == []


def test_totals_that_do_not_differ_by_the_difference_are_said_not_to_compare() -> None:
    other = replace(EDITION.versions[1], difference=Range(-0.1, -0.2, -0.1, 0.1))
    assert "do not compare" in side_by_side.version_phrases(other, EDITION)[-1]


def test_a_version_that_changes_nothing_says_so() -> None:
    same = replace(EDITION.versions[1], serving=EDITION.serving, difference=NOTHING, ratio=1.0)
    assert "no difference" in side_by_side.version_phrases(same, EDITION)
