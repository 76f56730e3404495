"""Season and carriage: what words and month say, and what they do to a factor."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.tables import load_tables
from counterproof.comparison.paired import Entry, paired
from counterproof.draws import Streams
from counterproof.footprint.assess import assess
from counterproof.footprint.matrices import product_system
from counterproof.footprint.season import condition_said
from counterproof.reading.model import MarkedLine, Reading
from counterproof.recipe.kitchen import Kitchen
from counterproof.rows import Harvest, Provenance, SeasonRatio, Tables

MadeLine = Callable[..., MarkedLine]
MadeReading = Callable[..., Reading]

HERE = Provenance("", "", "assumed", "a table for tests")
SUMMER = Harvest("tomato", 6, 9, HERE)
WINTER = Harvest("leek", 11, 2, HERE)


@pytest.fixture(scope="module")
def seasonal(tiny_tables: Tables) -> Tables:
    def row(condition: str, ratio: float, stage: str) -> SeasonRatio:
        return SeasonRatio(
            "tomato", "national", condition, f"tomato {condition}", "tomato", ratio, stage, HERE  # type: ignore[arg-type]
        )  # fmt: skip

    rows = (
        row("in season", 0.8, "production"),
        row("out of season", 3.0, "production"),
        row("by air", 17.0, "transport"),
    )
    return replace(tiny_tables, seasons={"tomato": rows}, harvests={"tomato": SUMMER})


def _said(text: str, made_line: MadeLine) -> MarkedLine:
    line = made_line("tomato", 0.4, spread=0.0)
    return replace(line, written=replace(line.written, text=text))


@pytest.mark.parametrize(
    ("text", "condition"),
    [
        ("400 g tomatoes, heated glasshouse", "heated greenhouse"),
        ("400 g hothouse tomatoes", "heated greenhouse"),
        ("400 g greenhouse tomatoes", None),
        ("400 g tomatoes, out of season, heated greenhouse", "heated greenhouse"),
        ("400 g tomatoes, out of season", "out of season"),
        ("400 g tomatoes in season", "in season"),
        ("400 g field-grown tomatoes", "in season"),
        ("400 g tomatoes (flown in)", "by air"),
        ("400 g air-freighted tomatoes", "by air"),
        ("400 g tomatoes in August", "in season"),
        ("400 g tomatoes in january", "out of season"),
        ("400 g tomatoes in May", None),
        ("400 g tomatoes from an unheated greenhouse", None),
        ("400 g tomatoes in water", None),
        ("seasoned tomatoes", None),
    ],
)
def test_words_of_a_line(text: str, condition: str | None) -> None:
    found = condition_said(text, Kitchen(), SUMMER)
    assert (found.condition if found else None) == condition


def test_the_kitchens_month_counts_where_the_line_says_nothing() -> None:
    november = Kitchen(region="uk", month=11)
    found = condition_said("400 g tomatoes", november, SUMMER)
    assert found is not None
    assert (found.condition, found.by_month) == ("out of season", True)
    assert "November" in found.why
    outranked = condition_said("400 g tomatoes in season", november, SUMMER)
    assert outranked is not None
    assert (outranked.condition, outranked.by_month) == ("in season", False)
    assert condition_said("400 g tomatoes", Kitchen(region="AUS", month=11), SUMMER) is None
    assert condition_said("400 g tomatoes", Kitchen(region="uk"), SUMMER) is None


@pytest.mark.property
@given(st.integers(1, 12), st.integers(1, 12), st.integers(1, 12))
def test_every_month_is_in_out_or_next_to_the_harvest(first: int, last: int, month: int) -> None:
    harvest = Harvest("x", first, last, HERE)
    inside = {(first - 1 + k) % 12 + 1 for k in range((last - first) % 12 + 1)}
    said = condition_said("x", Kitchen(region="uk", month=month), harvest)
    if month in inside:
        assert said is not None
        assert said.condition == "in season"
    elif said is None:
        assert {month % 12 + 1, (month - 2) % 12 + 1} & inside
    else:
        assert said.condition == "out of season"


def test_a_harvest_may_span_the_new_year() -> None:
    january = condition_said("leeks", Kitchen(region="uk", month=1), WINTER)
    june = condition_said("leeks", Kitchen(region="uk", month=6), WINTER)
    assert january is not None
    assert january.condition == "in season"
    assert june is not None
    assert june.condition == "out of season"


def test_the_ratio_is_applied_to_the_base_factor(
    seasonal: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    usual = assess(made_reading(_said("tomatoes", made_line)), seasonal, streams=streams)
    dear = assess(
        made_reading(_said("tomatoes, out of season", made_line)), seasonal, streams=streams
    )
    # 0.1 kg a serving × 2.09 kg CO2e/kg (Poore & Nemecek 2018, tomatoes) × 3.
    assert dear.static == pytest.approx(0.1 * 2.09 * 3.0)
    assert dear.static == pytest.approx(3.0 * usual.static)
    assert dear.draws.mean() == pytest.approx(dear.static, rel=0.01)
    (mark,) = dear.marks[1]
    assert (mark.level, mark.kind) == ("note", "season")
    assert any("out of season (the line says" in said for said in dear.assumed)
    assert not any("depends on the month" in said for said in dear.assumed)
    assert not usual.marks


def test_a_total_that_depends_on_the_month_says_so(
    seasonal: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    reading = made_reading(_said("tomatoes", made_line), kitchen=Kitchen(region="uk", month=11))
    found = assess(reading, seasonal, streams=streams)
    assert any("depends on the month" in said for said in found.assumed)
    settled = [part.what for part in found.settle_next]
    assert "where and when the tomato was grown" in settled


def test_carriage_by_air_is_charged_to_transport(
    seasonal: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    found = assess(made_reading(_said("tomatoes by air", made_line)), seasonal, streams=streams)
    stages = {part.stage: part.kgco2e.mean for part in found.stages}
    # Poore & Nemecek 2018: transport 0.177 of 2.09 kg CO2e/kg; what flying adds is 16 × 2.09.
    assert stages["transport"] == pytest.approx(0.1 * (0.177 + 16 * 2.09))
    assert sum(stages.values()) == pytest.approx(found.static)


def test_matrices_agree_with_the_static_value(
    seasonal: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    found = assess(
        made_reading(_said("tomatoes by air", made_line), made_line("onion", 0.2)),
        seasonal,
        streams=streams,
    )
    system = product_system(found)
    emitted = system.biosphere @ np.linalg.solve(system.technosphere, system.demand)
    assert system.characterisation @ emitted == pytest.approx(found.static, rel=1e-9)


def test_a_flight_no_set_tells_of_is_a_doubt(
    seasonal: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    line = made_line("onion", 0.2)
    flown = replace(line, written=replace(line.written, text="200 g onions by air"))
    found = assess(made_reading(flown), seasonal, streams=streams)
    (mark,) = found.marks[1]
    assert (mark.level, mark.kind) == ("doubt", "flown")
    (line_told,) = found.to_dict()["lines"]
    assert line_told["marks"][0]["kind"] == "flown"


@pytest.mark.parametrize(
    "text", ["200 g imported onions", "200 g greenhouse onions", "200 g onions, heated greenhouse"]
)
def test_words_no_set_puts_a_figure_to_are_noted(
    seasonal: Tables,
    made_line: MadeLine,
    made_reading: MadeReading,
    streams: Streams,
    text: str,
) -> None:
    line = made_line("onion", 0.2)
    found = assess(
        made_reading(replace(line, written=replace(line.written, text=text))),
        seasonal,
        streams=streams,
    )
    (mark,) = found.marks[1]
    assert (mark.level, mark.kind) == ("note", "season")
    assert mark.message.startswith("The line says “")
    assert found.static == pytest.approx(0.05 * 0.5)


def test_one_recipe_in_two_months_is_compared_on_the_same_purchase(
    seasonal: Tables, made_line: MadeLine, made_reading: MadeReading, streams: Streams
) -> None:
    sides = [
        Entry(f"month {month}", made_reading(
            _said("tomatoes", made_line), kitchen=Kitchen(region="uk", month=month)
        ))
        for month in (1, 8)
    ]  # fmt: skip
    pair = paired(sides[0], sides[1], seasonal, streams=streams)
    assert pair.ratio is not None
    assert pair.ratio.of_means == pytest.approx(3.0 / 0.8)
    assert pair.shares_draws_of == ("tomato",)
    # The purchase is shared, so only the two ratios differ: lognormal, √2 × ln 1.3 wide.
    assert pair.share_a_lower == pytest.approx(0.0, abs=1e-3)


@pytest.mark.published
@pytest.mark.parametrize(
    ("food", "condition", "item", "over"),
    [
        # AGRIBALYSE 3.1.1 synthesis by stage (ADEME 2023), kg CO2e per kg from farm to retail,
        # codes 20047_1-3, 13014_1-3, 20061_1-2, 13025_1-2; the consumption stage left out.
        ("tomato", "in season", 0.21205 + 0.27356 + 0.01559, 0.31477 + 0.29268 + 0.01559),
        ("tomato", "out of season", 1.55231 + 0.30896 + 0.01559, 0.31477 + 0.29268 + 0.01559),
        ("strawberries", "in season", 0.22239 + 0.23917 + 0.00557, 0.23407 + 0.24691 + 0.00557),
        ("strawberries", "out of season", 0.26544 + 0.26771 + 0.00557, 0.23407 + 0.24691 + 0.00557),
        ("green-beans", "by air", 0.11348 + 6.29605 + 0.02003, 0.11348 + 0.24074 + 0.02003),
        ("tomato", "heated greenhouse", 1.55231 + 0.30896 + 0.01559, 0.31477 + 0.29268 + 0.01559),
        # SU-EATABLE LIFE 2021 (Petersson et al., Sci Data 8:127), medians of items grown in heated
        # greenhouses over those from open fields, kg CO2e per kg.
        ("cucumber", "heated greenhouse", 2.54609375, 0.27),
        ("lettuce", "heated greenhouse", 2.67, 0.41),
        ("pepper-red", "heated greenhouse", 3.725, 0.6535),
        ("strawberries", "heated greenhouse", 2.884587629, 0.61),
        ("mango", "by air", 0.16354 + 10.38206 + 0.01559, 0.16371 + 0.43035 + 0.01559),
    ],
)  # fmt: skip
def test_ratios_are_those_of_the_published_rows(
    food: str, condition: str, item: float, over: float
) -> None:
    (row,) = [row for row in load_tables().seasons[food] if row.condition == condition]
    assert row.ratio == pytest.approx(item / over, rel=2e-4)
