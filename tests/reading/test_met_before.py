"""What was read once is not read again, and holding it changes no answer."""

from __future__ import annotations

from counterproof.reading.lines import split_line
from counterproof.reading.met_before import MOST_HELD, MetBefore


def test_a_line_is_read_once_for_each_system_of_measures() -> None:
    asked: list[tuple[str, str]] = []

    def read(text: str, system: str) -> str:
        asked.append((text, system))
        return f"{text} by the {system} cup"

    before = MetBefore()
    for _ in range(3):
        assert before.once(read, "1 cup oats", "uk") == "1 cup oats by the uk cup"
        assert before.once(read, "1 cup oats", "us") == "1 cup oats by the us cup"
    assert asked == [("1 cup oats", "uk"), ("1 cup oats", "us")]


def test_two_readers_of_one_text_do_not_mix() -> None:
    before = MetBefore()
    assert before.once(str.upper, "leeks") == "LEEKS"
    assert before.once(str.title, "leeks") == "Leeks"


def test_what_is_held_changes_no_answer_and_is_bounded() -> None:
    before = MetBefore()
    lines = [f"{number} g oats" for number in range(MOST_HELD + 5)]
    for line in lines:
        assert before.once(len, line) == len(line)
    assert before.once(split_line, lines[0], "us") == split_line(lines[0], "us")
    assert len(before) <= MOST_HELD
