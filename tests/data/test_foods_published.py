"""Plant foods against published tables.

Unless a row names another source, the source is the USDA National Nutrient Database for Standard
Reference, Release 28 (USDA Agricultural Research Service, 2015), called SR28 below: NDB number and
the measure's own words stand beside each figure. The US cup is 236.588 mL by definition.
"""

from __future__ import annotations

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.rows import Tables

pytestmark = pytest.mark.published

GRAM = 1e-3  # [kg]
CUP = 0.2365882365  # [L], eight US fluid ounces of 231/128 cubic inches
TABLESPOON = CUP / 16  # [L]

# food, measure, size, grams, NDB number, the measure as SR28 words it
WEIGHTS = (
    ("onion", "piece", "medium", 110, "11282", 'medium (2-1/2" dia)'),
    ("carrot", "piece", "medium", 61, "11124", "medium"),
    ("garlic", "clove", "", 3, "11215", "clove"),
    ("leek", "piece", "", 89, "11246", "leek"),
    ("potato", "piece", "medium", 213, "11352", 'Potato medium (2-1/4" to 3-1/4" dia)'),
    ("sweet-potato", "piece", "", 130, "11507", 'sweetpotato, 5" long'),
    ("beetroot", "piece", "", 82, "11080", 'beet (2" dia)'),
    ("turnip", "piece", "medium", 122, "11564", "medium"),
    ("swede", "piece", "medium", 386, "11435", "medium"),
    ("cassava", "piece", "", 408, "11134", "root"),
    ("lotus-root", "piece", "", 115, "11254", 'root (9-1/2" long)'),
    ("cabbage", "head", "medium", 908, "11109", 'head, medium (about 5-3/4" dia)'),
    ("cabbage-red", "head", "medium", 839, "11112", 'head, medium (about 5" dia)'),
    ("cauliflower", "head", "medium", 588, "11135", 'head medium (5-6" dia.)'),
    ("brussels-sprout", "piece", "", 19, "11098", "sprout"),
    ("lettuce-round", "head", "", 163, "11250", 'head (5" dia)'),
    ("lettuce-iceberg", "head", "medium", 539, "11252", 'head, medium (6" dia)'),
    ("lettuce-cos", "head", "", 626, "11251", "head"),
    ("chicory", "head", "", 53, "11151", "head"),
    ("endive", "head", "", 513, "11213", "head"),
    ("spinach", "bunch", "", 340, "11457", "bunch"),
    ("swiss-chard", "leaf", "", 48, "11147", "leaf"),
    ("celery", "stalk", "medium", 40, "11143", 'stalk, medium (7-1/2" - 8" long)'),
    ("asparagus", "spear", "medium", 16, "11011", 'spear, medium (5-1/4" to 7" long)'),
    ("artichoke", "piece", "medium", 128, "11007", "artichoke, medium"),
    ("rhubarb", "stalk", "", 51, "09307", "stalk"),
    ("courgette", "piece", "medium", 196, "11477", "medium"),
    ("cucumber", "piece", "", 301, "11205", 'cucumber (8-1/4")'),
    ("tomato", "piece", "medium", 123, "11529", 'medium whole (2-3/5" dia)'),
    ("pepper-green", "piece", "medium", 119, "11333", 'medium (approx 2-3/4" long, 2-1/2" dia)'),
    ("pepper-red", "piece", "medium", 119, "11821", 'medium (approx 2-3/4" long, 2-1/2 dia.)'),
    ("jalapeno", "piece", "", 14, "11979", "pepper"),
    ("chilli-serrano", "piece", "", 6.1, "11977", "pepper"),
    ("sweetcorn", "ear", "medium", 102, "11167", 'ear, medium (6-3/4" to 7-1/2" long) yields'),
    ("squash-acorn", "piece", "", 431, "11482", "squash (4 inch dia)"),
    ("avocado", "piece", "", 201, "09037", "avocado, NS as to Florida or California"),
    ("mushroom", "piece", "medium", 18, "11260", "medium"),
    ("mushroom-portobello", "piece", "", 84, "11265", "piece whole"),
    ("mushroom-shiitake", "piece", "", 19, "11238", "piece whole"),
    ("apple", "piece", "medium", 182, "09003", 'medium (3" dia)'),
    ("apricot", "piece", "", 35, "09021", "apricot"),
    ("banana", "piece", "medium", 118, "09040", 'medium (7" to 7-7/8" long)'),
    ("lemon", "wedge", "", 7, "09150", 'wedge or slice (1/8 of one 2-1/8" dia lemon)'),
    ("lime", "piece", "", 67, "09159", 'fruit (2" dia)'),
    ("orange-navel", "piece", "", 140, "09202", 'fruit (2-7/8" dia)'),
    ("peach", "piece", "medium", 150, "09236", 'medium (2-2/3" dia)'),
    ("nectarine", "piece", "medium", 142, "09191", 'medium (2-1/2" dia)'),
    ("pear", "piece", "medium", 178, "09252", "medium"),
    ("plum", "piece", "", 66, "09279", 'fruit (2-1/8" dia)'),
    ("pineapple", "piece", "", 905, "09266", "fruit"),
    ("plantain", "piece", "medium", 179, "09277", "medium"),
    ("pomegranate", "piece", "", 282, "09286", 'pomegranate (4" dia)'),
    ("strawberries", "piece", "medium", 12, "09316", 'medium (1-1/4" dia)'),
    ("dates", "piece", "", 7.1, "09087", "date, pitted"),
    ("prunes", "piece", "", 9.5, "09291", "prune, pitted"),
    ("figs-dried", "piece", "", 8.4, "09094", "fig"),
    ("melon-cantaloupe", "piece", "medium", 552, "09181", 'melon, medium (about 5" dia)'),
    ("watermelon", "piece", "", 4518, "09326", 'melon (15" long x 7-1/2" dia)'),
    ("mandarin", "piece", "medium", 88, "09218", 'medium (2-1/2" dia)'),
    ("almonds", "piece", "", 1.2, "12061", "almond"),
    ("brazil-nuts", "piece", "", 5, "12078", "kernel"),
    ("naan", "piece", "", 90, "28307", "piece"),
    ("filo-pastry", "sheet", "", 19, "18338", "sheet dough"),
    ("bread-wholemeal", "slice", "", 32, "18075", "slice"),
    ("broccoli", "spear", "", 31, "11090", 'spear (about 5" long)'),
    ("onion-spring", "piece", "large", 25, "11291", "large"),
)

# food, form, measure [L], grams, NDB number, the measure as SR28 words it
VOLUMES = (
    ("onion", "chopped", CUP, 160, "11282", "cup, chopped"),
    ("onion", "sliced", CUP, 115, "11282", "cup, sliced"),
    ("carrot", "chopped", CUP, 128, "11124", "cup chopped"),
    ("carrot", "grated", CUP, 110, "11124", "cup grated"),
    ("tomato", "chopped", CUP, 180, "11529", "cup, chopped or sliced"),
    ("parsley", "chopped", CUP, 60, "11297", "cup chopped"),
    ("spinach", "", CUP, 30, "11457", "cup"),
    ("butternut-squash", "chopped", CUP, 140, "11485", "cup, cubes"),
    ("rhubarb", "chopped", CUP, 122, "09307", "cup, diced"),
    ("blueberries", "", CUP, 148, "09050", "cup"),
    ("raisins", "", CUP, 145, "09298", "cup (not packed)"),
    ("lemon-juice", "", CUP, 244, "09152", "cup"),
    ("flour", "", CUP, 125, "20081", "cup"),
    ("flour-wholemeal", "", CUP, 120, "20080", "cup"),
    ("cornflour", "", CUP, 128, "20027", "cup"),
    ("oats", "", CUP, 81, "08120", "cup"),
    ("rice-white", "", CUP, 185, "20444", "cup"),
    ("rice-white-cooked", "", CUP, 158, "20445", "cup"),
    ("lentils-dry", "", CUP, 192, "16069", "cup"),
    ("chickpeas-dry", "", CUP, 200, "16056", "cup"),
    ("white-beans-cooked", "", CUP, 179, "16050", "cup"),
    ("sugar", "", CUP, 200, "19335", "cup"),
    ("sugar-brown", "packed", CUP, 220, "19334", "cup packed"),
    ("sugar-icing", "sifted", CUP, 100, "19336", "cup sifted"),
    ("honey", "", CUP, 339, "19296", "cup"),
    ("maple-syrup", "", CUP, 315, "19353", "cup"),
    ("cocoa", "", CUP, 86, "19165", "cup"),
    ("oil-olive", "", CUP, 216, "04053", "cup"),
    ("almonds", "ground", CUP, 95, "12061", "cup, ground"),
    ("walnuts", "chopped", CUP, 117, "12155", "cup, chopped"),
    ("peanut-butter", "", CUP, 258, "16398", "cup"),
    ("breadcrumbs-dry", "", CUP, 108, "18079", "cup"),
    ("cinnamon", "", TABLESPOON, 7.8, "02010", "tbsp"),
    ("paprika", "", TABLESPOON, 6.8, "02028", "tbsp"),
    ("turmeric", "", TABLESPOON, 9.4, "02043", "tbsp"),
)

# food, lowest and highest published density [kg/L], the rows that bracket it. Source: FAO/INFOODS
# Density Database Version 2.0 (Charrondiere, Haytowitz, Stadlmayr, FAO 2012); its source codes in
# brackets. Liquids are held to 3 % (a spoonful in SR28 is a rounded number of grams), what lies loose in a cup to 15 %: bulk density depends on who
# fills it, and the database itself scatters by 20 to 30 %.
DENSITIES = (
    ("apple-juice", 1.043, 1.043, "apple juice, canned or bottled [USDA]"),
    ("grape-juice", 1.054, 1.064, "grape juice [S&W, USDA]"),
    ("orange-juice", 1.038, 1.043, "orange juice [S&W], canned [USDA]"),
    ("oil-olive", 0.908, 0.918, "oil, olive [CSG, TB]"),
    ("oil-groundnut", 0.914, 0.918, "oil, peanut [CSG, TB]"),
    ("oil-vegetable", 0.918, 0.918, "oil, rapeseed [CSG]"),
    ("oil-soybean", 0.927, 0.927, "oil, vegetable, soya [TB]"),
    ("oil-coconut", 0.924, 0.924, "oil, vegetable, coconut [TB]"),
    ("maple-syrup", 1.319, 1.319, "syrup, maple [USDA]"),
    ("corn-syrup", 1.404, 1.404, "syrup, corn, light [USDA]"),
)
BULK_DENSITIES = (
    ("jam", 1.333, 1.43, "jam [S&W, RC]"),
    ("flour", 0.48, 0.67, "wheat, flour [ASI, S&W, KEN, RC]"),
    ("flour-wholemeal", 0.55, 0.55, "wheat, flour, wholemeal [RC]"),
    ("cornflour", 0.54, 0.67, "maize, starch, loose [TB], starch [ASI]"),
    ("oats", 0.30, 0.38, "oats, rolled [ASI]"),
    ("rice-white", 0.72, 0.85, "rice [ASI], raw [RC, KEN]"),
    ("rice-white-cooked", 0.73, 0.73, "rice, white, boiled [RC]"),
    ("semolina", 0.78, 0.78, "semolina, raw [RC]"),
    ("kidney-beans-dry", 0.75, 0.75, "kidney beans, dry, raw [KEN]"),
    ("kidney-beans-cooked", 0.79, 0.79, "kidney beans, dry, boiled [KEN]"),
    ("lentils-dry", 0.89, 0.89, "lentils, green, small, raw [RC]"),
    ("lentils-cooked", 0.85, 0.85, "lentils, green, small, boiled [RC]"),
    ("sugar", 0.70, 0.95, "sugar, granulated [ASI], white [RC, FNDDS 4.1], sugar [KEN]"),
    ("sugar-icing", 0.56, 0.56, "sugar, powdered [ASI]"),
    ("peanuts", 0.53, 0.69, "peanuts; peanuts, shelled [ASI]"),
    ("sunflower-seeds", 0.62, 0.62, "sunflower, seed [ASI]"),
    ("carrot", 0.54, 0.54, "carrot, raw, chopped [KEN]"),
    ("green-beans", 0.53, 0.53, "French green beans [KEN]"),
    ("onion-spring", 0.44, 0.44, "leaves, spring onion, raw [KEN]"),
)
LIQUID_TOLERANCE = 0.03
BULK_TOLERANCE = 0.15
LOOSE = {"green-beans": 0.21}  # cut lengths differ: half inch in SR28

# dry food, cooked food, CNF yield, CNF food ids. Source: Canadian Nutrient File 2015 (Health
# Canada), the dry grams that make a volume and the cooked weight of that volume.
COOKED = (
    ("chickpeas-dry", "chickpeas-cooked", 2.99, "3389, 3390"),
    ("lentils-dry", "lentils-cooked", 2.83, "3392, 3393"),
    ("lentils-red-dry", "lentils-cooked", 3.46, "4869, 5918"),
    ("kidney-beans-dry", "kidney-beans-cooked", 2.92, "3381, 3382"),
    ("black-beans-dry", "black-beans-cooked", 2.93, "3376, 3377"),
    ("white-beans-dry", "white-beans-cooked", 2.87, "3385, 3386"),
    ("navy-beans-dry", "navy-beans-cooked", 2.91, "3383, 3384"),
    ("butter-beans-dry", "butter-beans-cooked", 2.61, "3288, 3289"),
    ("split-peas-dry", "split-peas-cooked", 2.96, "3394, 3395"),
    ("soybeans-dry", "soybeans-cooked", 3.13, "3400, 3401"),
    ("rice-white", "rice-white-cooked", 2.38, "4471, 4523"),
    ("rice-brown", "rice-brown-cooked", 3.33, "4496, 4497"),
    ("pasta", "pasta-cooked", 2.84, "4522, 4469"),
    ("bulgur", "bulgur-cooked", 4.01, "4414, 4489"),
    ("couscous", "couscous-cooked", 2.44, "4420, 4490"),
    ("barley", "barley-cooked", 3.46, "4411, 4486"),
)

# dry food, cooked food, g water in 100 g before and after, NDB numbers. Source: SR28. What isn't
# water stays in the food, or leaches a little, so dry matter bounds the yield from above.
DRY_MATTER = (
    ("rice-white", "rice-white-cooked", 11.62, 68.44, "20444, 20445"),
    ("pasta", "pasta-cooked", 9.90, 62.13, "20420, 20421"),
    ("chickpeas-dry", "chickpeas-cooked", 7.68, 60.21, "16056, 16057"),
    ("lentils-dry", "lentils-cooked", 8.26, 69.64, "16069, 16070"),
    ("white-beans-dry", "white-beans-cooked", 11.32, 63.08, "16049, 16050"),
    ("quinoa", "quinoa-cooked", 13.28, 71.61, "20035, 20137"),
)

# Foods whose energy the general factors reach within 5 %. For others SR28 uses the food's own
# factors (Merrill & Watt, USDA Agriculture Handbook 74), such as 8.37 kcal/g for the fat of nuts
# (from memory), or a carbohydrate that is mostly fibre.
GENERAL_FACTORS = """
almonds almond-butter apple avocado blueberries bread-white bread-wholemeal breadcrumbs-dry
buckwheat bulgur cabbage cauliflower cinnamon cornflour cornmeal edamame fennel-bulb flour
flour-bread flour-rye flour-wholemeal hazelnuts leek lentils-dry macadamias maple-syrup naan
noodles-egg oats oil-olive oil-sesame onion orange pasta pasta-cooked peanuts pear pecans
potato quinoa rhubarb rice-brown rice-white rice-white-cooked semolina sesame-seeds shallot
soya-milk sugar sugar-brown sunflower-seeds tahini tomato
"""


@pytest.fixture(scope="module")
def tables() -> Tables:
    return load_tables()


@pytest.mark.parametrize("published", WEIGHTS, ids=lambda row: " ".join(row[:3]))
def test_a_household_measure_weighs_what_sr28_says(
    tables: Tables, published: tuple[str, str, str, float, str, str]
) -> None:
    food, measure, size, grams, ndb, words = published
    (row,) = (
        row
        for row in tables.household[food]
        if (row.measure, row.size, row.form) == (measure, size, "")
    )
    assert row.kg == pytest.approx(grams * GRAM), (ndb, words)
    assert row.provenance.source == "usda-sr28"


@pytest.mark.parametrize("published", VOLUMES, ids=lambda row: " ".join(row[:2]))
def test_a_cup_weighs_what_sr28_says(
    tables: Tables, published: tuple[str, str, float, float, str, str]
) -> None:
    food, form, litres, grams, ndb, words = published
    (row,) = (row for row in tables.densities[food] if row.form == form)
    assert row.kg_per_litre * litres == pytest.approx(grams * GRAM, rel=2e-3), (ndb, words)


def density(tables: Tables, food: str) -> float:
    (row,) = (row for row in tables.densities[food] if row.form == "")
    return row.kg_per_litre


@pytest.mark.parametrize(("food", "low", "high", "rows"), DENSITIES)
def test_density_of_a_liquid_meets_fao_infoods(
    tables: Tables, food: str, low: float, high: float, rows: str
) -> None:
    kg_per_litre = density(tables, food)
    assert low * (1 - LIQUID_TOLERANCE) <= kg_per_litre <= high * (1 + LIQUID_TOLERANCE), rows


@pytest.mark.parametrize(("food", "low", "high", "rows"), BULK_DENSITIES)
def test_bulk_density_meets_fao_infoods(
    tables: Tables, food: str, low: float, high: float, rows: str
) -> None:
    tolerance = LOOSE.get(food, BULK_TOLERANCE)
    kg_per_litre = density(tables, food)
    assert low * (1 - tolerance) <= kg_per_litre <= high * (1 + tolerance), rows


@pytest.mark.parametrize(("dry", "cooked", "published", "ids"), COOKED)
def test_cooking_yield_range_holds_the_canadian_figure(
    tables: Tables, dry: str, cooked: str, published: float, ids: str
) -> None:
    (row,) = (row for row in tables.yields[dry] if row.becomes == cooked)
    assert row.low <= published <= row.high, ids


@pytest.mark.parametrize("published", DRY_MATTER, ids=lambda row: row[0])
def test_cooking_yield_range_holds_the_dry_matter(
    tables: Tables, published: tuple[str, str, float, float, str]
) -> None:
    dry, cooked, before, after, ndb = published
    assert tables.composition[dry].water_g == pytest.approx(before), ndb
    assert tables.composition[cooked].water_g == pytest.approx(after), ndb
    (row,) = (row for row in tables.yields[dry] if row.becomes == cooked)
    assert row.low <= (100 - before) / (100 - after) * 1.01
    assert row.high >= (100 - before) / (100 - after) * 0.99


def test_white_rice_yield_overlaps_the_handbook_range(tables: Tables) -> None:
    # USDA Agriculture Handbook 102 (Matthews & Garrison 1975): 2.43 to 3.75, as quoted elsewhere
    # and not read in the original.
    (row,) = tables.yields["rice-white"]
    assert row.low < 3.75
    assert row.high > 2.43


@pytest.mark.parametrize("food", GENERAL_FACTORS.split())
def test_energy_follows_from_the_general_factors(tables: Tables, food: str) -> None:
    # Regulation (EU) 1169/2011, Annex XIV: carbohydrate 4, protein 4, fat 9, alcohol 7, fibre 2
    # kcal/g (from memory); the factors 4, 9, 4 go back to Atwater.
    row = tables.composition[food]
    assert row.energy_kcal is not None
    fibre = row.fibre_g or 0.0
    total = row.carbohydrate_g or 0.0
    energy = (
        4 * (row.protein_g or 0.0)
        + 9 * (row.fat_g or 0.0)
        + 4 * (total - fibre)
        + 2 * fibre
        + 7 * (row.alcohol_g or 0.0)
    )
    assert energy == pytest.approx(row.energy_kcal, rel=0.05)


# food, refuse in per cent, NDB number. Source: SR28, refuse of the food as purchased.
REFUSE = (
    ("apple", 10, "09003"),
    ("avocado", 26, "09037"),
    ("banana", 36, "09040"),
    ("broccoli", 39, "11090"),
    ("carrot", 11, "11124"),
    ("cauliflower", 61, "11135"),
    ("leek", 56, "11246"),
    ("onion", 10, "11282"),
    ("pineapple", 49, "09266"),
    ("potato", 25, "11352"),
    ("rhubarb", 25, "09307"),
    ("watermelon", 48, "09326"),
)


@pytest.mark.parametrize(("food", "refuse", "ndb"), REFUSE)
def test_edible_share_is_what_sr28_refuse_leaves(
    tables: Tables, food: str, refuse: float, ndb: str
) -> None:
    assert tables.edible[food].share == pytest.approx(1 - refuse / 100), ndb


def test_a_tin_of_chickpeas_drains_as_published(tables: Tables) -> None:
    # SR28 NDB 16358, "can drained", 253 g, of NDB 16058, "can (total can contents)", 448 g: 0.565;
    # a UK tin of 400 g prints 240 g (common practice).
    (tin,) = (row for row in tables.household["chickpeas-canned"] if row.measure == "tin")
    assert tables.edible["chickpeas-canned"].share == pytest.approx(253 / 448, rel=0.08)
    assert tin.kg == pytest.approx(0.253 * 400 / 448, rel=0.08)


# food, allergen. Source: Regulation (EU) 1169/2011, Annex II (from memory): the fourteen.
BRINGS = (
    ("flour", "gluten"),
    ("oats", "gluten"),
    ("barley", "gluten"),
    ("peanut-butter", "peanuts"),
    ("tofu-firm", "soya"),
    ("almonds", "nuts"),
    ("walnuts", "nuts"),
    ("celery", "celery"),
    ("celeriac", "celery"),
    ("mustard-seed", "mustard"),
    ("tahini", "sesame"),
    ("lupin-beans", "lupin"),
    ("chocolate-milk", "milk"),
    ("noodles-egg", "eggs"),
)


@pytest.mark.parametrize(("food", "allergen"), BRINGS)
def test_the_fourteen_are_named_where_they_are(tables: Tables, food: str, allergen: str) -> None:
    assert ("present", allergen) in {(row.status, row.allergen) for row in tables.allergens[food]}


# What no column of SR28 holds: acetic acid in vinegar, carbon dioxide driven off soda on ashing,
# volatile oil and resin in pepper.
NOT_IN_THE_COLUMNS = {"baking-soda", "pepper-black", "pepper-white", "peppercorns"}


def test_what_sr28_reports_of_a_food_adds_up_to_it(tables: Tables) -> None:
    # SR28 documentation: carbohydrate is 100 g less water, protein, fat, ash and alcohol.
    for food, row in tables.composition.items():
        known_gap = food in NOT_IN_THE_COLUMNS or tables.foods[food].food_class == "vinegars"
        if known_gap or row.provenance.source != "usda-sr28":
            continue
        parts = (row.water_g, row.protein_g, row.fat_g, row.carbohydrate_g, row.ash_g)
        total = sum(part or 0.0 for part in (*parts, row.alcohol_g))
        assert total == pytest.approx(100, abs=3), food
