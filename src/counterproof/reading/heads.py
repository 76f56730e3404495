"""What a line begins with: its amounts, the packs they come in, and sizes.

"2 x 400 g tins", "1 (14-ounce) can", "8 5-inch sheets", "a small handful of", "½ of an 8-ounce
package", "1 large or 2 small". Where the line counts packs, the quantities are per pack.
"""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Final

from counterproof.reading.any_case import any_case
from counterproof.reading.model import Quantity
from counterproof.reading.numbers import FIGURE
from counterproof.reading.unit_words import UnitWords, unit_at, unit_may_follow
from counterproof.reading.words import FILLS, SIZES
from counterproof.reading.written_amounts import ABOUT, NO_MORE, Amount, amounts, bracketed, joined
from counterproof.units import CONTAINERS, MEASURES, System, measure_named

_TIMES: Final = re.compile(r"\s*[xX*]\s*(?=\d)")
_SIGNS_OF_TIMES: Final = frozenset("xX*")
_TIMES_BEFORE: Final = re.compile(r"[xX]\s?(?=\d)")
_TIMES_AFTER: Final = re.compile(r"\s*[xX]\s+(?=[A-Za-z])")
_SOME: Final = re.compile(
    any_case(
        "some",
        "enough",
        "plenty of",
        "lots of",
        "loads of",
        "lashings of",
        "a lot of",
        "a (?:little )?bit of",
        "a little(?! gem)",
    )
    + r"\s+"
)
_BARE_TWIN: Final = re.compile(rf"/\s*{FIGURE}(?=\s+[A-Za-z])")
_OTHER_COUNT: Final = re.compile(r"\s+or\s+(?=\d)", re.IGNORECASE)
_HEDGES: Final = frozenset(
    {"about", "approx", "approx.", "approximately", "around", "roughly", "circa", "~", "ca.", "c."}
)
_SLASH: Final = re.compile(r"\s*/\s*(?=\d)")
_BY_EYE_UNITS: Final = frozenset(
    "handful pinch dash splash drizzle knob sprig bunch glug dusting sprinkling sprinkle drop drops"
    " dollop squeeze grating twist sprigs pinches dashes handfuls slug fistful head piece clove"
    " slice stick stalk stalks scoop strip bag tin can jar packet package cup cups tbsp tsp teaspoon"
    " tablespoon lump sheet slices pat nut thumb wedge wedges leaf grind grinding grindings gratings"
    " twists cloves bulb ladle ladleful".split()
)
_BY_EYE: Final = re.compile(
    rf"(?:(?i:an?|the|some|one)\s+)?((?:[A-Za-z-]+\s+){{0,2}}?)({any_case(*sorted(_BY_EYE_UNITS))})"
    r"(?:\s+(?i:of)\b|(?=\s))"
)
_OF: Final = re.compile(r"\s+of\s+(?:the\s+|an?\s+)?", re.IGNORECASE)
_PERCENT: Final = re.compile(rf"{FIGURE}(?:\s?(?:-|to)\s?{FIGURE})?\s?%\s*", re.IGNORECASE)
_ANOTHER: Final = re.compile(r"\b(?:by|of) (?:\w+ )*?weight\b", re.IGNORECASE)
_OR_MORE: Final = re.compile(r"\((?:or|to) (\d{1,3})\)")
_HEDGED: Final = re.compile(rf"(?:(?i:whole) |{ABOUT.pattern})(?=\d)")
_PER: Final = re.compile(r"\s+per (?:serving|person|head|portion)(?: of)?\b", re.IGNORECASE)
_THICK: Final = re.compile(r"[\s-]*(?:thick|long|wide|square)\b", re.IGNORECASE)
_TOTAL: Final = frozenset({"total", "in total", "altogether"})
_SPOON: Final = re.compile(r"\s+(?:measuring )?spoons?\b", re.IGNORECASE)
_WEIGHED_WHOLE: Final = frozenset(
    {"piece", "block", "log", "sheet", "loaf", "ball", "bar", "bunch", "stick", "slice"}
)
_CHOICES: Final = ("/", " o", " O")
_BRACKETS: Final = (" (", "(")
_CUT_TO_LENGTH: Final = frozenset({"piece", "knob", "thumb"})


@dataclass(slots=True)
class Head:
    """What stands before the name of a line; the name begins at `end`."""

    end: int = 0
    quantities: list[Quantity] = field(default_factory=list)
    packs: float = 1.0
    container: str = ""
    size: str = ""
    flags: set[str] = field(default_factory=set)


def head(line: str, system: System, row: list[Amount] | None = None) -> Head:
    """Return what a line begins with: amounts, packs, container and size.

    Parameters
    ----------
    line : str
        A tidied line.
    system : System
        Whose cups and spoons.
    row : list of Amount or None
        The amounts at its very beginning, where they are known.

    Returns
    -------
    Head
        With `end` where the name begins; 0 if the line begins with its name.
    """
    found = Head()
    place = 0 if line[:1].isdigit() else _hedged(line, found)
    percent = _PERCENT.match(line, place) if "%" in line else None
    if percent is not None:
        another = _ANOTHER.search(line, percent.end())
        return Head(end=percent.end(), flags={"percent of another"}) if another else Head()
    if not line[place : place + 1].isdigit():
        place = _unmeasured(line, place, found)
    if place or row is None:
        row = amounts(line, place, system)
    if not row:
        return _by_eye(line, place, found)
    for amount in row:
        if amount.flags:
            found.flags.update(amount.flags)
    first = row[0]
    found.size = first.size
    if first.named:
        _read_packed(line, row, found, system)
    else:
        _read_counted(line, first, found, system)
    if line.startswith(_CHOICES, found.end):
        _read_second_choice(line, found, system)
    after = line[found.end : found.end + 2]
    if after == " p" or after[1:].isdigit():
        _read_dimension(line, found, system)
    return found


def _unmeasured(line: str, place: int, found: Head) -> int:
    """Return where the number, or the name, begins after "some" or "a little"."""
    some = _SOME.match(line, place)
    if some is None:
        return place
    found.end = some.end()
    if some.group().lower().startswith("a "):
        found.flags.add("a little")
    return found.end


def _hedged(line: str, found: Head) -> int:
    """Return where the number begins after "about", "scant" or "x"."""
    place = 0
    while not line[place : place + 1].isdigit() and (about := ABOUT.match(line, place)):
        words = about.group().lower().split()
        found.flags.update(word for word in words if word in FILLS)
        if not _HEDGES.isdisjoint(words):
            found.flags.add("about")
        place = about.end()
    if line[place : place + 1] in {"x", "X"} and (times := _TIMES_BEFORE.match(line, place)):
        place = times.end()  # "x2 onions"
    return place


def _by_eye(line: str, place: int, found: Head) -> Head:
    """Read "a small handful of", "knob of", "large pinch"."""
    match = None
    if not _BY_EYE_UNITS.isdisjoint(line[place:].lower().split(None, 4)[:4]):
        match = _BY_EYE.match(line, place)
    words = match.group(1).lower().split() if match is not None else []
    if match is None or any(word not in SIZES and word not in FILLS for word in words):
        return Head(end=found.end, flags=found.flags & {"a little"})
    unit = match.group(2).lower()
    measure = "splash" if unit == "squeeze" else measure_named(unit)
    if measure is None or match.end() >= len(line):
        return Head(end=found.end, flags=found.flags & {"a little"})
    found.quantities.append(Quantity(1.0, 1.0, measure))
    found.size = " ".join(SIZES[word] for word in words if SIZES.get(word))
    found.flags.update(word for word in words if word in FILLS)
    found.end = match.end()
    return found


def _read_second_choice(line: str, found: Head, system: System) -> None:
    """Read past "10 g/¼" without a second unit, "1 large or 2 small", "½ of an 8-oz pack"."""
    twin = _BARE_TWIN.match(line, found.end) if line[found.end : found.end + 1] == "/" else None
    if twin is not None:
        found.end = twin.end()
    if line[found.end : found.end + 2].lower() != " o":
        return
    other = _OTHER_COUNT.match(line, found.end)
    if other is not None and (found.size or found.packs > 1):
        again = head(line[other.end() :], system)
        if again.end and other.end() + again.end < len(line):
            found.end = other.end() + again.end
    of = _OF.match(line, found.end)
    if of is None:
        return
    found.end = of.end()
    if found.quantities[0].measure == "piece" and not found.container:
        pack = amounts(line, found.end, system)
        if pack and pack[-1].named:
            found.packs = found.quantities[0].low
            _read_packed(line, pack, found, system)


def _read_dimension(line: str, found: Head, system: System) -> None:
    """Read past "per person of", and "1cm/½in thick" before what is that thick."""
    per = _PER.match(line, found.end) if line[found.end : found.end + 2] == " p" else None
    if per is not None:
        found.flags.add("per person")
        found.end = per.end()
    place = found.end + 1
    if not line[place : place + 1].isdigit() or not found.quantities:
        return
    row = amounts(line, place, system)
    if row and all(amount.named and MEASURES[amount.measure] == "length" for amount in row):
        thick = _THICK.match(line, row[-1].end)
        found.end = thick.end() if thick is not None else row[-1].end
        found.size = found.size or f"{row[0].low:g} {row[0].measure}"


def _read_counted(line: str, counted: Amount, found: Head, system: System) -> None:
    """Read what follows a bare number: packs of a stated content, or nothing."""
    found.end = place = counted.end
    found.quantities = [counted.quantity]
    times = None
    if not _SIGNS_OF_TIMES.isdisjoint(line[place : place + 2]):
        after = _TIMES_AFTER.match(line, place)  # "3 x onions"
        times = _TIMES.match(line, place)
        found.end = after.end() if after else place
        place = times.end() if times else place
    start = _bracket_at(line, place) if times is None else -1
    if start >= 0:
        more = _OR_MORE.match(line, start)
        if more is not None and counted.high < float(more.group(1)):
            found.quantities = [Quantity(counted.low, float(more.group(1)), "piece")]
            found.end = more.end()
            return
        close = _closing(line, start)
        inner = bracketed(line[start + 1 : close].strip(), system) if close > 0 else None
        if inner is not None and inner[0][-1].named:
            _read_bracketed_pack(line, counted, inner, close + 1, found)
        return
    if times is None:
        while line[place : place + 1] == " ":
            place += 1
        about = _HEDGED.match(line, place)
        if about is not None:
            place = about.end()
    if line[place : place + 1].isdigit():
        _read_content(line, place, counted, found, system, sized=times is None)


def _read_content(
    line: str, place: int, counted: Amount, found: Head, system: System, *, sized: bool
) -> None:
    """Read what each of the things counted holds, or how long it is."""
    pack = amounts(line, place, system)
    if pack and pack[-1].named:
        found.packs = counted.low
        _read_packed(line, pack, found, system)
        found.packs = counted.low
        if sized and MEASURES[pack[0].measure] == "length":
            _take_as_size(found, counted)
        _spread(found, counted)


def _read_bracketed_pack(
    line: str, counted: Amount, inner: tuple[list[Amount], str], at: int, found: Head
) -> None:
    """Read "1 (14-ounce) can", "2 (2-pound) chickens", "2½ (625 mL) cups"."""
    row, word = inner
    found.quantities = [amount.quantity for amount in row]
    unit = unit_at(line, at, counted.high)
    if unit.measure is not None and MEASURES[unit.measure] in {"mass", "volume"}:
        found.quantities.insert(0, Quantity(counted.low, counted.high, unit.measure))
        found.end = unit.end
        return
    pack = _pack_at(line, at)
    found.packs, found.container, found.end = counted.low, pack.measure or "", pack.end
    found.size = found.size or pack.size
    if word in _TOTAL:
        found.quantities.insert(0, counted.quantity)
        found.packs, found.container = 1.0, ""
    elif MEASURES[row[0].measure] == "length":
        _take_as_size(found, counted)
    _spread(found, counted)


def _spread(found: Head, counted: Amount) -> None:
    """Give "4 to 6 (5-ounce) fillets" its range: packs are one number, so it goes inside."""
    if counted.low < counted.high and found.packs == counted.low and found.packs > 0:
        found.packs = 1.0
        found.quantities = [
            Quantity(each.low * counted.low, each.high * counted.high, each.measure)
            for each in found.quantities
        ]


def _take_as_size(found: Head, counted: Amount) -> None:
    """A length before a thing that is not cut to it is its size: "8 5-inch sheets"."""
    if found.container in _CUT_TO_LENGTH:
        return
    length = found.quantities[0]
    found.size = f"{length.low:g} {length.measure}"
    found.quantities = [Quantity(counted.low, counted.high, found.container or "piece")]
    found.packs, found.container = 1.0, ""


def _pack_at(line: str, at: int) -> UnitWords:
    """Return the pack, or the piece cut to a length, whose name begins at a place."""
    unit = unit_at(line, at, 0.0)
    if unit.measure is not None and MEASURES[unit.measure] in {"count", "by eye"}:
        return unit
    return UnitWords("", at)


def _bracket_at(line: str, at: int) -> int:
    """Return where a bracket opens that follows a place directly, or -1."""
    if line[at : at + 1] == "(":
        return at
    return at + 1 if line[at : at + 2] == " (" else -1


def _closing(line: str, start: int) -> int:
    """Return where the bracket that opens at `start` closes, or -1."""
    close = line.find(")", start)
    deeper = line.find("(", start + 1)
    return line.find(")", close + 1) if 0 <= deeper < close else close


def _read_packed(line: str, row: list[Amount], found: Head, system: System) -> None:
    """Read what follows named amounts: more in brackets, then the pack they come in."""
    first = row[0]
    found.quantities = [Quantity(each.low, each.high, each.measure) for each in row]
    found.end = row[-1].end
    word = ""
    if line.startswith(_BRACKETS, found.end):
        word = _read_brackets(line, first, found, system)
    kind = MEASURES[first.measure]
    if first.measure in CONTAINERS or (kind in {"count", "by eye"} and word == "each"):
        if len(found.quantities) > 1 and word not in _TOTAL:
            found.packs, found.container = first.low, first.measure
            del found.quantities[0]
    elif kind == "length":
        pack = _pack_at(line, found.end)
        found.container, found.end = pack.measure or "", pack.end
        found.size = found.size or pack.size
    elif kind == "volume" and "spoon" in line and (spoon := _SPOON.match(line, found.end)):
        found.end = spoon.end()  # "a 15 ml spoon" is a measuring spoon
    elif kind in {"mass", "volume"}:
        of = _OF.match(line, found.end) if line[found.end : found.end + 4] == " of " else None
        if of is None and not unit_may_follow(line, found.end):
            return
        pack = _pack_at(line, of.end() if of else found.end)
        if pack.measure in CONTAINERS or (
            kind == "mass" and pack.measure in _WEIGHED_WHOLE and not of
        ):
            found.container, found.end = pack.measure or "", pack.end
            found.size = found.size or pack.size
            if line.startswith(_BRACKETS, found.end):
                _read_brackets(line, Amount(0, 0, first.measure, named=False, end=0), found, system)


def _read_brackets(line: str, first: Amount, found: Head, system: System) -> str:
    """Read brackets of amounts or of fills, and sums and equivalents after them.

    Returns the last word of the last bracket: "each", "total" or such, or "".
    """
    word = ""
    while (start := _bracket_at(line, found.end)) >= 0:
        close = _closing(line, start)
        if close < 0:
            break
        inside = line[start + 1 : close].strip()
        inner = bracketed(inside, system)
        if inner is not None and inner[1] != "drained":
            found.quantities += [amount.quantity for amount in inner[0]]
            word = inner[1]
        elif all(part in FILLS for part in inside.lower().split()):
            found.flags.update(inside.lower().split())
        else:
            break
        found.end = close + 1
        if line[found.end : found.end + 2] in NO_MORE:
            continue
        total = joined(
            line,
            Amount(first.low, first.high, first.measure, named=first.named, end=found.end),
            system,
        )
        if total.end > found.end:
            found.quantities[0] = total.quantity
            found.end = total.end
        slash = _SLASH.match(line, found.end)
        more = amounts(line, slash.end(), system) if slash is not None else []
        if more and more[-1].named:
            found.quantities += [amount.quantity for amount in more]
            found.end = more[-1].end
    return word
