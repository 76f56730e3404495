"""The words by which instructions name what is done, and the words that only look like it."""

from __future__ import annotations

import re
from typing import Final

# Kinds in the order a cook would rank them: where no time or temperature decides, the main
# process of a sentence is the first one of the lowest rank.
RANKS: Final[dict[str, int]] = {
    kind: rank
    for rank, kinds in enumerate(
        (
            ("preheat", "boil", "simmer", "poach", "steam", "fry", "bake", "grill", "toast",
             "smoke", "slow_cook", "microwave", "kettle", "melt", "carbonate", "freeze", "thaw",
             "chill", "steep", "soak", "marinate", "rise", "ferment", "dry", "blend", "grind"),
            ("cook", "heat", "cool", "strain", "rest"),
            ("mix", "store"),
            ("transfer", "add", "prep"),
            ("serve",),
        )
    )
    for kind in kinds
}  # fmt: skip
HEATED: Final = frozenset(
    {"preheat", "boil", "simmer", "poach", "steam", "fry", "bake", "grill", "toast", "smoke",
     "cook", "slow_cook", "microwave", "kettle", "melt", "heat"}
)  # fmt: skip

# What looks like a process word but names a thing or a state: blanked out before the search.
LOOKALIKES: Final = re.compile(
    r"\b(?:"
    r"(?<!by )boiling[- ](?:hot |salted |hot, |stock|water|point)\w*|boil-overs?|done boiling|boiled (?:water|egg|rice|potato)\w*"
    r"|(?:frying|baking|roasting|grill|griddle|cooking|sauté|saute|mixing|measuring|serving|steaming|chopping|cutting)[- ]?(?:pans?|sheets?|trays?|powder|soda|dish(?:es)?|tins?|parchment|paper|rack|boards?|bowls?|glass(?:es)?|jugs?|cups?|times?|liquids?|liquor|juices|oil|water|apples?|spray|spoons?|basket|beans?|plates?|stone|chocolate)"
    r"|(?<!run the )food processors?|slow[- ]cookers?|coffee filters?|will not \w+|pressure[- ]cookers?|rice cookers?|the grill\b(?! it)|air fryers?"
    r"|(?:don't|do not|never|without|instead of|no need to) (?:\w+ ){0,1}?\w+(?:ing)?(?: (?:it|them))?(?=[ ,.;]|$)"
    r"|bread|breadcrumbs|(?:with|of) steam|steam escapes?"
    r"|(?:the|your|of|over|on|to|medium|high|low|gentle|from the|from|off|direct|indirect|oven) heat|heat ?(?:proof|resistant)"
    r"|cool(?:ing)? (?:rack|place|water|spot)|ice[- ]cool"
    r"|(?:the|your|this|of|a|strained|for the|bean|white|hot|baked|any|more|remaining) (?:mix|rest|roast|stew|blend|drain|brew|toast|grill|steak|smoke)\b"
    r"|dry (?:cloth|pan|place|bowl|ingredients|white|mustard|yeast|towel|skillet|frying)|dry and"
    r"|melted|toasted|chilled|roasted|cooked|mixed|sliced|chopped|grated|peeled|diced|fried|grilled|smoked|strained|drained|soaked|frozen|dried|ground|whipped|beaten|combined|browned|softened"
    r"|rising|cream of|stirring|shaking|whisking constantly|mixing or"
    r"|(?:while|whilst|as) (?:your|the|it|they|you)[^,;.]{0,40}?(?:cook|boil|bak|simmer|fry|chill|rest)\w*"
    r"|(?:until|till|so that)\b(?:(?! and (?:let|leave|then|add|cook|serve|cool|simmer|bake|drain)\b)[^,;.])*"
    r"|before \w+ing(?: (?!and\b)\w+){0,2}|to serve\b(?=:|,|\.|$)"
    r")"
)  # fmt: skip
# Participles that still say what is done: "the rice cooked" is a state, "let rise covered" a lid.
_WORDS: Final[tuple[tuple[str, str], ...]] = (
    ("preheat", r"pre-?heat(?:ed|ing)?|heat (?:the |your |an? )?(?:fan )?oven|(?:turn on|set|light) (?:the )?oven"),
    ("slow_cook", r"slow[- ]cook(?:ed)?|cook(?:ed|ing)? (?:on )?low(?! heat)"),
    ("microwave", r"microwave|zap"),
    ("kettle", r"(?:boil|fill) (?:the |a )?kettle"),
    ("simmer", r"simmer(?:ing|ed|s)?|brais(?:e|ing)|stew(?= (?:for|until|gently|the))|reduc(?:e|ing) (?:the )?(?:liquid|sauce|stock|syrup|wine|it (?:by|to)|by half)|boil down"),
    ("boil", r"(?:par|hard-?)?boil(?:s|ing)?|blanch(?:e|ing)?|to (?:a|the) (?:rolling |light |gentle |full |rapid )?boil"),
    ("poach", r"poach(?:ing)?"),
    ("steam", r"steam(?:ing)?"),
    ("fry", r"(?:deep-?|stir-?|pan-?|shallow-?)?fry(?:ing)?|saut[eé](?:ing|ed)?|sear(?:ing)?|sweat(?= )|soften(?! the butter)(?=[ ,.;]|$)|brown(?= (?:the|on|all|well|in|meat|for))|caramelise|caramelize|flip it over"),
    ("bake", r"bak(?:e|ing)|roast(?:ing)?"),
    ("grill", r"(?:char-?)?grill(?:ing)?|broil(?:ing)?|barbecue"),
    ("toast", r"toast(?:ing)?"),
    ("smoke", r"smok(?:e|ing)"),
    ("melt", r"melt(?:ing|s)?"),
    ("freeze", r"freez(?:e|ing)|pack in salt and ice"),
    ("thaw", r"thaw(?:ing)?|defrost(?:ing)?"),
    ("chill", r"chill(?:ing)?|refrigerate|(?:in|into) (?:the |a )?(?:fridge|refrigerator)"),
    ("carbonate", r"carbonat(?:e|ing)|charge with (?:gas|co2)|fizz up"),
    ("steep", r"steep(?:ing)?|infus(?:e|ing)"),
    ("soak", r"soak(?:ing)?|cover with (?:boiling |hot |cold )?water"),
    ("marinate", r"marinat(?:e|ing)|marinade(?= (?:the|for|in|overnight))"),
    ("rise", r"(?<!to )ris(?:e|es)|prov(?:e|ing)|proof(?:ing)?"),
    ("ferment", r"ferment(?:ing)?|culture|sunless"),
    ("dry", r"dry(?:ing)?(?= (?:in|for|on|out|at|the|overnight))|dehydrate"),
    ("blend", r"run the food processor|blend(?:ing)?|pur[ée]e(?: until)?|process(?:ing)?|pulse|liquidi[sz]e|whizz|blitz"),
    ("grind", r"grind(?:ing)?|pound(?= (?:the|in|to|with))|crush(?:ing)?(?= (?:the|with|in))"),
    ("cook", r"cook(?:s|ing)?"),
    ("heat", r"bring (?:\w+ ){1,4}to(?= \d)|(?:re)?heat(?:ing)?(?: up| through)?|warm(?:ing)?(?: up| through|(?= (?:the|milk|in|it)))|scald"),
    ("cool", r"cool(?:ing|s)?(?: down| completely)?|go cold"),
    ("strain", r"strain(?:ing)?|drain(?:ing)?|siev(?:e|ing)|filter|(?:through|into) (?:a |the )?(?:fine |coarse )?(?:sieve|strainer|cheese-?cloth|colander|muslin)|hang the|(?:let (?:it|them) )?drip|squeeze (?:out|through)"),
    ("rest", r"(?:to |let(?: it| them| the \w+)? )?(?:rest(?:ing)?(?! of)|stand(?:ing)?)\b|(?:let(?: it)?|to) sit|set aside|put aside|leave(?: it| them| the \w+)?(?= (?:for|to|over|in|at|covered|aside|un))|let it brew"),
    ("mix", r"mix(?:ing)?|whisk(?:ing)?|beat(?:ing)?|knead(?:ing)?|shak(?:e|ing)|stir(?! in)|combin(?:e|ing)|whip(?:ping)?|fold(?:ing)?(?= (?:in|the|through))|toss|muddle|cream(?= (?:the|together|butter))|rub (?:in|the butter|the fat)|stir in|work"),
    ("store", r"stor(?:e|ing)|keep(?=s? (?:in|for|it|them|refrigerated|cool|chilled|well))|cold storage"),
    ("transfer", r"transfer|remov(?:e|ing)|move|turn(?= (?:out|into|onto|the \w+ (?:out|into)))|take(?= (?:out|it|them|the))|decant|pack into|bottle"),
    ("add", r"add(?:ing)?|pour(?:ing)?|top(?= (?:with|each|up|the))|season|sprinkl(?:e|ing)|ladl(?:e|ing)|garnish|scatter|drizzle|put in|stir through|dissolve|baste|spread"),
    ("prep", r"(?:finely |thinly |roughly )?(?:slic|dic|grat|minc|peel|chop|cut|trim|shred|zest|cor|halv|quarter|divid|shap|wash|rins|wip|greas|lin|roll|prepar|clean|crack|separat|pit|stuff|flour|cover|place|put|press|flatten|arrang|make|form|skin|soft|break|tear|juice|squeeze|open|bast)(?:e|es|ing)?\b"),
    ("serve", r"serv(?:e|ing)|enjoy|ready to eat"),
)  # fmt: skip

PROCESS: Final = re.compile(
    r"(?<![\w-])(?:"
    + "|".join(f"(?P<{kind}>{pattern})" for kind, pattern in _WORDS)
    + r")(?![\w-])"
)
"""One search for all process words; the name of the group that matched is the kind."""

APPLIANCES: Final[tuple[tuple[str, re.Pattern[str]], ...]] = tuple(
    (name, re.compile(rf"\b(?:{pattern})\b"))
    for name, pattern in (
        ("slow cooker", r"slow[- ]cooker|crock ?pot"),
        ("pressure cooker", r"pressure[- ]cooker"),
        ("air fryer", r"air[- ]fryer"),
        ("microwave", r"microwave"),
        ("food processor", r"food processor|processor"),
        ("blender", r"blender|liquidi[sz]er"),
        ("kettle", r"kettle"),
        ("oven", r"oven"),
        ("grill", r"grill|barbecue|broiler"),
        ("freezer", r"freezer"),
        ("fridge", r"fridge|refrigerator|refrigerate"),
        ("hob", r"hob|stove|stovetop|burner|saucepan|frying pan|skillet|stockpot|soup pot|wok"),
        ("dehydrator", r"dehydrator"),
    )
)
IMPLIED: Final[dict[str, str]] = {
    "boil": "hob", "simmer": "hob", "poach": "hob", "steam": "hob", "fry": "hob", "melt": "hob",
    "heat": "hob", "toast": "hob", "cook": "hob", "bake": "oven", "preheat": "oven",
    "grill": "grill", "microwave": "microwave", "kettle": "kettle", "freeze": "freezer",
    "chill": "fridge", "blend": "blender", "slow_cook": "slow cooker", "dry": "oven",
}  # fmt: skip
"""The appliance a process takes where none is named."""
