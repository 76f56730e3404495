"""The time line in a terminal: one row a task, drawn where there is room for it."""

from __future__ import annotations

from typing import Final

from rich.text import Text

from counterproof.adapters.characters import GREY, GUTTER, Page
from counterproof.adapters.reckoning import side
from counterproof.press import times, wording
from counterproof.press.plain_text import printable
from counterproof.press.times import Bar
from counterproof.proof import Edition

_LEAST: Final = 70  # columns below which the bars are left out
_NAMED: Final = 26
_SAID: Final = 22


def timeline(page: Page, edition: Edition) -> None:
    """Print how long a recipe takes, task by task.

    Parameters
    ----------
    page : Page
        Where it is printed.
    edition : Edition
        What is shown.
    """
    if edition.timeline is None:
        return
    told = edition.timeline
    lead = page.words(wording.sentence(*wording.time_phrases(told)))
    tail = [page.words(printable(words)) for words in (*told.make_ahead, *told.keeps)]
    side(page, "Time", [lead, *_tasks(page, edition), *tail, page.words(wording.TIME_RULE, GREY)])


def _tasks(page: Page, edition: Edition) -> list[Text]:
    tasks = () if edition.timeline is None else edition.timeline.tasks
    width = page.width - (page.left + GUTTER if page.wide else 5)
    room = min(width - _NAMED - _SAID - 6, 48)
    drawn = times.bars(tasks) if page.drawn and width >= _LEAST else ()
    rows = []
    for place, task in enumerate(tasks):
        number = f"{task.step}." if task.step else ""
        if not drawn:
            kind = "hands-on" if task.hands_on else "waiting"
            lead = f"{number} " if number else ""
            rows.append(page.words(f"{lead}{printable(task.does)}: {task.says}, {kind}"))
            continue
        does = printable(task.does)
        does = does if len(does) <= _NAMED else f"{does[: _NAMED - 1]}…"
        cells = _cells(page, drawn[place], room)
        rows.append(
            page.words(f"{number:>3} {does:<{_NAMED}} ")
            + Text(f"{cells:<{room}} ")
            + page.words(task.says, GREY)
        )
    return rows


def _cells(page: Page, bar: Bar, room: int) -> str:
    """A bar in characters: full where it needs hands, slanted where it waits, open where cut."""
    sign = ("#" if page.ascii else "█") if bar.hands_on else ("/" if page.ascii else "╱")
    start = min(int(bar.start * room), room - 1)
    end = max(min(round((bar.start + bar.width) * room), room), start + 1)
    cells = [" "] * start + [sign] * (end - start)
    for cut in bar.cuts:
        cells[min(max(int(cut * room), start), end - 1)] = " "
    return "".join(cells)
