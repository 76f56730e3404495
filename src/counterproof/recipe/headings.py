"""What a heading opens, and what a line looks like when there is no heading to say so."""

from __future__ import annotations

import re
from typing import Literal

Part = Literal["ingredients", "method", "notes"]


def _phrases(text: str) -> frozenset[str]:
    return frozenset(" ".join(phrase.split()) for phrase in text.split("|"))


_INGREDIENTS = _phrases(
    """ingredients|ingredient list|list of ingredients|the ingredients|you need|you will need|
    you'll need|what you need|what you will need|what you'll need|things you need|
    what goes in|what goes in it|what's in it|recipe ingredients|ingredients list|
    ingredients you need|ingredients you'll need|shopping list|you want|take"""
)
_METHOD = _phrases(
    """method|the method|methods|steps|the steps|directions|direction|instructions|instruction|
    preparation|procedure|process|how to make it|how to make|how to do it|how to cook it|
    how to cook|how to prepare|how to|how it's made|how it is made|what to do|what you do|
    making it|make|to make|to make it|to prepare|preparation method|preparation steps|
    cooking instructions|cooking method|cooking directions|cooking|step by step|
    recipe instructions|cooking steps|here's how|this is how"""
)
_NOTES = _phrases(
    """notes|note|tips|tip|cook's notes|cook's note|cook's tip|cook's tips|recipe notes|
    recipe note|tips and tricks|variations|variation|storage|storing|to store|storing it|keeping|
    to keep|keeping it|make ahead|to make ahead|freezing|to freeze|freezer notes|leftovers|
    equipment|tools|utensils|special equipment|you will also need|nutrition|nutrition facts|nutritional information|
    nutrition information|source|sources|tags|cautions|caution|care|substitutions|swaps|about|
    about this recipe|background|history|allergens|allergy advice|afterwards|comments|
    serving suggestions|serving suggestion|a word of care|take care|a note on safety|
    reference|references|credits|links|for the table"""
)
_SECTION = re.compile(
    r"(?:for (?:the |a |an |each |your |\d)?\S|to (?:serve|finish|garnish|top|decorate|fill|"
    r"glaze|dress|coat|brush|dust)\b|(?:the )?(?:topping|filling|dressing|sauce|garnish|"
    r"marinade|dough|pastry|base|crust|glaze|icing|frosting|syrup|stuffing|crumble|batter|"
    r"garnishes|toppings|spices|optional|optional extras)$)",
    re.IGNORECASE,
)

BEGINNING = 200
"""Part of a line in which an amount is looked for [characters]: assumed, two lines of print."""

_NUMBER_WORD = (
    r"one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|a|an|half|quarter|some|few|"
    r"several|plenty|enough|about|around|approx\.?|approximately|roughly|scant|heaped|heaping|"
    r"generous|good|small|large|big|medium|level|rounded"
)
_MEASURE_WORD = (
    r"g|gr|gm|kg|mg|ml|cl|dl|l|litres?|liters?|grams?|oz|ounces?|lbs?|pounds?|cups?|tsps?|tbsps?|"
    r"tbs|teaspoons?|teaspoonfuls?|tablespoons?|tablespoonfuls?|dessertspoons?|pints?|quarts?|"
    r"gallons?|gills?|pinch(?:es)?|dash(?:es)?|handfuls?|splash(?:es)?|drizzle|drops?|knobs?|"
    r"sprigs?|bunch(?:es)?|cloves?|slices?|sticks?|tins?|cans?|jars?|packets?|bottles?|bags?|"
    r"stalks?|heads?|leaf|leaves|pieces?|grind(?:ing)?s?|glugs?|dollops?|thumb|squeeze|grating|"
    r"juice|zest|rind|peel|lot"
)
_AMOUNT = re.compile(
    rf"[^\w\s½¼¾⅓⅔⅛]{{0,2}}\s*(?:"
    rf"\d+(?:[.,/⁄]\d+)?\s*[½¼¾⅓⅔⅛⅜⅝⅞x×]?|[½¼¾⅓⅔⅛⅜⅝⅞]|"
    rf"(?:(?:{_NUMBER_WORD})\s+(?:(?:{_NUMBER_WORD}|of|the)\s+)*(?:{_MEASURE_WORD})\b)|"
    rf"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|half)\s+\w|"
    rf"an?\s+whole\s|"
    rf"(?:{_MEASURE_WORD})\s+(?:and\s+\w+\s+)?of\b)",
    re.IGNORECASE,
)
_SEASONING = re.compile(
    r"\b(?:to taste|to serve|to garnish|to finish|for greasing|for frying|for dusting|as needed|"
    r"optional)\b|^(?:sea |table |kosher )?salt\b|^(?:freshly |black |white )*(?:ground )?pepper\b",
    re.IGNORECASE,
)
_VERB = re.compile(
    r"(?:(?:finely|thinly|roughly|coarsely|gently|slowly|carefully|lightly|quickly)\s+)?(?:add|arrange|bake|beat|blend|boil|bring|brush|chill|chop|coat|combine|cook|cool|core|cover|crack|"
    r"crush|cut|dice|discard|dissolve|divide|drain|drizzle|drop|dry|fill|finish|flip|fold|follow|freeze|fry|"
    r"garnish|give|grate|grease|grill|grind|heat|keep|knead|ladle|lay|leave|let|lift|lower|make|"
    r"marinate|mash|measure|melt|meanwhile|mince|microwave|mix|once|pat|peel|place|poach|pop|pour|preheat|prepare|press|"
    r"put|reduce|refrigerate|remove|rest|return|rinse|roast|roll|rub|sauté|saute|scatter|sear|season|"
    r"separate|serve|set|shake|sift|simmer|skim|slice|soak|spoon|spread|sprinkle|steam|steep|stir|"
    r"store|strain|stuff|take|taste|then|thicken|tip|toast|top|toss|trim|turn|use|warm|wash|when|"
    r"whip|whisk|whizz|while|wrap|wipe|after|next|finally|first|now|in a|on a|into a|to make)\b",
    re.IGNORECASE,
)

_FOR_THE = re.compile(
    r"for (?:the|each|your) [^\d,;()]{2,30}|to (?:serve|finish|garnish)", re.IGNORECASE
)


def bare_heading(text: str) -> str:
    """Return a heading's words alone: no colon, no bracket, no picture signs.

    Parameters
    ----------
    text : str
        The heading as written.

    Returns
    -------
    str
        Its words.
    """
    bare = re.sub(r"\([^()]*\)", " ", text)
    bare = re.sub(r"[^\w\s'’&,/.-]", " ", bare).replace("’", "'")
    return re.sub(r"^[\s\d.:-]+|[\s.:,-]+$", "", " ".join(bare.split()))


def opens(text: str) -> tuple[Part, str] | None:
    """Return the part of a recipe that a heading opens.

    Parameters
    ----------
    text : str
        The heading: "Ingredients", "You will need:", "Ingredients for the dough".

    Returns
    -------
    tuple of Part and str, or None
        The part, and the sub-section the heading names ("for the dough" or ""); None where the
        heading is none of the known ones.
    """
    bare = bare_heading(text)
    word = bare.casefold()
    for part, known in (("ingredients", _INGREDIENTS), ("method", _METHOD), ("notes", _NOTES)):
        if word in known:
            return part, ""  # type: ignore[return-value]  # the three names above are the Parts
    longer = re.match(
        r"(ingredients|method|directions|instructions|notes?)\s+(?=(?:for|to)\b)", word
    )
    if re.fullmatch(r"how (?:i|we|you|to) (?:make|cook|do|prepare)(?: it| this| them)?", word):
        return "method", ""
    if longer:
        rest = bare[longer.end() :]
        head = longer[1]
        part_named: Part = (
            "ingredients" if head == "ingredients" else "notes" if head[:4] == "note" else "method"
        )
        return part_named, rest
    return None


def names_section(text: str) -> bool:
    """Return whether a heading names a part of the dish: "For the sauce", "To serve".

    Parameters
    ----------
    text : str
        The heading.

    Returns
    -------
    bool
        True where it does.
    """
    return _SECTION.match(bare_heading(text)) is not None


def looks_like_amount(text: str) -> bool:
    """Return whether a line begins as ingredient lines do: "200 g …", "a pinch of …", "juice of …".

    Parameters
    ----------
    text : str
        The line.

    Returns
    -------
    bool
        True where it does.
    """
    if not text or re.match(r"\d+(?:st|nd|rd|th)\b|\d+\s*(?:minutes?|mins?|hours?|hrs?)\b", text):
        return False
    return _begins_with_amount(text) and not _long_sentence(text)


def heads_ingredients(text: str) -> bool:
    """Return whether an entry of an ingredient list is a heading: "For the sauce:".

    Parameters
    ----------
    text : str
        The entry.

    Returns
    -------
    bool
        True where it is.
    """
    short = len(text.split()) <= 7 and not looks_like_amount(text)
    return short and (text.endswith(":") or _FOR_THE.fullmatch(text) is not None)


def is_seasoning(text: str) -> bool:
    """Return whether a piece of a line is salt, pepper or something to taste.

    Parameters
    ----------
    text : str
        The piece.

    Returns
    -------
    bool
        True where it is.
    """
    return _SEASONING.search(text) is not None


def looks_like_ingredient(text: str) -> bool:
    """Return whether a line may be an ingredient even without an amount.

    Parameters
    ----------
    text : str
        The line.

    Returns
    -------
    bool
        True where it may be one.
    """
    if looks_like_amount(text):
        return True
    if looks_like_step(text):
        return False
    return _SEASONING.search(text) is not None or len(text.split()) <= 6


def looks_like_step(text: str) -> bool:
    """Return whether a line reads as an instruction or another sentence.

    Parameters
    ----------
    text : str
        The line.

    Returns
    -------
    bool
        True where it does.
    """
    words = text.split()
    told = _VERB.match(text) and not _begins_with_amount(text)
    if told and (len(words) >= 3 or text.endswith(".")):
        return True
    return _sentence(text) or _long_sentence(text)


def _begins_with_amount(text: str) -> bool:
    return _AMOUNT.match(text[:BEGINNING]) is not None


def _sentence(text: str) -> bool:
    return (
        len(text.split()) >= 8
        and text.rstrip(")\"'”’ ").endswith((".", "!", "?"))
        and not _begins_with_amount(text)
    )


def _long_sentence(text: str) -> bool:
    """Return whether the line is a sentence although it may begin with a number."""
    return len(text.split()) >= 10 and re.search(r"[a-z)][.!?]\s+[A-Z]", text) is not None
