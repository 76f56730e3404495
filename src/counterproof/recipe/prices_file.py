"""The price file: what was paid for a pack, where and when, and what a kilowatt-hour costs."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date as calendar_day
from typing import Annotated, Final, Literal

from pydantic import BeforeValidator

from counterproof.errors import QuantityError
from counterproof.recipe.settings import Settings, settings_file
from counterproof.recipe.values import Number, Words, between, shortened
from counterproof.typed_quantities import parse_quantity

DEAREST: Final = 1_000_000.0
"""Largest price read, in any currency: assumed, beyond it somebody slipped a digit."""


@dataclass(frozen=True, slots=True)
class PackSize:
    """What is in a pack: a mass [kg], a volume [m³] or a number of a household measure [1]."""

    kind: Literal["mass", "volume", "count"]
    amount: float
    measure: str = ""


@dataclass(frozen=True, slots=True)
class Price:
    """What a pack of a food cost.

    Parameters
    ----------
    food : str
        Its name, as a recipe would write it.
    price : float
        For one pack, > 0. [currency of the file]
    pack : PackSize
        What is in it, as it is bought: with bones, peel or the liquid of a tin.
    date : str
        The day of the price, ISO 8601.
    where : str
        Where it was paid, or "".
    line : int or None
        Line of the file.
    """

    food: str
    price: float
    pack: PackSize
    date: str
    where: str = ""
    line: int | None = None


@dataclass(frozen=True, slots=True)
class Tariff:
    """What a kilowatt-hour of a carrier costs, and from which day."""

    carrier: Literal["electricity", "gas"]
    per_kwh: float
    date: str


@dataclass(frozen=True, slots=True)
class Prices:
    """A price file.

    Parameters
    ----------
    currency : str
        Printed before or after every amount, such as "£" or "EUR".
    prices : tuple of Price
        One a food and day.
    tariffs : tuple of Tariff
        At most one a carrier.
    file : str or None
        Where it was read.
    """

    currency: str
    prices: tuple[Price, ...]
    tariffs: tuple[Tariff, ...]
    file: str | None = None


_COUNT: Final = re.compile(r"(?:(\d+(?:[.,]\d+)?)\s*)?(each|[a-z]*)", re.IGNORECASE)


def pack_size(value: object) -> object:
    """What is in a pack, from the words for it.

    Parameters
    ----------
    value : object
        Such as "400 g", "1 l", 6 or "1 bunch".

    Returns
    -------
    object
        A PackSize.

    Raises
    ------
    ValueError
        If it is no amount.
    """
    text = str(value).strip()
    for kind in ("mass", "volume"):
        try:
            amount = parse_quantity(text, kind)
        except QuantityError:
            continue
        if amount > 0:
            return PackSize(kind, amount)
    found = _COUNT.fullmatch(text)
    amount = float((found[1] or "1").replace(",", ".")) if found is not None else 0.0
    if isinstance(value, bool) or found is None or not text or not amount:
        raise ValueError(
            f"{shortened(value)} is no pack; write what is in it: 400 g, 1 l, 6, or 1 bunch"
        )
    word = found[2].casefold()
    singular = word.removesuffix("es") if word.endswith("ches") else word.removesuffix("s")
    return PackSize("count", amount, "piece" if singular in {"", "each", "piece"} else singular)


def _day(value: object) -> object:
    try:
        return calendar_day.fromisoformat(str(value).strip()[:10]).isoformat()
    except ValueError:
        raise ValueError(f"{shortened(value)} is no day; write 2026-11-25") from None


Day = Annotated[str, BeforeValidator(_day)]
"""A day, ISO 8601."""


class PriceSettings(Settings):
    """One price."""

    food: Words
    price: Annotated[Number, between(0.0001, DEAREST, "")]
    pack: Annotated[PackSize, BeforeValidator(pack_size)]
    date: Day
    where: Words | None = None


class TariffSettings(Settings):
    """One tariff."""

    per_kwh: Annotated[Number, between(0, DEAREST, "")]
    date: Day


class EnergySettings(Settings):
    """The tariffs."""

    electricity: TariffSettings | None = None
    gas: TariffSettings | None = None


class PricesSettings(Settings):
    """Everything a price file may say."""

    currency: Words
    prices: tuple[PriceSettings, ...] = ()
    energy: EnergySettings | None = None


def read_prices(yaml_text: str, file: str | None = None) -> Prices:
    """Read a price file.

    Parameters
    ----------
    yaml_text : str
        The file's text.
    file : str or None
        Its name, for messages.

    Returns
    -------
    Prices
        The prices and tariffs.

    Raises
    ------
    BrokenSettings
        If it is no YAML, if a key is not known, or if a value cannot be used; all at once.
    """
    said, tree = settings_file(PricesSettings, yaml_text, file, "the prices")
    energy = said.energy or EnergySettings()
    carriers: tuple[Literal["electricity", "gas"], ...] = ("electricity", "gas")
    named = [(carrier, getattr(energy, carrier)) for carrier in carriers]
    return Prices(
        said.currency,
        tuple(
            Price(
                one.food, one.price, one.pack, one.date, one.where or "", tree.line(("prices", at))
            )
            for at, one in enumerate(said.prices)
        ),
        tuple(Tariff(carrier, one.per_kwh, one.date) for carrier, one in named if one is not None),
        file,
    )
