"""How long cooked and opened food keeps, by class: rows of government tables only.

Fridge times hold at 4 °C (40 °F) or below and count from cooking, or from opening where a row
says so; freezer times are about quality only. Where two tables differ, the shorter is taken. A
class without a row has no rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from counterproof.physics.answer import Verdict
from counterproof.physics.cautions import DEFER
from counterproof.physics.cooling_rules import NO_RULE
from counterproof.sourced import Sourced

Store = Literal["fridge", "freezer"]
_DAY: Final = 86400.0


@dataclass(frozen=True, slots=True)
class Keeping:
    """One row of a table.

    Parameters
    ----------
    food : str
        Class of dish.
    store : Store
        fridge or freezer.
    shortest, longest : Sourced
        The table's two ends. [s]
    counted_from : str
        "cooking", "opening" or "buying".
    """

    food: str
    store: Store
    shortest: Sourced
    longest: Sourced
    counted_from: Literal["cooking", "opening", "buying"]

    @property
    def source(self) -> str:
        """Id of the source."""
        return self.longest.source


_CHART: Final = "us-cold-storage"
_KEEPER: Final = "usda-foodkeeper"


def _rows(
    food: str,
    source: str,
    locator: str,
    fridge: tuple[float, float] | None,
    freezer: tuple[float, float] | None = None,
    counted_from: Literal["cooking", "opening", "buying"] = "cooking",
) -> tuple[Keeping, ...]:
    def row(store: Store, days: tuple[float, float]) -> Keeping:
        low, high = (Sourced(day * _DAY, "s", 0.0, source, locator, "") for day in days)
        return Keeping(food, store, low, high, counted_from)

    stores: tuple[tuple[Store, tuple[float, float] | None], ...] = (
        ("fridge", fridge),
        ("freezer", freezer),
    )
    return tuple(row(store, days) for store, days in stores if days is not None)


ROWS: Final[tuple[Keeping, ...]] = (
    *_rows("leftovers", _KEEPER, "products 173, 174", (3, 4), (30, 60)),
    *_rows("leftovers", "usda-nal-leftovers", "most cooked leftovers", (3, 4)),
    *_rows("leftovers with meat, fish, poultry or egg", _KEEPER, "product 173", (3, 4), (60, 90)),
    *_rows("soup or stew", _CHART, "soups and stews", (3, 4), (60, 90)),
    *_rows("soup or stew", _KEEPER, "product 193", (3, 4), (60, 90)),
    *_rows("stock or broth", _KEEPER, "product 484", (3, 4), (60, 90)),
    *_rows("stock or broth", "us-cold-storage-older", "gravy and meat broth", (1, 2), (60, 90)),
    *_rows("gravy", _CHART, "gravy and meat broth", (3, 4), (60, 90)),
    *_rows("gravy", "us-cold-storage-older", "gravy and meat broth", (1, 2), (60, 90)),
    *_rows("casserole", _KEEPER, "product 194", (3, 4)),
    *_rows("casserole", _CHART, "vegetable and meat casseroles", (3, 4), (60, 90)),
    *_rows("cooked meat or poultry", _CHART, "leftover cooked meat or poultry", (3, 4), (60, 180)),
    *_rows("cooked poultry dish", _KEEPER, "product 135", (3, 4), (120, 180)),
    *_rows("cooked fish", _KEEPER, "product 148", (3, 4), (30, 60)),
    *_rows("cooked shellfish", _KEEPER, "product 162", (3, 4), (30, 90)),
    *_rows("cooked rice", _KEEPER, "product 178", (4, 6), (180, 180)),
    *_rows("cooked rice", _KEEPER, "product 174, leftovers such as rice", (3, 4), (30, 60)),
    *_rows("cooked rice", "nz-mpi-leftovers", "rice dishes", (2, 2)),
    *_rows("cooked pasta", _KEEPER, "product 177", (3, 5), (30, 60)),
    *_rows("cooked quinoa", _KEEPER, "product 426", (6, 7), (180, 360)),
    *_rows("pizza", _CHART, "pizza", (3, 4), (30, 60)),
    *_rows("quiche", _KEEPER, "product 211", (3, 5), (60, 90)),
    *_rows("egg, chicken, ham, tuna or pasta salad", _CHART, "salads", (3, 4)),
    *_rows("cooked food eaten cold", "nz-mpi-leftovers", "pasta, potato and roast salads", (2, 2)),
    *_rows("hard-boiled eggs", _KEEPER, "product 23", (7, 7)),
    *_rows("cooked stuffing", _CHART, "stuffing, cooked", (3, 4), (30, 30)),
    *_rows("apple sauce", _KEEPER, "product 562", (21, 21), (240, 360)),
    *_rows("cranberry sauce", _KEEPER, "product 566", (7, 10)),
    *_rows("vinaigrette", _KEEPER, "product 624", (14, 21)),
    *_rows("orange juice, freshly pressed", _KEEPER, "product 457", (2, 3), (14, 21)),
    *_rows("apple juice, freshly pressed", _KEEPER, "product 537", (6, 6), (360, 360)),
    *_rows("lemon juice, freshly pressed", _KEEPER, "product 536", (6, 6), (360, 360)),
    *_rows("fruit pie", _KEEPER, "product 207", (7, 7), (240, 240), "opening"),
    *_rows("opened tin, low acid", _KEEPER, "product 372", (3, 4), None, "opening"),
    *_rows("opened tin, high acid", _KEEPER, "product 373", (5, 7), None, "opening"),
    *_rows("opened tin of fish", _KEEPER, "product 619", (1, 2), None, "opening"),
    *_rows("opened tomato paste", _KEEPER, "product 501", (5, 5), None, "opening"),
    *_rows("opened tomato sauce", _KEEPER, "product 599", (3, 5), None, "opening"),
    *_rows("opened coconut milk", _KEEPER, "product 602", (4, 4), None, "opening"),
    *_rows("opened jar of pesto", _KEEPER, "product 354", (3, 3), None, "opening"),
    *_rows("minced meat, raw", _CHART, "ground meats", (1, 2), (90, 120), "buying"),
    *_rows("steaks, chops, roasts, raw", _CHART, "steaks, chops, roasts", (3, 5), (120, 365),
           "buying"),
    *_rows("poultry, raw, whole", _CHART, "whole poultry", (1, 2), (365, 365), "buying"),
    *_rows("poultry, raw, pieces", _CHART, "poultry pieces", (1, 2), (270, 270), "buying"),
    *_rows("lean fish, raw", _CHART, "lean fish", (1, 3), (120, 240), "buying"),
    *_rows("fatty fish, raw", _CHART, "fatty fish", (1, 3), (60, 90), "buying"),
    *_rows("eggs in shell", _CHART, "eggs in shell", (21, 35), None, "buying"),
)  # fmt: skip
"""Rows as the tables print them; months count as 30 days, a year as 365."""


def keeping(food: str, store: Store) -> Keeping | None:
    """How long a class of dish keeps.

    Parameters
    ----------
    food : str
        `food` of a row.
    store : Store
        fridge or freezer.

    Returns
    -------
    Keeping or None
        The row with the shortest end where tables differ; None where there is no row.
    """
    found = [row for row in ROWS if row.food == food and row.store == store]
    if not found:
        return None
    return min(found, key=lambda row: (row.longest.value, row.shortest.value))


def keeping_verdict(food: str, store: Store, time: float) -> Verdict:
    """What the tables say to a plan.

    Parameters
    ----------
    food : str
        `food` of a row.
    store : Store
        fridge or freezer.
    time : float
        How long it is to be kept, from cooking, opening or buying as the row counts. [s]

    Returns
    -------
    Verdict
        within up to the row's short end, too close up to its long end, over beyond; in a freezer
        beyond is a matter of quality.
    """
    row = keeping(food, store)
    name = f"keeping in the {store}: {food}"
    if row is None:
        return Verdict(name, "no rule", NO_RULE, "common practice")
    low, high = row.shortest.value, row.longest.value
    says = _days(low) if low == high else f"{low / _DAY:.0f} to {_days(high)}"
    said = f"The table says {says} from {row.counted_from}; {_days(time)} are planned."
    if time <= low:
        return Verdict(name, "within", f"{said} {DEFER}", row.source)
    if time <= high:
        said += " That is at the long end: eat it sooner, or freeze part of it."
        return Verdict(name, "too close", f"{said} {DEFER}", row.source)
    over = "Past it quality suffers." if store == "freezer" else "Freeze part of it, or make less."
    return Verdict(name, "over", f"{said} {over} {DEFER}", row.source)


def _days(time: float) -> str:
    days = time / _DAY
    return "1 day" if days == 1.0 else f"{days:.0f} days"
