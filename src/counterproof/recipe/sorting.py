"""Which part of the recipe every line belongs to; none is lost.

Headings decide where there are any. Where there are none, the look of the lines does: a title,
then lines that begin with amounts, then sentences.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, replace

from counterproof.recipe.headings import (
    is_seasoning,
    looks_like_amount,
    looks_like_ingredient,
    looks_like_step,
    names_section,
    opens,
)
from counterproof.recipe.layout import Layout, State, inline
from counterproof.recipe.markup import Item
from counterproof.recipe.model import WrittenLine
from counterproof.recipe.servings import Statement, servings_said, statement
from counterproof.recipe.wrapping import joined


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
        self.layout = Layout(found)
        self.out = out
        self.state: State = "intro"
        self.section = ""
        self.pending = ""
        self.dish = ""
        self.numbered_from = next((i.at for i in found if i.sign == "number"), math.inf)
        self.unmeasured: int | None = None
        self.method_level = 0

    def parts(self) -> Sorted:
        first = self.layout.title()
        if first is not None:
            self._name(self.found[first])
        self.unmeasured = self.layout.unmeasured_list(0 if first is None else first + 1)
        for place in range(len(self.found)):
            if place == first:
                continue
            before = self.state
            self._sort(place)
            begins = self.state == "ingredients" != before
            if begins and self.out.steps and self.out.again is None:
                self.out.again = self.layout.another_title(place, first)
        if self.pending:
            self._aside(self.pending)
        return self.out

    def _name(self, item: Item) -> None:
        """Note the title, and what it says of the yield in brackets."""
        self.out.title = item.text
        for words in re.findall(r"\(([^()]+)\)", self.out.title):
            if said := statement(words):
                self._take(replace(said, whole=True), item)

    def _sort(self, place: int) -> None:
        item = self.found[place]
        if item.sign in {"heading", "bold"}:
            self._heading(place, item)
            return
        if item.sign == "plain" and not item.literal:
            if self.layout.opened[place]:
                if opens(item.text):
                    self._heading(place, item)
                else:
                    self._spread(place, item)
                return
            if self.layout.is_section(place, self.state):
                self._heading(place, item)
                return
        if item.sign == "bullet" and self.state == "ingredients" and self.layout.heads_list(place):
            self.section = item.text.rstrip(": ")
            return
        said = None if item.literal else statement(item.text)
        if said is not None and (
            item.sign == "plain" or (item.sign == "bullet" and self.state == "intro")
        ):
            self._take(said, item)
            return
        self._place(place, item)

    def _spread(self, place: int, item: Item) -> None:
        """Sort a part written behind its own heading: "Ingredients: 2 eggs, 100 g flour"."""
        within = inline(item)
        if within is None:
            self._place(place, item)
            return
        part, rest = within
        self.state = "method" if part == "method" else "ingredients"
        self.section, self.pending = self.pending, ""
        if part == "method":
            self._step(rest, item.at)
            return
        for piece in _pieces(rest):
            if piece.strip(" ."):
                self._line(piece.strip(), item.at)

    def _heading(self, place: int, item: Item) -> None:
        text = item.text if item.literal else item.text.rstrip(": ") or item.text
        said = None if item.literal else statement(text)
        if said is not None:
            self._take(said, item)
            return
        if not item.literal and opens(text):
            self._known_heading(item, text)
        elif not item.literal and inline(item):
            self._spread(place, item)
        elif body := self.layout.body(place):
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
            if (
                amounts * 2 >= count
                and count
                and (named or not self.layout.later(place, "ingredients"))
            ):
                state = "ingredients"
            elif (numbered or steps) and self.out.lines:
                state = "method"
        elif self.state == "ingredients":
            if (numbered or steps) and not self.layout.later(place, "method") and self.out.lines:
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
            begins = begins or place == self.unmeasured or self.layout.leads_amounts(place)
            if item.literal or not begins or self.layout.later(place, "ingredients"):
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

    def _among_ingredients(self, place: int, item: Item) -> None:
        step = looks_like_step(item.text) and not item.literal
        if self.layout.later(place, "method"):
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
