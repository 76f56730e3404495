"""What the look of a recipe's lines says of the parts they belong to, before any is sorted.

Nothing here changes as the lines are walked: an item is judged by its own words and by the
items around it.
"""

from __future__ import annotations

import re
from typing import Literal

from counterproof.recipe.headings import (
    heads_ingredients,
    looks_like_amount,
    looks_like_ingredient,
    looks_like_step,
    names_section,
    opens,
)
from counterproof.recipe.markup import Item
from counterproof.recipe.servings import statement

State = Literal["intro", "ingredients", "method", "notes"]

LONGEST_TITLE = 120
"""Longest first line that is taken for a title [characters]: assumed, two lines of print."""

JUDGED = 40
"""Lines under a heading by which it is judged: assumed, more than a part of a recipe has."""

_TITLE_BEFORE = 3  # items before a list of ingredients in which its title is looked for
_TITLE_WORDS = 8

_INLINE = re.compile(r"([^:.]{3,40}):\s+(\S.*)")


class Layout:
    """The items of a file, and which of them open a part of the recipe."""

    def __init__(self, found: list[Item]) -> None:
        self.found = found
        self.opened = [_opened(item) for item in found]
        self._last = {part: place for place, part in enumerate(self.opened)}

    def later(self, place: int, part: str) -> bool:
        """Return whether a part is opened at a place or after it.

        Parameters
        ----------
        place : int
            Place among the items.
        part : str
            The part: ingredients, method or notes.

        Returns
        -------
        bool
            Whether it is.
        """
        return self._last.get(part, -1) >= place

    def title(self) -> int | None:
        """Return the place of the title, if there is one."""
        end = next((i for i, part in enumerate(self.opened) if part), len(self.found))
        before = range(end)
        place = next((i for i in before if self.found[i].level == 1 and not self._said(i)), None)
        return 0 if place is None and end and self._is_title() else place

    def another_title(self, place: int, first: int | None) -> int | None:
        """Return the line of the file with another title, before ingredients that begin anew.

        Parameters
        ----------
        place : int
            Place at which ingredients begin.
        first : int or None
            Place of the file's own title.

        Returns
        -------
        int or None
            The line, if a title stands there.
        """
        level = 1 if first is None else max(1, self.found[first].level)
        for at in range(place, max(place - 1 - _TITLE_BEFORE, 0), -1):
            item = self.found[at]
            if item.literal or self._said(at) or opens(item.text) or names_section(item.text):
                continue
            if item.sign in {"heading", "bold"}:
                titled = item.level <= level
            else:
                short = item.sign == "plain" and item.gap and len(item.text.split()) <= _TITLE_WORDS
                ends = item.text.endswith((".", ":", "!"))
                titled = at < place and short and not ends and not looks_like_amount(item.text)
            return item.at if titled else None
        return None

    def unmeasured_list(self, start: int) -> int | None:
        """Return where a list of short lines without amounts or heading begins, if one does.

        Parameters
        ----------
        start : int
            Place from which it is looked for.

        Returns
        -------
        int or None
            Place of its first line.
        """
        if "ingredients" in self.opened or any(looks_like_amount(i.text) for i in self.found):
            return None
        spaced = sum(item.gap for item in self.found) * 2 > len(self.found)  # a line, a blank
        run = 0
        for place, item in enumerate(self.found[start:], start):
            follows = run and (spaced or not item.gap)
            listed = item.sign in {"plain", "bullet"} and looks_like_ingredient(item.text)
            if not listed or self.opened[place] or statement(item.text):
                if run >= 2:
                    return place - run
                run = 0
            else:
                run = run + 1 if follows else 1
        return len(self.found) - run if run >= 2 else None

    def is_section(self, place: int, state: State) -> bool:
        """Return whether a plain line names a part of the dish: "For the sauce:".

        Parameters
        ----------
        place : int
            Place of the line.
        state : str
            The part of the recipe it stands in.

        Returns
        -------
        bool
            Whether it does.
        """
        item = self.found[place]
        if place + 1 == len(self.found) or looks_like_amount(item.text):
            return False
        following = self.found[place + 1]
        words = len(item.text.split())
        headed = following.sign in {"heading", "bold"} or bool(self.opened[place + 1])
        if words > 7 or headed:
            return False
        amount = looks_like_amount(following.text) or following.sign == "bullet"
        named = names_section(item.text)
        if not item.text.endswith(":"):
            if state == "notes" or not amount or words > 5:
                return False
            return heads_ingredients(item.text) or (item.gap and named and not following.gap)
        return {
            "ingredients": amount or looks_like_ingredient(following.text) or named,
            "intro": amount and not self.later(place, "ingredients"),
            "method": named,
            "notes": False,
        }[state]

    def heads_list(self, place: int) -> bool:
        """Return whether a bullet among ingredients is the heading of those under it.

        Parameters
        ----------
        place : int
            Place of the bullet.

        Returns
        -------
        bool
            Whether it is.
        """
        item = self.found[place]
        following = self.found[place + 1] if place + 1 < len(self.found) else None
        return (
            following is not None
            and not item.literal
            and following.sign == "bullet"
            and heads_ingredients(item.text)
            and not heads_ingredients(following.text)
        )

    def leads_amounts(self, place: int) -> bool:
        """Return whether a short first line without amount stands on lines with amounts.

        Parameters
        ----------
        place : int
            Place of the line.

        Returns
        -------
        bool
            Whether it does.
        """
        item = self.found[place]
        following = self.found[place + 1] if place + 1 < len(self.found) else None
        return (
            following is not None
            and item.gap
            and not following.gap
            and item.sign == following.sign == "plain"
            and looks_like_amount(following.text)
            and len(item.text.split()) <= 4
            and looks_like_ingredient(item.text)
        )

    def body(self, place: int) -> list[Item]:
        """Return the items under a heading, as many as it is judged by.

        Parameters
        ----------
        place : int
            Place of the heading.

        Returns
        -------
        list of Item
            The items up to the next heading.
        """
        body: list[Item] = []
        for number in range(place + 1, min(place + 1 + JUDGED, len(self.found))):
            item = self.found[number]
            if item.sign in {"heading", "bold"} or self.opened[number]:
                break
            body.append(item)
        return body

    def _said(self, place: int) -> bool:
        return statement(self.found[place].text) is not None

    def _is_title(self) -> bool:
        """Return whether the first item is a title, though no heading of the first level."""
        item = self.found[0]
        if self._said(0) or item.literal:
            return False
        if item.sign in {"heading", "bold"}:
            return item.sign == "heading" or not item.text.endswith(":")
        if item.sign != "plain" or len(item.text) > LONGEST_TITLE:
            return False
        last = len(self.found) == 1
        apart = last or self.found[1].gap or bool(self.opened[1]) or self._said(1)
        if item.text.endswith(":"):
            return False
        if looks_like_amount(item.text):  # "7 vegetable couscous"
            return apart and len(item.text.split()) <= 8
        return apart or not looks_like_step(item.text)


def _opened(item: Item) -> str:
    if item.literal or item.sign in {"bullet", "number"}:
        return ""
    found = opens(item.text)
    if found:
        return found[0]
    within = inline(item)
    return within[0] if within else ""


def inline(item: Item) -> tuple[str, str] | None:
    """Return the part a line opens and what it says of it: "Ingredients: 2 eggs, 100 g flour".

    Parameters
    ----------
    item : Item
        The line.

    Returns
    -------
    tuple of str, or None
        The part, and the words behind its heading; None for a line of another kind.
    """
    match = _INLINE.fullmatch(item.text)
    found = opens(match[1]) if match else None
    if match is None or found is None or item.sign not in {"plain", "bold"}:
        return None
    if found[0] == "notes" or statement(item.text):
        return None
    if found[0] == "method" and re.match(r"[\d½¼¾]|(?:about|over|under|up to)\b", match[2]):
        return None  # "Preparation: 20 minutes"
    return found[0], match[2]
