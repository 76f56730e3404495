"""The whole way, on the demo season and on texts of our own."""

from __future__ import annotations

import re
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from counterproof.adapters.files import demo_season, episodes, load_recipe, read_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Streams
from counterproof.errors import CounterproofError, UnknownVersion
from counterproof.press.sheet import sheet
from counterproof.proof import Edition
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, assessed, compared, mark, proof

WRITTEN = Path(__file__).parent / "recipe" / "written"
EPISODES = [episode.name for episode in episodes(demo_season())]


def demo(name: str) -> Order:
    recipe, version = load_recipe(str(demo_season() / "episodes" / name))
    return Order(recipe, load_kitchen(recipe), version, name=recipe.title)


@pytest.mark.parametrize("name", EPISODES)
def test_every_demo_episode_becomes_a_page(name: str, bench: Workbench, streams: Streams) -> None:
    edition = proof(demo(name), bench, streams, date="2026-11-25")
    assert edition.coverage_mass > 0.95
    assert edition.serving.p05 < edition.serving.mean < edition.serving.p95
    page = sheet(edition)
    for line in edition.lines:
        assert line.as_written.split()[0] in page


@pytest.mark.parametrize("file", sorted(WRITTEN.iterdir()), ids=lambda file: file.name)
def test_every_recipe_of_our_own_is_worked_out_with_no_line_dropped(
    file: Path, bench: Workbench, streams: Streams
) -> None:
    recipe = read_recipe(file.read_bytes(), file.name)
    found = assessed(Order(recipe, Kitchen()), bench, streams)
    assert [line.written for line in found.reading.lines] == list(recipe.lines)
    counted = {item.item.number for item in found.footprint.items if item.item.kind == "line"}
    missing = {line.number for line in found.footprint.uncounted}
    assert counted | missing == {line.number for line in recipe.lines}
    for line in found.reading.lines:
        if line.mass is None:
            assert any(one.level in {"doubt", "fault"} for one in line.marks), line.written.text


def test_the_parts_of_a_proof_add_up_to_its_total(bench: Workbench, streams: Streams) -> None:
    edition = proof(demo(EPISODES[0]), bench, streams)
    lines = sum(line.kgco2e.mean for line in edition.lines if line.kgco2e)
    steps = sum(step.kgco2e.mean for step in edition.steps if step.kgco2e)
    others = sum(activity.kgco2e.mean for activity in edition.activities)
    assert lines + steps + others == pytest.approx(edition.serving.mean, rel=1e-9)
    stages = sum(value.mean for _, value in edition.stages)
    assert stages == pytest.approx(edition.serving.mean, rel=1e-9)
    eaten = 0.95 * edition.serves  # the stew's front matter: one in twenty is not
    assert edition.batch.mean == pytest.approx(eaten * edition.serving.mean, rel=1e-12)


def test_versions_stand_beside_the_recipe_on_shared_draws(
    bench: Workbench, streams: Streams
) -> None:
    edition = proof(demo(EPISODES[0]), bench, streams)
    written, chicken, beef = edition.versions
    assert (written.name, chicken.name, beef.name) == ("as written", "chicken", "beef")
    assert beef.difference is not None
    assert chicken.difference is not None
    assert beef.difference.mean > chicken.difference.mean > 0
    assert beef.share_lower == 0.0


def test_a_version_changes_the_kitchen_it_is_cooked_in(bench: Workbench) -> None:
    text = (
        "---\nversions:\n  on-gas: {kitchen: {hob: gas}}\n---\n"
        "# Soup\n\nServes 2\n\n- 2 leeks\n- 1 litre water\n\n1. Simmer for 30 minutes.\n"
    )
    order = Order(read_text(text), Kitchen(hob="induction"))
    assert mark(order, bench).kitchen.hob == "induction"
    assert mark(replace(order, version="on-gas"), bench).kitchen.hob == "gas"


def test_an_unknown_version_names_those_there_are(bench: Workbench) -> None:
    with pytest.raises(UnknownVersion, match=re.escape("chicken, beef")):
        mark(replace(demo(EPISODES[0]), version="venison"), bench)


@pytest.mark.property
def test_a_recipe_against_itself_differs_by_exactly_zero(
    bench: Workbench, streams: Streams
) -> None:
    order = demo(EPISODES[0])
    (pair,) = compared([order, replace(order, name="again")], bench, streams).pairs
    assert pair.draws is not None
    assert not pair.draws.any()


@pytest.mark.property
def test_adding_moving_and_editing_lines_leaves_every_other_line_bit_identical(
    bench: Workbench, streams: Streams
) -> None:
    lines = [
        "1 onion",
        "2 onions",
        "250 g red lentils",
        "1 litre vegetable stock",
        "2 tbsp olive oil",
    ]

    def drawn(chosen: list[str]) -> dict[str, bytes]:
        text = "# Soup\n\nServes 4\n\n" + "".join(f"- {line}\n" for line in chosen)
        found = assessed(Order(read_text(text), Kitchen()), bench, streams).footprint
        return {
            found.as_written[part.item.number]: found.item_draws[at].tobytes()
            for at, part in enumerate(found.items)
            if part.item.number is not None
        }

    whole = drawn(lines)
    for changed in (
        lines[::-1],
        [lines[1], lines[0], *lines[2:]],
        ["3 carrots", *lines],
        lines[1:],
        [*lines[:2], "300 g red lentils", *lines[3:]],
    ):
        for line, draws in drawn(changed).items():
            if line in whole:
                assert draws == whole[line], line


@pytest.mark.property
@given(factor=st.floats(0.1, 40))
def test_scaling_servings_scales_ingredients_exactly(factor: float, bench: Workbench) -> None:
    streams = Streams(seed=3, n=100)
    order = demo(EPISODES[0])
    once = mark(order, bench)
    more = mark(replace(order, serves=once.serves * factor), bench)
    for one, other in zip(once.lines, more.lines, strict=True):
        if one.mass is not None and other.mass is not None:
            scale = other.mass.mean / one.mass.mean
            assert scale == pytest.approx(factor, rel=1e-12)
            assert other.mass.draws(streams) == pytest.approx(
                one.mass.draws(streams) * factor, rel=1e-12
            )


@pytest.mark.property
@given(text=st.text(max_size=400))
def test_any_text_gives_a_proof_or_one_clear_error(text: str, bench: Workbench) -> None:
    with suppress(CounterproofError):
        edition = proof(Order(read_text(text), Kitchen()), bench, Streams(seed=1, n=100))
        assert isinstance(edition, Edition)
        assert len(edition.lines) >= 1
