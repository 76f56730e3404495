"""What a climate win costs elsewhere: land, fresh water and nutrients of the global set's foods."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from counterproof.comparison.covering import MINOR
from counterproof.draws import Draws, Parameter, Streams
from counterproof.footprint.factors import Valued
from counterproof.footprint.held import Held
from counterproof.footprint.items import Item
from counterproof.footprint.shapes import Percentiles
from counterproof.footprint.valuing import Case, charged
from counterproof.life_cycle_rows import KINDS, Burden, Kind
from counterproof.marks import Mark
from counterproof.numerals import percent, plain
from counterproof.rows import Tables

LIKELY: Final = 0.66
"""Share of draws from which one side is taken to be the lower or the higher. [1]

"Likely" in the terms of the IPCC's guidance note (Mastrandrea et al. 2010): 66 to 100 %.
"""

CLEARLY: Final = 1.1
"""Ratio of the means below which a loss is not worth saying. [1] House rule: a tenth."""

TAKES: Final[Mapping[Kind, str]] = {
    "land": "the land",
    "fresh water": "the fresh water",
    "eutrophication": "the nutrients washed into water",
}

BOUNDARY: Final = "ingredients only, from the field to the shop"
"""What the burdens hold: packs, energy and carriage of one's own are not in them."""


@dataclass(frozen=True, slots=True)
class TradeOff:
    """One serving against one on something other than climate.

    Parameters
    ----------
    kind : str
        "land", "fresh water" or "eutrophication".
    unit : str
        "m2·year", "litre" or "g PO4e".
    a, b : float
        Means of one serving of either side. [unit]
    share_a_lower : float
        Share of draws in which a takes less; those that are equal count half. [1]
    loses : bool
        Whether the side that wins on climate clearly takes more.
    """

    kind: Kind
    unit: str
    a: float
    b: float
    share_a_lower: float
    loses: bool

    @property
    def ratio(self) -> float | None:
        """The means, a over b; None where b takes nothing. [1]"""
        return self.a / self.b if self.b > 0 else None

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "burden": self.kind,
            "unit": self.unit,
            "a": self.a,
            "b": self.b,
            "ratio_of_means": self.ratio,
            "share_a_lower": self.share_a_lower,
            "climate_win_loses": self.loses,
            "boundary": BOUNDARY,
        }


@dataclass(frozen=True, slots=True)
class TradeOffs:
    """What two sides take besides greenhouse gases, and the foods that nothing is known of."""

    found: tuple[TradeOff, ...]
    not_covered: tuple[str, ...]  # names of foods; where there are any, nothing is compared


NOTHING: Final = TradeOffs((), ())


def trade_offs(
    a: Case, b: Case, foods: frozenset[str], share_a_lower: float, streams: Streams, held: Held
) -> TradeOffs:
    """What two sides take besides greenhouse gases, where their ingredients differ.

    Parameters
    ----------
    a, b : Case
        The two sides.
    foods : frozenset of str
        Food.id of what a serving of one takes more or less of than a serving of the other.
    share_a_lower : float
        Share of draws in which a is lower on climate. [1]
    streams : Streams
        Seed, number of draws, and the draws already made.
    held : Held
        What was worked out already; it grows.

    Returns
    -------
    TradeOffs
        Nothing where the ingredients are the same, or where the global set lacks one of them
        that weighs.

    Notes
    -----
    A burden of a food is drawn through its published 5th, 50th and 95th percentile across
    producers, no wider, and by one draw for all that is one purchase; what both sides share
    cancels and is not drawn. Means are the published ones.
    """
    if not foods or not a.tables.life_cycle.burdens:
        return NOTHING
    sides = (Side.of(a, held), Side.of(b, held))
    missing = {food for side in sides for food in side.missing(foods)}
    if missing:
        names = sorted(a.tables.foods[food].name for food in missing)
        return TradeOffs((), tuple(names))
    return TradeOffs(
        tuple(_trade_off(kind, sides, foods, share_a_lower, streams, held) for kind in KINDS), ()
    )


@dataclass(frozen=True, slots=True)
class Side:
    """One side: the foods of its batch, each by its class of the global set."""

    case: Case
    items: tuple[tuple[Item, Valued], ...]
    serves: float

    @classmethod
    def of(cls, case: Case, held: Held) -> Side:
        """Return a side.

        Parameters
        ----------
        case : Case
            What is valued.
        held : Held
            What was worked out already; it grows.

        Returns
        -------
        Side
            Without what is no food, or in no class of the set.
        """
        items = charged(case, "global", held).items
        foods = tuple((one, one.worth) for one in items if isinstance(one.worth, Valued))
        return cls(case, foods, case.reading.serves_eaten)

    def missing(self, foods: frozenset[str]) -> set[str]:
        """Return which of some foods weigh and have no burden; water and salt need none.

        Parameters
        ----------
        foods : frozenset of str
            Food.id of each.

        Returns
        -------
        set of str
            Food.id of those that stand for more than a hundredth of the mass.
        """
        tables = self.case.tables
        known = {item.food for item, worth in self.items if _rows(worth, KINDS[0], tables)}
        masses: dict[str, float] = {}
        for line in self.case.reading.lines:
            for part in line.constituents:
                if part.mass is not None and part.food.food_class not in {"water & ice", "salt"}:
                    masses[part.food.id] = masses.get(part.food.id, 0.0) + part.mass.mean
        whole = sum(masses.values())
        return {
            food
            for food, kg in masses.items()
            if food in foods and food not in known and kg > MINOR * whole
        }


def _rows(worth: Valued, kind: Kind, tables: Tables) -> list[tuple[float, Burden]]:
    """Weights and rows of what a unit of a food's amount takes; none where one is lacking."""
    burdens = tables.life_cycle.burdens
    rows = [(part.share, burdens.get((part.factor.item, kind))) for part in worth.components]
    found = [(worth.link.per * share, row) for share, row in rows if row is not None]
    return found if len(found) == len(rows) else []


def _trade_off(
    kind: Kind,
    sides: tuple[Side, Side],
    foods: frozenset[str],
    share_a_lower: float,
    streams: Streams,
    held: Held,
) -> TradeOff:
    means = [0.0, 0.0]
    apart = np.zeros(streams.n)
    unit = ""
    for at, side in enumerate(sides):
        for item, worth in side.items:
            for weight, row in _rows(worth, kind, side.case.tables):
                unit = row.unit
                means[at] += weight * row.mean * item.amount.mean / side.serves
                if item.food in foods:
                    whose = f"{item.food}|{side.case.reading.recipe.purchase}"
                    drawn = _drawn(row, whose, streams) * (weight if at == 0 else -weight)
                    apart += drawn * held.row(item, side.serves, streams).amount
    lower = float((apart < 0).mean() + (apart == 0).mean() / 2)
    wins = -1 if share_a_lower >= LIKELY else 1 if share_a_lower <= 1 - LIKELY else 0
    if wins == -1:  # a is lower on climate
        loses = 1 - lower >= LIKELY and means[0] > CLEARLY * means[1]
    else:
        loses = wins == 1 and lower >= LIKELY and means[1] > CLEARLY * means[0]
    return TradeOff(kind, unit, means[0], means[1], lower, loses)


def _drawn(row: Burden, whose: str, streams: Streams) -> Draws:
    """What one purchase takes, through the published percentiles."""
    points = Percentiles((0.0, 0.05, 0.5, 0.95, 1.0), (row.p05, row.p05, row.p50, row.p95, row.p95))
    return streams.values(Parameter(f"burden|{row.kind}|{row.item}|{whose}", points))


def trade_off_marks(a: str, b: str, found: TradeOffs) -> list[Mark]:
    """What a climate win clearly loses on, in words.

    Parameters
    ----------
    a, b : str
        Names of the two sides.
    found : TradeOffs
        What they take.

    Returns
    -------
    list of Mark
        One note a burden.
    """
    marks: list[Mark] = []
    for one in found.found:
        if not one.loses:
            continue
        a_takes_more = one.a > one.b
        winner, other = (a, b) if a_takes_more else (b, a)
        more, less = max(one.a, one.b), min(one.a, one.b)
        share = 1 - one.share_a_lower if a_takes_more else one.share_a_lower
        times = f"{plain(more / less)} times {TAKES[one.kind]}" if less > 0 else TAKES[one.kind]
        marks.append(
            Mark(
                "note",
                "trade-off",
                f"Lower on climate, but {winner} takes {times} of {other}: more in "
                f"{percent(share)} of the draws ({BOUNDARY}).",
            )
        )
    return marks
