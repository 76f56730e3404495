"""Distributions through published percentiles, held against the published means."""

from __future__ import annotations

from dataclasses import replace
from math import log

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from counterproof.adapters.tables import load_tables
from counterproof.draws import Streams
from counterproof.errors import TableError
from counterproof.footprint.factors import factor_parameter
from counterproof.footprint.shapes import Percentiles, published_points, solved_shape
from counterproof.rows import Factor, Provenance, Tables


@pytest.fixture(scope="module")
def tables() -> Tables:
    return load_tables()


@pytest.fixture(scope="module")
def classes(tables: Tables) -> list[Factor]:
    """Return the product classes of the global set, which have percentiles."""
    return [row for row in tables.factors.values() if published_points(row) is not None]


@pytest.mark.published
@pytest.mark.parametrize("seed", [1, 2, 3, 4, 5])
def test_all_products_give_their_published_mean_and_percentiles(
    tables: Tables, classes: list[Factor], seed: int
) -> None:
    # Poore & Nemecek 2018, Science 360:987–992, Data S2, "Results - Retail Weight": 43 products.
    # The mean within the two decimals printed; the 5th, 50th, 95th percentile within 2 % or half
    # a printed digit.
    streams = Streams(seed=seed, n=10_000)
    assert len(classes) == 43
    for row in classes:
        parameter = factor_parameter(row, tables, range_for="one-purchase", food="a food")
        drawn = streams.values(parameter)
        assert drawn.mean() == pytest.approx(row.mean, abs=0.005), row.item
        assert parameter.distribution.mean == pytest.approx(row.mean, rel=1e-12), row.item
        found = np.percentile(drawn, (5, 50, 95))
        for value, printed in zip(found, (row.p05, row.p50, row.p95), strict=True):
            assert printed is not None
            assert value == pytest.approx(printed, rel=0.02, abs=0.005), row.item


def test_stored_shapes_are_those_the_solver_gives(tables: Tables, classes: list[Factor]) -> None:
    solved = {(row.set, row.item): solved_shape(row) for row in classes}
    wanted = "\n".join(f"{key[0]},{key[1]},{a!r},{b!r}" for key, (a, b) in sorted(solved.items()))
    assert solved.keys() == tables.shapes.keys(), f"factor_shapes.csv should hold:\n{wanted}"
    for shape in tables.shapes.values():
        assert solved[shape.set, shape.item] == pytest.approx(
            (shape.tails, shape.body), rel=1e-9
        ), f"factor_shapes.csv should hold:\n{wanted}"


def test_tails_are_bent_before_the_body(tables: Tables) -> None:
    # Bread: tails alone give the mean, so that the 75th percentile stays where a straight body
    # puts it, between the median 1.27 and the 90th percentile 2.31.
    shape = tables.shapes["global", "Wheat & Rye (Bread)"]
    assert shape.body == 1.0
    row = tables.factors["global", "Wheat & Rye (Bread)"]
    points = published_points(row)
    assert points is not None
    quarter = Percentiles(*points, shape.tails, shape.body).quantile(np.array([0.75]))
    assert quarter[0] == pytest.approx(1.27 + (2.31 - 1.27) * 0.25 / 0.4)


def test_straight_joins_would_miss_the_mean(tables: Tables) -> None:
    # Why the tails are bent at all: joined straight, the published extremes weigh far too much.
    for item, miss in (("Maize (Meal)", 0.87), ("Nuts", -0.44), ("Wheat & Rye (Bread)", 0.79)):
        row = tables.factors["global", item]
        points = published_points(row)
        assert points is not None
        assert Percentiles(*points).mean / row.mean - 1 == pytest.approx(miss, abs=0.01)


def test_extremes_inside_the_percentiles_are_clamped(classes: list[Factor]) -> None:
    inside = 0
    for row in classes:
        assert row.low is not None
        assert row.high is not None
        assert row.p05 is not None
        assert row.p95 is not None
        points = published_points(row)
        assert points is not None
        assert points[1][0] == min(row.low, row.p05)
        assert points[1][-1] == max(row.high, row.p95)
        inside += row.low > row.p05 or row.high < row.p95
    assert inside == 13


def test_negative_percentiles_are_carried(tables: Tables, streams: Streams) -> None:
    row = tables.factors["global", "Nuts"]
    drawn = streams.values(factor_parameter(row, tables, range_for="one-purchase", food="nuts"))
    assert (drawn < 0).mean() > 0.5


@pytest.mark.property
@given(
    some.lists(some.floats(-100, 100), min_size=7, max_size=7).map(sorted),
    some.floats(-5, 5),
    some.floats(-3, 3),
)
def test_mean_in_closed_form_is_that_of_the_quantiles(
    values: list[float], tails: float, body: float
) -> None:
    shape = Percentiles(
        (0, 0.05, 0.1, 0.5, 0.9, 0.95, 1), tuple(values), np.exp(tails), np.exp(body)
    )
    fine = shape.quantile((np.arange(200_000) + 0.5) / 200_000)
    width = max(1.0, values[-1] - values[0])
    assert shape.mean == pytest.approx(fine.mean(), abs=1e-5 * width)
    assert (np.diff(fine) >= -1e-9 * width).all()


@pytest.mark.property
@given(
    some.lists(some.floats(0.01, 100), min_size=7, max_size=7, unique=True).map(sorted),
    some.floats(0.05, 0.95),
)
def test_any_mean_within_reach_is_met(values: list[float], part: float) -> None:
    probabilities = (0, 0.05, 0.1, 0.5, 0.9, 0.95, 1)
    lowest = Percentiles(probabilities, tuple(values), 200.0, 50.0).mean
    highest = Percentiles(probabilities, tuple(values), 1 / 200.0, 1 / 50.0).mean
    wanted = lowest + part * (highest - lowest)
    low, p05, p10, p50, p90, p95, high = values
    row = Factor(
        "global", "Thing", "kg", "", wanted, p05, p10, p50, p90, p95, low, high, 1, 1, None,
        "mean", "", "", Provenance("", "", "assumed", "made for a test"),
    )  # fmt: skip
    tails, body = solved_shape(row)
    assert Percentiles(probabilities, tuple(values), tails, body).mean == pytest.approx(wanted)
    assert body == 1.0 or abs(log(tails)) == pytest.approx(log(200.0))


def test_a_mean_out_of_reach_is_an_error_with_a_remedy(tables: Tables) -> None:
    row = replace(tables.factors["global", "Apples"], mean=3.0)
    with pytest.raises(TableError, match="no distribution through its percentiles") as caught:
        solved_shape(row)
    assert "Correct its percentiles" in str(caught.value)


def test_falling_percentiles_are_an_error(tables: Tables) -> None:
    row = replace(tables.factors["global", "Apples"], p10=0.1)
    with pytest.raises(TableError, match="percentiles that fall"):
        solved_shape(row)


def test_missing_percentiles_are_an_error(tables: Tables) -> None:
    row = replace(tables.factors["global", "Apples"], p50=None)
    with pytest.raises(TableError, match="has no 5th, 50th and 95th percentile"):
        solved_shape(row)
