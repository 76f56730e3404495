"""What stills and handout show: likenesses, courses and places agree with the proof."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import isfinite, pi

import pytest

from counterproof.adapters.files import demo_season, episodes, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Streams
from counterproof.footprint.held import Held
from counterproof.picturing import FEW, Pictured, pictured
from counterproof.press.figures import text_of
from counterproof.press.side_by_side import totals_apart
from counterproof.proof import Edition
from counterproof.use_cases import Order, Workbench, assessed, proof_of, versions_beside

EPISODES = [episode.name for episode in episodes(demo_season())]
Made = Callable[[str], tuple[Edition, Pictured, Order]]


@pytest.fixture(scope="module")
def made(bench: Workbench) -> Made:
    """The proof of a demo episode, what is pictured of it, and the order."""
    kept: dict[str, tuple[Edition, Pictured, Order]] = {}

    def worked_out(name: str) -> tuple[Edition, Pictured, Order]:
        if name not in kept:
            recipe, _ = load_recipe(str(demo_season() / "episodes" / name))
            order = Order(recipe, load_kitchen(recipe), name=recipe.title)
            streams, held = Streams(seed=1, n=2000), Held()
            base = assessed(order, bench, streams, held=held)
            beside = versions_beside(base, bench, streams, held)
            edition = proof_of(base, bench, streams, date="2026-11-25", held=held, versions=beside)
            found = pictured(base, edition, beside, bench, streams, held)
            kept[name] = (edition, found, order)
        return kept[name]

    return worked_out


@pytest.mark.parametrize("name", EPISODES)
def test_every_figure_of_a_picture_has_a_derivation_that_leads_to_it(name: str, made: Made) -> None:
    edition, found, _ = made(name)
    whole = {one.key: one for one in (*edition.derivations, *found.derivations)}
    assert len(whole) == len(edition.derivations) + len(found.derivations)
    for one in found.derivations:
        assert one.worked_out == pytest.approx(one.value.mean, rel=1e-9)
        for term in one.terms:
            if term.opens:
                assert whole[term.opens].value == term.value
    for likened in found.likened:
        assert whole[likened.key].value == likened.seen.count
    for course in found.courses:
        for deadline in course.deadlines:
            if deadline.key:
                assert text_of(whole[deadline.key], edition.middle) == deadline.takes
            else:
                assert "never" in deadline.takes


@pytest.mark.published
def test_a_balloon_count_can_be_checked_by_hand(made: Made) -> None:
    # Carbon dioxide at 20 °C and 1 atm: 44.01 g/mol over 24.055 L/mol for an ideal gas is
    # 1.8296 g/L; the real gas is about 0.5 % denser. A ball of 12 inches holds 14.83 L.
    edition, found, _ = made("02-rhubarb-cordial")
    (first, *_) = found.likened
    assert first.seen.kind == "balloon"
    grams = 1000 * edition.serving.mean
    litres = 1000 * pi * 0.3048**3 / 6
    assert first.seen.count.mean == pytest.approx(grams / (1.8296 * litres), rel=0.01)


@pytest.mark.parametrize("name", EPISODES)
def test_only_totals_that_compare_are_pictured_side_by_side(name: str, made: Made) -> None:
    edition, found, _ = made(name)
    assert found.likened
    assert found.likened[0].version == ""
    by_name = {version.name: version for version in edition.versions}
    for other in found.likened[1:]:
        version = by_name[other.version]
        assert version.difference is not None
        assert not totals_apart(version.serving, edition.serving, version.difference)
        ratio = other.seen.count.mean / found.likened[0].seen.count.mean
        assert ratio == pytest.approx(version.serving.mean / edition.serving.mean)


@pytest.mark.property
@pytest.mark.parametrize("name", EPISODES)
def test_a_course_falls_from_the_start_to_the_last_goal(name: str, made: Made) -> None:
    for course in made(name)[1].courses:
        assert list(course.celsius) == sorted(course.celsius, reverse=True)
        assert course.celsius[-1] == pytest.approx(min(one.goal for one in course.deadlines))
        for times in (course.fast, course.middle, course.slow):
            assert times[0] == 0.0
            assert list(times) == sorted(times)
        for fast, middle, slow in zip(course.fast, course.middle, course.slow, strict=True):
            assert fast <= middle <= slow or not isfinite(slow)


@pytest.mark.parametrize("name", ["01-squash-and-bean-stew", "05-pear-oat-crumble"])
def test_a_place_is_the_recipe_cooked_for_so_many(name: str, made: Made, bench: Workbench) -> None:
    edition, found, order = made(name)
    serves = {position.serves for position in found.positions}
    assert serves == {*FEW, edition.serves, 2 * edition.serves}
    place = next(one for one in found.positions if one.serves == 4 and one.version)
    asked = replace(order, serves=4.0, version=place.version)
    afresh = assessed(asked, bench, Streams(seed=1, n=2000), verdicts=False).footprint
    assert place.serving == afresh.serving
    assert place.batch == afresh.batch
