"""Markdown as cooks use it: one physical line at a time, and its words without the signs.

Only what changes how a recipe is read is known here: headings, list signs, rules, quotation
signs, table rows, comments and emphasis. A comment (`<!-- … -->`) is for whoever writes the
file and is no part of the recipe; nor are the names of a table's columns.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal

Sign = Literal["blank", "heading", "bold", "bullet", "number", "plain", "rule"]

_HEADING = re.compile(r"(#{1,6})(?:\s+(.*?))?(?:\s+#+)?\s*")
_BULLET = re.compile(r"[-*+•·◦▪‣∙●○■□☐☑✓✔►▢–—](?:\s+|(?<=[•·◦▪‣∙●○■□☐☑✓✔►▢]))(?=\S)(.*)")
_BOX = re.compile(r"\[[ xX]?\]\s+(?=\S)")
_NUMBER = re.compile(
    r"(?:\(?\d{1,3}[.)]|\d\ufe0f?\u20e3|[Ss][Tt][Ee][Pp]\s+\d{1,3}\s*[.):–—-])\s+(?=\S)(.*)"
)
_RULE = re.compile(r"(?:[-*_=~]\s*){3,}|`{3,}\w*|~{3,}\w*")
_BOLD = re.compile(r"(\*\*|__)(?=\S)(.+?)(?<=\S)\1(:?)\s*")
_TABLE_RULE = re.compile(r"\|?(?:\s*:?-{2,}:?\s*\|)+(?:\s*:?-{2,}:?\s*)?")
_QUOTE = re.compile(r">\s?")
_ESCAPE = re.compile(r"\\([^\w\s]|_)")
# A span is short, so that a line of nothing but signs is not searched again from every sign.
_EMPHASIS = (
    re.compile(r"(?<![\w*\\])\*\*(?=[^\s*])(.{1,200}?)(?<=[^\s*\\])\*\*(?![\w*])"),
    re.compile(r"(?<![\w\\])__(?=[^\s_])(.{1,200}?)(?<=[^\s_\\])__(?!\w)"),
    re.compile(r"(?<![\w*\\])\*(?=[^\s*])([^*]{1,200}?)(?<=[^\s*\\])\*(?![\w*])"),
    re.compile(r"(?<![\w\\])_(?=[^\s_])([^_]{1,200}?)(?<=[^\s_\\])_(?!\w)"),
    re.compile(r"(?<!\\)`([^`]{1,200})`"),
)
_LINK = re.compile(r"(?<!\\)!?\[([^\[\]]{0,200})\]\([^()\s]*(?:\s+\"[^\"]*\")?\)")
_SIGNS = re.compile(r"([\\*_`\[\]<>#|=~+-])")

BOLD = 7
"""Level of a bold line that stands as a heading: below all six that Markdown has."""


@dataclass(frozen=True, slots=True)
class Item:
    """One line of the file, or a line and what continues it.

    Parameters
    ----------
    sign : Sign
        What it was set as.
    text : str
        Its words, without list sign, number or emphasis.
    at : int
        Its line in the file, from 1.
    level : int
        Depth of a heading, from 1; `BOLD` for a bold line that stands as one; 0 otherwise.
    indent : int
        Blanks before it.
    raw : str
        The words with list sign and all, for intro and notes.
    length : int
        Length of the last line of the file that it holds.
    gap : bool
        Whether a blank line or a rule stands before it.
    literal : bool
        Whether a backslash says that it is only words, whatever it looks like.
    """

    sign: Sign
    text: str
    at: int
    level: int = 0
    indent: int = 0
    raw: str = ""
    length: int = 0
    gap: bool = False
    literal: bool = False


def file_lines(text: str) -> list[str]:
    """Return the lines of a file, whatever ends them, without a byte order mark.

    Parameters
    ----------
    text : str
        The file's text.

    Returns
    -------
    list of str
        The lines without their ends; joined, they have the line numbers of any editor.
    """
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")


def spaced(text: str) -> str:
    """Return text on one line with single blanks.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Its words with single blanks between them.
    """
    return " ".join(text.split())


def plain(text: str) -> str:
    """Return the words of a line without emphasis, links and backslashes.

    Parameters
    ----------
    text : str
        A line, or the part of it behind its list sign.

    Returns
    -------
    str
        The words on one line.
    """
    if any(sign in text for sign in "*_`["):
        text = _LINK.sub(r"\1", text)
        for pattern in _EMPHASIS:
            text = pattern.sub(r"\1", text)
    return spaced(_ESCAPE.sub(r"\1", text) if "\\" in text else text)


def written(lead: str, text: str, *, literal: bool = False) -> str:
    """Return a line of Markdown that reads back as its words.

    Parameters
    ----------
    lead : str
        What stands before the words: "# ", "- ", "3. " or "".
    text : str
        The words.
    literal : bool
        Whether the line must be taken for words whatever it looks like.

    Returns
    -------
    str
        The line, signs escaped only where they would be taken for mark-up.
    """
    text = spaced(text)
    sign = _item(f"{lead}x", 1).sign
    kind = {"plain": "raw"}.get(sign, "text")
    if not literal:
        item = _item(lead + text, 1)
        if item.sign == sign and getattr(item, kind) == text and "<!--" not in text:
            return lead + text
    signs = _SIGNS.sub(r"\\\1", text)
    return lead + (signs if not literal or signs.startswith("\\") else f"\\{signs}")


def items(lines: list[str], first: int = 1) -> list[Item]:
    """Read lines as items, comments left out.

    Parameters
    ----------
    lines : list of str
        Lines of the file.
    first : int
        The first one's place in the file, from 1.

    Returns
    -------
    list of Item
        One for every line that says something, in order.
    """
    found: list[Item] = []
    gap = False
    for number, line in enumerate(_without_comments(lines)):
        if line is None:
            continue
        item = _item(line, first + number)
        before = found[-1] if found else None
        if before is not None and before.at == item.at - 1 and _heads_columns(before, line):
            found.pop()
            continue
        if before is not None and before.sign == "plain" and before.at == item.at - 1:
            bare = line.strip()
            if re.fullmatch(r"=+|-{2,}", bare) and before.indent < 4 and len(before.text) <= 80:
                level = 1 if bare[0] == "=" else 2
                found[-1] = replace(before, sign="heading", level=level)
                continue
        if item.sign in {"blank", "rule"}:
            gap = True
            continue
        found.append(replace(item, gap=gap) if gap else item)
        gap = False
    return found


def _heads_columns(before: Item, line: str) -> bool:
    """Return whether `before` only names the columns of a table ("amount | what")."""
    ruled = _TABLE_RULE.fullmatch(line.strip()) is not None and "|" in line
    return ruled and before.sign == "bullet" and not re.search(r"[\d½¼¾]", before.text)


def _item(line: str, at: int) -> Item:
    bare = line.strip()
    while quote := _QUOTE.match(bare):
        bare = bare[quote.end() :].strip()
    if not bare or _TABLE_RULE.fullmatch(bare):
        return Item("blank", "", at)
    if not bare.startswith("#") and _RULE.fullmatch(bare):
        return Item("rule", "", at)
    item = _headed(bare, at) or _listed(bare, at)
    if item is None:
        words, literal = _words(bare)
        item = Item("plain", words, at, raw=words, literal=literal)
    indent = len(line) - len(line.lstrip())
    sign: Sign = item.sign if item.text else "blank"
    return replace(item, sign=sign, indent=indent, length=len(line.rstrip()))


def _headed(bare: str, at: int) -> Item | None:
    if heading := _HEADING.fullmatch(bare):
        text, literal = _words(heading[2] or "")
        return Item("heading", text, at, len(heading[1]), raw=text, literal=literal)
    bold = _BOLD.fullmatch(bare)
    if bold and not re.search(r"\*\*|__", bold[2]):
        text = plain(bold[2]) + bold[3]
        return Item("bold", text, at, BOLD, raw=text)
    return None


def _listed(bare: str, at: int) -> Item | None:
    if bare.startswith("|") and bare.count("|") > 1:
        words = plain(" ".join(bare.strip("|").split("|")))
        return Item("bullet", words, at, raw=words)
    sign: Sign = "bullet"
    match = _BULLET.fullmatch(bare)
    if match is None:
        sign, match = "number", _NUMBER.fullmatch(bare)
    if match is None:
        return None
    # The sign is kept for intro and notes, where a list is only words.
    raw = f"{bare[: match.start(1)].strip()} {_words(match[1])[0]}"
    words, literal = _words(_BOX.sub("", match[1], count=1))
    return Item(sign, words, at, raw=raw, literal=literal)


def _words(text: str) -> tuple[str, bool]:
    """Return the words of a line, and whether a backslash before the first makes them literal."""
    literal = text.startswith("\\") and len(text) > 1 and not text[1].isspace()
    return plain(text[1:] if literal and text[1].isalnum() else text), literal


def _without_comments(lines: list[str]) -> list[str | None]:
    """Return the lines with comments cut out; None for a line that is nothing but comment."""
    shown: list[str | None] = []
    last_end = max((n for n, line in enumerate(lines) if "-->" in line), default=-1)
    inside = False
    for number, line in enumerate(lines):
        if not inside and "<!--" not in line:
            shown.append(line)
            continue
        kept: list[str] = []
        cut, at = inside, 0
        while at < len(line):
            if inside:
                end = line.find("-->", at)
                inside = end < 0
                at = len(line) if inside else end + 3
                continue
            start = line.find("<!--", at)
            if start < 0 or (last_end <= number and line.find("-->", start + 4) < 0):
                kept.append(line[at:])
                break
            kept.append(line[at:start])
            cut, inside, at = True, True, start + 4
        rest = "".join(kept)
        shown.append(None if cut and not rest.strip() else rest)
    return shown
