"""From a food to its factor: which set, which item, which deviation."""

from __future__ import annotations

from dataclasses import replace
from math import log

import numpy as np
import pytest

from counterproof.draws import Lognormal, Normal, Streams
from counterproof.footprint.factors import (
    base_link,
    best_link,
    factor_parameter,
    valued,
)
from counterproof.footprint.shapes import Percentiles
from counterproof.rows import Fit, Tables


def test_base_is_the_global_set_for_the_same_food_or_another_form(tiny_tables: Tables) -> None:
    for food in ("onion", "lentils-dried"):
        link = base_link(food, tiny_tables)
        assert link is not None
        assert link.set == "global"


def test_base_is_otherwise_the_best_fit_of_all_sets(tiny_tables: Tables) -> None:
    link = base_link("butter", tiny_tables)
    assert link is not None
    assert (link.set, link.item) == ("national", "Butter")
    expected: dict[Fit, str] = {"relative": "national", "class average": "global"}
    for fit, base in expected.items():
        poor = replace(tiny_tables.links["onion"][0], fit=fit)
        links = {**tiny_tables.links, "onion": (poor, tiny_tables.links["onion"][1])}
        link = base_link("onion", replace(tiny_tables, links=links))
        assert link is not None
        assert link.set == base
    assert base_link("sea-bean", tiny_tables) is None
    assert best_link("butter", "global", tiny_tables) is None


@pytest.mark.published
def test_beef_unspecified_is_the_stated_mixture(tiny_tables: Tables) -> None:
    # Poore & Nemecek 2018, Data S2: beef herd 99.48, dairy herd 33.30, weights 40,571 and
    # 31,425 kt: 70.6 kg CO2e per kg.
    link = base_link("beef-chuck", tiny_tables)
    assert link is not None
    worth = valued(link, tiny_tables, range_for="one-purchase")
    assert worth.mean == pytest.approx(70.6, abs=0.05)
    assert len({part.parameter.key for part in worth.components}) == 2


def test_a_purchase_is_one_part_of_a_mixture_and_the_average_is_their_sum(
    tiny_tables: Tables, streams: Streams
) -> None:
    link = base_link("beef-chuck", tiny_tables)
    assert link is not None
    bought = valued(link, tiny_tables, range_for="one-purchase")
    dairy = bought.components[1].factor
    drawn = bought.draws(streams)
    assert drawn.mean() == pytest.approx(bought.mean, rel=1e-4)
    # Above the highest of the dairy herds (73.9) there are pieces from a beef herd only.
    assert dairy.high is not None
    assert (drawn > dairy.high).mean() == pytest.approx(
        0.5635 * (streams.values(bought.components[0].parameter) > dairy.high).mean(), abs=0.001
    )
    average = valued(link, tiny_tables, range_for="the-average")
    assert average.purchase is None
    assert average.mean == pytest.approx(bought.mean)
    parts = [part.share * streams.values(part.parameter) for part in average.components]
    np.testing.assert_allclose(average.draws(streams), parts[0] + parts[1], rtol=1e-12)


def test_keys_say_what_a_parameter_is(tiny_tables: Tables) -> None:
    row = tiny_tables.factors["global", "Other Pulses"]

    def key(food: str, **options: str) -> str:
        return factor_parameter(row, tiny_tables, food=food, **options).key  # type: ignore[arg-type]

    assert key("lentils-dried", range_for="the-average") == "factor|global|Other Pulses"
    assert key("white-beans-dried", range_for="the-average") == "factor|global|Other Pulses"
    assert (
        key("lentils-dried", range_for="one-purchase")
        == "factor|global|Other Pulses|lentils-dried|home"
    )
    assert (
        key("lentils-dried", range_for="one-purchase", purchase="bought:lentil soup")
        == "factor|global|Other Pulses|lentils-dried|bought:lentil soup"
    )


def test_a_link_below_same_has_its_own_deviation(tiny_tables: Tables) -> None:
    for food, key in (("lentils-dried", "link|lentils-dried"), ("onion", None)):
        link = base_link(food, tiny_tables)
        assert link is not None
        deviation = valued(link, tiny_tables, range_for="the-average").deviation
        assert (None if deviation is None else deviation.key) == key
        if deviation is not None:
            assert deviation.distribution.mean == 1.0


def test_single_values_keep_what_was_published(tiny_tables: Tables) -> None:
    row = tiny_tables.factors["national", "Butter"]

    def distribution(**changes: object) -> object:
        changed = replace(row, **changes)  # type: ignore[arg-type]
        return factor_parameter(
            changed, tiny_tables, range_for="one-purchase", food="butter"
        ).distribution

    assert distribution() == Lognormal(7.786, log(1.3))
    assert distribution(middle="median") == Lognormal.from_median(7.786, 1.3)
    # Without a grade, the dispersion between sets stands in.
    ungraded = distribution(spread=None)
    assert isinstance(ungraded, Lognormal)
    assert ungraded.sigma == pytest.approx(0.46)
    assert distribution(mean=-1.0, spread=1.5) == Normal(-1.0, 0.5)


def test_the_average_counts_studies_never_farms(tiny_tables: Tables) -> None:
    # Poore & Nemecek 2018, Data S2, beef herd: 106 studies, 724 farms, which are clustered. The
    # distribution through its percentiles has a relative standard deviation of 0.70, which makes
    # an error of the mean of 7 % by studies (it would be 3 % by farms).
    row = tiny_tables.factors["global", "Bovine Meat (beef herd)"]
    found = factor_parameter(row, tiny_tables, range_for="the-average", food="beef-chuck")
    assert isinstance(found.distribution, Lognormal)
    assert found.distribution.mean == pytest.approx(99.48)
    within = (found.distribution.sigma**2 - 0.46**2) ** 0.5
    assert within == pytest.approx(0.70 / 106**0.5, abs=0.001)


def test_the_average_of_a_factor_that_may_be_negative_adds_its_errors(tiny_tables: Tables) -> None:
    row = tiny_tables.factors["global", "Nuts"]
    found = factor_parameter(row, tiny_tables, range_for="the-average", food="nuts").distribution
    assert isinstance(found, Normal)
    assert found.mean == pytest.approx(0.43)
    assert found.deviation > 0.5


def test_the_average_of_a_single_value_is_never_better_than_the_sets_agree(
    tiny_tables: Tables,
) -> None:
    row = tiny_tables.factors["national", "Butter"]
    for spread, sigma in ((1.3, 0.46), (2.0, log(2.0))):
        found = factor_parameter(
            replace(row, spread=spread), tiny_tables, range_for="the-average", food="butter"
        )
        assert found.distribution == Lognormal(7.786, sigma)


def test_both_ranges_keep_the_mean(tiny_tables: Tables) -> None:
    for row in tiny_tables.factors.values():
        means = {
            asked: factor_parameter(
                row, tiny_tables, range_for=asked, food="a food"
            ).distribution.mean
            for asked in ("one-purchase", "the-average")
        }
        assert list(means.values()) == pytest.approx([row.mean, row.mean])


def test_stages_of_a_mixture_and_of_what_is_left(tiny_tables: Tables) -> None:
    link = base_link("tomato", tiny_tables)
    assert link is not None
    worth = valued(link, tiny_tables, range_for="one-purchase")
    assert worth.staged
    assert sum(worth.stages) == pytest.approx(2.09)
    assert worth.stages[0] == pytest.approx(2.09 - 0.012 - 0.177 - 0.146 - 0.017)
    beef = base_link("beef-chuck", tiny_tables)
    assert beef is not None
    unstaged = valued(beef, tiny_tables, range_for="one-purchase")
    assert not unstaged.staged
    assert unstaged.stages[0] == pytest.approx(unstaged.mean)


def test_mass_basis_comes_from_the_link(tiny_tables: Tables, streams: Streams) -> None:
    link = base_link("olive-oil", tiny_tables)
    assert link is not None
    worth = valued(link, tiny_tables, range_for="one-purchase")
    assert worth.mean == pytest.approx(5.42 / 0.916)
    assert worth.draws(streams).mean() == pytest.approx(5.42 / 0.916, rel=0.001)
    assert isinstance(worth.components[0].parameter.distribution, Percentiles)


def test_deviation_of_fit_is_that_of_its_class(tiny_tables: Tables) -> None:
    link = best_link("lentils-dried", "national", tiny_tables)
    assert link is not None
    deviation = valued(link, tiny_tables, range_for="one-purchase").deviation
    assert deviation is not None
    logs = np.log(Streams(seed=1).values(deviation))
    assert np.exp(logs.std()) == pytest.approx(1.6, abs=0.01)
