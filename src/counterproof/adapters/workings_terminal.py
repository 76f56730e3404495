"""How one number of a proof came about, in a terminal: the steps that lead to it, in order."""

from __future__ import annotations

from difflib import get_close_matches
from typing import TYPE_CHECKING

from rich.table import Table
from rich.text import Text

from counterproof.adapters.characters import BLUE, GREY, STRONG
from counterproof.errors import UsageFault
from counterproof.press.figures import term_text, text_of
from counterproof.press.plain_text import printable
from counterproof.proof import Derivation, Edition, Term

if TYPE_CHECKING:
    from rich.console import Console


def print_working(edition: Edition, asked: str, console: Console) -> None:
    """Print how a number came about.

    Parameters
    ----------
    edition : Edition
        The proof.
    asked : str
        Key of the number, such as "line:3", or its short number.
    console : Console
        Where it is printed.

    Raises
    ------
    UsageFault
        If the proof holds no such number.
    """
    number, one = working(edition, asked)
    head = Text(f"[{number}] ", BLUE)
    head.append(printable(one.name), STRONG)
    head.append(f": {text_of(one, edition.middle)}")
    console.print(head)
    steps = Table.grid(padding=(0, 1))
    for column in ("left", "left", "right", "left"):
        steps.add_column(justify=column, overflow="fold")
    for place, term in enumerate(one.terms):
        steps.add_row(*_row(term, place, edition))
    console.print(steps)


def working(edition: Edition, asked: str) -> tuple[int, Derivation]:
    """Return how a number came about, with its short number.

    Parameters
    ----------
    edition : Edition
        The proof.
    asked : str
        Key of the number, or its short number.

    Returns
    -------
    tuple of int and Derivation
        Counted from 1.

    Raises
    ------
    UsageFault
        If the proof holds no such number.
    """
    number = _number(edition, asked)
    return number, edition.derivations[number - 1]


def _number(edition: Edition, asked: str) -> int:
    if asked.isdecimal() and 1 <= int(asked[:9]) <= len(edition.derivations):
        return int(asked)
    found = edition.number_of(asked)
    if found is not None:
        return found
    keys = [one.key for one in edition.derivations]
    near = get_close_matches(asked, keys, 5, 0.4) or keys[:5]
    raise UsageFault(
        f"The proof has no number “{printable(asked)}”.",
        remedy=f"Ask for one of its {len(keys)} by key or by place, such as {', '.join(near)}.",
    )


def _row(term: Term, place: int, edition: Edition) -> tuple[Text, Text, Text, Text]:
    does = "" if place == 0 and term.does == "+" else term.does
    says = Text(printable(term.says))
    if term.opens:
        says.append(f" [{edition.number_of(term.opens)}]", BLUE)
    parts = (term.source, term.locator) if term.source else (term.locator,)
    source = printable(", ".join(part for part in parts if part))
    return Text(f"  {does}", GREY), says, Text(term_text(term, edition)), Text(source, GREY)
