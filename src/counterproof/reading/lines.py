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
from counterproof.reading.heads import Head, head
from counterproof.reading.written_amounts import amounts, bracketed
from counterproof.units import CONTAINERS, MEASURES, System, measure_named

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
_TAIL_UNITS: Final = frozenset("clove stalk sprig bulb head rasher spear rib slice".split())
_TAIL_AFTER: Final = frozenset(
    {("celery", "stick"), ("lemongrass", "stick"), ("gelatine", "leaf"), ("gelatin", "leaf")}
)
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
_METRIC_END: Final = re.compile(r"(?<=[^\W\d][ )])(\d+(?:[.,]\d+)? ?(?:m[lL]|[lL]|g|kg))$")
_PARTS_OF_FOOD: Final = frozenset(
    "removed discarded only on off attached intact juice zest rind peel skin skins bone bones "
    "leaves stems seeds stalks tops fronds core heads head tails tail shells pits ribs".split()
)
_ASIDE: Final = re.compile(r"^plus\b|\bor (?:about |an? )?\d")
_MARKS: Final = frozenset({",", ";", "-", ":", ")"})
_WORDY: Final = re.compile(r"[^\W\d_]", re.UNICODE)
_MEATS: Final = frozenset("beef lamb pork turkey chicken veal meat steak venison mutton".split())


class _Reading:
    """A line while it is being read."""

    __slots__ = (
        "alternatives",
        "comment",
        "aside",
        "flags",
        "head",
        "meaning",
        "measured_as",
        "name",
        "parts",
        "preparation",
        "system",
    )

    def __init__(self, found: Head, system: System) -> None:
        self.head = found
        self.system = system
        self.name: list[str] = []
        self.alternatives: list[str] = []
        self.preparation: list[str] = []
        self.measured_as: list[str] = []
        self.comment: list[str] = []
        self.meaning = ""
        self.aside = False  # after "or" or "plus", amounts belong to something else
        self.flags: set[str] = found.flags
        self.parts: list[Part] = []

    def note(self, kind: str, text: str) -> None:
        self.parts.append(Part(kind, text))

    def prepared(self, text: str) -> None:
        self.preparation.append(text)
        self.note("preparation", text)

    def described(self, text: str) -> None:
        """Note words before the name: the food was in this state when it was measured."""
        self.measured_as.append(text)
        self.prepared(text)

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
            for part in (
                "juice",
                "zest",
                "rind",
                "peel",
                "yolk",
                "white",
                "leaves",
                "seeds",
                "pulp",
                "flesh",
            )
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
    rest = _metric_end(rest, reading)
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
        elif named or (reading.name and WORD_CLASSES.get(piece.split(" ", 1)[0].lower())):
            named = True
            _read_clause(piece, reading)
        else:
            _read_name(piece, reading)
            if reading.name and index < len(pieces) and pieces[index] == ",":
                index += _read_list(pieces[index:], reading)


def _metric_end(rest: str, reading: _Reading) -> str:
    """Read "1 cup rice 250 mL": the metric twin at the end of the line."""
    found = reading.head
    if not found.quantities or MEASURES[found.quantities[0].measure] not in {"volume", "mass"}:
        return rest
    match = _METRIC_END.search(rest)
    if match is None or "plus" in rest:
        return rest
    twin = amounts(match.group(1), 0, reading.system)
    _add(reading, [Quantity(a.low, a.high, a.measure) for a in twin], "")
    reading.note("amount", match.group(1))
    return rest[: match.start()].rstrip(" ,")


def _describes(name: str) -> bool:
    """Return whether these words only describe, so that the name must go on."""
    return all(word in NEVER_ALONE for word in name.lower().split())


def _read_list(pieces: list[str], reading: _Reading) -> int:
    """Read "…, brandy, or Calvados" and "…, pepper and nutmeg": the further members of a list."""
    members: list[str] = []
    joint = ""
    taken = 0
    rest: list[str] = []
    for place in range(0, min(len(pieces) - 1, 16), 2):
        if pieces[place] != ",":
            return 0
        words = pieces[place + 1].split()
        joint = words[0].lower() if words[0].lower() in {"or", "and", "and/or"} else ""
        leading = bool(joint)
        if leading:
            words = words[1:]
            if not members or not words or _NO_FOOD.match(" ".join(words)):
                return 0
        lowered = [word.lower() for word in words]
        if len(words) > 6 or not _PARTS_OF_FOOD.isdisjoint(lowered):
            return 0
        if not joint and ("or" in lowered[1:-1] or "and" in lowered[1:-1]):
            joint = "or" if "or" in lowered else "and"
        classes = [WORD_CLASSES.get(word, 0) for word in lowered]
        stop = _breaking(words, classes, 0) if joint else len(words)
        if not stop or any(kind in {PREPARATION, BREAK, MANNER} for kind in classes[1:stop]):
            return 0
        if classes[0] and (not leading or classes[0] != PREPARATION or stop == 1):
            return 0
        if any(char.isdigit() for char in pieces[place + 1]):
            return 0
        members.append(" ".join(words[:stop]))
        rest = words[stop:]
        if rest and not leading and classes[stop] == PREPARATION:
            return 0
        if joint:
            taken = place + 2
            break
    if not taken:
        return 0
    if joint == "and":
        name = ", ".join((reading.name[-1], *members[:-1]))
        reading.name[-1] = f"{name} and {members[-1]}"
        reading.note("name", ", ".join(members))
    else:
        members = [part for member in members for part in member.split(" or ")]
        _shared(members, reading)
        for member in members:
            reading.note("alternative", member)
            reading.alternatives.append(member)
    if rest:
        _read_clause(" ".join(rest), reading)
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
        reading.described(" ".join(words[:start]))
    if reading.head.quantities and stop - start > 1 and (size := SIZES.get(words[start].lower())):
        weighed = MEASURES[reading.head.quantities[0].measure] in {"mass", "volume"}
        if not weighed or words[stop - 1].endswith("s"):
            reading.head.size = f"{reading.head.size} {size}".strip()
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
        if kind == PREPARATION or (
            place and classes[place - 1] == MANNER and words[place].lower() in {"ground", "milled"}
        ):
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
        or reading.head.quantities
        and reading.head.quantities[0].measure in {"tin", "jar"}
        or words[last - 1].lower() == "minced"
        and words[last].lower() in _MEATS
    ):
        return 0
    return last


def _breaking(words: list[str], classes: list[int], start: int) -> int:
    """Return where the name ends: at a word that begins a clause."""
    for place in range(start + 1, len(words)):
        kind = classes[place]
        if kind == BREAK:
            if words[place].lower() == "but" and _describes(" ".join(words[start:place])):
                continue
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
                if following not in {
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
                }:
                    continue
            return before
    if start < len(words) and classes[start] == BREAK and start:
        return start
    if (
        words
        and classes[0] == BREAK
        and start == 0
        and words[0].lower() in {"for", "to", "plus", "optional", "about"}
    ):
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
        _settle(inside[meaning.end() :], reading)
        reading.note("meaning", piece)
        return
    if not reading.aside:
        for clause in re.split(r"[;,](?!\d)", inside) if len(inside) < 200 else ():
            found = bracketed(clause.strip(), reading.system)
            if found is None or not (found[0][-1].named or found[0][-1].size):
                continue
            row, word = found
            if not row[-1].named and reading.head.quantities:
                reading.head.size = reading.head.size or row[-1].size
            if MEASURES[row[0].measure] == "length" and not after_name:
                continue
            _add(reading, [Quantity(a.low, a.high, a.measure) for a in row], word)
            reading.note("amount", piece)
            if clause.strip() != inside:
                reading.comment.append(inside)
            return
    reading.remarked(inside)


def _settle(meant: str, reading: _Reading) -> None:
    """Take the cook's settlement: a food, and the amount that stands after its last comma."""
    food, comma, tail = meant.rpartition(",")
    found = bracketed(tail.strip() if comma else meant.strip(), reading.system)
    if found is None or not found[0][-1].named:
        reading.meaning = meant
        return
    reading.meaning = food.strip()
    head_ = reading.head
    settled = [Quantity(a.low, a.high, a.measure) for a in found[0]]
    first = head_.quantities[0] if head_.quantities else None
    if first is not None and (first.measure in CONTAINERS or found[1] == "each"):
        head_.packs, head_.container = first.low, first.measure
        head_.quantities = settled
    else:
        head_.quantities = [*settled, *head_.quantities]


def _add(reading: _Reading, quantities: list[Quantity], word: str) -> None:
    """Add a second way of saying the amount; "each" makes the count the packs."""
    found = reading.head
    if word == "each":
        reading.flags.add("each")
        if len(found.quantities) == 1 and MEASURES[found.quantities[0].measure] in {
            "count",
            "by eye",
        }:
            counted = found.quantities[0]
            found.packs, found.container = counted.low, counted.measure
            found.quantities = quantities
            return
    if word in {"drained weight", "drained"}:
        reading.flags.add("drained weight")
    found.quantities = [*found.quantities, *quantities]


def _read_clause(piece: str, reading: _Reading) -> None:
    lower = piece.lower()
    reading.aside = reading.aside or _ASIDE.search(lower) is not None
    if lower in {"optional", "(optional)"}:
        reading.flags.add("optional")
        reading.note("comment", piece)
        reading.comment.append(piece)
        return
    if lower.startswith("divided"):
        reading.flags.add("divided")
    found = (
        bracketed(piece, reading.system)
        if piece[:1].isdigit() or lower[:5] in {"about", "each ", "appro"}
        else None
    )
    if (
        found is not None
        and found[0][-1].named
        and (MEASURES[found[0][0].measure] != "length" or not reading.head.quantities)
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
        if re.match(rf"(?:\w+\s+)*{part}(?:\s+and\s+\w+)*(?:\s+only)?$", lower) or lower in {
            f"{part}d",
            f"{part[:-1]}ed",
        }:
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
        measured_as=", ".join(reading.measured_as),
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
    if measure in _TAIL_UNITS or (before.lower(), measure) in _TAIL_AFTER:
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
