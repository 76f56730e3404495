"""The time line in a terminal and on the sheet: every task is there, at every width."""

from __future__ import annotations

import io
import runpy
from dataclasses import replace
from pathlib import Path

import pytest
from rich.cells import cell_len
from rich.console import Console

from counterproof.adapters.terminal import print_mark, print_proof
from counterproof.press.sheet import sheet
from counterproof.proof import Edition, TaskProof, TimeProof

SAMPLE = Path(__file__).parents[1] / "press" / "sample_edition.py"
PLAIN: Edition = runpy.run_path(str(SAMPLE))["EDITION"]
MINUTE = 60.0


def task(
    step: int, does: str, begins: float, lasts: float, says: str, *, hands_on: bool = False
) -> TaskProof:
    return TaskProof(step, does, hands_on, (begins,) * 3, (lasts,) * 3, says)


TIMES = TimeProof(
    tasks=(
        task(0, "prepare the ingredients", 0, 9 * MINUTE, "6–12 min", hands_on=True),
        task(1, "bring to the boil", 9 * MINUTE, 600, "8–12 min"),
        task(1, "simmer <slowly>", 1140, 1200, "20 min"),
        task(2, "chill", 2340, 36000, "8–12 h"),
    ),
    total="9–13 h",
    hands_on="6–12 min",
    waiting="8–13 h",
    make_ahead=("After step 2 it may wait in the fridge. The table gives 3 to 4 days.",),
    keeps=("In the fridge: 3 to 4 days for soup or stew.",),
)
EDITION = replace(PLAIN, timeline=TIMES)


def printed(edition: Edition, width: int, *, piped: bool = False, mark: bool = False) -> str:
    console = Console(
        file=io.StringIO(), width=width, force_terminal=not piped, color_system=None,
        legacy_windows=False,
    )  # fmt: skip
    (print_mark if mark else print_proof)(edition, console)
    assert isinstance(console.file, io.StringIO)
    return console.file.getvalue()


@pytest.mark.parametrize("width", [40, 60, 80, 100, 130, 200])
@pytest.mark.parametrize("mark", [False, True])
def test_every_task_is_told_and_no_line_is_too_long(width: int, mark: bool) -> None:
    text = printed(EDITION, width, mark=mark)
    words = " ".join(text.split())
    for task in TIMES.tasks:
        assert task.does in words
        assert task.says in words
    for told in (*TIMES.make_ahead, *TIMES.keeps):
        assert told in words
    for line in text.splitlines():
        assert cell_len(line) <= width
        assert line == line.rstrip()


def test_hands_are_solid_and_waits_are_slanted_and_nothing_is_drawn_into_a_pipe() -> None:
    drawn = printed(EDITION, 130)
    assert "█" in drawn
    assert "╱" in drawn
    piped = printed(EDITION, 130, piped=True)
    assert not set("█╱") & set(piped)
    assert "simmer <slowly>: 20 min, waiting" in piped


def test_a_proof_without_times_has_no_such_heading() -> None:
    assert "Time" not in printed(replace(PLAIN, timeline=None), 100).split()
    assert 'aria-labelledby="time"' not in sheet(replace(PLAIN, timeline=None))


def test_the_sheet_draws_every_task_and_names_it() -> None:
    page = sheet(EDITION)
    assert page.count('class="time"') == len(TIMES.tasks)
    assert "simmer &lt;slowly&gt;, waiting, 20 min" in page
    assert page.count('id="hatching-waiting"') == 1
    assert "After step 2 it may wait in the fridge." in page
    assert "9–13 h in all; hands-on 6–12 min; waiting 8–13 h." in page
