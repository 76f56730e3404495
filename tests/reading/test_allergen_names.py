"""A name weighed as another food tells the allergens that the real thing usually brings.

The lists are Annex II of Regulation (EU) 1169/2011, and the nine of the Food Allergen Labeling and
Consumer Protection Act of 2004, section 203, and the FASTER Act of 2021 (all from memory). What
each dish or ready food usually holds is common practice, with no source.
"""

from __future__ import annotations

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.reading.allergen_schemes import US_NAMES
from counterproof.reading.allergens import Allergens, allergens_of_line, allergens_of_recipe
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines, read_recipe
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Recipe, WrittenLine

TABLES = load_tables()
MATCHER = Matcher(TABLES)


def _found(text: str) -> Allergens:
    (line,) = read_lines([WrittenLine(1, text)], TABLES, MATCHER)
    return allergens_of_line(line, TABLES)


@pytest.mark.published
@pytest.mark.parametrize(
    ("text", "allergens"),
    [
        # Shrimps, fish and shellfish.
        ("2 tbsp sambal belacan", "crustaceans fish"),
        ("2 tbsp sambal terasi", "crustaceans"),
        ("400 g sai oua", "crustaceans fish"),
        ("1 tbsp bumbu powder", "crustaceans peanuts"),
        ("200 g scampi in breadcrumbs", "crustaceans gluten"),
        ("12 goose barnacles", "crustaceans"),
        ("200 g odeng", "fish soya"),
        ("50 g tenkasu", "crustaceans eggs gluten"),
        ("2 packets ramyeon", "fish crustaceans gluten"),
        ("300 ml miso soup", "fish soya"),
        ("1 tbsp collagen peptides", "fish"),
        # Soya and wheat.
        ("500 ml shiro dashi", "fish soya gluten"),
        ("1 tbsp bean paste", "soya gluten"),
        ("300 g bak kwa", "soya gluten fish"),
        ("100 g siu yuk", "soya gluten"),
        ("50 g pork floss", "soya gluten"),
        ("3 cubes fermented bean curd", "soya gluten"),
        ("50 g misugaru", "gluten soya sesame"),
        ("2 tea eggs", "eggs soya gluten"),
        ("100 g kinpira", "soya gluten sesame"),
        ("200 g tuna, with shoyu", "fish soya"),
        ("200 g soybean sprouts", "soya"),
        # Wheat, barley and oats.
        ("200 g rice pilaf mix", "gluten"),
        ("250 g broth mix", "gluten"),
        ("100 g scrapple", "gluten"),
        ("50 g laverbread", "gluten"),
        ("200 ml sikhye", "gluten"),
        ("200 g pakora mix", "gluten"),
        ("2 wheat breakfast biscuits", "gluten"),
        ("1 ready-made lasagne", "gluten milk eggs"),
        ("600 ml ready-made tomato soup", "celery gluten milk"),
        # Nuts, ground nuts and sesame.
        ("100 g kilishi", "peanuts"),
        ("50 g serundeng", "peanuts"),
        ("200 g oncom", "peanuts soya"),
        ("2 tbsp dry garlic chutney", "peanuts sesame"),
        ("1 tbsp idli podi", "sesame peanuts"),
        ("100 g gajak", "sesame peanuts"),
        ("2 tbsp muhammara", "nuts sesame"),
        ("2 tbsp adjika", "nuts celery"),
        ("200 g rabri", "milk nuts"),
        ("100 g mixed nuts", "nuts peanuts"),
        ("2 cereal bars", "peanuts sesame"),
        ("2 tsp chilli oil", "sesame peanuts"),
        ("4 mandarin pancakes", "sesame"),
        # Milk and eggs.
        ("50 g tarhana", "gluten milk"),
        ("400 g dal makhani", "milk"),
        ("300 g scalloped potatoes", "milk gluten"),
        ("500 g mashed potato", "milk"),
        ("500 g colcannon", "milk"),
        ("200 g gajar halwa", "milk nuts"),
        ("4 tbsp coconut milk powder", "milk"),
        ("50 g duxelles", "milk"),
        ("100 g pimento cheese", "milk eggs mustard"),
        ("6 pieces divinity", "eggs nuts"),
        ("1 roti prata", "gluten eggs milk"),
        ("100 g potted shrimp", "crustaceans milk"),
        ("250 ml brewed chai", "milk"),
        ("2 beef schnitzels", "gluten eggs milk"),
        ("4 chicken burgers", "gluten eggs milk soya"),
        ("1 tbsp egg replacer", "soya lupin"),
        # Celery, mustard and sulphites.
        ("50 g olive salad", "celery"),
        ("100 g wasabi peas", "mustard"),
        ("1 tsp wasabi paste", "mustard"),
        ("100 g pastrami", "mustard"),
        ("100 g gravlax", "fish mustard"),
        ("2 tbsp lime achar", "mustard sesame"),
        ("200 ml bordelaise", "sulphites"),
        ("50 g dried longan", "sulphites"),
        ("2 tbsp mango chutney", "gluten"),
        ("1 tsp vegetable powder", "celery"),
        ("1 tsp umami powder", "fish soya"),
        ("1 stuffed turkey crown", "gluten"),
        ("200 g agedashi tofu", "soya fish gluten"),
        ("200 ml puttanesca sauce", "fish"),
        ("3 tbsp asian dressing", "soya sesame"),
        ("150 ml elderflower presse", "sulphites"),
    ],
)
def test_a_name_brings_what_the_real_thing_usually_brings(text: str, allergens: str) -> None:
    found = _found(text)
    assert set(allergens.split()) <= {*found.present, *found.read_the_label}


@pytest.mark.parametrize(
    "text", ["1 tbsp red bean paste", "2 tbsp kebab spice", "1 tsp vanilla bean paste", "2 mangoes"]
)
def test_a_name_like_another_brings_nothing_of_the_other(text: str) -> None:
    found = _found(text)
    assert not {"soya", "milk"} & {*found.present, *found.read_the_label}


def test_what_a_name_brings_is_never_told_as_present() -> None:
    found = _found("2 tbsp sambal belacan")
    assert "crustaceans" not in found.present
    assert "crustaceans" in found.read_the_label


def test_names_and_words_are_told_as_the_place_tells_them() -> None:
    texts = ("2 tbsp sambal belacan", "50 g tarhana", "50 g olive salad", "200 g rice pilaf mix")
    recipe = Recipe("Mix", tuple(WrittenLine(at, text) for at, text in enumerate(texts, 1)), ())
    reading = read_recipe(recipe, TABLES, MATCHER, Kitchen())
    ours = allergens_of_recipe(reading, TABLES)
    theirs = allergens_of_recipe(reading, TABLES, "us")
    told = {*theirs.present, *theirs.read_the_label}
    assert {"crustaceans", "celery"} <= set(ours.read_the_label)
    assert "crustacean shellfish" in told
    assert told <= set(US_NAMES.values())
