"""Packs, bins and freight against what governments and a drinks study print."""

from __future__ import annotations

import numpy as np
import pytest

from counterproof.draws import Draws, Streams
from counterproof.footprint.activities import energy_factor, rated_energy
from counterproof.footprint.assess import assess
from counterproof.footprint.end_of_life import route
from counterproof.footprint.extras import PETROL
from counterproof.footprint.packaging import PackUse, making, pack_items, pack_uses
from counterproof.footprint.transport import carriage
from counterproof.reading.marking import read_lines
from counterproof.reading.model import Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.model import Pack, Recipe, WrittenLine
from counterproof.recipe.text import read_text
from counterproof.rows import Tables
from counterproof.units import US_GALLON
from counterproof.use_cases import Order, Workbench, assessed

pytestmark = pytest.mark.published


@pytest.fixture(scope="module")
def tables(bench: Workbench) -> Tables:
    return bench.tables


# UK Government GHG Conversion Factors 2024 v1.1, "Material use", kg CO2e per tonne over 1000:
# primary material production, closed-loop source.
@pytest.mark.parametrize(
    ("material", "primary", "recycled"),
    [
        ("glass", 1.402767, 0.82319),
        ("aluminium", 9.106919, 0.990478),
        ("steel", 2.854919, 1.726727),
        ("pet", 3.854919, 2.204919),
        ("hdpe", 3.08639, 1.761808),
        ("pp", 2.568589, 1.303589),
        ("board", 1.193966, 1.092355),
    ],
)
def test_making_a_material(tables: Tables, material: str, primary: float, recycled: float) -> None:
    row = tables.life_cycle.materials[material]
    assert (row.primary, row.recycled) == (primary, recycled)
    share = tables.life_cycle.contents.get((material, "world"))
    assert share is not None
    mixed = (1 - share.share) * primary + share.share * recycled
    assert making(row, "world", tables.life_cycle).mean == pytest.approx(mixed, rel=1e-12)


# The same tables, "Freighting goods" with "WTT": kg CO2e per tonne-kilometre, both together.
@pytest.mark.parametrize(
    ("mode", "whole"),
    [
        ("lorry", 0.12111),
        ("chilled lorry", 0.14186),
        ("van", 0.76738),
        ("rail", 0.0347),
        ("sea", 0.01977),
        ("air", 1.2342),
        ("air without radiative forcing", 0.78391),
        ("car", 0.2109),
    ],
)
def test_freight_to_the_digit(tables: Tables, mode: str, whole: float) -> None:
    row = carriage(mode, "uk", tables.life_cycle)
    assert row is not None
    assert row.whole == pytest.approx(whole, abs=5e-6)


# US EPA, GHG Emission Factors Hub 2025, Table 9, per short ton; PET 2.05, HDPE 2.80, PS 3.02,
# PVC 1.26 t CO2e burnt. All the carbon of the polymer's formula as CO2, which is what stands in
# for the stack that the UK rows leave out, agrees within 2 %: the Hub takes 98 % as oxidised.
@pytest.mark.parametrize(
    ("material", "printed"), [("pet", 2.05), ("hdpe", 2.80), ("ps", 3.02), ("pvc", 1.26)]
)
def test_the_stack_of_a_burnt_plastic(tables: Tables, material: str, printed: float) -> None:
    stack = tables.life_cycle.materials[material].stack
    assert stack == pytest.approx(printed / 0.90718474, rel=0.025)


def test_the_stack_is_added_where_the_region_leaves_it_out(tables: Tables) -> None:
    # UK 2024 "Waste disposal": PET, combustion 6.411 kg a tonne, the stack not in it.
    cycle = tables.life_cycle
    uk, us = route("pet", "uk", cycle), route("pet", "us", cycle)
    assert uk is not None
    assert us is not None
    assert uk.emits["combusted"] == pytest.approx(0.006411 + cycle.materials["pet"].stack)
    assert us.emits["combusted"] == pytest.approx(2.25974)
    assert uk.emits["combusted"] == pytest.approx(us.emits["combusted"], rel=0.03)


# US EPA, Facts and Figures 2018, thousand short tons: generated, recycled, combusted, landfilled.
# Read, rounded to 0.1 Mt, in copies of the agency's pages: plastics 35.7, 3.0 (the text's own 8.7 %
# asks for 3.1), 5.6, 27.0; glass recycled 3.1, combusted 1.6, landfilled 7.6. The digits below and
# all of aluminium are from memory.
@pytest.mark.parametrize(
    ("family", "generated", "recycled", "combusted", "landfilled"),
    [
        ("plastics", 35680, 3090, 5620, 26970),
        ("glass", 12250, 3060, 1640, 7550),
        ("aluminium", 3890, 670, 560, 2660),
    ],
)
def test_us_tonnages_of_2018(
    tables: Tables,
    family: str,
    generated: float,
    recycled: float,
    combusted: float,
    landfilled: float,
) -> None:
    shares = {row.fate: row.share for row in tables.life_cycle.fates[family, "us"]}
    tonnes = {fate: share * generated for fate, share in shares.items()}
    assert tonnes == pytest.approx(
        {"recycled": recycled, "combusted": combusted, "landfilled": landfilled}, abs=0.05
    )


def test_uk_recycling_of_2023(tables: Tables) -> None:
    # Defra, packaging waste UK 2023, Table 1: achieved recycling rates in per cent;
    # ours are made of its tonnages in whole thousands, which is 0.2 points for 277 of aluminium.
    printed = {"glass": 67.8, "aluminium": 58.6, "steel": 78.3, "paper": 73.4, "plastics": 52.5}
    for family, rate in printed.items():
        shares = {row.fate: row.share for row in tables.life_cycle.fates[family, "uk"]}
        assert 100 * shares["recycled"] == pytest.approx(rate, abs=0.2)


def test_fates_sum_to_one_everywhere(tables: Tables) -> None:
    for rows in tables.life_cycle.fates.values():
        assert sum(row.share for row in rows) == pytest.approx(1.0, abs=1e-9)


# Ember, life-cycle intensity of generation in 2024, kg CO2e per kWh, over what arrives. UK 2024
# conversion factors: 0.0183 lost on 0.20705 generated. World Bank, EG.ELC.LOSS.ZS: share of output
# lost in 2014, in per cent. US EPA Hub 2025, Table 6 (eGRID2023): direct generation, 4.1 % lost.
@pytest.mark.parametrize(
    ("region", "generated", "lost", "lacks"),
    [
        ("uk", 0.21579, 0.0183 / (0.20705 + 0.0183), ""),
        ("FRA", 0.04418, 0.06342, ""),
        ("DEU", 0.34206, 0.03884, ""),
        ("IND", 0.70896, 0.193, ""),
        ("CAMX", 0.19874, 0.041, "upstream"),
        ("AUS", 0.55376, 0.0, "grid losses"),
        ("world", 0.47294, 0.0, "grid losses"),
    ],
)
def test_electricity_as_it_arrives(
    tables: Tables, region: str, generated: float, lost: float, lacks: str
) -> None:
    row = energy_factor("electricity", region, tables)
    assert row is not None
    assert row.kgco2e_per_kwh == pytest.approx(generated / (1 - lost), rel=1e-4)
    assert row.lacks == lacks
    assert rated_energy(row, "cooking").also == ("" if row.loss is None else row.loss.provenance.source)  # fmt: skip


def test_grids_of_enough_places(tables: Tables) -> None:
    regions = tables.life_cycle.regions
    grids = {region for carrier, region in tables.energy if carrier == "electricity"}
    assert grids <= regions.keys()
    countries = {region for region in grids if len(region) == 3 and region.isupper()}
    assert len(countries) >= 60
    subregions = {region for region in grids if len(region) == 4 and region.isupper()}
    assert len(subregions) == 27  # eGRID2023, Puerto Rico and both of Alaska and Hawaii in it
    assert {regions[name].within for name in subregions} == {"us"}
    assert {region.within for region in regions.values()} <= regions.keys() | {""}


# Eurostat, plastic packaging recycled in 2023 and 2022, in per cent, by secondary reports.
@pytest.mark.parametrize(
    ("region", "year", "rate"), [("BEL", 2023, 59.5), ("DEU", 2023, 52.2), ("FRA", 2022, 25.0)]
)
def test_plastics_recycled_by_country(tables: Tables, region: str, year: int, rate: float) -> None:
    way = route("pp", region, tables.life_cycle)
    assert way is not None
    assert (way.region, way.year) == (region, year)
    assert 100 * way.shares["recycled"] == pytest.approx(rate)
    glass = route("glass", region, tables.life_cycle)
    assert glass is not None
    assert glass.region == "eu"


def _litre(words: str, uses: float, tables: Tables) -> float:
    """Footprint of the packs of a litre, made and thrown away in the UK. [kg CO2e]"""
    packs, unknown = pack_uses([Pack(words, uses=uses)], 1.0, "uk", tables.life_cycle, filled=1.0)
    assert not unknown
    items, _ = pack_items(packs, tables.life_cycle)
    return sum(item.mean for item in items)


def test_the_order_of_carbonated_drinks(tables: Tables) -> None:
    # Amienyo D. et al. (2013), doi 10.1007/s11367-012-0459-y, UK, as summarised: the 2 L PET bottle
    # lowest, the glass bottle used once highest, used three times about equal to can and 0.5 L PET.
    # Ours differ in that their masses are recalled; "about equal" is held to a factor of 1.5.
    litre = {
        words: _litre(words, 1, tables)
        for words in ("2 l PET bottle", "0.5 l PET bottle", "330 ml can", "0.75 l glass bottle")
    }
    assert min(litre, key=litre.__getitem__) == "2 l PET bottle"
    assert max(litre, key=litre.__getitem__) == "0.75 l glass bottle"
    thrice = _litre("0.75 l glass bottle", 3, tables)
    for words in ("330 ml can", "0.5 l PET bottle"):
        assert 1 / 1.5 < thrice / litre[words] < 1.5


def test_the_order_of_packs_holds_in_most_draws_of_their_masses(
    tables: Tables, streams: Streams
) -> None:
    # The same order with the spread of every recalled mass, of making and of disposal: what the
    # study finds lowest and highest is so in two draws of three and in nine of ten.
    def drawn(words: str) -> Draws:
        (use,), _ = pack_uses([Pack(words)], 1.0, "uk", tables.life_cycle, filled=1.0)
        items, _ = pack_items([use], tables.life_cycle)
        parts = [item.amount.draws(streams) * item.worth.draws(streams) for item in items]
        total: Draws = np.sum(parts, axis=0)
        return total

    words = ("2 l PET bottle", "0.5 l PET bottle", "330 ml can", "0.75 l glass bottle")
    pet, small, can, glass = (drawn(one) for one in words)
    assert (pet < np.minimum(small, can)).mean() > 0.66
    assert (glass > np.maximum(small, can)).mean() > 0.9


def test_packs_of_a_litre_lie_where_a_uk_study_has_them(tables: Tables) -> None:
    # Gujba H., Azapagic A. (2011), beverage packaging in the UK: glass, made and thrown away,
    # 0.15 to 0.761 kg CO2e per litre of drink; carton 0.09 to 0.111. Cartons come out lower here:
    # coating and filling of the board are not in the material factors.
    assert 0.15 < _litre("0.75 l glass bottle", 1, tables) < 1.0
    assert 0.05 < _litre("1 litre carton", 1, tables) < 0.111


def test_mass_of_a_pack_closes_over_its_fates(tables: Tables) -> None:
    for words in ("330 ml can", "ready-meal tray", "1 litre carton", "pint glass jar"):
        (use,), _ = pack_uses([Pack(words)], 1.0, "uk", tables.life_cycle, filled=1.0)
        assert isinstance(use, PackUse)
        for part in use.pack.parts:
            way = route(part.material, "uk", tables.life_cycle)
            assert way is not None
            assert sum(way.shares.values()) == pytest.approx(1.0, abs=1e-9)


def test_tap_against_bottled_water(bench: Workbench, streams: Streams) -> None:
    # Botto (2009), Italy: bottled over tap 300; GUTcert (2020), Germany: about 580. Two to three
    # orders of magnitude.
    def litre(text: str) -> float:
        written = WrittenLine(1, text)
        lines = read_lines((written,), bench.tables, bench.matcher)
        recipe = Recipe("Water", (written,), ())
        reading = Reading(recipe, None, Kitchen(region="uk"), lines, (), 1.0, 1.0, ())
        return assess(reading, bench.tables, streams=streams).static

    ratio = litre("1 litre bottled water") / litre("1 litre tap water")
    assert 100 < ratio < 3000


def test_a_gallon_of_petrol_and_twenty_miles(bench: Workbench, streams: Streams) -> None:
    # US EPA, Greenhouse Gas Equivalencies Calculator, vintage 2024: 8.887 kg CO2 a gallon. A fact of
    # the trade follows: 20 miles at 24 miles a gallon are 7.4 kg. 12 kg are what one trip brings.
    text = "---\nmeasures: us\nserves: 1\nalso_count: [shopping trip]\ntrip: {}\n---\n# Rice\n\n- 12 kg rice\n"
    assert PETROL.value * US_GALLON / 1000 == pytest.approx(8.887, rel=1e-12)

    def trip(words: str) -> float:
        recipe = read_text(text.format(words))
        found = assessed(Order(recipe, Kitchen(region="us")), bench, streams).footprint
        (share,) = (part for part in found.items if part.item.name.startswith("shopping trip"))
        return share.kgco2e.mean

    assert trip("20 miles at 24 mpg") == pytest.approx(8.887 * 20 / 24, rel=1e-9)
    assert round(trip("20 miles at 24 mpg"), 1) == 7.4
    assert trip("100 km at 6 l/100 km") == pytest.approx(6 * 8.887 / 3.785411784, rel=1e-9)
    # Without a car's thirst, the average car of the tables: 0.2109 kg CO2e a kilometre (UK 2024).
    assert trip("10 km") == pytest.approx(10 * 0.2109, rel=1e-4)
