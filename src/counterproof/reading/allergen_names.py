"""Names that bring more allergens than the food that stands for them when it is weighed.

"Sambal belacan" is weighed as a chilli paste, and the row of chilli pastes knows nothing of its
shrimps; "dal makhani" is weighed as cooked lentils, without its butter. What such a dish or ready
food usually holds is common practice with no source; kitchens and makers differ, so each name
raises "read the label", never "present".
"""

from __future__ import annotations

import re
from collections import defaultdict
from typing import Final

# Names as regular expressions without accents or hyphens, each followed by what they bring.
_BRINGS: Final[tuple[tuple[str, str], ...]] = (
    # Shrimps, fish and shellfish in pastes, stocks and street food.
    (r"sambal|belacan|terasi", "crustaceans fish"),
    (r"bumbu", "crustaceans fish peanuts nuts soya"),
    (r"sai oua|otak otak|akara|pepper ?soup|ndole|jollof|stew spice|obe ata", "crustaceans fish"),
    (r"scampi", "crustaceans sulphites"),
    (r"(?:goose )?barnacle", "crustaceans"),
    (r"eomuk|odeng|hanpen|satsuma ?age|fish cake sheet", "soya molluscs sulphites"),
    (
        r"tempura (?:crumb|scrap)|tenkasu|takoyaki|okonomi(?:yaki)?",
        "crustaceans fish molluscs eggs",
    ),
    (r"okonomi sauce|takoyaki sauce", "sesame soya gluten"),
    (
        r"ramyeon|ramyun|ramen|instant noodle",
        "crustaceans fish molluscs celery sesame mustard soya",
    ),
    (r"dashi|dasima stock", "soya gluten milk"),
    (r"sukiyaki no tare|kabayaki sauce|eel sauce|teppanyaki sauce", "fish sulphites"),
    (r"tarako|mentaiko", "soya gluten"),
    (r"bloater paste|fish paste", "gluten milk soya"),
    # Soya and wheat in sauces, pastes, roasts and pickles of Asia.
    (
        r"(?<!red )(?<!vanilla )(?<!adzuki )(?<!azuki )(?<!white )(?<!sweet )bean paste",
        "soya gluten",
    ),
    (r"satay", "soya gluten crustaceans fish"),
    (r"yakitori|kinpira|tea egg|bak kwa|char siu|siu yuk|chinese roast pork", "soya gluten sesame"),
    (r"bak kwa|pork floss|rousong", "fish soya gluten sesame"),
    (r"tocino|longg?anisa", "soya"),
    (r"(?:red |stinky |fermented )+(?:bean curd|tofu)|furu|sufu", "gluten sesame sulphites"),
    (r"stinky tofu", "crustaceans fish milk"),
    (r"karaage", "soya gluten eggs sesame"),
    (r"misugaru", "gluten soya sesame"),
    (r"chu hou", "sesame"),
    (r"schezwan|(?:szechuan|szechwan|sichuan) (?:sauce|chutney)", "celery gluten soya sesame"),
    (r"rakkyo|shibazuke|nukazuke|(?:cai|chai) poh|ya ?cai", "soya gluten"),
    (r"wasabi", "mustard sulphites"),
    # Ground nuts, nuts and sesame.
    (r"kilishi|serundeng|oncom|asinan|kunu|vada pav masala", "peanuts"),
    (r"podi|gun ?powder", "peanuts sesame"),
    (r"(?:coconut|garlic|hari|peanut|green) chutney", "peanuts sesame nuts milk"),
    (r"achar|mango pickle|lime pickle|gongura pickle", "mustard sesame gluten"),
    (r"ad[zj]h?ika|ajika", "nuts celery"),
    (r"basundi|rabdi|rabri|shrikhand|kheer|kulfi|barfi|burfi|katli", "nuts milk"),
    (r"gajak|chikki", "sesame peanuts"),
    (r"laddu|ladoo", "sesame peanuts nuts milk gluten"),
    (r"halwa", "milk nuts gluten"),
    (r"granola|(?:cereal|oat) bar|flapjack", "peanuts sesame soya milk"),
    # Milk, eggs and flour in ready dishes and drinks.
    (r"tarhana|trahana", "milk eggs"),
    (r"da?h?l (?:fry|makhani|tadka|cooked)|dhal cooked", "milk mustard gluten"),
    (r"sambar|rasam", "mustard gluten"),
    (r"(?:rava )?idli mix|upma mix", "mustard nuts milk soya"),
    (r"coconut (?:milk |cream )?powder|(?:powdered|dried) coconut milk", "milk sulphites"),
    (r"duxelles", "milk sulphites"),
    (
        r"(?:scalloped|mashed|creamed|dauphinoise) potato|(?:potato|instant) mash|champ|colcannon",
        "milk",
    ),
    (r"scalloped potato", "gluten"),
    (r"pimento cheese", "eggs mustard"),
    (r"white chocolate|cream liqueur", "milk"),
    (r"noyaux|nocino|(?:hazel|wal)nut liqueur|almond liqueur", "nuts"),
    (r"divinity", "eggs nuts"),
    (r"prata|paratha|roti canai", "eggs milk"),
    (r"(?:wheaten|soda) (?:bread|farl)|farl|damper|cornbread", "milk"),
    (r"pakora|bhajji|bhaji", "gluten mustard"),
    (
        r"(?:rice|pilaf|pilau|rice pilaf) mix|(?:seasoned|jollof|savoury) rice(?! (?:wine )?vinegar)",
        "gluten celery milk mustard soya",
    ),
    (r"(?:soup|broth|bean) mix", "gluten celery"),
    (r"laver ?bread", "gluten"),
    (r"noodle soup", "eggs"),
    (r"(?:canned|tinned) spaghetti|spaghetti hoop", "milk celery"),
    (r"onion ring", "eggs milk"),
    (r"(?:beef|pork|veal|lamb|turkey) schnitzel|schnitzel|milanesa|goujon", "gluten eggs milk"),
    (
        (
            r"(?:chicken|lamb|turkey|pork|veal|beef|mutton|venison|fish|vegetable|veggie|bean) "
            r"(?:burger|patty|pattie|meatball|kofta)"
        ),
        "gluten eggs milk soya mustard celery sulphites",
    ),
    (
        r"(?:kebab|kofta|sosatie|souvlaki)(?!s? (?:spice|seasoning|masala|skewer|stick|rub))",
        "gluten milk mustard sulphites",
    ),
    (r"egg (?:substitute|replacer|replacement)", "soya milk gluten lupin"),
    (r"brawn|head cheese|souse|scrapple|livermush|cretons|bath chap", "gluten celery mustard"),
    (r"cretons", "milk"),
    (r"lomo embuchado|lonza|lomo", "milk soya sulphites"),
    (r"(?:beef|meat) stick", "mustard milk celery"),
    (r"smoked meat", "mustard"),
    (r"pickled egg", "gluten sulphites"),
    # Celery, mustard and sulphites.
    (r"muffaletta|muffuletta|olive salad|giardiniera|tursu|chakalaka", "celery"),
    (
        r"(?:complete|meat|all purpose) seasoning|(?:steak|jerk) (?:rub|spice|seasoning)|sazon(?:ador)?",
        "soya gluten",
    ),
    (r"bordelaise|jus|demi ?glace", "sulphites celery"),
    (r"taralli|dried longan|longan meat|gari ginger", "sulphites"),
    # Older names, found when the table was read again.
    (r"muhammara", "nuts gluten"),
    (r"pastrami|grav(?:ad)? ?lax", "mustard"),
    (
        r"(?:turkey|chicken|duck) (?:bacon|ham|salami|prosciutto)|pepperoni",
        "milk soya gluten mustard",
    ),
    (r"(?:sandwich|deli|shawarma) meat", "milk soya gluten mustard celery"),
    (r"(?:mandarin|duck|chinese|moo shu) pancake", "sesame"),
    (r"rice syrup|sikhye|sattu", "gluten"),
    (r"stuffing", "celery eggs milk sulphites"),
    (r"danish pastry|pain au chocolat", "nuts soya"),
    (r"aspic", "celery gluten sulphites"),
    (r"(?:artichoke|bean) dip", "milk eggs"),
    (r"(?:bean|potato|pasta) salad", "mustard celery eggs"),
    (r"sai ua", "crustaceans fish"),
    (r"miso soup", "fish crustaceans molluscs"),
    (r"(?:ramen|tonkotsu|pho) broth", "soya gluten fish sesame"),
    (r"consomme", "eggs"),
    (r"court bouillon|bolognese|ragu|meat sauce", "sulphites"),
    (r"sloppy joe", "mustard fish gluten sulphites"),
    (r"(?:chill?i|sichuan pepper) oil", "sesame peanuts soya"),
    (r"potted shrimp|(?:masala|brewed) chai|chai (?:concentrate|latte)", "milk"),
    (r"baby food", "gluten milk"),
    (r"collagen(?: peptide| powder)?", "fish"),
    (r"takuan|tsukemono", "soya gluten"),
    (r"torshi", "celery"),
    (r"(?:mixed|chopped) nut|nut mix|trail mix", "peanuts sesame"),
    (r"trail mix", "milk soya sulphites"),
    (r"pickled walnut", "gluten sulphites"),
    (r"(?:pistachio|hazelnut) (?:spread|cream)|praline paste", "milk soya"),
    (r"vegan marshmallow", "soya"),
    (r"ogiri", "sesame"),
    (r"stuffed (?:turkey|chicken|pork)(?: crown| breast)?", "gluten celery eggs milk sulphites"),
    (r"lemon pepper seasoning", "celery mustard"),
    (r"(?:vegetable powder|soup base)", "celery gluten"),
    (r"umami (?:powder|seasoning|paste)", "soya fish gluten"),
    (r"(?:sun )?dried tomato paste|marinated artichoke", "sulphites"),
    (r"deli (?:roast beef|turkey|chicken|ham)", "milk soya gluten mustard celery"),
    (r"(?:chinese|korean) rice cake", "gluten"),
    (r"frankfurter green sauce", "milk eggs"),
    (r"buffalo (?:wing )?sauce|chocolate liqueur", "milk"),
    (r"puttanesca", "fish"),
    (r"payasam|phirni", "nuts gluten"),
    (r"asian dressing", "soya sesame gluten peanuts"),
    (r"stuffed olive", "fish nuts milk"),
    (r"pad thai sauce", "peanuts crustaceans"),
    (r"general tso(?:'s)? sauce", "sesame"),
    (r"stir fry sauce", "molluscs"),
    (r"agedashi tofu", "fish gluten"),
    (r"inari|marinated tofu", "gluten"),
)
_NAMES_OF: Final[dict[str, list[str]]] = defaultdict(list)
for _names, _allergens in _BRINGS:
    for _allergen in _allergens.split():
        _NAMES_OF[_allergen].append(_names)
_SEARCHES: Final = {
    allergen: re.compile(rf"\b(?:{'|'.join(names)})(?:e?s)?\b")
    for allergen, names in _NAMES_OF.items()
}
_WORD: Final = re.compile(r"[a-z']+")


def allergens_named(text: str) -> frozenset[str]:
    """Allergens that the names in a line bring beside those of the food that stands for them.

    Parameters
    ----------
    text : str
        The line, in lower case without accents.

    Returns
    -------
    frozenset of str
        Slugs of the fourteen.
    """
    kept = " ".join(_WORD.findall(text))
    return frozenset(name for name, search in _SEARCHES.items() if search.search(kept))
