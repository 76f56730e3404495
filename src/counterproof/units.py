"""Kitchen and SI units: what a cup, a pint or a stick is called, and how much it holds.

`MEASURES` lists every measure a recipe line may use, with its kind; `HOLDS` gives the volume of
those that depend on whose kitchen it is; `measure_named` finds the measure a word means.

Exact values are definitions: the international yard and pound agreement of 1959, the US gallon
of 231 cubic inches, the imperial gallon of 4.54609 L (Weights and Measures Act 1985). What is
only custom is marked "convention"; those values are from memory, without a published source.
"""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final, Literal

from counterproof.errors import QuantityError

if TYPE_CHECKING:
    from collections.abc import Mapping

System = Literal["us", "uk", "metric", "au"]
MeasureKind = Literal["mass", "volume", "length", "count", "by eye"]

INCH: Final = 0.0254  # [m], exact: international yard and pound agreement, 1959
POUND: Final = 0.45359237  # [kg], exact: international yard and pound agreement, 1959
OUNCE: Final = POUND / 16  # [kg], exact: avoirdupois
US_GALLON: Final = 231 * (INCH * 100) ** 3  # [mL], exact: 231 cubic inches
IMPERIAL_GALLON: Final = 4546.09  # [mL], exact: Weights and Measures Act 1985


@dataclass(frozen=True, slots=True)
class Holding:
    """What a kitchen measure holds in one system: millilitres, and why."""

    ml: float
    basis: Literal["exact", "convention"]
    note: str


def _us(share: float, note: str) -> Holding:
    return Holding(US_GALLON * share, "exact", note)


def _imperial(share: float, note: str) -> Holding:
    return Holding(IMPERIAL_GALLON * share, "exact", note)


def _custom(ml: float, note: str) -> Holding:
    return Holding(ml, "convention", note)


_TEASPOON = _custom(5.0, "metric teaspoon")
_DASH = _custom(US_GALLON / 768 / 8, "1/8 US teaspoon")
_PINCH = _custom(US_GALLON / 768 / 16, "1/16 US teaspoon")
_IMPERIAL_REST = {
    "floz": _imperial(1 / 160, "imperial fluid ounce"),
    "gill": _imperial(1 / 32, "quarter of an imperial pint; half a pint in parts of the UK"),
    "pint": _imperial(1 / 8, "imperial pint"),
    "quart": _imperial(1 / 4, "imperial quart"),
    "gallon": _imperial(1.0, "imperial gallon"),
    "dash": _DASH,
    "pinch": _PINCH,
    "tsp": _TEASPOON,
}

HOLDS: Final[Mapping[str, Mapping[str, Holding]]] = MappingProxyType(
    {
        "us": {
            "tsp": _us(1 / 768, "one third of a US tablespoon"),
            "tbsp": _us(1 / 256, "half a US fluid ounce"),
            "dessertspoon": _us(1 / 384, "two US teaspoons"),
            "floz": _us(1 / 128, "US fluid ounce"),
            "gill": _us(1 / 32, "four US fluid ounces"),
            "cup": _us(1 / 16, "eight US fluid ounces; the nutrition label's cup is 240 mL"),
            "pint": _us(1 / 8, "US liquid pint"),
            "quart": _us(1 / 4, "US liquid quart"),
            "gallon": _us(1.0, "US gallon"),
            "shot": _custom(US_GALLON / 128 * 1.5, "jigger of one and a half US fluid ounces"),
            "dash": _DASH,
            "pinch": _PINCH,
        },
        "uk": {
            **_IMPERIAL_REST,
            "tbsp": _custom(15.0, "metric tablespoon; the traditional one was 5/8 fl oz"),
            "dessertspoon": _custom(10.0, "two metric teaspoons"),
            "cup": _custom(250.0, "metric cup as sold now; old books mean 10 imperial fl oz"),
            "shot": _custom(25.0, "single bar measure"),
        },
        "metric": {
            **_IMPERIAL_REST,
            "tbsp": _custom(15.0, "metric tablespoon"),
            "dessertspoon": _custom(10.0, "two metric teaspoons"),
            "cup": _custom(250.0, "metric cup"),
            "shot": _custom(30.0, "bar measure"),
        },
        "au": {
            **_IMPERIAL_REST,
            "tbsp": _custom(20.0, "Australian tablespoon of four teaspoons"),
            "dessertspoon": _custom(10.0, "two metric teaspoons"),
            "cup": _custom(250.0, "metric cup"),
            "shot": _custom(30.0, "bar measure"),
        },
    }
)

_METRIC_ML: Final = {"ml": 1.0, "cl": 10.0, "dl": 100.0, "l": 1000.0}
_KG: Final = {"mg": 1e-6, "g": 1e-3, "kg": 1.0, "oz": OUNCE, "lb": POUND}
_METRES: Final = {"mm": 1e-3, "cm": 1e-2, "inch": INCH}
_BY_EYE: Final = (
    "handful",
    "splash",
    "drop",
    "drizzle",
    "knob",
    "thumb",
    "scoop",
    "sprinkling",
    "ladle",
)
_COUNTED: Final = (
    "piece clove bunch sprig stalk head leaf slice stick rasher fillet sheet cube ear wedge strip "
    "rib bulb glass ball block loaf tin jar packet bottle bag carton sachet bar pod cm-piece "
    "portion grating twist spear square log tube recipe part pat"
).split()

CONTAINERS: Final = frozenset({"tin", "jar", "packet", "bottle", "bag", "carton", "sachet", "tube"})
"""Measures that are packs: what they hold is printed on them."""

MEASURES: Final[Mapping[str, MeasureKind]] = {
    **dict.fromkeys(_KG, "mass"),
    **dict.fromkeys(_METRIC_ML, "volume"),
    **dict.fromkeys(HOLDS["us"], "volume"),
    **dict.fromkeys(_METRES, "length"),
    **dict.fromkeys(_BY_EYE, "by eye"),
    **dict.fromkeys(_COUNTED, "count"),
}
"""Every measure id and its kind; "piece" is what a bare count means."""

# Further words that mean a measure, as cooks write them; the plural in -s is added to each.
_CALLED: Final = {
    "mg": "milligram milligramme",
    "g": "gram gramme gm gr grm",
    "kg": "kilo kilogram kilogramme kgs",
    "oz": "ounce onz",
    "lb": "pound lbs",
    "ml": "milliliter millilitre mls mil cc",
    "cl": "centiliter centilitre",
    "dl": "deciliter decilitre",
    "l": "liter litre lt ltr",
    "tsp": "teaspoon teaspoonful tspn teasp tsps tsk barspoon barspoonful",
    "tbsp": "tablespoon tablespoonful tbs tbl tb tblsp tbspn tablesp tbsps spoonful spoon msk",
    "dessertspoon": "dessertspoonful dsp dstspn dessertsp",
    "cup": "c cupful mug teacup teacupful",
    "glass": "glassful wineglass wineglassful",
    "floz": "floz",
    "pint": "pt",
    "quart": "qt",
    "gallon": "gal",
    "shot": "jigger measure",
    "mm": "millimeter millimetre",
    "cm": "centimeter centimetre cms",
    "piece": "pc pce chunk nos link strand thread nest hunk",
    "bunch": "bu",
    "sprig": "branch frond twig",
    "stalk": "stem",
    "fillet": "filet",
    "ear": "cob",
    "handful": "fistful pile mound",
    "splash": "glug slug dollop slosh lug swirl squirt blob",
    "pinch": "hint touch smidge smidgen",
    "dash": "shake",
    "drizzle": "lick",
    "knob": "nut lump",
    "sprinkling": "sprinkle dusting scatter scattering",
    "ladle": "ladleful",
    "block": "slab cake brick",
    "tin": "can",
    "packet": "package pack pkg pkt box pckt pouch sleeve",
    "carton": "tub pot punnet container basket",
    "sachet": "envelope",
    "portion": "serving",
    "grating": "scraping shaving",
    "twist": "grind grinding crack turn",
    "recipe": "batch quantity",
}
_IRREGULAR: Final = {
    "leaves": "leaf",
    "loaves": "loaf",
    "inches": "inch",
    "pinches": "pinch",
    "dashes": "dash",
    "splashes": "splash",
    "bunches": "bunch",
    "branches": "sprig",
    "glasses": "glass",
    "boxes": "packet",
    "batches": "recipe",
    "quantities": "recipe",
    "handsful": "handful",
    "cupsful": "cup",
    "tablespoonsful": "tbsp",
    "teaspoonsful": "tsp",
}
_EXACT_CASE: Final = {"T": "tbsp", "t": "tsp", "Tb": "tbsp", "TB": "tbsp", "C": "cup", "L": "l"}


def _names() -> dict[str, str]:
    names = dict(_IRREGULAR)
    for measure in MEASURES:
        for word in (measure, *_CALLED.get(measure, "").split()):
            names[word] = measure
            if len(word) > 1 or word == "c":
                names.setdefault(f"{word}s", measure)
    return names


_NAMES: Final = _names()
UNIT_WORDS: Final = frozenset({*_NAMES, *(word.lower() for word in _EXACT_CASE)})
"""Every word that means a measure, in lower case."""
PLURALS: Final = frozenset(
    word for word in _NAMES if word.endswith("s") and word not in {"glass", "cms", "lbs", "kgs"}
) | {"handsful"}
"""Unit words in the plural."""


def measure_named(word: str) -> str | None:
    """Return the measure a unit word means, or None if it is no unit word.

    Parameters
    ----------
    word : str
        One word as written, with or without a full stop; "T" is a tablespoon, "t" a teaspoon.

    Returns
    -------
    str or None
        A key of `MEASURES`.
    """
    word = word.rstrip(".")
    return _EXACT_CASE.get(word) or _NAMES.get(word.lower())


def unit_ml(measure: str, system: System = "us") -> float:
    """Return the volume of one measure.

    Parameters
    ----------
    measure : str
        A volume of `MEASURES`.
    system : System
        Whose cups and spoons: us, uk, metric or au.

    Returns
    -------
    float
        Volume. [mL]

    Raises
    ------
    QuantityError
        If the measure is not a volume.
    """
    metric = _METRIC_ML.get(measure)
    if metric is not None:
        return metric
    holding = HOLDS[system].get(measure)
    if holding is None:
        raise QuantityError(
            f"“{measure}” is not a measure of volume.",
            remedy=f"Volumes are: {', '.join((*_METRIC_ML, *HOLDS[system]))}.",
        )
    return holding.ml


def unit_kg(measure: str) -> float:
    """Return the mass of one measure.

    Parameters
    ----------
    measure : str
        A mass of `MEASURES`.

    Returns
    -------
    float
        Mass. [kg]

    Raises
    ------
    QuantityError
        If the measure is not a mass.
    """
    try:
        return _KG[measure]
    except KeyError:
        raise QuantityError(
            f"“{measure}” is not a measure of weight.", remedy=f"Weights are: {', '.join(_KG)}."
        ) from None


def unit_m(measure: str) -> float:
    """Return the length of one measure.

    Parameters
    ----------
    measure : str
        A length of `MEASURES`.

    Returns
    -------
    float
        Length. [m]

    Raises
    ------
    QuantityError
        If the measure is not a length.
    """
    try:
        return _METRES[measure]
    except KeyError:
        raise QuantityError(
            f"“{measure}” is not a length.", remedy=f"Lengths are: {', '.join(_METRES)}."
        ) from None
