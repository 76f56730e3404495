"""The proof in a terminal, at every width, and piped."""

from __future__ import annotations

import io
import re
import runpy
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from rich.cells import cell_len
from rich.console import Console

from counterproof import numerals
from counterproof.adapters import terminal
from counterproof.comparison.paired import Entry, compare
from counterproof.draws import Range, Streams
from counterproof.errors import UnknownVersion
from counterproof.marks import Mark
from counterproof.proof import Edition
from counterproof.reading.model import MarkedLine, Reading
from counterproof.rows import Tables

SAMPLE = Path(__file__).parents[1] / "press" / "sample_edition.py"
EDITION: Edition = runpy.run_path(str(SAMPLE))["EDITION"]
WIDTHS = (40, 60, 80, 100, 120, 200)
DRAWN = set("─┼│┊●○·∧₰∴")


def _console(width: int, *, piped: bool = False, colour: bool = False) -> Console:
    return Console(
        file=io.StringIO(),
        width=width,
        force_terminal=not piped,
        color_system="truecolor" if colour else None,
        legacy_windows=False,
    )


def _printed(edition: Edition, width: int, *, piped: bool = False, colour: bool = False) -> str:
    console = _console(width, piped=piped, colour=colour)
    terminal.print_proof(edition, console)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


def _words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_is_longer_than_the_terminal(width: int) -> None:
    for line in _printed(EDITION, width).splitlines():
        assert cell_len(line) <= width
        assert line == line.rstrip()


@pytest.mark.parametrize("width", [40, 60, 80])
def test_every_word_and_number_is_there_where_the_margins_are_folded(width: int) -> None:
    text = _words(_printed(EDITION, width))
    for line in EDITION.lines:
        assert line.as_written in text
        for mark in line.marks:
            assert _words(mark.message) in text
        if line.kgco2e is not None:
            told = numerals.shown(line.kgco2e)
            assert f"{told.middle} {told.span}" in text
        if line.mass_kg is not None:
            assert _words(numerals.mass(line.mass_kg).text) in text
    for step in EDITION.steps:
        assert step.as_written in text
    assert "olive oil, global set, per litre [1]" in text
    assert "[1] Poore, J. and Nemecek, T. (2018)." in text
    assert "not counted: unknown food" in text
    assert "No critical review" in text


@pytest.mark.parametrize("width", [100, 120, 200])
def test_the_margins_stand_beside_the_line_where_there_is_room(width: int) -> None:
    text = _printed(EDITION, width)
    beside = next(line for line in text.splitlines() if "a sprig of rosemary" in line)
    assert beside.index("rosemary, fresh") < beside.index("9. a sprig of rosemary")
    assert beside.rstrip().endswith("0.0004")
    assert "┼" in beside


def test_lines_are_printed_in_the_order_they_were_written() -> None:
    text = _words(_printed(EDITION, 80))
    places = [text.index(line.as_written) for line in EDITION.lines]
    assert places == sorted(places)


def test_a_negative_percentile_is_drawn_left_of_zero() -> None:
    text = _printed(EDITION, 120)
    rows = text.splitlines()
    at = next(place for place, row in enumerate(rows) if "a good handful of walnuts" in row)
    zero = rows[at + 1].index("│")
    assert rows[at].index("─") < zero < rows[at].rindex("─")


def test_all_intervals_stand_on_one_scale() -> None:
    rows = _printed(EDITION, 120).splitlines()
    rows = rows[: next(at for at, row in enumerate(rows) if "Total" in row)]
    assert len({row.index("│") for row in rows if "│" in row}) == 1


@pytest.mark.parametrize("width", [60, 200])
def test_piped_it_is_plain_text_without_drawing_or_colour(width: int) -> None:
    text = _printed(EDITION, width, piped=True, colour=True)
    assert "\x1b" not in text
    assert not set("─┼│┊●○") & set(text)
    assert numerals.SPACE not in text
    assert "0.024 kg CO₂e (0.012–0.043)" in text
    assert "production 0.40 kg CO₂e" in text


def test_one_blue_is_the_only_colour() -> None:
    text = _printed(EDITION, 120, colour=True)
    codes = {code for codes in re.findall(r"\x1b\[([\d;]+)m", text) for code in [codes]}
    colours = {tuple(re.findall(r"38;2;\d+;\d+;\d+", code)) for code in codes} - {()}
    assert len(colours) == 1
    rest = {part for code in codes for part in re.sub(r"38;2;\d+;\d+;\d+", "", code).split(";")}
    assert rest <= {"", "0", "1", "2", "3", "22"}  # plain, bold, dim, italic


class _Ascii(io.StringIO):
    encoding = "ascii"


def test_a_terminal_without_unicode_gets_plain_signs() -> None:
    console = Console(file=_Ascii(), width=120, force_terminal=True, color_system=None)
    terminal.print_proof(EDITION, console)
    assert isinstance(console.file, io.StringIO)
    text = console.file.getvalue()
    assert text.isascii()
    assert "0.024" in text
    assert "1 tin tomatoes ^" in text
    assert not DRAWN & set(text)


HOSTILE = "[red]2 onions[/red] \x1b[2J\x1b]0;x\x07 :smile: \u202eelba"


def test_hostile_text_cannot_steer_the_terminal() -> None:
    mark = Mark("doubt", "unknown-food", HOSTILE, (HOSTILE,))
    line = replace(
        EDITION.lines[0], as_written=HOSTILE, food=HOSTILE, section=HOSTILE, marks=(mark,)
    )
    for width in (60, 120):
        text = _printed(replace(EDITION, title=HOSTILE, lines=(line,), marks=(mark,)), width)
        assert "\x1b" not in text
        assert "\u202e" not in text
        assert "[red]" in text
        assert ":smile:" in text


def test_mark_shows_no_footprint() -> None:
    for width in (60, 120):
        console = _console(width)
        terminal.print_mark(EDITION, console)
        assert isinstance(console.file, io.StringIO)
        text = _words(console.file.getvalue())
        assert "CO₂e" not in text
        assert "white beans, canned" in text
        assert "cross-contact not assessed" in text
        assert "27 g (24–30)" in text


def test_an_error_says_where_what_and_what_to_do_next() -> None:
    error = UnknownVersion(
        "There is no version “lamb”.", remedy="Take chicken or beef.", file="stew.md", line=7
    )
    console = _console(80, piped=True)
    terminal.print_error(error, console)
    assert isinstance(console.file, io.StringIO)
    assert console.file.getvalue() == (
        "stew.md, line 7: There is no version “lamb”.\nTake chicken or beef. (UnknownVersion)\n"
    )


def test_an_edition_with_next_to_nothing_can_be_printed() -> None:
    line = replace(
        EDITION.lines[0], kgco2e=None, mass_kg=None, food=None, factor=None, quantity="", marks=()
    )
    nothing = replace(
        EDITION,
        lines=(line,), steps=(), marks=(), stages=(), versions=(), second_opinion=(),
        settle_next=(), assumed=(), cautions=(), sources=(), basis={}, per={}, coverage_by_fit={},
        serving=Range(0, 0, 0, 0),
    )  # fmt: skip
    for width in WIDTHS:
        text = _words(_printed(nothing, width))
        assert "not counted: no" in text
        assert "None" not in text


@pytest.mark.parametrize("width", [60, 120])
def test_a_comparison_puts_sides_on_one_scale_and_pairs_in_words(
    width: int,
    tiny_tables: Tables,
    made_line: Callable[..., MarkedLine],
    made_reading: Callable[..., Reading],
    streams: Streams,
) -> None:
    compared = compare(
        [
            Entry("with beans", made_reading(made_line("white-beans-dried", 0.2))),
            Entry("with beef", made_reading(made_line("beef-chuck", 0.2))),
        ],
        tiny_tables,
        streams=streams,
    )
    console = _console(width)
    terminal.print_comparison(compared, console)
    assert isinstance(console.file, io.StringIO)
    text = _words(console.file.getvalue())
    pair = compared.pairs[0]
    assert pair.difference is not None
    told = numerals.shown(pair.difference)
    for name, found in compared.items:
        assert name in text
        assert numerals.shown(found.serving).middle in text
    assert f"difference {numerals.signed(told)} {_words(told.unit)} ({told.span})" in text
    assert "lower than with beef in 100 % of the draws" in text
    assert text.count("●") == 2


def test_a_pair_that_cannot_be_judged_says_so(
    tiny_tables: Tables,
    made_line: Callable[..., MarkedLine],
    made_reading: Callable[..., Reading],
    streams: Streams,
) -> None:
    compared = compare(
        [
            Entry("nuts", made_reading(made_line("nuts", 0.2))),
            Entry("butter", made_reading(made_line("butter", 0.2))),
        ],
        tiny_tables,
        streams=streams,
    )
    assert compared.pairs[0].reason is not None  # no set of the tiny tables covers both
    console = _console(80, piped=True)
    terminal.print_comparison(compared, console)
    assert isinstance(console.file, io.StringIO)
    assert "cannot be judged" in console.file.getvalue()
