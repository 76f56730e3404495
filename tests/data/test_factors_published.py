"""Shipped factors, stages and links against printed values; completeness of the links."""

from __future__ import annotations

import pytest

from counterproof.adapters.tables import load_tables
from counterproof.rows import PRODUCTION_STAGES, STAGES, Tables

GLOBAL_SOURCE = "poore-nemecek-2018"


@pytest.fixture(scope="module")
def tables() -> Tables:
    return load_tables()


def per_kg(tables: Tables, food: str, factor_set: str) -> float:
    """The mean of a food by its link. [kg CO2e per kg on the basis of the factor]"""
    link = next(link for link in tables.links[food] if link.set == factor_set)
    parts = tables.mixtures.get((link.set, link.item))
    if parts is None:
        return link.per * tables.factors[link.set, link.item].mean
    return link.per * sum(part.share * tables.factors[part.set, part.item].mean for part in parts)


# Poore J., Nemecek T. 2018, Science 360:987-992, doi 10.1126/science.aaq0216, Data S2, sheet
# "Results - Retail Weight", GHG emissions (IPCC 2013, AR5): 5th and 10th percentile, mean, median,
# 90th and 95th percentile, as printed there.
PRINTED = {
    "Wheat & Rye (Bread)": (0.71, 0.79, 1.57, 1.27, 2.31, 3.07),
    "Rice": (1.15, 1.46, 4.45, 3.73, 8.77, 10.26),
    "Potatoes": (0.09, 0.16, 0.46, 0.47, 0.63, 0.70),
    "Other Pulses": (0.89, 0.98, 1.79, 1.39, 3.75, 4.00),
    "Nuts": (-4.02, -3.65, 0.43, -1.33, 3.84, 10.79),
    "Tofu": (1.41, 1.60, 3.16, 2.58, 5.55, 7.27),
    "Olive Oil": (2.13, 2.86, 5.42, 5.09, 7.63, 10.79),
    "Tomatoes": (0.37, 0.39, 2.09, 0.65, 5.95, 12.62),
    "Dark Chocolate": (-3.95, -0.10, 46.65, 4.95, 134.70, 257.48),
    "Bovine Meat (beef herd)": (37.57, 40.37, 99.48, 60.36, 209.85, 269.19),
    "Bovine Meat (dairy herd)": (14.93, 17.94, 33.30, 34.14, 50.90, 56.68),
    "Lamb & Mutton": (23.70, 24.52, 39.72, 40.61, 54.44, 60.16),
    "Poultry Meat": (3.95, 4.18, 9.87, 7.52, 20.12, 20.82),
    "Milk": (1.51, 1.70, 3.15, 2.65, 4.83, 7.00),
    "Cheese": (10.21, 10.92, 23.88, 18.64, 39.32, 58.79),
    "Eggs": (2.85, 2.93, 4.67, 4.21, 8.39, 8.49),
}


@pytest.mark.published
@pytest.mark.parametrize("item", PRINTED)
def test_percentiles_are_the_printed_ones(tables: Tables, item: str) -> None:
    factor = tables.factors["global", item]
    read = (factor.p05, factor.p10, factor.mean, factor.p50, factor.p90, factor.p95)
    assert read == PRINTED[item]


@pytest.mark.published
def test_all_43_products_are_there(tables: Tables) -> None:
    # Data S2 has 43 products with percentiles; a share of them is per litre (table S1, from memory).
    products = [row for row in tables.factors.values() if row.provenance.source == GLOBAL_SOURCE]
    assert len(products) == 43
    assert {row.item for row in products if row.unit == "litre"} == {
        "Barley (Beer)", "Soymilk", "Soybean Oil", "Palm Oil", "Sunflower Oil", "Rapeseed Oil",
        "Olive Oil", "Wine", "Milk",
    }  # fmt: skip
    # Method: published extremes come from unresampled data and lie inside the percentiles for 13.
    inside = [row for row in products if row.low > row.p05 or row.high < row.p95]  # type: ignore[operator]
    assert len(inside) == 13


# The same study, eight stages with losses per kg or litre of retail weight, as republished: land-use
# change, feed, farm, processing, transport, packaging, retail (rounded to 4 decimals by hand).
PRINTED_STAGES = {
    "Apples": (-0.0290, 0.0, 0.2258, 0.0038, 0.0958, 0.0445, 0.0166),
    "Bovine Meat (beef herd)": (23.2375, 2.6810, 56.2281, 1.8111, 0.4941, 0.3521, 0.2335),
    "Poultry Meat": (3.5084, 2.4524, 0.9278, 0.6074, 0.3811, 0.2927, 0.2440),
    "Nuts": (-3.2578, 0.0, 3.3744, 0.0514, 0.1067, 0.1237, 0.0426),
    "Wine": (-0.0613, 0.0, 0.6260, 0.1386, 0.0933, 0.7492, 0.0393),
}


@pytest.mark.published
@pytest.mark.parametrize("item", PRINTED_STAGES)
def test_stages_are_the_printed_ones(tables: Tables, item: str) -> None:
    stages = {row.stage: row.mean for row in tables.stages["global", item]}
    names = ("land-use change", "feed", "farm", "processing", "transport", "packaging", "retail")
    read = tuple(stages.get(name, 0.0) for name in names)
    assert read == pytest.approx(PRINTED_STAGES[item], abs=5e-5)  # half the last digit above


@pytest.mark.published
def test_stages_sum_to_the_printed_mean(tables: Tables) -> None:
    # The losses row takes up the rounding between stages and mean: under half a printed digit for
    # the 20 products whose losses are published.
    known = {*STAGES[:5], *PRODUCTION_STAGES}
    for key, factor in tables.factors.items():
        rows = tables.stages.get(key, ())
        if factor.provenance.source == GLOBAL_SOURCE or (key[0] == "national" and rows):
            assert sum(row.mean for row in rows) == pytest.approx(factor.mean, abs=1e-9), key
            assert {row.stage for row in rows} <= known
    published = [
        key
        for key, rows in tables.stages.items()
        if key[0] == "global" and any(row.provenance.obtained == "read" for row in rows)
    ]
    assert len(published) == 20


@pytest.mark.published
def test_balance_sheet_stages_are_converted_first(tables: Tables) -> None:
    # Data S2, stages per balance-sheet unit: olive oil processing 0.66 per kg, at 0.92 kg a litre;
    # dairy beef farm 15.689 per kg of carcass, at the beef herd's 56.228 / 39.388 = 1.4275.
    def stage(item: str, name: str) -> float:
        return next(row.mean for row in tables.stages["global", item] if row.stage == name)

    assert stage("Olive Oil", "processing") == pytest.approx(0.66 * 0.92, abs=1e-6)
    assert stage("Bovine Meat (dairy herd)", "farm") == pytest.approx(15.689 * 1.4275, abs=1e-3)


@pytest.mark.published
def test_beef_unspecified_is_mixed_by_production(tables: Tables) -> None:
    # Data S2, food and waste 2009-11: 40,571 kt from beef herds, 31,425 kt from dairy herds.
    shares = {row.item: row.share for row in tables.mixtures["global", "Beef, unspecified"]}
    assert shares["Bovine Meat (beef herd)"] == pytest.approx(40571 / (40571 + 31425), abs=5e-5)
    assert per_kg(tables, "beef", "global") == pytest.approx(70.6, abs=0.05)


# AGRIBALYSE 3.1.1 (ADEME 2023), synthesis by stage: agriculture, processing, packaging, transport,
# retail, as printed (5 decimals), consumption left out.
PRINTED_NATIONAL = {
    "Garlic, fresh": (0.08495, 0.0, 0.0, 0.17315, 0.01959),
    "Garlic, powder, dried": (0.06796, 0.0, 0.47782, 0.18882, 0.01568),
    "Seaweed, agar, raw": (4.55281, 1.48961, 0.28988, 0.38353, 0.02004),
    "Butter oil or concentrated butter": (7.28462, 0.04972, 0.18032, 0.23176, 0.03908),
    "Olive oil, extra virgin": (0.4746, 0.07477, 0.17742, 0.23919, 0.01701),
    "Carrot, raw": (0.08069, 0.0, 0.0, 0.24074, 0.01075),
    "Onion, raw": (0.10003, 0.0, 0.0, 0.24635, 0.01101),
    "Tomato, raw": (0.31477, 0.0, 0.0, 0.29268, 0.01559),
    "Lentil, cooked": (0.16798, 0.0, 0.11376, 0.08013, 0.02781),
    "Honey": (0.82782, 0.0, 0.17072, 0.1834, 0.01726),
    "Rice flour": (2.56748, 0.00849, 0.00611, 0.45074, 0.02676),
    "Egg roll or Nem": (2.26082, 0.48381, 0.1644, 0.27366, 0.03777),
    "Beef samosas or samoosas": (22.22299, 0.3322, 0.2773, 0.21591, 0.03777),
    "Lamb, leg, raw": (39.4791, 0.06645, 0.34414, 0.25338, 0.04669),
    "Chicken fat": (1.0706, 0.21278, 0.18087, 0.19574, 0.03932),
    "Pork belly, smoked, raw": (5.42268, 0.27573, 0.16952, 0.2042, 0.03735),
    "Salmon, canned, drained": (5.59119, 0.99836, 1.40945, 0.84978, 0.01976),
    "Milk chocolate bar": (11.53506, 0.56768, 0.10403, 0.35193, 0.01726),
    "Cheddar cheese, from cow's milk": (5.28327, 0.38413, 0.26233, 0.211, 0.03597),
    "Oat bran": (0.36623, 0.00353, 0.10086, 0.16396, 0.01606),
}


@pytest.mark.published
@pytest.mark.parametrize("item", PRINTED_NATIONAL)
def test_national_stages_are_the_printed_ones(tables: Tables, item: str) -> None:
    stages = {row.stage: row.mean for row in tables.stages["national", item]}
    read = tuple(
        stages.get(name, 0.0)
        for name in ("production", "processing", "packaging", "transport", "retail")
    )
    assert read == PRINTED_NATIONAL[item]
    assert tables.factors["national", item].mean == pytest.approx(sum(PRINTED_NATIONAL[item]))


# SU-EATABLE LIFE (Petersson et al. 2021, Sci Data 8:127): item medians.
@pytest.mark.published
@pytest.mark.parametrize(
    ("item", "median"), [("Apple", 0.2539), ("Olive oil", 3.265), ("Eggs", 3.2), ("Butter", 8.48)]
)
def test_literature_medians_are_the_printed_ones(tables: Tables, item: str, median: float) -> None:
    factor = tables.factors["literature", item]
    assert factor.mean == pytest.approx(median, abs=0.005)
    assert factor.middle == "median"


@pytest.mark.published
def test_a_whole_chicken_is_not_charged_for_its_bones_twice(tables: Tables) -> None:
    # By hand. A whole chicken of 1.600 kg as bought, of which 0.68 is eaten (SR28 05006, refuse 32 %).
    # The class factor, 9.87 kg CO2e, is per kg of meat without bones: the farm's whole burden is on
    # the meat. So the bird costs 1.600 × 0.68 × 9.87 = 10.74 kg CO2e; 1.600 × 9.87 = 15.79 would
    # charge the bones a second time.
    share = tables.edible["chicken-whole"].share
    link = next(row for row in tables.links["chicken-whole"] if row.set == "global")
    assert tables.factors["global", link.item].basis == "edible, boneless"
    assert link.per == 1
    assert 1.6 * share * per_kg(tables, "chicken-whole", "global") == pytest.approx(
        10.74, abs=0.005
    )


def test_dry_and_cooked_pulses_are_worth_the_same_dry_matter(tables: Tables) -> None:
    # 100 g of dry lentils at 8.3 % water and what they become when boiled (69.6 % water, SR28 16069
    # and 16070) hold the same dry matter: 91.7 g / 0.304 = 302 g cooked; 302 × per = 103.7 g at the
    # 11.5 % water the class is counted at.
    cooked = next(row for row in tables.links["lentils-cooked"] if row.set == "global")
    assert 0.302 * cooked.per == pytest.approx(0.1037, rel=0.01)


def test_butter_and_olive_oil_meet_in_one_set(tables: Tables) -> None:
    # Method: butter against olive oil is 1.3 times when sets are mixed, 7.9 times inside one.
    butter, oil = (
        {row.set for row in tables.links[food] if row.fit == "same"}
        for food in ("butter", "oil-olive")
    )
    assert {"national", "literature"} <= butter & oil
    mixed = per_kg(tables, "butter", "national") / per_kg(tables, "oil-olive", "global")
    inside = per_kg(tables, "butter", "national") / per_kg(tables, "oil-olive", "national")
    assert mixed == pytest.approx(1.3, abs=0.05)
    assert inside == pytest.approx(7.9, abs=0.1)


WITHOUT_LINK = {
    "not food": ("not-food-skewer", "not-food-wrap", "not-food-tool"),
}  # fmt: skip


def test_every_food_has_a_link_or_a_reason(tables: Tables) -> None:
    bare = {food for foods in WITHOUT_LINK.values() for food in foods}
    assert tables.foods.keys() - tables.links.keys() == bare


def test_water_counts_in_every_set(tables: Tables) -> None:
    # UK conversion factors 2024, "Water supply": 0.15311 kg CO2e per m3.
    assert {row.set for row in tables.links["water"]} == {"global", "literature", "national"}
    assert per_kg(tables, "water", "global") == pytest.approx(0.15311 / 1000)


@pytest.mark.published
@pytest.mark.parametrize(
    ("carrier", "region", "printed"),
    [
        ("electricity", "uk", 0.21579),  # Ember, 2024, life cycle of generation
        ("electricity", "FRA", 0.04418),
        ("electricity", "world", 0.47294),
        ("gas", "uk", 0.1829 + 0.03021),  # DESNZ 2024 v1.1, gross calorific value, with WTT
        # US EPA hub 2025, table 1, AR5: (53.06 + 0.001 × 28 + 0.0001 × 265) / 293.07 kWh a mmBtu
        ("gas", "us", (53.06 + 0.028 + 0.0265) / 293.07),
    ],
)
def test_energy_is_the_printed_one(
    tables: Tables, carrier: str, region: str, printed: float
) -> None:
    assert tables.energy[carrier, region].kgco2e_per_kwh == pytest.approx(printed, abs=5e-6)
