"""The shipped food table for tests of the reading, and a small larder made by hand."""

from __future__ import annotations

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.reading.foods import Matcher
from counterproof.rows import (
    Allergen,
    Density,
    EdibleShare,
    Food,
    FoodName,
    HouseholdWeight,
    Provenance,
    Tables,
)

MADE_UP = Provenance("", "", "assumed", "a table for tests")

# Slug, class, kind, what a bare count means, names. What is missing is missing on purpose:
# no stock, no cashew milk, no ginger ale.
FOODS = (
    ("chicken", "poultry", "solid", "piece", "chicken"),
    ("chicken-whole", "poultry", "solid", "piece", "whole chicken"),
    ("milk", "dairy", "liquid", "", "milk; whole milk"),
    ("butter", "butter & fats", "solid", "", "butter"),
    ("butter-unsalted", "butter & fats", "solid", "", "unsalted butter"),
    ("peanut-butter", "nuts & seeds", "solid", "", "peanut butter"),
    ("cashews", "nuts & seeds", "solid", "", "cashew; cashew nut"),
    ("ginger", "vegetables", "solid", "piece", "ginger; fresh ginger; root ginger"),
    ("ginger-ground", "spices", "powder", "", "ground ginger"),
    ("chickpeas-dry", "pulses", "solid", "", "chickpea; dried chickpea"),
    ("chickpeas-canned", "pulses", "solid", "tin", "canned chickpea"),
    ("haddock", "fish", "solid", "fillet", "haddock"),
    ("tomato", "vegetables", "solid", "piece", "tomato"),
    ("onion", "vegetables", "solid", "piece", "onion"),
    ("cheese", "cheese", "solid", "", "cheese"),
    ("blue-cheese", "cheese", "solid", "", "blue cheese; gorgonzola"),
    ("lemon", "fruit", "solid", "piece", "lemon"),
    ("lemon-juice", "juices", "liquid", "", "lemon juice"),
    ("lemon-zest", "fruit", "solid", "", "lemon zest"),
    ("lime", "fruit", "solid", "piece", "lime"),
    ("lime-juice", "juices", "liquid", "", "lime juice"),
    ("salt", "salt", "powder", "", "salt; sea salt"),
    ("pepper-black", "spices", "powder", "", "pepper; black pepper"),
    ("pepper-red", "vegetables", "solid", "piece", "bell pepper"),
    ("rice-dry", "rice", "solid", "", "rice"),
    ("rice-cooked", "rice", "solid", "", "cooked rice"),
    ("courgette", "vegetables", "solid", "piece", "courgette@uk; zucchini@us"),
    ("cornflour", "flour & starch", "powder", "", "cornflour@uk; cornstarch@us"),
    ("cornmeal", "flour & starch", "powder", "", "cornmeal; cornflour@us"),
    ("flour", "flour & starch", "powder", "", "flour; plain flour"),
    ("cabbage", "vegetables", "solid", "piece", "cabbage"),
    ("water", "water & ice", "liquid", "", "water"),
    ("olive-oil", "oils", "liquid", "", "olive oil"),
    ("margarine", "oils", "solid", "", "margarine"),
    ("mussels", "shellfish", "solid", "", "mussel"),
    ("foil", "not food", "solid", "", "aluminium foil"),
    ("cordial", "sugars & syrups", "liquid", "", "cordial; squash@uk"),
    ("pumpkin", "vegetables", "solid", "piece", "pumpkin; squash@us"),
    ("milk-chocolate", "chocolate & cocoa", "solid", "", "milk chocolate"),
    ("chocolate-milk", "dairy", "liquid", "", "chocolate milk"),
)
# Food, measure, size, form, grams, as bought.
WEIGHTS = (
    ("onion", "piece", "small", "", 70, False),
    ("onion", "piece", "medium", "", 110, False),
    ("onion", "piece", "large", "", 150, False),
    ("tomato", "piece", "", "", 120, False),
    ("chicken-whole", "piece", "", "", 1600, True),
    ("chicken", "piece", "", "", 150, False),
    ("lemon", "piece", "", "", 84, False),
    ("lemon-juice", "piece", "", "", 48, False),
    ("lemon-zest", "piece", "", "", 6, False),
    ("lime", "piece", "", "", 67, False),
    ("chickpeas-canned", "tin", "", "", 400, True),
    ("cabbage", "head", "", "", 900, False),
    ("haddock", "fillet", "", "", 150, False),
    ("pepper-red", "piece", "", "", 120, False),
    ("pumpkin", "piece", "", "", 1200, False),
)
DENSITIES = (
    ("milk", "", 1.03),
    ("flour", "", 0.53),
    ("salt", "", 1.22),
    ("lemon-juice", "", 1.03),
    ("rice-dry", "", 0.78),
    ("onion", "chopped", 0.68),
    ("onion", "sliced", 0.49),
)
SHARES = (
    ("chicken-whole", 0.68, "bones"),
    ("chicken", 0.68, "bones"),
    ("onion", 0.9, "skins and ends"),
    ("chickpeas-canned", 0.6, "liquid"),
    ("mussels", 0.25, "shells"),
    ("lime", 0.84, "peel and seeds"),
)
ALLERGENS = (
    ("milk", "milk", "present"),
    ("butter", "milk", "present"),
    ("margarine", "milk", "read the label"),
    ("peanut-butter", "peanuts", "present"),
    ("flour", "gluten", "present"),
    ("cheese", "milk", "present"),
    ("mussels", "molluscs", "present"),
)  # fmt: skip


def small_larder() -> Tables:
    """Return the hand-made tables."""
    foods = {
        slug: Food(slug, slug.replace("-", " "), food_class, kind, drawn, "")  # type: ignore[arg-type]
        for slug, food_class, kind, drawn, _ in FOODS
    }
    names = tuple(
        FoodName(slug, name.partition("@")[0], name.partition("@")[2])  # type: ignore[arg-type]
        for slug, _, _, _, text in FOODS
        for name in text.split("; ")
    )
    household: dict[str, tuple[HouseholdWeight, ...]] = {}
    for food, measure, size, form, grams, bought in WEIGHTS:
        row = HouseholdWeight(food, measure, size, form, grams / 1000, None, bought, MADE_UP)
        household[food] = (*household.get(food, ()), row)
    densities: dict[str, tuple[Density, ...]] = {}
    for food, form, kg in DENSITIES:
        densities[food] = (*densities.get(food, ()), Density(food, form, kg, MADE_UP))
    allergens: dict[str, tuple[Allergen, ...]] = {
        food: (Allergen(food, slug, status, MADE_UP),)  # type: ignore[arg-type]
        for food, slug, status in ALLERGENS
    }
    return Tables(
        foods=foods,
        names=names,
        household=household,
        densities=densities,
        composition={},
        edible={food: EdibleShare(food, share, what, MADE_UP) for food, share, what in SHARES},
        yields={},
        allergens=allergens,
        factors={},
        stages={},
        shapes={},
        links={},
        mixtures={},
        energy={},
        sources={},
        sha256="",
        version="",
    )


@pytest.fixture(scope="session")
def larder() -> Tables:
    """The hand-made tables."""
    return small_larder()


@pytest.fixture(scope="session")
def larder_matcher(larder: Tables) -> Matcher:
    """A matcher on the hand-made tables."""
    return Matcher(larder)


@pytest.fixture(scope="session")
def shipped() -> Tables:
    """The tables as they ship."""
    return load_tables()


@pytest.fixture(scope="session")
def shipped_matcher(shipped: Tables) -> Matcher:
    """A matcher on the tables as they ship."""
    return Matcher(shipped)
