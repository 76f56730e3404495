"""Draws: keyed, stratified, the same bytes whatever else is drawn."""

from __future__ import annotations

import hashlib
from statistics import NormalDist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from counterproof.draws import (
    Blend,
    Lognormal,
    Normal,
    Parameter,
    Product,
    Range,
    Streams,
    Uniform,
    normal_quantile,
    stream,
)
from counterproof.draws.products import percentiles

SPREAD = Lognormal.from_spread(2.0, 0.2)


def test_one_draw_in_each_stratum() -> None:
    drawn = np.sort(stream("factor|global|Onions & Leeks", seed=1, n=1000))
    assert drawn.tolist() == ((np.arange(1000) + 0.5) / 1000).tolist()


@pytest.mark.property
@given(some.text(max_size=40), some.integers(0, 2**63), some.integers(1, 300))
def test_any_key_seed_and_number_fills_the_strata(key: str, seed: int, n: int) -> None:
    drawn = stream(key, seed=seed, n=n)
    assert sorted(drawn.tolist()) == ((np.arange(n) + 0.5) / n).tolist()


def test_ranks_are_those_of_the_raw_words() -> None:
    # Worked the long way round: plain words, plain ranks.
    digest = hashlib.sha256(b"7|a key").digest()
    words = np.random.Philox(key=int.from_bytes(digest[:16], "little")).random_raw(500)
    ranks = np.argsort(np.argsort(words))
    assert stream("a key", seed=7, n=500).tolist() == ((ranks + 0.5) / 500).tolist()


@pytest.mark.frozen
def test_bytes_stay_the_same_from_version_to_version() -> None:
    drawn = stream("link|lentils-dried", seed=1, n=10_000)
    assert (
        hashlib.sha256(drawn.astype("<f8").tobytes()).hexdigest()
        == "9f5a3c63fc431cb7930d194f95097da8da3d0d59ba6b82ecd57a7d17993a0d67"
    )


def test_keys_and_seeds_draw_apart() -> None:
    rows = np.array([stream(f"key {row}", seed=1, n=10_000) for row in range(30)])
    apart = np.corrcoef(rows)[np.triu_indices(30, 1)]
    # Independent permutations: correlations scatter with 1/√n = 0.01; 435 of them stay inside
    # 4.5 standard deviations.
    assert np.abs(apart).max() < 0.045
    assert abs(np.corrcoef(rows[0], stream("key 0", seed=2, n=10_000))[0, 1]) < 0.045


@pytest.mark.published
@pytest.mark.parametrize(
    ("probability", "value"),
    [
        # Wichura (1988), Applied Statistics 37:477–484, check values of PPND16 given with AS 241.
        (0.25, -0.6744897501960817),
        (0.001, -3.090232306167814),
        (1e-20, -9.262340089798408),
    ],
)
def test_normal_quantile_gives_the_check_values_of_as_241(probability: float, value: float) -> None:
    assert normal_quantile(np.array([probability]))[0] == pytest.approx(value, rel=1e-15)


def test_normal_quantile_agrees_with_the_standard_library() -> None:
    wide = np.concatenate(
        [np.logspace(-300, -1, 300), np.linspace(0.001, 0.999, 999), 1 - np.logspace(-15, -1, 50)]
    )
    theirs = np.array([NormalDist().inv_cdf(u) for u in wide.tolist()])
    np.testing.assert_allclose(normal_quantile(wide), theirs, rtol=4e-15, atol=1e-15)


@pytest.mark.parametrize("spread", [0.02, 0.2, 0.5, 1.0])
def test_vagueness_does_not_inflate(spread: float) -> None:
    values = Lognormal.from_spread(3.0, spread).quantile(stream("k", seed=1, n=10_000))
    assert values.mean() == pytest.approx(3.0, rel=4e-4)
    assert values.std() == pytest.approx(3.0 * spread, rel=0.02)


def test_a_published_median_stays_the_median() -> None:
    given_median = Lognormal.from_median(2.0, 1.5)
    assert given_median.quantile(np.array([0.5]))[0] == pytest.approx(2.0, rel=1e-15)
    assert given_median.mean > 2.0


def test_product_multiplies_draws_and_means() -> None:
    streams = Streams(seed=1, n=10_000)
    product = Product(3.0, (Parameter("a", SPREAD), Parameter("b", Uniform(2.0, 3.0))))
    assert product.mean == 3.0 * 2.0 * 2.5
    # Standard deviation of one draw: relative variance (1 + 0.04)(1 + 1/75) − 1.
    assert product.draws(streams).mean() == pytest.approx(15.0, rel=4 * 0.232 / 100)
    expected = 3.0 * streams.values(product.parameters[0]) * streams.values(product.parameters[1])
    np.testing.assert_allclose(product.draws(streams), expected, rtol=1e-15)


def test_blend_takes_each_part_as_often_as_it_is_likely_and_fills_its_strata() -> None:
    which = Blend((0.2, 0.5, 0.3), (Uniform(0, 1), Uniform(10, 20), Uniform(100, 200)))
    drawn = Streams(seed=1, n=1000).values(Parameter("which", which))
    for number, low, high in ((200, 0, 1), (500, 10, 20), (300, 100, 200)):
        part = np.sort(drawn[(low <= drawn) & (drawn <= high)])
        expected = low + (high - low) * (np.arange(number) + 0.5) / number
        np.testing.assert_allclose(part, expected, rtol=1e-9)
    assert which.mean == pytest.approx(0.2 * 0.5 + 0.5 * 15 + 0.3 * 150)
    assert drawn.mean() == pytest.approx(which.mean, rel=1e-9)


def test_normal_has_its_mean_and_deviation() -> None:
    drawn = Normal(-2.0, 3.0).quantile(stream("k", seed=1, n=10_000))
    assert drawn.mean() == pytest.approx(-2.0, abs=1e-9)
    assert drawn.std() == pytest.approx(3.0, rel=0.001)


def test_product_without_parameters_is_its_scale() -> None:
    assert Product(0.4).mean == 0.4
    assert Product(0.4).draws(Streams(seed=1, n=5)).tolist() == [0.4] * 5


@pytest.mark.property
@given(some.integers(-20, 20))
def test_scaling_by_a_power_of_two_is_exact(power: int) -> None:
    streams = Streams(seed=1, n=100)
    product = Product(0.3, (Parameter("a", SPREAD),))
    scaled = product.scaled(2.0**power)
    assert scaled.mean == product.mean * 2.0**power
    assert scaled.draws(streams).tolist() == (product.draws(streams) * 2.0**power).tolist()


def test_the_same_key_twice_is_refused() -> None:
    with pytest.raises(ValueError, match="names a twice"):
        Product(1.0, (Parameter("a", SPREAD),)).times(Parameter("a", Uniform(0.0, 1.0)))


def test_what_is_held_changes_no_digit() -> None:
    parameters = [Parameter(f"key {row}", SPREAD) for row in range(20)]
    roomy, narrow = Streams(seed=3, n=200), Streams(seed=3, n=200, most=3)
    forwards = [roomy.values(parameter).tolist() for parameter in parameters]
    backwards = [narrow.values(parameter).tolist() for parameter in reversed(parameters)]
    assert forwards == backwards[::-1]
    assert len(narrow) == 3


def test_what_draws_told_is_held_and_changes_no_digit() -> None:
    parameter, streams = Parameter("a", SPREAD), Streams(seed=3, n=200)
    told = [streams.variance(parameter) for _ in range(2)]
    assert told == [float(Streams(seed=3, n=200).values(parameter).var())] * 2
    wider = Parameter("a", Lognormal.from_spread(1.0, 0.9))
    assert streams.variance(wider) > told[0]  # by key and distribution, never by key alone
    asked: list[str] = []
    for _ in range(2):
        streams.once(("range", "b"), lambda: asked.append("b") or Range(1.0, 1.0, 1.0, 1.0))  # type: ignore[func-returns-value]
    assert asked == ["b"]


def test_longest_unused_is_forgotten_first() -> None:
    streams = Streams(seed=1, n=10, most=2)
    first = streams.uniforms("a")
    streams.uniforms("b")
    assert streams.uniforms("a") is first
    streams.uniforms("c")
    assert streams.uniforms("a") is first


def test_shared_arrays_cannot_be_written() -> None:
    with pytest.raises(ValueError, match="read-only"):
        Streams(seed=1, n=10).uniforms("a")[0] = 0.5


def test_range_of_draws() -> None:
    found = Range.of(np.arange(101.0))
    assert found == Range(50.0, 5.0, 50.0, 95.0)
    assert Range.of(np.arange(101.0), mean=49.0).to_dict() == {
        "mean": 49.0,
        "p05": 5.0,
        "p50": 50.0,
        "p95": 95.0,
    }
    assert found.scaled(2.0) == Range(100.0, 10.0, 100.0, 190.0)


def test_ranges_of_rows_are_those_of_each_row() -> None:
    rows = np.array([stream(f"row {row}", seed=1, n=333) ** (row + 1) for row in range(4)])
    assert Range.of_rows(rows) == [Range.of(row) for row in rows]


@pytest.mark.property
@given(some.integers(1, 40), some.integers(0, 99))
def test_percentiles_are_the_array_librarys_to_the_bit(n: int, seed: int) -> None:
    rows = np.random.default_rng(seed).lognormal(size=(3, n))
    expected = np.percentile(rows, (5, 50, 95), axis=1).tolist()
    assert percentiles(rows) == expected
