"""The commonest kind of line, told by its words alone: an amount, a name, what to do with it.

"200 g flour", "50 ml/2 fl oz strong coffee", "3 large onions, finely chopped". The amount is read
as in every line. A line is plain if no word after it says more than a name does, and if every
clause begins with a word of work. The grammar (`lines`) comes to the same parts of such a line
step by step, and reads all other lines; a test holds the two together.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from counterproof.reading.clauses import begins_with_work, may_be_work
from counterproof.reading.model import Part, Quantity, Split
from counterproof.reading.unit_words import MAY_BEGIN
from counterproof.reading.words import FILLS, NEVER_ALONE, NO_NAME, WORD_CLASSES
from counterproof.units import CONTAINERS, MEASURES, UNIT_WORDS

if TYPE_CHECKING:
    from counterproof.reading.written_amounts import Amount

_SAYS_MORE: Final = frozenset(
    {*WORD_CLASSES, "of", "each", "either", "in", "with", "measuring", "x", "-"}
)
_LETTERS: Final = "A-Za-zÀ-ÿ"
_NAME: Final = re.compile(rf"[{_LETTERS}](?:[{_LETTERS}' -]*[{_LETTERS}'])?")
_JOINT: Final = re.compile(r"['-]")
_COUNTED_BY: Final = UNIT_WORDS | {"juice", "zest"}
_MARKS: Final = frozenset("():;")
_ENDS: Final = frozenset({"", "l", "g"})
"""An empty clause, or perhaps a metric amount at the end of the line."""


def plain_line(text: str, written: str, row: list[Amount]) -> Split | None:
    """Return the parts of a line of an amount, a name and work; None if the line says more.

    Parameters
    ----------
    text : str
        The line as written.
    written : str
        The same, tidied.
    row : list of Amount
        The amounts it begins with, at least one.

    Returns
    -------
    Split or None
        What the grammar comes to, or None where it must be asked.
    """
    first, end = row[0], row[-1].end
    if written[end : end + 1] != " ":
        return None
    name, comma, work = written[end + 1 :].partition(", ")
    if _NAME.fullmatch(name) is None:
        return None
    words = name.lower().split()
    if (
        not _SAYS_MORE.isdisjoint(words)
        or name.lower() in NO_NAME
        or _begins_before_name(words)
        or _counts_more(row, words[-1])
        or (comma and (words[-1] in NEVER_ALONE or not _only_work(work)))
    ):
        return None
    parts = [Part("amount", written[:end]), Part("name", name)]
    if comma:
        parts += [Part("preparation", clause) for clause in work.split(", ")]
    return Split(
        text,
        tuple([Quantity(amount.low, amount.high, amount.measure) for amount in row]),
        1.0,
        "",
        first.size,
        name,
        (),
        work,
        "",
        "",
        frozenset([flag for amount in row for flag in amount.flags]),
        "",
        tuple(parts),
    )


def _begins_before_name(words: list[str]) -> bool:
    """Return whether a size, a fill or a unit may stand before the name: "small tin of"."""
    first = words[0]
    if not first.isalpha():
        return "-size" in first or _JOINT.split(first, 1)[0] in MAY_BEGIN or first in MAY_BEGIN
    if first in FILLS and len(words) > 1:
        return words[1] in MAY_BEGIN or not words[1].isalpha()
    return first in MAY_BEGIN


def _counts_more(row: list[Amount], last: str) -> bool:
    """Return whether amounts mean more than they say: "3 garlic cloves", a pack, a length."""
    measure = row[0].measure
    if measure == "piece":
        return last in _COUNTED_BY
    return MEASURES[measure] == "length" or (len(row) > 1 and measure in CONTAINERS)


def _only_work(work: str) -> bool:
    """Return whether every clause says what to do with the food and asks for nothing besides."""
    lower = work.lower()
    if (
        "juice" in lower
        or "zest" in lower
        or "to taste" in lower
        or "divided" in lower
        or " - " in lower
        or " ," in lower
        or lower[-1:] in _ENDS
        or not _MARKS.isdisjoint(lower)
    ):
        return False
    lists = "or " in lower or "and " in lower
    for clause in lower.split(", "):
        if "," in clause or not (begins_with_work(clause) or (may_be_work(clause) and not lists)):
            return False
    return True
