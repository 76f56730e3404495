"""Plain words into operations: what a noun phrase of the script's language may be.

The phrases, with P a portion ("one serving of this recipe", "the batch", "a glass", "beef"):

- `one serving of R`, `one bowl/glass/slice/helping/plate/cup/piece of R`, `the batch of R`, `R`
- R: `this recipe`, `this recipe with V`, `with V`, `V`, `the bought alternative`, a recipe's title
- `the cooking of P`, `packaging`, `transport`, … any life-cycle stage; `keeping it frozen`
- `the bread`, `the butter and the cream in P`: ingredient lines by their foods
- `the sugar's share of P`, `the share of butter and cream in P`
- `the weight/volume/energy/calories/protein/cost of P`, `the carbon dioxide in one glass`
- `time for 7 litres of soup to cool from 90 C to 21 C (in the fridge, in an ice bath)`
- `2.5 kg`, `300 ml`, `20 minutes`, `1.2 kWh`
"""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

import re
from typing import Final, Literal

from counterproof.claims.numbers_in_words import number_at
from counterproof.claims.operations import (
    Cooling,
    Lines,
    Literally,
    Named,
    Phase,
    Portion,
    Quantity,
    Ratio,
    Taken,
)
from counterproof.claims.saying import DIMENSIONS, WORDS
from counterproof.errors import NotUnderstood

SERVING: Final = (
    "serving portion bowl glass slice helping plate plateful cup mug piece pint jar spoonful ladle"
).split()
WHOLE: Final = "batch potful pot pan tray tin dish lot".split()

STAGES: Final[dict[str, tuple[str, str]]] = {
    "production": ("production", ""),
    "farm": ("production", ""),
    "farming": ("production", ""),
    "growing": ("production", ""),
    "processing": ("processing", ""),
    "packaging": ("packaging", ""),
    "packing": ("packaging", ""),
    "pack": ("packaging", ""),
    "transport": ("transport", ""),
    "retail": ("retail", ""),
    "shop": ("retail", ""),
    "home storage": ("home storage", ""),
    "storing": ("home storage", ""),
    "storage": ("home storage", ""),
    "storing it": ("home storage", ""),
    "keeping": ("home storage", ""),
    "keeping it": ("home storage", ""),
    "keeping it cold": ("home storage", ""),
    "keeping it frozen": ("home storage", "freezer"),
    "freezer": ("home storage", "freezer"),
    "freezing": ("home storage", "freezer"),
    "keeping it chilled": ("home storage", "fridge"),
    "fridge": ("home storage", "fridge"),
    "cooking": ("cooking", ""),
    "cooking it": ("cooking", ""),
    "end of life": ("end of life", ""),
    "waste": ("end of life", ""),
}
"""Words for a stage: the stage, and for storage the place."""

TAKEN: Final[dict[str, Taken]] = {
    "footprint": "footprint",
    "carbon footprint": "footprint",
    "weight": "weight",
    "mass": "weight",
    "volume": "volume",
    "energy": "energy",
    "electricity": "energy",
    "cooking energy": "energy",
    "calories": "kcal",
    "kcal": "kcal",
    "protein": "protein",
    "cost": "cost",
    "price": "cost",
    "carbon dioxide": "gas",
    "gas": "gas",
    "fizz": "gas",
}
"""Words for what is taken of a portion."""

EXAMPLES: Final = (
    "one serving of this recipe",
    "one serving of this recipe with beef",
    "one serving of the bought alternative",
    "the whole batch of this recipe",
    "beef against this recipe, as a ratio",
    "the bread's share of one serving",
    "the share of butter and cream in one serving",
    "the cooking of one serving",
    "the packaging of one serving",
    "keeping it frozen",
    "the weight of one serving",
    "the energy of one serving",
    "the carbon dioxide in one glass, in balloons",
    "time for 7 litres of soup to cool from 90 C to 21 C",
    "this recipe is lower than with beef",
    "the bread is less than a quarter of one serving",
)
"""Phrases offered where words are not understood."""

_NO_WORD: Final = re.compile(r"[^\w\s'’,.&°%½¼¾⅓⅔/+-]|_")
ARTICLE: Final = re.compile(r"^(?:the|a|an|its|our|this|that|these|those) ")
_PORTION: Final = re.compile(
    rf"(?:(?:one|a|an|the|per|1) )?(?:{'|'.join(SERVING)})(?: (?:of|from) (?P<of>.+))?$"
)
_WHOLE: Final = re.compile(
    rf"(?:the )?(?:whole (?:{'|'.join(WHOLE)})|(?:{'|'.join(WHOLE)}))(?: of (?P<of>.+))?$"
)
_SHARE_OWN: Final = re.compile(r"(?P<part>.+?)(?:'s?)? share (?:of|in) (?P<whole>.+)$")
_SHARE_OF: Final = re.compile(r"(?:the )?share of (?P<part>.+) in (?P<whole>.+)$")
_TEMPERATURE: Final = r"(-?\d+(?:\.\d+)?) ?°? ?(c|f|celsius|fahrenheit)"
_COOLING: Final = re.compile(
    rf"(?:the )?time for (?P<dish>.+?) to cool(?: down)? from {_TEMPERATURE} (?:down )?to "
    rf"{_TEMPERATURE}(?: (?P<where>in the fridge|in an ice bath|in the room|on the side))?$"
)
_DEEP: Final = re.compile(r"(?P<food>.+?) (?P<deep>\S+) ?(?P<unit>cm|mm|inch|inches) deep$")
_VOLUME: Final = re.compile(r"(?P<unit>litres?|liters?|l|ml|millilitres?) (?:of )?(?P<food>.+)$")


def phrase(words: str) -> Quantity:
    """The operation a noun phrase means.

    Parameters
    ----------
    words : str
        In lower case, single blanks, plain apostrophes.

    Returns
    -------
    Quantity
        Recipes and foods are still named by their words.

    Raises
    ------
    NotUnderstood
        If nothing is there, or the phrase is broken off.
    """
    words = words.strip(" .;:")
    if not words:
        raise NotUnderstood(
            "Something is missing here.",
            remedy=f"Say what is meant, such as “{EXAMPLES[0]}”.",
        )
    odd = _NO_WORD.search(words)
    if odd is not None:
        raise NotUnderstood(
            f"“{odd[0]}” has no meaning in “{words}”.",
            remedy="Use plain words, numbers, parentheses around sums, and < > / × + −.",
        )
    for reader in (_cooling, _share, _literal, _taken, _stage, _portion):
        found = reader(words)
        if found is not None:
            return found
    return _lines(words)


def portion(words: str) -> Portion:
    """The portion that words name; a recipe alone stands for one serving of it.

    Parameters
    ----------
    words : str
        As in `phrase`.

    Returns
    -------
    Portion
        Of what the words name.
    """
    return _portion(words) or Portion(Named(named(words)))


def named(words: str) -> str:
    """Words without what points at them: "the stew" is "stew", "this recipe with beef" stays.

    Parameters
    ----------
    words : str
        As in `phrase`.

    Returns
    -------
    str
        Ready to be looked up.
    """
    words = words.strip()
    if words in {"this", "it", "this one"} or words.startswith("this recipe"):
        return words
    return ARTICLE.sub("", words, count=1)


def _portion(words: str) -> Portion | None:
    whole = _WHOLE.match(words)
    if whole is not None:
        return Portion(Named(named(whole["of"] or "this recipe")), whole=True)
    one = _PORTION.match(words)
    if one is not None:
        return Portion(Named(named(one["of"] or "this recipe")))
    if words.endswith(tuple(f" {name}" for name in SERVING)) and not words.startswith("time "):
        return Portion(Named(named(words.rpartition(" ")[0])))  # "cordial glass"
    return None


def _taken(words: str) -> Quantity | None:
    bare = ARTICLE.sub("", words, count=1)
    match = re.match(
        rf"(?P<what>{'|'.join(sorted(TAKEN, key=len, reverse=True))}) (?:of|in|for) (?P<of>.+)$",
        bare,
    )
    if match is None:
        return None
    taken = TAKEN[match["what"]]
    inner = phrase(match["of"])
    if isinstance(inner, Portion):
        return Portion(inner.of, inner.whole, taken)
    if isinstance(inner, Lines) and taken in {"footprint", "weight"}:
        return Lines(inner.names, Portion(inner.of.of, inner.of.whole, taken))
    if isinstance(inner, Phase) and taken in {"footprint", "energy"}:
        return Phase(inner.stage, Portion(inner.of.of, inner.of.whole, taken), inner.place)
    return None


def _stage(words: str) -> Quantity | None:
    bare = ARTICLE.sub("", words, count=1)
    bare = re.sub(r" stage\b", "", bare)
    match = re.match(
        rf"(?P<stage>{'|'.join(sorted(STAGES, key=len, reverse=True))})(?: (?:of|in|for) (?P<of>.+))?$",
        bare,
    )
    if match is None:
        return None
    stage, place = STAGES[match["stage"]]
    return Phase(stage, portion(match["of"] or "this recipe"), place)


def _share(words: str) -> Quantity | None:
    match = _SHARE_OF.match(words) or _SHARE_OWN.match(words)
    if match is None:
        return None
    whole = portion(match["whole"])
    stage = _stage(match["part"])
    if isinstance(stage, Phase):
        return Ratio(Phase(stage.stage, whole, stage.place), whole, share=True)
    return Ratio(Lines(_names(match["part"]), whole), whole, share=True)


def _lines(words: str) -> Quantity:
    """Foods or a recipe: what they are is known only beside the recipe."""
    body, of = words, Portion(Named("this recipe"))
    inside = re.match(r"(?P<foods>.+?) (?:in|of) (?P<of>(?:one|a|the|this|whole|it\b).*)$", words)
    if inside is not None:
        body, of = inside["foods"], portion(inside["of"])
    names = _names(body)
    if len(names) == 1 and inside is None:
        return Portion(Named(named(words)))
    return Lines(names, of)


def _names(words: str) -> tuple[str, ...]:
    return tuple(
        ARTICLE.sub("", part.strip(), count=1)
        for part in re.split(r",? and (?:the )?|, ", words)
        if part.strip()
    )


def _literal(words: str) -> Quantity | None:
    read = number_at(words)
    if read is None:
        return None
    value, end = read
    unit = words[end:].strip()
    gas = re.sub(r" ?(?:of )?(?:co2e|co2|carbon)$", "", unit)
    if gas in WORDS:
        of = DIMENSIONS[gas]
        which = of[0] if gas == unit else of[1]
        return Literally(value * WORDS[gas].size, which)
    if f"{gas}s" in WORDS:
        return Literally(value * WORDS[f"{gas}s"].size, DIMENSIONS[f"{gas}s"][0])
    if unit in {"%", "per cent", "percent"}:
        return Literally(value / 100, "share")
    return Literally(value, "ratio") if not unit else None


def _cooling(words: str) -> Quantity | None:
    match = _COOLING.match(words)
    if match is None:
        return None
    start, start_unit, end, end_unit = match.group(2, 3, 4, 5)
    dish = match["dish"]
    places: dict[str | None, Literal["room", "fridge", "ice-bath"]] = {
        "in the fridge": "fridge",
        "in an ice bath": "ice-bath",
    }
    where = places.get(match["where"], "room")
    ends = (_celsius(start, start_unit), _celsius(end, end_unit))
    deep = _DEEP.match(dish)
    if deep is not None:
        size = {"cm": 0.01, "mm": 0.001}.get(deep["unit"], 0.0254)
        return Cooling(named(deep["food"]), None, float(deep["deep"]) * size, *ends, where)
    read = number_at(dish)
    if read is not None:
        volume = _VOLUME.match(dish[read[1] :].strip())
        if volume is not None:
            size = 0.001 if volume["unit"].startswith("m") else 1.0
            return Cooling(named(volume["food"]), read[0] * size, None, *ends, where)
    raise NotUnderstood(
        f"How much is to cool is not clear from “{dish}”.",
        remedy="Say “7 litres of soup” or “soup 5 cm deep”.",
    )


def _celsius(number: str, unit: str) -> float:
    value = float(number)
    return (value - 32.0) / 1.8 if unit.startswith("f") else value
