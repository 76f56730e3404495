"""Changes to a recipe's settings made in its text, all the rest left as the cook wrote it."""

from __future__ import annotations

import json
import re
from typing import Final

from counterproof.errors import BrokenFrontMatter, SwapNotFound
from counterproof.reading.foods import Matcher
from counterproof.reading.lines import split_line
from counterproof.reading.versions import version_applied
from counterproof.recipe.model import Recipe, Version
from counterproof.recipe.text import read_text

_PLAIN: Final = re.compile(r"[A-Za-z][A-Za-z0-9-]*")
_KEY: Final = "versions:"
_TRIAL: Final = "1 kg of something else"


def with_swap(text: str, version: str, line: str, instead: str) -> str:
    """Return a recipe's text with one more version, in which a line is swapped.

    Parameters
    ----------
    text : str
        The recipe's text.
    version : str
        What the version is called.
    line : str
        Words that find the line: its food.
    instead : str
        The line that stands in its place.

    Returns
    -------
    str
        The text, with `versions:` in its settings; every other line is as it was.

    Raises
    ------
    InputError
        If a word is missing, a version of that name is there, or the settings cannot be read.
    """
    name, line, instead = (" ".join(words.split()) for words in (version, line, instead))
    for said, what in ((name, "name"), (line, "line"), (instead, "line in its place")):
        if not said:
            raise BrokenFrontMatter(f"The swap has no {what}.", remedy="Write one.")
    before = read_text(text)
    if any(one.name == name for one in before.versions):
        raise BrokenFrontMatter(
            f"There is a version “{name}” already.",
            remedy="Call this one something else, or change that one in the settings.",
        )
    entry = f"{_quoted(name)}: {{swap: {{{_quoted(line)}: {_quoted(instead)}}}}}"
    made = _put_in(text, entry)
    if [one.name for one in read_text(made).versions] != [*(v.name for v in before.versions), name]:
        raise BrokenFrontMatter(
            "The settings hold versions in a form that cannot be added to here.",
            remedy=f"Write it there yourself: {entry}",
        )
    return made


def words_for(recipe: Recipe, at: int, matcher: Matcher) -> str:
    """Return words by which a swap finds a line and no other.

    Parameters
    ----------
    recipe : Recipe
        The recipe.
    at : int
        The line's place in the file, from 1.
    matcher : Matcher
        Finds the food that words mean.

    Returns
    -------
    str
        The name of its food, with what else stands in the line where that is not enough.

    Raises
    ------
    SwapNotFound
        If the recipe has no ingredient line there, or no words of it find it.
    """
    line = next((one for one in recipe.lines if one.at == at), None)
    if line is not None:
        split = split_line(line.text)
        more = f"{split.name} {split.preparation}".strip()
        for words in (split.name, more, f"{more} {split.container}".strip()):
            trial = Version("trial", {words: _TRIAL})
            try:
                made, marks = version_applied(recipe, trial, matcher)
            except SwapNotFound:
                continue
            if not marks and [one.text for one in made.lines].index(_TRIAL) == line.number - 1:
                return words
    raise SwapNotFound(
        "No words of this line find it and no other.",
        remedy="Make the line differ from the others, or write the swap into the settings.",
    )


def _put_in(text: str, entry: str) -> str:
    lines = text.split("\n")
    first = next((place for place, line in enumerate(lines) if line.strip()), 0)
    if lines[first].rstrip() != "---":
        return "\n".join(["---", _KEY, f"  {entry}", "---", "", *lines])
    end = next(p for p in range(first + 1, len(lines)) if lines[p].rstrip() in {"---", "..."})
    at = next((p for p in range(first + 1, end) if lines[p].startswith(_KEY)), None)
    if at is None:
        return "\n".join([*lines[:end], _KEY, f"  {entry}", *lines[end:]])
    flow = lines[at].rstrip()
    if flow.endswith("}"):
        return "\n".join([*lines[:at], f"{flow[:-1]}, {entry}}}", *lines[at + 1 :]])
    last, blanks = at, 2
    for place in range(at + 1, end):
        line = lines[place]
        if line.strip() and not line[0].isspace():
            break
        if line.strip():
            if last == at:
                blanks = len(line) - len(line.lstrip())
            last = place
    return "\n".join([*lines[: last + 1], f"{' ' * blanks}{entry}", *lines[last + 1 :]])


def _quoted(words: str) -> str:
    """Words as YAML takes them: bare where they are plain, else as a JSON string, which is YAML."""
    return words if _PLAIN.fullmatch(words) else json.dumps(words, ensure_ascii=False)
