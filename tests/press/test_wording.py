"""The sentences that every surface prints."""

from __future__ import annotations

import runpy
from dataclasses import replace
from pathlib import Path

from counterproof import numerals
from counterproof.marks import Mark
from counterproof.press import footing, margins, wording
from counterproof.proof import Edition

EDITION: Edition = runpy.run_path(str(Path(__file__).with_name("sample_edition.py")))["EDITION"]


def _spaced(text: str) -> str:
    return text.replace(numerals.SPACE, " ")


def test_the_total_in_one_sentence() -> None:
    told = _spaced(wording.sentence(wording.serving_phrase(EDITION)))
    assert told == "One serving: 0.59 kg CO₂e; nine draws in ten lie between 0.37 and 0.96."


def test_what_is_open_is_counted() -> None:
    assert wording.attention(EDITION) == "3 doubts are open; 1 fault, not counted"
    settled = replace(EDITION, lines=EDITION.lines[:1], steps=(), marks=())
    assert wording.attention(settled) == "no doubt is open"


def test_a_missing_basis_is_left_out() -> None:
    told = [_spaced(phrase) for phrase in wording.per_phrases(EDITION)]
    assert told[0] == "per kg: 1.3 kg CO₂e"
    assert not any("litre" in phrase for phrase in told)


def test_the_reasons_why_a_line_is_not_counted() -> None:
    line = replace(EDITION.lines[0], kgco2e=None)
    assert margins.why_not_counted(line).endswith("no factor is linked to this food")
    assert margins.why_not_counted(replace(line, mass_kg=None)).endswith("could be given")
    assert margins.why_not_counted(replace(line, food=None)).endswith("was recognised")
    marked = replace(line, marks=(Mark("note", "x", ""), Mark("fault", "no-density", "")))
    assert margins.why_not_counted(marked) == "not counted: no density"
    assert margins.why_not_counted(EDITION.steps[3]) == ""


def test_runners_up_are_told_only_where_there_is_a_doubt() -> None:
    assert _spaced(margins.certainty(EDITION.lines[4])) == (
        "tomatoes, canned 71 %, tomatoes, raw 18 %, tomato purée 11 %"
    )
    sure = replace(EDITION.lines[4], marks=())
    assert margins.certainty(sure) == ""


def test_faults_come_before_doubts_and_notes_apart() -> None:
    marks = [Mark(level, level, "") for level in ("note", "doubt", "fault", "doubt")]
    pressing, notes = margins.marks_by_weight(marks)
    assert [mark.level for mark in pressing] == ["fault", "doubt", "doubt"]
    assert [mark.level for mark in notes] == ["note"]


def test_a_fit_below_same_is_told_with_the_factor() -> None:
    assert margins.link(EDITION.lines[0]) == "olive oil, global set, per litre"
    assert margins.link(EDITION.lines[2]).endswith("per kg (class average)")


def test_the_basis_keeps_known_names_first_and_drops_nothing() -> None:
    edition = replace(EDITION, basis={"odd_key": 7, "gwp": "AR6", "review": "Not reviewed"})
    rows = dict(footing.basis_rows(edition))
    assert rows["GWP"] == "AR6"
    assert rows["odd key"] == "7"
    assert rows["functional unit"].startswith("one serving of")
    assert "5th to the 95th percentile" in rows["range"]
    assert footing.review(edition) == "Not reviewed."
    assert "ISO 14044" in footing.review(EDITION)
