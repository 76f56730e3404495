"""An ingredient line split into its parts by a grammar, before any food is looked up.

A line is read from the left: what it begins with (`heads`), then the name up to the first comma
or the first word that cannot belong to it (`naming`), then the rest, clause by clause
(`clauses`). Every word of the line lands in one of `Split.parts`: nothing is dropped in silence.
"""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from counterproof.reading.clauses import read_bracket, read_clause
from counterproof.reading.heads import head
from counterproof.reading.model import Part, Quantity, Split
from counterproof.reading.naming import read_list, read_name
from counterproof.reading.plain_lines import plain_line
from counterproof.reading.purposes import purpose_named
from counterproof.reading.tidying import tidied
from counterproof.reading.unfinished import COUNTS, Unfinished, complete, describes
from counterproof.reading.words import NO_NAME, WORD_CLASSES
from counterproof.reading.written_amounts import amounts
from counterproof.units import MEASURES, System, measure_named

if TYPE_CHECKING:
    from counterproof.reading.written_amounts import Amount

LONGEST: Final = 600
"""Characters of a line that are read; no ingredient takes more, the rest is kept as a comment."""

_PIECES: Final = re.compile(r"(\([^()]*(?:\([^()]*\)[^()]*)*\)?|\)|,(?!\d)|;| - |: )")
_COMMAS: Final = re.compile(r"(,)(?!\d)")
_MARKS: Final = frozenset({",", ";", "-", ":", ")"})
_PARTS: Final = "juice zest rind peel yolk white leaves seeds pulp flesh".split()
_HOW_PARTED: Final = (
    "finely freshly thinly coarsely roughly strained grated pared squeezed chopped shredded fresh long"
    " thin very".split()
)
_PART_BEGINNINGS: Final = frozenset(
    {word[:2] for word in (*_PARTS, *_HOW_PARTED, "meat", "kernels", "the", "an", "strip")}
)
"""The first two letters of what `_PART_OF` may begin with, after an article."""
_ARTICLES: Final = frozenset({"1 ", "a "})
_PART_OF: Final = re.compile(
    rf"(?:the\s+|an?\s+|1\s+)?((?:(?:{'|'.join(_HOW_PARTED)})\s+)*"
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
_METRIC_LAST: Final = frozenset("lLg")
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
    if not written[:1].isdigit() or len(written) > LONGEST:
        return by_grammar(text, written, system)
    row = amounts(written, 0, system)
    plain = plain_line(text, written, row) if row else None
    return plain or by_grammar(text, written, system, row)


def by_grammar(text: str, written: str, system: System, row: list[Amount] | None = None) -> Split:
    """Return the parts of any line, read from the left.

    Parameters
    ----------
    text : str
        The line as written.
    written : str
        The same, tidied.
    system : System
        Whose cups and spoons.
    row : list of Amount or None
        The amounts it begins with, where they are known.

    Returns
    -------
    Split
        Its amounts, name, preparation and the rest.
    """
    beyond = ""
    if len(written) > LONGEST:
        cut = written.rfind(" ", 0, LONGEST) + 1 or LONGEST
        written, beyond = written[:cut].rstrip(), written[cut:].strip()
    label = _label(written, system)
    written = written[len(label) :]
    begin = 0
    begins = written[:2].lower()
    if begins in _ARTICLES:
        begins = written[2:4].lower()
    part_of = _PART_OF.match(written) if begins in _PART_BEGINNINGS else None
    if part_of is not None:
        begin = part_of.end()
        row = None
    line = Unfinished(head(written[begin:] if begin else written, system, row), system)
    if label:
        line.remark(label.strip(" :-"))
        line.flags.update({purpose_named(f"for {label.lower()}")} - {""})
    if part_of is not None:
        said = part_of.group(1).lower()
        line.flags.update(f"{part} of" for part in _PARTS if part in said)
        line.prepare(part_of.group().rstrip(), before_name=True)
    begun = begin + line.head.end
    if line.head.end:
        line.parts.append(Part("amount", written[begin:begun].strip()))
        if "percent of another" in line.flags:
            line.comment.append(written[begin:begun].strip())
    _read_rest(written[begun:].strip(), line)
    if beyond:
        line.comment.append(beyond)
        line.note("comment", beyond)
    return _finished(text, line)


def _label(written: str, system: System) -> str:
    """Return "Optional: " of "Optional: 1 tsp chilli"; "Stock: 1 litre" is no label."""
    if " with " in written and (to_do := _TO_DO_WITH.match(written)) is not None:
        return to_do.group()
    found = _LABEL.match(written) if ":" in written or " - " in written else None
    if found is None:
        return ""
    rest = written[found.end() :]
    begun = head(rest, system)
    named = rest[begun.end :].strip(" ,.;:")
    if not named or WORD_CLASSES.get(named.split(" ", 1)[0].lower()):
        return ""
    return found.group() if begun.end or found["aside"] else ""


def _read_rest(rest: str, line: Unfinished) -> None:
    if not rest or rest in _MARKS:
        return
    if rest[0] == ",":
        _name_cloves(line)
    if rest[-1] in _METRIC_LAST:
        rest = _without_metric_end(rest, line)
    pieces = _pieces(rest)
    if len(pieces) == 1 and rest[:1] not in {"(", ")"}:
        read_name(rest, line)
        return
    lower = rest.lower()
    may_list = "or " in lower or "and " in lower or "each" in lower
    named = False
    index = 0
    while index < len(pieces):
        piece = pieces[index]
        index += 1
        if piece in _MARKS:
            named = named or bool(line.name and complete(line.name[-1]))
        elif piece[0] == "(":
            read_bracket(piece, line, in_name=not named)
        elif named or _goes_on(piece, line):
            named = True
            read_clause(piece, line)
        else:
            read_name(piece, line)
            if may_list and line.name and index < len(pieces) and pieces[index] == ",":
                index += read_list(pieces[index:], line)


def _pieces(rest: str) -> list[str]:
    """Return the brackets, and what stands between marks, with the marks."""
    if "(" in rest or ")" in rest or ":" in rest or ";" in rest or " - " in rest:
        pieces = _PIECES.split(rest)
    elif "," in rest:
        pieces = _COMMAS.split(rest)
    else:
        return [rest]
    return [piece for piece in map(str.strip, pieces) if piece]


def _name_cloves(line: Unfinished) -> None:
    """Read "3 cloves, 1 cinnamon stick": nothing is cloven, the spice is counted."""
    quantities = line.head.quantities
    if quantities and quantities[0].measure == "clove":
        quantities[0] = Quantity(quantities[0].low, quantities[0].high, "piece")
        line.name.append("cloves")


def _goes_on(piece: str, line: Unfinished) -> bool:
    """Return whether text after a bracket is a clause rather than more of the name."""
    if line.name and piece[0].isdigit() and not line.head.quantities:
        return True  # "rice (basmati) 2 cups"
    return bool(
        line.name and complete(line.name[-1]) and WORD_CLASSES.get(piece.split(" ", 1)[0].lower())
    )


def _without_metric_end(rest: str, line: Unfinished) -> str:
    """Read "1 cup rice 250 mL": the metric twin at the end of the line."""
    quantities = line.head.quantities
    if not quantities or MEASURES[quantities[0].measure] not in {"volume", "mass"}:
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
    if head_.quantities and name.lower() in NO_NAME:  # "2 cloves, ground"
        line.preparation.append(name)
        name = ""
    if " " in name and line.counts_pieces:
        name = _without_unit(name, line)
    name = name or _recovered(line)
    if " " in name and line.counts_pieces:
        name = _without_part(name, line)
    if line.flags and name.lower() in {"egg", "eggs"}:
        for part in ("yolk", "white"):
            if f"{part} of" in line.flags:
                name = f"egg {part}s"  # "whites of 3 eggs" are egg whites
    weighed = line.weighed
    return Split(
        text,
        tuple(head_.quantities) if weighed is None else (weighed,),
        head_.packs if weighed is None else 1.0,
        head_.container,
        head_.size,
        name,
        tuple(line.alternatives),
        ", ".join(line.preparation),
        ", ".join(line.comment),
        line.meaning,
        frozenset(line.flags),
        ", ".join(line.measured_as),
        tuple(line.parts),
        line.drained,
    )


def _without_unit(name: str, line: Unfinished) -> str:
    """Read "3 garlic cloves" as three cloves of garlic."""
    counted = None
    if " of " in name:
        first_word, _, rest = name.partition(" of ")
        counted = measure_named(first_word) if rest else None
    if counted is not None and MEASURES[counted] in COUNTS:
        first = line.head.quantities[0]
        line.head.quantities[0] = Quantity(first.low, first.high, counted)
        return rest  # "2 chopped cloves of garlic"
    before, _, last = name.rpartition(" ")
    measure = measure_named(last)
    if measure is None or describes(before.split()) or "rack" in before.lower():
        return name  # a rack of ribs is no rib
    if before.endswith(" the"):
        return name
    if measure in _TAIL_UNITS or (before.lower(), measure) in _TAIL_AFTER:
        first = line.head.quantities[0]
        line.head.quantities[0] = Quantity(first.low, first.high, measure)
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
