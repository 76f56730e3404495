"""The data of a press folder, read by programs that are not ours."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import icalendar
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.files import demo_season, episodes
from counterproof.forme import Appointment, Forme
from counterproof.press import data, figures_table
from counterproof.press.figures import text_of
from counterproof.press.fixed_words import LANGUAGES, words_in
from counterproof.press.ical import as_icalendar, escaped, folded

EPISODES = [episode.name for episode in episodes(demo_season())]
MadeForme = Callable[..., Forme]


def made(forme: Forme) -> dict[str, bytes]:
    found = {}
    for piece in data.pieces(forme, words_in(forme.language)):
        assert isinstance(piece.content, bytes)
        found[piece.name] = piece.content
    return found


@pytest.mark.parametrize("name", EPISODES)
def test_the_table_of_figures_holds_every_derivation_as_it_is_printed(
    name: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(name)
    rows = list(csv.DictReader(io.StringIO(made(forme)["data/figures.csv"].decode())))
    assert tuple(rows[0]) == figures_table.COLUMNS
    derivations = forme.edition.derivations
    assert [row["key"] for row in rows] == [one.key for one in derivations]
    listed = {source.id for source in forme.edition.sources}
    for number, (row, one) in enumerate(zip(rows, derivations, strict=True), start=1):
        assert int(row["number"]) == number
        assert row["shown"].removeprefix("'") == text_of(one, forme.edition.middle)
        assert float(row["mean"]) == pytest.approx(one.value.mean, rel=1e-5)
        assert set(row["sources"].split()) <= listed
        assert row["unit"].isascii() or row["unit"] in {"£", "€"}, one.key


@pytest.mark.published
def test_the_table_is_a_csv_as_rfc_4180_has_it(demo_forme: MadeForme) -> None:
    # RFC 4180, section 2: records end with CRLF; all of them hold the same number of fields.
    text = made(demo_forme(EPISODES[0]))["data/figures.csv"].decode()
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert {len(row) for row in csv.reader(io.StringIO(text))} == {len(figures_table.COLUMNS)}


def test_no_cell_is_a_formula(demo_forme: MadeForme) -> None:
    forme = demo_forme(EPISODES[0])
    first = replace(forme.edition.derivations[0], name='=HYPERLINK("https://example.org")')
    edition = replace(forme.edition, derivations=(first, *forme.edition.derivations[1:]))
    rows = csv.reader(io.StringIO(figures_table.as_csv(edition).decode()))
    cells = [cell for row in rows for cell in row]
    formulas = [one for one in cells if one[:1] in {"=", "+", "@", "\t", "\r"}]
    assert formulas == []
    assert [one for one in cells if one.startswith("'=")] == [f"'{first.name}"]
    signed = [one for one in cells if one.startswith("-")]
    assert all(re.fullmatch(r"-\d+(\.\d+)?(e-?\d+)?", one) for one in signed)


@pytest.mark.parametrize("name", EPISODES)
def test_the_parquet_table_is_the_csv(name: str, demo_forme: MadeForme) -> None:
    parquet = pytest.importorskip("pyarrow.parquet")
    edition = demo_forme(name).edition
    content = figures_table.as_parquet(edition)
    assert content is not None
    assert figures_table.as_parquet(edition) == content
    assert parquet.read_table(io.BytesIO(content)).to_pylist() == figures_table.rows(edition)


def test_without_the_library_there_is_no_parquet_file(
    demo_forme: MadeForme, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(figures_table, "find_spec", lambda _: None)
    assert data.PARQUET not in made(demo_forme(EPISODES[0]))


def test_the_results_are_those_of_the_footprint_with_every_derivation(
    demo_forme: MadeForme,
) -> None:
    forme = demo_forme(EPISODES[1])
    document = json.loads(made(forme)["data/results.json"])
    assert document == json.loads(json.dumps(forme.results))
    assert len(document["derivations"]) == len(forme.edition.derivations)
    assert document["serving"]["kgco2e"] == forme.edition.serving.to_dict()
    assert {"fizz", "packaging", "timeline", "verdicts", "basis"} <= set(document)
    matrices = json.loads(made(forme)["data/matrices/system.json"])
    assert matrices["processes"][0]["name"] == "one serving"


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", EPISODES)
def test_the_plan_is_read_by_a_calendar_program(
    name: str, language: str, demo_forme: MadeForme
) -> None:
    forme = demo_forme(name, language=language)
    content = as_icalendar(forme, words_in(language))
    assert as_icalendar(forme, words_in(language)) == content
    calendar = icalendar.Calendar.from_ical(content)
    assert not calendar.errors
    found = list(calendar.walk("VEVENT"))
    assert [event.decoded("dtstart").isoformat() for event in found] == [
        one.day for one in forme.appointments
    ]
    assert len({str(event["uid"]) for event in found}) == len(found)
    for event in found:
        assert not event.errors
        assert str(event["summary"]).endswith(forme.edition.title)
        assert (event.decoded("dtend") - event.decoded("dtstart")).days == 1
        assert event.decoded("dtstamp").date() == date.fromisoformat(forme.date)


def test_the_cordial_is_frozen_thawed_and_drunk_when_its_plan_says(demo_forme: MadeForme) -> None:
    # keep: [{where: fridge, days: 1}, {where: freezer, days: 60}], cooked on 2026-11-25:
    # frozen by the 26th, sixty days later it is 2027-01-25, and it thaws from the day before.
    days = [(one.does, one.day) for one in demo_forme("02-rhubarb-cordial").appointments]
    assert days == [
        ("cook", "2026-11-25"),
        ("freeze", "2026-11-26"),
        ("thaw", "2027-01-24"),
        ("eat", "2027-01-25"),
    ]
    # keep: [{where: freezer, days: 45}, {where: fridge, days: 1}]: frozen the same day, thawed
    # in the fridge where it then stays for its day.
    days = [(one.does, one.day) for one in demo_forme("03-tomato-soup-in-bulk").appointments]
    assert days == [
        ("cook", "2026-11-25"),
        ("freeze", "2026-11-25"),
        ("thaw", "2027-01-09"),
        ("eat", "2027-01-10"),
    ]


def test_what_is_kept_defers_to_local_codes_and_promises_nothing(demo_forme: MadeForme) -> None:
    for name in EPISODES:
        forme = demo_forme(name)
        text = as_icalendar(forme, words_in("en")).decode().replace("\r\n ", "")
        kept = [one for one in forme.appointments if one.does != "cook"]
        assert text.count("Local codes and licensed practice come first.") >= len(kept)
        assert "safe" not in text.lower()


@pytest.mark.published
def test_long_lines_are_folded_as_rfc_5545_shows() -> None:
    # RFC 5545, 3.1: lines of at most 75 octets without the line break, each further part begins
    # with one white space; 3.3.11: backslash, semicolon, comma and line ends are escaped.
    line = "DESCRIPTION:" + "This is a lo\nng description; that, exists\\ on a long line. Ü€😀" * 4
    parts = folded(f"DESCRIPTION:{escaped(line)}").split("\r\n")
    assert len(parts) > 3
    assert all(len(part.encode()) <= 75 for part in parts)
    assert all(part.startswith(" ") for part in parts[1:])
    assert escaped("a,b;c\\d\r\ne") == "a\\,b\\;c\\\\d\\ne"


@pytest.mark.property
@given(told=st.text(max_size=300), title=st.text(min_size=1, max_size=200))
def test_whatever_is_written_comes_back_from_the_calendar(told: str, title: str) -> None:
    line = f"DESCRIPTION:{escaped(told)}"
    content = (
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\nBEGIN:VEVENT\r\nUID:1\r\n"
        f"DTSTAMP:20261125T000000Z\r\n{folded('SUMMARY:' + escaped(title))}\r\n{folded(line)}\r\n"
        "END:VEVENT\r\nEND:VCALENDAR\r\n"
    )
    (event,) = icalendar.Calendar.from_ical(content.encode("utf-8", "replace")).walk("VEVENT")
    plain = "".join(sign for sign in told if sign >= " " or sign in "\r\n").replace("\x7f", "")
    plain = plain.replace("\r\n", "\n").replace("\r", "\n")
    assert str(event.get("description", "")) == plain


def test_an_episode_that_keeps_nothing_is_only_cooked(demo_forme: MadeForme) -> None:
    forme = demo_forme("05-pear-oat-crumble")
    assert forme.appointments == (Appointment("cook", "2026-11-25"),)
