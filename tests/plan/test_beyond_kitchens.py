"""Amounts no kitchen holds end in a mark or in nothing, never in a traceback."""

from __future__ import annotations

import pytest

from counterproof.draws import Streams
from counterproof.recipe.kitchen import Kitchen
from counterproof.recipe.text import read_text
from counterproof.use_cases import Order, Workbench, assessed


@pytest.mark.parametrize("litres", [900, 5_000, 99_999])
def test_a_pond_in_the_fridge_gets_no_verdict_and_no_error(
    litres: int, bench: Workbench, streams: Streams
) -> None:
    text = (
        f"# Pond\n\nServes 4\n\n- {litres} litres vegetable stock\n\n## Method\n\n"
        "1. Simmer for 20 minutes.\n2. Cool, then chill overnight in the fridge.\n"
    )
    found = assessed(Order(read_text(text), Kitchen()), bench, streams)
    assert found.footprint.serving.mean > 0


def test_a_pot_without_water_cannot_simmer(bench: Workbench, streams: Streams) -> None:
    text = (
        "# Sugar\n\nServes 4\n\n- 0 ml water\n- 1 kg sugar\n\n## Method\n\n1. Simmer for 1 hour.\n"
    )
    found = assessed(Order(read_text(text), Kitchen()), bench, streams)
    assert all(step.written.text for step in found.reading.steps)
