"""What the words around a food's name do to it: nothing, a little, or everything.

Kinds of words, not cases: a word stands here because of what it means in a kitchen, whatever the
food. All lists are common practice of English recipe writing; the words are in the form that
`spellings.words` gives them (singular, one spelling).
"""

from __future__ import annotations


def _listed(text: str) -> frozenset[str]:
    return frozenset(text.split())


# Grammar words that join a name together.
JOINING = _listed(
    "a an the of with in from on for to at and or some few your no very my any about but if then plenty lot little x"
)

# Quality, ripeness, size, temperature, cut and handling: the food stays the same.
HARMLESS = _listed(
    """
    organic good quality best high freshly ripe firm raw natural pure plain real
    freerange outdoor reared local homemade home made ready readymade shop store bought prepared
    large medium small big extra jumbo mini tiny baby young old new season seasonal thick
    thin thinly thickly finely roughly coarsely coarse fine long half halved
    quartered chopped sliced diced cubed cube grated shredded pre crushed torn trimmed peeled
    unpeeled washed rinsed drained cleaned scrubbed seeded deseeded pitted stoned cored skinless
    skinned skin boneless boned bone bonein filleted shelled shucked unshelled headless deveined
    cold cool chilled warm hot lukewarm tepid boiling boiled scalded room temperature soft
    softened melted very soaked flaked live wild farmed heirloom heritage tender juicy minced
    fleshy strong mature matured aged vintage seedless unwaxed
    waxed unbleached bleached leftover leaving reserved
    remaining optional preferably favourite favorite choice own additional more regular normal
    ordinary standard common generous scant heaped heaping level rounded packed quick instant
    slow stale day dayold crusty rustic artisan artisanal traditional genuine authentic premium
    fancy deluxe select finest superior edible decorative assorted mixed various different
    unwashed style type variety kind flavour flavoured coloured colour thawed defrosted
    strained sifted squeezed pressed podded stemmed destemmed attached loose bunched
    flatleaf straight round oval split slender hothouse vine hand
    picked dressed mashed beaten whisked whipped separated toasted cut up into bite sized size
    granulated ii iii iv leveled bottled well deeply fully country chiffonade section part end chunky smooth runny thickset dense nice lovely
    beautiful delicious tasty robust fruity skinon untreated rindless rind off
    t weight traditionally naturally freshlyground freshlygrated grade cooking eating
    dusting serving greasing garnish topping use other another such preferred preferable
    """
)

# Colours, fat, sugar, taste: they choose between kinds where the table has several, and leave
# the food what it is where it has not.
CHOOSING = _listed(
    """
    red green yellow white black brown purple golden pink blue dark pale light lightly deep
    rich full low reduced fat sodium sugar sugarfree gluten lactose sweet sharp mild short flat
    curly leafy lean free unsalted unsweetened unflavoured creamy floury waxy starchy mealy single
    double whole iced spicy
    """
)

# Colours and the heads whose colour is another food ("green beans", "red peppers").
COLOURS = _listed("red green yellow white black")
COLOUR_DECIDES = _listed("pepper bean currant pea lentil")

# Words that put something else in the food's place ("vegan cheese", "imitation crab").
REPLACING = _listed(
    "vegan glutenfree plant mock imitation faux meatless meatfree eggless eggfree dairyfree milkfree nondairy "
    "non veggie vegetarian flax flaxseed chia substitute replacer alternative analogue"
)
ANIMAL_CLASSES = frozenset(
    {
        "dairy", "cheese", "butter & fats", "eggs", "beef", "veal", "lamb", "pork", "poultry",
        "game", "offal", "fish", "shellfish",
    }
)  # fmt: skip

# Made dishes and sauces that may hold something from an animal: their vegan kind is another food.
MIXED_CLASSES = frozenset(
    {
        "condiments & sauces", "sweets & desserts", "bread & bakery", "stocks",
        "chocolate & cocoa", "pasta & noodles", "flour & starch",
    }
)  # fmt: skip

# Modifiers and parts that are foods or things of their own when they stand last ("goose fat",
# "mustard greens", "soup bone"): they cannot be passed over to find a head before them.
NEVER_LAST = _listed(
    "fat sugar sodium gluten lactose sweet baby bone skin green white black red blue brown "
    "golden rich room temperature hand day topping end size choice light free whole ice"
)

# Names of places and peoples: a style or an origin.
PLACES = _listed(
    """
    iberico iberian italian french spanish greek turkish moroccan indian thai chinese japanese korean vietnamese
    asian mexican american english british scottish irish welsh german dutch danish swedish
    norwegian polish hungarian russian lebanese persian iranian egyptian tunisian ethiopian
    african caribbean jamaican cuban brazilian argentinian argentine peruvian chilean californian
    canadian australian zealand new york kentucky virginia vermont sicilian tuscan provencal
    mediterranean middle eastern european belgian swiss austrian portuguese sichuan szechuan
    hawaiian israeli syrian cornish devon kentish yorkshire norfolk jersey basque catalan roman
    neapolitan bavarian nordic scandinavian atlantic pacific alaskan north south east west
    """
)

# Words that name a part or a shape of the food that stands before them ("garlic clove").
PARTS = _listed(
    """
    leaf sprig clove stick stalk floret fillet piece chunk slice wedge cube bulb root bunch head
    tip half ring segment kernel thread strand pod bean flesh meat sheet strip spear stem heart
    cap berry seed nut frond flake finger disc corner portion rasher knob twig tooth bud cutlet
    chop steak breast thigh leg drumstick wing loin shoulder neck belly joint side quarter tail
    claw body shell cheek rib corm crown round medallion escalope carcass shank blade feather
    granule pearl string knuckle top pulp crumb shaving sliver curl shred bit square rectangle
    quantity amount inch layer glass handful dice nest block tube turn
    wheel ribbon cone paddle link tuber
    """
)

# Parts that are another food unless the food before them is of one of these classes: the leaves
# of a lime are no lime, the seeds of a pumpkin no pumpkin.
OTHER_PARTS = {
    **dict.fromkeys(
        ("seed", "nut", "bean", "heart", "granule", "flake", "pod", "berry", "stick"),
        frozenset({"spices", "nuts & seeds", "pulses", "grains", "breakfast cereals", "fruit"}),
    ),
    "leaf": frozenset({"fresh herbs", "dried herbs", "vegetables", "tea & coffee", "thickeners"}),
    **dict.fromkeys(("bone", "top", "finger", "ring"), frozenset[str]()),
    "root": frozenset({"vegetables"}),
    **dict.fromkeys(
        ("sheet", "square", "shell", "cube"),
        frozenset({"seaweed", "pasta & noodles", "bread & bakery", "thickeners", "beef", "lamb"}),
    ),
}

# States that make another food of it; several spellings of one state meet in one word.
FORMS = {
    "fresh": "fresh",
    "dried": "dried",
    "dehydrated": "dried",
    "desiccated": "dried",
    "dry": "dried",
    "sundried": "dried",
    "freezedried": "dried",
    "canned": "canned",
    "tin": "canned",
    "frozen": "frozen",
    "smoked": "smoked",
    "cooked": "cooked",
    "precooked": "cooked",
    "boiled": "cooked",
    "roast": "roasted",
    "roasted": "roasted",
    "grilled": "cooked",
    "fried": "cooked",
    "steamed": "cooked",
    "ground": "ground",
    "powder": "ground",
    "grind": "ground",
    "milled": "ground",
    "salted": "salted",
    "cured": "cured",
    "pickled": "pickled",
    "preserved": "preserved",
    "candied": "candied",
    "crystallised": "candied",
    "glace": "candied",
    "wholemeal": "wholemeal",
    "skimmed": "skimmed",
    "skim": "skimmed",
    "semiskimmed": "semiskimmed",
    "evaporated": "evaporated",
    "condensed": "condensed",
    "concentrated": "concentrated",
    "concentrate": "concentrated",
    "sparkling": "sparkling",
    "carbonated": "sparkling",
    "fizzy": "sparkling",
    "fermented": "fermented",
    "hydrogenated": "hydrogenated",
    "puree": "puree",
}

# How far a state that the table does not know for this food leaves the food as it is.
FORM_KEPT = {
    "fresh": 0.7,
    "frozen": 0.94,
    "ground": 0.6,
    "puree": 0.7,
    "salted": 0.95,
    "roasted": 0.85,
    "cooked": 0.72,
    "canned": 0.74,
    "smoked": 0.75,
    "cured": 0.8,
    "wholemeal": 0.85,
    "sparkling": 0.7,
    "skimmed": 0.85,
    "semiskimmed": 0.9,
    "concentrated": 0.6,
}
FORM_LOST = 0.5  # any other state: not this food with any confidence

# Freezing makes another food of a drink or a dessert, not of these.
FROZEN_KEPT = frozenset(
    {
        "vegetables", "mushrooms", "pulses", "fruit", "fresh herbs", "bread & bakery", "beef",
        "veal", "lamb", "pork", "poultry", "game", "offal", "fish", "shellfish", "plant-based",
    }
)  # fmt: skip
# What flavours a yoghurt; anything else before it is what it is made of.
FLAVOURING_CLASSES = frozenset(
    {"fruit", "dried fruit", "flavourings", "sugars & syrups", "jams & preserves", "spices"}
)

# Classes whose foods are dry, or made of dried things, as a matter of course.
DRY_CLASSES = frozenset(
    {
        "pulses", "spices", "dried herbs", "grains", "rice", "flour & starch",
        "pasta & noodles", "dried fruit", "nuts & seeds", "leavening", "seaweed",
        "breakfast cereals", "tea & coffee", "thickeners", "bread & bakery", "wine & beer",
        "spirits & liqueurs",
    }
)  # fmt: skip
KEPT_CLASSES = frozenset({"spices", "dried herbs", "dried fruit", "pickles", "salt"})
KEPT_FORMS = frozenset({"frozen", "canned", "dried", "dry", "candied", "pickled"})
WET_FORMS = frozenset({"cooked", "canned", "fresh", "frozen", "boiled"})
PICKLE_CLASSES = frozenset({"pickles"})
SWEET_CLASSES = frozenset({"sugars & syrups", "dried fruit"})
GROUND_CLASSES = frozenset({"spices", "flour & starch", "salt", "sugars & syrups", "nuts & seeds"})

# Heads that are made of what stands before them: an unknown word before them is another food.
MADE_OF = _listed(
    """
    milk cream butter cheese flour juice oil stock broth bouillon water wine paste powder sauce
    meal syrup starch yogurt sausage bacon ham burger mince pie noodle spread curd fat dripping
    bone extract essence liqueur seed nut bean leaf root bread cake jelly chip cracker biscuit
    cookie ice mix soda soup concentrate ale beer cider roll sprout flower blossom skin pepper pea salad
    """
)

# Of these, the heads that are of one kind whatever plant they are drawn from; nuts are left out,
# since people may be allergic to them.
DRAWN_FROM_PLANTS = _listed("juice essence extract cordial")
PLANT_CLASSES = frozenset(
    {"fruit", "vegetables", "fresh herbs", "dried herbs", "spices", "tea & coffee", "flavourings"}
)

# Of these, the heads whose unknown first words are mostly varieties ("young asiago cheese").
VARIETIES = _listed("cheese wine beer ale bread noodle ham syrup liqueur oil cake biscuit cookie")

# Heads that stay what they are whatever flavours them.
FLAVOURED = _listed(
    """
    salt sugar vinegar syrup jam jelly marmalade tea liqueur rum vodka gin thyme
    mint mustard honey bread pesto pasta noodle tortilla cordial sorbet stock broth extract
    essence biscuit cookie cracker chutney mayonnaise soup crisp lettuce tomato potato onion
    apple pear plum mushroom squash salsa panettone
    """
)

# Of these, the heads that a flavour may well make another food of: "celery salt", "date honey".
OTHER_FLAVOURED = _listed("salt sugar syrup jelly honey soup bread crisp squash cordial biscuit")

# Heads that only name the class of what stands before them ("gorgonzola cheese", "cod fish").
CLASS_NOUNS = _listed(
    "cheese fish bread rice herb spice sausage pasta noodle squash lettuce mushroom pepper tea "
    "wine beer sauce bean lentil seaweed potato tomato apple pear liqueur seasoning salt meat steak "
    "onion cabbage oil vinegar sugar flour chocolate chilli biscuit cookie cracker"
)

# Flavours that change no food by standing before it.
FLAVOURS = _listed("vanilla cinnamon peppered herbed marinated seasoned honeyed")

# Packs that a line may name before its food ("a 300 ml pot thick cream").
VESSELS = _listed("pot tub punnet carton packet pack bag box bottle jar tube tin tray can sack net")

# A cook's measures and vessels, never a food by themselves.
NEVER_FOOD = _listed(
    "thermometer cheesecloth thermos skewer foil parchment paper string twine glove towel"
)
