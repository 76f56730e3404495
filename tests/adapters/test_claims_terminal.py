"""A vetted script in a terminal: every line of the script between its margins."""

from __future__ import annotations

import io

import pytest
from rich.console import Console

from counterproof.adapters.claims_terminal import print_likenesses, print_vetted
from counterproof.adapters.files import demo_season, load_recipe
from counterproof.adapters.kitchens import load_kitchen
from counterproof.draws import Streams
from counterproof.use_cases import Order, Workbench
from counterproof.vetting_cases import Episode, likened_quantity, vetted_script

SCRIPT = """# A green supper

One bowl is
[= one bowl], not 3 kg of CO2e a bowl.

[? this recipe is lower than with beef]
[? the bread is most of one serving]
[= one serving of gravel]
"""


@pytest.fixture(scope="module")
def episode() -> Episode:
    recipe, _ = load_recipe(str(demo_season() / "episodes" / "01-squash-and-bean-stew"))
    return Episode(Order(recipe, load_kitchen(recipe), name=recipe.title), (), ("us",))


def printed(episode: Episode, bench: Workbench, width: int, *, terminal: bool) -> str:
    vetted = vetted_script(SCRIPT, episode, bench, Streams(seed=1, n=500))
    out = io.StringIO()
    print_vetted(vetted, Console(file=out, width=width, force_terminal=terminal, color_system=None))
    return out.getvalue()


@pytest.mark.parametrize(("width", "terminal"), [(140, True), (70, True), (80, False)])
def test_every_line_and_mark_is_printed(
    episode: Episode, bench: Workbench, width: int, terminal: bool
) -> None:
    told = printed(episode, bench, width, terminal=terminal)
    flat = " ".join(told.split())
    assert "A green supper" in told
    assert "2 figures, 2 claims, 1 hold, 1 do not hold" in flat
    assert "CO₂e" in told
    assert "holds: true in" in told
    assert "does not hold" in told
    assert "contradicts" in told
    assert "260.4" in told
    assert max(len(line) for line in told.splitlines()) <= width


def test_a_script_keeps_its_line_numbers(episode: Episode, bench: Workbench) -> None:
    told = printed(episode, bench, 140, terminal=True)
    assert "   8  [= one serving of gravel]" in told


def test_likenesses_carry_conditions_and_source(episode: Episode, bench: Workbench) -> None:
    figure, seen = likened_quantity(
        "0.8kgCO2", episode.order.kitchen, bench, Streams(seed=1, n=100)
    )
    out = io.StringIO()
    print_likenesses("0.8kgCO2", figure, seen, Console(file=out, width=90))
    assert "real-gas equation" in out.getvalue()
    assert out.getvalue().count("Source: ") == len(seen)
