"""Water to a level in the pot: found in the words, solved from solids, pot and packing."""

from __future__ import annotations

from math import pi

import pytest

from counterproof.draws import Lognormal
from counterproof.physics.packing import FINGER, PACKING
from counterproof.plan.covering import Level, level_of
from counterproof.reading.model import MarkedLine
from counterproof.recipe.kitchen import Kitchen, Vessel
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, mark


def water_for(
    bench: Workbench,
    line: str,
    solids: str = "1 kg potatoes, peeled weight",
    kitchen: Kitchen | None = None,
    serves: float | None = None,
) -> MarkedLine:
    text = (
        f"# Dish\n\nServes 4\n\n- {solids}\n- {line}\n\n## Method\n\n"
        "1. Put the potatoes in a pot with the water and simmer for 20 minutes.\n"
    )
    order = Order(read_text(text), kitchen or Kitchen(), serves=serves)
    return mark(order, bench).lines[-1]


@pytest.mark.parametrize(
    ("text", "level"),
    [
        ("Water to cover", Level(1.0, FINGER.value, FINGER.spread)),
        ("cold water, to cover by 2 cm", Level(1.0, 0.02, 0.15)),
        ("water to cover by an inch", Level(1.0, 0.0254, 0.15)),
        ("water to twice the depth of the fruit", Level(2.0)),
        ("water, to cover by as much again", Level(2.0)),
        ("stock to come halfway up", Level(0.5)),
        ("1 litre water", None),
    ],
)
def test_a_level_is_found_in_the_words(text: str, level: Level | None) -> None:
    assert level_of(text) == level


def test_twice_the_depth_is_solved_by_hand(bench: Workbench) -> None:
    # 1 kg of potatoes of about 1.08 kg/L is 0.93 L; at 0.58 they stand 1.6 L high. To twice that
    # 3.2 L, less the potatoes: 2.27 L of water.
    line = water_for(bench, "water to twice the depth of the potatoes")
    assert line.mass is not None
    assert line.mass.mean == pytest.approx(0.93 * (2 / PACKING.value - 1), rel=0.03)
    assert line.purchased == line.mass


def test_the_mass_is_wide_and_its_mark_a_note(bench: Workbench) -> None:
    line = water_for(bench, "water to cover")
    assert [(mark.level, mark.kind) for mark in line.marks] == [("note", "level-in-the-pot")]
    assert line.mass is not None
    (parameter,) = line.mass.parameters
    assert isinstance(parameter.distribution, Lognormal)
    assert 0.2 < parameter.distribution.sigma < 0.5
    assert "safe" not in line.marks[0].message.lower()


def test_the_cooks_own_pot_decides_what_stands_over_the_solids(bench: Workbench) -> None:
    def over(diameter: float) -> float:
        kitchen = Kitchen(vessels=(Vessel("pan", 6.0, diameter, 1.0),))
        high, low = (
            water_for(bench, f"water to cover by {cm} cm", kitchen=kitchen).mass for cm in (4, 2)
        )
        assert high is not None
        assert low is not None
        return high.mean - low.mean

    assert over(0.20) == pytest.approx(pi / 4 * 0.20**2 * 0.02 * 998, rel=0.01)
    assert over(0.28) / over(0.20) == pytest.approx((0.28 / 0.20) ** 2, rel=1e-6)


def test_scaling_stays_exact(bench: Workbench) -> None:
    one, two = (water_for(bench, "water to cover", serves=n).mass for n in (4, 8))
    assert one is not None
    assert two is not None
    assert two.mean == pytest.approx(2 * one.mean, rel=1e-12)
    assert two.parameters == one.parameters


def test_a_stated_amount_stands(bench: Workbench) -> None:
    line = water_for(bench, "2 litres water, to cover")
    assert not any(mark.kind == "level-in-the-pot" for mark in line.marks)


def test_without_solids_the_doubt_of_reading_stays(bench: Workbench) -> None:
    line = water_for(bench, "water to cover", solids="1 tsp salt")
    assert [mark.kind for mark in line.marks] == ["to-cover"]
