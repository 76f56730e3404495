"""The script's small language: sums, ratios and comparisons over plain words.

    figure      := quantity [("," | "") how]
    how         := "as a ratio" | "as a share" | "as" LIKENESS | "in" (UNIT | LIKENESS)
                   | NUMBER "times" | "per 1000 kcal" | "per 100 g protein" | "per kg" | "by stage"
    claim       := ['"' WORDS '"' ":"] quantity ["is"] relation quantity
    relation    := "lower than" | "less than" | "under" | "<" | "more than" | "over" | ">" | …
                   | "at least" | "at most" | "about" | "between" … "and" … | "most of"
    quantity    := term {("plus" | "minus" | "+" | "−") term}
    term        := factor {("/" | "against" | "compared with") factor}
    factor      := {NUMBER ("×" | "times") | "half" ["of"] | "a quarter of" | "twice" | "30 % of"}
                   ("(" quantity ")" | PHRASE)

`phrases` says what a PHRASE may be. Everything is read once, left to right, inside a budget.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import Final, Literal

from counterproof.claims.numbers_in_words import number_at
from counterproof.claims.operations import (
    Asked,
    Figured,
    Liken,
    Literally,
    Per,
    Quantity,
    Ratio,
    Scaled,
    Sum,
)
from counterproof.claims.phrases import EXAMPLES, phrase
from counterproof.claims.relations import BETWEEN, LIKENESSES, PART_LESS, compared
from counterproof.claims.saying import WORDS
from counterproof.errors import NotUnderstood

MOST_CHARACTERS: Final = 400
"""Longest text inside one pair of brackets: no sentence that is spoken is longer. [1]"""

MOST_OPERATIONS: Final = 40
"""Most operations inside one pair of brackets. [1]"""

MOST_DEPTH: Final = 8
"""Deepest nesting of parentheses. [1]"""

MOST_FACTOR: Final = 1e9
"""Largest plain number something may be multiplied by. [1]"""


@dataclass
class _Budget:
    """Operations and nesting used so far."""

    operations: int = 0

    def spend(self) -> None:
        self.operations += 1
        if self.operations > MOST_OPERATIONS:
            raise NotUnderstood(
                f"More than {MOST_OPERATIONS} operations stand in one pair of brackets.",
                remedy="Divide it into several figures.",
            )


def plain(text: str) -> str:
    """Text as the grammar reads it: one case, single blanks, plain signs.

    Parameters
    ----------
    text : str
        What stands inside the brackets.

    Returns
    -------
    str
        In lower case.

    Raises
    ------
    NotUnderstood
        If it is too long, or holds letters of another alphabet.
    """
    if len(text) > MOST_CHARACTERS:
        raise NotUnderstood(
            f"{len(text)} characters stand in one pair of brackets; {MOST_CHARACTERS} are read.",
            remedy="Divide it into several figures.",
        )
    folded = unicodedata.normalize("NFC", text).casefold()
    folded = folded.translate({0x2019: "'", 0x2018: "'", 0x201C: '"', 0x201D: '"', 0x2212: "-"})
    folded = " ".join(folded.replace("co₂", "co2").split())
    odd = next((c for c in folded if c.isalpha() and "LATIN" not in unicodedata.name(c, "")), None)
    if odd is not None:
        raise NotUnderstood(
            f"“{odd}” is a letter of another alphabet ({unicodedata.name(odd, 'no name').lower()}).",
            remedy="Type the word anew; it may only look like the letter you mean.",
        )
    return folded


def figured(text: str) -> Figured:  # noqa: PLR0911 - one return for each way of showing
    """What `[= …]` asks for.

    Parameters
    ----------
    text : str
        What stands behind the sign.

    Returns
    -------
    Figured
        The operations, and the unit wanted.

    Raises
    ------
    NotUnderstood
        If it cannot be read, or is beyond the budget.
    """
    words, how = _presented(plain(text))
    budget = _Budget()
    quantity = _sum(words, budget, 0)
    if how is None:
        return Figured(quantity)
    kind, value = how
    if kind == "unit":
        return Figured(quantity, unit=value)
    if kind == "liken":
        return Figured(Liken(quantity, value))
    if kind == "times":
        return Figured(Scaled(_within(float(value)), quantity))
    if kind == "per":
        per: dict[str, Literal["1000 kcal", "100 g protein", "kg"]] = {
            "1000 kcal": "1000 kcal", "100 g protein": "100 g protein", "kg": "kg",
        }  # fmt: skip
        return Figured(Per(quantity, per[value]))
    if kind == "stage":
        return Figured(quantity, by_stage=True)
    if isinstance(quantity, Ratio):
        return Figured(Ratio(quantity.left, quantity.right, share=value == "share"))
    raise NotUnderstood(
        f"A {value} needs two things.", remedy="Say “beef against this recipe, as a ratio”."
    )


_HOW: Final = (
    (re.compile(r",? as (?:a |an )?(?:ratio|multiple)$"), "ratio", "ratio"),
    (re.compile(r",? as (?:a |an )?(?:share|percentage|part|per cent)$"), "ratio", "share"),
    (re.compile(r",? by stage$"), "stage", ""),
    (re.compile(r",? per 1,?000 (?:kcal|calories)$"), "per", "1000 kcal"),
    (re.compile(r",? per 100 ?g (?:of )?protein$"), "per", "100 g protein"),
    (re.compile(r",? per (?:kg|kilo|kilogram)$"), "per", "kg"),
    (re.compile(r",? (?:a|every|per|once a) week for a year$"), "times", "52"),
    (re.compile(r",? (?:every|each) day for a year$"), "times", "365"),
)


def _presented(words: str) -> tuple[str, tuple[str, str] | None]:
    """Split what is asked for from how it is to be shown."""
    for pattern, kind, value in _HOW:
        match = pattern.search(words)
        if match is not None:
            return words[: match.start()], (kind, value)
    # Greedy on purpose: in "the gas in one glass, in balloons" the last "in" decides.
    shown = re.match(r"^(?P<words>.*),? (?:in|as) (?P<what>[a-z][a-z' ]*)$", words)
    if shown is not None:
        what, rest = shown["what"], shown["words"].rstrip(" ,")
        if what in LIKENESSES:
            return rest, ("liken", LIKENESSES[what])
        if what in WORDS:
            return rest, ("unit", what)
    times = re.search(r", (?P<count>[^,]+) times$", words)
    if times is not None:
        read = number_at(times["count"])
        if read is not None and read[1] == len(times["count"]):
            return words[: times.start()], ("times", repr(read[0]))
    return words, None


def asked(text: str) -> Asked:
    """What `[? …]` asks.

    Parameters
    ----------
    text : str
        What stands behind the sign.

    Returns
    -------
    Asked
        Two quantities and their relation.

    Raises
    ------
    NotUnderstood
        If no comparison stands there, or it cannot be read.
    """
    words = plain(text)
    quoted = re.match(r'"(?P<said>[^"]*)" ?:? ?(?P<rest>.*)$', words)
    said = ""
    if quoted is not None:
        start = re.search(r'["“](.*?)["”]', text)
        said, words = (start[1] if start else quoted["said"]), quoted["rest"]
    words = words.rstrip(" .?!")
    budget = _Budget()
    between = BETWEEN.match(words)
    if between is not None:
        low, high = (_multiple(between[name], budget) for name in ("low", "high"))
        right = _sum(between["right"], budget, 0)
        return Asked(
            _sum(between["left"], budget, 0), ">=", _times(low, right), _times(high, right), said
        )
    by_part = PART_LESS.match(words)
    if by_part is not None:
        read = _fraction(by_part["part"])
        if read is not None:
            less = by_part["how"] in {"less", "lower", "smaller"}
            right = Scaled(1 - read if less else 1 + read, _sum(by_part["right"], budget, 0))
            return Asked(
                _sum(by_part["left"], budget, 0), "<=" if less else ">=", right, None, said
            )
    left, relation, right_words, factor = compared(words)
    right = _sum(right_words, budget, 0)
    if factor is not None:
        right = Scaled(factor, right)
    return Asked(_sum(left, budget, 0), relation, right, None, said)


def _multiple(words: str, budget: _Budget) -> float:
    budget.spend()
    read = number_at(words)
    if read is None:
        raise NotUnderstood(
            f"“{words}” is no number of times.", remedy="Say “between three and five times …”."
        )
    return _within(read[0])


def _times(factor: float, of: Quantity) -> Quantity:
    return Scaled(factor, of)


def _fraction(words: str) -> float | None:
    """“a third”, “30 %”: by how much less."""
    read = number_at(words)
    if read is None:
        return None
    rest = words[read[1] :].strip()
    if rest in {"%", "per cent", "percent"}:
        return read[0] / 100
    return read[0] if not rest and 0 < read[0] < 1 else None


def _sum(words: str, budget: _Budget, depth: int) -> Quantity:
    pieces = _outside(words, re.compile(r" (?:plus|minus|\+|-|–) |(?<=\)) ?[+-] ?"))
    found = _term(pieces[0][1], budget, depth)
    for sign, piece in pieces[1:]:
        budget.spend()
        found = Sum(found, _term(piece, budget, depth), 1 if sign.strip() in {"plus", "+"} else -1)
    return found


def _term(words: str, budget: _Budget, depth: int) -> Quantity:
    pieces = _outside(
        words, re.compile(r" ?/ ?(?!\d)| (?:against|compared (?:with|to)|over|relative to) ")
    )
    found = _factor(pieces[0][1], budget, depth)
    for _, piece in pieces[1:]:
        budget.spend()
        found = Ratio(found, _factor(piece, budget, depth))
    return found


def _factor(words: str, budget: _Budget, depth: int) -> Quantity:
    budget.spend()
    if depth > MOST_DEPTH:
        raise NotUnderstood(
            f"Parentheses stand more than {MOST_DEPTH} deep.", remedy="Say it more simply."
        )
    words = words.strip()
    if words.startswith("("):
        if not words.endswith(")"):
            raise NotUnderstood("A parenthesis is not closed.", remedy="Close it with “)”.")
        return _sum(words[1:-1], budget, depth + 1)
    if words.startswith("twice "):
        return Scaled(2.0, _factor(words[6:], budget, depth + 1))
    read = number_at(words)
    if read is None:
        return phrase(words)
    multiplied = _multiplied(words, read, budget, depth)
    if multiplied is not None:
        return multiplied
    found = phrase(words)
    if isinstance(found, Literally):
        _within(found.value)
    return found


_MULTIPLE: Final = re.compile(
    r"^(?: ?(?:×|\*|x(?= ))| times| times as much as| fold) ?(?:as much as )?"
)
_PER_CENT: Final = re.compile(r"^ ?(?:%|per cent|percent) of ")
_PART_WORDS: Final = re.compile(r"^(?: of| as much as)? (?=\S)")


def _multiplied(
    words: str, read: tuple[float, int], budget: _Budget, depth: int
) -> Quantity | None:
    """A number and what it multiplies: "30 % of …", "4 × …", "a quarter of …"."""
    value, end = read
    rest = words[end:]
    per_cent = _PER_CENT.match(rest)
    times = _MULTIPLE.match(rest)
    part = _PART_WORDS.match(rest)
    if per_cent is not None:
        factor, inner = value / 100, rest[per_cent.end() :]
    elif times is not None and rest[times.end() :].strip():
        factor, inner = value, rest[times.end() :]
    elif 0 < value < 1 and part is not None and (part[0] != " " or words[0].isalpha()):
        factor, inner = value, rest[part.end() :]
    else:
        return None
    return Scaled(_within(factor), _factor(inner, budget, depth + 1))


def _within(factor: float) -> float:
    if abs(factor) > MOST_FACTOR:
        raise NotUnderstood(
            f"{factor:.3g} is larger than any number a script needs.",
            remedy="Give a smaller number.",
        )
    return factor


def _outside(words: str, between: re.Pattern[str]) -> list[tuple[str, str]]:
    """Pieces of a text between separators that stand in no parentheses, each with its separator."""
    depth = 0
    deep: list[int] = []
    for sign in words:
        depth += (sign == "(") - (sign == ")")
        deep.append(depth)
    pieces: list[tuple[str, str]] = []
    last, sign_before = 0, ""
    for match in between.finditer(words):
        if deep[match.start()] == 0 and match.start() > last:
            pieces.append((sign_before, words[last : match.start()]))
            last, sign_before = match.end(), match[0]
    pieces.append((sign_before, words[last:]))
    return pieces


def nearest_phrases(words: str) -> tuple[str, ...]:
    """Return example phrases that are nearest to words that were not understood.

    Parameters
    ----------
    words : str
        What was written.

    Returns
    -------
    tuple of str
        Up to three.
    """
    from rapidfuzz import fuzz, process  # noqa: PLC0415 - only where something went wrong

    found = process.extract(words, EXAMPLES, scorer=fuzz.token_set_ratio, limit=3)
    return tuple(example for example, score, _ in found if score > 40)
