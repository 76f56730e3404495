"""Where the name begins and ends, and which foods it offers: "red or green onions, chopped"."""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from counterproof.reading.clauses import NO_FOOD, read_clause
from counterproof.reading.heads import head
from counterproof.reading.unfinished import describes, noun
from counterproof.reading.words import (
    AND,
    BOUGHT_SO,
    BREAK,
    JOINING_PARTICIPLES,
    MANNER,
    NEVER_ALONE,
    OR,
    PREPARATION,
    SHARED_HEADS,
    SIZES,
    WORD_CLASSES,
)
from counterproof.reading.written_amounts import bracketed
from counterproof.units import MEASURES, measure_named

if TYPE_CHECKING:
    from counterproof.reading.unfinished import Unfinished

_MEATS: Final = frozenset("beef lamb pork turkey chicken veal meat steak venison mutton".split())
_PREPACKED: Final = frozenset({"tin", "jar", "packet", "carton", "bag"})
_FIRST_OF_CLAUSE: Final = frozenset({"for", "to", "plus", "optional", "about"})
_AFTER_PARTICIPLE: Final = frozenset(
    {
        "in",
        "into",
        "with",
        "on",
        "off",
        "out",
        "and",
        "if",
        "a",
        "by",
        "for",
        "to",
        "at",
        "together",
    }
)
_JOINS: Final = frozenset({"with", "in", "into"})
_ACTING: Final = frozenset({*WORD_CLASSES, *_JOINS})
_PARTS_OF_FOOD: Final = frozenset(
    "removed discarded only on off attached intact juice zest rind peel skin skins bone bones "
    "leaves stems seeds stalks tops fronds core heads head tails tail shells pits ribs".split()
)
_BEFORE_NAME: Final = frozenset({"of", "each", "either"})
_DIGIT: Final = re.compile(r"\d")
_SLASHED: Final = re.compile(r"(?<!\w)(?!and/)(\w*[^\W\d]{2}) ?/ ?(?!or\b|pepper)(?=\w)")
_OR: Final = frozenset({"or", "and/or"})
_JOINTS: Final = frozenset({"or", "and", "and/or"})
_LONGEST_MEMBER: Final = 6  # words; a longer stretch between commas is no member of a list
_MOST_MEMBERS: Final = 8


def read_name(piece: str, line: Unfinished) -> None:
    """Read a piece of the name, and the clause that may follow it without a comma.

    Parameters
    ----------
    piece : str
        Text up to a comma, a bracket or the end.
    line : Unfinished
        The line it stands in.
    """
    words = piece.split()
    if "/" in piece or words[0].lower() in _BEFORE_NAME:
        words = _own_words(piece, line)
        if not words:
            return
    lowered = [word.lower() for word in words]
    start, stop = 0, len(words)
    acting = not _ACTING.isdisjoint(lowered)
    if acting:
        classes = [WORD_CLASSES.get(word, 0) for word in lowered]
        start = _prepared(lowered, classes, line)
        stop = min(_name_end(lowered, classes, start), _joined_at(lowered, start))
    if start:
        line.prepare(" ".join(words[:start]), before_name=True)
    if start < stop - 1 and (lowered[start] in SIZES or "-size" in lowered[start]):
        start = _sized(words, start, stop, line)
    name = words[start:stop]
    if name and not line.head.quantities:
        name = _amount_after(name, line)
    if acting and not _OR.isdisjoint(lowered):
        _read_choice(name, line)
    elif name:
        line.call(" ".join(name))
    if stop < len(words):
        read_clause(" ".join(words[stop:]), line)


def _read_choice(name: list[str], line: Unfinished) -> None:
    """Read what may be "butter or margarine"."""
    if len(name) > 1 and name[-1].lower() in _OR:
        line.note("comment", name.pop())  # the choice stands on the next line
    if any(word.lower() in _OR for word in name[1:-1]):
        _read_alternatives(name, line)
    elif name:
        line.call(" ".join(name))


def _own_words(piece: str, line: Unfinished) -> list[str]:
    """Return the words of a piece without "of", "each" and "either" before them."""
    words = (_SLASHED.sub(r"\1 or ", piece) if "/" in piece else piece).split()
    while words and words[0].lower() in _BEFORE_NAME:
        if words[0].lower() == "each":
            line.flags.add("each of several")
        line.note("comment", words.pop(0))
    return words


def _sized(words: list[str], start: int, stop: int, line: Unfinished) -> int:
    """Take words of size before the name; return where the name begins."""
    begun = line.head
    while start < stop - 1 and begun.quantities:
        lower = words[start].lower()
        size = SIZES.get(lower)
        if not size and lower.endswith(("-size", "-sized")):
            size = lower
        weighed = MEASURES[begun.quantities[0].measure] in {"mass", "volume", "length"}
        if not size or (weighed and "size" not in lower and not words[stop - 1].endswith("s")):
            break
        begun.size = f"{begun.size} {size}".strip()
        line.note("size", words[start])
        start += 1
    return start


def _prepared(words: list[str], classes: list[int], line: Unfinished) -> int:
    """Return how many words at the front say in which state the food was measured."""
    last = 0
    for place, kind in enumerate(classes):
        ground = place and classes[place - 1] == MANNER and words[place] == "ground"
        if kind == PREPARATION or ground:
            last = place + 1
        elif kind != MANNER and not (kind in {AND, OR} and last == place and place):
            break
    if not 0 < last < len(words):
        return last
    begun = line.head
    measure = begun.quantities[0].measure if begun.quantities else ""
    if begun.container in _PREPACKED or measure in _PREPACKED:
        return 0  # a tin of chopped tomatoes is bought chopped
    pair = (words[last - 1], words[last])
    return 0 if pair in BOUGHT_SO or (pair[0] == "minced" and pair[1] in _MEATS) else last


def _name_end(words: list[str], classes: list[int], start: int) -> int:
    """Return where the name ends: at a word that begins a clause."""
    if classes[0] == BREAK and start == 0 and words[0] in _FIRST_OF_CLAUSE:
        return 0
    if start and start < len(words) and classes[start] == BREAK:
        return start
    for place in range(start + 1, len(words)):
        kind = classes[place]
        if kind == AND and _begins_amount(words, place + 1):
            return place
        if kind == BREAK:
            if words[place] == "but" and describes(words[start:place]):
                continue
            return place
        following = words[place + 1] if place + 1 < len(words) else "and"
        if kind == PREPARATION or (following == "with" and words[place].endswith("ed")):
            before = place
            while before > start + 1 and classes[before - 1] == MANNER:
                before -= 1
            joined = classes[before - 1] in {OR, AND} or words[before - 1] in NEVER_ALONE
            if joined or (not WORD_CLASSES.get(following) and following not in _AFTER_PARTICIPLE):
                continue
            return before
    return len(words)


def _begins_amount(words: list[str], place: int) -> bool:
    """Return whether an amount begins at a place: "and 2 …", "and a pinch of …"."""
    if place < len(words) and words[place][0].isdigit():
        return True
    return (
        place + 2 < len(words)
        and words[place].lower() in {"a", "an"}
        and measure_named(words[place + 1]) is not None
    )


def _joined_at(words: list[str], start: int) -> int:
    """Return where a second food is brought in: "salmon wrapped in bacon"."""
    if not _JOINS.isdisjoint(words):
        for place in range(start + 1, len(words) - 1):
            if words[place + 1] in _JOINS and words[place] in JOINING_PARTICIPLES:
                return place
    return len(words)


def _amount_after(name: list[str], line: Unfinished) -> list[str]:
    """Read "flour 200 g": the amount after the name."""
    for place in range(1, len(name)):
        times = name[place][0] in "xX" and name[place][1:].isdigit()  # "onion x2"
        if times or name[place][0] in "0123456789.~":
            after = " ".join(name[place:])[times:]
            found = bracketed(after, line.system)
            if found is not None:
                line.count(*found)
                begun = place - 1 if place > 1 and name[place - 1] in {"x", "X"} else place
                line.note("amount", " ".join(name[begun:]))  # "onions x 3"
                return name[:begun]
    return name


def _read_alternatives(words: list[str], line: Unfinished) -> None:
    """Read "butter or margarine", "red or green onion", "3 beans or 2 pods"."""
    groups: list[list[str]] = [[]]
    for word in words:
        if word.lower() in _OR and groups[-1]:
            groups.append([])
        else:
            groups[-1].append(word)
    foods = [" ".join(group) for group in groups if group]
    line.note("name", foods[0])
    line.note("alternative", " ".join(words[len(groups[0]) :]))
    for place, food in enumerate(foods[1:], start=1):
        foods[place] = food[head(food, line.system).end :].strip().removeprefix("of ") or food
    foods = with_shared_head(foods)
    line.name.append(foods[0])
    line.alternatives += foods[1:]


def with_shared_head(foods: list[str]) -> list[str]:
    """Return alternatives with the noun they share: "red or green onion" is two onions.

    Parameters
    ----------
    foods : list of str
        As written, at least one.

    Returns
    -------
    list of str
        Each a name of its own.
    """
    first, last = foods[0].split(), foods[-1].split()
    if describes(last) and not describes(first):
        return [foods[0], *(" ".join(food.split() + noun(first)) for food in foods[1:])]
    if len(last) < 2:
        return foods
    own = SHARED_HEADS.get(last[-1].lower(), frozenset())
    complete = []
    for food in foods[:-1]:
        words = food.split()
        if describes(words):
            words += noun(last)
        elif len(words) == 1 and food.lower() in own:
            words.append(last[-1])
        complete.append(" ".join(words))
    return [*complete, foods[-1]]


def read_list(pieces: list[str], line: Unfinished) -> int:
    """Read the further members of "rum, brandy, or cider", "salt, pepper and nutmeg".

    Parameters
    ----------
    pieces : list of str
        What follows the first member, commas included.
    line : Unfinished
        The line they stand in, its first name read.

    Returns
    -------
    int
        How many pieces belong to the list; 0 if it is none.
    """
    if "each of several" in line.flags and "," in pieces:
        return _read_all(pieces, line)
    members: list[str] = []
    for place in range(0, min(len(pieces) - 1, 2 * _MOST_MEMBERS), 2):
        if pieces[place] != ",":
            return 0
        member = _member(pieces[place + 1], first=not members)
        if member is None:
            return 0
        food, joint, rest = member
        members.append(food)
        if joint:
            _take_members(members, joint, line)
            if rest:
                read_clause(rest, line)
            return place + 2
    return 0


def _read_all(pieces: list[str], line: Unfinished) -> int:
    """Read "½ tsp each: cumin, coriander, mace": every member is part of the name."""
    taken = 0
    for place in range(0, len(pieces) - 1, 2):
        words = pieces[place + 1].split()
        if pieces[place] != "," or WORD_CLASSES.get(words[0].lower(), 0) not in {0, AND}:
            break
        line.name[-1] += f", {pieces[place + 1]}"
        line.note("name", pieces[place + 1])
        taken = place + 2
    return taken


def _member(piece: str, *, first: bool) -> tuple[str, str, str] | None:
    """Return a member of a list, the "and" or "or" that ends the list, and what follows."""
    words = piece.split()
    lead = words[0].lower()
    leading = lead in _JOINTS
    joint = words[0] if leading else ""
    if leading:
        words = words[1:]
    if not words or (lead in WORD_CLASSES and not leading):
        return None
    if leading and (first or NO_FOOD.match(" ".join(words))):
        return None
    lowered = [word.lower() for word in words]
    if (
        len(words) > _LONGEST_MEMBER
        or lowered[0] in JOINING_PARTICIPLES
        or not _PARTS_OF_FOOD.isdisjoint(lowered)
        or _DIGIT.search(piece)
    ):
        return None
    if not leading:
        joint = next((word for word in ("or", "and") if word in lowered[1:-1]), "")
    classes = [WORD_CLASSES.get(word, 0) for word in lowered]
    stop = _name_end(lowered, classes, 0) if joint else len(words)
    if not stop or any(kind in {PREPARATION, BREAK, MANNER} for kind in classes[1:stop]):
        return None
    if leading:
        fits = not classes[0] or (classes[0] == PREPARATION and stop > 1)
    else:
        fits = stop == len(words) or classes[stop] != PREPARATION
    if not fits:
        return None
    return " ".join(words[:stop]), joint, " ".join(words[stop:])


def _take_members(members: list[str], joint: str, line: Unfinished) -> None:
    listed = ", ".join(members)
    if not re.search(rf"\b{re.escape(joint)}\b", members[-1]):
        listed = f"{joint} {listed}"
    if joint.lower() == "and":
        inside = " and " in members[-1]
        before = ", ".join((line.name[-1], *(members if inside else members[:-1])))
        line.name[-1] = before if inside else f"{before} and {members[-1]}"
        line.note("name", listed)
        return
    line.note("alternative", listed)
    foods = [food for member in members for food in member.split(" or ")]
    line.name[-1], *others = with_shared_head([line.name[-1], *foods])
    line.alternatives += others
