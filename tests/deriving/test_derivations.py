"""Every number of a proof has a derivation, and its terms lead to it."""

from __future__ import annotations

from dataclasses import replace
from math import isclose
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from counterproof.adapters.files import demo_season, episodes, load_recipe, read_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.deriving.terms import of_product, range_of
from counterproof.draws import Lognormal, Parameter, Product, Range, Streams, Uniform
from counterproof.footprint.factors import RangeFor
from counterproof.proof import Derivation, Edition
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.prices_file import read_prices
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, proof

EPISODES = [episode.name for episode in episodes(demo_season())]
WRITTEN = sorted((Path(__file__).parents[1] / "recipe" / "written").iterdir())
NOT_TOLD = "the amount of the whole batch"
"""What stands where the factors of an amount were not kept."""


def demo(name: str, bench: Workbench, streams: Streams) -> Edition:
    recipe, version = load_recipe(str(demo_season() / "episodes" / name))
    order = Order(recipe, load_kitchen(recipe), version, name=recipe.title)
    return proof(order, bench, streams, date="2026-11-25")


def by_key(edition: Edition) -> dict[str, Derivation]:
    return {derivation.key: derivation for derivation in edition.derivations}


def hold(edition: Edition) -> None:
    """Terms lead to their number; what they open is there, of the same value; keys are unique."""
    found = by_key(edition)
    assert len(found) == len(edition.derivations)
    for derivation in edition.derivations:
        assert isclose(derivation.worked_out, derivation.value.mean, rel_tol=1e-9, abs_tol=1e-12), (
            derivation
        )
        for term in derivation.terms:
            if term.opens:
                opened = found[term.opens]
                whole = not opened.key.startswith(("line:", "step:")) or ":" in term.opens
                assert whole
                if not derivation.key.startswith("stage:"):
                    assert opened.value == term.value, (derivation.key, term)


@pytest.mark.property
@pytest.mark.parametrize("name", EPISODES)
def test_the_terms_of_every_number_lead_to_it(
    name: str, bench: Workbench, streams: Streams
) -> None:
    hold(demo(name, bench, streams))


@pytest.mark.property
@pytest.mark.parametrize("file", WRITTEN, ids=lambda file: file.name)
def test_the_terms_lead_to_their_number_in_recipes_of_every_kind(
    file: Path, bench: Workbench
) -> None:
    recipe = read_recipe(file.read_bytes(), file.name)
    hold(proof(Order(recipe, Kitchen()), bench, Streams(seed=1, n=500), beside=False))


AMOUNTS = st.sampled_from(
    [
        "400 g", "2 x 400 g tins of", "1 1/2 cups", "2-3 tbsp", "3", "a handful of", "2 large",
        "½ tsp", "12 oz", "1 pinch of", "2 cm piece of", "1 heaped tbsp", "300 ml", "",
        "4 (150 g each)", "1 bunch of", "1 lb",
    ]
)  # fmt: skip
FOODS = st.sampled_from(
    [
        "white beans", "onions", "olive oil", "rice", "carrots", "ginger", "flour", "parsley",
        "tinned tomatoes", "chicken breasts", "milk", "salt and pepper", "lemons, juice of",
        "prawns", "water", "eggs", "beef", "sugar", "tomatoes, in season", "almonds in glass jars",
        "green beans, flown in", "cheddar, loose",
    ]
)  # fmt: skip


@pytest.mark.property
def test_any_lines_are_worked_out_term_by_term(bench: Workbench) -> None:
    @settings(max_examples=40)
    @given(
        lines=st.lists(st.tuples(AMOUNTS, FOODS), min_size=1, max_size=4, unique=True),
        serves=st.sampled_from([None, 1.0, 6.0, 7.5]),
        range_for=st.sampled_from(["one-purchase", "the-average"]),
    )
    def worked_out(lines: list[tuple[str, str]], serves: float | None, range_for: RangeFor) -> None:
        bullets = "".join(f"- {amount} {food}\n" for amount, food in lines)
        text = (
            f"# Dish\n\nServes 4\n\n{bullets}\n## Method\n\n1. Fry the onions for 5 minutes.\n"
            "2. Simmer for 20 minutes, then bake at 180 °C for 30 minutes.\n"
        )
        kitchen = replace(Kitchen(), range_for=range_for)
        order = Order(read_text(text), kitchen, serves=serves)
        edition = proof(order, bench, Streams(seed=1, n=200), beside=False)
        hold(edition)
        told = [(one.key, term.says) for one in edition.derivations for term in one.terms]
        assert not [key for key, says in told if says == NOT_TOLD]

    worked_out()


@pytest.mark.parametrize("name", EPISODES)
def test_every_number_shown_has_a_derivation_of_the_same_value(
    name: str, bench: Workbench, streams: Streams
) -> None:
    edition = demo(name, bench, streams)
    found = by_key(edition)
    shown: dict[str, Range | None] = {"serving": edition.serving, "batch": edition.batch}
    shown |= {f"stage:{stage}": value for stage, value in edition.stages}
    for line in edition.lines:
        shown |= {f"mass:{line.number}": line.mass_kg, f"line:{line.number}": line.kgco2e}
    for step in edition.steps:
        shown |= {f"kwh:{step.number}": step.kwh, f"step:{step.number}": step.kgco2e}
    for version in edition.versions[1:]:
        shown |= {f"serving:{version.name}": version.serving}
        shown |= {f"version:{version.name}": version.difference}
    if edition.cost is not None:
        shown["cost"] = edition.cost.per_serving
    for key, value in shown.items():
        if value is not None:
            assert found[key].value == value, key
    plain = {f"per:{unit}": value for unit, value in edition.per.items()}
    plain |= {f"nutrition:{what}": value for what, value in edition.nutrition.items()}
    for version in edition.versions[1:]:
        plain |= {f"ratio:{version.name}": version.ratio}
        plain |= {f"share:{version.name}": version.share_lower}
    for key, mean in plain.items():
        if mean is not None:
            assert found[key].value.mean == pytest.approx(mean, rel=1e-12), key


@pytest.mark.parametrize("name", EPISODES)
def test_what_stands_apart_is_derived_in_groups_and_one_by_one(
    name: str, bench: Workbench, streams: Streams
) -> None:
    edition = demo(name, bench, streams)
    found = by_key(edition)
    for part in edition.apart:
        assert found[f"apart:{part.what}"].value == part.kgco2e
    activities = [one for one in edition.derivations if one.key.startswith("activity:")]
    assert {one.value for one in activities} == {part.kgco2e for part in edition.activities}
    assert len(activities) == len(edition.activities)


@pytest.mark.parametrize("name", EPISODES)
def test_every_figure_of_a_table_names_its_source_and_every_source_is_listed(
    name: str, bench: Workbench, streams: Streams
) -> None:
    edition = demo(name, bench, streams)
    listed = {source.id for source in edition.sources}
    ours = {"", "assumed", "derived", "exact", "common practice"}
    for derivation in edition.derivations:
        for term in derivation.terms:
            assert term.source in ours or term.source in listed, (derivation.key, term)
            assert term.says
        assert not [term for term in derivation.terms if term.says == NOT_TOLD], derivation.key


def test_a_short_number_is_the_place_of_a_derivation(bench: Workbench, streams: Streams) -> None:
    edition = demo(EPISODES[0], bench, streams)
    assert edition.number_of("serving") == 1
    assert edition.number_of("batch") == 2
    for number, derivation in enumerate(edition.derivations, start=1):
        assert edition.number_of(derivation.key) == number
    assert edition.number_of("line:99") is None


def test_a_line_is_worked_out_as_on_paper(bench: Workbench) -> None:
    """Worked by hand from the table's own rows, for one line of a batch for four.

    0.4 kg of beef as bought, edible share 1, over 4 servings, times the mixture's mean:
    0.5635 × 99.48 + 0.4365 × 33.3 = 70.59 kg CO2e/kg (Poore & Nemecek 2018, Data S2),
    so 0.1 kg × 70.59 = 7.06 kg CO2e.
    """
    order = Order(read_text("# Dish\n\nServes 4\n\n- 400 g beef\n"), Kitchen())
    edition = proof(order, bench, Streams(seed=1, n=500), beside=False)
    line = by_key(edition)["line:1"]
    told = [(term.does, round(term.value.mean, 3)) for term in line.terms if term.value]
    assert told[:3] == [("+", 0.4), ("÷", 4.0), ("×", pytest.approx(70.59, abs=0.06))]
    assert line.worked_out == pytest.approx(7.06, abs=0.01)
    assert [(term.does, term.says) for term in line.terms[3:5]] == [
        ("", "56\N{NO-BREAK SPACE}% Bovine Meat (beef herd)"),
        ("", "44\N{NO-BREAK SPACE}% Bovine Meat (dairy herd)"),
    ]
    mass = by_key(edition)["mass:1"]
    assert [(term.does, term.unit) for term in mass.terms] == [("+", "g"), ("×", "kg"), ("×", "")]


def test_a_cost_is_the_sum_of_what_has_a_price(bench: Workbench) -> None:
    # By hand: 400 g of beef bought at 10 a kilogram for four servings is 1.00 a serving.
    rows = "- {food: beef chuck, price: 5.00, pack: 500 g, date: 2026-11-14}"
    prices = read_prices(f"currency: £\nprices:\n  {rows}\n", "prices.yaml")
    text = "# Dish\n\nServes 4\n\n- 400 g beef chuck\n- 100 g carrots\n"
    order = Order(read_text(text), Kitchen(), prices=prices)
    edition = proof(order, bench, Streams(seed=1, n=500), beside=False)
    hold(edition)
    cost = by_key(edition)["cost"]
    assert cost.unit == "£"
    (added,) = [term for term in cost.terms if term.does]
    assert added.value is not None
    assert added.value.mean == pytest.approx(1.0)
    assert [term.says for term in cost.terms if not term.does] == ["carrot: no price is known"]


def test_what_is_not_counted_is_told_under_the_serving(bench: Workbench) -> None:
    text = "# Dish\n\nServes 2\n\n- 200 g lentils\n- 3 spoons of moon dust\n"
    edition = proof(Order(read_text(text), Kitchen()), bench, Streams(seed=1, n=200))
    told = [term.says for term in by_key(edition)["serving"].terms if not term.does]
    assert told == ["“3 spoons of moon dust” is not counted"]


def test_a_version_compared_in_another_set_says_in_which(
    bench: Workbench, streams: Streams
) -> None:
    found = by_key(demo("02-rhubarb-cordial", bench, streams))
    how, theirs, ours = found["version:honey"].terms
    assert how.says == "what differs is valued in one set: national"
    assert theirs.opens == "serving:honey"
    assert not ours.opens  # as written it is another number in that set
    assert found["share:honey"].terms[-1].value == Range(10_000, 10_000, 10_000, 10_000)


@pytest.mark.property
@given(
    mean=st.floats(1e-3, 1e3),
    sigmas=st.lists(st.floats(0.01, 1.0), min_size=1, max_size=3),
)
def test_a_product_of_lognormals_has_the_ends_that_draws_have(
    mean: float, sigmas: list[float]
) -> None:
    product = Product(
        mean, tuple(Parameter(f"a|{at}", Lognormal(1.0, one)) for at, one in enumerate(sigmas))
    )
    told = of_product(product)
    assert told is not None
    draws = product.draws(Streams(seed=3, n=20_000))
    low, middle, high = np.percentile(draws, (5, 50, 95)).tolist()
    assert told.mean == pytest.approx(mean)
    assert told.p05 == pytest.approx(low, rel=0.06)
    assert told.p50 == pytest.approx(middle, rel=0.04)
    assert told.p95 == pytest.approx(high, rel=0.06)


@pytest.mark.published
def test_the_ends_of_a_lognormal_are_those_of_the_normal_tables() -> None:
    # NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: Φ(1.645) = 0.95002.
    told = range_of(Lognormal(np.exp(0.5).item(), 1.0))  # median 1, log deviation 1
    assert told.p50 == pytest.approx(1.0)
    assert np.log(told.p95) == pytest.approx(1.645, abs=5e-4)
    assert np.log(told.p05) == pytest.approx(-1.645, abs=5e-4)


def test_parameters_of_several_shapes_are_left_to_the_draws() -> None:
    parts = (Parameter("a", Lognormal(1.0, 0.1)), Parameter("b", Uniform(0.5, 1.5)))
    assert of_product(Product(2.0, parts)) is None
    assert of_product(Product(2.0)) == Range(2.0, 2.0, 2.0, 2.0)
    assert of_product(Product(2.0, parts[1:])) == Range(2.0, 1.1, 2.0, 2.9)


def test_the_json_form_leaves_out_what_is_empty(bench: Workbench, streams: Streams) -> None:
    edition = demo(EPISODES[0], bench, streams)
    told = edition.derivations[0].to_dict()
    assert set(told) == {"key", "name", "value", "unit", "terms"}
    for term in told["terms"]:
        assert "" not in term.values()
        assert None not in term.values()
