"""Amounts at a place in the line: numbers with their units, equivalents and sums.

An amount is a number or range, words that say how large or how full, and a unit. Amounts in
a row are equivalents ("250 g/9 oz", "1 cup = 250 ml") or sums ("1 lb 8 oz", "1 cup plus 2
tbsp"). What a line may begin with besides is read in `heads`.
"""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from dataclasses import dataclass
from string import ascii_letters
from typing import Final

from counterproof.reading.any_case import any_case
from counterproof.reading.model import Quantity
from counterproof.reading.numbers import NUMBER, NUMBER_BEGINNINGS, figure_value, range_value
from counterproof.reading.unit_words import PLAIN_UNITS, unit_at
from counterproof.units import MEASURES, System, unit_kg, unit_ml

ABOUT: Final = re.compile(
    r"(?:(?i:an?)\s+)?"
    + any_case(
        *r"about approx(?:\.|imately)? appr\. around roughly circa ca?\. almost nearly generous".split(),
        *"scant good full heaped heaping rounded level additional another minimum".split(),
        *"preferably the between from weighing".split(),
        *(
            "at least",
            "up to",
            "just over",
            "just under",
            "slightly heaped",
            "a total of",
            "total of",
        ),
        *("drained weight:?", "net weight:?", "each(?: weighing| about)?"),
    )
    + r"\s+|~\s*"
)
"""Words that may stand before a number and change nothing of it, or say how sure it is."""
_ARTICLE: Final = re.compile(r"\s+an?(?=\s)", re.IGNORECASE)
_OF_A: Final = re.compile(r"\s+of\s+an?(?=\s)", re.IGNORECASE)
_OR_TWO: Final = re.compile(r"\s+or\s+two\b", re.IGNORECASE)
_DOZEN: Final = re.compile(r"\s+dozen\b", re.IGNORECASE)
_NEXT_EQUAL: Final = re.compile(
    r"\s*/+\s*|\s*-\s*(?=\d)|\s+(?=\d)|\s*[;=]\s*|\s*,\s*(?=\d)|\s+or\s+(?=\d)"
)
_NEXT_SUM: Final = re.compile(
    r"\s*,?\s*(?:plus|\+|and|&)\s+(?:an?\s+additional\s+)?", re.IGNORECASE
)
_TO: Final = re.compile(r"\s*(?:-|to|or)\s*(?=[\d.])", re.IGNORECASE)
_TRAILING: Final = re.compile(
    r"\s*,?\s*(each|in total|total|per person|altogether|or so|approx(?:imately|\.)?|in weight"
    r"|(?:drained|net|peeled|shelled|podded|cleaned|trimmed|cooked) weight|weight|drained"
    r"|(?:cooked|picked)(?: chicken| turkey| crab)? meat)\b\.?",
    re.IGNORECASE,
)
# Most numbers are one figure before a word: "200 g flour", "1½ cups", "3 large onions".
_PLAIN: Final = re.compile(
    r"((?:\d{1,4} )?\d[/⁄][2-9](?!\d)|\d{1,4}(?:\.\d{1,3})?) ?((?:fl )?[A-Za-z]+(?![\w-])\.?)"
)
_OF_NUMBERS: Final = frozenset({"to", "or", "and", "of", "a", "an", "dozen", "dozen."})
_OF_RANGES: Final = frozenset({" -", " t", " T", " o", " O"})
NO_MORE: Final = frozenset(
    {"", " (", *(f" {letter}" for letter in set(ascii_letters) - set("aAoOpP"))}
)
"""What stands after an amount to which nothing is added."""
_NO_EQUALS: Final = frozenset({"count", "length"})
_SUMMED: Final = frozenset({("lb", "oz"), ("pint", "floz"), ("kg", "g")})


@dataclass(slots=True)
class Amount:
    """One number with its unit: `named` is False for a bare count."""

    low: float
    high: float
    measure: str
    named: bool
    end: int
    size: str = ""
    flags: tuple[str, ...] = ()

    @property
    def quantity(self) -> Quantity:
        """The amount without its place in the line."""
        return Quantity(self.low, self.high, self.measure)


def amount_at(line: str, at: int) -> Amount | None:
    """Return the amount that begins at a place, or None.

    Parameters
    ----------
    line : str
        A tidied line.
    at : int
        Where to look.

    Returns
    -------
    Amount or None
        Number, unit and where they end.
    """
    plain = _PLAIN.match(line, at)
    if plain is None:
        return _written_out(line, at)
    figure, word = plain.groups()
    measure = PLAIN_UNITS.get(word)
    if measure is None and word.lower() in _OF_NUMBERS:
        return _written_out(line, at)
    number = high = float(figure) if figure.isdigit() else figure_value(figure)[0]
    if measure is not None:
        end = plain.end()
        if line[end : end + 2] in _OF_RANGES:
            high, end = _range_end(line, end, high, measure)
        return Amount(number, high, measure, named=True, end=end)
    unit = unit_at(line, plain.end(1), number)
    end = unit.end
    if unit.measure is None:
        return Amount(number, number, "piece", named=False, end=end, size=unit.size)
    if line[end : end + 2] in _OF_RANGES:
        high, end = _range_end(line, end, high, unit.measure)
    return Amount(number, high, unit.measure, named=True, end=end, size=unit.size, flags=unit.fills)


def _written_out(line: str, at: int) -> Amount | None:
    """Read an amount with a number in words, a range, a dozen, half a thing."""
    match = NUMBER.match(line, at)
    if match is None:
        return None
    low, high, lost = range_value(match)
    end = match.end()
    article = match.group("word")
    if low < 1 and article is None and (half_a := _ARTICLE.match(line, end)):
        end = half_a.end()  # "½ a lemon"
    dozen = _DOZEN.match(line, end) if line[end : end + 2] in {" d", " D"} else None
    if dozen is not None:
        low, high, end = 12 * low, 12 * high, dozen.end()
    flags: tuple[str, ...] = ("space supplied",) if lost else ()
    unit = unit_at(line, end, high)
    if unit.measure is None and low < 1 and (of_a := _OF_A.match(line, end)):
        whole = unit_at(line, of_a.end(), high)  # "a third of a cup"
        unit = whole if whole.measure is not None else unit
    if unit.measure is None:
        if article is not None and line[end : end + 1] == " " and line[end + 1 : end + 2].isdigit():
            inner = amount_at(line, end + 1)  # "a 200 g pack": the article counts nothing
            if inner is not None and inner.named and article.lower() in {"a", "an"}:
                return inner
        return Amount(low, high, "piece", named=False, end=unit.end, size=unit.size, flags=flags)
    end = unit.end
    if match.group("to") is None:
        high, end = _range_end(line, end, high, unit.measure)
        if article is not None and (or_two := _OR_TWO.match(line, end)):
            high, end = 2.0, or_two.end()  # "a rasher or two"
    return Amount(
        low, high, unit.measure, named=True, end=end, size=unit.size, flags=(*flags, *unit.fills)
    )


def _range_end(line: str, at: int, high: float, measure: str) -> tuple[float, int]:
    """Return the most, and where it ends, of a range with a unit on both sides."""
    to = _TO.match(line, at)
    other = NUMBER.match(line, to.end()) if to is not None else None
    if to is None or other is None or other.group("to") is not None:
        return high, at
    most, _, _ = range_value(other)
    unit = unit_at(line, other.end(), most)
    second = unit.measure
    if second is not None and MEASURES[second] == MEASURES[measure] == "mass":
        most *= unit_kg(second) / unit_kg(measure)
        second = measure if to.group().strip() == "to" else second
    return (most, unit.end) if second == measure and most > high else (high, at)


def _ratio(first: str, second: str, system: System) -> float | None:
    """Return how many of `first` one `second` is, where both are weights or both volumes."""
    kind = MEASURES[first]
    if kind != MEASURES[second] or kind not in {"mass", "volume"}:
        return 1.0 if first == second else None
    if first == second:
        return 1.0
    if kind == "mass":
        return unit_kg(second) / unit_kg(first)
    return unit_ml(second, system) / unit_ml(first, system)


def joined(line: str, first: Amount, system: System) -> Amount:
    """Return an amount with what a sum adds to it: "1 lb 8 oz", "1 cup plus 2 tbsp".

    Parameters
    ----------
    line : str
        A tidied line.
    first : Amount
        The first summand.
    system : System
        Whose cups and spoons.

    Returns
    -------
    Amount
        In the unit of the first.
    """
    total = first
    while total.named and line[total.end : total.end + 1] != "/":
        if line[total.end : total.end + 2] in NO_MORE:
            break
        plus = _NEXT_SUM.match(line, total.end)
        place = plus.end() if plus else total.end
        if plus is None:
            while line[place : place + 1] == " ":
                place += 1
            if not line[place : place + 1].isdigit():
                return total
        more = amount_at(line, place)
        if more is None or not more.named:
            return total
        if plus is None and (total.measure, more.measure) not in _SUMMED:
            return total
        ratio = _ratio(total.measure, more.measure, system)
        if ratio is None:
            return total
        total = Amount(
            total.low + more.low * ratio,
            total.high + more.high * ratio,
            total.measure,
            named=True,
            end=more.end,
            size=total.size,
            flags=(*total.flags, *more.flags),
        )
    return total


def amounts(line: str, at: int, system: System) -> list[Amount]:
    """Return the row of equivalent amounts that begins at a place.

    Parameters
    ----------
    line : str
        A tidied line.
    at : int
        Where to look.
    system : System
        Whose cups and spoons, for sums of different volumes.

    Returns
    -------
    list of Amount
        In the order written; empty if no amount begins there.
    """
    begins = line[at : at + 2]
    if begins.isalpha() and begins.lower() not in NUMBER_BEGINNINGS:
        return []
    first = amount_at(line, at)
    if first is None:
        return []
    if not first.named or line[first.end : first.end + 2] in NO_MORE:
        return [first]
    last = joined(line, first, system)
    row = [last]
    while last.named and line[last.end : last.end + 2] not in NO_MORE:
        equal = _NEXT_EQUAL.match(line, last.end)
        if equal is None:
            break
        slashed = "/" in equal[0]
        place = equal.end()
        if not line[place : place + 1].isdigit() and (about := ABOUT.match(line, place)):
            place = about.end()
        more = amount_at(line, place)
        if more is None or not more.named:
            break
        if not slashed and MEASURES[more.measure] in _NO_EQUALS:
            break
        last = joined(line, more, system)
        row.append(last)
    return row


def bracketed(inside: str, system: System) -> tuple[list[Amount], str] | None:
    """Return the amounts of a bracket that holds nothing else, and the word that ends it.

    Parameters
    ----------
    inside : str
        Text between brackets, or between two commas.
    system : System
        Whose cups and spoons.

    Returns
    -------
    tuple or None
        Amounts, and "each", "total" or such, or "".
    """
    place = 0
    word = ""
    while not inside[place : place + 1].isdigit() and (about := ABOUT.match(inside, place)):
        said = about.group().lower()
        if said.startswith(("each", "drained")):
            word = "each" if said[0] == "e" else "drained"
        place = about.end()
    if inside[place : place + 2].lower() in {"a ", "an"}:
        return None
    row = amounts(inside, place, system)
    if not row:
        return None
    end = row[-1].end
    while end < len(inside):
        if inside[end : end + 2] == " (" and (
            nested := bracketed(inside[end + 2 :].rstrip(")"), system)
        ):
            row += nested[0]
            close = inside.find(")", end)
            end = close + 1 if close >= 0 else len(inside)
            continue
        tail = _TRAILING.match(inside, end)
        if tail is None:
            break
        word = tail.group(1).lower()
        end = tail.end()
    if inside[end:].strip(" ,.;"):
        return None
    return row, word
