"""What things weigh when nobody weighed them: stated defaults, every one of them assumed.

No source gives these masses; each is what a home cook's hand, pan or pack usually holds, kept
because a stated guess with a wide range is better than a silent zero. The spread of what is
judged by eye is 0.50 (method: measures by eye), of a pack or a piece 0.20 to 0.30. A row of the
household table always goes before these.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from counterproof.rows import Food

EYE_SPREAD = 0.50


@dataclass(frozen=True, slots=True)
class Guess:
    """A mass assumed for one measure of a food, with what it was assumed for."""

    kg: float
    spread: float
    what: str
    as_bought: bool = False


LEAVES = frozenset({"fresh herbs"})
_SMALL_LEAVES = frozenset({"thyme", "rosemary", "oregano", "marjoram", "chives"})

# (measure, food class or "") → grams, spread, what. A class row goes before the general one.
_GUESSES: dict[tuple[str, str], tuple[float, float, str]] = {
    ("handful", "fresh herbs"): (10, 0.5, "a handful of herbs"),
    ("handful", "vegetables"): (30, 0.5, "a handful of leaves or small vegetables"),
    ("handful", "fruit"): (60, 0.5, "a handful of berries"),
    ("handful", ""): (30, 0.5, "a handful"),
    ("bunch", "fresh herbs"): (30, 0.3, "a bunch of herbs as sold"),
    ("bunch", "vegetables"): (250, 0.3, "a bunch of vegetables as sold"),
    ("sprig", "fresh herbs"): (1.5, 0.4, "a sprig of herbs"),
    ("sprig", "vegetables"): (10, 0.4, "a stem"),
    ("sprig", "fruit"): (20, 0.4, "a sprig of berries"),
    ("stalk", "fresh herbs"): (3, 0.4, "a stalk of herbs"),
    ("stalk", "vegetables"): (40, 0.3, "a stalk"),
    ("stick", "vegetables"): (40, 0.3, "a stick, as of celery"),
    ("stick", "spices"): (3, 0.3, "a stick, as of cinnamon"),
    ("leaf", "fresh herbs"): (0.5, 0.4, "a leaf of a herb"),
    ("leaf", "dried herbs"): (0.2, 0.3, "a dried leaf"),
    ("leaf", "vegetables"): (10, 0.4, "a leaf"),
    ("leaf", "thickeners"): (2, 0.2, "a leaf of gelatine"),
    ("sheet", "thickeners"): (2, 0.2, "a sheet of gelatine"),
    ("sheet", "pasta & noodles"): (20, 0.2, "a sheet of lasagne"),
    ("sheet", "bread & bakery"): (25, 0.3, "a sheet of thin pastry"),
    ("sheet", "seaweed"): (2.5, 0.2, "a sheet of nori"),
    ("slice", "bread & bakery"): (35, 0.2, "a slice of bread"),
    ("slice", "cheese"): (20, 0.3, "a slice of cheese"),
    ("slice", "pork"): (20, 0.3, "a slice of bacon or ham"),
    ("slice", "vegetables"): (10, 0.4, "a slice of a vegetable"),
    ("slice", "fruit"): (10, 0.4, "a slice of a fruit"),
    ("slice", ""): (20, 0.4, "a slice"),
    ("rasher", "pork"): (25, 0.2, "a rasher"),
    ("knob", "butter & fats"): (15, 0.5, "a knob of butter"),
    ("knob", ""): (15, 0.5, "a knob"),
    ("pat", ""): (5, 0.3, "a pat, as of butter"),
    ("thumb", ""): (20, 0.4, "a piece the size of a thumb"),
    ("splash", ""): (10, 0.5, "a splash"),
    ("drizzle", ""): (8, 0.5, "a drizzle"),
    ("drop", ""): (0.05, 0.5, "a drop"),
    ("sprinkling", ""): (2, 0.5, "a sprinkling"),
    ("scoop", ""): (60, 0.3, "a scoop"),
    ("ladle", ""): (120, 0.4, "a kitchen ladle"),
    ("glass", ""): (150, 0.3, "a glass"),
    ("twist", ""): (0.1, 0.5, "a twist of a mill"),
    ("grating", ""): (0.3, 0.5, "a grating"),
    ("pinch", ""): (0.3, 0.5, "a pinch"),
    ("dash", ""): (0.6, 0.5, "a dash"),
    ("strip", "pork"): (20, 0.3, "a strip of bacon"),
    ("strip", "beef"): (20, 0.4, "a strip of meat"),
    ("strip", "poultry"): (20, 0.4, "a strip of meat"),
    ("strip", ""): (5, 0.5, "a strip of peel"),
    ("tray", "water & ice"): (250, 0.3, "a tray of ice cubes"),
    ("cube", "water & ice"): (20, 0.3, "an ice cube"),
    ("cube", "stocks"): (10, 0.1, "a stock cube"),
    ("cube", "sugars & syrups"): (4, 0.1, "a sugar cube"),
    ("cube", ""): (10, 0.4, "a cube"),
    ("wedge", "fruit"): (20, 0.3, "a wedge of citrus"),
    ("wedge", "vegetables"): (30, 0.4, "a wedge of a vegetable"),
    ("wedge", ""): (40, 0.4, "a wedge"),
    ("spear", "vegetables"): (16, 0.3, "a spear"),
    ("clove", ""): (3, 0.3, "a clove"),
    ("rib", "vegetables"): (40, 0.3, "a rib, as of celery"),
    ("fillet", "fish"): (130, 0.3, "a fillet"),
    ("fillet", "poultry"): (150, 0.3, "a breast fillet"),
    ("fillet", ""): (130, 0.4, "a fillet"),
    ("piece", "poultry"): (150, 0.4, "a piece of poultry"),
    ("piece", "fish"): (150, 0.4, "a piece of fish"),
    ("piece", "spices"): (1, 0.5, "a whole spice"),
    ("piece", "sugars & syrups"): (15, 0.5, "a lump of sugar"),
    ("piece", "cheese"): (30, 0.5, "a piece of cheese"),
    ("piece", "chocolate & cocoa"): (10, 0.5, "a piece of chocolate"),
    ("piece", "eggs"): (50, 0.15, "an egg"),
    ("portion", ""): (100, 0.5, "a portion"),
    ("block", "bread & bakery"): (500, 0.2, "a block of pastry"),
    ("block", "plant-based"): (350, 0.2, "a block of tofu"),
    ("block", ""): (200, 0.3, "a block"),
    ("loaf", "bread & bakery"): (700, 0.3, "a loaf"),
    ("ball", "cheese"): (125, 0.1, "a ball of mozzarella"),
    ("ball", "bread & bakery"): (250, 0.3, "a ball of dough"),
    ("head", "vegetables"): (600, 0.3, "a head"),
    ("bar", "chocolate & cocoa"): (100, 0.2, "a bar of chocolate"),
    ("square", "chocolate & cocoa"): (10, 0.3, "a square of chocolate"),
    ("pod", "spices"): (0.3, 0.4, "a pod"),
    ("bag", "tea & coffee"): (2, 0.2, "a tea bag"),
    ("sachet", "tea & coffee"): (2, 0.2, "a sachet of tea"),
    ("sachet", "leavening"): (7, 0.1, "a sachet of dried yeast or baking powder"),
    ("packet", "leavening"): (7, 0.1, "a packet of dried yeast or baking powder"),
    ("sachet", "thickeners"): (11, 0.2, "a sachet of gelatine"),
    ("packet", "thickeners"): (11, 0.2, "a packet of gelatine"),
    ("tin", "fish"): (120, 0.2, "a tin of fish"),
    ("tin", "dairy"): (400, 0.1, "a tin of milk"),
    ("tin", "soft drinks"): (330, 0.1, "a can of a drink"),
    ("tin", "wine & beer"): (440, 0.2, "a can of beer"),
    ("tin", ""): (400, 0.15, "a tin"),
    ("jar", "condiments & sauces"): (190, 0.3, "a jar of sauce"),
    ("jar", "pickles"): (190, 0.4, "what a jar holds without its liquid"),
    ("jar", ""): (340, 0.3, "a jar"),
    ("packet", "spices"): (30, 0.4, "a packet of a spice mix"),
    ("sachet", "spices"): (30, 0.4, "a sachet of a spice mix"),
    ("jar", "spices"): (40, 0.3, "a jar of a spice"),
    ("packet", "sugars & syrups"): (8, 0.3, "a packet of vanilla sugar"),
    ("packet", ""): (250, 0.4, "a packet"),
    ("bag", ""): (250, 0.4, "a bag"),
    ("sachet", ""): (10, 0.5, "a sachet"),
    ("carton", "dairy"): (284, 0.3, "a carton of cream or yoghurt"),
    ("carton", ""): (500, 0.4, "a carton"),
    ("tube", ""): (100, 0.4, "a tube"),
    ("bottle", "wine & beer"): (750, 0.1, "a bottle of wine"),
    ("bottle", "spirits & liqueurs"): (700, 0.1, "a bottle of spirits"),
    ("bottle", ""): (500, 0.3, "a bottle"),
}  # fmt: skip
_MEAT = frozenset({"beef", "beef-stewing", "goat", "lamb", "meat", "pork", "veal"})
_BOUGHT = frozenset({"tin", "jar", "packet", "bag", "carton", "bottle", "bunch", "head"})

# Cuts of a fruit or a vegetable, of a singular word → the measure that weighs about as much.
CUTS: dict[str, str] = {
    "wheel": "slice",
    "round": "slice",
    "disc": "slice",
    "disk": "slice",
    "coin": "slice",
    "wedge": "wedge",
    "ribbon": "strip",
    "curl": "strip",
    "twist": "strip",
}
CUT_CLASSES = frozenset({"fruit", "vegetables"})

# Cooks' other words for the same thing; the household table may use either.
ALSO_CALLED: dict[str, tuple[str, ...]] = {
    "piece": ("head", "bulb", "ear", "fillet"),
    "recipe": ("piece", "block", "packet"),
    "rasher": ("slice",),
    "slice": ("rasher", "piece"),
    "stick": ("stalk", "rib", "piece"),
    "stalk": ("stick", "rib", "sprig", "piece"),
    "rib": ("stalk", "stick"),
    "sprig": ("stalk",),
    "head": ("bulb", "piece"),
    "bulb": ("head", "piece"),
    "fillet": ("piece",),
    "ear": ("piece",),
    "loaf": ("piece",),
    "block": ("piece",),
    "ball": ("piece",),
    "packet": ("sachet",),
    "sachet": ("packet",),
    "spear": ("piece", "stalk"),
    "pod": ("piece",),
    "leaf": ("sheet",),
    "sheet": ("leaf", "piece"),
    "thumb": ("cm-piece",),
    "square": ("piece",),
    "log": ("piece",),
    "portion": ("piece",),
    "carton": ("packet",),
    "pot": ("carton",),
    "tub": ("carton",),
    "punnet": ("carton",),
    "tube": ("jar",),
    "cube": ("piece",),
    "knob": ("thumb",),
}

# Without any amount: (words that give the occasion or "", food class) → grams for the recipe.
_UNSAID: dict[str, tuple[float, str]] = {
    "salt": (3, "half a teaspoon of salt"),
    "spices": (0.5, "a few twists or pinches of a spice"),
    "dried herbs": (0.5, "a pinch or two of dried herbs"),
    "fresh herbs": (5, "a small handful of herbs"),
    "oils": (14, "a tablespoon of oil"),
    "butter & fats": (15, "a tablespoon of fat"),
    "vinegars": (5, "a teaspoon of vinegar"),
    "sugars & syrups": (8, "two teaspoons of sugar"),
    "condiments & sauces": (10, "two teaspoons of a condiment"),
    "flavourings": (2, "a few drops of flavouring"),
    "leavening": (5, "a teaspoon of leavening"),
    "food additives": (0.5, "a few drops of colouring"),
    "juices": (15, "a tablespoon of juice"),
    "spirits & liqueurs": (30, "two tablespoons of a spirit"),
}
_OCCASION: dict[str, tuple[float, str]] = {
    "flour & starch": (15, "a dusting of flour"),
    "cheese": (20, "some cheese to finish"),
    "dairy": (50, "some to serve"),
    "fruit": (20, "some fruit to garnish"),
    "juices": (10, "a squeeze of juice"),
    "vegetables": (30, "some to garnish"),
    "bread & bakery": (100, "some bread to serve"),
    "nuts & seeds": (10, "some to scatter"),
    "salt": (3, "half a teaspoon of salt"),
    "sugars & syrups": (10, "a dusting or two teaspoons of sugar"),
    "oils": (14, "a tablespoon of oil for the pan"),
    "butter & fats": (10, "fat for the tin"),
    "rice": (300, "rice to serve four"),
    "pasta & noodles": (300, "pasta to serve four"),
    "grains": (250, "grain to serve four"),
    "sweets & desserts": (200, "something sweet for four"),
    "water & ice": (150, "enough to top up a glass"),
    "soft drinks": (150, "enough to top up a glass"),
    "wine & beer": (100, "enough to top up a glass"),
    "": (20, "some to serve"),
}
_ICE = (100.0, "five ice cubes")
_SPRINKLES = (12.0, "a tablespoon of sugar sprinkles")
_SPRAY = (2.0, "four sprays from a can")
_FRYING = (500.0, "half a litre of oil to fry in")


def guess(food: Food, measure: str) -> Guess | None:
    """The mass assumed for one measure of a food that has no household weight.

    Parameters
    ----------
    food : Food
        The food.
    measure : str
        A measure that is counted or judged by eye.

    Returns
    -------
    Guess or None
        None where even a guess would mislead.
    """
    found = _GUESSES.get((measure, food.food_class)) or _GUESSES.get((measure, ""))
    if measure == "piece" and food.id in _MEAT:
        found = (80, 0.5, "a piece of meat for a stew")
    if found is None:
        return None
    grams, spread, what = found
    if measure == "sprig" and not _SMALL_LEAVES.isdisjoint(food.id.split("-")):
        grams, what = 0.8, "a sprig of a small-leaved herb"
    if measure in {"splash", "drop"} and food.kind != "liquid":
        return Guess(15e-3 if measure == "splash" else 0.05e-3, EYE_SPREAD, "a spoonful")
    return Guess(grams * 1e-3, spread, what, measure in _BOUGHT)


def unsaid(food: Food, flags: frozenset[str]) -> Guess | None:
    """The mass assumed where the line says no amount at all.

    Parameters
    ----------
    food : Food
        The food.
    flags : frozenset of str
        What the line says instead of an amount: "to taste", "for greasing", "to serve" …

    Returns
    -------
    Guess or None
        None for a main ingredient whose amount must be asked for.
    """
    occasion = not flags.isdisjoint(OCCASIONS)
    if "for deep frying" in flags and food.food_class == "oils":
        grams, what = _FRYING
    elif food.id == "sweets":
        grams, what = _SPRINKLES
    elif food.id == "cooking-spray":
        grams, what = _SPRAY
    elif occasion and food.food_class in _OCCASION:
        grams, what = _OCCASION[food.food_class]
    elif food.id == "ice":
        grams, what = _ICE
    elif food.food_class in _UNSAID:
        grams, what = _UNSAID[food.food_class]
    elif occasion:
        grams, what = _OCCASION[""]
    else:
        return None
    return Guess(grams * 1e-3, EYE_SPREAD, what)


OCCASIONS = frozenset(
    {
        "to taste", "for greasing", "for dusting", "to serve", "for serving", "to garnish",
        "for garnish", "for frying", "for brushing", "to finish", "for sprinkling", "to decorate",
        "for deep frying", "for topping up",
    }
)  # fmt: skip
"""What a line may say in place of an amount."""
