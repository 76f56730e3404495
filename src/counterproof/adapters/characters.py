"""A terminal as a page of type: columns, signs and intervals made of characters.

Whatever the console cannot show is replaced by what it can: no drawing where the output is piped,
plain characters where it has no Unicode.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from rich.cells import cell_len
from rich.console import Console
from rich.text import Text

from counterproof import numerals
from counterproof.draws import Range
from counterproof.press import hatching
from counterproof.press.intervals import Scale

WIDE = 100
"""Columns from which the margins stand beside the line."""

WIDEST = 180
"""Columns beyond which the page grows no wider; longer lines are hard to follow."""

BLUE, GREY, STRONG = "rgb(84,132,230)", "dim", "bold"
"""The one blue, grey and black of the house, as far as a terminal has them."""

GUTTER = 8
"""Columns between the left margin and the line: a correction sign and the line's number."""

FOLD = 7
"""Columns by which the margins stand in when they are folded under their line."""

_UNBROKEN = "\ue000"
"""Stands for a space at which no line may break while lines are broken."""

_SIGNS = {"doubt": "∧", "fault": "₰", "note": "∴"}
_ASCII_SIGNS = {"doubt": "^", "fault": "x", "note": "*"}
_ASCII = str.maketrans(
    {
        "–": "-",
        "—": "-",
        "−": "-",
        "·": ",",
        "×": "x",
        "₂": "2",
        "“": '"',
        "”": '"',
        "‘": "'",
        "’": "'",
        "…": "...",
        "½": "1/2",
        "¼": "1/4",
        "¾": "3/4",
    }
)


@dataclass(frozen=True, slots=True)
class Column:
    lines: tuple[Text, ...]
    width: int
    justify: Literal["left", "right"] = "left"
    gap: int = 2


class Page:
    """A console with what it can show: how wide, whether drawn, which characters."""

    def __init__(self, console: Console) -> None:
        self.console = console
        self.width = min(console.width, WIDEST)
        self.drawn = console.is_terminal
        self.wide = self.drawn and self.width >= WIDE
        self.ascii = not console.encoding.lower().startswith("utf")
        self.left = min(max(self.width * 27 // 100, 26), 46)
        self.value = 16
        self.scale = min(max(self.width * 18 // 100, 16), 34)
        beside = self.left + self.scale + self.value + 15
        self.line = max(self.width - beside, 20) if self.wide else max(self.width - 5, 16)

    def words(self, text: str, style: str = "") -> Text:
        """Text in characters that the console has, numbers never parted from their units.

        Parameters
        ----------
        text : str
            Any text, already printable.
        style : str
            Rich style, or none.

        Returns
        -------
        Text
            The text in one style.
        """
        text = re.sub(r"(?<=\d) (?=[^\W\d]{1,2}\b)", _UNBROKEN, text)
        text = text.replace(numerals.SPACE, _UNBROKEN)
        if self.ascii:
            text = text.translate(_ASCII)
            known = text.replace(_UNBROKEN, " ").encode(self.console.encoding, "replace")
            shown = known.decode(self.console.encoding)
            text = "".join(
                _UNBROKEN if was == _UNBROKEN else now for was, now in zip(text, shown, strict=True)
            )
        return Text(text, style=style)

    def sign(self, level: str) -> Text:
        """Correction sign of a mark's level.

        Parameters
        ----------
        level : str
            note, doubt or fault.

        Returns
        -------
        Text
            One character in blue.
        """
        return Text((_ASCII_SIGNS if self.ascii else _SIGNS)[level], style=BLUE)

    def wrapped(self, texts: Iterable[Text], width: int) -> tuple[Text, ...]:
        """Paragraphs broken into lines.

        Parameters
        ----------
        texts : iterable of Text
            Paragraphs; empty ones are left out.
        width : int
            Columns a line may fill.

        Returns
        -------
        tuple[Text, ...]
            Lines.
        """
        return tuple(
            line for text in texts if text.plain for line in text.wrap(self.console, width)
        )

    def _line_of(self, columns: Sequence[Column], row: int) -> Text:
        made = Text()
        for column in columns:
            cell = column.lines[row] if row < len(column.lines) else Text()
            cell.rstrip()
            room = " " * max(column.width - cell_len(cell.plain), 0)
            made += Text.assemble(room, cell) if column.justify == "right" else cell + Text(room)
            made += Text(" " * column.gap)
        made.rstrip()
        return made

    def put(self, *columns: Column) -> None:
        """Print columns beside each other.

        Parameters
        ----------
        *columns : Column
            From left to right.
        """
        for row in range(max(len(column.lines) for column in columns)):
            self.put_line(self._line_of(columns, row))

    def put_line(self, text: Text | None = None) -> None:
        """Print one line.

        Parameters
        ----------
        text : Text or None
            One line, or an empty one.
        """
        line = text or Text()
        line.plain = line.plain.replace(_UNBROKEN, " ")
        if not self.drawn:
            line = Text(line.plain)
        self.console.print(line, soft_wrap=True, highlight=False, markup=False, emoji=False)

    def put_indented(self, texts: Iterable[Text], indent: int = 5) -> None:
        """Print paragraphs that stand in.

        Parameters
        ----------
        texts : iterable of Text
            Paragraphs; empty ones are left out.
        indent : int
            Columns it stands in.
        """
        width = max(self.width - indent, 12)
        for line in self.wrapped(texts, width):
            line.rstrip()
            self.put_line(Text(" " * indent) + line)


def ground(page: Page, scale: Scale) -> Text:
    """The common scale's light rules across one row of characters.

    Parameters
    ----------
    page : Page
        Where it is printed.
    scale : Scale
        The common scale.

    Returns
    -------
    Text
        One line of characters.
    """
    cells = Text(" " * page.scale)
    return _with_rules(page, cells, scale)


def _with_rules(page: Page, cells: Text, scale: Scale) -> Text:
    made = list(cells.plain)
    for tick in scale.ticks:
        place = _cell(page, scale, tick)
        if made[place] == " ":
            made[place] = _rule(page, tick)
    return Text("".join(made), style=GREY)


def _rule(page: Page, tick: float) -> str:
    if page.ascii:
        return ":" if tick else "|"
    return "┊" if tick else "│"


def drawn_interval(
    page: Page, scale: Scale, value: Range | None, middle: str, sign: str | None = None
) -> Text:
    """An interval in characters: a thin line, and a cross-stroke at the middle value.

    Parameters
    ----------
    page : Page
        Where it is printed.
    scale : Scale
        The common scale.
    value : Range or None
        What is drawn; nothing but the rules without it. [the scale's unit]
    middle : str
        "mean" or "median": which of them stands in the middle.
    sign : str or None
        Another character for the middle value.

    Returns
    -------
    Text
        One line of characters.
    """
    if value is None:
        return ground(page, scale)
    start, end = _cell(page, scale, value.p05), _cell(page, scale, value.p95)
    centre = _cell(page, scale, numerals.middle_value(value, middle))
    thin = "-" if page.ascii else "─"
    cells = Text(" " * start + thin * (end - start + 1)) + Text(" " * (page.scale - end - 1))
    made = _with_rules(page, cells, scale)
    made.stylize("not dim", start, end + 1)
    stroke = sign or ("+" if page.ascii else "┼")
    before, after = made[:centre], made[centre + 1 :]
    return Text.assemble(before, (stroke, BLUE), after)


def _cell(page: Page, scale: Scale, value: float) -> int:
    return min(int(scale.share(value) * page.scale), page.scale - 1)


def axis(page: Page, scale: Scale) -> Text:
    """The numbers of the ticks, as many as find room.

    Parameters
    ----------
    page : Page
        Where it is printed.
    scale : Scale
        The common scale.

    Returns
    -------
    Text
        One line of characters.
    """
    row = [" "] * page.scale
    free = 0
    for tick in scale.ticks:
        words = page.words(numerals.number(tick, scale.decimals if tick else 0)).plain
        start = max(_cell(page, scale, tick) - (len(words) - 1) // 2, 0)
        if start >= free and start + len(words) <= page.scale:
            row[start : start + len(words)] = words
            free = start + len(words) + 1
    return Text("".join(row), style=GREY)


def hatched(fields: Sequence[hatching.Field], zero: float, width: int) -> Text:
    """Return a strip of stages, each in its own letter, with a nought at zero if it has one.

    Parameters
    ----------
    fields : sequence of Field
        Stages on the strip.
    zero : float
        Where zero is; 0 where nothing lies below it. [share of the strip]
    width : int
        Its length in characters.

    Returns
    -------
    Text
        One line of characters.
    """
    cells = [_letter_at(fields, (cell + 0.5) / width) for cell in range(width)]
    if zero:
        cells[min(int(zero * width), width - 1)] = "0"
    return Text("".join(cells))


def _letter_at(fields: Sequence[hatching.Field], place: float) -> str:
    for field in fields:
        if field.start <= place < field.start + field.width:
            return hatching.letter(field.stage)
    return " "
