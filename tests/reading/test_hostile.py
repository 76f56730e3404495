"""Mixed and hostile text: every line keeps its place and its words, and none takes long to read."""

from __future__ import annotations

import pytest

from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines
from counterproof.reading.steps import read_step
from counterproof.recipe.model import WrittenLine
from counterproof.rows import Tables

LINES = (
    "🥕🥕🥕",
    "250 g сrеаm",  # Cyrillic look-alikes
    "\u202e2 leeks\u200f",
    "<b>2</b> leeks <script>",
    "&frac12;&nbsp;leek",
    "1 2 3 4 5 6 7 8 9",
    "1/0 leeks",
    "0/0 cups flour",
    "NaN g sugar",
    "9" * 40 + " leeks",
    "3 (2 (1 (½ leeks",
    "30% " * 2500,
    "((((" * 2500,
    "\x00",
    "0" * 10_000 + " %",
    "0" * 10_000 + " % of the weight",
    "5% of " * 1600 + "weight",
)

# Each took from half a second to minutes while a pattern had an open stretch in it.
STEPS = (
    "1" * 10_000,
    "1 " * 5000,
    "99" + " " * 9000 + "x",
    "1 hour and" + " " * 9000 + "5 minutes",
    "½" * 10_000,
    "cover " * 1500,
    "enough " * 1500,
    "push the " * 1200,
    "1 to " * 2500,
    "put the lid " * 900,
)


@pytest.mark.parametrize("text", STEPS)
def test_a_hostile_step_is_kept_and_read(text: str) -> None:
    step = read_step(WrittenLine(1, text))
    assert step.written.text == text


def test_blanks_in_a_step_change_nothing() -> None:
    wide = read_step(WrittenLine(1, "Bake at  180\u00a0°C   for\t about  1   hour."))
    plain = read_step(WrittenLine(1, "Bake at 180 °C for about 1 hour."))
    assert wide.processes == plain.processes
    assert (plain.processes[0].celsius, plain.processes[0].minutes) == (180, (60, 60))


@pytest.mark.parametrize("text", LINES)
def test_a_hostile_line_is_kept_and_read(
    text: str, shipped: Tables, shipped_matcher: Matcher
) -> None:
    (line,) = read_lines([WrittenLine(1, text)], shipped, shipped_matcher)
    assert line.written.text == text
    assert line.food is not None or any(mark.level == "fault" for mark in line.marks)


def test_look_alikes_are_read_as_what_they_look_like(
    shipped: Tables, shipped_matcher: Matcher
) -> None:
    texts = ("250 g сrеаm", "250 g cream")
    lines = [WrittenLine(at, text) for at, text in enumerate(texts, start=1)]
    hostile, plain = read_lines(lines, shipped, shipped_matcher)
    assert plain.food is not None
    assert hostile.food == plain.food
