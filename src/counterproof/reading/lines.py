"""An ingredient line split into its parts by a grammar, before any food is looked up.

A line is read from the left: what it begins with (`heads`), then the name up to the first comma
or the first word that cannot belong to it (`naming`), then the rest, clause by clause
(`clauses`). Every word of the line lands in one of `Split.parts`: nothing is dropped in silence.
"""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from typing import Final

from counterproof.reading.clauses import read_bracket, read_clause
from counterproof.reading.heads import head
from counterproof.reading.model import Quantity, Split
from counterproof.reading.naming import read_list, read_name
from counterproof.reading.purposes import purpose_named
from counterproof.reading.tidying import tidied
from counterproof.reading.unfinished import COUNTS, Unfinished, describes
from counterproof.reading.words import WORD_CLASSES
from counterproof.reading.written_amounts import amounts
from counterproof.units import MEASURES, System, measure_named

LONGEST: Final = 600
"""Characters of a line that are read; no ingredient takes more, the rest is kept as a comment."""

_PIECES: Final = re.compile(r"(\([^()]*(?:\([^()]*\)[^()]*)*\)?|\)|,(?!\d)|;| - |: )")
_MARKED: Final = re.compile(r"[(),;:]| - ")
_MARKS: Final = frozenset({",", ";", "-", ":", ")"})
_PARTS: Final = "juice zest rind peel yolk white leaves seeds pulp flesh".split()
_PART_OF: Final = re.compile(
    r"(?:the\s+|an?\s+|1\s+)?((?:(?:finely|freshly|thinly|coarsely|roughly|strained|grated|pared|squeezed"
    r"|chopped|shredded|fresh|long|thin|very)\s+)*"
    r"(?:juice|zest|rind|peel|yolks?|whites?|seeds|leaves|pulp|flesh|meat|kernels|strips? of zest)"
    r"(?:\s*(?:,|/|and|&|plus)\s*(?:the\s+)?(?:(?:finely|freshly|coarsely)\s+)?(?:grated\s+)?"
    r"(?:juice|zest|rind|peel|pulp))?)\s+(?:(?:of|from)\s+(?:the\s+)?(?=(?:about\s+|approx\.?\s+)?"
    r"(?:\d|\.\d|an?\b|one\b|two\b|three\b|four\b|half\b|small\b|large\b|medium\b|several\b))"
    r"|(?=\d))",
    re.IGNORECASE,
)
_LABEL: Final = re.compile(
    r"(?:(?:for|to)\s+(?:the\s+)?)?(?:(?P<aside>optional(?:ly)?|rim|garnish|serving"
    r"|serve(?: with)?|finish|decorat(?:e|ion))|dressing|sauce|marinade|topping|filling|glaze|icing|frosting|salad|stock"
    r"|base|crust|dough|batter|rub|broth)(?::\s*|\s+-\s+)(?=\S)",
    re.IGNORECASE,
)
_TO_DO_WITH: Final = re.compile(
    r"(?:(?P<aside>top|fill|finish|serve|garnish|decorate|dust|sprinkle)(?:ed)?(?: up| off| it)?"
    r" with) (?=\S)",
    re.IGNORECASE,
)
_METRIC_END: Final = re.compile(r"(?<=[\w)] )(\d{1,6}(?:[.,]\d+)? ?(?:m[lL]|[lL]|g|kg))$")
_NO_NAME: Final = frozenset({"ground", "finely ground", "freshly ground", "coarsely ground"})
_TAIL_UNITS: Final = frozenset(
    {"clove", "stalk", "sprig", "bulb", "head", "rasher", "spear", "rib", "slice"}
)
_TAIL_AFTER: Final = frozenset(
    {("celery", "stick"), ("lemongrass", "stick"), ("gelatine", "leaf"), ("gelatin", "leaf")}
)


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
    written = tidied(text)
    beyond = ""
    if len(written) > LONGEST:
        cut = written.rfind(" ", 0, LONGEST) + 1 or LONGEST
        written, beyond = written[:cut].rstrip(), written[cut:].strip()
    label = _label(written, system) if ":" in written or " - " in written else ""
    if not label and written[:1].isalpha() and (to_do := _TO_DO_WITH.match(written)):
        label = to_do.group()
    written = written[len(label) :]
    part_of = _PART_OF.match(written) if written[:1] > "9" or written[:2] == "1 " else None
    begin = part_of.end() if part_of is not None else 0
    line = Unfinished(head(written[begin:], system), system)
    if label:
        line.remark(label.strip(" :-"))
        line.flags.update({purpose_named(f"for {label.lower()}")} - {""})
    if part_of is not None:
        said = part_of.group(1).lower()
        line.flags.update(f"{part} of" for part in _PARTS if part in said)
        line.prepare(part_of.group().rstrip(), before_name=True)
    begun = begin + line.head.end
    if line.head.end:
        line.note("amount", written[begin:begun].strip())
    if "percent of another" in line.flags:
        line.comment.append(written[begin:begun].strip())
    _read_rest(written[begun:].strip(), line)
    if beyond:
        line.comment.append(beyond)
        line.note("comment", beyond)
    return _finished(text, line)


def _label(written: str, system: System) -> str:
    """Return "Optional: " of "Optional: 1 tsp chilli"; "Stock: 1 litre" is no label."""
    found = _LABEL.match(written)
    if found is None:
        return ""
    rest = written[found.end() :]
    begun = head(rest, system)
    named = rest[begun.end :].strip(" ,.;:")
    if not named or WORD_CLASSES.get(named.split(" ", 1)[0].lower()):
        return ""
    return found.group() if begun.end or found["aside"] else ""


def _read_rest(rest: str, line: Unfinished) -> None:
    if not rest:
        return
    rest = _without_metric_end(rest, line)
    begun = line.head.quantities
    if rest[0] == "," and begun and begun[0].measure == "clove":  # "3 cloves, 1 cinnamon stick"
        begun[0] = Quantity(begun[0].low, begun[0].high, "piece")
        line.name.append("cloves")
    pieces = [rest]
    if _MARKED.search(rest):
        pieces = [piece for piece in map(str.strip, _PIECES.split(rest)) if piece]
    named = False
    index = 0
    while index < len(pieces):
        piece = pieces[index]
        index += 1
        if piece in _MARKS:
            named = named or bool(line.name and not describes(line.name[-1].split()))
        elif piece[0] == "(":
            read_bracket(piece, line, in_name=not named)
        elif named or _goes_on(piece, line):
            named = True
            read_clause(piece, line)
        else:
            read_name(piece, line)
            if line.name and index < len(pieces) and pieces[index] == ",":
                index += read_list(pieces[index:], line)


def _goes_on(piece: str, line: Unfinished) -> bool:
    """Return whether text after a bracket is a clause rather than more of the name."""
    if line.name and piece[0].isdigit() and not line.head.quantities:
        return True  # "rice (basmati) 2 cups"
    return bool(
        line.name
        and not describes(line.name[-1].split())
        and WORD_CLASSES.get(piece.split(" ", 1)[0].lower())
    )


def _without_metric_end(rest: str, line: Unfinished) -> str:
    """Read "1 cup rice 250 mL": the metric twin at the end of the line."""
    quantities = line.head.quantities
    if (
        rest[-1] not in "lLg"
        or not quantities
        or MEASURES[quantities[0].measure] not in {"volume", "mass"}
    ):
        return rest
    match = _METRIC_END.search(rest)
    if match is None or "plus" in rest or "drained" in rest:
        return rest
    line.count(amounts(match.group(1), 0, line.system), "")
    line.note("amount", match.group(1))
    return rest[: match.start()].rstrip(" ,")


def _finished(text: str, line: Unfinished) -> Split:
    head_ = line.head
    name = " ".join(line.name).strip(" :;,.-/")
    if name.lower() in _NO_NAME and head_.quantities:  # "2 cloves, ground"
        line.preparation.append(name)
        name = ""
    if head_.quantities and head_.quantities[0].measure == "piece":
        name = _without_unit(name, line)
    name = name or _recovered(line)
    if head_.quantities and head_.quantities[0].measure == "piece":
        name = _without_part(name, line)
    if line.flags and name.lower() in {"egg", "eggs"}:
        for part in ("yolk", "white"):
            if f"{part} of" in line.flags:
                name = f"egg {part}s"  # "whites of 3 eggs" are egg whites
    weighed = line.weighed
    return Split(
        text=text,
        quantities=tuple(head_.quantities) if weighed is None else (weighed,),
        packs=head_.packs if weighed is None else 1.0,
        container=head_.container,
        size=head_.size,
        name=name,
        alternatives=tuple(line.alternatives),
        preparation=", ".join(line.preparation),
        comment=", ".join(line.comment),
        meaning=line.meaning,
        flags=frozenset(line.flags),
        measured_as=", ".join(line.measured_as),
        parts=tuple(line.parts),
        drained=line.drained,
    )


def _without_unit(name: str, line: Unfinished) -> str:
    """Read "3 garlic cloves" as three cloves of garlic."""
    first_word, _, rest = name.partition(" of ")
    counted = measure_named(first_word) if rest else None
    if counted is not None and MEASURES[counted] in COUNTS:
        first = line.head.quantities[0]
        line.head.quantities[0] = Quantity(first.low, first.high, counted)
        return rest  # "2 chopped cloves of garlic"
    before, _, last = name.rpartition(" ")
    if not before or describes(before.split()) or "rack" in before.lower() or before[-4:] == " the":
        return name  # a rack of ribs is no rib
    measure = measure_named(last)
    if measure in _TAIL_UNITS or (before.lower(), measure) in _TAIL_AFTER:
        first = line.head.quantities[0]
        line.head.quantities[0] = Quantity(first.low, first.high, measure or "piece")
        return before
    return name


def _without_part(name: str, line: Unfinished) -> str:
    """Read "½ lemon juice" as the juice of half a lemon."""
    before, _, last = name.rpartition(" ")
    if not before or last.lower() not in {"juice", "zest"}:
        return name
    line.flags.add(f"{last.lower()} of")
    return before.rstrip("'")


def _recovered(line: Unfinished) -> str:
    """Return a name for a line whose unit, or whose preparation, is all there is to name it by."""
    quantities = line.head.quantities
    for part in line.parts:
        if part.kind == "amount" and quantities:
            word = part.text.rpartition(" ")[2]
            measure = quantities[0].measure
            if (
                measure != "piece"
                and MEASURES[measure] in COUNTS
                and measure_named(word) == measure
            ):
                quantities[0] = Quantity(quantities[0].low, quantities[0].high, "piece")
                return word
    for stretch in (line.preparation, line.comment):
        if stretch:
            return stretch.pop(0)
    return ""
