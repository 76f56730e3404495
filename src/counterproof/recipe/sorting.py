"""Which part of the recipe every line belongs to; none is lost.

Headings decide where there are any. Where there are none, the look of the lines does: a title,
then lines that begin with amounts, then sentences.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, replace
from typing import Literal

from counterproof.recipe.headings import (
    heads_ingredients,
    is_seasoning,
    looks_like_amount,
    looks_like_ingredient,
    looks_like_step,
    names_section,
    opens,
)
from counterproof.recipe.markup import Item
from counterproof.recipe.model import WrittenLine
from counterproof.recipe.servings import Statement, servings_said, statement
from counterproof.recipe.wrapping import joined

State = Literal["intro", "ingredients", "method", "notes"]

LONGEST_TITLE = 120
"""Longest first line that is taken for a title [characters]: assumed, two lines of print."""

JUDGED = 40
"""Lines under a heading by which it is judged: assumed, more than a part of a recipe has."""

_TITLE_BEFORE = 3  # items before a list of ingredients in which its title is looked for
_TITLE_WORDS = 8

_INLINE = re.compile(r"([^:.]{3,40}):\s+(\S.*)")


@dataclass
class Sorted:
    """The parts of a recipe, filled line by line."""

    title: str = ""
    serves: tuple[float, float] | None = None
    makes: str | None = None
    lines: list[WrittenLine] = field(default_factory=list)
    steps: list[WrittenLine] = field(default_factory=list)
    intro: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    differing: list[int] = field(default_factory=list)  # lines of the file that say another yield
    again: int | None = None  # line of the file at which a second recipe seems to begin


def sorted_parts(
    found: list[Item], serves: tuple[float, float] | None = None, makes: str | None = None
) -> Sorted:
    """Sort the items of a file into the parts of a recipe.

    Parameters
    ----------
    found : list of Item
        The items, in order.
    serves, makes : tuple of float and str, or None
        What the front matter says already; it outranks the text.

    Returns
    -------
    Sorted
        Every item in one of the parts.
    """
    return _Sorter(joined(found), Sorted(serves=serves, makes=makes)).parts()


class _Sorter:
    """Walks the items once, keeping what part it is in."""

    def __init__(self, found: list[Item], out: Sorted) -> None:
        self.found = found
        self.out = out
        self.state: State = "intro"
        self.section = ""
        self.pending = ""
        self.dish = ""
        self.opened = [self._opened(item) for item in found]
        self.last = {part: place for place, part in enumerate(self.opened)}
        self.numbered_from = next((i.at for i in found if i.sign == "number"), math.inf)
        self.unmeasured: int | None = None
        self.method_level = 0

    def parts(self) -> Sorted:
        first = self._title()
        self.unmeasured = self._unmeasured_list(0 if first is None else first + 1)
        for place in range(len(self.found)):
            if place == first:
                continue
            before = self.state
            self._sort(place)
            if self.state == "ingredients" != before and self.out.again is None:
                self._look_back(place, first)
        if self.pending:
            self._aside(self.pending)
        return self.out

    def _look_back(self, place: int, first: int | None) -> None:
        """Note where another title stands before ingredients that begin anew after a method."""
        if not self.out.steps:
            return
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
            if titled:
                self.out.again = item.at
            return

    def _opened(self, item: Item) -> str:
        if item.literal or item.sign in {"bullet", "number"}:
            return ""
        found = opens(item.text)
        if found:
            return found[0]
        inline = self._inline(item)
        return inline[0] if inline else ""

    def _later(self, place: int, part: str) -> bool:
        return self.last.get(part, -1) >= place

    def _title(self) -> int | None:
        """Find the title, note it and return its place."""
        end = next((i for i, part in enumerate(self.opened) if part), len(self.found))
        before = range(end)
        place = next((i for i in before if self.found[i].level == 1 and not self._said(i)), None)
        if place is None and end and self._is_title():
            place = 0
        if place is not None:
            self.out.title = self.found[place].text
            for words in re.findall(r"\(([^()]+)\)", self.out.title):
                if said := statement(words):
                    self._take(replace(said, whole=True), self.found[place])
        return place

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

    def _unmeasured_list(self, start: int) -> int | None:
        """Return where a list of short lines without amounts or heading begins, if one does."""
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

    def _sort(self, place: int) -> None:
        item = self.found[place]
        if item.sign in {"heading", "bold"}:
            self._heading(place, item)
            return
        if item.sign == "plain" and not item.literal:
            if self.opened[place]:
                if opens(item.text):
                    self._heading(place, item)
                else:
                    self._spread(place, item)
                return
            if self._is_section(place, item):
                self._heading(place, item)
                return
        if item.sign == "bullet" and self.state == "ingredients" and self._heads_list(place, item):
            self.section = item.text.rstrip(": ")
            return
        said = None if item.literal else statement(item.text)
        if said is not None and (
            item.sign == "plain" or (item.sign == "bullet" and self.state == "intro")
        ):
            self._take(said, item)
            return
        self._place(place, item)

    def _inline(self, item: Item) -> tuple[str, str] | None:
        match = _INLINE.fullmatch(item.text)
        found = opens(match[1]) if match else None
        if match is None or found is None or item.sign not in {"plain", "bold"}:
            return None
        if found[0] == "notes" or statement(item.text):
            return None
        if found[0] == "method" and re.match(r"[\d½¼¾]|(?:about|over|under|up to)\b", match[2]):
            return None  # "Preparation: 20 minutes"
        return found[0], match[2]

    def _spread(self, place: int, item: Item) -> None:
        """Sort a part written behind its own heading: "Ingredients: 2 eggs, 100 g flour"."""
        inline = self._inline(item)
        if inline is None:
            self._place(place, item)
            return
        part, rest = inline
        self.state = "method" if part == "method" else "ingredients"
        self.section, self.pending = self.pending, ""
        if part == "method":
            self._step(rest, item.at)
            return
        for piece in _pieces(rest):
            if piece.strip(" ."):
                self._line(piece.strip(), item.at)

    def _is_section(self, place: int, item: Item) -> bool:
        """Return whether a plain line names a part of the dish: "For the sauce:"."""
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
            if self.state == "notes" or not amount or words > 5:
                return False
            return heads_ingredients(item.text) or (item.gap and named and not following.gap)
        return {
            "ingredients": amount or looks_like_ingredient(following.text) or named,
            "intro": amount and not self._later(place, "ingredients"),
            "method": named,
            "notes": False,
        }[self.state]

    def _heads_list(self, place: int, item: Item) -> bool:
        following = self.found[place + 1] if place + 1 < len(self.found) else None
        return (
            following is not None
            and not item.literal
            and following.sign == "bullet"
            and heads_ingredients(item.text)
            and not heads_ingredients(following.text)
        )

    def _heading(self, place: int, item: Item) -> None:
        text = item.text if item.literal else item.text.rstrip(": ") or item.text
        said = None if item.literal else statement(text)
        if said is not None:
            self._take(said, item)
            return
        if not item.literal and opens(text):
            self._known_heading(item, text)
        elif not item.literal and self._inline(item):
            self._spread(place, item)
        elif body := self._body(place):
            self._unknown(item, place, text, body)
        elif item.literal or place + 1 == len(self.found):
            self._aside(text)
        else:
            if self.pending:
                self._aside(self.pending)
            self.pending = text

    def _known_heading(self, item: Item, text: str) -> None:
        part, section = opens(text) or ("notes", "")
        self._told(text, section)
        if servings_said(section):
            section = ""
        if self.pending and part == "notes":
            self._aside(self.pending)
        elif self.pending:
            self.dish = self.pending
        self.pending = ""
        self.section = section or self.dish
        self.state = part
        if part == "method":
            self.method_level = item.level
        if part == "notes" and text.casefold() not in {"notes", "note"}:
            self.out.notes.append(f"### {text}")

    def _told(self, heading: str, section: str) -> None:
        """Take what a heading says besides: "Ingredients (serves 4)", "Ingredients for 6"."""
        for words in (*re.findall(r"\(([^()]+)\)", heading), section):
            serves = servings_said(words) if words else None
            said = statement(words) or (Statement(serves, None, whole=True) if serves else None)
            if said is not None:
                self._take(said, Item("plain", words, 0, raw=words))
            elif words and words != section:
                self._prose().append(words)

    def _prose(self) -> list[str]:
        return self.out.intro if self.state in {"intro", "ingredients"} else self.out.notes

    def _body(self, place: int) -> list[Item]:
        body: list[Item] = []
        for number in range(place + 1, min(place + 1 + JUDGED, len(self.found))):
            item = self.found[number]
            if item.sign in {"heading", "bold"} or self.opened[number]:
                break
            body.append(item)
        return body

    def _unknown(self, item: Item, place: int, text: str, body: list[Item]) -> None:
        """Decide what a heading in the cook's own words opens, from what stands under it."""
        count = len(body)
        numbered = sum(one.sign == "number" for one in body) * 2 > count
        words = [one.text for one in body if not one.literal]
        amounts = 0 if numbered else sum(map(looks_like_amount, words))
        steps = sum(map(looks_like_step, words)) * 2 > count
        named = names_section(text)
        state: State = self.state
        if self.state == "intro":
            if amounts * 2 >= count and count and (named or not self._later(place, "ingredients")):
                state = "ingredients"
            elif (numbered or steps) and self.out.lines:
                state = "method"
        elif self.state == "ingredients":
            if (numbered or steps) and not self._later(place, "method") and self.out.lines:
                state = "method"
        elif (
            amounts * 10 >= count * 6
            and count >= 2
            and (self.state == "method" or named or not self.out.lines)
        ):
            state = "ingredients"
        elif self.state == "method":
            state = "notes" if self._ends_method(item, body) else "method"
        elif numbered and named:
            state = "method"
        self.state, self.section = state, text
        if state in {"intro", "notes"}:
            self._aside(text)

    def _ends_method(self, item: Item, body: list[Item]) -> bool:
        """Return whether a heading beside "Method" begins an afterword: paragraphs, no steps."""
        level = self.method_level
        beside = item.sign == "heading" and 0 < item.level <= level < 7
        listed = self.numbered_from < item.at
        return beside and listed and not any(step.sign in {"number", "bullet"} for step in body)

    def _aside(self, heading: str) -> None:
        """Keep a heading that opens nothing."""
        self._prose().append(f"### {heading}")

    def _place(self, place: int, item: Item) -> None:
        if self.state == "intro":
            begins = looks_like_amount(item.text) or (
                item.sign == "bullet" and looks_like_ingredient(item.text)
            )
            begins = begins or place == self.unmeasured or self._leads_amounts(place, item)
            if item.literal or not begins or self._later(place, "ingredients"):
                self.out.intro.append(item.raw)
                return
            self.state, self.section, self.pending = "ingredients", self.pending, ""
        if self.state == "ingredients":
            self._among_ingredients(place, item)
        elif self.state == "method":
            if item.sign == "plain" and re.match(
                r"(?:notes?|tips?)\s*:\s+\S", item.text, re.IGNORECASE
            ):
                self.out.notes.append(item.raw)
            else:
                self._step(item.text, item.at)
        else:
            self.out.notes.append(item.raw)

    def _leads_amounts(self, place: int, item: Item) -> bool:
        """Return whether a short first line without amount stands on lines with amounts."""
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

    def _among_ingredients(self, place: int, item: Item) -> None:
        step = looks_like_step(item.text) and not item.literal
        if self._later(place, "method"):
            if item.sign == "plain" and step and len(item.text.split()) >= 8:
                self.out.notes.append(item.raw)
            else:
                self._line(item.text, item.at)
            return
        before = self.found[place - 1] if place else None
        changed = item.gap or before is None or before.sign != item.sign
        # a list that changes from bullets to numbers has come to the method
        begins = item.sign == "number" and item.gap and not looks_like_amount(item.text)
        step = step or (begins and before is not None and before.sign == "bullet")
        if step and self.out.lines and (item.sign != "bullet" or changed):
            self.state, self.section = "method", ""
            self._step(item.text, item.at)
        else:
            self._line(item.text, item.at)

    def _take(self, said: Statement, item: Item) -> None:
        """Take what a line says about the yield; keep the line too where it says more."""
        out = self.out
        kept = not said.whole
        for name in ("serves", "makes"):
            new = getattr(said, name)
            if new is None:
                continue
            if getattr(out, name) is None:
                setattr(out, name, new)
            elif getattr(out, name) != new:
                out.differing.append(item.at)
                kept = True
        if kept:
            self._prose().append(item.raw)

    def _line(self, text: str, at: int) -> None:
        self.out.lines.append(WrittenLine(len(self.out.lines) + 1, text, self.section, at))

    def _step(self, text: str, at: int) -> None:
        self.out.steps.append(WrittenLine(len(self.out.steps) + 1, text, self.section, at))


def _pieces(text: str) -> list[str]:
    """Return the ingredients of a list on one line, cut at semicolons, else at commas."""
    if ";" in text:
        return re.split(r";(?![^()]*\))", text)
    pieces = [""]
    for piece in re.split(r",(?!\d)(?![^()]*\))\s*", text):
        if not pieces[-1] or looks_like_amount(piece) or is_seasoning(piece):
            pieces.append(piece)
        else:
            pieces[-1] += f", {piece}"
    return pieces
