"""What a line says beside its own food is heard for allergens."""

from __future__ import annotations

import pytest

from counterproof.reading.allergens import allergens_of_line
from counterproof.reading.foods import Matcher
from counterproof.reading.marking import read_lines
from counterproof.recipe.model import WrittenLine
from counterproof.rows import Tables


def known(text: str, tables: Tables, matcher: Matcher) -> set[str]:
    (line,) = read_lines([WrittenLine(1, text)], tables, matcher)
    found = allergens_of_line(line, tables)
    return {*found.present, *found.read_the_label}


@pytest.mark.parametrize(
    ("text", "allergens"),
    [
        ("8 mushrooms stuffed with soft cheese", {"milk"}),
        ("300 g chicken breast, marinated in soy sauce", {"soya", "gluten"}),
        ("200 g breaded haddock", {"fish", "gluten"}),
        ("400 g chicken thighs, soaked in buttermilk", {"milk"}),
        ("1 tin sardines in mustard sauce", {"fish", "mustard"}),
        ("100 g prawn crackers", {"crustaceans"}),
        ("50 g halva, crumbled", {"sesame"}),
        ("300 ml nut milk", {"nuts"}),
        ("1 fish stock cube", {"fish"}),
        ("4 tbsp tzatziki", {"milk"}),
        ("4 muffins, filled with pumpkin cream", {"milk"}),  # of these the cream may be dairy
        ("6 figs, served with walnut yogurt", {"milk", "nuts"}),
    ],
)
def test_a_second_food_in_a_line_brings_its_allergens(
    text: str, allergens: set[str], shipped: Tables, shipped_matcher: Matcher
) -> None:
    assert allergens <= known(text, shipped, shipped_matcher)


@pytest.mark.parametrize(
    ("text", "allergen"),
    [
        ("400 ml coconut milk", "milk"),
        ("1 tin butter beans", "milk"),
        ("2 tsp cream of tartar", "milk"),
        ("1 tsp grated nutmeg", "nuts"),
        ("2 aubergines (eggplant)", "eggs"),
        ("2 tbsp maple butter", "milk"),
        ("3 tbsp apple butter", "milk"),
        ("200 ml cream soda", "milk"),
        ("1 l water kefir", "milk"),
        ("150 g king oyster mushrooms", "molluscs"),
        ("1 champagne mango", "sulphites"),
        ("250 g corn pasta", "gluten"),
        ("1 spaghetti squash", "gluten"),
        ("1 biscuit cutter", "gluten"),
        ("1 tsp vanilla bean paste", "soya"),
        ("50 ml rye whisky", "gluten"),
        ("50 ml single malt whisky", "gluten"),
        ("25 ml crème de cassis", "milk"),
        ("100 g quince cheese", "milk"),
        ("3 tbsp vegan mayo", "eggs"),
        ("200 g masa flour", "gluten"),
        ("1 stalk cardoon", "celery"),
        ("1 bunch radish greens", "mustard"),
        ("100 ml cucumber juice", "celery"),
    ],
)
def test_a_word_inside_another_food_brings_none(
    text: str, allergen: str, shipped: Tables, shipped_matcher: Matcher
) -> None:
    assert allergen not in known(text, shipped, shipped_matcher)
