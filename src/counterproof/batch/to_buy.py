"""A shopping list: what to take of each food, for which lines, and what is over."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from counterproof.batch.packs import OnShelf
from counterproof.draws import Range
from counterproof.reading.allergens import Allergens
from counterproof.reading.model import Reading
from counterproof.rows import Food

SHORT: Final = 0.05
"""Share of the need that may be missing before it is told: assumed, a spoon in a potful. [1]"""


@dataclass(frozen=True, slots=True)
class Dish:
    """A recipe to be shopped for.

    Parameters
    ----------
    name : str
        What it is called on the list.
    reading : Reading
        The recipe as understood, scaled to what one station cooks.
    times : float
        How often it is cooked: the stations of a class. [1]
    """

    name: str
    reading: Reading
    times: float = 1.0


@dataclass(frozen=True, slots=True)
class Use:
    """What one line of a dish takes. [kg, as bought, all stations]"""

    dish: str
    line: int
    as_written: str
    kg: float
    optional: bool = False


@dataclass(frozen=True, slots=True)
class ToBuy:
    """One food on the list.

    Parameters
    ----------
    food : Food
        What.
    need : Range
        As it is bought, with its peel, bones, the liquid of its tin. [kg]
    in_house : float
        What the pantry holds of that need. [kg]
    packs : tuple of (OnShelf, int)
        What to take, and how many of each; empty where the pantry holds enough.
    uses : tuple of Use
        Which lines need it.
    elsewhere : tuple of (str, float)
        Other dishes of the season that would use up what is left, and how much they take. [kg]
    by_eye : bool
        Whether a line takes some of it without saying how much.
    """

    food: Food
    need: Range
    in_house: float
    packs: tuple[tuple[OnShelf, int], ...]
    uses: tuple[Use, ...]
    elsewhere: tuple[tuple[str, float], ...] = ()
    by_eye: bool = False

    @property
    def bought(self) -> float:
        """What the packs hold. [kg]"""
        return sum(pack.kg * count for pack, count in self.packs)

    @property
    def left(self) -> float:
        """What is over at the middle of the need. [kg]"""
        return max(0.0, self.bought + self.in_house - self.need.mean)

    @property
    def cost(self) -> float | None:
        """What it costs; None where a price is missing. [currency]"""
        prices = [(pack.price, count) for pack, count in self.packs]
        if any(price is None for price, _ in prices):
            return None
        return sum((price or 0.0) * count for price, count in prices)

    @property
    def tight(self) -> bool:
        """Whether it may fall short: the need may be larger than what is taken."""
        short = self.need.p95 - self.bought - self.in_house
        return bool(self.packs) and short > SHORT * self.need.mean

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        return {
            "food": {"id": self.food.id, "name": self.food.name},
            "need_kg": self.need.to_dict(),
            "in_house_kg": self.in_house,
            "buy": [
                {
                    "pack": pack.says,
                    "kg": pack.kg,
                    "count": count,
                    "price": pack.price,
                    "sold_by": pack.sold_by,
                }
                for pack, count in self.packs
            ],
            "bought_kg": self.bought,
            "left_kg": self.left,
            "may_fall_short": self.tight,
            "also_by_eye": self.by_eye,
            "cost": self.cost,
            "uses": [
                {
                    "recipe": use.dish,
                    "line": use.line,
                    "as_written": use.as_written,
                    "kg": use.kg,
                    "optional": use.optional,
                }
                for use in self.uses
            ],
            "uses_up_elsewhere": [{"recipe": name, "kg": kg} for name, kg in self.elsewhere],
        }


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """What has to be bought.

    Parameters
    ----------
    dishes : tuple of (str, float)
        What it is for, and how often. [1]
    parts : tuple of (str, tuple of ToBuy)
        By part of the shop, in the order in which a shop is walked through.
    from_the_tap : float
        Water that nobody buys. [kg]
    unread : tuple of (str, str)
        Dish and line that no food or weight is known for: to be bought by eye.
    allergens : Allergens
        Of everything on the list.
    currency : str
        Of the prices; "" where there are none.
    packaging : tuple of (str, float)
        Material, and how much of it comes home. [kg]
    pack_unknown : tuple of str
        Foods that come in a pack of which no weight is known.
    """

    dishes: tuple[tuple[str, float], ...]
    parts: tuple[tuple[str, tuple[ToBuy, ...]], ...]
    from_the_tap: float
    unread: tuple[tuple[str, str], ...]
    allergens: Allergens
    currency: str = ""
    packaging: tuple[tuple[str, float], ...] = ()
    pack_unknown: tuple[str, ...] = ()

    @property
    def items(self) -> tuple[ToBuy, ...]:
        """Everything on the list."""
        return tuple(item for _, items in self.parts for item in items)

    @property
    def cost(self) -> tuple[float, tuple[str, ...]]:
        """What has a price together [currency], and the foods to be bought that have none."""
        told = [(item, item.cost) for item in self.items]
        return (
            sum(cost for _, cost in told if cost is not None),
            tuple(item.food.name for item, cost in told if cost is None),
        )

    def to_dict(self) -> dict[str, Any]:
        """Return the JSON form."""
        total, without = self.cost
        return {
            "recipes": [{"name": name, "times": times} for name, times in self.dishes],
            "parts": [
                {"part": part, "items": [item.to_dict() for item in items]}
                for part, items in self.parts
            ],
            "from_the_tap_kg": self.from_the_tap,
            "by_eye": [{"recipe": dish, "as_written": line} for dish, line in self.unread],
            "allergens": self.allergens.to_dict(),
            "cost": {"total": total, "currency": self.currency, "without_a_price": list(without)}
            if self.currency
            else None,
            "packaging": {
                "by_material_kg": dict(self.packaging),
                "pack_unknown": list(self.pack_unknown),
            },
        }
