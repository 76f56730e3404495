"""How each data table is laid out: its file, the row it makes, and the rules its cells obey.

The columns of a table are the fields of its row class in `rows.py`, in that order, under the same
names; a field `provenance` stands for four columns. What a cell may hold follows from the field's
type. Here stands only what a type cannot say: keys, references, limits, closed lists and rules
between cells. `adapters.tables` reads by these forms, `adapters.datapackage` describes them.
"""

from __future__ import annotations

from counterproof import rows
from counterproof.adapters.form import MONTH, PER_100_G, POSITIVE, SPREAD, Form, Limits
from counterproof.adapters.life_cycle_forms import LIFE_CYCLE_FORMS
from counterproof.adapters.shop_forms import SHOP_FORMS

FOOD_CLASSES = (
    "vegetables",
    "mushrooms",
    "seaweed",
    "pulses",
    "fruit",
    "dried fruit",
    "juices",
    "fresh herbs",
    "dried herbs",
    "spices",
    "grains",
    "rice",
    "flour & starch",
    "pasta & noodles",
    "bread & bakery",
    "breakfast cereals",
    "nuts & seeds",
    "coconut products",
    "oils",
    "sugars & syrups",
    "jams & preserves",
    "chocolate & cocoa",
    "tea & coffee",
    "plant-based",
    "thickeners",
    "leavening",
    "flavourings",
    "dairy",
    "cheese",
    "eggs",
    "butter & fats",
    "beef",
    "veal",
    "offal",
    "lamb",
    "pork",
    "poultry",
    "game",
    "fish",
    "shellfish",
    "condiments & sauces",
    "pickles",
    "stocks",
    "vinegars",
    "spirits & liqueurs",
    "wine & beer",
    "soft drinks",
    "water & ice",
    "salt",
    "sweets & desserts",
    "ready meals",
    "food additives",
    "not food",
)

# Annex II of Regulation (EU) 1169/2011, as kept in UK law: the fourteen, as singular slugs.
ALLERGENS = (
    "gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soya",
    "milk",
    "nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphites",
    "lupin",
    "molluscs",
)

BASES = (
    "as bought",
    "edible",
    "edible, boneless",
    "edible, shelled",
    "dry",
    "drained",
    "cooked",
    "as sold",  # what the shop sells is what is eaten: oil, sugar, bread, cheese
)


def _percentiles_rise(factor: rows.Factor) -> bool:
    known = [
        value
        for value in (factor.p05, factor.p10, factor.p50, factor.p90, factor.p95)
        if value is not None
    ]
    return known == sorted(known)


def _says_why(name: rows.FoodName) -> bool:
    return bool(name.why) or not (name.fit or name.others)


def _factors(name: str, title: str) -> Form:
    return Form(
        file=f"factors_{name}.csv",
        row=rows.Factor,
        title=title,
        key=("set", "item"),
        limits={
            "studies": Limits(low=1),
            "farms": Limits(low=1),
            "spread": SPREAD,
        },
        closed={"set": (name,), "basis": BASES},
        filled=("item", "gwp", "boundary"),
        rules=(
            ("percentiles rise from p05 to p95", _percentiles_rise),
            (
                "a factor has either all percentiles or a spread",
                lambda f: (
                    (f.spread is None)
                    == (None not in (f.p05, f.p10, f.p50, f.p90, f.p95, f.low, f.high))
                ),
            ),
            ("a factor with a spread is above zero", lambda f: f.spread is None or f.mean > 0),
        ),
    )


FOOD = {"food": "foods.id"}

FORMS: tuple[Form, ...] = (
    Form(
        file="sources.csv",
        row=rows.Source,
        title="Where figures come from: one record a source",
        key=("id",),
        filled=("id", "title", "producer", "published", "citation", "accessed", "licence"),
    ),
    Form(
        file="foods.csv",
        row=rows.Food,
        title="Foods as a cook buys or uses them",
        key=("id",),
        closed={"food_class": FOOD_CLASSES},
        filled=("id", "name"),
    ),
    Form(
        file="names.csv",
        row=rows.FoodName,
        title="Names by which cooks know a food",
        key=("name", "region"),
        refers=FOOD,
        filled=("name",),
        rules=(
            ("a name is in lower case", lambda n: n.name == n.name.lower()),
            ("a name with a fit or with others says why", _says_why),
        ),
    ),
    Form(
        file="household.csv",
        row=rows.HouseholdWeight,
        title="What one household measure of a food weighs",
        key=("food", "measure", "size", "form", "as_bought"),
        refers=FOOD,
        limits={"kg": POSITIVE, "spread": Limits(low=0, high=2)},
        closed={"size": ("", "small", "medium", "large")},
        filled=("measure",),
    ),
    Form(
        file="densities.csv",
        row=rows.Density,
        title="Bulk density of a food in a spoon, cup or jug",
        key=("food", "form"),
        refers=FOOD,
        limits={"kg_per_litre": Limits(above=0, high=3)},
    ),
    Form(
        file="composition.csv",
        row=rows.Composition,
        title="Composition of 100 g of the edible part",
        key=("food",),
        refers=FOOD,
        limits={
            **{
                f"{part}_g": PER_100_G
                for part in (
                    "water",
                    "protein",
                    "fat",
                    "carbohydrate",
                    "fibre",
                    "sugars",
                    "ash",
                    "alcohol",
                    "citric_acid",
                )
            },
            "energy_kcal": Limits(low=0, high=950),
            "sodium_mg": Limits(low=0, high=50_000),
        },
    ),
    Form(
        file="edible.csv",
        row=rows.EdibleShare,
        title="Share of the food as bought that is eaten",
        key=("food",),
        refers=FOOD,
        limits={"share": Limits(above=0, high=1)},
    ),
    Form(
        file="yields.csv",
        row=rows.CookingYield,
        title="Mass after over mass before, when one food becomes another",
        key=("food", "becomes", "method"),
        refers={**FOOD, "becomes": "foods.id"},
        limits={"factor": POSITIVE, "low": POSITIVE},
        rules=(("the factor lies between low and high", lambda y: y.low <= y.factor <= y.high),),
    ),
    Form(
        file="allergens.csv",
        row=rows.Allergen,
        title="Allergens a food brings, or may bring",
        key=("food", "allergen"),
        refers=FOOD,
        closed={"allergen": ALLERGENS},
    ),
    _factors("global", "Emission factors by product class with producer spread, worldwide"),
    _factors("literature", "Emission factors as medians of a literature review"),
    _factors("national", "Emission factors by product and stage, one country's market"),
    Form(
        file="factor_stages.csv",
        row=rows.FactorStage,
        title="The mean of each life-cycle stage inside a factor",
        key=("set", "item", "stage"),
        closed={"stage": (*rows.STAGES[:5], *rows.PRODUCTION_STAGES)},
    ),
    Form(
        file="factor_shapes.csv",
        row=rows.FactorShape,
        title="How a factor's published percentiles are joined so that its mean comes out",
        key=("set", "item"),
        limits={"tails": POSITIVE, "body": POSITIVE},
    ),
    Form(
        file="mixtures.csv",
        row=rows.Mixture,
        title="Names that span classes, as stated mixtures of factors",
        key=("set", "name", "item"),
        limits={"share": Limits(above=0, high=1)},
    ),
    Form(
        file="links.csv",
        row=rows.Link,
        title="Which factor stands for a food in each set, and how well it fits",
        key=("food", "set"),
        refers=FOOD,
        limits={"per": POSITIVE},
    ),
    Form(
        file="energy.csv",
        row=rows.EnergyFactor,
        title="Greenhouse gases per kWh of an energy carrier, by region",
        key=("carrier", "region"),
        limits={"kgco2e_per_kwh": Limits(low=0, high=2), "spread": SPREAD},
    ),
    Form(
        file="seasons.csv",
        row=rows.SeasonRatio,
        title="What season and carriage by air do to a food's factor, inside the set that tells",
        key=("food", "condition"),
        refers=FOOD,
        limits={"ratio": POSITIVE},
        filled=("item", "over"),
    ),
    Form(
        file="harvests.csv",
        row=rows.Harvest,
        title="Months in which a food is harvested without heat in western Europe",
        key=("food",),
        refers={"food": "seasons.food"},
        limits={"first": MONTH, "last": MONTH},
    ),
    Form(
        file="likenesses.csv",
        row=rows.Likeness,
        title="Things people can see, for saying how much a quantity is",
        key=("kind", "region"),
        limits={"value": POSITIVE, "width": Limits(low=0), "height": Limits(low=0)},
        filled=("kind", "name", "names", "conditions"),
    ),
    Form(
        file="overclaims.csv",
        row=rows.Overclaim,
        title="Words that claim more than a number can carry, and the rules that speak of them",
        key=("word", "region"),
        closed={"region": ("world", "eu", "uk", "us")},
        filled=("word", "region", "rule", "since", "says"),
        rules=(
            (
                "a word is in lower case and without hyphens",
                lambda o: o.word == o.word.lower().replace("-", " "),
            ),
        ),
    ),
    *LIFE_CYCLE_FORMS,
    *SHOP_FORMS,
)
