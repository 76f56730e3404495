"""The rows of the data tables, as `adapters.tables` hands them on: frozen, checked, in SI.

One class a table; `Tables` holds them all, indexed for use. Nothing here reads a file.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal, NamedTuple

from counterproof.life_cycle_rows import LifeCycle
from counterproof.provenance import Obtained as Obtained  # noqa: PLC0414 rows are looked up here
from counterproof.provenance import Provenance as Provenance  # noqa: PLC0414 as above
from counterproof.shop_rows import Shop

if TYPE_CHECKING:
    from collections.abc import Mapping

Fit = Literal["same", "other form", "relative", "class average"]
FactorSet = Literal["global", "literature", "national"]
Stage = Literal[
    "production",
    "processing",
    "packaging",
    "transport",
    "retail",
    "home storage",
    "cooking",
    "end of life",
]
STAGES: tuple[Stage, ...] = (
    "production",
    "processing",
    "packaging",
    "transport",
    "retail",
    "home storage",
    "cooking",
    "end of life",
)


PRODUCTION_STAGES: tuple[str, ...] = ("land-use change", "feed", "farm", "losses")
"""Finer stages inside production, for the sets that publish them; "losses" holds conversion too."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where figures come from: one record a source."""

    id: str
    title: str
    producer: str
    published: str
    citation: str
    address: str
    accessed: str
    licence: str
    credit: str


@dataclass(frozen=True, slots=True)
class Food:
    """A food as a cook buys or uses it; raw, dry, cooked and canned are different foods."""

    id: str  # slug, e.g. "white-beans-canned"
    name: str  # what it is called in the margin, e.g. "white beans, canned"
    food_class: str  # closed list, e.g. "pulses"
    kind: Literal["solid", "liquid", "powder"]
    drawn_measure: str  # measure a bare count means: "piece", "clove", "tin", … or ""
    note: str


class FoodName(NamedTuple):
    """A name by which cooks know a food (every name in the singular, lower case).

    A name that really means something else, which has no row of its own, says how near the food
    comes to it. A name that may mean several foods tells the others. `why` is what the cook
    is told beside the line.
    """

    food: str  # Food.id
    name: str
    region: Literal["", "uk", "us", "au"]  # where the name means this food; "" everywhere
    fit: Literal["", "other form", "relative", "class average"] = ""  # "" for the food itself
    others: str = ""  # Food.id of what it may mean as well, with blanks between
    why: str = ""


@dataclass(frozen=True, slots=True)
class HouseholdWeight:
    """What one household measure of a food weighs."""

    food: str
    measure: str  # units.py measure id: "piece", "clove", "cup", "tin", "sprig", …
    size: str  # "", "small", "medium", "large"
    form: str  # "", "chopped", "sliced", "grated", …
    kg: float  # per measure; of the edible part unless as_bought
    spread: float | None  # relative standard deviation where the source gives one
    as_bought: bool
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Density:
    """Bulk density of a food in a spoon, cup or jug."""

    food: str
    form: str  # "", "chopped", …
    kg_per_litre: float
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Composition:
    """Composition of 100 g of the edible part; None where the source does not report it."""

    food: str
    water_g: float | None
    protein_g: float | None
    fat_g: float | None
    carbohydrate_g: float | None  # by difference, fibre included
    fibre_g: float | None
    sugars_g: float | None
    ash_g: float | None
    alcohol_g: float | None
    citric_acid_g: float | None
    energy_kcal: float | None
    sodium_mg: float | None
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class EdibleShare:
    """Share of the food as bought that is eaten (1 − refuse)."""

    food: str
    share: float
    refuse: str  # what is thrown away: "bones", "peel", …
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class CookingYield:
    """Mass after over mass before, when one food becomes another."""

    food: str  # before
    becomes: str  # Food.id after
    method: str  # "boiled", "roasted", …
    factor: float
    low: float
    high: float
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Allergen:
    """An allergen a food brings, or may bring."""

    food: str
    allergen: str  # closed list: the UK/EU fourteen in singular slugs, e.g. "milk", "gluten"
    status: Literal["present", "read the label"]
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Factor:
    """An emission factor: kg CO2e per kg or litre of an item of a factor set."""

    set: FactorSet
    item: str
    unit: Literal["kg", "litre"]
    basis: str  # mass basis: "edible, boneless", "as bought", "dry", "drained", "cooked", …
    mean: float
    p05: float | None
    p10: float | None
    p50: float | None
    p90: float | None
    p95: float | None
    low: float | None  # published extreme, unresampled
    high: float | None
    studies: int | None
    farms: int | None
    spread: float | None  # geometric standard deviation where only one value and a grade is given
    middle: Literal["mean", "median"]  # what a single published value is
    gwp: str
    boundary: str
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class FactorStage:
    """The mean of one life-cycle stage inside a factor, on the factor's own basis, with losses."""

    set: FactorSet
    item: str
    stage: str  # a Stage up to retail, or one of PRODUCTION_STAGES
    mean: float  # kg CO2e per unit of the factor
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class FactorShape:
    """How a factor's published percentiles are joined so that its mean comes out.

    Solved by `footprint.shapes.solved_shape` and stored; 1 is a straight join.
    """

    set: FactorSet
    item: str
    tails: float  # bend outside the outermost percentiles
    body: float  # bend between them


@dataclass(frozen=True, slots=True)
class Link:
    """Which factor stands for a food in one set."""

    food: str
    set: FactorSet
    item: str  # Factor.item, or Mixture.name
    fit: Fit
    per: float  # factor units (kg or litre) per kg of the food: of its mass as bought where the
    # factor's basis is "as bought", of its edible mass otherwise
    why: str  # the conversion and its reason: "dry from drained, 1/2.4", "litre from kg, 1/1.03"
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Mixture:
    """A name that spans classes, as a stated mixture of factors."""

    set: FactorSet
    name: str
    item: str
    share: float
    provenance: Provenance


Condition = Literal["in season", "out of season", "heated greenhouse", "by air"]
"""Where and when a food was grown, as far as a factor set tells it apart."""


@dataclass(frozen=True, slots=True)
class SeasonRatio:
    """What a condition of growing or carriage does to a food's factor, inside the set that tells."""

    food: str
    set: FactorSet
    condition: Condition
    item: str  # the set's own name for the food under that condition
    over: str  # the set's item for the food unspecified
    ratio: float  # of the first to the second, both to retail
    stage: Stage  # where the difference lies
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Harvest:
    """Months in which a food is harvested without heat, by number; first > last spans the new year."""

    food: str
    first: int
    last: int
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class EnergyFactor:
    """kg CO2e per kWh of an energy carrier in a region, as delivered."""

    carrier: Literal["electricity", "gas"]
    region: str  # "uk", "us", "eu", "world", or an ISO 3166 alpha-3 code
    kgco2e_per_kwh: float
    spread: float  # geometric standard deviation
    lacks: str  # what the figure leaves out: "grid losses", "upstream", ""
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Likeness:
    """What a quantity may be likened to: the size or the worth of one thing people can see."""

    kind: str  # "balloon", "car", "glass", …
    region: str  # "uk", "us", …; "" where it holds everywhere
    year: int | None
    value: float  # what one of it is, in `unit`
    unit: Literal["m3", "litre", "kg CO2e"]
    name: str
    names: str  # several of them
    conditions: str  # for people: what it holds under
    warning: str  # where it misleads
    shape: Literal["none", "sphere", "pot", "tub", "room", "glass", "bottle"]
    width: float  # as drawn, 0 where it is not [m]
    height: float  # likewise [m]
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Overclaim:
    """A word that claims more than a number can carry, and the rule that speaks of it."""

    word: str  # in lower case, words joined by single blanks
    region: str  # "us", "eu", …; "world" for a standard
    rule: str  # act or standard, with its section
    since: str  # date or year from which it stands
    says: str  # what it asks for, in one sentence
    provenance: Provenance


@dataclass(frozen=True, slots=True)
class Own:
    """What a cook's own table replaced or added: names of rows, by table."""

    file: str
    sha256: str
    keys: frozenset[tuple[str, ...]]  # (table, key, …), such as ("links", food, set)

    def has(self, table: str, *key: str) -> bool:
        """Whether a row is the cook's own.

        Parameters
        ----------
        table : str
            Name of the table, such as "links".
        *key : str
            What names the row in it.

        Returns
        -------
        bool
            True where the cook's own table holds it.
        """
        return (table, *key) in self.keys


@dataclass(frozen=True)
class Tables:
    """All tables, with the indexes the core reads."""

    foods: Mapping[str, Food]
    names: tuple[FoodName, ...]
    household: Mapping[str, tuple[HouseholdWeight, ...]]  # by food
    densities: Mapping[str, tuple[Density, ...]]  # by food
    composition: Mapping[str, Composition]
    edible: Mapping[str, EdibleShare]
    yields: Mapping[str, tuple[CookingYield, ...]]  # by food before
    allergens: Mapping[str, tuple[Allergen, ...]]
    factors: Mapping[tuple[str, str], Factor]  # by (set, item)
    stages: Mapping[tuple[str, str], tuple[FactorStage, ...]]
    links: Mapping[str, tuple[Link, ...]]  # by food
    mixtures: Mapping[tuple[str, str], tuple[Mixture, ...]]  # by (set, name)
    energy: Mapping[tuple[str, str], EnergyFactor]  # by (carrier, region)
    sources: Mapping[str, Source]
    sha256: str  # of all table files, sorted by name
    version: str
    shapes: Mapping[tuple[str, str], FactorShape] = field(default_factory=dict)  # by (set, item)
    seasons: Mapping[str, tuple[SeasonRatio, ...]] = field(default_factory=dict)  # by food
    harvests: Mapping[str, Harvest] = field(default_factory=dict)  # by food
    likenesses: Mapping[str, tuple[Likeness, ...]] = field(default_factory=dict)  # by kind
    overclaims: tuple[Overclaim, ...] = ()
    life_cycle: LifeCycle = field(default_factory=LifeCycle)  # packs, bins, carriage
    shop: Shop = field(default_factory=Shop)  # packs on sale, parts of the shop
    own: Own | None = None  # what the cook's own table replaced or added
