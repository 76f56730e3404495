"""What follows the name: brackets and clauses, each an amount, a choice, a remark or a step."""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from counterproof.reading.heads import head
from counterproof.reading.unfinished import describes, noun
from counterproof.reading.words import (
    BREAK,
    MANNER,
    NUMBER_WORDS,
    PREPARATION,
    SIZES,
    WORD_CLASSES,
)
from counterproof.reading.written_amounts import ABOUT, amounts, bracketed
from counterproof.units import MEASURES, unit_kg

if TYPE_CHECKING:
    from counterproof.reading.unfinished import Unfinished

_WORK: Final = frozenset({PREPARATION, MANNER})
_CLAUSES: Final = re.compile(r"[;,](?!\d)")
_MEANING: Final = re.compile(r"meaning:?\s+", re.IGNORECASE)
_WEIGHED: Final = re.compile(
    r"weighed:?\s+(?:at\s+|as\s+)?(?P<amount>[^,]+?)(?:,?\s+(?:give or take|±)\s+(?P<by>[^,]+))?",
    re.IGNORECASE,
)
_REMARK: Final = re.compile(
    r"(?:plus|such as|preferably|ideally|if|about|approx\w*|around|see|note|optional\w*|you|i|we|like"
    r"|eg|or|from|available|use|this|these|per|each|at least|including|depending|for|to|recipes?"
    r"|store|enough|any|not|the|with|weighing|measuring|total|minimum|by|as|more|extra|but|also"
    r"|home\w*|best|good|it|which|that)\b|\+|(?:and|&) \d|i\.e|e\.g"
)
_SETTLES: Final = frozenset("mw")
_O: Final = frozenset("oO")
_ALTERNATIVE: Final = re.compile(r"or\s+(?:(?:use|substitute|else|even)\s+)?", re.IGNORECASE)
NO_FOOD: Final = re.compile(
    r"(?:to taste|more|less|so\b|as needed|as desired|until|similar|equivalent|a mix|mixture"
    r"|a combination|if\b|to\b|cut\b|(?:\w+ly )?(?:chopped|sliced|minced|grated|crushed|torn|diced)"
    r"(?:$| (?:and|or|in|into|by|with|on)\b)|\d+[\s-]?(?:inch|cm|in\b))",
    re.IGNORECASE,
)
"""What may stand after "or" without being a food."""
_ASIDE: Final = re.compile(r"^plus\b|\bor (?:about |an? )?\d")
_JUICED: Final = {"juice": "juice of", "juiced": "juice of", "zest": "zest of", "zested": "zest of"}
_EXAMPLES: Final = ("such as", "like", "e.g", "eg ", "preferably", "ideally", "including")
_WITH_JUICE: Final = frozenset(
    "and & only of grated finely freshly the strained squeezed pared rind its".split()
)
_AMOUNT_FIRST: Final = frozenset({"about", "each ", "appro", "(abou", "weigh"})
_NUMBERS: Final = frozenset(word.partition(" ")[0] for word in NUMBER_WORDS)
_LONGEST_BRACKET: Final = 200  # characters; a longer one tells a story


def read_bracket(piece: str, line: Unfinished, *, in_name: bool) -> None:
    """Read a bracket: a settlement, an amount, or a remark.

    Parameters
    ----------
    piece : str
        With its brackets.
    line : Unfinished
        The line it stands in.
    in_name : bool
        Whether it stands beside the name; lengths elsewhere say how to cut.
    """
    inside = piece.strip("()").strip()
    if not inside:
        return
    lower = inside.lower()
    if lower[0] in _SETTLES and _read_settled(inside, piece, line):
        return
    if not line.aside and len(inside) < _LONGEST_BRACKET:
        for clause in _CLAUSES.split(inside) if "," in inside or ";" in inside else [inside]:
            first = not line.head.quantities
            if _read_amount(clause.strip(), line, in_name=in_name, bare=first):
                line.note("amount", piece)
                if clause.strip() != inside:
                    line.comment.append(inside)
                return
    size = SIZES.get(lower)
    if size and in_name and not line.head.size:
        line.head.size = size
        line.note("size", inside)
    elif not _read_choice(inside, line):
        _flag_juice(lower, line)
        line.remark(inside)


def _read_settled(inside: str, piece: str, line: Unfinished) -> bool:
    """Read "(meaning swede)" and "(weighed 28 g)": what the cook settled or measured."""
    meaning = _MEANING.match(inside)
    if meaning is not None:
        line.meaning = inside[meaning.end() :]
        line.note("meaning", piece)
        return True
    if _read_weighed(inside, line):
        line.note("weighed", piece)
        return True
    return False


def _read_weighed(inside: str, line: Unfinished) -> bool:
    """Read "weighed 28 g, give or take 1 g": what a scale said, in place of any other amount."""
    found = _WEIGHED.fullmatch(inside)
    if found is None:
        return False
    row = bracketed(found["amount"], line.system)
    by = bracketed(found["by"], line.system) if found["by"] else None
    if row is None or MEASURES[row[0][0].measure] != "mass" or (found["by"] and by is None):
        return False
    said = row[0][0].quantity
    if by is not None:
        if MEASURES[by[0][0].measure] != "mass":
            return False
        half = by[0][0].quantity.high * unit_kg(by[0][0].measure) / unit_kg(said.measure)
        half = min(half, said.low)  # the middle stays what was weighed
        said = replace(said, low=said.low - half, high=said.high + half)
    line.weighed = said
    line.flags.add("weighed")
    return True


def _flag_juice(lower: str, line: Unfinished) -> None:
    """Flag "juice only", "zested and juiced"; not "with their juice"."""
    if "juice" not in lower and "zest" not in lower:
        return
    words = lower.split()
    if all(word in _JUICED or word in _WITH_JUICE for word in words):
        line.flags.update(_JUICED[word] for word in words if word in _JUICED)


def _read_amount(clause: str, line: Unfinished, *, in_name: bool, bare: bool = False) -> bool:
    found = bracketed(clause, line.system)
    if found is None:
        return in_name and _read_count_again(clause, line)
    row, word = found
    if word in {"drained", "drained weight"} or clause.lower().startswith("drained weight"):
        line.flags.add("drained weight")
        if row[0].named and MEASURES[row[0].measure] == "mass":
            line.drained = row[0].quantity
        return False
    if not row[-1].named:
        if not (row[-1].size if line.head.quantities else bare):
            return False
        line.head.size = line.head.size or row[-1].size
    elif MEASURES[row[0].measure] == "length" and not in_name:
        return False
    if word.endswith(" meat"):
        line.flags.add("cooked meat")
    elif word.endswith(" weight") and word not in {"net weight", "in weight"}:
        line.flags.add(word)
    line.count(row, word)
    return True


def _read_count_again(clause: str, line: Unfinished) -> bool:
    """Read "2 cups sliced onions (about 3 medium onions)"."""
    if not line.name or not line.head.quantities:
        return False
    about = ABOUT.match(clause)
    row = amounts(clause, about.end() if about else 0, line.system)
    if not row or row[-1].named:
        return False
    again = clause[row[-1].end :].strip().lower()
    if not again or again.rstrip("s") != line.name[-1].rpartition(" ")[2].lower().rstrip("s"):
        return False
    line.head.size = line.head.size or row[-1].size
    line.count(row, "")
    return True


def _read_worded(piece: str, line: Unfinished) -> bool:
    """Read an amount in words after the name: "saffron: a pinch", "salt, half a teaspoon"."""
    if piece.partition(" ")[0].lower() not in _NUMBERS:
        return False
    row = amounts(piece, 0, line.system)
    if not row or not row[-1].named or row[-1].end != len(piece):
        return False
    line.count(row, "")
    line.note("amount", piece)
    return True


def read_clause(piece: str, line: Unfinished) -> None:
    """Read what stands between two commas after the name.

    Parameters
    ----------
    piece : str
        The clause.
    line : Unfinished
        The line it stands in.
    """
    lower = piece.lower()
    if not line.aside and ("or " in lower or lower.startswith("plus")):
        line.aside = _ASIDE.search(lower) is not None
    if lower.startswith("divided"):
        line.flags.add("divided")
    if begins_with_work(lower):
        line.naming = False
        _flag_juice(lower, line)
        _prepare(piece, lower, line)
        return
    if _may_be_amount(lower):
        beside = not line.head.quantities
        if not line.aside and _read_amount(piece, line, in_name=beside, bare=beside):
            line.note("amount", piece)
            return
    if not line.head.quantities and _read_worded(piece, line):
        return
    if line.naming and not any(map(WORD_CLASSES.get, lower.removeprefix("or ").split())):
        line.naming = not lower.startswith("or ")
        line.comment.append(piece)
        line.note("comment", piece)
        return
    line.naming = lower.startswith(_EXAMPLES)
    if _read_choice(piece, line):
        return
    _flag_juice(lower, line)
    if _REMARK.match(lower):
        line.remark(piece)
        return
    _prepare(piece, lower, line)


def begins_with_work(lower: str) -> bool:
    """Return whether a clause is work from its first word: "finely chopped".

    Parameters
    ----------
    lower : str
        A clause in lower case.

    Returns
    -------
    bool
        False for "skin removed", which is work too, but could begin a list of names, and for
        "drained weight 240 g".
    """
    first, _, rest = lower.partition(" ")
    return WORD_CLASSES.get(first) in _WORK and not rest.startswith("weight")


def may_be_work(lower: str) -> bool:
    """Return whether a clause is work unless it goes on with a list: "skin removed".

    Parameters
    ----------
    lower : str
        A clause in lower case.

    Returns
    -------
    bool
        False for an amount, a choice and a remark.
    """
    return not _may_be_amount(lower) and _REMARK.match(lower) is None


def _may_be_amount(lower: str) -> bool:
    return lower[:1].isdigit() or lower[:5] in _AMOUNT_FIRST or lower.startswith("drained weight")


def _prepare(piece: str, lower: str, line: Unfinished) -> None:
    if "to taste" in lower:
        line.flags.add("to taste")
    line.prepare(piece)


def _read_choice(piece: str, line: Unfinished) -> bool:
    """Read "or sea salt", "or ½ teaspoon dried"."""
    choice = _ALTERNATIVE.match(piece) if piece[:1] in _O else None
    if choice is None:
        return False
    other = piece[choice.end() :]
    food, comma, rest = other[head(other, line.system).end :].strip().partition(",")
    food = food.removeprefix("of ").strip()
    if not food or NO_FOOD.match(food):
        return False
    words = food.split()
    breaks = (at for at, word in enumerate(words) if WORD_CLASSES.get(word.lower()) == BREAK)
    stop = next(breaks, len(words))
    if not stop:
        return False
    food = " ".join(words[:stop])
    if stop < len(words) or comma:
        line.comment.append(" ".join((*words[stop:], rest)).strip())
    if "to taste" in food.lower():
        line.flags.add("to taste")
    if line.name and describes(food.split()):
        food = " ".join((food, *noun(line.name[-1].split())))
    line.alternatives.append(food)
    line.note("alternative", piece)
    return True
