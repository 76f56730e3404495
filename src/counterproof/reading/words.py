"""The words the line grammar knows: none of them is a food."""

# ruff: noqa: SIM905 (a word list is read as a sentence, not as forty quoted strings)

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

NUMBER_WORDS: Final[Mapping[str, tuple[float, float]]] = {
    **{
        word: (float(number), float(number))
        for number, word in enumerate(
            "one two three four five six seven eight nine ten eleven twelve thirteen "
            "fourteen fifteen sixteen seventeen eighteen nineteen twenty".split(),
            start=1,
        )
    },
    "twenty-four": (24.0, 24.0),
    "thirty": (30.0, 30.0),
    "forty": (40.0, 40.0),
    "fifty": (50.0, 50.0),
    "half": (0.5, 0.5),
    "half a": (0.5, 0.5),
    "half an": (0.5, 0.5),
    "one half": (0.5, 0.5),
    "one-half": (0.5, 0.5),
    "quarter": (0.25, 0.25),
    "a quarter": (0.25, 0.25),
    "one quarter": (0.25, 0.25),
    "one-quarter": (0.25, 0.25),
    "three quarters": (0.75, 0.75),
    "three-quarters": (0.75, 0.75),
    "one third": (1 / 3, 1 / 3),
    "one-third": (1 / 3, 1 / 3),
    "two thirds": (2 / 3, 2 / 3),
    "two-thirds": (2 / 3, 2 / 3),
    "a": (1.0, 1.0),
    "an": (1.0, 1.0),
    "a dozen": (12.0, 12.0),
    "one dozen": (12.0, 12.0),
    "dozen": (12.0, 12.0),
    "half a dozen": (6.0, 6.0),
    "half dozen": (6.0, 6.0),
    "a half dozen": (6.0, 6.0),
    "two dozen": (24.0, 24.0),
    "a couple": (2.0, 2.0),
    "a couple of": (2.0, 2.0),
    "couple of": (2.0, 2.0),
    "a half": (0.5, 0.5),
    "a third": (1 / 3, 1 / 3),
    "couple": (2.0, 2.0),
    "a few": (2.0, 4.0),
    "few": (2.0, 4.0),
    "several": (3.0, 5.0),
    "a pair": (2.0, 2.0),
}
"""Number words with the least and most they mean: "a few" as 2 to 4 and "several" as 3 to 5
are assumed, for want of a source; whoever cooks by eye sees the range."""

SIZES: Final[Mapping[str, str]] = {
    "small": "small",
    "sm": "small",
    "smallish": "small",
    "small-sized": "small",
    "small-size": "small",
    "tiny": "small",
    "medium": "medium",
    "med": "medium",
    "md": "medium",
    "medium-sized": "medium",
    "medium-size": "medium",
    "average": "medium",
    "average-sized": "medium",
    "medium-large": "medium-large",
    "medium-small": "medium-small",
    "small-medium": "medium-small",
    "large": "large",
    "lg": "large",
    "lge": "large",
    "big": "large",
    "fat": "large",
    "large-sized": "large",
    "large-size": "large",
    "even-sized": "even-sized",
    "extra-large": "extra-large",
    "xl": "extra-large",
    "jumbo": "extra-large",
    "huge": "extra-large",
    "very": "",
    "extra": "",
    "fist-sized": "fist-sized",
    "fist-size": "fist-sized",
    "thumb-sized": "thumb-sized",
    "thumb-size": "thumb-sized",
    "walnut-sized": "walnut-sized",
    "walnut-size": "walnut-sized",
    "bite-sized": "bite-sized",
    "bite-size": "bite-sized",
    "finger-length": "finger-length",
    "finger-sized": "finger-sized",
}
"""Words of size, and what they are called in a table of household weights."""

FILLS: Final = frozenset(
    "heaped heaping flat rounded scant level generous good big-ish slight full packed brimming thin "
    "thick lengthwise round whole fresh liquid overflowing loose loosely firmly tightly lightly "
    "long short fine two-finger three-finger skinny hefty plump average-size fair".split()
)
"""Words that may stand between a number and its unit and say how full it is, or how cut."""

_CUT: Final = (
    "chopped minced sliced diced grated shredded crumbled cubed julienned crushed mashed melted "
    "softened beaten peeled trimmed cored seeded deseeded stoned pitted halved quartered torn "
    "snipped squeezed drained rinsed washed scrubbed cleaned sifted whisked whipped packed "
    "zested juiced slivered shaved chilled thawed defrosted cooked boiled poached steamed "
    "toasted bruised smashed pounded shelled skinned boned filleted gutted scaled butterflied "
    "deveined stemmed hulled podded destoned de-seeded de-stemmed de-veined unpeeled reserved "
    "separated divided cut crosswise lengthwise lengthways cooled warmed heated scalded blanched "
    "soaked squashed broken flaked flattened spooned heaping bashed cracked strained picked "
    "plucked pared scraped split pulled pressed patted rubbed ripped hand-torn rolled-out "
    "hard-boiled soft-boiled parboiled pre-cooked uncooked unbeaten pulverized pureed puréed "
    "blended crumpled tied pricked scored coarse-chopped thin-sliced fine-chopped "
    "quick-soaked stirred well-stirred wiped "
    "chunked sectioned segmented julienne processed refreshed dissolved "
    "shucked debearded bearded unwrapped kneaded proved risen fresh-ground freshly-ground fresh-squeezed freshly-squeezed stripped "
    "steeped bloomed slaked macerated rehydrated reconstituted pierced knotted slit deboned "
    "de-boned spatchcocked destalked de-stalked hollowed pulsed blitzed whizzed "
    "well-shaken well-washed well-chilled well-beaten well-drained spiralized spiralised frenched tenderised tenderized portioned liquidised".split()
)
_HOW: Final = (
    "finely roughly coarsely thinly thickly freshly lightly well very loosely firmly tightly "
    "gently evenly neatly carefully diagonally hand partially partly slightly gently newly "
    "just briefly fresh- cleanly tightly- fairly quite extremely super fully".split()
)
_THEN: Final = (
    "for to plus about approximately approx approx. around such preferably if each per "
    "at until see note including ideally optional depending from weighing measuring like "
    "i.e. e.g. eg ie according enough sufficient totaling totalling then when made "
    "according as but reserving adjust that which into by".split()
)

JOINING_PARTICIPLES: Final = frozenset(
    "stuffed filled wrapped coated covered topped marinated spread dipped rolled studded dusted "
    "layered rubbed brushed glazed tossed sprinkled breaded battered smothered dressed served "
    "drizzled spiked encased".split()
)
"""Words that, before "with" or "in", bring a second food into the line."""

PREPARATION, MANNER, BREAK, OR, AND = 1, 2, 3, 4, 5

WORD_CLASSES: Final[Mapping[str, int]] = {
    **dict.fromkeys(_CUT, PREPARATION),
    **dict.fromkeys(_HOW, MANNER),
    **dict.fromkeys(_THEN, BREAK),
    "or": OR,
    "and/or": OR,
    "and": AND,
    "&": AND,
    "+": BREAK,
}
"""What a word does in a line, where it is neither an amount nor part of a name."""

NO_NAME: Final = frozenset({"ground", "finely ground", "freshly ground", "coarsely ground"})
"""What no food is called by itself: "2 cloves, ground"."""

NEVER_ALONE: Final = frozenset(
    "whole large small medium fresh dried ripe raw frozen cold hot warm black white red green "
    "yellow brown dark light sweet sour bitter salted unsalted smoked unsmoked boneless skinless "
    "bone-in skin-on lean organic free-range firm soft thick thin long short young baby mature "
    "plain crusty good good-quality best-quality quality best day-old stale tender meaty thick-cut "
    "thin-cut extra extra-virgin virgin pure unbleached unsweetened sweetened low-fat full-fat "
    "nonfat fat-free reduced-fat skimmed semi-skimmed low-sodium reduced-sodium sodium-free "
    "even-sized cold-pressed untreated unwaxed natural homemade home-made store-bought "
    "ready-made cooked uncooked unpeeled peeled mild strong runny solid creamy chunky smooth "
    "coarse fine medium-sized medium-size all-purpose freshly boneless, hard active instant "
    "thin-skinned heavy dry".split()
)
"""Words that describe and cannot be a whole name: the name goes on after their comma."""

BOUGHT_SO: Final = frozenset(
    {
        ("split", "peas"),
        ("split", "pea"),
        ("split", "lentils"),
        ("cracked", "wheat"),
        ("shredded", "wheat"),
        ("crushed", "tomatoes"),
        ("whipped", "cream"),
        ("beaten", "rice"),
        ("crushed", "red"),
        ("flattened", "rice"),
        ("broken", "rice"),
        ("broken", "wheat"),
        ("mashed", "potato"),
    }
)
"""Foods bought in the state their first word names; it is no work for the cook."""

SHARED_HEADS: Final[Mapping[str, frozenset[str]]] = MappingProxyType(
    {
        **dict.fromkeys(
            ("stock", "broth", "bouillon", "consomme", "consommé"),
            frozenset(
                "chicken beef vegetable veal fish lamb turkey pork mushroom ham game duck "
                "shellfish seafood meat bone veg".split()
            ),
        ),
        **dict.fromkeys(
            ("oil",),
            frozenset(
                "canola peanut safflower sunflower vegetable olive rapeseed corn coconut "
                "groundnut grapeseed sesame avocado walnut hazelnut rice-bran soybean soya nut "
                "cottonseed palm".split()
            ),
        ),
        "vinegar": frozenset("cider wine balsamic malt sherry rice red white apple".split()),
        "juice": frozenset("lemon lime orange grapefruit apple pineapple cranberry".split()),
        "sugar": frozenset(
            "caster granulated brown white demerara muscovado icing superfine raw cane palm".split()
        ),
        "milk": frozenset("whole skimmed semi-skimmed low-fat oat soy soya almond coconut".split()),
        "flour": frozenset("plain wholemeal wheat rye spelt bread white rice corn".split()),
        "beans": frozenset("kidney black pinto cannellini borlotti navy butter haricot".split()),
        "seeds": frozenset("pumpkin sunflower sesame poppy flax chia".split()),
        "lettuce": frozenset("romaine butter iceberg cos bibb".split()),
        "salt": frozenset("sea kosher table rock".split()),
        "zest": frozenset("lemon lime orange".split()),
        "mushrooms": frozenset(
            "button crimini cremini chestnut oyster shiitake portobello field wild".split()
        ),
        "tomatoes": frozenset("cherry plum roma grape beef vine".split()),
        "rice": frozenset("basmati jasmine arborio long-grain short-grain wild".split()),
        "syrup": frozenset("maple golden corn agave rice".split()),
        "noodles": frozenset("egg rice udon soba wheat".split()),
        "bread": frozenset("rye sourdough french italian pitta white".split()),
        "leaves": frozenset("basil mint spinach bay coriander parsley".split()),
    }
)
"""Head nouns that one "or" may share, and the nouns that may stand before them:
"chicken or vegetable stock" is two stocks, "butter or olive oil" is not two oils."""
