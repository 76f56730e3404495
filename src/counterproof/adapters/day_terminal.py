"""A plan for the day in a terminal: by the clock, then ring by ring and oven by oven."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from rich.text import Text

from counterproof.adapters.characters import BLUE, GREY, STRONG, Column, Page
from counterproof.batch.day import DAY, Slot, Wait
from counterproof.press.plain_text import printable

if TYPE_CHECKING:
    from rich.console import Console

    from counterproof.batch.day import DayPlan
    from counterproof.provisioning import Day

_CLOCK: Final = 13
_PLACE: Final = 9
_CHARTED: Final = 8 * 60
"""Minutes before the meal that are drawn: what stands in the cold overnight is told in words."""


def print_day(day: Day, console: Console) -> None:
    """Print a plan for the day.

    Parameters
    ----------
    day : Day
        The plan.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    plan = day.plan
    room = plan.room
    letters = _letters(plan)
    head = page.words(f"Ready at {clock(plan.ready)}", STRONG)
    head += page.words(
        f" with {_counted(room.cooks, 'cook')}, {_counted(room.rings, 'ring')} and "
        f"{_counted(room.ovens, 'oven')}: begin {clock(plan.starts)}, or {clock(day.sure)} to be "
        f"sure; hands are needed for {lasting(plan.hands_on)}."
    )
    page.put_indented([head], 0)
    for dish, letter in letters.items():
        page.put_indented([page.words(f"{letter}  ", STRONG) + page.words(printable(dish))], 0)
    rest = max(24, page.width - _CLOCK - _PLACE - 6)
    today = None
    for slot in plan.slots:
        if slot.begins // DAY != today:
            today = slot.begins // DAY
            page.put_line()
            page.put_line(page.words(_day(today), GREY))
        style = "" if slot.task.hands_on else GREY
        page.put(
            Column(page.wrapped([page.words(_span(slot), style)], _CLOCK), _CLOCK, "right"),
            Column((), 2),
            Column((page.words(letters[slot.dish], STRONG),), 1),
            Column((), 2),
            Column((page.words(slot.place, GREY),), _PLACE),
            Column(page.wrapped([page.words(_does(slot), style)], rest), rest),
        )
    _chart(page, plan, letters)
    if plan.waits:
        page.put_line()
        for wait in plan.waits:
            page.put_indented([_waits(page, wait, letters)], 0)


def _letters(plan: DayPlan) -> dict[str, str]:
    dishes = dict.fromkeys(slot.dish for slot in plan.slots)
    return {dish: chr(ord("A") + at) for at, dish in enumerate(dishes)}


def clock(minutes: int) -> str:
    """A time of day.

    Parameters
    ----------
    minutes : int
        After midnight of the day of eating; before 0 it is another day.

    Returns
    -------
    str
        Such as "18:05", or "18:05 the day before".
    """
    day, rest = divmod(minutes, DAY)
    told = f"{rest // 60:02d}:{rest % 60:02d}"
    if day == 0:
        return told
    return f"{told} the day before" if day == -1 else f"{told} {-day} days before"


def lasting(minutes: int) -> str:
    """A length of time.

    Parameters
    ----------
    minutes : int
        ≥ 0.

    Returns
    -------
    str
        In hours and minutes.
    """
    hours, rest = divmod(minutes, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h" if not rest else f"{hours} h {rest} min"


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _day(number: int) -> str:
    return {0: "On the day", -1: "The day before"}.get(number, f"{-number} days before")


def _span(slot: Slot) -> str:
    begins, ends = slot.begins % DAY, slot.ends % DAY
    return f"{begins // 60:02d}:{begins % 60:02d}–{ends // 60:02d}:{ends % 60:02d}"


def _does(slot: Slot) -> str:
    told = slot.task.does
    if slot.task.celsius is not None:
        told += f", {slot.task.celsius:g} °C"
    return told if slot.task.hands_on else f"{told} (waits)"


def _chart(page: Page, plan: DayPlan, letters: dict[str, str]) -> None:
    """Hands, rings and ovens over the last hours, a letter where a dish has them."""
    begins = max(plan.starts, plan.ready - _CHARTED)
    begins -= begins % 60
    width = max(30, page.width - 10)
    step = max(1, -(-(plan.ready - begins) // width))
    cells = -(-(plan.ready - begins) // step)
    rows: dict[str, list[str]] = {}
    for slot in plan.slots:
        names = ["hands"] if slot.task.hands_on else []
        names += [slot.place] if slot.place.startswith(("ring", "oven")) else []
        for name in names:
            row = rows.setdefault(name, [" "] * cells)
            for at in range(cells):
                if slot.begins < begins + (at + 1) * step and begins + at * step < slot.ends:
                    row[at] = letters[slot.dish] if row[at] in {" ", letters[slot.dish]} else "+"
    if not rows:
        return
    page.put_line()
    for name in sorted(rows):
        page.put_line(page.words(f"{name:>8}  ", GREY) + page.words("".join(rows[name]), BLUE))
    page.put_line(page.words(f"{'':>10}{_hours(begins, step, cells)}", GREY))
    if any("+" in row for row in rows.values()):
        page.put_line(page.words(f"{'':>10}+ two dishes at once", GREY))


def _hours(begins: int, step: int, cells: int) -> str:
    line = [" "] * (cells + 2)
    for minute in range(begins, begins + cells * step, 60):
        at = (minute - begins) // step
        for place, sign in enumerate(f"{minute % DAY // 60:02d}"):
            if at + place < len(line):
                line[at + place] = sign
    return "".join(line).rstrip()


def _waits(page: Page, wait: Wait, letters: dict[str, str]) -> Text:
    lasts = wait.ends - wait.begins
    told = page.words(f"{letters[wait.dish]}  ", STRONG)
    cause = f" for {printable(wait.cause)}" if wait.cause else ""
    told += page.words(f"waits {lasting(lasts)}{cause} after “{wait.after}”, {clock(wait.begins)}.")
    if wait.too_long:
        told += page.words(
            " That is longer than food may stand between hot and cold: keep it hot, or cool it "
            "quickly and heat it through again, as your local food-safety rules say.",
            BLUE,
        )
    return told
