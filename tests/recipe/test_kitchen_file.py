"""Kitchen and season files."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.errors import BrokenSettings, CounterproofError
from counterproof.recipe.kitchen import DEFAULTS, Kitchen, Vessel, defaults_used
from counterproof.recipe.kitchen_file import KITCHEN_KEYS, read_kitchen, with_changes
from counterproof.recipe.season_file import read_season

FULL = """\
region: GB
hob: {kind: Induction, power: 2.4 kW, simmer_loss: 1.3, rings: 5}
oven: {kind: gas}
altitude_m: 900
room_celsius: 17
tap_celsius: 8
tap_alkalinity: 1-2 meq/L
fridge: {litres: 380, kwh_per_year: 170, celsius: 5}
freezer: {litres: 240, kwh_per_year: 230, celsius: -20}
fizz: {gas: biogenic, litres: 900}
vessels:
  - {name: stockpot, litres: 10, diameter: 28 cm, empty_weight: 1.9 kg}
  - {name: pint jar, empty_weight: 310 g}
tools: [scale, probe]
month: November
own_factors: ours.csv
middle: median
range_for: the-average
"""


def test_everything_a_kitchen_may_say() -> None:
    kitchen = read_kitchen(FULL, "kitchen.yaml")
    assert kitchen.region == "uk"
    assert (kitchen.hob, kitchen.hob_watts, kitchen.oven) == ("induction", 2400, "gas")
    assert kitchen.simmer_loss == 1.3
    assert (kitchen.rings, kitchen.ovens) == (5, None)
    assert (kitchen.altitude_m, kitchen.room_celsius, kitchen.tap_celsius) == (900, 17, 8)
    assert kitchen.tap_alkalinity == (1, 2)
    assert (kitchen.gas, kitchen.fizz_litres) == ("biogenic", 900)
    assert (kitchen.fridge_litres, kitchen.fridge_kwh_per_year, kitchen.fridge_celsius) == (
        380,
        170,
        5,
    )
    assert (kitchen.freezer_litres, kitchen.freezer_kwh_per_year, kitchen.freezer_celsius) == (
        240,
        230,
        -20,
    )
    stockpot, jar = kitchen.vessels
    assert (stockpot.name, stockpot.litres) == ("stockpot", 10)
    assert stockpot.diameter_m == pytest.approx(0.28)
    assert stockpot.empty_kg == pytest.approx(1.9)
    assert jar.empty_kg == pytest.approx(0.31)
    assert jar.litres is None
    assert kitchen.tools == ("scale", "probe")
    assert (kitchen.month, kitchen.own_factors) == (11, "ours.csv")
    assert (kitchen.middle, kitchen.range_for) == ("median", "the-average")
    assert kitchen.file == "kitchen.yaml"
    assert defaults_used(kitchen) == ()


def test_an_empty_file_is_the_default_kitchen_and_says_so() -> None:
    for text in ("", "# nothing yet\n", "region:\n"):
        kitchen = read_kitchen(text)
        assert kitchen == Kitchen()
        assert defaults_used(kitchen) == DEFAULTS


def test_each_default_has_a_reason_and_tells_what_stands() -> None:
    fields = set(Kitchen.__dataclass_fields__) - {
        "stated",
        "file",
        "vessels",
        "tools",
        "own_factors",
        "rings",
        "ovens",
    }
    assert {default.name for default in DEFAULTS} == fields
    assert all(default.why for default in DEFAULTS)
    said = {default.name: default.sentence() for default in DEFAULTS}
    assert said["hob_watts"].startswith(f"hob power: {Kitchen().hob_watts / 1000:g} kW (assumed")
    assert f"{Kitchen().fridge_celsius:g} °C (sourced" in said["fridge_celsius"]


@pytest.mark.published
def test_cold_storage_defaults_are_the_published_set_points() -> None:
    # US government cold food storage chart: refrigerator 40 °F (4 °C), freezer 0 °F (−18 °C).
    assert round((40 - 32) / 1.8) == Kitchen().fridge_celsius
    assert round((0 - 32) / 1.8) == Kitchen().freezer_celsius


@pytest.mark.published
def test_alkalinity_as_calcium_carbonate() -> None:
    # Molar mass of CaCO3 from the IUPAC abridged atomic weights: 40.078 + 12.011 + 3 × 15.999.
    per_equivalent = (40.078 + 12.011 + 3 * 15.999) / 2
    kitchen = read_kitchen("tap_alkalinity: 105 mg/L as CaCO3")
    assert kitchen.tap_alkalinity[0] == pytest.approx(105 / per_equivalent, rel=2e-4)


@pytest.mark.parametrize("hob", ["hob: gas", "hob: {kind: gas}"])
def test_a_kind_alone_leaves_the_power_at_its_default(hob: str) -> None:
    kitchen = read_kitchen(hob)
    assert (kitchen.hob, kitchen.hob_watts, kitchen.stated) == (
        "gas",
        2000.0,
        frozenset({"hob"}),
    )


def test_short_forms() -> None:
    kitchen = read_kitchen("vessels: stockpot\ntools: scale, probe\nmonth: 3\nregion: fra")
    assert kitchen.vessels == (Vessel("stockpot"),)
    assert kitchen.tools == ("scale", "probe")
    assert (kitchen.month, kitchen.region) == (3, "FRA")


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("region: uk\nhob: {kind: coal}", 2, '"coal" is not one of gas, solid plate'),
        ("hob: {power: 2}", 1, "no unit"),
        ("hob: {power: 2 kg}", 1, "not a unit of power"),
        ("hob: {power: 99 kW}", 1, "outside 100 W to 20 kW"),
        ("vessels: [{name: pot, diameter: 9 m}]", 1, "outside 1 cm to 3 m"),
        ("vessels:\n  - {litres: 3}", 2, "name: is needed"),
        ("altitude_m: high", 1, '"high" is not a number'),
        ("altitude_m: 9000", 1, "outside -430 to 6000 m"),
        ("tap_celsius: .nan", 1, "number"),
        ("month: Brumaire", 1, "no month"),
        ("month: 13", 1, "no month"),
        ("region: Ruritania", 1, "three letters"),
        ("fridge: 4", 1, "no set of keys"),
        ("tools: {a: b}", 1, "no list"),
        ("tap_alkalinity: 2", 1, "meq/L"),
        ("tap_alkalinity: 3-1 meq/L", 1, "no alkalinity"),
        ("region: uk\nhop: gas", 2, '"hob" is the nearest'),
        ("fridge:\n  liters: 300", 2, '"litres" is the nearest'),
        ("region: [", 1, "YAML"),
        ("- uk", 1, "list of keys"),
    ],
)
def test_what_cannot_be_used(text: str, line: int, words: str) -> None:
    with pytest.raises(BrokenSettings) as caught:
        read_kitchen(text, "kitchen.yaml")
    assert words in caught.value.message
    assert (caught.value.file, caught.value.line) == ("kitchen.yaml", line)
    assert caught.value.remedy


def test_all_faults_at_once() -> None:
    with pytest.raises(BrokenSettings) as caught:
        read_kitchen("altitude_m: high\nmonth: 13\noven: coal\nhob: {power: 2}")
    for said in ("4 values", "line 1, altitude_m", "line 2, month", "line 3, oven", "line 4, hob"):
        assert said in caught.value.message


def test_changes_count_as_stated_and_leave_the_rest() -> None:
    kitchen = read_kitchen(FULL)
    changed = with_changes(kitchen, {"hob": {"kind": "gas"}, "region": "us"})
    assert (changed.hob, changed.hob_watts, changed.region) == ("gas", 2400, "us")
    assert changed.altitude_m == 900
    assert with_changes(kitchen, {}) == kitchen
    assert with_changes(Kitchen(), {"month": 5}).stated == {"month"}


def test_a_change_that_cannot_be_used_names_its_place() -> None:
    with pytest.raises(BrokenSettings, match="coal") as caught:
        with_changes(Kitchen(), {"hob": {"kind": "coal"}}, file="stew.md", line=7)
    assert (caught.value.file, caught.value.line) == ("stew.md", 7)


def test_season() -> None:
    season = read_season(
        "title: Suppers\naudience: [uk, FRA]\nkitchen: k.yaml\n"
        "method: {middle: median, range_for: the-average, draws: 5000, seed: 7}\n",
        "season.yaml",
    )
    assert (season.title, season.audience, season.kitchen) == ("Suppers", ("uk", "FRA"), "k.yaml")
    assert (season.middle, season.range_for) == ("median", "the-average")
    assert (season.draws, season.seed) == (5000, 7)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "title: is needed"),
        ("title: A\nadience: uk", '"audience" is the nearest'),
        ("title: A\nmethod: {draws: 3}", "outside 100 to"),
        ("title: A\naudience: Narnia", "no region"),
    ],
)
def test_season_that_cannot_be_used(text: str, words: str) -> None:
    with pytest.raises(BrokenSettings) as caught:
        read_season(text, "season.yaml")
    assert words in caught.value.message


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3)
    ),
    max_leaves=6,
)


@pytest.mark.property
@settings(max_examples=100, deadline=None)
@given(st.dictionaries(st.sampled_from(KITCHEN_KEYS), VALUES, max_size=3))
def test_any_values_give_a_kitchen_or_one_error(changes: dict[str, object]) -> None:
    try:
        assert isinstance(with_changes(Kitchen(), changes), Kitchen)
    except CounterproofError as fault:
        told = fault.remedy
        assert told


@pytest.mark.property
@settings(max_examples=100, deadline=None)
@given(st.text(st.characters(exclude_categories=["Cs"]), max_size=80))
def test_any_text_gives_a_kitchen_or_one_error(text: str) -> None:
    try:
        read_kitchen(text)
    except CounterproofError as fault:
        told = fault.remedy
        assert told
