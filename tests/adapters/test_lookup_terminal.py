"""Foods and factors in a terminal: wide, narrow, piped and without Unicode."""

from __future__ import annotations

import io

import pytest
from rich.console import Console

from counterproof.accounts import factor_account, food_account
from counterproof.adapters.lookup_terminal import print_factors, print_foods, print_used
from counterproof.adapters.tables import load_tables
from counterproof.draws import Streams
from counterproof.looking_up import Used, factors_found, foods_found
from counterproof.use_cases import Workbench

BENCH = Workbench.over(load_tables())
STREAMS = Streams(n=2000)


def _console(width: int, *, terminal: bool = True, encoding: str = "utf-8") -> Console:
    stream = io.TextIOWrapper(io.BytesIO(), encoding=encoding, write_through=True)
    return Console(
        file=stream, width=width, force_terminal=terminal, color_system=None, highlight=False
    )


def _printed(console: Console) -> str:
    stream = console.file
    assert isinstance(stream, io.TextIOWrapper)
    buffer = stream.buffer
    assert isinstance(buffer, io.BytesIO)
    return buffer.getvalue().decode(stream.encoding)


def _foods(said: str, console: Console) -> str:
    found = foods_found(said, BENCH)
    first = food_account(found.rows[0], BENCH.tables, STREAMS) if found.exact else None
    print_foods(said, found, first, BENCH.tables, console)
    return _printed(console)


def _factors(said: str, console: Console) -> str:
    found = factors_found(said, BENCH.tables)
    accounts = [factor_account(row, BENCH.tables, STREAMS) for row in found.rows]
    print_factors(said, found, accounts, console)
    return _printed(console)


@pytest.mark.parametrize("width", [40, 80, 130])
def test_no_line_is_wider_than_the_terminal(width: int) -> None:
    for out in (_foods("butter", _console(width)), _factors("tomato", _console(width))):
        assert max(len(line) for line in out.splitlines()) <= width


def test_a_wide_terminal_draws_ranges_on_a_common_scale() -> None:
    out = _factors("tomatoes", _console(130))
    assert "┼" in out
    assert "┊" in out


def test_what_is_piped_is_not_drawn() -> None:
    out = _factors("tomatoes", _console(80, terminal=False))
    assert "┼" not in out
    assert "2.1  0.4–12.5" in out  # at 2,000 draws; published are 0.37 and 12.62


def test_a_console_without_unicode_gets_plain_characters() -> None:
    out = _foods("butter", _console(120, encoding="ascii"))
    assert out.isascii()
    assert "717 kcal" in out


def test_allergens_by_both_lists_are_told_without_a_promise() -> None:
    out = " ".join(_foods("flour", _console(80)).split())
    assert "the fourteen of the UK and the EU: gluten" in out
    assert "the nine of the US: wheat" in out
    assert "free from" not in out
    assert "safe" not in out.split()


def test_a_hostile_question_cannot_write_to_the_terminal() -> None:
    console = _console(80)
    print_foods("\x1b[31mred\u202e", foods_found("qqqqq", BENCH), None, BENCH.tables, console)
    out = _printed(console)
    assert "\x1b" not in out
    assert "\u202e" not in out


def test_lines_of_a_recipe_stand_under_their_food() -> None:
    console = _console(80)
    print_used([Used(BENCH.tables.foods["onion"], ("2 onions", "1 more onion"))], console)
    assert _printed(console).splitlines() == [
        "onion  vegetables",
        "     2 onions",
        "     1 more onion",
    ]


def test_later_factors_are_told_in_short() -> None:
    out = _factors("tomato", _console(130))
    assert "Say more words" in out
