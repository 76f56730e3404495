"""How long what a recipe makes keeps: its class of dish, and what government tables give it.

Every class that fits is asked and the shortest time is taken. A dish without a class has no rule.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final, Literal

from counterproof.marks import Mark
from counterproof.physics.answer import Ruling, Verdict
from counterproof.physics.cautions import DEFER
from counterproof.physics.cooling_rules import ASK
from counterproof.physics.keeping import Store, keeping, keeping_verdict
from counterproof.plan import constants as c
from counterproof.plan.authorities import authority
from counterproof.plan.pot import is_at_table
from counterproof.reading.model import Constituent, Reading

_DAY: Final = 86400.0
_MEAT: Final = frozenset({"beef", "pork", "lamb", "veal", "game", "offal"})
_WET: Final = frozenset({"boil", "simmer", "poach", "slow_cook", "cook"})
_HEATED: Final = _WET | {"bake", "fry", "grill", "steam", "microwave", "heat"}
_PRESERVE: Final = re.compile(
    r"\b(?:cordial|syrup|squash drink|jam|jelly|marmalade|chutney|pickles?|relish|ketchup"
    r"|infused oil|liqueur|lemonade|shrub)\b"
)
_STOCK: Final = re.compile(r"\b(?:stock|broth|bouillon)\b")
_SOUP: Final = re.compile(r"\b(?:soup|stew|chowder|casserole|curry|chilli|dal|ragout|goulash)\b")


@dataclass(frozen=True, slots=True)
class Kept:
    """A stay that is planned or possible, and what the tables say.

    Parameters
    ----------
    where : str
        fridge, freezer or cupboard.
    dish : str
        Class of dish that decides; "" where none fits.
    table : str
        What the table gives: "3 to 4 days"; "" where there is no row.
    planned : float or None
        Days planned; None where the recipe plans none. [day]
    verdict : Verdict
        What the rule says to it.
    """

    where: Literal["fridge", "freezer", "cupboard"]
    dish: str
    table: str
    planned: float | None
    verdict: Verdict

    @property
    def says(self) -> str:
        """One sentence for print."""
        if not self.table:
            return f"In the {self.where}: {self.verdict.message}"
        lead = (
            f"In the {self.where}: {self.table} for {self.dish} ({authority(self.verdict.source)})"
        )
        if self.planned is None:
            return f"{lead}."
        judged = {
            "within": "within it",
            "too close": "at its long end: eat it sooner, or freeze part of it",
            "over": "past it, a matter of quality"
            if self.where == "freezer"
            else "past it: freeze part of it, or make less",
        }[self.verdict.verdict]
        return f"{lead}; {_days(self.planned)} planned, {judged}."

    @property
    def mark(self) -> Mark | None:
        """A mark on the recipe where the plan does not stand; in a freezer it is only a note."""
        if self.verdict.verdict not in {"too close", "over"}:
            return None
        level: Literal["note", "doubt"] = "note" if self.where == "freezer" else "doubt"
        return Mark(level, "keeps-shorter", f"{self.says} {DEFER}")

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "where": self.where,
            "dish": self.dish,
            "table": self.table or None,
            "planned_days": self.planned,
            **self.verdict.to_dict(),
        }


def dishes_of(reading: Reading) -> tuple[str, ...]:
    """The classes of dish that the tables may know a recipe by.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    tuple of str
        Keys of `physics.keeping`; empty for preserves, bread and what is not cooked.
    """
    title = reading.recipe.title.lower()
    kinds = {process.kind for step in reading.steps for process in step.processes}
    parts = [
        part
        for line in reading.lines
        if not is_at_table(line)
        for part in line.constituents
        if part.mass is not None and part.mass.mean > 0.0
    ]
    if is_preserve(reading) or not kinds & _HEATED or not parts:
        return ()
    if _share(parts, {"flour & starch", "butter & fats", "sugars & syrups"}) > c.DOUGH.value:
        return ()
    found = []
    has = {part.food.food_class for part in parts if _share([part], {part.food.food_class})}
    if _STOCK.search(title):
        found.append("stock or broth")
    elif _SOUP.search(title) or ("bake" not in kinds and _is_wet(parts)):
        found.append("soup or stew")
    elif "bake" in kinds and _share(parts, {"fruit", "sugars & syrups"}) < c.PUDDING.value:
        found.append("casserole")
    if has & (_MEAT | {"poultry", "fish", "shellfish", "eggs"}):
        found.append("leftovers with meat, fish, poultry or egg")
    names = {"rice": "cooked rice", "pasta & noodles": "cooked pasta", "fish": "cooked fish",
             "shellfish": "cooked shellfish", "poultry": "cooked poultry dish"}  # fmt: skip
    found += [dish for food_class, dish in names.items() if food_class in has]
    return tuple(found) or ("leftovers",)


def is_preserve(reading: Reading) -> bool:
    """Whether it is a cordial, a jam, a pickle or the like, to which no table of leftovers fits.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    bool
        By its title, or where much of it is sugar.
    """
    parts = [
        part
        for line in reading.lines
        if not is_at_table(line)
        for part in line.constituents
        if part.mass is not None
    ]
    if _PRESERVE.search(reading.recipe.title.lower()) is not None:
        return True
    return _share(parts, {"sugars & syrups"}) > c.SYRUP.value


def kept_of(reading: Reading) -> tuple[Kept, ...]:
    """What the tables say to every planned stay; to fridge and freezer where none is planned.

    Parameters
    ----------
    reading : Reading
        The recipe as understood.

    Returns
    -------
    tuple of Kept
        Empty for what is not cooked and not planned to be kept.
    """
    dishes = dishes_of(reading)
    planned = reading.recipe.keep
    if planned:
        return tuple(_kept(dishes, keep.where, keep.days) for keep in planned)
    stores: tuple[Store, ...] = ("fridge", "freezer")
    possible = [_kept(dishes, store, None) for store in stores] if dishes else []
    return tuple(kept for kept in possible if kept.table)


def _kept(
    dishes: tuple[str, ...], where: Literal["fridge", "freezer", "cupboard"], days: float | None
) -> Kept:
    if where == "cupboard":
        return Kept(where, "", "", days, _no_rule(where))
    rows = [row for dish in dishes if (row := keeping(dish, where)) is not None]
    if not rows:
        return Kept(where, "", "", days, _no_rule(where))
    row = min(rows, key=lambda each: (each.longest.value, each.shortest.value))
    low, high = row.shortest.value / _DAY, row.longest.value / _DAY
    table = _days(high) if low == high else f"{low:.0f} to {_days(high)}"
    if days is None:
        said = Verdict(f"keeping in the {where}: {row.food}", "no rule", table, row.source)
    else:
        said = keeping_verdict(row.food, where, days * _DAY)
    return Kept(where, row.food, table, days, said)


def _no_rule(where: str) -> Verdict:
    verdict: Ruling = "no rule"
    said = f"no table gives a time for this: {ASK}."
    return Verdict(f"keeping in the {where}", verdict, said, "common practice")


def _share(parts: list[Constituent], classes: set[str]) -> float:
    """Share of the mass, water left out, in some classes. [1]"""
    masses = [
        (part.food.food_class, part.mass.mean)
        for part in parts
        if part.mass is not None and part.food.food_class != "water & ice"
    ]
    whole = sum(mass for _, mass in masses)
    held = sum(mass for food_class, mass in masses if food_class in classes)
    return held / whole if whole else 0.0


def _is_wet(parts: list[Constituent]) -> bool:
    liquid = sum(p.mass.mean for p in parts if p.mass is not None and p.food.kind == "liquid")
    return liquid > c.WET * sum(p.mass.mean for p in parts if p.mass is not None)


def _days(days: float) -> str:
    return "1 day" if days == 1.0 else f"{days:g} days"
