"""Words that speak of an allergen, for what a line says beside its own food.

"Stuffed with cream cheese", "soaked in soy sauce", "breaded": the food that is weighed is another
one, and its row knows nothing of these. Each word is common practice with no source; it raises
"read the label", never "present", because the words may also exclude.
"""

from __future__ import annotations

import re
from typing import Final

_WORDS: Final[dict[str, str]] = {
    "milk": r"milk|cream|cr[eè]me|butter|buttermilk|butterscotch|cheese|yogh?urt|ghee|custard|"
    r"ranch|hollandaise|tzatziki|caramel|fudge|parmesan|mozzarella|ricotta|mascarpone|cheddar|feta|"
    r"whey|casein(?:ate)?|lactose|kefir|paneer|quark|skyr|labneh|pecorino|halloumi|gruy[eè]re|brie",
    "gluten": r"breaded|battered|breadcrumbs?|crumbed|flour|bread|pastry|soy sauce|noodles?|beer|"
    r"malt(?:ed)?|barley|couscous|haggis|oats?|wheat|wheaten|spelt|semolina|seitan|"
    r"bulgh?ur|panko|udon|pasta|spaghetti|macaroni|biscuits?|cookies?|wafers?|croutons?",
    "soya": r"soya?|soy(?:a)?beans?|tofu|miso|tamari|teriyaki|hoisin|doubanjiang|edamame|tempeh|"
    r"natto|shoyu|gochujang|ponzu",
    "eggs": r"eggs?|mayonnaise|mayo|aioli|hollandaise|custard|meringue|advocaat|eggnog",
    "fish": r"fish|anchov(?:y|ies)|worcestershire|caesar|salmon|tuna|cod|haddock|sardines?|mackerel|"
    r"herrings?|trout|bonito|caviar|dashi",
    "crustaceans": r"prawns?|shrimps?|crabs?|lobsters?|crayfish|crawfish|langoustines?|scampi|krill",
    "molluscs": r"oysters?|mussels?|clams?|squid|scallops?|snails?|cuttlefish|calamari|octopus|"
    r"abalone|cockles?|whelks?",
    "peanuts": r"peanuts?|groundnuts?|satay|monkey nuts?",
    "nuts": r"nuts?|almonds?|hazelnuts?|walnuts?|cashews?|pistachios?|pecans?|praline|marzipan|"
    r"pesto|dukkah|macadamias?|frangipane|nougat|amaretti|gianduja",
    "sesame": r"sesame|tahini|halva|za'atar|dukkah|hummus|gomasio",
    "mustard": r"mustard|piccalilli",
    "celery": r"celery|celeriac",
    "lupin": r"lupins?|lupini",
    "sulphites": r"wine|cider|sherry|vermouth|marsala|champagne|prosecco",
}
_SEARCHES: Final = {
    allergen: re.compile(rf"\b(?:{words})\b", re.IGNORECASE) for allergen, words in _WORDS.items()
}
# Compounds in which the second word is not what it says, but the first one is: "almond milk".
_OF_THE_FIRST: Final = re.compile(
    r"\b(coconut|almond|oat|soya?|rice|nut|cashew|hazelnut|plant|vegan|peanut|cocoa|shea|corn|"
    r"chickpea|gram|buckwheat|ginger|cacao|hemp|pea)"
    r"[- ](?:milk|cream|butter|yogh?urt|flour|beer|ghee|kefir)\b|"
    # Of these only what is ground or spread: "walnut yogurt" and "pumpkin cream" may be dairy.
    r"\b(pistachio|walnut|pecan|sunflower|seed|root|vegetable|maple|apple|plum|prune|pumpkin|masa|"
    r"arepa|maize)[- ](?:butter|flour|beer|ghee)\b|\b(maple)[- ]cream\b",
    re.IGNORECASE,
)
# Compounds that speak of no allergen at all.
_NOT_SO: Final = re.compile(
    r"\bbutter[- ](?:beans?|lettuce|nut)\b|\bcream of (?:tartar|coconut)\b|\bcream (?:soda|sherry)\b|\bnutmeg\b|"
    r"\b(?:gluten|egg|milk|dairy|nut|soya?|wheat|lactose)[- ]free\b|"
    r"\bwater[- ]kefir\b|\btiger[- ]nuts?\b|\boyster[- ]mushrooms?\b|\b(?:tofu|soya?)[- ]paneer\b|"
    r"\bchampagne[- ](?:mango|yeast|grape)\b|\b(?:spaghetti|pasta)[- ](?:squash|sauce)\b|"
    r"\b(?:butternut|courgette|squash|sea)[- ]spaghetti\b|\bcorn[- ]semolina\b|"
    r"\b(?:gluten[- ]free|corn|rice)[- ](?:pasta|spaghetti|macaroni|noodles?)\b|"
    r"\b(?:pasta|biscuit|cookie)[- ](?:cutters?|scoops?|sheets?|machines?|makers?|tins?|jars?)\b|"
    r"\bcreme de (?:banane|cacao|cassis|menthe|mure|noyaux|violette)\b|\bmalt whiske?y\b|"
    r"\b(?:damson|fruit|quince) cheese\b|\bbread soda\b|\bbread[- ]and[- ]butter (?=pickle)|"
    r"\b(?:vegan|plant[- ]based|egg[- ]free) (?:mayo|mayonnaise|aioli)\b",
    re.IGNORECASE,
)
_WORD: Final = re.compile(r"[a-zà-ÿ']+")


def allergens_said(text: str, known: frozenset[str]) -> frozenset[str]:
    """Allergens that the words of a line speak of beside its own food.

    Parameters
    ----------
    text : str
        The line as written.
    known : frozenset of str
        Words of the foods that the line stands for; their own rows speak for them.

    Returns
    -------
    frozenset of str
        Slugs of the fourteen.
    """
    stems = {word.rstrip("s") for word in known}
    kept = " ".join(
        word if word.rstrip("s") not in stems else "·"
        for word in _WORD.findall(_OF_THE_FIRST.sub(_first, _NOT_SO.sub(" ", text.lower())))
    )
    return frozenset(name for name, search in _SEARCHES.items() if search.search(kept))


def _first(compound: re.Match[str]) -> str:
    return next(word for word in compound.groups() if word)
