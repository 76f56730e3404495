"""What has to be bought, in a terminal: by part of the shop, what to take and what to know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from counterproof.adapters.characters import GREY, STRONG, Column, Page
from counterproof.press.shopping import closing, entries, heading

if TYPE_CHECKING:
    from rich.console import Console

    from counterproof.batch.to_buy import ShoppingList

_TAKE = 16
"""Columns for what is taken."""


def print_shopping(listed: ShoppingList, console: Console) -> None:
    """Print a shopping list.

    Parameters
    ----------
    listed : ShoppingList
        What has to be bought.
    console : Console
        Where it is printed.
    """
    page = Page(console)
    page.put_indented([page.words("To buy for ", GREY) + page.words(heading(listed), STRONG)], 0)
    rest = max(30, page.width - _TAKE - 2)
    for part, of in entries(listed):
        page.put_line()
        page.put_line(page.words(f"{' ' * (_TAKE + 2)}{part[0].upper()}{part[1:]}", GREY))
        for entry in of:
            name = page.words(entry.name)
            if entry.cost:
                name += page.words(f"  {entry.cost}", GREY)
            told = [name, *([page.words("; ".join(entry.notes), GREY)] if entry.notes else [])]
            page.put(
                Column(page.wrapped([page.words(entry.take, STRONG)], _TAKE), _TAKE, "right"),
                Column((), 2),
                Column(page.wrapped(told, rest), rest),
            )
    page.put_line()
    for what, sentence in closing(listed):
        page.put(
            Column(page.wrapped([page.words(what, GREY)], _TAKE), _TAKE, "right"),
            Column((), 2),
            Column(page.wrapped([page.words(sentence)], rest), rest),
        )
