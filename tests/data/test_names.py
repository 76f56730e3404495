"""What a name means: its food, its fit, its allergens, and what is said beside an open name.

Which allergen a shop's food brings is common practice, with no source; the list of fourteen is
Annex II of Regulation (EU) 1169/2011. Weights of pieces are common practice unless a source stands
beside them.
"""

from __future__ import annotations

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.reading.allergens import allergens_of_line
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines
from counterproof.reading.model import MarkedLine
from counterproof.recipe.model import WrittenLine
from counterproof.rows import Tables


@pytest.fixture(scope="module")
def tables() -> Tables:
    return load_tables()


@pytest.fixture(scope="module")
def matcher(tables: Tables) -> Matcher:
    return Matcher(tables)


def read(text: str, tables: Tables, matcher: Matcher) -> MarkedLine:
    (line,) = read_lines([WrittenLine(1, text)], tables, matcher, system="uk", region="uk")
    return line


@pytest.mark.parametrize(
    ("name", "present"),
    [
        ("prawn crackers", {"crustaceans"}),
        ("peanut brittle", {"peanuts"}),
        ("halva", {"sesame"}),
        ("haggis", {"gluten"}),
        ("fish stock cube", {"fish"}),
        ("fish soup", {"fish", "crustaceans"}),
        ("nut milk", {"nuts"}),
        ("sesame dressing", {"sesame"}),
        ("barley water", {"gluten"}),
        ("groundnut oil", {"peanuts"}),
        ("tzatziki", {"milk"}),
        ("doubanjiang", {"soya", "gluten"}),
        ("gochujang", {"soya", "gluten"}),
        ("belacan", {"crustaceans"}),
        ("za'atar", {"sesame"}),
        ("dukkah", {"sesame", "nuts"}),
        ("panch phoron", {"mustard"}),
        ("hollandaise", {"eggs", "milk"}),
        ("ranch dressing", {"eggs", "milk"}),
        ("caesar dressing", {"eggs", "fish"}),
        ("salad cream", {"eggs", "mustard"}),
        ("advocaat", {"eggs"}),
        ("eggnog", {"eggs", "milk"}),
        ("malt vinegar", {"gluten"}),
        ("satay sauce", {"peanuts"}),
        ("fish fingers", {"fish", "gluten"}),
        ("crab sticks", {"fish"}),
        ("seafood mix", {"crustaceans", "molluscs"}),
        ("snails", {"molluscs"}),
        ("cream of celery soup", {"celery"}),
        ("amaretti", {"nuts", "eggs"}),
        ("liquorice", {"gluten"}),
        ("hot chocolate", {"milk"}),
        ("udon", {"gluten"}),
    ],
)
def test_a_food_of_a_shop_brings_its_allergens(
    tables: Tables, matcher: Matcher, name: str, present: set[str]
) -> None:
    found = allergens_of_line(read(f"100 g {name}", tables, matcher), tables)
    assert present <= set(found.present)
    assert not found.unknown


@pytest.mark.parametrize(
    ("name", "label"),
    [
        ("custard powder", "milk"),
        ("furikake", "fish"),
        ("Thai chilli jam", "crustaceans"),
        ("marshmallows", "eggs"),
        ("brown sauce", "gluten"),
        ("spring rolls", "crustaceans"),
    ],
)
def test_where_makers_differ_the_label_decides(
    tables: Tables, matcher: Matcher, name: str, label: str
) -> None:
    assert label in allergens_of_line(read(f"100 g {name}", tables, matcher), tables).read_the_label


def test_coconut_aminos_are_no_soy_sauce(tables: Tables, matcher: Matcher) -> None:
    found = allergens_of_line(read("1 tbsp coconut aminos", tables, matcher), tables)
    assert not {"soya", "gluten"} & set(found.present)


@pytest.mark.property
def test_a_name_that_stands_for_another_food_never_fits_as_the_same(
    tables: Tables, matcher: Matcher
) -> None:
    standing = [row for row in tables.names if row.fit]
    assert len(standing) > 1000
    for row in standing:
        match = matcher.match(row.name, region=row.region)
        if match.food is not None and match.food.id == row.food and match.row == row:
            assert match.fit != "same", row.name


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("hot chocolate", "drinking-chocolate"),
        ("hominy", "grits"),
        ("old bay", "bay-leaf"),
        ("msg", "salt"),
        ("preserved lemon", "lemon-zest"),
        ("amchur", "sumac"),
        ("kasuri methi", "fenugreek"),
        ("bouquet garni", "tarragon"),
        ("monkfish", "sea-bass"),
        ("carp", "sea-bass"),
        ("eel", "sea-bass"),
        ("pike", "sea-bass"),
        ("udon", "noodles-egg-cooked"),
        ("fresh ramen", "noodles-egg"),
        ("gluten-free flour", "flour-coconut"),
        ("teff flour", "flour-coconut"),
        ("banana leaf", "kaffir-lime-leaf"),
        ("curry leaf", "kaffir-lime-leaf"),
        ("grape leaf", "kaffir-lime-leaf"),
        ("bitter melon", "melon-cantaloupe"),
        ("toor dal", "split-peas-dry"),
        ("urad dal", "mung-beans-dry"),
        ("pickled ginger", "relish"),
        ("snails", "clams"),
        ("blini", "cake-small"),
        ("tzatziki", "guacamole"),
        ("doubanjiang", "sriracha"),
    ],
)
def test_a_food_is_not_taken_for_another(matcher: Matcher, name: str, wrong: str) -> None:
    food = matcher.match(name).food
    assert food is None or food.id != wrong


@pytest.mark.parametrize(
    ("name", "standing_for"),
    [("kingfish", "sea-bass"), ("walleye", "pike-perch"), ("bison", "buffalo"), ("elk", "venison")],
)
def test_a_species_without_a_row_says_what_it_is_counted_as(
    tables: Tables, matcher: Matcher, name: str, standing_for: str
) -> None:
    line = read(f"400 g {name}", tables, matcher)
    assert line.food is not None
    assert (line.food.id, line.fit) in {(standing_for, "relative"), (standing_for, "class average")}
    (mark,) = [mark for mark in line.marks if mark.kind == "stands-for"]
    assert mark.level == "note"
    assert name in mark.message


@pytest.mark.parametrize(
    ("text", "food", "choice"),
    [
        ("250 g chickpeas", "chickpeas-canned", "chickpeas, dried"),
        ("150 g tuna", "tuna-canned", "tuna, fresh"),
        ("200 g noodles", "noodles-egg", "noodles, dried"),
        ("400 g beans", "kidney-beans-canned", "baked beans"),
        ("1 l stock", "stock-vegetable", "chicken stock"),
        ("100 ml cream", "cream", "cream, single"),
        ("300 g pastry", "shortcrust-pastry", "puff pastry"),
        ("500 g beef", "beef", "beef from a dairy herd"),
        ("500 g minced beef", "beef-mince", "beef mince from a beef herd"),
    ],
)
def test_an_open_name_says_what_was_taken_and_offers_the_others(
    tables: Tables, matcher: Matcher, text: str, food: str, choice: str
) -> None:
    line = read(text, tables, matcher)
    assert line.food is not None
    assert line.food.id == food
    (mark,) = [mark for mark in line.marks if mark.kind == "unspecified"]
    assert mark.choices[0] == line.food.name
    assert any(choice in other for other in mark.choices[1:])


@pytest.mark.parametrize(
    "text",
    ["400 g tin chickpeas", "200 g dried chickpeas", "2 tuna steaks", "200 g rice noodles",
     "500 ml chicken stock", "300 g puff pastry", "100 ml double cream"],
)  # fmt: skip
def test_a_name_that_is_not_open_asks_nothing(tables: Tables, matcher: Matcher, text: str) -> None:
    assert not [m for m in read(text, tables, matcher).marks if m.kind == "unspecified"]


@pytest.mark.property
def test_what_an_open_name_offers_is_settled_by_writing_it(
    tables: Tables, matcher: Matcher
) -> None:
    line = read("500 g beef (meaning beef from a dairy herd)", tables, matcher)
    assert line.food is not None
    assert line.food.id == "beef-of-dairy-herd"
    (link,) = [row for row in tables.links[line.food.id] if row.set == "global"]
    assert (link.item, link.fit) == ("Bovine Meat (dairy herd)", "same")


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("1 gammon joint", 1000, 2500),
        ("1 side of smoked salmon", 700, 1200),
        ("4 slices smoked salmon", 60, 160),
        ("2 dried chillies", 1, 2),
        ("10 fish fingers", 280, 280),
        ("1 baguette", 250, 250),
        ("2 romaine hearts", 200, 400),
        ("1 sachet pectin", 8, 15),
        ("1 punnet strawberries", 200, 450),
        ("1 stock cube", 10, 10),
        # SR28: NDB 06081, "1 cube", 4.8 g
        ("1 bouillon cube", 4.8, 4.8),
        ("1 marrow", 700, 1500),
        ("1 turkey crown", 1500, 3000),
        ("1 chorizo ring", 200, 250),
        ("5 sprays cooking spray", 1, 3),
        ("2 heads dill", 4, 20),
        ("1 rack of pork ribs", 500, 1000),
        # SR28: NDB 01001, "pat (1" sq, 1/3" high)", 5.0 g
        ("2 pats of butter", 10, 10),
        ("nonstick cooking spray, for greasing", 1, 5),
        ("2 kippers", 200, 350),
    ],
)
def test_a_piece_weighs_what_shops_sell(
    tables: Tables, matcher: Matcher, text: str, low: float, high: float
) -> None:
    mass = read(text, tables, matcher).mass
    assert mass is not None
    assert low * 0.999 <= mass.mean * 1000 <= high * 1.001


@pytest.mark.parametrize(
    ("text", "food"),
    [
        ("10 lychees", "lychee"), ("2 persimmons", "persimmon"), ("1 chayote", "chayote"),
        ("1 jicama", "jicama"), ("1 dragon fruit", "dragon-fruit"), ("50 g samphire", "samphire"),
        ("1 tin hearts of palm", "hearts-of-palm"), ("3 nopales", "nopales"),
        ("1 tsp haldi", "turmeric"), ("1 tsp jeera", "cumin-seed"), ("200 g maida", "flour"),
        ("100 g sooji", "semolina"), ("1 cup poha", "poha"), ("4 poppadoms", "poppadom"),
        ("1 tbsp ginger-garlic paste", "ginger-garlic-paste"), ("6 samosas", "samosa"),
        ("1 pork pie", "pork-pie"), ("2 guavas", "guava"), ("3 kiwis", "kiwi"),
        ("3 tbsp aquafaba", "aquafaba"), ("1 bitter gourd", "bitter-melon"),
        ("1 bunch palak (spinach)", "spinach"), ("1 jar mincemeat", "mincemeat"),
        ("1 kg Maris Piper potatoes", "potato-baking"), ("500 g King Edwards", "potato-baking"),
        ("4 Yukon Gold potatoes", "potato"), ("3 Bramleys", "apple-cooking"),
        ("2 Braeburns", "apple"), ("6 Roma tomatoes", "tomato-plum"),
        ("1 tin San Marzano tomatoes", "tomatoes-canned"), ("2 tbsp gochugaru", "cayenne"),
        ("1 can chipotles in adobo", "chilli-paste"), ("1 red chilli", "chilli-red"),
    ],
)  # fmt: skip
def test_what_cooks_write_round_the_world_is_known(
    tables: Tables, matcher: Matcher, text: str, food: str
) -> None:
    line = read(text, tables, matcher)
    assert line.food is not None
    assert (line.food.id, line.certainty >= 0.97) == (food, True)


@pytest.mark.parametrize(
    ("text", "food"),
    [
        ("1 mug of tea", "tea-brewed"),
        ("200 ml coffee", "coffee-brewed"),
        ("2 cups tea, brewed", "tea-brewed"),
        ("2 tsp tea", "tea"),
        ("20 g coffee", "coffee-ground"),
        ("2 tea bags", "tea"),
    ],
)
def test_a_mug_of_tea_is_the_drink_and_a_spoon_of_it_the_leaf(
    tables: Tables, matcher: Matcher, text: str, food: str
) -> None:
    line = read(text, tables, matcher)
    assert line.food is not None
    assert line.food.id == food


@pytest.mark.published
def test_marshmallows_are_those_of_the_table(tables: Tables) -> None:
    # SR28, NDB 19116, "Candies, marshmallows": 318 kcal, 81.30 g carbohydrate, 1.80 g protein.
    found = tables.composition["marshmallows"]
    assert found.energy_kcal == pytest.approx(318)
    assert found.carbohydrate_g == pytest.approx(81.3)
    assert found.protein_g == pytest.approx(1.8)
