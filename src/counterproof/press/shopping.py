"""A shopping list in words, for every surface, and as plain text to print or to send."""

from __future__ import annotations

from dataclasses import dataclass
from textwrap import fill
from typing import Final

from counterproof.batch.packs import OnShelf
from counterproof.batch.to_buy import ShoppingList, ToBuy
from counterproof.draws import Range
from counterproof.numerals import plain_mass
from counterproof.press.giving import money
from counterproof.press.plain_text import printable

WIDTH: Final = 78
"""Columns of a plain list: it fits a narrow sheet in a typewriter face. [1]"""

LABEL: Final = "Read every label: nothing here says that a food is free from an allergen."

_UNSEEN: Final = 0.0005
"""A remainder that is not told. [kg]"""

_SHARE_LEFT: Final = 0.1
"""Share of what is taken from which a remainder is told: assumed, a spoon left is no news. [1]"""


@dataclass(frozen=True, slots=True)
class Entry:
    """One food on the list: what to take, its name, what it costs, what to know."""

    take: str
    name: str
    cost: str
    notes: tuple[str, ...]


def entries(listed: ShoppingList) -> tuple[tuple[str, tuple[Entry, ...]], ...]:
    """The list in words, by part of the shop.

    Parameters
    ----------
    listed : ShoppingList
        What has to be bought.

    Returns
    -------
    tuple of (str, tuple of Entry)
        Part of the shop, and what is taken there.
    """
    several = len(listed.dishes) > 1
    return tuple(
        (part, tuple(_entry(item, listed.currency, several=several) for item in items))
        for part, items in listed.parts
    )


def _entry(item: ToBuy, currency: str, *, several: bool) -> Entry:
    cost = item.cost
    return Entry(
        _take(item),
        item.food.name,
        _money(cost, currency) if cost and currency else "",
        tuple(_notes(item, several=several)),
    )


def _money(amount: float, currency: str) -> str:
    return money(Range(amount, amount, amount, amount), currency, "mean")


def _take(item: ToBuy) -> str:
    if not item.packs:
        return "some" if item.by_eye else "none"
    return " + ".join(_packs(pack, count) for pack, count in item.packs)


def _packs(pack: OnShelf, count: int) -> str:
    if pack.sold_by == "weight":
        return pack.says
    if pack.sold_by == "pack":
        return pack.says if count == 1 else f"{count} × {pack.says}"
    if pack.says == "piece":
        return f"{count}"
    plural = f"{pack.says}es" if pack.says.endswith("ch") else f"{pack.says}s"
    return f"{count} {pack.says if count == 1 else plural}"


def _notes(item: ToBuy, *, several: bool) -> list[str]:
    notes = []
    if item.in_house and not item.packs:
        notes.append("the pantry holds enough")
    elif item.in_house:
        notes.append(f"the pantry holds {plain_mass(item.in_house)}")
    if item.packs and item.packs[0][0].sold_by == "piece":
        notes.append(f"about {plain_mass(item.need.mean)} needed")
    if item.by_eye and item.packs:
        notes.append("and some by eye")
    if item.tight:
        notes.append(f"it may take {plain_mass(item.need.p95)}")
    if several:
        notes.append(f"for {_joined(tuple(dict.fromkeys(use.dish for use in item.uses)))}")
    if all(use.optional for use in item.uses):
        notes.append("optional")
    told = item.left > _UNSEEN and item.left >= _SHARE_LEFT * item.bought
    if item.packs and item.packs[0][0].sold_by == "pack" and told:
        notes.append(f"{plain_mass(item.left)} over{_used_up(item)}")
    return notes


def _used_up(item: ToBuy) -> str:
    if not item.elsewhere:
        return ""
    takes = [f"{printable(name)} takes {plain_mass(kg)}" for name, kg in item.elsewhere]
    return f": {_joined(takes)}"


def _joined(words: tuple[str, ...] | list[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} and {words[-1]}"


def heading(listed: ShoppingList) -> str:
    """What the list is for, in one line.

    Parameters
    ----------
    listed : ShoppingList
        What has to be bought.

    Returns
    -------
    str
        Dishes, and how often each is cooked.
    """
    return _joined(
        [
            printable(name) if times == 1 else f"{printable(name)}, {times:g} times"
            for name, times in listed.dishes
        ]
    )


def closing(listed: ShoppingList) -> tuple[tuple[str, str], ...]:
    """What stands under the list: cost, packs, allergens, what is not bought.

    Parameters
    ----------
    listed : ShoppingList
        What has to be bought.

    Returns
    -------
    tuple of (str, str)
        What it is about, and a sentence.
    """
    told = []
    if listed.unread:
        lines = _joined([f"“{printable(line)}”" for _, line in listed.unread])
        told.append(("by eye", f"No food or weight is known for {lines}: buy it by eye."))
    if listed.from_the_tap > 0:
        told.append(("from the tap", f"{plain_mass(listed.from_the_tap)} of water."))
    if listed.currency:
        total, without = listed.cost
        missing = f"; without a price: {_joined(list(without))}" if without else ""
        told.append(("cost", f"{_money(total, listed.currency)}{missing}."))
    if listed.packaging:
        parts = [f"{name} {plain_mass(kg)}" for name, kg in listed.packaging]
        unknown = (
            f" The pack is not known, so not counted, for {_joined(list(listed.pack_unknown))}."
            if listed.pack_unknown
            else ""
        )
        told.append(("packs", f"They bring home {_joined(parts)}.{unknown}"))
    present, label = listed.allergens.present, listed.allergens.read_the_label
    if present:
        told.append(("allergens present", f"{_joined(list(present))}."))
    if label:
        told.append(("read the label for", f"{_joined(list(label))}."))
    told.append(("allergens", LABEL))
    return tuple(told)


def plain(listed: ShoppingList) -> str:
    """The list as plain text.

    Parameters
    ----------
    listed : ShoppingList
        What has to be bought.

    Returns
    -------
    str
        With a box to tick before each line.
    """
    made = [fill(f"To buy for {heading(listed)}", WIDTH), ""]
    widest = max((len(entry.take) for _, of in entries(listed) for entry in of), default=0)
    for part, of in entries(listed):
        made.append(part.upper())
        for entry in of:
            lead = f"[ ] {entry.take:>{widest}}  "
            price = f"  {entry.cost}" if entry.cost else ""
            made.append(f"{lead}{entry.name}{price}")
            if entry.notes:
                indent = " " * len(lead)
                made.append(
                    fill("; ".join(entry.notes), WIDTH, initial_indent=indent, subsequent_indent=indent)
                )  # fmt: skip
        made.append("")
    for what, sentence in closing(listed):
        made.append(fill(f"{what}: {sentence}", WIDTH, subsequent_indent="  "))
    return "\n".join(made) + "\n"
