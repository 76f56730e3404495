"""The place a recipe is cooked in, with a stated default for everything."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final, Literal

HobKind = Literal["gas", "solid plate", "ceramic", "induction"]
GasOrigin = Literal["by-product", "biogenic", "captured"]
OvenKind = Literal["fan", "conventional", "gas"]


@dataclass(frozen=True, slots=True)
class Vessel:
    """A pot, a jar or a tray.

    Parameters
    ----------
    name : str
        What the cook calls it.
    litres : float or None
        What it holds. [L]
    diameter_m : float or None
        Inner diameter. [m]
    empty_kg : float or None
        Its weight when empty, without the lid. [kg]
    """

    name: str
    litres: float | None = None
    diameter_m: float | None = None
    empty_kg: float | None = None


@dataclass(frozen=True, slots=True)
class Kitchen:
    """The kitchen. `stated` names the keys the cook gave; all others are defaults and printed so.

    Parameters
    ----------
    region : str
        Grid and waste fates: uk, us, eu, world, or a country by its three letters (ISO 3166).
    hob, hob_watts : HobKind and float
        Kind, and power of the ring in use. [W]
    simmer_loss : float
        How much water a kept-hot pot loses here against the model, from batches; 1 as modelled.
        [1]
    oven : OvenKind
        Kind.
    rings, ovens : int or None
        How many there are, where that was said; a plan for the day takes no more. [1]
    altitude_m : float
        Height above the sea. [m]
    room_celsius, tap_celsius : float
        Temperature of the room, and of cold tap water. [°C]
    tap_alkalinity : tuple of float
        Lowest and highest alkalinity of the tap water. [meq/L, which is mol/m³ of charge]
    fridge_celsius, fridge_litres, fridge_kwh_per_year : float
        Temperature, room inside, electricity. [°C, L, kWh/year]
    freezer_celsius, freezer_litres, freezer_kwh_per_year : float
        Likewise. [°C, L, kWh/year]
    vessels : tuple of Vessel
        What it is cooked and kept in.
    tools : tuple of str
        What else is at hand.
    month : int or None
        Month of the year, 1–12.
    own_factors : str or None
        Path of the cook's own foods and factors, as written.
    gas : str
        Where the gas of fizzy water comes from: by-product (of a fossil process), biogenic or
        captured (from the air).
    fizz_litres : float
        Litres a soda machine makes in its life. [L]
    middle : str
        Which middle value is said first: mean or median.
    range_for : str
        Which question the range answers: one-purchase or the-average.
    stated : frozenset of str
        The fields above that the cook gave.
    file : str or None
        Where they were given.
    """

    region: str = "world"
    hob: HobKind = "ceramic"
    hob_watts: float = 2000.0
    simmer_loss: float = 1.0
    oven: OvenKind = "fan"
    rings: int | None = None
    ovens: int | None = None
    altitude_m: float = 0.0
    room_celsius: float = 20.0
    tap_celsius: float = 15.0
    tap_alkalinity: tuple[float, float] = (0.0, 4.0)
    fridge_celsius: float = 4.0
    fridge_litres: float = 250.0
    fridge_kwh_per_year: float = 150.0
    freezer_celsius: float = -18.0
    freezer_litres: float = 100.0
    freezer_kwh_per_year: float = 200.0
    vessels: tuple[Vessel, ...] = ()
    tools: tuple[str, ...] = ()
    month: int | None = None
    own_factors: str | None = None
    gas: GasOrigin = "by-product"
    fizz_litres: float = 1500.0
    middle: Literal["mean", "median"] = "mean"
    range_for: Literal["one-purchase", "the-average"] = "one-purchase"
    stated: frozenset[str] = field(default_factory=frozenset)
    file: str | None = None


@dataclass(frozen=True, slots=True)
class Default:
    """A default in words.

    Parameters
    ----------
    name : str
        Field of `Kitchen`.
    says : str
        The default as it is printed.
    basis : str
        "sourced", "assumed" or "choice": a published figure, our own guess, a rule of the method.
    why : str
        The source, or the reason.
    """

    name: str
    says: str
    basis: Literal["sourced", "assumed", "choice"]
    why: str

    def sentence(self) -> str:
        """Return the default as one line of print."""
        return f"{self.says} ({self.basis}: {self.why})"


_COLD_CHART = "US government cold food storage chart, set points 40 °F and 0 °F"

DEFAULTS: Final[tuple[Default, ...]] = (
    Default("region", "region: world", "choice", "no country was named"),
    Default(
        "hob", "hob: ceramic", "assumed", "between solid plate and induction in what it wastes"
    ),
    Default("hob_watts", "hob power: 2 kW", "assumed", "a large electric ring on full"),
    Default(
        "simmer_loss", "loss at a simmer: as modelled", "choice", "no batch has told otherwise"
    ),
    Default("oven", "oven: fan", "assumed", "the kind most built-in ovens have"),
    Default("altitude_m", "altitude: 0 m", "choice", "sea level, as tables are printed for it"),
    Default("room_celsius", "room: 20 °C", "assumed", "a heated room"),
    Default("tap_celsius", "cold tap: 15 °C", "assumed", "between winter and summer mains water"),
    Default(
        "tap_alkalinity",
        "alkalinity of the tap water: 0–4 meq/L",
        "assumed",
        "from very soft to hard water, since it differs from town to town",
    ),
    Default("fridge_celsius", "fridge: 4 °C", "sourced", _COLD_CHART),
    Default("fridge_litres", "fridge: 250 L", "assumed", "a family fridge"),
    Default("fridge_kwh_per_year", "fridge: 150 kWh a year", "assumed", "a fridge some years old"),
    Default("freezer_celsius", "freezer: −18 °C", "sourced", _COLD_CHART),
    Default("freezer_litres", "freezer: 100 L", "assumed", "the freezer part of a tall fridge"),
    Default(
        "freezer_kwh_per_year", "freezer: 200 kWh a year", "assumed", "a freezer some years old"
    ),
    Default("month", "month: none", "choice", "figures for the whole year are used"),
    Default(
        "gas",
        "gas for fizz: a fossil by-product",
        "assumed",
        "most cylinders hold it; ask the maker",
    ),
    Default(
        "fizz_litres", "soda machine: 1500 L in its life", "assumed", "3 L a week for ten years"
    ),
    Default("middle", "middle value: mean", "choice", "means add up, medians do not"),
    Default(
        "range_for",
        "range for: one purchase",
        "choice",
        "what a randomly bought item may be, not how well the average is known",
    ),
)


def defaults_used(kitchen: Kitchen) -> tuple[Default, ...]:
    """Return the defaults that stand because the cook said nothing else.

    Parameters
    ----------
    kitchen : Kitchen
        The kitchen.

    Returns
    -------
    tuple of Default
        In the order of the kitchen file; `sentence()` of each is fit to be printed.
    """
    return tuple(default for default in DEFAULTS if default.name not in kitchen.stated)
