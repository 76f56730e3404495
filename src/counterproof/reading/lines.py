"""An ingredient line split into its parts by a grammar, before any food is looked up.

A line is read from the left: what it begins with (`written_amounts.head`), then the name up to
the first comma or the first word that cannot belong to it, then the rest, clause by clause.
Every word of the line lands in one of `Split.parts`, so that nothing is dropped in silence.
"""

from __future__ import annotations

import re
from typing import Final

from counterproof.reading.model import Part, Quantity, Split
from counterproof.reading.tidying import tidied
from counterproof.reading.words import (
    AND,
    BREAK,
    MANNER,
    NEVER_ALONE,
    OR,
    PREPARATION,
    SHARED_HEADS,
    SIZES,
    WORD_CLASSES,
)
from counterproof.reading.written_amounts import Head, amounts, bracketed, head
from counterproof.units import MEASURES, System, measure_named

_PIECES: Final = re.compile(r"(\([^()]*(?:\([^()]*\)[^()]*)*\)?|\)|,(?!\d)|;| - |: )")
_MEANING: Final = re.compile(r"meaning:?\s+", re.IGNORECASE)
_PART_OF: Final = re.compile(
    r"(?:the\s+|an?\s+)?((?:(?:finely|freshly|thinly|coarsely|roughly|strained|grated|pared|squeezed"
    r"|chopped|shredded|fresh|long|thin|very)\s+)*"
    r"(?:juice|zest|rind|peel|yolks?|whites?|seeds|leaves|pulp|flesh|strips? of zest)"
    r"(?:\s*(?:,|/|and|&|plus)\s*(?:the\s+)?(?:(?:finely|freshly|coarsely)\s+)?(?:grated\s+)?(?:juice|zest|rind|peel|pulp))?"
    r")\s+(?:of|from)\s+(?:the\s+)?(?=(?:about\s+|approx\.?\s+)?(?:\d|\.\d|½|an?\b|one\b|two\b|three"
    r"\b|four\b|half\b|small\b|large\b|medium\b|several\b))",
    re.IGNORECASE,
)
_TAIL_UNITS: Final = frozenset("clove stalk sprig bulb head rasher spear rib".split())
_TAIL_STICKS: Final = frozenset({"celery", "lemongrass"})
_PURPOSE: Final = re.compile(
    r"(?:for|to)\s+(?:the\s+)?(?:\w+\s+)?(greas|dust|garnish|serv|fry|deep[- ]fry|shallow[- ]fry"
    r"|brush|sprinkl|drizzl|cook|saut|decorat|coat|roll|knead|oil|rub|bast|grill|past|wash|pan"
    r"|finish|top|glaz|accompan|season|taste|thin|thicken|sweeten|barbecu|roast|brown|line|lining)",
    re.IGNORECASE,
)
_PURPOSE_FLAGS: Final = {
    "greas": "for greasing",
    "oil": "for greasing",
    "pan": "for greasing",
    "line": "for greasing",
    "lining": "for greasing",
    "coat": "for greasing",
    "dust": "for dusting",
    "roll": "for dusting",
    "knead": "for dusting",
    "garnish": "for garnish",
    "decorat": "for garnish",
    "finish": "for garnish",
    "top": "for garnish",
    "serv": "for serving",
    "accompan": "for serving",
    "fry": "for frying",
    "shallow-fry": "for frying",
    "shallow fry": "for frying",
    "deep-fry": "for deep frying",
    "deep fry": "for deep frying",
    "saut": "for frying",
    "cook": "for frying",
    "brown": "for frying",
    "brush": "for brushing",
    "bast": "for brushing",
    "glaz": "for brushing",
    "rub": "for brushing",
    "grill": "for brushing",
    "roast": "for frying",
    "barbecu": "for brushing",
    "sprinkl": "for sprinkling",
    "drizzl": "for drizzling",
    "season": "to taste",
    "taste": "to taste",
    "sweeten": "to taste",
}
_REMARK: Final = re.compile(
    r"(?:plus|such as|preferably|ideally|if|about|approx|around|see|note|optional|you|i\s|we\s|like"
    r"|i\.e|e\.g|eg\b|or\b|from\b|available|use|this|these|per\b|each|at least|including|depending"
    r"|for\b|to\b|recipe|store|enough|any\b|not\b|the\b|with\b|weighing|measuring|total|minimum|"
    r"as\b|more\b|extra\b|but\b|also\b|home|best|good|it\b)",
    re.IGNORECASE,
)
_ALTERNATIVE: Final = re.compile(r"or\s+(?:(?:use|substitute|else|even)\s+)?", re.IGNORECASE)
_NO_FOOD: Final = re.compile(
    r"(?:to taste|more|less|so\b|as needed|as desired|until|until|similar|equivalent|a mix|mixture"
    r"|a combination|if\b|to\b|cut|chopped|sliced|minced|grated|crushed|torn|\d+[\s-]?(?:inch|cm|in\b))",
    re.IGNORECASE,
)
_MARKS: Final = frozenset({",", ";", "-", ":", ")"})
_WORDY: Final = re.compile(r"[^\W\d_]", re.UNICODE)
_MEATS: Final = frozenset("beef lamb pork turkey chicken veal meat steak venison mutton".split())


class _Reading:
    """A line while it is being read."""

    __slots__ = ("alternatives", "comment", "flags", "head", "meaning", "name", "parts", "preparation", "system")

    def __init__(self, found: Head, system: System) -> None:
        self.head = found
        self.system = system
        self.name: list[str] = []
        self.alternatives: list[str] = []
        self.preparation: list[str] = []
        self.comment: list[str] = []
        self.meaning = ""
        self.flags: set[str] = found.flags
        self.parts: list[Part] = []

    def note(self, kind: str, text: str) -> None:
        self.parts.append(Part(kind, text))

    def prepared(self, text: str) -> None:
        self.preparation.append(text)
        self.note("preparation", text)

    def remarked(self, text: str) -> None:
        self.comment.append(text)
        self.note("comment", text)
        lower = text.lower()
        if "optional" in lower:
            self.flags.add("optional")
        if "to taste" in lower:
            self.flags.add("to taste")
        if lower.startswith("plus") or lower.startswith("with extra"):
            self.flags.add("plus extra")
            return
        purpose = _PURPOSE.search(lower)
        if purpose and len(lower) < 60:
            flag = _PURPOSE_FLAGS.get(purpose.group(1))
            if flag:
                self.flags.add(flag)


def split_line(text: str, system: System = "us") -> Split:
    """Return the parts of one ingredient line; any text has a reading.

    Parameters
    ----------
    text : str
        The line as written.
    system : System
        Whose cups and spoons, for sums such as "1 cup plus 2 tbsp".

    Returns
    -------
    Split
        Its amounts, name, preparation and the rest.
    """
    line = tidied(text)
    part_of = _PART_OF.match(line)
    flags: set[str] = set()
    if part_of is not None:
        words = part_of.group(1).lower()
        flags.update(
            f"{part} of"
            for part in ("juice", "zest", "rind", "peel", "yolk", "white", "leaves", "seeds", "pulp", "flesh")
            if part in words
        )
        lead = line[: part_of.end()].rstrip()
        line = line[part_of.end() :]
    found = head(line, system)
    found.flags |= flags
    reading = _Reading(found, system)
    if part_of is not None:
        reading.prepared(lead)
    if found.end:
        reading.note("amount", line[: found.end].strip())
    _read_rest(line[found.end :].strip(), reading)
    return _finished(text, reading)


def _read_rest(rest: str, reading: _Reading) -> None:
    pieces = [piece.strip() for piece in _PIECES.split(rest)] if rest else []
    pieces = [piece for piece in pieces if piece]
    named = False
    index = 0
    while index < len(pieces):
        piece = pieces[index]
        index += 1
        if piece in _MARKS:
            named = named or bool(reading.name and not _describes(reading.name[-1]))
        elif piece[0] == "(":
            _read_bracket(piece, reading, after_name=not named)
        elif named:
            _read_clause(piece, reading)
        else:
            _read_name(piece, reading)
            if reading.name and index < len(pieces) and pieces[index] == ",":
                index += _read_list(pieces[index:], reading)


def _describes(name: str) -> bool:
    """Return whether these words only describe, so that the name must go on."""
    return all(word in NEVER_ALONE for word in name.lower().split())


def _read_list(pieces: list[str], reading: _Reading) -> int:
    """Read "…, brandy, or Calvados": the further members of a list that ends with "or"."""
    members: list[str] = []
    taken = 0
    rest = ""
    for place in range(0, min(len(pieces) - 1, 16), 2):
        if pieces[place] != ",":
            return 0
        member = pieces[place + 1]
        lower = member.lower()
        if lower.startswith("or "):
            if _NO_FOOD.match(lower[3:]) or not members:
                return 0
            taken = place + 2
            last = member[3:].split()
            stop = _breaking(last, [WORD_CLASSES.get(word.lower(), 0) for word in last], 0)
            members.append(" ".join(last[:stop]))
            rest = " ".join(last[stop:])
            break
        words = lower.split()
        if len(words) > 4 or any(WORD_CLASSES.get(word, 0) in {PREPARATION, BREAK, MANNER} for word in words):
            return 0
        members.append(member)
        if " or " in lower:
            taken = place + 2
            break
    if not taken:
        return 0
    members = [part for member in members for part in member.split(" or ")]
    _shared(members, reading)
    for member in members:
        reading.note("alternative", member)
        reading.alternatives.append(member)
    if rest:
        _read_clause(rest, reading)
    return taken


def _shared(members: list[str], reading: _Reading) -> None:
    """Give "chicken, beef, or vegetable stock" its stock back."""
    last = members[-1].split()
    if not last or not reading.name:
        return
    own = SHARED_HEADS.get(last[-1].lower())
    if own is None:
        return
    if len(reading.name[-1].split()) == 1 and reading.name[-1].lower() in own:
        reading.name[-1] += f" {last[-1]}"
    for place, member in enumerate(members[:-1]):
        if member.lower() in own:
            members[place] = f"{member} {last[-1]}"


def _read_name(piece: str, reading: _Reading) -> None:
    """Read a piece of the name, and the clause that may follow it without a comma."""
    words = piece.split()
    classes = [WORD_CLASSES.get(word.lower(), 0) for word in words]
    start, stop = 0, len(words)
    if any(classes):
        start = _leading(words, classes, reading)
        stop = _breaking(words, classes, start)
    if start:
        reading.prepared(" ".join(words[:start]))
    if start < stop and not reading.head.size and reading.head.quantities:
        size = SIZES.get(words[start].lower())
        if size and stop - start > 1:
            reading.head.size = size
            reading.note("size", words[start])
            start += 1
    name = words[start:stop]
    if name and name[0].lower() == "of":
        name = name[1:]
        reading.note("comment", "of")
    if name and not reading.head.quantities:
        name = _trailing_amount(name, reading)
    if name:
        if OR in classes[start:stop] and "or" in [word.lower()[-2:] for word in name[1:-1]]:
            _read_alternatives(name, reading)
        else:
            reading.name.append(" ".join(name))
            reading.note("name", " ".join(name))
    if stop < len(words):
        _read_clause(" ".join(words[stop:]), reading)


def _leading(words: list[str], classes: list[int], reading: _Reading) -> int:
    """Return how many words at the front say how the food is prepared."""
    place = 0
    last = 0
    while place < len(words):
        kind = classes[place]
        if kind == PREPARATION:
            last = place + 1
        elif kind == MANNER or (kind in {AND, OR} and last == place and place):
            pass
        else:
            break
        place += 1
    if last == len(words):
        return last
    if last and (
        reading.head.container in {"tin", "jar", "packet", "carton", "bag"}
        or reading.head.quantities and reading.head.quantities[0].measure in {"tin", "jar"}
        or words[last - 1].lower() == "minced" and words[last].lower() in _MEATS
    ):
        return 0
    return last


def _breaking(words: list[str], classes: list[int], start: int) -> int:
    """Return where the name ends: at a word that begins a clause."""
    for place in range(start + 1, len(words)):
        kind = classes[place]
        if kind == BREAK:
            return place
        if kind == PREPARATION:
            before = place
            while before > start + 1 and classes[before - 1] == MANNER:
                before -= 1
            if classes[before - 1] in {OR, AND}:
                continue
            if words[before - 1].lower() in NEVER_ALONE or before == start:
                continue
            if place < len(words) - 1 and classes[place + 1] == 0 and "," not in words[place]:
                following = words[place + 1].lower()
                if following not in {"in", "into", "with", "on", "off", "out", "and", "if", "a", "by"}:
                    continue
            return before
    if start < len(words) and classes[start] == BREAK and start:
        return start
    if words and classes[0] == BREAK and start == 0 and words[0].lower() in {"for", "to", "plus", "optional", "about"}:
        return 0
    return len(words)


def _read_alternatives(words: list[str], reading: _Reading) -> None:
    """Read "butter or margarine", "red or green onion", "3 beans or 2 pods"."""
    groups: list[list[str]] = [[]]
    for word in words:
        if word.lower() in {"or", "and/or"} and groups[-1]:
            groups.append([])
        else:
            groups[-1].append(word)
    groups = [group for group in groups if group]
    first = groups[0]
    reading.note("name", " ".join(first))
    for group in groups[1:]:
        text = " ".join(group)
        reading.note("alternative", f"or {text}")
    last = groups[-1]
    if len(last) > 1:
        own = SHARED_HEADS.get(last[-1].lower(), frozenset())
        for group in groups[:-1]:
            if all(word.lower() in NEVER_ALONE for word in group):
                group += _without_adjectives(last)
            elif len(group) == 1 and group[0].lower() in own:
                group.append(last[-1])
    reading.name.append(" ".join(first))
    for group in groups[1:]:
        text = " ".join(group)
        row = amounts(text, 0, reading.system)
        reading.alternatives.append(text[row[-1].end :].strip() if row else text)


def _without_adjectives(words: list[str]) -> list[str]:
    place = 0
    while place < len(words) - 1 and words[place].lower() in NEVER_ALONE:
        place += 1
    return words[place:]


def _read_bracket(piece: str, reading: _Reading, *, after_name: bool) -> None:
    inside = piece.strip("()").strip()
    if not inside:
        return
    meaning = _MEANING.match(inside)
    if meaning is not None:
        reading.meaning = inside[meaning.end() :]
        reading.note("meaning", piece)
        return
    if reading.head.quantities or not reading.flags & {"plus extra"}:
        for clause in re.split(r"[;,](?!\d)", inside) if len(inside) < 200 else ():
            found = bracketed(clause.strip(), reading.system)
            if found is None or not found[0][-1].named:
                continue
            row, word = found
            if MEASURES[row[0].measure] == "length" and not after_name:
                continue
            _add(reading, [Quantity(a.low, a.high, a.measure) for a in row], word)
            reading.note("amount", piece)
            if clause.strip() != inside:
                reading.comment.append(inside)
            return
    reading.remarked(inside)


def _add(reading: _Reading, quantities: list[Quantity], word: str) -> None:
    """Add a second way of saying the amount; "each" makes the count the packs."""
    found = reading.head
    if word == "each":
        reading.flags.add("each")
        if len(found.quantities) == 1 and MEASURES[found.quantities[0].measure] in {"count", "by eye"}:
            counted = found.quantities[0]
            found.packs, found.container = counted.low, counted.measure
            found.quantities = quantities
            return
    if word in {"drained weight", "drained"}:
        reading.flags.add("drained weight")
    found.quantities = [*found.quantities, *quantities]


def _read_clause(piece: str, reading: _Reading) -> None:
    lower = piece.lower()
    if lower in {"optional", "(optional)"}:
        reading.flags.add("optional")
        reading.note("comment", piece)
        reading.comment.append(piece)
        return
    if lower.startswith("divided"):
        reading.flags.add("divided")
    found = bracketed(piece, reading.system) if piece[:1].isdigit() or lower[:5] in {"about", "each ", "appro"} else None
    if found is not None and found[0][-1].named and (
        MEASURES[found[0][0].measure] != "length" or not reading.head.quantities
    ):
        _add(reading, [Quantity(a.low, a.high, a.measure) for a in found[0]], found[1])
        reading.note("amount", piece)
        return
    alternative = _ALTERNATIVE.match(piece)
    if alternative is not None:
        other = piece[alternative.end() :]
        row = amounts(other, 0, reading.system)
        rest = other[row[-1].end :].strip() if row else other
        if rest and not _NO_FOOD.match(rest.lower()):
            reading.alternatives.append(rest)
            reading.note("alternative", piece)
            if "to taste" in lower:
                reading.flags.add("to taste")
            return
        reading.remarked(piece)
        return
    for part in ("juice", "zest"):
        if re.match(rf"(?:\w+\s+)*{part}(?:\s+and\s+\w+)*(?:\s+only)?$", lower) or lower in {f"{part}d", f"{part[:-1]}ed"}:
            reading.flags.add(f"{part} of")
    if _REMARK.match(piece):
        reading.remarked(piece)
    else:
        if "to taste" in lower:
            reading.flags.add("to taste")
        reading.prepared(piece)


def _finished(text: str, reading: _Reading) -> Split:
    found = reading.head
    name = " ".join(reading.name)
    if len(found.quantities) >= 1 and found.quantities[0].measure == "piece":
        name = _trailing_unit(name, reading)
    if not name:
        name = _recovered(reading)
    return Split(
        text=text,
        quantities=tuple(found.quantities),
        packs=found.packs,
        container=found.container,
        size=found.size,
        name=name,
        alternatives=tuple(reading.alternatives),
        preparation=", ".join(reading.preparation),
        comment=", ".join(reading.comment),
        meaning=reading.meaning,
        flags=frozenset(reading.flags),
        parts=tuple(reading.parts),
    )


def _trailing_amount(name: list[str], reading: _Reading) -> list[str]:
    """Read "flour 200 g": the amount after the name."""
    for place in range(1, len(name)):
        if name[place][0].isdigit() or name[place][0] == ".":
            found = bracketed(" ".join(name[place:]), reading.system)
            if found is not None:
                _add(reading, [Quantity(a.low, a.high, a.measure) for a in found[0]], found[1])
                return name[:place]
    return name


def _trailing_unit(name: str, reading: _Reading) -> str:
    """Read "3 garlic cloves" as three cloves of garlic."""
    before, _, last = name.rpartition(" ")
    if not before or _describes(before):
        return name
    measure = measure_named(last)
    if measure in _TAIL_UNITS or (measure == "stick" and before.lower() in _TAIL_STICKS):
        first = reading.head.quantities[0]
        reading.head.quantities[0] = Quantity(first.low, first.high, measure or "")
        return before
    return name


def _recovered(reading: _Reading) -> str:
    """Return a name for a line whose unit or preparation is all there is to name it by."""
    for part in reading.parts:
        if part.kind == "amount":
            words = part.text.split()
            if words and _WORDY.search(words[-1]) and reading.head.quantities:
                first = reading.head.quantities[0]
                if MEASURES[first.measure] in {"count", "by eye"} and first.measure != "piece":
                    reading.head.quantities[0] = Quantity(first.low, first.high, "piece")
                    return words[-1]
    for kind in (reading.preparation, reading.comment):
        if kind:
            return kind.pop(0)
    return ""
