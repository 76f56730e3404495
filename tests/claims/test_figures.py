"""Figures: paired arithmetic, digits, words for ratios, parts that add up, likelihood terms."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.claims.figure import Figure
from counterproof.claims.likelihood import ShareTrue, likelihood
from counterproof.claims.saying import ratio_words, said, shown_parts
from counterproof.draws import Lognormal, Normal, Parameter, Range, Streams, Uniform

N = 2000
STREAMS = Streams(seed=5, n=N)


def figure(key: str, mean: float, spread: float, unit: str = "kg CO2e") -> Figure:
    draws = STREAMS.values(Parameter(key, Lognormal.from_spread(mean, spread)))
    return Figure(draws, mean, unit)  # type: ignore[arg-type]


@pytest.mark.property
@given(st.floats(0.01, 50), st.floats(0.01, 1.5))
@settings(max_examples=25, deadline=None)
def test_a_figure_less_itself_is_exactly_nothing_and_over_itself_exactly_one(
    mean: float, spread: float
) -> None:
    one = figure("a", mean, spread)
    nothing = one.minus(one)
    assert not nothing.draws.any()
    assert nothing.mean == 0
    ratio = one.over(one)
    assert ratio is not None
    assert (ratio.draws == 1).all()
    assert ratio.mean == 1


@pytest.mark.property
def test_twice_a_figure_is_it_and_itself_again() -> None:
    one = figure("a", 0.5, 0.4)
    assert (one.plus(one).draws == one.times(2).draws).all()


def test_units_are_not_mixed() -> None:
    with pytest.raises(ValueError, match="cannot be added"):
        figure("a", 1, 0.1).plus(figure("b", 1, 0.1, "kg"))


def test_no_ratio_over_what_may_be_nothing() -> None:
    below = Figure(np.linspace(-1, 9, N), 4.0, "kg CO2e")
    assert figure("a", 1, 0.1).over(below) is None


@pytest.mark.published
@pytest.mark.parametrize(
    ("mean", "uncertainty", "words"),
    [
        # JCGM 100:2008, 7.2.6: y = 10.057 62 ohm with u = 27 mohm is rounded to 10.058 ohm; we
        # keep three digits of a value at most, so it is said with fewer, never with more.
        (10.05762, 0.027, "10.1 kg CO₂e"),
        # The same rule, one digit of u: 100.02147 g with u = 0.35 mg (7.2.2) keeps no more than
        # our three digits allow.
        (0.10002147, 0.0000035, "100 g CO₂e"),
        # u = 0.12 on 0.5456: two digits of u reach to hundredths.
        (0.5456, 0.12, "550 g CO₂e"),
        # u = 0.36 on 7.53: one digit of u, tenths.
        (7.533, 0.36, "7.5 kg CO₂e"),
    ],
)
def test_digits_follow_the_uncertainty(mean: float, uncertainty: float, words: str) -> None:
    draws = mean + uncertainty * STREAMS.values(Parameter("z", Normal(0.0, 1.0)))
    told = said(Figure(draws, mean, "kg CO2e")).words
    assert told.replace("\N{NO-BREAK SPACE}", " ") == words


@pytest.mark.published
def test_the_additive_model_of_jcgm_101() -> None:
    """JCGM 101:2008, 9.2.2: four standard normal inputs: y = 0, u = 2.0, 95 % within ±3.92.

    9.2.3: four rectangular inputs of the same mean and deviation: 95 % within ±3.88.
    At 10⁶ draws within half a unit of the second digit of u (0.05); at 10⁴ draws the standard
    error of u is 2/√(2·10⁴) = 0.014.
    """
    many = Streams(seed=1, n=1_000_000, most=8)
    root = 3.0**0.5
    for kind, limit in ((Normal(0, 1), 3.92), (Uniform(-root, root), 3.88)):
        total = sum(
            (many.values(Parameter(f"x{at}", kind)) for at in range(4)), np.zeros(1_000_000)
        )
        assert abs(total.mean()) < 0.05
        assert total.std() == pytest.approx(2.0, abs=0.05)
        low, high = np.quantile(total, (0.025, 0.975))
        assert low == pytest.approx(-limit, abs=0.05)
        assert high == pytest.approx(limit, abs=0.05)


@pytest.mark.published
def test_the_mass_calibration_of_jcgm_101() -> None:
    # JCGM 101:2008, 9.3, table 6: Monte Carlo gives δm = 1.234 mg and u = 0.0754 mg; the values
    # are from memory.
    many = Streams(seed=1, n=1_000_000, most=8)

    def drawn(
        key: str, kind: Normal | Uniform
    ) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        return many.values(Parameter(key, kind))

    reference = drawn("m_Rc", Normal(100_000.000, 0.050))  # mg
    added = drawn("dm_Rc", Normal(1.234, 0.020))
    air = drawn("rho_a", Uniform(1.10, 1.30))  # kg/m³
    weight = drawn("rho_W", Uniform(7000.0, 9000.0))
    standard = drawn("rho_R", Uniform(7950.0, 8050.0))
    found = (reference + added) * (1 + (air - 1.2) * (1 / weight - 1 / standard)) - 100_000.0
    assert found.mean() == pytest.approx(1.234, abs=0.0005)
    assert found.std() == pytest.approx(0.0754, abs=0.0005)


@pytest.mark.parametrize(
    ("low", "middle", "high", "words"),
    [
        (4.2, 5.0, 6.0, "about five times"),
        (4.1, 5.2, 6.9, "four to seven times"),
        (3.9, 13.8, 45.0, "more, by an uncertain factor of at least three"),
        (1.2, 3.0, 9.0, "more, by an uncertain factor"),
        (0.5, 1.1, 3.0, "more or less, it could be either"),
        (0.95, 1.0, 1.06, "about the same"),
        (0.21, 0.25, 0.3, "about a quarter of it"),
        (0.05, 0.2, 0.45, "less, by an uncertain factor, at most half"),
        (-1.0, 2.0, 5.0, "no fixed multiple"),
        (2.2, 2.5, 2.8, "about two and a half times"),
    ],
)
def test_a_ratio_is_worded_only_as_far_as_its_interval_allows(
    low: float, middle: float, high: float, words: str
) -> None:
    assert ratio_words(Range(middle, low, middle, high)) == words


@pytest.mark.property
@given(st.lists(st.floats(0, 5000), min_size=1, max_size=9), st.integers(-1, 2))
@settings(max_examples=200, deadline=None)
def test_parts_shown_add_up_to_the_total_shown(parts: list[float], decimals: int) -> None:
    shown = [float(text) for text in shown_parts(parts, decimals)]
    assert sum(shown) == pytest.approx(
        round(sum(parts) * 10.0**decimals) / 10.0**decimals, abs=1e-6
    )
    for part, told in zip(parts, shown, strict=True):
        assert abs(told - part) <= 10.0**-decimals + 1e-6


@pytest.mark.parametrize(
    ("value", "unit", "system", "words"),
    [
        (0.545, "kg", "metric", "545 g"),
        (0.545, "kg", "us", "1.2 lb"),
        (7.0, "L", "metric", "7 litres"),
        (0.25, "L", "metric", "250 ml"),
        (5400, "s", "metric", "1.5 hours"),
        (1200, "s", "metric", "20 minutes"),
    ],
)
def test_units_are_those_people_read(value: float, unit: str, system: str, words: str) -> None:
    told = said(Figure.exact(value, unit, 10), system=system).words  # type: ignore[arg-type]
    assert told.replace("\N{NO-BREAK SPACE}", " ") == words


@pytest.mark.published
@pytest.mark.parametrize(
    ("share", "term"),
    [
        # Mastrandrea et al. (2010), table 1, both sides of every border.
        (1.0, "virtually certain"),
        (0.99, "virtually certain"),
        (0.9899, "very likely"),
        (0.90, "very likely"),
        (0.8999, "likely"),
        (0.66, "likely"),
        (0.6599, "about as likely as not"),
        (0.33, "about as likely as not"),
        (0.3299, "unlikely"),
        (0.1001, "unlikely"),
        (0.10, "very unlikely"),
        (0.0101, "very unlikely"),
        (0.01, "exceptionally unlikely"),
        (0.0, "exceptionally unlikely"),
    ],
)
def test_terms_are_those_of_the_guidance_note(share: float, term: str) -> None:
    assert likelihood(share) == term


@pytest.mark.property
@given(st.floats(0, 1), st.floats(0, 1))
def test_what_is_decided_on_rises_with_the_share(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert ShareTrue(low, 10_000).decided_on <= ShareTrue(high, 10_000).decided_on + 1e-12 or (
        # Within two standard errors of either end the margin itself moves.
        high > 0.999
    )


def test_a_share_on_the_border_is_not_kept() -> None:
    # 2 standard errors of 0.90 at 10,000 draws are 0.006.
    assert not ShareTrue(0.905, 10_000).kept()
    assert ShareTrue(0.907, 10_000).kept()
