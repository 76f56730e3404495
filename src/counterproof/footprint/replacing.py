"""Replace, don't add: what a line says of its pack or its carriage, in the factor's place."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from counterproof.footprint.containers import packed
from counterproof.footprint.factors import Valued
from counterproof.footprint.items import Item
from counterproof.footprint.packaging import PackUse, pack_items
from counterproof.footprint.transport import STATED, Journey, carriage, carried
from counterproof.reading.model import MarkedLine
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Stage, Tables

FLOWN_KM: Final = 7000.0
"""Distance flown where a line says only that it was. [km]

Assumption: from one continent to the next; its spread, `FLOWN_SPREAD`, holds 3,000 to 16,000 km.
"""
FLOWN_SPREAD: Final = 1.6

_LOOSE: Final = re.compile(r"\b(?:loose|unpackaged|unwrapped|without (?:any )?packaging)\b")
_OWN: Final = re.compile(
    r"\b(?:(?:from|in) (?:my|our|your)? ?own (?:jar|bottle|tub|bag|box)|refilled)\b"
)
_PACK: Final = re.compile(
    r"\b(?:in|from)\s+(?:an?\s+|\d+\s+)?(?P<words>(?:[\w.]+\s){0,3}?"
    r"(?:glass(?: jars?| bottles?)?|(?:pet|plastic) bottles?|jars?|cartons?|cans?|tins?|trays?))\b"
)
_LEG: Final = re.compile(
    r"\b(?P<km>\d[\d,. ]*)\s*km\s+by\s+(?P<first>air|plane|sea|ship|lorry|truck|rail|train|van)\b"
    r"|\bby\s+(?P<mode>air|plane|sea|ship|lorry|truck|rail|train|van)\b(?:,?\s*(?P<far>\d[\d,. ]*)\s*km)?"
)
_MODES: Final = {"plane": "air", "ship": "sea", "truck": "lorry", "train": "rail"}
_TINS: Final = frozenset({"tin", "jar", "carton"})
"""Measures and containers of a line that say what it was sold in, material and all."""


@dataclass(frozen=True, slots=True)
class Specific:
    """What a line says of how its food was packed and carried.

    Parameters
    ----------
    without : tuple of Stage
        Stages of the food's factor that it stands in place of.
    packs : tuple of PackUse
        The packs it was sold in; none for loose produce or one's own jar.
    journeys : tuple of Journey
        Legs that were stated.
    why : str
        In whose words, for people.
    """

    without: tuple[Stage, ...]
    packs: tuple[PackUse, ...] = ()
    journeys: tuple[Journey, ...] = ()
    why: str = ""


def specific(
    line: MarkedLine, kitchen: Kitchen, tables: Tables, scale: float = 1.0
) -> Specific | None:
    """What a line says of its pack and its carriage.

    Parameters
    ----------
    line : MarkedLine
        The line as understood.
    kitchen : Kitchen
        Its region's bins.
    tables : Tables
        Containers.
    scale : float
        Servings asked over servings written. [1]

    Returns
    -------
    Specific or None
        None where it says nothing: then the stages inside its factor stand.
    """
    text = line.written.text.lower()
    without: list[Stage] = []
    why: list[str] = []
    packs: tuple[PackUse, ...] = ()
    loose = _LOOSE.search(text) or _OWN.search(text)
    if loose is not None:
        without.append("packaging")
        why.append(loose[0])
    else:
        packs, words = _sold_in(line, text, kitchen, tables, scale)
        if packs:
            without.append("packaging")
            why.append(words)
    journeys, words = _legs(line, text, tables)
    journeys = tuple(
        leg for leg in journeys if carriage(leg.mode, kitchen.region, tables.life_cycle)
    )
    if journeys:
        without.append("transport")
        why.append(words)
    if not without:
        return None
    return Specific(tuple(without), packs, journeys, " and ".join(why))


def _sold_in(
    line: MarkedLine, text: str, kitchen: Kitchen, tables: Tables, scale: float
) -> tuple[tuple[PackUse, ...], str]:
    cycle = tables.life_cycle
    said = _PACK.search(text)
    measure = line.quantity.measure if line.quantity is not None else ""
    kind = line.split.container if line.split.container in _TINS else measure
    bought = line.purchased or line.mass
    if bought is None or bought.scale <= 0:
        return (), ""
    size = _size_said(line)
    if kind in _TINS:
        found = packed(f"{size} {kind}".strip(), cycle)
        words = kind
    elif said is not None:
        found = packed(said["words"], cycle)
        words = said["words"]
    else:
        return (), ""
    if found is None or not found.parts:
        return (), ""
    counted = kind in _TINS and line.quantity is not None
    if counted and line.quantity is not None:
        each = 1.0 if measure not in _TINS else (line.quantity.low + line.quantity.high) / 2
        written = max(1.0, line.split.packs) * each
        count = written * scale
    else:
        count = bought.mean / found.litres  # a kilogram of food fills about a litre
    return (PackUse(found, count, 1.0, kitchen.region),), f"“{words}”"


def _size_said(line: MarkedLine) -> str:
    """The size of a single pack: "400 g" of "4 x 400 g tins"; "" where none is told."""
    for quantity in line.split.quantities:
        if quantity.measure in {"g", "ml", "kg", "l", "oz"}:
            return f"{(quantity.low + quantity.high) / 2:g} {quantity.measure}"
    told = re.search(r"\b(\d+(?:\.\d+)?)\s?(g|ml|kg|l)\b", line.written.text.lower())
    return f"{told[1]} {told[2]}" if told else ""


def _legs(line: MarkedLine, text: str, tables: Tables) -> tuple[tuple[Journey, ...], str]:
    journeys: list[Journey] = []
    words: list[str] = []
    for found in _LEG.finditer(text):
        mode = found["mode"] or found["first"]
        mode = _MODES.get(mode, mode)
        told = found["far"] or found["km"]
        if told is None and (mode != "air" or _told_by_season(line, tables)):
            continue
        km = FLOWN_KM if told is None else float(told.replace(",", "").replace(" ", "").rstrip("."))
        spread = FLOWN_SPREAD if told is None else STATED
        journeys.append(Journey(mode, km, spread, f"distance|{mode}|{km:g}"))
        words.append(found[0])
    if not journeys and re.search(r"\bflown\b|\bair[- ]?freight", text) and not _told_by_season(line, tables):  # fmt: skip
        journeys.append(Journey("air", FLOWN_KM, FLOWN_SPREAD, f"distance|air|{FLOWN_KM:g}"))
        words.append("flown")
    return tuple(journeys), " and ".join(f"“{one}”" for one in words)


def _told_by_season(line: MarkedLine, tables: Tables) -> bool:
    """Whether a factor set has its own figure for this food by air."""
    return line.food is not None and any(
        row.condition == "by air" for row in tables.seasons.get(line.food.id, ())
    )


NOT_IN_IT: Final = "not in it"
"""What a link says of a pack that its factor does not hold: a dried pulse's factor has no tin."""


def without_stages(item: Item, stages: tuple[Stage, ...]) -> Item | None:
    """An item with stages taken out of its factor.

    Parameters
    ----------
    item : Item
        A food's.
    stages : tuple of Stage
        What is taken out.

    Returns
    -------
    Item or None
        None where the factor's source does not tell the stages apart: then nothing specific may
        stand beside it, or it would be counted twice.
    """
    worth = item.worth
    if not isinstance(worth, Valued):
        return item
    if not worth.staged:
        return item if NOT_IN_IT in worth.link.why and stages == ("packaging",) else None
    season = worth.season
    if season is not None and season.row.stage in stages:
        season = None
    return replace(item, worth=replace(worth, season=season, without=stages))


def specified(
    items: Sequence[Item], said: Specific, line: MarkedLine, kitchen: Kitchen, tables: Tables
) -> tuple[list[Item], list[str]]:
    """A line's items with what it says in the place of its factor's stages.

    Parameters
    ----------
    items : sequence of Item
        The line's, valued as usual.
    said : Specific
        What the line says.
    line : MarkedLine
        The line.
    kitchen : Kitchen
        Its region.
    tables : Tables
        All tables.

    Returns
    -------
    tuple of list of Item and list of str
        The line's items, its packs and legs among them; one sentence for each assumption.
    """
    if not items:
        return [], []
    taken = without_stages(items[0], said.without)
    if taken is None:
        what = " and ".join(said.without)
        return [*items], [
            (
                f"{items[0].name}: the line says {said.why}, but its source does not divide by stage; "
                f"its own {what} stands."
            )
        ]
    number = line.written.number
    cycle = tables.life_cycle
    packs, sentences = pack_items(said.packs, cycle)
    bought = line.purchased or line.mass
    kg = sum(use.count * use.pack.kg for use in said.packs)
    legs, told = carried(
        items[0].name,
        kg + (bought.scale if bought is not None else 0.0),
        said.journeys,
        kitchen.region,
        cycle,
        bought.parameters if bought is not None else (),
    )
    beside = [replace(item, kind="line", number=number) for item in (*packs, *legs)]
    out = {stage: kgco2e for stage, kgco2e in taken.replaced.items() if kgco2e}
    if out:
        gone = ", ".join(f"{kg:.2g} kg CO2e of {stage}" for stage, kg in out.items())
        sentences.append(
            f"{taken.name}: the line says {said.why}; {gone} inside its factor is replaced."
        )
    return [taken, *items[1:], *beside], [*sentences, *told]
