"""What a batch file says, line by line, and what is asked about it."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.batch.record_talk import Fact, record_of
from counterproof.batch.scale_talk import scale_talk


def _facts(text: str) -> list[Fact]:
    return list(record_of(text).facts)


def _kinds(text: str) -> list[str]:
    return [mark.kind for _, mark in record_of(text).marks]


@pytest.mark.parametrize(
    ("line", "kind", "value"),
    [
        ("- 10:15 61 °C", "temperature", 334.15),
        ("10:15 142 F", "temperature", (142 + 459.67) * 5 / 9),
        ("pulp 870 g", "weight", 0.87),
        ("juice 2 lb 3 oz", "weight", 2 * 0.45359237 + 3 * 0.45359237 / 16),
        ("1.95 litres of cordial in all", "volume", 1.95e-3),
        ("meter 118.42 → 118.80 kWh", "energy", 0.38),
        ("450 Wh", "energy", 0.45),
        ("33 °Bx", "brix", 33.0),
        ("Brix 33", "brix", 33.0),
        ("simmered 22 min", "lasted", 1320.0),
        ("simmered for 1 h 10 min", "lasted", 4200.0),
        ("made for 12", "serves", 12.0),
        ("half the recipe", "serves", 0.5),
        ("eaten: 90 %", "eaten", 0.9),
        ("all of it was drunk", "eaten", 1.0),
        ("Ada helped stir", "remark", 0.0),
        ("tasted: sharp, a bit thin", "tasted", 0.0),
    ],
)
def test_a_line_is_read_for_what_it_measures(line: str, kind: str, value: float) -> None:
    (fact,) = _facts(line)
    assert fact.kind == kind
    assert fact.value == pytest.approx(value)


def test_several_things_stand_in_one_line() -> None:
    facts = _facts("11:40 into 5 pint jars, 230 ml each, 71 °C")
    assert [fact.kind for fact in facts] == ["jars", "temperature", "event"]
    jars = facts[0]
    assert (jars.value, jars.name) == (5.0, "pint jars")
    assert jars.each == pytest.approx(2.3e-4)
    assert {fact.name for fact in facts[1:]} == {"food", "jars"}


def test_jars_and_what_was_made_in_all_stand_in_one_line() -> None:
    jars, all_ = _facts("4 pint jars, 430 ml each; 1.95 litres in all")
    assert (jars.kind, all_.kind) == ("jars", "volume")
    assert all_.value == pytest.approx(1.95e-3)


def test_times_after_an_event_count_from_it_and_past_midnight_they_go_on() -> None:
    off, later = _facts("10:00 off\nafter 40 min: 48 °C")
    assert later.time == off.time + 2400.0 if off.time is not None else False
    before, after = _facts("23:50 60 °C\n00:20 50 °C")
    assert (after.time or 0.0) - (before.time or 0.0) == 1800.0


def test_scale_readings_stay_apart_with_their_line_numbers() -> None:
    record = record_of(
        "# Cordial\n\n## Weighed in\nsaucepan\n+rhubarb 2391\n\n## Cooking\n10:05 on\n"
    )
    assert record.readings.splitlines()[3:5] == ["saucepan", "+rhubarb 2391"]
    assert [fact.kind for fact in record.facts] == ["event"]


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("10:00 82 °C\n10:20 118°", "which-degrees"),
        ("10:00 82 °C\n10:20 70", "which-degrees"),
        ("10:00 82 °C\n10:00 70 °C", "two-readings"),
        ("10:00 82 °C\n9:30 70 °C", "time-goes-back"),
        ("meter 118.80 → 118.42 kWh", "meter-goes-back"),
        ("used 3 spoons", "not-read"),
    ],
)
def test_what_is_not_clear_is_asked(text: str, kind: str) -> None:
    assert kind in _kinds(text)


def test_fahrenheit_and_celsius_may_stand_side_by_side_where_both_say_so() -> None:
    facts = _facts("10:00 82 °C\n10:20 158 F")
    assert [round(fact.value - 273.15) for fact in facts] == [82, 70]
    assert _kinds("10:00 82 °C\n10:20 158 F") == []


def test_two_temperatures_at_one_time_are_both_left_out() -> None:
    assert _facts("10:00 82 °C\n10:00 70 °C") == []


@pytest.mark.property
@settings(max_examples=80, deadline=None)
@given(st.text(alphabet="0123456789:.,°CFgkmlhin →-#ojars\n", max_size=160))
def test_any_text_is_read_and_every_line_stands_somewhere(text: str) -> None:
    record = record_of(text)
    told = {fact.at for fact in record.facts} | {at for at, _ in record.marks}
    readings = record.readings.splitlines()
    for at, line in enumerate(text.splitlines(), 1):
        said = line.strip().lstrip("-*+• ").strip()
        heading = line.strip().startswith("#")
        if said and not heading and not said.startswith("---"):
            assert at in told or (at <= len(readings) and readings[at - 1]), line


@pytest.mark.parametrize("text", ["1" * 40_000, "ab " * 20_000, "1 → " * 15_000])
def test_a_story_in_one_line_is_kept_and_not_searched(text: str) -> None:
    (fact,) = record_of(text).facts
    assert (fact.kind, fact.name) == ("remark", text.strip())
    assert [said.does for said in scale_talk(text)] == ["unclear"]
