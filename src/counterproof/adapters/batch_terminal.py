"""Weigh-ins in a terminal: by eye on the left, the recipe's line, what the scale said on the right."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from rich.text import Text

from counterproof import numerals
from counterproof.adapters.characters import BLUE, GREY, STRONG, Column, Page
from counterproof.batch.weights import grams
from counterproof.press.plain_text import printable

if TYPE_CHECKING:
    from collections.abc import Iterable

    from rich.console import Console

    from counterproof.batch.weighed import Weighed
    from counterproof.batch_cases import WeighedRecipe
    from counterproof.marks import Mark

_EYE: Final = 22
_SCALE: Final = 20
_SIGN: Final = {"note": "", "doubt": BLUE, "fault": BLUE}


def print_weigh_in(weighed: WeighedRecipe, console: Console) -> None:
    """Print a weigh-in as it stands, in the recipe's own order.

    Parameters
    ----------
    weighed : WeighedRecipe
        The recipe and what was weighed.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    found = weighed.weighing
    step = found.state.step
    page.put_indented([page.words(printable(weighed.reading.recipe.title), STRONG)], 0)
    told = f"weighed in {grams(found.kg, step)}; a scale to {grams(step, step)}"
    if found.lost:
        told += f"; {grams(-sum(one.kg for one in found.lost), step)} went off as steam"
    page.put_indented([page.words(told, GREY)], 0)
    page.put_line()
    _row(page, Text("by eye", style=GREY), Text("line", style=GREY), Text("weighed", style=GREY))
    by_number = {line.number: line for line in found.lines if line.number is not None}
    for line in weighed.reading.lines:
        number = line.written.number
        before = weighed.by_eye.get(number)
        eye = "" if before is None else numerals.mass(before).text
        one = by_number.get(number)
        _row(
            page,
            page.words(eye, GREY),
            page.words(f"{number}. {printable(line.written.text)}"),
            *_said(page, one, step),
        )
    for one in found.lines:
        if one.number is None:
            _row(page, Text(), page.words(f"+ {printable(one.name)}"), *_said(page, one, step))
    marks(page, found.marks)


def print_last(weighed: WeighedRecipe, at: int, console: Console) -> None:
    """Print what one line of a weigh-in meant, as the answer to it.

    Parameters
    ----------
    weighed : WeighedRecipe
        The recipe and what was weighed so far.
    at : int
        The line just typed.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    found = weighed.weighing
    step = found.state.step
    for difference in found.state.differences:
        if difference.at == at:
            name = _name(weighed, difference.line) or difference.label
            lead = page.words(f"{grams(difference.kg, step)} ", STRONG)
            page.put_indented(
                [lead + page.words(f"{printable(name)}  ") + page.words(difference.says, GREY)]
            )
    own = [(where, mark) for where, mark in found.marks if where == at]
    for _, mark in own:
        page.put_indented(_mark(page, mark))
    if found.state.base is not None:
        shows = grams(found.state.base, step)
        page.put_indented(
            [
                page.words(
                    f"the scale shows {shows}; weighed in so far {grams(found.kg, step)}", GREY
                )
            ]
        )


def marks(page: Page, told: Iterable[tuple[int, Mark]]) -> None:
    """Print marks with the line each stands in.

    Parameters
    ----------
    page : Page
        Where it is printed.
    told : iterable of (int, Mark)
        By line; 0 for all of it.
    """
    first = True
    for at, mark in told:
        if first:
            page.put_line()
            first = False
        lead = page.sign(mark.level) + Text(" ")
        where = page.words(f"line {at}: " if at else "", GREY)
        page.put_indented(
            [lead + where + page.words(printable(mark.message), _SIGN[mark.level])], 2
        )
        page.put_indented([page.words(printable(words)) for words in mark.choices], 8)


def _mark(page: Page, mark: Mark) -> list[Text]:
    lead = page.sign(mark.level) + Text(" ")
    return [
        lead + page.words(printable(mark.message), _SIGN[mark.level]),
        *(page.words(f"   {printable(words)}") for words in mark.choices),
    ]


def _name(weighed: WeighedRecipe, number: int | None) -> str:
    for line in weighed.reading.lines:
        if line.written.number == number:
            return line.split.name or line.written.text
    return ""


def _said(page: Page, one: Weighed | None, step: float) -> tuple[Text, Text]:
    if one is None:
        return Text(), page.words("still by eye", GREY)
    half = grams(one.half, step / 2 if one.half < step else step).removesuffix(" g")
    sums = "; ".join(difference.says for difference in one.differences)
    return page.words(f"{grams(one.kg, step)} ± {half}", STRONG), page.words(sums, GREY)


def _row(page: Page, eye: Text, line: Text, said: Text, sums: Text | None = None) -> None:
    middle = page.width - _EYE - _SCALE - 6
    if middle < 24:
        page.put_indented([line], 0)
        page.put_indented([Text(", ").join(part for part in (eye, said) if part.plain)])
        return
    right = [said] if sums is None else [said, sums]
    page.put(
        Column(page.wrapped([eye], _EYE), _EYE, "right"),
        Column(page.wrapped([line], middle), middle),
        Column(page.wrapped(right, _SCALE), _SCALE),
    )
