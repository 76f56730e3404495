"""Where and when a food was grown: what a line or the kitchen's month says, and what it changes.

A factor set that tells a food in season from the same food out of season, or one flown in from
one that came by sea and road, gives a ratio to its own figure for the food unspecified. That ratio
is applied to whatever factor values the food. Words in the line outrank the kitchen's month.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from math import log
from typing import Final

from counterproof.draws import Lognormal, Parameter
from counterproof.marks import Mark
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Condition, Harvest, SeasonRatio, Tables

DEVIATION: Final = 1.3
"""Geometric standard deviation of a season's ratio in another market, year or set. [1]

Assumption, the same as for a food valued as its relative: the ratios are those of one country's
market. Affects every food whose season or carriage is known.
"""

WESTERN_EUROPE: Final = frozenset(
    ["uk", "eu", "AUT", "BEL", "CHE", "DEU", "DNK", "FRA", "GBR", "IRL", "LUX", "NLD"]
)
"""Regions of a kitchen for which the months of harvest hold."""

MONTHS: Final = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip

_WORDS: Final[tuple[tuple[Condition, re.Pattern[str]], ...]] = (
    (
        "by air",
        re.compile(r"\b(?:by (?:air|plane)|air[- ]?freight(?:ed)?|flown(?: in)?)\b", re.IGNORECASE),
    ),
    (
        "heated greenhouse",
        re.compile(r"\b(?:hot[- ]?house|heated (?:glass|green)[- ]?house)s?\b", re.IGNORECASE),
    ),
    ("out of season", re.compile(r"\b(?:out[- ]of[- ]season|off[- ]season)\b", re.IGNORECASE)),
    (
        "in season",
        re.compile(
            r"\b(?:in[- ]season|seasonal|(?:field|outdoor)[- ]grown|grown outdoors)\b",
            re.IGNORECASE,
        ),
    ),
)
_UNHEATED: Final = re.compile(r"\bunheated\b", re.IGNORECASE)
_UNTOLD: Final = re.compile(
    r"\b(?:imported|from (?:overseas|abroad)|shipped(?: in)?|(?:unheated )?(?:glass|green)[- ]?house)\b",
    re.IGNORECASE,
)
_MONTH: Final = re.compile(  # "may" and "march" are words of their own unless written as names
    r"\b[Ii]n ("
    + "|".join((*MONTHS, *(m.lower() for m in MONTHS if m not in {"May", "March"})))
    + r")\b"
)


@dataclass(frozen=True, slots=True)
class Said:
    """A condition of growing or carriage, in whose words, and whether a month decided it."""

    condition: Condition
    why: str
    by_month: bool


@dataclass(frozen=True, slots=True)
class Applied:
    """What a condition does to a food's factor.

    Parameters
    ----------
    row : SeasonRatio
        The ratio, inside the set that tells.
    said : Said
        What it rests on.
    """

    row: SeasonRatio
    said: Said

    @property
    def parameter(self) -> Parameter:
        """The ratio as a keyed parameter, its mean the published one. [1]"""
        return Parameter(
            f"season|{self.row.food}|{self.row.condition}",
            Lognormal(self.row.ratio, log(DEVIATION)),
        )

    def sentence(self, name: str) -> str:
        """What was applied, in plain words.

        Parameters
        ----------
        name : str
            The food, for people.

        Returns
        -------
        str
            One sentence.
        """
        row = self.row
        return (
            f"{name}: {row.condition} ({self.said.why}), so {row.ratio:.2g} times its usual "
            f"figure, as in the {row.set} set ({row.item} over {row.over}), give or take a factor "
            f"of {DEVIATION} (assumed)."
        )


def condition_said(text: str, kitchen: Kitchen, harvest: Harvest | None) -> Said | None:
    """Where and when a line's food was grown, as far as line or kitchen say.

    Parameters
    ----------
    text : str
        The line as written.
    kitchen : Kitchen
        Its region and month.
    harvest : Harvest or None
        Months in which the food is harvested without heat, where they are known.

    Returns
    -------
    Said or None
        None where nothing is said, or where calendars differ about the month.
    """
    if _UNHEATED.search(text):
        return None
    for condition, words in _WORDS:
        found = words.search(text)
        if found is not None:
            return Said(condition, f"the line says “{found[0]}”", by_month=False)
    month = _MONTH.search(text)
    if month is not None:
        number = MONTHS.index(month[1].capitalize()) + 1
        return _by_month(number, harvest, f"the line says “{month[0]}”")
    if kitchen.month is None or kitchen.region not in WESTERN_EUROPE:
        return None
    return _by_month(kitchen.month, harvest, f"the kitchen's month is {MONTHS[kitchen.month - 1]}")


def _by_month(month: int, harvest: Harvest | None, why: str) -> Said | None:
    if harvest is None:
        return None
    length = (harvest.last - harvest.first) % 12 + 1
    since = (month - harvest.first) % 12
    if since < length:
        return Said("in season", why, by_month=True)
    if since in {length, 11}:  # next to the harvest: calendars differ by as much
        return None
    return Said("out of season", why, by_month=True)


def season_of(line: MarkedLine, food: str, kitchen: Kitchen, tables: Tables) -> Applied | None:
    """What season and carriage do to one food of a line.

    Parameters
    ----------
    line : MarkedLine
        The line as understood.
    food : str
        Food.id of one of its foods.
    kitchen : Kitchen
        Its region and month.
    tables : Tables
        With the seasons and harvests.

    Returns
    -------
    Applied or None
        None where nothing is said, or where no set tells what it changes.
    """
    rows = tables.seasons.get(food, ())
    said = condition_said(line.written.text, kitchen, tables.harvests.get(food)) if rows else None
    if said is None:
        return None
    row = next((row for row in rows if row.condition == said.condition), None)
    return None if row is None else Applied(row, said)


def season_marks(reading: Reading, tables: Tables) -> Mapping[int, tuple[Mark, ...]]:
    """What is noted beside lines about season and carriage.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.
    tables : Tables
        With the seasons and harvests.

    Returns
    -------
    mapping of int to tuple of Mark
        By line number: a note on what was applied, or that nothing could be.
    """
    marks: dict[int, tuple[Mark, ...]] = {}
    for line in reading.lines:
        found = [
            (part.food.name, applied)
            for part in line.constituents
            if (applied := season_of(line, part.food.id, reading.kitchen, tables)) is not None
        ]
        noted = [Mark("note", "season", applied.sentence(name)) for name, applied in found]
        if not noted and line.constituents:
            noted = _not_told(line, reading.kitchen)
        if noted:
            marks[line.written.number] = tuple(noted)
    return marks


def _not_told(line: MarkedLine, kitchen: Kitchen) -> list[Mark]:
    """Marks for words about growing or carriage that no set puts a figure to."""
    text, name = line.written.text, line.constituents[0].food.name
    said = condition_said(text, kitchen, None)
    usual = f"the figure is for {name} as usually sold."
    if said is not None and said.condition == "by air":
        return [
            Mark(
                "doubt",
                "flown",
                f"{_sentence(said.why)}, but no factor set here tells what flying {name} adds: "
                f"{usual} Expect more.",
            )
        ]
    untold = _UNTOLD.search(text)
    if said is None and untold is None:
        return []
    why = said.why if said is not None else f"the line says “{untold[0]}”" if untold else ""
    return [
        Mark("note", "season", f"{_sentence(why)}, but no factor set here tells it apart: {usual}")
    ]


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]
