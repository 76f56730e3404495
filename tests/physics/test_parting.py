"""Strain, drain, discard: nothing is lost, and solutes go with the liquid."""

from __future__ import annotations

import numpy as np
import pytest

from counterproof.errors import OutOfRange
from counterproof.physics import parting


@pytest.mark.property
def test_straining_loses_nothing_and_solutes_go_with_the_water() -> None:
    # Worked by hand: 1 kg water, 0.5 kg fruit of 90 % water, cake 0.2 kg. Dry matter 0.05 kg, so
    # 0.15 kg of the 1.45 kg water stay: 130/145 of what is dissolved goes through.
    parted = parting.strained(1.0, 0.5, 0.4, moisture=0.9)
    assert parted.served + parted.left == pytest.approx(1.5)
    assert parted.served == pytest.approx(1.3)
    assert parted.solutes_served == pytest.approx(130 / 145)
    assert parted.solutes_left == pytest.approx(15 / 145)
    assert parted.fate == "food waste"


@pytest.mark.property
def test_pressing_harder_gives_more_of_both() -> None:
    stays = np.array([0.6, 0.4, 0.3, 0.15])
    parted = parting.strained(0.8, 0.6, stays)
    assert np.all(np.diff(parted.served) > 0)
    assert np.all(np.diff(parted.solutes_served) > 0)
    assert parting.STAYS["strain"].value > parting.STAYS["squeeze"].value
    rinsed = parting.strained(0.8, 0.6, 0.4, extracted=0.3)
    assert rinsed.solutes_served < parting.strained(0.8, 0.6, 0.4).solutes_served


@pytest.mark.property
def test_draining_keeps_the_balance_and_the_salt_of_what_stays() -> None:
    # Pasta 0.5 kg in 4 kg water: takes up 0.6 kg, 0.088 kg cling; 3.312 kg go down the sink.
    parted = parting.drained(4.0, 0.5, absorbed=1.2, clinging=0.08)
    assert parted.served == pytest.approx(0.5 + 0.6 + 0.088)
    assert parted.left == pytest.approx(3.312)
    assert parted.solutes_served == pytest.approx(0.688 / 4.0)
    assert parted.fate == "sink"


@pytest.mark.published
def test_drained_pasta_and_rice_weigh_what_nutrient_tables_imply() -> None:
    # Cooking yields of dry pasta and long-grain rice, 2.2 to 2.9 times (dry matter 89–91 g against
    # 31–38 g per 100 g, USDA SR28 entries of dry and cooked pasta and rice).
    parted = parting.drained(2.0, 0.25, absorbed=parting.ABSORBED.value)
    assert 2.2 < parted.served / 0.25 < 2.9


@pytest.mark.property
def test_boiling_down_keeps_what_is_dissolved() -> None:
    after = parting.concentrated(0.20, 1.0, 0.5)
    assert after * 0.5 == pytest.approx(0.20)
    with pytest.raises(OutOfRange, match="boil dry"):
        parting.concentrated(0.20, 1.0, 0.8)


def test_discarding_and_impossible_parts() -> None:
    parted = parting.discarded(2.0, 0.25)
    assert (parted.served, parted.left) == (1.5, 0.5)
    with pytest.raises(OutOfRange, match="between 0 and 1"):
        parting.discarded(2.0, 1.2)
    with pytest.raises(OutOfRange, match="More stays"):
        parting.strained(0.0, 1.0, 1.1)
    with pytest.raises(OutOfRange, match="take up more"):
        parting.drained(0.3, 0.5, absorbed=1.2)
    with pytest.raises(OutOfRange, match="Ways"):
        parting.strained(1.0, 0.5, 0.4, way="sift")
    assert parting.strained(1.0, 0.5, 0.05).flags[0].name == "drier-than-dry"
