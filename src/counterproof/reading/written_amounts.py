"""Amounts at a place in the line: numbers with their units, equivalents, sums and packs.

An amount is a number or range, words that say how large or how full, and a unit. Amounts in
a row are equivalents ("250 g/9 oz", "1 cup (125 ml)") or sums ("1 lb 8 oz", "1 cup plus 2
tbsp"). `amounts` reads a row; `head` reads all that a line may begin with, packs included.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Final

from counterproof.reading.model import Quantity
from counterproof.reading.numbers import FIGURE, NUMBER, range_value
from counterproof.reading.words import FILLS, SIZES
from counterproof.units import (
    CONTAINERS,
    MEASURES,
    PLURALS,
    System,
    measure_named,
    unit_kg,
    unit_ml,
)

_UNIT_WORD: Final = re.compile(r'\s*-?\s*([A-Za-zÀ-ÿ]+(?:-[A-Za-z]+)*\.?|")')
_TIMES: Final = re.compile(r"\s*[xX*]\s*(?=\d)")
_OUNCES: Final = re.compile(r"\.?\s*(?:oz|ounces?|ozs)\b\.?", re.IGNORECASE)
_ABOUT: Final = re.compile(
    r"(?:an?\s+)?(?:about|approx(?:\.|imately)?|around|roughly|circa|ca?\.|at least|up to|almost"
    r"|nearly|just over|just under|generous|scant|good|full|slightly heaped|heaped|heaping|rounded"
    r"|level|additional|another|minimum|(?:a )?total of|preferably|the|between|from|weighing"
    r"|each(?: weighing| about)?)\s+|~\s*",
    re.IGNORECASE,
)
_SOME: Final = re.compile(r"some\s+", re.IGNORECASE)
_BARE_TWIN: Final = re.compile(rf"/\s*{FIGURE}(?=\s+[A-Za-z])")
_OTHER_COUNT: Final = re.compile(r"\s+or\s+(?=\d)", re.IGNORECASE)
_DOZEN: Final = re.compile(r"\s+dozen\b", re.IGNORECASE)
_HEDGES: Final = frozenset(
    "about approx approx. approximately around roughly circa ~ ca. c.".split()
)
_NEXT_EQUAL: Final = re.compile(
    r"\s*/+\s*|\s*-\s*(?=\d)|\s+(?=\d)|\s*[;=]\s*|\s*,\s*(?=\d)|\s+or\s+(?=\d)"
)
_NEXT_SUM: Final = re.compile(
    r"\s*,?\s*(?:plus|\+|and|&)\s+(?:an?\s+additional\s+)?", re.IGNORECASE
)
_SLASH: Final = re.compile(r"\s*/\s*(?=\d)")
_TO: Final = re.compile(r"\s*(?:-|to|or)\s*(?=[\d.])", re.IGNORECASE)
_TRAILING: Final = re.compile(
    r"\s*,?\s*(each|in total|total|per person|altogether|or so|approx(?:imately|\.)?|in weight"
    r"|weight|drained weight|drained|net weight)\b\.?",
    re.IGNORECASE,
)
_DIMENSION: Final = frozenset(
    "thick long wide square tall deep diameter round thickness length lengths in-diameter".split()
)
_CUT_FROM: Final = frozenset("piece knob thumb strip slice stick sheet cube square".split())
_WEAK: Final = frozenset(
    "fillet filet leaf bottle cube head stick bar ball block pod glass sheet strip ear nut pat lump"
    " cake pot cob basket container round square log grind slug spoon mug carton box tub bag pack"
    " rib spear shot stem piece chunk fistful frond drop".split()
)
_NEEDS_OF: Final = frozenset("nut pat lump basket cake shot drop pot".split())
_BY_EYE: Final = re.compile(
    r"(?:(?:an?|the|some|one)\s+)?((?:[A-Za-z-]+\s+){0,2}?)(handful|pinch|dash|splash|drizzle|knob"
    r"|sprig|bunch|glug|dusting|sprinkling|sprinkle|drop|drops|dollop|squeeze|grating|twist|sprigs"
    r"|pinches|dashes|handfuls|slug|fistful|head|piece|clove|slice|stick|stalk|stalks|scoop|strip"
    r"|bag|tin|can|jar|packet|package|cup|cups|tbsp|tsp|teaspoon|tablespoon|lump|sheet|slices"
    r"|pat|nut|thumb|wedge|wedges|leaf|grind|grinding|grindings|gratings|twists|cloves|bulb)"
    r"(?:\s+of\b|(?=\s))",
    re.IGNORECASE,
)
_OF: Final = re.compile(r"\s+of\s+(?:the\s+|an?\s+)?", re.IGNORECASE)
_PERCENT: Final = re.compile(rf"{FIGURE}(?:\s?(?:-|to)\s?{FIGURE})?\s?%\s*", re.IGNORECASE)


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


@dataclass(slots=True)
class Head:
    """What stands before the name of a line."""

    end: int = 0
    quantities: list[Quantity] = field(default_factory=list)
    packs: float = 1.0
    container: str = ""
    size: str = ""
    flags: set[str] = field(default_factory=set)


def _unit_at(line: str, at: int, number: float) -> tuple[str | None, int, str, tuple[str, ...]]:
    """Return measure, end, size and flags of the words after a number."""
    size: list[str] = []
    size_end = at
    fills: list[str] = []
    sized = True
    place = at
    for _ in range(4):
        match = _UNIT_WORD.match(line, place)
        if match is None:
            break
        word = match.group(1)
        lower = word.lower()
        if word == '"':
            return "inch", match.end(), " ".join(size), ()
        if lower in {"fl", "fl.", "fluid", "liquid"}:
            ounces = _OUNCES.match(line, match.end())
            if ounces is not None:
                return "floz", ounces.end(), " ".join(size), tuple(fills)
        measure = _measure_after(line, match, number)
        if measure is not None:
            return measure, match.end(), " ".join(size), tuple(fills)
        if lower in SIZES:
            if SIZES[lower] and sized:
                size.append(SIZES[lower])
                size_end = match.end()
        elif lower in {"to", "or", "and"} and size:
            size.append(lower)
        elif lower in FILLS:
            fills.append(lower)
            sized = False
        else:
            break
        place = match.end()
    while size and size[-1] in {"to", "or", "and"}:
        size.pop()
    return None, size_end if size else at, " ".join(size), ()


def _measure_after(line: str, match: re.Match[str], number: float) -> str | None:
    word = match.group(1)
    start, end = match.span(1)
    glued = start > 0 and line[start - 1] in "0123456789-"
    if word in {"in", "in."}:
        if glued or line[end : end + 6].lower() in {" piece", " thick", " knob ", " long,"}:
            return "inch"
        return None
    measure = measure_named(word)
    if measure is None:
        head, hyphen, rest = word.partition("-")
        if hyphen and measure_named(head) in {"inch", "cm", "mm"} and rest:
            return measure_named(head) if rest.split("-")[0] in _DIMENSION else None
        return None
    lower = word.lower().rstrip(".")
    if lower in _NEEDS_OF and lower not in PLURALS and line[end : end + 4] != " of ":
        return None
    if number > 1 and lower in _WEAK and line[end : end + 4] != " of " and not glued:
        return None
    return measure


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
    match = NUMBER.match(line, at)
    if match is None:
        return None
    low, high, lost = range_value(match)
    end = match.end()
    article = match.group("word")
    dozen = _DOZEN.match(line, end)
    if dozen is not None:
        low, high, end = 12 * low, 12 * high, dozen.end()
    flags: tuple[str, ...] = ("space supplied",) if lost else ()
    measure, unit_end, size, fills = _unit_at(line, end, high)
    if measure is None:
        if article is not None and article.lower() in {"a", "an"} and not size:
            more = NUMBER.match(line, end + 1) if line[end : end + 1] == " " else None
            if more is not None and more.group("low") is not None:
                end += 1  # "a 200 g pack": the article counts nothing
                inner = amount_at(line, end)
                if inner is not None and inner.named:
                    return inner
        return Amount(low, high, "piece", False, unit_end, size, flags)
    end = unit_end
    if match.group("to") is None:
        to = _TO.match(line, end)
        if to is not None:
            other = NUMBER.match(line, to.end())
            if other is not None and other.group("to") is None:
                most, _, _ = range_value(other)
                second, second_end, _, _ = _unit_at(line, other.end(), most)
                if second is not None and MEASURES[second] == MEASURES[measure] == "mass":
                    most *= unit_kg(second) / unit_kg(measure)
                    second = measure if to.group().strip() == "to" else second
                if second == measure and most > low:
                    high, end = most, second_end
    return Amount(low, high, measure, True, end, size, (*flags, *fills))


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


def _joined(line: str, first: Amount, system: System) -> Amount:
    """Add what a sum adds: "1 lb 8 oz", "1 cup plus 2 tbsp"."""
    total = first
    while total.named:
        plus = _NEXT_SUM.match(line, total.end)
        place = plus.end() if plus else total.end
        if plus is None:
            while line[place : place + 1] == " ":
                place += 1
        more = amount_at(line, place)
        if more is None or not more.named:
            return total
        if plus is None and (total.measure, more.measure) not in {
            ("lb", "oz"),
            ("pint", "floz"),
            ("kg", "g"),
        }:
            return total
        ratio = _ratio(total.measure, more.measure, system)
        if ratio is None:
            return total
        total = Amount(
            total.low + more.low * ratio,
            total.high + more.high * ratio,
            total.measure,
            True,
            more.end,
            total.size,
            (*total.flags, *more.flags),
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
    first = amount_at(line, at)
    if first is None:
        return []
    row = [_joined(line, first, system)]
    while row[-1].named:
        equal = _NEXT_EQUAL.match(line, row[-1].end)
        if equal is None:
            break
        place = equal.end()
        about = _ABOUT.match(line, place)
        if about:
            place = about.end()
        more = amount_at(line, place)
        if (
            more is None
            or not more.named
            or (MEASURES[more.measure] == "count" and "/" not in equal.group())
        ):
            break
        if "/" not in equal.group() and MEASURES[more.measure] == "length":
            break
        row.append(_joined(line, more, system))
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
    while about := _ABOUT.match(inside, place):
        if about.group().lower().startswith("each"):
            word = "each"
        place = about.end()
    if inside[place : place + 2].lower() in {"a ", "an"}:
        return None
    row = amounts(inside, place, system)
    if not row:
        return None
    end = row[-1].end
    while True:
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


def _quantity(amount: Amount) -> Quantity:
    return Quantity(amount.low, amount.high, amount.measure)


def _container_at(line: str, at: int) -> tuple[str, int, str]:
    """Return the pack, or the piece cut to a length, whose name begins at a place."""
    measure, end, size, _ = _unit_at(line, at, 0.0)
    if measure is not None and (measure in CONTAINERS or MEASURES[measure] in {"count", "by eye"}):
        return measure, end, size
    return "", at, ""


def head(line: str, system: System) -> Head:
    """Return what a line begins with: amounts, packs, container and size.

    Parameters
    ----------
    line : str
        A tidied line.
    system : System
        Whose cups and spoons.

    Returns
    -------
    Head
        With `end` where the name begins.
    """
    found = Head()
    place = 0
    while about := _ABOUT.match(line, place):
        words = about.group().lower().split()
        found.flags.update(word for word in words if word in FILLS)
        if not _HEDGES.isdisjoint(words):
            found.flags.add("about")
        place = about.end()
    percent = _PERCENT.match(line, place)
    if percent is not None:
        found.flags.add("percent of another")
        return found
    some = _SOME.match(line, place)
    if some is not None:
        found.end = place = some.end()
    row = amounts(line, place, system)
    if not row:
        return _by_eye(line, place, found)
    _after_row(line, row, found, system)
    twin = _BARE_TWIN.match(line, found.end)
    if twin is not None:
        found.end = twin.end()  # "10 g/¼ salt": the second unit was left out
    other = _OTHER_COUNT.match(line, found.end)
    if other is not None and (found.size or found.packs > 1):
        again = head(line[other.end() :], system)
        if again.end and other.end() + again.end < len(line):
            found.end = other.end() + again.end  # "1 large or 2 small": the first is taken
    if found.end and (of := _OF.match(line, found.end)):
        found.end = of.end()
        pack = amounts(line, found.end, system)
        if (
            pack
            and pack[-1].named
            and not found.container
            and found.quantities[0].measure == "piece"
        ):
            # "½ of 8-ounce package"
            found.packs = found.quantities[0].low
            _packed(line, pack, found, system)
    return found


def _by_eye(line: str, place: int, found: Head) -> Head:
    match = _BY_EYE.match(line, place)
    if match is None:
        return found
    words = match.group(1).lower().split()
    if any(word not in SIZES and word not in FILLS for word in words):
        return found
    unit = match.group(2).lower()
    measure = "splash" if unit == "squeeze" else measure_named(unit)
    if measure is None or match.end() >= len(line):
        return found
    found.quantities.append(Quantity(1.0, 1.0, measure))
    found.size = " ".join(SIZES[word] for word in words if SIZES.get(word))
    found.flags.update(word for word in words if word in FILLS)
    found.end = match.end()
    return found


def _after_row(line: str, row: list[Amount], found: Head, system: System) -> None:
    first = row[0]
    found.flags.update(flag for amount in row for flag in amount.flags)
    found.size = first.size
    if first.named:
        _packed(line, row, found, system)
        return
    found.end = first.end
    times = _TIMES.match(line, first.end)
    place = times.end() if times else first.end
    opened = re.match(r"\s*\(\s*", line[place : place + 3]) if not times else None
    if opened is not None:
        close = line.find(")", place)
        inner = (
            bracketed(line[place + opened.end() : close], system)
            if 0 <= close < place + 80
            else None
        )
        if inner is not None and inner[0][-1].named:
            found.quantities = [_quantity(amount) for amount in inner[0]]
            measure, end, size, _ = _unit_at(line, close + 1, first.high)
            if measure is not None and MEASURES[measure] in {"mass", "volume"}:
                # "2½ (625 mL) cups"
                found.quantities.insert(0, Quantity(first.low, first.high, measure))
                found.end = end
                return
            found.packs = first.low
            found.container, found.end, size = _container_at(line, close + 1)
            found.size = found.size or size
            if inner[1] in {"total", "in total", "altogether"}:
                found.quantities.insert(0, _quantity(first))
                found.packs, found.container = 1.0, ""
            elif MEASURES[inner[0][0].measure] == "length":
                _sized(found, first)
            return
    elif times is None:
        while line[place : place + 1] == " ":
            place += 1
    about = _ABOUT.match(line, place) if not times else None
    if about is not None:
        place = about.end()
    pack = amounts(line, place, system) if times or line[place : place + 1].isdigit() else []
    if pack and pack[-1].named:
        found.packs = first.low
        _packed(line, pack, found, system)
        found.packs = first.low
        if not times and MEASURES[pack[0].measure] == "length":
            _sized(found, first)
        return
    found.quantities = [_quantity(first)]


def _sized(found: Head, counted: Amount) -> None:
    """A length before a thing that is not cut to it is its size: "8 5-inch sheets"."""
    if found.container in {"piece", "knob", "thumb"}:
        return
    length = found.quantities[0]
    found.size = f"{length.low:g} {length.measure}"
    found.quantities = [Quantity(counted.low, counted.high, found.container or "piece")]
    found.packs, found.container = 1.0, ""


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


def _packed(line: str, row: list[Amount], found: Head, system: System) -> None:
    """Read what follows named amounts: more in brackets, then the pack they come in."""
    first = row[0]
    quantities = [_quantity(amount) for amount in row]
    end = row[-1].end
    word = ""
    while (start := _bracket_at(line, end)) >= 0:
        close = _closing(line, start)
        inside = line[start + 1 : close].strip()
        inner = bracketed(inside, system) if close > 0 else None
        if inner is None:
            if close < 0 or not all(part in FILLS for part in inside.lower().split()):
                break
            found.flags.update(inside.lower().split())
        else:
            quantities += [_quantity(amount) for amount in inner[0]]
            word = inner[1]
        end = close + 1
        sum_more = _joined(line, Amount(first.low, first.high, first.measure, True, end), system)
        if sum_more.end > end:
            quantities[0] = _quantity(sum_more)
            end = sum_more.end
        slash = _SLASH.match(line, end)
        if slash is not None and (more := amounts(line, slash.end(), system)) and more[-1].named:
            quantities += [_quantity(amount) for amount in more]
            end = more[-1].end
    kind = MEASURES[first.measure]
    found.quantities = quantities
    found.end = end
    if first.measure in CONTAINERS and len(quantities) > 1:
        if "total" not in word and "altogether" not in word:
            found.packs, found.container = first.low, first.measure
            found.quantities = quantities[1:]
        return
    if kind == "length":
        found.container, found.end, size = _container_at(line, end)
        found.size = found.size or size
    elif kind in {"mass", "volume"}:
        of = _OF.match(line, end) if line[end : end + 4] == " of " else None
        container, pack_end, size = _container_at(line, of.end() if of else end)
        if container in CONTAINERS or (container == "piece" and not of) or container == "block":
            found.container, found.end = container, pack_end
            found.size = found.size or size
            _packed_again(line, found, system)


def _packed_again(line: str, found: Head, system: System) -> None:
    """Read a bracket after the pack: "1 10-oz can (280 g)"."""
    end = found.end
    if line[end : end + 2] != " (":
        return
    close = line.find(")", end)
    inner = bracketed(line[end + 2 : close], system) if close > 0 else None
    if inner is not None:
        found.quantities += [_quantity(amount) for amount in inner[0]]
        found.end = close + 1
